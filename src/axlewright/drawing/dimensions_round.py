"""Angles, diameters and radii on paper (ISO 129-1, from memory)."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Angular, Diameter, Radius
from axlewright.drawing.dimensions_base import (
    ARROW,
    CLEAR,
    GAP,
    PAST,
    Place,
    ahead,
    arrow,
    block_of,
    over_under,
    stroke,
    unit,
    width_of,
)
from axlewright.drawing.primitives import Anchor, Point
from axlewright.drawing.sheet_marks import HEIGHT, Blot, Bow, Mark


def turned_angle(dimension: Angular, place: Place, said: tuple[str, ...]) -> tuple[Mark, ...]:
    """The arc of an angle, its extension lines and figure."""
    corner, through = place.at(dimension.corner), place.at(dimension.through)
    radius = math.dist(corner, through)
    begin, stop = dimension.first, dimension.first + dimension.value
    marks: list[Mark] = []
    for point, angle in ((dimension.start, begin), (dimension.end, stop)):
        reach = math.dist(corner, place.at(point))
        if reach < radius - GAP:
            ray = unit(angle)
            marks.append(stroke(ahead(corner, ray, reach + GAP), ahead(corner, ray, radius + PAST)))
    width = width_of(said)
    middle = 0.5 * (begin + stop)
    across = abs(math.sin(middle)) * width + abs(math.cos(middle)) * HEIGHT
    if across + 2.0 * (ARROW + CLEAR) <= radius * dimension.value:
        half = (0.5 * across + CLEAR) / radius
        arcs = ((begin, middle - half), (middle + half, stop))
        marks.extend(Bow(corner, radius, a, b, "dimension") for a, b in arcs)
        marks.extend(_arc_heads(corner, radius, begin, stop, outside=False))
        return (*marks, *block_of(ahead(corner, unit(middle), radius), said, "middle"))
    tail = (ARROW + 2.5 + dimension.reach) / radius
    short = (ARROW + 2.5) / radius
    last = dimension.beside == "end"
    marks.append(Bow(corner, radius, begin - (short if last else tail), begin, "dimension"))
    marks.append(Bow(corner, radius, stop, stop + (tail if last else short), "dimension"))
    marks.extend(_arc_heads(corner, radius, begin, stop, outside=True))
    angle, turn = (stop + tail, 1.0) if last else (begin - tail, -1.0)
    spot = ahead(corner, unit(angle), radius)
    heading = unit(angle + turn * 0.5 * math.pi)
    if abs(heading[0]) > abs(heading[1]):
        anchor: Anchor = "start" if heading[0] > 0 else "end"
        return (*marks, *block_of(ahead(spot, heading, CLEAR), said, anchor))
    lifted = ahead(spot, heading, 0.5 * HEIGHT + CLEAR)
    return (*marks, *block_of(lifted, said, "middle"))


def _arc_heads(
    corner: Point, radius: float, begin: float, stop: float, outside: bool
) -> tuple[Blot, Blot]:
    """Arrowheads on both ends of an arc, turned by half their own length to lie on it."""
    lean = 0.5 * ARROW / radius
    turn = -1.0 if outside else 1.0
    heads = []
    for angle, sign in ((begin, -turn), (stop, turn)):
        tangent = unit(angle - sign * lean + sign * 0.5 * math.pi)
        heads.append(arrow(ahead(corner, unit(angle), radius), tangent))
    return (heads[0], heads[1])


def round_size(
    dimension: Diameter | Radius, place: Place, said: tuple[str, ...]
) -> tuple[Mark, ...]:
    """A line through a circle, and a shoulder outside of it with the figure."""
    center, radius = place.at(dimension.center), place.factor * dimension.radius
    ray = unit(dimension.angle)
    back = (-ray[0], -ray[1])
    near, far = ahead(center, ray, radius), ahead(center, ray, -radius)
    knee = ahead(center, ray, radius + dimension.out)
    side = 1.0 if ray[0] >= 0.0 else -1.0
    width = width_of(said)
    stop = (knee[0] + side * (width + 2.0), knee[1])
    words = over_under((knee[0] + side * (0.5 * width + 1.0), knee[1]), said, "middle")
    if isinstance(dimension, Radius):
        return (stroke(center, knee, stop), arrow(near, ray), *words)
    inside = 2.0 * radius >= 3.0 * ARROW
    heads = (arrow(near, ray), arrow(far, back)) if inside else (arrow(near, back),)
    begin = far if inside else near
    return (stroke(begin, knee, stop), *heads, *words)
