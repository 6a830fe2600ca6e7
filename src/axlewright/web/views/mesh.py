"""The tables of the gear page: loads, what gives, bearings, choices, warmth; and its controls."""

from __future__ import annotations

import math
from collections.abc import Container
from dataclasses import dataclass
from typing import Final

from axlewright.drawing.marks import State
from axlewright.papers.words import with_band
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, show_both, significant
from axlewright.studies.mesh_numbers import MOVES, SHARES
from axlewright.studies.mesh_report import (
    BearingLine,
    Choice,
    GearLoad,
    LimitLine,
    MeshReport,
    RatingTable,
)
from axlewright.studies.mesh_sentences import mm, moved_cell, rated_cell, thou
from axlewright.studies.mesh_under import Under
from axlewright.web.views.launch import deciding
from axlewright.web.views.tables import Number, number

DIALS: Final = {
    "pinion_lift": "Pinion along the offset (− climbs)",
    "pinion_axial": "Pinion along its axis (+ out of mesh)",
    "ring_axial": "Ring gear along the axle (+ away)",
    "ring_lift": "Ring gear along the offset",
}
"""Movements that dials read, by the heads of their columns."""
_DIGITS = 2
_MILLION = 1e6


@dataclass(frozen=True)
class LoadRow:
    """One load: torque, movement, where and how hard it presses."""

    name: str
    title: str
    means: str
    judged: bool
    torque: Number
    moves: tuple[Number, ...]
    place: Number
    heel: Number
    peak: Number
    sentence: str
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class LimitRow:
    """One limit of a deflection test against what was found."""

    load: str
    means: str
    found: Number
    allowed: str
    state: State
    word: str


@dataclass(frozen=True)
class ShareRow:
    """Who lets the offset change under a load."""

    title: str
    shares: tuple[Number, ...]
    parts: str


@dataclass(frozen=True)
class BearingRow:
    """One bearing under a load."""

    name: str
    cells: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class ChoiceRow:
    """One way to hold the gears, and what it does."""

    title: str
    present: bool
    cells: tuple[str, ...]


def _both(value: float, dimension: str) -> str:
    """A value in both units, one below the other."""
    return show_both(value, dimension, _DIGITS).replace(" (", "\n(")


def _moved_both(length: float) -> str:
    return f"{thou(length)}\n({mm(length)})"


def _percent(share: float) -> str:
    return f"{significant(100.0 * share, _DIGITS)} %".replace("-", "−")


def loads(report: MeshReport, known: Container[str]) -> list[LoadRow]:
    """Every load; numbers open their working."""
    return [_load(load, known) for load in report.loads]


def _load(load: GearLoad, known: Container[str]) -> LoadRow:
    place, heel, peak = _where(load, known)
    ring = load.ring_torque
    shop, metric = (significant(from_si(ring.value, "torque", s)[0], 3) for s in ("shop", "si"))
    more = "\n".join(filter(None, (f"({metric})", _band(ring))))
    return LoadRow(
        load.name, load.title, load.means, load.judged,
        number(ring, shop, known, more),
        tuple(_moved(load.moves[what], known) for what in DIALS),
        place, heel, peak, _without_title(load), load.cautions,
    )  # fmt: skip


def _without_title(load: GearLoad) -> str:
    text = load.sentence.removeprefix(f"{load.title}: ")
    return f"{text[:1].upper()}{text[1:]}"


def _band(f: Finding) -> str:
    if f.low == f.high:
        return ""
    low, high = (significant(from_si(v, f.dimension)[0], _DIGITS) for v in (f.low, f.high))
    return f"{low} to {high}"


def _moved(f: Finding, known: Container[str]) -> Number:
    value, metric, band = moved_cell(f)
    return number(f, value, known, "\n".join(filter(None, (metric, band))))


def _where(load: GearLoad, known: Container[str]) -> tuple[Number, Number, Number]:
    """Middle and end of load or pattern, and the peak of pressure."""
    c, p = load.contact, load.pattern
    none = Number("", "–")
    if not p:
        return none, none, none
    center, heel = (c["load_center"], c["load_heel_end"]) if c else (p["center"], p["heel_end"])
    places = [number(f, _percent(f.value), known, _shares(f)) for f in (center, heel)]
    if not c:
        return places[0], places[1], none
    peak = c["peak_pressure"]
    shop, metric = (significant(from_si(peak.value, "stress", s)[0], 2) for s in ("shop", "si"))
    more = "\n".join(filter(None, (f"({metric})", _band(peak))))
    return places[0], places[1], number(peak, shop, known, more)


def _shares(f: Finding) -> str:
    if f.low == f.high:
        return ""
    return f"{significant(100.0 * f.low, _DIGITS)} to {_percent(f.high)}"


def limits(report: MeshReport, known: Container[str]) -> list[LimitRow]:
    """Service loads against a deflection test."""
    titles = {load.name: load.title for load in report.loads}
    return [_limit(line, titles[line.load], report.made.samples, known) for line in report.limits]


def _limit(line: LimitLine, load: str, samples: int, known: Container[str]) -> LimitRow:
    state: State = "short" if not line.holds else "possible" if line.share > 0.0 else "holds"
    word = "beyond" if not line.holds else "within"
    if samples and line.share > 0.0:
        often = f"in {_percent(line.share)} of the samples"
        word += f" {often}" if not line.holds else f"; beyond {often}"
    found = _moved(line.found, known)
    low, high = (f"{thou(v)} ({mm(v)})" for v in (line.low, line.high))
    return LimitRow(load, line.means, found, f"{low} to {high}", state, word)


def shares(report: MeshReport, known: Container[str]) -> list[ShareRow]:
    """Who gives, under each load."""
    return [
        ShareRow(
            load.title,
            tuple(number(load.shares[s], _percent(load.shares[s].value), known,
                         _shares(load.shares[s])) for s in SHARES),
            "; ".join(f"{name} {_percent(share)}" for name, share in load.by_part.items()),
        )
        for load in report.loads
    ]  # fmt: skip


def bearings(load: GearLoad) -> list[BearingRow]:
    """What each bearing goes through under a load."""
    return [_bearing(line) for line in load.bearings]


def _bearing(b: BearingLine) -> BearingRow:
    life = "endless" if b.life is None else f"{significant(b.life / _MILLION, _DIGITS)} million"
    cells = (
        _both(b.radial, "force"),
        _both(b.axial, "force"),
        _percent(b.load_zone),
        _both(b.fullest_roller, "force"),
        _both(b.rib, "force"),
        _both(b.pressure, "stress"),
        life,
    )
    return BearingRow(b.name, cells, b.cautions)


def choices(report: MeshReport) -> list[ChoiceRow]:
    """Ways to hold the gears side by side."""
    return [_choice(c) for c in report.choices]


def _choice(c: Choice) -> ChoiceRow:
    moves = (c.lift_rated, c.lift_hardest, c.ring_axial_rated)
    cells = (
        *(_moved_both(v) for v in moves),
        "–" if c.center_hardest is None else _percent(c.center_hardest),
        "–" if c.peak_hardest is None else _both(c.peak_hardest, "stress"),
        f"× {significant(c.times, 3)}" if math.isfinite(c.times) else "–",
    )
    return ChoiceRow(c.title, c.present, cells)


@dataclass(frozen=True)
class TableView:
    """A table of ratings as shown: its rows are title, cells, remark."""

    table: RatingTable
    rows: tuple[tuple[str, tuple[Number, ...], str], ...]


def rating_tables(report: MeshReport, known: Container[str]) -> list[TableView]:
    """The ratings as they stand in the report; numbers open their working."""
    return [
        TableView(
            table,
            tuple(
                (row.title, tuple(_rated(f, known) for f in row.cells), row.says)
                for row in table.rows
            ),
        )
        for table in report.tables
    ]


def _rated(f: Finding | None, known: Container[str]) -> Number:
    value, metric, band = rated_cell(f)
    more = "\n".join(filter(None, (metric, band)))
    return Number("", value) if f is None else number(f, value, known, more)


def decides(report: MeshReport) -> list[tuple[str, str]]:
    """What scatters the answers most, by what they mean."""
    means = {
        f.id: f.means
        for load in report.loads
        for many in (load.moves, load.pattern, load.contact)
        for f in many.values()
    }
    return [(means[key], deciding(found)) for key, found in report.decides.items() if found]


@dataclass(frozen=True)
class UnderRow:
    """One flank under the chosen torque: movements as dials read them."""

    title: str
    moves: tuple[str, ...]
    why: str


def under(found: Under) -> list[UnderRow]:
    """Movement of both flanks."""
    return [
        UnderRow(
            f"{side.capitalize()} side",
            tuple(f"{thou(f.moves[d])} ({mm(f.moves[d])})" if f.moves else "–" for d in DIALS),
            f.why,
        )
        for side, f in found.flanks.items()
    ]


def under_cautions(found: Under) -> tuple[str, ...]:
    """What the contact under the chosen torque does not hold for."""
    return tuple(
        f"{side.capitalize()} side: {said}."
        for side, f in found.flanks.items()
        if f.loaded is not None
        for said in f.loaded.cautions
    )


def setting(report: MeshReport, known: Container[str]) -> list[tuple[str, Number]]:
    """How the pair is set, each number with its band."""
    return [
        (f.means, number(f, value, known, band))
        for f in report.setting.values()
        for value, _, band in [with_band(f).partition(", 5 to 95 %: ")]
    ]


def torques(report: MeshReport) -> list[tuple[str, float]]:
    """Torques that a press of a button takes, by their names."""
    found = {load.ring_torque.value: load.title for load in reversed(report.loads)}
    return [(title, torque) for torque, title in sorted(found.items())]


def chart_rows(report: MeshReport) -> list[list[str]]:
    """The curves of the chart as rows, in the units of the shop."""
    head = ["side", "torque at the ring gear, lb·ft", *(f"{MOVES[d]}, in" for d in DIALS)]
    body = [
        [
            curve.side,
            f"{from_si(torque, 'torque')[0]:.5g}",
            *(f"{from_si(curve.moves[d][i], 'length')[0]:.4g}" for d in DIALS),
        ]
        for curve in report.curves
        for i, torque in enumerate(curve.torques)
    ]
    return [head, *body]
