"""Tapered roller bearings as springs: quick handbook figures to hold a roller model against.

After Gargiulo, *A simple way to estimate bearing stiffness* (Machine Design, 1980, from memory),
rigid rings, no preload; and the tangent of Palmgren's law.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_GARGIULO = "Gargiulo 1980 (from memory; pounds and inches converted)"
_LBF = 0.45359237 * 9.80665
_IN = 0.0254
_PER_IN = _LBF / _IN


@formula("k_a", "stiffness", source=f"{_GARGIULO}, 1.197e6·(Fa·Z⁹·l⁸·sin¹⁹α)^0.1 lbf/in")
def axial_stiffness_quick(
    bearing_axial_load: Num, roller_count: Num, roller_length: Num, bearing_contact_angle: Num
) -> Num:
    """Axial stiffness of a tapered bearing under thrust, handbook estimate."""
    load = (bearing_axial_load / _LBF) ** 0.1
    size = roller_count**0.9 * (roller_length / _IN) ** 0.8
    result: Num = 1.197e6 * _PER_IN * load * size * np.sin(bearing_contact_angle) ** 1.9
    return result


@formula("k_r", "stiffness", source=f"{_GARGIULO}, 0.300e6·(Fr·Z⁹·l⁸·cos¹⁹α)^0.1 lbf/in")
def radial_stiffness_quick(
    bearing_radial_load: Num, roller_count: Num, roller_length: Num, bearing_contact_angle: Num
) -> Num:
    """Radial stiffness of a tapered bearing under radial load, handbook estimate."""
    load = (bearing_radial_load / _LBF) ** 0.1
    size = roller_count**0.9 * (roller_length / _IN) ** 0.8
    result: Num = 0.300e6 * _PER_IN * load * size * np.cos(bearing_contact_angle) ** 1.9
    return result


@formula("k", "stiffness", source="F ∝ δ^(10/9) differentiated (closed form)")
def roller_tangent_stiffness(force: Num, bearing_deflection: Num) -> Num:
    """Stiffness of a roller bearing for a little more load, from load and give so far."""
    return force / (0.9 * bearing_deflection)
