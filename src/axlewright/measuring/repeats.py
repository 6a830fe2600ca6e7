"""Several readings of one thing become one value with its uncertainty.

The rule.  The value is the mean.  A tool and a datum have limits ±a, which one reading keeps with
hardly any doubt (triangle, u = a/√6).  What is rounded off, one division over √12, is part of that
and common to all readings that fall on the same mark.  Half of the rest of that variance is scatter
from reading to reading, half is common to all of them: the tape's own error, where the plumb line
hangs (an assumption).  Repeats shrink the scatter and leave what is common:

* scatter of one reading: what is known of the tool, weighing as much as eight readings more than
  one, pooled with the repeats;
* of the mean: over √n, times t(95 %)/1.96, since few readings know their own scatter badly;
* one reading alone: ±a as it stands.

A writer who gives his own ± is believed: it takes the place of the tool's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from axlewright.measuring.distributions import t_factor
from axlewright.measuring.outliers import Apart, stands_apart
from axlewright.measuring.uncertainty import (
    combined_uncertainty,
    mean_uncertainty,
    pooled_scatter,
    rounding_uncertainty,
    triangle_half_width,
    triangle_uncertainty,
)

KNOWN_FREEDOM = 8
"""Degrees of freedom that what is known of a tool's scatter is worth (assumed)."""
SCATTER_SHARE = 0.5
"""Part of a reading's variance, less what is rounded off, that is new each time (assumed)."""
_COVERED = 0.95


@dataclass(frozen=True)
class Combined:
    """One value out of its readings; ``uncertainty`` is one standard deviation."""

    value: float
    uncertainty: float
    count: int
    scatter: float
    """Standard deviation among the readings; 0 for a single one."""
    apart: Apart | None
    """The reading that does not belong to the others, if one does not."""

    @property
    def half_width(self) -> float:
        """Shop limits: the triangle with this uncertainty."""
        return float(triangle_half_width(self.uncertainty))


def combine(
    readings: Sequence[float], half_widths: Sequence[float], division: float = 0.0
) -> Combined:
    """Mean and uncertainty of repeats, each with the limits ± of one reading.

    ``division`` is what each was rounded to.
    """
    if not readings or len(readings) != len(half_widths):
        raise ValueError("each reading needs its own limits")
    count = len(readings)
    mean = math.fsum(readings) / count
    half = math.sqrt(math.fsum(h * h for h in half_widths) / count)
    single = float(triangle_uncertainty(half))
    if count == 1:
        return Combined(mean, single, 1, 0.0, None)
    scatter = math.sqrt(math.fsum((r - mean) ** 2 for r in readings) / (count - 1))
    rounded = min(float(rounding_uncertainty(division)), single)
    rest = math.sqrt(single**2 - rounded**2)
    known = rest * math.sqrt(SCATTER_SHARE)
    pooled = float(pooled_scatter(known, KNOWN_FREEDOM, scatter, count))
    widened = pooled * t_factor(_COVERED, KNOWN_FREEDOM + count - 1) / _NORMAL
    common = combined_uncertainty(rest * math.sqrt(1.0 - SCATTER_SHARE), rounded)
    total = float(combined_uncertainty(mean_uncertainty(widened, count), common))
    seen = float(combined_uncertainty(known, rounded))
    return Combined(mean, total, count, scatter, stands_apart(readings, seen))


_NORMAL = 1.959963984540054
"""Standard deviations either side that hold 95 % of a normal distribution."""
