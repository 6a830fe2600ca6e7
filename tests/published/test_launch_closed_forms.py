"""The launch march against closed forms: drivelines trimmed until a textbook can work them out.

Each expected number is derived beside its test without running the march; sources as stated.
"""

import importlib
import math
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.dynamics.launch import launch_peaks
from axlewright.dynamics.launch_car import Ramp
from axlewright.dynamics.launch_history import launch_history

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
builds = importlib.import_module("launch_builds")
equations = importlib.import_module("reference_launch_equations")

# One group: the march is compiled once, in one process.
pytestmark = [pytest.mark.published, pytest.mark.slow, pytest.mark.xdist_group("launch")]

LOSSLESS = {
    "gearbox_efficiency": 1.0,
    "axle_efficiency": 1.0,
    "motored_torque": 0.0,
    "rolling_resistance": 0.0,
    "air_drag": 0.0,
    "rev_limit": 1e7,
    "locked": True,
}

# Two inertias on the driveshaft: the axle shafts' gap never closes, so nothing else is moved.
STIFFNESS, PINION, GEAR = 20e3, 2.0, 2.95
ENGINE, INPUT = 0.25, 0.03
J1, J2 = (ENGINE + INPUT) * GEAR**2, PINION
OMEGA = math.sqrt(STIFFNESS * (J1 + J2) / (J1 * J2))
TORQUE = 300.0
STEADY = TORQUE * GEAR * J2 / (J1 + J2)
FINE = 2e-5


def two_inertias(damping_ratio=0.0, half_gap=0.0, torque=TORQUE, **changes):
    numbers = {
        "curve_torques": [torque] * 5,
        "engine_inertia": ENGINE,
        "input_inertia": INPUT,
        "gear_ratio": GEAR,
        "clutch_capacity": 1e9,
        "slide_ratio": 1.0,
        "driveshaft_stiffness": STIFFNESS,
        "driveshaft_damping_time": 2.0 * damping_ratio / OMEGA,
        "driveshaft_half_gap": half_gap,
        "pinion_inertia": PINION,
        "shaft_half_gap": 1e6,
        "roll_torque_share": 0.0,
    }
    return builds.plain_car(**(LOSSLESS | numbers | changes))


def clamped(**changes):
    return builds.plain_events(**({"clamp": builds.flat(1.0), "engine_speed": 0.0} | changes))


# Step into a second-order system, overshoot 1 + exp(-πζ/√(1-ζ²)) (any textbook of vibration).
OVERSHOOT = {0.0: 2.000, 0.05: 1.854, 0.10: 1.729, 0.20: 1.527, 0.30: 1.372}


@pytest.mark.parametrize(("zeta", "overshoot"), OVERSHOOT.items())
def test_twist_overshoots_like_any_second_order_system(zeta, overshoot):
    """From half the torque, settled, to all of it: with a wound spring the damper is linear."""
    half = 0.0 if zeta == 0.0 else 0.5
    begin = 0.0 if half == 0.0 else 11.0 / (zeta * OMEGA)
    events = clamped(throttle=Ramp(half, 1.0, begin, 0.0), duration=begin + 1.5 * math.pi / OMEGA)
    march = launch_history(two_inertias(zeta), events, step=FINE, every=2e-4)
    after = march.time >= begin
    wound = march["driveshaft_twist"][after].max() * STIFFNESS
    expected = half + (1.0 - half) * (1.0 + math.exp(-math.pi * zeta / math.sqrt(1 - zeta**2)))
    assert expected == pytest.approx(half + (1.0 - half) * overshoot, abs=5e-4)
    assert wound / STEADY == pytest.approx(expected, rel=1e-3)
    # Spring and damper together peak at phase π - 2·asin ζ instead of π (derived: zero of the
    # impulse response of (2ζωs + ω²)/(s² + 2ζωs + ω²)).
    phase = math.pi - 2.0 * math.asin(zeta)
    together = half + (1.0 - half) * (1.0 + math.exp(-zeta * phase / math.sqrt(1 - zeta**2)))
    assert march["driveshaft"][after].max() / STEADY == pytest.approx(together, rel=1e-3)


def test_peaks_see_the_same_overshoot():
    events = clamped(duration=1.5 * math.pi / OMEGA)
    peaks = launch_peaks(two_inertias(), events, step=FINE)
    assert peaks.driveshaft_most[0] / STEADY == pytest.approx(2.0, rel=1e-3)
    assert peaks.driveshaft_least[0] == pytest.approx(0.0, abs=1e-3 * STEADY)
    assert peaks.axle_most[0] == 0.0


def test_natural_frequency():
    # Two inertias on a spring: ω² = k(J1 + J2)/(J1 J2).
    march = launch_history(two_inertias(), clamped(duration=0.5), step=FINE, every=FINE * 5)
    swing = march["driveshaft"] - STEADY
    up = np.flatnonzero((swing[:-1] < 0.0) & (swing[1:] >= 0.0))
    share = -swing[up] / (swing[up + 1] - swing[up])
    crossings = march.time[up] + share * (march.time[up + 1] - march.time[up])
    assert len(crossings) >= 9
    period = (crossings[-1] - crossings[0]) / (len(crossings) - 1)
    assert 2.0 * math.pi / period == pytest.approx(OMEGA, rel=1e-4)


@pytest.mark.parametrize("speed", [150.0, 400.0])
def test_locked_in_an_instant(speed):
    # Engine and disc first share their momentum, then the speed gap across the shaft turns into
    # twist: T = Δω √(k J1 J2/(J1 + J2)) (energy, closed form).
    peaks = launch_peaks(
        two_inertias(torque=0.0), clamped(engine_speed=speed, duration=0.05), step=FINE
    )
    gap = ENGINE * speed / (ENGINE + INPUT) / GEAR
    expected = gap * math.sqrt(STIFFNESS * J1 * J2 / (J1 + J2))
    assert peaks.driveshaft_most[0] == pytest.approx(expected, rel=2e-3)
    # What the clutch burns is what two inertias lose when they meet: ½ J1 J2/(J1+J2) Δω².
    burnt = 0.5 * ENGINE * INPUT / (ENGINE + INPUT) * speed**2
    assert peaks.clutch_heat[0] == pytest.approx(burnt, rel=1e-2)


@pytest.mark.parametrize("half_gap", [0.0, 1e-6, 0.003, 0.01, 0.03, 0.08])
def test_free_play_under_torque(half_gap):
    # Work of the torque over the gap adds to the swing: with p the steady wind-up, the peak is
    # steady · (1 + √(1 + 2δ/p)) (energy, derived); it goes to 2 as the gap goes to nil.
    events = clamped(duration=0.25)
    peaks = launch_peaks(two_inertias(half_gap=half_gap), events, step=FINE)
    wound = STEADY / STIFFNESS
    expected = 1.0 + math.sqrt(1.0 + 2.0 * half_gap / wound)
    assert peaks.driveshaft_most[0] / STEADY == pytest.approx(expected, rel=1.5e-3)


@pytest.mark.parametrize("slide_ratio", [1.0, 0.8])
def test_slipping_clutch_between_two_free_inertias(slide_ratio):
    # Constant friction: lock after Δω/(qC (1/J1 + 1/J2)), heat ½ J1 J2/(J1 + J2) Δω².
    capacity, speed, disc = 200.0, 300.0, 0.1
    car = two_inertias(
        torque=0.0,
        half_gap=1e6,
        clutch_capacity=capacity,
        slide_ratio=slide_ratio,
        input_inertia=disc,
    )
    peaks = launch_peaks(car, clamped(engine_speed=speed, duration=0.3))
    together = ENGINE * disc / (ENGINE + disc)
    assert peaks.lock_time[0] == pytest.approx(
        speed * together / (slide_ratio * capacity), abs=2e-4
    )
    assert peaks.clutch_heat[0] == pytest.approx(0.5 * together * speed**2, rel=2e-3)
    assert peaks.engine_low[0] == pytest.approx(ENGINE * speed / (ENGINE + disc), rel=1e-3)
    assert peaks.clutch_most[0] == pytest.approx(slide_ratio * capacity, rel=1e-9)


@pytest.mark.parametrize("slide_ratio", [1.0, 0.8])
@pytest.mark.parametrize("bite", [0.02, 0.1])
def test_clutch_that_closes_as_it_slips(bite, slide_ratio):
    # Capacity qC·t/d: momentum is shared when qC·t²/(2d) = J·Δω with J = J1 J2/(J1 + J2), so the
    # clutch has felt √(2 qC J Δω/d) by then (momentum, derived).  Steps must not show in it.
    capacity, speed, disc = 6000.0, 100.0, 0.1
    car = two_inertias(
        torque=0.0,
        half_gap=1e6,
        clutch_capacity=capacity,
        slide_ratio=slide_ratio,
        input_inertia=disc,
    )
    events = replace(clamped(engine_speed=speed, duration=0.15), clamp=Ramp(0.0, 1.0, 0.0123, bite))
    together = ENGINE * disc / (ENGINE + disc)
    most = math.sqrt(2.0 * slide_ratio * capacity * together * speed / bite)
    assert most < slide_ratio * capacity
    for step in (1e-4, 0.7e-4, 0.5e-4):
        found = launch_peaks(car, events, step=step).clutch_most[0]
        assert found == pytest.approx(most, rel=3e-4)


def test_energy_is_kept_where_nothing_takes_it():
    """Dropped on its springs with the clutch locked and tires that do not grip."""
    car = builds.plain_car(
        **LOSSLESS,
        clutch_capacity=1e9,
        driveshaft_damping_time=0.0,
        shaft_damping_time=0.0,
        tire_grip=0.0,
        tire_vertical_damping=0.0,
        front_damping=0.0,
        rear_damping=0.0,
        roll_damping=0.0,
        mount_damping=0.0,
        windup_damping=0.0,
        mount_height=0.1,
        roll_torque_share=0.7,
    )
    events = clamped(
        engine_speed=150.0,
        road_speed=3.0,
        throttle=builds.flat(0.0),
        heave=0.06,
        pitch=0.02,
    )
    spread = {}
    for step in (4e-5, 1e-5):
        march = launch_history(car, events, step=step, every=1e-3)
        # The first line stands before the clutch has locked.
        stored = energy(car, march)[1:]
        moving = stored - kinetic(car, march)[1:]
        assert np.ptp(moving) > 100.0
        spread[step] = np.ptp(stored) / np.ptp(moving)
        assert abs(np.polyfit(march.time[1:], stored, 1)[0]) * 0.4 < 0.01 * np.ptp(moving)
    assert spread[1e-5] < 0.005
    assert 2.5 < spread[4e-5] / spread[1e-5] < 6.0


def kinetic(car, march):
    body = car.vehicle_mass - car.axle_mass
    pairs = [
        (car.engine_inertia, "upstream_speed"),
        (car.input_inertia, "input_speed"),
        (car.pinion_inertia, "pinion_speed"),
        (car.wheel_inertia, "left_speed"),
        (car.wheel_inertia, "right_speed"),
        (body, "road_speed"),
        (body, "heave_rate"),
        (car.axle_mass, "axle_speed"),
        (car.axle_mass, "axle_rate"),
        (car.pitch_inertia, "pitch_rate"),
        (car.roll_inertia, "roll_rate"),
        (car.housing_inertia, "windup_rate"),
    ]
    return sum(0.5 * inertia * march[name] ** 2 for inertia, name in pairs)


def energy(car, march):
    """All springs and moving masses, from the states alone."""
    _, a, b, below, slope = equations.hang(car)
    droop = march["heave"] - b * march["pitch"] - march["axle_height"]
    stretch = (
        march["gap"] - below * march["pitch"] - car.mount_height * march["windup"] - slope * droop
    )
    twist = march["windup"] - march["pitch"] - droop * car.reaction_arm

    def wound(name, half_gap):
        return march[name] - np.clip(march[name], -half_gap, half_gap)

    pairs = [
        (car.driveshaft_stiffness, wound("driveshaft_twist", car.driveshaft_half_gap)),
        (car.left_shaft_stiffness, wound("left_twist", car.shaft_half_gap)),
        (car.right_shaft_stiffness, wound("right_twist", car.shaft_half_gap)),
        (car.mount_stiffness, stretch),
        (car.windup_stiffness, twist),
        (car.rear_stiffness, droop),
        (car.front_stiffness, march["heave"] + a * march["pitch"]),
        (car.roll_stiffness, march["roll"]),
        (car.tire_vertical_stiffness, march["axle_height"]),
    ]
    return kinetic(car, march) + sum(0.5 * k * place**2 for k, place in pairs)
