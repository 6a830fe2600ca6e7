"""Wheel hop: does the axle begin to swing by itself while the tires slip, how fast, and why.

Past the peak of its slip curve a tire pushes less the faster it slips, which feeds a motion
instead of damping it.  Whether the axle's dampers take out more than the tire puts in is read off
the eigenvalues of the small motions about a steady pull (:mod:`hop_matrix`).  How well stiffness
and damping of an axle are known decides how sure the answer is, so it is asked of many samples.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from axlewright.dynamics.hop_matrix import SIZE, State, jacobian
from axlewright.dynamics.hop_pull import steady_pull
from axlewright.dynamics.launch_car import LaunchCar
from axlewright.quantities.formula import Array, Num

Complex = NDArray[np.complex128]

BAND = (3.0, 30.0)
"""Hz; below lie the car surging on its driveline and the body on its springs."""

KINDS: dict[str, tuple[str, ...]] = {
    "wind-up": ("windup", "windup_rate"),
    "fore-aft": ("axle_speed", "gap"),
    "vertical": ("axle_height", "axle_height_rate"),
    "wheels": ("wheel_speed", "shaft_twist", "deflection"),
    "driveline": ("input_speed", "driveshaft_twist", "pinion_speed"),
    "body": ("body_speed", "heave", "heave_rate", "pitch", "pitch_rate"),
}
"""Which states say that a mode is of a kind; the first three are the axle's own."""

NO_KIND = "none"
AXLE_SHARE = 0.15
"""A mode in the band of which the axle itself has less is the driveline's or the body's."""

_MODES = SIZE // 2
_NO_MODE = complex(np.nan, np.nan)
_MEMBERS = np.array([[float(s in members) for s in State._fields] for members in KINDS.values()])


@dataclass(frozen=True)
class HopModes:
    """Swinging modes by rising frequency, NaN where fewer swing; shape (..., 8), samples first."""

    frequency: Array
    """Hz."""
    damping_ratio: Array
    """Negative where the mode grows."""
    growth: Array
    """1/s, rate at which a swing grows; negative where it dies."""
    participation: Array
    """Share of each of :data:`KINDS` in the mode, shape (..., 8, 6); adds up to one."""
    hop: NDArray[np.bool_]
    """Modes inside :data:`BAND` in which the axle itself takes part."""
    runaway: Array
    """1/s, shape (...): fastest growth without swinging; the wheels spin up or the slip dies."""


@dataclass(frozen=True)
class HopVerdict:
    """Whether some hop mode grows at some slip; one entry a sample, shape (n,)."""

    share_growing: float
    """Share of the samples in which it does."""
    worst_growth: Array
    """1/s over all slips, negative if every swing dies; -inf without a mode in the band."""
    frequency: Array
    """Hz of that mode."""
    worst_slip: Array
    """Slip at which it grows fastest."""
    kind: NDArray[np.str_]
    """The one of :data:`KINDS` with the greatest share in it."""
    growth_band: tuple[float, float]
    """1/s, 5 and 95 % of the samples."""
    frequency_band: tuple[float, float]
    """Hz, 5 and 95 % of the samples that grow; NaN if none does."""


@dataclass(frozen=True)
class HopInfluence:
    """How an unknown of the car moves the answer."""

    name: str
    """Field of the car."""
    rank_correlation: float
    """With the growth: +1 where more of it always hops more, -1 where less does."""
    shift: float
    """Mean where it grows less the mean where it does not, over the scatter of all samples."""


def hop_modes(car: LaunchCar, slip: Num, speed: Num, torque_slope: Num = 0.0) -> HopModes:
    """All swinging modes about a steady pull at ``slip`` and road ``speed`` (m/s).

    ``torque_slope`` (N·m·s/rad) is the change of engine or turbine torque with its speed.
    Numbers broadcast; arrays of the car count as samples.
    """
    pull = steady_pull(car, slip, speed)
    values, shares = _shared(jacobian(car, pull, speed, torque_slope))
    swing = np.where(values.imag > 0.0, values.imag, np.inf)
    order = np.argsort(swing, axis=-1)[..., :_MODES]
    kept = np.isfinite(np.take_along_axis(swing, order, axis=-1))
    picked = np.where(kept, np.take_along_axis(values, order, axis=-1), _NO_MODE)
    parts = np.take_along_axis(shares, order[..., None], axis=-2)
    parts = np.where(kept[..., None], parts, np.nan)
    frequency = picked.imag / (2.0 * np.pi)
    return HopModes(
        frequency=frequency,
        damping_ratio=-picked.real / np.abs(picked),
        growth=picked.real,
        participation=parts,
        hop=_within(frequency) & (parts[..., :3].sum(axis=-1) >= AXLE_SHARE),
        runaway=np.max(np.where(values.imag == 0.0, values.real, -np.inf), axis=-1),
    )


def hop_verdict(
    car: LaunchCar, slips: Sequence[float] | Array, speed: Num, torque_slope: Num = 0.0
) -> HopVerdict:
    """Say whether some mode in the hop band grows at any of the ``slips``, sample by sample.

    ``speed`` (m/s) and ``torque_slope`` are numbers or have one entry a sample.
    """
    tried = np.asarray(slips, dtype=np.float64)
    found = [_fastest(_values(car, float(s), speed, torque_slope)) for s in tried]
    growths = np.stack([growth for growth, _ in found])
    at = np.argmax(growths, axis=0)
    worst = np.take_along_axis(growths, at[None], axis=0)[0]
    frequency = np.take_along_axis(np.stack([f for _, f in found]), at[None], axis=0)[0]
    slip = tried[at]
    growing = worst > 0.0
    return HopVerdict(
        share_growing=float(np.mean(growing)),
        worst_growth=worst,
        frequency=frequency,
        worst_slip=slip,
        kind=_kind_of_fastest(car, slip, speed, torque_slope),
        growth_band=_band(worst[np.isfinite(worst)]),
        frequency_band=_band(frequency[growing]),
    )


def hop_influence(car: LaunchCar, verdict: HopVerdict) -> tuple[HopInfluence, ...]:
    """Rank the sampled numbers of the car by how strongly the growth goes with them."""
    growing = verdict.worst_growth > 0.0
    ranks = _ranks(verdict.worst_growth)
    found = []
    for field in fields(car):
        value = getattr(car, field.name)
        if not isinstance(value, np.ndarray) or value.shape != growing.shape:
            continue
        scatter = float(np.std(value))
        if scatter > 0.0:
            along = _correlation(_ranks(value), ranks)
            mixed = 0 < np.count_nonzero(growing) < growing.size
            shift = float(np.mean(value[growing]) - np.mean(value[~growing])) if mixed else 0.0
            found.append(HopInfluence(field.name, along, shift / scatter))
    return tuple(sorted(found, key=lambda i: -abs(i.rank_correlation)))


def _values(car: LaunchCar, slip: Num, speed: Num, torque_slope: Num) -> Complex:
    """Eigenvalues of each sample, shape (n, 17)."""
    matrix = jacobian(car, steady_pull(car, slip, speed), speed, torque_slope)
    return np.linalg.eigvals(matrix.reshape(-1, SIZE, SIZE)).astype(np.complex128)


def _shared(matrix: Array) -> tuple[Complex, Array]:
    """Eigenvalues (..., 17) and the share of each kind in each of them (..., 17, 6).

    The share of a state is the product of its entries in the right and the left eigenvector,
    which does not depend on units.
    """
    values, right = np.linalg.eig(matrix)
    left = np.linalg.inv(right)
    parts = np.abs(np.swapaxes(right, -1, -2) * left)
    parts /= parts.sum(axis=-1, keepdims=True)
    return values.astype(np.complex128), parts @ _MEMBERS.T


def _within(frequency: Array) -> NDArray[np.bool_]:
    return (frequency >= BAND[0]) & (frequency <= BAND[1])


def _fastest(values: Complex) -> tuple[Array, Array]:
    """Growth and frequency of the mode in the band that grows fastest, (n,) each."""
    frequency = values.imag / (2.0 * np.pi)
    growth = np.where(_within(frequency), values.real, -np.inf)
    best = np.argmax(growth, axis=-1)[..., None]
    worst = np.take_along_axis(growth, best, axis=-1)[..., 0]
    at = np.take_along_axis(frequency, best, axis=-1)[..., 0]
    return worst, np.where(np.isfinite(worst), at, np.nan)


def _kind_of_fastest(
    car: LaunchCar, slip: Array, speed: Num, torque_slope: Num
) -> NDArray[np.str_]:
    matrix = jacobian(car, steady_pull(car, slip, speed), speed, torque_slope)
    values, shares = _shared(matrix)
    growth = np.where(_within(values.imag / (2.0 * np.pi)), values.real, -np.inf)
    best = np.argmax(growth, axis=-1)[..., None, None]
    share = np.take_along_axis(shares, best, axis=-2)[..., 0, :]
    found = np.isfinite(growth).any(axis=-1)
    return np.where(found, np.array(list(KINDS))[np.argmax(share, axis=-1)], NO_KIND)


def _band(values: Array) -> tuple[float, float]:
    if values.size == 0:
        return (float("nan"), float("nan"))
    low, high = np.quantile(values, [0.05, 0.95])
    return (float(low), float(high))


def _ranks(values: Array) -> Array:
    """Ranks, equal values sharing their mean rank."""
    _, place, counts = np.unique(values, return_inverse=True, return_counts=True)
    ranks: Array = (np.cumsum(counts) - 0.5 * (counts - 1.0))[place]
    return ranks


def _correlation(first: Array, second: Array) -> float:
    first, second = first - first.mean(), second - second.mean()
    scale = float(np.sqrt((first @ first) * (second @ second)))
    return float(first @ second) / scale if scale > 0.0 else 0.0
