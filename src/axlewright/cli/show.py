"""Printing reports for people: the sentence first, then the table, then what to measure next."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Literal

from axlewright.cli import page
from axlewright.cli.faults import InputError
from axlewright.cli.page import Cell, Column, Grid, Line
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, show, significant
from axlewright.quantities.working import Node, steps
from axlewright.studies.report import LimitCard, LinkReport, LoadPathReport, Margin

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table

_BAR = 19
_BAR_FROM, _BAR_TO = math.log(0.25), math.log(4.0)
_WIDTH = 98
_WIDE = 106


def console() -> Console:
    """The terminal library's console, for what :mod:`page` does not lay out."""
    from axlewright.cli.rich_page import console as made  # (slow to load)

    return made()


def print_report(report: LoadPathReport, system: System, all_inputs: bool) -> None:
    """Print a load-path report."""
    page.print_page(
        [
            Line(report.name, "bold"),
            Line(report.verdict.sentence, "bold", _WIDTH),
            Line(""),
            _links_table(report, page.width()),
            Line(
                "breaks: what it stands over what reaches it; bar: 5 to 95 % band, │ is one;"
                " slips/sets: the same for slipping or taking a set",
                "dim",
                indent=2,
            ),
            Line(""),
            _torque_table(report, system),
            *_measure(report),
            *([_inputs_table(report)] if all_inputs else []),
            *_notes(report),
        ]
    )


def _links_table(report: LoadPathReport, width: int) -> Grid:
    """One line a link; the part's name only where there is room for it."""
    columns = [
        Column("link", least=17),
        Column("breaks", right=True, least=6),
        Column("¼        1        4", least=_BAR),
        Column("breaking", least=10),
        Column("in", least=21),
        Column("slips/sets", right=True, least=10),
    ]
    if width >= _WIDE:
        columns.append(Column("part", most=width - _WIDE + 14))
    titles = {c.case: c.title for c in report.cases}
    rows = []
    for link in report.links:
        first = link.link == report.verdict.weakest
        style: page.Style = "bold" if first else ""
        row = [
            Cell(("► " if first else "  ") + link.title, style),
            Cell(_number(link.breaks), style),
            Cell(_bar(link.breaks)),
            Cell(_word(link)),
            Cell(titles.get(link.breaks.case, "") if link.breaks else ""),
            Cell(_number(link.gives)),
            Cell(link.part),
        ]
        rows.append(row[: len(columns)])
    return Grid(columns, rows)


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


def _torque_table(report: LoadPathReport, system: System) -> Grid:
    unit = pretty(from_si(1.0, "torque", system)[1])
    places = ("gearbox input", "driveshaft", "ring gear", "loaded axle shaft")
    return Grid(
        [Column("case"), *(Column(name, right=True) for name in places)],
        [
            [Cell(case.title), *(Cell(_band(f, system)) for f in case.torques.values())]
            for case in report.cases
            if case.torques
        ],
        f"Torque that reaches each place, {unit} (5 to 95 % band)",
    )


def _band(f: Finding, system: System) -> str:
    value, low, high = (
        significant(from_si(v, f.dimension, system)[0], 3) for v in (f.value, f.low, f.high)
    )
    return f"{value} ({low}–{high})"


def _measure(report: LoadPathReport) -> list[Line]:
    if not report.verdict.measure_next:
        return []
    return [
        Line(""),
        Line("Measure next", "bold"),
        *(
            Line(f"  {n}. {m.means.rstrip('.')} (now {m.now}): {m.advice}", width=_WIDTH)
            for n, m in enumerate(report.verdict.measure_next, start=1)
        ),
    ]


def _notes(report: LoadPathReport) -> list[Line]:
    assumed = sum(i.origin in {"assumed", "catalogue"} for i in report.inputs)
    return [
        Line(""),
        Line(
            f"{assumed} of {len(report.inputs)} inputs are assumed or from the catalogue"
            f" (list them with --inputs); seed {report.made.seed}, {report.made.samples} samples,"
            f" build {report.made.build_hash}.",
            width=_WIDTH,
        ),
        *(Line(f"Caution: {caution}", "yellow", _WIDTH) for caution in report.cautions),
        *(Line(line, "dim", _WIDTH) for line in report.safety),
    ]


def _inputs_table(report: LoadPathReport) -> Grid:
    names = ("input", "value", "spread", "origin", "source")
    return Grid(
        [Column(name, wraps=True) for name in names],
        [
            [Cell(text) for text in (i.path, i.value, i.spread, i.origin, i.source)]
            for i in report.inputs
        ],
    )


def print_card(card: LimitCard) -> None:
    """Print a limit card."""
    from rich.text import Text

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
    from rich.table import Table

    table = Table(box=None, pad_edge=False, header_style="dim", padding=(0, 2, 0, 0))
    for name in names:
        justify: Literal["left", "right"] = "right" if name in right else "left"
        table.add_column(name, justify=justify, no_wrap=bool(name))
    return table


def pick(nodes: Mapping[str, Node], number: str) -> Node:
    """The node of an id; the nearest ids if there is none."""
    import difflib

    if number in nodes:
        return nodes[number]
    near = difflib.get_close_matches(number, nodes, n=4, cutoff=0.3)
    inside = [n for n in sorted(nodes) if n.startswith(number)][:6]
    raise InputError(f"there is no number {number!r}; near it: {', '.join(inside or near)}")


def open_number(nodes: Mapping[str, Node], number: str, as_json: bool, system: System) -> None:
    """Print the working of one number, for people or for programs."""
    import typer

    from axlewright.workshop import messages

    node = pick(nodes, number)
    if as_json:
        typer.echo(messages.envelope("working", working_rows(node, system)))
    else:
        print_working(number, node, system)


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
    from rich.padding import Padding
    from rich.text import Text

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
    from rich.text import Text

    out = console()
    for row in rows:
        out.print(Text(row.name, style="bold"))
        out.print(f"  {row.look_for}", width=_WIDTH)
        out.print(Text(f"  → {row.tells}", style="dim"), width=_WIDTH)
