"""How the teeth of a pair give under load: influence of every place of a flank on every other.

A unit force square to the flank is spread through the whole thickness of the tooth, and the
answer is read as the mean through the thickness.  So the influence holds bending, shear and the
rim's give, and nothing of the dent under the load, which :mod:`hertz` adds from the flank to the
middle of the tooth: nothing is counted twice, and the matrix is symmetric by Betti's rule.

What is made once per blank is plain arrays; the last few blanks are kept.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from axlewright.hypoid.conjugate_pinion import Flank
from axlewright.hypoid.loaded import bricks
from axlewright.hypoid.loaded.bodies import Tooth, line_at, pinion_tooth, ring_tooth
from axlewright.hypoid.loaded.grid import Cells, Grid, bricks_of, grid_of
from axlewright.hypoid.loaded.neighbors import riding
from axlewright.quantities.formula import Array

YOUNGS = 206e9
"""Young's modulus of gear steel, Pa (handbook value, from memory)."""
POISSON = 0.3
"""Poisson's ratio of steel (handbook value, from memory)."""
_STEP = 1e-6
_INNER = 1.0 / np.sqrt(3.0)


@dataclass(frozen=True)
class Member:
    """One gear's tooth, loaded on one flank.

    ``along`` and ``up`` are the shares of face and depth at which unit forces act, and ``matrix``
    (m/N) what they move each other along the normals, places counted along first.  ``factor``
    times its own transpose is the matrix.  ``root`` (points, 6, places) is the
    stress (xx, yy, zz, yz, zx, xy; Pa/N) at points of the loaded side's root.  ``ahead`` and
    ``behind`` (places, 12): a row of the one times a row of the other is how much a place of the
    next tooth moves per newton at a place of this one.
    """

    along: Array
    up: Array
    matrix: Array
    factor: Array
    root: Array
    ahead: Array
    behind: Array


@dataclass(frozen=True)
class Compliance:
    """Both teeth of a pair for the flank that carries.

    ``ring_at`` and ``pinion_at`` (2, along, up) say where on the member's own grid each of the
    flank's Chebyshev points lies, ``ring_half`` and ``pinion_half`` (m) how deep below it the
    middle of the tooth is.
    """

    side: int
    ring: Member
    pinion: Member
    ring_at: Array
    pinion_at: Array
    ring_half: Array
    pinion_half: Array
    youngs: float
    poisson: float


def compliance_of(
    drive: Flank,
    coast: Flank,
    side: int = 1,
    cells: Cells | None = None,
    youngs: float = YOUNGS,
    poisson: float = POISSON,
) -> Compliance:
    """Compliance of a pair whose drive (side +1) or coast flank (-1) carries."""
    numbers = b"".join(a.tobytes() for f in (drive, coast) for a in (f.ring, f.pinion))
    numbers += repr((drive.pair.depth, drive.pair.pinion_teeth, drive.pair.ring_teeth)).encode()
    return _made(_Key(numbers, side, cells or Cells(), youngs, poisson, (drive, coast)))


@dataclass(frozen=True)
class _Key:
    numbers: bytes
    side: int
    cells: Cells
    youngs: float
    poisson: float
    flanks: tuple[Flank, Flank] = field(compare=False)


@lru_cache(maxsize=8)
def _made(key: _Key) -> Compliance:
    drive, coast = key.flanks
    carrying = drive if key.side > 0 else coast
    material = (key.youngs, key.poisson)
    found = []
    for tooth, points in (
        (ring_tooth(drive, coast), carrying.ring), (pinion_tooth(drive, coast), carrying.pinion)
    ):  # fmt: skip
        along, up = tooth.located(points)
        member = member_of(tooth, grid_of(tooth, key.cells), key.side, *material)
        found.append((member, np.stack([along, up]), _half_thickness(tooth, key.side, along, up)))
    (ring, ring_at, ring_half), (pinion, pinion_at, pinion_half) = found
    return Compliance(
        key.side, ring, pinion, ring_at, pinion_at, ring_half, pinion_half, *material
    )  # fmt: skip


def member_of(tooth: Tooth, grid: Grid, side: int, youngs: float, poisson: float) -> Member:
    """Influence of unit forces square to one flank of a tooth."""
    low, high = (line_at(line, _along(tooth, grid.along)) for line in (tooth.root, tooth.tip))
    s = np.broadcast_to(_along(tooth, grid.along)[:, None], (grid.along.size, grid.up.size))
    normal = _inward(tooth, side, s, low[:, None] + grid.up * (high - low)[:, None])
    return influence(grid, side, normal, youngs, poisson, tooth)


def influence(
    grid: Grid,
    side: int,
    normal: Array,
    youngs: float,
    poisson: float,
    tooth: Tooth | None = None,
) -> Member:
    """Influence of unit forces along given directions (along, up, 3) on a grid of bricks.

    Without a ``tooth`` to tell the pitch there are no neighbors.
    """
    loads = through_loads(grid, normal)
    answer = bricks.solver(grid.points, grid.bricks(), grid.held, youngs, poisson)
    moved = answer(loads)
    matrix = loads.T @ moved
    matrix = 0.5 * (matrix + matrix.T)
    size, shapes = np.linalg.eigh(matrix)
    alone = np.zeros((matrix.shape[0], 12))
    ahead, behind = riding(grid, tooth, side, normal, moved) if tooth else (alone, alone)
    return Member(
        along=grid.along,
        up=grid.up,
        matrix=matrix,
        factor=np.asarray(shapes * np.sqrt(np.maximum(size, 0.0))),
        root=_root_stress(grid, side, moved, youngs, poisson),
        ahead=ahead,
        behind=behind,
    )


def through_loads(grid: Grid, normal: Array) -> Array:
    """Unit forces, one a column, spread through the thickness as an even body force would be."""
    through = grid.tooth.shape[2]
    weight = np.full(through, 2.0)
    weight[1::2] = 4.0
    weight[[0, -1]] = 1.0
    weight /= weight.sum()
    nodes = grid.tooth.reshape(-1, through)
    loads = np.zeros((3 * grid.points.shape[0], nodes.shape[0]))
    column = np.arange(nodes.shape[0])[:, None]
    for k in range(3):
        loads[3 * nodes + k, column] = normal.reshape(-1, 3)[:, k : k + 1] * weight
    return loads


def _root_stress(grid: Grid, side: int, moved: Array, youngs: float, poisson: float) -> Array:
    """Stress at the loaded side's surface in the tooth's lowest layer, off its corner."""
    through = grid.tooth.shape[2]
    outer = slice(0, 3) if side > 0 else slice(through - 3, through)
    nodes = bricks_of(grid.tooth[:, :3, outer])
    face = -1.0 if side > 0 else 1.0
    at = np.array([[a, b, face] for a in (-_INNER, _INNER) for b in (-_INNER, _INNER)])
    rows = bricks.stress_rows(grid.points[nodes], at, youngs, poisson)
    own = moved[(3 * nodes[:, :, None] + np.arange(3)).reshape(nodes.shape[0], 81)]
    return np.asarray((rows.reshape(nodes.shape[0], -1, 81) @ own).reshape(-1, 6, moved.shape[1]))


def _along(tooth: Tooth, share: Array) -> Array:
    return np.asarray(tooth.ends[0] + share * (tooth.ends[1] - tooth.ends[0]))


def _inward(tooth: Tooth, side: int, s: Array, h: Array) -> Array:
    """Unit normals into the tooth at places of a flank, coordinates last."""

    def at(ds: float, dh: float) -> Array:
        return tooth.points(s + ds, h + dh, tooth.flanks[side](s + ds, h + dh))

    normal = np.cross(at(_STEP, 0.0) - at(-_STEP, 0.0), at(0.0, _STEP) - at(0.0, -_STEP))
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    through = tooth.points(s, h, tooth.flanks[-side](s, h)) - at(0.0, 0.0)
    return np.asarray(normal * np.sign(np.sum(normal * through, axis=-1, keepdims=True)))


def _half_thickness(tooth: Tooth, side: int, along: Array, up: Array) -> Array:
    """Half the thickness of the tooth square to its flank."""
    s = _along(tooth, along)
    low, high = line_at(tooth.root, s), line_at(tooth.tip, s)
    h = low + up * (high - low)
    here, there = (tooth.points(s, h, tooth.flanks[k](s, h)) for k in (side, -side))
    return np.asarray(0.5 * np.abs(np.sum(_inward(tooth, side, s, h) * (there - here), axis=-1)))
