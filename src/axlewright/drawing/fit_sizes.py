"""The sizes of each drawing from what is known of the parts; outlines are hints (mm, rad)."""

from __future__ import annotations

import math
from typing import Literal

from axlewright.drawing.dimensions import UNKNOWN, Size, hint, size
from axlewright.drawing.parts_driveshaft_sizes import DriveshaftSizes, JointSizes
from axlewright.drawing.parts_housing_sizes import BracketSizes, EndSizes, HousingSizes
from axlewright.drawing.parts_shaft_sizes import ShaftSizes, SplineSizes
from axlewright.drawing.parts_side_view_sizes import LinkSizes, SideSizes
from axlewright.drawing.parts_wheel_section_sizes import ObstacleSizes, SectionSizes
from axlewright.studies.fit_parts import PartsReport

_MM = 1000.0
_INCH = 0.0254
_SAME = 1e-6
Side = Literal["left", "right"]


def known(parts: PartsReport, *names: str) -> bool:
    """Whether all of these sizes are known."""
    return all(n in parts.sizes and parts.sizes[n].known for n in names)


def plain(parts: PartsReport, name: str, otherwise: float) -> float:
    """A length for an outline (mm)."""
    found = parts.sizes.get(name)
    return otherwise if found is None else found.value * _MM


def length(parts: PartsReport, name: str, otherwise: float) -> Size:
    """A length with its figure, or an empty line where nobody knows it (mm)."""
    value = plain(parts, name, otherwise)
    return size(value) if known(parts, name) else hint(value)


def angle(parts: PartsReport, name: str, otherwise: float) -> Size:
    """The same for an angle (rad)."""
    found = parts.sizes.get(name)
    if found is None:
        return hint(otherwise)
    return size(found.value) if found.known else hint(found.value)


def shaft(parts: PartsReport, side: Side) -> ShaftSizes:
    """One axle shaft."""
    classed = known(parts, "spline_teeth")
    near = length(parts, f"bearing_to_flange_{side}", 63.0)
    pitch = parts.sizes["spline_pitch"].value * _INCH
    return ShaftSizes(
        side=side,
        length=length(parts, f"order_shaft_{side}", 750.0),
        flange_diameter=length(parts, f"flange_diameter_{side}", 160.0),
        flange_thickness=length(parts, f"flange_thickness_{side}", 11.0),
        register_diameter=length(parts, f"register_{side}", 70.0),
        register_height=length(parts, f"register_height_{side}", 10.0),
        bolt_circle=length(parts, "stud_circle", 120.0),
        studs=round(parts.sizes["stud_count"].value),
        stud_thread=parts.words["stud_thread"],
        stud_diameter=plain(parts, "stud_diameter", 12.7),
        stud_length=length(parts, f"stud_length_{side}", 45.0),
        seat_diameter=length(parts, "shaft_seat", 40.0),
        seat_start=near,
        seat_length=hint(plain(parts, f"bearing_width_{side}", 22.0)),
        body_diameter=length(parts, "shaft_body", 36.0),
        spline=SplineSizes(
            teeth=round(parts.sizes["spline_teeth"].value) if classed else 0,
            pitch=f"{pitch:.0f}/{2 * pitch:.0f}" if classed else "",
            major_diameter=length(parts, "spline_major", 35.0),
            length=length(parts, "shaft_spline", 50.0),
            engagement=length(parts, f"order_spline_{side}", 40.0),
            root=f"{parts.words['spline_root']} root" if parts.words["spline_root"] else "",
        ),
        material=parts.words["shaft_steel"],
    )


def housing(parts: PartsReport) -> HousingSizes:
    """The axle housing."""
    tube = length(parts, "housing_tube", 80.0)
    ring = plain(parts, "ring_diameter", 225.0)
    return HousingSizes(
        left=length(parts, "order_housing_left", 690.0),
        right=length(parts, "order_housing_right", 690.0),
        tube_diameter=tube,
        tube_wall=length(parts, "housing_wall", 6.0),
        case_diameter=1.28 * ring,
        case_width=1.45 * ring,
        pinion_to_left=_pinion(parts),
        pinion_below=length(parts, "gear_offset", 40.0),
        nose=length(parts, "nose", 330.0),
        pinion_angle=angle(parts, "pinion_angle", math.radians(-2.0)),
        end=_end(parts),
        brackets=tuple(_seats(parts, 0.5 * tube.value)),
    )


def _pinion(parts: PartsReport) -> Size:
    """The pinion left of the differential."""
    if not known(parts, "pinion_left", "differential_left"):
        return hint(25.0)
    apart = parts.sizes["pinion_left"].value - parts.sizes["differential_left"].value
    return size(apart * _MM)


def _both(parts: PartsReport, name: str, otherwise: float) -> Size:
    """A size of both ends where they are alike; else an empty line."""
    left, right = (length(parts, f"{name}_{side}", otherwise) for side in ("left", "right"))
    return left if abs(left.value - right.value) < _SAME * _MM else hint(left.value)


def _end(parts: PartsReport) -> EndSizes:
    across, up = _both(parts, "bolts_across", 89.0), _both(parts, "bolts_up", 60.0)
    bore = _both(parts, "bearing_bore", 80.0)
    rim = 1.12 * bore.value
    return EndSizes(
        across=max(across.value + 20.0, rim),
        up=max(up.value + 20.0, rim),
        bolts_across=across,
        bolts_up=up,
        bolt_hole=hint(10.0),
        bore=bore,
        thickness=_both(parts, "end_flange", 12.0),
    )


def _seats(parts: PartsReport, tube: float) -> list[BracketSizes]:
    """Seats where the car wants them; height and angle are for the builder to fill in."""
    found = []
    for side, sign in (("left", 1.0), ("right", -1.0)):
        if known(parts, f"seat_{side}"):
            where = size(sign * parts.sizes[f"seat_{side}"].value * _MM)
            found.append(BracketSizes("seat on tube", where, 63.5, hint(-tube - 14.0), hint(0.0)))
    return found


def section(parts: PartsReport, side: Side) -> SectionSizes:
    """One wheel in its arch."""
    at = parts.side(side)
    rim, lip = length(parts, "rim_width", 200.0), plain(parts, "rim_lip", 12.7)
    overall = Size(rim.value + 2.0 * lip, rim.tolerance)
    backspace = length(parts, "order_backspace", 0.5 * overall.value + 20.0)
    tire = length(parts, "tire_section", 250.0)
    if known(parts, "tire_section") and "order_section" in parts.sizes:
        tire = length(parts, "order_section", tire.value)
    offset = backspace.value - 0.5 * overall.value
    face = 720.0 if at.face is None else at.face * _MM
    if at.face is not None and at.middle is not None:
        face = at.middle * _MM + offset  # a spacer stands between hat and wheel
    out = 0.5 * tire.value - offset
    lip_out = hint(out + 25.0) if at.lip is None or at.face is None else size(at.lip * _MM - face)
    sure = tire.tolerance is None and backspace.tolerance is None
    inner = _inner(parts, side, face)
    return SectionSizes(
        side=side,
        face_to_center=hint(face) if at.face is None else size(face),
        tire_width=tire,
        tire_radius=_half(length(parts, "tire_diameter", 680.0)),
        rim_diameter=plain(parts, "rim_diameter", 381.0),
        rim_width=rim,
        rim_overall=overall,
        backspace=backspace,
        brake_radius=length(parts, f"caliper_radius_{side}", 0.36 * 381.0),
        brake_depth=hint(60.0),
        lip_outward=lip_out,
        lip_height=hint(320.0) if at.lip_up is None else size(at.lip_up * _MM),
        obstacle=inner,
        outer=None if sure and lip_out.tolerance is None else UNKNOWN,
        inner=None if sure else UNKNOWN,
    )


def _half(diameter: Size) -> Size:
    return Size(0.5 * diameter.value, diameter.tolerance)


def _inner(parts: PartsReport, side: Side, face: float) -> ObstacleSizes | None:
    """What stands inside of the tire, at its height; below the wheel's center only by name."""
    at = parts.side(side)
    if at.inner is None or at.face is None:
        return None
    name = parts.words[f"inner_{side}"] or "nearest thing inboard"
    height = hint(150.0) if at.inner_up is None else size(at.inner_up * _MM)
    if height.value < 0.0:
        name, height = f"{name}, below center", hint(10.0)
    return ObstacleSizes(name, size(face - at.inner * _MM), height)


def side_view(parts: PartsReport) -> SideSizes:
    """The rear suspension from the left."""
    base = length(parts, "wheelbase", 2700.0)
    radius = _half(length(parts, "tire_diameter", 680.0))
    ahead = (1.0 - parts.sizes["rear_share"].value) * base.value
    has_center = "ic_ahead" in parts.sizes and "ic_height" in parts.sizes
    squat = parts.sizes.get("anti_squat")
    return SideSizes(
        wheelbase=base,
        rear_radius=radius,
        front_radius=radius,
        mass_height=length(parts, "cg_height", 550.0),
        mass_ahead=size(ahead),
        links=tuple(
            LinkSizes(k.name, _millimeters(k.axle), _millimeters(k.body)) for k in parts.links
        ),
        instant_center=(
            (plain(parts, "ic_ahead", 0.0), plain(parts, "ic_height", 0.0)) if has_center else None
        ),
        anti_squat=None if squat is None else squat.value,
        pinion_angle=_said_angle(parts, "pinion_angle"),
        shaft_angle=_said_angle(parts, "shaft_angle"),
    )


def _millimeters(point: tuple[float, float]) -> tuple[float, float]:
    return point[0] * _MM, point[1] * _MM


def _said_angle(parts: PartsReport, name: str) -> Size | None:
    return angle(parts, name, 0.0) if known(parts, name) else None


def driveshaft(parts: PartsReport) -> DriveshaftSizes:
    """The driveshaft."""
    joint = JointSizes(parts.words["joint"], hint(28.0), length(parts, "joint_span", 90.0))
    return DriveshaftSizes(
        center_to_center=length(parts, "driveshaft_length", 1250.0),
        tube_diameter=length(parts, "driveshaft_tube", 80.0),
        tube_wall=length(parts, "driveshaft_wall", 2.0),
        front_yoke=hint(82.0),
        rear_yoke=hint(70.0),
        barrel=hint(150.0),
        barrel_diameter=48.0,
        spline_diameter=34.0,
        engaged=length(parts, "slip_engaged", 80.0),
        free=length(parts, "slip_free", 22.0),
        front=joint,
        rear=joint,
        phase=angle(parts, "phase", 0.0),
        speed=parts.words["shaft_top"],
        material=parts.words["driveshaft_steel"],
    )
