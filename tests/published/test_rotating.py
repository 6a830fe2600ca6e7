"""Joints, driveshaft and bearings against tables and against other ways to the same number."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp
from scipy.optimize import brentq

from axlewright.mechanics import (
    bearings,
    joint_crosses,
    tapered_bearings,
    universal_joints,
    whirl,
)

pytestmark = pytest.mark.published

RPM = np.pi / 30.0
PSI = 0.45359237 * 9.80665 / 0.0254**2
LB_PER_IN3 = 0.45359237 / 0.0254**3


# Angle table of a driveshaft installation guideline that cites SAE AE-7 sec. 3.1.1 (read): first
# joint straight or at 5 degrees.  The limit of 400 rad/s² behind it is inferred.
@pytest.mark.parametrize(
    ("rpm", "first", "second"),
    [(1500, 0.0, 7.3), (1600, 0.0, 6.9), (1700, 0.0, 6.5), (1500, 5.0, 8.9)],
)
def test_allowed_angles_follow_the_guideline_table(rpm: float, first: float, second: float) -> None:
    allowed = universal_joints.second_angle_allowed(np.radians(first), 400.0, rpm * RPM)
    assert np.degrees(allowed) == pytest.approx(second, abs=0.07)


# Two driveline shops' table of the steepest single joint by speed (read); it is the limit of
# about 1,000 rad/s² for winding the shaft's own inertia.
@pytest.mark.parametrize(
    ("rpm", "degrees"),
    [(1500, 11.5), (2000, 8.67), (2500, 7.0), (3000, 5.83), (3500, 5.0), (4000, 4.25),
     (4500, 3.67), (5000, 3.25)],
)  # fmt: skip
def test_shop_angle_table_is_one_acceleration(rpm: float, degrees: float) -> None:
    shake = universal_joints.peak_acceleration(rpm * RPM, np.radians(degrees))
    assert 870.0 < shake < 1030.0


def _two_joints(first: float, second: float, phase: float) -> float:
    """Peak output acceleration over ω² of two exact Hooke's joints in series (derived)."""
    samples = 4096
    turn = np.arange(samples) * 2.0 * np.pi / samples
    middle = np.unwrap(np.arctan2(np.sin(turn), np.cos(turn) * np.cos(first)))
    fast = np.cos(first) / (np.cos(first) ** 2 * np.cos(turn) ** 2 + np.sin(turn) ** 2)
    into = middle + phase
    out = np.cos(second) / (np.cos(into) ** 2 + np.cos(second) ** 2 * np.sin(into) ** 2) * fast
    orders = np.fft.fftfreq(samples, 1.0 / samples)
    slope = np.fft.ifft(1j * orders * np.fft.fft(out)).real
    return float(np.abs(slope).max())


# Exact Hooke's relations in series, differentiated by Fourier series (closed form).
@pytest.mark.parametrize("first", [1.0, 3.0, 6.0])
@pytest.mark.parametrize("second", [0.5, 2.5, 5.0])
@pytest.mark.parametrize("phase", [0.0, 15.0, 60.0, 90.0])
def test_two_joints_shake_like_the_equivalent_angle(
    first: float, second: float, phase: float
) -> None:
    angles = np.radians([first, second, phase])
    single = universal_joints.equivalent_angle_phased(*angles)
    assert single**2 == pytest.approx(_two_joints(*angles), rel=0.01)


# Exact Hooke's relation, one joint (closed form): second joint straight.
@pytest.mark.parametrize("degrees", [1.0, 5.0, 10.0, 20.0, 30.0, 40.0])
def test_peak_acceleration_of_one_joint(degrees: float) -> None:
    angle = np.radians(degrees)
    expected = _two_joints(angle, 0.0, 0.0)
    assert universal_joints.peak_acceleration(1.0, angle) == pytest.approx(expected, rel=2e-5)


# Moments on a cross in space: the couple on the cross is normal to its plane, its part along each
# shaft is that shaft's torque (vector statics, derived).
def test_cap_force_is_the_worst_of_a_turn() -> None:
    angle, torque, lever = np.radians(12.0), 1500.0, 0.08
    turn = np.linspace(0.0, 2.0 * np.pi, 3601)
    driving = np.stack([np.zeros_like(turn), np.cos(turn), np.sin(turn)], axis=1)
    shaft = np.array([np.cos(angle), np.sin(angle), 0.0])
    driven = np.cross(shaft, driving)
    driven /= np.linalg.norm(driven, axis=1)[:, None]
    normal = np.cross(driving, driven)
    couple = torque / np.abs(normal[:, 0])
    worst = couple.max() / lever
    assert joint_crosses.cap_force(torque, lever, angle) == pytest.approx(worst, rel=1e-6)


# Sizing page of a shaft maker (read): double the angle or the speed halves the life; ISO 281's
# exponent 10/3 makes double torque cost ten times.
def test_joint_life_scales_as_the_sizing_page_says() -> None:
    base = universal_joints.joint_life(np.radians(4.0), 200.0, 900.0, 300.0)
    assert universal_joints.joint_life(np.radians(8.0), 200.0, 900.0, 300.0) == pytest.approx(
        base / 2.0
    )
    assert universal_joints.joint_life(np.radians(4.0), 400.0, 900.0, 300.0) == pytest.approx(
        base / 2.0
    )
    twice = universal_joints.joint_life(np.radians(4.0), 200.0, 900.0, 600.0)
    assert base / twice == pytest.approx(10.08, rel=1e-3)


# Static rating and contact pressure meet at the 4,000 MPa that ISO 76 is built on (scope read in
# bearing makers' pages); the standard's 44 is rounded.
@pytest.mark.parametrize("trunnion", [0.012, 0.015, 0.022])
def test_needles_at_their_rating_press_4000_mpa(trunnion: float) -> None:
    rating = joint_crosses.needle_static_rating(24.0, 0.0025, 0.011, trunnion)
    pressed = joint_crosses.needle_contact_pressure(
        rating, 24.0, 0.0025, 0.011, trunnion, 207e9, 0.3
    )
    assert pressed == pytest.approx(4000e6, rel=0.004)


# The beam on pins as a boundary-value problem, solved by scipy: w'''' = λ⁴·w (independent solver).
def test_critical_speed_from_the_beam_equation() -> None:
    modulus, density = 30e6 * PSI, 0.2836 * LB_PER_IN3
    outer, inner, length = 0.0762, 0.0719836, 1.27

    def slope(x: np.ndarray, w: np.ndarray, root: np.ndarray) -> np.ndarray:
        return np.vstack([w[1], w[2], w[3], root[0] ** 4 * w[0]])

    def ends(left: np.ndarray, right: np.ndarray, root: np.ndarray) -> np.ndarray:
        return np.array([left[0], left[2], right[0], right[2], left[1] - 1.0])

    x = np.linspace(0.0, 1.0, 41)
    bow = np.sin(np.pi * x)
    guess = np.vstack([bow, np.cos(np.pi * x), -bow, -np.cos(np.pi * x)])
    found = solve_bvp(slope, ends, x, guess, p=[3.0], tol=1e-8)
    assert found.success
    second = np.pi * (outer**4 - inner**4) / 64.0
    area = np.pi * (outer**2 - inner**2) / 4.0
    expected = (found.p[0] / length) ** 2 * np.sqrt(modulus * second / (density * area))
    speed = whirl.critical_speed(modulus, density, outer, inner, length)
    assert speed == pytest.approx(expected, rel=1e-6)


# ross-rotordynamics, recorded values for a 3.0 x 0.083 x 50 in tube, E 30 Mpsi, G 11.5 Mpsi,
# 0.2836 lb/in³: 7860.49 rpm plain, 7796.58 rpm with shear, rotary inertia and gyroscopic moment.
def test_shear_lowers_whirl_as_recorded() -> None:
    size = (3.0 * 0.0254, 2.834 * 0.0254, 50.0 * 0.0254)
    plain = whirl.critical_speed(30e6 * PSI, 0.2836 * LB_PER_IN3, *size)
    finer = whirl.critical_speed_with_shear(30e6 * PSI, 11.5e6 * PSI, 0.2836 * LB_PER_IN3, *size)
    assert finer / plain == pytest.approx(7796.58 / 7860.49, rel=1e-4)


# ISO 281:2007, table 12 (from memory): every value that the table prints.
@pytest.mark.parametrize(
    ("percent", "printed", "half_digit"),
    [(90, 1.0, 0.005), (95, 0.64, 0.005), (96, 0.55, 0.0051), (97, 0.47, 0.005), (98, 0.37, 0.005),
     (99, 0.25, 0.005), (99.2, 0.22, 0.005), (99.4, 0.19, 0.005), (99.6, 0.16, 0.005),
     (99.8, 0.12, 0.005), (99.9, 0.093, 0.0005), (99.92, 0.087, 0.0005), (99.94, 0.080, 0.0005),
     (99.95, 0.077, 0.0005)],
)  # fmt: skip
def test_reliability_factor_rounds_to_the_standards_table(
    percent: float, printed: float, half_digit: float
) -> None:
    assert abs(bearings.reliability_factor(percent / 100.0) - printed) <= half_digit


FC_TABLE = {
    0.01: 52.1, 0.02: 60.8, 0.03: 66.5, 0.04: 70.7, 0.05: 74.1, 0.06: 76.9, 0.07: 79.2, 0.08: 81.2,
    0.09: 82.8, 0.10: 84.2, 0.12: 86.4, 0.14: 87.7, 0.16: 88.5, 0.18: 88.8, 0.20: 88.7, 0.22: 88.2,
    0.24: 87.5, 0.26: 86.4, 0.28: 85.2, 0.30: 83.8,
}  # fmt: skip


# ISO 281:2007, table 7 (from memory): f_c of radial roller bearings.
@pytest.mark.parametrize(("thick", "printed"), FC_TABLE.items())
def test_geometry_factor_matches_the_standards_table(thick: float, printed: float) -> None:
    factor = tapered_bearings.rating_geometry_factor(thick * 0.1, 0.0, 0.1)
    assert factor == pytest.approx(printed, rel=7.5e-4)


# Shigley's Mechanical Engineering Design, solution to problem 11-44 (read in a solutions text).
def test_tapered_pair_of_shigley_11_44() -> None:
    first = tapered_bearings.induced_thrust_k(875.0, 1.5)
    second = tapered_bearings.induced_thrust_k(625.0, 1.45)
    pressed = tapered_bearings.pair_axial_load(first, second, 250.0)
    relieved = tapered_bearings.pair_axial_load(second, first, -250.0)
    load = bearings.equivalent_load(875.0, pressed, 0.4, 1.5, 0.389)
    assert first == pytest.approx(274.0, abs=0.5)
    assert relieved == pytest.approx(203.0, abs=0.5)
    assert load == pytest.approx(1030.0, abs=1.5)
    assert bearings.required_rating(625.0, 90000 * 150 * 60 / 90e6, 10 / 3) == pytest.approx(
        1208.0, abs=0.5
    )


# Rollers of stiffness Q ∝ δ^(10/9) round half the circumference (load integral, closed form).
@pytest.mark.parametrize("degrees", [10.0, 15.0, 25.0])
def test_half_zone_constants_from_the_load_integral(degrees: float) -> None:
    angle, power = np.radians(degrees), 10.0 / 9.0
    radial = quad(lambda p: np.cos(p) ** (power + 1.0), -np.pi / 2, np.pi / 2)[0] / (2 * np.pi)
    axial = quad(lambda p: np.cos(p) ** power, -np.pi / 2, np.pi / 2)[0] / (2 * np.pi)
    fullest = 1000.0 / (19.0 * np.cos(angle) * radial)
    thrust = fullest * 19.0 * np.sin(angle) * axial
    assert tapered_bearings.half_zone_roller_load(1000.0, 19.0, angle) == pytest.approx(
        fullest, rel=2e-3
    )
    assert tapered_bearings.half_zone_thrust(1000.0, angle) == pytest.approx(thrust, rel=2e-3)


# Gargiulo, 1980 (from memory): axial stiffness 1.197e6·(F·Z⁹·l⁸·sin¹⁹α)^0.1 lbf/in; it lies
# between secant and tangent of Palmgren's curve at 10 kN.
def test_axial_give_brackets_gargiulos_stiffness() -> None:
    angle, force, pound = np.radians(15.0), 10e3, 4.4482216
    stiffness = (
        1.197e6
        * (force / pound * 17.0**9 * (16.0 / 25.4) ** 8 * np.sin(angle) ** 19) ** 0.1
        * pound
        / 0.0254
    )
    here = tapered_bearings.axial_deflection(force, 17.0, 0.016, angle)
    above = tapered_bearings.axial_deflection(force * 1.001, 17.0, 0.016, angle)
    below = tapered_bearings.axial_deflection(force * 0.999, 17.0, 0.016, angle)
    secant, tangent = force / here, 0.002 * force / (above - below)
    assert secant < stiffness < tangent


# Two opposed springs F = c·δ^n, pressed together and pushed (balance solved by scipy brentq).
@pytest.mark.parametrize("multiple", [0.05, 0.4, 1.0, 2.0, 2.15, 3.5])
@pytest.mark.parametrize("exponent", [10.0 / 9.0, 1.5])
def test_preloaded_pair_balances(multiple: float, exponent: float) -> None:
    def missing(y: float) -> float:
        return (1.0 + y) ** exponent - max(1.0 - y, 0.0) ** exponent - multiple

    expected = brentq(missing, 0.0, 10.0, xtol=1e-13)
    shift = tapered_bearings.preloaded_pair_shift(multiple, exponent)
    assert shift == pytest.approx(expected, rel=1e-7)


# Worked preload table of an identical pair (computed independently): Z 17, l 16 mm, 15 degrees,
# preload 5 kN: 3.2700, 8.1998, 16.6695 µm at 2, 5, 10 kN, 45.0691 µm at 20 kN.
@pytest.mark.parametrize(
    ("thrust", "micrometres"), [(2e3, 3.2700), (5e3, 8.1998), (10e3, 16.6695), (20e3, 45.0691)]
)
def test_preloaded_pair_moves_as_worked(thrust: float, micrometres: float) -> None:
    pressed = tapered_bearings.axial_deflection(5e3, 17.0, 0.016, np.radians(15.0))
    shift = tapered_bearings.preloaded_pair_shift(thrust / 5e3, 1.0 / 0.9) * pressed
    assert shift * 1e6 == pytest.approx(micrometres, abs=2e-4)


# Spectrum 15, 10, 5 kN for 10, 30, 60 percent of the turns on a 78.44 kN rating: damage added up
# turn by turn must equal that of the mean load (Palmgren-Miner, derived).
def test_mean_load_costs_the_same_life() -> None:
    rating, power = 78.44e3, 10.0 / 3.0
    loads, shares = (15e3, 10e3, 5e3), (0.1, 0.3, 0.6)
    damage = sum(
        1e6 * share / bearings.life_revolutions(rating, load, power)
        for load, share in zip(loads, shares, strict=True)
    )
    mean = bearings.mean_load(15e3, 0.1, 10e3, 0.3, 5e3, 0.6, power)
    assert 1e6 / bearings.life_revolutions(rating, mean, power) == pytest.approx(damage)
