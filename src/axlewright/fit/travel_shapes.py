"""Parts that move with the axle or stand still: balls, round bars and planes, and how far apart.

In axes of the body, measured at ride height, in m.  Each end of a bar belongs to axle or body: a
tube has both on the axle, an exhaust pipe both on the body, a driveshaft or lateral rod one on
each.  A bent pipe is several bars.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num, formula

Owner = Literal["axle", "body"]


@dataclass(frozen=True)
class Ball:
    """A point with room around it: a nut, a corner, the end of a shock."""

    name: str
    at: ArrayLike
    radius: float = 0.0
    on: Owner = "axle"


@dataclass(frozen=True)
class Bar:
    """A round bar between two points: tube, pipe, rod, hose, driveshaft, edge of a tank."""

    name: str
    one: ArrayLike
    other: ArrayLike
    radius: float = 0.0
    one_on: Owner = "axle"
    other_on: Owner = "axle"


@dataclass(frozen=True)
class Plane:
    """A flat side of the body; ``away`` is square to it and points to where the axle belongs."""

    name: str
    at: ArrayLike
    away: ArrayLike


@formula(
    "w",
    "length",
    source="rotor with its mass off center, below its whirl, no damping (closed form)",
    valid={"speed_over_whirl": (0.0, 0.9)},
    outside="so near to its whirl a shaft is bent by more than any clearance",
)
def whirl_reach(indicator_runout: Num, speed_over_whirl: Num) -> Num:
    """How far the middle of a turning driveshaft reaches beyond its tube.

    Half of what the dial swings at rest, and more as the speed nears the whirl.
    """
    return 0.5 * indicator_runout / (1.0 - speed_over_whirl * speed_over_whirl)


def driveshaft_bar(
    gearbox_joint: ArrayLike, pinion_joint: ArrayLike, tube_radius: float, whirl: float
) -> Bar:
    """The driveshaft, made thicker all along by how far its middle may whirl out."""
    return Bar(
        "driveshaft", gearbox_joint, pinion_joint, tube_radius + whirl, one_on="body",
        other_on="axle",
    )  # fmt: skip


def bar_distance(one: Array, other: Array, third: Array, fourth: Array) -> Array:
    """Distance of two straight pieces, ends with x, y, z on the last axis.

    The nearest places either lie inside both pieces, or one of them is an end: the least of the
    four ends against the other piece and of the inner solution, where there is one.
    """
    first, second, between = other - one, fourth - third, one - third
    a, b, c = _dot(first, first), _dot(first, second), _dot(second, second)
    d, e = _dot(first, between), _dot(second, between)
    cross = a * c - b * b
    flat = cross <= 1e-12 * a * c
    safe = np.where(flat, 1.0, cross)
    s, t = (b * e - c * d) / safe, (a * e - b * d) / safe
    inside = ~flat & (s >= 0.0) & (s <= 1.0) & (t >= 0.0) & (t <= 1.0)
    gap = between + s[..., None] * first - t[..., None] * second
    inner = np.where(inside, np.sqrt(_dot(gap, gap)), np.inf)
    ends = (
        _to_piece(one, third, second), _to_piece(other, third, second),
        _to_piece(third, one, first), _to_piece(fourth, one, first),
    )  # fmt: skip
    nearest: Array = np.minimum.reduce(np.broadcast_arrays(inner, *ends))
    return nearest


def _to_piece(point: Array, start: Array, along: Array) -> Array:
    size = _dot(along, along)
    way = _dot(point - start, along) / np.where(size > 0.0, size, 1.0)
    gap = point - start - np.clip(way, 0.0, 1.0)[..., None] * along
    return np.sqrt(_dot(gap, gap))


def _dot(one: Array, other: Array) -> Array:
    result: Array = np.sum(one * other, axis=-1)
    return result
