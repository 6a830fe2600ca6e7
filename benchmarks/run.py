"""How fast, how exact: the run down the strip, for a sweep of axle ratios. Goals are printed."""

from __future__ import annotations

import os
import sys
import time
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from axlewright.dynamics.launch_car import LaunchConverter
from axlewright.dynamics.run import QUARTER, STEP, run_times
from axlewright.dynamics.run_car import RunCar

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "examples"))

from road_tests import Row, car_of, defaults

RATIOS = np.linspace(2.7, 5.0, 30)[:, None, None]
GRIPS = np.array([0.9, 1.2, 1.8])[:, None]
MASSES = np.linspace(1500.0, 1700.0, 200)
GOAL = 2.0


def main() -> None:
    made_up = Row(0, 1500.0, 250e3, 5.7e-3, 3.55, 4, True, 0.0)
    manual = replace(car_of(made_up, defaults()), axle_ratio=RATIOS, tire_grip=GRIPS)
    automatic = replace(
        manual,
        converter=LaunchConverter(260.0, 480.0, 2.1, 0.05),
        gear_ratios=(2.48, 1.48, 1.0),
        shift_share=0.6,
        launch_speed=150.0,
        least_slip_speed=0.0,
    )
    for name, car in (("foot clutch", manual), ("converter", automatic)):
        measure(name, car)


def measure(name: str, car: RunCar) -> None:
    """Print the middle wall and processor time of three sweeps, and how exact a part of it is."""
    whole, part = (replace(car, vehicle_mass=m) for m in (MASSES, MASSES[::40]))
    run_times(part, QUARTER)
    walls, busy = [], []
    for _ in range(3):
        wall, used = time.perf_counter(), time.process_time()
        count = run_times(whole, QUARTER).times["1/4 mile"].size
        walls.append(time.perf_counter() - wall)
        busy.append(time.process_time() - used)
    wall = float(np.median(walls))
    verdict = "met" if wall <= GOAL else "MISSED"
    print(f"{count:,} quarter miles, {name}: {wall:.2f} s, goal at most {GOAL:g} s: {verdict}")
    print(f"  processor time of all workers {float(np.median(busy)):.2f} s")
    found, fine = (run_times(part, QUARTER, h).times["1/4 mile"] for h in (STEP, 0.002))
    print(
        f"  farthest from steps of 2 ms: {100.0 * float(np.max(np.abs(found / fine - 1.0))):.2g} %"
    )


if __name__ == "__main__":
    main()
