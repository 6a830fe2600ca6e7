"""When brittle iron breaks and ductile metal yields under plane stress.

Brittle Coulomb–Mohr and modified Mohr for gray iron and other metal that stretches less than
about 5 %, distortion energy for ductile metal, as in Shigley.  *Usage* is stress over what the
metal stands: 1 is the limit, the factor of safety is one over it.  Principal stresses are the two
in the plane, the greater first; the third is zero.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 5 (from memory)"
_CIRCLE = "Mohr's circle, closed form"


@formula("σ_A", "stress", source=_CIRCLE)
def greater_principal_stress(
    plane_stress_x: Num, plane_stress_y: Num, plane_shear_stress: Num
) -> Num:
    """Greater of the two principal stresses in a plane."""
    return 0.5 * (plane_stress_x + plane_stress_y) + np.sqrt(
        0.25 * (plane_stress_x - plane_stress_y) ** 2 + plane_shear_stress**2
    )


@formula("σ_B", "stress", source=_CIRCLE)
def lesser_principal_stress(
    plane_stress_x: Num, plane_stress_y: Num, plane_shear_stress: Num
) -> Num:
    """Lesser of the two principal stresses in a plane."""
    return 0.5 * (plane_stress_x + plane_stress_y) - np.sqrt(
        0.25 * (plane_stress_x - plane_stress_y) ** 2 + plane_shear_stress**2
    )


@formula("u", "ratio", source=f"{_SHIGLEY}, brittle Coulomb–Mohr")
def coulomb_mohr_usage(
    greater_principal: Num,
    lesser_principal: Num,
    tensile_strength: Num,
    compressive_strength: Num,
) -> Num:
    """Share of what brittle metal stands, by brittle Coulomb–Mohr (the careful one)."""
    return (
        np.maximum(greater_principal, 0.0) / tensile_strength
        + np.maximum(-lesser_principal, 0.0) / compressive_strength
    )


@formula("u", "ratio", source=f"{_SHIGLEY}, modified Mohr")
def modified_mohr_usage(
    greater_principal: Num,
    lesser_principal: Num,
    tensile_strength: Num,
    compressive_strength: Num,
) -> Num:
    """Share of what brittle metal stands, by modified Mohr (nearest to tests on gray iron)."""
    pulled = np.maximum(greater_principal, 0.0)
    pushed = np.maximum(-lesser_principal, 0.0)
    return np.where(
        pushed <= pulled,
        pulled / tensile_strength,
        pulled * (1.0 / tensile_strength - 1.0 / compressive_strength)
        + pushed / compressive_strength,
    )[()]


@formula("u", "ratio", source=f"{_SHIGLEY}, distortion energy")
def distortion_energy_usage(
    greater_principal: Num, lesser_principal: Num, yield_strength: Num
) -> Num:
    """Share of yield of ductile metal, by distortion energy."""
    return (
        np.sqrt(greater_principal**2 - greater_principal * lesser_principal + lesser_principal**2)
        / yield_strength
    )


@formula(
    "n",
    "ratio",
    source="one over the usage, closed form",
    valid={"stress_usage": (1e-9, None)},
    outside="a part without stress has no factor; a thousand million is shown",
)
def safety_factor(stress_usage: Num) -> Num:
    """Factor by which all stresses may grow before the limit."""
    return 1.0 / np.maximum(stress_usage, 1e-9)
