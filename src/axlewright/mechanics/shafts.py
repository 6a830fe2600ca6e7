"""Round shafts in torsion and bending: stress, twist, first yield and full yield.

First yield is where a shaft takes a set; it breaks later.  A ductile solid shaft carries up to
4/3 of its yield torque before the whole section flows.  Elastic torsion follows any strength of
materials text; the step-hardened shaft is a hard case on a soft core with a sharp border, no
residual stress, as Fett uses it to reason about case depth.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_TORSION = "elementary torsion of round bars, closed form"
_PLASTIC = "elastic–perfectly plastic torsion of round bars, closed form"
_STEP = (
    "closed form on the model of Fett, Importance of Induction Hardened Case Depth in Torsional "
    "Applications, Heat Treating Progress, Oct. 2009: step from case to core, no residual stress"
)


@formula("J", "second moment", source=_TORSION)
def polar_moment(outer_diameter: Num, inner_diameter: Num) -> Num:
    """Polar second moment of a round bar or tube."""
    return np.pi / 32.0 * (outer_diameter**4 - inner_diameter**4)


@formula("τ", "stress", source=_TORSION)
def torsion_shear(torque: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Shear stress at the surface of a round bar or tube under torque."""
    return 16.0 * torque * outer_diameter / (np.pi * (outer_diameter**4 - inner_diameter**4))


@formula("T_y", "torque", source=_TORSION)
def elastic_torque(shear_yield: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Torque at which the surface of a shaft first yields: beyond it, it takes a set."""
    return np.pi * shear_yield * (outer_diameter**4 - inner_diameter**4) / (16.0 * outer_diameter)


@formula("T_p", "torque", source=_PLASTIC)
def fully_plastic_torque(shear_yield: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Torque at which the whole section of a ductile shaft flows and it winds up."""
    return np.pi / 12.0 * shear_yield * (outer_diameter**3 - inner_diameter**3)


@formula("k_t", "torsional stiffness", source=_TORSION)
def torsional_stiffness(
    shear_modulus: Num, length: Num, outer_diameter: Num, inner_diameter: Num
) -> Num:
    """Torque for each radian by which a shaft twists."""
    return np.pi / 32.0 * shear_modulus * (outer_diameter**4 - inner_diameter**4) / length


@formula("φ", "angle", source=_TORSION)
def twist(
    torque: Num, length: Num, shear_modulus: Num, outer_diameter: Num, inner_diameter: Num
) -> Num:
    """Angle by which a shaft twists under torque, while it springs back."""
    return (
        32.0 * torque * length / (np.pi * shear_modulus * (outer_diameter**4 - inner_diameter**4))
    )


@formula("k_t", "torsional stiffness", source="springs one behind the other, closed form")
def stiffness_in_series(first_stiffness: Num, second_stiffness: Num) -> Num:
    """Stiffness of two shafts one behind the other: both twist under the same torque."""
    return first_stiffness * second_stiffness / (first_stiffness + second_stiffness)


@formula("k_t", "torsional stiffness", source="springs side by side, closed form")
def stiffness_in_parallel(first_stiffness: Num, second_stiffness: Num) -> Num:
    """Stiffness of two shafts side by side: both twist by the same angle."""
    return first_stiffness + second_stiffness


@formula(
    "T_y",
    "torque",
    source=_STEP,
    valid={"case_depth": (0.0, None)},
    outside="a case has no negative depth",
)
def step_hardened_yield_torque(
    case_yield: Num, core_yield: Num, outer_diameter: Num, case_depth: Num
) -> Num:
    """Torque at which a hard-cased shaft first yields, at its surface or under its case.

    Stress grows with radius, so the core may yield first although the surface is stressed more.
    """
    core_share = np.maximum(1.0 - 2.0 * case_depth / outer_diameter, 1e-9)
    return np.pi / 16.0 * outer_diameter**3 * np.minimum(case_yield, core_yield / core_share)


@formula(
    "T_p",
    "torque",
    source=_STEP,
    valid={"case_depth": (0.0, None)},
    outside="a case has no negative depth",
)
def step_hardened_plastic_torque(
    case_yield: Num, core_yield: Num, outer_diameter: Num, case_depth: Num
) -> Num:
    """Torque at which case and core of a hard-cased shaft both flow.

    Takes the case to be ductile enough to wait for the core; a very hard case may crack before.
    """
    core_diameter = np.maximum(outer_diameter - 2.0 * case_depth, 0.0)
    return (
        np.pi
        / 12.0
        * (case_yield * (outer_diameter**3 - core_diameter**3) + core_yield * core_diameter**3)
    )


@formula("t_c", "length", source=_STEP)
def balanced_case_depth(case_yield: Num, core_yield: Num, outer_diameter: Num) -> Num:
    """Case depth at which surface and core yield together; deeper gains no first yield."""
    return 0.5 * outer_diameter * np.maximum(1.0 - core_yield / case_yield, 0.0)


@formula(
    "φ_s",
    "angle",
    source=_PLASTIC,
    valid={"overload": (0.0, 1.33)},
    outside="at 4/3 of the yield torque a solid shaft winds up without limit",
)
def permanent_set(overload: Num, yield_twist: Num) -> Num:
    """Set that a solid shaft keeps after it was twisted beyond yield once and let go."""
    loaded = np.maximum(overload, 1.0)
    elastic_core_cubed = np.maximum(4.0 - 3.0 * loaded, 1e-9)
    return yield_twist * (elastic_core_cubed ** (-1.0 / 3.0) - loaded)


@formula("σ_b", "stress", source="elementary bending of round bars, closed form")
def bending_stress(moment: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Bending stress at the surface of a round shaft."""
    return 32.0 * moment * outer_diameter / (np.pi * (outer_diameter**4 - inner_diameter**4))


@formula("σ_n", "stress", source="force over area, closed form")
def axial_stress(force: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Stress along a round shaft that is pulled or pushed."""
    return 4.0 * force / (np.pi * (outer_diameter**2 - inner_diameter**2))


@formula("τ_a", "stress", source=_TORSION)
def torsion_amplitude(
    highest_torque: Num, lowest_torque: Num, outer_diameter: Num, inner_diameter: Num
) -> Num:
    """Half the swing of shear stress between the highest and the lowest torque."""
    return (
        8.0
        * np.abs(highest_torque - lowest_torque)
        * outer_diameter
        / (np.pi * (outer_diameter**4 - inner_diameter**4))
    )


@formula("τ_m", "stress", source=_TORSION)
def torsion_mean(
    highest_torque: Num, lowest_torque: Num, outer_diameter: Num, inner_diameter: Num
) -> Num:
    """Shear stress half-way between the highest and the lowest torque."""
    return (
        8.0
        * (highest_torque + lowest_torque)
        * outer_diameter
        / (np.pi * (outer_diameter**4 - inner_diameter**4))
    )
