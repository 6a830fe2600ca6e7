"""From a polished test piece to a real shaft: endurance limit, notches and the finite-life line.

The factors of Marin as Shigley gives them, for steel.  They are meant for stresses that come
millions of times; a drag launch is far above the endurance limit and belongs to the lines in
:mod:`fatigue`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, ch. 6 (from memory)"


@formula("S_e'", "stress", source=f"{_SHIGLEY}, eq. 6-8")
def polished_limit(tensile_strength: Num) -> Num:
    """Endurance limit of a polished test piece of steel in rotating bending."""
    return np.minimum(0.5 * tensile_strength, 700e6)


@formula(
    "k_a",
    "ratio",
    source=f"{_SHIGLEY}, eq. 6-19 and table 6-2: ground 1.58, −0.085; machined 4.51, −0.265; "
    "hot rolled 57.7, −0.718; forged 272, −0.995",
)
def surface_factor(
    tensile_strength: Num, marin_surface_coefficient: Num, marin_surface_exponent: Num
) -> Num:
    """Loss of endurance limit by a rough surface."""
    return marin_surface_coefficient * (tensile_strength / 1e6) ** marin_surface_exponent


@formula(
    "k_b",
    "ratio",
    source=f"{_SHIGLEY}, eq. 6-20",
    valid={"diameter": (0.00279, 0.254)},
    outside="beyond the sizes that were tested",
)
def size_factor(diameter: Num) -> Num:
    """Loss of endurance limit of a thick shaft in rotating bending or torsion."""
    return np.where(
        diameter <= 0.051,
        (diameter / 0.00762) ** -0.107,
        1.51 * (1000.0 * diameter) ** -0.157,
    )[()]


@formula(
    "k_c",
    "ratio",
    source="Budynas & Nisbett, Shigley's Mechanical Engineering Design, tables 6-11 to 6-14 "
    "(as reproduced in a secondary copy)",
    valid={"tensile_strength": (345e6, 1380e6)},
    outside="beyond the strengths that were tested",
)
def torsion_factor(tensile_strength: Num) -> Num:
    """Endurance limit in torsion as a share of that in bending; 0.59 on average."""
    return 0.328 * (tensile_strength / 6.894757293168361e6) ** 0.125


@formula("k_e", "ratio", source=f"{_SHIGLEY}, eq. 6-29")
def reliability_factor(reliability_variate: Num) -> Num:
    """Loss of endurance limit for more than even odds, at 8 % scatter of the limit."""
    return 1.0 - 0.08 * reliability_variate


@formula("S_e", "stress", source=f"{_SHIGLEY}, eq. 6-18")
def part_limit(
    test_piece_endurance: Num,
    marin_surface_factor: Num,
    marin_size_factor: Num,
    marin_load_factor: Num,
    marin_reliability_factor: Num,
) -> Num:
    """Endurance limit of a real part."""
    return (
        marin_surface_factor
        * marin_size_factor
        * marin_load_factor
        * marin_reliability_factor
        * test_piece_endurance
    )


@formula(
    "q",
    "ratio",
    source=f"{_SHIGLEY}, eq. 6-34 and 6-35a",
    valid={"tensile_strength": (345e6, 1725e6)},
    outside="beyond the strengths that the curve was fitted to",
)
def notch_sensitivity_bending(tensile_strength: Num, notch_radius: Num) -> Num:
    """How fully a notch counts in swinging bending or pull: 0 not at all, 1 fully."""
    kpsi = tensile_strength / 6.894757293168361e6
    neuber = 0.246 - 3.08e-3 * kpsi + 1.51e-5 * kpsi**2 - 2.67e-8 * kpsi**3
    return 1.0 / (1.0 + neuber / np.sqrt(notch_radius / 0.0254))


@formula(
    "q_s",
    "ratio",
    source=f"{_SHIGLEY}, eq. 6-34 and 6-35b",
    valid={"tensile_strength": (345e6, 1725e6)},
    outside="beyond the strengths that the curve was fitted to",
)
def notch_sensitivity_torsion(tensile_strength: Num, notch_radius: Num) -> Num:
    """How fully a notch counts in swinging torsion: 0 not at all, 1 fully."""
    kpsi = tensile_strength / 6.894757293168361e6
    neuber = 0.190 - 2.51e-3 * kpsi + 1.35e-5 * kpsi**2 - 2.67e-8 * kpsi**3
    return 1.0 / (1.0 + neuber / np.sqrt(notch_radius / 0.0254))


@formula("K_f", "ratio", source=f"{_SHIGLEY}, eq. 6-32")
def fatigue_notch_factor(notch_sensitivity: Num, theoretical_notch_factor: Num) -> Num:
    """Factor by which a notch raises a swinging stress."""
    return 1.0 + notch_sensitivity * (theoretical_notch_factor - 1.0)


@formula("a", "stress", source=f"{_SHIGLEY}, eq. 6-14")
def finite_life_coefficient(
    tensile_strength: Num, thousand_cycle_share: Num, part_endurance: Num
) -> Num:
    """Height of the line from a thousand cycles to the endurance limit."""
    return (thousand_cycle_share * tensile_strength) ** 2 / part_endurance


@formula("b", "ratio", source=f"{_SHIGLEY}, eq. 6-15")
def finite_life_exponent(
    tensile_strength: Num, thousand_cycle_share: Num, part_endurance: Num
) -> Num:
    """Slope of the line from a thousand cycles to the endurance limit at a million."""
    return -np.log10(thousand_cycle_share * tensile_strength / part_endurance) / 3.0


@formula(
    "N",
    "count",
    source=f"{_SHIGLEY}, eq. 6-16",
)
def finite_life_cycles(
    stress_amplitude: Num, finite_life_height: Num, finite_life_slope: Num
) -> Num:
    """Cycles to failure on the line from a thousand to a million cycles."""
    return (stress_amplitude / finite_life_height) ** (1.0 / finite_life_slope)
