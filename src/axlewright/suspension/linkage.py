"""What holds a solid axle: links, guides and cranks between points of the body and of the axle.

Points are taken at ride height, in meters, in axes fixed to the body: x forward from the middle
of the rear axle, y left of the center plane, z up from the ground.  A point is three numbers, or
an array of samples with the three on its last axis.  Whatever is left out stands still.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num

RIGID = np.inf
"""Stiffness of a link that does not give."""


@dataclass(frozen=True)
class Link:
    """A bar with a ball or a bush at each end; it gives along its length only."""

    body: ArrayLike
    """Where it meets the body."""
    axle: ArrayLike
    """Where it meets the axle."""
    stiffness: Num = RIGID
    """N/m along its length, both bushes in series with the bar."""
    lengthened: Num = 0.0
    """m by which it has been screwed out since the points were measured."""
    crank: int | None = None
    """Which crank of the linkage carries one of its ends (the one that the crank stands on)."""
    name: str = ""


@dataclass(frozen=True)
class Guide:
    """Holds a point of the axle on a plane of the body: a sliding bush, or a spring across it."""

    body: ArrayLike
    axle: ArrayLike
    direction: ArrayLike
    """Square to the plane, fixed to the body; its length does not matter."""
    stiffness: Num = RIGID
    """N/m along the direction."""
    lengthened: Num = 0.0
    """m by which the axle's point has been shimmed along the direction."""
    crank: int | None = None
    name: str = ""


@dataclass(frozen=True)
class Crank:
    """A lever that turns freely: the middle link of a Watt linkage, or a shackle."""

    pivot: ArrayLike
    direction: ArrayLike
    """Its axis, fixed to what it stands on."""
    stands_on: Literal["axle", "body"]


@dataclass(frozen=True)
class Wheels:
    """Centers of both wheels: the axle line runs through them."""

    left: ArrayLike
    right: ArrayLike


@dataclass(frozen=True)
class Linkage:
    """A solid axle and all that locates it."""

    wheels: Wheels
    pieces: Sequence[Link | Guide]
    cranks: Sequence[Crank] = ()

    def __post_init__(self) -> None:
        for piece in self.pieces:
            if piece.crank is not None and not 0 <= piece.crank < len(self.cranks):
                raise ValueError(f"{label(piece, self)} names a crank that is not there")
            if not np.all(np.asarray(piece.stiffness) > 0.0):
                raise ValueError(f"{label(piece, self)} needs a stiffness above zero")
            if np.any(np.isinf(piece.stiffness)) and not np.all(np.isinf(piece.stiffness)):
                raise ValueError(f"{label(piece, self)} gives in some samples and not in others")
            if isinstance(piece, Guide) and not np.all(np.any(spot(piece.direction), axis=-1)):
                raise ValueError(f"{label(piece, self)} needs a direction")
        if not np.all(spot(self.wheels.left)[..., 1] > spot(self.wheels.right)[..., 1]):
            raise ValueError("the left wheel must stand left of the right one (y points left)")

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the pieces, in order."""
        return tuple(label(piece, self) for piece in self.pieces)

    def index(self, name: str) -> int:
        """Where a piece stands."""
        return self.names.index(name)


def label(piece: Link | Guide, linkage: Linkage) -> str:
    """Name of a piece, or what it is and where it stands."""
    if piece.name:
        return piece.name
    place = next(n for n, p in enumerate(linkage.pieces) if p is piece)
    return f"{'link' if isinstance(piece, Link) else 'guide'} {place + 1}"


def spot(point: ArrayLike) -> Array:
    """A point, or one for each sample, as an array with x, y and z on the last axis."""
    result = np.asarray(point, dtype=np.float64)
    if result.ndim == 0 or result.shape[-1] != 3:
        raise ValueError("a point has three coordinates")
    if not np.all(np.isfinite(result)):
        raise ValueError("a point has three finite coordinates")
    return result
