"""What a loaded tooth does to the teeth beside it: they ride along on the rim.

The neighbor is taken as rigid on the patch of rim where it stands; the patch's motion under unit
forces on the loaded tooth is fitted as that of a rigid body.  It comes to a twentieth to a tenth
of what the loaded tooth gives itself, and is known to about a third: so far apart are the two ways
round of Betti's rule before they are averaged.
"""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.loaded.bodies import Tooth
from axlewright.hypoid.loaded.grid import Grid, Index
from axlewright.quantities.formula import Array


def riding(grid: Grid, tooth: Tooth, side: int, normal: Array, moved: Array) -> tuple[Array, Array]:
    """Tables (places, 12): one for the tooth ahead, one for the loaded tooth behind it.

    What a unit force at place k does at place i of the tooth ahead is the product of their rows,
    i of the first and k of the second.  Ahead is the tooth whose roll angle is a pitch more.  Both
    ways round are averaged, so that Betti's rule holds exactly.
    """
    # The roll angle counts about the pinion's axis and against the ring's.
    pitch = (1.0 if tooth.axis == 0 else -1.0) * 2.0 * np.pi / tooth.teeth
    places = grid.points[grid.flank(side)].reshape(-1, 3)
    flat = normal.reshape(-1, 3)
    tables = []
    for turn in (pitch, -pitch):
        turned = _about_axis(tooth.axis, turn)
        center, motion = _patch_motion(grid, tooth, turn, moved)
        arm, way = places @ turned.T - center, flat @ turned.T
        tables.append((np.concatenate([way, np.cross(arm, way)], axis=1), motion.T))
    (ahead, to_ahead), (back, to_back) = tables
    return np.sqrt(0.5) * np.hstack([ahead, to_back]), np.sqrt(0.5) * np.hstack([to_ahead, back])


def _about_axis(axis: int, turn: float) -> Array:
    """Matrix of a right-handed turn about a coordinate axis."""
    i, j = (axis + 1) % 3, (axis + 2) % 3
    matrix = np.eye(3)
    matrix[i, i] = matrix[j, j] = np.cos(turn)
    matrix[j, i], matrix[i, j] = np.sin(turn), -np.sin(turn)
    return matrix


def _patch_motion(grid: Grid, tooth: Tooth, turn: float, moved: Array) -> tuple[Array, Array]:
    """Middle of the patch where a neighbor stands, and its shift and turn (6, loads)."""
    i, j = (tooth.axis + 1) % 3, (tooth.axis + 2) % 3

    def azimuth(nodes: Index) -> Array:
        return np.asarray(np.arctan2(grid.points[nodes, j], grid.points[nodes, i]))

    root = azimuth(grid.tooth[:, 0, :])
    middle = root[:, root.shape[1] // 2]
    wide = np.abs(root[:, -1] - root[:, 0])
    top = grid.rim[:, -1, :]
    off = (azimuth(top) - (middle + turn)[:, None] + np.pi) % (2.0 * np.pi) - np.pi
    nearest = np.abs(off) <= np.maximum(0.5 * wide, np.sort(np.abs(off), axis=1)[:, 1])[:, None]
    nodes = top[nearest]
    center = grid.points[nodes].mean(axis=0)
    arm = grid.points[nodes] - center
    rows = np.zeros((nodes.size, 3, 6))
    rows[:, :, :3] = np.eye(3)
    for k in range(3):
        rows[:, :, 3 + k] = np.cross(np.eye(3)[k], arm)
    shift = moved[(3 * nodes[:, None] + np.arange(3)).ravel()]
    return center, np.asarray(np.linalg.pinv(rows.reshape(-1, 6)) @ shift)
