"""Times down the strip as numbers by key; the only part of the ratio study that marches in time."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num
from axlewright.studies.ratio_fill import Side
from axlewright.studies.ratio_road import Number, Numbers
from axlewright.studies.run_car import run_car

MARKS = {
    "60_ft": "60 ft",
    "330_ft": "330 ft",
    "eighth_mile": "1/8 mile",
    "1000_ft": "1000 ft",
    "quarter_mile": "1/4 mile",
    "1_km": "1 km",
}
"""Marks of the strip by the key that their numbers carry."""
QUARTER, KILOMETER = 402.336, 1000.0


def time_numbers(side: Side, farthest: float = QUARTER) -> Numbers:
    """Times and trap speeds of all runs of a filling, zero to sixty, and time spent on grip."""
    from axlewright.dynamics.run import MARKS as MARKS_AT  # noqa: PLC0415
    from axlewright.dynamics.run import run_times  # noqa: PLC0415 (loads the compiler)

    runs = run_times(run_car(side.filled, side.driving), farthest)
    found: Numbers = {}
    for key, mark in MARKS.items():
        if MARKS_AT[mark] > farthest + 1e-9:
            continue
        found[f"time_{key}"] = Number(f"Time to {mark}", "time", _one(runs.times[mark]))
        if mark in runs.trap_speeds:
            found[f"trap_{key}"] = Number(
                f"Trap speed at {mark}", "speed", _one(runs.trap_speeds[mark])
            )
    return found | {
        "time_60_mph": Number("Zero to 60 mph, rollout off", "time", _one(runs.to_60_mph)),
        "time_100_kmh": Number("Zero to 100 km/h, rollout off", "time", _one(runs.to_100_kmh)),
        "time_on_grip": Number("Time on the limit of the tires", "time", _one(runs.time_on_grip)),
        "greatest_pull": Number("Greatest pull", "acceleration", _one(runs.greatest_pull)),
        "shifts": Number("Shifts in the run", "count", _one(runs.shifts)),
        "wheels_up": Number(
            "Front wheels at the limit of a wheelie", "count", _one(runs.wheels_up)
        ),
    }


def _one(values: Num) -> Num:
    """A single run as a plain number."""
    return float(values) if np.ndim(values) == 0 else values
