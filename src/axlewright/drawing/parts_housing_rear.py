"""The housing from behind, left on the left: halves, brackets, pinion."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import UNKNOWN, Dimension, Linear, Ordinate, is_known
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.parts_housing_sizes import HousingSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.views import axis, block, cross

_FIGURE = 30.0
_HALF_FIGURE = 38.0
"""Room that a figure takes across beside a line, and between two arrows (mm on paper)."""


def rear_marks(housing: HousingSizes, scale: int) -> tuple[Mark, ...]:
    """The housing from behind, the differential's center at zero."""
    left, right = -housing.left.value, housing.right.value
    tube, thick = 0.5 * housing.tube_diameter.value, housing.end.thickness.value
    case, half = 0.5 * housing.case_diameter, 0.5 * housing.case_width
    end = 0.5 * housing.end.up
    pinion = (-housing.pinion_to_left.value, -housing.pinion_below.value)
    marks: list[Mark] = [
        block(left, left + thick, -end, end),
        block(right - thick, right, -end, end),
        Stroke(((left + thick, tube), (-half, tube), (-0.7 * half, case), (0.7 * half, case),
                (half, tube), (right - thick, tube))),
        Stroke(((left + thick, -tube), (-half, -tube), (-0.7 * half, -case), (0.7 * half, -case),
                (half, -tube), (right - thick, -tube))),
        Ring((0.0, 0.0), 0.86 * case, "hidden"),
        axis(left - 4.0 * scale, right + 4.0 * scale),
        Stroke(((0.0, -case - 2.0 * scale), (0.0, case + 2.0 * scale)), "center"),
        Ring(pinion, 0.2 * case, "hidden"),
        *cross(pinion, 0.2 * case, 0.8 * scale),
    ]  # fmt: skip
    for bracket in housing.brackets:
        x, w, h = -bracket.where.value, 0.5 * bracket.width, bracket.height.value
        marks.append(Stroke(((x, 0.0), (x, h + math.copysign(2.0 * scale, h))), "center"))
        foot = math.copysign(tube, h)
        if abs(h) > tube:
            marks.append(block(x - w, x + w, min(foot, h), max(foot, h)))
    return tuple(marks)


def rows_below(housing: HousingSizes, scale: int) -> int:
    """Rows of figures below the housing: more where a half is too short for its own figure."""
    short = min(housing.left.value, housing.right.value) / scale
    return 3 if short >= _HALF_FIGURE else 4


def rear_dimensions(housing: HousingSizes, scale: int) -> tuple[Dimension, ...]:
    """Halves and whole below, brackets above, pinion between."""
    left, right = -housing.left.value, housing.right.value
    foot = -0.5 * housing.case_diameter
    end = -0.5 * housing.end.up
    pinion = (-housing.pinion_to_left.value, -housing.pinion_below.value)
    center: Point = (0.0, foot)
    rows = rows_below(housing, scale)

    def row(number: float) -> Point:
        return (0.0, foot - ROW_STEP * scale * number)

    found: list[Dimension] = [
        Linear((left, end), center, row(2), before="left", tolerance=housing.left.tolerance),
        Linear(
            center,
            (right, end),
            row(rows - 1),
            before="right",
            beside="start",
            tolerance=housing.right.tolerance,
        ),
        Linear(
            (left, end),
            (right, end),
            row(rows),
            before="end to end",
            tolerance=None if is_known(housing.left, housing.right) else UNKNOWN,
        ),
    ]
    if housing.pinion_to_left.value:
        found.append(
            Linear(pinion, center, row(1), before="pinion",
                   beside="start" if housing.pinion_to_left.value >= 0.0 else "end",
                   tolerance=housing.pinion_to_left.tolerance)
        )  # fmt: skip
    return (*found, *_bracket_sizes(housing, scale))


def _bracket_sizes(housing: HousingSizes, scale: int) -> tuple[Dimension, ...]:
    """Brackets from the center, figures outward; the further in the higher, so none is crossed."""
    case = 0.5 * housing.case_diameter
    base = max([case, *(b.height.value for b in housing.brackets)]) + 7.0 * scale
    last = {True: (0, math.inf), False: (0, math.inf)}
    found: list[Dimension] = []
    for bracket in sorted(housing.brackets, key=lambda b: -abs(b.where.value)):
        on_left, out = bracket.where.value >= 0.0, abs(bracket.where.value)
        level, further = last[on_left]
        if level == 0 or out + _FIGURE * scale > further:
            level += 1
        last[on_left] = (level, out)
        x, foot = -bracket.where.value, base + ROW_STEP * scale * level
        found.append(
            Ordinate((0.0, 0.0), (x, bracket.height.value), (x, foot), "x", to_left=on_left,
                     tolerance=bracket.where.tolerance)
        )  # fmt: skip
    return tuple(found)
