"""Pinion flank that rolls with the ring's flank at an exactly constant ratio: its envelope.

A point of the ring's flank touches where its normal is square to the sliding velocity (equation
of meshing; Litvin's books derive it, from memory).  With skew axes at 90° that equation is
A·sin φ + B·cos φ = C in the roll angle, so every point is solved in closed form.  Where C exceeds
its bound the point never touches; where the two roots meet the envelope turns back on itself.
The flank here is the part of the ring's tooth that the pinion's tip reaches and that both spare.

Roll angles are those of the pinion about x; the ring turns by -φ/u about z.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid import chebyshev
from axlewright.hypoid.placement import Pair
from axlewright.hypoid.wheel_flank import CutterCone, cutter_cone, flank_points
from axlewright.quantities.formula import Array

NODES = (25, 15)
"""Chebyshev points along the face and up the profile."""
_SEARCH = 49
_STEADY = 0.05
"""Least cosine of the phase that counts as safely away from where the envelope turns back."""
_SLOW = 0.01
"""Least speed of parting over the pinion's radius: at zero the envelope is cut away again."""
_STEP = 1e-3
_UNDERCUT = 0.25
"""Share of the working height that may be lost to undercut before the pair is refused."""
_SPARE = 0.02
"""Share of the tooth's depth kept from where the envelope turns back."""


@dataclass(frozen=True)
class Flank:
    """One flank of a pair on Chebyshev points (3, along, up) or (along, up).

    ``x`` runs -1…1 from toe to heel, ``y`` -1…1 from the lowest line that the pinion reaches to
    the ring's tip; ``s`` and ``h`` (m) are measured along and above the pitch line.  ``ring`` and
    ``ring_normal`` lie in the ring's frame, ``pinion`` and ``pinion_normal`` in the pinion's with
    the origin where its axis is nearest the ring's; normals point into the pinion's tooth.
    ``roll`` (rad) is the pinion's angle at which a point touches, ``lever`` (m) times a small turn
    of the ring closes a gap there, ``parting`` (m per rad² of roll) is how fast a point of the
    pinion leaves the ring's flank before and after: positive, or another part would cut it away.
    ``lost`` is how much height (m) at toe, middle and heel the pinion's tip reaches but the
    envelope does not cover.
    """

    pair: Pair
    cone: CutterCone
    side: int
    s: Array
    h: Array
    ring: Array
    ring_normal: Array
    roll: Array
    pinion: Array
    pinion_normal: Array
    lever: Array
    parting: Array
    lost: Array

    @property
    def overlap(self) -> float:
        """Pitches of the pinion through which the fully conjugate flank is in contact."""
        pitch = 2.0 * np.pi / self.pair.pinion_teeth
        return float((self.roll.max() - self.roll.min()) / pitch)

    @property
    def turn_side(self) -> float:
        """Sense in which the ring turns about z to close a gap at this flank."""
        return float(np.sign(self.lever.flat[self.lever.size // 2]))


def envelope(pair: Pair, ring: Array, normal: Array) -> tuple[Array, Array, Array, Array]:
    """Roll angle (pinion), point and normal in the pinion's frame, and how far from turning back.

    The last is the cosine of the phase: 1 in the thick of it, 0 where the roots meet; points
    that never touch come back as NaN.
    """
    x, y, z = ring
    nx, ny, nz = normal
    a, u = pair.axis_at, pair.ratio
    A = nz * x - z * nx
    B = nz * y - z * ny
    C = a * nz - (x * ny - y * nx) / u
    size = np.hypot(A, B)
    with np.errstate(invalid="ignore"):
        principal = np.arcsin(C / size)
    lead = np.arctan2(B, A)
    first = _near_zero(principal - lead)
    other = _near_zero(np.pi - principal - lead)
    turn = np.where(np.abs(first) <= np.abs(other), first, other)
    roll = -u * turn
    point = _about_x(_about_z(ring, turn) - _offset(a, ring), -roll)
    return roll, point, _about_x(_about_z(normal, turn), -roll), np.abs(np.cos(turn + lead))


def _near_zero(angle: Array) -> Array:
    return np.asarray((angle + np.pi) % (2.0 * np.pi) - np.pi)


def _offset(a: float, like: Array) -> Array:
    return np.array([0.0, a, 0.0]).reshape((3,) + (1,) * (like.ndim - 1))


def _about_z(v: Array, turn: Array) -> Array:
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([c * v[0] - s * v[1], s * v[0] + c * v[1], np.broadcast_to(v[2], c.shape)])


def _about_x(v: Array, turn: Array) -> Array:
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([np.broadcast_to(v[0], c.shape), c * v[1] - s * v[2], s * v[1] + c * v[2]])


def make_flank(pair: Pair, pressure_angle: float, side: int) -> Flank:
    """Cut the ring's flank, find the working area and the pinion's flank that rolls with it."""
    cone = cutter_cone(pair, pressure_angle, side)
    along, up = (chebyshev.nodes(n) for n in NODES)
    s = 0.5 * pair.face_width * along
    low, lost = _lowest(pair, cone, s)
    top = pair.face_line(s)
    if lost.max() > _UNDERCUT * float((top - low).mean()):
        raise ArithmeticError(
            "much of the pinion's tooth would be undercut; this pair needs more pinion teeth, less "
            "offset or a larger pressure angle"
        )
    s2 = np.broadcast_to(s[:, None], NODES).copy()
    h2 = low[:, None] + 0.5 * (1.0 + up) * (top - low)[:, None]
    ring = flank_points(pair, cone, s2, h2)
    normal = cone.normal(ring)
    roll, pinion, pinion_normal, _ = envelope(pair, ring, normal)
    if not np.isfinite(roll).all():
        raise ArithmeticError(
            "part of the ring's flank never meets the pinion: the pressure angle of this flank is "
            "too small for the offset"
        )
    if not (np.diff(roll, axis=0) * np.sign(roll[-1] - roll[0]) > 0.0).all():
        raise ArithmeticError(
            "the lines of contact do not cross the face: too little spiral, or the pinion undercut"
        )
    lever = ring[0] * normal[1] - ring[1] * normal[0]
    return Flank(
        pair, cone, side, s2, h2, ring, normal, roll, pinion, pinion_normal, lever,
        _parting(pair, cone, pinion, roll), lost,
    )  # fmt: skip


def _lowest(pair: Pair, cone: CutterCone, s: Array) -> tuple[Array, Array]:
    """Lowest line the pinion's tip reaches where the envelope still holds, and height lost by it.

    Heights are searched from the ring's root up, at every place along the face; a parabola above
    all of them keeps the edge smooth.
    """
    root, top = pair.root_line(s), pair.face_line(s)
    share = np.linspace(0.0, 1.0, _SEARCH)
    h = root[:, None] + share * (top - root)[:, None]
    s2 = np.broadcast_to(s[:, None], h.shape)
    ring = flank_points(pair, cone, s2, h)
    roll, point, _, steady = envelope(pair, ring, cone.normal(ring))
    slow = _SLOW * pair.geometry.pinion_mean_radius
    reach = pair.depth.pinion_face.radius_at(point[0]) - np.hypot(point[1], point[2])
    tip = _crossing(np.where(np.isfinite(reach), reach, -1.0), h)
    sound = np.isfinite(reach) & (steady > _STEADY) & (_parting(pair, cone, point, roll) > slow)
    first = _SEARCH - np.argmin(sound[:, ::-1], axis=1)
    broken = ~sound.all(axis=1)
    floor = np.where(broken, h[np.arange(s.size), np.minimum(first, _SEARCH - 1)], root)
    floor = floor + np.where(broken, _SPARE * (top - root), 0.0)
    lowest = np.maximum(tip, floor)
    scaled = s / s.max()
    smooth = np.polynomial.Polynomial.fit(scaled, lowest, 2)(scaled)
    low = smooth + max(float((lowest - smooth).max()), 0.0)
    lost = np.maximum(floor - tip, 0.0)[[0, s.size // 2, -1]]
    return low, lost


def _crossing(reach: Array, h: Array) -> Array:
    """Height from which on the pinion's tip reaches, by straight lines between the points."""
    inside = reach >= 0.0
    after = np.argmax(inside, axis=1)
    row = np.arange(h.shape[0])
    before = np.maximum(after - 1, 0)
    a, b = reach[row, before], reach[row, after]
    share = np.where(after == before, 1.0, -a / np.where(b == a, 1.0, b - a))
    return np.asarray(h[row, before] + np.clip(share, 0.0, 1.0) * (h[row, after] - h[row, before]))


def _parting(pair: Pair, cone: CutterCone, point: Array, roll: Array) -> Array:
    """How fast a point of the pinion leaves the ring's flank as both roll on, m per rad²."""
    gap = sum(
        weight * cone.distance(_rolled(pair, point, roll + step))
        for weight, step in ((1.0, -_STEP), (-2.0, 0.0), (1.0, _STEP))
    )
    return np.asarray(gap / _STEP**2)


def _rolled(pair: Pair, point: Array, roll: Array) -> Array:
    """Points of the pinion in the ring's frame at a roll angle."""
    space = _about_x(point, roll) + _offset(pair.axis_at, point)
    return _about_z(space, roll / pair.ratio)
