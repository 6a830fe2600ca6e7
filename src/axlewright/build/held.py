"""Unit loads of the links that hold an axle, for places as they were read."""

from __future__ import annotations

import functools

import numpy as np

from axlewright.build.linkage import Hung, hung_of, linkage_of, spring_lines, stated_wheels
from axlewright.build.machine import Held
from axlewright.quantities.formula import Num
from axlewright.quantities.solved import untraced
from axlewright.suspension.housing_wrenches import Wrenches, wrenches
from axlewright.suspension.linkage import Guide, Link, Wheels, spot

_DOWN = (0.0, 0.0, -1.0)
_COIL, _LEAF_SEAT = ("spring_body", "spring_axle"), ("leaf_seat", "right_leaf_seat")


def held_by(held: Held[Num] | Held[float], seat_inset: float) -> Wrenches:
    """Solve unit loads, or recall them; what the suspension refuses is raised as it is.

    Without points of coil springs, these stand over the tubes ``seat_inset`` inside the tires.
    """
    plain = tuple((name, float(value)) for name, value in held.places.items())
    seated = _LEAF_SEAT if held.kind == "leaf" else _COIL
    known = all(f"{name} up" in held.places for name in seated)
    return _solved(held.kind, held.single_leaf, plain, 0.0 if known else seat_inset)


@functools.lru_cache(maxsize=32)
def _solved(
    kind: str, single_leaf: bool, places: tuple[tuple[str, float], ...], seat_inset: float
) -> Wrenches:
    x = hung_of(dict(places), single_leaf)
    wheels = stated_wheels(x.points)
    assert wheels is not None
    springs = spring_lines(x.points) if kind != "leaf" else None
    if springs is None:
        seats: tuple[Link | Guide, ...] = _upright(x, kind, wheels, seat_inset)
    else:
        seats = springs
    height = float(0.5 * (spot(wheels.left) + spot(wheels.right))[2])
    with untraced():
        return wrenches(linkage_of(kind, x, wheels), seats, height)


def _upright(x: Hung, kind: str, wheels: Wheels, seat_inset: float) -> tuple[Guide, Guide]:
    """Springs straight up over the seats: of the leaves, or where coils were not measured."""
    if kind == "leaf" and "right_leaf_seat" in x.points:
        left, right = x.at("leaf_seat"), x.at("right_leaf_seat")
    else:
        inward = np.array([0.0, seat_inset, 0.0])
        left, right = spot(wheels.left) - inward, spot(wheels.right) + inward
    return Guide(left, left, _DOWN), Guide(right, right, _DOWN)
