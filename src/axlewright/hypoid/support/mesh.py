"""Where the mesh is, which way the tooth force points, and how movement is named.

Frame: origin on the ring gear's axis at the foot of the common perpendicular; x along the pinion
axis away from its apex (toward the tail), y from the ring's to the pinion's axis, z along the
ring's axis away from its apex (toward its back).  Lengths m, forces N.

Movement of the pair is four numbers: E more offset, P pinion out, G ring out (each away from its
apex), Σ a larger shaft angle.  What is left of the relative motion of two bodies turns either
gear about its own axis and moves no pattern.  The driven pinion climbs the ring: E below zero.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from axlewright.hypoid import forces
from axlewright.hypoid.geometry import HypoidGeometry
from axlewright.quantities.formula import Array


class Movement(NamedTuple):
    """Misalignment of the pair: lengths in m, shaft angle in rad."""

    E: float
    P: float
    G: float
    sigma: float


@dataclass(frozen=True)
class ToothLoad:
    """Force on the pinion (N, three) and moment on it about the mean point (N·m, three)."""

    force: Array
    moment: Array


class NoToothLoadError(ArithmeticError):
    """The teeth cannot answer at this movement; the search then tries a shorter step."""


ToothForce = Callable[[float, float, float, float], ToothLoad]
"""Tooth load at a movement E, P, G (m), sigma (rad) from the unloaded place.

What a contact in the loop must keep to: it is given movement and answers with force *on the pinion*
(N, in the frame above) and its moment about the mean point (N·m); the torque is its own affair, so
that force times lever about the ring's axis is the wanted torque.  The same movement gives the same
answer, to about one part in 10,000, and a small movement a small change.  Where it has no answer
it raises :class:`NoToothLoadError`.
"""


@dataclass(frozen=True)
class Mesh:
    """Mean point of the mesh and where the pinion's axis runs."""

    mean_point: Array
    offset: float
    geometry: HypoidGeometry


def mesh_of(geometry: HypoidGeometry, hypoid_offset: float) -> Mesh:
    """Mean point of a pair whose axes stand at 90 degrees, as in every car's rear axle."""
    g = geometry
    eta = g.ring_offset_angle
    point = np.array(
        [
            g.ring_mean_radius * np.cos(g.mesh_angle),
            hypoid_offset - g.pinion_mean_radius * np.sin(eta),
            g.pinion_mean_radius * np.cos(eta),
        ],
        dtype=np.float64,
    )
    if not np.all(np.isfinite(point)):
        raise ValueError("the pitch cones of this pair were not solved")
    if abs(point[1] - g.ring_mean_radius * np.sin(g.mesh_angle)) > 1e-6 * point[0]:
        raise ValueError("offset does not belong to these pitch cones, or the axes are not at 90°")
    return Mesh(point, hypoid_offset, geometry)


def tooth_load(
    mesh: Mesh, pinion_torque: float, flank_pressure_angle: float, flank_side: float
) -> ToothLoad:
    """Tooth load at the mean point without friction; side +1 is drive, -1 coast."""
    g = mesh.geometry
    Ft = pinion_torque / g.pinion_mean_radius
    of_flank = (g.pinion_mean_spiral, g.pinion_pitch_angle, flank_side)
    Fa = forces.pinion_axial_force(Ft, flank_pressure_angle, *of_flank)
    Fr = forces.pinion_radial_force(Ft, flank_pressure_angle, *of_flank)
    sin, cos = np.sin(g.ring_offset_angle), np.cos(g.ring_offset_angle)
    side = flank_side * Ft
    force = np.array([Fa, Fr * sin - side * cos, -Fr * cos - side * sin], dtype=np.float64)
    return ToothLoad(force, np.zeros(3))


def steady(load: ToothLoad) -> ToothForce:
    """A tooth load that no movement changes."""
    return lambda E, P, G, sigma: load


def weaker(tooth: ToothForce, share: float) -> ToothForce:
    """A share of a tooth load, as a step on the way to it."""

    def part(E: float, P: float, G: float, sigma: float) -> ToothLoad:
        whole = tooth(E, P, G, sigma)
        return ToothLoad(share * whole.force, share * whole.moment)

    return part


def cross_matrix(arm: Array) -> Array:
    """Matrix C with C @ f = arm × f."""
    x, y, z = arm
    return np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])


def movement_rows(offset: float, pinion_at: Array, ring_at: Array) -> tuple[Array, Array]:
    """Rows E, P, G, Σ over (three shifts, three turns) of the pinion's and of the ring's node.

    Both parts move as rigid bodies near the mesh; turning about either gear's own axis is left
    out by taking it about that axis.
    """
    pinion = _at_origin(pinion_at)
    ring = -_at_origin(ring_at)
    both = []
    for body, turn in ((pinion, 1.0), (ring, -1.0)):
        axial = body[2].copy()
        axial[3] += offset * turn  # turning about the pinion's own axis is harmless
        sigma = np.array([0.0, 0.0, 0.0, 0.0, turn, 0.0])
        both.append(np.stack([body[1], body[0], -axial, sigma]))
    return both[0], both[1]


def _at_origin(node: Array) -> Array:
    """Shift of the origin as part of a body whose node moves: (3, 6)."""
    return np.hstack([np.eye(3), cross_matrix(node)])
