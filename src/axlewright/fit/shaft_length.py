"""Length of axle shafts, flange face to spline end, and how well they sit in the differential.

The datum is the center of the differential (its cross pin), not the pinion's center line.  What
stays free between that center and the inner end of a shaft is the gap of its own side; measure it,
and both ends of each side gear's spline, on the real differential.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_ALONG = "lengths along the axle added up, closed form"


@formula("L_s", "length", source=_ALONG)
def shaft_length(bare_half: Num, end_gap: Num) -> Num:
    """Flange face to spline end, from differential center to bare flange."""
    return bare_half - end_gap


@formula("g_e", "length", source=_ALONG)
def end_gap(bare_half: Num, shaft_length: Num) -> Num:
    """Differential center to the inner end of a shaft that is there already."""
    return bare_half - shaft_length


@formula("W_or", "length", source=_ALONG)
def width_of_shafts(
    left_shaft: Num, right_shaft: Num, left_end_gap: Num, right_end_gap: Num
) -> Num:
    """Bare flange to bare flange over both shafts and gaps: must be the ORDER width again."""
    return left_shaft + right_shaft + left_end_gap + right_end_gap


@formula("c_p", "length", source=_ALONG)
def pin_clearance(end_gap: Num, center_reach: Num, inboard_float: Num) -> Num:
    """Shaft end to cross pin, spacer or other shaft, shaft pushed in; below zero it bottoms."""
    return end_gap - center_reach - inboard_float


@formula("e_g", "length", source="overlap of two lengths on one line, closed form")
def engaged_length(
    end_gap: Num, shaft_spline: Num, gear_spline_inner: Num, gear_spline_outer: Num, float_out: Num
) -> Num:
    """Length over which shaft and side gear share spline, shaft drawn out by the float.

    Gear spline ends are distances from the differential center, ``float_out`` is + away from it.
    """
    inner = np.maximum(end_gap + float_out, gear_spline_inner)
    outer = np.minimum(end_gap + float_out + shaft_spline, gear_spline_outer)
    result: Num = np.maximum(outer - inner, 0.0)
    return result


@formula(
    "e_n",
    "length",
    source="1.0 to 1.25 times the spline's diameter, common practice, no source",
    valid={"engagement_share": (1.0, None)},
    outside="less engagement than one diameter is not enough by common practice",
)
def wanted_engagement(shaft_spline_diameter: Num, engagement_share: Num) -> Num:
    """Least spline that should stay engaged."""
    return shaft_spline_diameter * engagement_share


@formula("L_c", "length", source=_ALONG)
def cut_length(shaft_there: Num, shaft_wanted: Num) -> Num:
    """What to take off a shaft that is there; below zero it is too short and cannot be used."""
    return shaft_there - shaft_wanted
