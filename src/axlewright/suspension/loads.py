"""What tires and driveshaft do to the axle at launch, in braking and in a bend.

The axle with its wheels, gears and shafts is one body here: only the road, the driveshaft and its
weight act on it from outside.  Shafts, gears and brakes pass on what lies in between.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.linkage import spot
from axlewright.suspension.pose import Load, Pose

_DOWN = np.array([0.0, 0.0, -1.0])


def tire_load(
    pose: Pose,
    left: ArrayLike,
    right: ArrayLike,
    tire_radius: Num,
    driveshaft_torque: Num = 0.0,
    pinion: ArrayLike = (1.0, 0.0, 0.0),
    axle_weight: Num = 0.0,
) -> Load:
    """Forces of the road on both tires (x, y, z in N), driveshaft torque and weight, as one load.

    ``pinion`` points forward along the pinion at ride height.  A driveshaft torque above zero is
    that of a launch with the usual engine, which turns clockwise seen from ahead: it presses the
    left tire down.  The weight is taken to act half way between the wheels.
    """
    below = np.asarray(tire_radius, dtype=np.float64)[..., None] * _DOWN
    half = 0.5 * (pose.place(pose.linkage.wheels.left) - pose.place(pose.linkage.wheels.right))
    forces = spot(left), spot(right)
    moment = np.cross(half + below, forces[0]) + np.cross(below - half, forces[1])
    axis = spot(pinion)
    axis = pose.turn(axis / np.sqrt(np.sum(axis * axis, axis=-1, keepdims=True)))
    torque = np.asarray(driveshaft_torque, dtype=np.float64)[..., None]
    weight = np.asarray(axle_weight, dtype=np.float64)[..., None]
    return Load(forces[0] + forces[1] + weight * _DOWN, moment - torque * axis)


def launch_load(
    pose: Pose,
    thrust: Num,
    tire_radius: Num,
    axle_ratio: Num,
    left_load: Num = 0.0,
    right_load: Num = 0.0,
    pinion: ArrayLike = (1.0, 0.0, 0.0),
) -> Load:
    """Both tires push alike; the driveshaft turns with thrust times tire radius over axle ratio.

    ``left_load`` and ``right_load`` are what the road carries of each tire; left at zero, springs
    come out as changes from standing still.
    """
    each = 0.5 * np.asarray(thrust, dtype=np.float64)
    return tire_load(
        pose, vector(each, 0.0, left_load), vector(each, 0.0, right_load), tire_radius,
        thrust * tire_radius / axle_ratio, pinion,
    )  # fmt: skip


def braking_load(
    pose: Pose, braking: Num, tire_radius: Num, left_load: Num = 0.0, right_load: Num = 0.0
) -> Load:
    """Both rear tires brake alike, with the brakes on the axle and the clutch open."""
    each = -0.5 * np.asarray(braking, dtype=np.float64)
    return tire_load(pose, vector(each, 0.0, left_load), vector(each, 0.0, right_load), tire_radius)


def cornering_load(
    pose: Pose, side_force: Num, tire_radius: Num, left_load: Num, right_load: Num
) -> Load:
    """A side force to the left (a bend to the left), shared by the tires as they are loaded."""
    both = np.asarray(left_load, dtype=np.float64) + right_load
    sides = [np.asarray(side_force) * load / both for load in (left_load, right_load)]
    return tire_load(
        pose, vector(0.0, sides[0], left_load), vector(0.0, sides[1], right_load), tire_radius
    )


def vector(x: Num, y: Num, z: Num) -> Array:
    """Three numbers, or arrays of them, with x, y, z on the last axis."""
    return np.stack(np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in (x, y, z))), -1)
