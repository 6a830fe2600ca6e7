"""The launch in time: what every part feels from the moment the clutch or the brake lets go.

``launch_peaks`` marches thousands of cars and keeps their extremes; ``launch_history`` keeps the
whole story of one.  The equations stand in ``docs/launch-model.md``.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass

import numpy as np

from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.launch_car import LaunchCar, LaunchEvents
from axlewright.dynamics.launch_history import HEAT, LaunchHistory, launch_history
from axlewright.dynamics.launch_march import March, march_of
from axlewright.dynamics.launch_pack import NEVER, Packed, equal_steps, pack
from axlewright.quantities.formula import Array

__all__ = ["HEAT", "STEP", "LaunchHistory", "LaunchPeaks", "launch_history", "launch_peaks"]

STEP = 1e-4
"""s; halving it moves the median peak by less than 0.2 %, the worst by less than 0.5 %."""

HOP_WINDOW = 0.4
"""s at the end of a launch in which hop is looked for, a few swings long."""

_AT_ONCE = 16
"""Blocks in one go: about a tenth of a second, so that progress shows and a stop is heard."""

Tell = Callable[[float], bool]
"""Hears the share done and answers whether to go on."""


@dataclass(frozen=True)
class LaunchPeaks:
    """Extremes of each launch, arrays (n,) in SI; NaN throughout where a launch was lost."""

    clutch_most: Array
    clutch_least: Array
    driveshaft_most: Array
    driveshaft_least: Array
    axle_most: Array
    """Both shafts together."""
    axle_least: Array
    left_shaft_most: Array
    left_shaft_least: Array
    right_shaft_most: Array
    right_shaft_least: Array
    left_tire_most: Array
    """Torque that the tire passes to the ground."""
    left_tire_least: Array
    right_tire_most: Array
    right_tire_least: Array
    windup_most: Array
    """Torque of the housing on the body."""
    windup_least: Array
    thrust_most: Array
    """Push of the axle on the body, N."""
    thrust_least: Array
    axle_most_time: Array
    clutch_heat: Array
    lock_time: Array
    """First time after the clamp began at which the clutch sticks; NaN: never."""
    end_speed: Array
    end_distance: Array
    engine_low: Array
    """Lowest engine speed."""
    reversals: Array
    """How often the axle shafts crossed their gap from one flank to the other."""
    hop: Array
    """Swing, from least to greatest, of the rear load over its standing value, at the end."""
    hop_windup: Array
    """Swing of the housing in the same time, rad."""
    front_load_least: Array
    """Lowest front load over its standing value; 0: wheels in the air."""
    lost: int
    """Launches that gave no number."""


_MOST = {
    "clutch": at.C_MOST, "driveshaft": at.D_MOST, "axle": at.AX_MOST, "left_shaft": at.L_MOST,
    "right_shaft": at.R_MOST, "left_tire": at.TL_MOST, "right_tire": at.TR_MOST,
    "windup": at.M_MOST, "thrust": at.X_MOST,
}  # fmt: skip


def launch_peaks(
    car: LaunchCar, events: LaunchEvents, step: float = STEP, tell: Tell | None = None
) -> LaunchPeaks | None:
    """March every launch and keep its extremes.

    ``step`` is the longest step; a block with a part too stiff for it takes shorter ones.
    ``tell`` hears the share that is done now and then; where it answers False the march ends and
    the result is None.
    """
    packed = pack(car, events)
    equal_steps(events.duration, step)  # refuses a step that makes no sense
    march = march_of(packed.automatic, packed.locked, False)
    whole = len(packed.blocks)
    parts = [slice(i, min(i + _AT_ONCE, whole)) for i in range(0, whole, _AT_ONCE)]
    if not _in_parts(lambda part: _march(march, packed, part, events.duration, step), parts, tell):
        return None
    return _peaks(packed)


def _march(march: March, packed: Packed, part: slice, duration: float, longest: float) -> None:
    """Some blocks from start to end; the tallies of hop start again where its window opens."""
    for i in range(part.start, part.stop):
        steps, step = equal_steps(duration, min(longest, packed.longest_step[i]))
        window = max(steps - round(HOP_WINDOW / step), 0)
        block, places, slopes = packed.blocks[i], packed.places[i], packed.slopes[i]
        march(block, places, slopes, 0, window, step)
        for most in (at.HOP_MOST, at.PSI_MOST):
            block[most : most + at.LANES] = -np.inf
            block[most + at.LANES : most + 2 * at.LANES] = np.inf
        march(block, places, slopes, window, steps - window, step)


def _in_parts(work: Callable[[slice], None], parts: list[slice], tell: Tell | None) -> bool:
    """Do the parts on all processors, the compiled code being free of the interpreter's lock."""
    done = 0
    with ThreadPoolExecutor(os.cpu_count() or 1, initializer=_give_way) as pool:
        running: set[Future[None]] = {pool.submit(work, part) for part in parts}
        try:
            while running:
                ended, running = wait(running, return_when=FIRST_COMPLETED)
                for one in ended:
                    one.result()
                done += len(ended)
                if tell is not None and not tell(done / len(parts)):
                    return False
        finally:
            for one in running:
                one.cancel()
    return True


def _give_way() -> None:
    """Let a page that is asked for meanwhile go first, where each thread has a priority."""
    if sys.platform == "linux":
        os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), 10)


def _peaks(packed: Packed) -> LaunchPeaks:
    """Read the tallies; a launch with a state that is no number has no extremes either."""
    lost = ~packed.sound
    for place in range(at.E, at.STUCK, at.LANES):
        lost |= ~np.isfinite(packed.row(place))
    found = {}
    for name, most in _MOST.items():
        found[f"{name}_most"] = packed.row(most)
        found[f"{name}_least"] = packed.row(most + at.LANES)
    lock = packed.row(at.LOCK)
    standing, front = 2.0 * packed.row(at.N_HALF), packed.row(at.N_F)
    found |= {
        "axle_most_time": packed.row(at.AX_TIME),
        "clutch_heat": packed.row(at.HEAT),
        "end_speed": packed.row(at.V),
        "end_distance": packed.row(at.DIST),
        "engine_low": packed.row(at.E_LEAST),
        "reversals": packed.row(at.TURNS),
        "hop": (packed.row(at.HOP_MOST) - packed.row(at.HOP_LEAST)) / standing,
        "hop_windup": packed.row(at.PSI_MOST) - packed.row(at.PSI_LEAST),
        "front_load_least": 1.0 + packed.row(at.FRONT_LEAST) / front,
    }
    for value in found.values():
        lost |= ~np.isfinite(value)
    kept = {name: np.where(lost, np.nan, value) for name, value in found.items()}
    kept["lock_time"] = np.where(lost | (lock >= NEVER), np.nan, lock)
    return LaunchPeaks(**kept, lost=int(np.count_nonzero(lost)))
