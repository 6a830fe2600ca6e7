"""How the peak follows what a driver or builder can turn: a line, and the band of the samples."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from axlewright.build.resolve import Resolved
from axlewright.dynamics.launch import launch_peaks
from axlewright.quantities.estimate import Estimate, Plain, leaves
from axlewright.quantities.finding import quantiles
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.launch_report import Sweep
from axlewright.studies.launch_setup import launch_cases

if TYPE_CHECKING:
    from axlewright.studies.launch import Setting

POINTS = 24
BINS = 8
FEWEST = 30
DIALS = (
    "use.launch_speed",
    "clutch.bite",
    "clutch.capacity",
    "wheels.grip",
    "wheels.pressure",
    "wheels.tread",
    "axle.lash",
)
"""Inputs that are swept where the build has them as a number with a spread."""


class _Turned(Plain):
    """Nominal values, but one input runs over many."""

    def __init__(self, path: str, values: Array) -> None:
        super().__init__()
        self._path = path
        self._values = values

    def estimate(self, leaf: Estimate) -> Num:
        """The nominal value, or the row of values."""
        return self._values if leaf.path == self._path else leaf.value


def sweeps_of(
    resolved: Resolved, samples: Samples, drawn: Setting, ring: Array
) -> tuple[Sweep, ...]:
    """Sweep every dial of the stated launch."""
    inputs = leaves((resolved.machine, resolved.launching))
    made = []
    for path in _paths(inputs):
        leaf = inputs[path]
        assert isinstance(leaf, Estimate)
        low, high = _range(leaf)
        values = np.linspace(low, high, POINTS)
        filler = _Turned(path, values)
        m, x = filler.tree(resolved.machine), filler.tree(resolved.launching)
        case = launch_cases(m, x)[0]
        found = launch_peaks(case.car, case.events)
        assert found is not None
        peak = np.broadcast_to(found.axle_most, (POINTS,))
        below, above = _bands(samples.fill(leaf), ring, values)
        made.append(
            Sweep(path, leaf.means, leaf.dimension, _text(values), _text(peak), below, above)
        )
    return tuple(made)


def _paths(inputs: Any) -> list[str]:
    """Dials that the build knows as numbers with a spread; grip goes by any of its names."""
    found = []
    for dial in DIALS:
        near = [p for p in inputs if p == dial or p.startswith(dial + ".")]
        found += [
            p
            for p in near[:1]
            if isinstance(inputs[p], Estimate) and hasattr(inputs[p].spread, "low")
        ]
    return found


def _range(leaf: Estimate) -> tuple[float, float]:
    """Somewhat beyond what is thought possible, so that the trend is seen."""
    low, high = leaf.spread.low, leaf.spread.high  # type: ignore[union-attr]
    room = 0.25 * (high - low)
    return max(low - room, 0.25 * low), high + room


def _bands(values: Num, ring: Array, at: Array) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Band of the sampled peaks near each place of the sweep; NaN where there are too few."""
    drawn = np.broadcast_to(values, ring.shape)
    half = 0.5 * (at[-1] - at[0]) / BINS
    low, high = [], []
    for place in at:
        near = ring[(np.abs(drawn - place) <= half) & np.isfinite(ring)]
        pair = quantiles(near, (0.05, 0.95)) if near.size >= FEWEST else [np.nan, np.nan]
        low.append(pair[0])
        high.append(pair[1])
    return _text(np.array(low)), _text(np.array(high))


def _text(values: Array) -> tuple[float, ...]:
    return tuple(float(f"{v:.5g}") for v in values)
