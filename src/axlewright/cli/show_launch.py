"""Printing the launch in time and the sizing of clutch or converter."""

from __future__ import annotations

import csv
import sys
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, show, significant
from axlewright.studies.coupling import CouplingReport
from axlewright.studies.launch import Tell
from axlewright.studies.launch_report import (
    CaseInTime,
    Decider,
    History,
    HopSweep,
    LaunchReport,
    Sweep,
    Ways,
)

_WIDTH = 98
_WORTH_SAYING = 0.05
"""Share of the samples that hop from which on a line is printed."""
_PLACES = {
    "flywheel": "gearbox input",
    "driveshaft": "driveshaft",
    "ring": "ring gear",
    "shaft": "loaded axle shaft",
}


class Watched:
    """A progress bar on the terminal's error stream; nothing where that is no terminal."""

    def __init__(self, title: str) -> None:
        out = Console(stderr=True)
        self._bar = Progress(
            TextColumn(title), BarColumn(), TimeRemainingColumn(), console=out, transient=True,
            disable=not sys.stderr.isatty(),
        )  # fmt: skip
        self._task = self._bar.add_task(title, total=1.0)

    def __enter__(self) -> Tell:
        """Begin to show, and give what hears the share done."""
        self._bar.start()
        return self.hear

    def __exit__(self, *_: object) -> None:
        """Take the bar away."""
        self._bar.stop()

    def hear(self, share: float) -> bool:
        """Show the share that is done; goes on always."""
        self._bar.update(self._task, completed=share)
        return True


def print_launch(report: LaunchReport, system: System) -> None:
    """Print a launch report: sentence, peaks, what decides, hop."""
    out = console()
    out.print(Text(report.name, style="bold"))
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    out.print()
    out.print(_peaks(report, system))
    out.print()
    for case in report.cases:
        if case.decides:
            out.print(Text(f"{case.title}: decided by {_by(case.decides)}"), width=_WIDTH)
    out.print()
    out.print(Text(report.hop.sentence, style="bold"), width=_WIDTH)
    for sweep in report.hop.sweeps:
        if max(sweep.shares) >= _WORTH_SAYING:
            out.print(Text(_hops(sweep, system)), width=_WIDTH)
    out.print()
    out.print(Text(report.ways.sentence, style="bold"), width=_WIDTH)
    out.print(_ways(report.ways, system))
    warm = next(s for s in report.sweeps if s.dimension == "temperature")
    out.print(Text(_warm(warm, system)), width=_WIDTH)
    if report.measure_next:
        out.print()
        out.print(Text("Measure next", style="bold"))
        for n in report.measure_next:
            out.print(Text(f"  {n.means} Now {n.now}. {n.advice}"), width=_WIDTH)
    _small(out, (*report.left_out, report.ways.note, *report.cautions, *report.safety))


def _ways(ways: Ways, system: System) -> Table:
    """The ways to launch side by side."""
    unit = pretty(from_si(1.0, "torque", system)[1])
    table = Table(
        box=None, pad_edge=False, header_style="dim", title_justify="left", title_style="bold",
        title=f"Ways to launch it: peaks in {unit}, 60 ft in s (* as stated)",
    )  # fmt: skip
    table.add_column("way", no_wrap=True)
    for name in ("rpm", *_PLACES.values(), "60 ft"):
        table.add_column(name, justify="right", no_wrap=True)
    for way in ways.ways:
        peaks, time = way.peaks, way.sixty_feet
        table.add_row(
            way.title + (" *" if way.stated else ""),
            significant(from_si(way.speed.value, "rotation", system)[0], 2),
            *(
                _band(peaks[p], system)
                if p == "ring"
                else significant(from_si(peaks[p].value, "torque", system)[0], 3)
                for p in _PLACES
            ),
            f"{'≥ ' if way.at_least else ''}{time.value:.2f} ({time.low:.2f}–{time.high:.2f})",
        )
    return table


def _warm(sweep: Sweep, system: System) -> str:
    """The peak on a cold, a warm and a hot tread."""
    places = (0, sweep.peak.index(max(sweep.peak)), -1)
    told = ", ".join(
        f"{show(sweep.peak[i], 'torque', system, 3)} at"
        f" {show(sweep.values[i], sweep.dimension, system, 2)}"
        for i in dict.fromkeys(places)
    )
    return f"Ring gear by tread temperature (its effect is assumed): {told}"


def _hops(sweep: HopSweep, system: System) -> str:
    """How often the axle hops at each stiffness that was tried."""
    pairs = (
        f"{significant(share * 100, 2)} % at {show(value, sweep.dimension, system, 2)}"
        for value, share in zip(sweep.values, sweep.shares, strict=True)
    )
    return f"  {sweep.means.rstrip('.')}: hops in {', '.join(pairs)}"


def _by(deciders: tuple[Decider, ...]) -> str:
    return "; ".join(
        f"{d.means[:1].lower()}{d.means[1:].rstrip('.')} ({significant(d.share * 100, 2)} %)"
        for d in deciders[:3]
    )


def _peaks(report: LaunchReport, system: System) -> Table:
    unit = pretty(from_si(1.0, "torque", system)[1])
    table = Table(
        box=None, pad_edge=False, header_style="dim", title_justify="left", title_style="bold",
        title=f"Peak torque in time, {unit} (5 to 95 % band)",
    )  # fmt: skip
    table.add_column("case", no_wrap=True)
    for name in _PLACES.values():
        table.add_column(name, justify="right", no_wrap=True)
    table.add_column("closed form, ring", justify="right", no_wrap=True)
    for case in report.cases:
        table.add_row(
            case.title, *(_band(case.peaks[p], system) for p in _PLACES), _bound(case, system)
        )
    return table


def _band(f: Finding, system: System) -> str:
    value, low, high = (
        significant(from_si(v, f.dimension, system)[0], 3) for v in (f.value, f.low, f.high)
    )
    return f"{value} ({low}–{high})"


def _bound(case: CaseInTime, system: System) -> str:
    if "ring" not in case.bounds:
        return "–"
    return significant(from_si(case.bounds["ring"], "torque", system)[0], 3)


def _small(out: Console, lines: tuple[str, ...]) -> None:
    if lines:
        out.print()
    for line in lines:
        out.print(Text(f"! {line}", style="dim"), width=_WIDTH)


def print_coupling(report: CouplingReport, system: System) -> None:
    """Print what holds, where it stalls and what slips first."""
    out = console()
    out.print(Text(report.sentence, style="bold"), width=_WIDTH)
    out.print(Text(report.fuse), width=_WIDTH)
    out.print()
    table = Table(box=None, pad_edge=False, show_header=False)
    for f in report.findings:
        table.add_row(f.means, _shown(f, system))
    out.print(table)
    out.print()
    gears = Table(
        box=None, pad_edge=False, header_style="dim", title="What gives first at full throttle",
        title_justify="left", title_style="bold",
    )  # fmt: skip
    gears.add_column("gear")
    for name in report.gears[0].limits:
        gears.add_column(f"ring torque by {name}", justify="right")
    gears.add_column("first")
    for g in report.gears:
        share = g.shares[g.first]
        gears.add_row(
            f"{g.gear}",
            *(_shown(f, system) for f in g.limits.values()),
            f"{g.first} ({significant(share * 100, 2)} %)",
        )
    out.print(gears)
    _small(out, (*report.advice, *report.cautions))


def _shown(f: Finding, system: System) -> str:
    head = show(f.value, f.dimension, system, 3)
    if f.low == f.high:
        return head
    low, high = (significant(from_si(v, f.dimension, system)[0], 3) for v in (f.low, f.high))
    return f"{head} ({low}–{high})"


def write_history(history: History, path: Path) -> None:
    """Write a launch in time as CSV, SI units."""
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(["time", *history.series])
        for i, t in enumerate(history.time):
            out.writerow([t, *(values[i] for values in history.series.values())])
