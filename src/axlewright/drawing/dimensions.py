"""Dimensions as data: what is measured from where to where, and how far it may be off.

Points are in real millimeters of a view, x to the right and y up; angles in radians.  ``through``
is any point of the dimension line.  The value is worked out from the points, so the figure that is
written cannot differ from what is drawn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from axlewright.drawing.primitives import Point

Beside = Literal["start", "end"]
"""On which side a figure stands that does not fit between its arrows."""


@dataclass(frozen=True)
class Tolerance:
    """How far over and under a value may be (both at least zero), in the unit of the value.

    ``limits`` writes the least and the most instead of the value with its ±.  ``unknown`` says that
    nobody knows the value: what is drawn is a hint, and an empty line stands for the figure.
    """

    plus: float
    minus: float
    limits: bool = False
    unknown: bool = False

    def __post_init__(self) -> None:
        if self.unknown:
            return
        if not (self.plus >= 0.0 and self.minus >= 0.0 and self.plus + self.minus > 0.0):
            raise ValueError(f"no tolerance: +{self.plus:g} -{self.minus:g}; both from zero up")


UNKNOWN = Tolerance(0.0, 0.0, unknown=True)
"""Of a size that nobody knows yet."""


@dataclass(frozen=True)
class Size:
    """A number for a drawing: millimeters, or radians for an angle, with its tolerance if known."""

    value: float
    tolerance: Tolerance | None = None

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise ValueError(f"{self.value} cannot be drawn")


def size(value: float, either_way: float | None = None) -> Size:
    """A size with the same tolerance both ways, or with none stated."""
    return Size(value, None if either_way is None else Tolerance(either_way, either_way))


def hint(value: float) -> Size:
    """A size that nobody knows: drawn so, with an empty line for its figure."""
    return Size(value, UNKNOWN)


def is_known(*sizes: Size) -> bool:
    """Whether all of these are known."""
    return not any(s.tolerance is not None and s.tolerance.unknown for s in sizes)


def limits(least: float, most: float) -> Size:
    """A size that may lie anywhere between two limits."""
    middle = 0.5 * (least + most)
    return Size(middle, Tolerance(most - middle, middle - least, limits=True))


@dataclass(frozen=True)
class _Said:
    """What is written with a figure: words before it and its tolerance.

    A figure that does not fit stands ``beside`` one end, ``reach`` mm on paper further out; on an
    upright line it stands to the right of it, or to the left.  ``outside`` puts it there anyway.
    """

    tolerance: Tolerance | None = field(default=None, kw_only=True)
    before: str = field(default="", kw_only=True)
    beside: Beside = field(default="end", kw_only=True)
    reach: float = field(default=0.0, kw_only=True)
    to_left: bool = field(default=False, kw_only=True)
    outside: bool = field(default=False, kw_only=True)


@dataclass(frozen=True)
class Linear(_Said):
    """A distance along a direction (0 across, π/2 up), whatever the points do the other way."""

    start: Point
    end: Point
    through: Point
    angle: float = 0.0

    @property
    def value(self) -> float:
        """The distance (mm)."""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        return abs(dx * math.cos(self.angle) + dy * math.sin(self.angle))


@dataclass(frozen=True)
class Aligned(_Said):
    """The straight distance of two points."""

    start: Point
    end: Point
    through: Point

    @property
    def angle(self) -> float:
        """Direction from start to end (rad)."""
        return math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])

    @property
    def value(self) -> float:
        """The distance (mm)."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True)
class Angular(_Said):
    """An angle about a corner, counterclockwise from one point to another."""

    corner: Point
    start: Point
    end: Point
    through: Point

    @property
    def first(self) -> float:
        """Direction of the first side (rad)."""
        return math.atan2(self.start[1] - self.corner[1], self.start[0] - self.corner[0])

    @property
    def value(self) -> float:
        """The angle (rad), from zero up to a full turn."""
        last = math.atan2(self.end[1] - self.corner[1], self.end[0] - self.corner[0])
        return (last - self.first) % (2.0 * math.pi)


@dataclass(frozen=True)
class Diameter(_Said):
    """A circle's diameter, written at a direction (rad) outside of it, ``out`` mm on paper away."""

    center: Point
    radius: float
    angle: float
    out: float = 8.0

    @property
    def value(self) -> float:
        """The diameter (mm)."""
        return 2.0 * self.radius


@dataclass(frozen=True)
class Radius(_Said):
    """A circle's radius, written like a diameter."""

    center: Point
    radius: float
    angle: float
    out: float = 8.0

    @property
    def value(self) -> float:
        """The radius (mm)."""
        return self.radius


@dataclass(frozen=True)
class Ordinate(_Said):
    """How far a feature lies from a datum along one axis, written at the end of a line."""

    datum: Point
    feature: Point
    foot: Point
    axis: Literal["x", "y"]

    @property
    def value(self) -> float:
        """How far it is (mm), whichever way."""
        i = 0 if self.axis == "x" else 1
        return abs(self.feature[i] - self.datum[i])


Dimension = Linear | Aligned | Angular | Diameter | Radius | Ordinate


@dataclass(frozen=True)
class Leader:
    """Words that point at something: tip and knee in real millimeters."""

    tip: Point
    knee: Point
    words: tuple[str, ...]
    dot: bool = False


@dataclass(frozen=True)
class Datum:
    """The mark of a datum: a letter in a box, standing on a point in a direction (rad)."""

    at: Point
    letter: str
    angle: float = -math.pi / 2
    out: float = 7.0
