"""How wide a tire is: on its measuring rim, on another rim, in use, and where it meets the road.

Widths are over the sidewalls.  A tire measured on the very rim, at its pressure, beats all of this.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_UN_30 = "UN Regulation No. 30, 6.1.1.1 (read in an amendment of it)"
_RIM_RULE = (
    "tire-industry rule of thumb, 0.2 in for each half inch of rim (read, with a table of one "
    "size); the same factor 0.4 stands in UN Regulation No. 30, 6.1.1.1 (read)"
)


@formula(
    "W_t",
    "length",
    source=_UN_30,
    valid={"theoretical_rim_share": (0.6, 1.0)},
    outside="tires for cars are laid out on rims of 0.7 to 0.9 of their section",
)
def theoretical_rim(section_width: Num, theoretical_rim_share: Num) -> Num:
    """Rim on which the tire would have just its nominal section width."""
    return section_width * theoretical_rim_share


@formula("S_m", "length", source=_UN_30)
def design_section(section_width: Num, measuring_rim: Num, theoretical_rim: Num) -> Num:
    """Section width on the measuring rim, from the nominal one on the sidewall."""
    return section_width + 0.4 * (measuring_rim - theoretical_rim)


@formula("S", "length", source=_RIM_RULE)
def section_on_rim(measured_section: Num, rim_width: Num, measuring_rim: Num) -> Num:
    """Section width on a rim of another width than the measuring rim.

    Holds within the range of rims that the tire's maker allows; outside it is neither safe nor
    known.
    """
    return measured_section + 0.4 * (rim_width - measuring_rim)


@formula(
    "S_x",
    "length",
    source="4 % for radial and 6 % for bias tires, UN Regulation No. 30, 6.1.4 (from memory)",
    valid={"width_allowance": (0.0, 0.1)},
    outside="no car tire may be so much wider than its table says",
)
def widest_section(mounted_section: Num, width_allowance: Num) -> Num:
    """Widest that a tire of this size may be made, lettering and ribs included."""
    return mounted_section * (1.0 + width_allowance)


@formula(
    "R_g",
    "length",
    source="elastic growth with the square of the speed (derived: thin ring, closed form)",
    valid={"growth_share": (0.0, 0.15), "road_speed": (0.0, None)},
    outside="a ring that grows so much is no longer elastic in proportion",
)
def grown_radius(free_radius: Num, growth_share: Num, road_speed: Num, growth_speed: Num) -> Num:
    """Free radius at speed, from the growth seen at one speed (a slick on film or a stand).

    Radial tires hardly grow; bias slicks do, and each has its own number.
    """
    times_speed = road_speed / growth_speed
    return free_radius * (1.0 + growth_share * times_speed * times_speed)


@formula("R_0", "length", source="half the diameter, definition")
def free_radius_of(free_diameter: Num) -> Num:
    """Radius of the tire off the ground."""
    return 0.5 * free_diameter


@formula(
    "R_l",
    "length",
    source="spring of constant rate (closed form)",
    valid={"tire_load": (0.0, None)},
    outside="a tire off the ground has its free radius",
)
def loaded_radius_of(free_radius: Num, tire_load: Num, tire_spring_rate: Num) -> Num:
    """Hub height above the ground under a load; a tire stiffens little until it bottoms."""
    return free_radius - tire_load / tire_spring_rate


@formula(
    "W_tr",
    "length",
    source="0.75 to 0.9 of the section for street tires, common practice, no source",
    valid={"tread_share": (0.6, 1.0)},
    outside="no tire for a car has a tread so narrow, or one wider than itself",
)
def tread_of_section(section_width: Num, tread_share: Num) -> Num:
    """Width of the tread when it was not measured."""
    return section_width * tread_share


@formula("δ_t", "length", source="difference of two heights, definition")
def tire_deflection(free_radius: Num, loaded_radius: Num) -> Num:
    """How much the tire is squashed: free radius less hub height above ground."""
    return free_radius - loaded_radius


@formula("h_s", "length", source="difference of two radii, definition")
def sidewall_height(free_radius: Num, rim_lip_radius: Num) -> Num:
    """Free sidewall between the edge of the rim and the tread."""
    return free_radius - rim_lip_radius


@formula("b_t", "length", source="half widths subtracted, closed form")
def sidewall_bulge(mounted_section: Num, rim_width: Num, tread_width: Num) -> Num:
    """How far a sidewall stands out past the straight line from bead to tread edge."""
    return 0.5 * mounted_section - 0.25 * (rim_width + tread_width)


@formula(
    "b_l",
    "length",
    source="circular arc of constant length on a shorter chord (derived; series inverted)",
    valid={"tire_deflection": (0.0, None), "sidewall_bulge": (0.0, None)},
    outside="a tire that is lifted, or drawn narrow over a wide rim, does not bulge like this",
)
def loaded_bulge(sidewall_height: Num, sidewall_bulge: Num, tire_deflection: Num) -> Num:
    """Bulge of a sidewall over the contact patch, all deflection taken by the sidewall.

    An upper limit: the tread bends in too, and takes part of the deflection.
    """
    chord = sidewall_height - tire_deflection
    free_slope = np.maximum(2.0 * sidewall_bulge / sidewall_height, 1e-6)
    free_length = sidewall_height * (1.0 + free_slope**2) * np.arctan(free_slope) / free_slope
    excess = 1.5 * (free_length / chord - 1.0)
    result: Num = 0.5 * chord * np.sqrt(excess * (1.0 + 0.2 * excess))
    return result


@formula("S_l", "length", source="two sidewalls that bulge alike, closed form")
def loaded_section(mounted_section: Num, sidewall_bulge: Num, loaded_bulge: Num) -> Num:
    """Width of the tire over the contact patch."""
    return mounted_section + 2.0 * (loaded_bulge - sidewall_bulge)
