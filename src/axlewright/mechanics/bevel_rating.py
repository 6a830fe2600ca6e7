"""Strength of a bevel gear tooth after ANSI/AGMA 2003, as Shigley ch. 15 gives it.

Arguments are SI; the constants inside belong to inches, feet per minute and pounds per square
inch, and are converted where they stand.  All from memory; the pieces of the life factors meet
at their joints, and the reliability factors too, which a test shows.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "ANSI/AGMA 2003 as in Shigley, ch. 15 (from memory)"
_PIECES = "outside the cycles that the standard draws"


@formula(
    "K_v",
    "ratio",
    source=_SHIGLEY + ", eq. 15-5 and 15-6",
    valid={"quality_number": (5.0, 11.0), "pitch_line_speed": (0.0, None)},
    outside="quality numbers 5 to 11 are what the formula was drawn for",
)
def dynamic_factor(pitch_line_speed: Num, quality_number: Num) -> Num:
    """Rise of the tooth load by inaccurate teeth at speed."""
    b = 0.25 * (12.0 - quality_number) ** (2.0 / 3.0)
    a = 50.0 + 56.0 * (1.0 - b)
    return ((a + np.sqrt(pitch_line_speed / 0.00508)) / a) ** b


@formula("v_max", "speed", source=_SHIGLEY + ", eq. 15-8", valid={"quality_number": (5.0, 11.0)})
def dynamic_speed_limit(quality_number: Num) -> Num:
    """Pitch-line speed to which the dynamic factor may be used."""
    b = 0.25 * (12.0 - quality_number) ** (2.0 / 3.0)
    a = 50.0 + 56.0 * (1.0 - b)
    return 0.00508 * (a + quality_number - 3.0) ** 2


@formula(
    "K_s",
    "ratio",
    source=_SHIGLEY + ", eq. 15-10",
    valid={"outer_module": (0.0254 / 16.0, 0.0254 / 0.5)},
    outside="diametral pitch outside 0.5 to 16",
)
def bending_size_factor(outer_module: Num) -> Num:
    """Size factor in bending; half for teeth finer than 16 to the inch."""
    coarse = 0.4867 + 0.2132 * outer_module / 0.0254
    return np.where(outer_module < 0.0254 / 16.0, 0.5, coarse)[()]


@formula("C_s", "ratio", source=_SHIGLEY + ", eq. 15-9")
def contact_size_factor(tooth_face_width: Num) -> Num:
    """Size factor in contact, between 0.5 and 1."""
    middle = 0.125 * tooth_face_width / 0.0254 + 0.4375
    return np.minimum(np.maximum(middle, 0.5), 1.0)


@formula(
    "K_m",
    "ratio",
    source=_SHIGLEY + ", eq. 15-11",
    valid={"mounting_factor": (1.0, 1.25)},
    outside="mounting factors run from 1.00 (both straddle) over 1.10 (one) to 1.25 (none)",
)
def load_distribution(tooth_face_width: Num, mounting_factor: Num) -> Num:
    """Rise of the load at one end of the face by soft mountings."""
    inches = tooth_face_width / 0.0254
    return mounting_factor + 0.0036 * inches * inches


@formula(
    "K_x",
    "ratio",
    source=_SHIGLEY + ", eq. 15-13",
    valid={"member_spiral": (np.radians(5.0), np.radians(60.0))},
    outside="a straight tooth has the factor 1",
)
def lengthwise_factor(cutter_radius: Num, cone_distance: Num, member_spiral: Num) -> Num:
    """Lengthwise curvature factor of spiral teeth, between 1.00 and 1.15."""
    q = 0.279 / np.log10(np.sin(member_spiral))
    return np.minimum(np.maximum(0.211 * (cutter_radius / cone_distance) ** q + 0.789, 1.0), 1.15)


@formula(
    "K_L",
    "ratio",
    source=_SHIGLEY + ", eq. 15-15, general use",
    valid={"load_cycles": (1e2, 1e10)},
    outside=_PIECES,
)
def bending_life_factor(load_cycles: Num) -> Num:
    """Stress that a tooth root stands for a number of loadings, over that for 10 million."""
    few = np.where(load_cycles < 1e3, 2.7, 6.1514 * load_cycles**-0.1192)
    return np.where(load_cycles < 3e6, few, 1.6831 * load_cycles**-0.0323)[()]


@formula(
    "K_L",
    "ratio",
    source=_SHIGLEY + ", eq. 15-15, critical use",
    valid={"load_cycles": (1e2, 1e10)},
    outside=_PIECES,
)
def bending_life_factor_critical(load_cycles: Num) -> Num:
    """The same with the flatter line beyond 3 million loadings: for general machines."""
    few = np.where(load_cycles < 1e3, 2.7, 6.1514 * load_cycles**-0.1192)
    return np.where(load_cycles < 3e6, few, 1.3558 * load_cycles**-0.0178)[()]


@formula(
    "C_L",
    "ratio",
    source=_SHIGLEY + ", eq. 15-14",
    valid={"load_cycles": (1e3, 1e10)},
    outside=_PIECES,
)
def contact_life_factor(load_cycles: Num) -> Num:
    """Pressure that a flank stands for a number of loadings, over that for about a billion."""
    return np.where(load_cycles < 1e4, 2.0, 3.4822 * load_cycles**-0.0602)[()]


@formula(
    "K_R",
    "ratio",
    source=_SHIGLEY + ", eq. 15-19 and 15-20",
    valid={"gear_reliability": (0.9, 0.999)},
    outside="reliability outside 90 to 99.9 %",
)
def bending_reliability_factor(gear_reliability: Num) -> Num:
    """Reliability factor in bending, one at 99 %."""
    fails = np.log10(1.0 - gear_reliability)
    return np.where(gear_reliability < 0.99, 0.70 - 0.15 * fails, 0.50 - 0.25 * fails)[()]


@formula("C_R", "ratio", source=_SHIGLEY)
def contact_reliability_factor(bending_reliability_factor: Num) -> Num:
    """Reliability factor in contact: the root of that in bending."""
    return np.sqrt(bending_reliability_factor)


@formula(
    "K_T",
    "ratio",
    source=_SHIGLEY + ", eq. 15-18",
    valid={"gear_temperature": (273.15, 450.0)},
    outside="colder or hotter than the standard speaks of",
)
def temperature_factor(gear_temperature: Num) -> Num:
    """Loss of strength of gears hotter than 250 °F."""
    fahrenheit = 1.8 * gear_temperature - 459.67
    return np.maximum((460.0 + fahrenheit) / 710.0, 1.0)


@formula("C_p", "contact constant", source="Hertz line contact of equal materials (closed form)")
def elastic_coefficient(youngs_modulus: Num, poisson_ratio: Num) -> Num:
    """Contact constant of a pair of gears of one material."""
    return np.sqrt(youngs_modulus / (2.0 * np.pi * (1.0 - poisson_ratio * poisson_ratio)))


@formula("σ_F", "stress", source=_SHIGLEY + ", eq. 15-3")
def bending_stress(
    pitch_force: Num,
    overload_factor: Num,
    dynamic_factor: Num,
    size_factor: Num,
    load_distribution: Num,
    lengthwise_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    bending_geometry: Num,
) -> Num:
    """Bending stress at the root, from the force at the outer pitch circle."""
    load = pitch_force * overload_factor * dynamic_factor * size_factor * load_distribution
    return load / (tooth_face_width * outer_module * lengthwise_factor * bending_geometry)


@formula("σ_H", "stress", source=_SHIGLEY + ", eq. 15-1")
def contact_stress(
    contact_constant: Num,
    pitch_force: Num,
    overload_factor: Num,
    dynamic_factor: Num,
    contact_size_factor: Num,
    load_distribution: Num,
    crowning_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Pressure between the flanks, from the force at the outer pitch circle."""
    raised = overload_factor * dynamic_factor * contact_size_factor * load_distribution
    face = tooth_face_width * pinion_outer_diameter * contact_geometry
    return contact_constant * np.sqrt(pitch_force * raised * crowning_factor / face)


@formula("s_wt", "stress", source=_SHIGLEY + ", eq. 15-4")
def bending_allowable(
    bending_stress_number: Num,
    bending_life_factor: Num,
    gear_safety: Num,
    temperature_factor: Num,
    bending_reliability_factor: Num,
) -> Num:
    """Bending stress that a tooth may carry."""
    reserve = gear_safety * temperature_factor * bending_reliability_factor
    return bending_stress_number * bending_life_factor / reserve


@formula("s_wc", "stress", source=_SHIGLEY + ", eq. 15-2")
def contact_allowable(
    contact_stress_number: Num,
    contact_life_factor: Num,
    hardness_ratio_factor: Num,
    gear_safety: Num,
    temperature_factor: Num,
    contact_reliability_factor: Num,
) -> Num:
    """Contact pressure that the flanks may carry."""
    reserve = gear_safety * temperature_factor * contact_reliability_factor
    return contact_stress_number * contact_life_factor * hardness_ratio_factor / reserve


@formula("F_tF", "force", source=_SHIGLEY + ", eq. 15-3 turned round")
def bending_pitch_force(
    bending_allowable: Num,
    overload_factor: Num,
    dynamic_factor: Num,
    size_factor: Num,
    load_distribution: Num,
    lengthwise_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    bending_geometry: Num,
) -> Num:
    """Force at the outer pitch circle at which the root reaches its allowable stress."""
    tooth = tooth_face_width * outer_module * lengthwise_factor * bending_geometry
    raised = overload_factor * dynamic_factor * size_factor * load_distribution
    return bending_allowable * tooth / raised


@formula("F_tH", "force", source=_SHIGLEY + ", eq. 15-1 turned round")
def contact_pitch_force(
    contact_allowable: Num,
    contact_constant: Num,
    overload_factor: Num,
    dynamic_factor: Num,
    contact_size_factor: Num,
    load_distribution: Num,
    crowning_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Force at the outer pitch circle at which the flanks reach their allowable pressure."""
    times = contact_allowable / contact_constant
    face = tooth_face_width * pinion_outer_diameter * contact_geometry
    raised = overload_factor * dynamic_factor * contact_size_factor * load_distribution
    return times * times * face / (raised * crowning_factor)


@formula(
    "s_at",
    "stress",
    source=_SHIGLEY + ", through-hardened steel, grade 1",
    valid={"gear_brinell": (180.0, 400.0)},
    outside="through-hardened steel of 180 to 400 HB is what the line was drawn for",
)
def through_hardened_bending(gear_brinell: Num) -> Num:
    """Bending stress number of a gear that is hard all through."""
    return 6894.757293168361 * (44.0 * gear_brinell + 2100.0)


@formula(
    "s_ac",
    "stress",
    source=_SHIGLEY + ", through-hardened steel, grade 1",
    valid={"gear_brinell": (180.0, 400.0)},
    outside="through-hardened steel of 180 to 400 HB is what the line was drawn for",
)
def through_hardened_contact(gear_brinell: Num) -> Num:
    """Contact stress number of a gear that is hard all through."""
    return 6894.757293168361 * (341.0 * gear_brinell + 23620.0)
