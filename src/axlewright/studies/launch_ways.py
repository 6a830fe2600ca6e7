"""The ways to launch this car, one beside the other: what each link sees, and how quick it is.

Each way is taken as if the build file said it, with the launch speed and bite that are customary
for it; only the stated way keeps what the file says of its own.  All ways share their draws, so
that a difference between two of them is no accident.  Times come from the run down the strip.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.dynamics.launch import LaunchPeaks, launch_peaks
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show
from axlewright.studies.launch_report import CaseInTime, Way, Ways
from axlewright.studies.launch_setup import launch_cases
from axlewright.studies.launch_spread import finding_of
from axlewright.studies.launch_tell import other_findings, peak_findings
from axlewright.studies.launch_words import WORDS
from axlewright.studies.ratio_fill import Side, alone
from axlewright.studies.ratio_times import time_numbers

MANUAL = ("gentle", "slip", "dump", "two-step")
AUTOMATIC = ("foot-brake", "trans-brake", "neutral drop")
AS_QUICK = 0.005
"""s to 60 ft that are not worth saying (assumption: half of what a time slip shows)."""
SAMPLES = 400
MARK = 60.0 * 0.3048
CUSTOMARY = (
    "Ways that are not the stated one are taken with the launch speed and bite that are customary"
    " for them; whether there is a two-step or a trans-brake to launch with is not asked. Times to"
    " 60 ft come from the run down the strip."
)
INSIDE = "; but blow and heat then go into the clutches inside the gearbox, which break instead"
SLOWLY = (
    " A gentle start takes longer than its time says: the run lets the clutch in, or opens the"
    " throttle, at once."
)


def ways_of(resolved: Resolved, stated: CaseInTime, seed: int, count: int) -> Ways:
    """Every way that this gearbox can be launched; ``stated`` is the one that was marched."""
    count = min(count, SAMPLES)
    found: list[Way] = []
    names: tuple[str, ...] = MANUAL if resolved.machine.clutch is not None else AUTOMATIC
    if stated.case not in names:
        names = (stated.case, *names)
    for name in names:
        if name == stated.case:
            found.append(_way(resolved, name, seed, count, stated))
        else:
            found.append(_way(launched(resolved, name), name, seed, count))
    note = CUSTOMARY + (SLOWLY if "gentle" in names else "")
    return Ways(_sentence(found), tuple(found), note, count)


def launched(resolved: Resolved, way: str) -> Resolved:
    """The build launched in another way, as if its file said so."""
    text = edit(resolved.source.text, "use.launch", way)
    for own in ("use.launch_speed", "clutch.bite"):
        text = edit(text, own, None)
    return resolve(read_build(text, resolved.source.file))


def _way(
    resolved: Resolved, name: str, seed: int, count: int, marched: CaseInTime | None = None
) -> Way:
    """One way; peaks that were marched already are taken as they are."""
    one, many = alone(resolved, Plain()), alone(resolved, Samples(seed, count))
    title = WORDS[name][0]

    def found(key: str, means: str, dimension: str, pair: tuple[Num, Num]) -> Finding:
        whole = f"{title}: {means}"
        sampled = np.asarray(pair[1])
        return finding_of(f"launch.{name}.{key}", whole, float(pair[0]), sampled, dimension)

    if marched is None:
        nominal, sampled = _peaks(one), _peaks(many)
        peaks = peak_findings(name, nominal, sampled)
        heat = other_findings(name, nominal, sampled)["heat"]
    else:
        peaks, heat = marched.peaks, marched.others["heat"]
    speeds = (one.filled.machine.engine.launch_speed, many.filled.machine.engine.launch_speed)
    return Way(
        way=name,
        title=title,
        stated=marched is not None,
        speed=found("speed", "engine speed at the launch", "rotation", speeds),
        peaks=peaks,
        heat=heat,
        at_least=name == "gentle",
        sixty_feet=found("60_ft", "time to 60 ft", "time", (_sixty_feet(one), _sixty_feet(many))),
    )


def _peaks(side: Side) -> LaunchPeaks:
    """The launch itself, marched."""
    case = launch_cases(side.filled.machine, side.filled.launching, landing=False)[0]
    found = launch_peaks(case.car, case.events)
    assert found is not None
    return found


def _sixty_feet(side: Side) -> Num:
    return time_numbers(side, MARK)["time_60_ft"].value


def _sentence(ways: Sequence[Way]) -> str:
    """Which way is quickest, and which is gentlest on the axle; of equals the gentler one."""
    sure = [w for w in ways if not w.at_least]
    best = min(w.sixty_feet.value for w in sure)
    softest = min(ways, key=_at_ring)
    quickest = min((w for w in sure if w.sixty_feet.value <= best + AS_QUICK), key=_at_ring)
    price = INSIDE if softest.way == "neutral drop" else ""
    said = f"Quickest to 60 ft: {quickest.title.lower()}, {_told(quickest)}"
    if quickest is softest:
        return f"{said}; no other way is gentler on the axle{price}."
    return f"{said}. Gentlest on the axle: {softest.title.lower()}, {_told(softest)}{price}."


def _at_ring(way: Way) -> float:
    return way.peaks["ring"].value


def _told(way: Way) -> str:
    time, ring = way.sixty_feet, way.peaks["ring"]
    return (
        f"{'at least ' if way.at_least else ''}{show(time.value, 'time', digits=3)} and"
        f" {show(ring.value, 'torque', digits=3)} at the ring gear"
    )
