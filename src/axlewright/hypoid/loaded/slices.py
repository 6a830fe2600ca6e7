"""Lines of contact cut into slices: where they lie, how long they are, how far apart the flanks.

At a roll position every pair of teeth in mesh has one line, where the roll angle has its value.
It is followed from the lowest line of contact (or where it enters at toe or heel) up to the tip
(or where it leaves), and cut into slices of equal height.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES, Flank
from axlewright.hypoid.loaded.compliance import Compliance
from axlewright.hypoid.rolling import Meeting
from axlewright.hypoid.wheel_flank import flank_points
from axlewright.quantities.formula import Array

_ROWS = 49
_POLISH = 4
_DX, _DY = chebyshev.derivative(NODES[0]), chebyshev.derivative(NODES[1])


@dataclass(frozen=True)
class Slices:
    """Slices of all lines, by (position, pair, slice) or with coordinates or shares in front.

    ``x`` and ``y`` are -1…1 on the flank, ``length`` m along the line, ``gap`` m, ``lever`` m per
    rad of the ring (above zero), ``radius`` m of relative curvature across the line.  ``point``
    and ``normal`` (into the pinion's tooth) stand in space.  ``ring_at`` and ``pinion_at`` are the
    shares on the members' own grids, ``ring_half`` and ``pinion_half`` m.  ``ends`` (position,
    pair, 2) names the edge at the line's lower and upper end as in ``lines.EDGES``; ``real`` is
    false where a pair has no line.
    """

    x: Array
    y: Array
    length: Array
    gap: Array
    lever: Array
    radius: Array
    point: Array
    normal: Array
    ring_at: Array
    pinion_at: Array
    ring_half: Array
    pinion_half: Array
    ends: NDArray[np.int64]
    real: NDArray[np.bool_]


@lru_cache(maxsize=1)
def _matrices() -> tuple[Array, Array, Array]:
    """Rows of the search, and matrices from values to coefficients."""
    cx, cy = (chebyshev.to_coefficients(n) for n in NODES)
    return np.linspace(-1.0, 1.0, _ROWS), cx, cy


def sliced(
    flank: Flank, meeting: Meeting, turn: float, teeth: Compliance, levels: Array, count: int
) -> Slices:
    """Slices of the lines at roll angles ``levels`` (position, pair), ``count`` to a line.

    ``turn`` is the turn of the ring about z at which the meeting was taken.
    """
    first, last, ends, real = _reach(meeting.roll, levels)
    share = (np.arange(count) + 0.5) / count
    height = (last - first)[..., None]
    y = first[..., None] + share * height
    x, at = _on_level(meeting.roll, y, levels)
    read = _read(_fields(flank, meeting, turn, teeth), at)
    size, cross, rise, roll_x, roll_y, parting, gap, lever = read[:8]
    lean = -roll_y / roll_x
    length = np.sqrt(np.maximum(size * lean * lean + 2.0 * cross * lean + rise, 0.0))
    slope = (rise * roll_x * roll_x - 2.0 * cross * roll_x * roll_y + size * roll_y * roll_y) / (
        size * rise - cross * cross
    )
    return Slices(
        x=x, y=y, length=length * height / count, gap=gap, lever=np.abs(lever),
        radius=1.0 / (parting * slope), point=read[8:11], normal=read[11:14],
        ring_at=read[14:16], pinion_at=read[16:18], ring_half=read[18], pinion_half=read[19],
        ends=ends, real=real,
    )  # fmt: skip


def _fields(flank: Flank, meeting: Meeting, turn: float, teeth: Compliance) -> Array:
    """Everything to be read at a slice, at the flank's Chebyshev points (fields, along, up)."""
    ring = flank_points(flank.pair, flank.cone, meeting.s, meeting.h)
    # Measured on the pinion: it is the pinion's points whose roll and parting are known.
    along = np.einsum("ij,cjk->cik", _DX, flank.pinion)
    up = np.einsum("ij,ckj->cki", _DY, flank.pinion)
    angle = turn - meeting.roll / flank.pair.ratio
    cos, sin = np.cos(angle), np.sin(angle)
    placed = []
    for v in (ring, flank.cone.normal(ring)):
        placed += [cos * v[0] - sin * v[1], sin * v[0] + cos * v[1], v[2]]
    return np.stack([
        np.sum(along * along, axis=0), np.sum(along * up, axis=0), np.sum(up * up, axis=0),
        _DX @ meeting.roll, meeting.roll @ _DY.T, flank.parting, meeting.gap, meeting.lever,
        *placed, *teeth.ring_at, *teeth.pinion_at, teeth.ring_half, teeth.pinion_half,
    ])  # fmt: skip


def _read(fields: Array, at: tuple[Array, Array]) -> Array:
    """Fields at places given by their polynomials (fields, position, pair, slice)."""
    _, cx, cy = _matrices()
    known = np.matmul(np.matmul(cx, fields), cy.T)
    bx, by = at
    flat = bx.reshape(-1, NODES[0]) @ known.transpose(1, 0, 2).reshape(NODES[0], -1)
    flat = flat.reshape(-1, known.shape[0], NODES[1])
    found = np.matmul(flat, by.reshape(-1, NODES[1], 1))[..., 0]
    return np.asarray(found.T.reshape(known.shape[0], *bx.shape[:-1]))


def _on_level(roll: Array, y: Array, levels: Array) -> tuple[Array, tuple[Array, Array]]:
    """Where along the face the roll angle has its level at heights ``y``; polynomials there."""
    _, cx, cy = _matrices()
    by = chebyshev.basis(y.ravel(), NODES[1]).reshape(*y.shape, NODES[1])
    by_row = by @ (cx @ roll @ cy.T).T
    ends = by_row @ chebyshev.basis(np.array([-1.0, 1.0]), NODES[0]).T
    slope = np.asarray(np.polynomial.chebyshev.chebder(np.moveaxis(by_row, -1, 0), axis=0))
    x = -1.0 + 2.0 * (levels[..., None] - ends[..., 0]) / (ends[..., 1] - ends[..., 0])
    x = np.clip(x, -1.0, 1.0)
    for _ in range(_POLISH):
        off = np.sum(_basis(x, NODES[0]) * by_row, axis=-1) - levels[..., None]
        steep = np.sum(_basis(x, NODES[0] - 1) * np.moveaxis(slope, 0, -1), axis=-1)
        x = np.clip(x - off / steep, -1.0, 1.0)
    return x, (_basis(x, NODES[0]), by)


def _basis(x: Array, count: int) -> Array:
    return chebyshev.basis(x.ravel(), count).reshape(*x.shape, count)


def _reach(roll: Array, levels: Array) -> tuple[Array, Array, NDArray[np.int64], NDArray[np.bool_]]:
    """Lower and upper end of every line, the edges there, and whether there is a line at all."""
    y, _, cy = _matrices()
    to_rows = chebyshev.basis(y, NODES[1]) @ cy
    toe, heel = to_rows @ roll[0], to_rows @ roll[-1]
    sense = 1.0 if heel[0] > toe[0] else -1.0
    past_toe = sense * (levels[..., None] - toe)
    past_heel = sense * (heel - levels[..., None])
    inside = np.minimum(past_toe, past_heel)
    on = inside >= 0.0
    real = on.any(axis=-1)
    edge = np.where(past_toe < past_heel, 3, 4)
    found = []
    for way in (1, -1):
        seen, margin, named = on[..., ::way], inside[..., ::way], edge[..., ::way]
        first = np.argmax(seen, axis=-1)
        before = np.maximum(first - 1, 0)
        pick = np.stack([before, first], axis=-1)
        a, b = np.moveaxis(np.take_along_axis(margin, pick, axis=-1), -1, 0)
        share = np.where(first == before, 1.0, -a / np.where(a == b, 1.0, b - a))
        place = y[::way][before] + share * (y[::way][first] - y[::way][before])
        side = np.take_along_axis(named, pick, axis=-1)[..., 0]
        found.append((place, np.where(first == before, 1 if way > 0 else 2, side)))
    (low, under), (high, over) = found
    real &= high > low
    ends = np.stack([under, over], axis=-1).astype(np.int64)
    return np.where(real, low, -1.0), np.where(real, high, 1.0), ends, real
