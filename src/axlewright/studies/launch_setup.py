"""From the machine to what the launch march reads, and the named ways to start one.

A case is a gear, a length of time and what happens in it: the pedal, the clamp, the brakes, the
road.  Numbers are floats or samples; whoever fills the machine decides.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents, Ramp
from axlewright.quantities.formula import Num
from axlewright.vehicle.engine import torque_at_speed

GRAVITY = 9.80665
LEAD = 0.02
"""s before anything happens, so that the start is seen."""
STANDSTILL = 1.5
"""m/s at which a car creeps out of the water box."""
LIFTED = 0.08
"""rad that the nose stands up when lifted front wheels are about to come down."""


@dataclass(frozen=True)
class LaunchCase:
    """One named way to load the driveline, ready for the march."""

    case: str
    title: str
    means: str
    gear: int
    car: LaunchCar
    events: LaunchEvents


def launch_car(m: Machine[Num], x: Launching[Num], gear: int) -> LaunchCar:
    """The car as the march reads it, in a gear."""
    converter = None
    if m.converter is not None:
        assert x.coupling.stall_speed is not None
        converter = LaunchConverter(
            rated_stall_speed=x.coupling.stall_speed,
            rated_stall_torque=torque_at_speed(
                x.coupling.stall_speed, _stack(x.curve.speeds), _stack(x.curve.torques)
            ),
            stall_torque_ratio=m.converter.torque_ratio,
            turbine_inertia=m.converter.inertia,
        )
        capacity = m.converter.band_capacity
    else:
        assert m.clutch is not None
        capacity = m.clutch.capacity
    return LaunchCar(
        curve_speeds=_stack(x.curve.speeds),
        curve_torques=_stack(x.curve.torques),
        engine_inertia=m.engine.inertia,
        rev_limit=m.engine.rev_limit,
        motored_torque=x.curve.motored_torque,
        converter=converter,
        clutch_capacity=capacity,
        slide_ratio=x.coupling.slide_ratio,
        input_inertia=x.spin.input_inertia[gear - 1],
        gear_ratio=m.gearbox.ratios[gear - 1],
        gearbox_efficiency=m.gearbox.efficiency,
        driveshaft_stiffness=x.twist.driveshaft_stiffness,
        driveshaft_damping_time=x.twist.driveshaft_damping_time,
        driveshaft_half_gap=x.twist.driveshaft_half_gap,
        pinion_inertia=x.spin.pinion_inertia,
        axle_ratio=m.gears.ratio,
        axle_efficiency=m.gears.efficiency,
        left_shaft_stiffness=x.twist.left_shaft_stiffness,
        right_shaft_stiffness=x.twist.right_shaft_stiffness,
        shaft_damping_time=x.twist.shaft_damping_time,
        shaft_half_gap=x.twist.shaft_half_gap,
        side_gear_inertia=x.spin.side_gear_inertia,
        bias_ratio=m.differential.bias_ratio,
        differential_preload=m.differential.preload,
        locked=m.differential.locks,
        wheel_inertia=x.spin.wheel_inertia,
        tire_radius=x.tire.radius,
        tire_grip=x.tire.grip,
        grip_reference_load=x.tire.grip_reference_load,
        load_sensitivity=m.tires.load_sensitivity,
        tire_shape=x.tire.shape,
        tire_rise=x.tire.rise,
        tire_bend=x.tire.bend,
        relaxation_length=x.tire.relaxation_length,
        rolling_resistance=m.use.rolling,
        tire_vertical_stiffness=x.tire.vertical_stiffness,
        tire_vertical_damping=x.tire.vertical_stiffness * x.tire.vertical_damping_time,
        vehicle_mass=m.car.mass,
        axle_mass=x.body.axle_mass,
        rear_share=m.car.rear_share,
        wheelbase=m.car.wheelbase,
        cg_height=m.car.cg_height,
        track=m.car.track,
        air_drag=x.body.air_drag,
        pitch_inertia=x.body.pitch_inertia,
        roll_inertia=x.body.roll_inertia,
        front_stiffness=x.body.front_stiffness,
        front_damping=x.body.front_stiffness * x.body.front_damping_time,
        rear_stiffness=x.body.rear_stiffness,
        rear_damping=x.body.rear_stiffness * x.body.rear_damping_time,
        roll_stiffness=x.body.roll_stiffness,
        roll_damping=x.body.roll_stiffness * x.body.roll_damping_time,
        rear_roll_share=x.body.rear_roll_share,
        roll_torque_share=x.mount.roll_torque_share,
        thrust_slope=x.mount.thrust_slope,
        reaction_arm=x.mount.reaction_arm,
        mount_height=x.mount.height,
        mount_stiffness=x.mount.stiffness,
        mount_damping=x.mount.stiffness * x.mount.damping_time,
        windup_stiffness=x.mount.windup_stiffness,
        windup_damping=x.mount.windup_stiffness * x.mount.windup_damping_time,
        housing_inertia=x.mount.housing_inertia,
    )


def _stack(points: tuple[Num, ...]) -> np.ndarray:
    """Points of a curve as one array, its first axis along the curve."""
    return np.stack(np.broadcast_arrays(*points))


def always(level: Num) -> Ramp:
    """A level that does not change."""
    return Ramp(level, level, 0.0, 1.0)


def ramp(before: Num, after: Num, start: Num, duration: Num) -> Ramp:
    """From one level to another."""
    return Ramp(before, after, start, np.maximum(duration, 1e-4))


@dataclass(frozen=True)
class _Setting:
    """What every case is made from."""

    m: Machine[Num]
    x: Launching[Num]

    def speed_in_gear(self, engine_speed: Num, gear: int) -> Num:
        """Road speed at an engine speed, nothing slipping, m/s."""
        overall = self.m.gearbox.ratios[gear - 1] * self.m.gears.ratio
        return engine_speed * self.x.tire.radius / overall

    def events(self, duration: float, engine_speed: Num, **changes: object) -> LaunchEvents:
        """A start with full throttle, clutch in, on dry ground at ride height, but for changes."""
        at_rest: dict[str, object] = {
            "duration": duration,
            "engine_speed": engine_speed,
            "input_speed": 0.0,
            "road_speed": 0.0,
            "wheel_slip": 0.0,
            "throttle": always(1.0),
            "second_throttle": ramp(1.0, 1.0, duration, 1.0),
            "clamp": always(1.0),
            "hold": always(0.0),
            "brakes": always(0.0),
            "grip": always(1.0),
            "heave": 0.0,
            "pitch": 0.0,
        }
        return LaunchEvents(**(at_rest | changes))  # type: ignore[arg-type]


Maker = Callable[[_Setting], LaunchEvents]


def _held_throttle(s: _Setting) -> Num:
    """Throttle that holds the launch speed on the clutch pedal: little is needed."""
    del s
    return 0.2


def _clutch(duration: float, full: bool) -> Maker:
    def make(s: _Setting) -> LaunchEvents:
        assert s.m.clutch is not None
        pedal = ramp(_held_throttle(s), 1.0, 0.0, s.x.driver.throttle_rise)
        return s.events(
            duration,
            s.m.engine.launch_speed,
            clamp=ramp(0.0, 1.0, LEAD, s.m.clutch.bite),
            throttle=always(1.0) if full else pedal,
        )

    return make


def _foot_brake(s: _Setting) -> LaunchEvents:
    """Rear brakes hold what they can; a strong engine pushes through them."""
    ends = s.m.wheel_end
    held = ends.brake_share * ends.brake_grip * s.m.car.mass * GRAVITY * s.x.tire.radius
    return s.events(
        1.4,
        s.m.engine.launch_speed,
        throttle=ramp(0.3, 1.0, 0.4, s.x.driver.throttle_rise),
        brakes=ramp(held, 0.0, 0.4, s.x.driver.brake_release),
    )


def _trans_brake(s: _Setting) -> LaunchEvents:
    assert s.m.converter is not None
    held = 2.0 * s.m.converter.torque_ratio * s.m.engine.torque
    return s.events(
        1.0,
        s.m.engine.launch_speed,
        hold=ramp(held, 0.0, 0.2, s.x.driver.trans_brake_release),
    )


def _neutral_drop(s: _Setting) -> LaunchEvents:
    return s.events(
        1.0,
        s.m.engine.launch_speed,
        input_speed=s.m.engine.launch_speed,
        clamp=ramp(0.0, 1.0, LEAD, s.x.driver.shift_time),
    )


def _spinning(s: _Setting, speed: Num, grip: Ramp, duration: float) -> LaunchEvents:
    """Wheels that spin under power in first gear, engine near its launch speed."""
    turning = s.speed_in_gear(s.m.engine.launch_speed, 1)
    slip = np.clip(1.0 - speed / turning, 0.0, 0.95)
    return s.events(
        duration,
        s.m.engine.launch_speed,
        input_speed=s.m.engine.launch_speed,
        road_speed=speed,
        wheel_slip=slip,
        grip=grip,
    )


def _water(s: _Setting) -> LaunchEvents:
    return _spinning(s, STANDSTILL, ramp(s.x.driver.wet_grip_share, 1.0, 0.1, 0.08), 0.7)


def _hook(s: _Setting) -> LaunchEvents:
    return _spinning(s, 4.0, ramp(s.m.tires.slide_share, 1.0, 0.1, 0.02), 0.7)


def _shift(s: _Setting) -> LaunchEvents:
    bite = s.m.clutch.bite if s.m.clutch is not None else s.x.driver.shift_time
    return s.events(
        0.7,
        s.x.driver.shift_speed,
        input_speed=s.x.driver.shift_speed,
        road_speed=s.speed_in_gear(s.x.driver.shift_speed, 1),
        clamp=ramp(0.0, 1.0, LEAD, bite),
    )


def _lift_off(s: _Setting) -> LaunchEvents:
    speed = 0.7 * s.x.driver.shift_speed
    return s.events(
        1.2,
        speed,
        input_speed=speed,
        road_speed=s.speed_in_gear(speed, 1),
        throttle=ramp(1.0, 0.0, 0.2, s.x.driver.throttle_rise),
        second_throttle=ramp(0.0, 1.0, 0.7, s.x.driver.throttle_rise),
    )


def _landing(s: _Setting) -> LaunchEvents:
    speed = 0.8 * s.x.driver.shift_speed
    front = s.m.car.rear_share * s.m.car.wheelbase
    behind = s.m.car.wheelbase - front
    return s.events(
        0.9,
        speed,
        input_speed=speed,
        road_speed=s.speed_in_gear(speed, 1),
        pitch=LIFTED,
        heave=behind * LIFTED,
    )


_MANUAL: dict[str, tuple[str, str, Maker]] = {
    "gentle": ("Gentle start", "Clutch let in slowly, then full throttle.", _clutch(2.0, False)),
    "slip": (
        "Slipped launch",
        "Clutch let in at launch speed and slipped on purpose.",
        _clutch(1.2, False),
    ),
    "dump": (
        "Clutch dump",
        "Foot off the side of the pedal at launch speed.",
        _clutch(0.8, False),
    ),
    "two-step": (
        "Two-step launch",
        "Full throttle on the limiter, clutch dropped.",
        _clutch(0.8, True),
    ),
}
_AUTOMATIC: dict[str, tuple[str, str, Maker]] = {
    "foot-brake": ("Brake-stall launch", "Wound up on the brakes, then let go.", _foot_brake),
    "trans-brake": (
        "Trans-brake release",
        "Full stall torque held inside the gearbox, then let go at once.",
        _trans_brake,
    ),
    "neutral drop": (
        "Neutral drop",
        "Put into gear at speed: the turbine is stopped by clutches inside.",
        _neutral_drop,
    ),
}
_ALWAYS: dict[str, tuple[str, str, int, Maker]] = {
    "re-grip": (
        "Re-grip",
        "Wheels that spin on a slick patch find full grip within a few hundredths of a second.",
        1,
        _hook,
    ),
    "water": (
        "Out of the water",
        "A burnout driven from water onto dry ground.",
        1,
        _water,
    ),
    "shift": ("Hard shift to second", "Throttle held down through the shift.", 2, _shift),
    "lift-off": (
        "Lift off and back on",
        "Throttle shut and opened again: the free play is crossed both ways.",
        1,
        _lift_off,
    ),
    "landing": ("Wheels-up landing", "Lifted front wheels come down under power.", 1, _landing),
}


def launch_cases(m: Machine[Num], x: Launching[Num]) -> tuple[LaunchCase, ...]:
    """The stated launch, and what else can happen on a hard day."""
    table = _MANUAL if m.clutch is not None else _AUTOMATIC
    title, means, make = table[m.use.launch]
    s = _Setting(m, x)
    first = launch_car(m, x, 1)
    cases = [LaunchCase(m.use.launch, title, means, 1, first, make(s))]
    for case, (title, means, gear, make) in _ALWAYS.items():
        if case == "water" and not m.use.burnouts:
            continue
        if gear > len(m.gearbox.ratios):
            continue
        car = first if gear == 1 else launch_car(m, x, gear)
        cases.append(LaunchCase(case, title, means, gear, car, make(s)))
    return tuple(cases)
