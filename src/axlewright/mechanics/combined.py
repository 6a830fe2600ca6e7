"""Bending, pull and torque acting together on a round shaft.

Distortion energy (von Mises) for yielding of ductile steel, greatest shear for the careful
reader; both as in any strength of materials text.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_ENERGY = "distortion energy (von Mises), closed form"
_SHEAR = "greatest shear stress (Tresca), closed form"


@formula("σ", "stress", source="bending and pull add on the worse side, closed form")
def worse_side_stress(shaft_bending_stress: Num, shaft_axial_stress: Num) -> Num:
    """Normal stress on the side of a shaft where bending and pull add."""
    return np.abs(shaft_bending_stress) + np.abs(shaft_axial_stress)


@formula("σ'", "stress", source=_ENERGY)
def von_mises(normal_stress: Num, shear_stress: Num) -> Num:
    """Single pull that would bring ductile steel as near to yield as stress and shear together."""
    return np.sqrt(normal_stress**2 + 3.0 * shear_stress**2)


@formula("τ_max", "stress", source=_SHEAR)
def greatest_shear(normal_stress: Num, shear_stress: Num) -> Num:
    """Greatest shear stress in any direction under a normal stress and a shear stress."""
    return np.sqrt(0.25 * normal_stress**2 + shear_stress**2)


@formula("T_e", "torque", source=f"{_ENERGY}, solid or hollow round shaft")
def torque_alike(torque: Num, moment: Num) -> Num:
    """Torque alone that would bring a shaft as near to yield as torque and bending together."""
    return np.sqrt(torque**2 + 4.0 / 3.0 * moment**2)


@formula("T", "torque", source=f"{_ENERGY}, solid or hollow round shaft")
def torque_left(capacity: Num, moment: Num) -> Num:
    """Torque that a bent shaft still stands before it yields; none once bending takes it all."""
    return np.sqrt(np.maximum(capacity**2 - 4.0 / 3.0 * moment**2, 0.0))


@formula("σ_m", "stress", source=_ENERGY)
def amplitude_alike(normal_amplitude: Num, shear_amplitude: Num) -> Num:
    """Swinging pull that tires steel like swinging bending and torsion in step with each other."""
    return np.sqrt(normal_amplitude**2 + 3.0 * shear_amplitude**2)


@formula(
    "σ", "stress", source="the shaft turns: tension and compression change places (closed form)"
)
def stress_either_way(normal_stress: Num) -> Num:
    """Size of a bending stress, whichever way the moment turns."""
    result: Num = np.abs(normal_stress)
    return result
