"""Student's t and chi-square in closed sums: for whole degrees of freedom no library is needed.

Formulas 26.7.3 to 26.7.4 and 26.4.4 to 26.4.5 of Abramowitz and Stegun (from memory); tests hold
them to SciPy.
"""

from __future__ import annotations

import functools
import math


def t_two_sided(t: float, freedom: int) -> float:
    """Probability that Student's t with whole degrees of freedom lies within ±t."""
    if freedom < 1:
        raise ValueError("Student's t needs at least one degree of freedom")
    angle = math.atan2(abs(t), math.sqrt(freedom))
    cosine, sine = math.cos(angle), math.sin(angle)
    square = cosine * cosine
    if freedom % 2:
        term, total = cosine, 0.0
        for n in range(1, freedom - 1, 2):
            total += term
            term *= square * (n + 1) / (n + 2)
        return 2.0 / math.pi * (angle + sine * total)
    term, total = 1.0, 0.0
    for n in range(0, freedom - 1, 2):
        total += term
        term *= square * (n + 1) / (n + 2)
    return sine * total


@functools.lru_cache(maxsize=256)
def t_factor(share: float, freedom: int) -> float:
    """How many standard deviations either side hold that share of Student's t."""
    if not 0.0 < share < 1.0:
        raise ValueError("a share lies between 0 and 1")
    high = 1.0
    while t_two_sided(high, freedom) < share:
        high *= 2.0
    low = 0.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if t_two_sided(middle, freedom) < share:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def chi_square_beyond(chi_square: float, freedom: int) -> float:
    """Probability that chi-square with whole degrees of freedom is larger than this."""
    if freedom < 1:
        raise ValueError("chi-square needs at least one degree of freedom")
    if chi_square <= 0.0:
        return 1.0
    half = 0.5 * chi_square
    if freedom % 2:
        total = math.erfc(math.sqrt(half))
        term = math.sqrt(4.0 * half / math.pi) * math.exp(-half)
        for n in range(1, freedom, 2):
            total += term
            term *= chi_square / (n + 2)
        return min(total, 1.0)
    term, total = math.exp(-half), 0.0
    for n in range(freedom // 2):
        total += term
        term *= half / (n + 1)
    return min(total, 1.0)


@functools.lru_cache(maxsize=256)
def chi_square_limit(share: float, freedom: int) -> float:
    """Value of chi-square that is exceeded with the remaining probability."""
    high = float(freedom)
    while chi_square_beyond(high, freedom) > 1.0 - share:
        high *= 2.0
    low = 0.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if chi_square_beyond(middle, freedom) > 1.0 - share:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
