"""How evenly a loaded contact lies, and how fast its band crosses both flanks.

Plain numbers out of a contact result, for ratings and for heat.  Edges are left out as they are
from the peak pressure: 2.5 % of face and height, where the load of a sharp end says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES, Flank
from axlewright.hypoid.loaded.contact import INSIDE, LoadedContact
from axlewright.quantities.formula import Array

_DX, _DY = chebyshev.derivative(NODES[0]), chebyshev.derivative(NODES[1])


@dataclass(frozen=True)
class Evenness:
    """Line loads N/m through a pitch.

    ``peak`` is the greatest, ``mean`` what it would be at that very position if all lines in mesh
    carried alike all along.  ``carried`` and ``radius`` (relative curvature, m) are means over the
    load.  ``largest_share`` is the most of the torque that one pair of teeth ever carries.
    """

    peak: float
    mean: float
    carried: float
    radius: float
    largest_share: float


def evenness(found: LoadedContact, contact_modulus: float) -> Evenness:
    """Read a contact result; the modulus (Pa) is that of both bodies together."""
    inside = np.maximum(np.abs(found.x), np.abs(found.y)) < INSIDE
    peaks = np.where(inside, found.line_load, 0.0).max(axis=(1, 2))
    at = int(peaks.argmax())
    load = found.line_load * found.length
    carries = found.line_load > 0.0
    line, weight = found.line_load[carries], load[carries]
    radius = line * contact_modulus / (np.pi * found.pressure[carries] ** 2)
    return Evenness(
        peak=float(peaks[at]),
        mean=float(load[at].sum() / found.length[at].sum()),
        carried=float(np.sum(line * weight) / weight.sum()),
        radius=float(np.sum(radius * weight) / weight.sum()),
        largest_share=float(found.share.max()),
    )


@dataclass(frozen=True)
class Crossing:
    """Travel per radian that the ring gear turns, m, at one place of a flank.

    ``pinion`` and ``ring``: of the line of contact over either flank, square to itself;
    ``sliding``: of one flank over the other.
    """

    pinion: float
    ring: float
    sliding: float


def crossing(flank: Flank, center: float, height: float) -> Crossing:
    """Travels at a place told by shares: from toe to heel, from the lowest line to the tip.

    A line of contact is where the roll angle has one value, so it crosses a flank by the turn over
    the steepness of the roll angle on it.
    """
    fields = np.stack([
        _steepness(flank.pinion, flank.roll), _steepness(flank.ring, flank.roll), _sliding(flank)
    ])  # fmt: skip
    bx, by = (
        chebyshev.basis(np.array([2.0 * at - 1.0]), n) @ chebyshev.to_coefficients(n)
        for at, n in zip((center, height), NODES, strict=True)
    )
    pinion, ring, sliding = np.einsum("i,cij,j->c", bx[0], fields, by[0])
    ratio = flank.pair.ratio
    return Crossing(float(ratio / pinion), float(ratio / ring), float(sliding))


def _steepness(points: Array, roll: Array) -> Array:
    """Rise of the pinion's roll angle per m on a member's flank, square to the line of contact."""
    along = np.einsum("ij,cjk->cik", _DX, points)
    up = np.einsum("ij,ckj->cki", _DY, points)
    size, cross, rise = (np.sum(a * b, axis=0) for a, b in ((along, along), (along, up), (up, up)))
    roll_x, roll_y = _DX @ roll, roll @ _DY.T
    square = rise * roll_x * roll_x - 2.0 * cross * roll_x * roll_y + size * roll_y * roll_y
    return np.asarray(np.sqrt(square / (size * rise - cross * cross)))


def _sliding(flank: Flank) -> Array:
    """Distance that the pinion's flank runs ahead of the ring's per radian of the ring."""
    ratio, hand = flank.pair.ratio, flank.pair.hand
    cos, sin = np.cos(flank.roll / ratio), np.sin(flank.roll / ratio)
    x, y, z = flank.ring
    point = np.stack([cos * x + sin * y, cos * y - sin * x, z])
    arm = point - np.array([0.0, hand * flank.pair.offset, 0.0])[:, None, None]
    pinion = ratio * np.stack([np.zeros_like(z), -arm[2], arm[1]])
    ring = np.stack([point[1], -point[0], np.zeros_like(z)])
    return np.asarray(np.linalg.norm(pinion - ring, axis=0))
