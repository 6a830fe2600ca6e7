"""Margins: what a part stands over what reaches it; one is the edge."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_DEFINITION = "definition of a margin (closed form)"


@formula("n", "ratio", source=_DEFINITION)
def torque_margin(capacity: Num, demand: Num) -> Num:
    """Torque that the part stands over torque that reaches it."""
    return capacity / demand


@formula("n", "ratio", source=_DEFINITION)
def stress_margin(part_strength: Num, part_stress: Num) -> Num:
    """Strength over stress."""
    return part_strength / part_stress


@formula("n", "ratio", source=_DEFINITION)
def force_margin(force_limit: Num, bearing_load: Num) -> Num:
    """Load that the part stands over load that reaches it."""
    return force_limit / bearing_load


@formula("T_b", "torque", source="margins fall as torque rises, held in proportion (derived)")
def first_break_torque(loading_torque: Num, least_margin: Num) -> Num:
    """Ring-gear torque at which the first part breaks, from its margin at another torque.

    Exact where the load of that part goes with torque, close where a fixed load comes on top.
    """
    return loading_torque * least_margin
