"""A bearing cap that a force pulls off its seat: bounds on the stress in its bridge.

A cap is half a ring bolted at both feet, filled by a bearing that keeps it round.  No closed
form covers that.  Three crude models bracket it: a bridge free to tilt at its bolts (highest), a
bridge clamped there, and a half ring that only stretches (lowest).  Real caps lie between the
last two while their bolts hold the feet shut, and go toward the first once the feet gape.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_BEAM = "beam theory, load spread over the bore (closed form)"


@formula("M_free", "torque", source=_BEAM)
def free_bridge_moment(bearing_cap_load: Num, cap_bolt_spacing: Num, bearing_cap_bore: Num) -> Num:
    """Greatest bending moment of a cap taken as a bridge free to tilt at its two bolts."""
    return bearing_cap_load * (0.25 * cap_bolt_spacing - 0.125 * bearing_cap_bore)


@formula("M_clamp", "torque", source=_BEAM)
def clamped_bridge_moment(
    bearing_cap_load: Num, cap_bolt_spacing: Num, bearing_cap_bore: Num
) -> Num:
    """Bending moment at the feet of a cap taken as a bridge clamped by its two bolts."""
    slope = 3.0 * cap_bolt_spacing * cap_bolt_spacing - bearing_cap_bore * bearing_cap_bore
    return bearing_cap_load * slope / (24.0 * cap_bolt_spacing)


@formula("σ_b", "stress", source="beam theory (closed form)")
def bridge_bending_stress(
    bridge_moment: Num, bearing_cap_width: Num, bearing_cap_crown: Num
) -> Num:
    """Bending stress of the bridge of a cap, width along the bearing, crown across its back."""
    return 6.0 * bridge_moment / (bearing_cap_width * bearing_cap_crown * bearing_cap_crown)


@formula("σ_t", "stress", source="half ring under pressure, membrane only (closed form)")
def bridge_stretch_stress(
    bearing_cap_load: Num, bearing_cap_width: Num, bearing_cap_crown: Num
) -> Num:
    """Tension in a cap that stays round: half the force on each leg."""
    return bearing_cap_load / (2.0 * bearing_cap_width * bearing_cap_crown)


@formula(
    "K_i",
    "ratio",
    source="Winkler's curved bar of rectangular section; Shigley ch. 3, curved beams (from memory)",
    valid={"curved_depth": (0.0, None)},
    outside="a bar without depth",
)
def inner_fiber_factor(curved_inner_radius: Num, curved_depth: Num) -> Num:
    """How much more the inside of a curved bar is stressed than a straight bar's face.

    Applies to the bridge of a cap where the force opens its bend.
    """
    neutral = curved_depth / np.log(1.0 + curved_depth / curved_inner_radius)
    middle = curved_inner_radius + 0.5 * curved_depth
    shift = middle - neutral
    return curved_depth * (neutral - curved_inner_radius) / (6.0 * shift * curved_inner_radius)


@formula("σ_cap", "stress", source="between the bounds, by a share that is judged (derived)")
def cap_stress(cap_bridge_stress: Num, cap_stretch_stress: Num, cap_bridge_share: Num) -> Num:
    """Tension in a cap that a bearing keeps nearly round: all the stretch, little of the bridge."""
    return cap_bridge_share * cap_bridge_stress + cap_stretch_stress
