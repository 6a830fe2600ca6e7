"""Where a launch may begin: the car at rest on its springs, pulling steadily, spinning, held back.

A march that starts with shafts unwound although the engine already pulls begins with a blow of its
own making.  So a case that starts under way starts in the steady state that goes with its pull.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents
from axlewright.dynamics.launch_curves import PLACES, pump_curve
from axlewright.quantities.formula import Num
from axlewright.vehicle.converter import scaled_torque_ratio, typical_torque_ratio
from axlewright.vehicle.engine import torque_at_speed

GRAVITY = 9.80665
_HALVINGS = 40
_REPEATS = 12
_FADE = 20.0
"""rad/s over which the limiter of the model takes the torque away."""


class Wound(NamedTuple):
    """Twists, stretches and places of a car that pulls steadily."""

    driveshaft: Num
    left: Num
    right: Num
    heave: Num
    pitch: Num
    axle_height: Num
    roll: Num
    windup: Num
    gap: Num


@dataclass(frozen=True)
class Pull:
    """A steady state to start from, in the words of :class:`LaunchEvents`."""

    axle_torque: Num
    wheel_slip: Num
    engine_speed: Num
    input_speed: Num
    throttle: Num
    """Share of full throttle that keeps it up."""


def wound(car: LaunchCar, events: LaunchEvents) -> Wound:
    """Everything in balance under the stated axle torque and the push of the slipping tires."""
    torque = np.asarray(events.axle_torque, dtype=np.float64)
    freed = torque - np.clip(torque, 0.0, events.brakes.before)
    x = _body(car)
    push = tire_push(car, events.wheel_slip, events.grip.before)
    thrust = np.where(torque == 0.0, 0.0, push) * x.share
    wind = freed + car.mount_height * thrust
    turning = thrust * x.below + wind
    front = np.maximum(-turning / car.wheelbase, -x.front_load)
    lift = thrust * x.slope + wind * car.reaction_arm
    low = -front / car.front_stiffness
    axle_height = front / car.tire_vertical_stiffness
    droop = (front + lift) / car.rear_stiffness
    pitch = (low - droop - axle_height) / car.wheelbase + events.pitch
    heave = low - x.ahead * (pitch - events.pitch) + events.heave
    droop = heave - x.behind * pitch - axle_height
    windup = pitch + droop * car.reaction_arm + wind / car.windup_stiffness
    through = torque / (car.axle_ratio * car.axle_efficiency)
    side = np.sign(torque)
    return Wound(
        driveshaft=through / car.driveshaft_stiffness + side * car.driveshaft_half_gap,
        left=0.5 * torque / car.left_shaft_stiffness + side * car.shaft_half_gap,
        right=0.5 * torque / car.right_shaft_stiffness + side * car.shaft_half_gap,
        heave=heave,
        pitch=pitch,
        axle_height=axle_height,
        roll=car.roll_torque_share * through / car.roll_stiffness,
        windup=windup,
        gap=x.below * pitch
        + car.mount_height * windup
        + x.slope * droop
        + thrust / car.mount_stiffness,
    )


class _Body(NamedTuple):
    """The body apart from its axle, as ``docs/launch-model.md`` has it."""

    share: Num
    """Mass of the body over that of the car."""
    ahead: Num
    behind: Num
    below: Num
    slope: Num
    front_load: Num
    planted: Num
    """Rear load that a pull adds, over the pull."""


def _body(car: LaunchCar) -> _Body:
    body = car.vehicle_mass - car.axle_mass
    behind = car.wheelbase * car.vehicle_mass * (1.0 - car.rear_share) / body
    height = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    share = body / car.vehicle_mass
    return _Body(
        share=share,
        ahead=car.wheelbase - behind,
        behind=behind,
        below=height - car.tire_radius - car.mount_height,
        slope=car.thrust_slope - car.mount_height * car.reaction_arm,
        front_load=car.vehicle_mass * GRAVITY * (1.0 - car.rear_share),
        planted=(share * (height - car.tire_radius) + car.tire_radius) / car.wheelbase,
    )


def behind_center(car: LaunchCar) -> Num:
    """How far the body's center of gravity lies ahead of the rear axle, m."""
    return _body(car).behind


def lifting_push(car: LaunchCar) -> Num:
    """Push of both rear tires at which the front wheels leave the ground, N."""
    x = _body(car)
    return x.front_load / x.planted


def curve_share(car: LaunchCar, slip: Num) -> Num:
    """Push of a tire at a slip over its greatest."""
    turn = car.tire_rise * slip
    result: Num = np.sin(
        car.tire_shape * np.arctan(turn - car.tire_bend * (turn - np.arctan(turn)))
    )
    return result


def tire_push(car: LaunchCar, slip: Num, grip: Num = 1.0) -> Num:
    """Push of both tires at a slip, with the load that this very push puts on them, N."""
    x = _body(car)
    standing = car.vehicle_mass * GRAVITY * car.rear_share
    share = grip * car.tire_grip * curve_share(car, slip)
    load = standing
    for _ in range(_REPEATS):
        faded = np.maximum(1.0 - car.load_sensitivity * (0.5 * load - car.grip_reference_load), 0.5)
        load = standing + np.minimum(x.planted * share * faded * load, x.front_load)
    return share * faded * load


def peak_slip(car: LaunchCar) -> Num:
    """Slip at which a tire pushes hardest."""
    return _halved(lambda s: _turned(car, s) < 0.5 * np.pi, 0.0 * car.tire_rise, 1.0)


def _turned(car: LaunchCar, slip: Num) -> Num:
    turn = car.tire_rise * slip
    result: Num = car.tire_shape * np.arctan(turn - car.tire_bend * (turn - np.arctan(turn)))
    return result


def slip_for(car: LaunchCar, push: Num, grip: Num = 1.0) -> Num:
    """Slip, up to the peak, at which both tires push so much."""
    return _halved(lambda s: tire_push(car, s, grip) < push, 0.0 * push, peak_slip(car))


def _halved(below: Callable[[Any], Any], low: Num, high: Num) -> Num:
    """Place up to which ``below`` holds, by halving."""
    low, high = np.broadcast_arrays(np.asarray(low, dtype=np.float64), high)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        yes = below(middle)
        low, high = np.where(yes, middle, low), np.where(yes, high, middle)
    result: Num = (0.5 * (low + high))[()]
    return result


def free_throttle(car: LaunchCar, engine_speed: Num) -> Num:
    """Throttle that holds an engine speed with nothing to drive."""
    return throttle_for(car, engine_speed, 0.0)


def throttle_for(car: LaunchCar, engine_speed: Num, torque: Num) -> Num:
    """Throttle at which the engine gives a torque, at most all of it."""
    drag = car.motored_torque * np.clip(engine_speed / 100.0, -1.0, 1.0)
    result: Num = np.clip((torque + drag) / (full_torque(car, engine_speed) + drag), 0.0, 1.0)
    return result


def full_torque(car: LaunchCar, engine_speed: Num) -> Num:
    """Full-throttle torque with the limiter."""
    fade = np.clip((car.rev_limit + _FADE - engine_speed) / _FADE, 0.0, 1.0)
    return torque_at_speed(engine_speed, car.curve_speeds, car.curve_torques) * fade


def _through(car: LaunchCar) -> Num:
    """Axle torque over torque at the gearbox input."""
    return car.gear_ratio * car.axle_ratio * car.gearbox_efficiency * car.axle_efficiency


def held(car: LaunchCar, engine_speed: Num, most: Num) -> Pull:
    """Converter stalled against something that holds the axle up to ``most``, N·m.

    A driver who would push through what holds him stays at the engine speed that is just held, and
    nobody stalls higher than full throttle does.
    """
    made = _converter(car)
    unit = made.rated_stall_torque / (made.rated_stall_speed * made.rated_stall_speed)
    highest = _halved(
        lambda w: full_torque(car, w) > unit * w * w, 0.0 * unit, car.rev_limit + _FADE
    )
    speed = np.minimum(engine_speed, highest)
    asked = unit * speed * speed * made.stall_torque_ratio * _through(car)
    less = np.minimum(most / asked, 1.0)
    speed = speed * np.sqrt(less)
    return Pull(
        axle_torque=asked * less,
        wheel_slip=0.0,
        engine_speed=speed,
        input_speed=0.0,
        throttle=throttle_for(car, speed, unit * speed * speed),
    )


def rolling(car: LaunchCar, road_speed: Num, reserve: float) -> Pull:
    """Pulling in gear, as hard as the engine can or the tires hold with something in reserve."""
    top = reserve * np.minimum(tire_push(car, peak_slip(car)), lifting_push(car))
    overall = car.gear_ratio * car.axle_ratio
    slip: Num = 0.0
    for _ in range(3):
        wheel = road_speed / (car.tire_radius * (1.0 - slip))
        turning = overall / (car.tire_radius * car.tire_radius * car.vehicle_mass)
        spare = 1.0 / _through(car) + _behind_inertia(car) * turning
        most = top * car.tire_radius * spare
        drive = _drive(car, wheel * overall, most)
        torque = drive.torque / spare
        slip = slip_for(car, torque / car.tire_radius)
    return Pull(torque, slip, drive.engine_speed, wheel * overall, drive.throttle)


def spinning(car: LaunchCar, road_speed: Num, ahead: Num, grip: Num) -> Pull:
    """Wheels that run ``ahead`` of the road, rad/s, at full throttle, on so much grip."""
    wheel = road_speed / car.tire_radius + ahead
    slip = 1.0 - road_speed / (wheel * car.tire_radius)
    overall = car.gear_ratio * car.axle_ratio
    drive = _drive(car, wheel * overall, np.inf)
    back = tire_push(car, slip, grip) * car.tire_radius
    train = _behind_inertia(car) * overall * _through(car)
    wheels = 2.0 * car.wheel_inertia
    gain = (drive.torque * _through(car) - back) / (train + wheels)
    torque = np.maximum(back + wheels * gain, 0.0)
    return Pull(torque, slip, drive.engine_speed, wheel * overall, 1.0)


class _Drive(NamedTuple):
    """What comes into the gearbox."""

    torque: Num
    engine_speed: Num
    throttle: Num


def _behind_inertia(car: LaunchCar) -> Num:
    """Inertia that turns with the gearbox input: engine or turbine, and the input itself."""
    if car.converter is None:
        return car.engine_inertia + car.input_inertia
    return car.converter.turbine_inertia + car.input_inertia


def _drive(car: LaunchCar, input_speed: Num, most: Num) -> _Drive:
    """Full throttle at an input speed, or less where ``most`` is less."""
    if car.converter is None:
        torque = np.minimum(full_torque(car, input_speed), most)
        return _Drive(torque, input_speed, throttle_for(car, input_speed, torque))
    top = np.maximum(car.rev_limit + _FADE, input_speed)
    full = _halved(
        lambda w: full_torque(car, w) > _pumped(car, w, input_speed)[0], 1.0 * input_speed, top
    )
    speed = _halved(lambda w: _pumped(car, w, input_speed)[1] < most, 1.0 * input_speed, full)
    pump, turbine = _pumped(car, speed, input_speed)
    return _Drive(turbine, speed, throttle_for(car, speed, pump))


def _pumped(car: LaunchCar, engine_speed: Num, turbine_speed: Num) -> tuple[Num, Num]:
    """Torque that the pump takes and the turbine gives."""
    made = _converter(car)
    ratio = np.clip(turbine_speed / np.maximum(engine_speed, 1.0), 0.0, 1.0)
    pace = engine_speed / made.rated_stall_speed
    places = np.asarray(PLACES)
    drawn = made.rated_stall_torque * pace * pace * np.interp(ratio, places, pump_curve())
    typical = np.interp(ratio, places, np.asarray(typical_torque_ratio(places)))
    gain = scaled_torque_ratio(typical, made.stall_torque_ratio, ratio)
    return drawn, drawn * gain


def _converter(car: LaunchCar) -> LaunchConverter:
    if car.converter is None:
        raise ValueError("only an automatic stalls")
    return car.converter
