"""The driveline at one moment of a launch: the torque at each place as a number and a bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.drawing import palette, parts
from axlewright.drawing.primitives import (
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Rect,
    Shape,
    Text,
)

WIDTH, HEIGHT = 214.0, 73.0
_BOX, _TALL = 42.0, 18.0
_BAR_LEFT, _BAR_WIDTH, _BAR_TALL = 2.0, 38.0, 2.6


@dataclass(frozen=True)
class Reading:
    """One place: its value at this moment, and the least and greatest of the whole launch.

    All in the unit that is printed.
    """

    key: str
    title: str
    unit: str
    value: float
    least: float
    most: float


@dataclass(frozen=True)
class Bar:
    """Where the bar of a reading stands: its zero, and its length for each unit, mm."""

    zero: float
    scale: float

    def span(self, value: float) -> tuple[float, float]:
        """Left end and width of the bar at a value."""
        length = self.scale * value
        return (self.zero + min(length, 0.0), abs(length))


_CORNERS: dict[str, tuple[Point, Point]] = {
    "engine": ((1.0, 54.0), (4.6, 48.5)),
    "input": ((1.0, 1.0), (8.6, 30.0)),
    "driveshaft": ((46.5, 1.0), (90.0, 34.0)),
    "ring": ((46.5, 54.0), (138.0, 40.5)),
    "right_shaft": ((92.0, 1.0), (147.0, 21.0)),
    "left_shaft": ((92.0, 54.0), (147.0, 55.0)),
    "right_tire": ((171.0, 1.0), (161.0, 5.6)),
    "left_tire": ((171.0, 54.0), (161.0, 66.4)),
}
"""Upper left corner of the label of each place, and the point of the driveline it belongs to."""


def bar_of(reading: Reading) -> Bar:
    """The bar's own axis: from the least or zero to the greatest or zero."""
    low, high = min(reading.least, 0.0), max(reading.most, 0.0)
    scale = _BAR_WIDTH / (high - low) if high > low else 0.0
    left = _CORNERS[reading.key][0][0] + _BAR_LEFT
    return Bar(left - low * scale, scale)


def launch_picture(title: str, words: str, readings: Sequence[Reading]) -> Drawing:
    """The whole picture."""
    driveline = Group(parts.picture({}), cls="driveline")
    front = Text((24.0, 50.0), "← front, seen from above", 3.4, color=palette.MUTED)
    labels = [_label(r) for r in readings]
    return Drawing(WIDTH, HEIGHT, title, words, (driveline, front, *labels))


def _label(reading: Reading) -> Group:
    (x, y), (tx, ty) = _CORNERS[reading.key]
    ink = Look(stroke=palette.INK, width=0.25)
    target = (tx, ty)
    shapes: list[Shape] = [
        Line(_edge(x, y, target), target, ink),
        Circle(target, 0.6, Look(fill=palette.INK, stroke=None)),
        Rect((x, y), _BOX, _TALL, Look(fill=palette.PAPER, stroke=palette.RULE, width=0.3), 1.2),
        Text((x + 2.0, y + 4.9), reading.title, 4.2, room=_BOX - 4.0),
        Text((x + 2.0, y + 11.6), figure(reading.value), 6.2, "Bold", cls="at-number"),
        Text((x + _BOX - 2.0, y + 11.6), reading.unit, 3.6, "Regular", "end", palette.MUTED),
    ]
    top = y + 13.6
    left, width = bar_of(reading).span(reading.value)
    track = Look(fill=palette.FAINT, stroke=palette.RULE, width=0.2)
    shapes.append(Rect((x + _BAR_LEFT, top), _BAR_WIDTH, _BAR_TALL, track))
    shapes.append(Rect((left, top), width, _BAR_TALL, Look(palette.HOLDS, None), cls="at-bar"))
    zero = bar_of(reading).zero
    shapes.append(Line((zero, top - 0.5), (zero, top + _BAR_TALL + 0.5), Look(width=0.35)))
    return Group(tuple(shapes), id=f"at-{reading.key}", cls="reading")


def figure(value: float) -> str:
    """A number that changes from moment to moment: whole, a minus sign for backward."""
    rounded = round(value, -1) if abs(value) >= 1000.0 else round(value)
    return f"{rounded:,.0f}".replace("-", "−") if rounded else "0"


def _edge(x: float, y: float, target: Point) -> Point:
    """The point of a label's frame that is nearest to its target."""
    return (min(max(target[0], x), x + _BOX), min(max(target[1], y), y + _TALL))
