"""Bricks of 27 nodes: stiffness of a body and what loads at its nodes do (linear elastic).

The plain displacement method with three-point Gauss integration, quadratic in all directions, so
that a thin tooth bends without locking.  Nothing here knows a gear.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.formula import Array

Index = NDArray[np.int64]

_GAUSS = np.array([-np.sqrt(0.6), 0.0, np.sqrt(0.6)])
_WEIGHT = np.array([5.0, 8.0, 5.0]) / 9.0


def slopes(at: Array) -> Array:
    """Derivatives of the 27 shape functions at local points (n, 3): (n, 3, 27)."""
    value = np.stack([0.5 * at * (at - 1.0), 1.0 - at * at, 0.5 * at * (at + 1.0)], axis=-1)
    slope = np.stack([at - 0.5, -2.0 * at, at + 0.5], axis=-1)
    found = []
    for k in range(3):
        f = [slope[:, i] if i == k else value[:, i] for i in range(3)]
        found.append(np.einsum("na,nb,nc->nabc", *f).reshape(-1, 27))
    return np.stack(found, axis=1)


@lru_cache(maxsize=1)
def _rule() -> tuple[Array, Array]:
    at = np.stack(np.meshgrid(_GAUSS, _GAUSS, _GAUSS, indexing="ij"), -1).reshape(-1, 3)
    weight = np.einsum("a,b,c->abc", _WEIGHT, _WEIGHT, _WEIGHT).ravel()
    return slopes(at), weight


def gradients(corners: Array, local: Array) -> tuple[Array, Array]:
    """Derivatives of the shape functions in space (bricks, n, 27, 3), and the volume's measure."""
    jacobian = np.einsum("nka,bac->bnkc", local, corners)
    measure = np.linalg.det(jacobian)
    if (measure * measure.flat[0] <= 0.0).any():
        raise ArithmeticError("a brick of the tooth is turned inside out")
    space = np.einsum("bnck,nka->bnac", np.linalg.inv(jacobian), local)
    return space, np.abs(measure)


def stiffness_of(corners: Array, youngs: float, poisson: float) -> Array:
    """Stiffness (bricks, 81, 81) of bricks whose nodes lie at ``corners`` (bricks, 27, 3)."""
    local, weight = _rule()
    space, measure = gradients(corners, local)
    count = corners.shape[0]
    flat = space.reshape(count, -1, 81)
    pairs = np.matmul((flat * (measure * weight)[..., None]).transpose(0, 2, 1), flat)
    pairs = pairs.reshape(count, 27, 3, 27, 3)
    lame, shear = lame_constants(youngs, poisson)
    whole = lame * pairs + shear * pairs.transpose(0, 1, 4, 3, 2)
    trace = shear * np.einsum("bicjc->bij", pairs)
    for k in range(3):
        whole[:, :, k, :, k] += trace
    return np.asarray(whole.reshape(count, 81, 81))


def lame_constants(youngs: float, poisson: float) -> tuple[float, float]:
    """Lamé's two constants."""
    return (
        youngs * poisson / ((1.0 + poisson) * (1.0 - 2.0 * poisson)),
        youngs / (2.0 * (1.0 + poisson)),
    )


def solver(
    points: Array, bricks: Index, held: NDArray[np.bool_], youngs: float, poisson: float
) -> Callable[[Array], Array]:
    """Displacements (nodes·3, loads) of a body that is held at some nodes, for loads alike."""
    from scipy.sparse import csc_matrix  # noqa: PLC0415 - only who asks for the loaded tooth waits
    from scipy.sparse.linalg import splu  # noqa: PLC0415

    size = 3 * points.shape[0]
    free = np.flatnonzero(np.repeat(~held, 3))
    where = np.full(size, -1, dtype=np.int64)
    where[free] = np.arange(free.size)
    own = where[(3 * bricks[:, :, None] + np.arange(3)).reshape(-1, 81)]
    rows = np.broadcast_to(own[:, :, None], (*own.shape, 81))
    columns = np.broadcast_to(own[:, None, :], rows.shape)
    kept = (rows >= 0) & (columns >= 0)
    values = stiffness_of(points[bricks], youngs, poisson)
    matrix = csc_matrix((values[kept], (rows[kept], columns[kept])), shape=(free.size, free.size))
    factors = splu(
        matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True}
    )

    def answer(loads: Array) -> Array:
        moved = np.zeros_like(loads)
        moved[free] = factors.solve(np.ascontiguousarray(loads[free]))
        return moved

    return answer


def stress_rows(corners: Array, at: Array, youngs: float, poisson: float) -> Array:
    """Stress (xx, yy, zz, yz, zx, xy) per displacement of a brick: (bricks, points, 6, 81)."""
    space, _ = gradients(corners, slopes(at))
    lame, shear = lame_constants(youngs, poisson)
    rows = np.zeros((*space.shape[:2], 6, 27, 3))
    for k in range(3):
        for m in range(3):
            rows[:, :, k, :, m] = (lame + 2.0 * shear if k == m else lame) * space[..., m]
    for row, (k, m) in zip((3, 4, 5), ((1, 2), (2, 0), (0, 1)), strict=True):
        rows[:, :, row, :, k] = shear * space[..., m]
        rows[:, :, row, :, m] = shear * space[..., k]
    return np.asarray(rows.reshape(*space.shape[:2], 6, 81))
