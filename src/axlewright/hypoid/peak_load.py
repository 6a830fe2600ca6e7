"""The greatest torque of ring and pinion, drive and coast: by the method, and by a contact result.

The method's uneven-load factor is a guess by pinion support.  Whoever has worked out how this
pair carries its load can put its pressure and root stress in instead; both are told side by side,
because a contact result is only as good as the flanks that went into it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid import rating
from axlewright.quantities.formula import Num, formula

_FRACTURE = "ISO 6336-3 and -5, static strength of case-hardened roots (from memory)"


@dataclass(frozen=True)
class FlankMethod:
    """What the axle method needs of one flank of one member, in SI; drive and coast differ."""

    ring_teeth: Num
    axle_ratio: Num
    face_width: Num
    outer_module: Num
    pinion_outer_diameter: Num
    bending_geometry: Num
    contact_geometry: Num
    contact_constant: Num = rating.CONTACT_CONSTANT


@dataclass(frozen=True)
class FlankContact:
    """A contact result at one torque: plain numbers, in SI.

    ``pressure_exponent`` says how torque goes with pressure: 2 for bands, 3 for ellipses that
    grow both ways.
    """

    ring_torque: Num
    peak_pressure: Num
    root_stress: Num
    pressure_exponent: Num = 2.0


@dataclass(frozen=True)
class Allowed:
    """Stresses that count as reached: design bending, design pressure, fracture of the root."""

    bending: Num
    pressure: Num
    fracture: Num


@dataclass(frozen=True)
class Reached:
    """Ring torque, N·m, at which each is reached."""

    bending: Num
    pressure: Num
    fracture: Num


@formula("σ_FB", "stress", source=_FRACTURE)
def fracture_root_stress(root_endurance: Num, static_life_factor: Num) -> Num:
    """Root stress at which one overload breaks a tooth: 2.5 times its nominal endurance."""
    return root_endurance * static_life_factor


@formula(
    "Y_M",
    "ratio",
    source="ISO 6336-3, mean stress influence factor (from memory)",
    valid={"root_stress_ratio": (-1.2, 0.0), "mean_stress_sensitivity": (0.1, 0.9)},
    outside="loads from one side only to as much from both",
)
def mean_stress_factor(root_stress_ratio: Num, mean_stress_sensitivity: Num) -> Num:
    """Endurance left to a root that is bent both ways, over that of one bent one way.

    The ratio is least over greatest stress at the root: 0 where only drive is used, -0.5 where
    coast reaches half of drive.
    """
    share = (1.0 - mean_stress_sensitivity) / (1.0 + mean_stress_sensitivity)
    return 1.0 / (1.0 - root_stress_ratio * share)


@formula("K_Hβ", "ratio", source="definition (closed form)")
def face_load_from_contact(peak_line_load: Num, mean_line_load: Num) -> Num:
    """Uneven load along the tooth, from a contact result."""
    return peak_line_load / mean_line_load


@formula(
    "K_m",
    "ratio",
    source="peak over mean load, what crowning alone makes taken out (closed form); 1.5 for crowned"
    " teeth as C_xc of ANSI/AGMA 2003 (from memory)",
)
def beyond_crowning(contact_unevenness: Num, crowning_factor: Num) -> Num:
    """Load distribution factor of a method that holds crowning in a factor of its own."""
    return contact_unevenness / crowning_factor


@formula("T_F", "torque", source="root stress in proportion to torque (closed form)")
def torque_at_root_stress(ring_torque: Num, root_stress: Num, bending_allowable: Num) -> Num:
    """Ring torque at which the root reaches a stress; a pattern that spreads makes it safer."""
    return ring_torque * bending_allowable / root_stress


@formula(
    "T_H",
    "torque",
    source="Hertz: torque goes with the square of pressure in a band, the cube in an ellipse"
    " (closed form)",
    valid={"pressure_exponent": (2.0, 3.0)},
    outside="bands have 2, ellipses 3",
)
def torque_at_pressure(
    ring_torque: Num, peak_pressure: Num, contact_allowable: Num, pressure_exponent: Num
) -> Num:
    """Ring torque at which the flanks reach a pressure; contact at an edge comes far sooner."""
    return ring_torque * (contact_allowable / peak_pressure) ** pressure_exponent


@formula("σ_F", "stress", source="ISO 10300-3: stress times uneven load (from memory)")
def nominal_root_stress(root_stress: Num, face_load_factor: Num) -> Num:
    """Root stress as it were with even load, to set beside the method's own."""
    return root_stress / face_load_factor


def by_method(x: FlankMethod, allowed: Allowed, load_factor: Num) -> Reached:
    """Torques of one flank by the axle method, with an uneven-load factor of one's own."""
    bend = (
        1.0, rating.axle_size_factor(x.outer_module), load_factor, 1.0, x.face_width,
        x.outer_module, x.ring_teeth, x.bending_geometry,
    )  # fmt: skip
    pressure = rating.contact_torque(
        allowed.pressure, x.contact_constant, x.axle_ratio, 1.0, load_factor, 1.0, 1.0,
        x.face_width, x.pinion_outer_diameter, x.contact_geometry,
    )  # fmt: skip
    return Reached(
        rating.bending_torque(allowed.bending, *bend),
        pressure,
        rating.bending_torque(allowed.fracture, *bend),
    )


def by_contact(x: FlankContact, allowed: Allowed) -> Reached:
    """Torques of one flank by what a contact result says of it."""
    return Reached(
        torque_at_root_stress(x.ring_torque, x.root_stress, allowed.bending),
        torque_at_pressure(x.ring_torque, x.peak_pressure, allowed.pressure, x.pressure_exponent),
        torque_at_root_stress(x.ring_torque, x.root_stress, allowed.fracture),
    )


def spread(one: Reached, other: Reached) -> Reached:
    """How far two ways of rating lie apart: the larger over the smaller, each."""
    pairs = (
        (one.bending, other.bending), (one.pressure, other.pressure),
        (one.fracture, other.fracture),
    )  # fmt: skip
    return Reached(*(np.maximum(a / b, b / a) for a, b in pairs))
