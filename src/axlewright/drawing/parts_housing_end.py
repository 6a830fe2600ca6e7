"""The face of a housing end: bolt spacings and bearing bore."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Diameter, Dimension, Leader, Linear
from axlewright.drawing.dimensions_text import in_both, length_lines
from axlewright.drawing.parts_housing_sizes import EndSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Mark, Ring
from axlewright.drawing.views import block, cross


def end_marks(end: EndSizes, scale: int) -> tuple[Mark, ...]:
    """The face of an end."""
    marks: list[Mark] = [
        block(-0.5 * end.across, 0.5 * end.across, -0.5 * end.up, 0.5 * end.up),
        Ring((0.0, 0.0), 0.5 * end.bore.value),
        *cross((0.0, 0.0), 0.5 * end.bore.value, 2.0 * scale),
    ]
    for x, y in _holes(end):
        marks.append(Ring((x, y), 0.5 * end.bolt_hole.value))
        marks.extend(cross((x, y), 0.5 * end.bolt_hole.value, 0.8 * scale))
    return tuple(marks)


def _holes(end: EndSizes) -> tuple[Point, ...]:
    x, y = 0.5 * end.bolts_across.value, 0.5 * end.bolts_up.value
    return ((x, y), (-x, y), (-x, -y), (x, -y))


def end_dimensions(end: EndSizes, scale: int) -> tuple[Dimension, ...]:
    """Bolt spacings and bore."""
    holes = _holes(end)
    return (
        Linear(holes[2], holes[3], (0.0, -0.5 * end.up - 7.0 * scale),
               tolerance=end.bolts_across.tolerance),
        Linear(holes[2], holes[1], (-0.5 * end.across - 6.0 * scale, 0.0), 0.5 * math.pi,
               reach=0.5 * (end.up - end.bolts_up.value) / scale, tolerance=end.bolts_up.tolerance),
        Diameter((0.0, 0.0), 0.5 * end.bore.value, math.radians(20),
                 (0.5 * end.across * 1.06 - 0.5 * end.bore.value) / scale + 5.0,
                 tolerance=end.bore.tolerance),
    )  # fmt: skip


def end_holes(end: EndSizes, scale: int) -> Leader:
    """What holes there are, and how thick the end is."""
    hole = _holes(end)[3]
    knee = (0.5 * end.across + 4.0 * scale, -0.5 * end.up + 1.0 * scale)
    metric, inches = length_lines(end.bolt_hole.value, end.bolt_hole.tolerance, None)
    return Leader(hole, knee, (f"4 × Ø {metric} {inches}", f"{in_both(end.thickness)} thick"))
