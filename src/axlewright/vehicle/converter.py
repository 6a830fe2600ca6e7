"""Torque converter: how fast it lets the engine turn and by how much it multiplies.

The pump takes torque with the square of its speed, T = (n/K)².  Instead of the shop's K (rpm per
root lb·ft) the formulas take a *rated stall*: a speed and the engine torque it was stated behind,
which is the same information in plain units.  The shape over speed ratio follows the polynomial
of Kotwicki, SAE 820393.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright.quantities.formula import Array, Num, formula
from axlewright.vehicle.engine import piecewise_linear

_KOTWICKI = (
    "Kotwicki, SAE 820393; Cho & Hedrick, ASME J. Dyn. Syst. Meas. Control 111 (1989) 568-576 "
    "(coefficients from memory)"
)


@formula(
    "T_p",
    "torque",
    source="pump law T = (n/K)² of hydrodynamic couplings (common practice, no source)",
    valid={"rated_stall_torque": (1.0, None)},
    outside="a rated stall without the torque it was stated behind says nothing",
)
def pump_torque(
    engine_speed: Num,
    rated_stall_speed: Num,
    rated_stall_torque: Num,
    relative_pump_torque: Num,
) -> Num:
    """Torque that the converter takes from the engine at a speed.

    The relative pump torque is 1 with the car held still and falls as the car catches up.
    """
    pace = engine_speed / rated_stall_speed
    return rated_stall_torque * pace * pace * relative_pump_torque


@formula(
    "ω_s",
    "rotation",
    source="pump law T = (n/K)² of hydrodynamic couplings (common practice, no source)",
    valid={"rated_stall_torque": (1.0, None)},
    outside="a rated stall without the torque it was stated behind says nothing",
)
def stall_speed(engine_torque: Num, rated_stall_speed: Num, rated_stall_torque: Num) -> Num:
    """Stall speed behind another torque: it rises with the square root of torque."""
    result: Num = rated_stall_speed * np.sqrt(engine_torque / rated_stall_torque)
    return result


@formula(
    "ω_s",
    "rotation",
    source="crossing of the engine curve with the pump law T = (n/K)² (derived; 50 bisections)",
    kind="solve",
)
def stall_speed_on_curve(
    speed_points: Sequence[Num] | Array,
    torque_points: Sequence[Num] | Array,
    rated_stall_speed: Num,
    rated_stall_torque: Num,
) -> Num:
    """Speed at which the engine settles against the converter with the car held still.

    The engine curve is held flat beyond its ends, so a crossing always exists.
    """
    curve = np.asarray(torque_points, dtype=np.float64)
    most = np.max(curve, axis=0)
    low = np.zeros_like(rated_stall_speed * rated_stall_torque * most)
    high = low + rated_stall_speed * np.sqrt(most / rated_stall_torque)
    for _ in range(50):
        middle = 0.5 * (low + high)
        pace = middle / rated_stall_speed
        spare = (
            piecewise_linear(middle, speed_points, torque_points) > rated_stall_torque * pace * pace
        )
        low, high = np.where(spare, middle, low), np.where(spare, high, middle)
    settled = piecewise_linear(0.5 * (low + high), speed_points, torque_points)
    result: Num = (rated_stall_speed * np.sqrt(settled / rated_stall_torque))[()]
    return result


@formula(
    "T_s",
    "torque",
    source="definition of the torque ratio (closed form)",
    valid={"torque_ratio": (1.0, 3.5)},
    outside="no single-stage converter of a car multiplies so much or so little",
)
def turbine_torque(engine_torque: Num, torque_ratio: Num) -> Num:
    """Torque that the converter hands to the gearbox; with the car held still, stall torque."""
    return engine_torque * torque_ratio


@formula(
    "R_T",
    "ratio",
    source=_KOTWICKI,
    valid={"speed_ratio": (0.0, 1.0)},
    outside="the car drives the engine, or the converter turns backward: another polynomial",
)
def typical_torque_ratio(speed_ratio: Num) -> Num:
    """Torque multiplication of one typical converter against turbine over pump speed.

    Just below its coupling point (0.9) the published polynomial dips under 1; it is held at 1.
    """
    square = speed_ratio * speed_ratio
    turbine = 5.7656 + 0.3107 * speed_ratio - 5.4323 * square
    pump = 3.4325 + 2.2210 * speed_ratio - 4.6041 * square
    result: Num = np.where(speed_ratio < 0.9, np.maximum(turbine / pump, 1.0), 1.0)[()]
    return result


@formula(
    "k_p",
    "ratio",
    source=_KOTWICKI,
    valid={"speed_ratio": (0.0, 1.0)},
    outside="the car drives the engine, or the converter turns backward: another polynomial",
)
def relative_pump_torque(speed_ratio: Num) -> Num:
    """Pump torque over that at stall, same engine speed: falls to nothing as the speeds meet."""
    square = speed_ratio * speed_ratio
    slipping = 3.4325 + 2.2210 * speed_ratio - 4.6041 * square
    coupled = -6.7644 + 32.0024 * speed_ratio - 25.2441 * square
    result: Num = np.where(speed_ratio < 0.9, slipping, np.maximum(coupled, 0.0))[()] / 3.4325
    return result


@formula(
    "R_T",
    "ratio",
    source="typical curve stretched between 1 and the stated stall ratio, capped where the "
    "converter would give more power than it takes (derived)",
    valid={"stall_torque_ratio": (1.0, 2.5), "speed_ratio": (0.0, 1.0)},
    outside="the typical curve, stretched this far, is no longer the curve of a real converter",
)
def scaled_torque_ratio(
    typical_torque_ratio: Num, stall_torque_ratio: Num, speed_ratio: Num
) -> Num:
    """Torque multiplication of a converter of which only the stall ratio is known."""
    stretched = 1.0 + (stall_torque_ratio - 1.0) * (typical_torque_ratio - 1.0) / (
        5.7656 / 3.4325 - 1.0
    )
    result: Num = np.minimum(stretched, 1.0 / np.maximum(speed_ratio, 0.1))
    return result
