"""Masses that move apart from each other: axle, wheels, body; and how the body resists turning.

The body is the car without its rear axle and wheels.  Its pitch inertia follows the dynamic index
of suspension practice (radius of gyration squared over the product of the distances to both
axles), its roll inertia a radius of gyration in proportion to the track.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_PARTS = "a whole less its parts (closed form)"


@formula("m_h", "mass", source="bodies alike in form (closed form)")
def mass_by_size(density: Num, ring_gear_diameter: Num, mass_share: Num) -> Num:
    """Mass of a part whose size goes with the ring gear: density times diameter cubed."""
    return mass_share * density * ring_gear_diameter * ring_gear_diameter * ring_gear_diameter


@formula("m_1w", "mass", source="definition of the radius of gyration (closed form)")
def wheel_mass(wheel_inertia: Num, tire_radius: Num, gyration_share: Num) -> Num:
    """Mass of a wheel with tire and brake that has a known inertia."""
    gyration = gyration_share * tire_radius
    return wheel_inertia / (gyration * gyration)


@formula("m_a", "mass", source="sum of parts (closed form)")
def axle_mass(bare_axle_mass: Num, wheel_mass: Num) -> Num:
    """Mass that moves with the rear axle: housing, gears, shafts, and both wheels."""
    return bare_axle_mass + 2.0 * wheel_mass


@formula("m_bf", "mass", source=_PARTS)
def front_body_mass(vehicle_mass: Num, rear_weight_share: Num) -> Num:
    """Part of the body that rests on the front wheels, their own mass counted in."""
    return vehicle_mass * (1.0 - rear_weight_share)


@formula("m_br", "mass", source=_PARTS)
def rear_body_mass(vehicle_mass: Num, rear_weight_share: Num, axle_mass: Num) -> Num:
    """Part of the body that rests on the rear springs; at least a fifth of the rear weight."""
    rear = vehicle_mass * rear_weight_share
    result: Num = np.maximum(rear - axle_mass, 0.2 * rear)
    return result


@formula(
    "I_y",
    "inertia",
    source="dynamic index, gyration squared over the distances to both axles (common practice, "
    "no source; form derived)",
    valid={"dynamic_index": (0.5, 1.3)},
    outside="no car has its mass so close to its middle or so far out",
)
def pitch_inertia(
    front_body_mass: Num, rear_body_mass: Num, wheelbase: Num, dynamic_index: Num
) -> Num:
    """Inertia of the body in pitch.

    At an index of 1 the body acts as two masses, one over each axle.
    """
    return (
        dynamic_index
        * wheelbase
        * wheelbase
        * front_body_mass
        * rear_body_mass
        / (front_body_mass + rear_body_mass)
    )


@formula(
    "I_x",
    "inertia",
    source="radius of gyration as a share of the track (common practice, no source)",
    valid={"roll_gyration_share": (0.25, 0.6)},
    outside="no body has its mass so close to its middle or so far out",
)
def roll_inertia(
    front_body_mass: Num, rear_body_mass: Num, track: Num, roll_gyration_share: Num
) -> Num:
    """Inertia of the body in roll."""
    gyration = roll_gyration_share * track
    return (front_body_mass + rear_body_mass) * gyration * gyration


@formula("D", "linear density", source="F = ½·ρ·A·v² (closed form)")
def air_drag(air_density: Num, drag_area: Num) -> Num:
    """Air drag over the square of speed: half of the density times the drag area."""
    return 0.5 * air_density * drag_area
