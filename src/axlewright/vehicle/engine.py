"""Engine torque and the inertia that turns with it.

Torque comes from a rating, a dyno sheet or a boost figure; inertia follows Gillespie,
Fundamentals of Vehicle Dynamics (SAE R-114, 1992), chapter 2.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright.quantities.formula import Array, Num, formula


@formula(
    "T_e",
    "torque",
    source="T = P/ω (closed form)",
    valid={"engine_speed": (1.0, None)},
    outside="give the speed at which the power was made",
)
def torque_from_power(power: Num, engine_speed: Num) -> Num:
    """Torque behind a power figure: in shop units 5252 times horsepower over rpm."""
    return power / engine_speed


@formula(
    "T_b",
    "torque",
    source="torque in proportion to absolute manifold pressure (derived; equal charge "
    "temperature, fuel and spark)",
    valid={"boost_pressure": (0.0, 300e3)},
    outside="torque no longer follows the gauge: charge heat, knock and pump work take over",
)
def boosted_torque(
    reference_torque: Num, barometer: Num, boost_pressure: Num, reference_boost: Num
) -> Num:
    """Torque at another boost: scaled by absolute manifold pressure.

    An upper estimate when boost goes up, because hotter charge and later spark give some back.
    """
    return reference_torque * (barometer + boost_pressure) / (barometer + reference_boost)


@formula(
    "T_e",
    "torque",
    source="dyno loss as a share of flywheel torque (common practice, no source)",
    valid={"dyno_loss": (0.0, 0.35)},
    outside="such a loss is no gear-and-bearing loss; look for tire slip or a dragging brake",
)
def flywheel_torque(wheel_dyno_torque: Num, dyno_loss: Num) -> Num:
    """Flywheel torque from a chassis-dyno figure (already divided by the ratios)."""
    return wheel_dyno_torque / (1.0 - dyno_loss)


def piecewise_linear(
    at: Num, x_points: Sequence[Num] | Array, y_points: Sequence[Num] | Array
) -> Num:
    """Straight lines between points, held at the ends.

    Points run along the first axis and each may be an array of samples, which broadcasts
    against the samples of the place where the curve is read.
    """
    x, y = np.asarray(x_points, dtype=np.float64), np.asarray(y_points, dtype=np.float64)
    depth = max(np.ndim(at), x.ndim - 1, y.ndim - 1)
    x = x.reshape(x.shape[0], *(1,) * (depth + 1 - x.ndim), *x.shape[1:])
    y = y.reshape(y.shape[0], *(1,) * (depth + 1 - y.ndim), *y.shape[1:])
    step = np.diff(x, axis=0)
    if x.shape[0] != y.shape[0] or not bool(np.all(step > 0.0)):
        raise ValueError("a curve needs as many values as places, and its places must rise")
    run = np.clip(at - x[:-1], 0.0, step)
    result: Num = (y[0] + np.sum(np.diff(y, axis=0) / step * run, axis=0))[()]
    return result


@formula("T_e", "torque", source="straight lines between the given points", kind="lookup")
def torque_at_speed(
    engine_speed: Num, speed_points: Sequence[Num] | Array, torque_points: Sequence[Num] | Array
) -> Num:
    """Torque at one engine speed, read off the curve; held flat beyond its ends."""
    return piecewise_linear(engine_speed, speed_points, torque_points)


@formula("J_r", "inertia", source="equal kinetic energy at both ends of a ratio (closed form)")
def reflected_inertia(rotor_inertia: Num, ratio: Num) -> Num:
    """Inertia as felt on the slow side of a reduction: it grows with the ratio squared."""
    return rotor_inertia * ratio * ratio


@formula(
    "J_t",
    "inertia",
    source="Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), eq. 2-9 (from memory; "
    "re-derived)",
)
def train_inertia(
    engine_inertia: Num,
    transmission_inertia: Num,
    driveshaft_inertia: Num,
    axle_wheels_inertia: Num,
    gear_ratio: Num,
    axle_ratio: Num,
) -> Num:
    """All that spins, as one inertia at the drive axle (clutch closed).

    Transmission inertia is taken at its input, driveshaft inertia at driveshaft speed, axle and
    wheels at wheel speed.
    """
    overall = gear_ratio * axle_ratio
    fast = (engine_inertia + transmission_inertia) * overall * overall
    return fast + driveshaft_inertia * axle_ratio * axle_ratio + axle_wheels_inertia


@formula("m_r", "mass", source="equal kinetic energy, m = J/r² (closed form)")
def equivalent_mass(train_inertia: Num, tire_radius: Num) -> Num:
    """Mass that would hold the car back as much as the spinning parts do."""
    return train_inertia / (tire_radius * tire_radius)


@formula(
    "k_m",
    "ratio",
    source="Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), eq. 2-11a (from memory)",
    valid={"gear_ratio": (0.5, 5.0), "axle_ratio": (2.0, 6.5)},
    outside="the rule of thumb was fitted to ordinary passenger-car ratios",
)
def mass_factor(gear_ratio: Num, axle_ratio: Num) -> Num:
    """How much heavier the car seems for its spinning parts: typical car, no inertias known."""
    overall = gear_ratio * axle_ratio
    return 1.0 + 0.04 + 0.0025 * overall * overall


@formula("T_a", "torque", source="torque times ratios times efficiency (closed form)")
def axle_torque(
    engine_torque: Num, gear_ratio: Num, axle_ratio: Num, driveline_efficiency: Num
) -> Num:
    """Steady torque at the ring gear for a torque at the flywheel, nothing slipping."""
    return engine_torque * gear_ratio * axle_ratio * driveline_efficiency


@formula(
    "F_x",
    "force",
    source="Gillespie, Fundamentals of Vehicle Dynamics (SAE R-114, 1992), eq. 2-9 without the "
    "inertia term (from memory; re-derived)",
)
def tractive_force(
    engine_torque: Num,
    gear_ratio: Num,
    axle_ratio: Num,
    driveline_efficiency: Num,
    tire_radius: Num,
) -> Num:
    """Push at the tires for a torque at the flywheel, as long as the tires hold."""
    return engine_torque * gear_ratio * axle_ratio * driveline_efficiency / tire_radius
