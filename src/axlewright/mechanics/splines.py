"""Involute splines with 30° pressure angle: sizes, and the stresses of their teeth.

Sizes follow ANSI B92.1 (flat or fillet root, side fit), stresses follow Dudley and Machinery's
Handbook.  A pitch written 24/48 in the shop is the diametral pitch 24 per inch; the second
number is only twice the first.  What a splined shaft stands is judged by torsion at its spline
root (see :mod:`shafts`); hubs and the handbook's allowables are in :mod:`spline_handbook`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_B92 = "ANSI B92.1-1970 (R1993), table of formulas (as reproduced in a secondary copy)"
_FILLET = (
    f"{_B92}; (N−2)/P for 16/32 and finer from Deutschman, Michels & Wilson, Machine Design, "
    "1975, pp. 374–376 (as reproduced in a secondary copy)"
)
_DUDLEY = "Dudley, When Splines Need Stress Control (as reproduced in a secondary copy)"


@formula("D", "length", source=_B92)
def pitch_diameter(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Pitch diameter of a spline."""
    return spline_teeth / spline_pitch


@formula("D_b", "length", source=_B92)
def base_diameter(spline_teeth: Num, spline_pitch: Num, spline_pressure_angle: Num) -> Num:
    """Base circle from which the flanks of the teeth are rolled."""
    return spline_teeth / spline_pitch * np.cos(spline_pressure_angle)


@formula("D_o", "length", source=_B92)
def external_major_diameter(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Outside diameter of the splined shaft end: what a caliper measures first."""
    return (spline_teeth + 1.0) / spline_pitch


@formula("D_i", "length", source=_B92)
def internal_minor_diameter(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Bore of the splined hub across the tips of its teeth."""
    return (spline_teeth - 1.0) / spline_pitch


@formula("D_ri", "length", source=_B92)
def internal_root_diameter_flat(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Root diameter of a splined hub, flat root, side fit."""
    return (spline_teeth + 1.35) / spline_pitch


@formula("D_ri", "length", source=_B92)
def internal_root_diameter_fillet(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Root diameter of a splined hub, fillet root, side fit."""
    return (spline_teeth + 1.8) / spline_pitch


@formula("D_re", "length", source=_B92)
def external_root_diameter_flat(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Root diameter of the splined shaft end, flat root: the section that twists off."""
    return (spline_teeth - 1.35) / spline_pitch


@formula("D_re", "length", source=_FILLET)
def external_root_diameter_fillet(spline_teeth: Num, spline_pitch: Num) -> Num:
    """Root diameter of the splined shaft end, fillet root: the section that twists off.

    Pitches up to 12/24 take 1.8 off the tooth count, 16/32 and finer take 2.  No pitch stands
    between, so the switch is put at 14 per inch.
    """
    return np.where(
        0.0254 * spline_pitch < 14.0,
        (spline_teeth - 1.8) / spline_pitch,
        (spline_teeth - 2.0) / spline_pitch,
    )[()]


@formula("c_F", "length", source=_B92)
def form_clearance(spline_pitch_diameter: Num) -> Num:
    """Clearance kept free beyond the working flank: .001 of the diameter, .002 to .010 in."""
    return np.minimum(np.maximum(0.001 * spline_pitch_diameter, 0.0000508), 0.000254)


@formula("D_Fe", "length", source=_B92)
def external_form_diameter(spline_teeth: Num, spline_pitch: Num, spline_form_clearance: Num) -> Num:
    """Diameter of the shaft's teeth down to which the flank must be true."""
    return (spline_teeth - 1.0) / spline_pitch - 2.0 * spline_form_clearance


@formula("D_Fi", "length", source=_B92)
def internal_form_diameter(spline_teeth: Num, spline_pitch: Num, spline_form_clearance: Num) -> Num:
    """Diameter of the hub's teeth up to which the flank must be true."""
    return (spline_teeth + 1.0) / spline_pitch + 2.0 * spline_form_clearance


@formula("t", "length", source=_B92)
def tooth_thickness(spline_pitch: Num) -> Num:
    """Thickness of a tooth along the pitch circle, basic size before any fit allowance."""
    return np.pi / (2.0 * spline_pitch)


@formula("h", "length", source="Machinery's Handbook (as reproduced in a secondary copy)")
def tooth_height_flat(spline_pitch: Num) -> Num:
    """Height over which two flat-root teeth touch."""
    return 0.9 / spline_pitch


@formula("h", "length", source="Machinery's Handbook (as reproduced in a secondary copy)")
def tooth_height_fillet(spline_pitch: Num) -> Num:
    """Height over which two fillet-root teeth touch."""
    return 1.0 / spline_pitch


@formula("τ_t", "stress", source=f"{_DUDLEY}; share of teeth made an argument")
def tooth_shear(
    torque: Num,
    spline_load_distribution: Num,
    spline_teeth: Num,
    spline_pitch_diameter: Num,
    spline_length: Num,
    spline_tooth_thickness: Num,
    share_of_teeth: Num,
) -> Num:
    """Shear stress through the teeth at the pitch circle.

    The handbook's factor 4 lets half of the teeth carry: a share of 0.5 here.
    """
    return (
        2.0
        * torque
        * spline_load_distribution
        / (
            share_of_teeth
            * spline_pitch_diameter
            * spline_teeth
            * spline_length
            * spline_tooth_thickness
        )
    )


@formula("σ_c", "stress", source=f"{_DUDLEY}; share of teeth made an argument")
def tooth_bearing(
    torque: Num,
    spline_load_distribution: Num,
    spline_teeth: Num,
    spline_pitch_diameter: Num,
    spline_length: Num,
    spline_tooth_height: Num,
    share_of_teeth: Num,
) -> Num:
    """Pressure on the flanks of the teeth.

    The handbook lets all teeth share the flank pressure: a share of 1 here.
    """
    return (
        2.0
        * torque
        * spline_load_distribution
        / (
            share_of_teeth
            * spline_pitch_diameter
            * spline_teeth
            * spline_length
            * spline_tooth_height
        )
    )


@formula("T", "torque", source=f"{_DUDLEY}; tooth shear solved for the torque")
def torque_at_tooth_shear(
    spline_shear_limit: Num,
    spline_load_distribution: Num,
    spline_teeth: Num,
    spline_pitch_diameter: Num,
    spline_length: Num,
    spline_tooth_thickness: Num,
    share_of_teeth: Num,
) -> Num:
    """Torque at which the teeth reach a shear stress."""
    return (
        spline_shear_limit
        * share_of_teeth
        * spline_pitch_diameter
        * spline_teeth
        * spline_length
        * spline_tooth_thickness
        / (2.0 * spline_load_distribution)
    )


@formula("T", "torque", source=f"{_DUDLEY}; flank pressure solved for the torque")
def torque_at_tooth_bearing(
    spline_bearing_limit: Num,
    spline_load_distribution: Num,
    spline_teeth: Num,
    spline_pitch_diameter: Num,
    spline_length: Num,
    spline_tooth_height: Num,
    share_of_teeth: Num,
) -> Num:
    """Torque at which the flanks reach a pressure."""
    return (
        spline_bearing_limit
        * share_of_teeth
        * spline_pitch_diameter
        * spline_teeth
        * spline_length
        * spline_tooth_height
        / (2.0 * spline_load_distribution)
    )
