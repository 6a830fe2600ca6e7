"""The pair of driven wheels: load on one, inertia of both, thrust, and what a wheelie ends in."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula("N_1", "force", source="two like wheels on an axle (closed form)")
def one_wheel_load(static_rear_load: Num) -> Num:
    """Load on one rear wheel with the car at rest."""
    return 0.5 * static_rear_load


@formula("J_w", "inertia", source="two like wheels on an axle (closed form)")
def both_wheels_inertia(wheel_inertia: Num) -> Num:
    """Inertia of both driven wheels together."""
    return 2.0 * wheel_inertia


@formula("F_1", "force", source="torque over lever (closed form)")
def wheel_thrust(shaft_torque: Num, tire_radius: Num) -> Num:
    """Push of one tire for the torque of its shaft."""
    return shaft_torque / tire_radius


@formula(
    "T_0", "torque", source="sliding friction below peak friction (common practice, no source)"
)
def sliding_torque(gripping_torque: Num, slide_share: Num) -> Num:
    """Torque that tires still take while they spin, from what they take at their best."""
    return gripping_torque * slide_share


@formula("T_w", "torque", source="the front wheels lift when their load is gone (derived)")
def torque_on_landing(
    front_load: Num, landing_torque: Num, struck_torque: Num, steady_axle_torque: Num
) -> Num:
    """Axle torque as lifted front wheels come down under power; the steady one if none lifted.

    No more than engine torque and the blow of the spinning train together can bring.
    """
    landed = np.maximum(np.minimum(landing_torque, struck_torque), steady_axle_torque)
    result: Num = np.where(front_load > 0.0, steady_axle_torque, landed)[()]
    return result


@formula("T_s", "torque", source="two torques on one shaft add (closed form)")
def struck_torque(steady_axle_torque: Num, impact_torque: Num) -> Num:
    """Steady torque with a blow on top."""
    return steady_axle_torque + impact_torque
