"""The steady pull about which an axle may begin to hop, and what the tires answer to a change."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.dynamics.launch_car import LaunchCar
from axlewright.quantities.formula import Num

GRAVITY = 9.80665
MOST_SLIP = 0.98  # beyond, the road speed is no longer told from standing
LEAST_SPEED = 0.3  # m/s, below which the launch model takes the tire to be standing

_ROUNDS = 20  # each one at least halves the error of the load


@dataclass(frozen=True)
class Pull:
    """A steady pull, and how the tires answer small changes about it; SI, broadcasting."""

    wheel_speed: Num
    """rad/s."""
    load: Num
    """N on both rear tires."""
    thrust: Num
    """N of both rear tires."""
    input_torque: Num
    """N·m that engine or turbine must make to hold the pull."""
    front_held: Num
    """0 where this pull lifts the front wheels, else 1."""
    push_per_deflection: Num
    """N/m, thrust over tread deflection; negative beyond the peak of the slip curve."""
    push_per_load: Num
    """Thrust over load."""
    fading: Num
    """1/s, rate at which the tread forgets a deflection."""
    keep: Num
    """Share of a change of tread speed that deflects the tread: 1 - slip."""


def slip_curve(car: LaunchCar, slip: Num) -> tuple[Num, Num]:
    """Share of the peak push at a slip, and its slope over slip."""
    turned = car.tire_rise * slip
    curve = turned - car.tire_bend * (turned - np.arctan(turned))
    bend = car.tire_rise * (1.0 - car.tire_bend * (1.0 - 1.0 / (1.0 + turned * turned)))
    angle = car.tire_shape * np.arctan(curve)
    share: Num = np.sin(angle)
    slope: Num = np.cos(angle) * car.tire_shape * bend / (1.0 + curve * curve)
    return share, slope


def steady_pull(car: LaunchCar, slip: Num, speed: Num) -> Pull:
    """Give the pull of tires that drive at ``slip`` (0 to below 1) and road ``speed`` (m/s).

    The car speeds up while it pulls; speeds are frozen, their rates are not.  A pull that lifts
    the front wheels is taken with the whole weight on the rear.
    """
    _refuse_outside(slip, speed)
    share, slope = slip_curve(car, slip)
    weight = GRAVITY * car.vehicle_mass
    resting = weight * car.rear_share
    load: Num = resting
    for _ in range(_ROUNDS):
        thrust = load * share * _grip(car, load)[0]
        gain = (thrust - car.air_drag * speed * speed) / car.vehicle_mass
        twirl = gain / car.tire_radius / (1.0 - slip)
        torque = (
            car.tire_radius * (thrust + car.rolling_resistance * load)
            + 2.0 * car.wheel_inertia * twirl
        )
        push = thrust - car.axle_mass * gain
        moment = push * (body_height(car) - car.tire_radius) + torque
        load = np.minimum(resting + moment / car.wheelbase, weight)
    grip, grip_slope = _grip(car, load)
    spin = speed / (1.0 - slip) / car.tire_radius
    return Pull(
        wheel_speed=spin,
        load=load,
        thrust=thrust,
        input_torque=_input_torque(car, torque, twirl),
        front_held=np.where(load < weight, 1.0, 0.0),
        push_per_deflection=load * grip * slope / car.relaxation_length,
        push_per_load=share * (grip + load * grip_slope),
        fading=spin * car.tire_radius / car.relaxation_length,
        keep=1.0 - slip,
    )


def body_height(car: LaunchCar) -> Num:
    """Center of gravity of the body above ground: that of the car without its axle, m."""
    whole = car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius
    return whole / (car.vehicle_mass - car.axle_mass)


def upstream_inertia(car: LaunchCar) -> Num:
    """Inertia that turns with the gearbox input: the engine, or the turbine of a converter."""
    return car.engine_inertia if car.converter is None else car.converter.turbine_inertia


def _refuse_outside(slip: Num, speed: Num) -> None:
    if np.any(np.asarray(slip) < 0.0) or np.any(np.asarray(slip) > MOST_SLIP):
        raise ValueError(f"slip must lie between 0 and {MOST_SLIP}")
    if np.any(np.asarray(speed) < LEAST_SPEED):
        raise ValueError(f"speed must be at least {LEAST_SPEED} m/s")


def _grip(car: LaunchCar, load: Num) -> tuple[Num, Num]:
    """Grip of tires that carry ``load`` together, and its slope over that load."""
    kept = 1.0 - car.load_sensitivity * (0.5 * load - car.grip_reference_load)
    slope: Num = np.where(kept > 0.5, -0.5 * car.load_sensitivity * car.tire_grip, 0.0)
    grip: Num = car.tire_grip * np.maximum(kept, 0.5)
    return grip, slope


def _input_torque(car: LaunchCar, axle_torque: Num, wheel_gain: Num) -> Num:
    """Torque of engine or turbine behind an axle torque while the wheels gain speed."""
    pinion_gain = car.axle_ratio * wheel_gain
    shaft = axle_torque / (car.axle_ratio * car.axle_efficiency) + car.pinion_inertia * pinion_gain
    spun = car.input_inertia + upstream_inertia(car)
    return shaft / (car.gear_ratio * car.gearbox_efficiency) + spun * car.gear_ratio * pinion_gain
