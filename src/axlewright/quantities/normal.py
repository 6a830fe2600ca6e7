"""Quantiles of the normal distribution, without the half second that importing SciPy takes."""

from __future__ import annotations

import functools
from statistics import NormalDist

import numpy as np

from axlewright.quantities.formula import Array

_CELLS = 4096


@functools.cache
def _table() -> Array:
    """Exact quantiles of the standard library at evenly spaced probabilities."""
    exact = NormalDist().inv_cdf
    inner = [exact(i / _CELLS) for i in range(1, _CELLS)]
    end = exact(0.25 / _CELLS)
    return np.array([end, *inner, -end])


def normal_quantile(u: Array) -> Array:
    """Standard normal quantile at each probability in [0, 1), by linear interpolation.

    Within 2e-4 of the exact one for probabilities from 0.005 to 0.995; the tails end at ±3.84.
    """
    table = _table()
    place = u * _CELLS
    cell = place.astype(np.intp)
    low = table[cell]
    return low + (place - cell) * (table[cell + 1] - low)
