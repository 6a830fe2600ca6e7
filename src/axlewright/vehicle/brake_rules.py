"""What the rules for new passenger cars ask of the order in which axles lock, and what is said.

The rules bind makers of new cars, not a builder; they are held here as the mark of what is known to
be safe.  What binds a changed car is the local inspection.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright.quantities.formula import Array, Num, formula
from axlewright.vehicle.brake_balance import (
    BrakeOrder,
    front_grip_used,
    rate_at_front_lock,
    rate_at_rear_lock,
    rear_grip_used,
)

LOW_RATE, HIGH_RATE = 0.15, 0.8
"""Range in which the front of a passenger car must be the nearer to locking: Directive 71/320/EEC,
annex II, appendix, 3.1.1 (read); the newer international rules read alike (from memory)."""
ALLOWED_INVERSION = (0.3, 0.45, 0.05)
"""Rates between which the rear may be the nearer one, if it uses no more than z + 0.05 (read)."""


@formula(
    "z_min",
    "ratio",
    source="UNECE R13-H, annex 5: z ≥ 0.1 + 0.7·(k - 0.2) (from memory)",
    valid={"tire_grip": (0.2, 0.8)},
    outside="the rule speaks of grips between 0.2 and 0.8 only",
)
def least_rate_of_rule(tire_grip: Num) -> Num:
    """Rate of braking that must be reached on a grip before the first axle locks."""
    return 0.1 + 0.7 * (tire_grip - 0.2)


def rates_out_of_order(
    rear_brake_share: float, rear_weight_share: float, cg_height: float, wheelbase: float,
    steps: int = 131,
) -> Array:  # fmt: skip
    """Rates of braking within the range of the rules at which the rear is too near to locking."""
    rates = np.linspace(LOW_RATE, HIGH_RATE, steps)
    front = np.asarray(
        front_grip_used(rear_brake_share, rear_weight_share, rates, cg_height, wheelbase)
    )
    rear = np.asarray(
        rear_grip_used(rear_brake_share, rear_weight_share, rates, cg_height, wheelbase)
    )
    low, high, over = ALLOWED_INVERSION
    excused = (rates >= low) & (rates <= high) & (rear <= rates + over)
    wrong: Array = rates[(rear > front) & ~excused]
    return wrong


def grips_too_weak(
    rear_brake_share: float, rear_weight_share: float, cg_height: float, wheelbase: float,
    steps: int = 61,
) -> Array:  # fmt: skip
    """Grips on which an axle locks before the car stops as hard as the rule asks."""
    grips = np.linspace(0.2, 0.8, steps)
    car = (rear_brake_share, rear_weight_share, cg_height, wheelbase)
    first = np.minimum(rate_at_front_lock(grips, *car), rate_at_rear_lock(grips, *car))
    weak: Array = grips[first < np.asarray(least_rate_of_rule(grips)) - 1e-12]
    return weak


def brake_cautions(orders: Sequence[BrakeOrder]) -> tuple[str, ...]:
    """What must be said of the order in which the axles lock."""
    said = []
    turned = [order for order in orders if float(order.rear_first) > 0.5]
    chance = [order for order in orders if 0.02 < float(order.rear_first) <= 0.5]
    if turned:
        grips = ", ".join(f"{order.grip:g}" for order in turned)
        said.append(
            f"On a grip of {grips} the rear locks first: the car turns round. Less rear brake, a "
            "valve, or a taller rear tire."
        )
    elif chance:
        worst = max(chance, key=lambda order: float(order.rear_first))
        share = 100.0 * float(worst.rear_first)
        said.append(
            f"On a grip of {worst.grip:g} the rear may lock first ({share:.0f} % of what the "
            "figures allow): measure weights and brakes before it is driven."
        )
    said.append(
        "Brakes that were changed belong before a licensed inspector, and local rules may ask "
        "more. First stops on an empty road, harder step by step, rear locking watched for."
    )
    return tuple(said)
