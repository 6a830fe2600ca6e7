"""What links, brackets and springs carry under a load, and how far the axle gives.

Travel is held.  Six equations of equilibrium (one more for each crank) and one of stretch for
each piece are solved together: links J^T N - springs J_s^T P = load and N/k - J d = miss, with d
for how far the axle gives.  A determinate linkage has its forces from equilibrium alone; one with a
piece too many has those of least energy (Castigliano), binding in roll included.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.closure import Closure, close
from axlewright.suspension.layout import GIVEN, lay_out
from axlewright.suspension.linkage import Guide, Link, Linkage, spot
from axlewright.suspension.newton import NoPoseError, drive, solved
from axlewright.suspension.pose import Load, Pose
from axlewright.suspension.rotation import Stand, dot

_ROUNDING = 1e-9
"""Less than this share of the give is rounding: links that do not give."""

_LOOSE = "links and springs do not hold the axle in this pose"


@dataclass(frozen=True)
class Forces:
    """Forces in N; x, y, z on the last axis, pieces on the one before it."""

    pull: Array
    """In each piece, tension above zero; a guide pulls its point back along its direction."""
    springs: Array
    """How hard each of both springs pushes, left first; compression above zero."""
    on_axle: Array
    """What each piece does to its bracket on the axle (or to the end of its crank there)."""
    on_body: Array
    """What it does to its bracket on the body: the same, turned round."""
    axle_ends: Array
    """Where those brackets of the axle are, m."""
    on_pivots: Array
    """What each crank does to its pivot."""
    give: Array
    """How far the axle gives: m forward, m left, rad of steer, rad of nose up, then cranks."""


@dataclass(frozen=True)
class Mount:
    """The mounts of an axle as the launch model takes them."""

    height: Num
    """m above the axle line at which a fore-aft force does not turn the axle."""
    stiffness: Num
    """N/m fore and aft at that height, both sides together."""
    windup: Num
    """N·m/rad against winding up about the axle line."""


def link_forces(pose: Pose, load: Load, springs: Sequence[Link | Guide] | None = None) -> Forces:
    """Forces in links, brackets and springs while the axle carries a load in a pose.

    ``springs`` are two lines of action, left first, from body to axle; without them each spring
    stands upright over its wheel center.  Their stiffness is not read: travel is held.
    """
    now = pose.closed()
    outside = np.concatenate([pose.row(spot(load.force)), pose.row(spot(load.moment))])
    free = pose.layout.free
    every = (*free, *GIVEN)
    lines = _spring_lines(pose, springs)
    load_along = np.concatenate(
        [drive(now.stand, outside, len(free)), outside[2:3], _about_roll(now.stand, outside)]
    )
    count, pieces = len(free), len(pose.linkage.pieces)
    size = pose.count
    slopes = np.broadcast_to(now.slopes(every), (len(every), pieces, size))
    pushes = np.zeros((len(every), 2, size))
    pushes[[0, 1, 2, 3, -2, -1]] = lines.slopes((*free[:4], *GIVEN))
    whole = np.zeros((size, len(every) + pieces, len(every) + pieces))
    whole[:, : count + 2, count:-2] = np.moveaxis(slopes, -1, 0)
    whole[:, : count + 2, -2:] = -np.moveaxis(pushes, -1, 0)
    _stretch(whole[:, count + 2 :], pose, slopes[:count])
    right = np.concatenate([load_along, np.broadcast_to(now.miss, (pieces, size))])
    found = solved(whole, right, _LOOSE)
    return _forces(pose, now, found[:count], found[count:-2], found[-2:])


def compliance(pose: Pose) -> Array:
    """How far the axle gives for a unit force forward, left, and unit moment of steer and nose.

    (4, 4) on the last axes, give in rows; travel held.  m/N, rad/N, rad/(N·m).
    """
    now = pose.closed()
    count, pieces, size = len(pose.layout.free), len(pose.linkage.pieces), pose.count
    slopes = np.broadcast_to(now.slopes(pose.layout.free), (count, pieces, size))
    whole = np.zeros((size, count + pieces, count + pieces))
    whole[:, :count, count:] = np.moveaxis(slopes, -1, 0)
    _stretch(whole[:, count:], pose, slopes)
    give = np.empty((4, 4, size))
    for n in range(4):
        right = np.zeros((count + pieces, size))
        right[n] = 1.0
        give[:, n] = solved(whole, right, _LOOSE)[:4]
    return pose.shaped(give)


def mount_of(pose: Pose) -> Mount:
    """Mount height, fore-aft and wind-up stiffness that the bushes of the links make.

    The give of a mount of stiffness k_x at the height e and of k_ψ about the axle line is
    1/k_x + e²/k_ψ for force on way, e/k_ψ between force and turn, 1/k_ψ for moment on turn.
    Where links do not give fore and aft, as leaves on stiff eyes, k_x is unlimited.
    """
    give = compliance(pose)
    fore, both, turn = give[..., 0, 0], give[..., 0, 3], give[..., 3, 3]
    if not np.all(turn > 0.0):
        raise NoPoseError("nothing gives: state the stiffness of the bushes")
    own = fore - both * both / turn
    gives = own > _ROUNDING * fore
    stiffness = np.divide(1.0, own, out=np.full_like(own, np.inf), where=gives)
    return Mount((both / turn)[()], stiffness[()], (1.0 / turn)[()])


def _spring_lines(pose: Pose, springs: Sequence[Link | Guide] | None) -> Closure:
    wheels = pose.linkage.wheels
    if springs is None:
        springs = [Guide(w, w, (0.0, 0.0, -1.0)) for w in (wheels.left, wheels.right)]
    if len(springs) != 2:
        raise ValueError("two springs carry an axle: state the left and the right one")
    return close(lay_out(Linkage(wheels, springs), pose.shape), pose.stand, np.empty((0, 1)))


def _about_roll(stand: Stand, outside: Array) -> Array:
    return dot(stand.roll_line, outside[3:])[None]


def _stretch(rows: Array, pose: Pose, slopes: Array) -> None:
    """Fill the equations of stretch: pull over stiffness less slopes times give."""
    count, pieces = slopes.shape[:2]
    rows[:, :, :count] = -np.moveaxis(slopes, (0, 1), (2, 1))
    each = np.arange(pieces)
    rows[:, each, count + each] = (1.0 / pose.layout.stiffness).T


def _forces(pose: Pose, now: Closure, give: Array, pull: Array, springs: Array) -> Forces:
    on_axle = -pull * now.along
    ends = now.stand.middle[:, None] + now.arms
    pivots = np.zeros((3, len(pose.layout.cranks), pose.count))
    for n, crank in enumerate(pose.layout.cranks):
        side = 1.0 if crank.stands_on == "axle" else -1.0
        pivots[:, n] = side * on_axle[:, list(crank.rows)].sum(axis=1)
    return Forces(
        pose.shaped(pull), pose.shaped(springs), _vectors(pose, on_axle), -_vectors(pose, on_axle),
        _vectors(pose, ends), _vectors(pose, pivots), pose.shaped(give),
    )  # fmt: skip


def _vectors(pose: Pose, rows: Array) -> Array:
    """(3, pieces, poses) as (..., pieces, 3)."""
    return np.swapaxes(pose.shaped(rows), -1, -2)
