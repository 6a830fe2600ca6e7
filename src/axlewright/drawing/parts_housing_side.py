"""The housing from the left, front to the left: pinion with its offset and angle, seats."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Aligned, Angular, Diameter, Dimension, is_known
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.parts_housing_sizes import BracketSizes, HousingSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.views import cross


def _pinion(housing: HousingSizes) -> tuple[Point, Point, Point]:
    """From the left, front to the left: the pinion's foot below the axle, its tip, its way."""
    angle = housing.pinion_angle.value
    way = (-math.cos(angle), math.sin(angle))
    up = (math.sin(angle), math.cos(angle))
    below = housing.pinion_below.value
    foot = (-below * up[0], -below * up[1])
    return (foot, _out(foot, way, housing.nose.value), way)


def _out(point: Point, way: Point, length: float) -> Point:
    return (point[0] + length * way[0], point[1] + length * way[1])


def side_marks(housing: HousingSizes, scale: int) -> tuple[Mark, ...]:
    """The housing from the left, front to the left, axle center at zero."""
    case = 0.5 * housing.case_diameter
    foot, tip, way = _pinion(housing)
    up = (-way[1], way[0]) if way[0] > 0 else (way[1], -way[0])
    wide, narrow = 0.55 * case, 0.28 * case
    throat = _out(foot, way, 0.9 * housing.nose.value)
    marks: list[Mark] = [
        Ring((0.0, 0.0), case),
        Ring((0.0, 0.0), 0.5 * housing.tube_diameter.value),
        Stroke(
            (_on_case(foot, way, up, wide, case), _out(throat, up, narrow),
             _out(throat, up, -narrow), _on_case(foot, way, up, -wide, case))
        ),
        Stroke(
            (_out(throat, up, 0.4 * case), _out(tip, up, 0.4 * case), _out(tip, up, -0.4 * case),
             _out(throat, up, -0.4 * case)), closed=True,
        ),
        *cross((0.0, 0.0), case, 3.0 * scale),
        Stroke((foot, _out(tip, way, 6.0 * scale)), "center"),
    ]  # fmt: skip
    if housing.pinion_angle.value:
        far = case + 22.0 * scale
        marks.append(Stroke((foot, (foot[0] + far, foot[1])), "dimension"))
        marks.append(Stroke((foot, _out(foot, way, -far)), "center"))
    for bracket in {b.name: b for b in housing.brackets}.values():
        marks.extend(_seat(bracket, 0.5 * housing.tube_diameter.value))
    return tuple(marks)


def _on_case(foot: Point, way: Point, up: Point, aside: float, case: float) -> Point:
    """Where the side of the nose, ``aside`` from the pinion's axis, comes out of the case."""
    x, y = _out(foot, up, aside)
    along = x * way[0] + y * way[1]
    return _out((x, y), way, math.sqrt(along**2 - x**2 - y**2 + case**2) - along)


def _seat(bracket: BracketSizes, tube: float) -> tuple[Mark, ...]:
    """A bracket from the left: its seat, turned with the front up, and its sides to the tube."""
    angle = 0.0 if bracket.angle is None else bracket.angle.value
    way = (-math.cos(angle), math.sin(angle))
    up = (math.sin(angle), math.cos(angle))
    middle = _out((0.0, 0.0), up, bracket.height.value)
    half = min(0.5 * bracket.width, 0.9 * tube)
    rise = math.sqrt(tube**2 - half**2) * math.copysign(1.0, bracket.height.value)
    base = _out((0.0, 0.0), up, rise)
    return (
        Stroke((_out(base, way, half), _out(middle, way, half), _out(middle, way, -half),
                _out(base, way, -half))),
    )  # fmt: skip


def side_dimensions(housing: HousingSizes, scale: int) -> tuple[Dimension, ...]:
    """Nose length, pinion offset and angle, tube."""
    case = 0.5 * housing.case_diameter
    foot, tip, way = _pinion(housing)
    angle = housing.pinion_angle.value
    lower = _out((0.5 * tip[0], 0.5 * tip[1]), (0.0, -1.0), case + 1.2 * ROW_STEP * scale)
    found: list[Dimension] = [
        Diameter((0.0, 0.0), 0.5 * housing.tube_diameter.value, math.radians(45),
                 (case - 0.5 * housing.tube_diameter.value) / scale + 10.0, before="tube",
                 tolerance=housing.tube_diameter.tolerance),
        Aligned(foot, tip, lower, before="nose", beside="start", tolerance=housing.nose.tolerance),
    ]  # fmt: skip
    if housing.pinion_below.value:
        found.append(
            Aligned(foot, (0.0, 0.0), (case + 6.0 * scale, 0.0), before="below",
                    tolerance=housing.pinion_below.tolerance)
        )  # fmt: skip
    if angle:
        far = case + 18.0 * scale
        level, back = (foot[0] + far, foot[1]), _out(foot, way, -far)
        start, end = (back, level) if angle > 0.0 else (level, back)
        way_up = "nose up" if angle > 0.0 else "nose down"
        found.append(
            Angular(foot, start, end, level, beside="start",
                    before=way_up if is_known(housing.pinion_angle) else "pinion",
                    tolerance=housing.pinion_angle.tolerance)
        )  # fmt: skip
    return tuple(found)
