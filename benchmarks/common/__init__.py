"""What benchmarks share: the median of some goes, and a named reference of the same run."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

TIMES = 21
REFERENCE = "500 linear equations by NumPy"


def median(do: Callable[[], object], times: int = TIMES) -> float:
    """Middle time (s) of doing something several times."""
    took = []
    for _ in range(times):
        before = time.perf_counter()
        do()
        took.append(time.perf_counter() - before)
    return sorted(took)[times // 2]


def reference() -> float:
    """Time of the reference, told as well."""
    took = median(_solve)
    print(f"reference, {REFERENCE}: {took * 1e3:.2f} ms")
    return took


def _solve() -> None:
    draws = np.random.default_rng(1)
    np.linalg.solve(draws.normal(size=(500, 500)), draws.normal(size=500))
