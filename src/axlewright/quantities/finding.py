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
    return quantile(values, LOW), quantile(values, HIGH)


def quantile(values: Array, share: float) -> float:
    """Quantile by linear interpolation, without what ``numpy.quantile`` loads at first use."""
    place = share * (values.size - 1)
    below = int(place)
    above = min(below + 1, values.size - 1)
    ordered = np.partition(values.ravel(), (below, above))
    return float(ordered[below] + (place - below) * (ordered[above] - ordered[below]))


def likelihood(share: float) -> Likelihood:
    """A share of the samples in words; the percentage stays in the working."""
    if share >= 0.5:
        return "likely"
    return "possible" if share >= 0.05 else "unlikely"
