"""A sketch with its numbers as a drawing: dimension lines, arrows, leaders and circles."""

from __future__ import annotations

import math
from collections.abc import Mapping

from axlewright.drawing.palette import INK, MUTED, PAPER
from axlewright.drawing.primitives import (
    Circle,
    Drawing,
    Line,
    Look,
    Point,
    Polygon,
    Polyline,
    Shape,
    Text,
)
from axlewright.drawing.sketch_marks import Along, Mark, Sketch, Span, Spot, Turn, ring

BUBBLE = 2.6
"""Radius of the circle around a number."""
_ARROW, _HALF, _PAST, _GAP = 2.2, 0.45, 1.2, 0.8
_THIN = Look(stroke=INK, width=0.2)
_LEAD = Look(stroke=MUTED, width=0.2)


def drawn(sketch: Sketch, numbers: Mapping[str, int]) -> Drawing:
    """The sketch with the numbers of the worksheet."""
    shapes: list[Shape] = list(sketch.body)
    bubbles: list[Shape] = []
    for mark in sketch.marks:
        if mark.name in numbers:
            strokes, center = lines_of(mark)
            shapes += strokes
            bubbles += _bubble(center, numbers[mark.name])
    told = tuple(_upright(s, sketch.height) for s in (*shapes, *bubbles))
    return Drawing(sketch.width, sketch.height, sketch.title, sketch.says, told)


def lines_of(mark: Mark) -> tuple[list[Shape], Point]:
    """The lines of a mark, and where its number stands."""
    match mark:
        case Span():
            return _span(mark)
        case Along():
            return _along(mark)
        case Spot():
            return [Line(mark.number, mark.tip, _LEAD), ring(mark.tip, 0.6, Look(fill=INK))], (
                mark.number
            )
        case Turn():
            return _turn(mark)


def _span(m: Span) -> tuple[list[Shape], Point]:
    across = m.way == "across"
    ends = [(p[0], m.at) if across else (m.at, p[1]) for p in (m.start, m.end)]
    lines: list[Shape] = []
    for point, foot in zip((m.start, m.end), ends, strict=True):
        lines += _extension(point, foot)
    return _measured(lines, ends[0], ends[1], m.share)


def _along(m: Along) -> tuple[list[Shape], Point]:
    (ax, ay), (bx, by) = m.start, m.end
    length = math.dist(m.start, m.end)
    side = (-(by - ay) / length * m.off, (bx - ax) / length * m.off)
    first, last = (ax + side[0], ay + side[1]), (bx + side[0], by + side[1])
    lines: list[Shape] = [*_extension(m.start, first), *_extension(m.end, last)]
    return _measured(lines, first, last, m.share)


def _extension(point: Point, foot: Point) -> list[Shape]:
    """From a point a little past the dimension line."""
    length = math.dist(point, foot)
    if length <= _GAP:
        return []
    way = ((foot[0] - point[0]) / length, (foot[1] - point[1]) / length)
    near = (point[0] + _GAP * way[0], point[1] + _GAP * way[1])
    return [Line(near, (foot[0] + _PAST * way[0], foot[1] + _PAST * way[1]), _THIN)]


def _measured(
    lines: list[Shape], first: Point, last: Point, share: float
) -> tuple[list[Shape], Point]:
    """Dimension line with arrows, inward where there is no room between them."""
    length = math.dist(first, last)
    way = ((last[0] - first[0]) / length, (last[1] - first[1]) / length)
    center = (first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1]))
    roomy = length >= 2.0 * _ARROW + 1.0
    sign = 1.0 if roomy else -1.0
    lines += [
        _head(first, (-sign * way[0], -sign * way[1])),
        _head(last, (sign * way[0], sign * way[1])),
    ]
    reach = 0.0 if roomy else _ARROW + 1.5
    begin = (first[0] - reach * way[0], first[1] - reach * way[1])
    stop = (last[0] + reach * way[0], last[1] + reach * way[1])
    far = [begin, stop, center] if not 0.0 <= share <= 1.0 else [begin, stop]
    ordered = sorted(far, key=lambda p: p[0] * way[0] + p[1] * way[1])
    lines.append(Line(ordered[0], ordered[-1], _THIN))
    return lines, center


def _head(tip: Point, way: Point) -> Polygon:
    back = (tip[0] - _ARROW * way[0], tip[1] - _ARROW * way[1])
    side = (-way[1] * _HALF, way[0] * _HALF)
    return Polygon(
        (tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])),
        Look(fill=INK, stroke=None),
    )


def _turn(m: Turn) -> tuple[list[Shape], Point]:
    """An arc of short strokes between two lines of the angle."""

    def at(degrees: float, radius: float) -> Point:
        t = math.radians(degrees)
        return (m.corner[0] + radius * math.cos(t), m.corner[1] + radius * math.sin(t))

    steps = 12
    arc = tuple(at(m.first + (m.last - m.first) * i / steps, m.radius) for i in range(steps + 1))
    rays: list[Shape] = [Line(m.corner, at(a, m.radius + 4.0), _LEAD) for a in (m.first, m.last)]
    past = m.last + math.copysign(math.degrees((BUBBLE + 1.5) / m.radius), m.last - m.first)
    return [*rays, Polyline(arc, _THIN)], at(past, m.radius)


def _bubble(center: Point, number: int) -> list[Shape]:
    x, y = center
    return [
        Circle(center, BUBBLE, Look(fill=PAPER, stroke=INK, width=0.25)),
        Text((x, y - 1.0), str(number), 2.9, "Bold", "middle"),
    ]


def _upright(shape: Shape, height: float) -> Shape:
    """From y up to y down."""

    def at(p: Point) -> Point:
        return (p[0], height - p[1])

    match shape:
        case Line():
            return Line(at(shape.start), at(shape.end), shape.look, shape.cls)
        case Polyline():
            return Polyline(tuple(at(p) for p in shape.points), shape.look, shape.cls)
        case Polygon():
            return Polygon(tuple(at(p) for p in shape.points), shape.look, shape.cls)
        case Circle():
            return Circle(at(shape.center), shape.radius, shape.look, shape.cls)
        case Text():
            return Text(
                at(shape.at), shape.text, shape.size, shape.weight, shape.anchor, shape.color
            )
        case _:
            raise TypeError(f"a sketch has no {type(shape).__name__}")
