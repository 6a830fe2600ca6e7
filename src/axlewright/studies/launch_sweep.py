"""How the peak follows what a driver or builder can turn: a line, and the band of the samples."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from axlewright.build.resolve import Resolved
from axlewright.dynamics.launch import launch_peaks
from axlewright.quantities.estimate import Estimate, Kinds, Plain, leaves
from axlewright.quantities.finding import HIGH, LOW, quantiles
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.launch_report import Sweep
from axlewright.studies.launch_setup import launch_cases

POINTS = 24
BINS = 8
FEWEST = 30
ROOM = 0.3
"""A dial is turned at least so far both ways, over its value (assumption: what one would try)."""
LEAST = 0.25
"""No further down than to this share of the lower limit: a time or capacity is never nothing."""

_CLUTCH = ("use.launch_speed", "clutch.bite", "clutch.capacity", "clutch.reserve")
_DIALS: dict[str, tuple[str, ...]] = {
    "gentle": _CLUTCH,
    "slip": (*_CLUTCH, "driver.throttle_time"),
    "dump": (*_CLUTCH, "driver.throttle_time"),
    "two-step": _CLUTCH,
    "foot-brake": (
        "use.launch_speed",
        "driver.brake_time",
        "driver.throttle_time",
        "converter.stall_speed",
    ),
    "trans-brake": ("use.launch_speed", "driver.trans_brake_time", "converter.stall_speed"),
    "neutral drop": ("use.launch_speed", "driver.shift_time", "converter.stall_speed"),
}
_ALWAYS = ("wheels.grip", "wheels.pressure", "gearbox.play", "axle.wheel_play")
"""Cold or hot tread is a matter of grip: its dial says what either brings."""


class _Turned(Plain):
    """Nominal values, but one input runs over many."""

    def __init__(self, path: str, values: Array) -> None:
        super().__init__()
        self._path = path
        self._values = values

    def estimate(self, leaf: Estimate) -> Num:
        """The nominal value, or the row of values."""
        return self._values if leaf.path == self._path else leaf.value


def sweeps_of(resolved: Resolved, samples: Samples, ring: Array) -> tuple[Sweep, ...]:
    """Sweep every dial of the stated launch; ``ring`` holds its sampled peaks."""
    inputs = leaves((resolved.machine, resolved.launching))
    dials = (*_DIALS[resolved.machine.use.launch], *_ALWAYS)
    return tuple(
        _sweep(resolved, leaf, samples, ring) for dial in dials if (leaf := _leaf(inputs, dial))
    )


def _leaf(inputs: Mapping[str, Estimate | Kinds], dial: str) -> Estimate | None:
    """The number behind a dial, if the build has it; grip goes by the class of the tire."""
    for path, leaf in inputs.items():
        if (path == dial or path.startswith(dial + ".")) and isinstance(leaf, Estimate):
            return leaf
    return None


def _sweep(resolved: Resolved, leaf: Estimate, samples: Samples, ring: Array) -> Sweep:
    low, high = _range(leaf)
    values = np.linspace(low, high, POINTS)
    filler = _Turned(leaf.path, values)
    stated = launch_cases(
        filler.tree(resolved.machine), filler.tree(resolved.launching), landing=False
    )[0]
    found = launch_peaks(stated.car, stated.events)
    assert found is not None
    peak = np.broadcast_to(found.axle_most, (POINTS,))
    below, above = _bands(samples.fill(leaf), ring, values)
    return Sweep(leaf.path, leaf.means, leaf.dimension, _text(values), _text(peak), below, above)


def _range(leaf: Estimate) -> tuple[float, float]:
    """Somewhat beyond what is thought possible, so that the trend is seen."""
    low = getattr(leaf.spread, "low", leaf.value)
    high = getattr(leaf.spread, "high", leaf.value)
    room = max(0.25 * (high - low), ROOM * abs(leaf.value) - 0.5 * (high - low))
    return max(low - room, LEAST * low), high + room


def _bands(values: Num, ring: Array, at: Array) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Band of the sampled peaks near each place of the sweep; NaN where there are too few."""
    drawn = np.broadcast_to(values, ring.shape)
    half = 0.5 * (at[-1] - at[0]) / BINS
    low, high = [], []
    for place in at:
        near = ring[(np.abs(drawn - place) <= half) & np.isfinite(ring)]
        pair = quantiles(near, (LOW, HIGH)) if near.size >= FEWEST else [np.nan, np.nan]
        low.append(pair[0])
        high.append(pair[1])
    return _text(np.array(low)), _text(np.array(high))


def _text(values: Array) -> tuple[float, ...]:
    return tuple(float(f"{v:.5g}") for v in values)
