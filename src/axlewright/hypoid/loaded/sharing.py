"""How a torque shares itself over slices that can only push: gaps closed or no load.

At every roll position the unknowns are the load of every slice and the turn of the ring.  Where a
slice carries, gap + give = lever × turn; where it does not, its load is nothing and its gap is
open; the moments about the ring's axis add up to the torque.  Newton's rule on the set of slices
that carry (semi-smooth, all positions at once); the dent's logarithm is kept up to date with it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.hypoid.loaded import hertz
from axlewright.hypoid.loaded.compliance import Compliance, Member
from axlewright.hypoid.loaded.slices import Slices
from axlewright.quantities.formula import Array

_ROUNDS = 60
_FAINT = 1e-3
"""Share of the mean line load below which the dent is taken as proportional to the load."""
_SETTLED = 1e-9
SHALLOW = 3.0
"""A tooth is taken to be at least this many half widths of contact deep: the dent's law is one for
deep bodies, and in thinner ones it would end by giving less for more load (assumed)."""


@dataclass(frozen=True)
class Shared:
    """Load of every slice (N; position, pair, slice) and the turn of the ring (rad; position)."""

    load: Array
    turn: Array
    rounds: int


@dataclass(frozen=True)
class Places:
    """Where slices lie on a member's grid: four places around each and their weights."""

    index: NDArray[np.int64]
    weight: Array

    def spread(self, values: Array) -> Array:
        """Rows of a table by place, read at the slices (…, columns)."""
        return np.asarray(np.einsum("...k,...kc->...c", self.weight, values[self.index]))

    def gathered(self, load: Array, count: int) -> Array:
        """Loads of the slices of a line as forces at the grid's places (lines, count)."""
        lines = int(np.prod(load.shape[:-1]))
        line = np.repeat(np.arange(lines), load.shape[-1] * 4)
        force = (load[..., None] * self.weight).ravel()
        flat = np.bincount(line * count + self.index.ravel(), force, lines * count)
        return np.asarray(flat.reshape(lines, count))


def places_on(member: Member, at: Array) -> Places:
    """Straight lines between the places of a member's grid (shares along and up)."""
    cell, part = [], []
    for axis, share in ((member.along, at[0]), (member.up, at[1])):
        inside = np.clip(share, 0.0, 1.0)
        k = np.clip(np.searchsorted(axis, inside, side="right") - 1, 0, axis.size - 2)
        cell.append(k)
        part.append((inside - axis[k]) / (axis[k + 1] - axis[k]))
    (i, j), (u, v) = cell, part
    first = i * member.up.size + j
    index = np.stack([first, first + 1, first + member.up.size, first + member.up.size + 1], -1)
    weight = np.stack([(1 - u) * (1 - v), (1 - u) * v, u * (1 - v), u * v], axis=-1)
    return Places(index, weight)


def share(slices: Slices, teeth: Compliance, ring_torque: float) -> Shared:
    """Loads of the slices under a torque on the ring gear (N·m, above zero)."""
    if not ring_torque > 0.0:
        raise ValueError(
            "the torque on the ring gear must be above zero; the flank tells its sense"
        )
    real = np.broadcast_to(slices.real[..., None], slices.gap.shape)
    # Counted from where it first touches, so that faint loads do not drown in large gaps.
    free = np.where(real, slices.gap / slices.lever, np.inf).min(axis=(1, 2))
    gap = slices.gap - slices.lever * free[:, None, None]
    bending = _bending(slices, teeth)
    tables = _tables(slices, teeth)
    whole = np.where(real, slices.lever * slices.length, 0.0).sum(axis=(1, 2), keepdims=True)
    load = np.where(real, ring_torque * slices.length / whole, 0.0)
    faint = _FAINT * ring_torque / whole
    carrying = real.copy()
    for rounds in range(1, _ROUNDS + 1):
        dent, softness = _dent(slices, teeth, load, faint)
        beside = _beside(tables, load)
        apart = gap + beside + dent - softness * load
        found, turn = _step(bending, softness, apart, carrying, slices.lever, ring_torque)
        give = np.matmul(bending, found[..., None])[..., 0]
        open_by = gap + beside + give - slices.lever * turn[:, None, None]
        after = np.where(carrying, found > 0.0, open_by < 0.0) & real
        change = np.abs(found - load).max() / np.abs(found).max()
        load = np.where(after & carrying, np.maximum(found, 0.0), 0.0)
        if (after == carrying).all() and change < _SETTLED:
            return Shared(found, free + turn, rounds)
        carrying = _never_none(after, np.where(real, open_by, np.inf))
    raise ArithmeticError("the load did not settle over the lines of contact")


def _never_none(carrying: NDArray[np.bool_], open_by: Array) -> NDArray[np.bool_]:
    """At least the nearest slice of every position carries."""
    positions = carrying.shape[0]
    some = carrying.reshape(positions, -1).copy()
    rows = np.flatnonzero(~some.any(axis=1))
    some[rows, np.argmin(open_by.reshape(positions, -1)[rows], axis=1)] = True
    return some.reshape(carrying.shape)


def _bending(slices: Slices, teeth: Compliance) -> Array:
    """Give of every slice per load of another of its line (position, pair, slice, slice)."""
    both = []
    for member, at in ((teeth.ring, slices.ring_at), (teeth.pinion, slices.pinion_at)):
        rows = places_on(member, at).spread(member.factor)
        both.append(np.matmul(rows, rows.transpose(0, 1, 3, 2)))
    return np.asarray(both[0] + both[1])


def _tables(slices: Slices, teeth: Compliance) -> tuple[Array, Array]:
    """How every slice rides on the pair behind it, and moves the pair ahead of it."""
    ahead, behind = [], []
    for member, at in ((teeth.ring, slices.ring_at), (teeth.pinion, slices.pinion_at)):
        places = places_on(member, at)
        ahead.append(places.spread(member.ahead))
        behind.append(places.spread(member.behind))
    return np.concatenate(ahead, axis=-1), np.concatenate(behind, axis=-1)


def _beside(tables: tuple[Array, Array], load: Array) -> Array:
    """Give of every slice by the loads on the pairs beside its own."""
    ahead, behind = tables
    onward, backward = (np.einsum("pjmc,pjm->pjc", t, load) for t in (behind, ahead))
    give = np.zeros_like(load)
    give[:, 1:] += np.einsum("pjmc,pjc->pjm", ahead[:, 1:], onward[:, :-1])
    give[:, :-1] += np.einsum("pjmc,pjc->pjm", behind[:, :-1], backward[:, 1:])
    return give


def _dent(slices: Slices, teeth: Compliance, load: Array, faint: Array) -> tuple[Array, Array]:
    """Dent of both teeth under a slice (m) and how it grows with its load (m/N)."""
    line = np.maximum(load / slices.length, faint)
    modulus = hertz.contact_modulus(teeth.youngs, teeth.poisson)
    width = hertz.contact_half_width(line, slices.radius, modulus)
    dent, log = np.zeros_like(line), np.zeros_like(line)
    for half in (slices.ring_half, slices.pinion_half):
        deep = np.maximum(half, SHALLOW * width)
        dent = dent + hertz.line_compression(line, width, deep, teeth.youngs, teeth.poisson)
        log = log + (half > SHALLOW * width)
    secant = dent / line
    growth = secant - log / (2.0 * np.pi * modulus)
    steep = np.where(line > faint, growth, secant)
    return np.where(line > faint, dent, secant * load / slices.length), (steep / slices.length)


def _step(
    bending: Array,
    softness: Array,
    apart: Array,
    carrying: NDArray[np.bool_],
    lever: Array,
    torque: float,
) -> tuple[Array, Array]:
    """Loads and turn with the dents made linear; pairs know each other by the turn alone."""
    both = carrying[..., :, None] & carrying[..., None, :]
    matrix = np.where(both, bending, 0.0)
    at = np.arange(carrying.shape[-1])
    matrix[..., at, at] += np.where(carrying, softness, softness.mean())
    right = np.where(carrying[..., None], np.stack([lever, -apart], axis=-1), 0.0)
    per_turn, at_rest = np.moveaxis(np.linalg.solve(matrix, right), -1, 0)
    missing = torque - np.sum(lever * at_rest, axis=(1, 2))
    turn = missing / np.sum(lever * per_turn, axis=(1, 2))
    return np.asarray(at_rest + turn[:, None, None] * per_turn), turn
