"""What torque reaches each part, what it stands, which goes first, and how sure that is."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import cast

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import Estimate, Kinds, Plain, leaves
from axlewright.quantities.finding import Finding, band, likelihood
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.recall import Recalling, recalling
from axlewright.quantities.sampling import Samples, kept
from axlewright.quantities.units import significant
from axlewright.quantities.watching import watching
from axlewright.quantities.working import Node, Nominal, NominalTracer, Traced, tracing
from axlewright.studies.demand import Loads
from axlewright.studies.influence import measure_next
from axlewright.studies.input_lines import input_line
from axlewright.studies.links.limit import Link
from axlewright.studies.path import Path, evaluate
from axlewright.studies.report import (
    CaseReport,
    GearReport,
    LinkReport,
    LoadPathReport,
    Made,
    Margin,
    Verdict,
)
from axlewright.studies.safety import safety_lines
from axlewright.studies.sentence import verdict_sentence

STUDY = "load path 2"
SAMPLES = 10_000
SEED = 1
PLACES = {
    "flywheel": "at the gearbox input",
    "driveshaft": "in the driveshaft",
    "ring": "at the ring gear",
    "shaft": "in the harder loaded axle shaft",
}


@dataclass
class Study:
    """A finished study: the report, the working behind each finding, and the formulas used."""

    report: LoadPathReport
    nodes: dict[str, Node]
    used: tuple[str, ...]
    untracked: tuple[str, ...]


@dataclass
class _Desk:
    """What both evaluations gave, side by side, while findings are made of them."""

    nominal: Path
    sampled: Path
    samples: Samples
    launches: float
    recall: Recalling
    nodes: dict[str, Node] = field(default_factory=dict)
    bands: dict[int, tuple[Num, tuple[float, float]]] = field(default_factory=dict)
    """Bands by the identity of their samples: the same torque stands in many findings."""

    def remember(self, key: str, nominal: Num) -> None:
        """Keep the node behind a number, so that its working can be opened."""
        if isinstance(nominal, Traced):
            self.nodes[key] = nominal.node

    def finding(self, key: str, means: str, nominal: Num, sampled: Num, dimension: str) -> Finding:
        """Make a finding and remember the node behind it."""
        self.remember(key, nominal)
        if id(sampled) not in self.bands:
            found = self.recall("band", band, sampled, float(nominal))
            self.bands[id(sampled)] = (sampled, found)
        low, high = self.bands[id(sampled)][1]
        return Finding(key, means, float(nominal), low, high, dimension)


def load_path(resolved: Resolved, seed: int = SEED, count: int = SAMPLES) -> Study:
    """Evaluate nominal and samples, and report."""
    with recalling(kept(count)) as recall:
        return _study(resolved, seed, count, recall)


def _study(resolved: Resolved, seed: int, count: int, recall: Recalling) -> Study:
    with tracing() as traced:
        nominal = evaluate(Nominal().tree(resolved.machine))
    samples = Samples(seed, count, recall=recall)
    with watching(recall) as watched:
        sampled = evaluate(samples.tree(resolved.machine), by_case=False, recall=recall)
    launches = float(Plain().fill(resolved.machine.use.launches))
    desk = _Desk(nominal, sampled, samples, launches, recall)
    links, weakest = _links(desk)
    cases = tuple(
        _case(desk, a, b) for a, b in zip(nominal.demand.cases, sampled.demand.cases, strict=True)
    )
    gears = tuple(_gear(desk, resolved, n) for n in range(len(nominal.demand.gears)))
    inputs = leaves(resolved.machine)
    order = tuple(
        r.link
        for r in sorted((r for r in links if r.breaks), key=lambda r: r.breaks.margin.value)  # type: ignore[union-attr]
    )
    by_name = {r.link: r for r in links}
    sentence, holds = verdict_sentence(by_name, order, {c.case: c.title for c in cases})
    report = LoadPathReport(
        name=resolved.machine.name,
        file=resolved.source.file,
        verdict=Verdict(
            sentence, holds, order[0], order, measure_next(inputs, samples, np.log(weakest))
        ),
        links=links,
        cases=cases,
        gears=gears,
        inputs=tuple(input_line(e) for e in inputs.values()),
        cautions=_cautions(
            resolved, traced, (*_short_lives(desk, links), *watched.cautions(set(traced.outside)))
        ),
        safety=safety_lines(resolved.machine),
        sources=_sources(traced, inputs.values()),
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
    )
    return Study(report, desk.nodes, tuple(traced.used), tuple(traced.untracked))


def slug(words: str) -> str:
    """A mode as part of an id."""
    return "-".join("".join(c if c.isalnum() else " " for c in words).split())


def _margin(desk: _Desk, link: Link, which: tuple[int, int]) -> tuple[Margin, Array]:
    """The margin of one limit in its worst case, with the samples of its worst cases."""
    i, j = which
    nominal, sampled = desk.nominal.links[i].limits[j], desk.sampled.links[i].limits[j]
    by_case = desk.nominal.margins[i][j]
    case = min(by_case, key=lambda c: float(by_case[c]))
    samples = _spread(desk, desk.sampled.least[i][j])
    base = f"{link.name}.{slug(nominal.mode)}"
    for name, value in by_case.items():
        desk.remember(f"{base}.margin.{slug(name)}", value)
    share = np.count_nonzero(samples < 1.0) / samples.size
    made = Margin(
        id=base,
        link=link.name,
        kind=nominal.kind,
        mode=nominal.mode,
        case=case,
        capacity=desk.finding(
            f"{base}.capacity",
            f"{link.title}: what it stands before it {nominal.kind}",
            nominal.capacity,
            sampled.capacity,
            nominal.dimension,
        ),
        demand=desk.finding(
            f"{base}.demand",
            f"{link.title}: what reaches it",
            nominal.demands[case],
            sampled.demands[case],
            nominal.dimension,
        ),
        margin=desk.finding(
            f"{base}.margin",
            f"{link.title}: margin before it {nominal.kind}",
            by_case[case],
            samples,
            "ratio",
        ),
        short_share=share,
        likelihood=likelihood(share),
    )
    return made, samples


def _spread(desk: _Desk, values: Num) -> Array:
    """A value for each sample; an array that has them stays the very array."""
    if isinstance(values, np.ndarray) and values.shape == (desk.samples.count,):
        return values
    return cast(Array, np.broadcast_to(values, (desk.samples.count,)))


def _links(desk: _Desk) -> tuple[tuple[LinkReport, ...], Array]:
    """Report every link; gives also the weakest margin of each sample."""
    rows, breaking, names = [], [], []
    for i, (nominal, sampled) in enumerate(
        zip(desk.nominal.links, desk.sampled.links, strict=True)
    ):
        made = [_margin(desk, nominal, (i, j)) for j in range(len(nominal.limits))]
        breaks = [(m, s) for m, s in made if m.kind == "breaks"]
        gives = [m for m, _ in made if m.kind in {"slips", "takes a set"}]
        if breaks:
            breaking.append(desk.recall("least of a link", _smallest, *[s for _, s in breaks]))
            names.append(nominal.name)
        rows.append((nominal, sampled, [m for m, _ in breaks], gives))
    weakest = _smallest(*breaking)
    shares = dict(zip(names, _first_shares(breaking, weakest), strict=True))
    reports = tuple(
        LinkReport(
            link=nominal.name,
            title=nominal.title,
            part=nominal.part,
            breaks=min(breaks, key=lambda m: m.margin.value) if breaks else None,
            gives=min(gives, key=lambda m: m.margin.value) if gives else None,
            endures=_endures(desk, nominal, sampled),
            first_share=shares.get(nominal.name, 0.0),
            consequence=nominal.consequence,
            note=nominal.note,
        )
        for nominal, sampled, breaks, gives in rows
    )
    return reports, weakest


def _smallest(*rows: Array) -> Array:
    return functools.reduce(np.minimum, rows)


def _first_shares(rows: list[Array], weakest: Array) -> Iterator[float]:
    """Share of samples in which each row is the first that is as small as the smallest."""
    open_yet = np.ones(weakest.shape, dtype=bool)
    for row in rows:
        here = ((row == weakest) | np.isnan(row)) & open_yet
        open_yet ^= here
        yield np.count_nonzero(here) / here.size


def _endures(desk: _Desk, nominal: Link, sampled: Link) -> Finding | None:
    if nominal.endures is None or sampled.endures is None:
        return None
    e = nominal.endures
    return desk.finding(
        f"{nominal.name}.endures", e.means, e.value, sampled.endures.value, e.dimension
    )


def _torques(desk: _Desk, key: str, nominal: Loads, sampled: Loads) -> dict[str, Finding]:
    return {
        place: desk.finding(
            f"{key}.{place}",
            f"{nominal.title}: torque {PLACES[place]}",
            value,
            sampled.torques[place],
            "torque",
        )
        for place, value in nominal.torques.items()
    }


def _governs(branches: dict[str, Num], result: Num | None) -> str:
    if not branches or result is None:
        return ""
    return min(branches, key=lambda b: abs(float(branches[b]) - float(result)))


def _case(desk: _Desk, nominal: Loads, sampled: Loads) -> CaseReport:
    return CaseReport(
        nominal.case,
        nominal.title,
        nominal.means,
        nominal.gear,
        _governs(nominal.branches, nominal.torques.get("ring")),
        _torques(desk, f"demand.{slug(nominal.case)}", nominal, sampled),
    )


def _gear(desk: _Desk, resolved: Resolved, n: int) -> GearReport:
    nominal, sampled = desk.nominal.demand.gears[n], desk.sampled.demand.gears[n]
    key = f"gear.{n + 1}"
    ratio = Nominal().fill(resolved.machine.gearbox.ratios[n])
    return GearReport(
        gear=n + 1,
        ratio=desk.finding(
            f"{key}.ratio",
            f"Ratio of gear {n + 1}",
            ratio,
            desk.samples.fill(resolved.machine.gearbox.ratios[n]),
            "ratio",
        ),
        governed_by=_governs(nominal.branches, nominal.torques["ring"]),
        torques=_torques(desk, key, nominal, sampled)
        | {
            branch: desk.finding(
                f"{key}.by_{slug(branch)}",
                f"Gear {n + 1}: ring-gear torque by {branch}",
                value,
                sampled.branches[branch],
                "torque",
            )
            for branch, value in nominal.branches.items()
        },
    )


def _short_lives(desk: _Desk, links: tuple[LinkReport, ...]) -> Iterable[str]:
    """Links whose first endurance figure falls short of what is wanted."""
    wanted = float(desk.launches)
    for link in links:
        e = link.endures
        if e is None or (link.breaks is not None and link.breaks.margin.value < 1.0):
            continue
        if e.dimension == "count" and e.value < wanted:
            yield (
                f"{link.title}: about {significant(e.value, 2)} launches to a fatigue crack at"
                f" this peak, {significant(wanted, 2)} wanted"
            )
        if e.dimension == "ratio" and e.high < 1.0:  # short even at its best
            means = e.means[:1].lower() + e.means[1:]
            yield f"{link.title}: {means} is only {significant(e.value, 2)}"


def _cautions(
    resolved: Resolved, traced: NominalTracer, watched: tuple[str, ...]
) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*resolved.cautions, *traced.outside.values(), *watched)))


def _sources(traced: NominalTracer, inputs: Iterable[Estimate | Kinds]) -> tuple[str, ...]:
    formulas = {f.source for f in traced.used.values()}
    data = {e.source for e in inputs if e.source}
    return tuple(sorted(formulas | data, key=str.casefold))
