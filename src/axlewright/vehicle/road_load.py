"""What holds a car back on a level road, and how fast it goes before that is all it can push.

Air drag grows with the square of speed, rolling resistance is taken as a share of the weight.
Follows the road load of Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), chapter 4.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright.quantities.formula import Array, Num, formula
from axlewright.vehicle.engine import piecewise_linear

_ROAD = "Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 4 (from memory)"


@formula(
    "F_rl",
    "force",
    source=_ROAD,
    valid={"rolling_share": (0.005, 0.05)},
    outside="a car tire on a firm road rolls between half and five percent of the weight",
)
def road_load(road_speed: Num, road_drag: Num, vehicle_mass: Num, rolling_share: Num) -> Num:
    """Push that holds a speed on a level road: air drag and rolling resistance."""
    return road_drag * road_speed * road_speed + 9.80665 * vehicle_mass * rolling_share


@formula(
    "v_g",
    "speed",
    source="torque curve of straight lines against road load, each piece solved as a quadratic "
    "(derived)",
    kind="solve",
)
def top_speed_in_gear(
    speed_points: Sequence[Num] | Array,
    torque_points: Sequence[Num] | Array,
    highest_engine_speed: Num,
    gear_ratio: Num,
    axle_ratio: Num,
    driveline_efficiency: Num,
    tire_radius: Num,
    road_drag: Num,
    vehicle_mass: Num,
    rolling_share: Num,
) -> Num:
    """Highest speed that a gear holds on a level road, up to the highest engine speed.

    Nothing slips (a converter is taken as locked).  On a piece of the curve the spare push is a
    straight line less a parabola, so its upper root is the speed at which the piece gives out;
    the highest piece that has one counts.  The curve is held flat beyond its ends, and a gear that
    cannot hold the car at any speed of its engine gives zero.
    """
    turns = gear_ratio * axle_ratio / tire_radius
    push = driveline_efficiency * turns
    drag = road_drag / (turns * turns)
    rolling = 9.80665 * vehicle_mass * rolling_share
    speeds, torques = _knots(speed_points, torque_points, highest_engine_speed)
    width = np.diff(speeds, axis=0)
    rise = np.diff(torques, axis=0) / np.where(width > 0.0, width, np.inf)
    depth = max(np.ndim(push + drag + rolling), speeds.ndim - 1)
    first = torques[:-1] - rise * speeds[:-1]
    starts, ends, rise, first, last = _lifted(
        depth, speeds[:-1], speeds[1:], rise, first, torques[1:]
    )
    slope = push * rise
    inside = slope * slope + 4.0 * drag * (push * first - rolling)
    root = (slope + np.sqrt(np.maximum(inside, 0.0))) / (2.0 * drag)
    held = push * last - drag * (ends * ends) >= rolling
    found = (inside >= 0.0) & (root >= starts) & (root <= ends)
    best = np.max(np.where(held, ends, np.where(found, root, 0.0)), axis=0)
    result: Num = (best / turns)[()]
    return result


def _knots(
    speed_points: Sequence[Num] | Array, torque_points: Sequence[Num] | Array, limit: Num
) -> tuple[Array, Array]:
    """The curve from rest to the limit as knots along the first axis, all of one shape."""
    speeds, torques = np.stack([*speed_points]), np.stack([*torque_points])
    shape = np.broadcast_shapes(speeds.shape[1:], torques.shape[1:], np.shape(limit))
    speeds, torques = (
        np.broadcast_to(x.reshape(x.shape[0], *(1,) * (len(shape) + 1 - x.ndim), *x.shape[1:]),
                        (x.shape[0], *shape))
        for x in (speeds, torques)
    )  # fmt: skip
    end = np.broadcast_to(limit, (1, *shape))
    at_end = np.broadcast_to(piecewise_linear(limit, speed_points, torque_points), (1, *shape))
    return (
        np.concatenate([np.zeros((1, *shape)), np.minimum(speeds, end), end]),
        np.concatenate([torques[:1], np.where(speeds <= end, torques, at_end), at_end]),
    )


def _lifted(depth: int, *knots: Array) -> tuple[Array, ...]:
    """The same with room for the axes of what they meet, between knots and samples."""
    return tuple(x.reshape(x.shape[0], *(1,) * (depth + 1 - x.ndim), *x.shape[1:]) for x in knots)
