"""The reference launch at one moment: rates of all states and everything that acts.

Written from ``docs/launch-model.md`` alone; the symbols are those of that page.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from reference_launch_elements import (
    Modes,
    clip,
    converter_torques,
    couple,
    engine_torque,
    level,
    shaft_torque,
    throttle,
    tire_force,
)

GRAVITY = 9.80665

STATES = [
    *("engine_speed", "upstream_speed", "input_speed", "driveshaft_twist", "pinion_speed"),
    *("left_twist", "right_twist", "side_angle", "side_speed", "left_speed", "right_speed"),
    *("left_deflection", "right_deflection", "road_speed", "axle_speed", "gap"),
    *("heave", "heave_rate", "pitch", "pitch_rate", "axle_height", "axle_rate"),
    *("roll", "roll_rate", "windup", "windup_rate", "distance"),
]
INDEX = {name: place for place, name in enumerate(STATES)}
OMEGA_E, OMEGA_A, OMEGA_G = 0, 1, 2
OMEGA_X, OMEGA_L, OMEGA_R, PSI_RATE = 8, 9, 10, 25


class Torques(NamedTuple):
    """What acts at one moment; capacities and friction torques in the order of ``Modes``."""

    clutch: float
    driveshaft: float
    left_shaft: float
    right_shaft: float
    axle: float
    left_tire: float
    right_tire: float
    left_load: float
    right_load: float
    thrust: float
    lift: float
    reaction: float
    engine: float
    turbine: float
    front_force: float
    friction: tuple[float, float, float, float, float]
    capacity: tuple[float, float, float, float, float]


def hang(car: LaunchCar) -> tuple[float, float, float, float, float]:
    """Body mass, its center of gravity to front and rear axle, how far the mount sits below it,
    and the slope from mount to instant center.
    """
    body = car.vehicle_mass - car.axle_mass
    high = (car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius) / body
    b = car.wheelbase * car.vehicle_mass * (1.0 - car.rear_share) / body
    below = high - car.tire_radius - car.mount_height
    return body, car.wheelbase - b, b, below, car.thrust_slope - car.mount_height * car.reaction_arm


def moment(
    t: float, y: list[float], car: LaunchCar, events: LaunchEvents, modes: Modes
) -> tuple[list[float], Torques]:
    """Rates of all states and everything that acts, at one time."""
    (w_e, w_a, w_g, phi_d, w_p, a_l, a_r, x, w_x, w_l, w_r, u_l, u_r, v, v_a, x_r) = y[:16]
    (z, dz, theta, dtheta, z_a, dz_a, rho, drho, psi, dpsi, _) = y[16:]
    i_g, i_a, r, share = car.gear_ratio, car.axle_ratio, car.tire_radius, car.roll_torque_share
    locked = car.locked

    # Shafts.
    w_c = w_p / i_a - dpsi
    dphi_d = w_g / i_g - w_p - share * drho
    t_d = shaft_torque(
        phi_d,
        dphi_d,
        car.driveshaft_stiffness,
        car.driveshaft_damping_time,
        car.driveshaft_half_gap,
    )
    t_l = shaft_torque(
        a_l + x,
        w_c + w_x - w_l,
        car.left_shaft_stiffness,
        car.shaft_damping_time,
        car.shaft_half_gap,
    )
    t_r = shaft_torque(
        a_r - x,
        w_c - w_x - w_r,
        car.right_shaft_stiffness,
        car.shaft_damping_time,
        car.shaft_half_gap,
    )
    t_ax = t_l + t_r
    eta_g = car.gearbox_efficiency if t_d > 0.0 else 1.0 / car.gearbox_efficiency
    eta_a = car.axle_efficiency if t_ax > 0.0 else 1.0 / car.axle_efficiency

    # Tires and their load.
    weight = car.vehicle_mass * GRAVITY
    n_0, n_f = weight * car.rear_share, weight * (1.0 - car.rear_share)
    rolled = car.roll_stiffness * rho + car.roll_damping * drho
    side = (share * t_d - car.rear_roll_share * rolled) / car.track
    even = 0.5 * (n_0 - car.tire_vertical_stiffness * z_a - car.tire_vertical_damping * dz_a)
    n_l, n_r = max(even + side, 0.0), max(even - side, 0.0)
    grip = level(events.grip, t)
    f_l, f_r = tire_force(u_l, n_l, grip, car), tire_force(u_r, n_r, grip, car)
    du_l = w_l * r - v_a - max(abs(w_l) * r, abs(v_a), 0.3) * u_l / car.relaxation_length
    du_r = w_r * r - v_a - max(abs(w_r) * r, abs(v_a), 0.3) * u_r / car.relaxation_length

    # Suspension.
    body, a, b, below, slope = hang(car)
    e, arm = car.mount_height, car.reaction_arm
    q, dq = z - b * theta - z_a, dz - b * dtheta - dz_a
    dx_r = v_a - v
    stretch = x_r - below * theta - e * psi - slope * q
    dstretch = dx_r - below * dtheta - e * dpsi - slope * dq
    twist, dtwist = psi - theta - q * arm, dpsi - dtheta - dq * arm
    thrust = car.mount_stiffness * stretch + car.mount_damping * dstretch
    m_w = car.windup_stiffness * twist + car.windup_damping * dtwist
    lift = thrust * slope + m_w * arm
    f_rear = -car.rear_stiffness * q - car.rear_damping * dq
    low, dlow = z + a * theta, dz + a * dtheta
    f_front = max(n_f - car.front_stiffness * low - car.front_damping * dlow, 0.0) - n_f

    # Engine and what follows it, without friction.
    opening = throttle(events, t)
    t_e = engine_torque(w_e if car.converter else w_a, opening, car)
    if car.converter is None:
        t_up, dw_e, j_a = t_e, 0.0, car.engine_inertia
    else:
        pump, t_up = converter_torques(w_e, w_a, car)
        dw_e, j_a = (t_e - pump) / car.engine_inertia, car.converter.turbine_inertia

    j_g, j_w, j_x = car.input_inertia, car.wheel_inertia, 2.0 * car.side_gear_inertia
    drag = r * car.rolling_resistance
    free = (
        t_up / j_a,
        -t_d / (i_g * eta_g) / j_g,
        (t_l - r * f_l - drag * n_l * clip(w_l, -1.0, 1.0)) / j_w,
        (t_r - r * f_r - drag * n_r * clip(w_r, -1.0, 1.0)) / j_w,
        -(t_l - t_r) / j_x,
        (t_ax - m_w + e * thrust) / car.housing_inertia,
    )
    bias = (car.bias_ratio - 1.0) / (car.bias_ratio + 1.0)
    brake = 0.5 * level(events.brakes, t)
    capacity = (
        car.clutch_capacity * level(events.clamp, t),
        level(events.hold, t) if car.converter else 0.0,
        brake,
        brake,
        math.inf if locked else car.differential_preload + bias * abs(t_ax),
    )
    friction = couple(
        free, (j_a, j_g, j_w, j_x, car.housing_inertia), capacity, car.slide_ratio, modes
    )
    t_c, t_h, q_l, q_r, t_f = friction
    dw_a = free[0] - (t_c + t_h) / j_a
    if car.converter is None:
        dw_e = dw_a

    rates = [
        dw_e,
        dw_a,
        free[1] + t_c / j_g,
        dphi_d,
        (t_d - t_ax / (i_a * eta_a)) / car.pinion_inertia,
        w_c - w_l,
        w_c - w_r,
        w_x,
        0.0 if locked else free[4] - t_f / j_x,
        free[2] - q_l / j_w,
        free[3] - q_r / j_w,
        du_l,
        du_r,
        (thrust - car.air_drag * v * abs(v)) / body,
        (f_l + f_r - thrust) / car.axle_mass,
        dx_r,
        dz,
        (f_front + f_rear + lift) / body,
        dtheta,
        (thrust * below + m_w + a * f_front - b * (f_rear + lift)) / car.pitch_inertia,
        dz_a,
        (n_l + n_r - n_0 - f_rear - lift) / car.axle_mass,
        drho,
        (share * t_d - rolled) / car.roll_inertia,
        dpsi,
        free[5] - (q_l + q_r) / car.housing_inertia,
        v,
    ]
    acting = Torques(
        clutch=t_c,
        driveshaft=t_d,
        left_shaft=t_l,
        right_shaft=t_r,
        axle=t_ax,
        left_tire=f_l,
        right_tire=f_r,
        left_load=n_l,
        right_load=n_r,
        thrust=thrust,
        lift=lift,
        reaction=m_w,
        engine=t_e,
        turbine=t_up,
        front_force=f_front,
        friction=friction,
        capacity=capacity,
    )
    return rates, acting


def right_hand_side(
    t: float, y: NDArray[np.float64], car: LaunchCar, events: LaunchEvents, modes: Modes
) -> NDArray[np.float64]:
    """Rates of all states while no friction changes its mode."""
    return np.array(moment(t, y.tolist(), car, events, modes)[0])


def start(car: LaunchCar, events: LaunchEvents) -> NDArray[np.float64]:
    """States at the start: everything behind the clutch turns with the road, plus the slip."""
    y = np.zeros(len(STATES))
    wheel = events.road_speed / (car.tire_radius * (1.0 - events.wheel_slip))
    y[OMEGA_E] = events.engine_speed
    y[OMEGA_A] = events.engine_speed if car.converter is None else events.input_speed
    y[INDEX["pinion_speed"]] = wheel * car.axle_ratio
    y[OMEGA_G] = wheel * car.axle_ratio * car.gear_ratio
    y[OMEGA_L] = y[OMEGA_R] = wheel
    surface, road = wheel * car.tire_radius, float(events.road_speed)
    slip = (surface - road) / max(abs(surface), abs(road), 0.3)
    y[INDEX["left_deflection"]] = y[INDEX["right_deflection"]] = car.relaxation_length * slip
    y[INDEX["road_speed"]] = y[INDEX["axle_speed"]] = road
    body, a, b, below, slope = hang(car)
    z, theta, twisted, stretched = 0.0, 0.0, 0.0, 0.0
    wound = float(events.axle_torque)
    if wound:
        if wound < 0.0:
            raise ValueError("the reference starts at rest or pulling")
        pull = wound - min(wound, level(events.brakes, 0.0))
        thrust = pull / car.tire_radius * body / car.vehicle_mass
        m_w = pull + car.mount_height * thrust
        lift = thrust * slope + m_w * car.reaction_arm
        standing = car.vehicle_mass * GRAVITY * (1.0 - car.rear_share)
        f_front = max(-(thrust * below + m_w) / (a + b), -standing)
        f_rear = -f_front - lift
        y[INDEX["axle_height"]] = f_front / car.tire_vertical_stiffness
        # Two straight lines for heave and pitch: front z + aθ, rear z − bθ.
        front = -f_front / car.front_stiffness
        rear = -f_rear / car.rear_stiffness + y[INDEX["axle_height"]]
        theta = (front - rear) / (a + b)
        z = rear + b * theta
        t_d = wound / (car.axle_ratio * car.axle_efficiency)
        y[INDEX["driveshaft_twist"]] = t_d / car.driveshaft_stiffness + car.driveshaft_half_gap
        half = 0.5 * wound
        y[INDEX["left_twist"]] = half / car.left_shaft_stiffness + car.shaft_half_gap
        y[INDEX["right_twist"]] = half / car.right_shaft_stiffness + car.shaft_half_gap
        y[INDEX["roll"]] = car.roll_torque_share * t_d / car.roll_stiffness
        twisted, stretched = m_w / car.windup_stiffness, thrust / car.mount_stiffness
    z, theta = z + float(events.heave), theta + float(events.pitch)
    droop = z - b * theta - y[INDEX["axle_height"]]
    windup = theta + droop * car.reaction_arm + twisted
    y[INDEX["heave"]], y[INDEX["pitch"]], y[INDEX["windup"]] = z, theta, windup
    y[INDEX["gap"]] = below * theta + car.mount_height * windup + slope * droop + stretched
    return y
