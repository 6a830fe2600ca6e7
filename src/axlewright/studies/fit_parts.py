"""The parts to draw and order: their sizes, each with whether anybody knows it."""

from __future__ import annotations

from typing import Any

from axlewright.build.edit import raw_values
from axlewright.build.fitting import Spot
from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Plain
from axlewright.quantities.records import record
from axlewright.quantities.units import show
from axlewright.studies.angles_fill import kind_of
from axlewright.studies.angles_report import AnglesReport
from axlewright.studies.fit_fill import Filled, fill
from axlewright.studies.fit_parts_known import PartSize, named, said, size_of, sure
from axlewright.studies.fit_parts_read import line_sizes, seats, sizes_read
from axlewright.studies.fit_report import FitReport, RearSide

_LINKS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "leaf": (("leaf, front half", "leaf_seat", "leaf_front_eye"),
             ("leaf, rear half", "leaf_seat", "leaf_rear_eye")),
    "ladder bars": (("ladder bar", "", "bar_pivot"),),
    "torque arm": (("lower link", "lower_axle", "lower_body"), ("torque arm", "", "arm_front")),
}  # fmt: skip
_PAIRS = (("lower link", "lower_axle", "lower_body"), ("upper link", "upper_axle", "upper_body"))


@record
class PartLink:
    """A link from the left: ahead of the axle line and above the ground, m."""

    name: str
    axle: tuple[float, float]
    body: tuple[float, float]


@record
class PartsReport:
    """Everything that the five drawings show, by name; ``trusted`` unless readings contradict."""

    name: str
    sizes: dict[str, PartSize]
    words: dict[str, str]
    left: RearSide
    right: RearSide
    links: tuple[PartLink, ...]
    trusted: bool
    hanging: bool
    waits: tuple[str, ...]
    """Items that may not be ordered yet."""
    cautions: tuple[str, ...]

    def side(self, which: str) -> RearSide:
        """What stands where on one side."""
        return self.left if which == "left" else self.right


def parts_report(build: Resolved, fit: FitReport, angles: AnglesReport) -> PartsReport:
    """Gather what is known of the parts, and what both reports found."""
    x = fill(build, Plain())
    stated = frozenset(raw_values(build.source.text))
    sizes = {n: named(n, s, stated) for n, s in sizes_read(build, x)}
    sizes |= {f"order_{o.key}": size_of(o.finding.value, sure(build, fit, o)) for o in fit.order
              if o.finding is not None}  # fmt: skip
    sizes |= dict(seats(x))
    sizes |= dict(line_sizes(build, x, angles))
    return PartsReport(
        name=fit.name,
        sizes=sizes,
        words={n: said(n, w, stated) for n, w in _words(build, angles).items()},
        left=fit.rear.left,
        right=fit.rear.right,
        links=_links(build, x),
        trusted=not fit.contradictions,
        hanging=build.fitting.state == "hanging",
        waits=tuple(h.item for h in fit.holds if not h.now),
        cautions=fit.cautions,
    )


def _words(build: Resolved, angles: AnglesReport) -> dict[str, str]:
    """Names, threads, grades."""
    m = build.machine
    top = angles.findings.get("shaft_top")
    return {
        "stud_thread": m.studs.size,
        "shaft_steel": m.shaft.steel.name,
        "spline_root": m.shaft.spline.root_form,
        "joint": m.driveshaft.joint.name,
        "driveshaft_steel": m.driveshaft.steel.name,
        "shaft_top": show(top.value, top.dimension, digits=3) if top else "",
        "inner_left": build.fitting.left.inner_thing or "",
        "inner_right": build.fitting.right.inner_thing or "",
    }


def _links(build: Resolved, x: Filled) -> tuple[PartLink, ...]:
    """The left links from the side, as far as their points were measured."""
    points: dict[str, Spot[Any]] = x.fitting.points
    made = []
    for name, on_axle, on_body in _LINKS.get(kind_of(build), _PAIRS):
        if on_body not in points or (on_axle and on_axle not in points):
            continue
        axle = _from_left(points[on_axle]) if on_axle else _axle_line(x)
        if axle is not None:
            made.append(PartLink(name, axle, _from_left(points[on_body])))
    return tuple(made)


def _from_left(spot: Spot[Any]) -> tuple[float, float]:
    return float(spot.forward), float(spot.up)


def _axle_line(x: Filled) -> tuple[float, float] | None:
    """The axle line from the side, where its height was measured."""
    up = x.fitting.left.ground_to_center
    return None if up is None else (0.0, float(up))
