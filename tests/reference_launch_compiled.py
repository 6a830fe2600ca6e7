"""The reference launch for a general stiff solver, compiled: what the march is timed against.

Same equations as ``reference_launch.py``, but dry friction is smoothed, because a solver that is
left to itself cannot step over a jump: torque = capacity · tanh(slip / width).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import fields

import numpy as np
from numba import njit
from numpy.typing import NDArray

from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents
from reference_launch_elements import CONVERTER_POINTS, converter_tables
from reference_launch_equations import hang

WIDTH = 0.02
"""rad/s of slip at which smoothed friction reaches 76 % of its capacity."""

_CAR_FIELDS = [
    f.name
    for f in fields(LaunchCar)
    if f.name not in {"curve_speeds", "curve_torques", "converter", "locked"}
]
_CONVERTER_FIELDS = [f.name for f in fields(LaunchConverter)]
_BODY_FIELDS = ["body_mass", "to_front", "to_rear", "below", "slope"]
NUMBERS = np.dtype([(n, np.float64) for n in _CAR_FIELDS + _CONVERTER_FIELDS + _BODY_FIELDS])
RAMPS = ("throttle", "second_throttle", "clamp", "hold", "brakes", "grip")


@njit
def clip(value, low, high):
    return min(max(value, low), high)


@njit
def level(ramp, time):
    before, after, start, duration = ramp[0], ramp[1], ramp[2], ramp[3]
    if time <= start:
        return before
    if time >= start + duration:
        return after
    return before + (after - before) * (time - start) / duration


@njit
def straight(x, xs, ys):
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = np.searchsorted(xs, x, side="right")
    return ys[i - 1] + (ys[i] - ys[i - 1]) * (x - xs[i - 1]) / (xs[i] - xs[i - 1])


@njit
def shaft(twist, rate, stiffness, damping_time, half_gap):
    wound = twist - clip(twist, -half_gap, half_gap)
    return stiffness * (wound + clip(damping_time * rate, -abs(wound), abs(wound)))


@njit
def tire(u, load, grip, car):
    turn = car.tire_rise * u / car.relaxation_length
    peak = car.tire_grip * max(1.0 - car.load_sensitivity * (load - car.grip_reference_load), 0.5)
    bent = turn - car.tire_bend * (turn - math.atan(turn))
    return load * grip * peak * math.sin(car.tire_shape * math.atan(bent))


@njit
def upstream(w_e, w_a, opening, car, automatic, curve, converter):
    """Torque of the engine and of pump and turbine."""
    speed = w_e if automatic else w_a
    fade = clip((car.rev_limit + 20.0 - speed) / 20.0, 0.0, 1.0)
    t_e = opening * straight(speed, curve[0], curve[1]) * fade
    t_e -= (1.0 - opening) * car.motored_torque * clip(speed / 100.0, -1.0, 1.0)
    if not automatic:
        return t_e, 0.0, t_e
    s = w_a / max(w_e, 1.0)
    if s <= 1.0:
        pace = w_e / car.rated_stall_speed
        pump = car.rated_stall_torque * pace * pace * straight(s, converter[0], converter[1])
        return t_e, pump, pump * straight(s, converter[0], converter[2])
    pace = w_a / car.rated_stall_speed
    drag = -car.rated_stall_torque * pace * pace * straight(1.0 / s, converter[0], converter[1])
    return t_e, drag, drag


@njit
def rates(t, y, cars, automatic, locked, curve, converter, ramps, width):
    """Rates of all states, friction smoothed."""
    car = cars[0]
    w_e, w_a, w_g, phi_d, w_p, a_l, a_r, x, w_x, w_l, w_r, u_l, u_r = y[:13]
    v, v_a, x_r, z, dz, theta, dtheta, z_a, dz_a, rho, drho, psi, dpsi, _ = y[13:]
    i_g, i_a, r, share = car.gear_ratio, car.axle_ratio, car.tire_radius, car.roll_torque_share
    w_c = w_p / i_a - dpsi
    dphi = w_g / i_g - w_p - share * drho
    t_d = shaft(
        phi_d,
        dphi,
        car.driveshaft_stiffness,
        car.driveshaft_damping_time,
        car.driveshaft_half_gap,
    )
    beta, gap = car.shaft_damping_time, car.shaft_half_gap
    t_l = shaft(a_l + x, w_c + w_x - w_l, car.left_shaft_stiffness, beta, gap)
    t_r = shaft(a_r - x, w_c - w_x - w_r, car.right_shaft_stiffness, beta, gap)
    t_ax = t_l + t_r
    eta_g = car.gearbox_efficiency if t_d > 0.0 else 1.0 / car.gearbox_efficiency
    eta_a = car.axle_efficiency if t_ax > 0.0 else 1.0 / car.axle_efficiency

    n_0 = car.vehicle_mass * 9.80665 * car.rear_share
    n_f = car.vehicle_mass * 9.80665 - n_0
    rolled = car.roll_stiffness * rho + car.roll_damping * drho
    side = (share * t_d - car.rear_roll_share * rolled) / car.track
    even = 0.5 * (n_0 - car.tire_vertical_stiffness * z_a - car.tire_vertical_damping * dz_a)
    n_l, n_r = max(even + side, 0.0), max(even - side, 0.0)
    grip, sigma = level(ramps[5], t), car.relaxation_length
    f_l, f_r = tire(u_l, n_l, grip, car), tire(u_r, n_r, grip, car)

    e, arm, slope = car.mount_height, car.reaction_arm, car.slope
    q, dq = z - car.to_rear * theta - z_a, dz - car.to_rear * dtheta - dz_a
    stretch = x_r - car.below * theta - e * psi - slope * q
    dstretch = v_a - v - car.below * dtheta - e * dpsi - slope * dq
    thrust = car.mount_stiffness * stretch + car.mount_damping * dstretch
    m_w = car.windup_stiffness * (psi - theta - q * arm)
    m_w += car.windup_damping * (dpsi - dtheta - dq * arm)
    lift = thrust * slope + m_w * arm
    f_rear = -car.rear_stiffness * q - car.rear_damping * dq
    low, dlow = z + car.to_front * theta, dz + car.to_front * dtheta
    f_front = max(n_f - car.front_stiffness * low - car.front_damping * dlow, 0.0) - n_f

    first, second = level(ramps[0], t), ramps[1]
    opening = first
    if t > second[2]:
        rising = (first, second[1], second[2], second[3])
        opening = level(rising, t)
    t_e, pump, t_up = upstream(w_e, w_a, opening, car, automatic, curve, converter)
    clutch = car.slide_ratio * car.clutch_capacity * level(ramps[2], t)
    t_c = clutch * math.tanh((w_a - w_g) / width)
    hold = level(ramps[3], t) * math.tanh(w_a / width) if automatic else 0.0
    brake = 0.5 * level(ramps[4], t)
    q_l, q_r = brake * math.tanh((w_l + dpsi) / width), brake * math.tanh((w_r + dpsi) / width)
    bias = (car.bias_ratio - 1.0) / (car.bias_ratio + 1.0)
    t_f = (car.differential_preload + bias * abs(t_ax)) * math.tanh(w_x / width)
    dw_a = (t_up - t_c - hold) / (car.turbine_inertia if automatic else car.engine_inertia)
    drag = r * car.rolling_resistance

    out = np.empty(27)
    out[0] = (t_e - pump) / car.engine_inertia if automatic else dw_a
    out[1] = dw_a
    out[2] = (t_c - t_d / (i_g * eta_g)) / car.input_inertia
    out[3] = dphi
    out[4] = (t_d - t_ax / (i_a * eta_a)) / car.pinion_inertia
    out[5], out[6], out[7] = w_c - w_l, w_c - w_r, w_x
    out[8] = 0.0 if locked else -(t_l - t_r + t_f) / (2.0 * car.side_gear_inertia)
    out[9] = (t_l - r * f_l - drag * n_l * clip(w_l, -1.0, 1.0) - q_l) / car.wheel_inertia
    out[10] = (t_r - r * f_r - drag * n_r * clip(w_r, -1.0, 1.0) - q_r) / car.wheel_inertia
    out[11] = w_l * r - v_a - max(abs(w_l) * r, abs(v_a), 0.3) * u_l / sigma
    out[12] = w_r * r - v_a - max(abs(w_r) * r, abs(v_a), 0.3) * u_r / sigma
    out[13] = (thrust - car.air_drag * v * abs(v)) / car.body_mass
    out[14] = (f_l + f_r - thrust) / car.axle_mass
    out[15], out[16], out[17] = v_a - v, dz, (f_front + f_rear + lift) / car.body_mass
    turning = thrust * car.below + m_w + car.to_front * f_front - car.to_rear * (f_rear + lift)
    out[18], out[19] = dtheta, turning / car.pitch_inertia
    out[20], out[21] = dz_a, (n_l + n_r - n_0 - f_rear - lift) / car.axle_mass
    out[22], out[23] = drho, (share * t_d - rolled) / car.roll_inertia
    out[24], out[25] = dpsi, (t_ax - m_w + e * thrust - q_l - q_r) / car.housing_inertia
    out[26] = v
    return out


def compiled_rhs(
    car: LaunchCar, events: LaunchEvents, width: float = WIDTH
) -> Callable[[float, NDArray[np.float64]], NDArray[np.float64]]:
    """Right-hand side f(t, y) of one launch; start it from ``reference_launch_equations.start``."""
    made = car.converter or LaunchConverter(1.0, 1.0, 1.0, 1.0)
    values = [float(getattr(car, n)) for n in _CAR_FIELDS]
    values += [float(getattr(made, n)) for n in _CONVERTER_FIELDS]
    values += [float(v) for v in hang(car)]
    numbers = np.array([tuple(values)], dtype=NUMBERS)
    curve = np.array([car.curve_speeds, car.curve_torques], dtype=np.float64)
    tables = converter_tables(float(made.stall_torque_ratio))
    converter = np.array([CONVERTER_POINTS, *tables])
    ramps = np.array(
        [
            [float(r.before), float(r.after), float(r.start), float(r.duration)]
            for r in (getattr(events, name) for name in RAMPS)
        ]
    )
    automatic, locked = car.converter is not None, bool(car.locked)

    def f(t: float, y: NDArray[np.float64]) -> NDArray[np.float64]:
        return rates(t, y, numbers, automatic, locked, curve, converter, ramps, width)

    return f
