"""How far each link is from its length, and how that changes as the axle moves (exact slopes).

For the vector v from a piece's end on the body to that on the axle, a link has the length |v| and
a guide the distance n·v along its direction n.  With w = v/|v| or w = n the slope to coordinate i
is w·v_i, and the bend (v_i·v_j − (w·v_i)(w·v_j))/|v| + w·v_ij, without its first part for a guide.
A turn about the axis a moves an arm r by a × r, so that w·v_i = a·(r × w).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Array
from axlewright.suspension.layout import CrankLayout, Layout
from axlewright.suspension.rotation import Stand, about, across_z, cross, dot

_ORDER = ("steer", "roll", "nose")
"""Outermost turn first."""


@dataclass(frozen=True)
class Closure:
    """A linkage at one stand: lengths, directions, arms, and levers of the cranks."""

    layout: Layout
    stand: Stand
    length: Array
    along: Array
    per_length: Array
    arms: Array
    moments: Array
    cranks: tuple[Array, ...]
    """How the vectors of all pieces move with each crank, (3, pieces, samples)."""
    crank_axes: tuple[Array, ...]

    @property
    def miss(self) -> Array:
        """Meters by which each piece is longer than it should be."""
        missing: Array = self.length - self.layout.rest
        return missing

    def slope(self, coordinate: str) -> Array:
        """Change of the lengths with a coordinate, (pieces, samples)."""
        if coordinate in {"x", "y", "z"}:
            result: Array = self.along["xyz".index(coordinate)]
            return result
        if coordinate == "steer":
            steer: Array = self.moments[2]
            return steer
        if coordinate == "roll":
            return dot(self.stand.roll_line[:, None], self.moments)
        if coordinate == "nose":
            return -dot(self.stand.axle_line[:, None], self.moments)
        return dot(self.along, self.cranks[_number(coordinate)])

    def slopes(self, coordinates: Sequence[str]) -> Array:
        """Slopes to several coordinates, (coordinates, pieces, samples)."""
        return np.stack(np.broadcast_arrays(*(self.slope(c) for c in coordinates)))

    def vector(self, coordinate: str) -> Array:
        """How the vectors of the pieces move with a coordinate."""
        if coordinate in {"x", "y", "z"}:
            unit: Array = _UNIT["xyz".index(coordinate)]
            return unit
        if coordinate in _ORDER:
            return self._turn(coordinate, self.arms)
        return self.cranks[_number(coordinate)]

    def _turn(self, coordinate: str, arms: Array) -> Array:
        if coordinate == "steer":
            return across_z(arms)
        if coordinate == "roll":
            return cross(self.stand.roll_line[:, None], arms)
        return cross(arms, self.stand.axle_line[:, None])

    def bend_vector(self, one: str, other: str, vectors: dict[str, Array]) -> Array | None:
        """Second change of the vectors of the pieces; None where there is none."""
        if one in {"x", "y", "z"} or other in {"x", "y", "z"}:
            return None
        if one not in _ORDER and other not in _ORDER:
            return self._crank_bend(_number(one)) if one == other else None
        outer, inner = sorted((one, other), key=_rank)
        if inner not in _ORDER and self.layout.cranks[_number(inner)].stands_on == "body":
            return None
        return self._turn(outer, vectors[inner])

    def _crank_bend(self, number: int) -> Array:
        return cross(self.crank_axes[number], self.cranks[number])

    def bends(self, weights: Array, coordinates: Sequence[str], slopes: Array) -> Array:
        """Second change of the lengths, weighted and added up over the pieces: (c, c, samples)."""
        count = len(coordinates)
        vectors = {c: self.vector(c) for c in coordinates}
        across = weights * self.per_length
        pulled = weights * self.along
        result = np.empty((count, count, slopes.shape[-1]))
        for i, one in enumerate(coordinates):
            for j in range(i, count):
                other = coordinates[j]
                part = across * (dot(vectors[one], vectors[other]) - slopes[i] * slopes[j])
                second = self.bend_vector(one, other, vectors)
                if second is not None:
                    part = part + dot(pulled, second)
                result[i, j] = result[j, i] = part.sum(axis=0)
        return result


_UNIT = np.eye(3)[:, :, None, None]


def _number(coordinate: str) -> int:
    return int(coordinate.removeprefix("crank "))


def _rank(coordinate: str) -> int:
    return _ORDER.index(coordinate) if coordinate in _ORDER else len(_ORDER)


def close(layout: Layout, stand: Stand, angles: Array) -> Closure:
    """Lengths and directions of all pieces where the axle stands; one row of angles a crank."""
    arms, body = stand.turned(layout.arms), layout.body
    moved, axes = [], []
    for crank, angle in zip(layout.cranks, angles, strict=True):
        axis, levers = crank.axis, about(crank.axis, crank.levers, angle)
        vector = np.zeros_like(arms)
        rows = list(crank.rows)
        if crank.stands_on == "axle":
            axis, levers = stand.turned(axis), stand.turned(levers)
            arms = _replaced(arms, rows, stand.turned(crank.pivot) + levers)
            vector[:, rows] = cross(axis, levers)
        else:
            body = _replaced(np.broadcast_to(body, arms.shape), rows, crank.pivot + levers)
            vector[:, rows] = -cross(axis, levers)
        moved.append(vector)
        axes.append(axis)
    between = stand.middle[:, None] + arms - body
    is_link = layout.is_link[:, None]
    size = np.sqrt(dot(between, between))
    per_length = np.divide(1.0, size, out=np.zeros_like(size), where=is_link & (size > 0.0))
    along = np.where(is_link, between * per_length, layout.normals)
    length = np.where(is_link, size, dot(between, along))
    return Closure(
        layout, stand, length, along, per_length, arms, cross(arms, along), tuple(moved),
        tuple(axes),
    )  # fmt: skip


def _replaced(points: Array, rows: list[int], new: Array) -> Array:
    result = np.array(points)
    result[:, rows] = new
    return result


def pivot_of(crank: CrankLayout, stand: Stand) -> Array:
    """Where the pivot of a crank is now, (3, samples)."""
    if crank.stands_on == "body":
        fixed: Array = crank.pivot[:, 0]
        return fixed
    result: Array = stand.middle + stand.turned(crank.pivot)[:, 0]
    return result
