"""How many swings of stress a metal stands: stress–life, strain–life, mean stress, damage.

Basquin and Coffin–Manson lines as in Dowling, mean stress after Goodman, Morrow and Smith–
Watson–Topper, damage after Miner.  Lives are counted in cycles; the constants are those of the
line over reversals (two to a cycle).  A line shows the middle of the tests: single parts scatter
around it by a factor of three and more in life.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_DOWLING = "Dowling, Mechanical Behavior of Materials, ch. 9 and 14 (from memory)"
_WATERLOO = (
    "least squares through raw strain-life data of an induction-hardened SAE 1050M axle-shaft "
    "case, HRC 54 (University of Waterloo, Fatigue Design & Evaluation data base, 1998), 17 points"
)
_TESTED = {"stress_amplitude": (835e6, 1745e6)}
_UNTESTED = "beyond the stresses that were tested"


@formula("N_f", "count", source=f"{_DOWLING}, Basquin")
def basquin_cycles(
    stress_amplitude: Num, fatigue_strength_coefficient: Num, fatigue_strength_exponent: Num
) -> Num:
    """Cycles to failure at a stress amplitude, fully reversed."""
    return 0.5 * (stress_amplitude / fatigue_strength_coefficient) ** (
        1.0 / fatigue_strength_exponent
    )


@formula("σ_a", "stress", source=f"{_DOWLING}, Basquin")
def basquin_amplitude(
    cycles_to_failure: Num, fatigue_strength_coefficient: Num, fatigue_strength_exponent: Num
) -> Num:
    """Stress amplitude, fully reversed, that a metal stands for a number of cycles."""
    return fatigue_strength_coefficient * (2.0 * cycles_to_failure) ** fatigue_strength_exponent


@formula("m", "ratio", source="slope of the Basquin line, closed form")
def damage_exponent_of(fatigue_strength_exponent: Num) -> Num:
    """Power with which damage grows with torque or stress."""
    return -1.0 / fatigue_strength_exponent


@formula("N_f", "count", source=f"{_WATERLOO}, life over stress", valid=_TESTED, outside=_UNTESTED)
def hardened_case_cycles(stress_amplitude: Num) -> Num:
    """Cycles that the hard case of an axle shaft stands, fully reversed, line for life."""
    return 0.5 * (stress_amplitude / 3044e6) ** (-1.0 / 0.0879)


@formula("N_f", "count", source=f"{_WATERLOO}, stress over life", valid=_TESTED, outside=_UNTESTED)
def hardened_case_cycles_by_stress(stress_amplitude: Num) -> Num:
    """Cycles that the hard case of an axle shaft stands, fully reversed, line for stress.

    The same tests fitted the other way around: how far the two lines part shows the doubt.
    """
    return 0.5 * (stress_amplitude / 2845e6) ** (-1.0 / 0.0814)


@formula("σ_a", "stress", source="distortion energy (von Mises) in pure shear, closed form")
def amplitude_of_shear(shear_amplitude: Num) -> Num:
    """Stress amplitude that tires steel like a swinging shear stress."""
    return np.sqrt(3.0) * shear_amplitude  # type: ignore[no-any-return]


@formula(
    "σ_ar",
    "stress",
    source=f"{_DOWLING}, Goodman",
    valid={"mean_stress": (0.0, None)},
    outside="a mean push helps, but no credit is taken for it",
)
def goodman_amplitude(stress_amplitude: Num, mean_stress: Num, tensile_strength: Num) -> Num:
    """Fully reversed amplitude that tires alike, by Goodman."""
    return stress_amplitude / (1.0 - np.maximum(mean_stress, 0.0) / tensile_strength)


@formula("σ_ar", "stress", source=f"{_DOWLING}, Morrow")
def morrow_amplitude(
    stress_amplitude: Num, mean_stress: Num, fatigue_strength_coefficient: Num
) -> Num:
    """Fully reversed amplitude that tires alike, by Morrow."""
    return stress_amplitude / (1.0 - mean_stress / fatigue_strength_coefficient)


@formula("σ_ar", "stress", source=f"{_DOWLING}, Smith–Watson–Topper")
def swt_amplitude(stress_amplitude: Num, mean_stress: Num) -> Num:
    """Fully reversed amplitude that tires alike, by Smith, Watson and Topper."""
    return np.sqrt(np.maximum(stress_amplitude + mean_stress, 0.0) * stress_amplitude)


@formula("ε_a", "ratio", source=f"{_DOWLING}, Coffin–Manson–Basquin")
def strain_amplitude_at(
    cycles_to_failure: Num,
    youngs_modulus: Num,
    fatigue_strength_coefficient: Num,
    fatigue_strength_exponent: Num,
    fatigue_ductility_coefficient: Num,
    fatigue_ductility_exponent: Num,
) -> Num:
    """Strain amplitude that a metal stands for a number of cycles."""
    return (
        fatigue_strength_coefficient
        / youngs_modulus
        * (2.0 * cycles_to_failure) ** fatigue_strength_exponent
        + fatigue_ductility_coefficient * (2.0 * cycles_to_failure) ** fatigue_ductility_exponent
    )


@formula("N_f", "count", source=f"{_DOWLING}, Coffin–Manson–Basquin solved for life", kind="solve")
def strain_life_cycles(
    strain_amplitude: Num,
    youngs_modulus: Num,
    fatigue_strength_coefficient: Num,
    fatigue_strength_exponent: Num,
    fatigue_ductility_coefficient: Num,
    fatigue_ductility_exponent: Num,
) -> Num:
    """Cycles to failure at a strain amplitude.

    The log of strain is a falling convex function of the log of life, so Newton's steps from the
    longer of the two single lines run up to the answer from one side; eight are plenty.
    """
    elastic = np.log(fatigue_strength_coefficient / (youngs_modulus * strain_amplitude))
    plastic = np.log(fatigue_ductility_coefficient / strain_amplitude)
    b, c = fatigue_strength_exponent, fatigue_ductility_exponent
    life = np.maximum(-elastic / b, -plastic / c)
    for _ in range(8):
        first, second = np.exp(elastic + b * life), np.exp(plastic + c * life)
        total = first + second
        life = life - np.log(total) * total / (b * first + c * second)
    return 0.5 * np.exp(life)


@formula("N_t", "count", source=f"{_DOWLING}, transition life")
def transition_cycles(
    youngs_modulus: Num,
    fatigue_strength_coefficient: Num,
    fatigue_strength_exponent: Num,
    fatigue_ductility_coefficient: Num,
    fatigue_ductility_exponent: Num,
) -> Num:
    """Life at which elastic and plastic strain are equal: below it, ductility counts most."""
    return 0.5 * (
        fatigue_ductility_coefficient * youngs_modulus / fatigue_strength_coefficient
    ) ** (1.0 / (fatigue_strength_exponent - fatigue_ductility_exponent))


@formula("D", "ratio", source="Miner's rule, closed form")
def miner_damage(damage_before: Num, block_cycles: Num, cycles_to_failure: Num) -> Num:
    """Share of life used after one more block of cycles; at 1 the part is due to fail."""
    return damage_before + block_cycles / cycles_to_failure


@formula(
    "T_eq",
    "torque",
    source="Miner's rule on a Basquin line, closed form",
    kind="simulation",
    valid={"damage_exponent": (1.0, 30.0)},
    outside="no metal has such a steep or such a flat line",
)
def spectrum_torque(spectrum_torques: Num, spectrum_cycles: Num, damage_exponent: Num) -> Num:
    """Constant torque that does the damage of a whole spectrum in as many cycles.

    The blocks run along the last axis; the axes before it are samples.
    """
    torques = np.atleast_1d(np.abs(spectrum_torques))
    greatest = np.maximum(torques.max(axis=-1, keepdims=True), 1e-300)
    power = np.asarray(damage_exponent)[..., None]
    weighted = spectrum_cycles * (torques / greatest) ** power
    counts = np.broadcast_to(spectrum_cycles, weighted.shape)
    mean = weighted.sum(axis=-1) / counts.sum(axis=-1)
    equivalent: Num = (greatest[..., 0] * mean ** (1.0 / power[..., 0]))[()]
    return equivalent


@formula("N", "count", source="a part that breaks at once has no life (derived)")
def life_if_it_holds(cycles_reckoned: Num, break_margin: Num) -> Num:
    """Launches to a fatigue crack; none where the first one breaks the part."""
    result: Num = np.where(break_margin < 1.0, 0.0, cycles_reckoned)[()]
    return result
