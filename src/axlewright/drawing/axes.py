"""Axes of the charts: grid, ticks, and what the numbers mean."""

from __future__ import annotations

from axlewright.drawing import palette
from axlewright.drawing.marks import State, margin_bar, patterned
from axlewright.drawing.primitives import Group, Line, Look, Shape, Text
from axlewright.drawing.scales import LinearScale, LogScale
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import DIMENSIONS, from_si, pretty, significant

_GRID = Look(stroke=palette.RULE, width=0.18)
_ONE = Look(stroke=palette.INK, width=0.5)


def margin_axis(scale: LogScale, top: float, bottom: float) -> Group:
    """Ticks above a margin chart; the line at one, where a part just holds, is the heavy one."""
    shapes: list[Shape] = []
    for tick in scale.ticks:
        x = scale.at(tick)
        one = tick == 1.0
        shapes.append(Line((x, top), (x, bottom), _ONE if one else _GRID))
        shapes.append(
            Text((x, top - 1.2), f"{tick:g}", 2.6, "Bold" if one else "Regular", "middle",
                 palette.INK if one else palette.MUTED)
        )  # fmt: skip
    x = scale.at(1.0)
    shapes.append(Text((x - 2.5, top - 4.6), "← gives way", 2.6, anchor="end", color=palette.MUTED))
    shapes.append(Text((x + 2.5, top - 4.6), "holds →", 2.6, color=palette.MUTED))
    return Group(tuple(shapes), cls="axis")


def torque_axis(scale: LinearScale, top: float, bottom: float) -> Group:
    """Ticks of a torque chart in shop units below, the same in SI above."""
    shapes: list[Shape] = []
    for tick in scale.ticks:
        x = scale.at(tick)
        shapes.append(Line((x, top), (x, bottom), _GRID))
        shapes.append(Text((x, bottom + 3.6), significant(tick), 2.6, "Regular", "middle"))
        metric, _ = from_si(tick * DIMENSIONS["torque"].units["lbf*ft"], "torque", "si")
        text = significant(metric, 3)
        shapes.append(Text((x, top - 1.2), text, 2.4, anchor="middle", color=palette.MUTED))
    left = scale.left - 5.0
    shapes.append(Text((left, bottom + 3.6), pretty("lbf*ft"), 2.6, "SemiBold", "end"))
    shapes.append(Text((left, top - 1.2), pretty("N*m"), 2.4, anchor="end", color=palette.MUTED))
    return Group(tuple(shapes), cls="axis")


def margin_legend(x: float, y: float) -> Group:
    """What the patterns and strokes of a margin chart mean, on one line 180 mm long."""
    states: tuple[tuple[State, str], ...] = (
        ("holds", "holds"),
        ("possible", "may be short"),
        ("short", "short"),
        ("unknown", "not known"),
    )
    shapes: list[Shape] = []
    at = x
    for state, word in states:
        shapes.extend(patterned((at, y - 2.2, at + 7, y), state))
        text = Text((at + 8.3, y - 0.15), word, 2.6, color=palette.MUTED)
        shapes.append(text)
        at += 8.3 + text.width + 5
    sample = Finding("", "", 0.5, 0.2, 0.8, "ratio")
    scale = LogScale(0.1, 1.0, at, at + 12, ())
    shapes.append(margin_bar(sample, "holds", scale, y - 1.1, 2.2))
    shapes.append(
        Text((at + 13.5, y - 0.15), "bar: 5 to 95 % of samples · stroke: nominal", 2.6,
             color=palette.MUTED)
    )  # fmt: skip
    return Group(tuple(shapes), cls="legend")
