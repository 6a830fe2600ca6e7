"""Bands of marched answers, of which a few may be lost, and what decides them."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.finding import HIGH, LOW, Finding, quantiles
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.studies.influence import least_share, shares
from axlewright.studies.launch_report import Decider

DECIDERS = 4


def finding_of(key: str, means: str, value: float, sampled: Array, dimension: str) -> Finding:
    """A finding whose band leaves out launches without a finite answer."""
    good = np.asarray(sampled)[np.isfinite(sampled)]
    low, high = quantiles(good, (LOW, HIGH)) if good.size else (value, value)
    return Finding(key, means, value, low, high, dimension)


def finite(values: Array) -> Array:
    """Values with the lost ones put at the middle, so that they decide nothing."""
    good = np.isfinite(values)
    return np.where(good, values, np.median(values[good]) if good.any() else 0.0)


def deciders(
    samples: Samples, answer: Array, inputs: Mapping[str, Estimate | Kinds]
) -> tuple[Decider, ...]:
    """The inputs with the largest shares in the scatter of an answer."""
    ranked = sorted(shares(samples, finite(answer)).items(), key=lambda item: -item[1])
    least = least_share(samples, answer.size)
    named = [
        Decider(path, inputs[path].means or path, share)
        for path, share in ranked
        if path in inputs and share >= least
    ]
    return tuple(named[:DECIDERS])
