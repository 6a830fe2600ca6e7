"""Hatching: parallel lines cut to a closed outline."""

from __future__ import annotations

import math

from axlewright.drawing.primitives import Point


def hatch_lines(
    points: tuple[Point, ...], angle: float, spacing: float
) -> tuple[tuple[Point, Point], ...]:
    """Lines at an angle (rad), ``spacing`` apart, inside a polygon (even-odd rule)."""
    along = (math.cos(angle), math.sin(angle))
    across = (-along[1], along[0])
    turned = [(_dot(p, along), _dot(p, across)) for p in points]
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    found: list[tuple[Point, Point]] = []
    level = (math.floor(low / spacing) + 0.5) * spacing
    while level < high:
        cuts = sorted(_cuts(turned, level))
        for a, b in zip(cuts[::2], cuts[1::2], strict=True):
            found.append((_back(a, level, along, across), _back(b, level, along, across)))
        level += spacing
    return tuple(found)


def _cuts(points: list[Point], level: float) -> list[float]:
    """Where the sides of a polygon cross a level."""
    cuts = []
    for (u1, v1), (u2, v2) in zip(points, [*points[1:], points[0]], strict=True):
        if (v1 <= level) != (v2 <= level):
            cuts.append(u1 + (u2 - u1) * (level - v1) / (v2 - v1))
    return cuts


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _back(u: float, v: float, along: Point, across: Point) -> Point:
    return (u * along[0] + v * across[0], u * along[1] + v * across[1])
