"""The axle from behind between its lips: wheels, housing, what lies inboard, and the room left.

What moves with the wheels is one group, so that a page can drive it through its travel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from axlewright.drawing import palette
from axlewright.drawing.marks import MARKS, State, hatch
from axlewright.drawing.primitives import (
    Anchor,
    Circle,
    Drawing,
    Group,
    Line,
    Look,
    Point,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)
from axlewright.studies.fit_figures import figure
from axlewright.studies.fit_report import FitReport, RearSide, RearView

WIDTH, HEIGHT = 260.0, 117.0
_MIDDLE, _AXLE = 130.0, 66.0
_ROOM = 98.0
"""mm from the middle to the farthest thing of either side."""
_TEXT = 5.0
_SIDES = ("left", "right")


@dataclass(frozen=True)
class Gap:
    """One clearance as the picture shows it: its key, words, and state."""

    key: str
    side: str
    facing: str
    value: float
    state: State


def scale_of(rear: RearView) -> float:
    """Millimeters of the picture for each meter of the car."""
    far = [rear.track * 0.5 + 0.15]
    for s in (rear.left, rear.right):
        far += [v for v in (s.lip, s.face) if v is not None]
        if s.middle is not None and rear.section is not None:
            far.append(s.middle + 0.5 * rear.section)
    return _ROOM / max(far)


def fit_rear(report: FitReport) -> Drawing:
    """The picture at ride height."""
    rear, scale = report.rear, scale_of(report.rear)
    at = _Scale(scale)
    moving = Group((*_housing(rear, at), *_wheels(rear, at)), "axle")
    gaps = _gaps(report)
    body = [s for side in _SIDES for s in _body(_side(rear, side), side, at)]
    shapes: tuple[Shape, ...] = (
        Line((_MIDDLE, 8.0), (_MIDDLE, HEIGHT - 8.0), _CENTER),
        moving,
        *body,
        *_labels(gaps),
        Text((4.0, HEIGHT - 3.0), "left, seen from behind", _TEXT, color=palette.MUTED),
        Text((WIDTH - 4.0, HEIGHT - 3.0), "right", _TEXT, anchor="end", color=palette.MUTED),
    )
    return Drawing(WIDTH, HEIGHT, "The axle from behind at ride height", _words(gaps), shapes)


_CENTER = Look(stroke=palette.MUTED, width=0.3, dash=(4.0, 1.2, 0.8, 1.2))
_INK = Look(stroke=palette.INK, width=0.6)
_TIRE = Look(fill=palette.STEEL, stroke=palette.INK, width=0.5)
_RIM = Look(fill=palette.FAINT, stroke=palette.INK, width=0.35)
_TUBE = Look(fill=palette.STEEL, stroke=palette.INK, width=0.4)
_BODY = Look(stroke=palette.INK, width=1.1)
_THING = Look(fill=palette.PAPER, stroke=palette.INK, width=0.5)
_ROD = Look(stroke=palette.STEEL_DARK, width=1.6)


@dataclass(frozen=True)
class _Scale:
    """From the car to the page: left of the car is left on the page, up is up."""

    scale: float

    def __call__(self, side: str, out: float, up: float) -> Point:
        way = -1.0 if side == "left" else 1.0
        return (_MIDDLE + way * out * self.scale, _AXLE - up * self.scale)


def _side(rear: RearView, side: str) -> RearSide:
    return rear.left if side == "left" else rear.right


def _wheels(rear: RearView, at: _Scale) -> Iterator[Shape]:
    for side in _SIDES:
        s = _side(rear, side)
        if s.middle is None or rear.section is None or rear.over_lips is None:
            continue
        yield Group((Polygon(_outline(rear, side, s.middle, at), _TIRE),
                     _box(side, s.middle, 0.5 * rear.over_lips, rear.lip_radius, at, _RIM)),
                    f"wheel-{side}")  # fmt: skip
        if s.face is not None:
            low, high = (at(side, s.face, up) for up in (-0.09, 0.09))
            yield Line(low, high, _INK)


def _outline(rear: RearView, side: str, middle: float, at: _Scale) -> tuple[Point, ...]:
    """The tire as one sees it from behind: tread, shoulders and sidewalls, top and bottom."""
    assert rear.section is not None
    tread, wide = 0.5 * min(rear.tread, rear.section), 0.5 * rear.section
    waist = 0.5 * (rear.radius + rear.lip_radius)
    corner = waist + 0.75 * (rear.radius - waist)
    half = ((tread, rear.radius), (wide - 0.25 * (wide - tread), corner), (wide, waist))
    right = [*half, *((a, -u) for a, u in reversed(half))]
    left = [(-a, u) for a, u in reversed(right)]
    return tuple(at(side, middle + a, u) for a, u in (*right, *left))


def _box(side: str, middle: float, wide: float, high: float, at: _Scale, look: Look) -> Rect:
    a, b = at(side, middle - wide, high), at(side, middle + wide, -high)
    left, top = min(a[0], b[0]), min(a[1], b[1])
    return Rect((left, top), abs(a[0] - b[0]), abs(a[1] - b[1]), look, 0.8)


def _housing(rear: RearView, at: _Scale) -> Iterator[Shape]:
    tube = 0.04
    for side in _SIDES:
        s = _side(rear, side)
        end = s.end if s.end is not None else s.face
        if end is None:
            continue
        inner, outer = at(side, 0.0, tube), at(side, end, -tube)
        left = min(inner[0], outer[0])
        yield Rect((left, inner[1]), abs(outer[0] - inner[0]), outer[1] - inner[1], _TUBE)
        if s.flange is not None:
            yield Line(at(side, end, 0.0), at(side, s.flange, 0.0), _INK)
            yield Line(at(side, s.flange, -0.08), at(side, s.flange, 0.08), _INK)
    middle = 0.0 if rear.differential is None else rear.differential
    yield Circle(at("left", middle, 0.0), 0.13 * at.scale, _TUBE)
    if rear.pinion is not None:
        yield Circle(at("left", rear.pinion, -0.03), 0.025 * at.scale, _RIM)


def _body(s: RearSide, side: str, at: _Scale) -> Iterator[Shape]:
    """Lip and what lies inboard stay where they are."""
    if s.lip is not None:
        up = 0.37 if s.lip_up is None else s.lip_up
        fold = (at(side, s.lip, up), at(side, s.lip + 0.006, up), at(side, s.lip - 0.01, up + 0.16))
        yield Group((Polyline(fold, _BODY),), f"lip-{side}", title="outer lip")
    if s.inner is not None:
        up = 0.15 if s.inner_up is None else s.inner_up
        box = _box(side, s.inner - 0.035, 0.035, 0.05, at, _THING)
        left, top = box.corner[0], box.corner[1] - up * at.scale
        around = (left, top, left + box.width, top + box.height)
        marks: tuple[Shape, ...] = (
            replace(box, corner=(left, top)),
            *hatch(around, palette.MUTED, 1.6),
        )
        yield Group(marks, f"inner-{side}", title=s.inner_thing)
    if s.shock is not None:
        rod = Line(at(side, s.shock, -0.08), at(side, s.shock, 0.3), _ROD)
        yield Group((rod,), f"shock-{side}", title="shock or spring")


def _gaps(report: FitReport) -> list[Gap]:
    """The clearance of each face at ride height: in space where that is known, else sideways."""
    travel = {} if report.travel is None else {
        (c.side, c.facing): c.both[len(report.travel.steps) // 2] for c in report.travel.curves
    }  # fmt: skip
    found = []
    for line in report.rooms:
        what, _, side = line.key.rpartition("_")
        facing = {"lip_ride": "outer", "inner_ride": "inner"}.get(what)
        if facing is None or line.clearance is None:
            continue
        state: State = "holds" if line.kept == "kept" else "short"
        if line.kept == "kept" and (line.chance or 0.0) < 0.95:
            state = "possible"
        value = travel.get((side, facing), line.clearance.value)
        found.append(Gap(f"{facing}-{side}", side, facing, value, state))
    return found


_PLACES: dict[tuple[str, str], tuple[float, Anchor]] = {
    ("left", "outer"): (4.0, "start"), ("left", "inner"): (88.0, "middle"),
    ("right", "inner"): (172.0, "middle"), ("right", "outer"): (WIDTH - 4.0, "end"),
}  # fmt: skip


def _labels(gaps: list[Gap]) -> Iterator[Shape]:
    """Each clearance above its face: the number in the ink of its state, and the word for it."""
    for gap in gaps:
        x, anchor = _PLACES[(gap.side, gap.facing)]
        mark = MARKS[gap.state]
        name = "to the lip" if gap.facing == "outer" else "inboard"
        word = "" if gap.state == "holds" else f", {mark.word}"
        shown = Text((x, 15.5), figure(gap.value, 0.0025), 6.6, "Bold", anchor, mark.ink, cls="gap")
        said = Text((x, 8.0), name + word, _TEXT, anchor=anchor, color=palette.MUTED)
        yield Group((said, shown), f"gap-{gap.key}")


def _words(gaps: list[Gap]) -> str:
    told = [
        f"{g.side} {'outer lip' if g.facing == 'outer' else 'inboard'}: {figure(g.value, 0.0025)}"
        for g in gaps
    ]
    if not told:
        return "The axle from behind; no room was measured yet."
    return f"Shortest way from tire to {'; '.join(told)}."
