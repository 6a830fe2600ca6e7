"""The car from the left with its rear links: instant center, anti-squat line, angles.

Points are measured from below the rear axle: ahead of it, and above the ground.  Lengths in
millimeters, angles in radians.  The car's outline is only a hint.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlewright.drawing.dimensions import Angular, Dimension, Leader, Linear, Size
from axlewright.drawing.dimensions_text import INCH, angle_line, figure
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet import (
    PAPERS,
    Sheet,
    View,
    above_block,
    notes_high,
    table_low,
)
from axlewright.drawing.sheet_faults import checked
from axlewright.drawing.sheet_layout import Wanted, below, in_row
from axlewright.drawing.sheet_marks import Mark, Ring, Stroke
from axlewright.drawing.title_block import Heading, titled
from axlewright.drawing.views import cross


@dataclass(frozen=True)
class LinkSizes:
    """A link in side view: its ends on the axle and on the body (ahead, up)."""

    name: str
    axle: Point
    body: Point

    @property
    def slope(self) -> float:
        """Its angle, above zero with the front end higher (rad)."""
        return math.atan2(self.body[1] - self.axle[1], self.body[0] - self.axle[0])


@dataclass(frozen=True)
class SideSizes:
    """The car from the left.

    ``instant_center`` is None where the links are parallel; ``anti_squat`` is a share (1 is all),
    worked out elsewhere and written as it is given.  ``pinion_angle`` and ``shaft_angle`` are above
    zero with the front end up.
    """

    wheelbase: Size
    rear_radius: Size
    front_radius: Size
    mass_height: Size
    mass_ahead: Size
    links: tuple[LinkSizes, ...]
    instant_center: Point | None = None
    anti_squat: float | None = None
    pinion_angle: Size | None = None
    shaft_angle: Size | None = None


_STEP = 9.5
_TABLE = (30.0, 52.0, 52.0, 24.0)
_BEHIND, _AHEAD = 0.15, 1.13
"""Where the hint of a body ends, as shares of the wheelbase ahead of the rear axle."""
_FAR = 1.15
"""An instant center further ahead than this share of the wheelbase is written, not drawn."""
_SHARES = (0.56, 0.68, 0.8, 0.35)
_APART = 0.1
"""Where the slope of the anti-squat line may be written, and how far from other uprights."""
NOTES = (
    "From the left, at ride height. Points are ahead of the rear axle and above level ground.",
    "Slopes are above zero with the front end higher.",
)


def side_view_drawing(car: SideSizes, heading: Heading) -> Sheet:
    """The side view of the rear suspension."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, point_rows(car))
    notes = notes_high(paper, (*NOTES, *cautions_of(car)))
    left, bottom, right, _ = above_block(paper)
    (view,) = in_row(
        (Wanted(lambda scale: _view(car, scale)),),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
    )
    sheet = Sheet(
        paper=paper,
        title=titled(heading, "Rear suspension, side view", view.scale, "side view"),
        description=(
            f"The car from the left with {len(car.links)} links of the rear axle"
            + ("" if car.instant_center is None else ", their instant center")
            + ("." if car.anti_squat is None else " and the anti-squat line.")
        ),
        views=(view,),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
        cautions=cautions_of(car),
    )
    return checked(sheet)


def _view(car: SideSizes, scale: int) -> View:
    """The car from the left."""
    return View(
        "side", "Seen from the left", (0.0, 0.0), scale,
        _car(car, scale), _sizes(car, scale), leaders=_said(car, scale),
        name_at=(-0.5 * car.wheelbase.value / scale - 20.0, -2.9 * _STEP),
    )  # fmt: skip


def cautions_of(car: SideSizes) -> tuple[str, ...]:
    """What is not on the picture."""
    if car.instant_center is None:
        return ("The links are parallel in side view: there is no instant center to draw.",)
    if not drawable(car):
        return ("The instant center is too far away to draw; its place is in the table.",)
    return ()


def drawable(car: SideSizes) -> bool:
    """Whether the instant center is near enough to be drawn."""
    if car.instant_center is None:
        return False
    ahead, up = car.instant_center
    return 0.0 < ahead <= _FAR * car.wheelbase.value and 0.0 <= up <= _height(car)


def point_rows(car: SideSizes) -> tuple[tuple[str, ...], ...]:
    """The ends of every link, the instant center, and the angles."""
    rows = [("Point: ahead, up", "on the axle, mm [in]", "on the body, mm [in]", "slope")]
    for link in car.links:
        rows.append((link.name, _both(link.axle), _both(link.body), angle_line(link.slope, None)))
    center = "none" if car.instant_center is None else _both(car.instant_center)
    rows.append(("Instant center", center, "", ""))
    for name, angle in (("Pinion", car.pinion_angle), ("Driveshaft", car.shaft_angle)):
        said = "" if angle is None else angle_line(angle.value, None)
        rows.append((name, "", "", said))
    return tuple(rows)


def _both(point: Point) -> str:
    metric = ", ".join(figure(v, 1) for v in point)
    inches = ", ".join(figure(v / INCH, 2, zero=False) for v in point)
    return f"{metric} [{inches}]"


def _at(point: Point) -> Point:
    """From ahead-and-up to the page, where the front is on the left."""
    return (-point[0], point[1])


def _height(car: SideSizes) -> float:
    return max(0.5 * car.wheelbase.value, 1.6 * car.mass_height.value)


def _car(car: SideSizes, scale: int) -> tuple[Mark, ...]:
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


def _sizes(car: SideSizes, scale: int) -> tuple[Dimension, ...]:
    """Wheelbase and instant center below, heights in front, angles at the links."""
    base = car.wheelbase.value
    rear: Point = (0.0, 0.0)

    def row(number: float) -> Point:
        return (0.0, -_STEP * scale * number)

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


def _said(car: SideSizes, scale: int) -> tuple[Leader, ...]:
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
