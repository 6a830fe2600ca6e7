"""Driveline, axle and body made linear about a steady pull: the matrix of small motions.

The car is that of ``docs/launch-model.md``; ``docs/hop.md`` says what is kept and what is left
out.  The rates are written once, as a linear function of the states; given unit vectors for the
states, the same lines give the rows of the matrix.
"""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any, NamedTuple

import numpy as np

from axlewright.dynamics.hop_pull import Pull, body_height, upstream_inertia
from axlewright.dynamics.launch_car import LaunchCar
from axlewright.quantities.formula import Array, Num


class State(NamedTuple):
    """Small changes from the steady pull, or their rates; SI, signs as in the launch model."""

    input_speed: Array
    driveshaft_twist: Array
    pinion_speed: Array
    shaft_twist: Array
    wheel_speed: Array
    deflection: Array
    body_speed: Array
    axle_speed: Array
    gap: Array
    heave: Array
    heave_rate: Array
    pitch: Array
    pitch_rate: Array
    axle_height: Array
    axle_height_rate: Array
    windup: Array
    windup_rate: Array


class Change(NamedTuple):
    """Changes of force (N) and torque (N·m) that go with a small change of state."""

    driveshaft: Array
    axle: Array
    load: Array
    thrust: Array
    mount: Array
    windup: Array
    lift: Array
    rear: Array
    front: Array


SIZE = len(State._fields)


def jacobian(car: LaunchCar, pull: Pull, speed: Num, torque_slope: Num = 0.0) -> Array:
    """Matrix of the rates of :class:`State`, shape (..., 17, 17) with the samples in front.

    ``torque_slope`` (N·m·s/rad) is the change of engine or turbine torque with its speed.
    """
    unit = State(*np.eye(SIZE))
    car, pull = _car_beside(car), _pull_beside(pull)
    rows = rates(unit, car, pull, _beside(speed), _beside(torque_slope))
    return np.stack(np.broadcast_arrays(*rows), axis=-2)


def rates(y: State, car: LaunchCar, pull: Pull, speed: Num, torque_slope: Num) -> State:
    """Rates of a small change of state; linear in it, and broadcasting over its numbers."""
    f = forces(y, car, pull)
    arm, to_rear, to_front = body_arms(car)
    sprung = car.vehicle_mass - car.axle_mass
    spun = car.input_inertia + upstream_inertia(car)
    taken = car.axle_ratio * car.axle_efficiency
    carrier = y.pinion_speed / car.axle_ratio - y.windup_rate
    rim = car.tire_radius * (f.thrust + car.rolling_resistance * f.load)
    slide = pull.keep * car.tire_radius * y.wheel_speed - y.axle_speed
    return State(
        input_speed=(
            torque_slope * y.input_speed - f.driveshaft / (car.gear_ratio * car.gearbox_efficiency)
        )
        / spun,
        driveshaft_twist=y.input_speed / car.gear_ratio - y.pinion_speed,
        pinion_speed=(f.driveshaft - f.axle / taken) / car.pinion_inertia,
        shaft_twist=carrier - y.wheel_speed,
        wheel_speed=(f.axle - rim) / (2.0 * car.wheel_inertia),
        deflection=slide - pull.fading * y.deflection,
        body_speed=(f.mount - 2.0 * car.air_drag * speed * y.body_speed) / sprung,
        axle_speed=(f.thrust - f.mount) / car.axle_mass,
        gap=y.axle_speed - y.body_speed,
        heave=y.heave_rate,
        heave_rate=(f.front + f.rear + f.lift) / sprung,
        pitch=y.pitch_rate,
        pitch_rate=(arm * f.mount + f.windup + to_front * f.front - to_rear * (f.rear + f.lift))
        / car.pitch_inertia,
        axle_height=y.axle_height_rate,
        axle_height_rate=(f.load - f.rear - f.lift) / car.axle_mass,
        windup=y.windup_rate,
        windup_rate=(f.axle - f.windup + car.mount_height * f.mount) / car.housing_inertia,
    )


def body_arms(car: LaunchCar) -> tuple[Num, Num, Num]:
    """Mount below the body's center of gravity, and that center ahead of rear and behind front."""
    sprung = car.vehicle_mass - car.axle_mass
    to_rear = car.wheelbase * (1.0 - car.rear_share) * car.vehicle_mass / sprung
    arm = body_height(car) - car.tire_radius - car.mount_height
    return arm, to_rear, car.wheelbase - to_rear


def forces(y: State, car: LaunchCar, pull: Pull) -> Change:
    """Forces of a small change of state."""
    arm, to_rear, to_front = body_arms(car)
    slope = car.thrust_slope - car.mount_height * car.reaction_arm
    droop = y.heave - to_rear * y.pitch - y.axle_height
    droop_rate = y.heave_rate - to_rear * y.pitch_rate - y.axle_height_rate
    nose, nose_rate = y.heave + to_front * y.pitch, y.heave_rate + to_front * y.pitch_rate
    stretch = y.gap - arm * y.pitch - car.mount_height * y.windup - slope * droop
    stretch_rate = (
        y.axle_speed
        - y.body_speed
        - arm * y.pitch_rate
        - car.mount_height * y.windup_rate
        - slope * droop_rate
    )
    twist = y.windup - y.pitch - car.reaction_arm * droop
    twist_rate = y.windup_rate - y.pitch_rate - car.reaction_arm * droop_rate
    shaft_rate = y.pinion_speed / car.axle_ratio - y.windup_rate - y.wheel_speed
    drive_rate = y.input_speed / car.gear_ratio - y.pinion_speed
    load = -car.tire_vertical_stiffness * y.axle_height - (
        car.tire_vertical_damping * y.axle_height_rate
    )
    mount = car.mount_stiffness * stretch + car.mount_damping * stretch_rate
    windup = car.windup_stiffness * twist + car.windup_damping * twist_rate
    return Change(
        driveshaft=car.driveshaft_stiffness
        * (y.driveshaft_twist + car.driveshaft_damping_time * drive_rate),
        axle=(car.left_shaft_stiffness + car.right_shaft_stiffness)
        * (y.shaft_twist + car.shaft_damping_time * shaft_rate),
        load=load,
        thrust=pull.push_per_deflection * y.deflection + pull.push_per_load * load,
        mount=mount,
        windup=windup,
        lift=slope * mount + car.reaction_arm * windup,
        rear=-car.rear_stiffness * droop - car.rear_damping * droop_rate,
        front=-pull.front_held * (car.front_stiffness * nose + car.front_damping * nose_rate),
    )


def _beside(value: Num) -> Array:
    return np.asarray(value, dtype=np.float64)[..., None]


def _car_beside(car: LaunchCar) -> LaunchCar:
    """Give the same car with an axis for the columns of the matrix behind its samples."""
    kept = {"curve_speeds", "curve_torques", "converter", "locked"}
    beside: dict[str, Any] = {
        f.name: _beside(getattr(car, f.name)) for f in fields(car) if f.name not in kept
    }
    if car.converter is not None:
        turbine = _beside(car.converter.turbine_inertia)
        beside["converter"] = replace(car.converter, turbine_inertia=turbine)
    return replace(car, **beside)


def _pull_beside(pull: Pull) -> Pull:
    return replace(pull, **{f.name: _beside(getattr(pull, f.name)) for f in fields(pull)})
