"""Shares of the loads on an axle that its brackets and tubes carry, for places as they were read."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.build.fitting import BushStiffness, Spot
from axlewright.build.linkage import Hung, linkage_of, spring_lines, stated_wheels
from axlewright.suspension.housing_wrenches import Section, Wrenches, sections, wrenches
from axlewright.suspension.linkage import Guide, Link, spot

RATES = ("lower", "upper", "lateral", "arm", "leaf_rate", "leaf_sideways", "coil_rate")
AXES = ("forward", "left", "up")
_DOWN = (0.0, 0.0, -1.0)


@dataclass(frozen=True)
class HeldBy:
    """Unit loads of every bracket, and cuts through both tubes."""

    wrenches: Wrenches
    sections: tuple[Section, ...]
    hub: float
    """How far from the middle the tubes begin, m."""


def held_by(
    kind: str, single_leaf: bool, places: Mapping[str, float], seat_inset: float, hub: float
) -> HeldBy:
    """Solve it, or recall it; what the suspension refuses is raised as it is."""
    plain = tuple((name, float(value)) for name, value in places.items())
    return _solved(kind, single_leaf, plain, float(seat_inset), float(hub))


@functools.lru_cache(maxsize=32)
def _solved(
    kind: str,
    single_leaf: bool,
    places: tuple[tuple[str, float], ...],
    seat_inset: float,
    hub: float,
) -> HeldBy:
    read = dict(places)
    points = points_of(read)
    rates = {n: read[f"{n} stiffness"] for n in RATES}
    wheels = stated_wheels(points)
    assert wheels is not None
    x = Hung(points, BushStiffness(**rates, single_leaf=single_leaf))
    linkage = linkage_of(kind, x, wheels)
    springs = spring_lines(points) if kind != "leaf" else None
    found = wrenches(linkage, springs or _upright(x, kind, seat_inset), points["wheel_center"].up)
    return HeldBy(found, sections(found, hub), hub)


def points_of(read: Mapping[str, float]) -> dict[str, Spot[float]]:
    """Points again from their places by name and axis."""
    names = [n.removesuffix(" up") for n in read if n.endswith(" up")]
    return {n: Spot(*(read[f"{n} {axis}"] for axis in AXES)) for n in names}


def _upright(x: Hung, kind: str, seat_inset: float) -> tuple[Link | Guide, Link | Guide]:
    """Springs straight up over the seats: of the leaves, or where coils were not measured."""
    names = ("leaf_seat", "right_leaf_seat") if kind == "leaf" else ("", "")
    wheels = stated_wheels(x.points)
    assert wheels is not None
    made = []
    for name, wheel, inward in zip(names, (wheels.left, wheels.right), (-1.0, 1.0), strict=True):
        seat = x.at(name) if name in x.points else spot(wheel) + (0.0, inward * seat_inset, 0.0)
        made.append(Guide(seat, seat, _DOWN))
    return made[0], made[1]
