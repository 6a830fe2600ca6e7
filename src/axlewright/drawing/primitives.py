"""What a picture is made of: immutable shapes in millimeters, x to the right, y down.

Shapes say how they look in plain values (fill, stroke, width), so that every renderer draws the
same picture; ``cls`` lets a page restyle or find them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.fonts import Weight, text_width
from axlewright.drawing.palette import INK

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Look:
    """How a shape is painted; ``None`` paints nothing."""

    fill: str | None = None
    stroke: str | None = INK
    width: float = 0.25
    dash: tuple[float, ...] = ()


OUTLINE = Look()


@dataclass(frozen=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    look: Look = OUTLINE
    cls: str = ""


@dataclass(frozen=True)
class Polyline:
    """A line through several points."""

    points: tuple[Point, ...]
    look: Look = OUTLINE
    cls: str = ""


@dataclass(frozen=True)
class Polygon:
    """A closed shape with straight sides."""

    points: tuple[Point, ...]
    look: Look = OUTLINE
    cls: str = ""


@dataclass(frozen=True)
class Rect:
    """A rectangle from its upper left corner, with rounded corners if asked."""

    corner: Point
    width: float
    height: float
    look: Look = OUTLINE
    round: float = 0.0
    cls: str = ""


@dataclass(frozen=True)
class Circle:
    """A circle."""

    center: Point
    radius: float
    look: Look = OUTLINE
    cls: str = ""


@dataclass(frozen=True)
class Arc:
    """A piece of a circle from one angle to another (radians, clockwise on the page from +x)."""

    center: Point
    radius: float
    start: float
    end: float
    look: Look = OUTLINE
    cls: str = ""

    def at(self, angle: float) -> Point:
        """The point of the circle at an angle."""
        x, y = self.center
        return (x + self.radius * math.cos(angle), y + self.radius * math.sin(angle))


@dataclass(frozen=True)
class Text:
    """One line of text; ``at`` is on its baseline.  ``room`` is the width that it must fit in.

    ``full`` is the whole text where what is shown was shortened.
    """

    at: Point
    text: str
    size: float = 3.0
    weight: Weight = "Regular"
    anchor: Anchor = "start"
    color: str = INK
    room: float | None = None
    full: str = ""
    cls: str = ""

    @property
    def width(self) -> float:
        """Width by the metrics of the font."""
        return text_width(self.text, self.size, self.weight)


@dataclass(frozen=True)
class Group:
    """Shapes that belong together; ``id`` is made unique by the renderer's prefix."""

    shapes: tuple[Shape, ...]
    id: str = ""
    cls: str = ""
    title: str = ""


Shape = Line | Polyline | Polygon | Rect | Circle | Arc | Text | Group


@dataclass(frozen=True)
class Drawing:
    """A whole picture: its size, what it is called, what it says in words, and its shapes."""

    width: float
    height: float
    title: str
    description: str
    shapes: tuple[Shape, ...]


def flat(shapes: Iterable[Shape]) -> Iterator[Shape]:
    """Every shape, groups opened."""
    for shape in shapes:
        if isinstance(shape, Group):
            yield from flat(shape.shapes)
        else:
            yield shape


def bounds(shape: Shape) -> Box:
    """The box around a shape, line widths left out; an arc counts as its circle."""
    match shape:
        case Line():
            return _around((shape.start, shape.end))
        case Polyline() | Polygon():
            return _around(shape.points)
        case Rect():
            x, y = shape.corner
            return (x, y, x + shape.width, y + shape.height)
        case Circle() | Arc():
            (x, y), r = shape.center, shape.radius
            return (x - r, y - r, x + r, y + r)
        case Text():
            x, y = shape.at
            left = x - shape.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor]
            return (left, y - 0.76 * shape.size, left + shape.width, y + 0.24 * shape.size)
        case Group():
            boxes = [bounds(s) for s in shape.shapes]
            corners = [(b[0], b[1]) for b in boxes] + [(b[2], b[3]) for b in boxes]
            return _around(corners)


def _around(points: Iterable[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))
