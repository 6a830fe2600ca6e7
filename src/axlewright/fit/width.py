"""Widths of an axle, each with its own name, both sides apart.

FIT width is between the faces that the wheels touch, brake hats in place.  ORDER width is between
the bare shaft flanges: what an axle is ordered by.  HOUSING width is between the end faces of the
bare housing.  Halves run from a stated center: that of the differential (cross pin) for shafts,
that of the pinion for the driveshaft, that of the car for room; the three need not agree.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_ALONG = "lengths along the axle added up, closed form"
_HALVES = "whole width shared about a center that is off the middle, closed form"


@formula("W_or", "length", source=_ALONG)
def order_width(fit_width: Num, left_hat: Num, right_hat: Num) -> Num:
    """Bare flange to bare flange, from the width between the faces that the wheels touch."""
    return fit_width - left_hat - right_hat


@formula("W_f", "length", source=_ALONG)
def fit_width(order_width: Num, left_hat: Num, right_hat: Num) -> Num:
    """Width between the faces that the wheels touch, brake hats in place."""
    return order_width + left_hat + right_hat


@formula("W_h", "length", source=_ALONG)
def housing_width(order_width: Num, left_brake_space: Num, right_brake_space: Num) -> Num:
    """End face to end face of the bare housing."""
    return order_width - left_brake_space - right_brake_space


@formula("W_or", "length", source=_ALONG)
def order_width_of_housing(
    housing_width: Num, left_brake_space: Num, right_brake_space: Num
) -> Num:
    """Bare flange to bare flange that a housing gives."""
    return housing_width + left_brake_space + right_brake_space


@formula("H_L", "length", source=_HALVES)
def left_half(whole_width: Num, center_offset: Num) -> Num:
    """Left end to a center that lies left of the middle by the offset."""
    return 0.5 * whole_width - center_offset


@formula("H_R", "length", source=_HALVES)
def right_half(whole_width: Num, center_offset: Num) -> Num:
    """Right end to a center that lies left of the middle by the offset."""
    return 0.5 * whole_width + center_offset


@formula("W", "length", source=_ALONG)
def whole_width(left_half: Num, right_half: Num) -> Num:
    """Both halves together; they must be from one center."""
    return left_half + right_half


@formula("e_c", "length", source=_HALVES)
def center_offset(left_half: Num, right_half: Num) -> Num:
    """How far a center lies left of the middle: half the difference of the halves."""
    return 0.5 * (right_half - left_half)


@formula("H", "length", source=_ALONG)
def half_to_nearer_center(half_width: Num, center_shift: Num) -> Num:
    """The same end to another center, one that lies nearer to this end by the shift.

    From the car's center to that of pinion or differential, or between those two.
    """
    return half_width - center_shift


@formula("H", "length", source=_ALONG)
def half_to_further_center(half_width: Num, center_shift: Num) -> Num:
    """The same end to another center, one that lies further from this end by the shift."""
    return half_width + center_shift


@formula("H_b", "length", source=_ALONG)
def bare_half(fit_half: Num, wheel_hat: Num) -> Num:
    """Center to bare flange, from center to the face that the wheel touches."""
    return fit_half - wheel_hat


@formula("H_h", "length", source=_ALONG)
def housing_half(bare_half: Num, brake_space: Num) -> Num:
    """Center to the end face of the housing on one side."""
    return bare_half - brake_space


@formula("H_f", "length", source=_ALONG)
def fit_half_of_housing(housing_half: Num, brake_space: Num, wheel_hat: Num) -> Num:
    """Center to the face that the wheel touches, that a housing gives on one side."""
    return housing_half + brake_space + wheel_hat
