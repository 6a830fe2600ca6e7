"""Tapered roller bearings: rating from geometry, thrust of a pair, give under load.

Ratings after ISO 281:2007 and ISO 76:2006; the thrust that a radial load sets up after ISO and
after Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, section 11-9; load on the
fullest roller for half the circumference loaded after a bearing maker's technical report
(E728g, section 5.1); give of the rollers after Palmgren (Harris, *Rolling Bearing Analysis*,
from memory).  All angles are the contact angle: half the angle of the cup.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_ISO = "ISO 281:2007, single-row tapered roller bearings (from memory)"
_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, sec. 11-9"
_MAKER = "bearing maker's technical report E728g, sec. 5.1"
_REPORT = f"{_MAKER}, line contact, half the circumference loaded"
_PALMGREN = "Palmgren, steel rollers, as in Harris, Rolling Bearing Analysis (from memory)"
_ANGLE = {"bearing_contact_angle": (0.12, 0.61)}
_ODD_ANGLE = "a car's tapered bearings have contact angles between 7 and 35 degrees"


@formula(
    "f_c",
    "ratio",
    source="ISO/TR 1281-1, closed form of ISO 281:2007 table 7 for radial roller bearings "
    "(from memory); within 0.07 percent of all 20 table values",
)
def rating_geometry_factor(
    roller_diameter: Num, bearing_contact_angle: Num, roller_pitch_diameter: Num
) -> Num:
    """Factor f_c of the dynamic rating, from how thick the rollers are on their pitch circle."""
    thick = roller_diameter * np.cos(bearing_contact_angle) / roller_pitch_diameter
    races = (1.0 - thick) / (1.0 + thick)
    inner = thick ** (2.0 / 9.0) * (1.0 - thick) ** (29.0 / 27.0) / (1.0 + thick) ** 0.25
    both = (1.0 + (1.04 * races ** (143.0 / 108.0)) ** 4.5) ** (-2.0 / 9.0)
    result: Num = 207.9 * 0.83 * inner * both
    return result


@formula(
    "C_r",
    "force",
    source="ISO 281:2007, Cr = bm·fc·(i·Lwe·cos α)^(7/9)·Z^(3/4)·Dwe^(29/27) (from memory)",
)
def dynamic_rating(
    bearing_material_factor: Num,
    bearing_geometry_factor: Num,
    roller_rows: Num,
    roller_length: Num,
    bearing_contact_angle: Num,
    roller_count: Num,
    roller_diameter: Num,
) -> Num:
    """Dynamic rating of a radial roller bearing from its rollers, when no catalogue gives it.

    The material factor is 1.1 for tapered bearings and 1.0 for drawn-cup needles (from memory).
    """
    line = 1000.0 * roller_rows * roller_length * np.cos(bearing_contact_angle)
    size = (1000.0 * roller_diameter) ** (29.0 / 27.0)
    made = bearing_material_factor * bearing_geometry_factor
    result: Num = made * line ** (7.0 / 9.0) * roller_count**0.75 * size
    return result


@formula(
    "C_0r",
    "force",
    source="ISO 76:2006, C0 = 44(1 - Dwe·cos α/Dpw)·i·Z·Lwe·Dwe·cos α (from memory)",
)
def static_rating(
    roller_rows: Num,
    roller_count: Num,
    roller_length: Num,
    roller_diameter: Num,
    bearing_contact_angle: Num,
    roller_pitch_diameter: Num,
) -> Num:
    """Static rating of a radial roller bearing from its rollers: beyond it they leave dents."""
    tilt = np.cos(bearing_contact_angle)
    free = 1.0 - roller_diameter * tilt / roller_pitch_diameter
    result: Num = (
        44.0e6 * free * roller_rows * roller_count * roller_length * roller_diameter * tilt
    )
    return result


@formula("e", "ratio", source=f"{_ISO}, e = 1.5 tan α", valid=_ANGLE, outside=_ODD_ANGLE)
def axial_limit(bearing_contact_angle: Num) -> Num:
    """Axial over radial load up to which a tapered bearing's life does not suffer."""
    result: Num = 1.5 * np.tan(bearing_contact_angle)
    return result


@formula("Y", "ratio", source=f"{_ISO}, Y = 0.4 cot α", valid=_ANGLE, outside=_ODD_ANGLE)
def axial_factor(bearing_contact_angle: Num) -> Num:
    """Weight of the axial load in the equivalent load of a tapered bearing."""
    return 0.4 / np.tan(bearing_contact_angle)


@formula(
    "Y_0",
    "ratio",
    source="ISO 76:2006, single-row tapered roller bearings, Y0 = 0.22 cot α (from memory)",
    valid=_ANGLE,
    outside=_ODD_ANGLE,
)
def static_axial_factor(bearing_contact_angle: Num) -> Num:
    """Weight of the axial load in the static equivalent load; the radial one counts half."""
    return 0.22 / np.tan(bearing_contact_angle)


@formula(
    "K",
    "ratio",
    source=f"{_SHIGLEY}, K = 0.389 cot α (from memory)",
    valid=_ANGLE,
    outside=_ODD_ANGLE,
)
def k_factor(bearing_contact_angle: Num) -> Num:
    """Ratio of radial to thrust rating of a tapered bearing, the K of inch catalogues."""
    return 0.389 / np.tan(bearing_contact_angle)


@formula("S", "force", source="S = Fr/(2Y), as reproduced on bearing makers' pages")
def induced_thrust(bearing_radial_load: Num, axial_factor: Num) -> Num:
    """Thrust that a radial load sets up in a tapered bearing by wedging, metric catalogues."""
    return bearing_radial_load / (2.0 * axial_factor)


@formula("S", "force", source=f"{_SHIGLEY}, eq. 11-15, Fi = 0.47 Fr/K (from memory)")
def induced_thrust_k(bearing_radial_load: Num, bearing_k_factor: Num) -> Num:
    """Thrust that a radial load sets up in a tapered bearing by wedging, inch catalogues."""
    return 0.47 * bearing_radial_load / bearing_k_factor


@formula("S", "force", source=f"{_REPORT}, Fa = 1.260 Fr tan α")
def half_zone_thrust(bearing_radial_load: Num, bearing_contact_angle: Num) -> Num:
    """Thrust that seats a tapered bearing so that half of its rollers carry."""
    result: Num = 1.260 * bearing_radial_load * np.tan(bearing_contact_angle)
    return result


@formula("Q_max", "force", source=f"{_REPORT}, Qmax = 4.08 Fr/(Z cos α)")
def half_zone_roller_load(
    bearing_radial_load: Num, roller_count: Num, bearing_contact_angle: Num
) -> Num:
    """Load on the fullest roller when half of the rollers carry a radial load."""
    return 4.08 * bearing_radial_load / (roller_count * np.cos(bearing_contact_angle))


@formula("Q", "force", source=f"{_MAKER}, pure axial load, Fa/(Z sin α)")
def axial_roller_load(
    bearing_axial_load: Num, roller_count: Num, bearing_contact_angle: Num
) -> Num:
    """Load on each roller under thrust alone."""
    return bearing_axial_load / (roller_count * np.sin(bearing_contact_angle))


@formula(
    "F_a",
    "force",
    source=f"{_SHIGLEY}, eqs. 11-16 and 11-17 as one (from memory); pair without preload",
)
def pair_axial_load(own_thrust: Num, other_thrust: Num, external_thrust: Num) -> Num:
    """Axial load on one bearing of an opposed pair, set up without preload or play.

    The external thrust counts positive when it presses this bearing; for the other bearing
    change its sign and swap the two induced thrusts.
    """
    result: Num = np.maximum(own_thrust, other_thrust + external_thrust)
    return result


@formula(
    "δ_a",
    "length",
    source=f"{_PALMGREN}, 7.68e-5·Q^0.9/l^0.8 mm per contact pair",
    valid={"bearing_axial_load": (0.0, None)},
    outside="a tapered bearing carries thrust one way only",
)
def axial_deflection(
    bearing_axial_load: Num, roller_count: Num, roller_length: Num, bearing_contact_angle: Num
) -> Num:
    """How far the rollers of a tapered bearing let the shaft move along under thrust alone.

    Rings and case count as rigid: a real mounting gives more.
    """
    lean = np.sin(bearing_contact_angle)
    pressed = (bearing_axial_load / (roller_count * lean)) ** 0.9
    result: Num = 7.68e-8 * pressed / ((1000.0 * roller_length) ** 0.8 * lean)
    return result


@formula("δ_r", "length", source=f"{_PALMGREN}, 7.68e-5·Q^0.9/l^0.8 mm per contact pair")
def radial_deflection(roller_load: Num, roller_length: Num, bearing_contact_angle: Num) -> Num:
    """How far the fullest roller of a tapered bearing lets the shaft move sideways."""
    lean = np.cos(bearing_contact_angle)
    result: Num = 7.68e-8 * roller_load**0.9 / ((1000.0 * roller_length) ** 0.8 * lean)
    return result


@formula(
    "F_lost",
    "force",
    source="two equal bearings with F ∝ δ^n pressed together, rigid parts (closed form)",
)
def preload_lost_at(bearing_preload: Num, bearing_contact_exponent: Num) -> Num:
    """Thrust at which the relieved bearing of an equal preloaded pair is just free.

    2.16 times the preload for rollers (exponent 10/9), 2.83 for balls (3/2).  By thrust alone:
    a radial load still keeps the relieved bearing seated beyond it.
    """
    result: Num = bearing_preload * 2.0**bearing_contact_exponent
    return result


@formula(
    "y",
    "ratio",
    kind="solve",
    source="two equal bearings with F ∝ δ^n pressed together, (1+y)^n - (1-y)^n = F/F_p (derived)",
    valid={"bearing_contact_exponent": (1.0, 1.5)},
    outside="line contact has 10/9, point contact 3/2",
)
def preloaded_pair_shift(preload_multiple: Num, bearing_contact_exponent: Num) -> Num:
    """How far thrust moves a preloaded pair, as a share of what the preload pressed it in.

    Newton's rule from the left on a curve that bends one way only, so it cannot overshoot;
    beyond the loss of preload one bearing carries alone.
    """
    n = bearing_contact_exponent
    wanted = np.minimum(preload_multiple, 2.0**n)
    y = wanted / (2.0 * n)
    for _ in range(12):
        free = np.maximum(1.0 - y, 0.0)
        missing = wanted - (1.0 + y) ** n + free**n
        y = np.clip(y + missing / (n * ((1.0 + y) ** (n - 1.0) + free ** (n - 1.0))), 0.0, 1.0)
    alone = np.maximum(preload_multiple, 2.0**n) ** (1.0 / n) - 1.0
    result: Num = np.where(preload_multiple < 2.0**n, y, alone)[()]
    return result
