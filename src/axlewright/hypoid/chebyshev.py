"""Smooth fields over a rectangle, known at Chebyshev points and read anywhere (numerics only)."""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Array


def nodes(count: int) -> Array:
    """Points on -1…1, both ends among them, rising."""
    return np.asarray(-np.cos(np.pi * np.arange(count) / (count - 1)))


def to_coefficients(count: int) -> Array:
    """Matrix from values at the points to coefficients of the polynomials."""
    return np.asarray(np.linalg.inv(basis(nodes(count), count)))


def basis(at: Array, count: int) -> Array:
    """First ``count`` Chebyshev polynomials at points (n,): (n, count)."""
    angle = np.arccos(np.clip(at, -1.0, 1.0))
    return np.asarray(np.cos(np.multiply.outer(angle, np.arange(count))))


def derivative(count: int) -> Array:
    """Matrix from values to values of the derivative, at the points."""
    x = nodes(count)
    weight = np.ones(count)
    weight[[0, -1]] = 2.0
    weight *= (-1.0) ** np.arange(count)
    gap = np.subtract.outer(x, x) + np.eye(count)
    matrix = np.outer(weight, 1.0 / weight) / gap
    return np.asarray(matrix - np.diag(matrix.sum(axis=1)))


def rows_at(coefficients: Array, at: Array) -> Array:
    """Value of row polynomials (count, rows) at points (levels, rows), by Clenshaw's rule."""
    twice = 2.0 * at
    one = np.zeros_like(at)
    two = np.zeros_like(at)
    for c in coefficients[:0:-1]:
        one, two = twice * one - two + c, one
    return np.asarray(at * one - two + coefficients[0])
