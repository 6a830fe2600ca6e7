"""How fast, how exact: thousands of launches marched, against a general solver.

The solver is scipy's LSODA (``odeint``) with a compiled right-hand side and smoothed dry friction
from ``tests/reference_launch_compiled.py``.  Interpreted stands for the plain floats of
``tests/reference_launch_equations.py``, called as often as LSODA called the compiled ones.  Goals
are printed, not asserted.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

os.environ.setdefault("OMP_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests"))

import numpy as np
from scipy.integrate import odeint

import reference_launch as exact
from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.launch import STEP, launch_history, launch_peaks
from axlewright.dynamics.launch_car import LaunchCar, LaunchConverter, LaunchEvents, Ramp
from axlewright.dynamics.launch_march import march_of
from axlewright.dynamics.launch_pack import pack
from launch_builds import Build, builds, plain_car, plain_events
from reference_launch_compiled import compiled_rhs
from reference_launch_elements import Modes, shaft_torque
from reference_launch_equations import INDEX, right_hand_side, start

LAUNCHES, DURATION, SOLVED, INTERPRETED = 10_000, 2.0, 20, 3
CONVERTER = LaunchConverter(300.0, 600.0, 2.1, 0.1)


def main() -> None:
    compile_all()
    rng = np.random.default_rng(1)
    spread = {"tire_grip": rng.uniform(0.8, 2.0, LAUNCHES), "clutch_capacity": 1200.0}
    clutch = plain_car(**spread)
    dump = plain_events(duration=DURATION)
    lift = replace(dump, second_throttle=Ramp(0.0, 0.0, 0.5, 0.05))
    stall = stalled(dump)
    automatic = replace(clutch, converter=CONVERTER)
    print(f"{LAUNCHES:,} launches of {DURATION:g} s in steps of {STEP:g} s, all processors")
    for name, car, events in (
        ("clutch dump", clutch, dump),
        ("clutch dump, locked", replace(clutch, locked=True), dump),
        ("lift-off with reversals", clutch, lift),
        ("stall against the brakes", automatic, stall),
    ):
        marched(name, car, events)
    halved(clutch, dump, lift)
    solved()


def stalled(events: LaunchEvents) -> LaunchEvents:
    """Held on the brakes against the converter, then let go."""
    return replace(
        events,
        engine_speed=250.0,
        clamp=Ramp(1.0, 1.0, 0.0, 0.0),
        brakes=Ramp(6000.0, 0.0, 0.3, 0.05),
    )


def compile_all() -> None:
    """Time until every kind of march stands ready, compiled or read from disk."""
    before = time.perf_counter()
    for automatic in (False, True):
        for locked in (False, True):
            march = march_of(automatic, locked, False)
            march(np.ones(at.SIZE), np.ones(at.LANES), np.ones(at.LANES), 0, 0, STEP)
    print(f"four kinds of march ready after {time.perf_counter() - before:.2f} s")


def marched(name: str, car: LaunchCar, events: LaunchEvents) -> None:
    """Wall time of all launches, and processor time of one lane and step on one processor."""
    before, busy = time.perf_counter(), time.process_time()
    peaks = launch_peaks(car, events)
    wall, busy = time.perf_counter() - before, time.process_time() - busy
    assert peaks is not None
    some = pack(sample(car, slice(0, 128)), events)
    march = march_of(some.automatic, some.locked, False)
    steps = 5000
    before = time.process_time()
    for w, places, slopes in zip(some.blocks, some.places, some.slopes, strict=True):
        march(w, places, slopes, 0, steps, STEP)
    lane_step = (time.process_time() - before) / (some.launches * steps)
    verdict = "met" if wall <= 8.0 else "MISSED"
    print(
        f"  {name:<26} {wall:5.2f} s, goal at most 8 s: {verdict} ({busy:.1f} s of processors); "
        f"{lane_step * 1e9:.0f} ns a lane and step; "
        f"reversals {peaks.reversals.mean():.1f}, lost {peaks.lost}"
    )


def sample(node: Any, which: Any) -> Any:
    """Some launches of a car of arrays."""
    if isinstance(node, np.ndarray) and node.shape[-1] == LAUNCHES:
        return node[which]
    if is_dataclass(node) and not isinstance(node, type):
        return replace(node, **{f.name: sample(getattr(node, f.name), which) for f in fields(node)})
    return node


def halved(car: LaunchCar, *all_events: LaunchEvents) -> None:
    """What half the step changes."""
    few = sample(car, slice(0, 200))
    for events in all_events:
        whole, half = (launch_peaks(few, events, step=s) for s in (STEP, 0.5 * STEP))
        assert whole is not None
        assert half is not None
        off = np.abs(whole.axle_most / half.axle_most - 1.0)
        print(f"half the step moves axle peaks by {np.median(off):.1e}, at most {off.max():.1e}")


def solved() -> None:
    """The same launches, one by one, by the general solver."""
    some = builds(SOLVED, 3, duration=DURATION)
    some.append(Build("lift-off", "manual", "locked", plain_car(locked=True), lifted()))
    marching = [clocked(lambda b=b: launch_history(b.car, b.events, every=DURATION)) for b in some]
    walls, off = [], []
    for build in some:
        wall, peak = lsoda(build, compiled_rhs(build.car, build.events))
        walls.append(wall)
        march = launch_peaks(build.car, build.events)
        assert march is not None
        off.append(abs(march.axle_most[0] / peak - 1.0))
    eight = replace(plain_car(), tire_grip=np.full(800, 1.1))
    one = clocked(lambda: launch_peaks(eight, plain_events(duration=DURATION))) / 800
    print(f"LSODA, compiled: {np.median(walls) * 1e3:.0f} ms a launch, median of {len(walls)};")
    print(f"  with reversals after lift-off {walls[-1] * 1e3:.0f} ms")
    print(f"  marched alone {np.median(marching) * 1e3:.0f} ms, among many {one * 1e3:.2f} ms:")
    print(f"  {np.median(walls) / one:.0f} times as fast")
    print(f"  axle peaks differ by {np.median(off):.1e} (LSODA's friction is smoothed)")
    slow = [interpreted(b) for b in some[:INTERPRETED]]
    print(f"LSODA, interpreted: {np.median(slow) * 1e3:.0f} ms: {np.median(slow) / one:.0f} times")


def lifted() -> LaunchEvents:
    return plain_events(duration=DURATION, second_throttle=Ramp(0.0, 0.0, 0.5, 0.05))


def clocked(work: Callable[[], Any]) -> float:
    work()
    before = time.perf_counter()
    work()
    return time.perf_counter() - before


Rates = Callable[[float, Any], Any]


def lsoda(build: Build, rates: Rates) -> tuple[float, float]:
    """Wall time, and the greatest axle torque on a grid of a millisecond."""
    y = np.asarray(start(build.car, build.events), dtype=np.float64)
    times = np.linspace(0.0, DURATION, 2001)
    rates(0.0, y.copy())
    before = time.perf_counter()
    found = odeint(
        rates,
        y,
        times,
        tfirst=True,
        rtol=1e-5,
        atol=1e-6,
        hmax=2e-3,
        mxstep=100_000,
        tcrit=exact.corners(build.events),
    )
    wall = time.perf_counter() - before
    return wall, max(axle_torque(build.car, state) for state in found)


def interpreted(build: Build) -> float:
    """Wall time with plain floats: evaluations that LSODA asks for, times the cost of one."""
    compiled = compiled_rhs(build.car, build.events)
    asked = 0

    def counted(t: float, y: Any) -> Any:
        nonlocal asked
        asked += 1
        return compiled(t, y)

    wall, _ = lsoda(build, counted)
    y = np.asarray(start(build.car, build.events), dtype=np.float64)
    costs = []
    for f in (compiled, partial(plainly, build)):
        before = time.perf_counter()
        for _ in range(2000):
            f(0.1, y)
        costs.append((time.perf_counter() - before) / 2000)
    return wall + asked * (costs[1] - costs[0])


def plainly(build: Build, t: float, y: Any) -> Any:
    """Rates without a compiler, all frictions slipping."""
    return right_hand_side(t, y, build.car, build.events, Modes(1, 1, 1, 1, 1))


def axle_torque(car: LaunchCar, y: Any) -> float:
    """Torque of both shafts at one state."""
    at_ = INDEX
    carrier = y[at_["pinion_speed"]] / car.axle_ratio - y[at_["windup_rate"]]
    total = 0.0
    for side, sign in (("left", 1.0), ("right", -1.0)):
        twist = y[at_[f"{side}_twist"]] + sign * y[at_["side_angle"]]
        rate = carrier + sign * y[at_["side_speed"]] - y[at_[f"{side}_speed"]]
        total += shaft_torque(
            twist,
            rate,
            float(getattr(car, f"{side}_shaft_stiffness")),
            float(car.shaft_damping_time),
            float(car.shaft_half_gap),
        )
    return total


if __name__ == "__main__":
    main()
