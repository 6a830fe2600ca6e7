"""Resolving points and stiffness of the rear suspension."""

from __future__ import annotations

from axlewright.build.fitting import BushStiffness, Spot
from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.ledger import MEMORY, derived
from axlewright.measuring.mirrored import across_the_middle
from axlewright.quantities.estimate import Leaf
from axlewright.quantities.units import Reading

_AXES = ("forward", "left", "up")
_STIFFNESS = {
    "rubber": "2 to 9 kN/mm",
    "urethane": "6 to 25 kN/mm",
    "solid": "30 to 120 kN/mm",
    "rod end": "40 to 160 kN/mm",
}
TWO_SIDED = (
    "wheel_center", "lower_body", "lower_axle", "upper_body", "upper_axle", "bar_pivot",
    "leaf_front_eye", "leaf_seat", "leaf_rear_eye", "shackle_top", "spring_body", "spring_axle",
    "shock_body", "shock_axle",
)  # fmt: skip
"""Points that a symmetric car has twice."""


def points(notes: Notebook) -> dict[str, Spot[Leaf]]:
    """Every point that is stated, and the mirror images of those on the left."""
    found: dict[str, Spot[Leaf]] = {}
    section = notes.book.stated("points")
    if section is None:
        return found
    for name in type(section).model_fields:
        said = getattr(section, name)
        if isinstance(said, tuple):
            found[name] = _spot(notes, f"points.{name}", said)
    if section.symmetric is not False:
        for name in TWO_SIDED:
            if name in found and f"right_{name}" not in found:
                found[f"right_{name}"] = _mirrored(found[name], f"points.right_{name}")
    return found


def _spot(notes: Notebook, path: str, said: tuple[Reading, ...]) -> Spot[Leaf]:
    forward, left, up = (
        notes.place(path, axis, reading) for axis, reading in zip(_AXES, said, strict=True)
    )
    return Spot(forward, left, up)


def _mirrored(spot: Spot[Leaf], path: str) -> Spot[Leaf]:
    other = derived(f"{path}.left", across_the_middle, to_the_left=spot.left)
    return Spot(spot.forward, other, spot.up)


def bushes(notes: Notebook) -> BushStiffness[Leaf]:
    """Bushes by their kind, springs by their rate."""
    return BushStiffness(
        lower=_bush(notes, "lower"),
        upper=_bush(notes, "upper"),
        lateral=_bush(notes, "lateral"),
        arm=notes.book.quantity("bushes.arm_stiffness"),
        leaf_rate=notes.book.quantity("bushes.leaf_rate"),
        leaf_sideways=notes.book.quantity("bushes.leaf_sideways"),
        single_leaf=notes.book.choice("bushes.leaves") == "single",
        coil_rate=notes.book.quantity("bushes.coil_rate"),
    )


def _bush(notes: Notebook, which: str) -> Leaf:
    kind = notes.book.choice(f"bushes.{which}")
    path = f"bushes.{which}_stiffness"
    meta, dimension = notes.book.meta(path)
    by_kind = notes.book.assumed(
        path, _STIFFNESS[kind], dimension, f"{kind} bush; {MEMORY}", meta.means, meta.advice
    )
    return notes.book.quantity(path, by_kind)
