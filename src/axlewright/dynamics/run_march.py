"""The march of the run down the strip, compiled: the equations of ``docs/run-model.md``.

Every step is a classic Runge-Kutta step inside one *mode* (how engine and wheels are joined, and
whether the tires hold).  Where a mode ends inside a step, the step is shortened to that moment, so
the order of the method is kept.
"""

from __future__ import annotations

from math import exp, inf
from typing import Any

import numpy as np
from numba import njit

LAUNCH, SLIP, LOCKED, SHIFT, FLUID = range(5)
"""Clutch under the driver's foot, clutch slipping by itself, closed, open, converter."""
T_ROLLOUT, T_60_MPH, T_100_KMH, TOP, PULL, T_GRIP, T_UP, SHIFTS, GEAR, ENGINE = range(10)
"""Columns of the figures of a run."""
FIGURES, COLUMNS = 10, 11
_LEAST = 1e-5  # s, least progress of a step that ends at an event
_FADE = 20.0  # rad/s over which the rev limiter takes the torque away


@njit(cache=True, nogil=True, error_model="numpy")
def engine_torque(car: Any, curve: Any, hint: Any, w: float, t: float) -> float:
    """Full-throttle torque: straight lines between points, boost that comes, the limiter."""
    speeds, torques, slopes = curve
    k, last = hint[0], len(slopes) - 1
    while k < last and w > speeds[k + 1]:
        k += 1
    while k > 0 and w < speeds[k]:
        k -= 1
    hint[0] = k
    torque = torques[k] + slopes[k] * (min(max(w, speeds[k]), speeds[k + 1]) - speeds[k])
    if car.boost_time > 0.0:
        torque *= 1.0 - (1.0 - car.boost_floor) * exp(-t / car.boost_time)
    if w > car.rev_limit:
        torque *= max(1.0 - (w - car.rev_limit) / _FADE, 0.0)
    return float(torque)


@njit(cache=True, nogil=True, error_model="numpy")
def grip_limit(car: Any, n: float) -> tuple[float, float]:
    """Push at which the tires let go, and what this driver gets beyond; never past a wheelie."""
    if car.pitch_rate <= 0.0:
        return min(car.steady, car.wheels_up), min(car.steady_slide, car.wheels_up)
    rear = min(car.rear + n * car.transfer, car.weight)
    moved = min(n * car.roll, 0.5 * rear)
    left, right = 0.5 * rear + moved, 0.5 * rear - moved
    one = car.grip * max(car.fresh - car.sensitivity * left, 0.5) * left
    two = car.grip * max(car.fresh - car.sensitivity * right, 0.5) * right
    low = min(one, two)
    peak = low + min(max(one, two), car.bias * low + car.bias_force)
    return min(peak, car.wheels_up), min(car.slide * peak, car.wheels_up)


@njit(cache=True, nogil=True, error_model="numpy")
def converter_torques(car: Any, fluid: Any, w: float, turbine: float) -> tuple[float, float]:
    """Torque that the pump takes and the turbine gives; reversed when the car drives."""
    ratios, pump = fluid
    faster = turbine > w
    drive = max(turbine if faster else w, 1.0)
    place = 20.0 * min(max((w if faster else turbine) / drive, 0.0), 1.0)
    k = min(int(place), 19)
    share = place - k
    taken = car.pump_rate * drive * drive * (pump[k] + (pump[k + 1] - pump[k]) * share)
    if faster:
        return -taken, -taken
    return taken, taken * (ratios[k] + (ratios[k + 1] - ratios[k]) * share)


@njit(cache=True, nogil=True, error_model="numpy")
def train(car: Any, ratio: float) -> tuple[float, float, float, float, float]:
    """Of a gear: turns a meter, push a torque, spinning mass open, both masses turned over."""
    turns, lever = ratio / car.radius, ratio * car.efficiency / car.radius
    wheels = (car.driven_inertia + car.shaft_inertia) / (car.radius * car.radius)
    spinning = wheels + (car.input_inertia + car.turbine_inertia) * turns * lever
    closed = spinning + car.engine_inertia * turns * lever
    return turns, lever, spinning, 1.0 / (car.road_mass + spinning), 1.0 / (car.road_mass + closed)


@njit(cache=True, nogil=True, error_model="numpy")
def rates(
    car: Any, curve: Any, fluid: Any, hint: Any, mode: int, gear: Any, passed: float,
    spun: bool, t: float, v: float, w: float, n: float,
) -> tuple[float, float, float, float, float, float, float]:  # fmt: skip
    """Rates of speed, engine speed and load; push, push to spare, engine and input torque.

    ``gear`` comes from :func:`train`, ``passed`` is the share of torque that a shift lets by.
    """
    turns, lever, spinning, ease, closed_ease = gear
    resist = car.rolling + car.drag * v * v
    turning = turns * v
    engine, taken = 0.0, 0.0
    if mode == LOCKED:
        engine = engine_torque(car, curve, hint, turning, t)
        given = engine
        ease = closed_ease
    elif mode == SHIFT:
        if passed > 0.0:
            engine = passed * engine_torque(car, curve, hint, turning, t)
        given = engine
    elif mode == FLUID:
        engine = engine_torque(car, curve, hint, w, t)
        taken, given = converter_torques(car, fluid, w, turning)
        given *= passed
    else:
        engine = engine_torque(car, curve, hint, w, t)
        given = car.launch_torque if mode == LAUNCH else car.clutch
        if mode == LAUNCH and w <= car.least_speed:
            given = min(given, engine)
    pull = (given * lever - resist) * ease
    if v <= 0.0:
        pull = max(pull, 0.0)
    push = car.road_mass * pull + resist
    limit, slid = grip_limit(car, n)
    spare = push - limit
    if spun:
        push = min(push, slid)
        pull = (push - resist) / car.road_mass
        if v <= 0.0:
            pull = max(pull, 0.0)
        mass = 1.0 / closed_ease - car.road_mass if mode == LOCKED else spinning
        given = (push + mass * pull) / lever
        if mode == LOCKED or mode == SHIFT:
            engine = given
    surge = 0.0
    if mode == FLUID:
        surge = (engine - taken) / car.engine_inertia
    elif mode == LAUNCH or mode == SLIP:
        surge = (engine - given) / car.engine_inertia
        if mode == LAUNCH and ((w >= car.launch_speed and surge > 0.0) or (
            w <= car.least_speed and surge < 0.0
        )):  # fmt: skip
            surge, engine = 0.0, given  # held by the driver's right foot, or by the left one
    return pull, surge, (push - n) * car.pitch_rate, push, spare, engine, given


@njit(cache=True, nogil=True, error_model="numpy")
def step(
    car: Any, curve: Any, fluid: Any, hint: Any, mode: int, gear: Any, passed: float,
    spun: bool, t: float, h: float, y: Any, k1: Any,
) -> Any:  # fmt: skip
    """One Runge-Kutta step of ``h``; gives place, speed, engine speed and load at its end."""
    x, v, w, n = y
    half = 0.5 * h
    v2 = v + half * k1[0]
    k2 = rates(car, curve, fluid, hint, mode, gear, passed, spun, t + half,
               v2, w + half * k1[1], n + half * k1[2])  # fmt: skip
    v3 = v + half * k2[0]
    k3 = rates(car, curve, fluid, hint, mode, gear, passed, spun, t + half,
               v3, w + half * k2[1], n + half * k2[2])  # fmt: skip
    v4 = v + h * k3[0]
    k4 = rates(car, curve, fluid, hint, mode, gear, passed, spun, t + h,
               v4, w + h * k3[1], n + h * k3[2])  # fmt: skip
    sixth = h / 6.0
    v_end = max(v + sixth * (k1[0] + 2.0 * (k2[0] + k3[0]) + k4[0]), 0.0)
    w_end = w + sixth * (k1[1] + 2.0 * (k2[1] + k3[1]) + k4[1])
    if mode == LOCKED or mode == SHIFT:
        w_end = gear[0] * v_end
    return (
        x + sixth * (v + 2.0 * (v2 + v3) + v4),
        v_end,
        w_end,
        n + sixth * (k1[2] + 2.0 * (k2[2] + k3[2]) + k4[2]),
    )


@njit(cache=True, nogil=True, error_model="numpy")
def gaps(
    car: Any, mode: int, gear: Any, spun: bool, upshift: bool, y: Any, k: Any
) -> tuple[float, float, float]:
    """How far off the ends of the mode are: tires, clutch, shift.  Below zero means passed."""
    tires = k[4] if spun else -k[4]
    clutch = y[2] - gear[0] * y[1] if mode == LAUNCH or mode == SLIP else inf
    shift = car.shift_speed - y[2] if upshift and (mode == LOCKED or mode == FLUID) else inf
    return tires, clutch, shift


@njit(cache=True, nogil=True, error_model="numpy")
def crossing(h: float, target: float, y0: float, d0: float, y1: float, d1: float) -> float:
    """When a cubic through both ends of a step, with their slopes, reaches a value."""
    low, high = 0.0, 1.0
    s = min(max((target - y0) / (y1 - y0), 0.0), 1.0) if y1 > y0 else 1.0
    for _ in range(6):
        u = 1.0 - s
        at = u * u * (y0 * (1.0 + 2.0 * s) + d0 * h * s) + s * s * (
            y1 * (3.0 - 2.0 * s) - d1 * h * u
        )
        slope = 6.0 * s * u * (y1 - y0) + h * (d0 * u * (1.0 - 3.0 * s) + d1 * s * (3.0 * s - 2.0))
        if at < target:
            low = s
        else:
            high = s
        s = s - (at - target) / slope if slope > 0.0 else 0.5 * (low + high)
        if not low <= s <= high:
            s = 0.5 * (low + high)
    return s * h


@njit(cache=True, nogil=True, error_model="numpy")
def between(h: float, s: float, v0: float, a0: float, v1: float, a1: float) -> float:
    """Speed at a moment inside a step, by the cubic through both ends."""
    q = s / h
    u = 1.0 - q
    return u * u * (v0 * (1.0 + 2.0 * q) + a0 * h * q) + q * q * (v1 * (3.0 - 2.0 * q) - a1 * h * u)


@njit(cache=True, nogil=True, error_model="numpy")
def note(
    car: Any, marks: Any, passed: int, t: float, h: float, y0: Any, a0: float, y1: Any, a1: float,
    times: Any, speeds: Any, figures: Any,
) -> int:  # fmt: skip
    """Write down every mark and speed that a step has passed."""
    while passed < len(marks) and y1[0] >= marks[passed]:
        s = crossing(h, marks[passed], y0[0], y0[1], y1[0], y1[1])
        times[passed] = t + s
        speeds[passed] = between(h, s, y0[1], a0, y1[1], a1)
        passed += 1
    if y0[0] < car.rollout <= y1[0]:
        figures[T_ROLLOUT] = t + crossing(h, car.rollout, y0[0], y0[1], y1[0], y1[1])
    for column, speed in ((T_60_MPH, 60.0 * 0.44704), (T_100_KMH, 100.0 / 3.6)):
        if y0[1] < speed <= y1[1] and figures[column] != figures[column]:
            figures[column] = t + crossing(h, speed, y0[1], a0, y1[1], a1)
    figures[TOP] = max(figures[TOP], y1[1])
    return passed


@njit(cache=True, nogil=True, error_model="numpy")
def locate(
    car: Any, curve: Any, fluid: Any, hint: Any, mode: int, gear: Any, passed: float,
    spun: bool, upshift: bool, t: float, h: float, y: Any, k: Any, which: int, before: float,
    after: float,
) -> Any:  # fmt: skip
    """Shorten a step to the moment at which its mode ends; false position, five times."""
    low, high, m = 0.0, h, h
    before = max(before, 0.0)
    end = y
    for _ in range(5):
        m = max(low + (high - low) * before / (before - after), min(_LEAST, h))
        end = step(car, curve, fluid, hint, mode, gear, passed, spun, t, m, y, k)
        rate = rates(car, curve, fluid, hint, mode, gear, passed, spun, t + m,
                     end[1], end[2], end[3])  # fmt: skip
        gap = gaps(car, mode, gear, spun, upshift, end, rate)[which]
        if abs(gap) <= 1e-10 * (abs(before) + abs(after)) or m <= _LEAST:
            break
        if gap > 0.0:
            low, before = m, gap
        else:
            high, after = m, gap
    return m, end


@njit(cache=True, nogil=True, error_model="numpy")
def start_of(car: Any) -> int:
    """Mode in which a run begins."""
    if car.pump_rate > 0.0:
        return FLUID
    return LAUNCH if car.launch_speed > 0.0 else LOCKED


@njit(cache=True, nogil=True, error_model="numpy")
def after_shift(car: Any, gear: int, upper: float, lower: float) -> tuple[int, float]:
    """Mode and engine speed as a shift ends: ``upper`` before it, ``lower`` in the new gear."""
    if car.pump_rate > 0.0:
        if car.lockup_gear < 2.0 or gear + 1 < car.lockup_gear:
            return FLUID, upper
        return (SLIP, upper) if upper > lower else (LOCKED, lower)
    engine = lower + car.shift_flare * max(upper - lower, 0.0)
    return (SLIP, engine) if engine > lower else (LOCKED, lower)


@njit(cache=True, nogil=True, error_model="numpy")
def march(
    car: Any, ratios: Any, curve: Any, fluid: Any, marks: Any, size: float, last: float,
    longest: float, every: float, times: Any, speeds: Any, figures: Any, log: Any,
) -> int:  # fmt: skip
    """One run from standstill to ``last`` meters; gives the number of rows in the log."""
    hint = np.zeros(1, np.int64)
    number, mode, shifted, upper = 0, start_of(car), inf, 0.0
    gear = train(car, ratios[0])
    t, passed_marks, rows = 0.0, 0, 0
    y = (0.0, 0.0, car.launch_speed if mode != LOCKED else 0.0, 0.0)
    armed, through, spun, fresh = True, 1.0, False, True
    k = rates(car, curve, fluid, hint, mode, gear, 1.0, False, t, y[1], y[2], y[3])
    while t < longest:
        if fresh:
            k = rates(car, curve, fluid, hint, mode, gear, through, False, t, y[1], y[2], y[3])
            spun = k[4] > 0.0
            fresh = False
            if spun:
                k = rates(car, curve, fluid, hint, mode, gear, through, True, t, y[1], y[2], y[3])
        if every < inf and t >= rows * every - 1e-12 and rows < len(log):
            log[rows] = (t, y[0], y[1], k[0], y[2], number + 1.0, k[3],
                         min(car.rear + y[3] * car.transfer, car.weight), k[5], k[6],
                         1.0 if spun else 0.0)  # fmt: skip
            rows += 1
        if y[0] >= last:
            break
        h = min(size, shifted - t)
        if every < inf:
            h = max(min(h, rows * every - t), 1e-9)
        armed = armed or y[2] < car.shift_speed
        upshift = armed and number + 1 < len(ratios) and shifted == inf
        end = step(car, curve, fluid, hint, mode, gear, through, spun, t, h, y, k)
        k_end = rates(car, curve, fluid, hint, mode, gear, through, spun, t + h,
                      end[1], end[2], end[3])  # fmt: skip
        g0 = gaps(car, mode, gear, spun, upshift, y, k)
        g1 = gaps(car, mode, gear, spun, upshift, end, k_end)
        which, soonest = -1, inf
        for e in range(3):
            if g1[e] < 0.0:
                moment = max(g0[e], 0.0) / (max(g0[e], 0.0) - g1[e])
                if moment < soonest:
                    which, soonest = e, moment
        if which >= 0:
            h, end = locate(car, curve, fluid, hint, mode, gear, through, spun, upshift, t, h,
                            y, k, which, g0[which], g1[which])  # fmt: skip
            k_end = rates(car, curve, fluid, hint, mode, gear, through, spun, t + h,
                          end[1], end[2], end[3])  # fmt: skip
        passed_marks = note(car, marks, passed_marks, t, h, y, k[0], end, k_end[0],
                            times, speeds, figures)  # fmt: skip
        figures[PULL] = max(figures[PULL], k[0])
        figures[T_GRIP] += h if spun else 0.0
        figures[T_UP] += h if k[3] >= car.wheels_up * (1.0 - 1e-6) else 0.0
        t, y, k = t + h, end, k_end
        if which == 0:
            spun = not spun
            k = rates(car, curve, fluid, hint, mode, gear, through, spun, t, y[1], y[2], y[3])
        elif which == 1:
            mode, fresh = LOCKED, True
            y = (y[0], y[1], gear[0] * y[1], y[3])
        elif which == 2:
            number, upper, shifted = number + 1, y[2], t + car.shift_time
            gear = train(car, ratios[number])
            mode = FLUID if car.pump_rate > 0.0 else SHIFT
            armed, fresh, through = False, True, car.shift_share
            figures[SHIFTS] += 1.0
            if mode == SHIFT:
                y = (y[0], y[1], gear[0] * y[1], y[3])
        if t >= shifted - 1e-12:
            upper = y[2] if mode == FLUID else upper
            mode, engine = after_shift(car, number, upper, gear[0] * y[1])
            y = (y[0], y[1], engine, y[3])
            shifted, through, fresh = inf, 1.0, True
    figures[GEAR], figures[ENGINE] = number + 1.0, y[2]
    return rows
