"""The car from the left, front to the left: ground, wheels, links, anti-squat line."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Angular, Dimension, Leader, Linear
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import angle_line
from axlewright.drawing.parts_side_view_sizes import SideSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.views import cross

_BEHIND, _AHEAD = 0.15, 1.13
"""Where the hint of a body ends, as shares of the wheelbase ahead of the rear axle."""
_SHARES = (0.56, 0.68, 0.8, 0.35)
_APART = 0.1
"""Where the slope of the anti-squat line may be written, and how far from other uprights."""
_FAR = 1.15
"""An instant center further ahead than this share of the wheelbase is written, not drawn."""


def drawable(car: SideSizes) -> bool:
    """Whether the instant center is near enough to be drawn."""
    if car.instant_center is None:
        return False
    ahead, up = car.instant_center
    return 0.0 < ahead <= _FAR * car.wheelbase.value and 0.0 <= up <= height_of(car)


def _at(point: Point) -> Point:
    """From ahead-and-up to the page, where the front is on the left."""
    return (-point[0], point[1])


def height_of(car: SideSizes) -> float:
    """How high the picture may reach (mm)."""
    return max(0.5 * car.wheelbase.value, 1.6 * car.mass_height.value)


def car_marks(car: SideSizes, scale: int) -> tuple[Mark, ...]:
    """Ground, wheels, a hint of the body, links and their lines."""
    base, rear, front = car.wheelbase.value, car.rear_radius.value, car.front_radius.value
    tall = 0.46 * base
    sill, deck = 0.6 * rear, 0.3 * base
    outline = (
        (-0.99 * _BEHIND * base, sill), (-_BEHIND * base, deck), (-0.02 * base, 1.04 * deck),
        (0.14 * base, tall), (0.5 * base, tall), (0.68 * base, 1.02 * deck),
        (0.99 * _AHEAD * base, 0.92 * deck), (_AHEAD * base, sill),
    )  # fmt: skip
    marks: list[Mark] = [
        Stroke((_at((-_BEHIND * base, 0.0)), _at((_AHEAD * base, 0.0)))),
        Ring(_at((0.0, rear)), rear),
        Ring(_at((base, front)), front),
        *cross(_at((0.0, rear)), 0.0, 5.0 * scale),
        Stroke((_at((base, 0.0)), _at((base, deck))), "center"),
        Stroke(tuple(_at(p) for p in outline), "adjacent"),
        *_mass(car, scale),
    ]
    for link in car.links:
        marks.append(Stroke((_at(link.axle), _at(link.body))))
        marks.extend(Ring(_at(p), 1.0 * scale) for p in (link.axle, link.body))
        if drawable(car):
            assert car.instant_center is not None
            marks.append(Stroke((_at(link.body), _at(car.instant_center)), "center"))
    marks.extend(_squat(car, scale))
    return tuple(marks)


def _mass(car: SideSizes, scale: int) -> tuple[Mark, ...]:
    """The center of mass, and the height at which all squat is taken up."""
    center = _at((car.mass_ahead.value, car.mass_height.value))
    level = (
        _at((0.0, car.mass_height.value)),
        _at((car.wheelbase.value, car.mass_height.value)),
    )
    return (Ring(center, 1.8 * scale), *cross(center, 1.8 * scale, 1.2 * scale),
            Stroke(level, "adjacent"))  # fmt: skip


def _squat(car: SideSizes, scale: int) -> tuple[Mark, ...]:
    """The line from the rear contact through the instant center to the front axle."""
    if car.instant_center is None or not drawable(car):
        return ()
    ahead, up = car.instant_center
    base = car.wheelbase.value
    return (
        Stroke((_at((0.0, 0.0)), _at((base, up * base / ahead))), "dimension"),
        Ring(_at(car.instant_center), 1.2 * scale, "dimension"),
        *cross(_at(car.instant_center), 1.2 * scale, 1.5 * scale),
    )


def car_dimensions(car: SideSizes, scale: int) -> tuple[Dimension, ...]:
    """Wheelbase and instant center below, heights in front, angles at the links."""
    base = car.wheelbase.value
    rear: Point = (0.0, 0.0)

    def row(number: float) -> Point:
        return (0.0, -ROW_STEP * scale * number)

    mass = car.mass_ahead.value
    found: list[Dimension] = [
        Linear(_at((base, 0.0)), rear, row(2), before="wheelbase",
               tolerance=car.wheelbase.tolerance),
        Linear(_at((mass, 0.0)), _at((mass, car.mass_height.value)), _at((mass, 0.0)),
               0.5 * math.pi, before="mass", outside=True, tolerance=car.mass_height.tolerance),
    ]  # fmt: skip
    if car.instant_center is not None and drawable(car):
        ahead, up = car.instant_center
        found.append(Linear(_at((ahead, 0.0)), rear, row(1), before="center ahead"))
        found.append(
            Linear(_at((ahead, 0.0)), _at(car.instant_center), _at((ahead, 0.0)), 0.5 * math.pi,
                   beside="start", to_left=True, outside=True)
        )  # fmt: skip
        meets = math.atan2(up, ahead)
        if meets > 0.0:
            found.append(_line_angle(car, meets))
    return tuple(found)


def _line_angle(car: SideSizes, meets: float) -> Angular:
    """The slope of the anti-squat line at the rear contact."""
    base = car.wheelbase.value
    assert car.instant_center is not None
    busy = (car.instant_center[0] / base, car.mass_ahead.value / base)
    free = [share for share in _SHARES if all(abs(share - b) > _APART for b in busy)]
    reach = (free or _SHARES)[0] * base
    level: Point = (-reach, 0.0)
    line: Point = (-reach * math.cos(meets), reach * math.sin(meets))
    return Angular((0.0, 0.0), line, level, level)


def car_leaders(car: SideSizes, scale: int) -> tuple[Leader, ...]:
    """Names of the links with their slopes, and what the anti-squat line stands for."""
    found: list[Leader] = []
    right = _BEHIND * car.wheelbase.value + 2.0 * scale
    high = 1.3 * car.rear_radius.value
    for i, link in enumerate(sorted(car.links, key=lambda k: -k.body[1])):
        words = f"{link.name} {angle_line(link.slope, None)}"
        middle = tuple(0.5 * (a + b) for a, b in zip(link.axle, link.body, strict=True))
        found.append(
            Leader(_at((middle[0], middle[1])), (right, high - 7.0 * scale * i), (words,), True)
        )
    if car.anti_squat is not None and car.instant_center is not None and drawable(car):
        ahead, up = car.instant_center
        base = car.wheelbase.value
        tip = _at((0.92 * base, 0.92 * up * base / ahead))
        knee = _at((0.92 * base + 3.0 * scale, 0.3 * base + 7.0 * scale))
        found.append(Leader(tip, knee, (f"anti-squat {100.0 * car.anti_squat:.0f} %",)))
    return tuple(found)
