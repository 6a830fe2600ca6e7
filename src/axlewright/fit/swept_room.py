"""Where the middle of a tire may be at most, beside an obstacle and over all places of the axle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from axlewright.fit import wheel
from axlewright.fit.axle_places import AxlePlaces
from axlewright.fit.clearance import Obstacle, outward, seen_from_axle
from axlewright.fit.envelope import Tire, kept_reach
from axlewright.fit.wheel_choice import Size, Slips
from axlewright.quantities.formula import Array

_ALONG_EDGE = 25
Pair = tuple[Size, float, float]
"""A tire, the width of its rim, and its section on that rim."""


def tires_of(pairs: Sequence[Pair], rim_lip: float) -> tuple[Tire, Tire]:
    """All pairs as one tire of arrays, about its own middle, running and standing.

    Pairs on the first of two axes.
    """

    def column(values: list[float]) -> Array:
        return np.array(values)[:, None]

    running = Tire(
        section=column([section for _, _, section in pairs]),
        over_lips=column([float(wheel.rim_over_lips(w, rim_lip)) for _, w, _ in pairs]),
        offset=0.0,
        radius=column([s.radius for s, _, _ in pairs]),
        tread=column([s.tread for s, _, _ in pairs]),
        lip_radius=column([s.lip_radius for s, _, _ in pairs]),
    )
    bulged = column([section + 2.0 * s.bulge for s, _, section in pairs])
    return running, replace(running, section=bulged)


def swept_room(
    running: Tire, standing: Tire, obstacle: Obstacle, places: AxlePlaces, half: Array
) -> tuple[Array, NDArray[np.intp]]:
    """From the car's center to where the tire's middle may be at most, for each pair, and where.

    The clearance wanted is kept then.  With a minus for what faces inward, so that adding the
    middle's place gives what is spare.
    """
    given = (obstacle.out, obstacle.height, obstacle.ahead, obstacle.half_run)
    if any(np.ndim(v) for v in given) or places.center.shape[1] != 1:
        raise ValueError(f"{obstacle.name}: a search takes single numbers, not samples")
    run = float(obstacle.half_run)
    ahead = np.linspace(-run, run, _ALONG_EDGE) if run > 0.0 else np.zeros(1)
    along, off, above = seen_from_axle(obstacle, places, ahead)
    slope = outward(places, obstacle.side)[..., 2]
    hub = np.maximum(slope * half.min(), slope * half.max())  # the stricter of all axles
    flat, wanted = off.ravel(), float(obstacle.wanted)
    width = kept_reach(running, flat, wanted)
    if np.any(standing.section != running.section):
        low = np.broadcast_to(above < hub, along.shape).ravel()
        loaded = np.where(low, kept_reach(standing, flat, wanted), -np.inf)
        width = np.maximum(width, loaded)
    sign = 1.0 if obstacle.facing == "outer" else -1.0
    free = (sign * along.ravel() - width).reshape(-1, *along.shape).min(axis=-1)
    return free.min(axis=-1), free.argmin(axis=-1)


def spare_samples(spare: Array, obstacles: Sequence[Obstacle], slips: Slips) -> Array:
    """What is spare in each sample; obstacles on the last axis in, samples out.

    An error of a dimension moves what is spare sideways one to one, half of one for the section:
    on the safe side for what lies beside rim or tread, where the section does not matter.
    """
    least: Array = np.full((*spare.shape[:-1], 1), np.inf)
    for n, obstacle in enumerate(obstacles):
        outer = 1.0 if obstacle.facing == "outer" else -1.0
        slip = outer * (slips.out[n] - slips.half[obstacle.side]) - 0.5 * slips.section
        least = np.minimum(least, spare[..., n, None] + slip)
    return least
