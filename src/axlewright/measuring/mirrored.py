"""A point of the left side seen on the right of a symmetric car."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("y_R", "length", source="mirror image in the center plane, definition")
def across_the_middle(to_the_left: Num) -> Num:
    """Place left of the center plane of the point that mirrors this one."""
    return -1.0 * to_the_left
