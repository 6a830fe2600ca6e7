"""The car in balance at the start of a launch, and how hard its tires push.

A march that starts with shafts unwound although the engine already pulls begins with a blow of its
own making.  So a case that starts under way starts in the steady state that goes with its pull.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from axlewright.quantities.formula import Num

GRAVITY = 9.80665
_HALVINGS = 40
_REPEATS = 12


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
    return halved(lambda s: _turned(car, s) < 0.5 * np.pi, 0.0 * car.tire_rise, 1.0)


def _turned(car: LaunchCar, slip: Num) -> Num:
    turn = car.tire_rise * slip
    result: Num = car.tire_shape * np.arctan(turn - car.tire_bend * (turn - np.arctan(turn)))
    return result


def slip_for(car: LaunchCar, push: Num, grip: Num = 1.0) -> Num:
    """Slip, up to the peak, at which both tires push so much."""
    return halved(lambda s: tire_push(car, s, grip) < push, 0.0 * push, peak_slip(car))


def halved(below: Callable[[Any], Any], low: Num, high: Num) -> Num:
    """Place up to which ``below`` holds, by halving."""
    low, high = np.broadcast_arrays(np.asarray(low, dtype=np.float64), high)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        yes = below(middle)
        low, high = np.where(yes, middle, low), np.where(yes, high, middle)
    result: Num = (0.5 * (low + high))[()]
    return result
