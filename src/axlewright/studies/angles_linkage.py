"""The rear suspension from the points that were measured, by its kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from axlewright.build.fitting import Spot
from axlewright.build.linkage import (
    NEEDS,
    Hung,
    is_known,
    lacking,
    linkage_of,
    place,
    spring_lines,
    stated_wheels,
)
from axlewright.quantities.formula import Num
from axlewright.studies.angles_fill import Filled
from axlewright.suspension import kinds
from axlewright.suspension.linkage import Link, Linkage, Wheels
from axlewright.vehicle.axle_forces import wheel_center_left

T = TypeVar("T")
__all__ = [
    "NEEDS",
    "Axle",
    "LinksError",
    "axle_height",
    "axle_of",
    "lacking",
    "place",
    "posing",
    "track_wheels",
    "wheels_of",
    "with_or_without",
]


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


def axle_of(x: Filled, kind: str) -> Axle | None:
    """The axle on its links; None where its kind or a point is not known."""
    points = x.fitting.points
    if not is_known(kind, points):
        return None
    said: list[str] = []
    linkage = linkage_of(kind, Hung(points, x.fitting.bushes), wheels_of(x, said))
    if kind == "leaf" and not _symmetric(points):
        said.append("the right leaf spring is taken as the left one, mirrored")
    return Axle(linkage, spring_lines(points), tuple(said))


def wheels_of(x: Filled, said: list[str] | None = None) -> Wheels:
    """Wheel centers as measured, else by track and tire; ``said`` gets a caution then."""
    stated = stated_wheels(x.fitting.points)
    if stated is not None:
        return stated
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
