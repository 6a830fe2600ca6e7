"""The axle shaft from the side, and its flange from outside."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Datum, Diameter, Dimension, Leader, Linear
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import BLANK, length_lines
from axlewright.drawing.parts_shaft_sizes import ShaftSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.views import around, axis, block, bolt_circle, cross, turned


def body_marks(shaft: ShaftSizes, scale: int) -> tuple[Mark, ...]:
    """The shaft from the side, flange face at zero, spline to the right."""
    spline = shaft.spline
    length = shaft.length.value
    thick = shaft.flange_thickness.value
    start, stop = shaft.seat_start.value, shaft.seat_start.value + shaft.seat_length.value
    root = length - spline.length.value
    seat, body = shaft.seat_diameter.value, shaft.body_diameter.value
    major = spline.major_diameter.value
    marks: list[Mark] = [
        *turned((
            (-shaft.register_height.value, 0.0, shaft.register_diameter.value),
            (0.0, thick, shaft.flange_diameter.value),
            (thick, start, max(seat, body) * 1.12),
            (start, stop, seat),
            (stop, root, body),
            (root, length, major),
        )),
        axis(-shaft.stud_length.value - 6.0 * scale, length + 5.0 * scale),
    ]  # fmt: skip
    deep = 0.5 * (spline.minor_diameter.value if spline.minor_diameter else 0.92 * major)
    for height in (-deep, deep):
        marks.append(Stroke(((root, height), (length, height)), "dimension"))
    for _, height in around((0.0, 0.0), 0.5 * shaft.bolt_circle.value, shaft.studs):
        half = 0.5 * shaft.stud_diameter
        marks.append(block(-shaft.stud_length.value, 0.0, height - half, height + half))
    return tuple(marks)


def body_dimensions(shaft: ShaftSizes, scale: int) -> tuple[Dimension, ...]:
    """Lengths in rows below the shaft, diameters on it."""
    foot = -0.5 * shaft.flange_diameter.value
    top = -foot
    length, spline = shaft.length.value, shaft.spline
    start, stop = shaft.seat_start.value, shaft.seat_start.value + shaft.seat_length.value
    root = length - spline.length.value
    seat, body = 0.5 * shaft.seat_diameter.value, 0.5 * shaft.body_diameter.value
    major = 0.5 * spline.major_diameter.value
    face: Point = (0.0, foot)

    def row(number: float) -> Point:
        return (0.0, foot - ROW_STEP * scale * number)

    def over(number: float) -> Point:
        return (0.0, top + ROW_STEP * scale * number)

    found: list[Dimension] = [
        Linear((start, -seat), (stop, -seat), row(3), tolerance=shaft.seat_length.tolerance),
        Linear(face, (start, -seat), row(4), tolerance=shaft.seat_start.tolerance),
        Linear((root, -major), (length, -major), row(1), tolerance=spline.length.tolerance,
               beside="start"),
        Linear(face, (length, -major), row(5), tolerance=shaft.length.tolerance),
        Linear((0.0, top), (shaft.flange_thickness.value, top), over(1), beside="start",
               tolerance=shaft.flange_thickness.tolerance),
        Linear((-shaft.register_height.value, 0.5 * shaft.register_diameter.value), (0.0, top),
               over(2), beside="start", tolerance=shaft.register_height.tolerance),
    ]  # fmt: skip
    if spline.engagement is not None:
        used = length - spline.engagement.value
        found.append(
            Linear((used, -major), (length, -major), row(2), before="in gear", beside="start",
                   tolerance=spline.engagement.tolerance)
        )  # fmt: skip
    for x, half, reach, stated in (
        (0.5 * (start + stop), seat, 1.8 * ROW_STEP, shaft.seat_diameter.tolerance),
        (stop + 0.35 * (root - stop), body, 0.9 * ROW_STEP, shaft.body_diameter.tolerance),
        (root + 0.3 * (length - root), major, 0.0, spline.major_diameter.tolerance),
    ):
        found.append(
            Linear((x, -half), (x, half), (x, 0.0), 0.5 * math.pi, before="Ø", tolerance=stated,
                   reach=reach)
        )  # fmt: skip
    return tuple(found)


def face_datum(shaft: ShaftSizes, scale: int) -> Datum:
    """The flange face, below the lowest stud."""
    foot = -0.5 * shaft.flange_diameter.value
    return Datum((0.0, foot + 1.6 * scale), "A", math.pi, shaft.stud_length.value / scale + 3.0)


def flange_marks(shaft: ShaftSizes, scale: int) -> tuple[Mark, ...]:
    """The flange from outside."""
    over = 0.5 * shaft.flange_diameter.value
    return (
        Ring((0.0, 0.0), over),
        Ring((0.0, 0.0), 0.5 * shaft.register_diameter.value),
        *bolt_circle((0.0, 0.0), shaft.bolt_circle.value, shaft.studs, shaft.stud_diameter),
        *cross((0.0, 0.0), over, 4.0 * scale),
    )


def flange_dimensions(shaft: ShaftSizes, scale: int) -> tuple[Dimension, ...]:
    """Flange, bolt circle and register."""
    center = (0.0, 0.0)
    over = 0.5 * shaft.flange_diameter.value

    def out(radius: float) -> float:
        return (over - radius) / scale + 7.0

    circle, register = 0.5 * shaft.bolt_circle.value, 0.5 * shaft.register_diameter.value
    return (
        Diameter(center, over, math.radians(58),
                 tolerance=shaft.flange_diameter.tolerance),
        Diameter(center, circle, math.radians(122), out(circle),
                 tolerance=shaft.bolt_circle.tolerance),
        Diameter(center, register, math.radians(238), out(register),
                 tolerance=shaft.register_diameter.tolerance),
    )  # fmt: skip


def stud_leader(shaft: ShaftSizes, scale: int) -> Leader:
    """What studs there are."""
    spots = around((0.0, 0.0), 0.5 * shaft.bolt_circle.value, shaft.studs)
    tip = max(spots, key=lambda p: p[0] - 1.5 * p[1])
    knee = (0.5 * shaft.flange_diameter.value + 2.0 * scale,
            -0.5 * shaft.flange_diameter.value - 4.0 * scale)  # fmt: skip
    long = length_lines(shaft.stud_length.value, shaft.stud_length.tolerance, None)
    studs = f"{shaft.studs} × {shaft.stud_thread}" if shaft.stud_thread else f"{BLANK} × {BLANK}"
    return Leader(tip, knee, (studs, f"{long[0]} long", long[1]))
