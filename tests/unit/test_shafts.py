"""Properties of splines, shafts, hardness, fatigue, brittle failure and wheel-end loads."""

from __future__ import annotations

import importlib
import tomllib
from importlib.resources import files
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.driveline import wheel_end_loads as wheel_end
from axlewright.mechanics import (
    brittle,
    combined,
    endurance,
    fatigue,
    hardness,
    shafts,
    spline_handbook,
    splines,
)
from axlewright.quantities.formula import REGISTRY
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import read

CASES: list[dict[str, Any]] = tomllib.loads(
    files("axlewright.verify").joinpath("cases/shafts.toml").read_text(encoding="utf-8")
)["case"]
MODULES = {
    m.__name__.removeprefix("axlewright.")
    for m in (
        splines, spline_handbook, shafts, hardness, combined, brittle, fatigue, endurance, wheel_end
    )
}  # fmt: skip
MINE = sorted(n for n in REGISTRY if n.rpartition(".")[0] in MODULES)

diameters = st.floats(0.02, 0.08)
torques = st.floats(10.0, 10_000.0)
moments = st.floats(0.0, 3_000.0)
stresses = st.floats(-1e9, 1e9)
strengths = st.floats(2e8, 2e9)
shares = st.floats(0.0, 0.5)


def call(name: str, inputs: dict[str, Any]) -> Any:
    module, _, function = name.rpartition(".")
    return getattr(importlib.import_module(f"axlewright.{module}"), function)(**inputs)


def inputs_of(case: dict[str, Any]) -> dict[str, float]:
    return {k: read(v, symbols()[k].dimension).value for k, v in case["inputs"].items()}


def test_every_formula_has_a_case() -> None:
    assert {c["formula"] for c in CASES} == set(MINE)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["id"])
def test_arrays_agree_with_scalars(case: dict[str, Any]) -> None:
    given_inputs = inputs_of(case)
    scale = np.array([1.0, 0.9, 1.07])
    arrays = {k: v * scale for k, v in given_inputs.items()}
    if case["formula"] == "mechanics.fatigue.spectrum_torque":  # samples before blocks
        arrays["spectrum_torques"] = arrays["spectrum_torques"][:, None]
        arrays["spectrum_cycles"] = arrays["spectrum_cycles"][:, None]
    together = np.ravel(call(case["formula"], arrays))
    one_by_one = [
        call(case["formula"], {k: np.ravel(a)[i] for k, a in arrays.items()}) for i in range(3)
    ]
    assert together.shape == (3,)
    assert together == pytest.approx(np.array(one_by_one, dtype=float), rel=1e-12, abs=1e-300)
    assert np.isfinite(together).all()
    assert np.ndim(call(case["formula"], given_inputs)) == 0


@given(st.integers(6, 60), st.sampled_from([2.5, 5.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0]))
def test_spline_diameters_stand_in_order(teeth: int, per_inch: float) -> None:
    pitch = per_inch / 0.0254
    fillet = splines.external_root_diameter_fillet(teeth, pitch)
    flat = splines.external_root_diameter_flat(teeth, pitch)
    bore = splines.internal_minor_diameter(teeth, pitch)
    middle = splines.pitch_diameter(teeth, pitch)
    outside = splines.external_major_diameter(teeth, pitch)
    root_flat = splines.internal_root_diameter_flat(teeth, pitch)
    root_fillet = splines.internal_root_diameter_fillet(teeth, pitch)
    assert fillet < flat < bore < middle < outside < root_flat < root_fillet
    clearance = splines.form_clearance(middle)
    assert splines.external_form_diameter(teeth, pitch, clearance) < bore
    assert splines.internal_form_diameter(teeth, pitch, clearance) > outside
    assert splines.base_diameter(teeth, pitch, 0.0) == pytest.approx(middle)
    assert splines.tooth_height_flat(pitch) < splines.tooth_height_fillet(pitch)


@given(torques, st.floats(1.0, 2.0), st.integers(20, 48), st.floats(0.1, 1.0))
def test_spline_torques_turn_stresses_back(
    torque: float, crooked: float, teeth: int, share: float
) -> None:
    pitch = 24.0 / 0.0254
    size = (crooked, teeth, splines.pitch_diameter(teeth, pitch), 0.035)
    thickness, height = splines.tooth_thickness(pitch), splines.tooth_height_flat(pitch)
    shear = splines.tooth_shear(torque, *size, thickness, share)
    bearing = splines.tooth_bearing(torque, *size, height, share)
    assert splines.torque_at_tooth_shear(shear, *size, thickness, share) == pytest.approx(torque)
    assert splines.torque_at_tooth_bearing(bearing, *size, height, share) == pytest.approx(torque)


@given(st.floats(0.0, 0.008), st.floats(0.0, 0.008), st.floats(0.005, 0.12), st.floats(0.005, 0.12))
def test_crooked_long_splines_are_worse(e1: float, e2: float, f1: float, f2: float) -> None:
    straight = spline_handbook.load_distribution(min(e1, e2), min(f1, f2))
    crooked = spline_handbook.load_distribution(max(e1, e2), max(f1, f2))
    assert 1.0 <= straight <= crooked + 1e-12 <= 3.0 + 1e-9


def test_spin_burst_of_a_thin_ring_is_density_times_speed_squared() -> None:
    found = spline_handbook.hub_spin_burst(500.0, 7850.0, 0.3, 0.0501, 0.0499)
    assert found == pytest.approx(7850.0 * (500.0 * 0.025) ** 2, rel=0.005)


@given(strengths, diameters, st.floats(0.0, 0.9))
def test_shaft_torque_and_stress_turn_back(strength: float, outer: float, hollow: float) -> None:
    inner = hollow * outer
    elastic = shafts.elastic_torque(strength, outer, inner)
    plastic = shafts.fully_plastic_torque(strength, outer, inner)
    assert shafts.torsion_shear(elastic, outer, inner) == pytest.approx(strength)
    assert 1.0 < plastic / elastic <= 4.0 / 3.0 + 1e-12


@given(torques, diameters, st.floats(0.1, 2.0))
def test_twist_is_torque_over_stiffness(torque: float, outer: float, length: float) -> None:
    stiffness = shafts.torsional_stiffness(79e9, length, outer, 0.0)
    assert shafts.twist(torque, length, 79e9, outer, 0.0) == pytest.approx(torque / stiffness)
    halves = shafts.torsional_stiffness(79e9, length / 2, outer, 0.0)
    assert shafts.stiffness_in_series(halves, halves) == pytest.approx(stiffness)
    assert shafts.stiffness_in_parallel(stiffness, stiffness) == pytest.approx(halves)


@given(strengths, strengths, diameters, shares, shares)
def test_deeper_case_is_never_weaker(a: float, b: float, d: float, x: float, y: float) -> None:
    core, case = sorted((a, b))
    shallow, deep = (d * s for s in sorted((x, y)))
    for torque in (shafts.step_hardened_yield_torque, shafts.step_hardened_plastic_torque):
        assert torque(case, core, d, shallow) <= torque(case, core, d, deep) * (1.0 + 1e-12)
    through = shafts.elastic_torque(case, d, 0.0)
    assert shafts.step_hardened_yield_torque(case, core, d, 0.5 * d) == pytest.approx(through)
    assert shafts.step_hardened_yield_torque(case, core, d, d) == pytest.approx(through)
    assert shafts.step_hardened_plastic_torque(case, core, d, d) == pytest.approx(through * 4 / 3)


@given(strengths, st.floats(0.1, 0.95), diameters)
def test_balanced_case_is_just_deep_enough(case: float, softness: float, d: float) -> None:
    core = softness * case
    depth = shafts.balanced_case_depth(case, core, d)
    full = shafts.elastic_torque(case, d, 0.0)
    assert shafts.step_hardened_yield_torque(case, core, d, depth) == pytest.approx(full)
    assert shafts.step_hardened_yield_torque(case, core, d, 0.98 * depth) < full


def test_no_set_up_to_yield_and_more_with_more() -> None:
    assert shafts.permanent_set(0.7, 0.2) == 0.0
    assert shafts.permanent_set(1.0, 0.2) == 0.0
    sets = shafts.permanent_set(np.linspace(1.0, 1.33, 50), 0.2)
    assert (np.diff(sets) > 0.0).all()


@given(torques, torques, diameters)
def test_torsion_swing_and_middle_add_up(a: float, b: float, d: float) -> None:
    low, high = sorted((a, b))
    swing = shafts.torsion_amplitude(high, low, d, 0.0)
    middle = shafts.torsion_mean(high, low, d, 0.0)
    assert swing + middle == pytest.approx(shafts.torsion_shear(high, d, 0.0))
    assert middle - swing == pytest.approx(shafts.torsion_shear(low, d, 0.0))


@given(st.floats(0.0, 52.0), st.floats(0.0, 52.0))
def test_harder_is_stronger(a: float, b: float) -> None:
    soft, hard = sorted((a, b))
    for strength in (
        hardness.brinell, hardness.tensile_strength_at, hardness.tensile_yield_at,
        hardness.torsional_yield_at,
    ):  # fmt: skip
        assert strength(soft) <= strength(hard)
    assert (
        hardness.torsional_yield_at(hard)
        < hardness.tensile_yield_at(hard)
        < hardness.tensile_strength_at(hard)
    )


@given(torques, moments, diameters)
def test_torque_alike_gives_the_same_von_mises(torque: float, moment: float, d: float) -> None:
    both = combined.von_mises(
        shafts.bending_stress(moment, d, 0.0), shafts.torsion_shear(torque, d, 0.0)
    )
    alike = combined.torque_alike(torque, moment)
    alone = combined.von_mises(0.0, shafts.torsion_shear(alike, d, 0.0))
    assert both == pytest.approx(alone)
    assert combined.torque_left(alike, moment) == pytest.approx(torque, rel=1e-6, abs=1e-3)


@given(stresses, stresses)
def test_tresca_is_never_below_von_mises(normal: float, shear: float) -> None:
    tresca = 2.0 * combined.greatest_shear(normal, shear)
    mises = combined.von_mises(normal, shear)
    assert mises <= tresca * (1.0 + 1e-12)
    assert tresca <= mises * 2.0 / np.sqrt(3.0) * (1.0 + 1e-12)
    assert combined.worse_side_stress(normal, shear) == abs(normal) + abs(shear)


@given(stresses, stresses, stresses)
def test_principal_stresses_are_eigenvalues(x: float, y: float, xy: float) -> None:
    low, high = np.linalg.eigvalsh(np.array([[x, xy], [xy, y]]))
    assert brittle.greater_principal_stress(x, y, xy) == pytest.approx(high, rel=1e-9, abs=1.0)
    assert brittle.lesser_principal_stress(x, y, xy) == pytest.approx(low, rel=1e-9, abs=1.0)


@given(stresses, stresses, st.floats(1e8, 5e8), st.floats(1.0, 5.0))
def test_modified_mohr_is_bolder_than_coulomb_mohr(
    a: float, b: float, tension: float, times: float
) -> None:
    low, high = sorted((a, b))
    careful = brittle.coulomb_mohr_usage(high, low, tension, times * tension)
    bold = brittle.modified_mohr_usage(high, low, tension, times * tension)
    assert bold <= careful + 1e-9
    if low >= 0.0 or high <= 0.0:
        assert bold == pytest.approx(careful)


def test_safety_factor_survives_no_stress() -> None:
    assert brittle.safety_factor(0.0) == pytest.approx(1e9)
    assert brittle.safety_factor(brittle.distortion_energy_usage(3e8, 0.0, 3e8)) == 1.0


@given(st.floats(1.0, 1e8), st.floats(5e8, 3.5e9), st.floats(0.05, 0.2))
def test_basquin_turns_back(cycles: float, coefficient: float, fall: float) -> None:
    amplitude = fatigue.basquin_amplitude(cycles, coefficient, -fall)
    assert fatigue.basquin_cycles(amplitude, coefficient, -fall) == pytest.approx(cycles, rel=1e-6)
    assert fatigue.damage_exponent_of(-fall) == pytest.approx(1.0 / fall)


@given(st.floats(1.0, 1e8), st.floats(0.05, 0.15), st.floats(0.4, 0.9), st.floats(0.05, 3.0))
def test_strain_life_turns_back(cycles: float, b: float, c: float, ductility: float) -> None:
    metal = (207e9, 1.5e9, -b, ductility, -c)
    strain = fatigue.strain_amplitude_at(cycles, *metal)
    assert fatigue.strain_life_cycles(strain, *metal) == pytest.approx(cycles, rel=1e-8)


def test_elastic_and_plastic_strain_are_equal_at_transition() -> None:
    life = fatigue.transition_cycles(207e9, 1758e6, -0.0977, 2.12, -0.774)
    whole = fatigue.strain_amplitude_at(life, 207e9, 1758e6, -0.0977, 2.12, -0.774)
    elastic = fatigue.strain_amplitude_at(life, 207e9, 1758e6, -0.0977, 0.0, -0.774)
    assert whole == pytest.approx(2.0 * elastic)


@given(st.floats(1e7, 1e9), st.floats(0.0, 5e8))
def test_mean_pull_never_helps(amplitude: float, mean: float) -> None:
    assert fatigue.goodman_amplitude(amplitude, mean, 1.2e9) >= amplitude
    assert fatigue.morrow_amplitude(amplitude, mean, 1.7e9) >= amplitude
    assert fatigue.swt_amplitude(amplitude, mean) >= amplitude * (1.0 - 1e-12)
    assert fatigue.swt_amplitude(amplitude, -2.0 * amplitude) == 0.0


@given(st.lists(st.tuples(torques, st.floats(1.0, 1e6)), min_size=1, max_size=6))
def test_spectrum_torque_lies_inside_its_spectrum(blocks: list[tuple[float, float]]) -> None:
    loads, counts = np.array(blocks).T
    found = fatigue.spectrum_torque(loads, counts, 10.0)
    assert loads.min() * (1 - 1e-9) <= found <= loads.max() * (1 + 1e-9)
    power = np.array([5.0, 10.0, 15.0])
    samples = fatigue.spectrum_torque(np.stack([loads, 2.0 * loads, loads]), counts, power)
    assert samples.shape == (3,)
    assert samples[1] == pytest.approx(2.0 * found)
    assert samples[0] <= samples[2] * (1 + 1e-9)


def test_spectrum_torque_of_nothing_is_nothing() -> None:
    assert fatigue.spectrum_torque(np.zeros(3), np.ones(3), 10.0) == 0.0


@given(st.floats(3.5e8, 1.5e9), st.floats(0.0005, 0.01), st.floats(1.0, 3.0))
def test_notches_count_between_not_at_all_and_fully(ut: float, radius: float, kt: float) -> None:
    bending = endurance.notch_sensitivity_bending(ut, radius)
    torsion = endurance.notch_sensitivity_torsion(ut, radius)
    assert 0.0 < bending < torsion < 1.0
    assert 1.0 <= endurance.fatigue_notch_factor(bending, kt) <= kt + 1e-12


def test_finite_life_line_meets_both_ends() -> None:
    ends = (620e6, 0.86, 310e6)
    height, slope = endurance.finite_life_coefficient(*ends), endurance.finite_life_exponent(*ends)
    assert endurance.finite_life_cycles(0.86 * 620e6, height, slope) == pytest.approx(1e3)
    assert endurance.finite_life_cycles(310e6, height, slope) == pytest.approx(1e6)


def test_thicker_shafts_stand_less() -> None:
    sizes = endurance.size_factor(np.array([0.003, 0.00762, 0.02, 0.05, 0.08, 0.2]))
    assert (np.diff(sizes) < 0.0).all()
    assert sizes[1] == pytest.approx(1.0)


@given(st.floats(1e3, 2e4), st.floats(0.0, 2.5), st.floats(0.3, 0.8), st.floats(1.2, 1.8))
def test_wheel_loads_carry_the_axle(load: float, grip: float, height: float, track: float) -> None:
    outer = wheel_end.outer_wheel_load(load, grip, height, track)
    inner = wheel_end.inner_wheel_load(load, grip, height, track)
    assert outer + inner == pytest.approx(load)
    assert inner >= 0.0
    assert outer >= inner


def test_overhang_bends_the_two_wheels_opposite_ways() -> None:
    assert wheel_end.outer_skid_moment(0.0, 5e3, 0.35, 0.06) == -300.0
    assert wheel_end.inner_skid_moment(0.0, 5e3, 0.35, 0.06) == 300.0
    assert wheel_end.drive_moment(5e3, 0.0, 0.06) == wheel_end.vertical_moment(5e3, 1.0, 0.06)
