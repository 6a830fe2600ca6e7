"""The line over the travel of both wheels, one car: angles, length, anti-squat, roll center."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.studies import angles_moves as moves
from axlewright.studies.angles_fill import Filled
from axlewright.studies.angles_linkage import axle_height
from axlewright.studies.angles_numbers import Found
from axlewright.studies.angles_report import Sweep
from axlewright.studies.angles_states import pulling
from axlewright.suspension.motion import roll_view_of, side_view_of
from axlewright.suspension.pose import Pose, solve_pose

STEPS = 33
_USUAL = 0.0762
"""Travel each way where nobody measured it, m."""


def travel_of(x: Filled) -> Array:
    """Heights of the axle from full droop to full bump, ride height among them."""
    car = x.fitting.car
    bump, droop = (_USUAL if t is None else float(t) for t in (car.bump, car.droop))
    below = np.linspace(-droop, 0.0, STEPS // 2 + 1)
    return np.concatenate([below[:-1], np.linspace(0.0, bump, STEPS // 2 + 1)])


def sweep(x: Filled, f: Found) -> Sweep:
    """Everything at each height; without links the axle goes straight up and down."""
    travel = travel_of(x)
    how = pulling(x, f.numbers["rise"].value)
    rest = next(s for s in f.states if s.key == "set")
    if f.axle is None:
        s = moves.lifted(f.line, rest, "travel", "Travel", travel, how.top, how.phase)
        return _told(travel, s, (), (), ())
    pose = solve_pose(f.axle.linkage, travel, travel)
    s = moves.posed(f.line, rest, "travel", "Travel", pose, how.top, how.phase)
    return _told(travel, s, *_axle(x, pose))


def _axle(x: Filled, pose: Pose) -> tuple[Num, Num, Num]:
    m = x.machine
    view = side_view_of(pose)
    roll = roll_view_of(pose, axle_height(x))
    return (
        view.anti_squat(axle_height(x), m.car.cg_height, m.car.wheelbase),
        roll.center_height(axle_height(x)),
        roll.understeer,
    )


def _told(
    travel: Array,
    s: moves.State,
    squat: Num | tuple[()],
    center: Num | tuple[()],
    steer: Num | tuple[()],
) -> Sweep:
    def row(values: Num) -> tuple[float, ...]:
        return tuple(float(v) for v in np.broadcast_to(values, travel.shape))

    def some(values: Num | tuple[()]) -> tuple[float, ...]:
        return () if isinstance(values, tuple) else row(values)

    return Sweep(
        row(travel), row(s.pinion.side), row(s.front_angle), row(s.rear_angle), row(s.length),
        some(squat), some(center), some(steer),
    )  # fmt: skip
