"""The launch march: what must hold for any car, and one step against the same written plainly."""

import importlib
import math
import sys
from dataclasses import fields, replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from axlewright.dynamics.fast_math import arctangent, sine
from axlewright.dynamics.launch import HEAT, STEP, launch_history, launch_peaks
from axlewright.dynamics.launch_car import LaunchConverter, Ramp
from axlewright.dynamics.launch_curves import PLACES, engine_curve, pump_curve, ratio_curve
from axlewright.dynamics.launch_pack import equal_steps, pack

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
builds = importlib.import_module("launch_builds")
by_hand = importlib.import_module("launch_step")

CONVERTER = LaunchConverter(300.0, 600.0, 2.1, 0.1)
SHUT = Ramp(1.0, 1.0, 0.0, 0.0)
CAR, DUMP = builds.plain_car(mount_height=0.08, right_shaft_stiffness=12e3), builds.plain_events()
LIFT = replace(DUMP, duration=1.0, engine_speed=300.0, second_throttle=Ramp(0.0, 0.0, 0.15, 0.03))
STALL = replace(
    DUMP,
    engine_speed=150.0,
    throttle=Ramp(0.25, 1.0, 0.15, 0.05),
    clamp=SHUT,
    brakes=Ramp(6000.0, 0.0, 0.15, 0.05),
)
RELEASE = replace(DUMP, engine_speed=250.0, clamp=SHUT, hold=Ramp(3000.0, 0.0, 0.15, 0.02))
AUTOMATIC = replace(CAR, converter=CONVERTER)
_WHEEL = 15.0 / CAR.tire_radius / 0.7
REGRIP = replace(
    DUMP,
    engine_speed=_WHEEL * CAR.axle_ratio * CAR.gear_ratio,
    road_speed=15.0,
    wheel_slip=0.3,
    clamp=SHUT,
    grip=Ramp(0.4, 1.1, 0.05, 0.01),
    heave=0.02,
    pitch=-0.01,
)
KINDS = {
    "dump": (CAR, DUMP),
    "lift-off": (CAR, LIFT),
    "regrip": (CAR, REGRIP),
    "trans-brake": (AUTOMATIC, RELEASE),
    "stall": (replace(AUTOMATIC, locked=True), STALL),
}


@pytest.fixture(scope="module")
def stories():
    return {name: launch_history(*kind) for name, kind in KINDS.items()}


# ------------------------------------------------------------------------------------- polynomials


def test_polynomials_are_as_exact_as_they_say():
    x = np.concatenate([np.linspace(-3.0, 3.0, 6001), np.geomspace(1.0, 1e4, 500)])
    off = [arctangent.py_func(v) - math.atan(v) for v in x.tolist()]
    assert np.abs(off).max() < 4e-8
    x = np.linspace(-1.5 * np.pi, 1.5 * np.pi, 6001)
    off = [sine.py_func(v) - math.sin(v) for v in x.tolist()]
    assert np.abs(off).max() < 4e-9
    assert sine.py_func(0.0) == arctangent.py_func(0.0) == 0.0


# ------------------------------------------------------------------------------- one step, plainly


@pytest.mark.parametrize("name", KINDS)
def test_march_is_the_plain_step_repeated(name):
    """Polynomials apart, the two are the same: 1e-6 of what each state reaches.

    Each crossing of a gap makes what the polynomials leave a little larger.
    """
    close = 1e-4 if name == "lift-off" else 1e-6
    car, events = KINDS[name]
    story = launch_history(car, events, every=0.02)
    states = [f for f in story.values if hasattr(_state(story, 0), f)]
    state = _state(story, 0)
    marks = np.rint(story.time / STEP).astype(int)
    for k in range(1, len(marks)):
        for n in range(marks[k - 1], marks[k]):
            by_hand.step(state, n, STEP, car, events)
        for state_name in states:
            reached = np.abs(story[state_name]).max()
            off = abs(getattr(state, state_name) - story[state_name][k])
            assert off <= close * reached, (state_name, k, off, reached)


def _state(story, k):
    last = list(story.values).index("distance")
    values = {n: float(v[k]) for n, v in list(story.values.items())[: last + 1]}
    stuck = abs(values["upstream_speed"] - values["input_speed"]) < 1e-9
    return SimpleNamespace(stuck=stuck, **values)


# ------------------------------------------------------------------------------------------ energy


@pytest.mark.parametrize("name", KINDS)
def test_energy_balance_closes(stories, name):
    story = stories[name]
    gone = sum(story[h] for h in HEAT)
    held = story["kinetic_energy"] + story["spring_energy"]
    off = story["engine_work"] - gone - (held - held[0])
    assert np.abs(off).max() < 1e-3 * story["engine_work"][-1]


@pytest.mark.parametrize("name", KINDS)
def test_heat_only_grows(stories, name):
    # A converter that runs over hands back, so does a tread that springs back; gears that rock
    # backward under a forward torque give a joule or two, because losses go by the torque alone.
    for account in set(HEAT) - {"converter_heat", "tire_heat"}:
        most = max(stories[name][account].max(), 1.0)
        assert np.diff(stories[name][account]).min() > -5e-3 * most, account


# ------------------------------------------------------------------------------------ closed forms


def test_no_throttle_at_rest_makes_no_torque():
    shut = Ramp(0.0, 0.0, 0.0, 0.0)
    rest = replace(DUMP, engine_speed=0.0, throttle=shut, second_throttle=shut, clamp=SHUT)
    peaks = launch_peaks(CAR, rest)
    for name in ("clutch", "driveshaft", "axle", "left_shaft", "right_tire", "windup", "thrust"):
        assert abs(getattr(peaks, f"{name}_most")[0]) < 1e-9
        assert abs(getattr(peaks, f"{name}_least")[0]) < 1e-9
    assert peaks.end_distance[0] == pytest.approx(0.0, abs=1e-12)
    assert peaks.lock_time[0] == pytest.approx(STEP)


@pytest.fixture(scope="module")
def steady():
    """Clutch shut, part throttle for three seconds: nothing swings at the end, all creeps."""
    car = replace(CAR, air_drag=0.0, rolling_resistance=0.0)
    slow = replace(DUMP, duration=3.0, engine_speed=160.0, throttle=Ramp(0.1, 0.5, 0.0, 1.0))
    speed = 160.0 / car.gear_ratio / car.axle_ratio * car.tire_radius
    slow = replace(slow, road_speed=speed, clamp=SHUT)
    return car, launch_history(car, slow)


def _at_end(story, name):
    return float(story[name][-1])


def _rate(story, name):
    return float((story[name][-1] - story[name][-101]) / (story.time[-1] - story.time[-101]))


def test_steady_axle_torque_is_engine_torque_times_ratios_less_inertia(steady):
    car, story = steady
    clutch = story["engine_torque"] - car.engine_inertia * _rate(story, "engine_speed")
    at_input = clutch[-1] - car.input_inertia * _rate(story, "input_speed")
    driveshaft = at_input * car.gear_ratio * car.gearbox_efficiency
    assert _at_end(story, "driveshaft") == pytest.approx(driveshaft, rel=5e-3)
    at_pinion = driveshaft - car.pinion_inertia * _rate(story, "pinion_speed")
    axle = at_pinion * car.axle_ratio * car.axle_efficiency
    assert _at_end(story, "axle") == pytest.approx(axle, rel=5e-3)


def test_steady_thrust_moves_the_load_that_moments_give(steady):
    """F·h/L, and what spins the wheels up presses the axle down as well."""
    car, story = steady
    force = _at_end(story, "left_force") + _at_end(story, "right_force")
    spinning = _at_end(story, "axle") - force * car.tire_radius
    standing = car.vehicle_mass * 9.80665 * car.rear_share
    moved = _at_end(story, "left_load") + _at_end(story, "right_load") - standing
    assert force * car.cg_height > 20.0 * spinning > 0.0
    expected = (force * car.cg_height + spinning) / car.wheelbase
    assert moved == pytest.approx(expected, rel=5e-3)
    center = car.thrust_slope / car.reaction_arm + car.tire_radius
    lift = (force * center + spinning) * car.reaction_arm
    # The axle's own mass needs no push through the mount.
    own = car.axle_mass * _rate(story, "axle_speed") * (center - car.tire_radius) * car.reaction_arm
    assert _at_end(story, "lift") == pytest.approx(lift - own, rel=5e-3)


def test_driveshaft_torque_loads_the_left_tire(steady):
    car, story = steady
    apart = _at_end(story, "left_load") - _at_end(story, "right_load")
    share = 1.0 - car.rear_roll_share
    expected = 2.0 * _at_end(story, "driveshaft") * share / car.track
    assert apart == pytest.approx(expected, rel=5e-3)


def test_locker_turns_both_sides_alike(stories):
    story = stories["stall"]
    assert not story["side_angle"].any()
    twisted = max(story["left_shaft"].max(), story["right_shaft"].max()) / CAR.right_shaft_stiffness
    apart = np.abs(story["left_twist"] - story["right_twist"]).max()
    assert 0.0 < apart < twisted + 2.0 * CAR.shaft_half_gap


def test_open_differential_shares_torque_evenly():
    car = replace(CAR, bias_ratio=1.0, differential_preload=0.0)
    story = launch_history(car, DUMP)
    apart = np.abs(story["left_shaft"] - story["right_shaft"])
    assert apart.max() < 0.02 * story["axle"].max()
    assert np.abs(story["side_angle"]).max() > 0.01


def test_what_sticks_stays_stuck():
    speed = 200.0 / CAR.gear_ratio / CAR.axle_ratio * CAR.tire_radius
    roll = replace(DUMP, engine_speed=200.0, road_speed=speed, clamp=SHUT)
    story = launch_history(CAR, replace(roll, throttle=Ramp(0.0, 1.0, 0.05, 0.05)))
    assert np.abs(story["upstream_speed"] - story["input_speed"]).max() < 1e-9
    assert 0.0 < story["clutch"].max() < CAR.clutch_capacity


def test_slipping_clutch_passes_its_sliding_capacity():
    peaks = launch_peaks(CAR, replace(DUMP, clamp=Ramp(0.0, 0.4, 0.02, 0.03), duration=0.2))
    assert peaks.clutch_most[0] == pytest.approx(0.4 * CAR.slide_ratio * CAR.clutch_capacity)
    assert np.isnan(peaks.lock_time[0])


def test_trans_brake_and_brakes_hold_without_creep(stories):
    held = stories["trans-brake"].time < 0.15
    for name in ("upstream_speed", "input_speed", "pinion_speed", "distance"):
        assert not stories["trans-brake"][name][held].any()
    held = stories["stall"].time < 0.15
    story = stories["stall"]
    assert np.abs(story["left_speed"] + story["windup_rate"])[held].max() < 1e-9
    # The brakes sit on the housing: what the shafts press up, they press down.
    assert story["axle"][held].max() > 1500.0
    assert np.abs(story["windup_torque"][held]).max() < 0.02 * story["axle"][held].max()


def test_lost_motion_vanishes_smoothly():
    gaps = np.array([0.0, 1e-7, 1e-5, 1e-3])
    peaks = launch_peaks(replace(CAR, driveshaft_half_gap=gaps, shaft_half_gap=gaps), DUMP)
    off = np.abs(peaks.axle_most / peaks.axle_most[0] - 1.0)
    assert off[1] < 1e-5
    assert off[2] < 1e-3
    assert off[3] < 0.05


def test_lift_off_crosses_the_gap():
    peaks = launch_peaks(CAR, LIFT)
    assert peaks.reversals[0] >= 1
    assert peaks.axle_least[0] < -100.0


# ------------------------------------------------------------------------------------------ arrays


def test_many_launches_are_the_same_as_each_alone():
    grip, capacity = np.linspace(0.7, 2.0, 11), np.linspace(700.0, 1500.0, 11)
    many = launch_peaks(replace(CAR, tire_grip=grip, clutch_capacity=capacity), LIFT)
    for i in (0, 3, 10):
        car = replace(CAR, tire_grip=float(grip[i]), clutch_capacity=float(capacity[i]))
        alone = launch_peaks(car, LIFT)
        for f in fields(many):
            if f.name != "lost":
                np.testing.assert_array_equal(getattr(alone, f.name), getattr(many, f.name)[i:][:1])


def test_history_and_peaks_are_one_march(stories):
    peaks = launch_peaks(*KINDS["lift-off"])
    fine = launch_history(*KINDS["lift-off"], every=STEP)
    for name in ("clutch", "driveshaft", "axle", "left_shaft", "right_shaft", "thrust"):
        assert getattr(peaks, f"{name}_most")[0] == pytest.approx(fine[name].max(), rel=1e-9)
        assert getattr(peaks, f"{name}_least")[0] == pytest.approx(fine[name].min(), rel=1e-9)
    assert peaks.end_speed[0] == pytest.approx(fine["road_speed"][-1], rel=1e-9)
    assert peaks.clutch_heat[0] == pytest.approx(fine["clutch_heat"][-1], rel=1e-9)
    assert peaks.axle_most_time[0] == pytest.approx(fine.time[fine["axle"].argmax()], abs=1e-9)
    rear = fine["left_load"] + fine["right_load"]
    standing = CAR.vehicle_mass * 9.80665 * CAR.rear_share
    assert peaks.hop[0] == pytest.approx(np.ptp(rear[-4001:-1]) / standing, rel=1e-9)
    front = fine["front_load"][:-1].min() / (CAR.vehicle_mass * 9.80665 * (1.0 - CAR.rear_share))
    assert peaks.front_load_least[0] == pytest.approx(front, rel=1e-9)
    assert stories["lift-off"].time[-1] == pytest.approx(LIFT.duration)


def test_what_is_no_number_is_counted():
    grip = np.full(9, 1.1)
    grip[4] = np.nan
    peaks = launch_peaks(replace(CAR, tire_grip=grip), replace(DUMP, duration=0.1))
    assert peaks.lost == 1
    assert np.isnan(peaks.axle_most).tolist() == [i == 4 for i in range(9)]
    assert np.ptp(np.delete(peaks.axle_most, 4)) == 0.0


def test_progress_is_told_and_a_stop_is_heard():
    car, short = replace(CAR, tire_grip=np.full(400, 1.1)), replace(DUMP, duration=0.02)
    told = []
    assert launch_peaks(car, short, tell=lambda share: told.append(share) or True) is not None
    assert told == sorted(told)
    assert told[-1] == 1.0
    assert launch_peaks(car, short, tell=lambda share: False) is None


def test_nonsense_is_refused():
    with pytest.raises(ValueError, match="trans-brake"):
        launch_peaks(CAR, replace(DUMP, hold=Ramp(100.0, 0.0, 0.1, 0.1)))
    with pytest.raises(ValueError, match="duration"):
        launch_peaks(CAR, replace(DUMP, duration=0.0))
    with pytest.raises(ValueError, match="slip"):
        launch_peaks(CAR, replace(DUMP, wheel_slip=1.0))
    with pytest.raises(ValueError, match="no time"):
        launch_peaks(CAR, replace(DUMP, clamp=Ramp(0.0, 1.0, 0.0, -0.1)))
    with pytest.raises(ValueError, match="rise"):
        launch_peaks(replace(CAR, curve_speeds=[1.0, 1.0, 2.0, 3.0, 4.0]), DUMP)
    with pytest.raises(ValueError, match="as many"):
        engine_curve([1.0, 2.0], [3.0])
    with pytest.raises(ValueError, match="step"):
        launch_peaks(CAR, DUMP, step=1.0)
    with pytest.raises(ValueError, match="one axis"):
        launch_peaks(replace(CAR, tire_grip=np.ones((2, 2))), DUMP)
    with pytest.raises(ValueError, match="pick one"):
        launch_history(replace(CAR, tire_grip=np.ones(2)), DUMP)


# ------------------------------------------------------------------------------------------- steps


def test_halving_the_step_moves_little():
    off, clutch = [], []
    for build in builds.builds(30, 77):
        whole = launch_peaks(build.car, build.events)
        half = launch_peaks(build.car, build.events, step=0.5 * STEP)
        largest = max(abs(half.axle_most[0]), abs(half.axle_least[0]))
        off.append(abs(whole.axle_most[0] - half.axle_most[0]) / largest)
        off.append(abs(whole.axle_least[0] - half.axle_least[0]) / largest)
        clutch.append(abs(whole.clutch_most[0] / half.clutch_most[0] - 1.0))
    for found in (off, clutch):
        assert np.median(found) < 0.002
        assert max(found) < 0.005


def test_stiff_parts_take_shorter_steps():
    plain, stiff = pack(CAR, DUMP), pack(replace(CAR, left_shaft_stiffness=1e6), DUMP)
    assert plain.longest_step[0] > STEP
    assert stiff.longest_step[0] < 0.2 * STEP
    assert launch_peaks(replace(CAR, left_shaft_stiffness=1e6), DUMP).lost == 0
    assert equal_steps(0.4, 1e-4) == (4000, 0.4 / 4000)


def test_converter_curves_join_where_the_polynomial_jumps():
    pump, ratio = pump_curve(), ratio_curve(np.array([1.8, 2.2]))
    assert pump[0] == 1.0
    assert pump[-1] == 0.0
    assert pump[PLACES.index(0.9)] == pytest.approx(0.5 * (1.70208 + 1.590039) / 3.4325, rel=1e-5)
    np.testing.assert_allclose(ratio[0], [1.8, 2.2])
    np.testing.assert_array_equal(ratio[-3:], 1.0)
