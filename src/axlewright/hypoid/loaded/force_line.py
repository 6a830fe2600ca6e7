"""Where the line of a force square to the flank meets the middle of the tooth.

A flank leans and winds about its gear, so a force on it does not stay at its own height and place
along the face: half a thickness in, it is lower and further along.  That is the lever it bends
the tooth with, not the one of the place where it is pressed.
"""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.loaded.bodies import Tooth, line_at
from axlewright.quantities.formula import Array

_ROUNDS = 8


def middle_places(tooth: Tooth, point: Array, normal: Array, half: Array) -> Array:
    """Shares (2, …) along and up of where forces at points (…, 3) of a flank meet the middle.

    ``normal`` looks into the tooth, ``half`` (m) is about how deep the middle lies.  Places beyond
    the tooth's ends or below its root count as at its edge.
    """
    before, depth = np.zeros_like(half), half
    off_before = _off(tooth, point)
    for _ in range(_ROUNDS):
        off = _off(tooth, point + depth[..., None] * normal)
        change = off - off_before
        step = np.where(change == 0.0, 0.0, off / np.where(change == 0.0, 1.0, change))
        before, depth, off_before = depth, depth - step * (depth - before), off
    return np.clip(_shares(tooth, point + depth[..., None] * normal), 0.0, 1.0)


def _shares(tooth: Tooth, point: Array) -> Array:
    return np.stack(tooth.located(np.moveaxis(point, -1, 0)))


def _off(tooth: Tooth, point: Array) -> Array:
    """Angle about the gear's axis from the middle of the tooth at a point's own place."""
    along, up = np.clip(_shares(tooth, point), 0.0, 1.0)
    s = tooth.ends[0] + along * (tooth.ends[1] - tooth.ends[0])
    low, high = line_at(tooth.root, s), line_at(tooth.tip, s)
    h = low + up * (high - low)
    drive, coast = (tooth.flanks[side](s, h) for side in (1, -1))
    here = np.arctan2(point[..., (tooth.axis + 2) % 3], point[..., (tooth.axis + 1) % 3])
    off = here - 0.5 * (drive + coast)
    return np.asarray((off + np.pi) % (2.0 * np.pi) - np.pi)
