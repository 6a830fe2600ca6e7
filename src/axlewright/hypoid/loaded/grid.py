"""A tooth and a block of rim below it, cut into bricks with three nodes to an edge.

The rim reaches two pitches to either side and is held at its bottom and sides; its ends are free.
Neighboring teeth are left out: they stiffen the rim a little and are not in the way.

Toward the root each flank flares out, at 45° in the end.  That stands for the fillet where
stiffness is asked for; it is not the fillet's shape.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from axlewright.hypoid.loaded.bodies import Tooth, line_at
from axlewright.quantities.formula import Array

Index = NDArray[np.int64]

FILLET = 0.12
"""Height over which a flank flares toward the root, share of the whole depth (assumed)."""
REACH = 2
"""How many pitches of rim to either side give way; one would hold the tooth 12 % too stiff."""
_THIN = 0.1
"""Least thickness of a tooth, share of its root's, that bricks can be made of."""


class Cells(NamedTuple):
    """How many bricks along the face, up the tooth, through it, down the rim, to either side."""

    face: int = 10
    height: int = 4
    thick: int = 3
    rim: int = 2
    side: int = 3


@dataclass(frozen=True)
class Grid:
    """Nodes of the bricks in the gear's own frame (m).

    ``tooth`` (along, up, through) and ``rim`` (along, up, across) number the ``points`` (nodes,
    3); the tooth's lowest layer belongs to the rim's highest as well.  Through the tooth they run
    from the drive to the coast flank.  ``held`` marks the bottom and the sides of the rim.
    ``along`` and ``up`` are the shares of face and of depth at which the tooth's nodes lie.
    """

    points: Array
    tooth: Index
    rim: Index
    held: NDArray[np.bool_]
    along: Array
    up: Array

    def bricks(self) -> Index:
        """Nodes of every brick (bricks, 27)."""
        return np.concatenate([bricks_of(self.tooth), bricks_of(self.rim)])

    def flank(self, side: int) -> Index:
        """Nodes (along, up) on the drive (+1) or the coast flank (-1)."""
        return self.tooth[:, :, 0 if side > 0 else -1]


def bricks_of(index: Index) -> Index:
    """Nodes of the bricks (bricks, 27) of a block numbered by an array of three odd lengths."""
    counts = [n // 2 for n in index.shape]
    first = np.meshgrid(*(2 * np.arange(n) for n in counts), indexing="ij")
    local = np.meshgrid(*(np.arange(3),) * 3, indexing="ij")
    where = (f.reshape(-1, 1) + c.reshape(1, -1) for f, c in zip(first, local, strict=True))
    return np.asarray(index[tuple(where)])


def grid_of(tooth: Tooth, cells: Cells) -> Grid:
    """Nodes of a tooth and its rim."""
    along = np.linspace(0.0, 1.0, 2 * cells.face + 1)
    up = _layers(cells.height)
    s = tooth.ends[0] + along * (tooth.ends[1] - tooth.ends[0])
    low, high = line_at(tooth.root, s)[:, None], line_at(tooth.tip, s)[:, None]
    h = low + up * (high - low)
    s2 = np.broadcast_to(s[:, None], h.shape)
    drive, coast = _flared(tooth, s2, h, up * (high - low), FILLET * (high - low))
    through = np.linspace(0.0, 1.0, 2 * cells.thick + 1)
    turn = drive[..., None] + through * (coast - drive)[..., None]
    body = tooth.points(s2[..., None], h[..., None], turn)
    across = _across(tooth, turn[:, 0, :], cells.side)
    deep = np.linspace(1.0, 0.0, 2 * cells.rim + 1)
    below = low - tooth.rim * deep
    rim = tooth.points(
        np.broadcast_to(s[:, None, None], (*below.shape, 1)), below[..., None], across[:, None, :]
    )
    return _numbered(body, rim, along, up, cells.side)


def _layers(count: int) -> Array:
    """Shares of the depth: the lowest brick is the fillet's."""
    corners = np.concatenate([[0.0], np.linspace(FILLET, 1.0, count)])
    middles = 0.5 * (corners[:-1] + corners[1:])
    return np.sort(np.concatenate([corners, middles]))


def _flared(tooth: Tooth, s: Array, h: Array, above: Array, fillet: Array) -> tuple[Array, Array]:
    """Azimuths of both flanks with the flare, which stands off by half its height at the root."""
    short = np.maximum(1.0 - above / fillet, 0.0)
    radius, _ = tooth.section(s, h)
    drive, coast = (tooth.flanks[side](s, h) for side in (1, -1))
    sense = np.sign(coast - drive)
    thick = np.abs(coast - drive)
    if (sense != sense.flat[0]).any() or thick.min() < _THIN * thick[:, 0].max():
        raise ArithmeticError("the flanks of a tooth meet below its tip: a pointed tooth")
    # Measured along the circle; the tooth leans, so it is less square to the tooth.
    off = sense * 0.5 * fillet * short * short / radius
    return drive - off, coast + off


def _across(tooth: Tooth, inner: Array, side: int) -> Array:
    """Azimuths of the rim's nodes at every station: the tooth's own and those to either side."""
    far = REACH * 2.0 * np.pi / tooth.teeth
    middle = 0.5 * (inner[:, 0] + inner[:, -1])
    sense = np.sign(inner[0, -1] - inner[0, 0])
    step = np.linspace(1.0, 0.0, 2 * side + 1)[:-1]
    first = inner[:, :1] + step * (middle - sense * far - inner[:, 0])[:, None]
    last = inner[:, -1:] + step[::-1] * (middle + sense * far - inner[:, -1])[:, None]
    return np.concatenate([first, inner, last], axis=1)


def _numbered(body: Array, rim: Array, along: Array, up: Array, side: int) -> Grid:
    """Number station by station along the face, so that the equations stay in a band."""
    stations, layers, through = body.shape[:3]
    deep, wide = rim.shape[1:3]
    each = deep * wide + (layers - 1) * through
    start = each * np.arange(stations)[:, None, None]
    rim_index = start + np.arange(deep * wide).reshape(1, deep, wide)
    upper = start + deep * wide + np.arange((layers - 1) * through).reshape(1, -1, through)
    root = rim_index[:, -1:, 2 * side : 2 * side + through]
    tooth_index = np.concatenate([root, upper], axis=1)
    points = np.empty((stations * each, 3))
    points[tooth_index] = body
    points[rim_index] = rim
    held = np.zeros(points.shape[0], dtype=bool)
    held[rim_index[:, 0, :]] = True
    held[rim_index[:, :, [0, -1]]] = True
    return Grid(points, tooth_index, rim_index, held, along, up)
