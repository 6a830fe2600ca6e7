"""The launch in time: what the driveline really sees, on the likeliest car and on many.

The march itself is one numerical step; around it stand the same inputs, samples and bands as in
the load path, so that its peaks can take the place of the closed-form bounds there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from axlewright import __version__
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.dynamics.launch import LaunchPeaks, launch_history, launch_peaks
from axlewright.quantities.estimate import Plain, leaves
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.demand import PLACES, demand, steady
from axlewright.studies.dial_march import DialMarch
from axlewright.studies.influence import measure_next
from axlewright.studies.launch_dials import dial_marches
from axlewright.studies.launch_hop import hop_of
from axlewright.studies.launch_reads import STUDY, what_is_read
from axlewright.studies.launch_report import History, LaunchReport
from axlewright.studies.launch_setup import (
    LaunchCase,
    cases_left_out,
    launch_cases,
    may_lift,
)
from axlewright.studies.launch_spread import finite
from axlewright.studies.launch_sweep import sweeps_of
from axlewright.studies.launch_tell import cautions_of, headline, places, told_case
from axlewright.studies.launch_ways import ways_of
from axlewright.studies.report import Made
from axlewright.studies.safety import safety_lines

__all__ = [
    "LaunchStudy", "Setting", "StoppedError", "Tell", "bounds_of", "fill", "history_of",
    "launch_study", "places",
]  # fmt: skip

SAMPLES = 10_000
SEED = 1
FRAMES = 400
_MARCHES = 0.7
"""Share of the work that the marches are."""
_HOPPED = 0.77
"""Share that is done when hop and sweeps are, too."""
_SWEPT = 0.82
"""And the other ways to launch."""
MODEL = (
    "the equations of docs/launch-model.md, marched in time; never compared with a measured launch"
)

Tell = Callable[[float], bool]


class StoppedError(Exception):
    """The work was told to stop before it was done."""


@dataclass(frozen=True)
class Setting:
    """The machine and its launching leaves under one filling."""

    machine: Machine[Num]
    launching: Launching[Num]
    bounds: dict[str, dict[str, Num]]
    """Closed-form bound of each case at each place, without the stated doubt about it."""


@dataclass
class LaunchStudy:
    """The report, and for each case and place the sampled ratio of marched peak to bound."""

    report: LaunchReport
    ratios: dict[str, dict[str, Array]]
    nominal_ratios: dict[str, dict[str, float]]
    dials: dict[str, DialMarch]
    """The stated launch along each dial of the limit card."""


@dataclass(frozen=True)
class _Marched:
    """A case of the likeliest car and of the samples, with what the march found of each."""

    case: LaunchCase
    nominal: LaunchPeaks
    sampled: LaunchPeaks


def launch_study(
    resolved: Resolved, seed: int = SEED, count: int = SAMPLES, tell: Tell | None = None
) -> LaunchStudy:
    """March every case, nominal and sampled; raises :class:`StoppedError` if told to stop."""
    plain = fill(resolved, Plain())
    samples = Samples(seed, count)
    drawn = fill(resolved, samples)
    inputs = leaves(what_is_read(resolved))
    found = _march_all(plain, drawn, _part(tell, 0.0, _MARCHES))
    ring = np.broadcast_to(found[0].sampled.axle_most, (count,))
    hop = hop_of(plain, drawn, seed, count, inputs)
    sweeps = sweeps_of(resolved, samples, ring)
    _heard(tell, _HOPPED)
    cases = tuple(
        told_case(f.case, f.nominal, f.sampled, _floats(plain, f.case.case), samples, inputs)
        for f in found
    )
    ways = ways_of(resolved, cases[0], seed, count)
    _heard(tell, _SWEPT)
    dials = dial_marches(resolved, seed, _part(tell, _SWEPT, 1.0 - _SWEPT))
    _heard(tell, 1.0)
    report = LaunchReport(
        name=resolved.machine.name,
        file=resolved.source.file,
        sentence=headline(cases),
        cases=cases,
        left_out=cases_left_out(plain.machine, _may_lift(plain)),
        hop=hop,
        sweeps=sweeps,
        ways=ways,
        measure_next=measure_next(inputs, samples, finite(ring)),
        cautions=(*resolved.launching.cautions, *cautions_of(cases)),
        safety=safety_lines(resolved.machine),
        sources=(MODEL, *sorted({e.source for e in inputs.values() if e.source})),
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
    )
    return LaunchStudy(
        report,
        {f.case.case: _sampled_ratios(f, drawn, count) for f in found},
        {f.case.case: _nominal_ratios(f, plain) for f in found},
        dials,
    )


def _march_all(plain: Setting, drawn: Setting, tell: Tell | None) -> list[_Marched]:
    landing = _may_lift(plain)
    pairs = list(
        zip(
            launch_cases(plain.machine, plain.launching, landing),
            launch_cases(drawn.machine, drawn.launching, landing),
            strict=True,
        )
    )
    whole = sum(a.events.duration for a, _ in pairs)
    found, done = [], 0.0
    for a, b in pairs:
        length = a.events.duration / whole
        found.append(_Marched(a, _march(a, None), _march(b, _part(tell, done, length))))
        done += length
    return found


def _may_lift(plain: Setting) -> bool:
    return may_lift(plain.machine, plain.launching)


def _floats(plain: Setting, case: str) -> dict[str, float]:
    return {p: float(v) for p, v in plain.bounds[case].items()}


def _nominal_ratios(found: _Marched, plain: Setting) -> dict[str, float]:
    under, peaks = plain.bounds[found.case.case], places(found.nominal)
    return {p: float(peaks[p][0]) / float(under[p]) for p in PLACES}


def _sampled_ratios(found: _Marched, drawn: Setting, count: int) -> dict[str, Array]:
    """Marched peak over closed form; a lost launch counts like the worst that was found."""
    under, peaks = drawn.bounds[found.case.case], places(found.sampled)
    ratios = {p: np.broadcast_to(peaks[p] / under[p], (count,)) for p in PLACES}
    return {p: np.where(np.isfinite(r), r, np.nanmax(r)) for p, r in ratios.items()}


def fill(resolved: Resolved, filler: Any) -> Setting:
    """Fill machine and launching with the same filler, so that they share their draws."""
    m = filler.tree(resolved.machine)
    x = filler.tree(resolved.launching)
    return Setting(m, x, bounds_of(m))


def bounds_of(m: Machine[Num]) -> dict[str, dict[str, Num]]:
    """What the load path would say without the march, case by case."""
    sure = replace(m, use=replace(m.use, shock_spread=1.0), marched={})
    d = demand(sure)
    found = {c.case: c.torques for c in d.cases if c.torques}
    found["gentle"] = found["lift-off"] = found["water"] = found["steady"]
    if len(d.gears) > 1:
        found["shift"] = steady(sure, d.standing, 2).torques
    return found


def _march(case: LaunchCase, tell: Tell | None) -> LaunchPeaks:
    found = launch_peaks(case.car, case.events, tell=tell)
    if found is None:
        raise StoppedError
    return found


def _part(tell: Tell | None, start: float, length: float) -> Tell | None:
    """Hear the progress of one case as progress of the whole."""
    if tell is None:
        return None
    return lambda share: tell(start + share * length)


def _heard(tell: Tell | None, share: float) -> None:
    """Tell a share that is done between marches."""
    if tell is not None and not tell(share):
        raise StoppedError


def history_of(resolved: Resolved, case: str) -> History:
    """The likeliest car's march of one case; raises :class:`KeyError` in words for no such case."""
    plain = fill(resolved, Plain())
    cases = {c.case: c for c in launch_cases(plain.machine, plain.launching)}
    if case not in cases:
        raise KeyError(f"this build has no case {case!r}; it has {', '.join(cases)}")
    wanted = cases[case]
    found = launch_history(wanted.car, wanted.events, every=wanted.events.duration / FRAMES)
    series = {
        k: tuple(float(f"{v:.5g}") for v in np.asarray(values))
        for k, values in found.values.items()
    }
    return History(tuple(float(f"{t:.5g}") for t in found.time), series)
