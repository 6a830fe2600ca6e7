"""Printing the answer about fit: the sentence first, then what to order, room, and what to do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.units import System, from_si
from axlewright.studies.fit_figures import band_text, figure, percent, plus_minus, value_text
from axlewright.studies.fit_report import (
    EndLine,
    FitReport,
    OrderLine,
    RoomLine,
    SearchReport,
    StepCost,
    WheelChoice,
)
from axlewright.workshop import fits

_WIDTH = 98
_FEW = 2
_COARSE = 0.0025
_OTHER: dict[System, System] = {"shop": "si", "si": "shop"}


def print_fit(report: FitReport, system: System) -> None:
    """Print the whole answer."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    if report.further:
        out.print(report.further, width=_WIDTH)
    for table in _tables(report, system):
        out.print()
        out.print(table)
    _print_rest(report)


def _tables(report: FitReport, system: System) -> Iterator[Table | Text]:
    yield _order(report.order, system)
    yield _rooms(report.rooms, system)
    if report.planned or report.search.choices or report.search.misses:
        yield _search(report.planned, report.search, system)
    if report.costs:
        yield _costs(report.costs, system)
    yield _gaps("Housing ends", report.ends, system)
    yield _gaps("Brakes and parking", report.brakes.lines, system)
    yield _gaps("Speedometer", report.speedometer.lines, system)


def _table(title: str, heads: Sequence[str], left: Collection[int] = (0,)) -> Table:
    made = Table(
        box=None, pad_edge=False, header_style="dim", title=title, title_justify="left",
        title_style="bold",
    )  # fmt: skip
    for n, head in enumerate(heads):
        made.add_column(head, justify="left" if n in left else "right", no_wrap=n != len(heads) - 1)
    return made


def _measure(keys: Sequence[str]) -> Text:
    """The first readings that are missing; all of them stand in the list at the end."""
    named = tuple(dict.fromkeys(keys))
    more = f" and {len(named) - _FEW} more" if len(named) > _FEW else ""
    return Text(f"measure {', '.join(named[:_FEW])}{more}", style="yellow")


def _nothing(title: str, lacks: Sequence[Sequence[str]]) -> Text:
    """In place of a table in which nothing is known."""
    count = len({key for keys in lacks for key in keys})
    words = "one reading is" if count == 1 else f"{count} readings are"
    return Text.assemble((f"{title}: ", "bold"), (f"not known yet, {words} missing", "yellow"))


def _order(lines: Sequence[OrderLine], system: System) -> Table | Text:
    if all(o.finding is None for o in lines):
        return _nothing("What is ordered by", [o.lacks for o in lines])
    table = _table("What is ordered by", ("dimension", "value", "", "±", "from, to"), (0, 4))
    for o in lines:
        if o.finding is None:
            table.add_row(o.what, "–", "", "", _measure(o.lacks))
            continue
        note = f"{o.datum}; {o.note}" if o.note else o.datum
        table.add_row(
            o.what, value_text(o.finding, system), f"({value_text(o.finding, _OTHER[system])})",
            plus_minus(o.finding, system), Text(note, style="dim"),
        )  # fmt: skip
    return table


def _rooms(lines: Sequence[RoomLine], system: System) -> Table | Text:
    if all(r.clearance is None for r in lines):
        return _nothing("Room beside each wheel", [r.lacks for r in lines])
    table = _table("Room beside each wheel", ("side", "to", "where", "left", "±", "wanted", "kept",
                                              ""), (0, 1, 2, 7))  # fmt: skip
    for r in lines:
        if r.clearance is None:
            table.add_row(r.side, r.thing, r.where, "–", "", figure(r.wanted, 0.0, system), "",
                          _measure(r.lacks))  # fmt: skip
            continue
        style = "bold red" if r.kept == "short" else ""
        word = "SHORT" if r.kept == "short" else ""
        table.add_row(
            r.side, r.thing, r.where, value_text(r.clearance, system),
            plus_minus(r.clearance, system), figure(r.wanted, 0.0, system),
            percent(r.chance or 0.0), word, style=style,
        )  # fmt: skip
    return table


def _search(planned: WheelChoice | None, search: SearchReport, system: System) -> Table:
    title = f"Wheels and widths: {search.tried:,} tried, {search.fitting:,} clear"
    heads = ("tire", "rim", "backspace", "offset", "axle", "to spare", "kept", "why")
    table = _table(title, heads, (0, 7))
    rows = [planned] if planned else []
    for c in (*rows, *search.choices, *search.misses):
        why = c.reason or f"lacks room at the {c.tightest}, {c.place}"
        table.add_row(
            c.tire, *(figure(v, _COARSE, system) for v in (c.rim_width, c.backspace, c.offset,
                                                           c.width, c.spare)),
            percent(c.chance), Text(why, style="dim"), style="bold" if c is planned else "",
        )  # fmt: skip
    if search.notes:
        table.caption, table.caption_justify = " ".join(search.notes), "left"
    return table


def _costs(lines: Sequence[StepCost], system: System) -> Table:
    step = "1/4 in" if system == "shop" else "6.35 mm"
    table = _table(f"What {step} more of each costs (− is less room)", ("", "outside", "inside"))
    for c in lines:
        table.add_row(c.what, *(_signed(v, system) for v in (c.outer, c.inner)))
    return table


def _signed(value: float, system: System) -> str:
    number, unit = from_si(value, "length", system)
    return f"{number:+.{3 if system == 'shop' else 1}f} {unit}"


def _gaps(title: str, lines: Sequence[EndLine], system: System) -> Table | Text:
    if all(e.finding is None for e in lines):
        return _nothing(title, [e.lacks for e in lines])
    table = _table(title, ("", "", "value", "±", ""), (0, 1, 4))
    for e in lines:
        if e.finding is None:
            table.add_row(e.side, e.what, "–", "", _measure(e.lacks))
            continue
        told = plus_minus if e.finding.dimension == "length" else band_text
        off = told(e.finding, system)
        table.add_row(e.side, e.what, value_text(e.finding, system), off,
                      Text(e.fault, style="red"))  # fmt: skip
    return table


def _print_rest(report: FitReport) -> None:
    out = console()
    for drive, driven, error in report.speedometer.gears:
        way = "too much" if error >= 0.0 else "too little"
        out.print(f"  {driven} driven with {drive} drive: shows {abs(error) * 100:.1f} % {way}")
    for words in (*report.brakes.words, *report.speedometer.words):
        out.print(Text(words, style="dim"), width=_WIDTH)
    out.print()
    out.print(Text("Order now, or wait for", style="bold"))
    for h in report.holds:
        out.print(Text(f"  {h.words}", style="" if h.now else "dim"), width=_WIDTH)
    if report.missing:
        out.print()
        out.print(Text("Not measured yet", style="bold"))
        for m in report.missing:
            rest = ", ".join(filter(None, (f"from {m.datum}" if m.datum else "", m.tool)))
            out.print(f"  {m.key}: {m.what}{f' ({rest})' if rest else ''}", width=_WIDTH)
    if report.measure_next:
        out.print()
        out.print(Text("Measure next: this narrows the answer most", style="bold"))
        for n in report.measure_next:
            out.print(f"  {n.means.rstrip('.')}, now {n.now}. {n.advice}", width=_WIDTH)
    out.print()
    out.print(f"{report.made.samples} samples, seed {report.made.seed}; ± holds 5 to 95 % of them.")
    for caution in report.cautions:
        out.print(Text(f"Caution: {caution}", style="yellow"), width=_WIDTH)
    for line in report.safety:
        out.print(Text(line, style="dim"), width=_WIDTH)


def print_worksheet(name: str, missing: Collection[str]) -> None:
    """What is still to be measured, stage by stage, with room to write."""
    out = console()
    out.print(Text(f"{name}: still to be measured", style="bold"))
    for stage in fits.stages():
        items = [i for i in stage.items if i.key in missing]
        if not items:
            continue
        out.print()
        out.print(Text(f"{stage.name} ({stage.state})", style="bold"), width=_WIDTH)
        if stage.caution:
            out.print(Text(stage.caution, style="yellow"), width=_WIDTH)
        table = _table("", ("key", "what", "from", "with", "± careful", "reading"), (0, 1, 2, 3, 5))
        for i in items:
            table.add_row(i.key, i.what, i.datum, i.tool.name, i.careful, "__________")
        out.print(table)
