"""Tolerances along a chain of dimensions: at worst, by root sum of squares, and by samples.

A chain is straight: the dimension that closes it is the sum of its parts, each times its direction
(+1 or −1, or a lever).  At worst is what can happen; root sum of squares is what mostly happens
when parts are many, independent and centered between their limits.  With fewer than about four
parts, or one that rules the rest, trust the worst case.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from axlewright.quantities.estimate import Limits
from axlewright.quantities.formula import Array, Num, formula
from axlewright.quantities.normal import normal_quantile

Shape = Literal["limits", "normal", "even"]
"""How a part lies between its limits: likeliest at its value (triangular), normal with the limits
three deviations out, or anywhere alike."""


@formula(
    "σ",
    "length",
    source="variance of the triangular distribution (closed form)",
)
def limits_deviation(low_limit: Num, high_limit: Num, likely_value: Num) -> Num:
    """Standard deviation between shop limits, likeliest at the value."""
    low = low_limit - likely_value
    high = high_limit - likely_value
    result: Num = np.sqrt((low * low + high * high - low * high) / 18.0)
    return result


@dataclass(frozen=True)
class Part:
    """One dimension of a chain."""

    name: str
    value: float
    low: float
    """Lower limit of the dimension itself, not of its tolerance."""
    high: float
    direction: float = 1.0
    """What one unit of it does to the closing dimension."""
    shape: Shape = "limits"

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise ValueError(f"{self.name}: its value does not lie between its limits")

    @property
    def half_range(self) -> float:
        """Half of what it may vary, as it reaches the closing dimension."""
        return 0.5 * abs(self.direction) * (self.high - self.low)

    @property
    def deviation(self) -> float:
        """Standard deviation of the dimension itself."""
        if self.shape == "limits":
            return float(limits_deviation(self.low, self.high, self.value))
        return (self.high - self.low) / (6.0 if self.shape == "normal" else np.sqrt(12.0))

    @property
    def mean(self) -> float:
        """Mean of the dimension itself: not its value when the limits are lopsided."""
        if self.shape == "limits":
            return (self.low + self.value + self.high) / 3.0
        return 0.5 * (self.low + self.high)

    def at(self, drawn: Array) -> Array:
        """The dimension for each draw between 0 and 1."""
        if self.shape == "limits":
            return np.asarray(Limits(self.low, self.high).at(self.value, drawn))
        if self.shape == "even":
            return self.low + (self.high - self.low) * drawn
        return self.mean + self.deviation * normal_quantile(drawn)


@dataclass(frozen=True)
class Chain:
    """What a chain of dimensions closes with."""

    value: float
    """With every part at its value."""
    low: float
    high: float
    """At worst."""
    middle: float
    """With every part in the middle of its limits."""
    root_sum: float
    """± about the middle, by root sum of squares of the half ranges."""
    mean: float
    deviation: float
    """Mean and standard deviation by the shapes of the parts."""
    shares: Mapping[str, float]
    """Share of each part in the variance, greatest first: what is worth holding closer."""


def close_chain(parts: Sequence[Part]) -> Chain:
    """Add a chain up."""
    names = [p.name for p in parts]
    if not parts or len(set(names)) != len(names):
        raise ValueError("a chain needs parts, each with a name of its own")
    ends = [sorted((p.direction * p.low, p.direction * p.high)) for p in parts]
    variances = {p.name: (p.direction * p.deviation) ** 2 for p in parts}
    whole = sum(variances.values())
    ranked = sorted(variances, key=lambda n: -variances[n])
    low, high = sum(e[0] for e in ends), sum(e[1] for e in ends)
    return Chain(
        sum(p.direction * p.value for p in parts),
        low,
        high,
        0.5 * (low + high),
        float(np.sqrt(sum(p.half_range**2 for p in parts))),
        sum(p.direction * p.mean for p in parts),
        float(np.sqrt(whole)),
        {n: variances[n] / whole if whole > 0.0 else 0.0 for n in ranked},
    )


def chain_samples(parts: Sequence[Part], draws: Mapping[str, Array]) -> Array:
    """The closing dimension for draws between 0 and 1, named after the parts."""
    total: Array = np.sum([p.direction * p.at(draws[p.name]) for p in parts], axis=0)
    return total
