"""Which unknowns widen the answer most: what to measure next."""

from __future__ import annotations

import math
from collections.abc import Container, Mapping

import numpy as np

from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show, significant
from axlewright.studies.report import MeasureNext

HOW_MANY = 3
_UNIFORM_VARIANCE = 1.0 / 12.0
_WORTH_MEASURING = 0.01
_MARGIN = 4.0
"""Added to the chance of the luckiest, so that it is rarely reached."""


def shares(
    samples: Samples, answer: Array, names: Container[str] | None = None
) -> dict[str, float]:
    """First-order share of each draw in the variance of the answer, or of the named draws only.

    For a number: the squared correlation of its rank with the answer.  For an unknown kind: the
    variance between kinds over the whole.
    """
    centred = answer - np.mean(answer)
    total = float(np.mean(centred * centred))
    if total <= 0.0:
        return {}
    out = {}
    for name, u in samples.draws.items():
        if name not in samples.kinds and (names is None or name in names):
            along = float(u @ centred) / centred.size
            out[name] = along * along / (_UNIFORM_VARIANCE * total)
    for name, index in samples.kinds.items():
        groups = [centred[index == k] for k in range(int(index.max()) + 1)]
        between = sum(g.size * float(np.mean(g)) ** 2 for g in groups if g.size) / centred.size
        out[name] = between / total
    return out


def least_share(samples: Samples, count: int) -> float:
    """Share that is worth a word, and more than chance would give the luckiest of all inputs.

    Of m idle inputs the largest squared correlation with n values is about 2 ln(m)/n (derived).
    """
    chance = 2.0 * math.log(max(len(samples.draws), 2)) + _MARGIN
    return max(_WORTH_MEASURING, chance / count)


def measure_next(
    inputs: Mapping[str, Estimate | Kinds], samples: Samples, answer: Array
) -> tuple[MeasureNext, ...]:
    """The unknowns that a builder can measure, most telling first; at most three."""
    found: dict[str, MeasureNext] = {}
    least = least_share(samples, answer.size)
    telling = {name: known for name, known in inputs.items() if known.advice}
    by_name = shares(samples, answer, telling)
    for name, share in sorted(by_name.items(), key=lambda item: -item[1]):
        known = telling.get(name)
        if known is None or share < least:
            continue
        if known.advice in {f.advice for f in found.values()}:
            continue  # one measurement settles both
        found[name] = MeasureNext(name, known.means, _now(known), known.advice, share)
        if len(found) == HOW_MANY:
            break
    return tuple(found.values())


def _now(known: Estimate | Kinds) -> str:
    if isinstance(known, Kinds):
        return " or ".join(known.kinds)
    low, high = getattr(known.spread, "low", None), getattr(known.spread, "high", None)
    if low is not None and high is not None:
        return f"{show(low, known.dimension)} to {show(high, known.dimension)}"
    share = getattr(known.spread, "share", 0.0)
    return f"{show(known.value, known.dimension)}, scatter {significant(share * 100, 2)} %"
