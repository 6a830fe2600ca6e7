"""The rear suspension from the points that were measured, by its kind."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from axlewright.build.fitting import Spot
from axlewright.quantities.formula import Array, Num
from axlewright.studies.angles_fill import Filled
from axlewright.suspension import kinds
from axlewright.suspension.bushes import link_stiffness
from axlewright.suspension.linkage import RIGID, Link, Linkage, Wheels
from axlewright.vehicle.axle_forces import wheel_center_left

T = TypeVar("T")
_LOWER, _UPPER = ("lower_body", "lower_axle"), ("upper_body", "upper_axle")
_ROD = ("lateral_body", "lateral_axle")
_WATT = (
    "watt_pivot", "watt_left_body", "watt_left_crank", "watt_right_body", "watt_right_crank",
)  # fmt: skip
NEEDS = {
    "leaf": ("leaf_front_eye", "leaf_seat", "leaf_rear_eye", "shackle_top"),
    "four-link": (*_LOWER, *_UPPER),
    "coil-link": (*_LOWER, *_UPPER),
    "three-link": (*_LOWER, *_UPPER, *_ROD),
    "torque arm": (*_LOWER, "arm_front", *_ROD),
    "ladder bars": ("bar_pivot", *_ROD),
}
"""Points without which a suspension of a kind cannot be posed; a Watt linkage may be the rod."""
_RIGHT = {
    "right lower link": ("right_lower_body", "right_lower_axle"),
    "right upper link": ("right_upper_body", "right_upper_axle"),
    "right bar thrust": ("right_bar_pivot", "right_bar_pivot"),
    "right bar reaction": ("right_bar_pivot", "right_bar_pivot"),
}


class LinksError(ValueError):
    """Links that cannot be moved as they were measured; says what is wrong."""


@contextmanager
def posing() -> Iterator[None]:
    """Whatever the suspension refuses inside the block is a fault of the points."""
    try:
        yield
    except ValueError as e:
        raise LinksError(str(e)) from e


def with_or_without(kind: str, do: Callable[[str, str], T]) -> T:
    """Do something with the links; where they cannot be moved, without them, with the reason."""
    try:
        return do(kind, "")
    except LinksError as e:
        return do("", str(e))


@dataclass(frozen=True)
class Axle:
    """The linkage with the lines of its springs, and what was taken for granted."""

    linkage: Linkage
    springs: tuple[Link, Link] | None
    cautions: tuple[str, ...]


def lacking(kind: str, points: Collection[str]) -> tuple[str, ...]:
    """Names of the points that are still to be measured."""
    watt = all(name in points for name in _WATT)
    needs = NEEDS.get(kind, ())
    return tuple(n for n in needs if n not in points and not (watt and n in _ROD))


def axle_of(x: Filled, kind: str) -> Axle | None:
    """The axle on its links; None where its kind or a point is not known."""
    points = x.fitting.points
    if kind not in NEEDS or lacking(kind, points):
        return None
    said: list[str] = []
    linkage = _MADE[kind](x, wheels_of(x, said))
    if kind == "leaf" and not _symmetric(points):
        said.append("the right leaf spring is taken as the left one, mirrored")
    return Axle(_with_right(linkage, points), _springs(points), tuple(said))


def _with_right(linkage: Linkage, points: dict[str, Spot[Num]]) -> Linkage:
    """The linkage with the ends of the right side where they were measured."""
    pieces = [
        replace(p, body=place(points[ends[0]]), axle=place(points[ends[1]]))
        if (ends := _RIGHT.get(p.name)) and all(e in points for e in ends)
        else p
        for p in linkage.pieces
    ]
    return replace(linkage, pieces=pieces)


def place(spot: Spot[Num]) -> Array:
    """A point with x, y, z on the last axis."""
    several = (np.asarray(v, dtype=np.float64) for v in (spot.forward, spot.left, spot.up))
    return np.stack(np.broadcast_arrays(*several), axis=-1)


def _at(x: Filled, name: str) -> Array:
    return place(x.fitting.points[name])


def wheels_of(x: Filled, said: list[str] | None = None) -> Wheels:
    """Wheel centers as measured, else by track and tire; ``said`` gets a caution then."""
    points = x.fitting.points
    if "wheel_center" in points:
        left = place(points["wheel_center"])
        other = points.get("right_wheel_center")
        return Wheels(left, kinds.mirrored(left) if other is None else place(other))
    if said is not None:
        said.append("wheel centers not measured: taken at half the track and the tire's radius")
    return track_wheels(x)


def axle_height(x: Filled) -> Num:
    """Axle line above the ground, the radius of the loaded tire: as measured, else by its size."""
    spot = x.fitting.points.get("wheel_center")
    if spot is not None:
        return spot.up
    measured = x.fitting.left.ground_to_center
    return x.launching.tire.radius if measured is None else measured


def track_wheels(x: Filled) -> Wheels:
    """Wheel centers by the track and the tire alone."""
    aside = wheel_center_left(x.machine.car.track)
    left = place(Spot(0.0, aside, axle_height(x)))
    return Wheels(left, kinds.mirrored(left))


def _symmetric(points: dict[str, Spot[Num]]) -> bool:
    """Whether the points of the right side mirror those of the left."""
    pairs = [(points[n], points[f"right_{n}"]) for n in points if f"right_{n}" in points]
    return all(
        np.allclose(kinds.mirrored(place(left)), place(right), atol=1e-9) for left, right in pairs
    )


def _bar(rate: Num) -> Num:
    """Two bushes with the bar between them, which gives little."""
    return link_stiffness(rate, rate, RIGID)


def _lower(x: Filled) -> Link:
    return Link(_at(x, "lower_body"), _at(x, "lower_axle"), _bar(x.fitting.bushes.lower))


def _upper(x: Filled) -> Link:
    return Link(_at(x, "upper_body"), _at(x, "upper_axle"), _bar(x.fitting.bushes.upper))


def _lateral(x: Filled) -> kinds.Lateral:
    stiff = _bar(x.fitting.bushes.lateral)
    if all(name in x.fitting.points for name in _ROD):
        return Link(_at(x, "lateral_body"), _at(x, "lateral_axle"), stiff)
    pivot, left_body, left_crank, right_body, right_crank = (_at(x, name) for name in _WATT)
    return kinds.Watt.on_axle(pivot, (left_body, left_crank), (right_body, right_crank), stiff)


def _has_lateral(x: Filled) -> bool:
    points = x.fitting.points
    return all(n in points for n in _ROD) or all(n in points for n in _WATT)


def _four_link(x: Filled, wheels: Wheels) -> Linkage:
    if _has_lateral(x):
        return kinds.parallel_four_link(wheels, _lower(x), _upper(x), _lateral(x))
    return kinds.triangulated_four_link(wheels, _lower(x), _upper(x))


def _three_link(x: Filled, wheels: Wheels) -> Linkage:
    return kinds.three_link(wheels, _lower(x), _upper(x), _lateral(x))


def _torque_arm(x: Filled, wheels: Wheels) -> Linkage:
    return kinds.torque_arm(
        wheels, _lower(x), _at(x, "arm_front"), _lateral(x), x.fitting.bushes.arm
    )


def _ladder_bars(x: Filled, wheels: Wheels) -> Linkage:
    pivot = x.fitting.bushes.lower
    return kinds.ladder_bars(wheels, _at(x, "bar_pivot"), _lateral(x), pivot, pivot)


def _leaf(x: Filled, wheels: Wheels) -> Linkage:
    b = x.fitting.bushes
    front, seat, rear, top = (_at(x, name) for name in NEEDS["leaf"])
    spring = kinds.LeafSpring(
        front, seat, rear, top, b.leaf_rate, b.lower, b.leaf_sideways, b.single_leaf
    )
    return kinds.leaf_springs(wheels, spring)


_MADE = {
    "leaf": _leaf,
    "four-link": _four_link,
    "coil-link": _four_link,
    "three-link": _three_link,
    "torque arm": _torque_arm,
    "ladder bars": _ladder_bars,
}


def _springs(points: dict[str, Spot[Num]]) -> tuple[Link, Link] | None:
    """Lines of action of the coil springs; leaves push over the wheel centers."""
    if "spring_body" not in points or "spring_axle" not in points:
        return None
    left, right = kinds.pair(
        Link(place(points["spring_body"]), place(points["spring_axle"])), "spring"
    )
    if "right_spring_body" in points and "right_spring_axle" in points:
        ends = place(points["right_spring_body"]), place(points["right_spring_axle"])
        right = replace(right, body=ends[0], axle=ends[1])
    return left, right
