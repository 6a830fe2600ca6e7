"""What a tube or a bracket of the axle housing carries when the real links hold the axle.

Statics is linear: each load on the axle counts with a share that the places of links, springs and
wheels decide.  The shares are solved in space (``suspension/housing_wrenches.py``); what they add
up to, and what a weld makes of it, stands here.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SUM = "statics is linear: loads times their shares, added up (closed form)"


@formula("y_h", "length", source="half of one length and another, closed form")
def tubes_begin(carrier_bearing_span: Num, tube_depth: Num) -> Num:
    """How far from the middle the tubes come out of the center, by the bearings inside it."""
    return 0.5 * carrier_bearing_span + tube_depth


@formula("M_k", "torque", source=_SUM)
def pull_moment(
    ring_part: Num,
    axle_torque: Num,
    drive_part: Num,
    driveshaft_torque: Num,
    thrust_lever: Num,
    wheel_thrust: Num,
    load_lever: Num,
    wheel_end_load: Num,
) -> Num:
    """Moment from the torque of ring gear and driveshaft, and from push and load of each wheel."""
    turned = ring_part * axle_torque + drive_part * driveshaft_torque
    return turned + thrust_lever * wheel_thrust + load_lever * wheel_end_load


@formula("M_k", "torque", source=_SUM)
def brake_moment(brake_lever: Num, wheel_thrust: Num, load_lever: Num, wheel_end_load: Num) -> Num:
    """Moment from braking and load of each wheel, with the brakes on the housing's ends."""
    return brake_lever * wheel_thrust + load_lever * wheel_end_load


@formula("M_k", "torque", source=_SUM)
def bump_moment(load_lever: Num, wheel_end_load: Num, wheel_end_jolt_factor: Num) -> Num:
    """Moment from the load of each wheel on a hard bump."""
    return load_lever * wheel_end_load * wheel_end_jolt_factor


@formula("M_k", "torque", source=_SUM)
def bend_moment(
    outer_lever: Num,
    outer_wheel_load: Num,
    outer_side_lever: Num,
    outer_side_force: Num,
    inner_lever: Num,
    inner_wheel_load: Num,
    inner_side_lever: Num,
    inner_side_force: Num,
) -> Num:
    """Moment from load and side force of both wheels in a bend; side forces as sizes."""
    outer = outer_lever * outer_wheel_load + outer_side_lever * outer_side_force
    return outer + inner_lever * inner_wheel_load + inner_side_lever * inner_side_force


@formula("F_k", "force", source=_SUM)
def pull_force(
    ring_arm: Num,
    axle_torque: Num,
    drive_arm: Num,
    driveshaft_torque: Num,
    thrust_part: Num,
    wheel_thrust: Num,
    load_part: Num,
    wheel_end_load: Num,
) -> Num:
    """Force from the torque of ring gear and driveshaft, and from push and load of each wheel."""
    turned = ring_arm * axle_torque + drive_arm * driveshaft_torque
    return turned + thrust_part * wheel_thrust + load_part * wheel_end_load


@formula("F_k", "force", source=_SUM)
def brake_force(brake_part: Num, wheel_thrust: Num, load_part: Num, wheel_end_load: Num) -> Num:
    """Force from braking and load of each wheel."""
    return brake_part * wheel_thrust + load_part * wheel_end_load


@formula("F_k", "force", source=_SUM)
def bend_force(
    outer_part: Num,
    outer_wheel_load: Num,
    outer_side_part: Num,
    outer_side_force: Num,
    inner_part: Num,
    inner_wheel_load: Num,
    inner_side_part: Num,
    inner_side_force: Num,
) -> Num:
    """Force from load and side force of both wheels in a bend; side forces as sizes."""
    outer = outer_part * outer_wheel_load + outer_side_part * outer_side_force
    return outer + inner_part * inner_wheel_load + inner_side_part * inner_side_force


@formula("F_b", "force", source="three forces at right angles (closed form)")
def bracket_force(fore_force: Num, across_force: Num, up_force: Num) -> Num:
    """Size of a force from its parts along the car, across and up."""
    result: Num = np.sqrt(fore_force**2 + across_force**2 + up_force**2)
    return result


@formula("T", "torque", source="size of a torque, whichever way it turns (definition)")
def twist_either_way(tube_twist: Num) -> Num:
    """Size of the torque in a tube."""
    result: Num = np.abs(tube_twist)
    return result


@formula(
    "T_bw",
    "torque",
    source="mean shear of the force on both fillets laid on top of that of the torque (derived);"
    " the force is taken to add where the torque pulls hardest",
)
def weld_turning(bracket_torque: Num, bracket_force: Num, outer_diameter: Num) -> Num:
    """Torque about the tube that would shear a bracket's two fillets as hard as all it carries.

    A force F on two fillets is F/(2·a·l) of stress; a torque T about the tube T/(a·l·D).
    """
    result: Num = np.abs(bracket_torque) + 0.5 * bracket_force * outer_diameter
    return result
