"""What one piece gets of the whole, and how a limit on a force becomes a limit on torque."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("T_1", "torque", source="definition of a share (closed form)")
def shaft_torque(ring_torque: Num, side_share: Num) -> Num:
    """Torque in one axle shaft."""
    return ring_torque * side_share


@formula("C_T", "torque", source="forces in a gear mesh are proportional to torque (closed form)")
def torque_at_force(torque_at_reference: Num, force_limit: Num, force_at_reference: Num) -> Num:
    """Torque at which a force that grows with torque reaches its limit."""
    return torque_at_reference * force_limit / force_at_reference


@formula(
    "C_T", "torque", source="stresses in an elastic part are proportional to load (closed form)"
)
def torque_at_usage(torque_at_reference: Num, stress_usage: Num) -> Num:
    """Torque at which a part is used up, from its usage at a reference torque."""
    return torque_at_reference / stress_usage


@formula(
    "C", "torque", source="strength kept and piece-to-piece scatter multiply (assumption, stated)"
)
def real_capacity(capacity: Num, strength_factor: Num, kept_share: Num) -> Num:
    """Capacity of this very piece: the nominal one times its scatter and what wear has left."""
    return capacity * strength_factor * kept_share


@formula(
    "S", "stress", source="strength kept and piece-to-piece scatter multiply (assumption, stated)"
)
def real_strength(part_strength: Num, strength_factor: Num, kept_share: Num) -> Num:
    """Strength of this very piece: the nominal one times its scatter and what wear has left."""
    return part_strength * strength_factor * kept_share


@formula(
    "C_0", "force", source="strength kept and piece-to-piece scatter multiply (assumption, stated)"
)
def real_rating(bearing_static_rating: Num, kept_share: Num) -> Num:
    """Static rating of this very bearing: the nominal one times what wear has left."""
    return bearing_static_rating * kept_share
