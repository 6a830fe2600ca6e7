"""What is known of the parts: measured, stated or exact, and of a part that somebody named.

What is assumed, or of the usual class only, is good for an outline and for nothing else.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import EXACT, Kinds, leaves
from axlewright.quantities.records import record
from axlewright.studies.fit_report import FitReport, OrderLine

_STATED_BY = {
    "stud_diameter": "wheels.studs",
    "stud_count": "wheels.studs",
    "stud_circle": "wheels.stud_circle",
    "shaft_body": "axle.shaft",
    "shaft_seat": "axle.shaft",
    "spline_teeth": "axle.shaft",
    "spline_pitch": "axle.shaft",
    "spline_major": "axle.shaft",
    "housing_tube": "axle.tube_diameter",
    "housing_wall": "axle.tube_wall",
    "driveshaft_tube": "driveshaft.tube_diameter",
    "driveshaft_wall": "driveshaft.tube_wall",
    "joint_span": "driveshaft.joint",
}
"""Sizes of a part that somebody must have named: a usual class is a guess, exact as it may be."""
_NAMED_BY = {
    "stud_thread": "wheels.studs",
    "shaft_steel": "axle.shaft",
    "spline_root": "axle.shaft",
    "joint": "driveshaft.joint",
    "driveshaft_steel": "driveshaft.tube_steel",
    "shaft_top": "engine.rev_limit",
}
"""The same for names and grades."""
_BY_WIDTH = ("fit_width", "order_width", "housing_", "pinion_", "shaft_")
"""Order lines that follow from the width of the axle, by how their keys begin."""


@record
class PartSize:
    """A size, SI; what is not known may still shape an outline."""

    value: float
    known: bool


def size_of(value: Any, known: bool) -> PartSize:
    """A size and whether it is known."""
    return PartSize(float(value), known)


def named(name: str, size: PartSize, stated: Collection[str]) -> PartSize:
    """Not known where the part is only taken to be of its usual class."""
    return size_of(size.value, size.known and _STATED_BY.get(name, name) in {name, *stated})


def said(name: str, text: str, stated: Collection[str]) -> str:
    """A name or grade; nothing where it is only the usual one."""
    return text if _NAMED_BY.get(name, name) in {name, *stated} else ""


def sure(build: Resolved, fit: FitReport, line: OrderLine) -> bool:
    """Whether an order line rests on nothing assumed.

    A width that is found for a tire known by its number only is a first idea.
    """
    width = next(o for o in fit.order if o.key == "fit_width")
    if line.key.startswith(_BY_WIDTH) and width.origin != "measured":
        return not by_number(build)
    return line.origin != "assumed" and not (line.key == "section" and by_number(build))


def by_number(build: Resolved) -> bool:
    """Whether nobody measured the mounted tire."""
    return "wheel.section" in build.fitting.missing


def is_known(leaf: Any) -> bool:
    """Whether a leaf and all that it was worked out from is known."""
    return leaf is not None and all(_certain(e) for e in leaves(leaf).values())


def _certain(leaf: Any) -> bool:
    if isinstance(leaf, Kinds):
        return False
    if leaf.origin == "catalogue":
        return bool(leaf.spread == EXACT)
    return bool(leaf.origin != "assumed")
