"""Where a universal joint's output stands at each point of a turn: exact motion, one joint or two.

Hooke's relation as in Carvill, *Mechanical Engineer's Data Handbook*, section 2.4.3, written so
that it runs on without jumps through any number of turns.  Angles of a turn are counted from the
place where the driving yoke lies in the plane of the two shafts; there the driven yoke is fastest.
Peaks of a single joint are in :mod:`axlewright.mechanics.universal_joints`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_HOOKE = "Hooke's joint, Carvill, Mechanical Engineer's Data Handbook, sec. 2.4.3"
_TWO = f"{_HOOKE}, one joint after the other (derived)"
_STEEPEST = (0.0, np.pi / 4.0)
_ONE_JOINT = {"joint_angle": _STEEPEST}
_TWO_JOINTS = {"first_joint_angle": _STEEPEST, "second_joint_angle": _STEEPEST}
_TOO_STEEP = "steeper than 45 degrees a cross joint does not run"
_PLACES = 120


@formula(
    "θ_2",
    "angle",
    source=f"{_HOOKE}, tan θ2 = tan θ1/cos β, written without jumps (derived)",
    valid=_ONE_JOINT,
    outside=_TOO_STEEP,
)
def driven_turn(drive_turn: Num, joint_angle: Num) -> Num:
    """How far the driven yoke has turned when the driving yoke has turned so far."""
    ahead = (1.0 - np.cos(joint_angle)) * np.sin(drive_turn) * np.cos(drive_turn)
    along = np.cos(joint_angle) * np.cos(drive_turn) ** 2 + np.sin(drive_turn) ** 2
    result: Num = drive_turn + np.arctan2(ahead, along)
    return result


@formula("i_θ", "ratio", source=_HOOKE, valid=_ONE_JOINT, outside=_TOO_STEEP)
def speed_ratio_at(drive_turn: Num, joint_angle: Num) -> Num:
    """Speed of the driven yoke over that of the driving yoke at one point of the turn."""
    swing = (np.sin(joint_angle) * np.cos(drive_turn)) ** 2
    result: Num = np.cos(joint_angle) / (1.0 - swing)
    return result


@formula(
    "α_θ",
    "angular acceleration",
    source=f"{_HOOKE}, differentiated",
    valid=_ONE_JOINT,
    outside=_TOO_STEEP,
)
def acceleration_at(speed: Num, drive_turn: Num, joint_angle: Num) -> Num:
    """Angular acceleration of the driven yoke at one point of the turn, drive at steady speed."""
    swing = np.sin(joint_angle) ** 2
    slowing = 1.0 - swing * np.cos(drive_turn) ** 2
    result: Num = (
        -speed * speed * np.cos(joint_angle) * swing * np.sin(2.0 * drive_turn) / slowing**2
    )
    return result


@formula("i_θ", "ratio", source=_TWO, valid=_TWO_JOINTS, outside=_TOO_STEEP)
def pair_speed_ratio_at(
    drive_turn: Num, first_joint_angle: Num, second_joint_angle: Num, yoke_phase_angle: Num
) -> Num:
    """Speed behind two joints over that in front of them at one point of the turn.

    Phase zero is a shaft with its yokes in line and both joints bending in one plane; equal
    angles then cancel to nothing, at any size.
    """
    one = np.cos(first_joint_angle)
    two = np.cos(second_joint_angle)
    ahead = (1.0 - one) * np.sin(drive_turn) * np.cos(drive_turn)
    along = one * np.cos(drive_turn) ** 2 + np.sin(drive_turn) ** 2
    middle = drive_turn + np.arctan2(ahead, along) + yoke_phase_angle
    first = one / (1.0 - (np.sin(first_joint_angle) * np.cos(drive_turn)) ** 2)
    second = two / (1.0 - (np.sin(second_joint_angle) * np.sin(middle)) ** 2)
    result: Num = first * second
    return result


@formula("θ_e", "angle", source=_TWO, valid=_TWO_JOINTS, outside=_TOO_STEEP)
def pair_lead_at(
    drive_turn: Num, first_joint_angle: Num, second_joint_angle: Num, yoke_phase_angle: Num
) -> Num:
    """How far the end behind two joints runs ahead of the end in front of them."""
    one = np.cos(first_joint_angle)
    two = np.cos(second_joint_angle)
    ahead = (1.0 - one) * np.sin(drive_turn) * np.cos(drive_turn)
    along = one * np.cos(drive_turn) ** 2 + np.sin(drive_turn) ** 2
    first = np.arctan2(ahead, along)
    middle = drive_turn + first + yoke_phase_angle
    behind = (two - 1.0) * np.sin(middle) * np.cos(middle)
    across = two * np.sin(middle) ** 2 + np.cos(middle) ** 2
    result: Num = first + np.arctan2(behind, across)
    return result


@formula(
    "α_2",
    "angular acceleration",
    source=f"{_TWO}; greatest of {_PLACES} places in half a turn, parabola through the top three",
    kind="solve",
    valid=_TWO_JOINTS,
    outside=_TOO_STEEP,
)
def pair_peak_acceleration(
    speed: Num, first_joint_angle: Num, second_joint_angle: Num, yoke_phase_angle: Num
) -> Num:
    """Peak angular acceleration that two joints leave over: what shakes the pinion, exact.

    The gearbox end is taken to turn steadily.  One after the other: the shaft's own acceleration
    passed on by the second joint, and the second joint's own at the shaft's speed.
    """
    shape = np.shape(speed * first_joint_angle * second_joint_angle * yoke_phase_angle)
    turn = (np.arange(_PLACES) * (np.pi / _PLACES)).reshape(_PLACES, *((1,) * len(shape)))
    one, two = np.cos(first_joint_angle), np.cos(second_joint_angle)
    swing_one, swing_two = np.sin(first_joint_angle) ** 2, np.sin(second_joint_angle) ** 2
    cosine, sine = np.cos(turn), np.sin(turn)
    middle = turn + np.arctan2((1.0 - one) * sine * cosine, one * cosine**2 + sine**2)
    middle = middle + yoke_phase_angle
    slow_one = 1.0 - swing_one * cosine**2
    slow_two = 1.0 - swing_two * np.sin(middle) ** 2
    passed = -one * swing_one * np.sin(2.0 * turn) / slow_one**2 * (two / slow_two)
    added = two * swing_two * np.sin(2.0 * middle) / slow_two**2 * (one / slow_one) ** 2
    shake = np.abs(passed + added)
    top = np.argmax(shake, axis=0)[np.newaxis]
    here = np.take_along_axis(shake, top, 0)[0]
    left = np.take_along_axis(shake, (top - 1) % _PLACES, 0)[0]
    right = np.take_along_axis(shake, (top + 1) % _PLACES, 0)[0]
    bend = 2.0 * here - left - right
    flat = bend <= 0.0
    rise = np.where(flat, 0.0, (right - left) ** 2 / (8.0 * np.where(flat, 1.0, bend)))
    result: Num = (speed * speed * (here + rise))[()]
    return result


@formula(
    "M_s",
    "torque",
    source="torque crosses the joint at right angles to the plane of its cross (derived)",
    valid=_ONE_JOINT,
    outside=_TOO_STEEP,
)
def secondary_couple(torque: Num, joint_angle: Num) -> Num:
    """Greatest bending couple that a joint at an angle puts on the shafts it joins.

    It swings from nothing to this twice a turn, first on the one shaft, then on the other, and
    grows with torque: a shake that comes on under load only.
    """
    result: Num = torque * np.tan(joint_angle)
    return result


@formula("F_s", "force", source="couple over the distance of its two reactions, closed form")
def secondary_force(joint_couple: Num, support_span: Num) -> Num:
    """Force that a joint's bending couple puts on bearings a distance apart, twice a turn."""
    return joint_couple / support_span


@formula("T_J", "torque", source="inertia times angular acceleration, closed form")
def shake_torque(tube_inertia: Num, shaft_acceleration: Num) -> Num:
    """Torque that winds the driveshaft's own inertia to and fro between its joints."""
    return tube_inertia * shaft_acceleration


@formula(
    "β_r",
    "angle",
    source="below 3 degrees shaft makers reckon life with 3 degrees, common practice, no source",
)
def reckoned_angle(joint_angle: Num, least_life_angle: Num) -> Num:
    """Angle to reckon the life of needles with: the joint's own, or the least that makes sense."""
    result: Num = np.maximum(joint_angle, least_life_angle)
    return result
