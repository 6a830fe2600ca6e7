"""The launch march against closed forms of the whole car: loads, thrust, converter, tires.

Each expected number is derived beside its test without running the march; sources as stated.
"""

import importlib
import math
import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq

from axlewright.dynamics.launch_car import LaunchConverter, Ramp
from axlewright.dynamics.launch_history import launch_history

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
builds = importlib.import_module("launch_builds")

# One group: the march is compiled once, in one process.
pytestmark = [pytest.mark.published, pytest.mark.slow, pytest.mark.xdist_group("launch")]

GRAVITY, LB, INCH = 9.80665, 4.4482216152605, 0.0254
LOSSLESS = {
    "gearbox_efficiency": 1.0,
    "axle_efficiency": 1.0,
    "motored_torque": 0.0,
    "rolling_resistance": 0.0,
    "air_drag": 0.0,
    "rev_limit": 1e7,
    "locked": True,
}


def clamped(**changes):
    return builds.plain_events(**({"clamp": builds.flat(1.0), "engine_speed": 0.0} | changes))


# Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), ch. 2, example 2 (inputs and
# answers from memory): 2100 lb front, 1850 lb rear, h 21 in, L 108 in, μ 0.62, t 59 in,
# axle 2.90, roll stiffness 1150 and 280, r 12.59 in.
WEIGHT, RADIUS, RATIO = 3950.0 * LB, 12.59 * INCH, 2.90
EXAMPLE = LOSSLESS | {
    "vehicle_mass": WEIGHT / GRAVITY,
    "rear_share": 1850.0 / 3950.0,
    "cg_height": 21.0 * INCH,
    "wheelbase": 108.0 * INCH,
    "track": 59.0 * INCH,
    "tire_radius": RADIUS,
    "axle_ratio": RATIO,
    "rear_roll_share": 280.0 / 1430.0,
    "wheel_inertia": 0.1,
    "engine_inertia": 0.8,
    "gear_ratio": 1.0,
    "clutch_capacity": 1e5,
    "load_sensitivity": 0.0,
    # A curve that rises and stays: grip is reached and kept however much the wheel spins.
    "tire_shape": 1.0,
    "tire_rise": 100.0,
    "tire_bend": 0.0,
    "tire_grip": 0.62,
    "bias_ratio": 1.0,
    "differential_preload": 0.0,
    # Damped well, so that what is left at the end is the steady pull.
    "pinion_inertia": 0.05,
    "side_gear_inertia": 0.1,
    "driveshaft_damping_time": 0.002,
    "shaft_damping_time": 0.01,
    "front_damping": 8e3,
    "rear_damping": 8e3,
    "roll_damping": 8e3,
}
RISE = Ramp(0.0, 1.0, 0.0, 3.0)


def pull(torque, **changes):
    """Torque rising slowly, so that nothing rocks; what acts at the end."""
    car = builds.plain_car(**(EXAMPLE | {"curve_torques": [torque] * 5} | changes))
    events = clamped(throttle=RISE, duration=5.5)
    march = launch_history(car, events, every=0.05)
    return car, {name: float(value[-1]) for name, value in march.values.items()}


def test_gillespie_example_2_spinning():
    # Open 1203 lb, locked 1305 lb.  Both wheels of a locked axle have to spin, one of an open one.
    _, loose = pull(850.0, locked=False, engine_inertia=5.0)
    assert loose["right_slip"] > 0.5
    assert loose["left_slip"] < 0.1
    assert (loose["left_force"] + loose["right_force"]) / LB == pytest.approx(1203.0, rel=5e-3)
    _, locked = pull(1000.0, engine_inertia=5.0)
    assert min(locked["left_slip"], locked["right_slip"]) > 0.4
    assert (locked["left_force"] + locked["right_force"]) / LB == pytest.approx(1305.0, rel=5e-3)
    assert locked["thrust"] > loose["thrust"]


def test_steady_pull_loads_the_tires_as_in_the_book():
    # At the thrust of the open axle: wheels 1113.3 and 970.8 lb, driveshaft 435.5 lb ft (by hand
    # from the book's inputs).  Engine torque for that thrust, the moving parts included.
    thrust = 1203.8 * LB
    acceleration = thrust / (WEIGHT / GRAVITY)
    parts = (0.8 + 0.03 + 0.05) * RATIO**2 + 2.0 * 0.1
    torque = (thrust * RADIUS + parts * acceleration / RADIUS) / RATIO
    car, end = pull(torque, tire_grip=2.0)
    force = end["left_force"] + end["right_force"]
    assert force == pytest.approx(thrust, rel=2e-3)
    assert end["left_load"] / LB == pytest.approx(1113.3, rel=2e-3)
    assert end["right_load"] / LB == pytest.approx(970.8, rel=2e-3)
    # The driveshaft also speeds the pinion up.
    carried = end["driveshaft"] - 0.05 * RATIO * acceleration / RADIUS
    assert carried / (LB * 0.3048) == pytest.approx(435.5, rel=2e-3)
    # Lift of the links: F z_ic/x_ic less what the axle's own mass keeps, plus what speeding the
    # wheels up adds to the torque on the housing (moments, derived).
    high = car.thrust_slope / car.reaction_arm + RADIUS
    lift = (
        force * high - car.axle_mass * acceleration * (high - RADIUS) + 0.2 * acceleration / RADIUS
    ) * car.reaction_arm
    assert end["lift"] == pytest.approx(lift, rel=3e-3)


@pytest.mark.parametrize("mount_height", [-0.1, 0.1])
def test_height_of_the_mount_moves_no_load(mount_height):
    # Where the axle is held fore and aft changes the torque on the wind-up mount, M = F r + e X,
    # but the lift is that of the instant center all the same (moments, closed form).
    _, level = pull(400.0, tire_grip=2.0)
    _, end = pull(400.0, tire_grip=2.0, mount_height=mount_height)
    assert end["lift"] == pytest.approx(level["lift"], rel=2e-3)
    assert end["left_load"] == pytest.approx(level["left_load"], rel=1e-3)
    expected = end["axle"] + mount_height * end["thrust"]
    assert end["windup_torque"] == pytest.approx(expected, rel=1e-3)


CONVERTER = LaunchConverter(
    rated_stall_speed=260.0,
    rated_stall_torque=500.0,
    stall_torque_ratio=2.0,
    turbine_inertia=0.05,
)


def test_converter_stalls_where_its_law_says():
    # Brakes on: T_e = T_s (ω/ω_s)², so ω = ω_s √(T_e/T_s); the driveshaft carries T_e R i η.
    car = builds.plain_car(
        **(LOSSLESS | {"gearbox_efficiency": 0.96}),
        converter=CONVERTER,
        curve_torques=[400.0] * 5,
        clutch_capacity=3000.0,
    )
    events = clamped(engine_speed=100.0, brakes=builds.flat(1e5), duration=2.0)
    march = launch_history(car, events, every=0.01)
    assert march["engine_speed"][-1] == pytest.approx(260.0 * math.sqrt(400.0 / 500.0), rel=1e-4)
    assert march["upstream_torque"][-1] == pytest.approx(800.0, rel=1e-3)
    assert march["driveshaft"][-1] == pytest.approx(800.0 * 2.95 * 0.96, rel=1e-3)
    assert march["road_speed"][-1] == pytest.approx(0.0, abs=1e-3)


def test_converter_never_gives_more_power_than_it_takes():
    # Torque ratio times speed ratio below one, from stall to coupling (second law).
    car = builds.plain_car(**LOSSLESS, converter=CONVERTER, clutch_capacity=3000.0)
    march = launch_history(car, clamped(engine_speed=150.0, duration=3.0), every=1e-3)
    pump, ratio = march["pump_torque"], march["upstream_speed"] / march["engine_speed"]
    driving = (pump > 1.0) & (ratio > 0.0) & (ratio < 1.0)
    assert ratio[driving].min() < 0.1
    assert ratio[driving].max() > 0.8
    multiplied = march["upstream_torque"][driving] / pump[driving]
    assert np.all(multiplied >= 1.0 - 1e-9)
    assert np.all(multiplied * ratio[driving] < 1.0)
    # SAE 820393 (coefficients from memory), stretched to a stall ratio of 2: at 0.4 the published
    # 1.401 over a stall of 1.680 becomes 1 + 0.401/0.680 = 1.590.
    assert np.interp(0.4, ratio[driving], multiplied) == pytest.approx(1.590, abs=5e-3)


def test_magic_formula_shape():
    # Bakker, Nyborg & Pacejka, SAE 870421, at 4 kN (form from memory, coefficients as reproduced
    # in public code): peak 4235 N at 10.35 % slip, 2899 N at 100 %.
    load = 4.0
    rise = (49.6 * load**2 + 226.0 * load) * math.exp(-0.069 * load)
    peak = -21.3 * load**2 + 1144.0 * load
    bend = -0.006 * load**2 + 0.056 * load + 0.486
    car = builds.plain_car(
        **LOSSLESS,
        tire_shape=1.65,
        tire_rise=100.0 * rise / (1.65 * peak),
        tire_bend=bend,
        tire_grip=peak / 4000.0,
        load_sensitivity=0.0,
    )
    events = builds.plain_events(engine_speed=600.0, duration=0.3)
    march = launch_history(car, events, every=1e-4)
    pulling = march["right_load"] > 500.0
    slip = march["right_slip"][pulling]
    push = 4000.0 * march["right_force"][pulling] / march["right_load"][pulling]
    assert push.max() == pytest.approx(4235.0, rel=1e-3)
    assert slip[np.argmax(push)] == pytest.approx(0.1035, abs=0.003)
    # At full slip, read on the straight end of the curve.
    last = np.argmax(slip)
    assert slip[last] > 0.95

    def curve(s):
        turn = car.tire_rise * s
        bent = turn - bend * (turn - np.arctan(turn))
        return peak * np.sin(1.65 * np.arctan(bent))

    assert curve(1.0) == pytest.approx(2899.0, abs=1.0)
    assert push[last] == pytest.approx(curve(slip[last]), rel=1e-3)
    # Where the peak lies: B κ − E (B κ − arctan B κ) = tan(π/(2C)) (closed form).
    turn = brentq(lambda x: x - bend * (x - math.atan(x)) - math.tan(math.pi / 3.3), 0.0, 50.0)
    assert slip[np.argmax(push)] == pytest.approx(turn / car.tire_rise, abs=0.003)
    # Slope through nil is B C D.
    small = (slip > 1e-4) & (slip < 0.004)
    assert small.sum() > 3
    assert np.median(push[small] / slip[small]) == pytest.approx(100.0 * rise, rel=0.02)


def test_steady_acceleration_moves_everything_that_turns():
    # F = m a; T i − (J_e + J_g) i² α − J_p i_a² α − 2 J_w α = F r (Newton, closed form).
    torque, gear = 250.0, 2.0
    car, end = pull(torque, gear_ratio=gear, tire_grip=2.0, engine_inertia=0.3, wheel_inertia=1.5)
    whole = gear * RATIO
    parts = (0.3 + 0.03) * whole**2 + 0.05 * RATIO**2 + 2.0 * 1.5
    expected = torque * whole / RADIUS / (car.vehicle_mass + parts / RADIUS**2)
    force = end["left_force"] + end["right_force"]
    assert force / car.vehicle_mass == pytest.approx(expected, rel=3e-3)
