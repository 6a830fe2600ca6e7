"""The driveshaft from the left, front to the left, and its yokes from the rear."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Angular, Datum, Dimension, Leader, Linear
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import angle_line
from axlewright.drawing.parts_driveshaft_sizes import DriveshaftSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Layer, Mark, Ring, Stroke
from axlewright.drawing.views import axis, block, cross


def side_marks(shaft: DriveshaftSizes, scale: int) -> tuple[Mark, ...]:
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


def side_dimensions(shaft: DriveshaftSizes, scale: int) -> tuple[Dimension, ...]:
    """Lengths below, slip and tube above."""
    length = shaft.center_to_center.value
    front, rear = shaft.front_yoke.value, length - shaft.rear_yoke.value
    half, barrel = 0.5 * shaft.tube_diameter.value, 0.5 * shaft.barrel_diameter
    mouth = -shaft.barrel.value
    stop = mouth + shaft.engaged.value
    end = stop + shaft.free.value

    def row(number: float) -> Point:
        return (0.0, -half - ROW_STEP * scale * number)

    def over(number: float) -> Point:
        return (0.0, half + ROW_STEP * scale * number)

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


def yoke_marks(shaft: DriveshaftSizes, scale: int) -> tuple[Mark, ...]:
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


def phase_dimensions(shaft: DriveshaftSizes, scale: int) -> tuple[Dimension, ...]:
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


def in_line_leader(shaft: DriveshaftSizes, scale: int) -> tuple[Leader, ...]:
    """Words where the yokes stand in line."""
    if shaft.phase.value:
        return ()
    reach = 0.5 * shaft.rear.span.value
    said = angle_line(0.0, shaft.phase.tolerance)
    return (Leader((0.0, reach), (4.0 * scale, reach + 8.0 * scale), ("phase", said)),)


def joint_datum(shaft: DriveshaftSizes, scale: int) -> Datum:
    """The front joint's center, marked on its yoke."""
    ear = 0.85 * shaft.front.cap.value
    clear = 10.5 + (0.5 * shaft.tube_diameter.value - ear) / scale
    return Datum((0.0, ear), "A", 0.5 * math.pi, clear)
