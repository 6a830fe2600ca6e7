"""Strength of the ring and pinion by the method that axle designers use.

The form is that of the axle-gear method in texts on car design: 2000 T K0 Ks Km/(Kv b m² z J) in
N and mm (from memory; Stokes, "Manual Gearbox Design", 1992, ch. 1, has the torques to put in).
Torque per tooth is the same on both members, so one formula in ring-gear torque serves pinion
and ring alike; only the geometry factor and the face width differ.

The allowable stresses below are design figures for case-hardened gears, from memory.  They are
mutually consistent with AGMA 2003: 210 MPa is 30.5 ksi, its grade 1; 1,750 MPa is 254 ksi, its
grade 3.  They mark the end of the intended life, not the torque at which a tooth snaps.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

PEAK_BENDING = 700e6
"""Allowable bending stress at the greatest torque of the service, Pa (from memory)."""
ENDURANCE_BENDING = 210e6
"""Allowable bending stress for 6 million loadings, Pa (from memory)."""
PEAK_CONTACT = 2800e6
"""Allowable contact stress at the greatest torque of the service, Pa (from memory)."""
ENDURANCE_CONTACT = 1750e6
"""Allowable contact stress at the average torque of the service, Pa (from memory)."""
CONTACT_CONSTANT = 232.6e3
"""Contact constant of crowned steel gears in this method, Pa^½ (from memory); √1.5 times that
of uncrowned ones."""
PEAK_UNIT_LOAD = 893e3
"""Tooth load per face width in first gear of cars, N/m (from memory); 20 to 25 % more for
modern steels."""

_METHOD = "axle-gear torque method as texts on car design teach it (from memory)"


@formula(
    "K_s",
    "ratio",
    source=_METHOD,
    valid={"outer_module": (1.6e-3, 25.4e-3)},
    outside="the size factor was not drawn up for so small or large a tooth",
)
def axle_size_factor(outer_module: Num) -> Num:
    """Relief that smaller teeth get, one at a module of an inch."""
    return (outer_module / 25.4e-3) ** 0.25


@formula("σ_F", "stress", source=_METHOD)
def bending_stress(
    ring_torque: Num,
    gear_overload_factor: Num,
    gear_size_factor: Num,
    face_load_factor: Num,
    axle_speed_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    ring_teeth: Num,
    bending_geometry: Num,
) -> Num:
    """Bending stress at the root of a tooth, pinion or ring by its geometry factor."""
    load = 2.0 * ring_torque * gear_overload_factor * gear_size_factor * face_load_factor
    tooth = tooth_face_width * outer_module * outer_module * ring_teeth * bending_geometry
    return load / (axle_speed_factor * tooth)


@formula("T_F", "torque", source=_METHOD)
def bending_torque(
    bending_allowable: Num,
    gear_overload_factor: Num,
    gear_size_factor: Num,
    face_load_factor: Num,
    axle_speed_factor: Num,
    tooth_face_width: Num,
    outer_module: Num,
    ring_teeth: Num,
    bending_geometry: Num,
) -> Num:
    """Ring-gear torque at which the root of a tooth reaches a bending stress."""
    tooth = tooth_face_width * outer_module * outer_module * ring_teeth * bending_geometry
    share = 2.0 * gear_overload_factor * gear_size_factor * face_load_factor
    return bending_allowable * axle_speed_factor * tooth / share


@formula("σ_H", "stress", source=_METHOD)
def contact_stress(
    contact_constant: Num,
    ring_torque: Num,
    axle_ratio: Num,
    gear_overload_factor: Num,
    face_load_factor: Num,
    gear_surface_factor: Num,
    axle_speed_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Pressure between the flanks of pinion and ring."""
    load = (
        2.0
        * ring_torque
        / axle_ratio
        * gear_overload_factor
        * face_load_factor
        * gear_surface_factor
    )
    face = tooth_face_width * pinion_outer_diameter * pinion_outer_diameter * contact_geometry
    return contact_constant * np.sqrt(load / (axle_speed_factor * face))


@formula("T_H", "torque", source=_METHOD)
def contact_torque(
    contact_allowable: Num,
    contact_constant: Num,
    axle_ratio: Num,
    gear_overload_factor: Num,
    face_load_factor: Num,
    gear_surface_factor: Num,
    axle_speed_factor: Num,
    tooth_face_width: Num,
    pinion_outer_diameter: Num,
    contact_geometry: Num,
) -> Num:
    """Ring-gear torque at which the flanks reach a contact pressure."""
    times = contact_allowable / contact_constant
    face = tooth_face_width * pinion_outer_diameter * pinion_outer_diameter * contact_geometry
    share = 2.0 * gear_overload_factor * face_load_factor * gear_surface_factor
    return times * times * axle_ratio * axle_speed_factor * face / share


@formula("p", "line load", source=_METHOD)
def unit_load(ring_torque: Num, ring_diameter: Num, ring_face_width: Num) -> Num:
    """Tooth load per width of face, the oldest measure of an axle gear."""
    return 2.0 * ring_torque / (ring_diameter * ring_face_width)


@formula("T_p", "torque", source=_METHOD)
def unit_load_torque(allowable_unit_load: Num, ring_diameter: Num, ring_face_width: Num) -> Num:
    """Ring-gear torque at which the load per width of face reaches a figure."""
    return 0.5 * allowable_unit_load * ring_diameter * ring_face_width
