"""What is asked of the ratio study: pairs of teeth, tires and road speeds in shop words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.build.sizes import SizeError, TireSize, read_teeth, read_tire
from axlewright.catalogue.load import names_of
from axlewright.catalogue.rows import Tire
from axlewright.driveline.tooth_counts import usual_pairs
from axlewright.quantities.estimate import Estimate, Plain
from axlewright.quantities.units import read, significant
from axlewright.studies.ratio_report import SpeedAsked

MOST_RATIOS, MOST_TIRES, MOST_SPEEDS = 40, 6, 6
SPEEDS = ("35 mph", "60 mph", "70 mph")
"""A town street, a main road, a motorway: asked where nobody asks otherwise."""


T = TypeVar("T", "TeethAsked", "TireAsked")


class AskError(ValueError):
    """A ratio, tire or speed that does not read; says what would be right."""


@dataclass(frozen=True)
class TeethAsked:
    """A pair of teeth; a ratio fitted whose teeth nobody counted is known by its ratio."""

    text: str
    ring: float
    pinion: float
    ratio: float
    counted: bool
    fitted: bool


@dataclass(frozen=True)
class TireAsked:
    """A tire size with its grip class; an empty class leaves the grip as the build has it."""

    text: str
    size: TireSize
    grip_class: str
    fitted: bool


@dataclass(frozen=True)
class Ask:
    """Everything that is compared; the last speed is the cruise speed."""

    teeth: tuple[TeethAsked, ...]
    tires: tuple[TireAsked, ...]
    speeds: tuple[SpeedAsked, ...]


def read_ask(
    build: Resolved,
    ratios: Sequence[str] = (),
    tires: Sequence[str] = (),
    speeds: Sequence[str] = (),
) -> Ask:
    """Read what is asked; what is left out is the usual for the build's ring gear, its own tires.

    The ratio and the tires that the build has are always among them.  Raises :class:`AskError`.
    """
    plain: Machine[float] = Plain().tree(build.machine)
    mine = _fitted(build, plain)
    wanted = [_teeth(t) for t in _several(ratios)] or [
        _teeth(f"{p.ring}/{p.pinion}") for p in usual_pairs(plain.gears.ring_diameter)
    ]
    teeth = _once([mine, *wanted])
    rubber = _once([_fitted_tire(plain), *(_tire(t) for t in _several(tires))])
    asked = {s.key: s for s in (_speed(t) for t in _several(speeds) or SPEEDS)}
    for what, found, most in (
        ("ratios", teeth, MOST_RATIOS), ("tires", rubber, MOST_TIRES),
        ("speeds", asked, MOST_SPEEDS),
    ):  # fmt: skip
        if len(found) > most:
            raise AskError(
                f"{len(found)} {what} at once are too many; up to {most} can be compared"
            )
    order = sorted(teeth.values(), key=lambda t: t.ratio)
    in_order = sorted(asked.values(), key=lambda s: s.value)
    return Ask(tuple(order), tuple(rubber.values()), tuple(in_order))


def _several(texts: Sequence[str]) -> list[str]:
    """Texts that may hold several, parted by commas or lines."""
    return [t.strip() for text in texts for t in re.split(r"[,;\n]", text) if t.strip()]


def _once(found: Sequence[T]) -> dict[str, T]:
    """By text, the first of each."""
    by_text: dict[str, T] = {}
    for one in found:
        by_text.setdefault(one.text, one)
    return by_text


def _fitted(build: Resolved, plain: Machine[float]) -> TeethAsked:
    g = plain.gears
    counted = build.machine.gears.ring_teeth
    known = isinstance(counted, Estimate) and counted.origin == "stated"
    text = f"{g.ring_teeth:.0f}/{g.pinion_teeth:.0f}" if known else significant(g.ratio, 4)
    return TeethAsked(text, g.ring_teeth, g.pinion_teeth, g.ratio, known, fitted=True)


def _teeth(text: str) -> TeethAsked:
    try:
        read_as = read_teeth(text)
    except SizeError as e:
        raise AskError(str(e)) from None
    if read_as.ring_teeth is None or read_as.pinion_teeth is None:
        raise AskError(
            f"{text} is no pair of teeth; write it like 41/11, for a ratio as sold is rounded and"
            " does not tell which teeth meet"
        )
    ring, pinion = read_as.ring_teeth, read_as.pinion_teeth
    if not 1.5 <= ring / pinion <= 8.0:
        raise AskError(f"an axle ratio of {text} cannot be; ring over pinion, like 41/11")
    return TeethAsked(f"{ring}/{pinion}", ring, pinion, ring / pinion, counted=True, fitted=False)


def _fitted_tire(plain: Machine[float]) -> TireAsked:
    t = plain.tires
    size = TireSize(t.section_width, t.aspect_ratio, t.rim_diameter)
    return TireAsked(t.size, size, "", fitted=True)


def _tire(text: str) -> TireAsked:
    words = " ".join(text.split())
    known = next((c for c in names_of(Tire) if words.lower().endswith(f" {c}")), "")
    size = words[: len(words) - len(known)].strip() if known else words
    if not known and " " in words:
        raise AskError(
            f"{text!r} is no tire; write its size, and after it a grip class if it is another: "
            + ", ".join(names_of(Tire))
        )
    try:
        return TireAsked(f"{size} {known}".strip(), read_tire(size), known, fitted=False)
    except SizeError as e:
        raise AskError(str(e)) from None


_UNITS = {"mph": "mph", "kmh": "km/h", "kph": "kph", "ms": "m/s"}


def _speed(text: str) -> SpeedAsked:
    wrong = AskError(f"{text} is no speed of a car; write it like 70 mph or 110 km/h")
    found = re.fullmatch(r"(\d{1,3}(?:\.\d)?)\s*(mph|km/h|kph|m/s)", text.strip().lower())
    if found is None:
        raise wrong
    value = read(f"{found[1]} {found[2]}", "speed").value
    if not 1.0 <= value <= 120.0:
        raise wrong
    key = found[1] + found[2].replace("/", "")
    return SpeedAsked(key, f"{found[1]} {found[2]}", value)


def ask_of(build: Resolved, number: str) -> Ask:
    """The least ask that holds a number's id, ``key@teeth@tire``; raises :class:`AskError`."""
    key, _, option = number.partition("@")
    teeth, _, tire = option.partition("@")
    counted = [teeth] if "/" in teeth else []
    found = re.search(r"_(\d{1,3}(?:\.\d)?)(mph|kmh|kph|ms)(?:_|$)", key)
    speeds = [f"{found[1]} {_UNITS[found[2]]}"] if found else []
    plain: Machine[float] = Plain().tree(build.machine)
    return read_ask(build, counted, [] if tire == plain.tires.size else [tire], speeds)
