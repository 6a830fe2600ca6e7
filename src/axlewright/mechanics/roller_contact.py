"""Rollers one by one: load over approach, profile, rib, what each race stands.

Line contact of steel rollers after Palmgren (Harris, *Rolling Bearing Analysis*, from memory) and
after ISO/TS 16281 (from memory; 4 percent softer); load distribution and life of single rollers
and their slices after ISO/TS 16281 and the theory behind ISO 281.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_TS = "ISO/TS 16281 (from memory)"
_APPROACH = {"roller_approach": (0.0, 200e-6)}
_TOO_FAR = "below zero the roller is free; beyond 0.2 mm it is no elastic contact any more"


@formula(
    "Q",
    "force",
    source="Palmgren, as in Harris, Rolling Bearing Analysis: δ = 7.68e-5·Q^0.9/l^0.8 mm "
    "(from memory), solved for Q",
    valid=_APPROACH,
    outside=_TOO_FAR,
)
def roller_load(roller_approach: Num, roller_length: Num) -> Num:
    """Load that presses one steel roller between two races by so much, both contacts together."""
    pressed = 1000.0 * np.maximum(roller_approach, 0.0)
    result: Num = (pressed * (1000.0 * roller_length) ** 0.8 / 7.68e-5) ** (10.0 / 9.0)
    return result


@formula(
    "Q",
    "force",
    source=f"{_TS}, Q = 35948·l^(8/9)·δ^(10/9)",
    valid=_APPROACH,
    outside=_TOO_FAR,
)
def roller_load_standard(roller_approach: Num, roller_length: Num) -> Num:
    """The same by the constant of the standard, as a check of the size."""
    pressed = 1000.0 * np.maximum(roller_approach, 0.0)
    result: Num = 35948.0 * (1000.0 * roller_length) ** (8.0 / 9.0) * pressed ** (10.0 / 9.0)
    return result


@formula(
    "P_x",
    "length",
    source=f"{_TS}, P = 0.00035·Dwe·ln(1/(1 - (2x/Lwe)²)) for rollers up to 2.5 times as long "
    "as thick",
)
def roller_profile(roller_place: Num, roller_length: Num, roller_diameter: Num) -> Num:
    """How far the profile of a roller falls away from its middle, so that its ends do not bite."""
    across = 2.0 * roller_place / roller_length
    return -0.00035 * roller_diameter * np.log(1.0 - across * across)


@formula(
    "ν_r",
    "angle",
    source="pure rolling: all cones meet in one point (closed form)",
    valid={"bearing_contact_angle": (0.0, 0.61)},
    outside="a car's tapered bearings have contact angles between 7 and 35 degrees",
)
def half_taper(roller_diameter: Num, bearing_contact_angle: Num, roller_pitch_diameter: Num) -> Num:
    """Half the cone angle of a tapered roller, from how thick it is on its pitch circle."""
    slender = roller_pitch_diameter / roller_diameter
    return np.arctan(np.sin(bearing_contact_angle) / (slender + np.cos(bearing_contact_angle)))


@formula(
    "Q_rib",
    "force",
    source="balance of the roller along its own axis, rib square to it, no friction (closed form)",
)
def rib_load(roller_load: Num, roller_half_taper: Num) -> Num:
    """Force of one tapered roller on the rib of the cone; it slides there and makes the heat."""
    return 2.0 * roller_load * np.sin(roller_half_taper)


_RACE = "ISO/TS 16281 with ISO/TR 1281-1, capacity of a race from the rating (from memory)"


@formula("Q_ci", "force", source=f"{_RACE}; the allowance 1/0.83 for edge stress left out")
def inner_race_capacity(
    dynamic_rating: Num,
    roller_count: Num,
    bearing_contact_angle: Num,
    roller_diameter: Num,
    roller_pitch_diameter: Num,
) -> Num:
    """Roller load that the inner race stands for a million turns, taken out of the rating."""
    thick = roller_diameter * np.cos(bearing_contact_angle) / roller_pitch_diameter
    races = 1.038 * ((1.0 - thick) / (1.0 + thick)) ** (143.0 / 108.0)
    each = dynamic_rating / (0.378 * roller_count * np.cos(bearing_contact_angle))
    result: Num = each * (1.0 + races**4.5) ** (2.0 / 9.0)
    return result


@formula("Q_ce", "force", source=f"{_RACE}; the allowance 1/0.83 for edge stress left out")
def outer_race_capacity(
    dynamic_rating: Num,
    roller_count: Num,
    bearing_contact_angle: Num,
    roller_diameter: Num,
    roller_pitch_diameter: Num,
) -> Num:
    """Roller load that the outer race stands for a million turns, taken out of the rating."""
    thick = roller_diameter * np.cos(bearing_contact_angle) / roller_pitch_diameter
    races = 1.038 * ((1.0 - thick) / (1.0 + thick)) ** (143.0 / 108.0)
    each = dynamic_rating / (0.364 * roller_count * np.cos(bearing_contact_angle))
    result: Num = each * (1.0 + races**-4.5) ** (2.0 / 9.0)
    return result


@formula("D_r", "ratio", source=f"{_TS}, life of the slices without factors for edge stress")
def race_damage(
    inner_roller_equivalent: Num,
    inner_race_capacity: Num,
    outer_roller_equivalent: Num,
    outer_race_capacity: Num,
) -> Num:
    """Damage of both races together; one means that a million turns are the life."""
    inner = (inner_roller_equivalent / inner_race_capacity) ** 4.5
    outer = (outer_roller_equivalent / outer_race_capacity) ** 4.5
    return inner + outer


@formula("L_10r", "count", source=f"{_TS}, L10r = 1e6·(sum of damage)^(-8/9)")
def reference_life(race_damage: Num) -> Num:
    """Turns that nine of ten bearings reach under this very distribution over the rollers."""
    result: Num = 1.0e6 * race_damage ** (-8.0 / 9.0)
    return result
