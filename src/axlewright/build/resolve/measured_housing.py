"""The links that hold the axle, for the housing: from the points that were measured."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from axlewright.build.held import AXES, RATES, held_by
from axlewright.build.linkage import is_known
from axlewright.build.machine import Held
from axlewright.quantities.estimate import EXACT, Estimate, Leaf, Plain

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

_LINKS = (
    "wheel_center", "lower_", "upper_", "lateral_", "watt_", "arm_front", "bar_pivot", "leaf_",
    "shackle_", "spring_",
)  # fmt: skip
_TRIAL = 0.25, 0.13
"""Any seat and center will do to see whether the links hold the axle, m."""
_UNUSED = (
    "points: tubes and brackets are judged by the share of torque usual for this suspension, not"
    " by the forces of its links: {}"
)


def held(x: Readings) -> Held[Leaf] | None:
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
        held_by(kind, made.single_leaf, plain.places, *_TRIAL)
    except ValueError as e:
        x.book.cautions.append(_UNUSED.format(e))
        return None
    return made


def places_of(x: Readings) -> dict[str, Leaf]:
    """Points by name and axis, and bushes, without spread."""
    read: dict[str, Leaf] = {}
    for name, spot in x.points.items():
        if name.removeprefix("right_").startswith(_LINKS):
            for axis in AXES:
                read[f"{name} {axis}"] = _as_read(getattr(spot, axis), f"points.{name}.{axis}")
    for rate in RATES:
        read[f"{rate} stiffness"] = _as_read(getattr(x.bushes, rate), f"bushes.{rate}_stiffness")
    return read


def _as_read(leaf: Leaf, path: str) -> Estimate:
    path = f"housing.{path}"
    if isinstance(leaf, Estimate):
        return replace(leaf, path=path, spread=EXACT)
    value = float(Plain().fill(leaf))
    return Estimate(
        path, value, "length", EXACT, "measured", "the left one mirrored", means="As on the left."
    )
