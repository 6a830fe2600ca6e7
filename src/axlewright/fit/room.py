"""Room for one wheel between outer lip and what lies inboard, sideways, one side at a time.

Positions run outward from the car's center plane, at the height where tire and obstacle are
nearest, with the car at ride height, weight on its wheels and the axle centered.  Each side has
its own numbers; a car's two sides are seldom alike.  What moves is in ``clearance``.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_ROOM = "lengths from the car's center plane added up, closed form"
_EVEN = "surplus shared evenly between outside and inside, closed form"


@formula("y_o", "length", source=_ROOM)
def lip_from_face(fit_half: Num, face_to_lip: Num) -> Num:
    """Outer lip from the car's center plane, from a plumb line measured against the wheel face.

    The half is that of the axle which stood there when it was measured, on this side.
    """
    return fit_half + face_to_lip


@formula("y_i", "length", source=_ROOM)
def inner_from_face(fit_half: Num, face_to_inner: Num) -> Num:
    """Nearest thing inboard from the car's center plane, measured inward from the wheel face."""
    return fit_half - face_to_inner


@formula("c_o", "length", source=_ROOM)
def outer_clearance(lip_position: Num, fit_half: Num, outboard_reach: Num) -> Num:
    """Tire or rim to outer lip; below zero it sticks out."""
    return lip_position - fit_half - outboard_reach


@formula("c_i", "length", source=_ROOM)
def inner_clearance(fit_half: Num, inboard_reach: Num, inner_position: Num) -> Num:
    """Tire or rim to the nearest thing inboard; below zero they meet."""
    return fit_half - inboard_reach - inner_position


@formula("H_f", "length", source=_ROOM)
def widest_half(lip_position: Num, outer_wanted: Num, outboard_reach: Num) -> Num:
    """Widest half that still leaves the clearance wanted at the lip."""
    return lip_position - outer_wanted - outboard_reach


@formula("H_f", "length", source=_ROOM)
def narrowest_half(inner_position: Num, inner_wanted: Num, inboard_reach: Num) -> Num:
    """Narrowest half that still leaves the clearance wanted inboard."""
    return inner_position + inner_wanted + inboard_reach


@formula("H_f", "length", source=_EVEN)
def even_half(widest_half: Num, narrowest_half: Num) -> Num:
    """Half that leaves the same surplus over the clearances wanted on both faces of the tire."""
    return 0.5 * (widest_half + narrowest_half)


@formula("s_p", "length", source=_EVEN)
def even_surplus(widest_half: Num, narrowest_half: Num) -> Num:
    """Surplus over the clearances wanted at that half; below zero no half will do."""
    return 0.5 * (widest_half - narrowest_half)


@formula("S_x", "length", source=_ROOM)
def widest_tire(
    lip_position: Num, inner_position: Num, outer_wanted: Num, inner_wanted: Num
) -> Num:
    """Widest tire or rim that the room takes, whatever axle and wheel."""
    return lip_position - inner_position - outer_wanted - inner_wanted


@formula("e_w", "length", source=_EVEN)
def even_offset(
    fit_half: Num, lip_position: Num, inner_position: Num, outer_wanted: Num, inner_wanted: Num
) -> Num:
    """Wheel offset that shares the surplus evenly on an axle that is there already."""
    return fit_half - 0.5 * (lip_position - outer_wanted + inner_position + inner_wanted)


@formula("e_w", "length", source=_ROOM)
def least_offset(fit_half: Num, lip_position: Num, outer_wanted: Num, widest_part: Num) -> Num:
    """Least offset that keeps the clearance wanted at the lip; with less the wheel sticks out."""
    return fit_half + 0.5 * widest_part + outer_wanted - lip_position


@formula("e_w", "length", source=_ROOM)
def most_offset(fit_half: Num, inner_position: Num, inner_wanted: Num, widest_part: Num) -> Num:
    """Most offset that keeps the clearance wanted inboard."""
    return fit_half - 0.5 * widest_part - inner_wanted - inner_position


@formula("e_w", "length", source=_EVEN)
def offset_between(most_offset: Num, least_offset: Num) -> Num:
    """Offset in the middle of what may be."""
    return 0.5 * (most_offset + least_offset)


@formula("s_p", "length", source=_EVEN)
def offset_to_spare(most_offset: Num, least_offset: Num) -> Num:
    """Surplus over the clearances wanted at that offset; below zero no offset will do."""
    return 0.5 * (most_offset - least_offset)
