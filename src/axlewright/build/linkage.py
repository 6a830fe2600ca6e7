"""The rear suspension as a linkage, from the points and bushes that a build states, by its kind.

Works with floats and samples alike.  Geometry only: what the suspension refuses is raised as it is.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

import numpy as np

from axlewright.build.fitting import BushStiffness, Spot
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.records import branch
from axlewright.suspension import kinds
from axlewright.suspension.bushes import link_stiffness
from axlewright.suspension.linkage import RIGID, Link, Linkage, Wheels

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


AXES = ("forward", "left", "up")
RATES = ("lower", "upper", "lateral", "arm", "leaf_rate", "leaf_sideways", "coil_rate")
"""Stiffnesses of bushes and springs, as the build names them."""
_LINKS = (
    "wheel_center", "lower_", "upper_", "lateral_", "watt_", "arm_front", "bar_pivot", "leaf_",
    "shackle_", "spring_",
)  # fmt: skip


@branch
class Hung:
    """Points and bushes, filled one way."""

    points: dict[str, Spot[Num]]
    bushes: BushStiffness[Num]

    def at(self, name: str) -> Array:
        """A point by its name."""
        return place(self.points[name])


def hung_of(read: Mapping[str, Num], single_leaf: bool) -> Hung:
    """Points and bushes from their numbers by name, as in ``lower_body up``, ``arm stiffness``."""
    names = [n.removesuffix(" up") for n in read if n.endswith(" up")]
    points = {n: Spot(*(read[f"{n} {axis}"] for axis in AXES)) for n in names}
    rates = {n: read[f"{n} stiffness"] for n in RATES}
    return Hung(points, BushStiffness(**rates, single_leaf=single_leaf))


def of_links(points: Collection[str]) -> tuple[str, ...]:
    """Names of the points that links and springs have, on both sides."""
    return tuple(n for n in points if n.removeprefix("right_").startswith(_LINKS))


def lacking(kind: str, points: Collection[str]) -> tuple[str, ...]:
    """Names of the points that are still to be measured."""
    watt = all(name in points for name in _WATT)
    needs = NEEDS.get(kind, ())
    return tuple(n for n in needs if n not in points and not (watt and n in _ROD))


def is_known(kind: str, points: Collection[str]) -> bool:
    """Whether a suspension of this kind can be posed from these points."""
    return kind in NEEDS and not lacking(kind, points)


def linkage_of(kind: str, x: Hung, wheels: Wheels) -> Linkage:
    """The axle on its links, with the ends of the right side where they were measured."""
    linkage = _MADE[kind](x, wheels)
    pieces = [
        replace(p, body=x.at(ends[0]), axle=x.at(ends[1]))
        if (ends := _RIGHT.get(p.name)) and all(e in x.points for e in ends)
        else p
        for p in linkage.pieces
    ]
    return replace(linkage, pieces=pieces)


def place(spot: Spot[Num]) -> Array:
    """A point with x, y, z on the last axis."""
    several = (np.asarray(v, dtype=np.float64) for v in (spot.forward, spot.left, spot.up))
    return np.stack(np.broadcast_arrays(*several), axis=-1)


def stated_wheels(points: dict[str, Spot[Num]]) -> Wheels | None:
    """Wheel centers as measured; the right one mirrored where only the left was."""
    if "wheel_center" not in points:
        return None
    left, other = place(points["wheel_center"]), points.get("right_wheel_center")
    return Wheels(left, kinds.mirrored(left) if other is None else place(other))


def spring_lines(points: dict[str, Spot[Num]]) -> tuple[Link, Link] | None:
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


def _bar(rate: Num) -> Num:
    """Two bushes with the bar between them, which gives little."""
    return link_stiffness(rate, rate, RIGID)


def _lower(x: Hung) -> Link:
    return Link(x.at("lower_body"), x.at("lower_axle"), _bar(x.bushes.lower))


def _upper(x: Hung) -> Link:
    return Link(x.at("upper_body"), x.at("upper_axle"), _bar(x.bushes.upper))


def _lateral(x: Hung) -> kinds.Lateral:
    stiff = _bar(x.bushes.lateral)
    if all(name in x.points for name in _ROD):
        return Link(x.at("lateral_body"), x.at("lateral_axle"), stiff)
    pivot, left_body, left_crank, right_body, right_crank = (x.at(name) for name in _WATT)
    return kinds.Watt.on_axle(pivot, (left_body, left_crank), (right_body, right_crank), stiff)


def _has_lateral(x: Hung) -> bool:
    return all(n in x.points for n in _ROD) or all(n in x.points for n in _WATT)


def _four_link(x: Hung, wheels: Wheels) -> Linkage:
    if _has_lateral(x):
        return kinds.parallel_four_link(wheels, _lower(x), _upper(x), _lateral(x))
    return kinds.triangulated_four_link(wheels, _lower(x), _upper(x))


def _three_link(x: Hung, wheels: Wheels) -> Linkage:
    return kinds.three_link(wheels, _lower(x), _upper(x), _lateral(x))


def _torque_arm(x: Hung, wheels: Wheels) -> Linkage:
    return kinds.torque_arm(wheels, _lower(x), x.at("arm_front"), _lateral(x), x.bushes.arm)


def _ladder_bars(x: Hung, wheels: Wheels) -> Linkage:
    pivot = x.bushes.lower
    return kinds.ladder_bars(wheels, x.at("bar_pivot"), _lateral(x), pivot, pivot)


def _leaf(x: Hung, wheels: Wheels) -> Linkage:
    b = x.bushes
    front, seat, rear, top = (x.at(name) for name in NEEDS["leaf"])
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
