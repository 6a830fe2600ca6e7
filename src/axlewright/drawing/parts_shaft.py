"""The axle shaft as it is ordered: one sheet for each side, since sides are seldom alike.

All lengths run from the flange face, which is the datum.  Lengths in millimeters.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.dimensions import Datum, Diameter, Dimension, Leader, Linear, Size
from axlewright.drawing.dimensions_text import in_both, length_lines
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet import (
    PAPERS,
    Sheet,
    View,
    above_block,
    notes_high,
    table_low,
)
from axlewright.drawing.sheet_faults import checked
from axlewright.drawing.sheet_layout import Wanted, below, in_row
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.title_block import Heading, titled
from axlewright.drawing.views import around, axis, block, bolt_circle, cross, turned


@dataclass(frozen=True)
class SplineSizes:
    """The spline at the inner end; a text that is empty is a field to fill in."""

    teeth: int
    pitch: str
    major_diameter: Size
    length: Size
    engagement: Size | None = None
    pressure_angle: str = ""
    root: str = ""
    fit: str = ""
    minor_diameter: Size | None = None


@dataclass(frozen=True)
class ShaftSizes:
    """One axle shaft (mm); ``length`` is flange face to spline end.

    ``seat_start`` is the flange face to the near edge of the bearing seat; the register stands out
    from the flange face by ``register_height``.
    """

    side: Literal["left", "right"]
    length: Size
    flange_diameter: Size
    flange_thickness: Size
    register_diameter: Size
    register_height: Size
    bolt_circle: Size
    studs: int
    stud_thread: str
    stud_diameter: float
    stud_length: Size
    seat_diameter: Size
    seat_start: Size
    seat_length: Size
    body_diameter: Size
    spline: SplineSizes
    material: str = ""
    hardness: str = ""


_STEP = 9.5
_TABLE = (40.0, 66.0)
NOTES = (
    "Lengths run from the flange face A.",
    "Left and right are ordered apart: each has its own sheet.",
)


def shaft_drawing(shaft: ShaftSizes, heading: Heading) -> Sheet:
    """The order drawing of one axle shaft."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, spline_rows(shaft))
    notes = notes_high(paper, NOTES)
    left, bottom, right, _ = above_block(paper)
    side = Wanted(lambda scale: _side_view(shaft, scale))
    face = Wanted(lambda scale: _face_view(shaft, scale), (2, 5, 10))
    third = heading.projection == "third"
    views = in_row(
        (face, side) if third else (side, face),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
        first=1 if third else 0,
    )
    scale = next(v.scale for v in views if v.key == "side")
    sheet = Sheet(
        paper=paper,
        title=titled(
            heading, f"Axle shaft, {shaft.side.upper()}", scale, f"shaft, {shaft.side}",
            shaft.material,
        ),
        description=(
            f"The {shaft.side} axle shaft with its flange, seat and spline, "
            f"{shaft.length.value:.1f} mm from flange face to spline end."
        ),
        views=tuple(sorted(views, key=lambda v: v.key, reverse=True)),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
    )  # fmt: skip
    return checked(sheet)


def _side_view(shaft: ShaftSizes, scale: int) -> View:
    """The shaft from the side."""
    foot = -0.5 * shaft.flange_diameter.value / scale
    return View(
        "side", "Seen from the side", (0.0, 0.0), scale,
        _body(shaft, scale), _lengths(shaft, scale),
        datums=(_datum(shaft, scale),),
        name_at=(0.0, foot - 5.8 * _STEP),
    )  # fmt: skip


def _face_view(shaft: ShaftSizes, scale: int) -> View:
    """The flange from outside."""
    return View(
        "flange", "Flange from outside", (0.0, 0.0), scale,
        _flange(shaft, scale), _flange_sizes(shaft, scale),
        leaders=(_studs(shaft, scale),),
        name_at=(-20.0, -0.5 * shaft.flange_diameter.value / scale - 16.0),
    )  # fmt: skip


def spline_rows(shaft: ShaftSizes) -> tuple[tuple[str, str], ...]:
    """What the maker of the spline needs, and heat treatment."""
    spline = shaft.spline
    return (
        ("Spline", ""),
        ("Teeth", str(spline.teeth)),
        ("Pitch", spline.pitch),
        ("Pressure angle", spline.pressure_angle),
        ("Root and fit", ", ".join(t for t in (spline.root, spline.fit) if t)),
        ("Major diameter", in_both(spline.major_diameter)),
        ("Minor diameter", in_both(spline.minor_diameter)),
        ("In the gear, least", in_both(spline.engagement)),
        ("Hardness", shaft.hardness),
    )


def _body(shaft: ShaftSizes, scale: int) -> tuple[Mark, ...]:
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


def _lengths(shaft: ShaftSizes, scale: int) -> tuple[Dimension, ...]:
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
        return (0.0, foot - _STEP * scale * number)

    def over(number: float) -> Point:
        return (0.0, top + _STEP * scale * number)

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
        (0.5 * (start + stop), seat, 1.8 * _STEP, shaft.seat_diameter.tolerance),
        (stop + 0.35 * (root - stop), body, 0.9 * _STEP, shaft.body_diameter.tolerance),
        (root + 0.3 * (length - root), major, 0.0, spline.major_diameter.tolerance),
    ):
        found.append(
            Linear((x, -half), (x, half), (x, 0.0), 0.5 * math.pi, before="Ø", tolerance=stated,
                   reach=reach)
        )  # fmt: skip
    return tuple(found)


def _datum(shaft: ShaftSizes, scale: int) -> Datum:
    """The flange face, below the lowest stud."""
    foot = -0.5 * shaft.flange_diameter.value
    return Datum((0.0, foot + 1.6 * scale), "A", math.pi, shaft.stud_length.value / scale + 3.0)


def _flange(shaft: ShaftSizes, scale: int) -> tuple[Mark, ...]:
    """The flange from outside."""
    over = 0.5 * shaft.flange_diameter.value
    return (
        Ring((0.0, 0.0), over),
        Ring((0.0, 0.0), 0.5 * shaft.register_diameter.value),
        *bolt_circle((0.0, 0.0), shaft.bolt_circle.value, shaft.studs, shaft.stud_diameter),
        *cross((0.0, 0.0), over, 4.0 * scale),
    )


def _flange_sizes(shaft: ShaftSizes, scale: int) -> tuple[Dimension, ...]:
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


def _studs(shaft: ShaftSizes, scale: int) -> Leader:
    """What studs there are."""
    spots = around((0.0, 0.0), 0.5 * shaft.bolt_circle.value, shaft.studs)
    tip = max(spots, key=lambda p: p[0] - 1.5 * p[1])
    knee = (0.5 * shaft.flange_diameter.value + 2.0 * scale,
            -0.5 * shaft.flange_diameter.value - 4.0 * scale)  # fmt: skip
    long = length_lines(shaft.stud_length.value, shaft.stud_length.tolerance, None)
    return Leader(tip, knee, (f"{shaft.studs} × {shaft.stud_thread}", f"{long[0]} long", long[1]))
