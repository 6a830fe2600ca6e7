"""Properties of the formulas for joints, tubes, beams and housing loads."""

import importlib
import inspect

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.driveline import housing_loads
from axlewright.mechanics import beams, bolt_circles, bolts, press_fits, threads, tubes, welds
from axlewright.quantities.formula import REGISTRY

MODULES = (bolts, bolt_circles, threads, press_fits, tubes, beams, welds, housing_loads)
NAMES = sorted(
    name
    for name in REGISTRY
    if any(m.__name__ == f"axlewright.{name.rpartition('.')[0]}" for m in MODULES)
)
# Arguments that must not be of any size: the rest may be any positive number.
SPECIAL = {
    "outer_diameter": (0.07, 0.09),
    "wall": (0.002, 0.02),
    "fit_diameter": (0.07, 0.08),
    "hub_diameter": (0.09, 0.2),
    "tube_bore": (0.0, 0.06),
    "bolt_diameter": (0.008, 0.02),
    "thread_pitch": (0.001, 0.002),
    "threads_per_length": (500.0, 1000.0),
    "pitch_diameter": (0.01, 0.02),
    "thread_lead": (0.001, 0.002),
    "thread_flank_angle": (0.0, 0.6),
    "thread_friction": (0.05, 0.3),
    "joint_share": (0.05, 0.9),
}


def arguments(name, size=None):
    rng = np.random.default_rng(sum(name.encode()))
    return {
        a: rng.uniform(*SPECIAL.get(a, (0.1, 2.0)), size)
        for a in REGISTRY[name].signature.parameters
    }


def call(name):
    module, _, function = name.rpartition(".")
    return getattr(importlib.import_module(f"axlewright.{module}"), function)


@pytest.mark.parametrize("name", NAMES)
def test_arrays_give_what_scalars_give(name):
    samples = arguments(name, 7)
    together = call(name)(**samples)
    alone = [call(name)(**{a: float(v[k]) for a, v in samples.items()}) for k in range(7)]
    assert np.isfinite(together).all()
    assert all(np.ndim(v) == 0 for v in alone)
    np.testing.assert_allclose(together, alone, rtol=1e-14)


@pytest.mark.parametrize("name", NAMES)
def test_every_formula_explains_itself(name):
    what = REGISTRY[name]
    assert inspect.getdoc(what.function)
    assert what.source
    assert set(what.valid) <= set(what.signature.parameters)
    assert bool(what.valid) == bool(what.outside)


positive = st.floats(0.01, 100.0)


@given(positive, positive, st.floats(0.05, 0.3), st.floats(1.01, 3.0))
def test_more_clamp_holds_more_and_inverts(clamp, circle, mu, more):
    torque = bolt_circles.circle_slip_torque(10, mu, clamp, circle)
    assert bolt_circles.circle_slip_torque(10, mu, clamp * more, circle) > torque
    assert bolt_circles.preload_against_slip(torque, 10, mu, circle) == pytest.approx(clamp)


@given(st.floats(0.1, 0.35), positive, positive)
def test_torque_and_clamp_are_inverse(k, clamp, diameter):
    torque = bolts.tightening_torque(k, clamp, diameter)
    assert bolts.preload_from_torque(torque, k, diameter) == pytest.approx(clamp)


@given(positive, st.floats(0.05, 0.9), st.integers(2, 12))
def test_at_separation_the_faces_carry_nothing(clamp, share, count):
    each = bolts.separation_load(count, clamp, share) / count
    assert (1 - share) * each == pytest.approx(clamp)
    assert bolts.separation_factor(clamp, each, share) == pytest.approx(1.0)
    assert bolts.bolt_stress(clamp, each, share, 1.0) == pytest.approx(each)


@given(st.floats(0.1, 0.95), st.floats(0.05, 0.9))
def test_at_the_proof_load_the_bolts_stand_at_proof(part, share):
    pull = bolts.joint_proof_load(6, 1.0, 1.0, part, share) / 6
    assert bolts.bolt_stress(part, pull, share, 1.0) == pytest.approx(1.0)


def test_loosening_takes_less_than_tightening():
    at = (1e4, 0.011, 1.5e-3, np.pi / 6, 0.15, 0.15, 0.015)
    assert bolts.loosening_torque_screw(*at) < bolts.tightening_torque_screw(*at)


@given(st.floats(0.0, 0.06), st.floats(0.085, 0.3), st.floats(1e-6, 2e-4))
@settings(max_examples=60)
def test_press_fit_pressure_moves_the_right_way(bore, hub, press):
    metals = (170e9, 205e9, 0.26, 0.29)
    base = press_fits.contact_pressure(press, 0.076, hub, bore, *metals)
    assert press_fits.contact_pressure(2 * press, 0.076, hub, bore, *metals) == pytest.approx(
        2 * base
    )
    assert press_fits.contact_pressure(press, 0.076, hub * 1.1, bore, *metals) > base
    assert press_fits.contact_pressure(press, 0.076, hub, bore * 0.9, *metals) >= base
    softer = (100e9, *metals[1:])
    assert press_fits.contact_pressure(press, 0.076, hub, bore, *softer) < base
    assert press_fits.contact_pressure(-press, 0.076, hub, bore, *metals) == 0.0


def test_thin_rings_follow_the_boiler_formula():
    # Two thin rings: p r (r/(E t) of hub + r/(E t) of tube) closes half the interference.
    r, t, e = 1.0, 1e-4, 200e9
    got = press_fits.contact_pressure(2e-6, 2 * r, 2 * (r + t), 2 * (r - t), e, e, 0.3, 0.3)
    assert got == pytest.approx(1e-6 / (2 * r * r / (e * t)), rel=1e-3)
    assert press_fits.hub_hoop_stress(got, 2 * r, 2 * (r + t)) == pytest.approx(
        got * r / t, rel=1e-3
    )
    assert press_fits.tube_hoop_stress(got, 2 * r, 2 * (r - t)) == pytest.approx(
        -got * r / t, rel=1e-3
    )


@given(st.floats(0.05, 0.12), st.floats(0.001, 0.0249))
def test_tube_sections_agree_with_each_other(outside, wall):
    second = tubes.tube_second_moment(outside, wall)
    section = tubes.tube_section_modulus(outside, wall)
    assert tubes.tube_polar_moment(outside, wall) == pytest.approx(2 * second)
    assert section == pytest.approx(2 * second / outside)
    assert 4 / np.pi < tubes.tube_plastic_modulus(outside, wall) / section < 16 / (3 * np.pi) + 1e-9


def test_solid_bar_is_a_tube_with_half_its_diameter_as_wall():
    assert tubes.tube_area(0.04, 0.02) == pytest.approx(np.pi * 0.02**2)
    assert tubes.tube_section_modulus(0.04, 0.02) == pytest.approx(np.pi * 0.04**3 / 32)


@given(st.floats(0.05, 0.5), st.floats(1.2, 2.0), st.floats(0.0, 0.2))
def test_stiff_centre_is_a_bare_tube_without_its_length(inset, span, stiff):
    bare = beams.two_load_centre_deflection(1.0, inset, span, 1.0, 1.0)
    none = beams.stiff_centre_deflection(1.0, inset, span, 0.0, 1.0, 1.0)
    assert none == pytest.approx(bare)
    assert beams.stiff_centre_end_slope(1.0, inset, span, 0.0, 1.0, 1.0) == pytest.approx(
        beams.two_load_end_slope(1.0, inset, span, 1.0, 1.0)
    )
    assert beams.stiff_centre_deflection(1.0, inset, span, stiff, 1.0, 1.0) <= none


def test_two_loads_at_the_middle_are_one_load():
    # One force 2 W in the middle: y = 2 W L³ / 48 EI, and so under the load too.
    whole = 2.0 / 48.0
    assert beams.two_load_centre_deflection(1.0, 0.5, 1.0, 1.0, 1.0) == pytest.approx(whole)
    assert beams.two_load_deflection_at_load(1.0, 0.5, 1.0, 1.0, 1.0) == pytest.approx(whole)


def test_overhang_on_a_short_span_is_a_cantilever():
    # With the two bearings together the root is clamped.
    overhung = beams.overhung_deflection(1.0, 0.3, 1e-9, 1.0, 1.0)
    assert overhung == pytest.approx(beams.cantilever_deflection(1.0, 0.3, 1.0, 1.0))


@given(positive, positive, positive)
def test_weld_stress_and_torque_are_inverse(stress, leg, diameter):
    torque = welds.round_fillet_torque(stress, leg, diameter)
    assert welds.round_fillet_torsion_shear(torque, leg, diameter) == pytest.approx(stress)
    torque = welds.plug_torque(stress, 4, leg, diameter)
    assert welds.plug_shear_stress(torque, 4, leg, diameter) == pytest.approx(stress)


def test_weld_pair_without_lever_carries_plain_shear():
    plain = welds.weld_direct_shear(5e3, welds.pair_fillet_area(0.006, 0.05))
    got = welds.pair_fillet_twist_shear(5e3, 0.0, 0.006, 0.05, 0.08)
    assert got == pytest.approx(plain)


@given(positive, positive, st.floats(0.1, 0.5), st.floats(0.05, 0.5))
def test_skid_moments_differ_by_twice_the_weight_moment(load, side, radius, inset):
    inner = housing_loads.skid_inner_moment(load, side, radius, inset)
    outer = housing_loads.skid_outer_moment(load, side, radius, inset)
    assert inner - outer == pytest.approx(2 * load * inset, abs=1e-9)


def test_resultant_is_made_of_its_parts():
    vertical = housing_loads.seat_vertical_moment(4e3, 1.0, 0.25)
    along = housing_loads.seat_fore_aft_moment(3e3, 0.25)
    together = housing_loads.seat_resultant_moment(4e3, 3e3, 0.25)
    assert beams.resultant_moment(vertical, along) == pytest.approx(together)


def test_tubes_share_the_wind_up():
    sides = [housing_loads.launch_tube_torque(4000.0, s) for s in (0.5, 0.5)]
    assert sum(sides) == pytest.approx(4000.0)
