"""Does this joint go into those two yokes: cap and width, ear by ear, and how it is clipped.

Formulas say how far sizes are apart; the words about a joint come from them.  Outside clips are
measured over the caps, inside clips between the clip faces: the two numbers are never compared.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.quantities.formula import Num, formula

Clip = Literal["outside", "inside", "strap", "u-bolt"]
CAP_TOLERANCE = 0.05e-3
"""Caps and ears further apart than this are different sizes (m); common practice, no source."""
WIDTH_TOLERANCE = 0.4e-3
"""Widths further apart than this are different sizes (m): clips come in steps below it."""


@formula("δ_c", "length", source="difference of two diameters, definition")
def cap_interference(cap_diameter: Num, yoke_bore: Num) -> Num:
    """How much larger a cap is than the ear it goes into; below zero it is loose."""
    return cap_diameter - yoke_bore


@formula("δ_w", "length", source="difference of two widths, definition")
def width_difference(cross_span: Num, yoke_width: Num) -> Num:
    """How much wider a joint is than its yoke, both measured for the same kind of clip."""
    return cross_span - yoke_width


@dataclass(frozen=True)
class YokeEars:
    """One yoke: what its ears take.  Lengths in m."""

    cap: float
    width: float
    clip: Clip


def joint_wanted(one: YokeEars, other: YokeEars) -> str:
    """Say which joint goes between two yokes, in a sentence for the order sheet."""
    caps = abs(one.cap - other.cap) > CAP_TOLERANCE
    if one.clip != other.clip:
        sizes = "two cap sizes" if caps else "one cap size"
        return (
            f"combination joint with {sizes}, {one.clip} at one yoke and {other.clip} at the "
            "other: give each width as measured for its own kind"
        )
    widths = abs(one.width - other.width) > WIDTH_TOLERANCE
    if caps and widths:
        return "combination joint with two cap sizes and two widths"
    if caps:
        return "combination joint with two cap sizes"
    if widths:
        return "combination joint with two widths"
    return "plain joint: both yokes take the same one"
