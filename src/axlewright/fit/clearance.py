"""How far the tire stays off lips, frame, springs and lines, wherever the axle goes.

Everything must clear the tire as it runs, grown by speed; what lies below the wheel's center must
also clear the tire as it stands, bulged by its load.  Sides are apart: an obstacle belongs to one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from axlewright.fit.axle_places import AxlePlaces
from axlewright.fit.envelope import ZONES, Tire, distance
from axlewright.quantities.formula import Array, Num

Side = Literal["left", "right"]
Facing = Literal["outer", "inner"]
_COARSE, _HALVINGS = 11, 6
"""Points looked at along a lip, and how often the way to the next one is then halved."""


@dataclass(frozen=True)
class Obstacle:
    """Something fixed to the body, in m: a point, or an edge that runs fore and aft."""

    name: str
    side: Side
    facing: Facing
    """Which face of the tire it looks at: the outer one, as a lip, or the inner one."""
    out: Num
    """From the car's center plane, toward its side."""
    height: Num
    """Above ground, at ride height."""
    ahead: Num = 0.0
    """Forward of the axle; the middle of an edge."""
    half_run: Num = 0.0
    """Half the length of an edge, as of a fender lip; none for a point."""
    wanted: Num = 0.0
    """Clearance to be kept."""


@dataclass(frozen=True)
class WheelEnd:
    """What turns on one side: where its mounting face is, and the tire."""

    half: Num
    """From the car's center plane, at ride height and along the axle, to the face that the wheel
    touches."""
    running: Tire
    """As it runs, at its widest and grown by speed."""
    standing: Tire | None = None
    """As it is over the contact patch; the running one when not stated."""


@dataclass(frozen=True)
class Clearance:
    """The least clearance to one obstacle over all places.  Samples are kept."""

    obstacle: Obstacle
    least: Num
    """m; below zero they meet."""
    place: str
    """Name of the place where it is least; with samples, where it is least most often."""
    zone: str
    """Part of the tire that comes nearest there."""
    ahead: float
    """m forward of the axle, along the edge, where it comes nearest there."""
    known: str
    """How the places of the axle were found."""

    @property
    def spare(self) -> Num:
        """Clearance over what is wanted."""
        return self.least - self.obstacle.wanted

    @property
    def chance(self) -> float:
        """Share of the samples in which the clearance wanted is kept; 0 or 1 without samples."""
        return float(np.mean(np.asarray(self.spare) >= 0.0))


def clearances(
    wheel_ends: dict[Side, WheelEnd], obstacles: Sequence[Obstacle], places: AxlePlaces
) -> tuple[Clearance, ...]:
    """Least clearance to every obstacle, in their order."""
    return tuple(_least(wheel_ends[o.side], o, places) for o in obstacles)


def worst(found: Sequence[Clearance]) -> Clearance:
    """The clearance with the least to spare (in the middle of its samples)."""
    if not found:
        raise ValueError("no obstacle was stated, so there is no clearance to speak of")
    return min(found, key=lambda c: float(np.median(np.asarray(c.spare))))


def chance_of_all(found: Sequence[Clearance]) -> float:
    """Share of the samples in which all clearances are kept at once."""
    kept: Any = True
    for clearance in found:
        kept = kept & (np.asarray(clearance.spare) >= 0.0)
    return float(np.mean(kept))


def gaps(
    end: WheelEnd, obstacle: Obstacle, places: AxlePlaces, ahead: Num = 0.0
) -> tuple[Array, NDArray[np.intp]]:
    """Distance in each place, and the zone of the tire; ``ahead`` moves along an edge."""
    along, off, above = seen_from_axle(obstacle, places, ahead)
    from_face = along - end.half
    gap, zone = distance(end.running, from_face, off)
    if end.standing is None:
        return np.asarray(gap), zone
    below = above < end.half * outward(places, obstacle.side)[..., 2]
    if not below.any():
        return np.asarray(gap), zone
    low, low_zone = distance(end.standing, from_face, off)
    nearer = below & (low < gap)
    return np.where(nearer, low, gap), np.where(nearer, low_zone, zone)


def seen_from_axle(
    obstacle: Obstacle, places: AxlePlaces, ahead: Num = 0.0
) -> tuple[Array, Array, Array]:
    """Where an obstacle is: outward along the axle, off the axle line, and above its center."""
    axis = outward(places, obstacle.side)
    sign = 1.0 if obstacle.side == "left" else -1.0
    x = obstacle.ahead + ahead - places.center[..., 0]
    y = sign * obstacle.out - places.center[..., 1]
    z = obstacle.height - places.center[..., 2]
    along = x * axis[..., 0] + y * axis[..., 1] + z * axis[..., 2]
    square = x * x + y * y + z * z - along * along
    return along, np.sqrt(np.maximum(square, 0.0)), z


def outward(places: AxlePlaces, side: Side) -> Array:
    """Direction of the axle line out to a side."""
    return places.axis if side == "left" else -places.axis


def _least(end: WheelEnd, obstacle: Obstacle, places: AxlePlaces) -> Clearance:
    gap, zone, ahead = _nearest(end, obstacle, places)
    place = np.argmin(gap, axis=0)
    least = np.take_along_axis(gap, place[None], axis=0)[0]
    often = int(np.bincount(place.ravel()).argmax())
    sample = int(np.argmax(place.ravel() == often))
    shape = np.broadcast_shapes(gap.shape, zone.shape, ahead.shape)
    zones = np.broadcast_to(zone, shape).reshape(shape[0], -1)
    aheads = np.broadcast_to(ahead, shape).reshape(shape[0], -1)
    return Clearance(
        obstacle,
        float(least[0]) if least.size == 1 else least,
        places.names[often],
        ZONES[zones[often, sample]],
        float(aheads[often, sample] + np.broadcast_to(obstacle.ahead, shape[1:]).ravel()[sample]),
        places.known,
    )


def _nearest(
    end: WheelEnd, obstacle: Obstacle, places: AxlePlaces
) -> tuple[Array, NDArray[np.intp], Array]:
    """Least distance along an edge in each place; looked for coarsely, then by halving."""
    if not np.any(obstacle.half_run):
        gap, zone = gaps(end, obstacle, places)
        return gap, zone, np.zeros(1)
    run = np.asarray(obstacle.half_run)
    step = 2.0 * run / (_COARSE - 1)
    best = _Nearest(end, obstacle, places, -run)
    for n in range(1, _COARSE):
        best.look_at(n * step - run)
    for _ in range(_HALVINGS):
        step = 0.5 * step
        middle = best.ahead.copy()
        best.look_at(np.maximum(middle - step, -run))
        best.look_at(np.minimum(middle + step, run))
    return best.gap, best.zone, best.ahead


class _Nearest:
    """The nearest point of an edge found so far, for each place and sample."""

    def __init__(self, end: WheelEnd, obstacle: Obstacle, places: AxlePlaces, ahead: Array) -> None:
        self._of = (end, obstacle, places)
        gap, zone = gaps(*self._of, ahead)
        self.gap, self.zone = gap.copy(), zone.copy()
        self.ahead = np.array(np.broadcast_to(ahead, gap.shape))

    def look_at(self, ahead: Array) -> None:
        """Take the point at ``ahead`` where it is nearer."""
        gap, zone = gaps(*self._of, ahead)
        closer = gap < self.gap
        np.copyto(self.gap, gap, where=closer)
        np.copyto(self.zone, zone, where=closer)
        np.copyto(self.ahead, ahead, where=closer)
