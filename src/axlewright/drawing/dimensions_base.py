"""What all dimension lines are put together from: arrowheads, strokes, upright words."""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlewright.drawing.primitives import Anchor, Point
from axlewright.drawing.sheet_marks import HEIGHT, Blot, Stroke, Words

ARROW = 2.5
"""Length of an arrowhead (mm on paper)."""
_HALF = 0.45
GAP = 1.0
"""Room between a feature and its extension line."""
PAST = 1.5
"""How far an extension line goes past the dimension line."""
TAIL = 4.0
CLEAR = 1.0
LINE = 1.55 * HEIGHT
ROW_STEP = 9.5
"""How far rows of figures stand apart (mm)."""


@dataclass(frozen=True)
class Place:
    """Where a view stands on paper: its zero, and paper per real millimeter."""

    origin: Point
    factor: float

    def at(self, point: Point) -> Point:
        """A point of the view on paper."""
        return (
            self.origin[0] + self.factor * point[0],
            self.origin[1] + self.factor * point[1],
        )


def ahead(point: Point, way: Point, length: float) -> Point:
    """The point so far along a way."""
    return (point[0] + length * way[0], point[1] + length * way[1])


def along(point: Point, way: Point) -> float:
    """How far a point lies along a way."""
    return point[0] * way[0] + point[1] * way[1]


def unit(angle: float) -> Point:
    """The way at an angle (rad)."""
    return (math.cos(angle), math.sin(angle))


def stroke(*points: Point) -> Stroke:
    """A thin line of a dimension."""
    return Stroke(points, "dimension")


def arrow(tip: Point, direction: Point) -> Blot:
    """An arrowhead that points along a direction."""
    back = ahead(tip, direction, -ARROW)
    side = (-direction[1], direction[0])
    return Blot((tip, ahead(back, side, _HALF), ahead(back, side, -_HALF)))


def block_of(at: Point, said: tuple[str, ...], anchor: Anchor) -> tuple[Words, ...]:
    """Lines of words whose middle is at the height of ``at``."""
    x, y = at
    top = y + 0.5 * (len(said) - 1) * LINE - 0.5 * HEIGHT
    return tuple(
        Words((x, top - i * LINE), text, anchor=anchor, layer="dimension")
        for i, text in enumerate(said)
    )


def over_under(
    at: Point, said: tuple[str, ...], anchor: Anchor, slope: float = 0.0
) -> tuple[Words, ...]:
    """The first line above a nearly level line (sine of its slope), the second below it."""
    x, y = at
    clear = CLEAR + 0.5 * abs(slope) * width_of(said)
    heights = (y + clear, y - clear - HEIGHT)
    return tuple(
        Words((x, h), text, anchor=anchor, layer="dimension")
        for h, text in zip(heights, said, strict=False)
    )


def width_of(said: tuple[str, ...]) -> float:
    """Width of the longest line (mm)."""
    return max(Words((0.0, 0.0), text).width for text in said)
