"""Findings: what a study gives back, with band, cautions and a stable id that opens its working."""

from __future__ import annotations

from dataclasses import field
from typing import Literal

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.quantities.records import record

LOW, HIGH = 0.05, 0.95
Likelihood = Literal["likely", "possible", "unlikely"]


@record
class Finding:
    """A number: nominal value, 5 to 95 % band of the samples, SI, dimension, what it means.

    The value is the nominal evaluation, not the middle of the band.
    """

    id: str
    means: str
    value: float
    low: float
    high: float
    dimension: str
    cautions: tuple[str, ...] = field(default=())


def band(samples: Num, nominal: float) -> tuple[float, float]:
    """The 5 and 95 % quantiles of the samples; a scalar has no width."""
    values = np.asarray(samples, dtype=np.float64)
    if values.ndim == 0:
        return (float(values), float(values)) if np.isfinite(values) else (nominal, nominal)
    low, high = quantiles(values, (LOW, HIGH))
    return low, high


def quantiles(values: Array, shares: tuple[float, ...]) -> list[float]:
    """Quantiles at rising shares by linear interpolation, as ``numpy.quantile`` has them.

    Each cut sorts only what the cut before it left above, and the value next above a cut is the
    least of what lies there: a third of the work of asking for all places at once.
    """
    rest = np.array(values, dtype=np.float64)
    last, cut, found = values.size - 1, 0, []
    for share in shares:
        place = share * last
        below = int(place)
        rest.partition(below - cut)
        rest, cut = rest[below - cut :], below
        low = float(rest[0])
        above = float(np.fmin.reduce(rest[1:])) if below < last else low  # NaNs stand last
        found.append(low + (place - below) * (above - low))
    return found


def likelihood(share: float) -> Likelihood:
    """A share of the samples in words; the percentage stays in the working."""
    if share >= 0.5:
        return "likely"
    return "possible" if share >= 0.05 else "unlikely"
