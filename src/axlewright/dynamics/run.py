"""The run down the strip: times, speeds and shifts of many runs at once, or one run in detail."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from axlewright.dynamics.run_car import FOOT, Packed, RunCar, pack
from axlewright.dynamics.run_march import (
    COLUMNS,
    ENGINE,
    FIGURES,
    GEAR,
    PULL,
    SHIFTS,
    T_60_MPH,
    T_100_KMH,
    T_GRIP,
    T_ROLLOUT,
    T_UP,
    TOP,
    compiled_runs,
)
from axlewright.quantities.formula import Array

MARKS: dict[str, float] = {
    "60 ft": 60 * FOOT,
    "330 ft": 330 * FOOT,
    "1/8 mile": 660 * FOOT,
    "1000 ft": 1000 * FOOT,
    "1/4 mile": 1320 * FOOT,
    "1 km": 1000.0,
}
"""Where the clock is read, in meters from where the car stands staged."""
TRAP = 66 * FOOT
"""Length over which a strip takes its speed, ahead of the mark."""
QUARTER = MARKS["1/4 mile"]
STEP = 0.03
"""s; a converter shortens it where it must (see ``run_march.calm``)."""
_LONGEST = 90.0  # s; who needs more does not reach the mark
_PARTS = 8
"""Parts for each thread: short ratios shift more and take longer, so halves are not alike."""
_ALL = tuple(sorted({d for m in MARKS.values() for d in (m, m - TRAP) if d > 0.0}))


@dataclass(frozen=True)
class RunTimes:
    """What the clocks of a strip say, and how the car got there.

    Every array has the shape to which the inputs broadcast; what was not reached is NaN.
    """

    times: dict[str, Array]
    """s from the end of the rollout, by mark."""
    speeds: dict[str, Array]
    """m/s at the mark."""
    trap_speeds: dict[str, Array]
    """m/s, mean over the 66 ft ahead of the mark."""
    rollout_time: Array
    """s from first movement to the start of the clock."""
    to_60_mph: Array
    """s with the rollout taken off."""
    to_100_kmh: Array
    """s with the rollout taken off."""
    to_60_mph_from_rest: Array
    """s from first movement."""
    to_100_kmh_from_rest: Array
    """s from first movement."""
    top_speed: Array
    """m/s, greatest in this run."""
    greatest_pull: Array
    """m/s²."""
    time_on_grip: Array
    """s during which the tires, not the engine, were the limit."""
    time_wheels_up: Array
    """s during which the front wheels hung at the limit of a wheelie."""
    shifts: Array
    last_gear: Array
    """Gear at the end of the run."""
    last_engine_speed: Array
    """rad/s at the end of the run."""

    @property
    def wheels_up(self) -> Array:
        """Whether the front wheels came to the limit of a wheelie (1 or 0)."""
        return np.where(self.time_wheels_up > 0.0, 1.0, 0.0)


@dataclass(frozen=True)
class RunHistory:
    """One run over time, for charts; every array has one value a moment."""

    time: Array  # s from first movement
    distance: Array  # m
    speed: Array  # m/s
    pull: Array  # m/s²
    engine_speed: Array  # rad/s
    gear: Array
    push: Array  # N at the tires
    rear_load: Array  # N
    engine_torque: Array  # N·m that the engine gives
    input_torque: Array  # N·m at the gearbox input, inertia of the input not yet taken off
    on_grip: Array  # 1 while the tires are the limit


def run_times(
    car: RunCar, farthest: float = MARKS["1 km"], step: float = STEP, workers: int = 0
) -> RunTimes:
    """Run every car of the arrays as far as ``farthest`` meters."""
    packed = pack(car)
    if not step > 0.0:
        raise ValueError("a step of time must be above zero")
    count = len(packed.lanes)
    marks = np.array([d for d in _ALL if d <= farthest + 1e-9])
    times = np.full((count, len(_ALL)), np.nan)
    speeds = np.full((count, len(_ALL)), np.nan)
    figures = _figures(packed)
    side_by_side = workers or os.cpu_count() or 1
    pieces = 1 if side_by_side == 1 else max(1, min(_PARTS * side_by_side, count))
    edges = np.linspace(0, count, pieces + 1).astype(int)

    runs = compiled_runs()

    def work(a: int, b: int) -> None:
        runs(packed.lanes[a:b], packed.ratios[a:b], packed.curve[a:b], packed.fluid[a:b], marks,
             step, farthest, _LONGEST, np.inf, times[a:b], speeds[a:b], figures[a:b],
             np.zeros((0, COLUMNS)))  # fmt: skip

    spans = list(pairwise(edges.tolist()))
    if pieces == 1:
        work(0, count)
    else:
        with ThreadPoolExecutor(side_by_side) as pool:
            for done in [pool.submit(work, a, b) for a, b in spans]:
                done.result()
    return _times(packed.shape, times, speeds, figures)


def run_history(
    car: RunCar, every: float = 0.02, farthest: float = QUARTER, step: float = 0.002
) -> RunHistory:
    """One run written down every ``every`` seconds; the car must be of plain numbers."""
    packed = pack(car)
    if len(packed.lanes) != 1:
        raise ValueError("a history is of one run; give plain numbers")
    if not every > 0.0:
        raise ValueError("the interval must be above zero")
    log = np.zeros((int(_LONGEST / every) + 2, COLUMNS))
    none = np.zeros((1, 0))
    rows = compiled_runs()(
        packed.lanes, packed.ratios, packed.curve, packed.fluid, none[0], step, farthest,
        _LONGEST, every, none, none, _figures(packed), log,
    )  # fmt: skip
    return RunHistory(*log[:rows].T)


def _figures(packed: Packed) -> Array:
    """Empty figures: times unknown, sums at zero; without rollout the clock starts at once."""
    figures = np.zeros((len(packed.lanes), FIGURES))
    figures[:, [T_60_MPH, T_100_KMH]] = np.nan
    figures[:, T_ROLLOUT] = np.where(packed.lanes["rollout"] > 0.0, np.nan, 0.0)
    return figures


def _times(shape: tuple[int, ...], times: Array, speeds: Array, figures: Array) -> RunTimes:
    """Sort what the march wrote by what it means."""

    def shaped(values: Array) -> Array:
        return values.reshape(shape)

    start = figures[:, T_ROLLOUT]
    column = {name: _ALL.index(d) for name, d in MARKS.items()}
    traps = {n: (c, _ALL.index(MARKS[n] - TRAP)) for n, c in column.items() if MARKS[n] > TRAP}
    plain = [shaped(figures[:, c]) for c in (TOP, PULL, T_GRIP, T_UP, SHIFTS, GEAR, ENGINE)]
    return RunTimes(
        {n: shaped(times[:, c] - start) for n, c in column.items()},
        {n: shaped(speeds[:, c]) for n, c in column.items()},
        {n: shaped(TRAP / (times[:, c] - times[:, b])) for n, (c, b) in traps.items()},
        shaped(start),
        shaped(figures[:, T_60_MPH] - start),
        shaped(figures[:, T_100_KMH] - start),
        shaped(figures[:, T_60_MPH]),
        shaped(figures[:, T_100_KMH]),
        *plain,
    )
