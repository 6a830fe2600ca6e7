"""How fast the launch study is on real builds: marches of every case, one history, a kept march.

Goals are printed, not asserted.  Processor time stands beside the clock, for the clock also counts
what else the machine does.
"""

from __future__ import annotations

import os
import resource
import tempfile
import time
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ["AXLEWRIGHT_DATA"] = tempfile.mkdtemp(prefix="axlewright-benchmark-")

from axlewright.quantities.estimate import Plain
from axlewright.studies.launch_setup import launch_cases
from axlewright.workshop import bench, launches

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
BUILDS = ("copper-wren-tired", "tin-pelican-tired")
SAMPLES = 10_000


class Clock:
    """Seconds of the clock and of all processors since it was made."""

    def __init__(self) -> None:
        self._clock, self._work = time.perf_counter(), time.process_time()

    def __str__(self) -> str:
        clock, work = time.perf_counter() - self._clock, time.process_time() - self._work
        return f"{clock:6.2f} s by the clock, {work:6.2f} s of work"


def main() -> None:
    """Measure every build."""
    for name in BUILDS:
        measure(EXAMPLES / f"{name}.toml")
    largest = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"memory at most {largest:.0f} MB")


def measure(path: Path) -> None:
    """One build, from the first call to a check that takes the kept march."""
    print(path.stem)
    build = bench.open_build(path)
    clock = Clock()
    launches.launch(build, 1, 100)
    print(f"  100 launches of each case, compiled or read from disk first {clock}")
    clock, heard = Clock(), []
    report = launches.launch(build, 1, SAMPLES, lambda share: heard.append(share) or True)
    filler = Plain()
    cases = launch_cases(filler.tree(build.machine), filler.tree(build.launching))
    marched = sum(c.events.duration for c in cases)
    print(f"  {SAMPLES:,} launches of each of {len(cases)} cases, {marched:.1f} s in all {clock}")
    print(f"    progress told {len(heard)} times; lost {sum(c.lost for c in report.cases)}")
    clock = Clock()
    launches.history(build, cases[0].case)
    print(f"  one history (goal 0.3 s) {clock}")
    again = bench.open_build(path)
    clock = Clock()
    bench.as_marched(again, 1)
    print(f"  the kept march found (goal 0.3 s) {clock}")
    clock = Clock()
    bench.check(again, 1, SAMPLES)
    print(f"  check with it {clock}")
    clock = Clock()
    launches.coupling(build)
    print(f"  coupling {clock}")


if __name__ == "__main__":
    main()
