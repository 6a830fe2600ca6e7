"""The section through wheel and arch: tire and rim cut, brake, lip and obstacle."""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Datum, Dimension, Leader, Linear
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.parts_wheel_section_sizes import SectionSizes
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import Area, Mark, Stroke
from axlewright.drawing.views import block

_WALL = 11.0
_LIP = 17.0
_DROP = 26.0
_DISC = 9.0
"""Tire wall, height of the rim's lip, depth of its well, its disc: for the picture only (mm)."""


def spot(section: SectionSizes, inward: float, height: float) -> Point:
    """A point so far inward from the wheel's face, as seen from behind."""
    return (inward if section.side == "left" else -inward, height)


def _tire(section: SectionSizes, thinner: float) -> list[Point]:
    """The outline of the tire from its outer bead over the tread to its inner one."""
    bead, bulge = 0.5 * section.rim_width.value, 0.5 * section.tire_width.value - thinner
    low, high = 0.5 * section.rim_diameter, section.tire_radius.value - thinner
    waist = low + 0.45 * (section.tire_radius.value - low)
    tread = 0.8 * bulge
    half: list[Point] = []
    for i in range(11):
        t = 0.05 * math.pi * i
        reach = (bulge - bead) * math.sin(t)
        half.append((bead + reach, low + (waist - low) * (1.0 - math.cos(t))))
    for i in range(1, 11):
        t = 0.05 * math.pi * i
        half.append((tread + (bulge - tread) * math.cos(t), waist + (high - waist) * math.sin(t)))
    outer = [spot(section, section.middle - x, y) for x, y in half]
    inner = [spot(section, section.middle + x, y) for x, y in reversed(half)]
    return outer + inner


def section_marks(section: SectionSizes, scale: int) -> tuple[Mark, ...]:
    """Tire and rim cut, brake behind, lip and obstacle as neighbors."""
    outside, inside = _tire(section, 0.0), _tire(section, _WALL)
    ring = (*outside, *reversed(inside))
    seat, drop = 0.5 * section.rim_diameter, 0.5 * section.rim_diameter - _DROP
    back, front = section.backspace.value, section.backspace.value - section.rim_overall.value
    width = section.rim_width.value
    bead_in, bead_out = section.middle + 0.5 * width, section.middle - 0.5 * width
    barrel = (
        (back, seat + _LIP), (bead_in, seat + _LIP), (bead_in, seat),
        (bead_in - 0.15 * width, seat),
        (bead_in - 0.25 * width, drop), (bead_out + 0.25 * width, drop),
        (bead_out + 0.15 * width, seat), (bead_out, seat), (bead_out, seat + _LIP),
        (front, seat + _LIP),
    )  # fmt: skip
    face, disc = spot(section, 0.0, 0.0)[0], spot(section, -_DISC, 0.0)[0]
    brake = spot(section, section.brake_depth.value, 0.0)[0]
    lip = spot(section, -section.lip_outward.value, section.lip_height.value)
    marks: list[Mark] = [
        Area(ring),
        Stroke(ring, closed=True),
        Stroke(tuple(spot(section, *p) for p in barrel)),
        block(min(disc, face), max(disc, face), 0.0, drop),
        block(min(face, brake), max(face, brake), 0.0, section.brake_radius.value),
        Stroke((spot(section, section.middle, -3.0 * scale),
                spot(section, section.middle, section.tire_radius.value + 3.0 * scale)), "center"),
        Stroke((spot(section, front - 4.0 * scale, 0.0), spot(section, back + 4.0 * scale, 0.0)),
               "center"),
        Stroke(((lip[0] + spot(section, 16.0, 0.0)[0], lip[1]), lip,
                (lip[0] + spot(section, -6.0, 0.0)[0], lip[1] + 18.0 * scale)), "adjacent"),
    ]  # fmt: skip
    if section.obstacle is not None:
        near = section.obstacle.inward.value
        a, b = spot(section, near, 0.0)[0], spot(section, near + 10.0 * scale, 0.0)[0]
        foot = section.obstacle.height.value
        marks.append(block(min(a, b), max(a, b), foot, foot + 14.0 * scale, "adjacent"))
    return tuple(marks)


def section_dimensions(section: SectionSizes, scale: int) -> tuple[Dimension, ...]:
    """Tire width and clearances above, rim and backspace below, heights at the sides."""
    half = 0.5 * section.tire_width.value
    seat = 0.5 * section.rim_diameter
    tall = section.tire_radius.value
    waist = seat + 0.45 * (tall - seat)
    outer, inner = section.middle - half, section.middle + half
    highest = max(tall, section.lip_height.value + 18.0 * scale)
    left = section.side == "left"
    lip = spot(section, -section.lip_outward.value, section.lip_height.value)
    back = spot(section, section.backspace.value, seat)
    front = spot(section, section.backspace.value - section.rim_overall.value, seat)
    face: Point = (0.0, 0.0)
    edge = min(-section.lip_outward.value, outer)

    def over(number: float) -> Point:
        return (0.0, highest + ROW_STEP * scale * number)

    def under(number: float) -> Point:
        return (0.0, -ROW_STEP * scale * number)

    def beyond(inward: float) -> Point:
        return spot(section, inward, 0.0)

    found: list[Dimension] = [
        Linear(spot(section, outer, waist), spot(section, inner, waist), over(2), before="tire",
               tolerance=section.tire_width.tolerance),
        Linear(face, back, under(1), before="backspace", beside="end" if left else "start",
               tolerance=section.backspace.tolerance),
        Linear(front, back, under(2), before="lip to lip",
               tolerance=section.rim_overall.tolerance),
        Linear(lip, spot(section, outer, waist), over(1), before=_word(section.outer_clearance),
               beside="start" if left else "end", tolerance=section.outer),
        Linear(spot(section, section.middle, 0.0), lip, beyond(edge - 16.0 * scale), 0.5 * math.pi,
               tolerance=section.lip_height.tolerance, to_left=left, before="lip"),
        Linear(spot(section, section.middle, 0.0), spot(section, section.middle, tall),
               beyond(edge - 46.0 * scale), 0.5 * math.pi, before="radius", to_left=left,
               tolerance=section.tire_radius.tolerance),
    ]  # fmt: skip
    if section.obstacle is not None and section.inner_clearance is not None:
        side = spot(section, section.obstacle.inward.value, section.obstacle.height.value)
        found.append(
            Linear(spot(section, inner, waist), side, over(1),
                   before=_word(section.inner_clearance), beside="end" if left else "start",
                   tolerance=section.inner)
        )  # fmt: skip
    return tuple(found)


def _word(clearance: float) -> str:
    return "clear" if clearance >= 0.0 else "OVERLAP"


def obstacle_name(section: SectionSizes, scale: int) -> tuple[Leader, ...]:
    """What the obstacle is."""
    if section.obstacle is None:
        return ()
    near, foot = section.obstacle.inward.value, section.obstacle.height.value
    tip = spot(section, near + 5.0 * scale, foot)
    knee = spot(section, near + 12.0 * scale, foot - 7.0 * scale)
    return (Leader(tip, knee, (section.obstacle.name,)),)


def face_datum(section: SectionSizes, scale: int) -> Datum:
    """The wheel's face, marked on its outer side."""
    at = (0.0, 0.4 * section.brake_radius.value)
    return Datum(at, "A", math.pi if section.side == "left" else 0.0, _DISC / scale + 2.5)
