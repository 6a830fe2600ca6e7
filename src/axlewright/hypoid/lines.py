"""Lines of contact on a flank: along each, which point touches first.

A line of contact is where the roll angle has one value.  On every row of constant height the roll
angle rises steadily from toe to heel, so the line is found row by row on the smooth fields, and
where the line leaves at toe or heel its end is one more candidate.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES
from axlewright.quantities.formula import Array

GRID = (41, 21)
"""Points of the picture along the face and up the profile; lines are read on its rows."""
_POLISH = 2


class Reader(NamedTuple):
    """Matrices from values at Chebyshev points to rows, to the picture and back."""

    x: Array
    y: Array
    along: Array
    up: Array
    coefficients: Array


class Touch(NamedTuple):
    """Per roll position: least gap, where (x, y), how much nearer an edge is, which edge.

    ``edge`` is 0 inside the flank, 1 root, 2 tip, 3 toe, 4 heel.
    """

    least: Array
    x: Array
    y: Array
    edge: Array


EDGES = ("", "root", "tip", "toe", "heel")


@lru_cache(maxsize=4)
def reader(grid: tuple[int, int] = GRID) -> Reader:
    """Reading matrices of a picture's size, made once."""
    x, y = np.linspace(-1.0, 1.0, grid[0]), np.linspace(-1.0, 1.0, grid[1])
    cx, cy = (chebyshev.to_coefficients(n) for n in NODES)
    return Reader(x, y, chebyshev.basis(x, NODES[0]) @ cx, chebyshev.basis(y, NODES[1]) @ cy, cx)


def picture(field: Array, read: Reader) -> Array:
    """A field on the picture's points (along, up)."""
    return np.asarray(read.along @ field @ read.up.T)


def touch(roll: Array, gap: Array, levels: Array, read: Reader, close: float) -> Touch:
    """Least gap along the line of contact at each roll angle; infinite where there is no line.

    ``close`` is by how much an edge must be nearer than the inside to be called an edge contact.
    """
    by_row = roll @ read.up.T, gap @ read.up.T
    sense = 1.0 if by_row[0][-1, 0] > by_row[0][0, 0] else -1.0
    shown = sense * (read.along @ by_row[0])
    target = sense * levels
    at: Array = np.stack([np.interp(target, shown[:, j], read.x) for j in range(read.y.size)], 1)
    roll_c, gap_c = (read.coefficients @ field for field in by_row)
    slope = np.asarray(np.polynomial.chebyshev.chebder(roll_c, axis=0), dtype=np.float64)
    for _ in range(_POLISH):
        off = chebyshev.rows_at(roll_c, at) - levels[:, None]
        at = np.asarray(np.clip(at - off / chebyshev.rows_at(slope, at), -1.0, 1.0))
    on = (target[:, None] >= shown[0]) & (target[:, None] <= shown[-1])
    gaps = np.where(on, chebyshev.rows_at(gap_c, at), np.inf)
    return _with_ends(shown, read.along @ by_row[1], target, at, gaps, read, close)


def _with_ends(
    shown: Array, gap: Array, target: Array, at: Array, gaps: Array, read: Reader, close: float
) -> Touch:
    """Least of the rows (refined by a parabola) and of the line's ends at toe and heel."""
    j = np.argmin(gaps, axis=1)
    least, x, y = _refined(gaps, at, j, read.y)
    inner = gaps[:, 1:-1].min(axis=1)
    ends = np.where(j == 0, 1, np.where(j == read.y.size - 1, 2, 0))
    edge = np.where(least < inner - close, ends, 0)
    for which, end in ((3, 0), (4, -1)):
        height, there = _crossing(shown[end], gap[end], target, read.y)
        nearer = there < least - np.where(np.isfinite(least), close, 0.0)
        x = np.where(nearer, read.x[end], x)
        y = np.where(nearer, height, y)
        edge = np.where(nearer, which, edge)
        least = np.minimum(least, there)
    x = np.where(np.isfinite(least), x, np.nan)
    return Touch(least, x, np.where(np.isfinite(least), y, np.nan), edge)


def _refined(gaps: Array, at: Array, j: Array, y: Array) -> tuple[Array, Array, Array]:
    """Vertex of the parabola through the least row and its neighbors, where it has both."""
    rows = np.arange(j.size)
    mid = np.clip(j, 1, y.size - 2)
    a, b, c = (gaps[rows, mid + k] for k in (-1, 0, 1))
    with np.errstate(invalid="ignore"):
        bend = a - 2.0 * b + c
        whole = (mid == j) & np.isfinite(bend) & (bend > 0.0)
        shift = np.where(whole, 0.5 * (a - c) / np.where(whole, bend, 1.0), 0.0)
        drop = np.where(whole, 0.25 * (a - c) * shift, 0.0)
    step = np.where(shift >= 0.0, 1, -1) * (shift != 0.0)
    beside = np.clip(j + step, 0, y.size - 1)
    x = at[rows, j] + np.abs(shift) * (at[rows, beside] - at[rows, j])
    return gaps[rows, j] - drop, x, y[j] + shift * (y[1] - y[0])


def _crossing(roll: Array, gap: Array, target: Array, y: Array) -> tuple[Array, Array]:
    """Height and gap where a line ends at toe or heel; infinite gap where it does not."""
    order = np.argsort(roll)
    height = np.interp(target, roll[order], y[order])
    there = np.interp(height, y, gap)
    ends = (target >= roll[order[0]]) & (target <= roll[order[-1]])
    return height, np.where(ends, there, np.inf)
