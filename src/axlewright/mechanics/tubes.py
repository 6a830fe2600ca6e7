"""Round tubes: section properties, stress in bending and torsion, mass, and how thin is too thin.

The housing tubes and the driveshaft are round tubes given by outside diameter and wall.  The
sections are exact (difference of two circles), not the thin-wall approximation: a housing tube of
3 in by 1/4 in is thick enough for the mean-radius formula to read 8 % low in torsion.  Bending and
twist are put together by the distortion energy of :mod:`axlewright.mechanics.combined`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_WALL = {"wall": (0.0, None), "outer_diameter": (0.0, None)}
_WALL_WORDS = "a tube has a wall and a diameter above zero"


@formula("A", "area", source="closed form", valid=_WALL, outside=_WALL_WORDS)
def tube_area(outer_diameter: Num, wall: Num) -> Num:
    """Metal area of a round tube cut square across."""
    return np.pi * wall * (outer_diameter - wall)


@formula("I", "second moment", source="closed form", valid=_WALL, outside=_WALL_WORDS)
def tube_second_moment(outer_diameter: Num, wall: Num) -> Num:
    """Second moment of a round tube: how its section resists being bent."""
    inner = outer_diameter - 2.0 * wall
    return np.pi / 64.0 * (outer_diameter**4 - inner**4)


@formula("J", "second moment", source="closed form", valid=_WALL, outside=_WALL_WORDS)
def tube_polar_moment(outer_diameter: Num, wall: Num) -> Num:
    """Polar moment of a round tube: how its section resists being twisted."""
    inner = outer_diameter - 2.0 * wall
    return np.pi / 32.0 * (outer_diameter**4 - inner**4)


@formula("S", "section modulus", source="closed form", valid=_WALL, outside=_WALL_WORDS)
def tube_section_modulus(outer_diameter: Num, wall: Num) -> Num:
    """Section modulus of a round tube: bending moment over it is the stress at the skin."""
    inner = outer_diameter - 2.0 * wall
    return np.pi / 32.0 * (outer_diameter**4 - inner**4) / outer_diameter


@formula("Z_p", "section modulus", source="closed form", valid=_WALL, outside=_WALL_WORDS)
def tube_plastic_modulus(outer_diameter: Num, wall: Num) -> Num:
    """Plastic modulus of a round tube: yield stress times it is the moment that folds it.

    It exceeds the section modulus by the share 1.27 (paper-thin) to 1.70 (solid): so much load is
    left between the first set in the skin and a hinge.
    """
    inner = outer_diameter - 2.0 * wall
    return (outer_diameter**3 - inner**3) / 6.0


@formula("σ_b", "stress", source="beam theory (closed form)")
def bending_stress(moment: Num, section_modulus: Num) -> Num:
    """Bending stress at the outer skin."""
    return moment / section_modulus


@formula("τ", "stress", source="Saint-Venant torsion of round bars (closed form)")
def torsion_stress(torque: Num, outer_diameter: Num, polar_moment: Num) -> Num:
    """Shear stress at the outer skin of a round tube or bar under torque."""
    return 0.5 * torque * outer_diameter / polar_moment


@formula("φ", "angle", source="Saint-Venant torsion of round bars (closed form)")
def tube_twist(torque: Num, length: Num, shear_modulus: Num, polar_moment: Num) -> Num:
    """Angle by which a length of round tube or bar winds up under torque."""
    return torque * length / (shear_modulus * polar_moment)


@formula("m_l", "linear density", source="closed form")
def tube_mass_per_length(section_area: Num, density: Num) -> Num:
    """Mass of a tube for each length of it."""
    return section_area * density


@formula(
    "D/t",
    "ratio",
    source="definition; limits 0.07 E/S_y (compact) and 0.31 E/S_y (slender) as in AISC 360 "
    "for round tubes in bending (from memory)",
    valid={"outer_diameter": (0.0, None), "wall": (0.0, None)},
    outside=_WALL_WORDS,
)
def wall_slenderness(outer_diameter: Num, wall: Num) -> Num:
    """Outside diameter over wall: the number that decides whether a tube dents or bends."""
    return outer_diameter / wall


@formula(
    "(D/t)_c",
    "ratio",
    source="AISC 360, limit of a compact round section in bending, 0.07 E/S_y (from memory)",
)
def compact_wall_limit(youngs_modulus: Num, yield_strength: Num) -> Num:
    """Greatest diameter over wall at which a tube still folds as a full hinge without buckling.

    Housing tubes stand near 10, steel driveshaft tubes near 35: only the latter reach the limit.
    """
    return 0.07 * youngs_modulus / yield_strength


@formula(
    "(D/t)_r",
    "ratio",
    source="AISC 360, limit of a slender round section in bending, 0.31 E/S_y (from memory)",
)
def slender_wall_limit(youngs_modulus: Num, yield_strength: Num) -> Num:
    """Diameter over wall above which the wall buckles before the skin yields."""
    return 0.31 * youngs_modulus / yield_strength
