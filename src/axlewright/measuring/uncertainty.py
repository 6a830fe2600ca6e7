"""How sure a reading is: scatter of repeats (type A) beside tool and datum (type B).

After the *Guide to the expression of uncertainty in measurement* (GUM, JCGM 100).  The formulas
hold in the unit of the reading, whichever it is.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula(
    "u_A",
    "ratio",
    source="GUM 4.2.3, experimental standard deviation of the mean (from memory)",
    valid={"reading_count": (1.0, None)},
    outside="a mean needs at least one reading",
)
def mean_uncertainty(reading_scatter: Num, reading_count: Num) -> Num:
    """Standard uncertainty of a mean from the scatter of its readings."""
    result: Num = reading_scatter / np.sqrt(reading_count)
    return result


@formula(
    "s_p",
    "ratio",
    source="pooled estimate of variance, GUM 4.2.4 (from memory)",
    valid={"known_freedom": (0.0, None), "reading_count": (1.0, None)},
    outside="fewer than no readings cannot be pooled",
)
def pooled_scatter(
    known_scatter: Num, known_freedom: Num, reading_scatter: Num, reading_count: Num
) -> Num:
    """Scatter of one reading, from what is known of the way of measuring and from the repeats.

    Two readings alone say next to nothing of their scatter; what is known steadies it.
    """
    known = known_freedom * known_scatter**2
    seen = (reading_count - 1.0) * reading_scatter**2
    result: Num = np.sqrt((known + seen) / (known_freedom + reading_count - 1.0))
    return result


@formula(
    "u_r",
    "ratio",
    source="even distribution over one division, GUM F.2.2.1 (from memory)",
    valid={"reading_division": (0.0, None)},
    outside="a division has no sign",
)
def rounding_uncertainty(reading_division: Num) -> Num:
    """Standard uncertainty of what was rounded off, to the nearest mark of a scale."""
    result: Num = reading_division / np.sqrt(12.0)
    return result


@formula("u_B", "ratio", source="triangular distribution of half-width a, GUM 4.3.9 (from memory)")
def triangle_uncertainty(limit_half_width: Num) -> Num:
    """Standard uncertainty of a value that surely lies within ±half-width, likeliest amid."""
    result: Num = limit_half_width / np.sqrt(6.0)
    return result


@formula("a", "ratio", source="triangular distribution turned round, GUM 4.3.9 (from memory)")
def triangle_half_width(standard_uncertainty: Num) -> Num:
    """Half-width of the triangle that has this standard uncertainty."""
    result: Num = standard_uncertainty * np.sqrt(6.0)
    return result


@formula("u_c", "ratio", source="law of propagation for a sum, GUM 5.1.2 (from memory)")
def combined_uncertainty(scatter_uncertainty: Num, tool_uncertainty: Num) -> Num:
    """Scatter and tool together."""
    result: Num = np.sqrt(scatter_uncertainty**2 + tool_uncertainty**2)
    return result
