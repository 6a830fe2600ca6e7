"""Properties of the formulas for joints, driveshafts and bearings."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.mechanics import (
    bearings,
    joint_crosses,
    tapered_bearings,
    universal_joints,
    whirl,
)
from axlewright.quantities.formula import REGISTRY, Formula

AREA = (bearings, joint_crosses, tapered_bearings, universal_joints, whirl)
OURS = sorted(
    name
    for name in REGISTRY
    if any(name.startswith(m.__name__.removeprefix("axlewright.") + ".") for m in AREA)
)
# Inputs that are no plain positive number near one.
RANGES = {
    "angle": (0.06, 0.25),
    "bearing_reliability": (0.90, 0.999),
    "bearing_contact_exponent": (1.05, 1.5),
    "poisson_ratio": (0.25, 0.35),
    "youngs_modulus": (2.5, 2.7),
    "shear_modulus": (0.95, 1.05),
    "inner_diameter": (0.1, 0.7),
    "trunnion_bore": (0.0, 0.7),
    "outer_diameter": (0.8, 2.0),
    "trunnion_root_diameter": (0.8, 2.0),
    "roller_diameter": (0.05, 0.2),
    "needle_diameter": (0.05, 0.2),
    "weibull_offset": (0.01, 0.03),
}

quick = settings(max_examples=50, deadline=None)
angles = st.floats(0.001, 0.7)
positive = st.floats(0.01, 100.0)


def _draw(name: str, generator: np.random.Generator, size: int) -> np.ndarray:
    low, high = RANGES.get(name, RANGES["angle"] if name.endswith("_angle") else (0.8, 2.0))
    return generator.uniform(low, high, size)


def _samples(what: Formula, size: int = 50) -> dict[str, np.ndarray]:
    generator = np.random.default_rng(7)
    return {name: _draw(name, generator, size) for name in what.signature.parameters}


@pytest.mark.parametrize("name", OURS)
def test_arrays_give_what_each_scalar_gives(name: str) -> None:
    what = REGISTRY[name]
    inputs = _samples(what)
    together = what.function(**inputs)
    singly = [
        what.function(**{key: float(values[row]) for key, values in inputs.items()})
        for row in range(50)
    ]
    assert np.all(np.isfinite(together))
    assert all(np.ndim(value) == 0 for value in singly)
    np.testing.assert_allclose(together, singly, rtol=1e-13)


@pytest.mark.parametrize("name", OURS)
def test_one_array_among_scalars_broadcasts(name: str) -> None:
    what = REGISTRY[name]
    inputs = _samples(what)
    for key in inputs:
        mixed = {k: (v if k == key else float(v[0])) for k, v in inputs.items()}
        assert np.shape(what.function(**mixed)) == (50,)


@quick
@given(angles)
def test_joint_swings_about_one(angle: float) -> None:
    fastest = universal_joints.speed_ratio_max(angle)
    slowest = universal_joints.speed_ratio_min(angle)
    assert fastest * slowest == pytest.approx(1.0)
    assert universal_joints.irregularity(angle) == pytest.approx(fastest - slowest, rel=1e-6)


@quick
@given(angles, angles)
def test_a_steeper_joint_shakes_more(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert universal_joints.peak_acceleration(100.0, low) <= universal_joints.peak_acceleration(
        100.0, high
    )
    assert universal_joints.phase_error(low) <= universal_joints.phase_error(high)


def test_a_straight_joint_runs_true() -> None:
    assert universal_joints.peak_acceleration(500.0, 0.0) == 0.0
    assert universal_joints.phase_error(0.0) == 0.0
    assert universal_joints.speed_ratio_max(0.0) == 1.0


@quick
@given(st.floats(0.001, 0.1745))
def test_square_of_the_angle_is_near_the_peak(angle: float) -> None:
    exact = universal_joints.peak_acceleration(300.0, angle)
    assert universal_joints.peak_acceleration_small_angle(300.0, angle) == pytest.approx(
        exact, rel=0.007
    )


@quick
@given(angles, angles)
def test_equal_joints_cancel_only_in_line(one: float, two: float) -> None:
    in_line = universal_joints.equivalent_angle_phased(one, two, 0.0)
    assert in_line == pytest.approx(universal_joints.equivalent_angle(one, two), rel=1e-6, abs=1e-4)
    crossed = universal_joints.equivalent_angle_phased(one, two, np.pi / 2)
    assert crossed == pytest.approx(np.hypot(one, two))
    assert universal_joints.equivalent_angle(one, one) == 0.0


@quick
@given(st.floats(0.0, 0.2), st.floats(10.0, 1000.0), st.floats(100.0, 900.0))
def test_second_angle_uses_up_the_limit(first: float, limit: float, speed: float) -> None:
    second = universal_joints.second_angle_allowed(first, limit, speed)
    left = universal_joints.equivalent_angle(first, second)
    allowed = universal_joints.angle_for_acceleration(limit, speed)
    assert left == pytest.approx(allowed, rel=1e-6)


@quick
@given(st.floats(-0.5, 0.5), st.floats(-0.5, 0.5))
def test_working_angle_has_no_sign_and_no_favorite_view(side: float, plan: float) -> None:
    angle = universal_joints.working_angle(side, plan)
    assert angle == pytest.approx(universal_joints.working_angle(plan, side))
    assert angle == universal_joints.working_angle(-side, plan)
    assert angle >= max(abs(side), abs(plan)) - 1e-12


@quick
@given(st.floats(0.0, 0.5), positive, st.floats(0.5, 2.0))
def test_torque_and_cap_force_are_inverse(angle: float, torque: float, lever: float) -> None:
    force = joint_crosses.cap_force(torque, lever, angle)
    assert joint_crosses.torque_at_cap_force(force, lever, angle) == pytest.approx(torque)


@quick
@given(positive, st.floats(0.0, 0.9))
def test_trunnion_torque_reaches_its_strength(strength: float, hollow: float) -> None:
    shape = (0.012, 0.003, 0.016, 0.016 * hollow)
    torque = joint_crosses.torque_at_trunnion_bending(strength, 0.08, 0.1, *shape)
    force = joint_crosses.cap_force(torque, 0.08, 0.1)
    assert joint_crosses.trunnion_bending_stress(force, *shape) == pytest.approx(strength)


def test_thin_ring_shears_at_twice_the_mean() -> None:
    area = np.pi / 4 * (1.0 - 0.999**2)
    assert joint_crosses.trunnion_shear_stress(1.0, 1.0, 0.999) * area == pytest.approx(
        2.0, rel=1e-3
    )


@quick
@given(st.floats(0.008, 0.03), st.floats(0.0015, 0.004))
def test_full_complement_leaves_less_than_a_needle(trunnion: float, needle: float) -> None:
    count = joint_crosses.full_complement(trunnion, needle)
    step = 2.0 * np.arcsin(needle / (trunnion + needle))
    assert count == np.floor(count)
    assert -1e-6 <= 2.0 * np.pi - count * step < step + 1e-6


@quick
@given(st.floats(0.6, 2.0), st.floats(0.3, 0.9))
def test_whirl_length_and_speed_are_inverse(length: float, share: float) -> None:
    tube = (206e9, 7850.0, 0.0762, 0.072)
    speed = share * whirl.critical_speed(*tube, length)
    assert whirl.length_allowed(*tube, speed, share) == pytest.approx(length)


@quick
@given(st.floats(0.4, 3.0))
def test_shear_always_lowers_whirl_and_fades_with_length(length: float) -> None:
    plain = whirl.critical_speed(206e9, 7850.0, 0.0762, 0.072, length)
    finer = whirl.critical_speed_with_shear(206e9, 79.3e9, 7850.0, 0.0762, 0.072, length)
    longer = whirl.critical_speed_with_shear(206e9, 79.3e9, 7850.0, 0.0762, 0.072, 2 * length)
    assert finer < plain
    assert finer / plain < longer / (plain / 4.0) < 1.0


def test_balance_weight_hangs_on_the_offset() -> None:
    offset = whirl.balance_offset_allowed(0.016, 500.0)
    weight = whirl.balance_weight_allowed(0.016, 9.0, 500.0, 0.038)
    assert weight * 0.038 == pytest.approx(offset * 9.0)


@quick
@given(st.floats(1e3, 1e5), st.floats(1e3, 1e5), st.sampled_from([3.0, 10.0 / 3.0]))
def test_rating_and_life_are_inverse(rating: float, load: float, power: float) -> None:
    turns = bearings.life_revolutions(rating, load, power)
    assert bearings.required_rating(load, turns / 1e6, power) == pytest.approx(rating)
    assert bearings.life_time(rating, load, power, 200.0) * 200.0 / (2 * np.pi) == pytest.approx(
        turns
    )


@quick
@given(st.floats(0.6, 0.999))
def test_reliability_and_rating_are_inverse(chance: float) -> None:
    fit = (0.02, 4.439, 1.483)
    rating = bearings.required_rating_weibull(4e3, 700.0, 3.0, chance, *fit)
    assert bearings.reliability_reached(rating, 4e3, 700.0, 3.0, *fit) == pytest.approx(chance)


def test_a_life_below_the_least_life_is_certain() -> None:
    assert bearings.reliability_reached(100e3, 1e3, 1.0, 3.0, 0.02, 4.439, 1.483) == 1.0


@quick
@given(st.floats(0.9, 0.9995), st.floats(0.9, 0.9995))
def test_surer_means_shorter(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert bearings.reliability_factor(high) <= bearings.reliability_factor(low)
    assert bearings.reliability_factor(0.9) == pytest.approx(1.0)


@quick
@given(st.floats(0.13, 0.6), st.floats(1.0, 1e5))
def test_equivalent_load_has_no_step_at_its_limit(angle: float, radial: float) -> None:
    limit = tapered_bearings.axial_limit(angle)
    weight = tapered_bearings.axial_factor(angle)
    below = bearings.equivalent_load(radial, 0.999999 * limit * radial, 0.4, weight, limit)
    above = bearings.equivalent_load(radial, 1.000001 * limit * radial, 0.4, weight, limit)
    assert above == pytest.approx(below, rel=1e-5)
    assert below == radial


@quick
@given(st.lists(st.floats(1e3, 2e4), min_size=3, max_size=3), st.floats(3.0, 10.0 / 3.0))
def test_mean_load_lies_between(loads: list[float], power: float) -> None:
    one, two, three = loads
    mean = bearings.mean_load(one, 0.2, two, 0.5, three, 0.3, power)
    assert min(loads) * (1 - 1e-9) <= mean <= max(loads) * (1 + 1e-9)
    doubled = bearings.mean_load(one, 0.4, two, 1.0, three, 0.6, power)
    assert doubled == pytest.approx(mean)


@quick
@given(st.floats(0.0, 1e4), st.floats(0.0, 1e4), st.floats(-2e4, 2e4))
def test_pair_loads_balance_the_push(first: float, second: float, push: float) -> None:
    one = tapered_bearings.pair_axial_load(first, second, push)
    two = tapered_bearings.pair_axial_load(second, first, -push)
    assert one - two == pytest.approx(push, abs=1e-6)
    assert one >= first
    assert two >= second


@quick
@given(st.floats(0.0, 6.0), st.sampled_from([10.0 / 9.0, 1.5]))
def test_pair_shift_grows_and_meets_loss_of_preload(multiple: float, power: float) -> None:
    shift = tapered_bearings.preloaded_pair_shift(multiple, power)
    assert tapered_bearings.preloaded_pair_shift(multiple + 0.01, power) > shift
    lost = tapered_bearings.preload_lost_at(1.0, power)
    assert shift >= 1.0 or multiple < lost
    assert shift <= 1.0 or multiple >= lost * (1 - 1e-12)


def test_pair_is_nearly_twice_as_stiff_as_one_bearing() -> None:
    shift = tapered_bearings.preloaded_pair_shift(0.01, 10.0 / 9.0)
    assert shift == pytest.approx(0.01 / (2.0 * 10.0 / 9.0), rel=1e-3)
