"""Who measures: a careful person with usual tools, and the mistakes that people make.

Apart from the program under test: it knows neither its tools' limits nor its rules.  Each reading
has an error common to its repeats (where the hook, the bob or the gauge sits), one that is new each
time, and is rounded as people round.  Common to the whole car are the tape's own scale, the middle
line and axle line chalked on the floor, and what is left of the gauge's zero error.

Sizes are assumptions, from memory and practice: a tape of class II may be off by 0.7 mm in two
meters, a shop gauge by 0.1 to 0.2 degree before it is turned end for end.  They were set before
anything was compared, but for two that a first look showed to be modelled wrongly: half a
difference of two readings is rounded to half a division, and micrometers are no calipers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

Written = dict[str, list[float]]
"""Repeats by key; points by key and axis."""


@dataclass(frozen=True)
class Way:
    """A way of measuring: standard deviations, inches or degrees, and what it is rounded to."""

    common: float
    each: float
    rounded: float
    repeats: int


RULE = Way(0.010, 0.015, 1 / 16, 3)
SQUARE = Way(0.012, 0.015, 1 / 16, 3)
TAPE = Way(0.020, 0.020, 1 / 16, 3)
BAR = Way(0.015, 0.015, 1 / 16, 3)
PLUMB = Way(0.030, 0.025, 1 / 16, 3)
GRID = Way(0.030, 0.030, 1 / 16, 2)
TRAVEL = Way(0.030, 0.030, 1 / 16, 2)
CALIPER = Way(0.0010, 0.0010, 0.001, 2)
MICROMETER = Way(0.0003, 0.0003, 0.0005, 2)
STAMP = Way(0.012, 0.0, 0.001, 1)
GAUGE = Way(0.050, 0.070, 0.1, 3)
CAMERA = Way(0.150, 0.100, 0.1, 2)
PLAN = Way(0.080, 0.060, 0.1, 2)
HALVED = Way(0.009, 0.011, 1 / 32, 3)
"""Half of the difference of two squared readings: half of each error, over the root of two."""
TAPE_SCALE = 2e-4
FLOOR_LINES = 0.02
GAUGE_ZERO = 0.03

_ANGLES = {
    "angles.pinion_loaded": CAMERA, "angles.pinion_rise": CAMERA, "angles.gearbox_plan": PLAN,
    "angles.pinion_plan": PLAN, "angles.gauge_zero": GAUGE, "angles.floor": GAUGE,
    "angles.gearbox": GAUGE, "angles.driveshaft": GAUGE, "angles.pinion": GAUGE,
    "angles.phase": GAUGE,
}  # fmt: skip
_LENGTHS = (
    (TAPE, "fit.face_to_face fit.bare_to_bare fit.end_to_end fit.lip_to_lip fit.inner_to_inner"
           " fit.rail_to_rail angles.joint_to_joint angles.seal_to_joint tunnel.ahead"),
    (RULE, "fit.floor_gap fit.tank_gap fit.exhaust_gap fit.stop_gap fit.hose_slack"
           " wheel.rim_width wheel.backspace wheel.section wheel.loaded_bulge wheel.diameter"
           " wheel.tread_width wheel.lip_height wheel.inner_radius wheel.loaded_radius"
           " ends.caliper_radius ends.access_radius centre.shaft_spline"
           " slip.bottomed_reach slip.reach slip.gap slip.spline_length"
           " centre.fill_hole_up"),
    (BAR, "centre.end_to_end centre.left_half centre.right_half"),
    (HALVED, "centre.pinion_left centre.differential_left"),
    (SQUARE, "centre.nose centre.height_above centre.depth_behind centre.fill_hole_behind"
             " centre.bearing_ahead ends.caliper_face"),
    (GRID, "angles.gearbox_left angles.pinion_left angles.gearbox_height angles.pinion_height"),
    (TRAVEL, "fit.bump fit.droop"),
    (STAMP, "wheel.offset wheel.measuring_rim wheel.rim_diameter"),
    (MICROMETER, "ends.gasket ends.rotor_thickness centre.shaft_float"),
)  # fmt: skip
_KEYS = _ANGLES | {key: way for way, keys in _LENGTHS for key in keys.split()}
_BESIDE = {
    "lip": PLUMB, "lip_at_bump": PLUMB, "rail": PLUMB, "pinion": PLUMB, "seat": PLUMB,
    "inner_ahead": PLUMB, "inner": SQUARE, "inner_at_bump": SQUARE, "shock": SQUARE,
    "housing_end": SQUARE, "differential": TAPE,
}  # fmt: skip


def way_of(key: str) -> Way:
    """How a key is read."""
    table, _, name = key.rpartition(".")
    if key in _KEYS:
        return _KEYS[key]
    if table.startswith("points"):
        return GRID
    if table in {"fit.left", "fit.right"}:
        return _BESIDE.get(name, RULE)
    return RULE if table in {"tunnel", "brakes"} else CALIPER


class Measurer:
    """One person on one day: a seed."""

    def __init__(self, seed: int, haste: float = 1.0, repeats: bool = True) -> None:
        self.rng = np.random.default_rng(seed)
        self.haste = haste
        self.repeats = repeats
        self.scale = self.rng.normal(0.0, TAPE_SCALE)
        self.lines = dict(
            zip(("forward", "left", "up"), self.rng.normal(0.0, FLOOR_LINES, 3), strict=True)
        )
        self.zero = self.rng.normal(0.0, GAUGE_ZERO)

    def read(self, key: str, truth: float) -> list[float]:
        """Repeats of one reading."""
        way = way_of(key)
        if truth == 0.0 and way is CALIPER:
            return [0.0]  # there is no such part
        true = truth + self._shared(key, truth, way)
        true += self.rng.normal(0.0, self.haste * way.common)
        count = way.repeats if self.repeats else 1
        seen = true + self.rng.normal(0.0, self.haste * way.each, count)
        return [round(float(s) / way.rounded) * way.rounded for s in seen]

    def _shared(self, key: str, truth: float, way: Way) -> float:
        """What a whole car's readings have in common."""
        if key in _ANGLES:
            return float(self.haste * self.zero) if way is GAUGE else 0.0
        if way is GRID:
            axis = key.rpartition(".")[2]
            axis = axis.removeprefix("gearbox_").removeprefix("pinion_")
            return float(self.lines.get("up" if axis == "height" else axis, 0.0)) + (
                truth * self.scale
            )
        return 0.0 if way in {CALIPER, STAMP} else truth * self.scale

    def all(self, exact: Mapping[str, float]) -> Written:
        """The filled worksheet."""
        return {key: self.read(key, value) for key, value in exact.items()}


@dataclass(frozen=True)
class Blunder:
    """A mistake: by how much each key is off, in every repeat or in the first one alone."""

    what: str
    off: Mapping[str, float]
    once: bool = False

    def made(self, sheet: Written) -> Written:
        """The worksheet with the mistake in it."""
        wrong = dict(sheet)
        for key, by in self.off.items():
            old = sheet[key]
            wrong[key] = [v + (by if n == 0 or not self.once else 0.0) for n, v in enumerate(old)]
        return wrong


def swapped(one: str, other: str, sheet: Written) -> Written:
    """Two readings written in each other's place."""
    return {**sheet, one: sheet[other], other: sheet[one]}


def as_text(sheet: Mapping[str, list[float]]) -> str:
    """The tables of a build file; points are put together from their coordinates."""
    tables: dict[str, list[str]] = {}
    spots: dict[str, dict[str, float]] = {}
    for key, values in sheet.items():
        table, _, name = key.rpartition(".")
        if table.startswith("points."):
            spots.setdefault(table, {})[name] = sum(values) / len(values)
            continue
        unit = "deg" if key in _ANGLES else "in"
        texts = ", ".join(f'"{v:.4f} {unit}"' for v in values)
        tables.setdefault(table, []).append(f"{name} = [{texts}]")
    for point, at in spots.items():
        xyz = ", ".join(f'"{at[a]:.4f} in"' for a in ("forward", "left", "up"))
        tables.setdefault("points", []).append(f"{point.removeprefix('points.')} = [{xyz}]")
    return "\n".join(line for table in sorted(tables) for line in (f"[{table}]", *tables[table]))
