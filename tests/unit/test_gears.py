"""Properties of the hypoid pair, its forces, ratings and the loads on the axle case."""

from __future__ import annotations

import math
import tomllib
from importlib.resources import files
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.driveline import case_loads
from axlewright.hypoid import forces, geometry, geometry_factors, losses, rating, teeth
from axlewright.mechanics import bevel_factors, bevel_rating, iron
from axlewright.quantities.formula import REGISTRY
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import read

RIGHT = 0.5 * math.pi
ALPHA = math.radians(20.0)
CASES = tomllib.loads(
    files("axlewright.verify").joinpath("cases/gears.toml").read_text(encoding="utf-8")
)["case"]

pinions = st.integers(7, 14)
ratios = st.floats(2.7, 5.8)
diameters = st.floats(0.15, 0.3)
offsets = st.floats(0.0, 0.22)
spirals = st.floats(35.0, 50.0)
cutters = st.floats(0.32, 0.48)
sides = st.sampled_from([1.0, -1.0])


def pair(
    z1: int, ratio: float, diameter: float, offset: float, spiral: float, cutter: float
) -> geometry.HypoidGeometry:
    """Solve a pair given in proportions of its ring diameter."""
    return geometry.pitch_cones(
        float(z1), float(round(z1 * ratio)), diameter, 0.15 * diameter, offset * diameter,
        math.radians(spiral), cutter * diameter, RIGHT,
    )  # fmt: skip


@given(pinions, ratios, diameters, offsets, spirals, cutters)
def test_solution_keeps_counts_offset_and_right_angle(
    z1: int, ratio: float, diameter: float, offset: float, spiral: float, cutter: float
) -> None:
    g = pair(z1, ratio, diameter, offset, spiral, cutter)
    u = round(z1 * ratio) / z1
    pitch = g.ring_mean_radius * math.cos(g.ring_mean_spiral)
    assert pitch / (g.pinion_mean_radius * math.cos(g.pinion_mean_spiral)) == pytest.approx(u)
    d1, d2, e = g.pinion_pitch_angle, g.ring_pitch_angle, g.offset_angle
    # Both axes at right angles: the cosine of the angle between two tangent cones vanishes.
    assert math.cos(d1) * math.cos(d2) * math.cos(e) == pytest.approx(
        math.sin(d1) * math.sin(d2), abs=1e-9
    )
    assert g.pinion_mean_spiral - g.ring_mean_spiral == pytest.approx(g.offset_angle)
    assert g.pinion_mean_spiral == pytest.approx(math.radians(spiral), abs=math.radians(1.0))


@given(pinions, ratios, diameters, spirals, cutters)
def test_no_offset_is_the_spiral_bevel_pair(
    z1: int, ratio: float, diameter: float, spiral: float, cutter: float
) -> None:
    g = pair(z1, ratio, diameter, 0.0, spiral, cutter)
    assert g.pinion_pitch_angle == pytest.approx(math.atan(z1 / round(z1 * ratio)), abs=1e-9)
    assert g.pinion_pitch_angle + g.ring_pitch_angle == pytest.approx(RIGHT)
    assert g.offset_angle == 0.0
    assert g.pinion_mean_spiral == g.ring_mean_spiral
    assert g.pinion_cone_distance == pytest.approx(g.ring_cone_distance, rel=1e-8)
    assert losses.drive_efficiency(0.1, ALPHA, g.pinion_mean_spiral, g.ring_mean_spiral) == 1.0


def test_small_offset_tends_to_no_offset() -> None:
    none = pair(9, 4.56, 0.24, 0.0, 40.0, 0.4)
    for small in (1e-4, 1e-6, 1e-8):
        near = pair(9, 4.56, 0.24, small, 40.0, 0.4)
        for a, b in zip(near, none, strict=True):
            assert a == pytest.approx(b, abs=5.0 * small)


@given(st.floats(0.01, 0.2))
def test_more_offset_makes_a_larger_pinion_and_more_sliding(offset: float) -> None:
    less = pair(9, 4.56, 0.24, offset, 48.0, 0.4)
    more = pair(9, 4.56, 0.24, offset + 0.01, 48.0, 0.4)
    assert more.pinion_mean_radius > less.pinion_mean_radius
    assert losses.sliding_ratio(more.offset_angle, more.ring_mean_spiral) > losses.sliding_ratio(
        less.offset_angle, less.ring_mean_spiral
    )
    assert teeth.pinion_gain(less.pinion_mean_spiral, less.ring_mean_spiral) > 1.0


def test_samples_equal_single_solutions() -> None:
    rng = np.random.default_rng(7)
    offset = rng.uniform(0.0, 0.05, 50)
    face = rng.uniform(0.03, 0.04, 50)
    whole = geometry.pitch_cones(9.0, 41.0, 0.2413, face, offset, 0.83, 0.095, RIGHT)
    for i in range(50):
        one = geometry.pitch_cones(9.0, 41.0, 0.2413, face[i], offset[i], 0.83, 0.095, RIGHT)
        for many, single in zip(whole, one, strict=True):
            assert np.ndim(single) == 0
            assert np.broadcast_to(many, (50,))[i] == pytest.approx(single, rel=1e-12, abs=1e-15)


def test_all_sensible_samples_solve_and_a_senseless_one_says_so() -> None:
    rng = np.random.default_rng(3)
    n = 5000
    diameter = rng.uniform(0.15, 0.3, n)
    g = geometry.pitch_cones(
        9.0, 37.0, diameter, diameter * rng.uniform(0.11, 0.17, n),
        diameter * rng.uniform(0.0, 0.25, n), np.radians(rng.uniform(30.0, 52.0, n)),
        diameter * rng.uniform(0.3, 0.5, n), RIGHT,
    )  # fmt: skip
    assert all(np.isfinite(v).all() for v in g)
    beyond = geometry.pitch_cones(9.0, 37.0, 0.2, 0.03, 0.19, 0.8, 0.08, RIGHT)
    assert all(np.isnan(v) for v in beyond)


@given(pinions, ratios, diameters, offsets, spirals, cutters, sides)
def test_case_carries_what_the_pinion_gives(
    z1: int,
    ratio: float,
    diameter: float,
    offset: float,
    spiral: float,
    cutter: float,
    side: float,
) -> None:
    """Action is reaction along all three axes of the car."""
    g = pair(z1, ratio, diameter, offset, spiral, cutter)
    ft2 = forces.ring_tangential_force(1.0, g.ring_mean_radius)
    ft1 = forces.pinion_tangential_force(ft2, g.pinion_mean_spiral, g.ring_mean_spiral)
    pinion = (ALPHA, g.pinion_mean_spiral, g.pinion_pitch_angle, side)
    ring = (ALPHA, g.ring_mean_spiral, g.ring_pitch_angle, side)
    fa1 = forces.pinion_axial_force(ft1, *pinion)
    fr1 = forces.pinion_radial_force(ft1, *pinion)
    fa2 = forces.ring_axial_force(ft2, *ring)
    fr2 = forces.ring_radial_force(ft2, *ring)
    fn = forces.tooth_normal_force(ft1, ALPHA, g.pinion_mean_spiral)
    assert fa1**2 + fr1**2 + ft1**2 == pytest.approx(fn**2)
    assert fa2**2 + fr2**2 + ft2**2 == pytest.approx(fn**2)
    back = case_loads.ring_rearward_force(ft2, fr2, g.mesh_angle, side)
    down = case_loads.ring_downward_force(ft2, fr2, g.mesh_angle, side)
    lift = case_loads.pinion_head_lift(ft1, fr1, g.ring_offset_angle, side)
    sideways = case_loads.pinion_head_side(ft1, fr1, g.ring_offset_angle, side)
    near = 1e-7 * fn
    assert back == pytest.approx(fa1, abs=near)
    assert lift == pytest.approx(down, abs=near)
    assert sideways == pytest.approx(fa2, abs=near)
    assert (lift > 0.0) == (side > 0.0)
    arms = (g.ring_mean_radius, g.mesh_angle, 0.06, 0.22)
    both = case_loads.near_rearward_force(back, fa2, *arms) + case_loads.far_rearward_force(
        back, fa2, *arms
    )
    assert both == pytest.approx(back, abs=near)
    both = case_loads.near_downward_force(down, fa2, *arms) + case_loads.far_downward_force(
        down, fa2, *arms
    )
    assert both == pytest.approx(down, abs=near)


def test_drive_pulls_at_the_caps_and_coast_does_not() -> None:
    g = pair(9, 4.56, 0.2413, 0.158, 48.0, 0.395)
    ft2 = 1.0 / g.ring_mean_radius
    for side in (1.0, -1.0):
        fr2 = forces.ring_radial_force(ft2, ALPHA, g.ring_mean_spiral, g.ring_pitch_angle, side)
        back = case_loads.ring_rearward_force(ft2, fr2, g.mesh_angle, side)
        assert (case_loads.bearing_cap_load(back) > 0.0) == (side > 0.0)


@given(st.floats(0.01, 0.1), st.floats(0.05, 0.15))
def test_straddle_unloads_the_head_bearing(overhang: float, span: float) -> None:
    load = (30e3, 5e3, 0.0, 0.03, overhang)
    head = case_loads.straddle_head_load(*load, overhang + 0.04)
    assert head < case_loads.overhung_head_load(*load, span)
    pilot = case_loads.straddle_pilot_load(*load, overhang + 0.04)
    assert head + pilot == pytest.approx(math.hypot(30e3, 5e3))


@given(st.floats(1e2, 2e4), st.floats(0.15, 0.35), st.floats(5e-3, 8e-3))
def test_torques_and_stresses_of_the_axle_method_undo_each_other(
    torque: float, j: float, module: float
) -> None:
    bend = (1.0, rating.axle_size_factor(module), 1.1, 1.0, 0.035, module, 41.0, j)
    stress = rating.bending_stress(torque, *bend)
    assert rating.bending_torque(stress, *bend) == pytest.approx(torque)
    press = (4.56, 1.0, 1.1, 1.0, 1.0, 0.035, 0.07, j)
    pressure = rating.contact_stress(rating.CONTACT_CONSTANT, torque, *press)
    assert rating.contact_torque(pressure, rating.CONTACT_CONSTANT, *press) == pytest.approx(torque)
    load = rating.unit_load(torque, 0.24, 0.035)
    assert rating.unit_load_torque(load, 0.24, 0.035) == pytest.approx(torque)


@given(st.floats(1e2, 2e4), st.floats(0.15, 0.35))
def test_forces_and_stresses_of_agma_undo_each_other(force: float, j: float) -> None:
    bend = (1.0, 1.2, 0.53, 1.1, 1.0, 0.03, 0.005, j)
    assert bevel_rating.bending_pitch_force(
        bevel_rating.bending_stress(force, *bend), *bend
    ) == pytest.approx(force)
    press = (1.0, 1.2, 0.6, 1.1, 1.5, 0.03, 0.1, j)
    pressure = bevel_rating.contact_stress(190e3, force, *press)
    assert bevel_rating.contact_pitch_force(pressure, 190e3, *press) == pytest.approx(force)


def test_allowables_stand_in_order() -> None:
    assert rating.ENDURANCE_BENDING < rating.PEAK_BENDING < rating.ENDURANCE_CONTACT
    assert rating.ENDURANCE_CONTACT < rating.PEAK_CONTACT


@given(st.floats(2.1, 9.9))
@settings(max_examples=50)
def test_life_factors_never_rise(power: float) -> None:
    for life in (
        bevel_factors.bending_life_factor,
        bevel_factors.bending_life_factor_flat,
        bevel_factors.contact_life_factor,
    ):
        assert life(10.0 ** (power + 0.1)) <= life(10.0**power) * (1.0 + 5e-5)


@given(st.floats(1.0, 2.0), st.floats(0.0, 2.0))
def test_overlap_only_relieves(profile: float, overlap: float) -> None:
    share = geometry_factors.load_share_factor(profile, overlap)
    assert 0.6249 < share <= 1.0
    assert share >= geometry_factors.load_share_factor(profile, overlap + 0.1) - 1e-12


@given(st.floats(0.1, 0.2), st.floats(0.3, 0.99), st.floats(0.01, 0.04))
def test_models_of_a_cap_stand_in_order(spacing: float, bore: float, crown: float) -> None:
    free = iron.free_bridge_moment(1e4, spacing, bore * spacing)
    clamped = iron.clamped_bridge_moment(1e4, spacing, bore * spacing)
    assert 0.0 < clamped < free
    stretch = iron.bridge_stretch_stress(1e4, 0.03, crown)
    assert stretch < iron.bridge_bending_stress(clamped, 0.03, crown)


def test_curved_bar_tends_to_the_straight_one() -> None:
    factors = [iron.inner_fiber_factor(r, 0.02) for r in (0.01, 0.04, 0.2, 2.0)]
    assert factors == sorted(factors, reverse=True)
    assert factors[-1] == pytest.approx(1.0, abs=5e-3)


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["id"])
def test_formulas_take_samples(case: dict[str, Any]) -> None:
    """Arrays give elementwise what single numbers give; single numbers give single numbers."""
    what = REGISTRY[case["formula"]]
    table = symbols()
    inputs = {k: read(v, table[k].dimension).value for k, v in case["inputs"].items()}
    factors = np.array([1.0, 0.995, 0.99])
    many = what.function(**{k: v * factors for k, v in inputs.items()})
    for i, f in enumerate(factors):
        one = what.function(**{k: v * f for k, v in inputs.items()})
        for a, b in zip(*(x if isinstance(x, tuple) else (x,) for x in (many, one)), strict=True):
            assert np.ndim(b) == 0
            assert not isinstance(b, np.ndarray)
            assert np.shape(a) == (3,)
            assert a[i] == pytest.approx(b, rel=1e-9, abs=1e-12)
