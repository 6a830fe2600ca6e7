"""Universal joints: two yokes and a cross, running at an angle.

The driven yoke of a single joint speeds up and slows down twice a turn; two joints cancel each
other only as far as their angles and phase agree.  The motion follows Hooke's relation as in
Carvill, *Mechanical Engineer's Data Handbook*, section 2.4.3.  What the cross and its needles
stand is in :mod:`axlewright.mechanics.joint_crosses`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_HOOKE = "Hooke's joint, Carvill, Mechanical Engineer's Data Handbook, sec. 2.4.3"
_RIGHT_ANGLE = np.pi / 2.0
_WORKING = {"joint_angle": (0.0, np.pi / 4.0)}
_TOO_STEEP = "steeper than 45 degrees a cross joint does not run"


@formula("i_max", "ratio", source=_HOOKE, valid=_WORKING, outside=_TOO_STEEP)
def speed_ratio_max(joint_angle: Num) -> Num:
    """Fastest that the driven yoke turns, as a multiple of the driving yoke."""
    return 1.0 / np.cos(joint_angle)


@formula("i_min", "ratio", source=_HOOKE, valid=_WORKING, outside=_TOO_STEEP)
def speed_ratio_min(joint_angle: Num) -> Num:
    """Slowest that the driven yoke turns, as a multiple of the driving yoke."""
    result: Num = np.cos(joint_angle)
    return result


@formula(
    "U",
    "ratio",
    source=f"{_HOOKE}, largest less smallest speed ratio",
    valid=_WORKING,
    outside=_TOO_STEEP,
)
def irregularity(joint_angle: Num) -> Num:
    """How far the driven yoke's speed swings within a turn, from slowest to fastest."""
    result: Num = np.tan(joint_angle) * np.sin(joint_angle)
    return result


@formula("ε", "angle", source=f"{_HOOKE}, closed form", valid=_WORKING, outside=_TOO_STEEP)
def phase_error(joint_angle: Num) -> Num:
    """Most that the driven yoke runs ahead of or behind the driving yoke."""
    half = np.tan(joint_angle / 2.0)
    result: Num = np.arcsin(half * half)
    return result


@formula(
    "α_p",
    "angular acceleration",
    source=f"{_HOOKE}, differentiated; greatest value in closed form",
    valid=_WORKING,
    outside=_TOO_STEEP,
)
def peak_acceleration(speed: Num, joint_angle: Num) -> Num:
    """Peak angular acceleration of the driven yoke, at steady speed of the driving one.

    Exact at any angle.  The shaft between two joints is shaken by this at twice shaft speed
    whatever the second joint cancels.
    """
    swing = np.sin(joint_angle) * np.sin(joint_angle)
    where = 4.0 * swing / (2.0 - swing + np.sqrt((2.0 - swing) ** 2 + 8.0 * swing * swing))
    slowing = 1.0 - 0.5 * swing * (1.0 + where)
    result: Num = (
        speed * speed * np.cos(joint_angle) * swing * np.sqrt(1.0 - where * where) / slowing**2
    )
    return result


@formula(
    "α_p",
    "angular acceleration",
    source=f"{_HOOKE}, limit of small angles (derived)",
    valid={"joint_angle": (0.0, 0.1745)},
    outside="above 10 degrees the square of the angle misses the peak by more than 0.6 percent",
)
def peak_acceleration_small_angle(speed: Num, joint_angle: Num) -> Num:
    """Peak angular acceleration by the shop rule: angle squared times speed squared."""
    return joint_angle * joint_angle * speed * speed


@formula(
    "β_lim",
    "angle",
    source=f"{_HOOKE}, limit of small angles solved for the angle (derived)",
)
def angle_for_acceleration(twist_acceleration_limit: Num, speed: Num) -> Num:
    """Joint angle that shakes with just the allowed angular acceleration at a speed.

    Limits quoted for what two joints leave over run from 300 rad/s² (quiet car) to 400 (usual),
    and about 1,000 rad/s² for the single joint that winds the shaft itself.
    """
    result: Num = np.sqrt(twist_acceleration_limit) / speed
    return result


@formula(
    "β_eq",
    "angle",
    source="second harmonics of two Hooke's joints subtracted, small angles (derived)",
    valid={"first_joint_angle": (0.0, 0.2618), "second_joint_angle": (0.0, 0.2618)},
    outside="above 15 degrees the joints cancel less exactly than small angles do",
)
def equivalent_angle(first_joint_angle: Num, second_joint_angle: Num) -> Num:
    """Single joint angle that shakes like two joints with their yokes in line."""
    result: Num = np.sqrt(
        np.abs(first_joint_angle * first_joint_angle - second_joint_angle * second_joint_angle)
    )
    return result


@formula(
    "β_eq",
    "angle",
    source="second harmonics of two Hooke's joints added as vectors, small angles (derived)",
    valid={"first_joint_angle": (0.0, 0.2618), "second_joint_angle": (0.0, 0.2618)},
    outside="above 15 degrees the joints cancel less exactly than small angles do",
)
def equivalent_angle_phased(
    first_joint_angle: Num, second_joint_angle: Num, yoke_phase_angle: Num
) -> Num:
    """Single joint angle that shakes like two joints whose yokes are out of line.

    The phase is the twist between the yokes of the shaft less the twist between the planes in
    which the two joints bend; at a right angle the joints add instead of cancelling.
    """
    one = first_joint_angle * first_joint_angle
    two = second_joint_angle * second_joint_angle
    left = np.abs(one * one + two * two - 2.0 * one * two * np.cos(2.0 * yoke_phase_angle))
    result: Num = left**0.25
    return result


@formula(
    "β_2",
    "angle",
    source="equivalent angle of two joints solved for the second (derived); agrees with the "
    "angle table that cites SAE AE-7 sec. 3.1.1 at 400 rad/s²",
)
def second_angle_allowed(first_joint_angle: Num, twist_acceleration_limit: Num, speed: Num) -> Num:
    """Steepest second joint that still leaves no more shake than allowed."""
    result: Num = np.sqrt(
        first_joint_angle * first_joint_angle + twist_acceleration_limit / (speed * speed)
    )
    return result


@formula(
    "β",
    "angle",
    source="angle between two directions, closed form",
    valid={
        "side_view_angle": (-_RIGHT_ANGLE, _RIGHT_ANGLE),
        "plan_view_angle": (-_RIGHT_ANGLE, _RIGHT_ANGLE),
    },
    outside="a shaft at right angles to the car has no working angle",
)
def working_angle(side_view_angle: Num, plan_view_angle: Num) -> Num:
    """True angle of a joint from what is seen from the side and from above.

    Both angles are those between the two shafts as they appear in that view.  Exact where one of
    the two lies along the car; ``joint_directions.angle_between`` is exact wherever they lie.
    """
    side = np.tan(side_view_angle)
    plan = np.tan(plan_view_angle)
    result: Num = np.arctan(np.sqrt(side * side + plan * plan))
    return result


@formula(
    "L_h",
    "time",
    source="Lh = 1.5e6/(A·N)·(Tc/T)^(10/3) hours as reproduced on a joint maker's sizing page; "
    "the constant is ISO 281's million turns at four joint angles of swing per shaft turn",
    valid={"joint_angle": (0.0523, None)},
    outside="below 3 degrees the needles hardly roll and may dent the trunnion instead; "
    "shaft makers then reckon with 3 degrees",
)
def joint_life(joint_angle: Num, speed: Num, rated_torque: Num, torque: Num) -> Num:
    """Running time that nine of ten joints reach before their needle bearings spall.

    The rating is the torque for 5,000 hours at 3 degrees and 100 rpm.  Twice the torque costs
    about ten times the life; twice the angle or speed halves it.
    """
    return 1.0e6 * np.pi**2 / (joint_angle * speed) * (rated_torque / torque) ** (10.0 / 3.0)
