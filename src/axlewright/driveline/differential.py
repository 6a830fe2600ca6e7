"""Differential: how the ring gear's torque parts between the two shafts.

The torque bias ratio is high side over low side while one wheel gains on the other.  A clutch
pack adds a preload that works with nothing on the low side; a helical differential has next to
none, so with a wheel in the air it drives nothing.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_BIAS = "definition of the torque bias ratio (closed form)"
_RANGE = {"bias_ratio": (1.0, 6.0)}
_OUTSIDE = "no gear or clutch differential biases so; take it as locked or open"


@formula("s_h", "ratio", source=_BIAS, valid=_RANGE, outside=_OUTSIDE)
def high_side_share(bias_ratio: Num) -> Num:
    """Share of the ring torque on the high side: a 3 to 1 bias sends 75 % one way."""
    return bias_ratio / (1.0 + bias_ratio)


@formula("s_h", "ratio", source="definition of a share (closed form)")
def side_share(high_side: Num, low_side: Num) -> Num:
    """Share of the push that the high side carries."""
    return high_side / (high_side + low_side)


@formula("T_h", "torque", source=f"{_BIAS}, preload added", valid=_RANGE, outside=_OUTSIDE)
def high_side_torque(ring_torque: Num, bias_ratio: Num, differential_preload: Num) -> Num:
    """Most that one shaft can see of a ring torque: bias and preload used up.

    From high = bias · low + preload and high + low = ring torque; never more than all of it.
    """
    biased = (bias_ratio * ring_torque + differential_preload) / (1.0 + bias_ratio)
    result: Num = np.minimum(biased, ring_torque)
    return result


@formula("T_l", "torque", source="the two sides make up the ring torque (closed form)")
def low_side_torque(ring_torque: Num, high_side_torque: Num) -> Num:
    """What is left for the other shaft."""
    return ring_torque - high_side_torque


@formula("T_h", "torque", source="equal torque on both sides (closed form)")
def one_wheel_open(ring_torque: Num, low_grip_torque: Num, high_grip_torque: Num) -> Num:
    """Torque on the gripping wheel's shaft with the other on ice: open differential.

    The slipping wheel sets both sides; the engine just spins it.
    """
    half = np.minimum(0.5 * ring_torque, low_grip_torque)
    result: Num = np.minimum(half, high_grip_torque)
    return result


@formula("T_h", "torque", source=f"{_BIAS}, preload added", valid=_RANGE, outside=_OUTSIDE)
def one_wheel_biasing(
    ring_torque: Num,
    low_grip_torque: Num,
    high_grip_torque: Num,
    bias_ratio: Num,
    differential_preload: Num,
) -> Num:
    """Torque on the gripping wheel's shaft with the other on ice: biasing differential.

    The least of what the ring has left, what the tire holds, and what the bias allows.
    """
    low = np.minimum(0.5 * ring_torque, low_grip_torque)
    allowed = bias_ratio * low + differential_preload
    result: Num = np.minimum(np.minimum(ring_torque - low, high_grip_torque), allowed)
    return result


@formula("T_h", "torque", source="one solid shaft between the wheels (closed form)")
def one_wheel_locked(ring_torque: Num, low_grip_torque: Num, high_grip_torque: Num) -> Num:
    """Torque on the gripping wheel's shaft with the other on ice: spool or locked locker.

    One shaft carries all that the other wheel does not take: the case that twists shafts.
    """
    low = np.minimum(0.5 * ring_torque, low_grip_torque)
    result: Num = np.minimum(ring_torque - low, high_grip_torque)
    return result
