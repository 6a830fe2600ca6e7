"""How the peak follows what a driver or builder can turn: a line, and the band of the samples."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.dynamics.launch import launch_peaks
from axlewright.quantities.estimate import Estimate, Filler, Kinds, Plain, leaves
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

WARMTHS, WARM_SAMPLES = 9, 200
COLDEST, HOTTEST = 278.15, 388.15
"""K: from a cold morning to a tread that smokes (assumption: what one would see)."""

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
_AUTOMATIC = ("use.launch_speed", "driver.brake_time", "converter.stall_speed")
"""A gentle start without a clutch."""
_ALWAYS = ("wheels.grip", "wheels.pressure", "gearbox.play", "axle.wheel_play")
_WARMTH = "wheels.tread_temperature"
_PRESSURE = "Tire pressure: how springy it makes the tire; grip stays as it is."


class _Turned(Plain):
    """Nominal values, but one input runs over many."""

    def __init__(self, path: str, values: Array) -> None:
        super().__init__()
        self._path = path
        self._values = values

    def estimate(self, leaf: Estimate) -> Num:
        """The nominal value, or the row of values."""
        return self._values if leaf.path == self._path else leaf.value


class _SamplesAt(Samples):
    """Samples, but one input stands at a value."""

    def __init__(self, path: str, value: float, seed: int, count: int) -> None:
        super().__init__(seed, count)
        self._path = path
        self._value = value

    def estimate(self, leaf: Estimate) -> Num:
        """The value, or samples as ever."""
        return self._value if leaf.path == self._path else super().estimate(leaf)


def sweeps_of(resolved: Resolved, samples: Samples, ring: Array) -> tuple[Sweep, ...]:
    """Sweep every dial of the stated launch; ``ring`` holds its sampled peaks."""
    inputs = leaves((resolved.machine, resolved.launching))
    dials = (*_dials(resolved), *_ALWAYS)
    swept = [
        _sweep(resolved, leaf, samples, ring) for dial in dials if (leaf := _leaf(inputs, dial))
    ]
    return (*swept, _by_warmth(resolved, samples.seed, min(samples.count, WARM_SAMPLES)))


def _dials(resolved: Resolved) -> tuple[str, ...]:
    m = resolved.machine
    return _AUTOMATIC if m.clutch is None and m.use.launch == "gentle" else _DIALS[m.use.launch]


def _leaf(inputs: Mapping[str, Estimate | Kinds], dial: str) -> Estimate | None:
    """The number behind a dial, if the build has it; by the likeliest class if that is unknown."""
    found = {p: leaf for p, leaf in inputs.items() if p == dial or p.startswith(dial + ".")}
    kinds = inputs.get("wheels.grip_class")
    likely = f"{dial}.{kinds.kinds[kinds.likeliest]}" if isinstance(kinds, Kinds) else dial
    numbers = [leaf for leaf in found.values() if isinstance(leaf, Estimate)]
    return next((n for n in numbers if n.path == likely), numbers[0] if numbers else None)


def _by_warmth(resolved: Resolved, seed: int, count: int) -> Sweep:
    """The tread from cold to smoking; of a build that says nothing of it, as if it did.

    Its band is that of samples marched at each temperature: where a tread grips best, and how far
    from that, is assumed for its class.
    """
    warm = resolved
    if (
        resolved.source.build.wheels is None
        or resolved.source.build.wheels.tread_temperature is None
    ):
        text = edit(resolved.source.text, _WARMTH, "100 °F")
        warm = resolve(read_build(text, resolved.source.file))
    values = np.linspace(COLDEST, HOTTEST, WARMTHS)
    peak = _marched(warm, _Turned(_WARMTH, values))
    sampled = [_marched(warm, _SamplesAt(_WARMTH, float(t), seed, count)) for t in values]
    ends = np.array([quantiles(s[np.isfinite(s)], (LOW, HIGH)) for s in sampled]).T
    means = "Tread temperature; what it does to grip is assumed for the class of the tire."
    return Sweep(
        _WARMTH, means, "temperature", _text(values), _text(peak), _text(ends[0]), _text(ends[1])
    )


def _marched(resolved: Resolved, filler: Filler) -> Array:
    """Peaks at the ring gear of the stated launch."""
    stated = launch_cases(
        filler.tree(resolved.machine), filler.tree(resolved.launching), landing=False
    )[0]
    found = launch_peaks(stated.car, stated.events)
    assert found is not None
    return found.axle_most


def _sweep(resolved: Resolved, leaf: Estimate, samples: Samples, ring: Array) -> Sweep:
    low, high = _range(leaf)
    values = np.linspace(low, high, POINTS)
    peak = np.broadcast_to(_marched(resolved, _Turned(leaf.path, values)), (POINTS,))
    below, above = _bands(samples.fill(leaf), ring, values)
    means = _PRESSURE if leaf.path.startswith("wheels.pressure") else leaf.means
    return Sweep(leaf.path, means, leaf.dimension, _text(values), _text(peak), below, above)


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
