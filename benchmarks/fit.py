"""How fast fit and angles answer, and a search of wheels and widths.  Goals are printed.

The named reference is one solve of 500 linear equations by NumPy in the same run.
"""

from __future__ import annotations

import os
import time
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from common import median, reference

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.studies.angles import angles_study
from axlewright.studies.fit import fit_study

EXAMPLE = Path(__file__).resolve().parents[1] / "examples" / "copper-wren-fit.toml"
LISTED = """
backspaces = [{backspaces}]
rim_widths = [{rims}]
"""


def main() -> None:
    """Time the two studies whole, and the search with many choices."""
    solved = reference()
    text = EXAMPLE.read_text(encoding="utf-8")
    for what, do in (
        ("reading and resolving", lambda: resolve(read_build(text)).fitting),
        ("fit, from the text on", lambda: fit_study(resolve(read_build(text)))),
        ("angles, from the text on", lambda: angles_study(resolve(read_build(text)))),
    ):
        took = median(do)
        goal = " (goal 100 ms)" if "text" in what else ""
        print(f"{what}: {took * 1e3:.0f} ms{goal}, {took / solved:.1f} of the reference")
    many = resolve(read_build(_with_lists(text)))
    before = time.perf_counter()
    found = fit_study(many).search
    took = time.perf_counter() - before
    print(f"fit with a search of {found.tried:,} combinations: {took:.2f} s (goal 1 s for 10,000)")


def _with_lists(text: str) -> str:
    backspaces = ", ".join(f'"{4.0 + 0.125 * n} in"' for n in range(22))
    rims = ", ".join(f'"{7.0 + 0.5 * n} in"' for n in range(8))
    kept = [s for s in text.splitlines() if not s.startswith(("backspaces", "rim_widths"))]
    at = kept.index("[wheel]") + 1
    listed = LISTED.format(backspaces=backspaces, rims=rims)
    return "\n".join([*kept[:at], listed, *kept[at:]])


if __name__ == "__main__":
    main()
