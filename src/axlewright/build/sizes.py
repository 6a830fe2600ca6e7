"""Sizes that the trade writes in a code: tires, tooth counts, studs, ratios, torque curves."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from axlewright.quantities.units import Reading, UnitError, read

_IN = 0.0254


class SizeError(ValueError):
    """A size code that does not read; says what would be right."""


class TireSize(NamedTuple):
    """Section width (m), aspect ratio and rim diameter (m)."""

    section_width: float
    aspect_ratio: float
    rim_diameter: float


class TeethOrRatio(NamedTuple):
    """Axle ratio with tooth counts, if they were given."""

    ratio: Reading
    ring_teeth: int | None
    pinion_teeth: int | None


@dataclass(frozen=True)
class Studs:
    """Number of studs and their thread size."""

    count: int
    size: str


def read_tire(text: str) -> TireSize:
    """Read ``275/60R15``, ``P225/70R14``, or inches ``28x10.5-15`` (diameter x width - rim)."""
    metric = re.fullmatch(
        r"\s*(?:P|LT)?\s*(\d{3})\s*/\s*(\d{2,3})\s*[A-Z]{0,2}?\s*[RDB-]\s*(\d{2}(?:\.\d)?)\b.*",
        text,
        re.IGNORECASE,
    )
    inch = re.fullmatch(
        r"\s*(\d{2}(?:\.\d+)?)\s*[xX×]\s*(\d{1,2}(?:\.\d+)?)\s*[-R]\s*(\d{2})\s*\w*\s*", text
    )
    if metric:
        width, aspect, rim = float(metric[1]) / 1000, float(metric[2]) / 100, float(metric[3]) * _IN
    elif inch:
        outer, width, rim = float(inch[1]) * _IN, float(inch[2]) * _IN, float(inch[3]) * _IN
        aspect = (outer - rim) / (2 * width)
    else:
        raise SizeError(f"{text!r} is no tire size; write it like 275/60R15 or 28x10.5-15")
    if not (0.1 <= width <= 0.6 and 0.15 <= aspect <= 1.2 and 0.2 <= rim <= 0.7):
        raise SizeError(f"{text!r} is no size that a car tire comes in; write it like 275/60R15")
    return TireSize(width, aspect, rim)


def read_teeth(value: str | float | int) -> TeethOrRatio:
    """Read an axle ratio: ``3.73``, or ring and pinion teeth ``41/11``."""
    counts = re.fullmatch(r"\s*(\d{2,3})\s*/\s*(\d{1,2})\s*", str(value))
    if counts:
        ring, pinion = int(counts[1]), int(counts[2])
        if not 5 <= pinion <= 25 or ring <= pinion:
            raise SizeError(f"{value} is no pair of ring and pinion teeth; write it like 41/11")
        exact = read(ring / pinion, "ratio")
        return TeethOrRatio(exact, ring, pinion)
    try:
        ratio = read(value, "ratio")
    except UnitError:
        raise SizeError(f"{value!r} is no axle ratio; write 3.73 or teeth like 41/11") from None
    if not 1.5 <= ratio.low <= ratio.high <= 8.0:
        raise SizeError(f"an axle ratio of {value} cannot be; ring over pinion, like 3.73 or 41/11")
    return TeethOrRatio(ratio, None, None)


def read_ratios(values: list[str | float]) -> tuple[Reading, ...]:
    """Read gearbox ratios, first gear first."""
    if not values:
        raise SizeError("give at least the first gear, like [2.97, 2.07, 1.43, 1.00]")
    try:
        ratios = tuple(read(v, "ratio") for v in values)
    except UnitError as e:
        raise SizeError(str(e)) from None
    if any(not 0.3 <= r.value <= 8.0 for r in ratios):
        raise SizeError("a gearbox ratio lies between 0.3 and 8")
    if any(a.value <= b.value for a, b in pairwise(ratios)):
        raise SizeError("ratios must fall from first gear to top, like [2.97, 2.07, 1.43, 1.00]")
    return ratios


def read_curve(points: list[tuple[str, str]]) -> tuple[tuple[float, float], ...]:
    """Read a torque curve as pairs of speed (rad/s) and torque (N·m)."""
    try:
        curve = tuple((read(s, "rotation").value, read(t, "torque").value) for s, t in points)
    except UnitError as e:
        raise SizeError(str(e)) from None
    if len(curve) < 2:
        raise SizeError("a curve needs at least two points")
    if curve[0][0] <= 0.0:
        raise SizeError("engine speeds on the curve must be above zero")
    if any(a[0] >= b[0] for a, b in pairwise(curve)):
        raise SizeError("engine speeds must rise from point to point")
    if any(t <= 0 for _, t in curve):
        raise SizeError("torque on the curve must be above zero")
    return curve


def read_studs(text: str) -> Studs:
    """Read ``5 x 1/2-20`` or ``5 x M12x1.5``."""
    found = re.fullmatch(r"\s*(\d{1,2})\s*[xX×]\s*(\S.*?)\s*", text)
    if not found or not 3 <= int(found[1]) <= 12:
        raise SizeError(f"{text!r} is no stud pattern; write it like 5 x 1/2-20")
    return Studs(int(found[1]), found[2])
