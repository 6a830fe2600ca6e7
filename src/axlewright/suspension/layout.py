"""A linkage laid out in arrays for the solver: points first by coordinate, then by piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from axlewright.quantities.formula import Array
from axlewright.suspension.linkage import Link, Linkage, spot
from axlewright.suspension.rotation import dot, unturned

Mask = NDArray[np.bool_]
FREE = ("x", "y", "steer", "nose")
"""What the links decide once height and roll are given; cranks follow."""
GIVEN = ("z", "roll")


@dataclass(frozen=True)
class CrankLayout:
    """A crank: unit axis, place of its pivot and levers of the pieces that it carries."""

    stands_on: Literal["axle", "body"]
    rows: tuple[int, ...]
    axis: Array
    pivot: Array
    levers: Array


@dataclass(frozen=True)
class Layout:
    """Numbers of a linkage: (3, pieces, samples) for points, (pieces, samples) for the rest."""

    middle: Array
    span: Array
    steer: Array
    roll: Array
    body: Array
    arms: Array
    normals: Array
    is_link: Mask
    rest: Array
    stiffness: Array
    rigid: Mask
    cranks: tuple[CrankLayout, ...]

    @property
    def free(self) -> tuple[str, ...]:
        """Coordinates that the links decide."""
        return FREE + tuple(f"crank {n}" for n in range(len(self.cranks)))

    def part(self, some: slice) -> Layout:
        """The same for some of the samples."""

        def cut(a: Array) -> Array:
            return a[..., some] if a.shape[-1] > 1 else a

        return Layout(
            cut(self.middle), cut(self.span), cut(self.steer), cut(self.roll),
            cut(self.body), cut(self.arms), cut(self.normals), self.is_link,
            cut(self.rest), cut(self.stiffness), self.rigid,
            tuple(
                CrankLayout(c.stands_on, c.rows, cut(c.axis), cut(c.pivot), cut(c.levers))
                for c in self.cranks
            ),
        )  # fmt: skip


def samples_of(linkage: Linkage) -> tuple[int, ...]:
    """Shape of the samples that points and stiffnesses bring along; () when they bring none."""
    points = [linkage.wheels.left, linkage.wheels.right]
    for piece in linkage.pieces:
        points += [piece.body, piece.axle] + ([] if isinstance(piece, Link) else [piece.direction])
    for crank in linkage.cranks:
        points += [crank.pivot, crank.direction]
    shapes = [spot(p).shape[:-1] for p in points]
    shapes += [np.shape(p.stiffness) for p in linkage.pieces]
    shapes += [np.shape(p.lengthened) for p in linkage.pieces]
    return np.broadcast_shapes(*shapes)


def lay_out(linkage: Linkage, shape: tuple[int, ...]) -> Layout:
    """Arrays of a linkage whose samples are spread over ``shape`` and then put in one row."""
    full = shape if samples_of(linkage) else ()
    left, right = (_points([p], full)[:, 0] for p in (linkage.wheels.left, linkage.wheels.right))
    middle, span, steer, roll = axle_line(left, right)
    body = _points([p.body for p in linkage.pieces], full)
    axle = _points([p.axle for p in linkage.pieces], full)
    normals = _points([_normal(p) for p in linkage.pieces], full)
    is_link = np.array([isinstance(p, Link) for p in linkage.pieces])
    between = axle - body
    measured = np.where(is_link[:, None], np.sqrt(dot(between, between)), dot(between, normals))
    if np.any(measured[is_link] < 1e-6):
        raise ValueError("a link has no length: both ends are at one place")
    stiffness = np.stack([_numbers(p.stiffness, full) for p in linkage.pieces])
    longer = np.stack([_numbers(p.lengthened, full) for p in linkage.pieces])
    return Layout(
        middle, span, steer, roll, body, unturned(axle - middle[:, None], steer, roll), normals,
        is_link, measured + longer, stiffness, np.all(np.isinf(stiffness), axis=-1),
        _cranks(linkage, full, middle, steer, roll, body, axle),
    )  # fmt: skip


def axle_line(left: Array, right: Array) -> tuple[Array, Array, Array, Array]:
    """Middle and length of the line between the wheel centers, its steer and its roll."""
    line = left - right
    span = np.sqrt(dot(line, line))
    steer = np.arctan2(-line[0], line[1])
    return 0.5 * (left + right), span, steer, np.arcsin(line[2] / span)


def _cranks(
    linkage: Linkage, shape: tuple[int, ...], middle: Array, steer: Array, roll: Array,
    body: Array, axle: Array,
) -> tuple[CrankLayout, ...]:  # fmt: skip
    found = []
    for number, crank in enumerate(linkage.cranks):
        rows = tuple(n for n, p in enumerate(linkage.pieces) if p.crank == number)
        pivot = _points([crank.pivot], shape)
        axis = _points([crank.direction], shape)
        axis = axis / np.sqrt(dot(axis, axis))
        ends = (axle if crank.stands_on == "axle" else body)[:, list(rows)]
        levers = ends - pivot
        if crank.stands_on == "axle":
            pivot = unturned(pivot - middle[:, None], steer, roll)
            axis = unturned(axis, steer, roll)
            levers = unturned(levers, steer, roll)
        found.append(CrankLayout(crank.stands_on, rows, axis, pivot, levers))
    return tuple(found)


def _normal(piece: object) -> ArrayLike:
    direction = getattr(piece, "direction", None)
    if direction is None:
        return (0.0, 0.0, 0.0)
    result = spot(direction)
    unit: Array = result / np.sqrt(np.sum(result * result, axis=-1, keepdims=True))
    return unit


def _points(points: Sequence[ArrayLike], shape: tuple[int, ...]) -> Array:
    """Points as (3, points, samples)."""
    spread = [np.broadcast_to(spot(p), (*shape, 3)).reshape(-1, 3).T for p in points]
    return np.stack(spread, axis=1)


def _numbers(value: ArrayLike, shape: tuple[int, ...]) -> Array:
    return np.broadcast_to(np.asarray(value, dtype=np.float64), shape).reshape(-1)
