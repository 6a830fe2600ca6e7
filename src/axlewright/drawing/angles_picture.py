"""The rear of the car from the left at one height of the axle: links, driveline, instant center."""

from __future__ import annotations

import math
from collections.abc import Iterator

from axlewright.drawing import palette
from axlewright.drawing.primitives import (
    Anchor,
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polygon,
    Rect,
    Shape,
    Text,
)
from axlewright.quantities.units import from_si, show
from axlewright.studies.angles_picture import Standing

WIDTH, HEIGHT = 214.0, 72.0
_BEHIND, _AHEAD = 0.5, 0.42
"""How far the picture reaches behind the rear and ahead of the front axle, m."""
_TEXT = 4.0
_GEARBOX, _TAIL = 0.75, 0.1
"""Length of the gearbox's hint and of what its tail is thick, m."""
_CASE = 0.12
_LINK = Look(stroke=palette.INK, width=1.1)
_THIN = Look(stroke=palette.MUTED, width=0.3)
_DASHED = Look(stroke=palette.HOLDS, width=0.4, dash=(2.0, 1.2))
_SHAFT = Look(stroke=palette.STEEL_DARK, width=2.2)
_RUBBER = Look(fill=palette.FAINT, stroke=palette.STEEL_DARK, width=0.6)


class _Page:
    """From meters ahead and up to millimeters of the page, front to the left."""

    def __init__(self, s: Standing) -> None:
        self.scale = WIDTH / (_BEHIND + s.wheelbase + _AHEAD)
        self.front = s.wheelbase + _AHEAD
        lowest = min(0.0, s.least_travel)
        self.floor = HEIGHT - 9.0 + lowest * self.scale

    def at(self, ahead: float, up: float) -> Point:
        """A place on the page."""
        return (self.front - ahead) * self.scale, self.floor - up * self.scale


def angles_picture(s: Standing) -> Drawing:
    """The whole picture."""
    page = _Page(s)
    shapes = (
        *_wheels(s, page), *_driveline(s, page), *_squat(s, page), *_links(s, page),
        *_said(s, page),
    )  # fmt: skip
    return Drawing(WIDTH, HEIGHT, "Rear axle and driveline from the left", _words(s), shapes)


def degrees(angle: float) -> str:
    """An angle as it stands in the picture."""
    value = f"{from_si(angle, 'angle')[0]:.1f}".replace("-", "−")
    return "0.0°" if value == "−0.0" else f"{value}°"


def height_words(travel: float) -> str:
    """The height of the axle in words."""
    if abs(travel) < 1e-4:
        return "ride height"
    return f"{show(abs(travel), 'length', digits=2)} {'up' if travel > 0.0 else 'down'}"


def _words(s: Standing) -> str:
    squat = "" if s.anti_squat is None else f", anti-squat {100.0 * s.anti_squat:.0f} %"
    return (
        f"Axle at {height_words(s.travel)}: pinion {degrees(s.pinion_slope)}, driveshaft"
        f" {degrees(s.shaft_slope)}, gearbox {degrees(s.gearbox_slope)}, front joint"
        f" {degrees(s.front_angle)}, rear joint {degrees(s.rear_angle)}{squat}."
    )


def _wheels(s: Standing, page: _Page) -> Iterator[Shape]:
    """Both wheels and the ground under the rear one; the front one is only a hint."""
    ground = s.axle[1] - s.radius
    yield Circle(page.at(*s.axle), s.radius * page.scale, _RUBBER)
    yield Circle(page.at(s.wheelbase, s.radius), s.radius * page.scale,
                 Look(stroke=palette.RULE, width=0.5, dash=(1.5, 1.5)))  # fmt: skip
    yield Line(page.at(s.axle[0] + 0.55, ground), page.at(s.axle[0] - 0.45, ground),
               Look(stroke=palette.INK, width=0.6))  # fmt: skip


def _squat(s: Standing, page: _Page) -> Iterator[Shape]:
    """Lines of the links to the instant center, and from the contact through it."""
    if s.center_ahead is None or s.center_up is None:
        return
    ground = s.axle[1] - s.radius
    ahead, up = s.axle[0] + s.center_ahead, ground + s.center_up
    if not 0.2 < ahead < s.wheelbase + _AHEAD or not -0.2 < up < 0.95:
        return
    center = page.at(ahead, up)
    for bar in s.bars:
        yield Line(page.at(*bar.body), center, _DASHED)
    slope = (up - ground) / (ahead - s.axle[0])
    end = min(s.wheelbase, ahead + 0.35)
    yield Line(page.at(s.axle[0], ground), page.at(end, ground + slope * (end - s.axle[0])),
               Look(stroke=palette.SHORT, width=0.5))  # fmt: skip
    yield Circle(center, 1.3, Look(fill=palette.PAPER, stroke=palette.HOLDS, width=0.6))


def _driveline(s: Standing, page: _Page) -> Iterator[Shape]:
    """Gearbox, driveshaft and pinion."""
    front, rear, axle = page.at(*s.front), page.at(*s.rear), page.at(*s.axle)
    yield from _gearbox(s, page)
    yield Line(front, rear, _SHAFT)
    yield Line(rear, axle, Look(stroke=palette.STEEL_DARK, width=3.4))
    yield Circle(axle, _CASE * page.scale, Look(fill=palette.STEEL, stroke=palette.INK, width=0.5))
    for joint in (front, rear):
        yield Circle(joint, 1.5, Look(fill=palette.PAPER, stroke=palette.INK, width=0.6))


def _gearbox(s: Standing, page: _Page) -> Iterator[Shape]:
    """Its tail end, along its own slope."""
    x, z = s.front
    way, square = (math.cos(s.gearbox_slope), math.sin(s.gearbox_slope)), _TAIL
    corners = [(0.06, 0.35), (0.3, 0.5), (0.3, 1.0), (_GEARBOX, 1.25)]
    upper = [(x + a * way[0], z + a * way[1] + t * square) for a, t in corners]
    lower = [(x + a * way[0], z + a * way[1] - t * square) for a, t in reversed(corners)]
    points = tuple(page.at(*p) for p in (*upper, *lower))
    yield Polygon(points, Look(fill=palette.STEEL, stroke=palette.STEEL_DARK, width=0.4))


def _links(s: Standing, page: _Page) -> Iterator[Shape]:
    """Links between their bolts; bolts of the body square, those of the axle round."""
    for bar in s.bars:
        body, axle = page.at(*bar.body), page.at(*bar.axle)
        yield Line(body, axle, _LINK)
        yield Rect((body[0] - 1.4, body[1] - 1.4), 2.8, 2.8, Look(palette.PAPER, palette.INK, 0.6))
        yield Circle(axle, 1.3, Look(fill=palette.PAPER, stroke=palette.INK, width=0.6))


def _said(s: Standing, page: _Page) -> Iterator[Shape]:
    """Slopes above, joint angles at the joints, anti-squat; all kept clear of each other."""
    front, rear = page.at(*s.front), page.at(*s.rear)
    axle = page.at(*s.axle)
    middle = 0.5 * (front[0] + rear[0])
    top = 5.0
    rows = (
        (page.at(s.front[0] + 0.4, 0.0)[0], f"gearbox {degrees(s.gearbox_slope)}",
         page.at(s.front[0] + 0.35, s.front[1] + _TAIL)),
        (middle, f"driveshaft {degrees(s.shaft_slope)}",
         (middle, 0.5 * (front[1] + rear[1]) - 1.2)),
        (axle[0] - 4.0, f"pinion {degrees(s.pinion_slope)}",
         (0.5 * (rear[0] + axle[0]), 0.5 * (rear[1] + axle[1]) - 1.8)),
    )  # fmt: skip
    for x, words, target in rows:
        yield Line((x, top + 1.6), target, _THIN)
        yield from _label((x, top), words, palette.INK, "middle")
    low = HEIGHT - 1.6
    for joint, angle, name in (
        (front, s.front_angle, "front joint"), (rear, s.rear_angle, "rear joint"),
    ):  # fmt: skip
        yield Line((joint[0], joint[1] + 1.8), (joint[0], low - 3.6), _THIN)
        yield from _label((joint[0], low), f"{name} {degrees(angle)}", palette.INK, "middle")
    if s.anti_squat is not None:
        yield from _label((2.0, top), f"anti-squat {100.0 * s.anti_squat:.0f} %", palette.SHORT,
                          "start")  # fmt: skip
    yield Text((2.0, HEIGHT - 1.6), "← front", 3.4, color=palette.MUTED)
    if s.bars:
        yield Circle((3.0, 9.6), 1.3, Look(fill=palette.PAPER, stroke=palette.HOLDS, width=0.6))
        yield Text((5.6, 10.8), "instant center", 3.4, color=palette.HOLDS)


def _label(at: Point, words: str, color: str, anchor: Anchor) -> Iterator[Shape]:
    """Words on a patch of paper, so that no line runs through them."""
    text = Text(at, words, _TEXT, "Regular", anchor, color)
    left = at[0] - (text.width / 2.0 if anchor == "middle" else 0.0)
    paper = Look(fill=palette.PAPER, stroke=None)
    yield Group((Rect((left - 0.6, at[1] - 3.3), text.width + 1.2, 4.3, paper), text))
