"""What readings for fit say of the inputs of load path and launch: sums of lengths, closed form."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_ACROSS = "lengths across the car added up, closed form"
_ALONG = "lengths along one shaft added up, closed form"


@formula("W_t", "length", source=_ACROSS)
def track_of_faces(fit_width: Num, wheel_offset: Num, left_spacer: Num, right_spacer: Num) -> Num:
    """Tire center to tire center, from the faces that the wheels touch."""
    return fit_width + left_spacer + right_spacer - 2.0 * wheel_offset


@formula("W_t", "length", source=_ACROSS)
def track_of_centers(left_center: Num, right_center: Num) -> Num:
    """Tire center to tire center, from the places of both; the right one is below zero."""
    return left_center - right_center


@formula("b_w", "length", source=_ALONG)
def lever_of_wheel(
    wheel_bearing_width: Num,
    bearing_to_flange: Num,
    wheel_hat: Num,
    wheel_spacer: Num,
    wheel_offset: Num,
) -> Num:
    """Middle of the wheel bearing out to the middle of the tire."""
    out_to_face = 0.5 * wheel_bearing_width + bearing_to_flange + wheel_hat + wheel_spacer
    return out_to_face - wheel_offset


@formula("L_t", "length", source=_ALONG)
def twisting_length(shaft_length: Num, gear_engagement: Num) -> Num:
    """Shaft between its flange and the side gear: what twists, without the spline that is held."""
    return shaft_length - gear_engagement


@formula("b_s", "length", source=_ACROSS)
def inset_of_seat(left_center: Num, seat_center: Num) -> Num:
    """Middle of the tire in to the middle of the spring's seat on the axle."""
    return left_center - seat_center
