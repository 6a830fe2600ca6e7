"""Driveshaft angles, length and tube choice: properties that hold for any car."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.driveline import driveshaft_length, joint_fit, pinion_setting, tube_choice
from axlewright.driveline.joint_fit import YokeEars, joint_wanted
from axlewright.driveline.shaft_line import INERTIA_LIMIT, SMOOTH_LIMIT, Slope, shaft_motion
from axlewright.mechanics import joint_directions, joint_motion, whirl_ends

slopes = st.floats(-0.25, 0.25)
small = st.floats(0.0, 0.2)
turns = st.floats(-20.0, 20.0)


@given(turns, st.floats(0.0, 0.7))
def test_turn_repeats_and_is_odd(turn, angle):
    out = joint_motion.driven_turn(turn, angle)
    assert joint_motion.driven_turn(turn + np.pi, angle) - np.pi == pytest.approx(out, abs=1e-12)
    assert joint_motion.driven_turn(-turn, angle) == pytest.approx(-out, abs=1e-12)
    assert abs(out - turn) <= np.arcsin(np.tan(angle / 2.0) ** 2) + 1e-12


@given(turns, st.floats(0.0, 0.7))
def test_equal_joints_in_phase_cancel_at_any_angle(turn, angle):
    assert joint_motion.pair_speed_ratio_at(turn, angle, angle, 0.0) == pytest.approx(1.0)
    assert joint_motion.pair_lead_at(turn, angle, angle, 0.0) == pytest.approx(0.0, abs=1e-12)
    assert joint_motion.pair_peak_acceleration(300.0, angle, angle, 0.0) == pytest.approx(
        0.0, abs=1e-8
    )


@given(turns, st.floats(0.01, 0.6), st.floats(0.01, 0.6), st.floats(-3.0, 3.0))
def test_pair_lead_and_ratio_belong_together(turn, one, two, phase):
    step = 1e-5
    lead = [joint_motion.pair_lead_at(turn + d, one, two, phase) for d in (-step, step)]
    ratio = joint_motion.pair_speed_ratio_at(turn, one, two, phase)
    assert (lead[1] - lead[0]) / (2.0 * step) == pytest.approx(ratio - 1.0, abs=1e-7)


@settings(max_examples=30)
@given(slopes, slopes, slopes, slopes, slopes, slopes)
def test_working_angles_are_distances(s1, p1, s2, p2, s3, p3):
    one = joint_directions.angle_between(s1, p1, s2, p2)
    assert joint_directions.angle_between(s2, p2, s1, p1) == pytest.approx(one, abs=1e-14)
    assert joint_directions.angle_between(s1, p1, s1, p1) == pytest.approx(0.0, abs=1e-15)
    two = joint_directions.angle_between(s2, p2, s3, p3)
    assert joint_directions.angle_between(s1, p1, s3, p3) <= one + two + 1e-12


@given(slopes, slopes)
def test_combined_angle_is_the_arccosine_of_the_product(side, plan):
    wanted = np.arccos(min(np.cos(side) * np.cos(plan), 1.0))
    assert joint_directions.combined_angle(side, plan) == pytest.approx(wanted, abs=3e-8)


@given(small, small)
def test_three_joints_with_the_last_straight_are_two(one, two):
    found = joint_directions.equivalent_angle_three(one, two, 0.0, 0.0, 0.0)
    assert found == pytest.approx(np.sqrt(abs(one * one - two * two)), abs=1e-9)


def test_arrays_give_what_scalars_give():
    rng = np.random.default_rng(3)
    one, two, phase = rng.uniform(0.0, 0.3, (3, 40))
    together = joint_motion.pair_peak_acceleration(250.0, one, two, phase)
    single = [
        joint_motion.pair_peak_acceleration(250.0, *row)
        for row in zip(one, two, phase, strict=True)
    ]
    np.testing.assert_allclose(together, single, rtol=1e-13)
    front = rng.uniform(1e6, 1e8, 40)
    many = whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, front, 5e6, 2.0, 3.0)
    alone = [whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, k, 5e6, 2.0, 3.0) for k in front]
    np.testing.assert_allclose(np.transpose(many), alone, rtol=1e-12)


@settings(max_examples=30)
@given(st.floats(1e5, 1e9), st.floats(1e5, 1e9), st.floats(0.0, 20.0))
def test_softer_or_heavier_ends_never_raise_the_whirl_speed(front, rear, lump):
    bare = whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, front, rear, 0.0, 0.0)
    heavy = whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, front, rear, lump, 0.0)
    softer = whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, front, 0.7 * rear, 0.0, 0.0)
    assert bare.first_whirl < bare.second_whirl < bare.third_whirl
    assert heavy.first_whirl <= bare.first_whirl * (1.0 + 1e-9)
    assert softer.first_whirl <= bare.first_whirl * (1.0 + 1e-9)
    swapped = whirl_ends.whirl_on_springs(2e11, 3e-7, 5.0, 1.2, rear, front, 0.0, 0.0)
    assert swapped.first_whirl == pytest.approx(bare.first_whirl, rel=1e-9)


def test_slip_through_a_whole_travel():
    up = np.linspace(-0.1, 0.1, 21)
    length = driveshaft_length.joint_distance(1.3, 0.0, 0.0, 0.0, 0.0, -0.05 + up)
    ride = length[10]
    free = driveshaft_length.free_to_bottom(0.02, ride, length)
    engaged = driveshaft_length.engagement(0.1, 0.02, ride, length)
    np.testing.assert_allclose(free + engaged, 0.1, rtol=1e-12)
    assert free[10] == pytest.approx(0.02)
    assert free.min() > 0.0
    assert np.argmin(engaged) == 0
    assert engaged.min() > driveshaft_length.least_engagement(0.035)


@given(slopes, slopes, slopes)
def test_both_pinion_angles_turn_into_each_other(pinion, shaft, rise):
    off = pinion_setting.pinion_to_shaft(pinion, shaft)
    assert pinion_setting.pinion_to_ground(off, shaft) == pytest.approx(pinion, abs=1e-15)
    rest = pinion_setting.static_pinion(pinion, rise)
    assert pinion_setting.measured_rise(pinion, rest) == pytest.approx(rise, abs=1e-15)


@pytest.mark.parametrize("twist", [0.0, np.pi])
def test_line_of_parallel_ends_is_smooth_however_the_shaft_lies(twist):
    parts = [Slope(0.05, 0.01), Slope(-0.02, 0.04), Slope(0.05, 0.01)]
    motion = shaft_motion(np.full(4, 600.0), parts, [twist])
    np.testing.assert_allclose(motion.left_over, 0.0, atol=1e-3)
    assert motion.angles[0] == pytest.approx(motion.angles[1])
    np.testing.assert_allclose(
        motion.inertia_share * INERTIA_LIMIT, motion.inertia_accelerations[0]
    )


def test_two_piece_line_with_a_straight_middle_is_a_one_piece_line():
    one = shaft_motion(400.0, [Slope(0.05), Slope(0.0), Slope(0.02)])
    two = shaft_motion(400.0, [Slope(0.05), Slope(0.0), Slope(0.0), Slope(0.02)])
    assert len(two.angles) == 3
    assert two.angles[1] == pytest.approx(0.0, abs=1e-15)
    assert one.smooth_share == pytest.approx(one.left_over / SMOOTH_LIMIT)
    assert two.inertia_share == pytest.approx(one.inertia_share)


def test_a_line_of_wrong_make_is_refused():
    with pytest.raises(ValueError, match="gearbox"):
        shaft_motion(400.0, [Slope(0.0), Slope(0.0)])
    with pytest.raises(ValueError, match="twist"):
        shaft_motion(400.0, [Slope(0.0)] * 3, [0.0, 0.0])


IN = 0.0254
SMALL = YokeEars(1.062 * IN, 3.219 * IN, "outside")


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (YokeEars(1.0625 * IN, 3.219 * IN, "outside"), "plain joint"),
        (YokeEars(1.188 * IN, 3.219 * IN, "outside"), "two cap sizes"),
        (YokeEars(1.062 * IN, 3.625 * IN, "outside"), "two widths"),
        (YokeEars(1.188 * IN, 3.625 * IN, "outside"), "two cap sizes and two widths"),
        (YokeEars(1.062 * IN, 2.6 * IN, "inside"), "inside at the other"),
    ],
)
def test_joint_between_two_yokes(other, words):
    assert words in joint_wanted(SMALL, other)
    assert joint_fit.width_difference(other.width, SMALL.width) == other.width - SMALL.width


def test_tubes_that_hold_come_first_and_lightest_ahead():
    steel = {"youngs_modulus": 2.03e11, "density": 7833.0, "shear_yield": 2.0e8}
    tubes = [
        tube_choice.Tube("wide", 4.0 * IN, 0.083 * IN, **steel),
        tube_choice.Tube("middle", 3.5 * IN, 0.083 * IN, **steel),
        tube_choice.Tube("thin", 2.0 * IN, 0.049 * IN, **steel),
    ]
    ranked = tube_choice.rank_tubes(tubes, 2000.0, 600.0, 50.0 * IN, 0.7)
    assert [r.tube.name for r in ranked] == ["middle", "wide", "thin"]
    assert [r.holds for r in ranked] == [True, True, False]
    assert ranked[2].mass < ranked[0].mass < ranked[1].mass
