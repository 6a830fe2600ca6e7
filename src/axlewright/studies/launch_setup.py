"""The named ways to load a driveline in time: which of them a build has, and in which gear.

Whoever fills the machine decides whether the numbers of a case are floats or samples.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from axlewright.quantities.formula import Num
from axlewright.studies.launch_events import (
    IGNITION,
    Maker,
    Situation,
    foot_brake,
    gently,
    hard_shift,
    hardest_pull,
    landing_events,
    let_in,
    lift_off,
    neutral_drop,
    out_of_water,
    regrip,
    share_of_lifting,
    trans_brake,
)
from axlewright.studies.launch_machine import launch_car
from axlewright.studies.launch_words import WORDS

NEARLY = 0.85
"""Share of the lifting pull from which on a wheelstand is thought possible (assumption: the
scatter of grip and of the height of the car)."""


@dataclass(frozen=True)
class LaunchCase:
    """One named way to load the driveline, ready for the march."""

    case: str
    title: str
    means: str
    gear: int
    car: LaunchCar
    events: LaunchEvents


_STATED: dict[str, Maker] = {
    "gentle": gently,
    "slip": let_in(1.2, lambda s: s.x.driver.throttle_rise),
    "dump": let_in(0.8, lambda s: s.x.driver.throttle_rise),
    "two-step": let_in(0.8, lambda _: IGNITION),
    "foot-brake": foot_brake,
    "trans-brake": trans_brake,
    "neutral drop": neutral_drop,
}
_ALWAYS: dict[str, tuple[int, Maker]] = {
    "re-grip": (1, regrip),
    "water": (1, out_of_water),
    "shift": (2, hard_shift),
    "lift-off": (1, lift_off),
    "landing": (1, landing_events),
}
"""Gear, and how to make the events."""


def launch_cases(
    m: Machine[Num], x: Launching[Num], landing: bool | None = None
) -> tuple[LaunchCase, ...]:
    """The stated launch, and what else can happen on a hard day.

    ``landing`` says whether a wheelstand is thought possible, else :func:`may_lift` does; floats
    and samples of one build must be told the same.
    """
    stands = may_lift(m, x) if landing is None else landing
    cases = [_case(m, x, m.use.launch, 1, _STATED[m.use.launch])]
    for case, (gear, make) in _ALWAYS.items():
        if not _missing(m, case, gear, stands):
            cases.append(_case(m, x, case, gear, make))
    return tuple(cases)


def cases_left_out(m: Machine[Num], landing: bool) -> tuple[str, ...]:
    """In words, the cases that a build cannot have."""
    missing = {case: _missing(m, case, gear, landing) for case, (gear, _) in _ALWAYS.items()}
    return tuple(f"{WORDS[case][0]}: left out, {why}." for case, why in missing.items() if why)


def _case(m: Machine[Num], x: Launching[Num], case: str, gear: int, make: Maker) -> LaunchCase:
    car = launch_car(m, x, gear)
    title, means = WORDS[case]
    return LaunchCase(case, title, means, gear, car, make(Situation(m, x, car)))


def may_lift(m: Machine[Num], x: Launching[Num]) -> bool:
    """Whether the car, or half of many, comes near to lifting its front wheels in a steady pull."""
    car = launch_car(m, x, 1)
    _, pull = hardest_pull(Situation(m, x, car))
    return bool(np.median(share_of_lifting(car, pull)) >= NEARLY)


def _missing(m: Machine[Num], case: str, gear: int, landing: bool) -> str:
    """Why a build cannot have a case; nothing if it can."""
    if case == "water" and not m.use.burnouts:
        return "no burnouts are stated"
    if case == "landing" and not landing:
        return "no steady pull of this car lifts its front wheels"
    if gear > len(m.gearbox.ratios):
        return "the gearbox has one gear"
    return ""
