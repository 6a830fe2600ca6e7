"""The stated launch marched at each setting of each dial, so that the limit card knows it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.dynamics.launch import launch_peaks
from axlewright.quantities.estimate import Plain
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.dial_march import DialMarch
from axlewright.studies.dials import Dial, dials
from axlewright.studies.launch_setup import launch_cases
from axlewright.studies.limits import SAMPLES

if TYPE_CHECKING:
    from axlewright.studies.launch import Tell

SETTINGS = 9


def dial_marches(resolved: Resolved, seed: int, tell: Tell | None = None) -> dict[str, DialMarch]:
    """March along every dial; empty if told to stop."""
    from axlewright.studies.launch import fill  # noqa: PLC0415 (it calls this module)

    plain, drawn = fill(resolved, Plain()), fill(resolved, Samples(seed, SAMPLES))
    found: dict[str, DialMarch] = {}
    turning = dials(plain.machine)
    for i, dial in enumerate(turning):
        settings = np.linspace(dial.easy, dial.hard, SETTINGS)
        nominal, sampled = [], []
        for k, setting in enumerate(settings):
            if tell is not None and not tell((i + k / SETTINGS) / len(turning)):
                return {}
            nominal.append(_ratios(dial, plain.machine, plain.launching, float(setting)))
            sampled.append(_ratios(dial, drawn.machine, drawn.launching, float(setting)))
        found[dial.name] = DialMarch(
            resolved.machine.use.launch,
            settings,
            {p: np.array([r[p][0] for r in nominal]) for p in nominal[0]},
            {p: np.stack([np.broadcast_to(r[p], SAMPLES) for r in sampled]) for p in sampled[0]},
        )
    return found


def _ratios(dial: Dial, m: Machine[Num], x: Launching[Num], setting: float) -> dict[str, Array]:
    """Marched peak over closed form at each place, the dial at one setting."""
    from axlewright.studies.launch import bounds_of, places  # noqa: PLC0415
    from axlewright.studies.launch_spread import finite  # noqa: PLC0415

    turned = dial.turned(m, setting)
    case = launch_cases(turned, _along(dial, m, x, setting))[0]
    peaks = launch_peaks(case.car, case.events)
    assert peaks is not None
    under = bounds_of(turned)[case.case]
    return {p: finite(np.atleast_1d(v / under[p])) for p, v in places(peaks).items()}


def _along(dial: Dial, m: Machine[Num], x: Launching[Num], setting: float) -> Launching[Num]:
    """What of the launching leaves follows the dial: the torque curve, the grip of the day."""
    if dial.name in {"engine torque", "boost"}:
        more = dial.turned(m, setting).engine.torque / m.engine.torque
        torques = tuple(t * more for t in x.curve.torques)
        return replace(x, curve=replace(x.curve, torques=torques))
    if dial.name == "tire grip":
        return replace(x, tire=replace(x.tire, grip=x.tire.grip * setting / m.tires.grip))
    return x
