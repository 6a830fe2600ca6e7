"""Load transfer: what each end and each side carries while the car pulls.

Load moves to the rear as the car pulls, and a live axle also rolls against its driveshaft torque,
which takes load off one wheel (the right one, with the usual engine rotation) and puts it on the
other.  Follows Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), chapter 2.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_GILLESPIE = "Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 2"
_CEILING = {"cg_height": (0.1, 1.2)}


@formula("W", "force", source="weight, standard gravity 9.80665 m/s² (closed form)")
def vehicle_weight(vehicle_mass: Num) -> Num:
    """Weight of the car as launched, driver and fuel in it."""
    return 9.80665 * vehicle_mass


@formula("W_r", "force", source="definition of the rear share (closed form)")
def static_rear_load(vehicle_weight: Num, rear_weight_share: Num) -> Num:
    """Weight on the rear tires with the car at rest."""
    return vehicle_weight * rear_weight_share


@formula(
    "κ_f",
    "ratio",
    source=f"{_GILLESPIE} (from memory; re-derived)",
)
def front_roll_share(front_roll_stiffness: Num, rear_roll_stiffness: Num) -> Num:
    """Share of the car's roll stiffness that sits in front.

    It is the part of the driveshaft torque that the rear suspension does not react itself; take
    zero for independent rear suspension, where the torque never reaches the tires.
    """
    return front_roll_stiffness / (front_roll_stiffness + rear_roll_stiffness)


@formula(
    "N_r",
    "force",
    source=f"{_GILLESPIE} (from memory; re-derived)",
    valid=_CEILING,
    outside="no car carries its mass so low or so high",
)
def rear_load(
    static_rear_load: Num, drive_force: Num, cg_height: Num, wheelbase: Num, vehicle_weight: Num
) -> Num:
    """Load on the rear tires while pulling; never more than the whole car."""
    result: Num = np.minimum(static_rear_load + drive_force * cg_height / wheelbase, vehicle_weight)
    return result


@formula("ΔN", "force", source=f"{_GILLESPIE} (from memory; re-derived)")
def side_transfer(
    drive_force: Num, tire_radius: Num, axle_ratio: Num, track: Num, front_roll_share: Num
) -> Num:
    """Load that driveshaft torque moves from the right rear tire to the left one.

    A stiff front makes it worse and a rear anti-roll bar cures it: what the rear springs do not
    react with roll, the front springs do, and the rear tires carry the difference.
    """
    return drive_force * tire_radius / (axle_ratio * track) * front_roll_share


@formula("F_w", "force", source="moments about the rear contact (closed form)")
def wheels_up_force(
    vehicle_weight: Num, static_rear_load: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Push at which the front wheels leave the ground."""
    return (vehicle_weight - static_rear_load) * wheelbase / cg_height


@formula("a_w", "acceleration", source="moments about the rear contact (closed form)")
def wheels_up_acceleration(cg_to_rear_axle: Num, cg_height: Num) -> Num:
    """Pull at which the front wheels leave the ground.

    In g it is the distance of the mass ahead of the rear axle over its height.
    """
    return 9.80665 * cg_to_rear_axle / cg_height


@formula("μ", "ratio", source=f"{_GILLESPIE}, locked axle solved for grip (derived)")
def grip_from_acceleration(
    launch_acceleration: Num,
    vehicle_weight: Num,
    static_rear_load: Num,
    cg_height: Num,
    wheelbase: Num,
) -> Num:
    """Grip that a measured launch proves, at the least: a better number than any table."""
    push = vehicle_weight * launch_acceleration / 9.80665
    loaded = static_rear_load + push * cg_height / wheelbase
    result: Num = push / np.minimum(loaded, vehicle_weight)
    return result
