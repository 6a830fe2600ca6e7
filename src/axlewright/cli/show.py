"""Printing reports for people: the sentence first, then the table, then what to measure next."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping, Sequence
from typing import Any, Literal

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from axlewright.cli.faults import InputError
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, show, significant
from axlewright.quantities.working import Node, steps
from axlewright.studies.report import LimitCard, LinkReport, LoadPathReport, Margin

_BAR = 19
_BAR_FROM, _BAR_TO = math.log(0.25), math.log(4.0)
_WIDTH = 98
_WIDE = 106


def console() -> Console:
    """A console that prints plainly into a pipe and never narrower than the table."""
    out = Console(highlight=False)
    return out if out.is_terminal else Console(highlight=False, width=_WIDTH + 22)


def print_report(report: LoadPathReport, system: System, all_inputs: bool) -> None:
    """Print a load-path report."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.verdict.sentence, style="bold"), width=_WIDTH)
    out.print()
    out.print(_links_table(report, out.width))
    out.print(
        Padding(
            Text(
                "breaks: what it stands over what reaches it; bar: 5 to 95 % band, │ is one;"
                " slips/sets: the same for slipping or taking a set",
                style="dim",
            ),
            (0, 0, 1, 2),
        )
    )
    out.print(_torque_table(report, system))
    _measure(out, report)
    if all_inputs:
        out.print(_inputs_table(report))
    _notes(out, report)


def _links_table(report: LoadPathReport, width: int) -> Table:
    """One line a link; the part's name only where there is room for it."""
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("link", no_wrap=True, min_width=17)
    table.add_column("breaks", justify="right", no_wrap=True, min_width=6)
    table.add_column("¼        1        4", no_wrap=True, min_width=_BAR)
    table.add_column("breaking", no_wrap=True, min_width=10)
    table.add_column("in", no_wrap=True, min_width=21)
    table.add_column("slips/sets", justify="right", no_wrap=True, min_width=10)
    if width >= _WIDE:
        table.add_column("part", no_wrap=True, overflow="ellipsis", max_width=width - _WIDE + 14)
    titles = {c.case: c.title for c in report.cases}
    for link in report.links:
        first = link.link == report.verdict.weakest
        style = "bold" if first else ""
        row: list[Text | str] = [
            Text(("► " if first else "  ") + link.title, style=style),
            Text(_number(link.breaks), style=style),
            _bar(link.breaks),
            _word(link),
            titles.get(link.breaks.case, "") if link.breaks else "",
            _number(link.gives),
        ]
        table.add_row(*row, *([link.part] if width >= _WIDE else []))
    return table


def _number(margin: Margin | None) -> str:
    return "–" if margin is None else significant(margin.margin.value, 2)


def _word(link: LinkReport) -> str:
    return link.breaks.likelihood if link.breaks else "not judged" if not link.gives else ""


def _bar(margin: Margin | None) -> str:
    """The band on a log scale as text: ├──●──┤ with the edge of one at │."""
    if margin is None:
        return ""

    def place(value: float) -> int:
        share = (math.log(max(value, 1e-3)) - _BAR_FROM) / (_BAR_TO - _BAR_FROM)
        return round(min(max(share, 0.0), 1.0) * (_BAR - 1))

    cells = [" "] * _BAR
    low, high, middle = (
        place(v) for v in (margin.margin.low, margin.margin.high, margin.margin.value)
    )
    for i in range(low, high + 1):
        cells[i] = "─"
    cells[place(1.0)] = "│"
    cells[middle] = "●"
    return "".join(cells)


def _torque_table(report: LoadPathReport, system: System) -> Table:
    unit = pretty(from_si(1.0, "torque", system)[1])
    table = Table(
        box=None,
        pad_edge=False,
        header_style="dim",
        title_justify="left",
        title=f"Torque that reaches each place, {unit} (5 to 95 % band)",
        title_style="bold",
    )
    for name in ("case", "gearbox input", "driveshaft", "ring gear", "loaded axle shaft"):
        table.add_column(name, justify="left" if name == "case" else "right", no_wrap=True)
    for case in report.cases:
        if case.torques:
            table.add_row(case.title, *(_band(f, system) for f in case.torques.values()))
    return table


def _band(f: Finding, system: System) -> str:
    value, low, high = (
        significant(from_si(v, f.dimension, system)[0], 3) for v in (f.value, f.low, f.high)
    )
    return f"{value} ({low}–{high})"


def _measure(out: Console, report: LoadPathReport) -> None:
    if not report.verdict.measure_next:
        return
    out.print()
    out.print(Text("Measure next", style="bold"))
    for n, m in enumerate(report.verdict.measure_next, start=1):
        out.print(f"  {n}. {m.means.rstrip('.')} (now {m.now}): {m.advice}", width=_WIDTH)


def _notes(out: Console, report: LoadPathReport) -> None:
    assumed = sum(i.origin in {"assumed", "catalogue"} for i in report.inputs)
    out.print()
    out.print(
        f"{assumed} of {len(report.inputs)} inputs are assumed or from the catalogue"
        f" (list them with --inputs); seed {report.made.seed}, {report.made.samples} samples,"
        f" build {report.made.build_hash}.",
        width=_WIDTH,
    )
    for caution in report.cautions:
        out.print(Text(f"Caution: {caution}", style="yellow"), width=_WIDTH)
    for line in report.safety:
        out.print(Text(line, style="dim"), width=_WIDTH)


def _inputs_table(report: LoadPathReport) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for name in ("input", "value", "spread", "origin", "source"):
        table.add_column(name)
    for i in report.inputs:
        table.add_row(i.path, i.value, i.spread, i.origin, i.source)
    return table


def print_card(card: LimitCard) -> None:
    """Print a limit card."""
    out = console()
    width = min(_WIDTH, out.width)
    out.print(Text(f"{card.name}: how far it may go, one thing at a time", style="bold"))
    table = _card_table(("setting", "now", "holds", "then goes first", ""))
    for line in card.lines:
        table.add_row(line.dial, line.now, line.allowed, line.first_to_go, line.note)
    out.print(table, width=width)
    out.print()
    out.print(Text("Before you bolt on stickier tires", style="bold"))
    table = _card_table(
        ("tires", "grip", "ring gear in first", "weakest link", "margin", "breaking"),
        ("grip", "ring gear in first", "margin"),
    )
    for t in card.tires:
        table.add_row(
            t.grip_class,
            f"{t.grip.value:.2f}",
            show(t.ring_torque.value, "torque", digits=3),
            t.worst_link,
            significant(t.margin.value, 2),
            t.likelihood,
        )
    out.print(table, width=width)
    out.print()
    out.print(Text("By link, before it breaks", style="bold"))
    dials = tuple(dict.fromkeys(d for x in card.links for d in x.allowed))
    table = _card_table(("link", *dials), dials)
    for x in card.links:
        words = (x.allowed.get(d, "–") for d in dials)
        table.add_row(x.title, *(Text(w, style="dim" if w == "any" else "bold") for w in words))
    out.print(table, width=width)


def _card_table(names: Sequence[str], right: Sequence[str] = ()) -> Table:
    """A table of the limit card; only a column without a name, which holds notes, may wrap."""
    table = Table(box=None, pad_edge=False, header_style="dim", padding=(0, 2, 0, 0))
    for name in names:
        justify: Literal["left", "right"] = "right" if name in right else "left"
        table.add_column(name, justify=justify, no_wrap=bool(name))
    return table


def pick(nodes: Mapping[str, Node], number: str) -> Node:
    """The node of an id; the nearest ids if there is none."""
    if number in nodes:
        return nodes[number]
    near = difflib.get_close_matches(number, nodes, n=4, cutoff=0.3)
    inside = [n for n in sorted(nodes) if n.startswith(number)][:6]
    raise InputError(f"there is no number {number!r}; near it: {', '.join(inside or near)}")


def working_rows(node: Node, system: System) -> list[dict[str, Any]]:
    """The working as rows for JSON."""
    return [
        {
            "depth": s.depth,
            "title": s.title,
            "result": s.result,
            "lines": list(s.lines),
            "source": s.source,
            "origin": s.origin,
        }
        for s in steps(node, system)
    ]


def print_working(number: str, node: Node, system: System) -> None:
    """Print a working: the answer, then what it came from, step by step."""
    out = console()
    out.print(Text(number, style="bold"))
    for step in steps(node, system):
        pad = (0, 0, 0, 2 * min(step.depth, 12))
        origin = f"  [{step.origin}]" if step.origin else ""
        out.print(
            Padding(Text(f"{step.title.rstrip('.')} = {step.result}{origin}", style="bold"), pad)
        )
        for line in step.lines:
            out.print(Padding(Text(line), (0, 0, 0, pad[3] + 4)))
        if step.source:
            out.print(Padding(Text(step.source, style="dim"), (0, 0, 0, pad[3] + 4)))


def print_guide(rows: Sequence[Any]) -> None:
    """Print how to recognise an axle and what wear to look for."""
    out = console()
    for row in rows:
        out.print(Text(row.name, style="bold"))
        out.print(f"  {row.look_for}", width=_WIDTH)
        out.print(Text(f"  → {row.tells}", style="dim"), width=_WIDTH)
