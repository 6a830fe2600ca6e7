"""Shapes that several views share: turned bodies, center marks, bolt circles."""

from __future__ import annotations

import math

from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Area, Layer, Mark, Ring, Stroke

Profile = tuple[tuple[float, float, float], ...]
"""Steps of a turned body along x: from, to, diameter."""


def turned(steps: Profile, layer: Layer = "visible") -> tuple[Mark, ...]:
    """A turned body from the side: each step of its profile as a rectangle about the x axis."""
    return tuple(
        block(a, b, -0.5 * diameter, 0.5 * diameter, layer) for a, b, diameter in steps if b > a
    )


def block(left: float, right: float, bottom: float, top: float, layer: Layer = "visible") -> Stroke:
    """A rectangle."""
    return Stroke(((left, bottom), (right, bottom), (right, top), (left, top)), layer, closed=True)


def cut(left: float, right: float, bottom: float, top: float, angle: float) -> tuple[Mark, ...]:
    """A rectangle with a cut face."""
    edge = block(left, right, bottom, top)
    return (edge, Area(edge.points, angle))


def cross(center: Point, radius: float, past: float) -> tuple[Stroke, Stroke]:
    """The center lines of a circle, ``past`` further than its edge on every side."""
    (x, y), r = center, radius + past
    return (
        Stroke(((x - r, y), (x + r, y)), "center"),
        Stroke(((x, y - r), (x, y + r)), "center"),
    )


def bolt_circle(
    center: Point, diameter: float, count: int, hole: float, layer: Layer = "visible"
) -> tuple[Mark, ...]:
    """Holes evenly around a center, the first on top, and the circle that they stand on."""
    marks: list[Mark] = [Ring(center, 0.5 * diameter, "center")]
    for spot in around(center, 0.5 * diameter, count):
        marks.append(Ring(spot, 0.5 * hole, layer))
    return tuple(marks)


def around(center: Point, radius: float, count: int) -> tuple[Point, ...]:
    """Points evenly around a center, counterclockwise from the top."""
    angles = (0.5 * math.pi + 2.0 * math.pi * i / count for i in range(count))
    return tuple(
        (center[0] + radius * math.cos(a), center[1] + radius * math.sin(a)) for a in angles
    )


def axis(left: float, right: float, height: float = 0.0) -> Stroke:
    """A center line across."""
    return Stroke(((left, height), (right, height)), "center")
