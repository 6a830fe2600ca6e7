"""Least room between whatever moves with the axle and whatever does not, over the whole travel.

Takes the axle in all its places and pairs of parts; gives the least room of each pair and where.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from axlewright.fit.travel import Places, in_words, least_of, least_of_samples
from axlewright.fit.travel_shapes import Ball, Bar, Owner, Plane, bar_distance
from axlewright.quantities.formula import Array
from axlewright.suspension.linkage import spot
from axlewright.suspension.pose import Pose


@dataclass(frozen=True)
class Nearest:
    """Where two parts come closest.  Lengths in m; below zero they meet."""

    moving: str
    against: str
    least: float
    at_ride: float
    left: float
    """Travel of the left wheel there."""
    right: float
    wanted: float

    @property
    def clears(self) -> bool:
        """Whether the room that is wanted is there."""
        return self.least >= self.wanted

    @property
    def words(self) -> str:
        """The finding in a sentence."""
        where = in_words(self.left, self.right)
        if self.least < 0.0:
            return f"{self.moving} hits {self.against}: {where}"
        room = f"{self.least / 0.0254:.2f} in"
        return f"{self.moving} comes within {room} of {self.against}: {where}"


@dataclass(frozen=True)
class Pair:
    """Two parts to be looked at, and the room that is wanted between them (m)."""

    moving: Ball | Bar
    against: Ball | Bar | Plane
    wanted: float = 0.0


def sweep(axle: Places, pairs: Sequence[Pair], sideways: float = 0.0) -> tuple[Nearest, ...]:
    """Least room of every pair, the worst first.

    ``sideways`` is how far bushes let the axle shift to either side beyond what its links say.
    """
    found = [_nearest(axle, pair, sideways) for pair in pairs]
    return tuple(sorted(found, key=lambda n: n.least - n.wanted))


def sampled_room(axle: Places, pair: Pair, sideways: float = 0.0) -> Array:
    """Least room of one pair in each sample: how often it clears is the mean of ``>= wanted``."""
    rooms = [_room(axle.pose, pair, shift) for shift in _shifts(sideways)]
    return least_of_samples(np.minimum.reduce(rooms))


def _nearest(axle: Places, pair: Pair, sideways: float) -> Nearest:
    rooms = [_room(axle.pose, pair, shift) for shift in _shifts(sideways)]
    least, index = least_of(np.minimum.reduce(rooms), axle)
    still = min(float(_room(None, pair, shift)) for shift in _shifts(sideways))
    left, right = axle.where(index)
    return Nearest(pair.moving.name, pair.against.name, least, still, left, right, pair.wanted)


def _shifts(sideways: float) -> tuple[float, ...]:
    return (-sideways, 0.0, sideways) if sideways else (0.0,)


def _room(pose: Pose | None, pair: Pair, shift: float) -> Array:
    """Room between two parts in every pose, or at ride height."""
    one, other, radius = _ends(pose, pair.moving, shift)
    if isinstance(pair.against, Plane):
        away = spot(pair.against.away)
        normal = away / np.sqrt(np.sum(away * away, axis=-1, keepdims=True))
        off = [np.sum((end - spot(pair.against.at)) * normal, axis=-1) for end in (one, other)]
        nearest: Array = np.minimum(*off) - radius
        return nearest
    third, fourth, thickness = _ends(pose, pair.against, shift)
    return bar_distance(one, other, third, fourth) - radius - thickness


def _ends(pose: Pose | None, part: Ball | Bar, shift: float) -> tuple[Array, Array, float]:
    if isinstance(part, Ball):
        at = _now(pose, part.at, part.on, shift)
        return at, at, part.radius
    return (
        _now(pose, part.one, part.one_on, shift),
        _now(pose, part.other, part.other_on, shift),
        part.radius,
    )


def _now(pose: Pose | None, point: ArrayLike, on: Owner, shift: float) -> Array:
    if on == "body":
        return spot(point)
    moved = spot(point) if pose is None else pose.place(point)
    aside: Array = moved + np.array([0.0, shift, 0.0])
    return aside
