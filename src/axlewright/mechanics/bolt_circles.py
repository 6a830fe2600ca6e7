"""Bolt circles: ring gear on carrier, wheel on flange, what clamp and what pins hold in torque.

A bolt circle has two limits that are kept apart.  Clamp and friction hold until the joint *slips*:
it then frets and works loose, but nothing has broken.  Once it has slipped the bolts and dowels
carry the torque as pins until they *shear*, at several times the slipping torque.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Bounds, Num, formula

_FRICTION: dict[str, Bounds] = {"friction": (0.05, 0.5)}
_FRICTION_WORDS = "outside what clean or oiled metal faces show"


@formula(
    "T_slip",
    "torque",
    source="friction of clamped faces (closed form)",
    valid=_FRICTION,
    outside=_FRICTION_WORDS,
)
def circle_slip_torque(bolt_count: Num, friction: Num, bolt_preload: Num, bolt_circle: Num) -> Num:
    """Torque at which a bolted flange slips: ring gear on its carrier, wheel on its flange.

    Friction is taken to act at the bolt circle, where the clamp is.
    """
    return 0.5 * bolt_count * friction * bolt_preload * bolt_circle


@formula(
    "F_i",
    "force",
    source="friction of clamped faces (closed form)",
    valid=_FRICTION,
    outside=_FRICTION_WORDS,
)
def preload_against_slip(torque: Num, bolt_count: Num, friction: Num, bolt_circle: Num) -> Num:
    """Clamp that each bolt of a circle needs so that the flange does not slip."""
    return 2.0 * torque / (bolt_count * friction * bolt_circle)


@formula("T_sh", "torque", source="bolts as pins that share alike (closed form)")
def circle_shear_torque(
    bolt_count: Num, shear_area: Num, shear_strength: Num, bolt_circle: Num
) -> Num:
    """Torque at which all bolts of a circle shear off.

    Give the area where the faces meet: the shank if it reaches that far, the thread root if not.
    """
    return 0.5 * bolt_count * shear_area * shear_strength * bolt_circle


@formula("T_d", "torque", source="dowels as pins that share alike (closed form)")
def dowel_shear_torque(
    dowel_count: Num, dowel_diameter: Num, shear_strength: Num, dowel_circle: Num
) -> Num:
    """Torque at which a circle of dowels shears off."""
    return np.pi / 8.0 * dowel_count * dowel_diameter**2 * shear_strength * dowel_circle


@formula("F_s", "force", source="equal share of a bolt circle (closed form)")
def stud_force(torque: Num, bolt_count: Num, bolt_circle: Num) -> Num:
    """Side force on each stud when the joint has slipped and the studs carry the torque."""
    return 2.0 * torque / (bolt_count * bolt_circle)


@formula("τ_s", "stress", source="mean shear on the section (closed form)")
def stud_shear_stress(side_force: Num, shear_area: Num) -> Num:
    """Mean shear stress in a bolt or stud loaded as a pin."""
    return side_force / shear_area


@formula("σ_s", "stress", source="round cantilever (closed form)")
def stud_bending_stress(side_force: Num, stud_lever: Num, stud_diameter: Num) -> Num:
    """Bending stress at the root of a stud whose side force acts away from its flange.

    The lever is the free length when the wheel is loose on the stud, half of it when a tight nut
    keeps the outer end from tilting.
    """
    return 32.0 * side_force * stud_lever / (np.pi * stud_diameter**3)


@formula("T_s", "torque", source="bolts and dowels shear together (assumption, stated)")
def doweled_shear_torque(bolts_torque: Num, dowels_torque: Num) -> Num:
    """Torque at which a bolt circle and its dowels shear."""
    return bolts_torque + dowels_torque
