"""Readings that must add up: weighted least squares, whether they do, and which one is to blame.

Each *relation* says that a sum of readings is nothing: left + right - total = 0.  With the
readings l, their standard uncertainties in Q = diag(u²) and the relations B, the misclosures are
w = B·l, and the least change that makes all of them vanish is

    v = -Q·Bᵀ·(B·Q·Bᵀ)⁻¹·w          chi-square = wᵀ·(B·Q·Bᵀ)⁻¹·w

Adjustment of observations only; testing each reading by its normalized residual is Baarda's data
snooping (both from memory, as textbooks of surveying have them).  What nobody measured is taken
out first, and worked out last where the relations leave no choice.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.measuring.distributions import chi_square_beyond
from axlewright.quantities.formula import Array

_ZERO = 1e-9


@dataclass(frozen=True)
class Relation:
    """A sum that must vanish: its name in words, the share of each quantity, a constant."""

    name: str
    shares: Mapping[str, float]
    constant: float = 0.0


@dataclass(frozen=True)
class Adjusted:
    """Readings brought together; arrays follow ``names``, those that a relation holds."""

    names: tuple[str, ...]
    relations: tuple[Relation, ...]
    readings: Array
    uncertainties: Array
    corrections: Array
    """What is added to each reading."""
    smoother: Array
    """The adjusted values as sums of the readings: value = smoother · readings."""
    redundancy: Array
    """How much of an error in each reading the others would show: 0 none, 1 all of it."""
    normalized: Array
    """Each correction over its own standard deviation; 0 where nothing checks the reading."""
    together: Array
    """Correlation between normalized residuals; ±1 means that two cannot be told apart."""
    sums: tuple[str, ...]
    """Names of the relations without what nobody measured."""
    closing: Array
    """Shares of the readings in each of these."""
    gain: Array
    """How much of what each of these leaves open is taken off each reading."""
    chi_square: float
    freedom: int
    unmeasured: Mapping[str, tuple[tuple[str, float], ...]]
    """What nobody measured but the relations give: as a sum of adjusted values."""

    @property
    def chance(self) -> float:
        """Probability that honest readings close no better than these."""
        return chi_square_beyond(self.chi_square, self.freedom) if self.freedom else 1.0

    @property
    def values(self) -> Array:
        """The adjusted values."""
        adjusted: Array = self.readings + self.corrections
        return adjusted

    @property
    def spread(self) -> Array:
        """Standard uncertainty of each adjusted value."""
        variance = np.sum(self.smoother**2 * self.uncertainties**2, axis=1)
        result: Array = np.sqrt(variance)
        return result


def adjust(readings: Mapping[str, tuple[float, float]], relations: Sequence[Relation]) -> Adjusted:
    """Bring readings (value, standard uncertainty) together under the relations."""
    names = tuple(n for n in readings if any(n in r.shares for r in relations))
    lacking = tuple(dict.fromkeys(n for r in relations for n in r.shares if n not in readings))
    known = np.array([[r.shares.get(n, 0.0) for n in names] for r in relations])
    free = np.array([[r.shares.get(n, 0.0) for n in lacking] for r in relations])
    keep = _kept(free.reshape((len(relations), -1)))
    closing = keep @ known.reshape((len(relations), -1))
    constant = keep @ np.array([r.constant for r in relations])
    real = np.any(np.abs(closing) > _ZERO, axis=1)
    values = np.array([readings[n][0] for n in names])
    spreads = np.array([readings[n][1] for n in names])
    sums = _named(keep[real], relations)
    parts = _parts(closing[real], closing[real] @ values + constant[real], spreads)
    given = _given(known.reshape((len(relations), -1)), free, names, lacking)
    return Adjusted(
        names, tuple(relations), values, spreads, *parts[:5], sums, *parts[5:], given
    )  # fmt: skip


def _kept(free: Array) -> Array:
    """Relations that were read in full, and combinations of the rest that lack nothing."""
    lacks = np.any(np.abs(free) > _ZERO, axis=1)
    full = np.eye(len(free))[~lacks]
    if not lacks.any():
        return np.asarray(full)
    left, sizes, _ = np.linalg.svd(free[lacks])
    rank = int(np.sum(sizes > _ZERO))
    combined = np.zeros((left.shape[0] - rank, len(free)))
    combined[:, lacks] = left[:, rank:].T
    kept: Array = np.vstack((full, combined))
    return kept


def _named(kept: Array, relations: Sequence[Relation]) -> tuple[str, ...]:
    """Name of each row: of its relation, or of those that it takes together."""
    return tuple(
        " and ".join(r.name for r, part in zip(relations, row, strict=True) if abs(part) > _ZERO)
        for row in kept
    )


def _parts(
    closing: Array, misclosures: Array, spreads: Array
) -> tuple[Array, Array, Array, Array, Array, Array, Array, float, int]:
    count, freedom = len(spreads), int(np.linalg.matrix_rank(closing)) if closing.size else 0
    if freedom == 0:
        nothing = np.zeros(count)
        gain = np.zeros((count, len(closing)))
        return nothing, np.eye(count), nothing, nothing, np.eye(count), closing, gain, 0.0, 0
    cofactor = spreads**2
    weighted = cofactor[:, None] * closing.T
    weights = np.linalg.pinv(closing @ weighted)
    gain = weighted @ weights
    corrections = -gain @ misclosures
    smoother = np.eye(count) - gain @ closing
    residual = gain @ weighted.T  # covariance of the corrections
    own = np.sqrt(np.maximum(np.diag(residual), 0.0))
    redundancy = np.divide(np.diag(residual), cofactor, out=np.zeros(count), where=cofactor > 0.0)
    checked = redundancy > _ZERO
    normalized = np.divide(corrections, own, out=np.zeros(count), where=checked)
    both = np.outer(own, own)
    pairs = np.outer(checked, checked)
    together = np.divide(residual, both, out=np.zeros_like(residual), where=pairs)
    chi_square = float(misclosures @ weights @ misclosures)
    return (
        corrections, smoother, redundancy, normalized, together, closing, gain, chi_square,
        freedom,
    )  # fmt: skip


def _given(
    known: Array, free: Array, names: tuple[str, ...], lacking: tuple[str, ...]
) -> dict[str, tuple[tuple[str, float], ...]]:
    """What the relations say of each unmeasured quantity, if they leave it no choice."""
    if not lacking:
        return {}
    inverse = np.linalg.pinv(free)
    fixed = inverse @ free  # a row of the unit matrix where the quantity is determined
    shares = -inverse @ known
    found: dict[str, tuple[tuple[str, float], ...]] = {}
    for row, name in enumerate(lacking):
        alone = np.zeros(len(lacking))
        alone[row] = 1.0
        if np.allclose(fixed[row], alone, atol=1e-8):
            found[name] = tuple(
                (n, float(share))
                for n, share in zip(names, shares[row], strict=True)
                if abs(share) > _ZERO
            )
    return found
