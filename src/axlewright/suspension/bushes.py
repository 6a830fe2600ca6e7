"""How stiff a link is along its length: two bushes and the bar between them."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("k_b", "stiffness", source="bar in tension (closed form)")
def bar_stiffness(youngs_modulus: Num, bar_area: Num, link_length: Num) -> Num:
    """Stiffness of a plain bar or tube along its length."""
    return youngs_modulus * bar_area / link_length


@formula("k_l", "stiffness", source="springs in series (closed form)")
def link_stiffness(front_bush_rate: Num, rear_bush_rate: Num, bar_rate: Num) -> Num:
    """Stiffness of a link along its length with both bushes."""
    return 1.0 / (1.0 / front_bush_rate + 1.0 / rear_bush_rate + 1.0 / bar_rate)
