"""The tables and the moving picture of the page about fit, as plain values."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace

from axlewright.drawing.fit_rear import fit_rear, scale_of
from axlewright.drawing.marks import State
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si
from axlewright.studies.fit_figures import band_text, figure, percent, plus_minus, value_text
from axlewright.studies.fit_report import (
    EndLine,
    FitReport,
    HoldLine,
    OrderLine,
    RoomLine,
    Travel,
    WheelChoice,
)
from axlewright.web.views.form import owner
from axlewright.web.views.ratio import inline
from axlewright.web.views.tables import Number

_COARSE = 0.0025
_FEW = 3
_SAME = 1e-6
_ASKED = "shown_at_60"
"""Depends on what was asked beside the build, so its working is not kept."""


@dataclass(frozen=True)
class Line:
    """One row: its name, numbers, state, words, and the fields of what it lacks."""

    key: str
    title: str
    where: str
    number: Number
    metric: str
    off: str
    wanted: str
    chance: str
    state: State
    word: str
    note: str
    lacks: tuple[tuple[str, str], ...]
    more: int


@dataclass(frozen=True)
class ChoiceLine:
    """One wheel on one axle."""

    tire: str
    cells: tuple[Number, ...]
    planned: bool
    short: bool
    words: str


@dataclass(frozen=True)
class StepLine:
    """One stage of the travel for readers without the slider."""

    name: str
    cells: tuple[str, ...]


def order(report: FitReport) -> list[Line]:
    """What is ordered by."""
    return [_order_line(o) for o in report.order]


def _order_line(o: OrderLine) -> Line:
    short = "TOO LITTLE" in o.note
    known = o.finding is not None and o.origin in {"to order", "measured"}
    word = o.origin if known else ""
    return Line(
        o.key, o.what, o.datum, *_number(o.finding), o.state, "", "short" if short else "holds",
        word, o.note, *_lacks(o.lacks),
    )  # fmt: skip


def _number(f: Finding | None) -> tuple[Number, str, str]:
    """The value, the same in the other unit, and what it may be off; a stroke for none."""
    if f is None:
        return Number("", "–"), "", ""
    if f.dimension == "length":
        return Number(f.id, value_text(f)), value_text(f, "si"), plus_minus(f)
    other = "" if f.dimension in {"ratio", "count"} else value_text(f, "si")
    return Number(f.id, value_text(f)), other, band_text(f)


def _lacks(keys: tuple[str, ...]) -> tuple[tuple[tuple[str, str], ...], int]:
    """The first few readings that are missing, each with its field, and how many more."""
    named = tuple((key, owner(key.partition(" or ")[0])) for key in keys[:_FEW])
    return named, max(0, len(keys) - _FEW)


def rooms(report: FitReport, side: str) -> list[Line]:
    """Room beside one wheel."""
    return [_room(r) for r in report.rooms if r.side == side]


def _room(r: RoomLine) -> Line:
    state: State = "unknown"
    if r.kept == "short":
        state = "short"
    elif r.kept == "kept":
        state = "holds" if (r.chance or 0.0) >= 0.95 else "possible"
    word = {"holds": "kept", "possible": "may fall short", "short": "short"}.get(state, "not known")
    return Line(
        r.key, r.thing, r.where, *_number(r.clearance), figure(r.wanted, 0.0),
        "" if r.chance is None else percent(r.chance), state, word, r.note, *_lacks(r.lacks),
    )  # fmt: skip


def choices(report: FitReport) -> list[ChoiceLine]:
    """What is planned, then what was found; misses where nothing fits."""
    others, planned = report.search.choices or report.search.misses, report.planned
    if planned is None:
        return [_choice(c) for c in others]
    same = [c for c in others if _is_same(c, planned)]
    words = "; ".join(filter(None, (planned.reason, *(c.reason for c in same))))
    first = _choice(replace(planned, reason=words), planned=True)
    return [first, *(_choice(c) for c in others if c not in same)]


def _is_same(one: WheelChoice, other: WheelChoice) -> bool:
    sizes = [(c.rim_width, c.backspace, c.width) for c in (one, other)]
    near = all(abs(a - b) < _SAME for a, b in zip(*sizes, strict=True))
    return near and one.tire == other.tire


def _choice(c: WheelChoice, *, planned: bool = False) -> ChoiceLine:
    sizes = (c.rim_width, c.backspace, c.offset, c.width)
    cells = [Number("", figure(v, _COARSE), figure(v, _COARSE, "si")) for v in sizes]
    low, high = (figure(v, _COARSE) for v in (c.low, c.high))
    cells.append(Number("", figure(c.spare, _COARSE), f"{low} to {high}"))
    cells.append(Number("", percent(c.chance)))
    words = c.reason or "comes nearest"
    where = f"tightest: {c.tightest}, {c.place}"
    return ChoiceLine(c.tire, tuple(cells), planned, c.spare < 0.0, f"{words}; {where}")


def costs(report: FitReport) -> list[tuple[str, str, str]]:
    """What a quarter inch more of each costs."""
    return [(c.what, _signed(c.outer), _signed(c.inner)) for c in report.costs]


def _signed(value: float) -> str:
    inches, mm = (from_si(value, "length", s)[0] for s in ("shop", "si"))
    return f"{inches:+.3f} in ({mm:+.2f} mm)".replace("-", "−")


def gaps(lines: tuple[EndLine, ...]) -> list[Line]:
    """Ends, brakes, instruments."""
    return [_gap(e) for e in lines]


def _gap(e: EndLine) -> Line:
    state: State = "unknown" if e.finding is None else "short" if e.fault else "holds"
    number, metric, off = _number(e.finding)
    if e.key == _ASKED:
        number = replace(number, id="")
    side = "" if e.side in {"", "both"} else f"{e.side}: "
    title = f"{side}{e.what}" if side else e.what
    return Line(
        e.key, title, "", number, metric, off, "", "", state, "look" if e.fault else "", e.fault,
        *_lacks(e.lacks),
    )  # fmt: skip


def holds(report: FitReport) -> tuple[list[HoldLine], list[HoldLine]]:
    """What may be done now, and what waits."""
    now = [h for h in report.holds if h.now]
    return now, [h for h in report.holds if not h.now]


@dataclass(frozen=True)
class Picture:
    """The picture from behind, and what a page needs to drive it."""

    svg: str
    data: str
    known: str
    heads: tuple[str, ...]
    rows: tuple[StepLine, ...]
    last: int
    middle: int


def picture(report: FitReport) -> Picture:
    """The axle from behind with its way through the travel."""
    rear = report.rear
    told = any(v is not None for s in (rear.left, rear.right) for v in (s.face, s.lip, s.inner))
    svg = inline(fit_rear(report), "rear") if told else ""
    travel = report.travel
    if travel is None:
        return Picture(svg, "", "", (), (), 0, 0)
    curves = [
        {"id": f"{c.facing}-{c.side}", "both": _inches(c.both), "lean": _inches(c.lean),
         "wanted": round(c.wanted / _INCH, 4)}
        for c in travel.curves
    ]  # fmt: skip
    data = json.dumps({
        "both": _inches(travel.steps), "lean": _inches(travel.lean), "curves": curves,
        "track": report.rear.track / _INCH, "scale": scale_of(report.rear) * _INCH,
    })  # fmt: skip
    heads = tuple(f"{c.side} {c.thing}" for c in travel.curves)
    middle = len(travel.steps) // 2
    return Picture(
        svg, data, travel.known, heads, tuple(_stages(travel)), len(travel.steps) - 1, middle
    )


_INCH = 0.0254


def _inches(values: tuple[float, ...]) -> list[float]:
    return [round(v / _INCH, 4) for v in values]


def _stages(travel: Travel) -> list[StepLine]:
    """Ends and middle of the travel, both together and leaning."""
    last, middle = len(travel.steps) - 1, len(travel.steps) // 2
    made = []
    for name, index, lean in (
        ("both wheels at full bump", last, False), ("ride height", middle, False),
        ("both wheels at full droop", 0, False), ("left up, right down", last, True),
        ("left down, right up", 0, True),
    ):  # fmt: skip
        values = [(c.lean if lean else c.both)[index] for c in travel.curves]
        made.append(StepLine(name, tuple(figure(v, _COARSE) for v in values)))
    return made
