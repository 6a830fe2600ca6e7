"""What a sheet is drawn with: strokes, circles, hatched areas and words, each on a layer.

x to the right, y up.  Inside a view a mark is in real millimeters of the part; on the sheet it is
in millimeters of paper.  Heights of letters and sizes of arrowheads are always those on paper.
Line kinds follow ISO 128-2 and letters ISO 3098 (both from memory): two widths, 0.5 and 0.25 mm,
and letters 2.5 mm high at least.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from axlewright.drawing.fonts import cap_height, text_width
from axlewright.drawing.primitives import Anchor, Box, Point

Layer = Literal[
    "visible", "hidden", "center", "adjacent", "dimension", "text", "hatch", "frame"
]  # fmt: skip

HEIGHT = 2.5
"""Height of a capital letter (mm on paper)."""
LEADING = 1.6
"""Line spacing as a multiple of the height of a capital."""


@dataclass(frozen=True)
class LineKind:
    """How a layer is drawn: width (mm), dashes and gaps (mm), and what it means."""

    width: float
    dash: tuple[float, ...]
    meaning: str


_N = 0.25
LINES: dict[Layer, LineKind] = {
    "visible": LineKind(0.5, (), "edges and outlines that can be seen"),
    "hidden": LineKind(_N, (12 * _N, 3 * _N), "edges that cannot be seen"),
    "center": LineKind(_N, (24 * _N, 3 * _N, 0.5 * _N, 3 * _N), "center lines"),
    "adjacent": LineKind(
        _N, (24 * _N, 3 * _N, 0.5 * _N, 3 * _N, 0.5 * _N, 3 * _N), "neighboring parts"
    ),
    "dimension": LineKind(_N, (), "dimensions, their extension lines and leaders"),
    "text": LineKind(_N, (), "words and tables"),
    "hatch": LineKind(0.18, (), "cut faces"),
    "frame": LineKind(0.5, (), "frame and title block"),
}
"""Layers, in the order in which they are drawn over one another."""


@dataclass(frozen=True)
class Stroke:
    """Straight lines through points."""

    points: tuple[Point, ...]
    layer: Layer = "visible"
    closed: bool = False


@dataclass(frozen=True)
class Ring:
    """A circle."""

    center: Point
    radius: float
    layer: Layer = "visible"


@dataclass(frozen=True)
class Bow:
    """An arc, counterclockwise from one angle to another (rad from the x axis)."""

    center: Point
    radius: float
    start: float
    end: float
    layer: Layer = "visible"


@dataclass(frozen=True)
class Area:
    """A cut face, hatched; ``angle`` (rad) and ``spacing`` (mm on paper) of its lines."""

    points: tuple[Point, ...]
    angle: float = math.pi / 4
    spacing: float = 2.0
    layer: Layer = "hatch"


@dataclass(frozen=True)
class Blot:
    """A filled triangle: an arrowhead."""

    points: tuple[Point, Point, Point]
    layer: Layer = "dimension"


@dataclass(frozen=True)
class Words:
    """One line of words; ``at`` is on its baseline, ``height`` that of a capital (mm on paper)."""

    at: Point
    text: str
    height: float = HEIGHT
    anchor: Anchor = "start"
    bold: bool = False
    layer: Layer = "text"
    full: str = ""

    @property
    def width(self) -> float:
        """Width on paper (mm), by the metrics of the font."""
        return text_width(self.text, font_size(self.height), "Bold" if self.bold else "Regular")


Mark = Stroke | Ring | Bow | Area | Blot | Words


def font_size(height: float) -> float:
    """Size of the font whose capitals have that height."""
    return height / cap_height(1.0)


def lines(
    at: Point, texts: Iterable[str], anchor: Anchor = "start", height: float = HEIGHT
) -> tuple[Words, ...]:
    """Lines of words on paper, one under the other, the first on ``at``."""
    x, y = at
    return tuple(
        Words((x, y - i * LEADING * height), text, height, anchor) for i, text in enumerate(texts)
    )


def placed(mark: Mark, origin: Point, factor: float) -> Mark:
    """A mark at another place and size; letters keep their height."""

    def at(point: Point) -> Point:
        return (origin[0] + factor * point[0], origin[1] + factor * point[1])

    match mark:
        case Stroke() | Area():
            return replace(mark, points=tuple(at(p) for p in mark.points))
        case Blot(points=(a, b, c)):
            return replace(mark, points=(at(a), at(b), at(c)))
        case Ring() | Bow():
            return replace(mark, center=at(mark.center), radius=factor * mark.radius)
        case Words():
            return replace(mark, at=at(mark.at))


def box_of(marks: Iterable[Mark]) -> Box:
    """The box around marks on paper: left, bottom, right, top; an arc counts by its points."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        for x, y in _corners(mark):
            xs.append(x)
            ys.append(y)
    return (min(xs), min(ys), max(xs), max(ys))


def _corners(mark: Mark) -> tuple[Point, ...]:
    match mark:
        case Stroke() | Area() | Blot():
            return mark.points
        case Ring():
            (x, y), r = mark.center, mark.radius
            return ((x - r, y - r), (x + r, y + r))
        case Bow():
            return bow_points(mark)
        case Words():
            x, y = mark.at
            left = x - mark.width * {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
            return ((left, y - 0.3 * mark.height), (left + mark.width, y + mark.height))


def bow_points(bow: Bow, pieces: int = 24) -> tuple[Point, ...]:
    """Points along an arc."""
    (x, y), r = bow.center, bow.radius
    angles = (bow.start + (bow.end - bow.start) * i / pieces for i in range(pieces + 1))
    return tuple((x + r * math.cos(a), y + r * math.sin(a)) for a in angles)
