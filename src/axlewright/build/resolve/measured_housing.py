"""The links that hold the axle, for the housing: from the points that were measured."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from axlewright.build.held import held_by
from axlewright.build.linkage import is_known
from axlewright.build.machine import Held
from axlewright.build.resolve.measured_points import read_of
from axlewright.quantities.estimate import EXACT, Estimate, Leaf, Plain

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

_USED = (
    "points: tubes and brackets are judged by the forces of the links at the places that were"
    " measured, not by the share of torque usual for this suspension"
)
_UNUSED = (
    "points: tubes and brackets are judged by the share of torque usual for this suspension, not"
    " by the forces of its links: {}"
)


def held(x: Readings, seat_inset: Leaf) -> Held[Leaf] | None:
    """Places as read; None, with the reason, where they do not hold an axle."""
    kind = str(x.book.stated("suspension.kind") or "")
    if not x.points or not is_known(kind, x.points):
        return None
    if "wheel_center" not in x.points or "right_wheel_center" not in x.points:
        x.book.cautions.append(_UNUSED.format("state points.wheel_center"))
        return None
    made = Held[Leaf](kind, x.bushes.single_leaf, places_of(x))
    plain: Held[float] = Plain().tree(made)
    try:
        held_by(plain, float(Plain().fill(seat_inset)))
    except ValueError as e:
        x.book.cautions.append(_UNUSED.format(e))
        return None
    x.book.cautions.append(_USED)
    return made


def places_of(x: Readings) -> dict[str, Leaf]:
    """Points by name and axis, and bushes, without spread."""
    return {name: _as_read(leaf, name) for name, leaf in read_of(x).items()}


def _as_read(leaf: Leaf, name: str) -> Estimate:
    path = f"housing.{name.replace(' ', '.')}"
    if isinstance(leaf, Estimate):
        return replace(leaf, path=path, spread=EXACT)
    value = float(Plain().fill(leaf))
    return Estimate(
        path, value, "length", EXACT, "measured", "the left one mirrored", means="As on the left."
    )
