"""Length of a driveshaft from joint center to joint center, and what is left to slip at its ends.

Points are in the car's axes: forward, left, up.  Every length is at a stated height of the axle:
at ride height the weight stands on the tires, or the axle on stands at that very height.  A shaft
measured at full droop comes out too long.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SLIP = "lengths along one shaft added up, closed form"


@formula("L_j", "length", source="distance of two points in space, closed form")
def joint_distance(
    front_joint_x: Num,
    front_joint_y: Num,
    front_joint_z: Num,
    rear_joint_x: Num,
    rear_joint_y: Num,
    rear_joint_z: Num,
) -> Num:
    """Joint center to joint center; with the rear one moved through the travel, its whole range."""
    x = front_joint_x - rear_joint_x
    y = front_joint_y - rear_joint_y
    z = front_joint_z - rear_joint_z
    result: Num = np.sqrt(x * x + y * y + z * z)
    return result


@formula("g", "length", source=_SLIP)
def free_to_bottom(ride_gap: Num, ride_distance: Num, joint_distance: Num) -> Num:
    """How far the slip yoke may still go in before it bottoms; below zero it has bottomed."""
    return ride_gap + joint_distance - ride_distance


@formula("e_s", "length", source=_SLIP)
def engagement(
    bottomed_engagement: Num, ride_gap: Num, ride_distance: Num, joint_distance: Num
) -> Num:
    """Length of spline still engaged; below zero the yoke has come out."""
    return bottomed_engagement - (ride_gap + joint_distance - ride_distance)


@formula(
    "e_min",
    "length",
    source="twice the spline's diameter and never under 1.5 in, common practice, no source",
)
def least_engagement(slip_spline_diameter: Num) -> Num:
    """Least spline that should stay engaged with the yoke pulled out as far as it goes."""
    result: Num = np.maximum(2.0 * slip_spline_diameter, 1.5 * 0.0254)
    return result


@formula("L_j", "length", source=_SLIP)
def length_from_seal(seal_to_rear_center: Num, bottomed_reach: Num, ride_gap: Num) -> Num:
    """Joint center to joint center from the seal-to-rear-center measure with a slip yoke.

    The reach is measured on the yoke pushed in to its bottom and marked; the gap is what it is
    then pulled out: 3/4 to 1 in at ride height, more on long travel (common practice).
    """
    return seal_to_rear_center - bottomed_reach - ride_gap


@formula("L_j", "length", source=_SLIP)
def length_from_flanges(flange_distance: Num, front_yoke_height: Num, rear_yoke_height: Num) -> Num:
    """Joint center to joint center from flange face to flange face."""
    return flange_distance - front_yoke_height - rear_yoke_height


@formula("l_sr", "length", source=_SLIP)
def seal_length_of(joint_distance: Num, bottomed_reach: Num, ride_gap: Num) -> Num:
    """Seal to rear joint center that goes with a joint-center length: what to check on the car."""
    return joint_distance + bottomed_reach + ride_gap


@formula("l_t", "length", source=_SLIP)
def tube_cut_length(
    joint_distance: Num, front_yoke_height: Num, rear_yoke_height: Num, tube_seat: Num
) -> Num:
    """Length to cut the bare tube to, square at both ends.

    Yoke heights run from joint center to the end that goes into the tube; what goes in, the seat,
    is gained back at both ends.
    """
    return joint_distance - front_yoke_height - rear_yoke_height + 2.0 * tube_seat
