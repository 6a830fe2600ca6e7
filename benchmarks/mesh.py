"""How fast the gear pair answers: pattern, slider, loaded case, axle, map.  Goals are printed.

The named reference is one solve of 500 linear equations by NumPy in the same run.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from common import median, reference

from axlewright.hypoid.loaded.contact import loaded
from axlewright.hypoid.unloaded import analyze
from axlewright.studies.mesh_map import mesh_map
from axlewright.studies.mesh_pictures import shimmed
from axlewright.studies.mesh_rest import stand
from axlewright.studies.mesh_runs import Run, nominal_run
from axlewright.workshop.bench import open_build

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"


def main() -> None:
    """Time every goal on two cars."""
    solved = reference()
    for name in ("copper-wren-tired", "tin-pelican-upgraded"):
        before = time.perf_counter()
        run = nominal_run(open_build(EXAMPLES / f"{name}.toml"))
        took = time.perf_counter() - before
        print(f"{name}: likeliest axle, its teeth worked out, {took:.2f} s")
        for what, goal, do in _goals(run):
            took = median(do)
            print(
                f"  {what}: {took * 1e3:.1f} ms (goal {goal * 1e3:g} ms), {took / solved:.1f}"
                " of the reference"
            )
        before = time.perf_counter()
        cases = next(iter(mesh_map(run).values.values())).size
        print(f"  map of {cases} cases: {time.perf_counter() - before:.1f} s (goal 60 s)")


def _goals(run: Run) -> list[tuple[str, float, Callable[[], object]]]:
    """What there is a goal for (s), and how to do it once."""
    pair, teeth, rated = run.pair, run.teeth, run.stands["drive.rated"]
    assert pair is not None
    assert teeth.give is not None
    surface, give, torque = pair.surfaces["drive"], teeth.give["drive"], rated.load.ring_torque
    return [
        ("unloaded pattern", 0.015, lambda: analyze(surface, rated.at, pair.film)),
        ("slider, both patterns", 0.15, lambda: shimmed(pair, 5e-5, 1.5e-4)),
        ("one loaded case, a full pitch", 0.15, lambda: loaded(surface, give, torque, rated.at)),
        ("whole axle at one torque", 1.0, lambda: stand(teeth, run.support, rated.load)),
    ]


if __name__ == "__main__":
    main()
