"""Which of several readings of one thing does not belong to the others."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.measuring.distributions import t_factor

_RISK = 0.05
_FAR = 4.0


@dataclass(frozen=True)
class Apart:
    """A reading that stands apart: which (from 1), and by how much from the middle of the rest."""

    number: int
    by: float


def grubbs_statistic(readings: Sequence[float]) -> tuple[int, float]:
    """Index of the farthest reading and its distance from the mean in standard deviations."""
    mean, deviation = statistics.fmean(readings), statistics.stdev(readings)
    farthest = max(range(len(readings)), key=lambda n: abs(readings[n] - mean))
    if deviation == 0.0:
        return farthest, 0.0
    return farthest, abs(readings[farthest] - mean) / deviation


def grubbs_limit(count: int, risk: float = _RISK, sides: int = 2) -> float:
    """Largest distance that chance allows the farthest of so many readings (Grubbs 1969).

    ``risk`` is that of naming a good reading; ``sides`` is 1 where only the largest is in doubt.
    """
    if count < 3:
        raise ValueError("of two readings none can be told apart")
    t = t_factor(1.0 - 2.0 * risk / (sides * count), count - 2)
    return (count - 1) / math.sqrt(count) * math.sqrt(t * t / (count - 2 + t * t))


def stands_apart(readings: Sequence[float], known_scatter: float) -> Apart | None:
    """The reading to take again, if there is one.

    Grubbs' test says that it is out of keeping with the others; and it must be farther off than
    the tool explains (four times its known scatter), lest three readings to the same sixteenth
    accuse a fourth that is one sixteenth off.  Two readings are only told apart by the tool, and
    then nobody knows which is wrong: number 0.
    """
    if len(readings) == 2:
        gap = abs(readings[1] - readings[0])
        return Apart(0, gap) if gap > _FAR * math.sqrt(2.0) * known_scatter > 0.0 else None
    if len(readings) < 3:
        return None
    number, distance = grubbs_statistic(readings)
    rest = [r for n, r in enumerate(readings) if n != number]
    by = readings[number] - statistics.median(rest)
    far = abs(by) > _FAR * known_scatter
    # of three, Grubbs' statistic hardly varies: there the tool alone decides
    odd = len(readings) == 3 or distance > grubbs_limit(len(readings))
    return Apart(number + 1, by) if far and odd else None
