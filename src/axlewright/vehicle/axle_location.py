"""Where a live axle pulls and twists: instant center, thrust slope, reaction arm.

Seen from the side, links and leaves hold the axle as one rigid arm would that pivots at the
instant center.  The line from the contact patch to it makes the anti-squat.  Follows Gillespie,
Fundamentals of Vehicle Dynamics (SAE R-114, 1992), chapter 7.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_SOLID = "Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 7 (from memory)"
_AHEAD = {"instant_center_ahead": (0.2, None)}
_AHEAD_WORDS = "an instant center under the axle makes the links fight each other"


@formula("z_ic", "length", source=f"{_SOLID}: slope over height of mass over wheelbase")
def height_for_anti_squat(
    anti_squat: Num, instant_center_ahead: Num, cg_height: Num, wheelbase: Num
) -> Num:
    """Height of the instant center above ground that makes a stated anti-squat."""
    return anti_squat * instant_center_ahead * cg_height / wheelbase


@formula(
    "s_1",
    "ratio",
    source="line from the axle to the instant center (closed form)",
    valid=_AHEAD,
    outside=_AHEAD_WORDS,
)
def thrust_slope(instant_center_height: Num, instant_center_ahead: Num, tire_radius: Num) -> Num:
    """Slope along which the thrust of the axle reaches the body."""
    return (instant_center_height - tire_radius) / instant_center_ahead


@formula(
    "1/x",
    "per distance",
    source="rate of rotation about the instant center (closed form)",
    valid=_AHEAD,
    outside=_AHEAD_WORDS,
)
def reaction_arm(instant_center_ahead: Num) -> Num:
    """How far the axle turns for each length by which it moves up, and how it reacts its torque."""
    return 1.0 / instant_center_ahead


@formula(
    "k_ψ",
    "torsional stiffness",
    source="torque over twist (closed form)",
    valid={"windup_angle": (0.001, 0.5)},
    outside="no axle that is still held winds up so little or so far",
)
def windup_stiffness(windup_torque: Num, windup_angle: Num) -> Num:
    """Stiffness against wind-up from an angle read while a known torque was held."""
    return windup_torque / windup_angle
