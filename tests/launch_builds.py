"""Random cars and the named ways to abuse them, for march and reference alike; seeded."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from scipy.optimize import brentq

from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents, Ramp
from launch_plain import flat, plain_car, plain_events

CASES = [
    *("clutch dump", "two-step", "clutch slip", "foot-brake release", "trans-brake release"),
    *("neutral drop", "water to dry", "shift", "lift-off and coast", "landing"),
]
AUTOMATIC = {"foot-brake release", "trans-brake release", "neutral drop"}
"""Cases that only an automatic knows; ``EITHER`` happen to both, the rest to a foot clutch."""
EITHER = {"water to dry", "lift-off and coast", "landing"}
DIFFERENTIALS = ("locked", "open", "limited slip")


class Build(NamedTuple):
    case: str
    transmission: str
    differential: str
    car: LaunchCar
    events: LaunchEvents


def random_car(rng: np.random.Generator, automatic: bool, differential: str) -> LaunchCar:
    """A car somewhere between a tired sedan and a drag car."""

    def about(middle: float, spread: float = 1.5) -> float:
        return float(middle * spread ** rng.uniform(-1.0, 1.0))

    torque, radius = about(500.0, 1.6), float(rng.uniform(0.30, 0.37))
    shape = np.array([0.6, 0.85, 1.0, 0.95, 0.7])
    left = about(14e3, 1.6)
    ahead, above = float(rng.uniform(0.8, 3.0)), float(rng.uniform(0.1, 0.5))
    made = None
    if automatic:
        made = LaunchConverter(
            rated_stall_speed=float(rng.uniform(200.0, 420.0)),
            rated_stall_torque=torque * float(rng.uniform(0.8, 1.1)),
            stall_torque_ratio=float(rng.uniform(1.6, 2.4)),
            turbine_inertia=about(0.04),
        )
    preload = {"locked": 0.0, "open": 0.0, "limited slip": about(80.0, 2.0)}
    bias = {"locked": 1.0, "open": float(rng.uniform(1.05, 1.3)), "limited slip": about(2.5, 1.4)}
    return plain_car(
        curve_torques=list(torque * shape),
        engine_inertia=about(0.25),
        motored_torque=about(50.0),
        converter=made,
        clutch_capacity=torque * float(rng.uniform(1.2, 2.5)) * (2.2 if automatic else 1.0),
        slide_ratio=float(rng.uniform(0.75, 1.0)),
        input_inertia=about(0.03),
        gear_ratio=float(rng.uniform(2.2, 3.4)),
        driveshaft_stiffness=about(20e3, 2.0),
        driveshaft_damping_time=about(2e-4),
        driveshaft_half_gap=float(rng.uniform(0.005, 0.06)),
        pinion_inertia=about(0.012),
        axle_ratio=float(rng.uniform(3.0, 4.6)),
        left_shaft_stiffness=left,
        right_shaft_stiffness=left * float(rng.uniform(0.8, 1.25)),
        shaft_damping_time=about(5e-4),
        shaft_half_gap=float(rng.uniform(0.003, 0.03)),
        bias_ratio=bias[differential],
        differential_preload=preload[differential],
        locked=differential == "locked",
        wheel_inertia=about(1.5),
        tire_radius=radius,
        tire_grip=float(rng.uniform(0.7, 2.2)),
        tire_rise=about(12.0),
        relaxation_length=about(0.15),
        vehicle_mass=about(1600.0, 1.25),
        rear_share=float(rng.uniform(0.42, 0.52)),
        cg_height=float(rng.uniform(0.45, 0.6)),
        pitch_inertia=about(2400.0, 1.3),
        front_stiffness=about(45e3),
        rear_stiffness=about(45e3),
        rear_damping=about(3.5e3),
        roll_stiffness=about(60e3),
        rear_roll_share=float(rng.uniform(0.1, 0.5)),
        roll_torque_share=float(rng.choice([1.0, 0.6])),
        thrust_slope=(above - radius) / ahead,
        reaction_arm=1.0 / ahead,
        mount_height=float(rng.uniform(-0.1, 0.1)),
        mount_stiffness=about(2e6),
        windup_stiffness=about(18e3, 2.0),
        windup_damping=about(60.0),
        housing_inertia=about(3.0),
    )


def steady_slip(car: LaunchCar, push: float) -> float:
    """Slip at which the rear tires push so much in a steady pull, both carrying alike."""
    body = car.vehicle_mass - car.axle_mass
    high = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    arm = body / car.vehicle_mass * (high - car.tire_radius) + car.tire_radius
    load = car.vehicle_mass * 9.80665 * car.rear_share + push * arm / car.wheelbase
    faded = max(1.0 - car.load_sensitivity * (0.5 * load - car.grip_reference_load), 0.5)
    share = push / (car.tire_grip * faded * load)

    def short(slip: float) -> float:
        turn = car.tire_rise * slip
        bent = turn - car.tire_bend * (turn - math.atan(turn))
        return math.sin(car.tire_shape * math.atan(bent)) - share

    return float(brentq(short, 0.0, 1.0 / car.tire_rise, xtol=1e-15))


def random_events(
    rng: np.random.Generator, case: str, car: LaunchCar, duration: float
) -> LaunchEvents:
    """One of the named cases, with its numbers drawn."""

    def between(low: float, high: float) -> float:
        return float(rng.uniform(low, high))

    revs, start = between(300.0, 600.0), between(0.01, 0.05)
    rolling = between(4.0, 10.0)
    together = car.gear_ratio * car.axle_ratio / car.tire_radius
    turning = rolling * together
    shut = flat(1.0)
    torque = float(np.max(car.curve_torques))
    stop = 3.0 * torque * car.gear_ratio * car.axle_ratio
    slow = rolling / 2.0
    match case:
        case "clutch dump":
            changes = {"engine_speed": revs, "clamp": Ramp(0.0, 1.0, start, between(0.0, 0.06))}
        case "two-step":
            # Held at part throttle by the limiter, opened as the foot comes off the pedal.
            changes = {
                "engine_speed": revs,
                "throttle": Ramp(0.1, 1.0, start, 0.03),
                "clamp": Ramp(0.0, 1.0, start, between(0.02, 0.1)),
            }
        case "clutch slip":
            changes = {
                "engine_speed": revs,
                "throttle": Ramp(0.4, 1.0, 0.1, 0.1),
                "clamp": Ramp(0.1, 1.0, start, between(0.2, 0.4)),
            }
        case "foot-brake release":
            changes = {
                "engine_speed": between(150.0, 220.0),
                "throttle": Ramp(0.2, 1.0, 0.02, 0.08),
                "clamp": shut,
                "brakes": Ramp(stop, 0.0, 0.15, between(0.01, 0.06)),
            }
        case "trans-brake release":
            changes = {
                "engine_speed": between(250.0, 350.0),
                "clamp": shut,
                "hold": Ramp(8.0 * torque, 0.0, start, between(0.005, 0.03)),
            }
        case "neutral drop":
            changes = {
                "engine_speed": revs,
                "input_speed": revs * between(0.9, 0.99),
                "throttle": flat(0.6),
                "clamp": Ramp(0.0, 1.0, start, between(0.05, 0.2)),
            }
        case "water to dry":
            changes = {
                "road_speed": slow,
                "wheel_slip": 0.5,
                "engine_speed": slow * together / 0.5,
                "input_speed": slow * together / 0.5,
                "clamp": shut,
                "grip": Ramp(between(0.2, 0.5), 1.0, 0.05, between(0.0, 0.05)),
            }
        case "shift":
            changes = {
                "road_speed": rolling,
                "engine_speed": turning * between(1.3, 1.7),
                "clamp": Ramp(0.0, 1.0, start, between(0.0, 0.05)),
            }
        case "lift-off and coast":
            # Already pulling, with all of it wound up.
            weight = car.vehicle_mass * 9.80665 * car.rear_share
            hold = 0.6 * car.tire_grip * weight * car.tire_radius
            pull = min(0.6 * torque * car.gear_ratio * car.axle_ratio, hold)
            slip = steady_slip(car, pull / car.tire_radius)
            changes = {
                "road_speed": rolling,
                "engine_speed": turning / (1.0 - slip),
                "input_speed": turning / (1.0 - slip),
                "wheel_slip": slip,
                "throttle": Ramp(1.0, 0.0, 0.1, between(0.01, 0.05)),
                "second_throttle": Ramp(0.0, 1.0, 0.25, 0.05),
                "clamp": shut,
                "axle_torque": pull,
            }
        case "landing":
            changes = {
                "road_speed": rolling,
                "wheel_slip": 0.3,
                "engine_speed": turning / 0.7,
                "input_speed": turning / 0.7,
                "clamp": shut,
                "heave": between(0.03, 0.12),
                "pitch": between(-0.02, 0.06),
            }
        case _:
            raise ValueError(case)
    return plain_events(duration=duration, **changes)


def builds(count: int, seed: int, duration: float = 0.4) -> list[Build]:
    """Cases in turn, transmissions and differentials spread over them."""
    rng = np.random.default_rng(seed)
    made = []
    for i in range(count):
        case, round_ = CASES[i % len(CASES)], i // len(CASES)
        automatic = case in AUTOMATIC or (case in EITHER and (i + round_) % 2 == 0)
        differential = DIFFERENTIALS[(i + round_) % 3]
        car = random_car(rng, automatic, differential)
        events = random_events(rng, case, car, duration)
        made.append(Build(case, "automatic" if automatic else "manual", differential, car, events))
    return made
