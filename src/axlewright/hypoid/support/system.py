"""Pinion, ring gear, bearings and case put together as one set of springs.

Blocks of five freedoms: the pinion's stations (mesh first, then its bearings), the ring gear's
mesh node, the ring shaft's stations (flange first, then its bearings), then one block per seat.
Each shaft has its own axes: along it first.  The pinion's are the frame's x, y, z; the ring's are
z, x, y.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.hypoid.support.bearing import Bearings
from axlewright.hypoid.support.mesh import Mesh, Movement, cross_matrix, movement_rows
from axlewright.hypoid.support.roller import Roller
from axlewright.hypoid.support.shaft import Shaft, shaft_stiffness
from axlewright.quantities.formula import Array

Indices = NDArray[np.intp]

CASES = ("pinion case", "ring case")
"""Parts that hold the seats against the ground."""

_RING_AXES = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
_PINION_AXES = np.eye(3)


@dataclass(frozen=True)
class Seat:
    """A bearing at a place of its shaft (middle of the rollers, m) with the springs of its seat.

    ``springs`` are along, across twice (N/m), tilt twice (N·m/rad), in the shaft's own axes.
    """

    name: str
    at: float
    roller: Roller
    springs: Array


@dataclass(frozen=True)
class Line:
    """A gear on its shaft with its bearings; ``flange`` the five springs between gear and shaft.

    ``preload`` is the thrust (N) without tooth load; with none, ``play`` is the end play (m).
    """

    shaft: Shaft
    seats: tuple[Seat, ...]
    case: Array
    preload: float
    gear_at: float
    flange: Array | None = None
    play: float = 0.0


@dataclass(frozen=True)
class Part:
    """One contributor: its name, the freedoms it joins and its stiffness between them."""

    name: str
    freedoms: Indices
    stiffness: Array


class System:
    """Both lines of a gear pair as matrices; nothing here depends on load."""

    def __init__(self, mesh: Mesh, pinion: Line, ring: Line) -> None:
        if ring.flange is None or pinion.flange is not None:
            raise ValueError("the ring gear sits on a flange, the pinion is one with its shaft")
        self.mesh, self.pinion, self.ring = mesh, pinion, ring
        seats = (*pinion.seats, *ring.seats)
        self.names = tuple(s.name for s in seats)
        self.bearings = Bearings([s.roller for s in seats])
        heads, rings = len(pinion.seats), len(ring.seats)
        first_seat = 1 + heads + 2 + rings
        self.size = 5 * (first_seat + heads + rings)
        inner = [*range(1, 1 + heads), *range(3 + heads, first_seat)]
        self.inner = _block(inner)
        self.outer = _block(range(first_seat, first_seat + heads + rings))
        self.parts = self._parts(heads, rings, first_seat)
        self.linear = np.zeros((self.size, self.size))
        for part in self.parts:
            self.linear[np.ix_(part.freedoms, part.freedoms)] += part.stiffness
        self._reach(heads)

    def _parts(self, heads: int, rings: int, first: int) -> tuple[Part, ...]:
        p, r = self.pinion, self.ring
        assert r.flange is not None
        flange = np.diag(r.flange)
        return (
            Part("pinion shaft", _block(range(1 + heads)).ravel(),
                 shaft_stiffness(p.shaft, [p.gear_at, *(s.at for s in p.seats)])),
            Part("ring flange", _block([1 + heads, 2 + heads]).ravel(),
                 np.block([[flange, -flange], [-flange, flange]])),
            Part("ring shaft", _block(range(2 + heads, first)).ravel(),
                 shaft_stiffness(r.shaft, [r.gear_at, *(s.at for s in r.seats)])),
            Part("pinion case", _block(range(first, first + heads)).ravel(), p.case),
            Part("ring case", _block(range(first + heads, first + heads + rings)).ravel(), r.case),
        )  # fmt: skip

    def _reach(self, heads: int) -> None:
        """Rows that read movement and that spread the tooth load over the freedoms."""
        m = self.mesh
        pinion_at = np.array([self.pinion.gear_at, m.offset, 0.0])
        ring_at = np.array([0.0, 0.0, self.ring.gear_at])
        on_pinion, on_ring = _five(_PINION_AXES), _five(_RING_AXES)
        pinion, ring = slice(0, 5), slice(5 * (1 + heads), 5 * (2 + heads))
        rows = movement_rows(m.offset, pinion_at, ring_at)
        self.rows = np.zeros((4, self.size))
        self.rows[:, pinion] = rows[0] @ on_pinion.T
        self.rows[:, ring] = rows[1] @ on_ring.T
        self.spread = np.zeros((self.size, 6))
        self.spread[pinion] = on_pinion @ _to_node(m.mean_point - pinion_at)
        self.spread[ring] = -on_ring @ _to_node(m.mean_point - ring_at)
        self.nodes = np.zeros((6, self.size))
        self.nodes[:3, pinion] = on_pinion.T[:3]
        self.nodes[3:, ring] = on_ring.T[:3]
        self.ring_turns = np.zeros((3, self.size))
        self.ring_turns[:, ring] = on_ring.T[3:]

    def moved_seats(self, shifts: Array) -> Array:
        """Forces on all freedoms of seats whose places in the case move by (seat, xyz)."""
        own = np.zeros(self.size)
        for axes, seats in (
            (_PINION_AXES, range(len(self.pinion.seats))),
            (_RING_AXES, range(len(self.pinion.seats), len(self.names))),
        ):
            for i in seats:
                own[self.outer[i, :3]] = axes @ shifts[i]
        forces = np.zeros(self.size)
        for part in self.parts:
            if part.name in CASES:
                forces[part.freedoms] += part.stiffness @ own[part.freedoms]
        return forces

    def movement(self, state: Array) -> Movement:
        """Misalignment of the pair that belongs to a state of all freedoms."""
        E, P, G, sigma = self.rows @ state
        return Movement(float(E), float(P), float(G), float(sigma))


def _block(numbers: Sequence[int] | range) -> Indices:
    """Numbers of the freedoms of blocks, one row per block."""
    result: Indices = 5 * np.asarray(list(numbers), dtype=np.intp)[:, None] + np.arange(5)
    return result


def _five(axes: Array) -> Array:
    """From (force, moment) in the frame to a shaft's five freedoms; its torsion drops out."""
    result = np.zeros((5, 6))
    result[:3, :3] = axes
    result[3:, 3:] = axes[1:]
    return result


def _to_node(arm: Array) -> Array:
    """Force and moment at a point as force and moment at a node from which the arm leads there."""
    result = np.eye(6)
    result[3:, :3] = cross_matrix(arm)
    return result
