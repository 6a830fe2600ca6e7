"""How fast the ratio study answers: 30 ratios on 3 tires with their bands.  Goals are printed."""

from __future__ import annotations

import os
import time
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")

from axlewright.studies.ratio import SAMPLES, ratio_study
from axlewright.studies.ratio_ask import read_ask
from axlewright.studies.ratio_fill import side_by_side
from axlewright.studies.ratio_road import numbers
from axlewright.studies.ratio_times import time_numbers
from axlewright.workshop.bench import open_build

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
GOAL, FIRST_GOAL, TIMES = 3.0, 20.0, 5
RATIOS = [
    f"{ring}/{pinion}"
    for ring, pinion in (
        (41, 15), (37, 13), (40, 14), (43, 15), (40, 13), (37, 12), (38, 12), (41, 13), (39, 12),
        (43, 13), (41, 12), (38, 11), (35, 10), (39, 11), (43, 12), (37, 10), (41, 11), (38, 10),
        (35, 9), (43, 11), (40, 10), (45, 11), (41, 10), (37, 9), (42, 10), (39, 9), (40, 9),
        (41, 9), (43, 9), (39, 8),
    )
]  # fmt: skip
TIRES = ["255/50R17 performance street", "28x10.5-15 drag radial"]


def main() -> None:
    """Time the study on a manual and on an automatic car, and where the time goes."""
    for name in ("copper-wren-tired", "tin-pelican-tired"):
        build = open_build(EXAMPLES / f"{name}.toml")
        ask = read_ask(build, RATIOS, TIRES)
        before = time.perf_counter()
        ratio_study(build, ask)
        first = time.perf_counter() - before
        took = []
        work = time.process_time()
        for _ in range(TIMES):
            before = time.perf_counter()
            ratio_study(build, ask)
            took.append(time.perf_counter() - before)
        work = (time.process_time() - work) / TIMES
        runs = len(ask.teeth) * len(ask.tires) * (SAMPLES + 1)
        print(
            f"{name}: {len(ask.teeth)} ratios x {len(ask.tires)} tires x {SAMPLES} samples"
            f" ({runs:,} runs): best {min(took):.2f} s, median {sorted(took)[TIMES // 2]:.2f} s"
            f" (goal {GOAL:g} s; {work:.2f} s of processor time); first in this process"
            f" {first:.2f} s (goal {FIRST_GOAL:g} s with nothing compiled)"
        )
        side = side_by_side(build, ask.teeth, 1, SAMPLES)
        before = time.perf_counter()
        numbers(side.filled, [(s.key, s.text, s.value) for s in ask.speeds], by_case=False)
        between = time.perf_counter()
        time_numbers(side)
        after = time.perf_counter()
        print(
            f"  one tire: load path and road {between - before:.2f} s, runs {after - between:.2f} s"
        )


if __name__ == "__main__":
    main()
