"""What a ratio does on the road and to the parts: numbers by key, for one filling of the machine.

Works on floats, on arrays (ratios along the first axis, samples along the last) and on traced
floats alike; it only hands values from formula to formula.
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.driveline import orders, tooth_counts
from axlewright.mechanics.sizes import bore_of_tube
from axlewright.mechanics.whirl import critical_speed, share_of_critical
from axlewright.quantities.formula import Num, greatest
from axlewright.studies.path import Path, evaluate
from axlewright.vehicle import gearing
from axlewright.vehicle.road_load import top_speed_in_gear
from axlewright.vehicle.tire import engine_speed_on_road, road_speed


@dataclass(frozen=True)
class Number:
    """A number with what it means and its dimension."""

    means: str
    dimension: str
    value: Num


Numbers = dict[str, Number]


@dataclass(frozen=True)
class Filled:
    """A machine and what it launches with, filled alike, and the curve as one shape."""

    machine: Machine[Num]
    launching: Launching[Num]
    torques: tuple[Num, ...]
    speeds: tuple[Num, ...]


def filled(machine: Machine[Num], launching: Launching[Num]) -> Filled:
    """Bring the points of the torque curve to one shape; traced points stay as they are."""
    points = (*launching.curve.speeds, *launching.curve.torques)
    if any(isinstance(p, np.ndarray) for p in points):
        points = tuple(np.broadcast_arrays(*points))
    count = len(launching.curve.speeds)
    return Filled(machine, launching, points[count:], points[:count])


def road_numbers(x: Filled, speeds: Sequence[tuple[str, str, Num]]) -> Numbers:
    """Speeds, shifts, noise and top speed; ``speeds`` are key, text and value of each asked."""
    m = x.machine
    first = gearing.overall_ratio(m.gearbox.ratios[0], m.gears.ratio)
    found: Numbers = {
        "ratio": Number("Axle ratio", "ratio", m.gears.ratio),
        "overall_first": Number("Engine turns for one of the wheels, first gear", "ratio", first),
    }
    found |= _teeth(m)
    found |= _shifts(x)
    for key, text, value in speeds:
        found |= _at_speed(x, key, text, value)
    return found | _fastest(x)


def _teeth(m: Machine[Num]) -> Numbers:
    g = m.gears
    common = tooth_counts.common_teeth(g.ring_teeth, g.pinion_teeth)
    turns = tooth_counts.turns_until_all_met(g.pinion_teeth, common)
    partners = tooth_counts.partners(g.ring_teeth, common)
    return {
        "common_teeth": Number("Greatest number that divides both tooth counts", "count", common),
        "turns_until_all_met": Number("Ring turns until all pairs have met", "count", turns),
        "partners": Number("Ring teeth that one pinion tooth meets", "count", partners),
    }


def _shifts(x: Filled) -> Numbers:
    m, at = x.machine, x.launching.driver.shift_speed
    found: Numbers = {}
    for n, (gear, after) in enumerate(pairwise(m.gearbox.ratios), start=1):
        where = f"shift from gear {n} to {n + 1}"
        found[f"shift_road_speed_{n}"] = Number(
            f"Road speed at the {where}", "speed",
            road_speed(at, gear, m.gears.ratio, x.launching.tire.radius),
        )  # fmt: skip
        found[f"after_shift_{n}"] = Number(
            f"Engine speed after the {where}", "rotation",
            gearing.speed_after_shift(at, gear, after),
        )  # fmt: skip
        found[f"shift_drop_{n}"] = Number(
            f"Fall of engine speed at the {where}", "rotation", gearing.shift_drop(at, gear, after)
        )
    return found


def _at_speed(x: Filled, key: str, text: str, speed: Num) -> Numbers:
    m, radius = x.machine, x.launching.tire.radius
    found: Numbers = {}
    for n, gear in enumerate(m.gearbox.ratios, start=1):
        found[f"engine_{key}_gear_{n}"] = Number(
            f"Engine speed at {text} in gear {n}", "rotation",
            engine_speed_on_road(speed, gear, m.gears.ratio, radius),
        )  # fmt: skip
    shaft = gearing.driveshaft_speed_on_road(speed, m.gears.ratio, radius)
    noise = {
        "wheel": ("Wheel turns", gearing.wheel_speed_on_road(speed, radius)),
        "shaft": ("Driveshaft turns", shaft),
        "joint": ("Universal joints, twice a turn", orders.joint_rate(shaft)),
        "mesh": ("Gear mesh", orders.mesh_rate(shaft, m.gears.pinion_teeth)),
    }
    return found | {
        f"{part}_{key}": Number(f"{words} at {text}", "rotation", value)
        for part, (words, value) in noise.items()
    }


def top_speeds(x: Filled) -> dict[int, Num]:
    """Highest speed that each gear holds, by gear."""
    m, body = x.machine, x.launching.body
    through = gearing.driveline_efficiency(m.gearbox.efficiency, m.gears.efficiency)
    return {
        n: top_speed_in_gear(
            x.speeds, x.torques, m.engine.rev_limit, gear, m.gears.ratio, through,
            x.launching.tire.radius, body.air_drag, m.car.mass, m.use.rolling,
        )
        for n, gear in enumerate(m.gearbox.ratios, start=1)
    }  # fmt: skip


def _fastest(x: Filled) -> Numbers:
    m, radius, d = x.machine, x.launching.tire.radius, x.machine.driveshaft
    held = top_speeds(x)
    top = greatest("top speed", "v_max", "speed", **{f"gear_{n}": v for n, v in held.items()})
    shaft = gearing.driveshaft_speed_on_road(top, m.gears.ratio, radius)
    bore = bore_of_tube(d.tube_diameter, d.tube_wall)
    whips = critical_speed(d.youngs_modulus, d.density, d.tube_diameter, bore, d.length)
    found = {
        "top_speed": Number("Top speed on the level", "speed", top),
        "shaft_at_top": Number("Driveshaft at top speed", "rotation", shaft),
        "whip_speed": Number("Driveshaft whips at", "rotation", whips),
        "whip_share": Number(
            "Driveshaft at top speed over its whip speed", "ratio", share_of_critical(shaft, whips)
        ),
        "whip_allowed": Number("Share of the whip speed that is safe", "ratio", d.critical_share),
    }
    for n, gear in enumerate(m.gearbox.ratios, start=1):
        found[f"limiter_gear_{n}"] = Number(
            f"Road speed at the rev limit in gear {n}", "speed",
            road_speed(m.engine.rev_limit, gear, m.gears.ratio, radius),
        )  # fmt: skip
        found[f"held_gear_{n}"] = Number(
            f"Highest speed that gear {n} holds on the level", "speed", held[n]
        )
    return found


def strength_numbers(path: Path) -> Numbers:
    """Margins against breaking, and what the first gear brings to the ring gear."""
    first = path.demand.gears[0]
    by_link = breaking_margins(path)
    return {
        "ring_torque": Number(
            "Steady ring-gear torque in first gear", "torque", first.torques["ring"]
        ),
        "driveshaft_torque": Number(
            "Steady driveshaft torque in first gear", "torque", first.torques["driveshaft"]
        ),
        "grip_torque": Number(
            "Ring-gear torque at which the tires spin", "torque", path.demand.standing.ring_at_grip
        ),
        "gear_margin": Number(
            "Ring and pinion: margin before a tooth breaks", "ratio", by_link["gear_set"]
        ),
        "weakest_margin": Number("Margin of the weakest link", "ratio", smallest(by_link.values())),
    }


def breaking_margins(path: Path) -> dict[str, Num]:
    """The least margin against breaking of each link that can break, by its name."""
    found: dict[str, Num] = {}
    for i, link in enumerate(path.links):
        of_link = [
            m
            for j, limit in enumerate(link.limits)
            if limit.kind == "breaks"
            for m in (path.margins[i][j].values() if path.margins else (path.least[i][j],))
        ]
        if of_link:
            found[link.name] = smallest(of_link)
    return found


def smallest(values: Iterable[Num]) -> Num:
    """The least of several; among floats the very one, with its working."""
    several = list(values)
    if all(isinstance(v, float) for v in several):
        return min(several, key=float)
    return functools.reduce(np.minimum, several)


def numbers(
    x: Filled, speeds: Sequence[tuple[str, str, Num]], by_case: bool
) -> tuple[Numbers, Path]:
    """Every number of the study that is no run, and the load path behind the margins."""
    path = evaluate(x.machine, by_case=by_case)
    return road_numbers(x, speeds) | strength_numbers(path), path
