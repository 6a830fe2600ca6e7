"""Reading and loading a grid of places on a flank between its points, by straight lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.formula import Array


class Gridded(Protocol):
    """Whatever knows its places, shares along the face and up the tooth."""

    @property
    def along(self) -> Array:
        """Shares of the face."""

    @property
    def up(self) -> Array:
        """Shares of the depth."""


@dataclass(frozen=True)
class Places:
    """Four places of a grid around each point, and their weights."""

    index: NDArray[np.int64]
    weight: Array

    def spread(self, values: Array) -> Array:
        """Rows of a table by place, read at the points (…, columns)."""
        return np.asarray(np.einsum("...k,...kc->...c", self.weight, values[self.index]))

    def gathered(self, load: Array, count: int) -> Array:
        """Loads of the points of a line as forces at the grid's places (lines, count)."""
        lines = int(np.prod(load.shape[:-1]))
        line = np.repeat(np.arange(lines), load.shape[-1] * 4)
        force = (load[..., None] * self.weight).ravel()
        flat = np.bincount(line * count + self.index.ravel(), force, lines * count)
        return np.asarray(flat.reshape(lines, count))


def places_on(grid: Gridded, at: Array) -> Places:
    """Straight lines between the places of a grid (shares along and up)."""
    cell, part = [], []
    for axis, share in ((grid.along, at[0]), (grid.up, at[1])):
        inside = np.clip(share, 0.0, 1.0)
        k = np.clip(np.searchsorted(axis, inside, side="right") - 1, 0, axis.size - 2)
        cell.append(k)
        part.append((inside - axis[k]) / (axis[k + 1] - axis[k]))
    (i, j), (u, v) = cell, part
    first = i * grid.up.size + j
    index = np.stack([first, first + 1, first + grid.up.size, first + grid.up.size + 1], -1)
    weight = np.stack([(1 - u) * (1 - v), (1 - u) * v, u * (1 - v), u * v], axis=-1)
    return Places(index, weight)
