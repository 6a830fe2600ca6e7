"""Distances on paper: extension lines, dimension line, arrows, figure (ISO 129-1, from memory)."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Aligned, Linear, Ordinate
from axlewright.drawing.dimensions_base import (
    ARROW,
    CLEAR,
    GAP,
    LINE,
    PAST,
    TAIL,
    Place,
    ahead,
    along,
    arrow,
    block_of,
    over_under,
    stroke,
    unit,
    width_of,
)
from axlewright.drawing.primitives import Anchor, Point
from axlewright.drawing.sheet_marks import HEIGHT, Mark, Stroke

_LEVEL = 0.2
"""A line flatter than this (sine) carries its figure above and below it."""


def straight(dimension: Linear | Aligned, place: Place, said: tuple[str, ...]) -> tuple[Mark, ...]:
    """Extension lines, dimension line and figure of a distance."""
    way = unit(dimension.angle)
    start, end, through = (place.at(p) for p in (dimension.start, dimension.end, dimension.through))
    if along(end, way) < along(start, way):
        start, end = end, start
    feet = [ahead(through, way, along(p, way) - along(through, way)) for p in (start, end)]
    marks: list[Mark] = []
    for point, foot in zip((start, end), feet, strict=True):
        marks.extend(_extension(point, foot))
    level = abs(way[1]) < _LEVEL
    first, last = feet
    return (*marks, *_measured(first, last, way, said, level, dimension))


def _extension(point: Point, foot: Point) -> tuple[Stroke, ...]:
    length = math.dist(point, foot)
    if length <= GAP:
        return ()
    out = ((foot[0] - point[0]) / length, (foot[1] - point[1]) / length)
    return (stroke(ahead(point, out, GAP), ahead(foot, out, PAST)),)


def _measured(
    first: Point,
    last: Point,
    way: Point,
    said: tuple[str, ...],
    level: bool,
    how: Linear | Aligned,
) -> tuple[Mark, ...]:
    """A dimension line with its arrows and figure."""
    length = math.dist(first, last)
    width, height = width_of(said), LINE * (len(said) - 1) + HEIGHT
    taken = width if level else width * abs(way[0]) + height * abs(way[1])
    back = (-way[0], -way[1])
    if how.outside or taken + 2.0 * (ARROW + CLEAR) > length:
        return _measured_beside(first, last, way, said, level, how)
    heads = (arrow(first, back), arrow(last, way))
    middle = ahead(first, way, 0.5 * length)
    if level:
        return (stroke(first, last), *heads, *over_under(middle, said, "middle", way[1]))
    half = 0.5 * taken + CLEAR
    cut = (stroke(first, ahead(middle, way, -half)), stroke(ahead(middle, way, half), last))
    return (*cut, *heads, *block_of(middle, said, "middle"))


def _measured_beside(
    first: Point,
    last: Point,
    way: Point,
    said: tuple[str, ...],
    level: bool,
    how: Linear | Aligned,
) -> tuple[Mark, ...]:
    """The same with the figure beside one end, and the arrows outside if they do not fit either."""
    back = (-way[0], -way[1])
    inside = math.dist(first, last) >= 2.0 * ARROW + 2.0
    heads = (
        (arrow(first, back), arrow(last, way)) if inside else (arrow(first, way), arrow(last, back))
    )
    tail = TAIL if inside else ARROW + 2.0
    near, other, out = (last, first, way) if how.beside == "end" else (first, last, back)
    begin = other if inside else ahead(other, out, -tail)
    edge = ahead(near, out, tail + how.reach)
    if level:
        stop = ahead(edge, out, width_of(said))
        words = over_under(ahead(edge, out, 0.5 * width_of(said)), said, "middle", way[1])
        return (stroke(begin, stop), *heads, *words)
    height = LINE * (len(said) - 1) + HEIGHT
    stop = ahead(edge, out, height)
    side = -CLEAR if how.to_left else CLEAR
    middle = ahead(edge, out, 0.5 * height)
    words = block_of((middle[0] + side, middle[1]), said, "end" if how.to_left else "start")
    return (stroke(begin, stop), *heads, *words)


def ordinate(dimension: Ordinate, place: Place, said: tuple[str, ...]) -> tuple[Mark, ...]:
    """A line from the feature, and the coordinate at its end."""
    feature, foot = place.at(dimension.feature), place.at(dimension.foot)
    length = math.dist(feature, foot)
    out = ((foot[0] - feature[0]) / length, (foot[1] - feature[1]) / length)
    line = stroke(ahead(feature, out, GAP), foot)
    if dimension.axis == "y":
        anchor: Anchor = "start" if out[0] > 0 else "end"
        return (line, *block_of((foot[0] + math.copysign(CLEAR, out[0]), foot[1]), said, anchor))
    half = 0.5 * (LINE * (len(said) - 1) + HEIGHT)
    side = -CLEAR if dimension.to_left else CLEAR
    middle = (foot[0] + side, foot[1] - math.copysign(half, out[1]))
    return (line, *block_of(middle, said, "end" if dimension.to_left else "start"))
