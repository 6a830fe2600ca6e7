"""Checks every accepted row, turns three dials on each, and writes the page and its picture."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from real_data_rows import LIVE, accepted, build_text, layout, rows

from axlewright.build.machine import Machine
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.drawing import palette
from axlewright.drawing.axes import margin_axis, margin_legend
from axlewright.drawing.fonts import shorten
from axlewright.drawing.marks import MARKS, band_text, margin_bar, margin_text, state_of
from axlewright.drawing.primitives import Drawing, Group, Shape, Text
from axlewright.drawing.scales import margin_scale
from axlewright.drawing.svg import to_svg
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.studies.path import Path as LoadPath
from axlewright.studies.path import evaluate
from axlewright.studies.report import Margin
from axlewright.workshop import bench

SEED, SAMPLES = 1, 1000
DOCS = Path(__file__).resolve().parents[1] / "docs"
BEGIN, END = "<!-- from here on written by examples/real_data.py -->\n", "<!-- to here -->\n"
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Row:
    """What came out for one row."""

    table: str
    row: int
    holds: bool
    title: str
    margin: Margin
    ring_torque: float


@dataclass(frozen=True)
class Turn:
    """One dial turned on every row: what must not happen, and how often it did."""

    name: str
    law: str
    turned: Callable[[Machine[Any]], Machine[Any]]
    watched: Callable[[LoadPath], dict[str, Any]]
    sign: int


def opened(table: str, row: int) -> Resolved:
    """The build of a row, resolved."""
    return resolve(read_build(build_text(table, row), f"{table}-{row}"))


def checked(table: str, row: int) -> Row:
    """The verdict on a row."""
    report = bench.check(opened(table, row), SEED, SAMPLES)
    link = next(x for x in report.links if x.link == report.verdict.weakest)
    assert link.breaks is not None
    ring = report.cases[0].torques["ring"].value
    return Row(table, row, report.verdict.holds, link.title, link.breaks, ring)


def _margins(path: LoadPath) -> dict[str, Any]:
    return {
        f"{link.name}, {limit.mode}, {case}": value
        for link in path.links
        for limit in link.limits
        for case, value in limit.margins().items()
    }


def _of_shaft(path: LoadPath) -> dict[str, Any]:
    return {k: v for k, v in _margins(path).items() if k.startswith("axle_shaft,")}


def _ring(path: LoadPath) -> dict[str, Any]:
    return {case.case: case.torques["ring"] for case in path.demand.cases if case.torques}


def _torque(m: Machine[Any]) -> Machine[Any]:
    return replace(m, engine=replace(m.engine, torque=m.engine.torque * 1.2))


def _grip(m: Machine[Any]) -> Machine[Any]:
    return replace(m, tires=replace(m.tires, grip=m.tires.grip * 1.2))


def _splines(m: Machine[Any]) -> Machine[Any]:
    spline = replace(m.shaft.spline, teeth=m.shaft.spline.teeth + 2.0)
    return replace(m, shaft=replace(m.shaft, spline=spline))


TURNS = (
    Turn("engine torque + 20 %", "raises no margin", _torque, _margins, -1),
    Turn("tire grip + 20 %", "lowers no torque at the ring gear", _grip, _ring, 1),
    Turn("two more splines, same pitch", "lowers no margin of the axle shafts", _splines,
         _of_shaft, 1),
)  # fmt: skip


def against(turn: Turn, resolved: Resolved) -> tuple[int, list[str]]:
    """How many numbers were compared, and which went the wrong way in any sample."""
    machine = Samples(SEED, SAMPLES).tree(resolved.machine)
    before = turn.watched(evaluate(machine))
    after = turn.watched(evaluate(turn.turned(machine)))
    wrong = [
        key
        for key, value in before.items()
        if np.any(turn.sign * _array(after[key]) < turn.sign * _array(value) - _slack(value))
    ]
    return len(before), wrong


def _array(value: Any) -> Array:
    return np.asarray(value, dtype=np.float64)


def _slack(value: Any) -> Array:
    return _ROUNDING * np.abs(_array(value))


def chart(found: Sequence[Row]) -> Drawing:
    """The margin of the weakest link of every row, weakest row first."""
    ordered = sorted(found, key=lambda r: r.margin.margin.value)
    values = [v for r in found for v in (r.margin.margin.low, r.margin.margin.high)]
    scale = margin_scale(values, 84.0, 162.0)
    top, pitch = 9.0, 5.4
    bottom = top + pitch * len(ordered)
    shapes: list[Shape] = [margin_axis(scale, top, bottom)]
    for i, row in enumerate(ordered):
        y = top + (i + 0.5) * pitch
        state = state_of(row.margin.margin, row.margin.likelihood)
        shapes.append(
            Group(
                (
                    Text((1.0, y + 1.0), f"{row.table} {row.row}", 2.8, "SemiBold"),
                    Text((24.0, y + 1.0), shorten(row.title, 2.8, 56.0), 2.8, room=56.0),
                    margin_bar(row.margin.margin, state, scale, y, 2.4),
                    Text((184.0, y + 1.0), margin_text(row.margin.margin.value), 2.8, "Bold",
                         "end", MARKS[state].ink),
                ),
                id=f"{row.table}-{row.row}",
            )
        )  # fmt: skip
    shapes.append(Text((184.0, 7.8), "breaks", 2.6, "SemiBold", "end", palette.MUTED))
    shapes.append(margin_legend(1.0, bottom + 6.0))
    words = " ".join(
        f"{r.table} row {r.row}: {r.title}, margin {margin_text(r.margin.margin.value)}."
        for r in ordered
    )
    title = "Weakest link of road cars of 1974 and 1990, by row"
    return Drawing(186.0, bottom + 7.5, title, words, tuple(shapes))


def table_of(found: Sequence[Row]) -> list[str]:
    """The rows as a table."""
    lines = [
        "| table | row | verdict | weakest link | margin | band | breaks | ring torque |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for r in found:
        m = r.margin
        lines.append(
            f"| {r.table} | {r.row} | {'holds' if r.holds else 'short'} | {r.title} |"
            f" {margin_text(m.margin.value)} | {band_text(m.margin)} | {m.likelihood} |"
            f" {r.ring_torque / 1.3558179483314:,.0f} lb·ft |"
        )
    return lines


def turns_table(counts: Sequence[tuple[Turn, int, int, list[str]]]) -> list[str]:
    """The dials as a table."""
    lines = [
        "| turned | law | rows | numbers compared, each in every sample | against the law |",
        "|---|---|---|---|---|",
    ]
    for turn, number, compared, wrong in counts:
        lines.append(f"| {turn.name} | {turn.law} | {number} | {compared:,} | {len(wrong)} |")
    return lines


def refused_table() -> list[str]:
    """How many rows were refused, and why."""
    lines = ["| table | reason | rows |", "|---|---|---|"]
    for name in ("mtcars", "car90"):
        kinds = Counter(k for row in rows(name) if (k := layout(name, row)) != LIVE)
        lines += [f"| {name} | {kind} | {count} |" for kind, count in kinds.most_common()]
    return lines


def report() -> int:
    """Check everything, print it, write the page; 1 if any law was broken."""
    found = [checked(table, row) for table, row in accepted()]
    builds = [(f"{table} {row}", opened(table, row)) for table, row in accepted()]
    counts = []
    for turn in TURNS:
        compared, wrong = 0, []
        for name, build in builds:
            number, bad = against(turn, build)
            compared += number
            wrong += [f"{name}: {key}" for key in bad]
        counts.append((turn, len(builds), compared, wrong))
    blocks = [table_of(found), turns_table(counts), refused_table()]
    text = "\n\n".join("\n".join(block) for block in blocks)
    print(text)
    for turn, _, _, wrong in counts:
        for key in wrong[:3]:
            print(f"against the law: {turn.name} {turn.law}: {key}")
        if len(wrong) > 3:
            print(f"and {len(wrong) - 3} more")
    page = DOCS / "real-data.md"
    head, _, rest = page.read_text(encoding="utf-8").partition(BEGIN)
    page.write_text(f"{head}{BEGIN}\n{text}\n\n{END}{rest.partition(END)[2]}", encoding="utf-8")
    picture = DOCS / "pictures" / "real-data.svg"
    picture.parent.mkdir(exist_ok=True)
    picture.write_text(to_svg(chart(found), "real-data"), encoding="utf-8")
    return int(any(wrong for *_, wrong in counts))
