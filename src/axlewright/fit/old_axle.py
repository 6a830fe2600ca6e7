"""What the old axle tells of the new one: its faces in the body, and what is left over a wheel.

Readings run from the wheel face of the axle that stood in the car.  To place a lip in the body that
face must be placed first: from a datum that the body has on both sides, or, where nobody measured
one, from the axle's own middle with what it may be off.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_ALONG = "lengths across the car added up, closed form"
_HALF = "half of a length, definition"


@formula("H_f", "length", source=_ALONG)
def face_from_rail(rail_to_rail: Num, rail_to_face: Num) -> Num:
    """Wheel face from the car's center plane, which lies midway between both body datums."""
    return 0.5 * rail_to_rail + rail_to_face


@formula("S_g", "length", source=_ALONG)
def section_over_ground(mounted_section: Num, ground_bulge: Num) -> Num:
    """Width of the tire at its lower bulge, from its width at the top."""
    return mounted_section + ground_bulge


@formula(
    "R_g",
    "length",
    source="share of growth, definition",
    valid={"growth_at_top": (0.0, 0.15)},
    outside="a tire that grows so much is no longer elastic in proportion",
)
def radius_at_top_speed(free_radius: Num, growth_at_top: Num) -> Num:
    """Radius of the tire at the car's top speed."""
    return free_radius * (1.0 + growth_at_top)


@formula("c_r", "length", source="heights subtracted, closed form")
def roof_clearance(roof_over_center: Num, bump_travel: Num, running_radius: Num) -> Num:
    """Tread to the roof of the wheelhouse with the wheel at full bump."""
    return roof_over_center - bump_travel - running_radius


@formula("s_k", "length", source="difference of two lengths, definition")
def over_wanted(clearance_kept: Num, clearance_wanted: Num) -> Num:
    """Clearance over what is wanted; below zero it falls short."""
    return clearance_kept - clearance_wanted


@formula("g_e", "length", source=_HALF)
def half_gap(shaft_gap: Num) -> Num:
    """Differential center to the inner end of each shaft, where both shafts stay off it alike."""
    return 0.5 * shaft_gap


@formula("H_f", "length", source=_HALF)
def half_of_width(whole_width: Num) -> Num:
    """Half of an axle that sits in the middle of the car."""
    return 0.5 * whole_width


@formula(
    "W_f", "length", source="nearest mark of a rule with such steps, definition", kind="lookup"
)
def ordered_width(best_width: Num, order_step: Num) -> Num:
    """Width as it is ordered: the nearest step to the best one."""
    result: Num = np.round(best_width / order_step) * order_step
    return result


@formula("c_m", "length", source=_ALONG)
def wanted_when_moving(moving_clearance: Num, side_shift: Num) -> Num:
    """Clearance to keep beside a centered axle, so that enough is left when it has shifted."""
    return moving_clearance + side_shift


@formula("e_w", "length", source=_ALONG)
def offset_for_half(fit_half: Num, half_without_offset: Num) -> Num:
    """Wheel offset for an axle that is there, from the half that a wheel without offset would want.

    A wheel drawn in by its offset wants an axle as much wider.
    """
    return fit_half - half_without_offset
