"""What driver, brakes and road do in each named case, and the state in which it begins.

A case that begins under way begins in the steady state that goes with it
(``dynamics/launch_start.py``), so that no blow comes from the start itself.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents, Ramp
from axlewright.dynamics.launch_pulls import (
    Pull,
    free_throttle,
    full_torque,
    held,
    rolling,
    spinning,
)
from axlewright.dynamics.launch_start import behind_center, lifting_push, slip_for
from axlewright.quantities.formula import Num
from axlewright.studies.launch_machine import launch_car

GRAVITY = 9.80665

LEAD = 0.02
"""s before anything happens, so that a picture shows the start."""
STEADY = 0.05
"""s of the steady state before what disturbs it; long enough to see that it is one."""
IGNITION = 0.02
"""s until a two-step's limiter, let go, has all cylinders firing (assumption: most of a turn)."""
ROLLED_ON = 0.8
"""s in which a gentle foot opens the throttle of an automatic (assumption)."""
RESERVE = 0.95
"""Pull of a driver who does not spin the tires, over what they hold (assumption)."""
STANDING_UP = 0.5
"""Engine speed in a wheelstand over that of the shift: it pulls hard, the car is not yet fast
(assumption; what is marched hardly moves with it)."""
AWAY = 0.5
"""s for which the throttle stays shut: the free play is crossed and has settled (assumption)."""
LIFTED = 0.08
"""rad that the nose stands up in a wheelstand, front tires some 8 in up (assumption)."""
DROPPED = 0.15
"""s after which the driver is back on the throttle: about when the nose lands (assumption)."""


def always(level: Num) -> Ramp:
    """A level that does not change."""
    return Ramp(level, level, 0.0, 1.0)


def ramp(before: Num, after: Num, start: Num, duration: Num) -> Ramp:
    """From one level to another."""
    return Ramp(before, after, start, duration)


@dataclass(frozen=True)
class Situation:
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


Maker = Callable[[Situation], LaunchEvents]


def let_in(duration: float, opens: Callable[[Situation], Num]) -> Maker:
    """Clutch let in from a free engine; the throttle opens within what ``opens`` says."""

    def make(s: Situation) -> LaunchEvents:
        assert s.m.clutch is not None
        speed = s.m.engine.launch_speed
        return s.events(
            duration,
            speed,
            clamp=ramp(0.0, 1.0, LEAD, s.m.clutch.bite),
            throttle=ramp(free_throttle(s.car, speed), 1.0, LEAD, opens(s)),
        )

    return make


def with_clutch(s: Situation) -> Num:
    """Time in which the throttle opens so that the engine makes what the clutch takes."""
    assert s.m.clutch is not None
    made = full_torque(s.car, s.m.engine.launch_speed)
    taken = s.m.clutch.capacity * s.x.coupling.slide_ratio
    return s.m.clutch.bite * np.minimum(made / taken, 1.0)


def off_the_brake(duration: float, opens: Callable[[Situation], Num]) -> Maker:
    """Shafts wound up against the brakes; the pedal comes up and the throttle goes down."""

    def make(s: Situation) -> LaunchEvents:
        ends, r = s.m.wheel_end, s.x.tire.radius
        all_brakes = ends.brake_grip * s.m.car.mass * GRAVITY * r
        tires = s.x.tire.grip * s.m.car.mass * GRAVITY * s.m.car.rear_share * r
        most = np.minimum(ends.brake_share * all_brakes + tires, all_brakes)
        start = held(s.car, s.m.engine.launch_speed, most)
        return s.events(
            duration,
            start.engine_speed,
            axle_torque=start.axle_torque,
            throttle=ramp(start.throttle, 1.0, STEADY, opens(s)),
            brakes=ramp(all_brakes, 0.0, STEADY, s.x.driver.brake_release),
        )

    return make


foot_brake = off_the_brake(1.1, lambda s: s.x.driver.throttle_rise)


def gently(s: Situation) -> LaunchEvents:
    """Clutch and throttle come in together; an automatic's throttle is rolled on off the brake."""
    if s.m.clutch is not None:
        return let_in(1.8, with_clutch)(s)
    return off_the_brake(1.8, lambda _: ROLLED_ON)(s)


def trans_brake(s: Situation) -> LaunchEvents:
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


def neutral_drop(s: Situation) -> LaunchEvents:
    """Engine and turbine run free together; the first gear's clutch takes hold, throttle down."""
    speed = s.m.engine.launch_speed
    return s.events(
        1.0,
        speed,
        input_speed=speed,
        throttle=ramp(free_throttle(s.car, speed), 1.0, LEAD, s.x.driver.throttle_rise),
        clamp=ramp(0.0, 1.0, LEAD, s.x.driver.shift_time),
    )


def _slick(s: Situation, speed: Num, before: Num, duration: float) -> LaunchEvents:
    """Wheels spin at full throttle on little grip; within a tread's length there is all of it."""
    pull = spinning(s.car, speed, s.m.tires.regrip_speed, before)
    across = s.x.driver.contact_length / speed
    return s.under_way(
        duration, speed, pull, throttle=always(1.0), grip=ramp(before, 1.0, STEADY, across)
    )


def out_of_water(s: Situation) -> LaunchEvents:
    """A burnout driven out of its water."""
    return _slick(s, s.x.driver.creep_speed, s.x.driver.wet_grip_share, 0.6)


def regrip(s: Situation) -> LaunchEvents:
    """Spinning wheels come off a slick patch."""
    return _slick(s, s.x.driver.patch_speed, s.m.tires.low_grip_share, 0.5)


def hard_shift(s: Situation) -> LaunchEvents:
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


def _power_shift(s: Situation, road: Num) -> LaunchEvents:
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


def lift_off(s: Situation) -> LaunchEvents:
    """Pulling hard, foot off, coasting, foot down again."""
    road = s.road_speed(s.x.driver.lift_share * s.x.driver.shift_speed, 1)
    pull = rolling(s.car, road, RESERVE)
    rise = s.x.driver.throttle_rise
    return s.under_way(
        1.1,
        road,
        pull,
        throttle=ramp(pull.throttle, 0.0, STEADY, rise),
        second_throttle=ramp(0.0, 1.0, STEADY + AWAY, rise),
    )


def landing_events(s: Situation) -> LaunchEvents:
    """In a wheelstand the driver lifts; the nose lands as he is back on the throttle."""
    road, pull = hardest_pull(s)
    up = np.where(share_of_lifting(s.car, pull) >= 1.0 - 1e-9, LIFTED, 0.0)[()]
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


def hardest_pull(s: Situation) -> tuple[Num, Pull]:
    """As hard as it pulls in the middle of first gear: to the lift, the slip or full throttle."""
    road = s.road_speed(STANDING_UP * s.x.driver.shift_speed, 1)
    return road, rolling(s.car, road, 1.0)


def share_of_lifting(car: LaunchCar, pull: Pull) -> Num:
    """A pull over the one that lifts the front wheels."""
    return pull.axle_torque / (lifting_push(car) * car.tire_radius)
