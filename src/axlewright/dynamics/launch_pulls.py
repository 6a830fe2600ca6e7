"""Steady states that a launch may begin in: stalled against a brake, pulling in gear, spinning."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter
from axlewright.dynamics.launch_curves import PLACES, pump_curve
from axlewright.dynamics.launch_start import halved, lifting_push, peak_slip, slip_for, tire_push
from axlewright.quantities.formula import Num
from axlewright.vehicle.converter import scaled_torque_ratio, typical_torque_ratio
from axlewright.vehicle.engine import torque_at_speed

FADE = 20.0
"""rad/s over which the limiter of the model takes the torque away."""


@dataclass(frozen=True)
class Pull:
    """A steady state to start from, in the words of :class:`LaunchEvents`."""

    axle_torque: Num
    wheel_slip: Num
    engine_speed: Num
    input_speed: Num
    throttle: Num
    """Share of full throttle that keeps it up."""


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
    fade = np.clip((car.rev_limit + FADE - engine_speed) / FADE, 0.0, 1.0)
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
    highest = halved(lambda w: full_torque(car, w) > unit * w * w, 0.0 * unit, car.rev_limit + FADE)
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
    top = np.maximum(car.rev_limit + FADE, input_speed)
    full = halved(
        lambda w: full_torque(car, w) > _pumped(car, w, input_speed)[0], 1.0 * input_speed, top
    )
    speed = halved(lambda w: _pumped(car, w, input_speed)[1] < most, 1.0 * input_speed, full)
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
