"""Pairs of tooth counts: which teeth meet, how often, and the pairs that one meets in the trade.

With no common divisor every pinion tooth meets every ring tooth (a *hunting* pair): wear spreads.
With one, each pinion tooth keeps to its own set of ring teeth: such a pair is lapped together and
carries timing marks that must be lined up.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np

from axlewright.quantities.formula import Num, formula

HuntingClass = Literal["hunting", "partial", "non-hunting"]
_MEET = "which teeth meet follows from the common divisor of both counts (closed form)"


@formula("z_c", "count", source="Euclid's algorithm (closed form)", kind="solve")
def common_teeth(ring_teeth: Num, pinion_teeth: Num) -> Num:
    """Greatest number that divides both tooth counts; one in a hunting pair."""
    ring = np.rint(ring_teeth).astype(np.int64)
    pinion = np.rint(pinion_teeth).astype(np.int64)
    result: Num = np.gcd(ring, pinion).astype(np.float64)[()]
    return result


@formula("N_m", "count", source=_MEET)
def turns_until_all_met(pinion_teeth: Num, common_teeth: Num) -> Num:
    """Turns of the ring gear until every pair of teeth that ever meets has met."""
    return pinion_teeth / common_teeth


@formula("z_p", "count", source=_MEET)
def partners(ring_teeth: Num, common_teeth: Num) -> Num:
    """Ring teeth that one pinion tooth ever meets: all of them in a hunting pair."""
    return ring_teeth / common_teeth


def hunting_class(common: int, pinion: int) -> HuntingClass:
    """Hunting: all meet all; non-hunting: the pattern repeats every ring turn; partial: between."""
    if common == 1:
        return "hunting"
    return "non-hunting" if common == pinion else "partial"


class Pair(NamedTuple):
    """Ring and pinion teeth."""

    ring: int
    pinion: int


USUAL = (
    Pair(41, 15), Pair(40, 13), Pair(37, 12), Pair(39, 12), Pair(41, 12), Pair(35, 10),
    Pair(39, 11), Pair(41, 11), Pair(35, 9), Pair(43, 11), Pair(40, 10), Pair(41, 10),
    Pair(37, 9), Pair(39, 9), Pair(41, 9), Pair(39, 8), Pair(43, 8),
)  # fmt: skip
"""Pairs from 2.7 to 5.4 such as axles of cars are found with (common practice, no source)."""

_SMALL, _LARGE = 0.2096, 0.2349  # 8 1/4 and 9 1/4 in
_STEEPEST = (4.4, 4.6, 5.4)


def usual_pairs(ring_diameter: float) -> tuple[Pair, ...]:
    """Pairs worth looking at for a ring gear of this size, longest first.

    A steep ratio asks for a small pinion, and in a small ring gear little of it is left: small
    ones are seldom found past 4.4, middling ones past 4.6 (common practice, no source).
    """
    steepest = _STEEPEST[(ring_diameter > _SMALL) + (ring_diameter > _LARGE)]
    return tuple(p for p in USUAL if p.ring / p.pinion <= steepest)
