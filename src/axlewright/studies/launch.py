"""The launch in time: what the driveline really sees, on the likeliest car and on many.

The march itself is one numerical step; around it stand the same inputs, samples and bands as in
the load path, so that its peaks can take the place of the closed-form bounds there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from axlewright import __version__
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.dynamics.launch import LaunchPeaks, launch_history, launch_peaks
from axlewright.quantities.estimate import Estimate, Kinds, Plain, leaves
from axlewright.quantities.finding import Finding
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show, significant
from axlewright.studies.demand import PLACES, demand, steady
from axlewright.studies.influence import measure_next
from axlewright.studies.launch_hop import hop_of
from axlewright.studies.launch_reads import what_is_read
from axlewright.studies.launch_report import CaseInTime, History, LaunchReport
from axlewright.studies.launch_setup import LaunchCase, launch_cases
from axlewright.studies.launch_spread import deciders, finding_of, finite
from axlewright.studies.launch_sweep import sweeps_of
from axlewright.studies.report import Made
from axlewright.studies.safety import safety_lines

STUDY = "launch 1"
SAMPLES = 10_000
SEED = 1
FRAMES = 400
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


def launch_study(
    resolved: Resolved, seed: int = SEED, count: int = SAMPLES, tell: Tell | None = None
) -> LaunchStudy:
    """March every case, nominal and sampled; raises :class:`StoppedError` if told to stop."""
    plain = fill(resolved, Plain())
    samples = Samples(seed, count)
    drawn = fill(resolved, samples)
    inputs = leaves(what_is_read(resolved))
    cases, ratios, nominal_ratios = [], {}, {}
    pairs = list(
        zip(
            launch_cases(plain.machine, plain.launching),
            launch_cases(drawn.machine, drawn.launching),
            strict=True,
        )
    )
    whole = sum(b.events.duration for _, b in pairs)
    done = 0.0
    ring: dict[str, Array] = {}
    for a, b in pairs:
        nominal = _march(a, None)
        sampled = _march(b, _part(tell, done / whole, b.events.duration / whole))
        done += b.events.duration
        at, many = places(nominal), places(sampled)
        many = {p: np.broadcast_to(v, (count,)) for p, v in many.items()}
        ring[a.case] = many["ring"]
        cases.append(_case(a, (nominal, sampled), (at, many), plain, samples, inputs))
        under = drawn.bounds.get(a.case)
        if under:
            ratios[a.case] = {p: many[p] / under[p] for p in PLACES}
            nominal_ratios[a.case] = {
                p: float(at[p][0]) / float(plain.bounds[a.case][p]) for p in PLACES
            }
    first = cases[0]
    report = LaunchReport(
        name=resolved.machine.name,
        file=resolved.source.file,
        sentence=_sentence(cases),
        cases=tuple(cases),
        hop=hop_of(plain, drawn, seed, count, inputs),
        sweeps=sweeps_of(resolved, samples, drawn, ring[first.case]),
        measure_next=measure_next(inputs, samples, finite(ring[first.case])),
        cautions=(*resolved.launching.cautions, *_cautions(cases)),
        safety=safety_lines(resolved.machine),
        sources=(MODEL, *sorted({e.source for e in inputs.values() if e.source})),
        made=Made(
            f"axlewright {__version__}", STUDY, data_hash(), resolved.source.hash, seed, count
        ),
    )
    return LaunchStudy(report, ratios, nominal_ratios)


def fill(resolved: Resolved, filler: Any) -> Setting:
    """Fill machine and launching with the same filler, so that they share their draws."""
    m = filler.tree(resolved.machine)
    x = filler.tree(resolved.launching)
    return Setting(m, x, _bounds(m))


def _bounds(m: Machine[Num]) -> dict[str, dict[str, Num]]:
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


def places(peaks: LaunchPeaks) -> dict[str, Array]:
    """Peaks at the places of the load path, N·m."""
    return {
        "flywheel": peaks.clutch_most,
        "driveshaft": peaks.driveshaft_most,
        "ring": peaks.axle_most,
        "shaft": np.maximum(peaks.left_shaft_most, peaks.right_shaft_most),
    }


_PLACE_WORDS = {
    "flywheel": "at the gearbox input",
    "driveshaft": "in the driveshaft",
    "ring": "at the ring gear",
    "shaft": "in the harder loaded axle shaft",
}
_OTHERS: dict[str, tuple[str, str, str]] = {
    "windup_most": ("windup", "torque that winds the housing up", "torque"),
    "thrust_most": ("thrust", "push of the axle on the body", "force"),
    "clutch_heat": ("heat", "heat into the clutch", "energy"),
    "lock_time": ("lock", "time until the clutch stops slipping", "short time"),
    "axle_least": ("back", "least torque at the ring gear (negative: backward)", "torque"),
    "front_load_least": ("front", "least load on the front wheels, over standing", "ratio"),
}


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


def _case(
    case: LaunchCase,
    peaks: tuple[LaunchPeaks, LaunchPeaks],
    at: tuple[Mapping[str, Array], Mapping[str, Array]],
    plain: Setting,
    samples: Samples,
    inputs: Mapping[str, Estimate | Kinds],
) -> CaseInTime:
    nominal, sampled = peaks
    ring = at[1]["ring"]
    good = np.isfinite(ring)
    found = {
        p: finding_of(f"launch.{case.case}.{p}", f"{case.title}: peak torque {_PLACE_WORDS[p]}",
                    float(at[0][p][0]), at[1][p], "torque")
        for p in PLACES
    }  # fmt: skip
    others = {
        key: finding_of(f"launch.{case.case}.{key}", f"{case.title}: {means}",
                      float(getattr(nominal, name)[0]), getattr(sampled, name), dimension)
        for name, (key, means, dimension) in _OTHERS.items()
    }  # fmt: skip
    holds = float(np.mean(np.isfinite(sampled.lock_time)))
    bounds = {p: float(v) for p, v in plain.bounds.get(case.case, {}).items()}
    return CaseInTime(
        case=case.case,
        title=case.title,
        means=case.means,
        gear=case.gear,
        peaks=found,
        others=others,
        bounds=bounds,
        decides=deciders(samples, ring, inputs),
        clutch_holds=holds,
        lost=int(np.sum(~good)),
        sentence=_said(case, found, bounds),
    )


def _said(case: LaunchCase, found: Mapping[str, Finding], bounds: Mapping[str, float]) -> str:
    ring = found["ring"]
    text = (
        f"{case.title}: the ring gear sees {show(ring.value, 'torque')}, between"
        f" {show(ring.low, 'torque')} and {show(ring.high, 'torque')} in nine of ten launches"
    )
    if "ring" in bounds and bounds["ring"] > 0.0:
        text += f"; {significant(ring.value / bounds['ring'], 2)} times the closed-form figure"
    return text + "."


def _sentence(cases: list[CaseInTime]) -> str:
    worst = max(cases, key=lambda c: c.peaks["ring"].value)
    ring, shaft = worst.peaks["ring"], worst.peaks["shaft"]
    return (
        f"Hardest on the axle is: {worst.title.lower()}, {show(ring.value, 'torque')} at the ring"
        f" gear ({show(ring.low, 'torque')} to {show(ring.high, 'torque')}), up to"
        f" {show(shaft.high, 'torque')} in one shaft."
    )


def _cautions(cases: list[CaseInTime]) -> tuple[str, ...]:
    said = [
        f"{c.title}: {c.lost} launches gave no finite answer and are left out of its bands"
        for c in cases
        if c.lost
    ]
    said.append(
        "The launch in time has not been compared with a measured launch; its bands hold what is"
        " not known of the car, not what the model leaves out."
    )
    return tuple(said)
