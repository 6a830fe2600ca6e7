"""The pattern under load: the greatest pressure that every place of the tooth sees."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.conjugate_pinion import Flank
from axlewright.hypoid.lines import picture, reader
from axlewright.hypoid.loaded.slices import Slices
from axlewright.quantities.formula import Array

MARKED = 0.1
"""Share of the peak pressure from which a place counts as part of the pattern (assumed)."""


@dataclass(frozen=True)
class Pattern:
    """Where the load lies on the tooth.

    Shares: along the face from the toe (0) to the heel (1), up the tooth from the lowest line of
    contact (0) to the tip (1).  ``center`` and ``height`` are means weighted by load through the
    pitch; ``length`` and ``width`` are between the outermost marked places.  ``pressure`` (Pa) is
    on the picture's points (along, up), whose places on the ring are ``s`` and ``h`` (m).
    """

    center: float
    height: float
    length: float
    width: float
    toe_end: float
    heel_end: float
    pressure: Array
    s: Array
    h: Array


def pattern_of(
    slices: Slices, levels: Array, load: Array, pressed: tuple[Array, float], flank: Flank,
    grid: tuple[int, int],
) -> Pattern:  # fmt: skip
    """Greatest pressure on the picture's points, read between the lines of contact."""
    read = reader(grid)
    pressure, peak = pressed
    field = _between(slices, levels, pressure, picture(flank.roll, read), read.y)
    level = MARKED * peak
    toe, heel = _span(field.max(axis=1), level)
    low, high = _span(field.max(axis=0), level)
    whole = load.sum()
    return Pattern(
        center=float(0.5 * (1.0 + np.sum(load * slices.x) / whole)),
        height=float(0.5 * (1.0 + np.sum(load * slices.y) / whole)),
        length=heel - toe,
        width=high - low,
        toe_end=toe,
        heel_end=heel,
        pressure=field,
        s=picture(flank.s, read),
        h=picture(flank.h, read),
    )


def _span(profile: Array, level: float) -> tuple[float, float]:
    """First and last place (0…1) where a profile reaches a level, straight lines between points."""
    ends = []
    for way in (1, -1):
        seen = profile[::way]
        first = int(np.argmax(seen >= level))
        rise = seen[first] - seen[first - 1] if first > 0 else 1.0
        back = (seen[first] - level) / rise if first > 0 else 0.0
        place = float(first - back) / (profile.size - 1)
        ends.append(place if way > 0 else 1.0 - place)
    return ends[0], ends[1]


def _between(slices: Slices, levels: Array, pressure: Array, roll: Array, y: Array) -> Array:
    """Pressure of the two lines on either side of every point, at its own height."""
    positions, pairs, count = pressure.shape
    by_line = pressure.transpose(1, 0, 2).reshape(pairs * positions, count)
    first = slices.y.transpose(1, 0, 2).reshape(pairs * positions, count)
    real = slices.real.T.ravel()
    step = first[:, 1] - first[:, 0]
    # Pressure of every line at every height of the picture; nothing beyond the line's ends.
    place = (y - first[:, :1]) / np.where(step == 0.0, 1.0, step)[:, None]
    k = np.clip(np.floor(place).astype(np.int64), 0, count - 2)
    part = np.clip(place - k, 0.0, 1.0)
    line = np.arange(pairs * positions)[:, None]
    table = (1.0 - part) * by_line[line, k] + part * by_line[line, k + 1]
    table = np.where(real[:, None] & (place > -0.51) & (place < count - 0.49), table, 0.0)
    pitch = levels[0, 1] - levels[0, 0] if pairs > 1 else 1.0
    at = np.clip((roll - levels[0, 0]) / pitch * positions, 0.0, pairs * positions - 1.0001)
    low = np.floor(at).astype(np.int64)
    share = at - low
    column = np.arange(y.size)
    return np.asarray((1.0 - share) * table[low, column] + share * table[low + 1, column])
