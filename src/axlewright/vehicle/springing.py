"""Springs and their stiffness from what one can see: how fast a car bounces and how far it leans.

Ride frequency is that of the body's share on the springs (and tires in front) as it bounces.
Lean is told as the angle at one g of cornering, the trade's roll gradient.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula(
    "k",
    "stiffness",
    source="mass on a spring, k = m·ω² (closed form)",
    valid={"ride_frequency": (3.0, 35.0)},
    outside="no car on springs bounces so slowly or so fast",
)
def ride_stiffness(sprung_mass: Num, ride_frequency: Num) -> Num:
    """Stiffness of both springs of an axle, at the wheels, from how fast the body bounces."""
    return sprung_mass * ride_frequency * ride_frequency


@formula(
    "k_ρ",
    "torsional stiffness",
    source="roll moment of one g over the lean that it makes (closed form)",
    valid={"lean_at_one_g": (0.01, 0.3)},
    outside="no car leans so little or so much",
)
def roll_stiffness(
    front_body_mass: Num,
    rear_body_mass: Num,
    cg_height: Num,
    roll_arm_share: Num,
    lean_at_one_g: Num,
) -> Num:
    """Stiffness of the whole car in roll, the pull of gravity on the leaning body taken off.

    The roll arm is the height of the body's mass above the axis about which it rolls, told as a
    share of the height of the car's center of mass.
    """
    weight = 9.80665 * (front_body_mass + rear_body_mass)
    return weight * roll_arm_share * cg_height / lean_at_one_g


@formula("λ_r", "ratio", source="both shares make one (closed form)")
def rear_roll_share(front_roll_share: Num) -> Num:
    """Rear share of the roll stiffness."""
    return 1.0 - front_roll_share
