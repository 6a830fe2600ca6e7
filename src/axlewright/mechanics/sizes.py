"""Sizes worked out from other sizes: bores, depths, levers."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_PLAIN = "plain geometry (closed form)"


@formula("L", "length", source=_PLAIN)
def scaled_length(length: Num, factor: Num) -> Num:
    """A length in proportion to another."""
    return length * factor


@formula("d_i", "length", source=_PLAIN)
def bore_of_tube(outer_diameter: Num, wall: Num) -> Num:
    """Inner diameter of a tube."""
    return outer_diameter - 2.0 * wall


@formula("t_c", "length", source="definition of the case depth share (closed form)")
def depth_of_case(outer_diameter: Num, case_depth_share: Num) -> Num:
    """Depth of a hardened case, from its share of the diameter."""
    return outer_diameter * case_depth_share


@formula(
    "h_c",
    "length",
    source="needles end at cap bottoms of 3 mm (derived; bottom common practice, no source)",
)
def needle_middles(cap_span: Num, needle_length: Num) -> Num:
    """Distance between the middles of the needles of two opposite caps."""
    return cap_span - needle_length - 0.006
