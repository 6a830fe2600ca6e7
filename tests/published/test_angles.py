"""Driveshaft angles, length and whirl against other ways to the same numbers, and shop tables."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import eigh

from axlewright.driveline import driveshaft_length, pinion_setting
from axlewright.driveline.shaft_line import Slope, shaft_motion
from axlewright.mechanics import joint_directions, joint_motion, universal_joints, whirl, whirl_ends

pytestmark = pytest.mark.published

RPM = np.pi / 30.0
PSI = 0.45359237 * 9.80665 / 0.0254**2
LB_PER_IN3 = 0.45359237 / 0.0254**3


def unit(side: float, plan: float) -> np.ndarray:
    arrow = np.array([1.0, np.tan(plan), np.tan(side)])
    return arrow / np.linalg.norm(arrow)


# Table of two driveline shops, steepest single joint by shaft speed (read), in degrees.
SHOP_TABLE = [
    (1500, 11.5), (2000, 8.67), (2500, 7.0), (3000, 5.83),
    (3500, 5.0), (4000, 4.25), (4500, 3.67), (5000, 3.25),
]  # fmt: skip


@pytest.mark.parametrize(("rpm", "degrees"), SHOP_TABLE)
def test_shop_table_is_the_inertia_limit_of_a_single_joint(rpm: int, degrees: float) -> None:
    angle = joint_directions.shop_angle_table(rpm * RPM)
    assert np.degrees(angle) == pytest.approx(degrees, rel=1e-9)
    assert np.degrees(joint_directions.shop_angle_limit(rpm * RPM)) == pytest.approx(
        degrees, rel=0.05
    )
    # Between 880 and 1,020 rad/s², worked out apart from the table.
    assert 870.0 < universal_joints.peak_acceleration(rpm * RPM, angle) < 1030.0


# Hooke's joint as two pins that stay square to each other, worked with vectors in space.
@pytest.mark.parametrize("degrees", [0.5, 3.0, 10.0, 30.0])
def test_motion_keeps_the_pins_of_the_cross_square(degrees: float) -> None:
    angle = np.radians(degrees)
    turn = np.linspace(0.0, 4.0 * np.pi, 97)
    out = joint_motion.driven_turn(turn, angle)
    first = np.array([np.zeros_like(turn), np.cos(turn), np.sin(turn)])
    along = np.array([-np.sin(angle), np.cos(angle), 0.0])
    second = np.outer(along, -np.sin(out)) + np.outer([0.0, 0.0, 1.0], np.cos(out))
    np.testing.assert_allclose(np.sum(first * second, axis=0), 0.0, atol=1e-14)
    assert np.all(np.diff(out) > 0.0)


# The speed ratio integrated over a turn must come back to the angle (scipy's integrator).
def test_speed_ratio_integrates_to_the_turn() -> None:
    def rate(turn: float, _: np.ndarray) -> list[float]:
        return [joint_motion.speed_ratio_at(turn, 0.3)]

    run = solve_ivp(rate, (0.0, 2.0), [0.0], rtol=1e-10, atol=1e-12)
    assert run.y[0, -1] == pytest.approx(joint_motion.driven_turn(2.0, 0.3), abs=1e-9)


# Exact peak of one joint in closed form against the exact search over two, one of them straight.
@pytest.mark.parametrize("degrees", [1.0, 3.0, 10.0, 20.0, 30.0])
def test_pair_with_one_straight_joint_is_the_single_joint(degrees: float) -> None:
    angle = np.radians(degrees)
    alone = universal_joints.peak_acceleration(300.0, angle)
    for pair in [(angle, 0.0), (0.0, angle)]:
        assert joint_motion.pair_peak_acceleration(300.0, *pair, 0.4) == pytest.approx(
            alone, rel=2e-5
        )


# Error of the θ² rules goes with the square of the angle (limit of the exact motion).
def test_equivalent_angle_is_the_small_angle_limit_of_the_exact_pair() -> None:
    errors = []
    for size in (0.4, 0.2, 0.1):
        one, two, phase = 0.5 * size, 0.3 * size, 0.35
        rule = universal_joints.peak_acceleration_small_angle(
            200.0, universal_joints.equivalent_angle_phased(one, two, phase)
        )
        exact = joint_motion.pair_peak_acceleration(200.0, one, two, phase)
        errors.append(abs(rule / exact - 1.0))
    assert errors[-1] < 2e-3
    assert errors[0] / errors[1] == pytest.approx(4.0, rel=0.25)
    assert errors[1] / errors[2] == pytest.approx(4.0, rel=0.25)


# Three joints one after the other, differentiated numerically, against the sum of vectors.
def test_three_joints_exact_against_the_sum_of_vectors() -> None:
    b1, b2, b3, phase, more = np.radians([3.0, 2.0, 2.5, 15.0, -25.0])
    turn = np.linspace(0.0, np.pi, 4001)
    first = joint_motion.driven_turn(turn, b1)
    second = joint_motion.driven_turn(first + np.pi / 2 + phase, b2)
    third = joint_motion.driven_turn(second + np.pi / 2 + more, b3)
    lead = third - turn
    peak = np.max(np.abs(lead - 0.5 * (lead.max() + lead.min()))) * 4.0
    equivalent = joint_directions.equivalent_angle_three(b1, b2, b3, phase, more)
    assert equivalent**2 == pytest.approx(peak, rel=5e-3)


# Torque handed over at right angles to the plane of the cross, worked with vectors in space.
def test_secondary_couple_is_the_moment_across_the_cross() -> None:
    angle, torque = np.radians(8.0), 500.0
    turn = np.linspace(0.0, np.pi, 721)
    out = joint_motion.driven_turn(turn, angle)
    first = np.array([np.zeros_like(turn), np.cos(turn), np.sin(turn)])
    along = np.array([-np.sin(angle), np.cos(angle), 0.0])
    second = np.outer(along, -np.sin(out)) + np.outer([0.0, 0.0, 1.0], np.cos(out))
    normal = np.cross(first.T, second.T)
    moment = torque * normal / normal[:, :1]
    couple = np.linalg.norm(moment[:, 1:], axis=1).max()
    assert couple == pytest.approx(joint_motion.secondary_couple(torque, angle), rel=1e-9)


# Closure: angles by unit vectors against the formulas; acos(cos a·cos b) where plan lies level.
def test_working_angles_close_with_vectors() -> None:
    rng = np.random.default_rng(7)
    for s1, p1, s2, p2 in rng.uniform(-0.3, 0.3, (50, 4)):
        wanted = np.arccos(unit(s1, p1) @ unit(s2, p2))
        assert joint_directions.angle_between(s1, p1, s2, p2) == pytest.approx(wanted, abs=1e-10)
    level = joint_directions.angle_between(0.1, 0.2, 0.0, 0.0)
    assert level == pytest.approx(universal_joints.working_angle(0.1, 0.2), rel=1e-12)
    # A slope in the vertical plane that itself lies at the plan angle: cos a·cos b exactly.
    tilted = np.arctan(np.tan(0.1) / np.cos(0.2))
    arrow = np.array([np.cos(0.1) * np.cos(0.2), np.cos(0.1) * np.sin(0.2), np.sin(0.1)])
    assert np.tan(0.1) / np.cos(0.2) == pytest.approx(arrow[2] / arrow[0], rel=1e-12)
    assert joint_directions.angle_between(tilted, 0.2, 0.0, 0.0) == pytest.approx(
        joint_directions.combined_angle(0.1, 0.2), rel=1e-12
    )


# A driveline shop's example (read): 1.5 in of plan offset made almost 2 degrees.
def test_plan_offset_costs_almost_two_degrees() -> None:
    angle = joint_directions.slope_between(1.5, 45.0)
    assert 1.8 < np.degrees(angle) < 2.0


# Table of whirl speeds of common tubes on pins, worked out apart from this program
# (E 29.5 and 10 Mpsi; 0.283 and 0.098 lb/in³).
WHIRL_TABLE = [
    (45, 9633, 11283, 11031, 12663),
    (50, 7803, 9139, 8935, 10257),
    (55, 6449, 7553, 7384, 8477),
    (60, 5419, 6347, 6205, 7123),
]
TUBES = [(29.5, 0.283, 3.0, 0.083), (29.5, 0.283, 3.5, 0.083), (10.0, 0.098, 3.5, 0.125),
         (10.0, 0.098, 4.0, 0.125)]  # fmt: skip


@pytest.mark.parametrize("row", WHIRL_TABLE, ids=lambda r: f"{r[0]}in")
def test_critical_speed_table(row: tuple[int, ...]) -> None:
    for (modulus, density, outer, wall), rpm in zip(TUBES, row[1:], strict=True):
        found = whirl.critical_speed(
            modulus * 1e6 * PSI, density * LB_PER_IN3, outer * 0.0254,
            (outer - 2.0 * wall) * 0.0254, row[0] * 0.0254,
        )  # fmt: skip
        assert found / RPM == pytest.approx(rpm, rel=2e-3)


def beam_on_springs(ei, mass, length, front, rear, lump_1, lump_2, pieces=40):
    """Slowest three speeds by Hermite beam elements."""
    h, n = length / pieces, 2 * (pieces + 1)
    stiff, inert = np.zeros((n, n)), np.zeros((n, n))
    k = np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
                  [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])  # fmt: skip
    m = np.array([[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
                  [54, 13 * h, 156, -22 * h],
                  [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])  # fmt: skip
    for place in range(0, n - 2, 2):
        here = slice(place, place + 4)
        stiff[here, here] += ei / h**3 * k
        inert[here, here] += mass / pieces / 420.0 * m
    stiff[0, 0] += front
    stiff[-2, -2] += rear
    inert[0, 0] += lump_1
    inert[-2, -2] += lump_2
    return np.sqrt(eigh(stiff, inert, eigvals_only=True)[:3])


# Finite elements (scipy) over soft, stiff, light and heavy ends.
@pytest.mark.parametrize("front", [5e5, 4e6, 5e7])
@pytest.mark.parametrize("rear", [3e6, 4e7])
@pytest.mark.parametrize("lumps", [(0.0, 0.0), (3.0, 6.0), (15.0, 2.0)])
def test_whirl_on_real_ends_against_finite_elements(front, rear, lumps) -> None:
    found = whirl_ends.whirl_on_springs(2.07e11, 3.37e-7, 4.9, 1.27, front, rear, *lumps)
    wanted = beam_on_springs(2.07e11 * 3.37e-7, 4.9, 1.27, front, rear, *lumps)
    np.testing.assert_allclose(found, wanted, rtol=5e-4)
    if lumps == (0.0, 0.0):
        pinned = np.pi**2 * np.sqrt(2.07e11 * 3.37e-7 / (4.9 * 1.27**3))
        bounce = whirl_ends.bounce_speed(4.9, front, rear)
        assert whirl_ends.dunkerley_speed(pinned, bounce) <= wanted[0] * (1.0 + 1e-9)


# Lengths must add up exactly: ordered length back to the measure it came from.
def test_ordered_lengths_close() -> None:
    length = driveshaft_length.length_from_seal(1.38, 0.083, 0.022)
    assert driveshaft_length.seal_length_of(length, 0.083, 0.022) == pytest.approx(1.38, abs=1e-15)
    free = driveshaft_length.free_to_bottom(0.022, 1.3, 1.29)
    engaged = driveshaft_length.engagement(0.1, 0.022, 1.3, 1.29)
    assert free + engaged == pytest.approx(0.1, abs=1e-15)


# The whole way round: gauge on a sloping floor, wind-up, and the loaded line runs smooth.
def test_pinion_set_by_the_gauge_runs_parallel_under_load() -> None:
    gearbox, rise, floor, zero = np.radians([3.0, 4.0, 0.6, 0.2])
    static = pinion_setting.static_pinion(gearbox, rise)
    shown = pinion_setting.gauge_shows(static, floor, zero)
    on_car = pinion_setting.slope_in_car(pinion_setting.slope_from_gauge(shown, zero), floor)
    loaded = on_car + rise
    assert loaded == pytest.approx(gearbox, abs=1e-15)
    shaft = Slope(np.radians(1.0), np.radians(0.8))
    parts = [Slope(gearbox), shaft, Slope(loaded)]
    assert shaft_motion(500.0, parts).left_over == pytest.approx(0.0, abs=1e-3)
    at_rest = [Slope(gearbox), shaft, Slope(on_car)]
    assert shaft_motion(500.0, at_rest).left_over > 100.0


# A line with both ends pointing at each other cancels as well, and crossed yokes double the shake.
def test_intersecting_line_cancels_and_crossed_yokes_add() -> None:
    gearbox, slope = np.radians([3.0, 1.0])
    pinion = pinion_setting.intersecting_pinion(gearbox, slope)
    parts = [Slope(gearbox), Slope(slope), Slope(pinion)]
    assert shaft_motion(500.0, parts).left_over == pytest.approx(0.0, abs=1e-3)
    crossed = shaft_motion(500.0, parts, [np.pi / 2])
    assert crossed.left_over == pytest.approx(2.0 * crossed.inertia_accelerations[0], rel=2e-3)
