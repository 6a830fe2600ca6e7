"""Strength of a bevel gear tooth after ANSI/AGMA 2003, as Shigley ch. 15 gives it.

All from memory.  The factors have a module of their own; here they meet the force at the outer
pitch circle.  Straight and spiral bevel gears only: offset gears are rated with the hypoid pair.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "ANSI/AGMA 2003 as in Shigley, ch. 15 (from memory)"


@formula("C_p", "contact constant", source="Hertz line contact of equal materials (closed form)")
def elastic_coefficient(youngs_modulus: Num, poisson_ratio: Num) -> Num:
    """Contact constant of a pair of gears of one material."""
    return np.sqrt(youngs_modulus / (2.0 * np.pi * (1.0 - poisson_ratio * poisson_ratio)))


@formula("σ_F", "stress", source=_SHIGLEY)
def bending_stress(
    pitch_force: Num,
    gear_overload_factor: Num,
    gear_dynamic_factor: Num,
    gear_size_factor: Num,
    face_load_factor: Num,
    lengthwise_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    bending_geometry: Num,
) -> Num:
    """Bending stress at the root, from the force at the outer pitch circle."""
    load = (
        pitch_force
        * gear_overload_factor
        * gear_dynamic_factor
        * gear_size_factor
        * face_load_factor
    )
    return load / (tooth_face_width * outer_module * lengthwise_factor * bending_geometry)


@formula("σ_H", "stress", source=_SHIGLEY)
def contact_stress(
    contact_constant: Num,
    pitch_force: Num,
    gear_overload_factor: Num,
    gear_dynamic_factor: Num,
    contact_size_factor: Num,
    face_load_factor: Num,
    crowning_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Pressure between the flanks, from the force at the outer pitch circle."""
    raised = gear_overload_factor * gear_dynamic_factor * contact_size_factor * face_load_factor
    face = tooth_face_width * pinion_outer_diameter * contact_geometry
    return contact_constant * np.sqrt(pitch_force * raised * crowning_factor / face)


@formula("s_wt", "stress", source=_SHIGLEY)
def bending_allowable(
    bending_stress_number: Num,
    bending_life_factor: Num,
    gear_safety: Num,
    gear_temperature_factor: Num,
    bending_reliability_factor: Num,
) -> Num:
    """Bending stress that a tooth may carry."""
    reserve = gear_safety * gear_temperature_factor * bending_reliability_factor
    return bending_stress_number * bending_life_factor / reserve


@formula("s_wc", "stress", source=_SHIGLEY)
def contact_allowable(
    contact_stress_number: Num,
    contact_life_factor: Num,
    hardness_ratio_factor: Num,
    gear_safety: Num,
    gear_temperature_factor: Num,
    contact_reliability_factor: Num,
) -> Num:
    """Contact pressure that the flanks may carry."""
    reserve = gear_safety * gear_temperature_factor * contact_reliability_factor
    return contact_stress_number * contact_life_factor * hardness_ratio_factor / reserve


@formula("F_tF", "force", source=_SHIGLEY + ", turned round")
def bending_pitch_force(
    bending_allowable: Num,
    gear_overload_factor: Num,
    gear_dynamic_factor: Num,
    gear_size_factor: Num,
    face_load_factor: Num,
    lengthwise_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    bending_geometry: Num,
) -> Num:
    """Force at the outer pitch circle at which the root reaches its allowable stress."""
    tooth = tooth_face_width * outer_module * lengthwise_factor * bending_geometry
    raised = gear_overload_factor * gear_dynamic_factor * gear_size_factor * face_load_factor
    return bending_allowable * tooth / raised


@formula("F_tH", "force", source=_SHIGLEY + ", turned round")
def contact_pitch_force(
    contact_allowable: Num,
    contact_constant: Num,
    gear_overload_factor: Num,
    gear_dynamic_factor: Num,
    contact_size_factor: Num,
    face_load_factor: Num,
    crowning_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Force at the outer pitch circle at which the flanks reach their allowable pressure."""
    times = contact_allowable / contact_constant
    face = tooth_face_width * pinion_outer_diameter * contact_geometry
    raised = gear_overload_factor * gear_dynamic_factor * contact_size_factor * face_load_factor
    return times * times * face / (raised * crowning_factor)
