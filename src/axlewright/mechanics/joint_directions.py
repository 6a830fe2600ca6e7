"""Working angles in three dimensions, from the slopes of shafts as seen from the side and above.

A shaft that slopes by s from the side and p from above points along (1, tan p, tan s).  Slopes are
positive when the front end is the higher one, or the one further left.  Everything here is the
geometry of such directions: closed form, exact at any angle.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_VECTORS = "angle between two directions in space, closed form"
_SUM = "second harmonics of Hooke's joints added as vectors, small angles (derived)"
_SMALL = {
    "first_joint_angle": (0.0, 0.2618),
    "second_joint_angle": (0.0, 0.2618),
    "third_joint_angle": (0.0, 0.2618),
}
_LESS_EXACT = "above 15 degrees the joints cancel less exactly than small angles do"


@formula("s", "angle", source="slope of a straight line, closed form")
def slope_between(end_offset: Num, end_run: Num) -> Num:
    """Slope of a shaft from how far its front end is offset and how long it runs along the car."""
    result: Num = np.arctan2(end_offset, end_run)
    return result


@formula("β", "angle", source=_VECTORS)
def angle_between(
    front_side_slope: Num, front_plan_slope: Num, rear_side_slope: Num, rear_plan_slope: Num
) -> Num:
    """True working angle of a joint from the side and plan slopes of the two parts it joins.

    By the arctangent of cross over dot product: the arccosine loses its digits just where the
    small angles of a driveshaft lie.
    """
    up_1 = np.tan(front_side_slope)
    left_1 = np.tan(front_plan_slope)
    up_2 = np.tan(rear_side_slope)
    left_2 = np.tan(rear_plan_slope)
    tilt = left_1 * up_2 - up_1 * left_2
    across = np.sqrt(tilt * tilt + (up_1 - up_2) ** 2 + (left_2 - left_1) ** 2)
    result: Num = np.arctan2(across, 1.0 + left_1 * left_2 + up_1 * up_2)
    return result


@formula(
    "β",
    "angle",
    source="cosine rule of a right-angled spherical triangle, cos β = cos a·cos b, closed form",
)
def combined_angle(side_view_angle: Num, plan_view_angle: Num) -> Num:
    """True angle from two angles measured one after the other, each in the plane it lies in.

    The shop's way to add side and plan angles; below 10 degrees it agrees with the angle from two
    views to a hundredth of a degree or so.
    """
    result: Num = 2.0 * np.arcsin(
        np.sqrt(
            np.sin(0.5 * side_view_angle) ** 2
            + np.cos(side_view_angle) * np.sin(0.5 * plan_view_angle) ** 2
        )
    )
    return result


@formula("φ_p", "angle", source="angle between two planes through one line, closed form")
def plane_twist(
    front_side_slope: Num,
    front_plan_slope: Num,
    shaft_side_slope: Num,
    shaft_plan_slope: Num,
    rear_side_slope: Num,
    rear_plan_slope: Num,
) -> Num:
    """Twist about a shaft between the planes in which its front and its rear joint bend.

    Zero when both ends bend to the same side, half a turn when the ends are parallel; either way
    the joints cancel.  A joint that stands straight has no plane and does not shake either.
    """
    up_1 = np.tan(front_side_slope) - np.tan(shaft_side_slope)
    left_1 = np.tan(front_plan_slope) - np.tan(shaft_plan_slope)
    up_2 = np.tan(shaft_side_slope) - np.tan(rear_side_slope)
    left_2 = np.tan(shaft_plan_slope) - np.tan(rear_plan_slope)
    up = np.tan(shaft_side_slope)
    left = np.tan(shaft_plan_slope)
    size = np.sqrt(1.0 + up * up + left * left)
    dot = left_1 * left_2 + up_1 * up_2 + (left_1 * up - up_1 * left) * (left_2 * up - up_2 * left)
    turned = (left_1 * up_2 - up_1 * left_2) * size
    result: Num = np.arctan2(turned, dot)
    return result


@formula("φ_y", "angle", source="difference of two twists about one shaft, definition")
def joint_phase(yoke_twist: Num, plane_twist: Num) -> Num:
    """Phase between two joints: twist of the yokes less twist of the planes they bend in."""
    return yoke_twist - plane_twist


@formula("β_eq", "angle", source=_SUM, valid=_SMALL, outside=_LESS_EXACT)
def equivalent_angle_three(
    first_joint_angle: Num,
    second_joint_angle: Num,
    third_joint_angle: Num,
    yoke_phase_angle: Num,
    next_phase_angle: Num,
) -> Num:
    """Single joint angle that shakes like the three joints of a two-piece shaft.

    The first phase lies between joints one and two, the next between joints two and three; with
    both zero the middle joint works against the two outer ones.
    """
    one = first_joint_angle * first_joint_angle
    two = second_joint_angle * second_joint_angle
    three = third_joint_angle * third_joint_angle
    both = yoke_phase_angle + next_phase_angle
    along = one - two * np.cos(2.0 * yoke_phase_angle) + three * np.cos(2.0 * both)
    across = three * np.sin(2.0 * both) - two * np.sin(2.0 * yoke_phase_angle)
    result: Num = (along * along + across * across) ** 0.25
    return result


@formula(
    "β_lim",
    "angle",
    source="17000 degrees times rpm: fit to the driveline shops' table of angle against speed "
    "(derived); it is a single joint's limit of about 1,000 rad/s²",
    valid={"speed": (1500.0 * np.pi / 30.0, 7000.0 * np.pi / 30.0)},
    outside="the table runs from 1,500 to 5,000 rpm; beyond 7,000 nobody vouches for the rule",
)
def shop_angle_limit(speed: Num) -> Num:
    """Steepest single joint by the shop's rule of thumb: 17,000 over rpm, in degrees."""
    return 17000.0 * np.pi / 180.0 * np.pi / 30.0 / speed


@formula(
    "β_lim",
    "angle",
    source="table of two driveline shops, steepest single joint by shaft speed (as reproduced in "
    "a driveline shop's guide); straight lines between",
    kind="lookup",
    valid={"speed": (1500.0 * np.pi / 30.0, 5000.0 * np.pi / 30.0)},
    outside="the table ends there; its nearest value is used",
)
def shop_angle_table(speed: Num) -> Num:
    """Steepest single joint by the driveline shops' table.

    It limits how one joint winds the shaft, not what two joints leave over for the pinion.
    """
    rpm = np.array([1500.0, 2000.0, 2500.0, 3000.0, 3500.0, 4000.0, 4500.0, 5000.0])
    degrees = np.array([11.5, 8.67, 7.0, 5.83, 5.0, 4.25, 3.67, 3.25])
    result: Num = np.interp(speed, rpm * np.pi / 30.0, degrees * np.pi / 180.0)
    return result


@formula(
    "β_lim",
    "angle",
    source="driveline shops' rule, degrees = inches of shaft over 5, common practice, no source",
)
def short_shaft_angle_parallel(length: Num) -> Num:
    """Steepest angle of a short shaft between parallel ends."""
    return length / 0.0254 / 5.0 * np.pi / 180.0


@formula(
    "β_lim",
    "angle",
    source="driveline shops' rule, degrees = inches of shaft over 10, common practice, no source",
)
def short_shaft_angle_intersecting(length: Num) -> Num:
    """Steepest angle of a short shaft whose ends point at each other."""
    return length / 0.0254 / 10.0 * np.pi / 180.0


@formula("u_α", "ratio", source="ratio of a shake to its limit, definition")
def share_of_shake_limit(shaft_acceleration: Num, twist_acceleration_limit: Num) -> Num:
    """How much of an allowed angular acceleration is used: above one is too much."""
    return shaft_acceleration / twist_acceleration_limit
