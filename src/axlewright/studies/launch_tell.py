"""What a marched case is told as: findings with bands, what decides them, and the sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from axlewright.dynamics.launch import LaunchPeaks
from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.finding import Finding
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show, significant
from axlewright.studies.demand import PLACES
from axlewright.studies.launch_report import CaseInTime
from axlewright.studies.launch_setup import LaunchCase
from axlewright.studies.launch_spread import deciders, finding_of
from axlewright.studies.launch_words import WORDS, beyond_bound

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


def places(peaks: LaunchPeaks) -> dict[str, Array]:
    """Peaks at the places of the load path, N·m."""
    return {
        "flywheel": peaks.clutch_most,
        "driveshaft": peaks.driveshaft_most,
        "ring": peaks.axle_most,
        "shaft": np.maximum(peaks.left_shaft_most, peaks.right_shaft_most),
    }


def peak_findings(case: str, nominal: LaunchPeaks, sampled: LaunchPeaks) -> dict[str, Finding]:
    """Peak torque at each place, with its band."""
    one, many = places(nominal), places(sampled)
    return {
        p: finding_of(
            f"launch.{case}.{p}",
            f"{WORDS[case][0]}: peak torque {_PLACE_WORDS[p]}",
            float(one[p][0]),
            many[p],
            "torque",
        )
        for p in PLACES
    }


def other_findings(case: str, nominal: LaunchPeaks, sampled: LaunchPeaks) -> dict[str, Finding]:
    """What else a march tells, by a short key."""
    return {
        key: finding_of(
            f"launch.{case}.{key}",
            f"{WORDS[case][0]}: {means}",
            float(getattr(nominal, name)[0]),
            getattr(sampled, name),
            dimension,
        )
        for name, (key, means, dimension) in _OTHERS.items()
    }


def told_case(
    case: LaunchCase,
    nominal: LaunchPeaks,
    sampled: LaunchPeaks,
    bounds: Mapping[str, float],
    samples: Samples,
    inputs: Mapping[str, Estimate | Kinds],
) -> CaseInTime:
    """One case with its findings; ``bounds`` holds the closed form at each place, if any."""
    ring = places(sampled)["ring"]
    found = peak_findings(case.case, nominal, sampled)
    return CaseInTime(
        case=case.case,
        title=case.title,
        means=case.means,
        gear=case.gear,
        peaks=found,
        others=other_findings(case.case, nominal, sampled),
        bounds=dict(bounds),
        decides=deciders(samples, ring, inputs),
        clutch_holds=float(np.mean(np.isfinite(sampled.lock_time))),
        lost=int(np.count_nonzero(~np.isfinite(ring))),
        sentence=_said(case, found, bounds),
    )


def _said(case: LaunchCase, found: Mapping[str, Finding], bounds: Mapping[str, float]) -> str:
    ring = found["ring"]
    text = (
        f"{case.title}: the ring gear sees {show(ring.value, 'torque')}, between"
        f" {show(ring.low, 'torque')} and {show(ring.high, 'torque')} in nine of ten launches"
    )
    if bounds.get("ring", 0.0) > 0.0:
        text += f"; {significant(ring.value / bounds['ring'], 2)} times the closed-form figure"
    return text + "."


def headline(cases: Sequence[CaseInTime]) -> str:
    """The case that is hardest on the axle."""
    worst = max(cases, key=lambda c: c.peaks["ring"].value)
    ring, shaft = worst.peaks["ring"], worst.peaks["shaft"]
    return (
        f"Hardest on the axle is: {worst.title.lower()}, {show(ring.value, 'torque')} at the ring"
        f" gear ({show(ring.low, 'torque')} to {show(ring.high, 'torque')}), up to"
        f" {show(shaft.high, 'torque')} in one shaft."
    )


def cautions_of(cases: Sequence[CaseInTime]) -> tuple[str, ...]:
    """What to know before leaning on the numbers."""
    lost = [
        f"{c.title}: {c.lost} launches gave no finite answer and are left out of its bands"
        for c in cases
        if c.lost
    ]
    ratios = {c.case: c.peaks["ring"].value / c.bounds["ring"] for c in cases if c.bounds}
    return (
        *lost,
        *beyond_bound(ratios),
        "The launch in time has not been compared with a measured launch; its bands hold what is"
        " not known of the car, not what the model leaves out.",
    )
