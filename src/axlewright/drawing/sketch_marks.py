"""What a measuring sketch is made of: outlines, and numbered marks where each reading is taken.

Points are millimeters on paper, x to the right and y up.  A mark is drawn only if its reading has a
number on the worksheet.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.palette import FAINT, INK, MUTED, STEEL
from axlewright.drawing.primitives import (
    Anchor,
    Circle,
    Look,
    Point,
    Polygon,
    Polyline,
    Shape,
    Text,
)

PART = Look(fill=STEEL, stroke=INK, width=0.4)
SOFT = Look(fill=FAINT, stroke=INK, width=0.3)
OPEN = Look(stroke=INK, width=0.4)
BODY = Look(stroke=MUTED, width=0.35, dash=(4.0, 1.2, 0.6, 1.2))
CENTER = Look(stroke=MUTED, width=0.2, dash=(5.0, 1.0, 1.0, 1.0))
HIDDEN = Look(stroke=INK, width=0.25, dash=(2.0, 1.0))
GROUND = Look(stroke=INK, width=0.6)


@dataclass(frozen=True)
class Span:
    """A distance across or up; its line stands at ``at`` (y, or x), the number at a share of it.

    Where the distance is short the number may stand outside: a share below 0 or above 1.
    """

    name: str
    start: Point
    end: Point
    at: float
    way: Literal["across", "up"] = "across"
    share: float = 0.5


@dataclass(frozen=True)
class Along:
    """The straight distance of two points, its line set off to the left of the way between."""

    name: str
    start: Point
    end: Point
    off: float = 0.0
    share: float = 0.5


@dataclass(frozen=True)
class Spot:
    """A place that is pointed at."""

    name: str
    tip: Point
    number: Point


@dataclass(frozen=True)
class Turn:
    """A slope: from level (or from ``first``) to ``last``, degrees counterclockwise from +x."""

    name: str
    corner: Point
    radius: float
    first: float
    last: float


Mark = Span | Along | Spot | Turn


@dataclass(frozen=True)
class Sketch:
    """One sketch: ``says`` tells it in words, ``state`` how the car stands for it."""

    key: str
    title: str
    says: str
    width: float
    height: float
    body: tuple[Shape, ...]
    marks: tuple[Mark, ...]

    @property
    def names(self) -> frozenset[str]:
        """Readings that it shows."""
        return frozenset(m.name for m in self.marks)


def area(*points: Point, look: Look = PART) -> Polygon:
    """A closed outline."""
    return Polygon(points, look)


def box(left: float, bottom: float, right: float, top: float, look: Look = PART) -> Polygon:
    """A rectangle."""
    return Polygon(((left, bottom), (right, bottom), (right, top), (left, top)), look)


def path(*points: Point, look: Look = OPEN) -> Polyline:
    """An open line."""
    return Polyline(points, look)


def ring(center: Point, radius: float, look: Look = OPEN) -> Circle:
    """A circle."""
    return Circle(center, radius, look)


def words(at: Point, text: str, anchor: Anchor = "start", size: float = 2.7) -> Text:
    """A few words."""
    return Text(at, text, size, anchor=anchor)


def mirrored(shapes: Iterable[Polygon | Polyline], middle: float) -> tuple[Shape, ...]:
    """Outlines and their mirror image about an upright line."""
    made: list[Shape] = []
    for shape in shapes:
        turned = tuple((2.0 * middle - x, y) for x, y in shape.points)
        made += [shape, type(shape)(turned, shape.look, shape.cls)]
    return tuple(made)
