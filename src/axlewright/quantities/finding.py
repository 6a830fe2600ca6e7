"""Findings: what a study gives back, with band, cautions and a stable id that opens its working."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from axlewright.quantities.formula import Array, Num

LOW, HIGH = 0.05, 0.95
Likelihood = Literal["likely", "possible", "unlikely"]


@dataclass(frozen=True)
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
    """Quantiles by linear interpolation, without what ``numpy.quantile`` loads at first use."""
    places = [share * (values.size - 1) for share in shares]
    ends = [(int(p), min(int(p) + 1, values.size - 1)) for p in places]
    ordered = np.partition(values, sorted({k for pair in ends for k in pair}))
    return [
        float(ordered[below] + (p - below) * (ordered[above] - ordered[below]))
        for p, (below, above) in zip(places, ends, strict=True)
    ]


def likelihood(share: float) -> Likelihood:
    """A share of the samples in words; the percentage stays in the working."""
    if share >= 0.5:
        return "likely"
    return "possible" if share >= 0.05 else "unlikely"
