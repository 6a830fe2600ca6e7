"""The register: the round step that centers hat and wheel on the flange."""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.formula import Num, formula

CENTERED_WITHIN = 0.25e-3
"""Diametral clearance up to which a wheel counts as centered by its hub (m); common practice."""
LEAST_STEP = 3e-3
"""Height of register that a wheel needs to be centered by it (m); common practice, no source."""

Centering = Literal["does not go on", "by the hub", "by the nuts", "step too short"]


@formula("c_r", "length", source="difference of two diameters (closed form)")
def register_clearance(center_bore: Num, register_diameter: Num) -> Num:
    """Diametral clearance of hat or wheel on the register; below zero it does not go on."""
    return center_bore - register_diameter


@formula("h_l", "length", source="lengths along the axle added up (closed form)")
def register_left(register_height: Num, wheel_hat: Num, wheel_spacer: Num) -> Num:
    """Height of register that is left for the wheel above hat and spacer."""
    return register_height - wheel_hat - wheel_spacer


@formula("e_w", "length", source="half the clearance (closed form)")
def off_center_at_most(diametral_clearance: Num) -> Num:
    """How far a part may sit off center when only its register holds it."""
    return 0.5 * diametral_clearance


def centering(clearance: float, step: float) -> Centering:
    """What centers a part with this clearance on a register that stands up by ``step``."""
    if clearance < 0.0:
        return "does not go on"
    if clearance > CENTERED_WITHIN:
        return "by the nuts"
    return "by the hub" if step >= LEAST_STEP else "step too short"
