"""At what angles, how does it move?  What to set, what the gauge shows, and what turns and carries.

Every number is worked out twice: with nominal values, and on samples for its band.  The working of
a number is made when it is asked for, from the very same code.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding, Likelihood, band, likelihood
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.quantities.watching import watching
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies import angles_notes as notes
from axlewright.studies import angles_words as words
from axlewright.studies.angles_fill import Filled, Numbers, filled, kind_of
from axlewright.studies.angles_judge import STATES, asked_of, judged, keeps, rules_of
from axlewright.studies.angles_linkage import posing, with_or_without
from axlewright.studies.angles_numbers import Asked, Found, found
from axlewright.studies.angles_report import (
    AnglesReport,
    Bracket,
    Carries,
    JointLine,
    StateLine,
    Sweep,
    TubeLine,
)
from axlewright.studies.angles_rooms import rooms
from axlewright.studies.angles_shaft import joints, tubes
from axlewright.studies.angles_sweep import sweep
from axlewright.studies.report import Made
from axlewright.studies.safety import safety_lines

STUDY = "angles 1"
SAMPLES, SEED = 200, 1


def angles_study(build: Resolved, seed: int = SEED, count: int = SAMPLES) -> AnglesReport:
    """Say what to set, what the joints do in each state, and what the axle's links do."""
    x = filled(build, Plain())

    def do(kind: str, trouble: str) -> AnglesReport:
        asked = asked_of(x, kind, rise_measured(build), trouble)
        return _report(build, x, asked, seed, count)

    return with_or_without(kind_of(build), do)


def _report(build: Resolved, x: Filled, asked: Asked, seed: int, count: int) -> AnglesReport:
    f = found(x, asked)
    with watching() as watched:
        drawn = found(filled(build, Samples(seed, count)), asked)
    findings = _findings(f.numbers, drawn.numbers)
    values = {k: n.value for k, n in f.numbers.items()}
    now, then = ((judged(values, k) if f.states else ()) for k in ("now", "set"))
    with posing():
        near, ways = rooms(x, f), _sweep(x, f)
    later = _short(drawn.numbers, "set", count) if f.states else None
    verdict = words.verdict_of(f, now, then)
    said = [*notes.cautions(build, asked, f, findings), *watched.cautions(set())]
    more = words.more_words(build, verdict, asked, f, findings, now, near, later)
    return AnglesReport(
        name=build.machine.name,
        file=build.source.file,
        verdict=verdict,
        sentence=words.sentence(verdict, f, findings, now, then),
        more=more,
        likelihood=_short(drawn.numbers, "now", count) if f.states else None,
        likelihood_then=later,
        findings=findings,
        settings=words.settings(findings),
        states=tuple(StateLine(s.key, s.title) for s in f.states),
        now=now,
        then=then,
        window=asked.window,
        rooms=near,
        tubes=_tubes(x, f),
        joints=_joints(x, f),
        axle_known=f.pose is not None,
        carries=_carries(f),
        brackets=_brackets(f),
        sweep=ways,
        wanted=notes.wanted(build, asked, f),
        proposals=notes.proposals(f, findings),
        inputs=notes.inputs(build),
        cautions=tuple(c for c in dict.fromkeys(said) if c not in more),
        safety=safety_lines(build.machine),
        made=Made(f"axlewright {__version__}", STUDY, data_hash(), build.source.hash, seed, count),
    )


def rise_measured(build: Resolved) -> bool:
    """Whether the build says how far the nose rises, or where it points under pull."""
    said = build.source.build.angles
    return said is not None and (said.pinion_rise is not None or said.pinion_loaded is not None)


def angle_nodes(build: Resolved) -> dict[str, Node]:
    """The working behind every number, by key."""
    plain = filled(build, Plain())

    def do(kind: str, trouble: str) -> dict[str, Node]:
        asked = asked_of(plain, kind, rise_measured(build), trouble)
        with tracing():
            f = found(filled(build, Nominal()), asked)
        return {k: n.value.node for k, n in f.numbers.items() if isinstance(n.value, Traced)}

    return with_or_without(kind_of(build), do)


def _findings(nominal: Numbers, drawn: Numbers) -> dict[str, Finding]:
    """Values with their bands; what has no end, such as a far instant center, is left out."""
    made = {}
    for key, number in nominal.items():
        if key not in drawn:
            continue
        value = float(number.value)
        samples = np.asarray(drawn[key].value, dtype=np.float64)
        whole = bool(np.all(np.isfinite(samples)))
        if not np.isfinite(value) or (key in _FAR and (not whole or _changes_side(drawn))):
            continue
        low, high = band(samples if whole else samples[np.isfinite(samples)], value)
        made[key] = Finding(key, number.means, value, low, high, number.dimension)
    return made


_FAR = ("ic_ahead", "ic_height")


def _changes_side(drawn: Numbers) -> bool:
    """Whether links are so nearly parallel that readings leave open where they would cross."""
    arm = np.asarray(drawn["reaction_arm"].value)
    return bool(np.min(arm) < 0.0 < np.max(arm))


def _short(drawn: Numbers, key: str, count: int) -> Likelihood:
    """How likely a limit is passed as it is (``now``) or as it should be (``set``)."""
    short: NDArray[np.bool_] = np.zeros(count, dtype=bool)
    for ending in STATES:
        for rule in rules_of(ending):
            short = short | ~keeps(rule, drawn[f"{key}{ending}_{rule.ending}"].value)
    return likelihood(float(np.mean(short)))


def _tubes(x: Filled, f: Found) -> tuple[TubeLine, ...]:
    return tuple(
        TubeLine(
            t.name, t.fitted, t.margins.holds, float(t.margins.twist_margin),
            float(t.margins.whirl_margin), float(t.margins.mass),
        )
        for t in tubes(x, f.line.length, f.speed)
    )  # fmt: skip


def _joints(x: Filled, f: Found) -> tuple[JointLine, ...]:
    pulled = next((s for s in f.states if s.key == "set_loaded"), None)
    angle = x.machine.driveshaft.joint_angle if pulled is None else pulled.rear_angle
    return tuple(
        JointLine(j.name, j.fitted, j.dents, j.rating, j.fits) for j in joints(x, float(angle))
    )


def _carries(f: Found) -> tuple[Carries, ...]:
    if f.pose is None:
        return ()
    names = (*f.pose.linkage.names, "left spring", "right spring")
    return tuple(
        Carries(name, {case: f"{case}_{name.replace(' ', '_')}" for case in f.forces})
        for name in names
    )


def _brackets(f: Found) -> tuple[Bracket, ...]:
    if f.pose is None:
        return ()
    made = []
    for case, load in f.forces.items():
        for n, name in enumerate(f.pose.linkage.names):
            at, force = load.forces.axle_ends[n], load.forces.on_axle[n]
            made.append(Bracket(case, name, _three(at), _three(force)))
    return tuple(made)


def _three(vector: Array) -> tuple[float, float, float]:
    x, y, z = (float(v) for v in vector)
    return x, y, z


def _sweep(x: Filled, f: Found) -> Sweep | None:
    return sweep(x, f) if f.states else None


__all__ = ["SAMPLES", "SEED", "Asked", "angle_nodes", "angles_study"]
