"""What bends and twists the tubes of an axle housing at the spring seat.

Each tube is a cantilever from the spring seat (or link bracket) out to the wheel.  Weight bends it
in the vertical plane, thrust or braking in the horizontal plane, a side force at the ground adds a
moment of its own through the tire radius.  On launch the housing winds up against the wheels; in
braking the calipers hand the brake torque to the housing ends.  The load cases are those of the
usual texts on axle design; the loads on each wheel in a skid stand with the wheel end.  The moments
are plain statics; where two work against each other the docstring says which way counts positive.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHARE = {"tube_share": (0.0, 1.0)}


@formula(
    "M_v",
    "torque",
    source="statics (derived)",
    valid={"wheel_end_jolt_factor": (1.0, 4.0)},
    outside="1 is a car that stands, 2.5 to 3 the hardest usual hit; more is a crash, not a load",
)
def seat_vertical_moment(wheel_end_load: Num, wheel_end_jolt_factor: Num, seat_inset: Num) -> Num:
    """Moment at the spring seat from the load on one wheel, times a factor for bumps."""
    return wheel_end_jolt_factor * wheel_end_load * seat_inset


@formula("M_h", "torque", source="statics (derived)")
def seat_fore_aft_moment(wheel_thrust: Num, seat_inset: Num) -> Num:
    """Moment at the spring seat from thrust or braking at one wheel, in the horizontal plane."""
    return wheel_thrust * seat_inset


@formula("M_r", "torque", source="statics (derived)")
def seat_resultant_moment(wheel_end_load: Num, wheel_thrust: Num, seat_inset: Num) -> Num:
    """Moment at the spring seat from weight and thrust (or braking) of one wheel together."""
    return seat_inset * np.sqrt(wheel_end_load**2 + wheel_thrust**2)


@formula("M_so", "torque", source="statics (derived); same form in a course text after Lukin")
def skid_outer_moment(
    wheel_end_load: Num, wheel_end_side_force: Num, wheel_end_radius: Num, seat_inset: Num
) -> Num:
    """Moment at the seat of the outer wheel in a slide: side force against weight.

    Positive when the side force wins and bends the wheel end the other way than weight does.
    """
    return wheel_end_side_force * wheel_end_radius - wheel_end_load * seat_inset


@formula("M_si", "torque", source="statics (derived); same form in a course text after Lukin")
def skid_inner_moment(
    wheel_end_load: Num, wheel_end_side_force: Num, wheel_end_radius: Num, seat_inset: Num
) -> Num:
    """Moment at the seat of the inner wheel in a slide: side force and weight add up."""
    return wheel_end_side_force * wheel_end_radius + wheel_end_load * seat_inset


@formula("T_b", "torque", source="statics (derived)")
def brake_tube_torque(wheel_thrust: Num, wheel_end_radius: Num) -> Num:
    """Torque in one tube under braking, from the brake on its end in to the seat or bracket.

    With the brake on the housing end the tube carries the whole brake torque of its wheel.
    """
    return wheel_thrust * wheel_end_radius


@formula(
    "T_l",
    "torque",
    source="statics (derived)",
    valid=_SHARE,
    outside="one tube carries between none and all of the reaction",
)
def launch_tube_torque(axle_torque: Num, tube_share: Num) -> Num:
    """Torque in one tube on launch, from the centre out to the seat or bracket.

    The housing winds up by the sum of both axle shafts' torque.  Two like springs or link brackets
    take half each (share 0.5); a torque arm fixed to the centre takes all of it, the tubes none.
    """
    return axle_torque * tube_share
