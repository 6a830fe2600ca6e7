"""Shape of an engine's full-throttle torque curve when only a point or two of it are known.

Torque rises along a parabola to its peak and falls along another one beyond it.  The falling one is
laid so that power peaks where the engine is said to make its power.  A parabola about the peak is
common practice, no source; a dynamometer sheet is better and goes before it.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHAPE = "parabola with its top at the torque peak (common practice, no source)"


@formula("T_i", "torque", source="definition of a curve in shares of its top (closed form)")
def curve_torque(top_torque: Num, curve_share: Num) -> Num:
    """Torque at one point of the curve: its share of the top."""
    return top_torque * curve_share


@formula("n", "rotation", source="definition of a share of a speed (closed form)")
def share_of_speed(whole_speed: Num, speed_share: Num) -> Num:
    """An engine speed given as a share of another one, such as the rev limit."""
    return whole_speed * speed_share


@formula(
    "k_i",
    "ratio",
    source=_SHAPE,
    valid={"speed_share": (0.0, 1.0), "curve_sag": (0.0, 2.0)},
    outside="this side of the curve ends at the torque peak",
)
def share_below_peak(curve_sag: Num, speed_share: Num) -> Num:
    """Torque over peak torque at a share of the speed of the torque peak.

    The sag is what is missing at a standstill if the parabola went that far: about a half for an
    engine that breathes freely, one or more for one that waits for its turbocharger.
    """
    short = 1.0 - speed_share
    result: Num = np.maximum(1.0 - curve_sag * short * short, 0.1)
    return result


@formula("n_i", "rotation", source=_SHAPE)
def speed_beyond_peak(torque_speed: Num, power_speed: Num, curve_reach: Num) -> Num:
    """Engine speed at a reach beyond the torque peak: at reach 1 the engine makes its power.

    The speed of peak power is taken to lie at least a twentieth above that of peak torque.
    """
    return torque_speed + curve_reach * (
        np.maximum(power_speed, 1.05 * torque_speed) - torque_speed
    )


@formula(
    "k_i",
    "ratio",
    source=_SHAPE,
    valid={"share_at_power": (0.5, 1.0)},
    outside="torque at peak power is no such small part of peak torque",
)
def share_beyond_peak(share_at_power: Num, curve_reach: Num) -> Num:
    """Torque over peak torque at a reach beyond the torque peak."""
    result: Num = np.maximum(1.0 - (1.0 - share_at_power) * curve_reach * curve_reach, 0.1)
    return result


@formula("k_P", "ratio", source=f"{_SHAPE}; power greatest at the power speed (derived)")
def typical_share_at_power(torque_speed: Num, power_speed: Num) -> Num:
    """Torque at peak power over peak torque, when only both speeds are known."""
    upper = np.maximum(power_speed, 1.05 * torque_speed)
    return 2.0 * upper / (3.0 * upper - torque_speed)


@formula(
    "k_P",
    "ratio",
    source="T = P/ω (closed form)",
    valid={"power_speed": (1.0, None)},
    outside="give the speed at which the power was made",
)
def share_at_power(power: Num, power_speed: Num, sheet_torque: Num) -> Num:
    """Torque at peak power over peak torque, both from one sheet; never above 1."""
    result: Num = np.minimum(power / (power_speed * sheet_torque), 1.0)
    return result


@formula("T_max", "torque", source="definition of the share at power (closed form)")
def peak_above_power(engine_torque: Num, share_at_power: Num) -> Num:
    """Peak torque of an engine of which only the torque at peak power is known."""
    return engine_torque / share_at_power


@formula(
    "T_m",
    "torque",
    source="definition of the motored share (closed form)",
    valid={"motored_share": (0.0, 0.5)},
    outside="an engine that drags so hard has something wrong with it",
)
def motored_torque(engine_torque: Num, motored_share: Num) -> Num:
    """Drag of the engine with the throttle shut, as a share of its peak torque."""
    return engine_torque * motored_share
