"""The driveshaft in its tunnel: what was measured round the old shaft, as edges for the sweep."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from axlewright.fit.travel_shapes import Bar
from axlewright.suspension.linkage import spot

_EDGE = 0.15
"""Half length of an edge, m: longer than a shaft wanders."""


@dataclass(frozen=True)
class TunnelRoom:
    """Room round the center line of the old shaft at its narrowest place, ride height; m.

    None where nothing is near.
    """

    ahead: float
    """From the joint center at the pinion forward along the shaft."""
    above: float | None = None
    below: float | None = None
    left: float | None = None
    right: float | None = None


def tunnel_edges(
    gearbox_joint: ArrayLike, old_pinion_joint: ArrayLike, room: TunnelRoom
) -> tuple[Bar, ...]:
    """Edges of the body round the shaft: they stay where they are when the new shaft does not.

    The joints are those that the room was measured with.  Edges are straight lines
    across the shaft: a round tunnel has less room in its corners than they say.
    """
    rear, front = spot(old_pinion_joint), spot(gearbox_joint)
    along = front - rear
    place = rear + room.ahead * along / np.sqrt(along @ along)
    ways = (
        ("tunnel above", room.above, (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)),
        ("loop or crossmember below", room.below, (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
        ("tunnel left", room.left, (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
        ("tunnel right", room.right, (0.0, -1.0, 0.0), (0.0, 0.0, 1.0)),
    )
    edges = []
    for name, off, away, across in ways:
        if off is not None:
            middle = place + off * np.array(away)
            reach = _EDGE * np.array(across)
            edges.append(Bar(name, middle - reach, middle + reach, one_on="body", other_on="body"))
    return tuple(edges)
