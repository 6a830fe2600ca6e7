"""Forces and rates of the run down the strip, compiled: the equations of ``docs/run-model.md``."""

from __future__ import annotations

from collections.abc import Callable
from math import exp
from typing import Any, TypeVar

from numba import njit

from axlewright.dynamics.fast_math import FAST

F = TypeVar("F", bound=Callable[..., Any])

LAUNCH, SLIP, LOCKED, SHIFT, FLUID = range(5)
"""Clutch under the driver's foot, clutch slipping by itself, closed, open, converter."""
_FADE = 20.0  # rad/s over which the rev limiter takes the torque away


def helper(function: F) -> F:
    """Compile what only compiled code calls; it is kept on disk with its caller alone."""
    options: dict[str, Any] = {"no_cpython_wrapper": True, "no_cfunc_wrapper": True}
    made = njit(nogil=True, error_model="numpy", fastmath=set(FAST), **options)(function)
    compiled: F = made
    return compiled


@helper
def engine_torque(car: Any, curve: Any, hint: Any, w: float, t: float) -> float:
    """Full-throttle torque: straight lines between points, boost that comes, the limiter."""
    k, last = hint[0], curve.shape[1] - 2
    while k < last and w > curve[0, k + 1]:
        k += 1
    while k > 0 and w < curve[0, k]:
        k -= 1
    hint[0] = k
    held = min(max(w, curve[0, k]), curve[0, k + 1])
    torque = curve[1, k] + curve[2, k] * (held - curve[0, k])
    if car.boost_time > 0.0:
        torque *= 1.0 - (1.0 - car.boost_floor) * exp(-t / car.boost_time)
    if w > car.rev_limit:
        torque *= max(1.0 - (w - car.rev_limit) / _FADE, 0.0)
    return float(torque)


@helper
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


@helper
def converter_torques(car: Any, fluid: Any, w: float, turbine: float) -> tuple[float, float]:
    """Torque that the pump takes and the turbine gives; reversed when the car drives."""
    faster = turbine > w
    drive = max(turbine if faster else w, 1.0)
    place = 20.0 * min(max((w if faster else turbine) / drive, 0.0), 1.0)
    k = min(int(place), 19)
    share = place - k
    taken = car.pump_rate * drive * drive * (fluid[1, k] + (fluid[1, k + 1] - fluid[1, k]) * share)
    if faster:
        return -taken, -taken
    return taken, taken * (fluid[0, k] + (fluid[0, k + 1] - fluid[0, k]) * share)


@helper
def train(car: Any, ratio: float) -> tuple[float, float, float, float, float]:
    """Of a gear: turns a meter, push a torque, spinning mass open, both masses turned over."""
    turns, lever = ratio / car.radius, ratio * car.efficiency / car.radius
    wheels = (car.driven_inertia + car.shaft_inertia) / (car.radius * car.radius)
    spinning = wheels + (car.input_inertia + car.turbine_inertia) * turns * lever
    closed = spinning + car.engine_inertia * turns * lever
    return turns, lever, spinning, 1.0 / (car.road_mass + spinning), 1.0 / (car.road_mass + closed)


@helper
def rates(  # noqa: PLR0912 (one branch a mode)
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
        if mode in (LOCKED, SHIFT):
            engine = given
        elif mode == SLIP:  # the foot is off the pedal: the tires let go, not the clutch
            given = car.clutch
    surge = 0.0
    if mode == FLUID:
        surge = (engine - taken) / car.engine_inertia
    elif mode in (LAUNCH, SLIP):
        surge = (engine - given) / car.engine_inertia
        if mode == LAUNCH and ((w >= car.launch_speed and surge > 0.0) or (
            w <= car.least_speed and surge < 0.0
        )):  # fmt: skip
            surge, engine = 0.0, given  # held by the driver's right foot, or by the left one
    return pull, surge, (push - n) * car.pitch_rate, push, spare, engine, given
