"""Links in roll: roll center, roll steer, and driveshaft torque that unequal links cancel.

The roll center is the height at which a sideways force on the axle does not roll the body.
Follows the constructions of Milliken & Milliken, Race Car Vehicle Dynamics (SAE R-146, 1995),
chapter 17.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_MILLIKEN = "Milliken & Milliken, Race Car Vehicle Dynamics (SAE R-146, 1995), ch. 17 (from memory)"


@formula("z_r", "length", source="sum of two heights (closed form)")
def roll_center_height(roll_center_above_axle: Num, tire_radius: Num) -> Num:
    """Height of the roll center above ground."""
    return roll_center_above_axle + tire_radius


@formula("z_r", "length", source=f"{_MILLIKEN}; derived from the motion in roll")
def rod_roll_center(
    rod_body_height: Num, rod_axle_height: Num, rod_body_left: Num, rod_axle_left: Num
) -> Num:
    """Roll center of a lateral rod: where it crosses the center plane of the car.

    Other links must stand level and parallel in plan; else they shift it.
    """
    slope = (rod_axle_height - rod_body_height) / (rod_axle_left - rod_body_left)
    return rod_body_height - rod_body_left * slope


@formula("x_a", "length", source="straight line in plan (closed form)")
def apex_ahead(
    link_front_ahead: Num, link_rear_ahead: Num, link_front_left: Num, link_rear_left: Num
) -> Num:
    """Where a slanted pair of links meets in plan, ahead of the axle; negative behind it."""
    run = link_front_ahead - link_rear_ahead
    return link_rear_ahead - link_rear_left * run / (link_front_left - link_rear_left)


@formula("z_r", "length", source=f"{_MILLIKEN}; derived from the motion in roll")
def apex_roll_center(apex_height: Num, apex_ahead: Num, roll_axis_slope: Num) -> Num:
    """Roll center of triangulated links: the roll axis runs through the apex.

    With the other pair parallel in plan the axis has the slope of that pair, seen from the side;
    with both pairs slanted it runs through both apexes.
    """
    return apex_height - apex_ahead * roll_axis_slope


@formula("m_r", "ratio", source="straight line (closed form)")
def roll_axis_between(
    upper_apex_height: Num, lower_apex_height: Num, upper_apex_ahead: Num, lower_apex_ahead: Num
) -> Num:
    """Slope of the roll axis through both apexes of links that are all slanted."""
    return (upper_apex_height - lower_apex_height) / (upper_apex_ahead - lower_apex_ahead)


@formula(
    "g_r",
    "ratio",
    source="virtual work of thrust and driveshaft torque in roll (derived)",
)
def roll_torque_left(roll_thrust_travel: Num, tire_radius: Num, axle_ratio: Num) -> Num:
    """Share of the driveshaft torque left to roll the axle when unequal links cancel some of it.

    Thrust pushes along the way by which the contact moves forward in roll; the driveshaft torque,
    thrust times tire radius over axle ratio, turns the other way.
    """
    return 1.0 - axle_ratio * roll_thrust_travel / tire_radius
