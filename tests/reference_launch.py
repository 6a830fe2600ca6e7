"""A second writing of the launch, from ``docs/launch-model.md`` alone: slow, exact about friction.

The march under test steps semi-implicitly and clamps friction; this one hands the same equations
to an eighth-order Runge-Kutta method with error control, uses exact sines, and switches every dry
friction between sticking and slipping at the very moment.  One launch at a time, plain floats.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import DOP853
from scipy.optimize import brentq

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from reference_launch_elements import Modes, level
from reference_launch_equations import (
    INDEX,
    OMEGA_A,
    OMEGA_G,
    OMEGA_L,
    OMEGA_R,
    OMEGA_X,
    PSI_RATE,
    Torques,
    moment,
    right_hand_side,
    start,
)


def corners(events: LaunchEvents) -> list[float]:
    """Moments at which a ramp bends, the end of the march last."""
    ramps = (
        events.throttle,
        events.second_throttle,
        events.clamp,
        events.hold,
        events.brakes,
        events.grip,
    )
    bends = {float(r.start) for r in ramps} | {float(r.start + r.duration) for r in ramps}
    return [*sorted(t for t in bends if 0.0 < t < events.duration), float(events.duration)]


def slips(y: NDArray[np.float64]) -> tuple[float, float, float, float, float]:
    """Slip speed of each friction in the order of ``Modes`` (also of the rates, its growth)."""
    return (
        float(y[OMEGA_A] - y[OMEGA_G]),
        float(y[OMEGA_A]),
        float(y[OMEGA_L] + y[PSI_RATE]),
        float(y[OMEGA_R] + y[PSI_RATE]),
        float(y[OMEGA_X]),
    )


def pin(y: NDArray[np.float64], modes: Modes) -> None:
    """Take the rounding out of what is stuck."""
    if not modes.hold:
        y[OMEGA_A] = 0.0
    if not modes.clutch:
        y[OMEGA_G] = y[OMEGA_A]
    if not modes.left_brake:
        y[OMEGA_L] = -y[PSI_RATE]
    if not modes.right_brake:
        y[OMEGA_R] = -y[PSI_RATE]
    if not modes.differential:
        y[OMEGA_X] = 0.0


def settle(
    t: float,
    y: NDArray[np.float64],
    car: LaunchCar,
    events: LaunchEvents,
    active: tuple[bool, ...],
    at_rest: tuple[bool, ...],
    forced: dict[int, int],
) -> Modes:
    """Modes that agree with the torques: stuck within capacity, or slipping away from rest."""
    slip = slips(y)
    choices: list[tuple[int, ...]] = []
    for i in range(5):
        if i in forced:
            choices.append((forced[i],))
        elif not active[i]:
            choices.append((1,))
        elif at_rest[i]:
            choices.append((0, 1, -1))
        else:
            choices.append((1 if slip[i] > 0.0 else -1,))
    best, least = None, math.inf
    for candidate in sorted(itertools.product(*choices), key=lambda c: sum(map(abs, c))):
        modes = Modes(*candidate)
        rates, acting = moment(t, y.tolist(), car, events, modes)
        growth = slips(np.array(rates))
        wrong = 0.0
        for i in range(5):
            if not active[i] or not at_rest[i] or i in forced:
                continue
            if modes[i] == 0:
                excess = abs(acting.friction[i]) - acting.capacity[i]
                wrong = max(wrong, excess / (1.0 + abs(acting.friction[i])))
            else:
                wrong = max(wrong, -modes[i] * growth[i] / (1.0 + abs(growth[i])))
        if wrong < least - 1e-9:
            best, least = modes, wrong
        if wrong <= 1e-9:
            break
    assert best is not None
    return best


def validity(
    y: NDArray[np.float64], acting: Torques, modes: Modes, active: tuple[bool, ...]
) -> list[float]:
    """Of each friction, a number that turns negative when its mode ceases to hold."""
    slip = slips(y)
    out = []
    for i in range(5):
        if not active[i]:
            out.append(math.inf)
        elif modes[i] == 0:
            out.append(acting.capacity[i] - abs(acting.friction[i]))
        else:
            out.append(modes[i] * slip[i])
    return out


@dataclass(frozen=True)
class Solution:
    """A launch as the reference sees it: samples dense enough to read peaks from."""

    time: NDArray[np.float64]
    states: NDArray[np.float64]
    """(samples, states) in the order of ``STATES``."""
    torques: dict[str, NDArray[np.float64]]
    """Whatever ``Torques`` names, each (samples,)."""
    switches: list[tuple[float, Modes]]
    """When a friction changed its mode, and to what."""

    def state(self, name: str) -> NDArray[np.float64]:
        return self.states[:, INDEX[name]]

    def greatest(self, name: str) -> float:
        return float(np.max(self.torques[name]))

    def least(self, name: str) -> float:
        return float(np.min(self.torques[name]))


def _active(
    car: LaunchCar, events: LaunchEvents, begin: float, end: float
) -> tuple[bool, bool, bool, bool, bool]:
    """Which frictions have any capacity between two corners."""
    middle = 0.5 * (begin + end)
    brake = level(events.brakes, middle) > 0.0
    grabs = car.locked or car.differential_preload > 0.0 or car.bias_ratio > 1.0
    return (
        car.clutch_capacity * level(events.clamp, middle) > 0.0,
        car.converter is not None and level(events.hold, middle) > 0.0,
        brake,
        brake,
        grabs,
    )


class _Run:
    """One launch under way."""

    def __init__(self, car: LaunchCar, events: LaunchEvents, samples: int) -> None:
        self.car, self.events, self.samples = car, events, samples
        self.time: list[float] = []
        self.states: list[NDArray[np.float64]] = []
        self.acting: list[Torques] = []
        self.switches: list[tuple[float, Modes]] = []

    def look(self, t: float, y: NDArray[np.float64], modes: Modes) -> Torques:
        return moment(t, y.tolist(), self.car, self.events, modes)[1]

    def keep(self, t: float, y: NDArray[np.float64], acting: Torques) -> None:
        self.time.append(t)
        self.states.append(y)
        self.acting.append(acting)

    def until(
        self,
        t: float,
        y: NDArray[np.float64],
        end: float,
        modes: Modes,
        active: tuple[bool, ...],
        rtol: float,
        atol: float,
        max_step: float,
    ) -> tuple[float, NDArray[np.float64], int | None]:
        """Integrate to the end or to the first friction that changes its mode."""
        acting = self.look(t, y, modes)
        self.keep(t, y, acting)
        before, holds = t, validity(y, acting, modes, active)

        def rhs(s: float, v: NDArray[np.float64]) -> NDArray[np.float64]:
            return right_hand_side(s, v, self.car, self.events, modes)

        stepper = DOP853(rhs, t, y, end, rtol=rtol, atol=atol, max_step=max_step)
        while stepper.status == "running":
            message = stepper.step()
            if stepper.status == "failed":
                raise RuntimeError(f"the reference stopped at {stepper.t} s: {message}")
            inside = stepper.dense_output()
            for s in np.linspace(stepper.t_old, stepper.t, self.samples + 1)[1:]:
                v = inside(s) if s < stepper.t else stepper.y.copy()
                acting = self.look(float(s), v, modes)
                now = validity(v, acting, modes, active)
                broken = [i for i in range(5) if now[i] < 0.0]
                if broken:
                    return self._switch(inside, before, float(s), holds, modes, active, broken)
                self.keep(float(s), v, acting)
                before, holds = float(s), now
        done = stepper.y.copy()
        pin(done, modes)
        return end, done, None

    def _switch(
        self,
        inside,
        low: float,
        high: float,
        holds: list[float],
        modes: Modes,
        active: tuple[bool, ...],
        broken: list[int],
    ) -> tuple[float, NDArray[np.float64], int]:
        """Find the first of the modes that broke between two samples."""
        found = []
        for i in broken:

            def gap(s: float, i: int = i) -> float:
                v = inside(s)
                return validity(v, self.look(s, v, modes), modes, active)[i]

            crossed = holds[i] > 0.0 and gap(low) > 0.0 > gap(high)
            found.append((brentq(gap, low, high, xtol=1e-14) if crossed else high, i))
        moment_of, which = min(found)
        return float(moment_of), inside(moment_of), which


def solve(
    car: LaunchCar,
    events: LaunchEvents,
    rtol: float = 1e-9,
    atol: float = 1e-9,
    max_step: float = 1e-3,
    samples: int = 4,
) -> Solution:
    """The whole launch; between two corners of the ramps nothing but the equations bends it."""
    run = _Run(car, events, samples)
    t, y = 0.0, start(car, events)
    for corner in corners(events):
        # Just behind the corner, so that a ramp of no duration already has its new height.
        t = math.nextafter(t, math.inf)
        active = _active(car, events, t, corner)
        at_rest = tuple(s == 0.0 for s in slips(y))
        forced: dict[int, int] = {4: 0} if car.locked else {}
        while True:
            modes = settle(t, y, car, events, active, at_rest, forced)
            pin(y, modes)
            run.switches.append((t, modes))
            t, y, broken = run.until(t, y, corner, modes, active, rtol, atol, max_step)
            if broken is None:
                break
            held = modes[broken] == 0
            forced = {4: 0} if car.locked else {}
            if held:
                torque = run.look(t, y, modes).friction[broken]
                forced[broken] = 1 if torque > 0.0 else -1
            pin(y, Modes(*(0 if i == broken else m for i, m in enumerate(modes))))
            at_rest = tuple(i == broken or m == 0 for i, m in enumerate(modes))
    names = [n for n in Torques._fields if n not in {"friction", "capacity"}]
    return Solution(
        time=np.array(run.time),
        states=np.array(run.states),
        torques={n: np.array([getattr(a, n) for a in run.acting]) for n in names},
        switches=run.switches,
    )
