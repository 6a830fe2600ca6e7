"""What bends a semi-floating axle shaft at its wheel bearing.

The shaft carries the wheel on its overhang: the distance from the middle of the tire's footprint
to the middle of the bearing.  The three cases are those of the textbooks: straight-line drive,
skid sideways, and the jolt of a bad road.  A full-floating shaft sees torque only.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_COURSE = "semi-floating shaft load cases after Lukin (as reproduced in a course text)"
_STATICS = "statics of one axle, closed form"


@formula("T", "torque", source=f"{_COURSE}; force times radius, closed form")
def drive_torque(wheel_end_drive_force: Num, wheel_end_radius: Num) -> Num:
    """Torque in the shaft from the push of its tire."""
    return wheel_end_drive_force * wheel_end_radius


@formula("M", "torque", source=_COURSE)
def drive_moment(wheel_end_load: Num, wheel_end_drive_force: Num, bearing_overhang: Num) -> Num:
    """Bending at the wheel bearing on a straight launch: weight and push at right angles."""
    return bearing_overhang * np.sqrt(wheel_end_load**2 + wheel_end_drive_force**2)


@formula("F_zo", "force", source=_STATICS)
def outer_wheel_load(
    wheel_end_axle_load: Num, wheel_end_side_grip: Num, wheel_end_height: Num, wheel_end_track: Num
) -> Num:
    """Load on the outer wheel of an axle that slides sideways, until it carries everything."""
    return wheel_end_axle_load * np.minimum(
        0.5 + wheel_end_side_grip * wheel_end_height / wheel_end_track, 1.0
    )


@formula("F_zi", "force", source=_STATICS)
def inner_wheel_load(
    wheel_end_axle_load: Num, wheel_end_side_grip: Num, wheel_end_height: Num, wheel_end_track: Num
) -> Num:
    """Load on the inner wheel of an axle that slides sideways, until it lifts."""
    return wheel_end_axle_load * np.maximum(
        0.5 - wheel_end_side_grip * wheel_end_height / wheel_end_track, 0.0
    )


@formula("F_y", "force", source=_COURSE)
def side_force(wheel_end_load: Num, wheel_end_side_grip: Num) -> Num:
    """Side force of a tire that slides sideways; it also pushes or pulls the shaft endways."""
    return wheel_end_load * wheel_end_side_grip


@formula("M_o", "torque", source=_COURSE)
def outer_skid_moment(
    wheel_end_side_force: Num, wheel_end_load: Num, wheel_end_radius: Num, bearing_overhang: Num
) -> Num:
    """Bending at the bearing of the outer wheel in a skid: side force less weight."""
    return wheel_end_side_force * wheel_end_radius - wheel_end_load * bearing_overhang


@formula("M_i", "torque", source=_COURSE)
def inner_skid_moment(
    wheel_end_side_force: Num, wheel_end_load: Num, wheel_end_radius: Num, bearing_overhang: Num
) -> Num:
    """Bending at the bearing of the inner wheel in a skid: side force and weight add."""
    return wheel_end_side_force * wheel_end_radius + wheel_end_load * bearing_overhang


@formula("M", "torque", source=_COURSE)
def vertical_moment(wheel_end_load: Num, wheel_end_jolt_factor: Num, bearing_overhang: Num) -> Num:
    """Bending at the wheel bearing when a bad road multiplies the weight."""
    return wheel_end_jolt_factor * wheel_end_load * bearing_overhang


@formula("F_b", "force", source="statics of a shaft on two supports (derived)")
def wheel_bearing_in_skid(wheel_end_load: Num, skid_moment: Num, bearing_span: Num) -> Num:
    """Radial load of the wheel bearing in a slide: the skid moment against the inner support."""
    result: Num = wheel_end_load + np.abs(skid_moment) / bearing_span
    return result


@formula("N_j", "force", source="definition of the jolt factor (closed form)")
def jolted_load(wheel_end_load: Num, wheel_end_jolt_factor: Num) -> Num:
    """Load of one wheel on a hard bump."""
    return wheel_end_load * wheel_end_jolt_factor
