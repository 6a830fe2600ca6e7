"""Setting the pinion so that it points right under load, and what the gauge shows on the floor.

One sign for all parts: + when the front end is the higher one (pinion nose up, gearbox tail
down).  "Pinion angle" is used for two things: the pinion against the ground, and the pinion
against the driveshaft.  They are kept apart here and turned into each other.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SLOPES = "slopes in one plane added up, closed form"


@formula("s", "angle", source=_SLOPES)
def slope_from_gauge(gauge_reading: Num, zero_slope: Num) -> Num:
    """Slope against level from a gauge that was zeroed somewhere.

    Zeroed on the level the zero slope is nothing; zeroed on the floor or a frame rail it is theirs.
    """
    return gauge_reading + zero_slope


@formula("s_c", "angle", source=_SLOPES)
def slope_in_car(true_slope: Num, floor_slope: Num) -> Num:
    """Slope against the line of the floor the car stands on, from the slope against level."""
    return true_slope - floor_slope


@formula("g", "angle", source=_SLOPES, symbols={"pinion_slope": "s_c"})
def gauge_shows(pinion_slope: Num, floor_slope: Num, zero_slope: Num) -> Num:
    """What the gauge must show on the pinion, on this floor and zeroed where it was."""
    return pinion_slope + floor_slope - zero_slope


@formula("s_ps", "angle", source=_SLOPES)
def pinion_to_shaft(pinion_slope: Num, shaft_slope: Num) -> Num:
    """Pinion angle against the driveshaft from both against the ground; nose below it is minus."""
    return pinion_slope - shaft_slope


@formula("s_p", "angle", source=_SLOPES)
def pinion_to_ground(pinion_off_shaft: Num, shaft_slope: Num) -> Num:
    """Pinion angle against the ground from the one against the driveshaft."""
    return pinion_off_shaft + shaft_slope


@formula("s_L", "angle", source="equal angles to the same side of the shaft (derived)")
def intersecting_pinion(gearbox_slope: Num, shaft_slope: Num) -> Num:
    """Loaded pinion slope that cancels the front joint when the two ends point at each other.

    With parallel ends there is nothing to work out: the pinion takes the gearbox's slope.
    """
    return 2.0 * shaft_slope - gearbox_slope


@formula("s_0", "angle", source=_SLOPES)
def static_pinion(loaded_slope: Num, nose_rise: Num) -> Num:
    """Pinion slope to set at rest so that it stands right when the nose has risen under load."""
    return loaded_slope - nose_rise


@formula("ψ_p", "angle", source="two slopes of one pinion, definition")
def measured_rise(loaded_slope: Num, static_slope: Num) -> Num:
    """Rise of the nose from its slope on a launch picture or sender and its slope at rest."""
    return loaded_slope - static_slope


@formula(
    "ψ_p",
    "angle",
    source="spring of constant rate (closed form)",
    valid={"asked_torque": (0.0, None)},
    outside="with torque the other way the nose goes down",
)
def rise_at(known_rise: Num, asked_torque: Num, known_torque: Num) -> Num:
    """Rise of the nose at another axle torque: in proportion, until a spring or snubber binds."""
    return known_rise * asked_torque / known_torque


@formula("Δz", "length", source="end of a lever that turns, closed form")
def joint_rise(nose_length: Num, static_slope: Num, nose_rise: Num) -> Num:
    """How much the rear joint center comes up as the nose turns about the axle line."""
    result: Num = nose_length * (np.sin(static_slope + nose_rise) - np.sin(static_slope))
    return result


@formula("Δx", "length", source="end of a lever that turns, closed form")
def joint_advance(nose_length: Num, static_slope: Num, nose_rise: Num) -> Num:
    """How much the rear joint center comes forward as the nose turns about the axle line."""
    result: Num = nose_length * (np.cos(static_slope + nose_rise) - np.cos(static_slope))
    return result
