"""The run down the strip: what must hold for any car, and what is refused."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.dynamics.launch_car import LaunchConverter
from axlewright.dynamics.run import MARKS, QUARTER, RunTimes, run_history, run_times
from axlewright.dynamics.run_car import RunCar
from axlewright.vehicle import strip

RPM = np.pi / 30


def car(**changes):
    speeds = np.array([800, 2000, 3500, 5000, 6000, 6500]) * RPM
    made = {
        "curve_speeds": speeds, "curve_torques": np.array([360, 440, 500, 470, 400, 330.0]),
        "boost_time": 0.0, "boost_floor": 1.0, "engine_inertia": 0.2, "rev_limit": 6500 * RPM,
        "shift_speed": 6000 * RPM, "shift_time": 0.3, "shift_share": 0.0, "shift_flare": 0.0,
        "gear_ratios": (2.97, 2.07, 1.43, 1.0), "gearbox_efficiency": 0.97, "axle_ratio": 3.55,
        "axle_efficiency": 0.96, "clutch_capacity": 700.0, "launch_share": 0.75,
        "launch_speed": 3500 * RPM, "least_slip_speed": 2000 * RPM, "converter": None,
        "lockup_gear": 0, "input_inertia": 0.02, "driveshaft_inertia": 0.01,
        "driven_inertia": 2.4, "rolling_inertia": 2.0, "tire_radius": 0.33, "tire_grip": 1.1,
        "grip_reference_load": 4000.0, "load_sensitivity": 2e-5, "slide_share": 0.95,
        "locked": False, "bias_ratio": 2.0, "differential_preload": 60.0, "track": 1.5,
        "front_roll_share": 0.7, "vehicle_mass": 1650.0, "rear_share": 0.46, "wheelbase": 2.7,
        "cg_height": 0.55, "pitch_time": 0.12, "drag_area": 0.8, "air_density": 1.2,
        "rolling_resistance": 0.015, "rollout": 0.3,
    }  # fmt: skip
    return RunCar(**(made | changes))


def automatic(**changes):
    made = {
        "converter": LaunchConverter(2500 * RPM, 480.0, 2.0, 0.05), "shift_share": 0.5,
        "gear_ratios": (2.48, 1.48, 1.0), "launch_speed": 1500 * RPM, "least_slip_speed": 0.0,
    }  # fmt: skip
    return car(**(made | changes))


KINDS = pytest.mark.parametrize("make", [car, automatic], ids=["clutch", "converter"])


def quarter(a_car):
    return run_times(a_car, QUARTER).times["1/4 mile"]


@KINDS
def test_arrays_are_the_runs_one_by_one(make):
    ratios, grips = np.array([2.9, 3.55, 4.3])[:, None], np.array([0.7, 1.3])
    whole = run_times(make(axle_ratio=ratios, tire_grip=grips))
    for i in range(3):
        for j in range(2):
            alone = run_times(make(axle_ratio=float(ratios[i, 0]), tire_grip=float(grips[j])))
            for f in fields(RunTimes):
                many, one = getattr(whole, f.name), getattr(alone, f.name)
                if isinstance(many, dict):
                    for name in many:
                        assert many[name][i, j] == one[name], (f.name, name)
                else:
                    assert many.shape == (3, 2)
                    assert many[i, j] == one, f.name


def test_workers_change_nothing():
    many = car(vehicle_mass=np.linspace(1400, 1900, 7))
    one, three = (run_times(many, QUARTER, workers=n) for n in (1, 3))
    assert np.array_equal(one.times["1/4 mile"], three.times["1/4 mile"])


@KINDS
def test_marks_come_in_order_and_traps_lag_the_line(make):
    run = run_times(make())
    times, speeds = ([getattr(run, k)[m] for m in MARKS] for k in ("times", "speeds"))
    assert np.all(np.diff(times) > 0)
    assert np.all(np.diff(speeds) > 0)
    for name, trap in run.trap_speeds.items():
        assert 0.9 * run.speeds[name] < trap < run.speeds[name]
    assert run.to_60_mph_from_rest - run.to_60_mph == pytest.approx(run.rollout_time)
    assert run.to_60_mph < run.to_100_kmh
    assert run.top_speed >= run.speeds["1 km"]
    assert run.shifts == run.last_gear - 1


def test_what_lies_beyond_the_end_is_not_known():
    run = run_times(car(), MARKS["1/8 mile"])
    assert np.isfinite(run.times["1/8 mile"])
    assert np.isnan(run.times["1/4 mile"])
    assert np.isnan(run.trap_speeds["1/4 mile"])
    assert np.isnan(run_times(car(), 5.0).to_60_mph)


def test_a_car_that_cannot_move_gives_no_time():
    stuck = car(curve_torques=np.full(6, 1e-3), rolling_resistance=0.5, launch_speed=0.0)
    run = run_times(stuck, QUARTER)
    assert np.isnan(run.times["60 ft"])
    assert run.top_speed == 0.0


more = st.floats(1.02, 1.5)


@settings(max_examples=6, deadline=None)
@given(more, st.sampled_from([0.6, 1.0, 1.6]))
def test_what_helps_and_what_hurts(by, grip):
    # The driver holds the engine at launch speed: with a fixed foot, more grip can bog it.
    base = car(tire_grip=grip, least_slip_speed=3500 * RPM, rollout=0.0)
    time = quarter(base)
    assert quarter(replace(base, vehicle_mass=1650.0 * by)) > time
    assert quarter(replace(base, drag_area=0.8 * by)) > time
    assert quarter(replace(base, tire_grip=grip * by)) <= time * (1 + 1e-9)
    assert quarter(replace(base, shift_time=0.3 * by)) > time
    assert quarter(replace(base, slide_share=0.95 / by)) >= time * (1 - 1e-9)
    assert quarter(replace(base, curve_torques=base.curve_torques * by, slide_share=1.0)) < quarter(
        replace(base, slide_share=1.0)
    )


@settings(max_examples=6, deadline=None)
@given(st.floats(0.5, 1.8), st.floats(1.0, 4.0))
def test_locked_is_never_slower_than_biasing_nor_that_than_open(grip, bias):
    base = car(tire_grip=grip, slide_share=1.0, least_slip_speed=3500 * RPM, rollout=0.0)
    locked = quarter(replace(base, locked=True))
    biasing = quarter(replace(base, bias_ratio=bias))
    open_ = quarter(replace(base, bias_ratio=1.0, differential_preload=0.0))
    assert locked <= biasing * (1 + 1e-9)
    assert biasing <= open_ * (1 + 1e-9)


@settings(max_examples=6, deadline=None)
@given(st.floats(1200, 2200), st.floats(0.7, 1.4))
def test_no_run_beats_the_ideal_of_its_power(mass, share):
    base = car()
    a_car = replace(base, vehicle_mass=mass, curve_torques=base.curve_torques * share, rollout=0.0)
    power = float(np.max(a_car.curve_speeds * a_car.curve_torques))
    fine = np.linspace(80.0, 690.0, 2000)
    power = max(
        power, float(np.max(fine * np.interp(fine, base.curve_speeds, a_car.curve_torques)))
    )
    run = run_times(a_car, QUARTER)
    assert run.times["1/4 mile"] > strip.ideal_elapsed_time(power, mass, QUARTER)
    assert run.speeds["1/4 mile"] < strip.ideal_trap_speed(power, mass, QUARTER)


def test_load_that_follows_at_once_is_the_limit_of_load_that_lags():
    base = car(tire_grip=1.0)
    steady = quarter(replace(base, pitch_time=0.0))
    apart = [abs(quarter(replace(base, pitch_time=t)) - steady) for t in (0.2, 0.1, 0.05, 0.025)]
    assert apart == sorted(apart, reverse=True)
    assert apart[-1] < 0.02


def test_boost_that_comes_late_costs_time_and_none_changes_nothing():
    slow = [quarter(car(boost_time=t, boost_floor=0.5)) for t in (0.0, 0.3, 1.0)]
    assert slow[0] == quarter(car())
    assert slow == sorted(slow)
    assert slow[0] < slow[-1]


def test_stepping_through_the_gears():
    h = run_history(car(), 0.01)
    assert set(h.gear) == {1.0, 2.0, 3.0, 4.0}
    assert np.all(np.diff(h.gear) >= 0)
    assert np.all(np.diff(h.time) > 0)
    assert np.all(np.diff(h.distance) >= 0)
    assert h.engine_speed.max() <= 6000 * RPM * (1 + 1e-6)
    shifting = (h.push < 100.0) & (h.speed > 1.0)  # nothing but the wheels' own inertia
    assert 0.01 * shifting.sum() == pytest.approx(3 * 0.3, abs=0.2)
    assert h.rear_load.min() >= 1650 * 9.80665 * 0.46 - 1e-6
    whole = run_times(car(), QUARTER)
    assert h.time[-1] - whole.rollout_time == pytest.approx(whole.times["1/4 mile"], abs=0.03)


def test_the_foot_on_the_clutch_holds_the_engine():
    h = run_history(car(launch_share=1.0), 0.005)
    slipping = h.engine_speed > 1.001 * h.speed / 0.33 * 2.97 * 3.55
    first = slipping & (h.gear == 1)
    assert h.engine_speed[first].min() >= 2000 * RPM * (1 - 1e-3)
    assert h.engine_speed[first].max() <= 3500 * RPM * (1 + 1e-6)


def test_a_converter_lets_the_engine_run_ahead_until_it_locks():
    free, locks = (run_history(automatic(lockup_gear=g), 0.02) for g in (0, 3))

    def slip(h):
        ratio = np.array([0.0, 2.48, 1.48, 1.0])[h.gear.astype(int)]
        return h.engine_speed - ratio * 3.55 * h.speed / 0.33

    assert slip(free)[-1] > 1.0
    assert slip(locks)[-1] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ({"shift_speed": 7000 * RPM}, "above the rev limit"),
        ({"tire_radius": 0.0}, "tire radius"),
        ({"vehicle_mass": -1.0}, "mass"),
        ({"engine_inertia": 0.0}, "inertia"),
        ({"cg_height": 0.0}, "center of mass"),
        ({"slide_share": 1.1}, "peak grip"),
        ({"rollout": 20.0}, "60 ft"),
        ({"rollout": -0.1}, "negative"),
        ({"launch_speed": -1.0}, "negative"),
        ({"gear_ratios": ()}, "one gear"),
        ({"lockup_gear": 1}, "second gear"),
        ({"curve_torques": [1.0, 2.0]}, "as many"),
        ({"curve_speeds": [1.0, 2.0, 3.0, 3.0, 5.0, 6.0]}, "rise"),
    ],
)
def test_nonsense_is_refused_in_words(wrong, why):
    with pytest.raises(ValueError, match=why):
        run_times(car(**wrong))


def test_steps_and_histories_are_refused_too():
    with pytest.raises(ValueError, match="above zero"):
        run_times(car(), step=0.0)
    with pytest.raises(ValueError, match="above zero"):
        run_history(car(), 0.0)
    with pytest.raises(ValueError, match="one run"):
        run_history(car(vehicle_mass=np.array([1500.0, 1600.0])))
