"""Sizes of the parts as they were read, and as the questions of fit and angles found them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from axlewright.build.resolve import Resolved
from axlewright.driveline import driveshaft_length
from axlewright.fit import room, width
from axlewright.mechanics.splines import external_major_diameter
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding
from axlewright.studies.angles_report import AnglesReport
from axlewright.studies.fit import meets_bulge
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Lack, read, work
from axlewright.studies.fit_look import Plan, look_across
from axlewright.studies.fit_parts_known import PartSize, is_known, size_of

_END = (
    "flange_diameter", "flange_thickness", "register", "register_height", "stud_length",
    "bearing_width", "bearing_to_flange", "bearing_bore", "bolts_across", "bolts_up", "end_flange",
    "caliper_radius",
)  # fmt: skip
_FROM_ANGLES = {
    "pinion_angle": "static", "shaft_angle": "set_shaft", "driveshaft_length": "length",
    "shaft_top": "shaft_top",
}  # fmt: skip
_FROM_LINKS = ("ic_ahead", "ic_height", "anti_squat")
_BY_SIZE = {"tire_diameter": "wheel.diameter", "tire_section": "wheel.section"}
"""What the numbers of a tire's size say, unless the mounted tire was measured."""


def sizes_read(build: Resolved, x: Filled) -> Iterator[tuple[str, PartSize]]:
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
            yield name, size_of(filler.tree(leaf), is_known(leaf) and not by_size)
    spline = m.shaft.spline
    major = external_major_diameter(x.beside.spline_teeth, x.beside.spline_pitch)
    yield "spline_major", size_of(major, is_known(spline.teeth) and is_known(spline.pitch))


def seats(x: Filled) -> Iterator[tuple[str, PartSize]]:
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
        found = work(moved, half_width=seat, center_shift=center)
        if not isinstance(found, Lack):
            yield f"seat_{side}", size_of(found, _middle_known(x, side))


def _middle_known(x: Filled, side: str) -> bool:
    """Whether body datums tell where the old axle stood; else it is only taken as in the middle."""
    return x.fitting.car.rail_to_rail is not None and x.side(side).rail is not None


def line_sizes(build: Resolved, x: Filled, angles: AnglesReport) -> Iterator[tuple[str, PartSize]]:
    """What the question of angles found for driveshaft, pinion and side view."""
    for name, key in _FROM_ANGLES.items():
        found: Finding | None = angles.findings.get(key)
        if found is not None:
            yield name, size_of(found.value, _length_known(build) if key == "length" else True)
    for name in _FROM_LINKS if angles.axle_known else ():
        found = angles.findings.get(name)
        if found is not None:
            yield name, size_of(found.value, known=True)
    s = x.fitting.slip
    if s.spline_length is None:
        return
    gap = is_known(build.fitting.slip.gap)
    yield "slip_free", size_of(s.gap, gap)
    length = x.fitting.angles.joint_to_joint
    if length is not None:
        engaged = driveshaft_length.engagement(s.spline_length, s.gap, length, length)
        yield "slip_engaged", size_of(engaged, gap and is_known(build.fitting.slip.spline_length))


def _length_known(build: Resolved) -> bool:
    """Whether joint center to joint center was measured; the shaft that was there is not it."""
    return is_known(build.fitting.angles.joint_to_joint)
