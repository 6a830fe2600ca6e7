"""How a margin is shown: its state in a word, a color and a pattern, and its bar with band.

Solid holds, dotted may give, hatched is short, an empty frame is not known: the pattern alone says
it on a black-and-white page.  Patterns are drawn as lines and dots, so every renderer has them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from axlewright.drawing import palette
from axlewright.drawing.primitives import Box, Circle, Group, Line, Look, Polygon, Rect, Shape
from axlewright.drawing.scales import LogScale
from axlewright.quantities.finding import Finding, Likelihood
from axlewright.quantities.units import significant

State = Literal["short", "possible", "holds", "unknown"]


@dataclass(frozen=True)
class Mark:
    """How a state is written and painted."""

    word: str
    ink: str
    tint: str


MARKS: dict[State, Mark] = {
    "short": Mark("short", palette.SHORT, palette.SHORT_TINT),
    "possible": Mark("may be short", palette.POSSIBLE, palette.POSSIBLE_TINT),
    "holds": Mark("holds", palette.HOLDS, palette.HOLDS_TINT),
    "unknown": Mark("not known", palette.UNKNOWN, palette.UNKNOWN_TINT),
}


def state_of(margin: Finding | None, likelihood: Likelihood | None) -> State:
    """Short when the nominal margin is below one or likely below; may be short when possible."""
    if margin is None or math.isnan(margin.value):
        return "unknown"
    if margin.value < 1.0 or likelihood == "likely":
        return "short"
    return "possible" if likelihood == "possible" else "holds"


def margin_text(value: float) -> str:
    """A margin in two decimals, never rounded across one."""
    if math.isnan(value):
        return "not known"
    if value >= 10:
        return "over 10"
    text = f"{value:.2f}" if value < 3 else f"{value:.1f}"
    return significant(math.floor(value * 1000) / 1000, 3) if value < 1 <= float(text) else text


def band_text(margin: Finding) -> str:
    """The 5 to 95 % band of a margin."""
    low, high = margin_text(margin.low), margin_text(margin.high)
    return low if low == high else f"{low} to {high}"


def hatch(box: Box, color: str, step: float = 0.9, width: float = 0.28) -> tuple[Line, ...]:
    """Lines rising to the right, cut to a box."""
    left, top, right, bottom = box
    look = Look(stroke=color, width=width)
    lines: list[Line] = []
    run = step * math.sqrt(2)
    for i in range(1, math.ceil((right - left + bottom - top) / run)):
        foot = left + i * run  # x where the line meets the bottom, going up and to the right
        x1, y1 = (foot, bottom) if foot <= right else (right, bottom - (foot - right))
        x2, y2 = foot - (bottom - top), top
        if x2 < left:
            x2, y2 = left, bottom - (foot - left)
        lines.append(Line((x1, y1), (x2, y2), look))
    return tuple(lines)


def dots(box: Box, color: str, step: float = 1.0, radius: float = 0.24) -> tuple[Circle, ...]:
    """Rows of dots, every second row set off by half a step, all inside a box."""
    left, top, right, bottom = box
    look = Look(fill=color, stroke=None)
    rows = max(1, int((bottom - top) / (0.8 * step)))
    found: list[Circle] = []
    for row in range(rows):
        y = top + (bottom - top) * (row + 0.5) / rows
        x = left + (0.5 if row % 2 == 0 else 1.0) * step
        while x + radius <= right:
            found.append(Circle((x, y), radius, look))
            x += step
    return tuple(found)


def patterned(box: Box, state: State) -> tuple[Shape, ...]:
    """A box filled with the pattern of a state."""
    left, top, right, bottom = box
    mark = MARKS[state]
    solid = state == "holds"
    look = Look(
        fill=mark.ink if solid else (palette.PAPER if state == "unknown" else mark.tint),
        stroke=mark.ink,
        width=0.25,
        dash=(0.8, 0.6) if state == "unknown" else (),
    )
    frame = Rect((left, top), right - left, bottom - top, look)
    if state == "short":
        return (frame, *hatch(box, mark.ink))
    return (frame, *dots(box, mark.ink)) if state == "possible" else (frame,)


def margin_bar(margin: Finding, state: State, scale: LogScale, y: float, height: float) -> Group:
    """The band of a margin as a patterned bar on a log axis, a heavy stroke at the nominal value.

    An arrow head at an edge says that the band or the value goes on beyond the axis.
    """
    least = 0.9
    ends = [v if not math.isnan(v) else margin.value for v in (margin.low, margin.high)]
    low, high = sorted(scale.at(v) for v in ends)
    if high - low < least:
        middle = min(max(0.5 * (low + high), scale.left + least / 2), scale.right - least / 2)
        low, high = middle - least / 2, middle + least / 2
    top, bottom = y - height / 2, y + height / 2
    x = scale.at(margin.value)
    shapes: list[Shape] = [*patterned((low, top, high, bottom), state)]
    nominal = Look(stroke=palette.INK, width=0.75)
    halo = Look(stroke=palette.PAPER, width=1.5)
    reach = 0.55
    shapes.append(Line((x, top - reach), (x, bottom + reach), halo))
    shapes.append(Line((x, top - reach), (x, bottom + reach), nominal))
    ink = Look(fill=MARKS[state].ink, stroke=None)
    if max(ends) > scale.high:
        shapes.append(_arrow(scale.right + 0.6, y, 1.3, ink))
    if min(ends) < scale.low:
        shapes.append(_arrow(scale.left - 0.6, y, -1.3, ink))
    return Group(tuple(shapes), cls=f"bar {state}")


def _arrow(x: float, y: float, size: float, look: Look) -> Polygon:
    half = abs(size) * 0.75
    return Polygon(((x, y - half), (x + size, y), (x, y + half)), look)
