"""What both rear tires together do to the axle in a hard stop and in a sliding bend."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("F_b", "force", source="deceleration over gravity times weight times share (closed form)")
def rear_braking(vehicle_weight: Num, brake_grip: Num, rear_brake_share: Num) -> Num:
    """Braking of both rear tires together."""
    return vehicle_weight * brake_grip * rear_brake_share


@formula("F_y", "force", source="load times grip (closed form)")
def sideways_push(static_rear_load: Num, wheel_end_side_grip: Num) -> Num:
    """Side force of both rear tires together when they slide."""
    return static_rear_load * wheel_end_side_grip


@formula("y_w", "length", source="half of the track (closed form)")
def wheel_center_left(track: Num) -> Num:
    """How far left of the middle the left wheel stands on a car that is alike on both sides."""
    return 0.5 * track


@formula(
    "z_q",
    "length",
    source="load that moves to the rear less what the links carry, over the springs (closed form)",
)
def tail_squat(
    drive_force: Num, cg_height: Num, wheelbase: Num, anti_squat: Num, rear_ride_stiffness: Num
) -> Num:
    """How far the tail sinks on its springs under a steady pull; below zero it rises."""
    moved = drive_force * cg_height / wheelbase
    return moved * (1.0 - anti_squat) / rear_ride_stiffness
