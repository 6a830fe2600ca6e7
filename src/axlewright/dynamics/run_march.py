"""The march of the run down the strip, compiled.

Every step is a classic Runge-Kutta step inside one *mode* (how engine and wheels are joined, and
whether the tires hold).  Where a mode ends inside a step, the step is shortened to that moment, so
the order of the method is kept.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import cache
from math import inf
from typing import Any
from zlib import crc32

import numpy as np
from numba import njit

from axlewright.dynamics import run_rates
from axlewright.dynamics.fast_math import FAST
from axlewright.dynamics.run_rates import FLUID, LAUNCH, LOCKED, SHIFT, SLIP, helper, rates, train

T_ROLLOUT, T_60_MPH, T_100_KMH, TOP, PULL, T_GRIP, T_UP, SHIFTS, GEAR, ENGINE = range(10)
"""Columns of the figures of a run."""
FIGURES, COLUMNS = 10, 11
_LEAST = 1e-5  # s, least progress of a step that ends at an event


@helper
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
    if mode in (LOCKED, SHIFT):
        w_end = gear[0] * v_end
    return (
        x + sixth * (v + 2.0 * (v2 + v3) + v4),
        v_end,
        w_end,
        n + sixth * (k1[2] + 2.0 * (k2[2] + k3[2]) + k4[2]),
    )


@helper
def gaps(
    car: Any, mode: int, gear: Any, spun: bool, upshift: bool, y: Any, k: Any
) -> tuple[float, float, float]:
    """How far off the ends of the mode are: tires, clutch, shift.  Below zero means passed."""
    tires = k[4] if spun else -k[4]
    clutch = y[2] - gear[0] * y[1] if mode in (LAUNCH, SLIP) else inf
    shift = car.shift_speed - y[2] if upshift and mode in (LOCKED, FLUID) else inf
    return tires, clutch, shift


@helper
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


@helper
def between(h: float, s: float, v0: float, a0: float, v1: float, a1: float) -> float:
    """Speed at a moment inside a step, by the cubic through both ends."""
    q = s / h
    u = 1.0 - q
    return u * u * (v0 * (1.0 + 2.0 * q) + a0 * h * q) + q * q * (v1 * (3.0 - 2.0 * q) - a1 * h * u)


@helper
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


@helper
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


@helper
def calm(car: Any, w: float) -> float:
    """Longest step that stays calm while engine and turbine pull each other along.

    Near coupling the pump torque changes with engine speed by some 5.5 times its level over that
    speed; while the limiter fades the torque, faster still.  The method is stable up to 2.8 times
    the time constant that follows.
    """
    if w > car.rev_limit:
        return 0.005
    return float(1.6 * car.engine_inertia / (5.5 * car.pump_rate * max(w, 1.0)))


@helper
def start_of(car: Any) -> int:
    """Mode in which a run begins."""
    if car.pump_rate > 0.0:
        return FLUID
    return LAUNCH if car.launch_speed > 0.0 else LOCKED


@helper
def after_shift(car: Any, gear: int, upper: float, lower: float) -> tuple[int, float]:
    """Mode and engine speed as a shift ends: ``upper`` before it, ``lower`` in the new gear."""
    if car.pump_rate > 0.0:
        if car.lockup_gear < 2.0 or gear + 1 < car.lockup_gear:
            return FLUID, upper
        return (SLIP, upper) if upper > lower else (LOCKED, lower)
    engine = lower + car.shift_flare * max(upper - lower, 0.0)
    return (SLIP, engine) if engine > lower else (LOCKED, lower)


@helper
def march(  # noqa: PLR0912, PLR0915 (the loop as it runs)
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
        if mode == FLUID:
            h = min(h, calm(car, y[2]))
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


@cache
def compiled_runs() -> Callable[..., int]:
    """Compile the march over many runs (from disk if that was done before)."""
    stamp = crc32(inspect.getsource(run_rates).encode())

    @njit(cache=True, nogil=True, error_model="numpy", fastmath=set(FAST))
    def runs(
        lanes: Any, ratios: Any, curve: Any, fluid: Any, marks: Any, size: float, last: float,
        longest: float, every: float, times: Any, speeds: Any, figures: Any, log: Any,
    ) -> int:  # fmt: skip  # pragma: no cover - runs compiled
        rows = 0
        if stamp < 0:  # never; code kept on disk is known by what it was made from, not by dates
            return rows
        for i in range(len(lanes)):
            rows = march(lanes[i], ratios[i], curve[i], fluid[i], marks, size, last, longest,
                         every, times[i], speeds[i], figures[i], log)  # fmt: skip
        return rows

    made: Callable[..., int] = runs
    return made
