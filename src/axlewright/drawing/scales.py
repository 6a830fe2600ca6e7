"""From a value to a place on the page, and where the ticks stand."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class LogScale:
    """A logarithmic axis; what lies outside is set on its edge (``outside`` tells)."""

    low: float
    high: float
    left: float
    right: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        """Place of a value on the page."""
        held = min(max(value, self.low), self.high)
        share = math.log(held / self.low) / math.log(self.high / self.low)
        return self.left + share * (self.right - self.left)

    def outside(self, value: float) -> bool:
        """Whether a value lies beyond the axis."""
        return not self.low <= value <= self.high


@dataclass(frozen=True)
class LinearScale:
    """A linear axis from zero."""

    high: float
    left: float
    right: float
    ticks: tuple[float, ...]

    def at(self, value: float) -> float:
        """Place of a value on the page."""
        share = min(max(value, 0.0), self.high) / self.high
        return self.left + share * (self.right - self.left)


_TICKS = (0.1, 0.2, 0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 5.0, 10.0)


def margin_scale(values: Iterable[float], left: float, right: float) -> LogScale:
    """An axis for margins: shows 0.5 to 3, and as much more as the values ask, to 0.1 and 10."""
    known = [v for v in values if math.isfinite(v) and v > 0]
    least, most = min([*known, 0.5]), max([*known, 3.0])
    low = max((t for t in _TICKS if t <= least), default=_TICKS[0])
    high = min((t for t in _TICKS if t >= most), default=_TICKS[-1])
    return LogScale(low, high, left, right, tuple(t for t in _TICKS if low <= t <= high))


def amount_scale(most: float, left: float, right: float) -> LinearScale:
    """An axis from zero to a round number above ``most`` with about five ticks."""
    if not math.isfinite(most) or most <= 0:
        return LinearScale(1.0, left, right, (0.0, 1.0))
    rough = most / 5
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(
        power * m for m in (1.0, 1.5, 2.0, 3.0, 5.0, 10.0) if power * m >= rough * (1 - 1e-9)
    )
    count = math.ceil(most / step - 1e-9)
    return LinearScale(step * count, left, right, tuple(step * i for i in range(count + 1)))
