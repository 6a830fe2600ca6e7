"""Rolling bearings: how long they run and what they stand still.

Rating life after ISO 281:2007, static rating after ISO 76:2006, and the reliability forms of
Budynas & Nisbett, *Shigley's Mechanical Engineering Design*, chapter 11.  The life exponent is 3
for balls and 10/3 for rollers, point and line contact.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_LIFE = "ISO 281:2007, basic rating life L10 = (C/P)^p million revolutions (from memory)"
_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 11"


@formula("L_10", "count", source=_LIFE)
def life_revolutions(dynamic_rating: Num, equivalent_load: Num, life_exponent: Num) -> Num:
    """Turns that nine of ten bearings reach before they spall."""
    return 1.0e6 * (dynamic_rating / equivalent_load) ** life_exponent


@formula("L_10h", "time", source=_LIFE)
def life_time(dynamic_rating: Num, equivalent_load: Num, life_exponent: Num, speed: Num) -> Num:
    """Running time that nine of ten bearings reach before they spall, at steady speed."""
    turns = 1.0e6 * (dynamic_rating / equivalent_load) ** life_exponent
    return turns * 2.0 * np.pi / speed


@formula("C_10", "force", source=f"{_SHIGLEY}, eq. 11-3 (from memory)")
def required_rating(equivalent_load: Num, life_ratio: Num, life_exponent: Num) -> Num:
    """Catalogue rating needed for a life, nine of ten bearings to reach it.

    The life ratio is wanted turns over the turns that the catalogue rates for: a million for
    ISO ratings, 90 million for some tapered-roller catalogues.
    """
    return equivalent_load * life_ratio ** (1.0 / life_exponent)


@formula(
    "C_10",
    "force",
    source=f"{_SHIGLEY}, eq. 11-6, three-parameter Weibull (from memory)",
    valid={"bearing_reliability": (0.5, 0.9999)},
    outside="the Weibull numbers were fitted to where most bearings live, not to the far tail",
)
def required_rating_weibull(
    equivalent_load: Num,
    life_ratio: Num,
    life_exponent: Num,
    bearing_reliability: Num,
    weibull_offset: Num,
    weibull_scale: Num,
    weibull_slope: Num,
) -> Num:
    """Catalogue rating needed for a life at a wanted chance to reach it.

    Shigley's numbers for a rating at a million turns: offset 0.02, scale (θ - x₀) 4.439,
    slope 1.483.
    """
    spread = np.log(1.0 / bearing_reliability) ** (1.0 / weibull_slope)
    reached = weibull_offset + weibull_scale * spread
    result: Num = equivalent_load * (life_ratio / reached) ** (1.0 / life_exponent)
    return result


@formula("R", "ratio", source=f"{_SHIGLEY}, three-parameter Weibull solved for reliability")
def reliability_reached(
    dynamic_rating: Num,
    equivalent_load: Num,
    life_ratio: Num,
    life_exponent: Num,
    weibull_offset: Num,
    weibull_scale: Num,
    weibull_slope: Num,
) -> Num:
    """Chance that a bearing of known rating reaches a wanted life."""
    used = life_ratio * (equivalent_load / dynamic_rating) ** life_exponent
    beyond = np.maximum(used - weibull_offset, 0.0) / weibull_scale
    result: Num = np.exp(-(beyond**weibull_slope))
    return result


@formula(
    "a_1",
    "ratio",
    source="three-parameter Weibull behind ISO 281:2007 table 12 (e = 1.5, C = 0.05, "
    "ISO/TR 1281-2; from memory), rounds to every value of the table",
    valid={"bearing_reliability": (0.9, 0.9995)},
    outside="ISO 281 gives the factor from 90 to 99.95 percent only",
)
def reliability_factor(bearing_reliability: Num) -> Num:
    """Factor that shortens the rating life when more than nine of ten must reach it."""
    chance = np.log(1.0 / bearing_reliability) / np.log(1.0 / 0.9)
    result: Num = 0.95 * chance ** (2.0 / 3.0) + 0.05
    return result


@formula(
    "P",
    "force",
    source="ISO 281:2007, dynamic equivalent radial load with limit e (from memory)",
)
def equivalent_load(
    bearing_radial_load: Num,
    bearing_axial_load: Num,
    radial_factor: Num,
    axial_factor: Num,
    axial_limit: Num,
) -> Num:
    """Plain radial load that wears a bearing like its radial and axial load together.

    Axial load below the limit share costs nothing.  Single-row tapered bearings have 0.4 as
    their radial factor.
    """
    both = radial_factor * bearing_radial_load + axial_factor * bearing_axial_load
    result: Num = np.where(
        bearing_axial_load > axial_limit * bearing_radial_load, both, bearing_radial_load
    )[()]
    return result


@formula("P_0", "force", source="ISO 76:2006, static equivalent radial load (from memory)")
def static_equivalent_load(
    bearing_radial_load: Num,
    bearing_axial_load: Num,
    static_radial_factor: Num,
    static_axial_factor: Num,
) -> Num:
    """Plain radial load that dents a standing bearing like both loads together."""
    both = static_radial_factor * bearing_radial_load + static_axial_factor * bearing_axial_load
    result: Num = np.maximum(both, bearing_radial_load)
    return result


@formula("s_0", "ratio", source="ISO 76:2006, static safety factor S0 = C0/P0 (from memory)")
def static_safety(static_rating: Num, static_load: Num) -> Num:
    """How far a shock stays below what dents the races; below one they take a mark."""
    return static_rating / static_load


@formula(
    "P_m", "force", source="linear damage (Palmgren-Miner) with the life exponent, closed form"
)
def mean_load(
    first_block_load: Num,
    first_block_share: Num,
    second_block_load: Num,
    second_block_share: Num,
    third_block_load: Num,
    third_block_share: Num,
    life_exponent: Num,
) -> Num:
    """Steady load that costs as much life as three loads with their shares of the turns.

    The shares are of turns, not of time; they need not add up to one.
    """
    cost = (
        first_block_share * first_block_load**life_exponent
        + second_block_share * second_block_load**life_exponent
        + third_block_share * third_block_load**life_exponent
    )
    turns = first_block_share + second_block_share + third_block_share
    result: Num = (cost / turns) ** (1.0 / life_exponent)
    return result
