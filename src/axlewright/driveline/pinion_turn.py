"""How far the pinion turns: by the hand that sets it, and by the torque that winds the axle up."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SLOPES = "slopes in one plane added up, closed form"
GAUGE_STEP = float(np.radians(0.25))
"""As near as an angle gauge is read, rad; common practice, no source."""


def aim_between(least: float, greatest: float) -> tuple[float, float]:
    """Where to aim between two settings: a gauge's step inside, or the middle of what is narrow."""
    if greatest - least < 2.0 * GAUGE_STEP:
        middle = 0.5 * (least + greatest)
        return middle, middle
    return least + GAUGE_STEP, greatest - GAUGE_STEP


@formula("δ_p", "angle", source=_SLOPES)
def pinion_turn(static_slope: Num, pinion_slope: Num) -> Num:
    """How far to turn the pinion up from where it stands to where it should be; minus is down."""
    return static_slope - pinion_slope


@formula("s_0", "angle", source="nearest value between two limits, definition")
def setting_kept(static_slope: Num, least_setting: Num, greatest_setting: Num) -> Num:
    """Slope to set at rest, moved no further than needed for every limit to be kept."""
    result: Num = np.minimum(np.maximum(static_slope, least_setting), greatest_setting)
    return result


@formula("s_p", "angle", source=_SLOPES)
def turned_pinion(pinion_slope: Num, nose_rise: Num) -> Num:
    """Slope of the pinion once its nose has turned up so far."""
    return pinion_slope + nose_rise


@formula("ψ_p", "angle", source="twist of a spring of constant rate (closed form)")
def rise_of_windup(ring_torque: Num, axle_windup_stiffness: Num) -> Num:
    """How far the axle winds up, nose up, as the torque of its ring gear pushes it back."""
    return ring_torque / axle_windup_stiffness


@formula("Δβ", "angle", source="difference of two angles, definition")
def ends_apart(first_joint_angle: Num, second_joint_angle: Num) -> Num:
    """How far the working angles at both ends of a shaft are apart."""
    result: Num = np.abs(first_joint_angle - second_joint_angle)
    return result


@formula("ψ_q", "angle", source="turn of the axle for each length that it moves up (closed form)")
def nose_in_squat(tail_squat: Num, link_reaction_arm: Num) -> Num:
    """How far the nose turns up as the tail sinks; links that meet ahead turn it down."""
    return -tail_squat * link_reaction_arm


@formula("ψ_p", "angle", source=_SLOPES)
def whole_rise(windup_rise: Num, squat_turn: Num) -> Num:
    """Rise of the nose against the body: wind-up in the bushes, and what the squat adds."""
    return windup_rise + squat_turn
