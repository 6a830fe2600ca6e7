"""The driveshaft: joint center to joint center, tube, yokes, slip, joints and phase.

Front to the left.  Lengths in millimeters, angles in radians.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlewright.drawing.dimensions import Angular, Datum, Dimension, Leader, Linear, Size
from axlewright.drawing.dimensions_text import angle_line, in_both
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
from axlewright.drawing.sheet_marks import Layer, Mark, Ring, Stroke
from axlewright.drawing.title_block import Heading, titled
from axlewright.drawing.views import axis, block, cross


@dataclass(frozen=True)
class JointSizes:
    """A universal joint: its class, cap diameter, and width over the caps or between the clips."""

    name: str
    cap: Size
    span: Size


@dataclass(frozen=True)
class DriveshaftSizes:
    """A one-piece shaft with a slip yoke at the front (mm).

    ``front_yoke`` and ``rear_yoke`` run from the joint's center to the end of the tube; ``barrel``
    is how far the slip yoke's barrel reaches ahead of the front joint.  ``engaged`` and ``free``
    are the spline in use and the way left before it bottoms, at ride height.  ``phase`` is how far
    the front yoke is turned against the rear one, counterclockwise as seen from the rear.
    """

    center_to_center: Size
    tube_diameter: Size
    tube_wall: Size
    front_yoke: Size
    rear_yoke: Size
    barrel: Size
    barrel_diameter: float
    spline_diameter: float
    engaged: Size
    free: Size
    front: JointSizes
    rear: JointSizes
    phase: Size
    balance: str = ""
    speed: str = ""
    runout: Size | None = None
    material: str = ""


_STEP = 9.5
_TABLE = (40.0, 62.0)
NOTES = (
    "At ride height, weight on the tires. Mark both halves of the slip joint before taking apart.",
    "A turning shaft can kill: fit a safety loop and keep clear.",
)


def driveshaft_drawing(shaft: DriveshaftSizes, heading: Heading) -> Sheet:
    """The order drawing of a driveshaft."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, shaft_rows(shaft))
    notes = notes_high(paper, NOTES)
    left, bottom, right, _ = above_block(paper)
    side = Wanted(lambda scale: _side_view(shaft, scale))
    end = Wanted(lambda scale: _phase_view(shaft, scale), (2, 5))
    third = heading.projection == "third"
    views = in_row(
        (side, end) if third else (end, side),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
        first=0 if third else 1,
    )
    scale = next(v.scale for v in views if v.key == "side")
    sheet = Sheet(
        paper=paper,
        title=titled(heading, "Driveshaft", scale, "driveshaft", shaft.material),
        description=(
            "The driveshaft from the left and its yokes from the rear, "
            f"{shaft.center_to_center.value:.1f} mm between joint centers."
        ),
        views=tuple(sorted(views, key=lambda v: v.key, reverse=True)),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
    )
    return checked(sheet)


def _side_view(shaft: DriveshaftSizes, scale: int) -> View:
    """The shaft from the left."""
    half = 0.5 * shaft.tube_diameter.value / scale
    return View(
        "side", "Seen from the left", (0.0, 0.0), scale,
        _side(shaft, scale), _lengths(shaft, scale),
        datums=(_datum(shaft, scale),),
        name_at=(0.0, -half - 2.8 * _STEP),
    )  # fmt: skip


def _phase_view(shaft: DriveshaftSizes, scale: int) -> View:
    """Both yokes from the rear."""
    half = 0.5 * max(shaft.tube_diameter.value, shaft.rear.span.value) / scale
    return View(
        "phase", _phase_name(shaft.phase.value), (0.0, 0.0), scale,
        _yokes(shaft, scale), _phase_sizes(shaft, scale),
        leaders=_in_line(shaft, scale),
        name_at=(-24.0, -half - 9.0),
    )  # fmt: skip


def shaft_rows(shaft: DriveshaftSizes) -> tuple[tuple[str, str], ...]:
    """Joints, tube, balance."""
    rows = [("Joints and tube", "")]
    for place, joint in (("Front", shaft.front), ("Rear", shaft.rear)):
        rows.append((f"{place} joint", joint.name))
        rows.append((f"{place} cap", in_both(joint.cap)))
        rows.append((f"{place} width", in_both(joint.span)))
    return (
        *rows,
        ("Tube wall", in_both(shaft.tube_wall)),
        ("Balance grade", shaft.balance),
        ("Highest speed", shaft.speed),
        ("Runout, most", in_both(shaft.runout)),
    )


def _side(shaft: DriveshaftSizes, scale: int) -> tuple[Mark, ...]:
    """The shaft from the left, front joint's center at zero."""
    length = shaft.center_to_center.value
    front, rear = shaft.front_yoke.value, length - shaft.rear_yoke.value
    half = 0.5 * shaft.tube_diameter.value
    barrel, spline = 0.5 * shaft.barrel_diameter, 0.5 * shaft.spline_diameter
    mouth = -shaft.barrel.value
    stop = mouth + shaft.engaged.value
    cap_f, cap_r = 0.5 * shaft.front.cap.value, 0.5 * shaft.rear.cap.value
    ear_f, ear_r = 1.7 * cap_f, 1.7 * cap_r
    return (
        block(front, rear, -half, half),
        Stroke(((front, half), (0.5 * front, 0.8 * half), (0.0, ear_f), (-ear_f, 0.6 * ear_f),
                (-ear_f, -0.6 * ear_f), (0.0, -ear_f), (0.5 * front, -0.8 * half),
                (front, -half))),
        Stroke(((rear, half), (0.5 * (rear + length), 0.8 * half), (length, ear_r),
                (length + ear_r, 0.6 * ear_r), (length + ear_r, -0.6 * ear_r), (length, -ear_r),
                (0.5 * (rear + length), -0.8 * half), (rear, -half))),
        Ring((0.0, 0.0), cap_f), *cross((0.0, 0.0), cap_f, 1.5 * scale),
        Ring((length, 0.0), cap_r), *cross((length, 0.0), cap_r, 1.5 * scale),
        block(mouth, -ear_f, -barrel, barrel),
        block(mouth, stop, -spline, spline, "hidden"),
        Stroke(((mouth, spline), (mouth - 8.0 * scale, spline)), "adjacent"),
        Stroke(((mouth, -spline), (mouth - 8.0 * scale, -spline)), "adjacent"),
        axis(mouth - 10.0 * scale, length + ear_r + 4.0 * scale),
    )  # fmt: skip


def _lengths(shaft: DriveshaftSizes, scale: int) -> tuple[Dimension, ...]:
    """Lengths below, slip and tube above."""
    length = shaft.center_to_center.value
    front, rear = shaft.front_yoke.value, length - shaft.rear_yoke.value
    half, barrel = 0.5 * shaft.tube_diameter.value, 0.5 * shaft.barrel_diameter
    mouth = -shaft.barrel.value
    stop = mouth + shaft.engaged.value
    end = stop + shaft.free.value

    def row(number: float) -> Point:
        return (0.0, -half - _STEP * scale * number)

    def over(number: float) -> Point:
        return (0.0, half + _STEP * scale * number)

    middle = 0.6 * front + 0.4 * rear
    return (
        Linear((0.0, 0.0), (front, -half), row(1), beside="end",
               tolerance=shaft.front_yoke.tolerance),
        Linear((rear, -half), (length, 0.0), row(1),
               tolerance=shaft.rear_yoke.tolerance),
        Linear((0.0, 0.0), (length, 0.0), row(2), before="center to center",
               tolerance=shaft.center_to_center.tolerance),
        Linear((mouth, -barrel), (0.0, 0.0), row(2), before="barrel", beside="start",
               tolerance=shaft.barrel.tolerance),
        Linear((mouth, barrel), (stop, barrel), over(2), before="engaged", beside="start",
               tolerance=shaft.engaged.tolerance),
        Linear((stop, barrel), (end, barrel), over(3), before="free", beside="end",
               tolerance=shaft.free.tolerance),
        Linear((middle, -half), (middle, half), (middle, 0.0), 0.5 * math.pi, before="Ø",
               tolerance=shaft.tube_diameter.tolerance),
    )  # fmt: skip


def _phase_name(phase: float) -> str:
    """What the view shows, and which way the front yoke is turned."""
    if not phase:
        return "Phase, from the rear"
    return "Front yoke counterclockwise" if phase > 0.0 else "Front yoke clockwise"


def _yokes(shaft: DriveshaftSizes, scale: int) -> tuple[Mark, ...]:
    """Both yokes of the shaft from the rear: the rear one seen, the front one hidden behind it."""
    half = 0.5 * shaft.rear.span.value
    phase = shaft.phase.value
    marks: list[Mark] = [
        Ring((0.0, 0.0), 0.5 * shaft.tube_diameter.value),
        Stroke(((0.0, -half - 3.0 * scale), (0.0, half + 3.0 * scale)), "center"),
        *_ears(half, 0.5 * shaft.rear.cap.value, 0.0, "visible"),
    ]
    if phase:
        front = 0.5 * shaft.front.span.value
        marks.extend(_ears(front, 0.5 * shaft.front.cap.value, phase, "hidden"))
        out = half + 3.0 * scale
        marks.append(
            Stroke(((out * math.sin(phase), -out * math.cos(phase)),
                    (-out * math.sin(phase), out * math.cos(phase))), "center")
        )  # fmt: skip
    return tuple(marks)


def _ears(reach: float, half: float, turn: float, layer: Layer) -> tuple[Mark, ...]:
    """The two caps of a yoke, turned counterclockwise."""
    found: list[Mark] = []
    for sign in (1.0, -1.0):
        corners = (
            (-half, 0.6 * sign * reach), (half, 0.6 * sign * reach),
            (half, sign * reach), (-half, sign * reach),
        )  # fmt: skip
        points = tuple(
            (x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn))
            for x, y in corners
        )
        found.append(Stroke(points, layer, closed=True))
    return tuple(found)


def _phase_sizes(shaft: DriveshaftSizes, scale: int) -> tuple[Dimension, ...]:
    """The phase, if there is any."""
    phase = shaft.phase.value
    if not phase:
        return ()
    out = 0.5 * shaft.rear.span.value + 5.0 * scale
    top: Point = (0.0, out)
    turned: Point = (-out * math.sin(phase), out * math.cos(phase))
    start, end = (top, turned) if phase > 0.0 else (turned, top)
    return (
        Angular((0.0, 0.0), start, end, top, beside="start", tolerance=shaft.phase.tolerance),
    )  # fmt: skip


def _in_line(shaft: DriveshaftSizes, scale: int) -> tuple[Leader, ...]:
    """Words where the yokes stand in line."""
    if shaft.phase.value:
        return ()
    reach = 0.5 * shaft.rear.span.value
    said = angle_line(0.0, shaft.phase.tolerance)
    return (Leader((0.0, reach), (4.0 * scale, reach + 8.0 * scale), ("phase", said)),)


def _datum(shaft: DriveshaftSizes, scale: int) -> Datum:
    """The front joint's center, marked on its yoke."""
    ear = 0.85 * shaft.front.cap.value
    clear = 10.5 + (0.5 * shaft.tube_diameter.value - ear) / scale
    return Datum((0.0, ear), "A", 0.5 * math.pi, clear)
