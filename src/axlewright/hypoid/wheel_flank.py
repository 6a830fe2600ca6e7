"""Ring-gear flank as a face-mill cutter leaves it when the ring stands still (form-cut).

The blade's edge sweeps a cone about the cutter's axis, and that cone is the flank: convex where
the inside blades cut (drive), concave where the outside blades do (coast).  The axis stands
square to the root line at the mean point; where it stands and how the blade leans follow from the
spiral and pressure angle that the flank shall have there.  Each flank gets its own place, as if
cut one side at a time; a spread-blade cutter shares one axis, see :func:`axis_gap`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.placement import Pair
from axlewright.quantities.formula import Array

_STEPS = 12
_SOLVED = 1e-13


@dataclass(frozen=True)
class CutterCone:
    """Cone that a blade sweeps: a point of its axis at pitch height, axis, radius there, lean.

    ``outward`` is +1 where the flank looks away from the cutter's axis (inside blade, convex
    flank) and -1 where it looks toward it.
    """

    center: Array
    axis: Array
    radius: float
    blade_angle: float
    outward: int

    def distance(self, points: Array) -> Array:
        """How far points stand off the flank, positive outside the ring's tooth."""
        height, across, _ = self._split(points)
        sin, cos = np.sin(self.blade_angle), np.cos(self.blade_angle)
        return np.asarray(self.outward * (across - self.radius) * cos + height * sin)

    def normal(self, points: Array) -> Array:
        """Normal of the flank out of the ring's tooth, at points on (or near) it."""
        _, across, arm = self._split(points)
        sin, cos = np.sin(self.blade_angle), np.cos(self.blade_angle)
        return np.asarray(self.outward * cos * arm / across + sin * _column(self.axis, arm))

    def _split(self, points: Array) -> tuple[Array, Array, Array]:
        arm = points - _column(self.center, points)
        height = np.tensordot(self.axis, arm, 1)
        arm = arm - height * _column(self.axis, arm)
        return height, np.sqrt(np.sum(arm * arm, axis=0)), arm


def _column(vector: Array, like: Array) -> Array:
    return np.asarray(vector.reshape((3,) + (1,) * (like.ndim - 1)))


def cutter_cone(pair: Pair, pressure_angle: float, side: int) -> CutterCone:
    """Place the cutter so that the flank has its angles at the mean point."""
    g = pair.geometry
    normal = pair.normal(pressure_angle, side)
    lean = pair.depth.root_taper
    axis = np.cos(lean) * pair.above + np.sin(lean) * pair.along
    sine = float(axis @ normal)
    arm = side * (normal - sine * axis)
    arm /= np.linalg.norm(arm)
    # At the pitch line the slot is half a normal pitch wide: the blades stand inside and outside.
    slot = np.pi * g.ring_mean_radius * np.cos(g.ring_mean_spiral) / pair.ring_teeth
    radius = float(pair.cutter_radius - side * 0.5 * slot)
    center = np.asarray(pair.mean_point - radius * arm)
    return CutterCone(center, np.asarray(axis), radius, float(np.arcsin(sine)), side)


def flank_points(pair: Pair, cone: CutterCone, s: Array, h: Array) -> Array:
    """Points (3, …) of the flank in the ring's frame, s along and h above the pitch line."""
    radius, z = pair.ring_section(s, h)
    turn = np.full(np.shape(radius), np.arctan2(pair.mean_point[1], pair.mean_point[0]))
    for _ in range(_STEPS):
        points = np.stack([radius * np.cos(turn), radius * np.sin(turn), z])
        off = cone.distance(points)
        if np.abs(off).max() < _SOLVED:
            return points
        normal = cone.normal(points)
        turn = turn - off / (points[0] * normal[1] - points[1] * normal[0])
    raise ArithmeticError("the cutter does not reach over the whole face of the ring gear")


def axis_gap(pair: Pair, drive: CutterCone, coast: CutterCone) -> float:
    """Distance (m) of both cutter axes when the flanks stand a slot apart, as one cutter cuts them.

    Small against the cutter: the pair is then near one that a spread-blade cutter finishes in one
    cut.  The coast flank is turned back by half a pitch of the ring gear.
    """
    turn = -pair.hand * np.pi / pair.ring_teeth
    cos, sin = np.cos(turn), np.sin(turn)
    turned = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
    gap = drive.center - turned @ coast.center
    gap = gap - (gap @ drive.axis) * drive.axis
    return float(np.linalg.norm(gap))
