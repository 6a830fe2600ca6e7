"""The named ways to load a driveline in time: what driver, brakes and road do in each.

A case is a gear, a length of time and what happens in it.  Whoever fills the machine decides
whether its numbers are floats or samples.  A case that begins under way begins in the steady state
that goes with it (``dynamics/launch_start.py``), so that no blow comes from the start itself.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents, Ramp
from axlewright.dynamics.launch_start import (
    Pull,
    behind_center,
    free_throttle,
    full_torque,
    held,
    lifting_push,
    rolling,
    slip_for,
    spinning,
)
from axlewright.quantities.formula import Num
from axlewright.studies.launch_machine import launch_car
from axlewright.studies.launch_words import WORDS

GRAVITY = 9.80665

LEAD = 0.02
"""s before anything happens, so that a picture shows the start."""
STEADY = 0.05
"""s of the steady state before what disturbs it; long enough to see that it is one."""
IGNITION = 0.02
"""s until a two-step's limiter, let go, has all cylinders firing (assumption: most of a turn)."""
RESERVE = 0.95
"""Pull of a driver who does not spin the tires, over what they hold (assumption)."""
MIDDLE = 0.7
"""Engine speed in the middle of a gear over that of the shift (assumption)."""
STANDING_UP = 0.5
"""The same in a wheelstand: the engine pulls hard, the car is not yet fast (assumption)."""
AWAY = 0.5
"""s for which the throttle stays shut: the free play is crossed and has settled (assumption)."""
CREEP = 1.5
"""m/s out of the water box (assumption)."""
PATCH_SPEED = 4.0
"""m/s at which spinning wheels find grip just off the line (assumption)."""
PATCH = 0.15
"""m of tread on the road: over so much way grip changes at an edge (assumption)."""
LIFTED = 0.08
"""rad that the nose stands up in a wheelstand, front tires some 8 in up (assumption)."""
NEARLY = 0.85
"""Share of the lifting pull from which on a wheelstand is thought possible (assumption: the
scatter of grip and of the height of the car)."""
DROPPED = 0.15
"""s after which the driver is back on the throttle: about when the nose lands (assumption)."""


@dataclass(frozen=True)
class LaunchCase:
    """One named way to load the driveline, ready for the march."""

    case: str
    title: str
    means: str
    gear: int
    car: LaunchCar
    events: LaunchEvents


def always(level: Num) -> Ramp:
    """A level that does not change."""
    return Ramp(level, level, 0.0, 1.0)


def ramp(before: Num, after: Num, start: Num, duration: Num) -> Ramp:
    """From one level to another."""
    return Ramp(before, after, start, duration)


@dataclass(frozen=True)
class _Setting:
    """What a case is made from: the machine, its launching leaves, the car in the case's gear."""

    m: Machine[Num]
    x: Launching[Num]
    car: LaunchCar

    def road_speed(self, engine_speed: Num, gear: int) -> Num:
        """Road speed at an engine speed in a gear, nothing slipping, m/s."""
        overall = self.m.gearbox.ratios[gear - 1] * self.m.gears.ratio
        return engine_speed * self.x.tire.radius / overall

    def events(self, duration: float, engine_speed: Num, **changes: object) -> LaunchEvents:
        """At rest, full throttle, clutch in, on dry ground at ride height, but for changes."""
        at_rest: dict[str, object] = {
            "duration": duration,
            "engine_speed": engine_speed,
            "input_speed": 0.0,
            "road_speed": 0.0,
            "wheel_slip": 0.0,
            "throttle": always(1.0),
            "second_throttle": ramp(1.0, 1.0, 2.0 * duration, 1.0),
            "clamp": always(1.0),
            "hold": always(0.0),
            "brakes": always(0.0),
            "grip": always(1.0),
            "heave": 0.0,
            "pitch": 0.0,
        }
        return LaunchEvents(**(at_rest | changes))  # type: ignore[arg-type]

    def under_way(
        self, duration: float, road_speed: Num, pull: Pull, **changes: object
    ) -> LaunchEvents:
        """In gear and pulling steadily, but for changes."""
        steady: dict[str, object] = {
            "input_speed": pull.input_speed,
            "road_speed": road_speed,
            "wheel_slip": pull.wheel_slip,
            "axle_torque": pull.axle_torque,
            "throttle": always(pull.throttle),
        }
        return self.events(duration, pull.engine_speed, **(steady | changes))


Maker = Callable[[_Setting], LaunchEvents]


def _clutch(duration: float, opens: Callable[[_Setting], Num]) -> Maker:
    """Clutch let in from a free engine; the throttle opens within what ``opens`` says."""

    def make(s: _Setting) -> LaunchEvents:
        assert s.m.clutch is not None
        speed = s.m.engine.launch_speed
        return s.events(
            duration,
            speed,
            clamp=ramp(0.0, 1.0, LEAD, s.m.clutch.bite),
            throttle=ramp(free_throttle(s.car, speed), 1.0, LEAD, opens(s)),
        )

    return make


def _with_clutch(s: _Setting) -> Num:
    """Time in which the throttle opens so that the engine makes what the clutch takes."""
    assert s.m.clutch is not None
    made = full_torque(s.car, s.m.engine.launch_speed)
    taken = s.m.clutch.capacity * s.x.coupling.slide_ratio
    return s.m.clutch.bite * np.minimum(made / taken, 1.0)


def _foot_brake(s: _Setting) -> LaunchEvents:
    """Shafts wound up against the brakes; the pedal comes up and the throttle goes down."""
    ends, r = s.m.wheel_end, s.x.tire.radius
    all_brakes = ends.brake_grip * s.m.car.mass * GRAVITY * r
    tires = s.x.tire.grip * s.m.car.mass * GRAVITY * s.m.car.rear_share * r
    most = np.minimum(ends.brake_share * all_brakes + tires, all_brakes)
    start = held(s.car, s.m.engine.launch_speed, most)
    return s.events(
        1.1,
        start.engine_speed,
        axle_torque=start.axle_torque,
        throttle=ramp(start.throttle, 1.0, STEADY, s.x.driver.throttle_rise),
        brakes=ramp(all_brakes, 0.0, STEADY, s.x.driver.brake_release),
    )


def _trans_brake(s: _Setting) -> LaunchEvents:
    """The input stands still inside the gearbox; what lies behind it is unwound."""
    assert s.m.converter is not None
    start = held(s.car, s.m.engine.launch_speed, np.inf)
    into = start.axle_torque / (s.car.gear_ratio * s.car.axle_ratio)
    into = into / (s.car.gearbox_efficiency * s.car.axle_efficiency)
    return s.events(
        0.9,
        start.engine_speed,
        throttle=ramp(start.throttle, 1.0, STEADY, IGNITION),
        hold=ramp(1.02 * into, 0.0, STEADY, s.x.driver.trans_brake_release),
    )


def _neutral_drop(s: _Setting) -> LaunchEvents:
    """Engine and turbine run free together; the first gear's clutch takes hold, throttle down."""
    speed = s.m.engine.launch_speed
    return s.events(
        1.0,
        speed,
        input_speed=speed,
        throttle=ramp(free_throttle(s.car, speed), 1.0, LEAD, s.x.driver.throttle_rise),
        clamp=ramp(0.0, 1.0, LEAD, s.x.driver.shift_time),
    )


def _slick(s: _Setting, speed: float, before: Num, duration: float) -> LaunchEvents:
    """Wheels spin at full throttle on little grip; within a tread's length there is all of it."""
    pull = spinning(s.car, speed, s.m.tires.regrip_speed, before)
    return s.under_way(
        duration, speed, pull, throttle=always(1.0), grip=ramp(before, 1.0, STEADY, PATCH / speed)
    )


def _water(s: _Setting) -> LaunchEvents:
    return _slick(s, CREEP, s.x.driver.wet_grip_share, 0.6)


def _regrip(s: _Setting) -> LaunchEvents:
    return _slick(s, PATCH_SPEED, s.m.tires.low_grip_share, 0.5)


def _shift(s: _Setting) -> LaunchEvents:
    """Throttle held down: a manual's engine is on its limiter by the time the clutch comes in."""
    road = s.road_speed(s.x.driver.shift_speed, 1)
    if s.m.clutch is not None:
        return s.events(
            0.6,
            s.m.engine.rev_limit,
            road_speed=road,
            clamp=ramp(0.0, 1.0, LEAD, s.m.clutch.bite),
        )
    return _power_shift(s, road)


def _power_shift(s: _Setting, road: Num) -> LaunchEvents:
    """An automatic hands over under power: second's clutch has just taken the turbine's torque."""
    first = launch_car(s.m, s.x, 1)
    before = rolling(first, road, RESERVE)
    through = first.gear_ratio * first.axle_ratio * first.gearbox_efficiency
    turbine = before.axle_torque / (through * first.axle_efficiency)
    taken = np.minimum(turbine / (s.car.clutch_capacity * s.car.slide_ratio), 1.0)
    after = before.axle_torque * s.car.gear_ratio / first.gear_ratio
    return s.under_way(
        0.9,
        road,
        before,
        axle_torque=after,
        wheel_slip=slip_for(s.car, after / s.car.tire_radius),
        throttle=always(1.0),
        clamp=ramp(taken, 1.0, STEADY, s.x.driver.shift_time),
    )


def _lift_off(s: _Setting) -> LaunchEvents:
    """Pulling hard, foot off, coasting, foot down again."""
    road = s.road_speed(MIDDLE * s.x.driver.shift_speed, 1)
    pull = rolling(s.car, road, RESERVE)
    rise = s.x.driver.throttle_rise
    return s.under_way(
        1.1,
        road,
        pull,
        throttle=ramp(pull.throttle, 0.0, STEADY, rise),
        second_throttle=ramp(0.0, 1.0, STEADY + AWAY, rise),
    )


def _landing(s: _Setting) -> LaunchEvents:
    """In a wheelstand the driver lifts; the nose lands as he is back on the throttle."""
    road, pull = _hardest_pull(s)
    up = np.where(_share_of_lifting(s.car, pull) >= 1.0 - 1e-9, LIFTED, 0.0)[()]
    rise = s.x.driver.throttle_rise
    return s.under_way(
        0.8,
        road,
        pull,
        throttle=ramp(pull.throttle, 0.0, STEADY, rise),
        second_throttle=ramp(0.0, 1.0, STEADY + DROPPED, rise),
        pitch=up,
        heave=behind_center(s.car) * up,
    )


def _hardest_pull(s: _Setting) -> tuple[Num, Pull]:
    """As hard as it pulls in the middle of first gear: to the lift, the slip or full throttle."""
    road = s.road_speed(STANDING_UP * s.x.driver.shift_speed, 1)
    return road, rolling(s.car, road, 1.0)


def _share_of_lifting(car: LaunchCar, pull: Pull) -> Num:
    return pull.axle_torque / (lifting_push(car) * car.tire_radius)


_STATED: dict[str, Maker] = {
    "gentle": _clutch(1.8, _with_clutch),
    "slip": _clutch(1.2, lambda s: s.x.driver.throttle_rise),
    "dump": _clutch(0.8, lambda s: s.x.driver.throttle_rise),
    "two-step": _clutch(0.8, lambda _: IGNITION),
    "foot-brake": _foot_brake,
    "trans-brake": _trans_brake,
    "neutral drop": _neutral_drop,
}
_ALWAYS: dict[str, tuple[int, Maker]] = {
    "re-grip": (1, _regrip),
    "water": (1, _water),
    "shift": (2, _shift),
    "lift-off": (1, _lift_off),
    "landing": (1, _landing),
}
"""Gear, and how to make the events."""


def launch_cases(
    m: Machine[Num], x: Launching[Num], landing: bool | None = None
) -> tuple[LaunchCase, ...]:
    """The stated launch, and what else can happen on a hard day.

    ``landing`` says whether a wheelstand is thought possible; samples must be told what
    :func:`may_lift` says of the likeliest car, which decides for itself.
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
    return LaunchCase(case, title, means, gear, car, make(_Setting(m, x, car)))


def may_lift(m: Machine[Num], x: Launching[Num]) -> bool:
    """Whether the likeliest car comes near to lifting its front wheels in a steady pull."""
    car = launch_car(m, x, 1)
    _, pull = _hardest_pull(_Setting(m, x, car))
    return bool(_share_of_lifting(car, pull) >= NEARLY)


def _missing(m: Machine[Num], case: str, gear: int, landing: bool) -> str:
    """Why a build cannot have a case; nothing if it can."""
    if case == "water" and not m.use.burnouts:
        return "no burnouts are stated"
    if case == "landing" and not landing:
        return "no steady pull of this car lifts its front wheels"
    if gear > len(m.gearbox.ratios):
        return "the gearbox has one gear"
    return ""
