"""Welds that carry torque and bending: tube to centre, plug welds, brackets on a tube.

Fillet welds are lines of unit width times the throat 0.707 h, after Budynas & Nisbett, Shigley's
Mechanical Engineering Design, chapter 9, tables 9-1 and 9-2.  All stress on the throat is counted
as shear.  The allowables are those of the welding code for static load on sound welds with the
proper filler; steel welded to cast iron does not earn them.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_TORSION = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 8th ed., table 9-1 (read)"
_BENDING = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed., table 9-2 (read)"


@formula("A_w", "area", source=_TORSION)
def round_fillet_area(weld_leg: Num, weld_diameter: Num) -> Num:
    """Throat area of a fillet weld all the way round a tube."""
    return 0.707 * np.pi * weld_leg * weld_diameter


@formula("τ_t", "stress", source=_TORSION)
def round_fillet_torsion_shear(torque: Num, weld_leg: Num, weld_diameter: Num) -> Num:
    """Throat stress of a fillet weld round a tube that is twisted."""
    return 2.0 * torque / (0.707 * np.pi * weld_leg * weld_diameter**2)


@formula("T_w", "torque", source=_TORSION)
def round_fillet_torque(allowable_shear: Num, weld_leg: Num, weld_diameter: Num) -> Num:
    """Torque that a fillet weld round a tube carries at a given throat stress."""
    return 0.5 * 0.707 * np.pi * allowable_shear * weld_leg * weld_diameter**2


@formula(
    "τ_b",
    "stress",
    source="line of unit width round a circle, I_u = π r³ (closed form)",
)
def round_fillet_bending_shear(moment: Num, weld_leg: Num, weld_diameter: Num) -> Num:
    """Throat stress of a fillet weld round a tube that is bent."""
    return 4.0 * moment / (0.707 * np.pi * weld_leg * weld_diameter**2)


@formula("τ_d", "stress", source="mean shear on the throat (closed form)")
def weld_direct_shear(force: Num, throat_area: Num) -> Num:
    """Mean throat stress from a force across the weld."""
    return force / throat_area


@formula("τ_w", "stress", source="vector sum on the throat (closed form)")
def round_fillet_combined_shear(
    weld_torsion_shear: Num, weld_cross_shear: Num, weld_bending_shear: Num
) -> Num:
    """Twist, cross force and bending at the worst spot of a weld round a tube.

    Twist and cross force run along the weld and may add; bending stands square to them.
    """
    along = weld_torsion_shear + weld_cross_shear
    return np.sqrt(along**2 + weld_bending_shear**2)


@formula("τ_p", "stress", source="plugs as pins that share alike (closed form)")
def plug_shear_stress(torque: Num, plug_count: Num, plug_diameter: Num, outer_diameter: Num) -> Num:
    """Shear in plug welds at the skin of a tube that is twisted out of its centre."""
    return 8.0 * torque / (np.pi * plug_count * plug_diameter**2 * outer_diameter)


@formula("T_p", "torque", source="plugs as pins that share alike (closed form)")
def plug_torque(
    allowable_shear: Num, plug_count: Num, plug_diameter: Num, outer_diameter: Num
) -> Num:
    """Torque that plug welds carry at a given shear stress, without any help from a press fit."""
    return np.pi / 8.0 * allowable_shear * plug_count * plug_diameter**2 * outer_diameter


@formula("A_w", "area", source=_TORSION)
def pair_fillet_area(weld_leg: Num, weld_length: Num) -> Num:
    """Throat area of two equal parallel fillet welds: both edges of a bracket."""
    return 1.414 * weld_leg * weld_length


@formula("τ_w", "stress", source=_TORSION)
def pair_fillet_twist_shear(
    force: Num, force_lever: Num, weld_leg: Num, weld_length: Num, weld_spacing: Num
) -> Num:
    """Worst throat stress of two parallel welds under a force beside them, in their own plane.

    The force runs along the welds and its lever is measured from the middle of the pair.  It
    shears both welds and also turns the bracket on its seat.
    """
    area = 1.414 * weld_leg * weld_length
    polar = 0.707 * weld_leg * weld_length * (3.0 * weld_spacing**2 + weld_length**2) / 6.0
    along = force / area + 0.5 * force * force_lever * weld_spacing / polar
    across = 0.5 * force * force_lever * weld_length / polar
    return np.sqrt(along**2 + across**2)


@formula("τ_b", "stress", source=_BENDING)
def pair_fillet_spread_bending_shear(
    moment: Num, weld_leg: Num, weld_length: Num, weld_spacing: Num
) -> Num:
    """Throat stress of two parallel welds, one pulled and one pushed by a bending moment.

    This is the strong way: the moment works on the spacing between the welds.
    """
    return moment / (0.707 * weld_leg * weld_length * weld_spacing)


@formula("τ_b", "stress", source=_BENDING)
def pair_fillet_edge_bending_shear(moment: Num, weld_leg: Num, weld_length: Num) -> Num:
    """Throat stress at the ends of two parallel welds bent along their own length."""
    return 3.0 * moment / (0.707 * weld_leg * weld_length**2)


@formula(
    "f", "line load", source="throat 0.707 of the leg (closed form); Shigley, table 9-6 (read)"
)
def fillet_force_per_length(weld_leg: Num, allowable_shear: Num) -> Num:
    """Force that each length of a fillet weld carries at a given throat stress."""
    return 0.707 * weld_leg * allowable_shear


@formula(
    "τ_all",
    "stress",
    source="welding code, 0.30 of the electrode's tensile strength, behind Shigley, 9th ed., "
    "table 9-6 (factor from memory, table read)",
)
def electrode_allowable_shear(electrode_strength: Num) -> Num:
    """Throat stress that the welding code allows in weld metal under steady load."""
    return 0.30 * electrode_strength


@formula(
    "τ_all",
    "stress",
    source="welding code as in Shigley, table 9-4 (read in a solution to chapter 9)",
)
def base_allowable_shear(tensile_strength: Num, yield_strength: Num) -> Num:
    """Shear that the welding code allows in the metal beside a fillet weld.

    Use the hot-rolled strength: heat takes cold work out of a tube next to the weld.
    """
    return np.minimum(0.30 * tensile_strength, 0.40 * yield_strength)


@formula("S_sy", "stress", source="distortion energy, 0.577 S_y (closed form)")
def weld_shear_yield(yield_strength: Num) -> Num:
    """Shear at which weld metal or the metal beside it yields: the true limit, not the allowed."""
    return 0.577 * yield_strength


@formula("T_w", "torque", source="two fillets along a tube as a couple (derived)")
def perch_weld_torque(
    allowable_shear: Num, weld_leg: Num, weld_length: Num, outer_diameter: Num
) -> Num:
    """Torque about the tube that a perch or bracket stands, one fillet along each of its sides."""
    throat = weld_leg / np.sqrt(2.0)
    result: Num = allowable_shear * throat * weld_length * outer_diameter
    return result
