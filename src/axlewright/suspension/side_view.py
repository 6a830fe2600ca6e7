"""Links seen from the side: where they cross, and what that does to squat and lift.

Two links hold the axle as an arm would that pivots where their lines cross.  Written with the
slopes of the links and the heights at which their lines cross the axle, nothing becomes infinite
when they are parallel.  Follows Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992),
chapter 7.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_GILLESPIE = "Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 7 (from memory)"


@formula("m", "ratio", source="rise over run (closed form)")
def link_slope(
    link_front_height: Num, link_rear_height: Num, link_front_ahead: Num, link_rear_ahead: Num
) -> Num:
    """Slope of a link seen from the side: positive when it rises toward the front."""
    return (link_front_height - link_rear_height) / (link_front_ahead - link_rear_ahead)


@formula("z_c", "length", source="straight line (closed form)")
def link_crossing(link_rear_height: Num, link_rear_ahead: Num, link_slope: Num) -> Num:
    """Height above ground at which the line of a link crosses the plane of the axle."""
    return link_rear_height - link_rear_ahead * link_slope


@formula(
    "1/x",
    "per distance",
    source="motion of a bar on two links (derived)",
)
def reaction_arm_of_links(
    lower_link_slope: Num, upper_link_slope: Num, lower_crossing: Num, upper_crossing: Num
) -> Num:
    """One over the distance of the instant center ahead of the axle; zero for parallel links."""
    return (lower_link_slope - upper_link_slope) / (upper_crossing - lower_crossing)


@formula("s_1", "ratio", source="motion of a bar on two links (derived)")
def thrust_slope_of_links(
    lower_link_slope: Num, lower_crossing: Num, tire_radius: Num, link_reaction_arm: Num
) -> Num:
    """Slope along which the thrust of the axle reaches the body: axle line to instant center."""
    return lower_link_slope + link_reaction_arm * (lower_crossing - tire_radius)


@formula("A_s", "ratio", source=f"{_GILLESPIE}: slope from the contact over height over wheelbase")
def anti_squat_of_links(
    link_thrust_slope: Num, link_reaction_arm: Num, tire_radius: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Anti-squat of a solid axle: at 100 % the links carry the whole load transfer of a launch."""
    return (link_thrust_slope + link_reaction_arm * tire_radius) * wheelbase / cg_height


@formula(
    "A_l",
    "ratio",
    source=f"{_GILLESPIE}: only the braking of the rear tires pulls on the links",
    valid={"rear_brake_share": (0.0, 1.0)},
    outside="the rear brakes do between none and all of the braking",
)
def anti_lift_of_links(
    link_thrust_slope: Num,
    link_reaction_arm: Num,
    tire_radius: Num,
    cg_height: Num,
    wheelbase: Num,
    rear_brake_share: Num,
) -> Num:
    """Anti-lift in braking with the brakes on the axle: how far the tail is kept from rising."""
    slope = link_thrust_slope + link_reaction_arm * tire_radius
    return rear_brake_share * slope * wheelbase / cg_height
