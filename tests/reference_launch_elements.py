"""Single elements of the reference launch: ramps, engine, converter, shafts, tires, friction.

Written from ``docs/launch-model.md`` alone, one plain float at a time.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from typing import NamedTuple

from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents, Ramp

CONVERTER_POINTS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0)


class Modes(NamedTuple):
    """Of each dry friction: 0 stuck, 1 or -1 slipping that way (torque follows the sign)."""

    clutch: int
    hold: int
    left_brake: int
    right_brake: int
    differential: int


def level(ramp: Ramp, time: float) -> float:
    """Height of a ramp; one of no duration still has its old height at the corner itself."""
    start, duration = float(ramp.start), float(ramp.duration)
    before, after = float(ramp.before), float(ramp.after)
    if time <= start:
        return before
    if time >= start + duration:
        return after
    return before + (after - before) * (time - start) / duration


def throttle(events: LaunchEvents, time: float) -> float:
    """Opening of the throttle: the first ramp, and from its start on the second one."""
    first = level(events.throttle, time)
    second = events.second_throttle
    if time <= float(second.start):
        return first
    return level(Ramp(first, second.after, second.start, second.duration), time)


def clip(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def straight(x: float, xs: list[float], ys: list[float]) -> float:
    """Straight lines between points, flat beyond the ends."""
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect_right(xs, x)
    return ys[i - 1] + (ys[i] - ys[i - 1]) * (x - xs[i - 1]) / (xs[i] - xs[i - 1])


def converter_tables(stall_torque_ratio: float) -> tuple[list[float], list[float]]:
    """Relative pump torque and torque ratio at ``CONVERTER_POINTS``, polynomial of SAE 820393."""
    pump, ratio = [], []
    for s in CONVERTER_POINTS:
        slipping = 3.4325 + 2.2210 * s - 4.6041 * s * s
        turbine = 5.7656 + 0.3107 * s - 5.4323 * s * s
        coupled = max(-6.7644 + 32.0024 * s - 25.2441 * s * s, 0.0)
        typical = max(turbine / slipping, 1.0)
        if s == 0.9:
            drawn, typical = 0.5 * (slipping + coupled), 0.5 * (typical + 1.0)
        elif s > 0.9:
            drawn, typical = coupled, 1.0
        else:
            drawn = slipping
        share = (typical - 1.0) / (5.7656 / 3.4325 - 1.0)
        pump.append(drawn / 3.4325)
        ratio.append(min(1.0 + (stall_torque_ratio - 1.0) * share, 1.0 / max(s, 0.1)))
    return pump, ratio


_TABLES: dict[float, tuple[list[float], list[float]]] = {}


def converter_torques(engine: float, turbine: float, car: LaunchCar) -> tuple[float, float]:
    """Torque that the pump takes and that the turbine gives."""
    made = car.converter
    assert made is not None
    key = float(made.stall_torque_ratio)
    if key not in _TABLES:
        _TABLES[key] = converter_tables(key)
    pump_curve, ratio_curve = _TABLES[key]
    s = turbine / max(engine, 1.0)
    points = list(CONVERTER_POINTS)
    if s <= 1.0:
        pace = engine / made.rated_stall_speed
        pump = made.rated_stall_torque * pace * pace * straight(s, points, pump_curve)
        return pump, pump * straight(s, points, ratio_curve)
    pace = turbine / made.rated_stall_speed
    drag = -made.rated_stall_torque * pace * pace * straight(1.0 / s, points, pump_curve)
    return drag, drag


def engine_torque(speed: float, opening: float, car: LaunchCar) -> float:
    full = straight(
        speed, [float(v) for v in car.curve_speeds], [float(v) for v in car.curve_torques]
    )
    fade = clip((car.rev_limit + 20.0 - speed) / 20.0, 0.0, 1.0)
    return opening * full * fade - (1.0 - opening) * car.motored_torque * clip(
        speed / 100.0, -1.0, 1.0
    )


def shaft_torque(
    twist: float, rate: float, stiffness: float, damping_time: float, half_gap: float
) -> float:
    """Spring and damper behind a gap; damping never pulls harder than the spring pushes."""
    wound = twist - clip(twist, -half_gap, half_gap)
    return stiffness * (wound + clip(damping_time * rate, -abs(wound), abs(wound)))


def tire_force(deflection: float, load: float, grip: float, car: LaunchCar) -> float:
    """Magic Formula on the deflection."""
    turn = car.tire_rise * deflection / car.relaxation_length
    peak = car.tire_grip * max(1.0 - car.load_sensitivity * (load - car.grip_reference_load), 0.5)
    bent = turn - car.tire_bend * (turn - math.atan(turn))
    return load * grip * peak * math.sin(car.tire_shape * math.atan(bent))


def couple(
    free: tuple[float, float, float, float, float, float],
    inertias: tuple[float, float, float, float, float],
    capacity: tuple[float, float, float, float, float],
    slide_ratio: float,
    modes: Modes,
) -> tuple[float, float, float, float, float]:
    """Friction torques: given by the sign where slipping, what keeps the slip at nil where stuck.

    ``free`` are the accelerations without friction of upstream, input, left and right wheel, side
    gears and housing, ``inertias`` those of upstream, input, wheel, side gears and housing.
    """
    up, inp, left, right, side, housing = free
    j_a, j_g, j_w, j_x, j_h = inertias
    hold = modes.hold * capacity[1]
    if modes.clutch:
        clutch = modes.clutch * slide_ratio * capacity[0]
    elif modes.hold:
        clutch = ((up - hold / j_a) - inp) / (1.0 / j_a + 1.0 / j_g)
    else:
        clutch = -j_g * inp
    if not modes.hold:
        hold = j_a * up - clutch
    # A brake sits on the housing and stops wheel against housing, so each feels the other.
    q_l, q_r = modes.left_brake * capacity[2], modes.right_brake * capacity[3]
    own, other = 1.0 / j_w + 1.0 / j_h, 1.0 / j_h
    if not modes.left_brake and not modes.right_brake:
        want_l, want_r = left + housing, right + housing
        whole = own * own - other * other
        q_l = (own * want_l - other * want_r) / whole
        q_r = (own * want_r - other * want_l) / whole
    elif not modes.left_brake:
        q_l = (left + housing - other * q_r) / own
    elif not modes.right_brake:
        q_r = (right + housing - other * q_l) / own
    rub = modes.differential * capacity[4] if modes.differential else j_x * side
    return clutch, hold, q_l, q_r, rub
