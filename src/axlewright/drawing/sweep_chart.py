"""How the peak follows one dial at a time: small charts of one height, so that slopes compare."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.drawing import palette
from axlewright.drawing.fonts import shorten, text_width
from axlewright.drawing.primitives import Drawing, Group, Line, Look, Polygon, Polyline, Shape, Text
from axlewright.drawing.time_chart import Scale, round_scale
from axlewright.quantities.units import from_si, pretty, significant
from axlewright.studies.launch_report import Sweep

WIDTH = 186.0
_COLUMNS, _PITCH_X, _PITCH_Y = 3, 62.0, 50.0
_PLOT, _INDENT = (44.0, 29.0), 13.0
_HEADING = 58.0
_GRID = Look(stroke=palette.RULE, width=0.18)
_CURVE = Look(stroke=palette.HOLDS, width=0.75)
_NOW = Look(stroke=palette.INK, width=0.35, dash=(1.0, 0.8))


@dataclass(frozen=True)
class Swept:
    """A sweep, and where the build stands on it (SI; NaN where that is not one number)."""

    sweep: Sweep
    now: float


def sweep_chart(title: str, sweeps: Sequence[Swept]) -> Drawing:
    """The whole chart."""
    every = [v for s in sweeps for v in (*s.sweep.peak, *s.sweep.high) if math.isfinite(v)]
    most = from_si(max(every), "torque")[0]
    shapes: list[Shape] = []
    for i, swept in enumerate(sweeps):
        corner = (_PITCH_X * (i % _COLUMNS), _PITCH_Y * (i // _COLUMNS))
        shapes.append(_small(swept, corner, most))
    height = _PITCH_Y * math.ceil(len(sweeps) / _COLUMNS)
    words = " ".join(_words(s.sweep) for s in sweeps)
    return Drawing(WIDTH, height + 5.0, title, words, (*shapes, _legend(height)))


def _small(swept: Swept, corner: tuple[float, float], most: float) -> Group:
    s = swept.sweep
    left, top = corner[0] + _INDENT, corner[1] + 10.5
    right, bottom = left + _PLOT[0], top + _PLOT[1]
    values = [from_si(v, s.dimension)[0] for v in s.values]
    rounded = round_scale(values[0], values[-1], left, right, 4)
    ticks = tuple(t for t in rounded.ticks if values[0] <= t <= values[-1])
    across = Scale(values[0], values[-1], left, right, ticks)
    up = round_scale(0.0, most, bottom, top, 4)
    shapes: list[Shape] = [
        Text((corner[0] + 1.0, corner[1] + 3.6 + 3.6 * i), line, 2.7, "SemiBold", room=_HEADING)
        for i, line in enumerate(_heading(s.means.rstrip(".")))
        if line
    ]
    for tick in up.ticks:
        y = up.at(tick)
        shapes.append(Line((left, y), (right, y), _GRID))
        shapes.append(Text((left - 1.2, y + 0.9), significant(tick), 2.4, anchor="end"))
    for tick in across.ticks:
        x = across.at(tick)
        shapes.append(Line((x, top), (x, bottom), _GRID))
        text = significant(round(tick, 6))
        shapes.append(Text((x, bottom + 3.4), text, 2.4, anchor="middle"))
    unit = pretty(from_si(1.0, s.dimension)[1])
    if unit:
        shapes.append(Text((right, bottom + 6.6), unit, 2.4, "SemiBold", "end", palette.MUTED))
    shapes.extend(_band(s, values, across, up))
    line = tuple(
        (across.at(v), up.at(from_si(p, "torque")[0])) for v, p in zip(values, s.peak, strict=True)
    )
    shapes.append(Polyline(line, _CURVE))
    now = from_si(swept.now, s.dimension)[0]
    if math.isfinite(now) and values[0] <= now <= values[-1]:
        x = across.at(now)
        shapes.append(Line((x, top), (x, bottom), _NOW))
    return Group(tuple(shapes), id=f"sweep-{s.path}", cls="sweep", title=_words(s))


def _heading(text: str) -> list[str]:
    """A heading on at most two lines."""
    first, rest = "", text.split()
    while rest and text_width(f"{first} {rest[0]}".strip(), 2.7, "SemiBold") <= _HEADING:
        first = f"{first} {rest.pop(0)}".strip()
    return [first, shorten(" ".join(rest), 2.7, _HEADING, "SemiBold")] if rest else ["", first]


def _band(s: Sweep, values: list[float], across: Scale, up: Scale) -> list[Shape]:
    """The band of the samples, as far as there are enough of them."""
    known = [
        (across.at(v), up.at(from_si(low, "torque")[0]), up.at(from_si(high, "torque")[0]))
        for v, low, high in zip(values, s.low, s.high, strict=True)
        if math.isfinite(low) and math.isfinite(high)
    ]
    if len(known) < 2:
        return []
    around = [(x, high) for x, _, high in known] + [(x, low) for x, low, _ in reversed(known)]
    edge = Look(palette.HOLDS_TINT, palette.HOLDS, 0.2, (0.6, 0.6))
    return [Polygon(tuple(around), edge)]


def _legend(y: float) -> Group:
    unit = pretty("lbf*ft")
    said = f"Peak at the ring gear, {unit}. Line: the likeliest car."
    more = "Band: 9 of 10 samples near that setting, all else uncertain. Dashes: as the build is."
    return Group(
        (
            Line((1.0, y + 1.0), (7.0, y + 1.0), _CURVE),
            Text((9.0, y + 2.0), f"{said} {more}", 2.5, color=palette.MUTED, room=WIDTH - 10.0),
        ),
        cls="legend",
    )


def _words(s: Sweep) -> str:
    unit = pretty("lbf*ft")
    ends = [(0, "at"), (-1, "and at")]
    said = " ".join(
        f"{word} {significant(from_si(s.values[i], s.dimension)[0], 3)}"
        f" {pretty(from_si(1.0, s.dimension)[1])}".rstrip()
        + f": {significant(from_si(s.peak[i], 'torque')[0], 3)} {unit}"
        for i, word in ends
    )
    return f"{s.means.rstrip('.')}, {said}."
