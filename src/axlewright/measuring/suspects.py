"""Which reading is to blame where sums do not close, and what would tell suspects apart.

Data snooping after Baarda (from memory): the reading with the largest normalized residual is the
likeliest single blunder, and only the likeliest.  Readings whose residuals are fully correlated
show the same picture whichever of them is wrong; only another reading can tell them apart.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.measuring.network import Adjusted, Relation, adjust

RISK = 0.01
"""Chance that honest readings are called a contradiction."""
LARGEST = 3.29
"""Normalized residual that honest readings exceed once in a thousand (normal distribution)."""
_ALIKE = 0.999
_NONE = 1e-6
_TOLD = 0.95
Readings = Mapping[str, tuple[float, float]]


@dataclass(frozen=True)
class Verdict:
    """Whether readings agree; if not, who is suspected and by how much it is off."""

    agree: bool
    chance: float
    worst: float
    """Largest normalized residual."""
    suspects: tuple[str, ...]
    """The likeliest blunder and those that cannot be told from it."""
    errors: tuple[float, ...]
    """How far each suspect would be off, if it is the one: reading less truth."""
    unchecked: tuple[str, ...]
    """Readings whose errors no other reading would show."""


def judge(adjusted: Adjusted) -> Verdict:
    """What the residuals say."""
    unchecked = tuple(
        n for n, r in zip(adjusted.names, adjusted.redundancy, strict=True) if r < _NONE
    )
    if adjusted.freedom == 0:
        return Verdict(True, 1.0, 0.0, (), (), unchecked)
    sizes = np.abs(adjusted.normalized)
    first = int(np.argmax(sizes))
    worst = float(sizes[first])
    agree = adjusted.chance >= RISK and worst <= LARGEST
    if agree:
        return Verdict(True, adjusted.chance, worst, (), (), unchecked)
    alike = [n for n in range(len(sizes)) if abs(adjusted.together[first, n]) > _ALIKE]
    errors = tuple(float(-adjusted.corrections[n] / adjusted.redundancy[n]) for n in alike)
    names = tuple(adjusted.names[n] for n in alike)
    return Verdict(False, adjusted.chance, worst, names, errors, unchecked)


def would_tell(
    readings: Readings,
    relations: Sequence[Relation],
    suspects: Sequence[str],
    spreads: Mapping[str, float],
) -> tuple[tuple[str, ...], ...]:
    """Which further readings would tell some of the suspects apart, fewest and best first.

    What one relation still lacks is put in together; the value does not matter, only its place in
    the sums, so nothing will do.  ``spreads`` holds the standard uncertainty of what can be read.
    """
    found: dict[tuple[str, ...], float] = {}
    for relation in relations:
        lacking = tuple(n for n in relation.shares if n not in readings)
        if not lacking or not all(n in spreads for n in lacking):
            continue
        more = adjust({**readings, **{n: (0.0, spreads[n]) for n in lacking}}, relations)
        index = [more.names.index(s) for s in suspects]
        alike = np.abs(more.together[np.ix_(index, index)])[np.triu_indices(len(index), 1)]
        if alike.size and alike.min() < _TOLD and min(more.redundancy[index]) > _NONE:
            found[lacking] = float(alike.mean())
    return tuple(sorted(found, key=lambda names: (len(names), found[names])))


@dataclass(frozen=True)
class Explanation:
    """One mistake that would explain everything: words, and the chance of the rest after it."""

    what: str
    names: tuple[str, ...]
    chance: float


@dataclass(frozen=True)
class Mistake:
    """A mistake that people make, as what it would have done to the readings."""

    what: str
    added: Mapping[str, float]
    """By how much each reading would be too large."""


_EXPLAINED = 0.05


def explanations(
    readings: Readings, relations: Sequence[Relation], mistakes: Sequence[Mistake]
) -> tuple[Explanation, ...]:
    """Mistakes after whose correction all sums close, likeliest first.

    A blunder of any size would explain as well; that a known thickness does is the better hint.
    """
    found: list[Explanation] = []
    for mistake in mistakes:
        if not all(name in readings for name in mistake.added):
            continue
        right = {
            n: (value - mistake.added.get(n, 0.0), spread)
            for n, (value, spread) in readings.items()
        }
        after = judge(adjust(right, relations))
        if after.agree and after.chance > _EXPLAINED:
            found.append(Explanation(mistake.what, tuple(mistake.added), after.chance))
    return tuple(sorted(found, key=lambda e: -e.chance))


def swapped(readings: Readings, pairs: Sequence[tuple[str, str]]) -> tuple[Mistake, ...]:
    """Left and right written down the wrong way round, for each pair of which both were read."""
    made: list[Mistake] = []
    for left, right in pairs:
        if left in readings and right in readings:
            apart = readings[left][0] - readings[right][0]
            made.append(Mistake(f"{left} and {right} are swapped", {left: apart, right: -apart}))
    return tuple(made)
