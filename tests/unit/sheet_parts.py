"""Five parts to draw, all made up, with figures that a shop could meet."""

from __future__ import annotations

import math
from collections.abc import Callable

from axlewright.drawing.dimensions import Size, Tolerance, limits, size
from axlewright.drawing.parts_driveshaft import driveshaft_drawing
from axlewright.drawing.parts_driveshaft_sizes import DriveshaftSizes, JointSizes
from axlewright.drawing.parts_housing import housing_drawing
from axlewright.drawing.parts_housing_sizes import BracketSizes, EndSizes, HousingSizes
from axlewright.drawing.parts_shaft import shaft_drawing
from axlewright.drawing.parts_shaft_sizes import ShaftSizes, SplineSizes
from axlewright.drawing.parts_side_view import side_view_drawing
from axlewright.drawing.parts_side_view_sizes import LinkSizes, SideSizes
from axlewright.drawing.parts_wheel_section import wheel_section_drawing
from axlewright.drawing.parts_wheel_section_sizes import ObstacleSizes, SectionSizes
from axlewright.drawing.sheet import Sheet
from axlewright.drawing.title_block import Heading

INCH = 25.4
DEGREE = math.pi / 180.0
HEADING = Heading(build="Copper Wren", revision="7", date="2025-03-31", general=0.5)


def shaft(side: str = "left") -> ShaftSizes:
    return ShaftSizes(
        side="left" if side == "left" else "right",
        length=size((31.25 if side == "left" else 29.25) * INCH, 0.8),
        flange_diameter=size(6.5 * INCH),
        flange_thickness=size(9.5),
        register_diameter=limits(70.2, 70.3),
        register_height=size(8.0),
        bolt_circle=size(4.5 * INCH, 0.1),
        studs=5,
        stud_thread="1/2-20",
        stud_diameter=12.7,
        stud_length=size(44.5),
        seat_diameter=Size(39.99, Tolerance(0.013, 0.0)),
        seat_start=size(58.0, 0.2),
        seat_length=size(26.0, 0.2),
        body_diameter=size(36.5, 0.25),
        spline=SplineSizes(
            31, "24/48", size(33.87, 0.05), size(101.6, 1.0), size(42.0), "45°",
            "fillet root", "side fit", size(31.0),
        ),
        material="alloy bar, order by grade",
        hardness="52 to 57 HRC at the skin",
    )  # fmt: skip


def housing(pinion: float = -2.0 * DEGREE) -> HousingSizes:
    quarter = 0.25 * DEGREE
    brackets = []
    for sign in (1.0, -1.0):
        perch = size(sign * 21.75 * INCH, 0.8)
        brackets.append(
            BracketSizes("spring perch", perch, 63.5, size(-55.0, 0.8), size(0.0, quarter))
        )
        upper = size(sign * 10.0 * INCH, 0.8)
        brackets.append(BracketSizes("upper link", upper, 50.0, size(150.0, 0.8)))
    return HousingSizes(
        left=size(27.5 * INCH, 0.8),
        right=size(26.5 * INCH, 0.8),
        tube_diameter=size(82.55),
        tube_wall=size(6.35),
        case_diameter=290.0,
        case_width=330.0,
        pinion_to_left=size(25.4, 0.8),
        pinion_below=size(38.1, 0.1),
        nose=size(330.0, 1.0),
        pinion_angle=size(pinion, quarter),
        end=EndSizes(
            106.0, 90.0, size(88.9, 0.1), size(60.3, 0.1), size(10.3),
            Size(80.01, Tolerance(0.025, 0.0)), size(12.7),
        ),
        brackets=tuple(brackets),
        material="steel tube, cast center",
    )  # fmt: skip


def section(side: str = "left", lip: float = 160.0) -> SectionSizes:
    return SectionSizes(
        side="left" if side == "left" else "right",
        face_to_center=size(29.5 * INCH, 1.5),
        tire_width=size(275.0, 3.0),
        tire_radius=size(340.0, 3.0),
        rim_diameter=15.0 * INCH,
        rim_width=size(9.0 * INCH),
        rim_overall=size(10.0 * INCH),
        backspace=size(5.5 * INCH, 0.8),
        brake_radius=size(140.0),
        brake_depth=size(65.0),
        lip_outward=size(lip, 2.0),
        lip_height=size(300.0, 5.0),
        obstacle=ObstacleSizes("leaf spring", size(195.0, 2.0), size(150.0)),
        outer=Tolerance(4.0, 4.0),
        inner=Tolerance(4.0, 4.0),
    )


def driveshaft(phase: float = 0.0) -> DriveshaftSizes:
    return DriveshaftSizes(
        center_to_center=size(52.0 * INCH, 1.5),
        tube_diameter=size(3.5 * INCH),
        tube_wall=size(0.083 * INCH, 0.1),
        front_yoke=size(82.0, 0.5),
        rear_yoke=size(70.0, 0.5),
        barrel=size(150.0),
        barrel_diameter=48.0,
        spline_diameter=34.0,
        engaged=size(82.0, 3.0),
        free=size(22.0, 3.0),
        front=JointSizes("narrow", size(1.062 * INCH, 0.02), size(3.219 * INCH, 0.05)),
        rear=JointSizes("wide", size(1.188 * INCH, 0.02), size(3.625 * INCH, 0.05)),
        phase=size(phase, DEGREE),
        balance="G16 (ISO 21940-11)",
        speed="6,200 rpm",
        runout=size(0.5),
        material="welded steel tube",
    )


def side_view(parallel: bool = False) -> SideSizes:
    """Links whose lines meet at (1180.3, 258.2), found by hand from their two slopes."""
    upper = ((12.0, 430.0), (562.0, 455.0)) if parallel else ((12.0, 430.0), (420.0, 370.0))
    slope, fall = 25.0 / 550.0, -60.0 / 408.0
    ahead = (430.0 - 12.0 * fall - 205.0 + 10.0 * slope) / (slope - fall)
    center = None if parallel else (ahead, 205.0 + slope * (ahead - 10.0))
    return SideSizes(
        wheelbase=size(108.0 * INCH, 3.0),
        rear_radius=size(335.0, 3.0),
        front_radius=size(320.0, 3.0),
        mass_height=size(550.0, 20.0),
        mass_ahead=size(1290.0, 10.0),
        links=(
            LinkSizes("lower link", (10.0, 205.0), (560.0, 230.0)),
            LinkSizes("upper link", *upper),
        ),
        instant_center=center,
        anti_squat=None if parallel else 1.09,
        pinion_angle=size(-2.0 * DEGREE),
        shaft_angle=size(1.5 * DEGREE),
    )


MADE: dict[str, Callable[[Heading], Sheet]] = {
    "shaft-left": lambda h: shaft_drawing(shaft("left"), h),
    "shaft-right": lambda h: shaft_drawing(shaft("right"), h),
    "housing-down": lambda h: housing_drawing(housing(), h),
    "housing-up": lambda h: housing_drawing(housing(3.0 * DEGREE), h),
    "section-left": lambda h: wheel_section_drawing(section(), h),
    "section-right": lambda h: wheel_section_drawing(section("right", 110.0), h),
    "driveshaft": lambda h: driveshaft_drawing(driveshaft(), h),
    "driveshaft-turned": lambda h: driveshaft_drawing(driveshaft(-12.0 * DEGREE), h),
    "side": lambda h: side_view_drawing(side_view(), h),
    "side-parallel": lambda h: side_view_drawing(side_view(parallel=True), h),
}


def sheets(heading: Heading = HEADING) -> dict[str, Sheet]:
    """All of them on the paper of the heading."""
    return {name: make(heading) for name, make in MADE.items()}
