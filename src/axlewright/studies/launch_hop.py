"""Will the axle hop: eigenvalues over what is not known of its springs and dampers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from axlewright.dynamics.hop import HopVerdict, hop_verdict
from axlewright.dynamics.launch_car import LaunchCar
from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.finding import Likelihood, likelihood
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import significant
from axlewright.studies.influence import measure_next
from axlewright.studies.launch_machine import launch_car
from axlewright.studies.launch_report import Hop, HopSweep
from axlewright.studies.launch_spread import deciders, finding_of, finite

if TYPE_CHECKING:
    from axlewright.studies.launch import Setting

SAMPLES = 400
SPEED = 4.0
"""m/s, as the car leaves the line with its wheels spinning."""
SLIPS: Array = np.linspace(0.0, 0.6, 13)

STIFFER = (0.25, 0.5, 1.0, 2.0, 4.0)
"""Stiffness tried, over the likeliest."""


class _Dial(NamedTuple):
    """A stiffness of the axle's mounts, with the damper that belongs to it."""

    path: str
    means: str
    dimension: str
    stiffness: str
    damping: str


_DIALS = (
    _Dial(
        "suspension.mount_stiffness",
        "Stiffness of the axle fore and aft.",
        "stiffness",
        "mount_stiffness",
        "mount_damping",
    ),
    _Dial(
        "suspension.windup_stiffness",
        "Stiffness of the housing against winding up.",
        "torsional stiffness",
        "windup_stiffness",
        "windup_damping",
    ),
)


def hop_of(
    plain: Setting, drawn: Setting, seed: int, count: int, inputs: Mapping[str, Estimate | Kinds]
) -> Hop:
    """The answer as a range, with what decides it."""
    few = min(SAMPLES, count)
    one = launch_car(plain.machine, plain.launching, 1)
    nominal = hop_verdict(one, SLIPS, SPEED)
    many = _first(launch_car(drawn.machine, drawn.launching, 1), few)
    sampled = hop_verdict(many, SLIPS, SPEED)
    growth = np.where(np.isfinite(sampled.worst_growth), sampled.worst_growth, np.nan)
    said = likelihood(sampled.share_growing)
    samples = _redrawn(inputs, seed, few)
    decides = deciders(samples, growth, inputs)
    return Hop(
        sentence=_sentence(said, sampled, decides[0].means if decides else ""),
        share=sampled.share_growing,
        likelihood=said,
        frequency=finding_of(
            "launch.hop.frequency",
            "Rate of the swing that grows fastest (or dies slowest), as rotation",
            float(nominal.frequency[0]) * 2.0 * np.pi,
            sampled.frequency * 2.0 * np.pi,
            "rotation",
        ),
        growth=finding_of(
            "launch.hop.growth",
            "Factor by which the fastest swing grows in a tenth of a second",
            float(np.exp(0.1 * nominal.worst_growth[0])),
            np.exp(0.1 * growth),
            "ratio",
        ),
        kind=str(nominal.kind[0]),
        decides=decides,
        measure_next=measure_next(inputs, samples, finite(growth)),
        sweeps=tuple(_sweep(one, many, dial) for dial in _DIALS),
    )


def _sweep(one: LaunchCar, many: LaunchCar, dial: _Dial) -> HopSweep:
    """The same samples, each with the stiffness of the dial; its damping grows along."""
    now = float(getattr(one, dial.stiffness))
    values = [now * by for by in STIFFER]
    lag = getattr(many, dial.damping) / getattr(many, dial.stiffness)
    coarse = SLIPS[::2]
    shares = [
        hop_verdict(
            replace(many, **{dial.stiffness: value, dial.damping: value * lag}), coarse, SPEED
        ).share_growing
        for value in values
    ]
    rounded = tuple(float(f"{v:.5g}") for v in values)
    return HopSweep(dial.path, dial.means, dial.dimension, rounded, tuple(shares))


def _redrawn(inputs: Mapping[str, Estimate | Kinds], seed: int, count: int) -> Samples:
    """The first samples of every input: their draws are the same however many are asked for."""
    samples = Samples(seed, count)
    for leaf in inputs.values():
        if isinstance(leaf, Kinds):
            samples.kind(leaf)
        else:
            samples.fill(leaf)
    return samples


def _first(car: LaunchCar, count: int) -> LaunchCar:
    """The same car with only its first samples."""
    short = {
        f.name: getattr(car, f.name)[:count]
        for f in fields(car)
        if isinstance(getattr(car, f.name), np.ndarray) and f.name not in _CURVE
    }
    if car.converter is not None:
        turbine = {
            f.name: getattr(car.converter, f.name)[:count]
            for f in fields(car.converter)
            if isinstance(getattr(car.converter, f.name), np.ndarray)
        }
        short["converter"] = replace(car.converter, **turbine)
    return replace(car, **short)


_CURVE = {"curve_speeds", "curve_torques"}


def _sentence(said: Likelihood, found: HopVerdict, decider: str) -> str:
    low, high = found.frequency_band
    if said == "unlikely":
        return (
            "Wheel hop is unlikely: over everything that is not known of this axle, a swing dies"
            " out at nearly every slip."
        )
    head = "Wheel hop is likely" if said == "likely" else "Wheel hop is possible"
    band = f" at {significant(low, 2)} to {significant(high, 2)} swings a second"
    text = f"{head}{band} once the tires slip"
    if decider:
        text += f"; what decides it most: {decider[:1].lower()}{decider[1:].rstrip('.')}"
    return text + "."
