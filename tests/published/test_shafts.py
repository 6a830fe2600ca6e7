"""Splines, shafts, fatigue and brittle iron against tables, raw tests and other methods."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from scipy import integrate, optimize

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
from axlewright.quantities.units import factor

pytestmark = pytest.mark.published

INCH = 0.0254
PSI = factor("psi", "stress")
LBF = factor("lbf", "force")
LBF_IN = factor("lbf*in", "torque")
LBF_FT = factor("lbf*ft", "torque")

# ANSI B92.1-1970 (R1993), 24/48 pitch, 30°, evaluated independently in inches:
# teeth, D, Db, Do, Dri flat, Dri fillet, Di, Dre flat, Dre fillet (N-2), DFe
SIZES = """
26 1.0833 0.9382 1.1250 1.1396 1.1583 1.0417 1.0271 1.0000 1.0377
28 1.1667 1.0104 1.2083 1.2229 1.2417 1.1250 1.1104 1.0833 1.1210
30 1.2500 1.0825 1.2917 1.3063 1.3250 1.2083 1.1937 1.1667 1.2043
31 1.2917 1.1186 1.3333 1.3479 1.3667 1.2500 1.2354 1.2083 1.2460
33 1.3750 1.1908 1.4167 1.4313 1.4500 1.3333 1.3187 1.2917 1.3293
35 1.4583 1.2630 1.5000 1.5146 1.5333 1.4167 1.4021 1.3750 1.4127
40 1.6667 1.4434 1.7083 1.7229 1.7417 1.6250 1.6104 1.5833 1.6210
"""


@pytest.mark.parametrize("row", SIZES.strip().splitlines())
def test_spline_sizes_of_the_standard(row: str) -> None:
    teeth, *expected = (float(x) for x in row.split())
    pitch = 24.0 / INCH
    diameter = splines.pitch_diameter(teeth, pitch)
    found = [
        diameter,
        splines.base_diameter(teeth, pitch, math.radians(30.0)),
        splines.external_major_diameter(teeth, pitch),
        splines.internal_root_diameter_flat(teeth, pitch),
        splines.internal_root_diameter_fillet(teeth, pitch),
        splines.internal_minor_diameter(teeth, pitch),
        splines.external_root_diameter_flat(teeth, pitch),
        splines.external_root_diameter_fillet(teeth, pitch),
        splines.external_form_diameter(teeth, pitch, splines.form_clearance(diameter)),
    ]
    assert np.array(found) / INCH == pytest.approx(np.array(expected), abs=6e-5)


def test_dudley_tables() -> None:
    # Dudley, When Splines Need Stress Control (as reproduced in a secondary copy)
    cycles = np.array([1e3, 1e4, 1e5, 1e6, 1e7])
    assert spline_handbook.life_factor_one_way(cycles) == pytest.approx([1.8, 1.0, 0.5, 0.4, 0.3])
    assert spline_handbook.life_factor_both_ways(cycles) == pytest.approx([1.8, 1, 0.4, 0.3, 0.2])
    turns = 10.0 ** np.arange(4, 11)
    assert spline_handbook.wear_factor(turns) == pytest.approx([4.0, 2.8, 2.0, 1.4, 1.0, 0.7, 0.5])
    table = {
        0.001: [1.0, 1.0, 1.0, 1.5],
        0.002: [1.0, 1.0, 1.5, 2.0],
        0.004: [1.0, 1.5, 2.0, 2.5],
        0.008: [1.5, 2.0, 2.5, 3.0],
    }
    faces = INCH * np.array([0.5, 1.0, 2.0, 4.0])
    for misalignment, row in table.items():
        assert spline_handbook.load_distribution(misalignment, faces) == pytest.approx(row)


# First yield and full yield in lbf·ft of a shaft d = 1.4021 in, case 917 MPa, core 366 MPa,
# case depth as a share of diameter (independent calculation on the model of Fett 2009)
CASES = [
    (0.05, 2660, 4494),
    (0.10, 2993, 5537),
    (0.125, 3192, 5970),
    (0.15, 3420, 6350),
    (0.20, 3990, 6960),
    (0.25, 4788, 7397),
    (0.30, 5985, 7690),
    (0.50, 5998, 7998),
]


@pytest.mark.parametrize(("share", "yields", "flows"), CASES)
def test_case_depth_table(share: float, yields: float, flows: float) -> None:
    diameter = 1.4021 * INCH
    depth = share * diameter
    first = shafts.step_hardened_yield_torque(917e6, 366e6, diameter, depth)
    full = shafts.step_hardened_plastic_torque(917e6, 366e6, diameter, depth)
    assert first / LBF_FT == pytest.approx(yields, rel=5e-4)
    assert full / LBF_FT == pytest.approx(flows, rel=5e-4)


@pytest.mark.parametrize("share", [0.02, 0.11, 0.27, 0.45])
def test_case_hardened_shaft_by_integration(share: float) -> None:
    # independent reasoning: march the twist up until some ring yields, add up rings (scipy quad)
    radius, case, core = 0.018, 900e6, 350e6
    border = radius * (1.0 - 2.0 * share)

    def stands(r: float) -> float:
        return case if r > border else core

    rings = np.linspace(1e-6, radius, 40_001)
    slope = min(stands(r) / r for r in rings)
    elastic, _ = integrate.quad(lambda r: 2.0 * np.pi * r * r * slope * r, 0.0, radius)
    plastic, _ = integrate.quad(
        lambda r: 2.0 * np.pi * r * r * stands(r), 0.0, radius, points=[border]
    )
    depth = 2.0 * radius * share
    first = shafts.step_hardened_yield_torque(case, core, 2.0 * radius, depth)
    full = shafts.step_hardened_plastic_torque(case, core, 2.0 * radius, depth)
    assert first == pytest.approx(elastic, rel=1e-4)
    assert full == pytest.approx(plastic, rel=1e-7)


@pytest.mark.parametrize("overload", [1.02, 1.15, 1.31])
def test_permanent_set_by_integration(overload: float) -> None:
    # twist a section of rings that yield at 1 until it carries the torque, then let go (scipy)
    def torque(turns: float) -> float:
        inner, _ = integrate.quad(lambda r: 4.0 * r * r * r * turns, 0.0, 1.0 / turns)
        outer, _ = integrate.quad(lambda r: 4.0 * r * r, 1.0 / turns, 1.0)
        return inner + outer

    turns = optimize.brentq(lambda t: torque(t) - overload, 1.0, 20.0)
    assert shafts.permanent_set(overload, 0.2) == pytest.approx(0.2 * (turns - overload), rel=1e-8)


@pytest.mark.parametrize(
    ("tensile_yield", "expected"),
    [(1138e6, 4298), (834e6, 3150), (1360e6, 5136), (1586e6, 5990)],
)
def test_through_hard_shafts(tensile_yield: float, expected: float) -> None:
    # 4140 at 425 and 540 °C, 4340 at 425 °C, 300M; 0.57735 S_y at d = 1.4021 in, inch units by hand
    shear = hardness.shear_yield_by_distortion_energy(tensile_yield)
    found = shafts.elastic_torque(shear, 1.4021 * INCH, 0.0)
    assert found / LBF_FT == pytest.approx(expected, rel=3e-4)


def test_hardness_table_agrees_with_tested_steels() -> None:
    # Brinell hardness and tensile strength (MPa): Dowling table 9.1 (4142) and Shigley table A-23
    # (1045 410 HB, RQC-100, 4340 HR as read; 1045 225 and 390 HB, 4340 409 HB from memory)
    tested = [
        (450, 1757),
        (410, 1450),
        (290, 940),
        (243, 825),
        (225, 725),
        (390, 1345),
        (409, 1470),
    ]
    for hb, strength in tested:
        hrc = optimize.brentq(lambda c, hb=hb: hardness.brinell(c) - hb, 0.0, 52.0)
        assert hardness.tensile_strength_at(hrc) == pytest.approx(strength * 1e6, rel=0.12)


def test_torsional_yield_is_six_tenths_of_tensile_yield() -> None:
    # SAE J413 as reproduced in Fett 2009: the proportion that decides the doubtful row
    hrc = np.array(hardness.ROCKWELL_C)
    share = hardness.torsional_yield_at(hrc) / hardness.tensile_yield_at(hrc)
    assert share == pytest.approx(np.full(7, 0.60), abs=0.005)


# University of Waterloo, Fatigue Design & Evaluation data base: induction-hardened SAE 1050M
# axle-shaft case, HRC 54 (1998), reversals and stress amplitude in MPa; the run-out is left out
AXLE_CASE = np.array(
    [
        (688, 1745), (1000, 1745), (1108, 1723), (8194, 1350), (8362, 1387), (8628, 1365),
        (10892, 1296), (15054, 1287), (20319, 1261), (42172, 1061), (55646, 1101), (63562, 1066),
        (227180, 1105), (246060, 953), (500000, 955), (5052800, 860), (8607800, 857),
    ],
    dtype=float,
)  # fmt: skip


def test_axle_case_lines_are_the_least_squares_of_the_raw_tests() -> None:
    reversals, stress = np.log(AXLE_CASE).T
    slope, height = np.polyfit(stress, reversals, 1)  # life over stress
    assert (math.exp(-height / slope), 1.0 / slope) == pytest.approx((3044, -0.0879), rel=5e-4)
    slope, height = np.polyfit(reversals, stress, 1)  # stress over life
    assert (math.exp(height), slope) == pytest.approx((2845, -0.0814), rel=5e-4)


@pytest.mark.parametrize(
    "line", [fatigue.hardened_case_cycles, fatigue.hardened_case_cycles_by_stress]
)
def test_axle_case_lines_meet_the_raw_tests(line) -> None:  # type: ignore[no-untyped-def]
    predicted = line(AXLE_CASE[:, 1] * 1e6)
    apart = np.log(predicted / (0.5 * AXLE_CASE[:, 0]))
    assert np.exp(np.median(np.abs(apart))) < 2.5
    assert np.exp(np.abs(apart).max()) < 8.0


def test_dowling_table_of_basquin_constants() -> None:
    # Dowling, table 9.1: σ_f' (MPa), A = stress amplitude at one cycle, b
    rows = [
        (1020, 927, -0.138),
        (1089, 1006, -0.115),
        (938, 897, -0.0648),
        (1937, 1837, -0.0762),
        (1758, 1643, -0.0977),
        (900, 839, -0.102),
    ]
    for coefficient, at_one, exponent in rows:
        found = fatigue.basquin_amplitude(1.0, coefficient * 1e6, exponent)
        assert found == pytest.approx(at_one * 1e6, rel=1.2e-3)


def test_strain_life_of_three_steels() -> None:
    # strain-life constants from memory (Dowling 14.1, Shigley A-23); lives found independently
    steels = {
        (207e9, 1758e6, -0.0977, 2.12, -0.774): {0.01: 989.7, 0.003: 5.474e4, 0.002: 1.490e6},
        (200e9, 1227e6, -0.095, 1.0, -0.66): {0.01: 921, 0.003: 2.455e4, 0.002: 2.015e5},
        (205e9, 1585e6, -0.074, 0.45, -0.68): {0.01: 349, 0.005: 3895, 0.003: 2.385e5},
        (207e9, 1937e6, -0.0762, 0.706, -0.869): {0.01: 189.8, 0.005: 4028, 0.003: 1.533e6},
    }
    for constants, lives in steels.items():
        for strain, cycles in lives.items():
            found = fatigue.strain_life_cycles(strain, *constants)
            assert found == pytest.approx(cycles, rel=1.5e-3)


# ASTM E1049, figure 6: range, mean, count of the cycles, in units of 100 MPa
E1049 = [
    (3, -0.5, 0.5), (4, -1, 0.5), (4, 1, 1), (8, 1, 0.5), (9, 0.5, 0.5), (8, 0, 0.5), (6, 1, 0.5),
]  # fmt: skip


def test_miner_on_the_standard_history() -> None:
    # blocks to failure of AISI 4340 (Dowling table 9.1), calculated independently
    strength, exponent = 1758e6, -0.0977
    expected = {"none": 7.064e5, "morrow": 5.145e5, "swt": 3.772e5}
    damage = dict.fromkeys(expected, 0.0)
    for span, mean, count in E1049:
        half, middle = 50e6 * span, 100e6 * mean
        amplitudes = {
            "none": half,
            "morrow": fatigue.morrow_amplitude(half, middle, strength),
            "swt": fatigue.swt_amplitude(half, middle),
        }
        for rule, amplitude in amplitudes.items():
            life = fatigue.basquin_cycles(amplitude, strength, exponent)
            damage[rule] = fatigue.miner_damage(damage[rule], count, life)
    assert {k: 1.0 / d for k, d in damage.items()} == pytest.approx(expected, rel=1e-3)


def test_spectrum_torque_of_four_blocks() -> None:
    # calculated independently: Σ n T^m over Σ n, root m, m = 1/.0977
    found = fatigue.spectrum_torque(
        np.array([3000.0, 2500.0, 2000.0, 1500.0]),
        np.array([200.0, 400.0, 1000.0, 5000.0]),
        fatigue.damage_exponent_of(-0.0977),
    )
    assert found == pytest.approx(2204.50, abs=0.005)


def test_torsion_factor_table() -> None:
    # Shigley, tables 6-11 to 6-14 (as reproduced in a secondary copy)
    kpsi = factor("kpsi", "stress")
    found = endurance.torsion_factor(kpsi * np.array([50.0, 100.0, 150.0, 200.0]))
    assert found == pytest.approx([0.535, 0.583, 0.614, 0.636], abs=6e-4)


def test_modified_mohr_against_the_three_branches() -> None:
    # Shigley eq. 5-32a to c (from memory) written out branch by branch
    tension, compression = 152.0, 572.0
    for a, b in itertools.product(np.linspace(-600.0, 160.0, 39), repeat=2):
        if a < b or (a == 0.0 and b == 0.0):
            continue
        if a >= 0.0 and (b >= 0.0 or abs(b / a if a else np.inf) <= 1.0):
            usage = a / tension
        elif a >= 0.0:
            usage = (compression - tension) * a / (compression * tension) - b / compression
        else:
            usage = -b / compression
        found = brittle.modified_mohr_usage(a, b, tension, compression)
        assert found == pytest.approx(usage, abs=1e-12)


def test_coulomb_mohr_against_circles_under_an_envelope() -> None:
    # independent reasoning: scale until Mohr's largest circle touches the straight envelope that
    # is tangent to the circles of the two strengths
    tension, compression = 152.0, 572.0
    sine = (compression - tension) / (compression + tension)
    for a, b in [(64.05, -14.05), (30.0, -200.0), (100.0, 0.0), (100.0, 40.0), (-10.0, -300.0)]:
        high, low = max(a, 0.0), min(b, 0.0)
        reach = (0.5 * (high - low)) + 0.5 * (high + low) * sine
        limit = tension * 0.5 * (1.0 + sine)
        found = brittle.coulomb_mohr_usage(a, b, tension, compression)
        assert found == pytest.approx(reach / limit, rel=1e-12)


def test_semi_floating_shaft_chain() -> None:
    # axle 1,800 lbf, d = 1.53 in; drive 58,360 psi, skid 49,874 psi, jolts 11,198/15,997/19,197 psi
    # (moments and stresses taken by hand in inch units)
    d = 1.53 * INCH
    moment = wheel_end.drive_moment(1260.0 * LBF, 1638.0 * LBF, 2.5 * INCH)
    torque = wheel_end.drive_torque(1638.0 * LBF, 14.0 * INCH)
    drive = combined.von_mises(
        shafts.bending_stress(moment, d, 0.0), shafts.torsion_shear(torque, d, 0.0)
    )
    assert drive / PSI == pytest.approx(58360, rel=2e-4)

    load = wheel_end.outer_wheel_load(1800.0 * LBF, 1.0, 20.0 * INCH, 60.0 * INCH)
    side = wheel_end.side_force(load, 1.0)
    bend = wheel_end.outer_skid_moment(side, load, 14.0 * INCH, 2.5 * INCH)
    skid = combined.worse_side_stress(
        shafts.bending_stress(bend, d, 0.0), shafts.axial_stress(side, d, 0.0)
    )
    assert skid / PSI == pytest.approx(49874, rel=2e-4)

    for jolt, stress in [(1.75, 11198), (2.5, 15997), (3.0, 19197)]:
        bend = wheel_end.vertical_moment(900.0 * LBF, jolt, 2.5 * INCH)
        assert shafts.bending_stress(bend, d, 0.0) / PSI == pytest.approx(stress, rel=2e-4)
