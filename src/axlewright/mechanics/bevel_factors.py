"""Factors that rate a bevel gear tooth after ANSI/AGMA 2003, as Shigley ch. 15 has them.

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
    source=_SHIGLEY,
    valid={"gear_quality": (5.0, 11.0), "pitch_line_speed": (0.0, None)},
    outside="quality numbers 5 to 11 are what the formula was drawn for",
)
def gear_dynamic_factor(pitch_line_speed: Num, gear_quality: Num) -> Num:
    """Rise of the tooth load by inaccurate teeth at speed."""
    b = 0.25 * (12.0 - gear_quality) ** (2.0 / 3.0)
    a = 50.0 + 56.0 * (1.0 - b)
    return ((a + np.sqrt(pitch_line_speed / 0.00508)) / a) ** b


@formula(
    "v_max",
    "speed",
    source=_SHIGLEY,
    valid={"gear_quality": (5.0, 11.0)},
    outside="the speed factor is given for quality numbers 5 to 11",
)
def dynamic_speed_limit(gear_quality: Num) -> Num:
    """Pitch-line speed to which the dynamic factor may be used."""
    b = 0.25 * (12.0 - gear_quality) ** (2.0 / 3.0)
    a = 50.0 + 56.0 * (1.0 - b)
    return 0.00508 * (a + gear_quality - 3.0) ** 2


@formula(
    "K_s",
    "ratio",
    source=_SHIGLEY,
    valid={"outer_module": (0.0254 / 16.0, 0.0254 / 0.5)},
    outside="diametral pitch outside 0.5 to 16",
)
def bending_size_factor(outer_module: Num) -> Num:
    """Size factor in bending; half for teeth finer than 16 to the inch."""
    coarse = 0.4867 + 0.2132 * outer_module / 0.0254
    return np.where(outer_module < 0.0254 / 16.0, 0.5, coarse)[()]


@formula("C_s", "ratio", source=_SHIGLEY)
def contact_size_factor(tooth_face_width: Num) -> Num:
    """Size factor in contact, between 0.5 and 1."""
    middle = 0.125 * tooth_face_width / 0.0254 + 0.4375
    return np.minimum(np.maximum(middle, 0.5), 1.0)


@formula(
    "K_m",
    "ratio",
    source=_SHIGLEY,
    valid={"gear_mounting_factor": (1.0, 1.25)},
    outside="mounting factors run from 1.00 (both straddle) over 1.10 (one) to 1.25 (none)",
)
def face_load_factor(tooth_face_width: Num, gear_mounting_factor: Num) -> Num:
    """Rise of the load at one end of the face by soft mountings."""
    inches = tooth_face_width / 0.0254
    return gear_mounting_factor + 0.0036 * inches * inches


@formula(
    "K_x",
    "ratio",
    source=_SHIGLEY,
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
    source=_SHIGLEY + ", steeper line",
    valid={"gear_cycles": (1e2, 1e10)},
    outside=_PIECES,
)
def bending_life_factor(gear_cycles: Num) -> Num:
    """Stress that a tooth root stands for a number of loadings, over that for 10 million."""
    few = np.where(gear_cycles < 1e3, 2.7, 6.1514 * gear_cycles**-0.1192)
    return np.where(gear_cycles < 3e6, few, 1.6831 * gear_cycles**-0.0323)[()]


@formula(
    "K_L",
    "ratio",
    source=_SHIGLEY + ", flatter line",
    valid={"gear_cycles": (1e2, 1e10)},
    outside=_PIECES,
)
def bending_life_factor_flat(gear_cycles: Num) -> Num:
    """The same with the flatter of the two lines that the standard draws beyond 3 million.

    Which of them is for general and which for critical service, recollections differ on; the
    steeper one is the safe choice.
    """
    few = np.where(gear_cycles < 1e3, 2.7, 6.1514 * gear_cycles**-0.1192)
    return np.where(gear_cycles < 3e6, few, 1.3558 * gear_cycles**-0.0178)[()]


@formula(
    "C_L",
    "ratio",
    source=_SHIGLEY,
    valid={"gear_cycles": (1e3, 1e10)},
    outside=_PIECES,
)
def contact_life_factor(gear_cycles: Num) -> Num:
    """Pressure that a flank stands for a number of loadings, over that for about a billion."""
    return np.where(gear_cycles < 1e4, 2.0, 3.4822 * gear_cycles**-0.0602)[()]


@formula(
    "K_R",
    "ratio",
    source=_SHIGLEY,
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
    source=_SHIGLEY,
    valid={"gear_temperature": (273.15, 450.0)},
    outside="colder or hotter than the standard speaks of",
)
def gear_temperature_factor(gear_temperature: Num) -> Num:
    """Loss of strength of gears hotter than 250 °F."""
    fahrenheit = 1.8 * gear_temperature - 459.67
    return np.maximum((460.0 + fahrenheit) / 710.0, 1.0)


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
