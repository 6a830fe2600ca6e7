"""Where each point of a moved pinion comes nearest to the ring's flank as both roll.

The equation of meshing gives the roll angle in closed form for any offset change, axial place and
shaft angle, as if the pinion's normal were the conjugate one; one step of Newton's rule on the
distance from the cutter's cone, which is known exactly, takes it to where the distance of that
very point is least.
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

    ``roll`` is the pinion's angle at which the point is nearest, ``gap`` (m) its distance from
    the ring's flank there, ``lever`` (m) converts to rotation of the ring, ``s`` and ``h`` (m)
    say where on the ring it is.  ``strained`` is the share of points that no longer meet properly.
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
    p, n, u = surface.points, flank.pinion_normal, pair.ratio
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
    roll = np.where(np.abs(first - flank.roll) <= np.abs(other - flank.roll), first, other)
    space, speed = _placed(p, roll, movement, (ox, oy, oz))
    ring = _about_z(space, roll / u - turn)
    normal = flank.cone.normal(ring)
    lever = ring[0] * normal[1] - ring[1] * normal[0]
    sliding = np.sum(normal * _about_z(speed, roll / u - turn), axis=0) + lever / u
    s, h = pair.ring_flank_place(ring)
    return Meeting(
        roll=roll - sliding / flank.parting,
        gap=flank.cone.distance(ring) - 0.5 * sliding * sliding / flank.parting,
        lever=lever,
        s=s,
        h=h,
        strained=float(np.mean(beyond)),
    )


def _nearest(angle: Array, to: Array) -> Array:
    return np.asarray(to + (angle - to + np.pi) % (2.0 * np.pi) - np.pi)


def _placed(
    p: Array, roll: Array, movement: Movement, at: tuple[float, float, float]
) -> tuple[Array, Array]:
    """Points turned by the roll about x and the shaft angle about y, then shifted; d/d(roll)."""
    c, s = np.cos(roll), np.sin(roll)
    y, z = c * p[1] - s * p[2], s * p[1] + c * p[2]
    cos, sin = np.cos(movement.sigma), np.sin(movement.sigma)
    place = np.stack([cos * p[0] + sin * z + at[0], y + at[1], cos * z - sin * p[0] + at[2]])
    return place, np.stack([sin * y, -z, cos * y])


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
