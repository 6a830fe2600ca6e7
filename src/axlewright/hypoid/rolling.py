"""Where a moved pinion would roll with the ring, and how far the ring's real flank is from there.

Every point of the moved pinion touches, at its own roll angle, an imaginary flank that the ring
would need to roll with it at a constant ratio: the equation of meshing again, solved in closed
form for any offset change, axial place and shaft angle.  The distance from that point to the
cutter's cone is the gap along the line of contact, exact but for the square of the cross slope.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.hypoid.conjugate_pinion import Flank
from axlewright.hypoid.ease_off import PinionSurface
from axlewright.hypoid.support.mesh import Movement
from axlewright.quantities.formula import Array

AT_REST = Movement(0.0, 0.0, 0.0, 0.0)


class Meeting(NamedTuple):
    """Fields over the flank's Chebyshev points (along, up).

    ``roll`` is the pinion's angle at which the point touches, ``gap`` (m) its distance from the
    ring's flank there, ``lever`` (m) converts to rotation of the ring, ``s`` and ``h`` (m) where
    on the ring it is.  ``strained`` is the share of points that no longer meet properly.
    """

    roll: Array
    gap: Array
    lever: Array
    s: Array
    h: Array
    strained: float


def meet(surface: PinionSurface, movement: Movement, turn: float = 0.0) -> Meeting:
    """Roll a moved pinion; ``turn`` is how far the ring runs ahead of the exact ratio (about z)."""
    flank, pair = surface.flank, surface.flank.pair
    p, n, u = surface.points, surface.normals, pair.ratio
    ox, oy, oz = movement.P, pair.hand * (pair.offset + movement.E), -movement.G
    cos_s, sin_s = np.cos(movement.sigma), np.sin(movement.sigma)
    mx, my, mz = (
        p[1] * n[2] - p[2] * n[1],
        p[2] * n[0] - p[0] * n[2],
        p[0] * n[1] - p[1] * n[0],
    )
    # n·(x' × p) + [o × n']_z/u + [p × n]'_z/u = 0, primes turned by the roll and the shaft angle.
    A = cos_s * my - ox * n[2] - oy * sin_s * n[1]
    B = cos_s * mz + ox * n[1] - oy * sin_s * n[2]
    C = sin_s * mx + oy * cos_s * n[0] - u * mx
    size = np.hypot(A, B)
    sine = C / size
    beyond = np.abs(sine) > 1.0
    principal = np.arcsin(np.clip(sine, -1.0, 1.0))
    lead = np.arctan2(B, A)
    first = _nearest(principal - lead, flank.roll)
    other = _nearest(np.pi - principal - lead, flank.roll)
    roll = np.where(
        np.abs(first - flank.roll) <= np.abs(other - flank.roll), first, other
    )
    space = _placed(p, roll, movement, (ox, oy, oz))
    ring = _about_z(space, roll / u - turn)
    normal = flank.cone.normal(ring)
    s, h = pair.ring_flank_place(ring)
    return Meeting(
        roll=roll,
        gap=flank.cone.distance(ring),
        lever=ring[0] * normal[1] - ring[1] * normal[0],
        s=s,
        h=h,
        strained=float(np.mean(beyond)),
    )


def _nearest(angle: Array, to: Array) -> Array:
    return np.asarray(to + (angle - to + np.pi) % (2.0 * np.pi) - np.pi)


def _placed(p: Array, roll: Array, movement: Movement, at: tuple[float, float, float]) -> Array:
    """Turn by the roll about x, by the change of shaft angle about y, then shift."""
    c, s = np.cos(roll), np.sin(roll)
    x, y, z = p[0], c * p[1] - s * p[2], s * p[1] + c * p[2]
    cos, sin = np.cos(movement.sigma), np.sin(movement.sigma)
    return np.stack([cos * x + sin * z + at[0], y + at[1], cos * z - sin * x + at[2]])


def _about_z(v: Array, turn: Array) -> Array:
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([c * v[0] - s * v[1], s * v[0] + c * v[1], v[2]])


def movement_field(flank: Flank) -> Array:
    """First-order gap (m) per unit of E, P, G (m) and shaft angle (rad): (4, along, up).

    Positive where the movement opens the gap; each point at the roll angle at which it touches.
    """
    pair = flank.pair
    turn = -flank.roll / pair.ratio
    normal = _about_z(flank.ring_normal, turn)
    point = _about_z(flank.ring, turn)
    return np.stack([
        pair.hand * normal[1],
        normal[0],
        -normal[2],
        normal[0] * point[2] - normal[2] * point[0],
    ])  # fmt: skip
