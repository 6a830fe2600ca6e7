"""Whirl of a driveshaft tube and the imbalance that it may keep.

A tube between two joints is a beam on pins: at its first bending frequency it bows out like a
skipping rope.  The bare beam is Euler and Bernoulli's (Shigley eq. 7-22, from memory); the finer
form adds shear and the turning of the sections (Timoshenko, with Cowper's shear coefficient).
Real ends give way, so a shaft is kept to a share of the computed speed: 0.7 is usual for cars,
0.65 for industry.  Balance grades are those of ISO 21940-11.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_BEAM = "Euler-Bernoulli beam on pins, (π/L)²·√(E·I/(ρ·A)), Shigley eq. 7-22 (from memory)"
_GRADE = "ISO 21940-11, grade = permissible offset times speed (as reproduced in a grade table)"


@formula("ω_c", "rotation", source=_BEAM)
def critical_speed(
    youngs_modulus: Num, density: Num, outer_diameter: Num, inner_diameter: Num, length: Num
) -> Num:
    """Speed at which a tube on two joints whips: its first bending frequency.

    Length counts squared, diameter straight, wall hardly.  Length is from joint to joint.
    """
    gyration = np.sqrt(outer_diameter * outer_diameter + inner_diameter * inner_diameter) / 4.0
    sound = np.sqrt(youngs_modulus / density)
    result: Num = (np.pi / length) ** 2 * gyration * sound
    return result


@formula(
    "ω_c",
    "rotation",
    source="Timoshenko beam on pins in forward synchronous whirl, first order in (π·r/L)² "
    "(closed form); shear coefficient of a tube by Cowper, 1966 (from memory)",
)
def critical_speed_with_shear(
    youngs_modulus: Num,
    shear_modulus: Num,
    density: Num,
    outer_diameter: Num,
    inner_diameter: Num,
    length: Num,
) -> Num:
    """Whip speed of a tube counting shear and the turning of its sections.

    About one percent below the plain beam for a car's tube; worth having for short fat ones.
    """
    poisson = youngs_modulus / (2.0 * shear_modulus) - 1.0
    bore = (inner_diameter / outer_diameter) ** 2
    square = (1.0 + bore) ** 2
    shape = (
        6.0
        * (1.0 + poisson)
        * square
        / ((7.0 + 6.0 * poisson) * square + (20.0 + 12.0 * poisson) * bore)
    )
    gyration = (outer_diameter * outer_diameter + inner_diameter * inner_diameter) / 16.0
    bend = (np.pi / length) ** 2
    slack = 1.0 + bend * gyration * (youngs_modulus / (shape * shear_modulus) - 1.0)
    result: Num = bend * np.sqrt(gyration * youngs_modulus / (density * slack))
    return result


@formula(
    "ω_c",
    "rotation",
    source="driveline shop formula for steel tube, 4.8e6·√(D²+d²)/L² rpm in inches "
    "(as reproduced on a driveline maker's page)",
)
def shop_critical_speed(outer_diameter: Num, inner_diameter: Num, length: Num) -> Num:
    """Whip speed of a steel tube by the shop's constant; reads under one percent high."""
    across = np.sqrt(outer_diameter * outer_diameter + inner_diameter * inner_diameter)
    result: Num = 4.8e6 * 0.0254 * np.pi / 30.0 * across / (length * length)
    return result


@formula("s_c", "ratio", source="ratio of running speed to critical speed, definition")
def share_of_critical(speed: Num, critical_speed: Num) -> Num:
    """How close a shaft runs to its whip speed."""
    return speed / critical_speed


@formula("L_max", "length", source=f"{_BEAM}, solved for length")
def length_allowed(
    youngs_modulus: Num,
    density: Num,
    outer_diameter: Num,
    inner_diameter: Num,
    speed: Num,
    critical_share: Num,
) -> Num:
    """Longest tube that stays at a given share of its whip speed."""
    gyration = np.sqrt(outer_diameter * outer_diameter + inner_diameter * inner_diameter) / 4.0
    sound = np.sqrt(youngs_modulus / density)
    result: Num = np.pi * np.sqrt(gyration * sound * critical_share / speed)
    return result


@formula("e_per", "length", source=_GRADE)
def balance_offset_allowed(balance_grade: Num, speed: Num) -> Num:
    """Offset of the mass centre from the axis that a balance grade leaves at a speed."""
    return balance_grade / speed


@formula("m_per", "mass", source=f"{_GRADE}; U = 9549·G·m/N in g·mm, kg and rpm")
def balance_weight_allowed(
    balance_grade: Num, driveshaft_mass: Num, speed: Num, correction_radius: Num
) -> Num:
    """Weight at the tube's skin that a balance grade leaves, both ends together.

    Half of it belongs to each end.  The standard is for rotors that do not bend: it holds well
    below the whip speed only.
    """
    return balance_grade * driveshaft_mass / (speed * correction_radius)


@formula("n", "ratio", source="definition of a margin on speed (closed form)")
def whirl_margin(critical_speed: Num, critical_share: Num, speed: Num) -> Num:
    """Speed that is safe from whipping over the speed that the shaft runs."""
    return critical_speed * critical_share / speed
