"""The working of the ratio study's numbers, and the saw-tooth curves, one option at a time."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Plain
from axlewright.quantities.formula import Num
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies.demand import standing
from axlewright.studies.ratio import speed_leaf
from axlewright.studies.ratio_ask import Ask, TeethAsked, TireAsked
from axlewright.studies.ratio_fill import alone, with_teeth, with_tire
from axlewright.studies.ratio_heat import heat_numbers
from axlewright.studies.ratio_report import GearCurve, SawTooth
from axlewright.studies.ratio_road import Filled, numbers, top_speeds
from axlewright.studies.ratio_times import time_numbers
from axlewright.vehicle import gearing
from axlewright.vehicle.engine import axle_torque, torque_at_speed
from axlewright.vehicle.grip import ring_torque
from axlewright.vehicle.road_load import road_load
from axlewright.vehicle.tire import road_speed

_POINTS = 48


def option_of(ask: Ask, name: str) -> tuple[TeethAsked, TireAsked]:
    """The pair and the tire of an option's name, ``teeth@tire``; raises :class:`LookupError`."""
    for teeth in ask.teeth:
        for tire in ask.tires:
            if f"{teeth.text}@{tire.text}" == name:
                return teeth, tire
    raise LookupError(f"there is no {name!r} among what is compared")


def option_nodes(build: Resolved, ask: Ask, name: str) -> dict[str, Node]:
    """The working behind every number of one option, by id."""
    teeth, tire = option_of(ask, name)
    built = with_teeth(with_tire(build, tire), teeth)
    filler = Nominal()
    with tracing():
        side = alone(built, filler)
        speeds = [(s.key, s.text, filler.fill(speed_leaf(s))) for s in ask.speeds]
        found, _ = numbers(side.filled, speeds, by_case=True)
        found |= heat_numbers(side.filled, side.heat, side.driving, speeds[-1][2])
    nodes = {
        f"{key}@{name}": n.value.node for key, n in found.items() if isinstance(n.value, Traced)
    }
    return nodes | _times(built, side.filled, name)


def _times(built: Resolved, x: Filled, name: str) -> dict[str, Node]:
    """Runs are marched in time: their working shows what they were marched with."""
    m, at = x.machine, x.launching
    told: dict[str, Num] = {
        "engine torque": m.engine.torque,
        "mass of the car": m.car.mass,
        "axle ratio": m.gears.ratio,
        "first gear": m.gearbox.ratios[0],
        "tire radius": at.tire.radius,
        "tire grip": at.tire.grip,
        "shift speed": at.driver.shift_speed,
        "shift time": at.driver.shift_time,
        "air drag": at.body.air_drag,
        "rollout": at.driver.rollout,
    }
    arguments = {k: v.node if isinstance(v, Traced) else v for k, v in told.items()}
    return {
        f"{key}@{name}": Node(
            "simulation", f"{n.means}: marched in time at the nominal values", "", n.dimension,
            float(n.value), arguments,
        )
        for key, n in time_numbers(alone(built, Plain())).items()
    }  # fmt: skip


def saw_tooth(build: Resolved, ask: Ask, name: str) -> SawTooth:
    """Curves of one option at the nominal values."""
    teeth, tire = option_of(ask, name)
    built = with_teeth(with_tire(build, tire), teeth)
    x = alone(built, Plain()).filled
    m, radius = x.machine, x.launching.tire.radius
    car = standing(m)
    gears = tuple(_gear(x, n, car.efficiency) for n in range(1, len(m.gearbox.ratios) + 1))
    top = max(float(v) for v in top_speeds(x).values())
    far = np.linspace(0.0, max(g.speeds[-1] for g in gears), _POINTS)
    load = ring_torque(road_load(far, x.launching.body.air_drag, m.car.mass, m.use.rolling), radius)
    at = x.launching.driver.shift_speed
    shifts = tuple(
        (
            float(road_speed(at, gear, m.gears.ratio, radius)),
            float(at),
            float(gearing.speed_after_shift(at, gear, after)),
        )
        for gear, after in pairwise(m.gearbox.ratios)
    )
    return SawTooth(
        f"{teeth.text} on {tire.text}: torque at the wheels by gear, and engine speed",
        gears, _floats(far), _floats(load), float(car.ring_at_grip), shifts, top,
        float(m.engine.rev_limit),
    )  # fmt: skip


def _gear(x: Filled, gear: int, efficiency: Num) -> GearCurve:
    m = x.machine
    ratio = m.gearbox.ratios[gear - 1]
    turns = np.linspace(float(x.speeds[0]), float(m.engine.rev_limit), _POINTS)
    return GearCurve(
        gear,
        _floats(road_speed(turns, ratio, m.gears.ratio, x.launching.tire.radius)),
        _floats(
            axle_torque(
                torque_at_speed(turns, x.speeds, x.torques), ratio, m.gears.ratio, efficiency
            )
        ),
        _floats(turns),
    )


def _floats(values: Num | Sequence[float]) -> tuple[float, ...]:
    return tuple(float(v) for v in np.asarray(values))
