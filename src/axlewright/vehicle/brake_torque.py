"""Torque of one wheel's brake: disc, and drum shoe by shoe.

A brake factor is the drag on disc or drum over the force that presses one shoe or pad.  A disc has
twice the friction of its pads.  The long shoe follows the classic theory: a rigid shoe that turns
about a fixed pivot, pressure with the sine of the angle from it.  Linings wear into other shapes,
and friction moves with heat and water, so a drum's factor is never known to better than a tenth.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from axlewright.quantities.formula import Num, formula

_LONG_SHOE = "Shigley, Mechanical Engineering Design, ch. 16, long internal shoe (from memory)"
_DRUM = {"shoe_friction": (0.05, 0.6)}
_DRUM_WORDS = "no brake lining has so little or so much friction"


@formula("T_b", "torque", source="friction on both faces of a disc (closed form)")
def disc_brake_torque(
    line_pressure: Num, piston_area: Num, pad_friction: Num, pad_radius: Num
) -> Num:
    """Torque of one disc brake.

    ``piston_area`` is that of the pistons on one side; for a caliper that slides, all of them.
    """
    return 2.0 * pad_friction * line_pressure * piston_area * pad_radius


@formula("r_p", "length", source="even wear of the pads (closed form)")
def worn_pad_radius(sweep_outer_radius: Num, sweep_inner_radius: Num) -> Num:
    """Radius at which a bedded pad rubs on the average: the middle of its sweep."""
    return 0.5 * (sweep_outer_radius + sweep_inner_radius)


@formula("C", "ratio", source=f"{_LONG_SHOE}; torque over force times radius", valid=_DRUM,
         outside=_DRUM_WORDS)  # fmt: skip
def shoe_factor(
    shoe_friction: Num,
    drum_radius: Num,
    shoe_pivot_radius: Num,
    shoe_start: Num,
    shoe_end: Num,
    shoe_lever: Num,
    shoe_sense: Num,
) -> Num:
    """Drag of one shoe over the force that presses it: sense +1 leading, -1 trailing.

    Angles run from the pivot to both ends of the lining; the lever is that of the force about the
    pivot.
    """
    reach = np.cos(shoe_start) - np.cos(shoe_end)
    squares = np.sin(shoe_end) ** 2 - np.sin(shoe_start) ** 2
    rubbing = shoe_friction * (drum_radius * reach - 0.5 * shoe_pivot_radius * squares)
    span = 0.5 * (shoe_end - shoe_start)
    bend = 0.25 * (np.sin(2.0 * shoe_end) - np.sin(2.0 * shoe_start))
    pressing = shoe_pivot_radius * (span - bend)
    result: Num = shoe_friction * reach * shoe_lever / (pressing - shoe_sense * rubbing)
    return result


@formula("μ_g", "ratio", source=f"{_LONG_SHOE}; moment of friction equal to that of pressure")
def grabbing_friction(
    drum_radius: Num, shoe_pivot_radius: Num, shoe_start: Num, shoe_end: Num
) -> Num:
    """Friction at which a leading shoe pulls itself on and locks without any force."""
    reach = np.cos(shoe_start) - np.cos(shoe_end)
    squares = np.sin(shoe_end) ** 2 - np.sin(shoe_start) ** 2
    span = 0.5 * (shoe_end - shoe_start)
    bend = 0.25 * (np.sin(2.0 * shoe_end) - np.sin(2.0 * shoe_start))
    result: Num = (
        shoe_pivot_radius
        * (span - bend)
        / (drum_radius * reach - 0.5 * shoe_pivot_radius * squares)
    )
    return result


@formula("p_a", "pressure", source=_LONG_SHOE, valid=_DRUM, outside=_DRUM_WORDS)
def lining_pressure(
    shoe_force: Num,
    lining_width: Num,
    shoe_friction: Num,
    drum_radius: Num,
    shoe_pivot_radius: Num,
    shoe_start: Num,
    shoe_end: Num,
    shoe_lever: Num,
    shoe_sense: Num,
) -> Num:
    """Highest pressure on the lining of one shoe."""
    reach = np.cos(shoe_start) - np.cos(shoe_end)
    squares = np.sin(shoe_end) ** 2 - np.sin(shoe_start) ** 2
    rubbing = shoe_friction * (drum_radius * reach - 0.5 * shoe_pivot_radius * squares)
    span = 0.5 * (shoe_end - shoe_start)
    bend = 0.25 * (np.sin(2.0 * shoe_end) - np.sin(2.0 * shoe_start))
    pressing = shoe_pivot_radius * (span - bend)
    highest = np.sin(np.minimum(shoe_end, 0.5 * np.pi))
    moment = lining_width * drum_radius * (pressing - shoe_sense * rubbing)
    result: Num = shoe_force * shoe_lever * highest / moment
    return result


@formula("C*", "ratio", source="drags of two shoes added up (closed form)")
def two_shoe_factor(first_shoe_factor: Num, second_shoe_factor: Num) -> Num:
    """Brake factor of two shoes that are pressed alike: leading and trailing, or both leading."""
    return first_shoe_factor + second_shoe_factor


@formula("C*", "ratio", source="moments of the floating shoe about the drum's center (derived)")
def servo_factor(
    first_shoe_factor: Num,
    second_shoe_factor: Num,
    cylinder_lever: Num,
    adjuster_lever: Num,
    drum_radius: Num,
) -> Num:
    """Brake factor of a servo drum, whose first shoe floats and presses the second one.

    Levers are those of cylinder and adjuster about the drum's center.  Friction counts nearly
    squared: such a brake is the strongest and the least steady of all.
    """
    passed_on = (cylinder_lever + first_shoe_factor * drum_radius) / adjuster_lever
    return first_shoe_factor + second_shoe_factor * passed_on


@formula("T_b", "torque", source="force times brake factor times radius (closed form)")
def drum_brake_torque(
    line_pressure: Num, cylinder_area: Num, brake_factor: Num, drum_radius: Num
) -> Num:
    """Torque of one drum brake; the area is that of one end of its wheel cylinder."""
    return line_pressure * cylinder_area * brake_factor * drum_radius


def wheel_brake_torque(
    kind: Literal["disc", "drum"], line_pressure: Num, area: Num, radius: Num,
    friction: Num, drum_factor: Num,
) -> Num:  # fmt: skip
    """Torque of one brake of either kind; friction counts for a disc, the factor for a drum."""
    if kind == "disc":
        return disc_brake_torque(line_pressure, area, friction, radius)
    return drum_brake_torque(line_pressure, area, drum_factor, radius)


@dataclass(frozen=True)
class FactorRange:
    """What a kind of brake usually has where nothing is measured."""

    low: float
    likely: float
    high: float
    words: str


USUAL_FACTORS = {
    "disc": FactorRange(0.60, 0.76, 0.90, "two pads"),
    "leading and trailing": FactorRange(1.6, 2.1, 2.6, "one cylinder, shoes on a fixed anchor"),
    "two leading": FactorRange(2.4, 3.0, 3.8, "a cylinder for each shoe"),
    "servo": FactorRange(3.0, 4.5, 6.5, "one cylinder, shoes joined by the adjuster"),
}
"""Brake factors by kind, friction of street linings; from memory, wide on purpose."""
