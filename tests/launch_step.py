"""One step of the launch march in plain Python: no lanes, no compiler, exact sines.

Reads like ``docs/launch-model.md``; the compiled march is held to it step by step.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from reference_launch_elements import (
    converter_torques,
    engine_torque,
    level,
    shaft_torque,
    throttle,
    tire_force,
)
from reference_launch_equations import hang

GRAVITY = 9.80665


def clip(value: float, most: float) -> float:
    return min(max(value, -most), most)


def clutch_limit(need: float, capacity: float, slide: float, stuck: bool) -> float:
    """Sticking capacity while it holds, the sliding one otherwise."""
    return capacity if stuck and abs(need) <= capacity else slide * capacity


def step(s: SimpleNamespace, n: int, dt: float, car: LaunchCar, events: LaunchEvents) -> None:
    """Move the state ``s`` (named as in the history, and ``stuck``) through step ``n``."""
    t = (n + 0.5) * dt
    body, a, b, below, slope = hang(car)
    r, e, arm, i_g, i_a = (
        car.tire_radius, car.mount_height, car.reaction_arm, car.gear_ratio, car.axle_ratio,
    )  # fmt: skip
    weight = car.vehicle_mass * GRAVITY
    n_0, n_f = weight * car.rear_share, weight * (1.0 - car.rear_share)

    # Shafts.
    carrier = s.pinion_speed / i_a - s.windup_rate
    t_d = shaft_torque(
        s.driveshaft_twist,
        s.input_speed / i_g - s.pinion_speed - car.roll_torque_share * s.roll_rate,
        car.driveshaft_stiffness,
        car.driveshaft_damping_time,
        car.driveshaft_half_gap,
    )
    t_l, t_r = (
        shaft_torque(
            twist + sign * s.side_angle,
            carrier + sign * s.side_speed - wheel,
            stiffness,
            car.shaft_damping_time,
            car.shaft_half_gap,
        )
        for twist, sign, wheel, stiffness in (
            (s.left_twist, 1.0, s.left_speed, car.left_shaft_stiffness),
            (s.right_twist, -1.0, s.right_speed, car.right_shaft_stiffness),
        )
    )
    t_ax = t_l + t_r
    out = t_d / (i_g * car.gearbox_efficiency ** math.copysign(1.0, t_d))
    back = t_ax / (i_a * car.axle_efficiency ** math.copysign(1.0, t_ax))

    # Tires.
    roll = car.roll_stiffness * s.roll + car.roll_damping * s.roll_rate
    aside = (car.roll_torque_share * t_d - car.rear_roll_share * roll) / car.track
    even = 0.5 * (
        n_0 - car.tire_vertical_stiffness * s.axle_height - car.tire_vertical_damping * s.axle_rate
    )
    n_l, n_r = max(even + aside, 0.0), max(even - aside, 0.0)
    grip = level(events.grip, t)
    f_l = tire_force(s.left_deflection, n_l, grip, car)
    f_r = tire_force(s.right_deflection, n_r, grip, car)

    # Links and springs.
    q = s.heave - b * s.pitch - s.axle_height
    qv = s.heave_rate - b * s.pitch_rate - s.axle_rate
    stretch = s.gap - below * s.pitch - e * s.windup - slope * q
    pace = s.axle_speed - s.road_speed - below * s.pitch_rate - e * s.windup_rate - slope * qv
    thrust = car.mount_stiffness * stretch + car.mount_damping * pace
    wind = car.windup_stiffness * (s.windup - s.pitch - q * arm)
    wind += car.windup_damping * (s.windup_rate - s.pitch_rate - qv * arm)
    rear = -car.rear_stiffness * q - car.rear_damping * qv + thrust * slope + wind * arm
    low, lowv = s.heave + a * s.pitch, s.heave_rate + a * s.pitch_rate
    front = max(n_f - car.front_stiffness * low - car.front_damping * lowv, 0.0) - n_f

    # Engine, converter, clutch, trans-brake.
    t_e = engine_torque(s.engine_speed, throttle(events, t), car)
    t_in, j_a, t_pump = t_e, car.engine_inertia, 0.0
    capacity, held = car.clutch_capacity * level(events.clamp, t), 0.0
    if car.converter is not None:
        t_pump, t_in = converter_torques(s.engine_speed, s.upstream_speed, car)
        j_a = car.converter.turbine_inertia
        need = out - s.input_speed * car.input_inertia / dt
        passed = clip(need, clutch_limit(need, capacity, car.slide_ratio, s.stuck))
        held = clip(t_in - passed + s.upstream_speed * j_a / dt, level(events.hold, t))
    free_a = s.upstream_speed + dt * (t_in - held) / j_a
    free_g = s.input_speed - dt * out / car.input_inertia
    need = (free_a - free_g) / (dt * (1.0 / j_a + 1.0 / car.input_inertia))
    most = clutch_limit(need, capacity, car.slide_ratio, s.stuck)
    t_c, s.stuck = clip(need, most), abs(need) <= most and capacity > 0.0

    # Brakes against the housing: both stick, or one slips, or both.
    g_w, g_h = dt / car.wheel_inertia, dt / car.housing_inertia
    drag = r * car.rolling_resistance
    to_left = t_l - r * f_l - drag * n_l * clip(s.left_speed, 1.0)
    to_right = t_r - r * f_r - drag * n_r * clip(s.right_speed, 1.0)
    turned = s.windup_rate + g_h * (t_ax - wind + e * thrust)
    y_l, y_r = s.left_speed + g_w * to_left + turned, s.right_speed + g_w * to_right + turned
    brake = 0.5 * level(events.brakes, t)
    q_l = clip(0.5 * ((y_l + y_r) / (g_w + 2.0 * g_h) + (y_l - y_r) / g_w), brake)
    q_r = clip((y_r - g_h * q_l) / (g_w + g_h), brake)
    q_l = clip((y_l - g_h * q_r) / (g_w + g_h), brake)

    # New speeds.
    s.upstream_speed += dt * (t_in - t_c - held) / j_a
    s.engine_speed += dt * (t_e - t_pump) / car.engine_inertia
    if car.converter is None:
        s.engine_speed = s.upstream_speed
    s.input_speed += dt * (t_c - out) / car.input_inertia
    s.pinion_speed += dt * (t_d - back) / car.pinion_inertia
    if not car.locked:
        j_x = 2.0 * car.side_gear_inertia
        bias = (car.bias_ratio - 1.0) / (car.bias_ratio + 1.0)
        friction = clip(
            s.side_speed * j_x / dt - (t_l - t_r), car.differential_preload + bias * abs(t_ax)
        )
        s.side_speed -= dt * (t_l - t_r + friction) / j_x
    s.left_speed += g_w * (to_left - q_l)
    s.right_speed += g_w * (to_right - q_r)
    s.road_speed += dt * (thrust - car.air_drag * s.road_speed * abs(s.road_speed)) / body
    s.axle_speed += dt * (f_l + f_r - thrust) / car.axle_mass
    s.heave_rate += dt * (front + rear) / body
    s.pitch_rate += dt * (thrust * below + wind + a * front - b * rear) / car.pitch_inertia
    s.axle_rate += dt * (n_l + n_r - n_0 - rear) / car.axle_mass
    s.roll_rate += dt * (car.roll_torque_share * t_d - roll) / car.roll_inertia
    s.windup_rate += g_h * (t_ax - wind + e * thrust - q_l - q_r)

    # New places.
    carrier = s.pinion_speed / i_a - s.windup_rate
    s.driveshaft_twist += dt * (
        s.input_speed / i_g - s.pinion_speed - car.roll_torque_share * s.roll_rate
    )
    s.left_twist += dt * (carrier - s.left_speed)
    s.right_twist += dt * (carrier - s.right_speed)
    s.side_angle += dt * s.side_speed
    for side in ("left", "right"):
        rim, v = getattr(s, f"{side}_speed") * r, s.axle_speed
        fading = 1.0 + dt * max(abs(rim), abs(v), 0.3) / car.relaxation_length
        u = getattr(s, f"{side}_deflection")
        setattr(s, f"{side}_deflection", (u + dt * (rim - v)) / fading)
    s.gap += dt * (s.axle_speed - s.road_speed)
    s.heave += dt * s.heave_rate
    s.pitch += dt * s.pitch_rate
    s.axle_height += dt * s.axle_rate
    s.roll += dt * s.roll_rate
    s.windup += dt * s.windup_rate
    s.distance += dt * s.road_speed
