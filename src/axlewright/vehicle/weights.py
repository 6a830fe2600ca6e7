"""The car's weight and its share on the rear axle from whatever was weighed."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_SUM = "sum of what stands on the two axles (closed form)"


@formula("m", "mass", source=_SUM)
def mass_of_axles(front_axle_mass: Num, rear_axle_mass: Num) -> Num:
    """Mass of the whole car from its two axle weights."""
    return front_axle_mass + rear_axle_mass


@formula("s_r", "ratio", source=_SUM)
def rear_share_of_axles(front_axle_mass: Num, rear_axle_mass: Num) -> Num:
    """Rear share of the weight from both axle weights."""
    return rear_axle_mass / (front_axle_mass + rear_axle_mass)


@formula("s_r", "ratio", source=_SUM)
def rear_share_of_whole(rear_axle_mass: Num, vehicle_mass: Num) -> Num:
    """Rear share of the weight from the rear axle weight and the whole."""
    return rear_axle_mass / vehicle_mass


@formula("s_r", "ratio", source=_SUM)
def rear_share_left_by_front(front_axle_mass: Num, vehicle_mass: Num) -> Num:
    """Rear share of the weight from the front axle weight and the whole."""
    return 1.0 - front_axle_mass / vehicle_mass
