"""What rolling bearings and lip seals take for themselves.

Palmgren's two parts: one that the oil sets up with speed, and one that the load sets up at any
speed.  The factors belong to a kind of bearing and a way of oiling; tapered bearings in an oil
bath have f0 of 3 to 4, and f1 of 0.0004 on a load of twice Y times the thrust (from memory).
Makers' methods of today part rolling from sliding and need constants of a bearing's own kind; those
of tapered bearings could not be read here, so there is no second form to set against this one.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_PALMGREN = "Palmgren, as in Harris, Rolling Bearing Analysis (from memory)"


@formula(
    "M_0",
    "small torque",
    source=_PALMGREN,
    valid={"bearing_drag_factor": (0.5, 12.0)},
    outside="drag factors run from 1 (grease) to 12 (thrust bearings in oil)",
)
def viscous_moment(
    bearing_drag_factor: Num,
    kinematic_viscosity: Num,
    turning_speed: Num,
    bearing_mean_diameter: Num,
) -> Num:
    """Torque that the oil in a bearing takes, whatever the load."""
    thick = 1e6 * kinematic_viscosity * turning_speed * 30.0 / np.pi
    size = (1e3 * bearing_mean_diameter) ** 3
    drag = np.where(thick < 2000.0, 160e-7, 1e-7 * thick ** (2.0 / 3.0))[()]
    result: Num = 1e-3 * bearing_drag_factor * drag * size
    return result


@formula("M_1", "small torque", source=_PALMGREN)
def load_moment(
    bearing_friction_factor: Num, bearing_friction_load: Num, bearing_mean_diameter: Num
) -> Num:
    """Torque that the load of a bearing costs, whatever the speed."""
    return bearing_friction_factor * bearing_friction_load * bearing_mean_diameter


@formula(
    "P_1",
    "force",
    source="a preloaded pair shares an outside thrust until one side is empty (derived)",
)
def pair_friction_load(
    pair_outside_load: Num, bearing_load_share: Num, preload_friction_load: Num
) -> Num:
    """Load that makes friction in both bearings of a pair: the gears' or the preload's."""
    return np.maximum(bearing_load_share * pair_outside_load, preload_friction_load)


@formula("P_b", "power", source="torque times speed (closed form)")
def drag_power(drag_torque: Num, turning_speed: Num, drag_places: Num) -> Num:
    """Power that goes into heat where a torque drags, at so many places alike."""
    return drag_places * drag_torque * turning_speed


@formula(
    "P_s",
    "power",
    source="ISO/TR 14179-2, lip seals: 7.69e-6 d² n in W, mm and rpm (read in an open gearbox loss"
    " program)",
    valid={"seal_diameter": (0.01, 0.2)},
    outside="lip seals of other sizes than a driveline has",
)
def seal_power(seal_diameter: Num, turning_speed: Num, seal_share: Num, drag_places: Num) -> Num:
    """Power that lip seals rub away, so much of the rule's figure each."""
    rpm = turning_speed * 30.0 / np.pi
    return 7.69 * drag_places * seal_share * seal_diameter * seal_diameter * rpm
