"""The tables of the launch page: cases and places, hop, sweeps, clutch or converter."""

from __future__ import annotations

import math
from collections.abc import Container, Sequence
from dataclasses import dataclass

from axlewright.build.resolve import Resolved
from axlewright.drawing.marks import State
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import slug
from axlewright.drawing.sweep_chart import Swept, sweep_chart
from axlewright.papers.words import cell, with_band
from axlewright.quantities.estimate import Estimate, leaves
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, pretty, show, significant
from axlewright.studies.coupling import CouplingReport
from axlewright.studies.launch_report import CaseInTime, Decider, Hop, LaunchReport, Way
from axlewright.studies.report import LoadPathReport, MeasureNext
from axlewright.web.views.frame import MeasureLine, owner_of_input
from axlewright.web.views.tables import Number, number

PLACES = {
    "flywheel": "Gearbox input",
    "driveshaft": "Driveshaft",
    "ring": "Ring gear",
    "shaft": "Harder loaded shaft",
}
_NO_HEAT, _AT_ONCE = 1.0, 2e-3  # J, s: below this a clutch stayed shut
_STATES: dict[str, State] = {"likely": "short", "possible": "possible", "unlikely": "holds"}
_SWINGS = {
    "wind-up": "the housing winding up and back",
    "fore-aft": "the axle going fore and aft",
    "vertical": "the axle going up and down",
    "wheels": "the wheels twisting their shafts",
    "driveline": "the driveline twisting",
    "body": "the body on its springs",
}
"""What swings, by the kind of the swing."""


@dataclass(frozen=True)
class PeakCell:
    """A peak, and the closed-form figure that it stands against."""

    peak: Number
    bound: str


@dataclass(frozen=True)
class CaseRow:
    """One case in time."""

    title: str
    means: str
    peaks: tuple[PeakCell, ...]
    clutch: Number
    locks: Number
    front: Number
    decides: str
    lost: int


def cases(report: LaunchReport, path: LoadPathReport, known: Container[str]) -> list[CaseRow]:
    """Cases and what each place sees; a number opens its working on the load path if it has one."""
    ids = {(c.case, p): t.id for c in path.cases for p, t in c.torques.items()}
    return [_case(c, ids, known) for c in report.cases]


def _case(c: CaseInTime, ids: dict[tuple[str, str], str], known: Container[str]) -> CaseRow:
    def peak(place: str) -> PeakCell:
        found = c.peaks[place]
        value, metric, band = cell(found)
        key = ids.get((c.case, place), "")
        more = "\n".join(filter(None, (metric, band)))
        return PeakCell(Number(key if key in known else "", value, more), bound_words(c, place))

    return CaseRow(
        c.title,
        c.means,
        tuple(peak(p) for p in PLACES),
        _heat(c.others["heat"]),
        _locks(c),
        _front(c.others["front"]),
        deciding(c.decides),
        c.lost,
    )


def bound_words(c: CaseInTime, place: str) -> str:
    """The closed-form figure and how many times it the march found."""
    bound = c.bounds.get(place, 0.0)
    if bound <= 0.0:
        return ""
    ratio = significant(c.peaks[place].value / bound, 2)
    return f"× {ratio} of {significant(from_si(bound, 'torque')[0], 3)}"


def _heat(heat: Finding) -> Number:
    if heat.high < _NO_HEAT:
        return Number("", "none")
    value, low, high = (significant(from_si(v, "energy")[0], 2) for v in _three(heat))
    return Number("", value, f"{low} to {high}")


def _three(f: Finding) -> tuple[float, float, float]:
    return (f.value, f.low, f.high)


def _locks(c: CaseInTime) -> Number:
    lock = c.others["lock"]
    share = f"in {significant(100.0 * c.clutch_holds, 2)} %" if c.clutch_holds < 0.995 else ""
    if c.clutch_holds == 0.0:
        return Number("", "never")
    if lock.high < _AT_ONCE:
        return Number("", "never slips", share)
    value = "never" if math.isnan(lock.value) else show(lock.value, "short time", digits=2)
    low, high = (significant(from_si(v, "short time")[0], 2) for v in (lock.low, lock.high))
    return Number("", value, "\n".join(filter(None, (f"{low} to {high}", share))))


def _front(front: Finding) -> Number:
    if front.value <= 0.0:
        return Number("", "none: lifts")
    low, high = (significant(100.0 * v, 2) for v in (max(front.low, 0.0), front.high))
    text = f"{significant(100.0 * front.value, 2)} %"
    return Number("", text, f"{low} to {high}" + ("\nmay lift" if front.low <= 0.0 else ""))


def deciding(found: Sequence[Decider]) -> str:
    """What decides an answer, with its share in the doubt about it."""
    return "; ".join(
        f"{d.means[:1].lower()}{d.means[1:].rstrip('.')} ({significant(100.0 * d.share, 2)} %)"
        for d in found
    )


@dataclass(frozen=True)
class HopLines:
    """The verdict on hop, and what stands behind it."""

    sentence: str
    state: State
    word: str
    share: str
    rate: str
    growth: str
    kind: str
    decides: str
    measure: tuple[MeasureLine, ...]


def hop(found: Hop) -> HopLines:
    """The hop verdict in words."""
    low, high = (v / (2.0 * math.pi) for v in (found.frequency.low, found.frequency.high))
    ends = [significant(v, 2) for v in (found.growth.low, found.growth.high)]
    return HopLines(
        found.sentence,
        _STATES[found.likelihood],
        found.likelihood,
        f"{significant(100.0 * found.share, 2)} %" if found.share > 0.0 else "none",
        f"{significant(low, 2)} to {significant(high, 2)}",
        f"{ends[0]} to {ends[1]}",
        _SWINGS.get(found.kind, ""),
        deciding(found.decides),
        measure(found.measure_next),
    )


def measure(found: Sequence[MeasureNext]) -> tuple[MeasureLine, ...]:
    """What to measure, with the field where it is written."""
    return tuple(
        MeasureLine(m.means.rstrip("."), m.now, m.advice, slug(owner_of_input(m.path)))
        for m in found
    )


def swept(report: LaunchReport, build: Resolved) -> list[Swept]:
    """The sweeps, each with where the build stands on it."""
    found = leaves((build.machine, build.launching))
    now = {path: leaf.value for path, leaf in found.items() if isinstance(leaf, Estimate)}
    return [Swept(s, now.get(s.path, math.nan)) for s in report.sweeps]


def sweeps(report: LaunchReport, build: Resolved) -> Drawing | None:
    """The chart of the sweeps, if there is any dial."""
    found = swept(report, build)
    return sweep_chart(f"Peak at the ring gear of {report.name}", found) if found else None


def sweep_rows(report: LaunchReport) -> list[list[str]]:
    """The sweeps as rows, in the units of the shop; empty where there are too few samples."""
    unit = pretty("lbf*ft")
    rows = [["what", "setting", "unit", f"peak, {unit}", f"low, {unit}", f"high, {unit}"]]
    for s in report.sweeps:
        name = pretty(from_si(1.0, s.dimension)[1])
        for v, *torques in zip(s.values, s.peak, s.low, s.high, strict=True):
            shown = [f"{from_si(t, 'torque')[0]:.4g}" if math.isfinite(t) else "" for t in torques]
            rows.append([s.means, f"{from_si(v, s.dimension)[0]:.4g}", name, *shown])
    return rows


@dataclass(frozen=True)
class WayRow:
    """One way to launch."""

    title: str
    stated: bool
    speed: Number
    peaks: tuple[Number, ...]
    clutch: Number
    sixty_feet: Number


def ways(report: LaunchReport) -> list[WayRow]:
    """The ways to launch side by side."""
    return [_way(w) for w in report.ways.ways]


def _way(w: Way) -> WayRow:
    def peak(place: str) -> Number:
        value, metric, band = cell(w.peaks[place])
        return Number("", value, "\n".join(filter(None, (metric, band))))

    turns = [significant(from_si(v, "rotation")[0], 2) for v in _three(w.speed)]
    time = w.sixty_feet
    return WayRow(
        w.title,
        w.stated,
        Number("", turns[0], "" if turns[1] == turns[2] else f"{turns[1]} to {turns[2]}"),
        tuple(peak(p) for p in PLACES),
        _heat(w.heat),
        Number(
            "",
            f"{'≥ ' if w.at_least else ''}{time.value:.2f}",
            f"{time.low:.2f} to {time.high:.2f}",
        ),
    )


@dataclass(frozen=True)
class CouplingLines:
    """Clutch or converter as shown."""

    report: CouplingReport
    state: State
    numbers: tuple[tuple[str, Number], ...]
    heads: tuple[str, ...]
    gears: tuple[FuseLine, ...]


@dataclass(frozen=True)
class FuseLine:
    """One gear: what each thing lets through, and what gives first."""

    gear: int
    limits: tuple[Number, ...]
    first: str
    share: str


def coupling(report: CouplingReport, known: Container[str]) -> CouplingLines:
    """Does it hold, and what slips first."""
    return CouplingLines(
        report,
        _STATES[report.slips],
        tuple(
            (f.means, number(f, value, known, band))
            for f in report.findings
            for value, _, band in [with_band(f).partition(", 5 to 95 %: ")]
        ),
        tuple(report.gears[0].limits),
        tuple(
            FuseLine(
                g.gear,
                tuple(_torque(f, known) for f in g.limits.values()),
                g.first,
                f"{significant(100.0 * g.shares[g.first], 2)} %",
            )
            for g in report.gears
        ),
    )


def _torque(f: Finding, known: Container[str]) -> Number:
    value, metric, band = cell(f)
    return number(f, value, known, "\n".join(filter(None, (metric, band))))


def meanings(report: CouplingReport) -> dict[str, str]:
    """What each number of the sizing means, by its id."""
    found = [*report.findings, *(f for g in report.gears for f in g.limits.values())]
    return {f.id: f.means for f in found}
