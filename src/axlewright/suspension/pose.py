"""Where a solid axle stands once the travel of both wheels is given.

Height and roll follow from travel alone.  Fore-aft, sideways, steer, nose and the angles of cranks
are found by Newton's method: where as many pieces as coordinates hold the axle, each keeps its
length to 1e-10 m or better; where there are more (parallel links with a rod, ladder bars, leaves),
the pieces give like springs and the axle stands where the energy in them is least.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.closure import Closure, close
from axlewright.suspension.layout import Layout, lay_out, samples_of
from axlewright.suspension.linkage import Linkage, spot
from axlewright.suspension.newton import NoPoseError, settle_axle
from axlewright.suspension.rotation import Stand

_TOGETHER = 1024
"""Poses solved at once: few enough to stay in the fast memory of a processor."""


@dataclass(frozen=True)
class Load:
    """What acts on the axle from outside, links and springs left out."""

    force: ArrayLike
    """N, in axes of the body, x, y, z on the last axis."""
    moment: ArrayLike
    """N·m about the middle between the wheel centers."""


@dataclass(frozen=True)
class Pose:
    """A solved place of the axle, or an array of them.  Lengths in m, angles in rad."""

    linkage: Linkage
    x: Num
    """Middle between the wheel centers, forward."""
    y: Num
    """The same, left."""
    z: Num
    """The same, above ground as it was at ride height."""
    steer: Num
    """Axle turned left, seen from above, since ride height."""
    roll: Num
    """Left wheel up, since ride height."""
    nose: Num
    """Pinion nose up, since ride height."""
    cranks: Array
    """Angles of the cranks, on the last axis."""
    closure: Num
    """Meters: by how much the pieces that do not give (or need not) miss their lengths, at most."""
    tension: Array
    """N, pull in each piece, on the last axis: from binding and from the load of this pose."""
    layout: Layout = field(repr=False)
    stand: Stand = field(repr=False)
    held: bool = field(repr=False)
    """Exactly as many pieces as coordinates, and no load: nothing has to give."""

    @property
    def shape(self) -> tuple[int, ...]:
        """Shape of the array of poses."""
        return np.shape(self.x)

    def place(self, point: ArrayLike) -> Array:
        """Where a point of the axle, given at ride height, is now; x, y, z on the last axis."""
        from_middle = spot(point) - self.shaped(self.layout.middle)
        return self.at_middle + self.turn(from_middle)

    def turn(self, direction: ArrayLike) -> Array:
        """A direction of the axle, given at ride height, as it points now."""
        arm = spot(direction)
        turned: Array = np.einsum("...ij,...j->...i", self.rotation, arm)
        return turned

    @property
    def at_middle(self) -> Array:
        """Middle between the wheel centers."""
        return np.stack(np.broadcast_arrays(self.x, self.y, self.z), axis=-1)

    @property
    def rotation(self) -> Array:
        """Matrix by which the axle has turned since ride height."""
        unit = np.eye(3)[:, :, None]
        still = Stand(*(np.zeros(1),) * 3, self.layout.steer, self.layout.roll, np.zeros(1))
        back = np.swapaxes(still.turned(unit), 0, 1)  # transposed: what undoes the ride height
        return self.shaped(self.stand.turned(back))

    def closed(self) -> Closure:
        """The linkage in these poses."""
        return close(self.layout, self.stand, self.row(self.cranks))

    @property
    def count(self) -> int:
        """Number of poses."""
        return int(np.prod(self.shape, dtype=int))

    def row(self, several: Array) -> Array:
        """Numbers on the last axis brought to the first, with all poses in one row."""
        wide = np.broadcast_to(several, (*self.shape, several.shape[-1]))
        return wide.reshape(self.count, several.shape[-1]).T

    def shaped(self, row: Array) -> Array:
        """The other way: numbers on the first axis, poses in one row, put last."""
        wide = np.broadcast_to(row, (*row.shape[:-1], self.count))
        return np.moveaxis(wide, -1, 0).reshape(*self.shape, *row.shape[:-1])


def ride_height(linkage: Linkage) -> Pose:
    """The axle where it was measured, links screwed out since then taken into account."""
    return solve_pose(linkage)


def solve_pose(
    linkage: Linkage, left: Num = 0.0, right: Num = 0.0, load: Load | None = None
) -> Pose:
    """Where the axle stands when its wheel centers have risen by ``left`` and ``right`` meters.

    Travel is bump of the wheel against the body, droop with a minus.  Travel, samples and loads
    broadcast: travel of shape (41, 1) with 200 samples gives (41, 200) poses.
    """
    shape = np.broadcast_shapes(np.shape(left), np.shape(right), samples_of(linkage))
    outside = None
    if load is not None:
        given = (spot(load.force), spot(load.moment))
        shape = np.broadcast_shapes(shape, *(g.shape[:-1] for g in given))
        outside = np.concatenate([_row(g, shape) for g in given])
    layout = lay_out(linkage, shape)
    rises = [np.broadcast_to(np.asarray(t, dtype=np.float64), shape).ravel() for t in (left, right)]
    height, roll = _height_and_roll(layout, *rises)
    held = outside is None and len(linkage.pieces) == len(layout.free)
    found = np.empty((len(layout.free), height.size))
    tension = np.empty((len(linkage.pieces), height.size))
    closure = np.empty(height.size)
    for first in range(0, height.size, _TOGETHER):
        some = slice(first, first + _TOGETHER)
        found[:, some], tension[:, some], closure[some] = settle_axle(
            layout.part(some), height[some], roll[some], held,
            None if outside is None else outside[:, some],
        )  # fmt: skip
    stand = Stand(found[0], found[1], height, found[2], roll, found[3])
    return _pose(linkage, layout, stand, found, tension, closure, held, shape)


def _pose(
    linkage: Linkage, layout: Layout, stand: Stand, found: Array, tension: Array, closure: Array,
    held: bool, shape: tuple[int, ...],
) -> Pose:  # fmt: skip
    def shaped(row: Array) -> Array:
        return row.reshape(shape)[()]

    def rows(several: Array) -> Array:
        return np.moveaxis(several, 0, -1).reshape(*shape, len(several))

    return Pose(
        linkage, shaped(found[0]), shaped(found[1]), shaped(stand.z),
        shaped(found[2] - layout.steer), shaped(stand.roll - layout.roll), shaped(found[3]),
        rows(found[4:]), shaped(closure), rows(tension), layout, stand, held,
    )  # fmt: skip


def _height_and_roll(layout: Layout, left: Array, right: Array) -> tuple[Array, Array]:
    slant = np.sin(layout.roll) + (left - right) / layout.span
    if not np.all(np.abs(slant) < 0.9):
        raise NoPoseError("one wheel stands so far above the other that no axle reaches both")
    return layout.middle[2] + 0.5 * (left + right), np.arcsin(slant)


def _row(points: Array, shape: tuple[int, ...]) -> Array:
    """Points with x, y, z on the last axis as (3, poses)."""
    return np.broadcast_to(points, (*shape, 3)).reshape(-1, 3).T
