"""Newton's method for the coordinates that the links decide, many poses at once."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Array
from axlewright.suspension.closure import Closure, close
from axlewright.suspension.layout import Layout, Mask
from axlewright.suspension.rotation import Stand, dot

_STEPS = 40
_LONGEST = 0.3
"""m or rad, longest step: keeps a crank from jumping to its other branch."""
_QUADRATIC = 1e-7
"""A step this short has left an error of about its square."""
_SINGULAR = 1e-9
_LOCKED = "the links lock or come loose on the way"


class NoPoseError(ValueError):
    """The axle can't stand where it should, or nothing holds it there."""


def settle_axle(
    layout: Layout, height: Array, roll: Array, held: bool, outside: Array | None
) -> tuple[Array, Array, Array]:
    """Free coordinates, pull in each piece, worst miss of those that need not give; by pose.

    ``outside`` holds force and moment about the middle of the wheels, six rows.
    """
    free = layout.free
    place: Array = _start(layout, height.size)
    hard = np.ones(len(layout.rigid), dtype=bool) if held else layout.rigid
    refuse(layout, hard, _closure(layout, place[:, :1], height[:1], roll[:1]))
    pull = np.zeros((int(hard.sum()), height.size))
    for _ in range(_STEPS):
        now = _closure(layout, place, height, roll)
        if held:
            step = solved(_matrix(now.slopes(free)), -now.miss, _LOCKED)
        else:
            step, pull = _energy_step(now, hard, pull, outside)
        longest = np.max(np.abs(step), axis=0)
        place = place + step * np.minimum(1.0, _LONGEST / np.maximum(longest, _LONGEST))
        if np.all(longest < _QUADRATIC):
            break
    else:
        short = int(np.sum(~(longest < _QUADRATIC)))
        raise NoPoseError(f"the links do not reach that travel in {short} of {height.size} poses")
    miss = _closure(layout, place, height, roll).miss
    tension = np.zeros_like(miss)
    if not held:
        tension[~hard] = layout.stiffness[~hard] * miss[~hard]
        tension[hard] = pull
    return place, tension, np.abs(miss[hard]).max(axis=0, initial=0.0)


def _start(layout: Layout, count: int) -> Array:
    rows = [layout.middle[0], layout.middle[1], layout.steer] + [np.zeros(1)] * (
        len(layout.free) - 3
    )
    return np.stack([np.broadcast_to(row, (count,)) for row in rows])


def _closure(layout: Layout, place: Array, height: Array, roll: Array) -> Closure:
    stand = Stand(place[0], place[1], height, place[2], roll, place[3])
    return close(layout, stand, place[4:])


def _matrix(slopes: Array) -> Array:
    """Slopes (coordinates, pieces, poses) as matrices (poses, pieces, coordinates)."""
    return np.moveaxis(slopes, (0, 1), (2, 1))


def solved(matrix: Array, right: Array, trouble: str) -> Array:
    """Solve one system for each pose; right-hand sides and unknowns on the first axis."""
    try:
        found = np.linalg.solve(matrix, right.T[..., None])[..., 0].T
    except np.linalg.LinAlgError as e:
        raise NoPoseError(trouble) from e
    return np.asarray(found, dtype=np.float64)


def _energy_step(
    now: Closure, hard: Mask, pull: Array, outside: Array | None
) -> tuple[Array, Array]:
    """Step toward least energy with the hard pieces at their lengths, and the pull in those."""
    free = now.layout.free
    slopes, miss = now.slopes(free), now.miss
    stiffness = now.layout.stiffness[~hard]
    tension = np.zeros_like(miss)
    tension[~hard] = stiffness * miss[~hard]
    push: Array = np.einsum("cmn,mn->cn", slopes, tension)
    if outside is not None:
        push = push - drive(now.stand, outside, len(free))
    tension[hard] = pull
    bend: Array = now.bends(tension, free, slopes)
    soft = slopes[:, ~hard]
    bend = bend + np.einsum("imn,jmn->ijn", soft * stiffness, soft)
    count, bars = len(free), int(hard.sum())
    whole = np.zeros((push.shape[-1], count + bars, count + bars))
    whole[:, :count, :count] = np.moveaxis(bend, -1, 0)
    whole[:, count:, :count] = _matrix(slopes[:, hard])
    whole[:, :count, count:] = np.moveaxis(slopes[:, hard], -1, 0)
    step = solved(whole, np.concatenate([-push, -miss[hard]]), _LOCKED)
    return step[:count], step[count:]


def drive(stand: Stand, outside: Array, count: int) -> Array:
    """What force and moment do along the free coordinates, (coordinates, poses)."""
    force, moment = outside[:3], outside[3:]
    nose = -dot(stand.axle_line, moment)
    none = np.zeros_like(nose)
    return np.stack([force[0], force[1], moment[2], nose] + [none] * (count - 4))


def refuse(layout: Layout, hard: Mask, start: Closure) -> None:
    """Say what is wrong with a linkage that leaves the axle loose or holds it twice."""
    free = layout.free
    slopes = start.slopes(free)[..., 0]
    if int(hard.sum()) > len(free):
        raise NoPoseError(
            f"{int(hard.sum())} pieces that do not give hold {len(free)} coordinates; "
            "give the bushes a stiffness"
        )
    _, sizes, ways = np.linalg.svd(slopes.T)
    if len(sizes) < len(free) or sizes[-1] < _SINGULAR * sizes[0]:
        loosest = free[int(np.argmax(np.abs(ways[-1])))]
        raise NoPoseError(f"nothing holds the axle {_LOOSE.get(loosest, f'at {loosest}')}")
    tight = slopes[:, hard]
    if tight.size and np.linalg.matrix_rank(tight, tol=_SINGULAR * sizes[0]) < tight.shape[1]:
        raise NoPoseError("two pieces that do not give hold the same thing")


_LOOSE = {
    "x": "fore and aft",
    "y": "sideways",
    "steer": "against steering",
    "nose": "against turning about its own line",
}
