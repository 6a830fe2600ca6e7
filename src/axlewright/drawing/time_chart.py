"""Curves over time, one panel below the other on the same axis, each curve named at its end.

Curves are told apart by dash, weight and name, so that a black-and-white page says the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.drawing import palette
from axlewright.drawing.fonts import shorten
from axlewright.drawing.primitives import Circle, Drawing, Group, Line, Look, Polyline, Shape, Text
from axlewright.quantities.units import significant

WIDTH, LEFT, RIGHT = 130.0, 13.0, 103.0
"""Page width, and where the time axis begins and ends, mm."""
_TOP, _GAP, _FOOT = 5.5, 8.0, 8.0
_NAMES = RIGHT + 5.5
_PITCH = 3.2
_TRIFLE = 0.02
_FLAT = 1e-9
"""Values nearer than this are one value."""
_GRID = Look(stroke=palette.RULE, width=0.18)
_ZERO = Look(stroke=palette.MUTED, width=0.3)
_PEN = (
    Look(stroke=palette.HOLDS, width=0.75),
    Look(stroke=palette.INK, width=0.45),
    Look(stroke=palette.POSSIBLE, width=0.6, dash=(2.2, 0.9)),
    Look(stroke=palette.INK, width=0.45, dash=(0.5, 0.9)),
    Look(stroke=palette.MUTED, width=0.55, dash=(3.0, 0.8, 0.5, 0.8)),
)


@dataclass(frozen=True)
class Trace:
    """One curve in the unit of its panel; ``peak`` marks its greatest value."""

    name: str
    values: tuple[float, ...]
    peak: bool = False


@dataclass(frozen=True)
class Panel:
    """Curves that share a unit; ``title`` says what and in which unit."""

    key: str
    title: str
    traces: tuple[Trace, ...]
    height: float = 20.0


@dataclass(frozen=True)
class Scale:
    """A linear axis with round ticks, zero among them or beyond an end."""

    low: float
    high: float
    start: float
    end: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        """Place of a value on the page."""
        share = (value - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)


def round_scale(low: float, high: float, start: float, end: float, count: int) -> Scale:
    """An axis from at or below ``low`` to at or above ``high`` with about so many steps."""
    reach = high - low if high - low > _FLAT else max(abs(high), 1.0)
    rough = reach / count
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * m for m in (1.0, 2.0, 2.5, 5.0, 10.0) if power * m >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil((low + reach) / step - 1e-9)
    ticks = tuple(step * i for i in range(first, last + 1))
    return Scale(ticks[0], ticks[-1], start, end, ticks)


def time_scale(time: Sequence[float]) -> Scale:
    """The time axis that all panels share; it ends with the last moment."""
    rounded = round_scale(time[0], time[-1], LEFT, RIGHT, 6)
    ticks = tuple(t for t in rounded.ticks if t <= time[-1] + 1e-9)
    return Scale(time[0], time[-1], LEFT, RIGHT, ticks)


def time_chart(
    title: str, words: str, time: tuple[float, ...], panels: Sequence[Panel], cursor: bool = False
) -> Drawing:
    """The whole chart; ``cursor`` adds a line at the start of time for a page to move."""
    across = time_scale(time)
    shapes: list[Shape] = []
    marks: list[Shape] = []
    top = _TOP
    for panel in panels:
        bottom = top + panel.height
        shapes.append(_panel(panel, time, across, top, bottom))
        marks.append(Line((LEFT, top), (LEFT, bottom), Look(stroke=palette.INK, width=0.4)))
        top = bottom + _GAP
    foot = top - _GAP
    shapes.append(_seconds(across, foot))
    if cursor:
        shapes.append(Group(tuple(marks), id="cursor", cls="cursor"))
    return Drawing(WIDTH, foot + _FOOT, title, words, tuple(shapes))


def _seconds(across: Scale, foot: float) -> Group:
    y = foot + 4.0
    shapes: list[Shape] = [
        Text((across.at(t), y), significant(round(t, 6)), 2.6, anchor="middle")
        for t in across.ticks
    ]
    shapes.append(Text((_NAMES, y), "seconds", 2.6, "SemiBold", color=palette.MUTED))
    return Group(tuple(shapes), cls="axis")


def _panel(
    panel: Panel, time: tuple[float, ...], across: Scale, top: float, bottom: float
) -> Group:
    values = [v for t in panel.traces for v in t.values]
    count = 5 if panel.height > 30.0 else 3
    least, most = min(0.0, *values), max(0.0, *values)
    # A trifle below zero is worth no room of its own.
    up = round_scale(least if -least > _TRIFLE * most else 0.0, most, bottom, top, count)
    shapes: list[Shape] = [
        Text((1.0, top - 2.0), panel.title, 2.6, "SemiBold", color=palette.MUTED, room=WIDTH - 2.0)
    ]
    for t in across.ticks:
        shapes.append(Line((across.at(t), top), (across.at(t), bottom), _GRID))
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line((LEFT, y), (RIGHT, y), _ZERO if tick == 0.0 else _GRID))
        shapes.append(Text((LEFT - 1.2, y + 0.9), _figure(tick), 2.5, anchor="end"))
    for trace, pen in reversed(list(zip(panel.traces, _PEN, strict=False))):
        shapes.append(_curve(trace, pen, time, across, up))
    shapes.extend(_names(panel.traces, up, top, bottom))
    return Group(tuple(shapes), id=panel.key, cls="panel-of-time")


def _figure(value: float) -> str:
    return significant(round(value, 9), 4).replace("-", "−")


def _curve(trace: Trace, pen: Look, time: Sequence[float], across: Scale, up: Scale) -> Group:
    points = tuple((across.at(t), up.at(v)) for t, v in zip(time, trace.values, strict=True))
    shapes: list[Shape] = [Polyline(points, pen)]
    if trace.peak:
        most = max(range(len(points)), key=lambda i: trace.values[i])
        x, y = points[most]
        shapes.append(Circle((x, y), 0.8, Look(fill=palette.PAPER, stroke=pen.stroke, width=0.4)))
        said = f"peak {significant(trace.values[most], 4)}"
        end = x > 0.75 * RIGHT
        at = (x + (-1.5 if end else 1.5), max(y - 1.0, up.end + 2.4))
        shapes.append(Text(at, said, 2.6, "Bold", "end" if end else "start"))
    return Group(tuple(shapes), cls="curve", title=trace.name)


def _names(traces: Sequence[Trace], up: Scale, top: float, bottom: float) -> list[Shape]:
    """Names beside the ends of the curves, moved apart where they would stand on each other."""
    ends = [up.at(t.values[-1]) for t in traces]
    order = sorted(range(len(traces)), key=lambda i: ends[i])
    places = _apart([ends[i] for i in order], top + 0.5, bottom)
    shapes: list[Shape] = []
    for i, y in zip(order, places, strict=True):
        pen = _PEN[i]
        thin = Look(stroke=palette.RULE, width=0.2)
        shapes.append(Line((RIGHT, ends[i]), (RIGHT + 1.5, y), thin))
        shapes.append(Line((RIGHT + 1.5, y), (_NAMES - 0.8, y), pen))
        room = WIDTH - _NAMES
        name = shorten(traces[i].name, 2.5, room, "SemiBold")
        shapes.append(Text((_NAMES, y + 0.9), name, 2.5, "SemiBold", room=room))
    return shapes


def _apart(places: Sequence[float], top: float, bottom: float) -> list[float]:
    """Rising places at least a line apart, as near to their own as that allows."""
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + _PITCH) if found else max(place, top))
    over = max(0.0, found[-1] - bottom)
    limit = bottom
    for i in reversed(range(len(found))):
        found[i] = min(found[i], limit) if over else found[i]
        limit = found[i] - _PITCH
    return found
