"""Small motions of the axle: against the launch model's own equations, and closed forms."""

import math
import runpy
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import fsolve

from axlewright.dynamics.hop_matrix import SIZE, State, jacobian, rates
from axlewright.dynamics.hop_pull import MOST_SLIP, slip_curve, steady_pull, upstream_inertia
from axlewright.dynamics.launch_car import LaunchConverter

CARS = runpy.run_path(str(Path(__file__).with_name("hop_cars.py")))
CAR, HARD = CARS["CAR"], CARS["HARD"]


# --------------------------------------------------- the launch model, nonlinear, written once more


def nonlinear_rates(car, y, engine_torque):
    """docs/launch-model.md for two sides alike, clutch stuck, in the order of State."""
    (wg, phi, wp, a, ww, u, V, va, xr, z, zd, th, thd, za, zad, psi, psid) = y

    def spring(k, beta, twist, rate):
        damped = np.clip(beta * rate, -abs(twist), abs(twist))
        return k * (twist + damped)

    body = car.vehicle_mass - car.axle_mass
    b = car.wheelbase * (1 - car.rear_share) * car.vehicle_mass / body
    front_arm = car.wheelbase - b
    h_b = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    weight = 9.80665 * car.vehicle_mass
    N0, Nf = weight * car.rear_share, weight * (1 - car.rear_share)
    rate_d = wg / car.gear_ratio - wp
    Td = spring(car.driveshaft_stiffness, car.driveshaft_damping_time, phi, rate_d)
    wc = wp / car.axle_ratio - psid
    TL = spring(car.left_shaft_stiffness, car.shaft_damping_time, a, wc - ww)
    TR = spring(car.right_shaft_stiffness, car.shaft_damping_time, a, wc - ww)
    Tax = TL + TR
    eta_g = car.gearbox_efficiency if Td > 0 else 1 / car.gearbox_efficiency
    eta_a = car.axle_efficiency if Tax > 0 else 1 / car.axle_efficiency
    N = max(N0 / 2 - (car.tire_vertical_stiffness * za + car.tire_vertical_damping * zad) / 2, 0)
    kappa = u / car.relaxation_length
    B, E = car.tire_rise * kappa, car.tire_bend
    mu = car.tire_grip * max(1 - car.load_sensitivity * (N - car.grip_reference_load), 0.5)
    F = N * mu * math.sin(car.tire_shape * math.atan(B - E * (B - math.atan(B))))
    Vm = max(abs(ww) * car.tire_radius, abs(va), 0.3)
    roll = car.tire_radius * car.rolling_resistance * N * np.clip(ww, -1, 1)
    q, qd = z - b * th - za, zd - b * thd - zad
    K = h_b - car.tire_radius - car.mount_height
    s_e = car.thrust_slope - car.mount_height * car.reaction_arm
    s = xr - K * th - car.mount_height * psi - s_e * q
    sd = va - V - K * thd - car.mount_height * psid - s_e * qd
    w, wd = psi - th - q * car.reaction_arm, psid - thd - qd * car.reaction_arm
    X = car.mount_stiffness * s + car.mount_damping * sd
    M = car.windup_stiffness * w + car.windup_damping * wd
    A = X * s_e + M * car.reaction_arm
    Fr = -car.rear_stiffness * q - car.rear_damping * qd
    zf, zfd = z + front_arm * th, zd + front_arm * thd
    Ff = max(Nf - car.front_stiffness * zf - car.front_damping * zfd, 0) - Nf
    sprung = car.vehicle_mass - car.axle_mass
    spun = car.input_inertia + upstream_inertia(car)
    return np.array(
        [
            (engine_torque - Td / (car.gear_ratio * eta_g)) / spun,
            rate_d,
            (Td - Tax / (car.axle_ratio * eta_a)) / car.pinion_inertia,
            wc - ww,
            (Tax / 2 - car.tire_radius * F - roll) / car.wheel_inertia,
            ww * car.tire_radius - va - Vm * u / car.relaxation_length,
            (X - car.air_drag * V * abs(V)) / sprung,
            (2 * F - X) / car.axle_mass,
            va - V,
            zd,
            (Ff + Fr + A) / sprung,
            thd,
            (X * K + M + front_arm * Ff - b * (Fr + A)) / car.pitch_inertia,
            zad,
            (2 * N - N0 - Fr - A) / car.axle_mass,
            psid,
            (Tax - M + car.mount_height * X) / car.housing_inertia,
        ]
    )


def settled(car, slip, speed):
    """State and engine torque of a pull that keeps its slip, found from the rates alone."""
    ww = speed / (1 - slip) / car.tire_radius
    wp, wg = ww * car.axle_ratio, ww * car.axle_ratio * car.gear_ratio
    sizes = np.array([0.05, 0.2, 5e-3, 0.05, 0.02, 5e-3, 0.2, 500.0])

    def whole(x):
        phi, a, xr, z, th, za, psi, torque = x * sizes
        u = slip * car.relaxation_length
        y = [wg, phi, wp, a, ww, u, speed, speed, xr, z, 0, th, 0, za, 0, psi, 0]
        return np.array(y, dtype=float), torque

    def faults(x):
        d = State(*nonlinear_rates(car, *whole(x)))
        gain = d.body_speed / car.tire_radius / (1 - slip)
        pinion = gain * car.axle_ratio
        return [
            *(d.heave_rate, d.pitch_rate, d.axle_height_rate, d.windup_rate),
            *(d.axle_speed - d.body_speed, d.wheel_speed - gain, d.pinion_speed - pinion),
            d.input_speed - pinion * car.gear_ratio,
        ]

    x = fsolve(faults, fsolve(faults, np.ones(8)), full_output=True)[0]
    assert np.max(np.abs(faults(x))) < 1e-6
    return whole(x)


LEAVES = replace(CAR, thrust_slope=0.0, reaction_arm=0.0, mount_height=0.06, relaxation_length=0.3)
AUTOMATIC = replace(CAR, converter=LaunchConverter(250.0, 400.0, 2.0, 0.08))


@pytest.mark.parametrize("car", [CAR, HARD, LEAVES, AUTOMATIC])
@pytest.mark.parametrize(("slip", "speed"), [(0.04, 9.0), (0.12, 3.0), (0.3, 5.0), (0.6, 1.0)])
def test_matrix_is_the_launch_model_made_linear(car, slip, speed):
    y, torque = settled(car, slip, speed)
    pull = steady_pull(car, slip, speed)
    steps = 1e-5 * np.maximum(np.abs(y), 1e-3)
    wanted = np.empty((SIZE, SIZE))
    for n, step in enumerate(steps):
        up, down = y.copy(), y.copy()
        up[n], down[n] = y[n] + step, y[n] - step
        ahead, behind = (nonlinear_rates(car, x, torque) for x in (up, down))
        wanted[:, n] = (ahead - behind) / (up[n] - down[n])
    got = jacobian(car, pull, speed)
    scale = np.abs(wanted).max(axis=1, keepdims=True)
    np.testing.assert_allclose(got / scale, wanted / scale, atol=2e-6)


@pytest.mark.parametrize(("slip", "speed"), [(0.04, 9.0), (0.3, 5.0)])
def test_steady_pull_holds_still_in_the_launch_model(slip, speed):
    y, torque = settled(CAR, slip, speed)
    pull = steady_pull(CAR, slip, speed)
    d = State(*nonlinear_rates(CAR, y, torque))
    drag = CAR.air_drag * speed**2
    load = (
        9.80665 * CAR.vehicle_mass * CAR.rear_share
        - CAR.tire_vertical_stiffness * State(*y).axle_height
    )
    assert pull.load == pytest.approx(load, rel=1e-9)
    assert pull.thrust - drag == pytest.approx(CAR.vehicle_mass * d.body_speed, rel=1e-9)
    assert pull.input_torque == pytest.approx(torque, rel=1e-9)
    assert pull.wheel_speed == pytest.approx(State(*y).wheel_speed)
    # M g h / L, but for the axle's own mass that sits lower and the wheels that gain speed
    assert pull.load - 9.80665 * 1600 * 0.46 == pytest.approx(pull.thrust * 0.52 / 2.75, rel=0.03)


def test_pull_that_lifts_the_front_carries_the_whole_car():
    pull = steady_pull(replace(CAR, tire_grip=4.0), np.array([0.02, 0.12]), 5.0)
    np.testing.assert_array_equal(pull.front_held, [1.0, 0.0])
    assert pull.load[1] == pytest.approx(9.80665 * 1600)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.0, 0.9), st.floats(1.2, 1.9), st.floats(4.0, 20.0), st.floats(-1.0, 0.9))
def test_slope_of_the_slip_curve(slip, shape, rise, bend):
    car = replace(CAR, tire_shape=shape, tire_rise=rise, tire_bend=bend)
    ahead, behind = slip_curve(car, slip + 1e-5)[0], slip_curve(car, slip - 1e-5)[0]
    assert slip_curve(car, slip)[1] == pytest.approx((ahead - behind) / 2e-5, abs=1e-5)


def test_rates_are_the_matrix_times_the_state():
    y = np.random.default_rng(4).normal(size=SIZE)
    pull = steady_pull(CAR, 0.2, 4.0)
    got = rates(State(*y), CAR, pull, 4.0, -0.3)
    np.testing.assert_allclose(jacobian(CAR, pull, 4.0, -0.3) @ y, got, rtol=1e-12)


@pytest.mark.parametrize(("slip", "speed"), [(-0.1, 5.0), (0.99, 5.0), (0.1, 0.1)])
def test_what_cannot_be_told_is_refused(slip, speed):
    with pytest.raises(ValueError, match="must"):
        steady_pull(CAR, np.array([0.1, slip]), speed)
    assert MOST_SLIP < 0.99


# ------------------------------------------------------------------------------------- closed forms

UNDAMPED = {
    "driveshaft_damping_time": 0.0,
    "shaft_damping_time": 0.0,
    "tire_vertical_damping": 0.0,
    "front_damping": 0.0,
    "rear_damping": 0.0,
    "mount_damping": 0.0,
    "windup_damping": 0.0,
    "air_drag": 0.0,
    "rolling_resistance": 0.0,
}


def free_tires(car, slip=0.0):
    """The steady pull, with tires that push the same whatever the wheel does."""
    return replace(steady_pull(car, slip, 5.0), push_per_deflection=0.0, push_per_load=0.0)


def swings(car):
    """Frequencies in Hz without the tires."""
    values = np.linalg.eigvals(jacobian(car, free_tires(car), 5.0))
    return np.sort(values.imag[values.imag > 0]) / (2 * np.pi)


def nearest(car, wanted):
    found = swings(car)
    return found[np.argmin(np.abs(found - wanted))]


@settings(max_examples=40, deadline=None)
@given(
    st.floats(-0.3, 0.3), st.floats(0.0, 2.0), st.floats(-0.1, 0.15),
    st.floats(0.7, 1.0), st.floats(0.3, 0.6), st.floats(0.3, 0.7),
)  # fmt: skip
def test_links_and_losses_neither_damp_nor_feed(slope, arm, height, efficiency, share, cg):
    # A force and a travel that did not belong together would show as growth on one side.
    car = replace(
        CAR, **UNDAMPED, thrust_slope=slope, reaction_arm=arm, mount_height=height,
        gearbox_efficiency=efficiency, axle_efficiency=efficiency, rear_share=share, cg_height=cg,
    )  # fmt: skip
    pull = free_tires(car)
    values = np.linalg.eigvals(jacobian(car, pull, 5.0))
    fading = np.argmin(np.abs(values + pull.fading))
    assert values[fading] == pytest.approx(-pull.fading)
    rest = np.delete(values, fading)
    assert np.max(np.abs(rest.real)) < 1e-6 * np.max(np.abs(rest))
    assert np.sum(rest.imag > 1e-3) == 7


def test_axle_on_tires_and_springs():
    car = replace(
        CAR, **UNDAMPED, vehicle_mass=1e9, pitch_inertia=1e9, thrust_slope=0.0, reaction_arm=0.0
    )
    wanted = math.sqrt((450e3 + 45e3) / 120.0) / (2 * np.pi)
    assert nearest(car, wanted) == pytest.approx(wanted, rel=1e-6)


def test_axle_fore_and_aft_against_the_body():
    car = replace(CAR, **UNDAMPED, thrust_slope=0.0, cg_height=CAR.tire_radius)
    wanted = math.sqrt(2e6 * (1 / 120.0 + 1 / 1480.0)) / (2 * np.pi)
    assert nearest(car, wanted) == pytest.approx(wanted, rel=1e-9)


def test_housing_on_its_mount():
    car = replace(
        CAR, **UNDAMPED, pitch_inertia=1e9, reaction_arm=0.0, left_shaft_stiffness=1e-3,
        right_shaft_stiffness=1e-3,
    )  # fmt: skip
    wanted = math.sqrt(18e3 / 3.0) / (2 * np.pi)
    assert nearest(car, wanted) == pytest.approx(wanted, rel=1e-6)


def test_shuffle_of_engine_against_free_wheels():
    car = replace(
        CAR, **UNDAMPED, driveshaft_stiffness=1e9, windup_stiffness=1e12, housing_inertia=1e9,
        pitch_inertia=1e12, axle_efficiency=1.0, gearbox_efficiency=1.0,
    )  # fmt: skip
    engine, wheels = (0.28 * 2.95**2 + 0.012) * 3.73**2, 3.0
    wanted = math.sqrt(28e3 * (1 / engine + 1 / wheels)) / (2 * np.pi)
    assert nearest(car, wanted) == pytest.approx(wanted, rel=1e-5)


def test_falling_grip_feeds_a_wheel_on_its_shaft():
    # One wheel pair on shafts before a standing pinion, axle and load held: an oscillator whose
    # damping is the slope of thrust over wheel speed times the radius squared.
    slip, speed = 0.3, 4.0
    car = replace(
        CAR, engine_inertia=1e9, driveshaft_stiffness=1e12, windup_stiffness=1e12,
        housing_inertia=1e9, mount_stiffness=1e12, axle_mass=1e6, vehicle_mass=1e9,
        pitch_inertia=1e12, shaft_damping_time=0.0, relaxation_length=1e-4, rolling_resistance=0.0,
        driveshaft_damping_time=0.0,
    )  # fmt: skip
    push = replace(CAR, rolling_resistance=0.0)
    pull = steady_pull(push, slip, speed)
    given_pull = replace(
        pull,
        push_per_load=0.0,
        push_per_deflection=pull.push_per_deflection * 0.15 / 1e-4,
        fading=pull.fading * 0.15 / 1e-4,
    )
    values = np.linalg.eigvals(jacobian(car, given_pull, speed))
    plain = math.sqrt(28e3 / 3.0)
    mode = values[np.argmin(np.abs(values - 1j * plain))]
    slope = pull.push_per_deflection * 0.15 * (1 - slip) / pull.wheel_speed  # dF/dω
    assert mode.real == pytest.approx(-0.345 * slope / (2 * 3.0), rel=2e-3)
    assert mode.real > 0
    assert abs(mode) == pytest.approx(plain, rel=1e-3)
