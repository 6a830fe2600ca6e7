"""All the places that an axle can be driven to between its stops: bump, droop and roll together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.suspension.kinds import three_link
from axlewright.suspension.layout import samples_of
from axlewright.suspension.linkage import Link, Linkage, Wheels, spot
from axlewright.suspension.pose import Load, Pose, solve_pose

_FAR = 2000.0
"""Length of links that stand for none (m): over 0.1 m of travel they stray 2.5 µm."""


@dataclass(frozen=True)
class Travel:
    """Where the stops are: travel of a wheel center against the body, both above zero, in m.

    With a stop the wheel may rise by ``bump`` and fall by ``droop``; where shock or strap ends the
    droop, give that.
    """

    bump: float
    droop: float
    heave_steps: int = 41
    roll_steps: int = 9

    def __post_init__(self) -> None:
        if self.bump < 0.0 or self.droop < 0.0 or self.bump + self.droop <= 0.0:
            raise ValueError("bump and droop are above zero, and an axle moves")
        if self.heave_steps % 2 == 0 or self.roll_steps % 2 == 0:
            raise ValueError("an odd number of steps puts the middle on the grid")

    def wheels(self) -> tuple[Array, Array]:
        """Travel of left and right wheel, heave down the first axis, roll along the second.

        Every pair of travels between the stops is covered: in the middle one wheel is at its bump
        stop while the other hangs; at the ends both are at the same stop.
        """
        heave = np.linspace(-self.droop, self.bump, self.heave_steps)[:, None]
        apart = np.minimum(self.bump - heave, heave + self.droop)
        lean = apart * np.linspace(-1.0, 1.0, self.roll_steps)
        return heave + lean, heave - lean


@dataclass(frozen=True)
class Places:
    """An axle in all its places."""

    pose: Pose
    left: Array
    right: Array

    def where(self, index: tuple[int, ...]) -> tuple[float, float]:
        """Travel of both wheels at one place."""
        shape = self.pose.shape
        left, right = (np.broadcast_to(t, shape) for t in (self.left, self.right))
        return float(left[index]), float(right[index])


def places(linkage: Linkage, travel: Travel, load: Load | None = None) -> Places:
    """The axle in every place between its stops.

    A load winds up links that give: the launch that turns the nose into the tunnel.  Points that
    bring samples put them on the last axis of everything that follows.
    """
    left, right = travel.wheels()
    if samples_of(linkage):
        left, right = left[..., None], right[..., None]
    return Places(solve_pose(linkage, left, right, load), left, right)


def plain_axle(wheels: Wheels) -> Linkage:
    """An axle whose links are not known: it goes straight up and down and rolls where it is.

    It tells no change of fore-aft place, steer or pinion angle; what depends on them is not known
    until the points are measured.
    """
    left, right = spot(wheels.left), spot(wheels.right)
    ahead, aside = np.array([_FAR, 0.0, 0.0]), np.array([0.0, -_FAR, 0.0])
    above = np.array([0.0, 0.0, 0.1])
    middle = 0.5 * (left + right)
    lower = Link(left + ahead, left)
    upper = Link(middle + above + ahead, middle + above)
    rod = Link(middle + aside, middle)
    return three_link(wheels, lower, upper, rod)


def in_words(left: float, right: float) -> str:
    """Travel of both wheels as one says it, in inches."""
    if abs(left - right) < 1e-4:
        return f"both wheels {_one(left)}"
    return f"left wheel {_one(left)}, right wheel {_one(right)}"


def _one(travel: float) -> str:
    inches = travel / 0.0254
    if abs(inches) < 0.05:
        return "at ride height"
    return f"{abs(inches):.1f} in {'up' if inches > 0.0 else 'down'}"


def least_of(values: Num, where: Places) -> tuple[float, tuple[int, ...]]:
    """Least value over all places and its index.

    A parabola through the neighbors on both axes finds what lies between the places of the grid,
    but not across the middle height, where the edge of what both wheels can do has its corner.
    """
    grid = cast(Array, np.broadcast_to(values, where.pose.shape))
    if grid.ndim != 2:
        raise ValueError("a least place belongs to one axle; of samples take the least of each")
    index = tuple(int(n) for n in np.unravel_index(int(np.argmin(grid)), grid.shape))
    lowest = float(grid[index])
    rows, columns = grid.shape
    cornered = index[0] == rows // 2 and index[1] != columns // 2
    for axis, place in enumerate(index):
        if 0 < place < grid.shape[axis] - 1 and not (axis == 0 and cornered):
            before, after = (
                float(grid[(*index[:axis], place + step, *index[axis + 1 :])]) for step in (-1, 1)
            )
            bend = before - 2.0 * float(grid[index]) + after
            if bend > 0.0:
                lowest -= (after - before) ** 2 / (8.0 * bend)
    return lowest, index


def least_of_samples(values: Num) -> Array:
    """Least value over all places, sample by sample; the grid alone, nothing between."""
    least: Array = np.min(np.asarray(values), axis=(0, 1))
    return least
