"""A notch raises the stress of a hard or fatigued part."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("σ_k", "stress", source="definition of the stress concentration factor (closed form)")
def notched_stress(part_stress: Num, notch_factor: Num) -> Num:
    """Peak stress at a shoulder or fillet from the plain stress beside it."""
    return part_stress * notch_factor


@formula("M_k", "torque", source="definition of the stress concentration factor (closed form)")
def notched_moment(moment: Num, notch_factor: Num) -> Num:
    """Moment that would bend a plain shaft as hard as this one bends a notched shaft."""
    return moment * notch_factor
