"""Printing the gear study: the sentence first, then loads, limits, what gives, what would help."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, show, significant
from axlewright.studies.mesh_pictures import Shimmed
from axlewright.studies.mesh_report import GearLoad, LoadedPicture, MeshReport, Picture, RatingTable
from axlewright.studies.mesh_sentences import reversal_words, set_words, warm_words
from axlewright.studies.mesh_under import Under

_WIDTH = 98
_MILLION = 1e6
_SHOWN = {
    "pinion_lift": "pinion, offset",
    "pinion_axial": "pinion, axis",
    "ring_axial": "ring, axle",
    "ring_lift": "ring, offset",
}


def print_mesh(report: MeshReport, system: System) -> None:
    """Print a gear report."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    out.print()
    for picture in report.pictures.values():
        out.print(_pattern(picture), width=_WIDTH)
    out.print()
    out.print(_loads(report, system))
    out.print()
    out.print(_limits(report, system))
    out.print()
    out.print(_gives(report))
    out.print()
    out.print(_bearings(report.loads[0], system))
    out.print()
    out.print(_choices(report, system))
    if report.rating:
        out.print()
        out.print(Text(report.rating, style="bold"), width=_WIDTH)
    for table in report.tables:
        out.print()
        out.print(_rated(table, system))
    for said in (reversal_words(report), *warm_words(report)):
        if said:
            out.print()
            out.print(Text(said), width=_WIDTH)
    if report.measure_next:
        out.print()
        out.print(Text("Measure next", style="bold"))
        for n in report.measure_next:
            out.print(Text(f"  {n.means} Now {n.now}. {n.advice}"), width=_WIDTH)
    of_tables = dict.fromkeys(said for table in report.tables for said in table.cautions)
    _small(out, (*report.cautions, *of_tables, *report.safety))


def print_setting(shim: float, found: Shimmed, under: Under | None, system: System) -> None:
    """Print the pair with other shims, and under a torque."""
    out = console()
    out.print(Text(set_words(shim, found), style="bold"), width=_WIDTH)
    for picture in found.pictures.values():
        out.print(_pattern(picture), width=_WIDTH)
    if under is None:
        return
    out.print()
    torque = show(under.ring_torque, "torque", system, 3)
    out.print(Text(f"Under {torque} at the ring gear, in balance", style="bold"))
    unit = pretty(from_si(1.0, "length", system)[1])
    table = _table(
        f"movement, {unit}", "torque on", (*_SHOWN.values(), "load from toe", "pressure")
    )
    cautions = list(under.cautions)
    for side, flank in under.flanks.items():
        moves = [
            significant(from_si(flank.moves[d], "length", system)[0], 2) if flank.moves else "–"
            for d in _SHOWN
        ]
        table.add_row(side, *moves, *_pressed(flank.loaded, system))
        cautions.extend(f"{side}: {said}" for said in (flank.why,) if said)
        if flank.loaded is not None:
            cautions.extend(f"{side}: {said}" for said in flank.loaded.cautions)
    out.print(table)
    _small(out, cautions)


def _pressed(found: LoadedPicture | None, system: System) -> tuple[str, str]:
    if found is None:
        return "–", "–"
    return _percent(found.center), show(found.peak, "stress", system, 2)


def _pattern(p: Picture) -> Text:
    if not p.length:
        return Text(f"{p.side.capitalize()} side, by hand: no pattern on this flank")
    return Text(
        f"{p.side.capitalize()} side, by hand: from {_percent(p.toe_end)} to {_percent(p.heel_end)}"
        f" of the face from the toe, middle at {_percent(p.center)}, {_percent(p.height)} up"
    )


def _percent(share: float) -> str:
    return f"{significant(100.0 * share, 2)} %"


def _table(title: str, first: str, others: Sequence[str]) -> Table:
    table = Table(
        box=None, pad_edge=False, header_style="dim", title=title, title_justify="left",
        title_style="bold",
    )  # fmt: skip
    table.add_column(first, no_wrap=True)
    for name in others:
        table.add_column(name, justify="right", no_wrap=True)
    return table


def _loads(report: MeshReport, system: System) -> Table:
    torque, length, stress = (
        pretty(from_si(1.0, d, system)[1]) for d in ("torque", "length", "stress")
    )
    heads = (torque, *_SHOWN.values(), "middle from toe", "to heel", f"peak, {stress}")
    table = _table(f"Loads; movement, {length} (5 to 95 % band of the lift)", "load", heads)
    for load in report.loads:
        c, p = load.contact, load.pattern
        place, heel = (
            (c["load_center"], c["load_heel_end"]) if c
            else (p.get("center"), p.get("heel_end"))
        )  # fmt: skip
        peak = c.get("peak_pressure")
        table.add_row(
            load.title,
            significant(from_si(load.ring_torque.value, "torque", system)[0], 3),
            _band(load.moves["pinion_lift"], system),
            *(
                significant(from_si(load.moves[d].value, "length", system)[0], 2)
                for d in list(_SHOWN)[1:]
            ),
            "–" if place is None else _percent(place.value),
            "–" if heel is None else _percent(heel.value),
            "–" if peak is None else significant(from_si(peak.value, "stress", system)[0], 2),
        )
    return table


def _band(f: Finding, system: System) -> str:
    value, low, high = (
        significant(from_si(v, f.dimension, system)[0], 2) for v in (f.value, f.low, f.high)
    )
    return value if low == high else f"{value} ({low} to {high})"


def _limits(report: MeshReport, system: System) -> Table:
    table = _table(
        "Against a deflection test, at service loads only", "load", ("moves", "allowed", "")
    )
    titles = {load.name: load.title for load in report.loads}
    for line in report.limits:
        low, high = (show(v, "length", system, 2) for v in (line.low, line.high))
        word = "within" if line.holds else "beyond"
        if report.made.samples and line.share > 0.0:
            word += f", beyond in {_percent(line.share)} of the samples"
        table.add_row(
            f"{titles[line.load]}: {line.means}", show(line.found.value, "length", system, 2),
            f"{low} to {high}", word,
        )  # fmt: skip
    return table


def _gives(report: MeshReport) -> Table:
    heads = list(report.loads[0].shares)
    table = _table("What gives: shares of the change of offset", "load", heads)
    for load in report.loads:
        table.add_row(load.title, *(_percent(f.value) for f in load.shares.values()))
    return table


def _bearings(load: GearLoad, system: System) -> Table:
    heads = ("across", "along", "load zone", "fullest roller", "on the rib", "pressure", "turns")
    table = _table(f"Bearings under {load.title.lower()}", "bearing", heads)
    for b in load.bearings:
        life = "endless" if b.life is None else f"{significant(b.life / _MILLION, 2)} million"
        table.add_row(
            b.name, show(b.radial, "force", system, 2), show(b.axial, "force", system, 2),
            _percent(b.load_zone), show(b.fullest_roller, "force", system, 2),
            show(b.rib, "force", system, 2), show(b.pressure, "stress", system, 2), life,
        )  # fmt: skip
    return table


def _choices(report: MeshReport, system: System) -> Table:
    heads = ("pinion, rated", "pinion, hardest", "ring, rated", "over as it is")
    table = _table("What would change it (* as it is)", "held so", heads)
    for c in report.choices:
        lengths = (c.lift_rated, c.lift_hardest, c.ring_axial_rated)
        table.add_row(
            c.title + (" *" if c.present else ""),
            *(show(v, "length", system, 2) for v in lengths),
            f"× {significant(c.times, 3)}" if math.isfinite(c.times) else "–",
        )
    return table


def _rated(t: RatingTable, system: System) -> Table:
    """A table of ratings; the remark of a row stands at its end."""
    table = _table(t.title, "load", t.columns)
    if any(row.says for row in t.rows):
        table.add_column("remark", overflow="fold")
    for row in t.rows:
        cells = ["–" if f is None else show(f.value, f.dimension, system, 3) for f in row.cells]
        table.add_row(row.title, *cells, *([row.says] if row.says else []))
    return table


def _small(out: Console, lines: Sequence[str]) -> None:
    if lines:
        out.print()
    for line in lines:
        out.print(Text(f"! {line}", style="dim"), width=_WIDTH)
