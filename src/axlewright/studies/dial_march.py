"""What marching the launch at each setting of a dial found, for the limit card."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.build.machine import Machine
from axlewright.quantities.formula import Array, Num


@dataclass(frozen=True, eq=False)
class DialMarch:
    """Ratio of marched peak to closed-form figure along one dial, for the stated launch.

    ``settings`` (K,) run evenly from easy to hard; ``nominal`` holds (K,) and ``sampled`` (K, n) by
    place, the samples being the first n of the seed.
    """

    case: str
    settings: Array
    nominal: dict[str, Array]
    sampled: dict[str, Array]


def turned_march(m: Machine[Num], found: DialMarch | None, grid: Array) -> Machine[Num]:
    """The machine, turned along a grid, with the ratios that belong to each of its settings.

    A machine of samples has settings along the first axis and samples along the second.
    """
    if found is None or found.case not in m.marched:
        return m
    samples = grid.ndim > 1
    table = found.sampled if samples else found.nominal
    ratios: dict[str, Num] = {
        place: _between(np.ravel(grid), found.settings, values) for place, values in table.items()
    }
    return replace(m, marched={**m.marched, found.case: ratios})


def _between(at: Array, settings: Array, values: Array) -> Array:
    """Straight lines between evenly spaced settings, along the first axis."""
    step = (settings[-1] - settings[0]) / (settings.size - 1)
    place = np.clip((at - settings[0]) / step, 0.0, settings.size - 1.0)
    below = np.minimum(place.astype(np.intp), settings.size - 2)
    share = (place - below).reshape(-1, *(1,) * (values.ndim - 1))
    result: Array = values[below] * (1.0 - share) + values[below + 1] * share
    return result
