"""What travel does to everything else: lengths of shocks and driveshaft, angles, clearances."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.linkage import spot
from axlewright.suspension.pose import Pose


def distance(pose: Pose, body: ArrayLike, axle: ArrayLike) -> Num:
    """Meters from a point of the body to one of the axle: shock, spring, strap, driveshaft."""
    return _size(pose.place(axle) - spot(body))


def lengthening(pose: Pose, body: ArrayLike, axle: ArrayLike) -> Num:
    """Meters by which that distance has grown since ride height.

    Between the joint centers of a driveshaft it is what the slip joint must give: above zero the
    yoke draws out, below zero it goes in.
    """
    measured = _size(spot(axle) - spot(body))
    return (distance(pose, body, axle) - measured)[()]


def pinion_angle(pose: Pose, pinion: ArrayLike = (1.0, 0.0, 0.0)) -> Num:
    """Angle by which the pinion, given by its forward direction, points up from the body."""
    now = pose.turn(pinion)
    return np.arctan2(now[..., 2], np.hypot(now[..., 0], now[..., 1]))[()]


def joint_angle(
    pose: Pose, gearbox_joint: ArrayLike, pinion_joint: ArrayLike, pinion: ArrayLike
) -> Num:
    """Angle between driveshaft and pinion in space: the working angle of the rear joint."""
    shaft = spot(gearbox_joint) - pose.place(pinion_joint)
    return _between(shaft, pose.turn(pinion))


def gearbox_angle(
    pose: Pose, gearbox_joint: ArrayLike, pinion_joint: ArrayLike, output: ArrayLike
) -> Num:
    """Angle between driveshaft and gearbox output; ``output`` points forward along the output."""
    shaft = spot(gearbox_joint) - pose.place(pinion_joint)
    return _between(shaft, spot(output))


def link_angle(pose: Pose, piece: int) -> Num:
    """Angle by which a link has turned in the bracket of the axle since ride height (rod ends)."""
    link = pose.linkage.pieces[piece]
    if link.crank is not None:
        raise ValueError("the end of this link turns with its crank")
    old = spot(link.body) - spot(link.axle)
    return _between(spot(link.body) - pose.place(link.axle), pose.turn(old))


def plane_clearance(pose: Pose, axle: ArrayLike, plane: ArrayLike, away: ArrayLike) -> Num:
    """Meters that a point of the axle stands off a plane of the body.

    ``away`` is square to the plane and points to the side where the axle belongs.
    Below zero the point has gone through.
    """
    normal = spot(away)
    normal = normal / _size(normal)[..., None]
    gap: Num = np.sum((pose.place(axle) - spot(plane)) * normal, axis=-1)[()]
    return gap


def least_clearance(clearances: Num) -> Num:
    """Least over travel, which is the first axis; samples are kept."""
    least: Num = np.min(np.asarray(clearances), axis=0)[()]
    return least


def sideways(pose: Pose) -> Num:
    """Meters by which the middle of the axle has moved to the left since ride height."""
    return (pose.y - pose.shaped(pose.layout.middle)[..., 1])[()]


def fore_aft(pose: Pose) -> Num:
    """Meters by which the middle of the axle has moved forward since ride height."""
    return (pose.x - pose.shaped(pose.layout.middle)[..., 0])[()]


def _size(vector: Array) -> Array:
    result: Array = np.sqrt(np.sum(vector * vector, axis=-1))
    return result


def _between(one: Array, other: Array) -> Num:
    """Angle between two directions; exact for small ones too."""
    angle: Num = np.arctan2(_size(np.cross(one, other)), np.sum(one * other, axis=-1))[()]
    return angle
