"""Curves as the march reads them: a level and a bend at each point.

A line through points, held flat beyond its ends, is its first value plus Σ bend·max(0, x − place).
That has no branches, so all lanes read their own curves at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.vehicle.converter import (
    relative_pump_torque,
    scaled_torque_ratio,
    typical_torque_ratio,
)

PLACES: Final = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0)
"""Speed ratios at which the converter curves have their points."""

_S: Final = np.asarray(PLACES)
_JUST_BELOW: Final = np.where(_S == 0.9, np.nextafter(0.9, 0.0), _S)


def bends(places: Array, values: Array) -> Array:
    """Change of slope at each point; points run along the first axis."""
    slope = np.diff(values, axis=0) / np.diff(places, axis=0)
    none = np.zeros_like(values[:1])
    result: Array = np.diff(np.concatenate([none, slope, none]), axis=0)
    return result


def engine_curve(
    speeds: Sequence[Num] | Array, torques: Sequence[Num] | Array
) -> tuple[Array, Array]:
    """Curve points as arrays that run along the first axis, launches along the second."""
    if len(speeds) != len(torques) or not len(speeds):
        raise ValueError("an engine curve needs as many torques as speeds, and at least one")
    rows = [np.atleast_1d(np.asarray(v, dtype=np.float64)) for v in (*speeds, *torques)]
    flat = np.broadcast_arrays(*rows)
    place, torque = np.stack(flat[: len(speeds)]), np.stack(flat[len(speeds) :])
    if bool(np.any(np.diff(place, axis=0) <= 0.0)):
        raise ValueError("the speeds of an engine curve must rise")
    return place, torque


def _mean(curve: Array, below: Array) -> Array:
    return 0.5 * (curve + below)


def pump_curve() -> Array:
    """Relative pump torque at the points, the mean of both branches at the coupling point."""
    return _mean(
        np.asarray(relative_pump_torque(_S)), np.asarray(relative_pump_torque(_JUST_BELOW))
    )


def ratio_curve(stall_torque_ratio: Num) -> Array:
    """Torque ratio at the points, one column for each launch."""
    typical = _mean(
        np.asarray(typical_torque_ratio(_S)), np.asarray(typical_torque_ratio(_JUST_BELOW))
    )
    stall = np.atleast_1d(np.asarray(stall_torque_ratio, dtype=np.float64))
    return np.asarray(scaled_torque_ratio(typical[:, None], stall, _S[:, None]))


PUMP_BENDS: Final[tuple[float, ...]] = tuple(bends(_S, pump_curve()).tolist())
