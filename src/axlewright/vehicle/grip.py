"""Grip: how much push the rear axle can take before its tires let go.

Follows Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), chapter 2, and adds tires
whose grip falls with load, differentials that bias, and wheels that leave the ground.

With the front wheels up the rear tires carry the whole car and no more.  What they then push
rotates the car about its rear axle: a moment's load for the parts, but no steady launch.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.quantities.formula import Num, formula

_GILLESPIE = "Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 2"
_BALANCE = (
    f"{_GILLESPIE}, load transfer (from memory; re-derived), with grip falling with load, "
    "solved by 40 bisections (derived)"
)
_CEILING = {"cg_height": (0.1, 1.2), "tire_grip": (0.05, 4.0)}
_SOLVED = _CEILING | {"load_sensitivity": (0.0, 1e-4)}
_OUTSIDE = "no car or tire is known to be so; check the inputs"


class AxleGrip(NamedTuple):
    """A live axle at the limit of its tires, everything in newtons."""

    drive_force: Num  # push of both tires together
    rear_load: Num  # load on the rear tires with the car pulling
    front_load: Num  # what is left in front; zero means that the front wheels are in the air
    left_load: Num  # load on the tire that driveshaft torque presses down
    right_load: Num  # load on the tire that driveshaft torque lifts
    left_force: Num  # push of the left tire: the high side
    right_force: Num  # push of the right tire: the low side


@formula(
    "F_o",
    "force",
    source=f"{_GILLESPIE}, open differential (from memory; re-derived)",
    valid=_CEILING,
    outside="the front wheels are up or one rear wheel is; the closed form ends there",
)
def open_limit_force(
    tire_grip: Num,
    static_rear_load: Num,
    cg_height: Num,
    wheelbase: Num,
    tire_radius: Num,
    axle_ratio: Num,
    track: Num,
    front_roll_share: Num,
) -> Num:
    """Push at which an open rear axle spins its light wheel: grip alike at any load."""
    lengthwise = tire_grip * cg_height / wheelbase
    sideways = 2.0 * tire_grip * tire_radius / (axle_ratio * track) * front_roll_share
    return tire_grip * static_rear_load / (1.0 - lengthwise + sideways)


@formula(
    "F_l",
    "force",
    source=f"{_GILLESPIE}, locked differential (from memory; re-derived)",
    valid=_CEILING,
    outside="the front wheels are up; the closed form ends there",
)
def locked_limit_force(
    tire_grip: Num, static_rear_load: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Push at which a locked rear axle spins both wheels: grip alike at any load."""
    return tire_grip * static_rear_load / (1.0 - tire_grip * cg_height / wheelbase)


def _balance(
    vehicle_weight: Num,
    static_rear_load: Num,
    transfer_per_force: Num,
    roll_per_force: Num,
    tire_grip: Num,
    grip_reference_load: Num,
    load_sensitivity: Num,
    bias_ratio: Num,
    bias_force: Num,
) -> AxleGrip:
    """Find the push that the loads it causes can just carry.

    What the tires can push at a given push is bounded, so the crossing is always bracketed
    between nothing and the whole car on fresh tires, and halving cannot diverge.  The root goes
    through the balance once more at the end, so a NaN in any input reaches the answer.
    """
    fresh = 1.0 + load_sensitivity * grip_reference_load

    def loads(push: Num) -> tuple[Num, Num, Num]:
        rear = np.minimum(static_rear_load + push * transfer_per_force, vehicle_weight)
        moved = np.minimum(push * roll_per_force, 0.5 * rear)
        return rear, 0.5 * rear + moved, 0.5 * rear - moved

    def most(load: Num) -> Num:
        relative: Num = np.maximum(fresh - load_sensitivity * load, 0.5)
        return tire_grip * relative * load

    def sides(left_most: Num, right_most: Num) -> tuple[Num, Num]:
        low = np.minimum(left_most, right_most)
        return low, np.minimum(np.maximum(left_most, right_most), bias_ratio * low + bias_force)

    above = tire_grip * fresh * vehicle_weight + 0.0 * static_rear_load * transfer_per_force
    below = 0.0 * above
    for _ in range(40):
        middle = 0.5 * (below + above)
        _, left, right = loads(middle)
        low, high = sides(most(left), most(right))
        carried = low + high >= middle
        below, above = np.where(carried, middle, below), np.where(carried, above, middle)
    rear, left, right = loads(0.5 * (below + above))
    left_most, right_most = most(left), most(right)
    low, high = sides(left_most, right_most)
    left_force = np.where(left_most >= right_most, high, low)[()]
    return AxleGrip(
        low + high, rear, vehicle_weight - rear, left, right, left_force, low + high - left_force
    )


@formula("F_o", "force", source=_BALANCE, kind="solve", valid=_SOLVED, outside=_OUTSIDE)
def open_axle_grip(
    vehicle_weight: Num,
    static_rear_load: Num,
    cg_height: Num,
    wheelbase: Num,
    tire_radius: Num,
    axle_ratio: Num,
    track: Num,
    front_roll_share: Num,
    tire_grip: Num,
    grip_reference_load: Num,
    load_sensitivity: Num,
) -> AxleGrip:
    """Live axle with an open differential at its limit: the light wheel sets both."""
    return _balance(
        vehicle_weight,
        static_rear_load,
        cg_height / wheelbase,
        tire_radius * front_roll_share / (axle_ratio * track),
        tire_grip,
        grip_reference_load,
        load_sensitivity,
        1.0,
        0.0,
    )


@formula(
    "F_b",
    "force",
    source=_BALANCE,
    kind="solve",
    valid=_SOLVED | {"bias_ratio": (1.0, 6.0)},
    outside="no gear or clutch differential biases so; take it as locked or open",
)
def biasing_axle_grip(
    vehicle_weight: Num,
    static_rear_load: Num,
    cg_height: Num,
    wheelbase: Num,
    tire_radius: Num,
    axle_ratio: Num,
    track: Num,
    front_roll_share: Num,
    tire_grip: Num,
    grip_reference_load: Num,
    load_sensitivity: Num,
    bias_ratio: Num,
    differential_preload: Num,
) -> AxleGrip:
    """Live axle with a biasing differential at its limit.

    The high side gets at most the bias ratio times the low side, plus the preload.
    """
    return _balance(
        vehicle_weight,
        static_rear_load,
        cg_height / wheelbase,
        tire_radius * front_roll_share / (axle_ratio * track),
        tire_grip,
        grip_reference_load,
        load_sensitivity,
        bias_ratio,
        differential_preload / tire_radius,
    )


@formula("F_l", "force", source=_BALANCE, kind="solve", valid=_SOLVED, outside=_OUTSIDE)
def locked_axle_grip(
    vehicle_weight: Num,
    static_rear_load: Num,
    cg_height: Num,
    wheelbase: Num,
    tire_radius: Num,
    axle_ratio: Num,
    track: Num,
    front_roll_share: Num,
    tire_grip: Num,
    grip_reference_load: Num,
    load_sensitivity: Num,
) -> AxleGrip:
    """Live axle with a spool, a locked locker or a welded differential: each tire gives its all."""
    return _balance(
        vehicle_weight,
        static_rear_load,
        cg_height / wheelbase,
        tire_radius * front_roll_share / (axle_ratio * track),
        tire_grip,
        grip_reference_load,
        load_sensitivity,
        1.0,
        np.inf,
    )


@formula("T_r", "torque", source="force times radius (closed form)")
def ring_torque(drive_force: Num, tire_radius: Num) -> Num:
    """Torque at the ring gear for a push at the tires, both wheels together."""
    return drive_force * tire_radius


@formula(
    "T_d",
    "torque",
    source="power through a gear pair with loss (closed form)",
    valid={"axle_efficiency": (0.85, 1.0)},
    outside="no axle in order loses so much; check its temperature",
)
def driveshaft_torque(ring_torque: Num, axle_ratio: Num, axle_efficiency: Num) -> Num:
    """Torque in the driveshaft that makes a torque at the ring gear.

    The axle's own loss comes on top: the driveshaft sees more than the ratio alone says.
    """
    return ring_torque / (axle_ratio * axle_efficiency)
