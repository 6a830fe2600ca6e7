"""Where the axle may stand under the car: places from the real links, or straight moves as stated.

Axes of the body: x forward, y left, z up from the ground, as in ``suspension``.  Places lie on
the first axis, samples (or one) on the next, x, y and z on the last.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.linkage import Linkage, spot
from axlewright.suspension.pose import Pose, solve_pose

SOLVED = "solved from the links"
STRAIGHT = "straight: heave, roll and shift as stated, links not known"


@dataclass(frozen=True)
class AxlePlaces:
    """Places of an axle: the point of its line that lies in the car's middle at ride height."""

    center: Array
    """That point now."""
    axis: Array
    """Direction of the axle line to the left, length one."""
    names: tuple[str, ...]
    """What each place is, in words; one for each on the first axis."""
    known: str
    """How the places were found."""


@dataclass(frozen=True)
class Stops:
    """How far the axle may go, in m from ride height; each is above zero."""

    bump: Num
    droop: Num
    shift: Num = 0.0
    """Sideways give of bushes and rod, each way, on top of what the links make of the travel."""


_SIDES = ((", axle shifted left", 1.0), (", axle shifted right", -1.0))
_LEVELS = {
    1.0: "full bump", 0.75: "3/4 bump", 0.5: "1/2 bump", 0.25: "1/4 bump", 0.0: "ride height",
    -0.5: "1/2 droop", -1.0: "full droop",
}  # fmt: skip
"""Travel of one wheel: the least clearance is seldom at an end of it."""
_ENDS = (1.0, 0.0, -1.0)
"""Travel of the other wheel meanwhile."""


def straight_places(
    stops: Stops, axle_height: Num, track: Num, axle_ahead: Num = 0.0
) -> AxlePlaces:
    """Places without knowing the links: straight up and down, roll about the middle, shift.

    ``track`` is the distance between the wheels that travel is stated at.  Nothing of the sideways
    way of a lateral rod or of roll steer is in it, so state a shift that covers them.
    """
    left, right, shift, names = _travels(stops)
    sine = (left - right) / track
    if not np.all(np.abs(sine) < 0.9):
        raise ValueError("one wheel stands so far above the other that no axle reaches both")
    center = _points(axle_ahead, shift, axle_height + 0.5 * (left + right))
    axis = _points(0.0, np.sqrt(1.0 - sine * sine), sine)
    return AxlePlaces(*_alike(center, axis), names, STRAIGHT)


def solved_places(linkage: Linkage, stops: Stops) -> AxlePlaces:
    """Places of an axle on its real links, with the sideways give of the bushes on top."""
    left, right, shift, names = _travels(stops)
    return places_of(solve_pose(linkage, left, right), names, shift)


def places_of(pose: Pose, names: tuple[str, ...], shift: Num = 0.0) -> AxlePlaces:
    """Places of an axle from poses that are solved already: places first, then samples or one."""
    center, axis = _middle(pose.linkage)
    now = pose.place(center) + _points(0.0, shift, 0.0)
    return AxlePlaces(*_alike(now, pose.turn(axis)), names, SOLVED)


def _middle(linkage: Linkage) -> tuple[Array, Array]:
    """Where the axle line crosses the car's center plane at ride height, and its direction."""
    left, right = spot(linkage.wheels.left), spot(linkage.wheels.right)
    line = left - right
    axis = line / np.sqrt(np.sum(line * line, axis=-1, keepdims=True))
    back = left[..., 1:2] / axis[..., 1:2]
    return left - back * axis, axis


def _travels(stops: Stops) -> tuple[Array, Array, Array, tuple[str, ...]]:
    """Travel of both wheels and shift to the left, places first, samples next; names of places."""
    if any(np.any(np.asarray(t) < 0.0) for t in (stops.bump, stops.droop, stops.shift)):
        raise ValueError("bump, droop and shift are each stated as a length above zero")
    shifted = _SIDES if np.any(np.asarray(stops.shift) > 0.0) else ()
    rows = []
    names = []
    for left, right in _levels():
        ways = (_way(stops, left), _way(stops, right))
        name = _named(left, right)
        at_rest = left == right == 0.0
        if at_rest or not shifted:
            rows.append((*ways, 0.0 * stops.shift))
            names.append(name)
        for side, by in shifted:
            rows.append((*ways, by * stops.shift))
            names.append(name + side)
    wide = np.broadcast_shapes((1,), *(np.shape(v) for row in rows for v in row))
    table = np.array([[np.broadcast_to(v, wide) for v in row] for row in rows], dtype=np.float64)
    return table[:, 0], table[:, 1], table[:, 2], tuple(names)


def _levels() -> list[tuple[float, float]]:
    """Share of bump, or of droop with a minus, of left and right wheel; ride height first."""
    one = [(level, end) for level in _LEVELS for end in _ENDS]
    other = [(end, level) for level, end in one]
    return sorted(set(one + other), key=lambda p: (abs(p[0]) + abs(p[1]), p))


def _named(left: float, right: float) -> str:
    if left == right == 0.0:
        return _LEVELS[0.0]
    if left == right:
        return f"both wheels at {_LEVELS[left]}"
    return f"left wheel at {_LEVELS[left]}, right at {_LEVELS[right]}"


def _way(stops: Stops, level: float) -> Num:
    """Travel of one wheel, bump above zero."""
    return level * (stops.bump if level > 0.0 else stops.droop)


def _points(x: ArrayLike, y: ArrayLike, z: ArrayLike) -> Array:
    wide = np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in (x, y, z)))
    return np.stack(wide, axis=-1)


def _alike(center: Array, axis: Array) -> tuple[Array, Array]:
    one, other = np.broadcast_arrays(center, axis)
    return one, other
