"""The sizes of the parts to draw and order, each with whether anybody knows it.

A size is known if it was measured, stated, or is exact in the catalogue, and so is all that it was
worked out from; what is assumed is only good for an outline.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from axlewright.build.fitting import Spot
from axlewright.build.resolve import Resolved
from axlewright.driveline import driveshaft_length
from axlewright.fit import room, width
from axlewright.mechanics.splines import external_major_diameter
from axlewright.quantities.estimate import EXACT, Kinds, Plain, leaves
from axlewright.quantities.finding import Finding
from axlewright.quantities.records import record
from axlewright.quantities.units import show
from axlewright.studies.angles_fill import kind_of
from axlewright.studies.angles_report import AnglesReport
from axlewright.studies.fit import meets_bulge
from axlewright.studies.fit_fill import SIDES, Filled, fill
from axlewright.studies.fit_known import Known, Lack, read, work
from axlewright.studies.fit_look import Plan, look_across
from axlewright.studies.fit_report import FitReport, RearSide

_END = (
    "flange_diameter", "flange_thickness", "register", "register_height", "stud_length",
    "bearing_width", "bearing_to_flange", "bearing_bore", "bolts_across", "bolts_up", "end_flange",
    "caliper_radius",
)  # fmt: skip
_LINKS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "leaf": (("leaf, front half", "leaf_seat", "leaf_front_eye"),
             ("leaf, rear half", "leaf_seat", "leaf_rear_eye")),
    "ladder bars": (("ladder bar", "", "bar_pivot"),),
    "torque arm": (("lower link", "lower_axle", "lower_body"), ("torque arm", "", "arm_front")),
}  # fmt: skip
_PAIRS = (("lower link", "lower_axle", "lower_body"), ("upper link", "upper_axle", "upper_body"))
_FROM_ANGLES = {
    "pinion_angle": "static", "shaft_angle": "set_shaft", "driveshaft_length": "length",
    "shaft_top": "shaft_top",
}  # fmt: skip
_FROM_LINKS = ("ic_ahead", "ic_height", "anti_squat")
_BY_SIZE = {"tire_diameter": "wheel.diameter", "tire_section": "wheel.section"}
"""What the numbers of a tire's size say, unless the mounted tire was measured."""


@record
class PartSize:
    """A size, SI; what is not known may still shape an outline."""

    value: float
    known: bool


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
    sizes = dict(_read(build, x))
    sizes |= {f"order_{o.key}": _size(o.finding.value, _sure(fit, o.key)) for o in fit.order
              if o.finding is not None}  # fmt: skip
    sizes |= dict(_seats(x))
    sizes |= dict(_line(build, x, angles))
    return PartsReport(
        name=fit.name,
        sizes=sizes,
        words=_words(build, angles),
        left=fit.rear.left,
        right=fit.rear.right,
        links=_links(build, x),
        trusted=not fit.contradictions,
        hanging=build.fitting.state == "hanging",
        waits=tuple(h.item for h in fit.holds if not h.now),
        cautions=fit.cautions,
    )


def _size(value: Any, known: bool) -> PartSize:
    return PartSize(float(value), known)


def _sure(fit: FitReport, key: str) -> bool:
    """Whether nothing of an order line was merely assumed."""
    return next(o.origin for o in fit.order if o.key == key) != "assumed"


def is_known(leaf: Any) -> bool:
    """Whether a leaf and all that it was worked out from is known."""
    return leaf is not None and all(_certain(e) for e in leaves(leaf).values())


def _certain(leaf: Any) -> bool:
    if isinstance(leaf, Kinds):
        return False
    if leaf.origin == "catalogue":
        return bool(leaf.spread == EXACT)
    return bool(leaf.origin != "assumed")


def _read(build: Resolved, x: Filled) -> Iterator[tuple[str, PartSize]]:
    """Every leaf that a drawing shows as it was read."""
    f, m = build.fitting, build.machine
    filler = Plain()
    found: dict[str, Any] = {
        "rim_width": f.wheel.rim_width,
        "rim_diameter": f.wheel.rim_diameter,
        "rim_lip": f.wheel.lip_width,
        "tire_diameter": f.wheel.diameter,
        "tire_section": f.wheel.section,
        "pinion_left": f.centre.pinion_left,
        "differential_left": f.centre.differential_left,
        "nose": f.centre.nose,
        "shaft_spline": f.centre.shaft_spline,
        "phase": f.angles.phase,
        "stud_diameter": m.studs.diameter,
        "stud_circle": m.studs.circle,
        "stud_count": m.studs.count,
        "shaft_body": m.shaft.body_diameter,
        "shaft_seat": m.shaft.seat_diameter,
        "spline_teeth": m.shaft.spline.teeth,
        "spline_pitch": m.shaft.spline.pitch,
        "housing_tube": m.housing.tube_diameter,
        "housing_wall": m.housing.tube_wall,
        "ring_diameter": m.gears.ring_diameter,
        "gear_offset": m.gears.offset,
        "driveshaft_tube": m.driveshaft.tube_diameter,
        "driveshaft_wall": m.driveshaft.tube_wall,
        "joint_span": m.driveshaft.joint.cap_span,
        "wheelbase": m.car.wheelbase,
        "cg_height": m.car.cg_height,
        "rear_share": m.car.rear_share,
    }
    for side, end in (("left", f.left_end), ("right", f.right_end)):
        found |= {f"{name}_{side}": getattr(end, name) for name in _END}
    for name, leaf in found.items():
        if leaf is not None:
            by_size = _BY_SIZE.get(name) in f.missing
            yield name, _size(filler.tree(leaf), is_known(leaf) and not by_size)
    spline = m.shaft.spline
    major = external_major_diameter(x.beside.spline_teeth, x.beside.spline_pitch)
    yield "spline_major", _size(major, is_known(spline.teeth) and is_known(spline.pitch))


def _seats(x: Filled) -> Iterator[tuple[str, PartSize]]:
    """Seats of springs or links from the differential's center, where the car wants them."""
    look = look_across(x, meets_bulge(x), Plan())
    center = read(x.fitting.centre.differential_left, "centre.differential_left")
    for side in SIDES:
        moved = width.half_to_nearer_center if side == "left" else width.half_to_further_center
        seat = work(
            room.inner_from_face,
            fit_half=look.side(side).face,
            face_to_inner=read(x.side(side).seat, f"fit.{side}.seat"),
        )
        yield from _worked(f"seat_{side}", work(moved, half_width=seat, center_shift=center))


def _worked(name: str, value: Known) -> Iterator[tuple[str, PartSize]]:
    if not isinstance(value, Lack):
        yield name, _size(value, known=True)


def _line(build: Resolved, x: Filled, angles: AnglesReport) -> Iterator[tuple[str, PartSize]]:
    """What the question of angles found for driveshaft, pinion and side view."""
    for name, key in _FROM_ANGLES.items():
        found: Finding | None = angles.findings.get(key)
        if found is not None:
            yield name, _size(found.value, _length_known(build) if key == "length" else True)
    for name in _FROM_LINKS if angles.axle_known else ():
        found = angles.findings.get(name)
        if found is not None:
            yield name, _size(found.value, known=True)
    s = x.fitting.slip
    if s.spline_length is None:
        return
    gap = is_known(build.fitting.slip.gap)
    yield "slip_free", _size(s.gap, gap)
    length = x.fitting.angles.joint_to_joint
    if length is not None:
        engaged = driveshaft_length.engagement(s.spline_length, s.gap, length, length)
        yield "slip_engaged", _size(engaged, gap and is_known(build.fitting.slip.spline_length))


def _length_known(build: Resolved) -> bool:
    """Whether joint center to joint center was measured; the shaft that was there is not it."""
    return is_known(build.fitting.angles.joint_to_joint)


def _words(build: Resolved, angles: AnglesReport) -> dict[str, str]:
    """Names, threads, grades."""
    m = build.machine
    top = angles.findings.get("shaft_top")
    threads = Plain().tree(m.studs)
    return {
        "stud_thread": m.studs.size,
        "stud_count": str(round(float(threads.count))),
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
