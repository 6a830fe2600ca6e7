"""What pushes: properties that hold for any car."""

import inspect
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.driveline import differential
from axlewright.quantities.formula import REGISTRY
from axlewright.vehicle import air, converter, engine, grip, launch_bounds, load_transfer, tire

LIGHT = settings(max_examples=40, deadline=None)


def between(low, high):
    return st.floats(low, high, allow_nan=False)


CARS = st.fixed_dictionaries(
    {
        "vehicle_weight": between(8e3, 25e3),
        "rear_share": between(0.35, 0.65),
        "cg_height": between(0.3, 0.9),
        "wheelbase": between(2.2, 3.3),
        "tire_radius": between(0.28, 0.42),
        "axle_ratio": between(2.4, 6.0),
        "track": between(1.2, 1.7),
        "front_roll_share": between(0.0, 1.0),
        "tire_grip": between(0.1, 3.0),
        "grip_reference_load": between(2e3, 6e3),
        "load_sensitivity": between(0.0, 4e-5),
    }
)


def static(car):
    car = dict(car)
    car["static_rear_load"] = car["vehicle_weight"] * car.pop("rear_share")
    return car


@LIGHT
@given(CARS, between(1.0, 5.0), between(0.0, 200.0))
def test_locked_beats_biasing_beats_open(car, bias, preload):
    car = static(car)
    slack = 1e-9 * car["vehicle_weight"]
    open_axle = grip.open_axle_grip(**car)
    biased = grip.biasing_axle_grip(**car, bias_ratio=bias, differential_preload=preload)
    locked = grip.locked_axle_grip(**car)
    assert open_axle.drive_force <= biased.drive_force + slack
    assert biased.drive_force <= locked.drive_force + slack


@LIGHT
@given(CARS, between(1.0, 5.0))
def test_axle_loads_add_up_and_stay_on_the_ground(car, bias):
    car = static(car)
    got = grip.biasing_axle_grip(**car, bias_ratio=bias, differential_preload=0.0)
    weight = car["vehicle_weight"]
    assert got.left_load + got.right_load == pytest.approx(got.rear_load, rel=1e-12)
    assert got.left_force + got.right_force == pytest.approx(got.drive_force, rel=1e-12)
    assert got.rear_load <= weight
    assert got.front_load >= 0.0
    assert got.right_load >= 0.0
    assert got.left_load >= got.right_load
    most = tire.grip_under_load(
        car["tire_grip"], got.left_load, car["grip_reference_load"], car["load_sensitivity"]
    )
    assert got.left_force <= most * got.left_load * (1 + 1e-9)
    # The balance closes: the load found is the load that the push found causes.
    assert got.rear_load == pytest.approx(
        load_transfer.rear_load(
            car["static_rear_load"], got.drive_force, car["cg_height"], car["wheelbase"], weight
        ),
        rel=1e-9,
    )


@LIGHT
@given(CARS)
def test_without_load_sensitivity_the_solve_is_the_closed_form(car):
    car = static(car) | {"load_sensitivity": 0.0}
    closed_names = inspect.signature(grip.open_limit_force).parameters
    solved = grip.locked_axle_grip(**car)
    lifting = load_transfer.wheels_up_force(
        car["vehicle_weight"], car["static_rear_load"], car["cg_height"], car["wheelbase"]
    )
    if car["tire_grip"] * car["cg_height"] < 0.999 * car["wheelbase"]:
        closed = grip.locked_limit_force(
            car["tire_grip"], car["static_rear_load"], car["cg_height"], car["wheelbase"]
        )
        whole = car["tire_grip"] * car["vehicle_weight"]
        assert solved.drive_force == pytest.approx(closed if closed < lifting else whole, rel=1e-9)
    else:
        assert solved.front_load == 0.0
    light = grip.open_axle_grip(**car)
    if light.drive_force < lifting:
        closed = grip.open_limit_force(**{name: car[name] for name in closed_names})
        assert light.drive_force == pytest.approx(closed, rel=1e-9)


@LIGHT
@given(CARS)
def test_without_axle_roll_open_and_locked_are_alike(car):
    car = static(car) | {"front_roll_share": 0.0}
    open_axle, locked = grip.open_axle_grip(**car), grip.locked_axle_grip(**car)
    assert open_axle.drive_force == pytest.approx(locked.drive_force, rel=1e-9)
    assert open_axle.left_load == pytest.approx(open_axle.right_load, rel=1e-12)


@LIGHT
@given(CARS, between(1.01, 1.5))
def test_more_grip_never_pushes_less(car, more):
    car = static(car)
    for solve in (grip.open_axle_grip, grip.locked_axle_grip):
        before = solve(**car).drive_force
        after = solve(**(car | {"tire_grip": car["tire_grip"] * more})).drive_force
        assert after >= before * (1 - 1e-9)


def test_big_bias_is_locked_and_unit_bias_is_open():
    car = {
        "vehicle_weight": 16e3, "static_rear_load": 7.5e3, "cg_height": 0.5, "wheelbase": 2.7,
        "tire_radius": 0.33, "axle_ratio": 3.73, "track": 1.5, "front_roll_share": 0.7,
        "tire_grip": 1.4, "grip_reference_load": 4e3, "load_sensitivity": 2e-5,
    }  # fmt: skip
    one = grip.biasing_axle_grip(**car, bias_ratio=1.0, differential_preload=0.0)
    most = grip.biasing_axle_grip(**car, bias_ratio=6.0, differential_preload=0.0)
    assert one.drive_force == pytest.approx(grip.open_axle_grip(**car).drive_force, rel=1e-12)
    assert most.drive_force == pytest.approx(grip.locked_axle_grip(**car).drive_force, rel=1e-12)


def test_a_hole_in_the_samples_is_not_swallowed():
    car = {
        "vehicle_weight": 16e3, "static_rear_load": 7.5e3, "cg_height": 0.5, "wheelbase": 2.7,
        "tire_radius": 0.33, "axle_ratio": 3.73, "track": 1.5, "front_roll_share": 0.7,
        "tire_grip": 1.4, "grip_reference_load": 4e3, "load_sensitivity": 2e-5,
    }  # fmt: skip
    for name, value in car.items():
        hole = grip.open_axle_grip(**(car | {name: np.array([value, math.nan])}))
        assert math.isfinite(hole.drive_force[0]), name
        assert math.isnan(hole.drive_force[1]), name


@LIGHT
@given(between(1.0, 2.3), between(0.0, 1.0))
def test_converter_never_gives_more_power_than_it_takes(stall_ratio, speed_ratio):
    typical = converter.typical_torque_ratio(speed_ratio)
    scaled = converter.scaled_torque_ratio(typical, stall_ratio, speed_ratio)
    assert typical >= 1.0
    assert typical * speed_ratio <= 1.0
    assert scaled >= 1.0 - 1e-12
    assert scaled * speed_ratio <= 1.0 + 1e-12
    assert 0.0 <= converter.relative_pump_torque(speed_ratio) <= 1.2


def test_converter_loses_power_until_the_speeds_meet():
    speed_ratio = np.linspace(0.0, 0.999, 1000)
    assert np.all(converter.typical_torque_ratio(speed_ratio) * speed_ratio < 1.0)


@LIGHT
@given(between(150.0, 450.0), between(100.0, 500.0), between(50.0, 600.0), between(50.0, 600.0))
def test_stall_on_curve_balances_engine_and_pump(rated_speed, rated_torque, first, second):
    speeds = np.array([100.0, 300.0, 700.0])
    torques = np.array([first, second, first])
    stall = converter.stall_speed_on_curve(speeds, torques, rated_speed, rated_torque)
    made = engine.torque_at_speed(stall, speeds, torques)
    taken = converter.pump_torque(stall, rated_speed, rated_torque, 1.0)
    assert made == pytest.approx(taken, rel=1e-6)


@LIGHT
@given(st.lists(between(50.0, 900.0), min_size=2, max_size=8), between(0.0, 1000.0))
def test_curve_reads_like_numpy(torques, at):
    speeds = np.linspace(100.0, 700.0, len(torques))
    got = engine.torque_at_speed(at, speeds, np.array(torques))
    assert got == pytest.approx(np.interp(at, speeds, torques), rel=1e-12)


def test_curve_of_samples_reads_sample_by_sample():
    rng = np.random.default_rng(3)
    speeds = np.array([100.0, 300.0, 500.0])
    torques = rng.uniform(200, 600, (3, 50))
    at = rng.uniform(50, 600, 50)
    got = engine.torque_at_speed(at, speeds, torques)
    one_by_one = [np.interp(a, speeds, column) for a, column in zip(at, torques.T, strict=True)]
    assert got == pytest.approx(one_by_one, rel=1e-12)
    stall = converter.stall_speed_on_curve(speeds, torques, 300.0, 400.0)
    alone = [converter.stall_speed_on_curve(speeds, column, 300.0, 400.0) for column in torques.T]
    assert stall == pytest.approx(alone, rel=1e-12)


def test_curve_with_speeds_out_of_order_is_refused():
    with pytest.raises(ValueError, match="places must rise"):
        engine.torque_at_speed(200.0, np.array([300.0, 200.0]), np.array([1.0, 2.0]))


@LIGHT
@given(between(0.3, 3.0), between(0.0, 0.3), between(0.0, 0.3))
def test_dump_factor_never_rises_with_bite_and_stays_bounded(mu, bite, later):
    soon = launch_bounds.dump_factor(mu, min(bite, later))
    late = launch_bounds.dump_factor(mu, max(bite, later))
    assert late <= soon + 1e-12
    assert late >= 0.60
    assert soon <= 1.55
    assert launch_bounds.dump_factor(mu + 0.1, bite) >= launch_bounds.dump_factor(mu, bite) - 1e-12


@LIGHT
@given(between(0.6, 1.55), between(0, 3e4), between(0, 2e4), between(0, 3e4), between(0, 2e4))
def test_dump_lies_between_steady_and_either_limb(factor, clutch, tires, blow, steady):
    peak = launch_bounds.clutch_dump_torque(factor, clutch, tires, blow, steady)
    assert peak >= steady
    assert peak <= max(steady, factor * clutch)
    assert peak <= max(steady, tires + blow)


@LIGHT
@given(between(0.0, 0.9), between(0.0, 0.9))
def test_damping_tames_the_overshoot(one, other):
    less, more = sorted((one, other))
    assert 2.0 >= launch_bounds.overshoot_factor(less) >= launch_bounds.overshoot_factor(more) > 1.0


@LIGHT
@given(between(0.1, 500.0), between(0.1, 500.0))
def test_paired_inertia_is_symmetric_and_below_either(one, other):
    paired = launch_bounds.paired_inertia(one, other)
    assert paired == pytest.approx(launch_bounds.paired_inertia(other, one), rel=1e-12)
    assert paired < min(one, other)


def test_no_step_of_grip_no_regrip():
    assert launch_bounds.regrip_torque(2000.0, 2000.0, 9e3, 2.0, 5.0) == 2000.0
    assert launch_bounds.regrip_torque(2000.0, 1500.0, 9e3, 2.0, 5.0) == 2000.0
    assert launch_bounds.regrip_torque(2000.0, 5000.0, 0.0, 5.0, 2.0) == 2000.0


@LIGHT
@given(between(0, 9e3), between(0, 3e3), between(0, 6e3), between(1.0, 6.0), between(0, 300))
def test_one_wheel_ranks_open_biasing_locked(ring, low, high, bias, preload):
    opened = differential.one_wheel_open(ring, low, high)
    biased = differential.one_wheel_biasing(ring, low, high, bias, preload)
    locked = differential.one_wheel_locked(ring, low, high)
    assert opened <= biased + 1e-9
    assert biased <= locked
    assert locked <= min(ring, high)


@LIGHT
@given(between(0, 9e3), between(1.0, 6.0), between(0, 300))
def test_sides_make_up_the_ring(ring, bias, preload):
    high = differential.high_side_torque(ring, bias, preload)
    low = differential.low_side_torque(ring, high)
    assert low >= -1e-9
    assert high >= low - 1e-9
    assert high <= bias * low + preload + 1e-6
    if preload == 0 and ring > 1:
        assert differential.high_side_share(bias) == pytest.approx(high / ring, rel=1e-9)


@LIGHT
@given(between(200.0, 8e3), between(0.0, 1.0))
def test_magic_formula_is_odd_and_below_its_peak(load, slip):
    push = tire.magic_force(load, slip)
    assert push == pytest.approx(-tire.magic_force(load, -slip), abs=1e-9)
    assert -1e-9 <= push <= tire.magic_peak_force(load) * (1 + 1e-12)


@LIGHT
@given(between(80e3, 105e3), between(260.0, 315.0), between(0.0, 1.0))
def test_thin_hot_damp_air_costs_torque(barometer, kelvin, humidity):
    damp = air.dry_air_pressure(barometer, air.vapor_pressure(kelvin, humidity))
    assert damp <= barometer
    assert air.power_correction(damp, kelvin) >= air.power_correction(barometer, kelvin)
    assert air.power_correction(barometer, kelvin + 1) > air.power_correction(barometer, kelvin)
    moist = air.moist_air_density(damp, air.vapor_pressure(kelvin, humidity), kelvin)
    assert moist <= air.moist_air_density(barometer, 0.0, kelvin)


@LIGHT
@given(between(1.0, 120.0), between(0.6, 4.0), between(2.4, 6.0), between(0.28, 0.42))
def test_road_speed_there_and_back(speed, gear, axle, radius):
    turning = tire.engine_speed_on_road(speed, gear, axle, radius)
    assert tire.road_speed(turning, gear, axle, radius) == pytest.approx(speed, rel=1e-12)


WITHIN = {
    "air_temperature": (270.0, 310.0), "relative_humidity": (0.0, 1.0), "damping_ratio": (0.0, 0.9),
    "barometer": (90e3, 105e3), "dry_air_pressure": (85e3, 105e3), "vapor_pressure": (100.0, 5e3),
    "speed_ratio": (0.0, 1.0), "load_sensitivity": (0.0, 4e-5), "bias_ratio": (1.0, 5.0),
    "tire_load": (500.0, 8e3), "longitudinal_slip": (-1.0, 1.0), "cg_height": (0.3, 0.8),
    "wheelbase": (2.2, 3.3), "tire_radius": (0.28, 0.42), "axle_ratio": (2.4, 6.0),
    "track": (1.2, 1.7), "front_roll_share": (0.0, 1.0), "tire_grip": (0.2, 2.2),
    "vehicle_weight": (12e3, 22e3), "static_rear_load": (5e3, 11e3), "dyno_loss": (0.0, 0.3),
    "bite_time": (0.0, 0.25), "grip_reference_load": (3e3, 5e3),
}  # fmt: skip


MODULES = (air, engine, converter, tire, load_transfer, grip, launch_bounds, differential)
HERE = {module.__name__.removeprefix("axlewright.") for module in MODULES}
NAMES = sorted(name for name in REGISTRY if name.rpartition(".")[0] in HERE)


@pytest.mark.parametrize("name", NAMES)
def test_arrays_are_scalars_side_by_side(name):
    what = REGISTRY[name]
    rng = np.random.default_rng(11)
    drawn = {
        arg: rng.uniform(*WITHIN.get(arg, (0.5, 4.0)), 25)
        for arg in what.signature.parameters
        if arg not in {"speed_points", "torque_points"}
    }
    fixed = {
        arg: np.array(points)
        for arg, points in (("speed_points", [1.0, 2.0, 3.0]), ("torque_points", [2.0, 3.0, 1.0]))
        if arg in what.signature.parameters
    }
    together = what.function(**drawn, **fixed)
    alone = [
        what.function(**{k: float(v[i]) for k, v in drawn.items()}, **fixed) for i in range(25)
    ]
    if isinstance(together, tuple):
        for field, side_by_side in zip(together, zip(*alone, strict=True), strict=True):
            assert np.shape(field) == (25,)
            assert field == pytest.approx(side_by_side, rel=1e-9, abs=1e-6)
    else:
        assert np.shape(together) == (25,)
        assert all(np.ndim(one) == 0 and isinstance(one, float) for one in alone)
        assert together == pytest.approx(alone, rel=1e-12, abs=1e-15)
