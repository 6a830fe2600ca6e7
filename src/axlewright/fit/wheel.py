"""The wheel alone: backspace, offset and lips.

Rim width is taken where the tire's beads sit; backspace and front space are measured to the edges
of the lips.  The two lips stand outside the rim width, so half the rim width is not the middle of
what a straightedge lies on.  Offset is + when the mounting face stands outboard of the middle of
the rim: more offset draws the wheel in.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_RIM = "lengths across one rim added up, closed form"


@formula("W_o", "length", source=_RIM)
def rim_over_lips(rim_width: Num, rim_lip: Num) -> Num:
    """Width of the rim over both lips, from its width between the bead seats."""
    return rim_width + 2.0 * rim_lip


@formula(
    "r_l",
    "length",
    source="half the bead seat's diameter and the flange: about 17.5 mm for the usual J flange "
    "(from memory)",
    valid={"flange_height": (0.01, 0.025)},
    outside="flanges of car rims are 14 to 20 mm high",
)
def rim_lip_radius(rim_diameter: Num, flange_height: Num) -> Num:
    """Radius of the edge of the lip, from the diameter that the rim is named by."""
    return 0.5 * rim_diameter + flange_height


@formula("e_w", "length", source=_RIM)
def offset_from_backspace(backspace: Num, rim_width: Num, rim_lip: Num) -> Num:
    """Mounting face outboard of the middle of the rim, from the backspace to the lip's edge.

    Half the rim width alone, without the lip, gives an offset too large by one lip.
    """
    return backspace - 0.5 * rim_width - rim_lip


@formula("b_s", "length", source=_RIM)
def backspace_from_offset(wheel_offset: Num, rim_width: Num, rim_lip: Num) -> Num:
    """Mounting face to the edge of the inner lip, from the offset."""
    return wheel_offset + 0.5 * rim_width + rim_lip


@formula("f_s", "length", source=_RIM)
def front_space(backspace: Num, rim_width: Num, rim_lip: Num) -> Num:
    """Mounting face to the edge of the outer lip."""
    return rim_width + 2.0 * rim_lip - backspace


@formula("e_w", "length", source=_RIM)
def offset_with_spacer(wheel_offset: Num, wheel_spacer: Num) -> Num:
    """Offset as seen from the face that the spacer bolts to; a spacer moves the wheel out."""
    return wheel_offset - wheel_spacer


@formula("u_o", "length", source="half the wider of tire and rim, less the offset, closed form")
def outboard_reach(mounted_section: Num, rim_over_lips: Num, wheel_offset: Num) -> Num:
    """How far tire or rim, whichever is wider, stands out past the wheel face."""
    widest: Num = np.maximum(mounted_section, rim_over_lips)
    return 0.5 * widest - wheel_offset


@formula("u_i", "length", source="half the wider of tire and rim, plus the offset, closed form")
def inboard_reach(mounted_section: Num, rim_over_lips: Num, wheel_offset: Num) -> Num:
    """How far tire or rim, whichever is wider, stands in past the wheel face."""
    widest: Num = np.maximum(mounted_section, rim_over_lips)
    return 0.5 * widest + wheel_offset
