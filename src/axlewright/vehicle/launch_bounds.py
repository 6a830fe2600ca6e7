"""Bounds on what a hard launch does to the driveline, in closed form.

Two spinning inertias with a springy shaft between them: what one has too much of must pass
through the shaft, unless a clutch or a tire slips first.  Energy and vibration theory give the
limbs; a study composes them.  They answer at once and err high; the launch model replaces them
when it has run.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Array, Num, formula

_DUMP_GRIP: Array = np.array([0.9, 1.6, 2.0])
_DUMP_BITE: Array = np.array([0.0, 0.020, 0.040, 0.060, 0.100, 0.200])
_DUMP_FACTOR: Array = np.array(
    [
        [1.21, 1.10, 0.83, 0.69, 0.64, 0.60],
        [1.40, 1.32, 1.12, 0.96, 0.96, 0.89],
        [1.55, 1.50, 1.30, 1.12, 1.12, 1.00],
    ]
)


@formula("J_12", "inertia", source="two free inertias on one spring (closed form)")
def paired_inertia(driving_inertia: Num, driven_inertia: Num) -> Num:
    """Inertia that swings when two free inertias work against each other through a shaft."""
    return driving_inertia * driven_inertia / (driving_inertia + driven_inertia)


@formula("T_i", "torque", source="energy of two inertias locked by a spring (closed form)")
def impact_torque(speed_gap: Num, torsional_stiffness: Num, paired_inertia: Num) -> Num:
    """Torque when two inertias with a speed gap are locked through a shaft and nothing slips.

    All the energy of the gap, ½·J·Δω², goes once into the shaft, ½·T²/k.
    """
    result: Num = speed_gap * np.sqrt(torsional_stiffness * paired_inertia)
    return result


@formula(
    "k_o",
    "ratio",
    source="step response of a damped second-order system (closed form)",
    valid={"damping_ratio": (0.0, 0.95)},
    outside="so much damping does not overshoot; no driveline has it",
)
def overshoot_factor(damping_ratio: Num) -> Num:
    """How far above its steady value a shaft swings when torque comes on all at once: up to 2."""
    result: Num = 1.0 + np.exp(
        -np.pi * damping_ratio / np.sqrt(1.0 - damping_ratio * damping_ratio)
    )
    return result


@formula("ω_s", "rotation", source="two free inertias on one spring (closed form)")
def shuffle_frequency(torsional_stiffness: Num, paired_inertia: Num) -> Num:
    """Rate at which the car surges on its driveline, as rotation: 60 rpm is one surge a second."""
    result: Num = np.sqrt(torsional_stiffness / paired_inertia)
    return result


@formula(
    "k_d",
    "ratio",
    source="table from a rough launch model of one car (1600 kg, 5000 rpm, clutch at 1.5 times "
    "engine torque), never compared with a measured launch; raised where needed so that it never "
    "rises with bite time; straight lines between, held at the ends",
    kind="lookup",
    valid={"tire_grip": (0.9, 2.0), "bite_time": (0.0, 2.0)},
    outside="off the table, which is held at its edge",
)
def dump_factor(tire_grip: Num, bite_time: Num) -> Num:
    """Peak axle torque of a clutch dump over what the clutch holds at the axle.

    Time to bite decides: within 25 to 40 ms the wheels have reached engine speed and the blow is
    over.  The factor is an estimate from an unvalidated model and lies between 0.60 and 1.55.
    """
    grip = np.clip(tire_grip, _DUMP_GRIP[0], _DUMP_GRIP[-1])
    bite = np.clip(bite_time, _DUMP_BITE[0], _DUMP_BITE[-1])
    row = np.clip(np.searchsorted(_DUMP_GRIP, grip, side="right") - 1, 0, _DUMP_GRIP.size - 2)
    column = np.clip(np.searchsorted(_DUMP_BITE, bite, side="right") - 1, 0, _DUMP_BITE.size - 2)
    across = (grip - _DUMP_GRIP[row]) / (_DUMP_GRIP[row + 1] - _DUMP_GRIP[row])
    along = (bite - _DUMP_BITE[column]) / (_DUMP_BITE[column + 1] - _DUMP_BITE[column])
    lesser = _DUMP_FACTOR[row, column] * (1.0 - along) + _DUMP_FACTOR[row, column + 1] * along
    greater = (
        _DUMP_FACTOR[row + 1, column] * (1.0 - along) + _DUMP_FACTOR[row + 1, column + 1] * along
    )
    result: Num = np.clip(lesser * (1.0 - across) + greater * across, 0.60, 1.55)[()]
    return result


@formula("T_d", "torque", source="least of clutch limb and energy limb (derived)")
def clutch_dump_torque(
    dump_factor: Num,
    clutch_axle_torque: Num,
    tire_torque: Num,
    impact_torque: Num,
    steady_axle_torque: Num,
) -> Num:
    """Most that a dumped clutch brings to the axle; serves a two-step launch with its own bite.

    Clutch limb: the clutch slips, so the peak is its capacity times what the swing adds.  Energy
    limb: with a small speed gap the engine has no more to give than the blow on top of what the
    tire reacts.  The lesser counts, but never less than the steady torque.
    """
    clutch_limb = dump_factor * clutch_axle_torque
    energy_limb = tire_torque + impact_torque
    result: Num = np.maximum(np.minimum(clutch_limb, energy_limb), steady_axle_torque)
    return result


@formula("T_c", "torque", source="step of torque on two inertias and a damped shaft (derived)")
def converter_release_torque(
    stall_axle_torque: Num,
    tire_torque: Num,
    train_inertia: Num,
    axle_wheels_inertia: Num,
    overshoot_factor: Num,
) -> Num:
    """Peak when a trans-brake lets go at full stall torque: the shaft winds up and overshoots.

    The tire reacts what it can hold; of what is more, the shaft sees the wheels' share of the
    inertia, for the rest spins up the train itself.
    """
    held = np.minimum(tire_torque, stall_axle_torque)
    both = train_inertia + axle_wheels_inertia
    passed = (stall_axle_torque * axle_wheels_inertia + held * train_inertia) / both
    result: Num = passed * overshoot_factor
    return result


@formula("T_s", "torque", source="spread of the bounds themselves (assumption, stated)")
def shock_as_likely(shock_torque: Num, shock_spread: Num, steady_axle_torque: Num) -> Num:
    """Peak of a shock with the doubt about its bound, never less than the steady torque."""
    result: Num = np.maximum(shock_torque * shock_spread, steady_axle_torque)
    return result


@formula(
    "T_m",
    "torque",
    source="the launch marched in time (docs/launch-model.md), given as its ratio to the "
    "closed-form figure; never compared with a measured launch",
    kind="simulation",
)
def marched_torque(shock_torque: Num, marched_ratio: Num) -> Num:
    """Peak that the march in time found in this case."""
    return shock_torque * marched_ratio


@formula("T_n", "torque", source="least of band limb and energy limb (derived)")
def neutral_drop_torque(band_axle_torque: Num, stall_axle_torque: Num, impact_torque: Num) -> Num:
    """Most that dropping into gear at speed brings to the axle.

    The spinning turbine is arrested through the gearbox's own clutch or band, which slips at its
    capacity; below that the blow comes on top of the converter's stall torque.
    """
    struck = np.minimum(band_axle_torque, stall_axle_torque + impact_torque)
    result: Num = np.maximum(struck, stall_axle_torque)
    return result


@formula("T_g", "torque", source="least of energy limb and tire-step limb (derived)")
def regrip_torque(
    spinning_torque: Num,
    gripping_torque: Num,
    impact_torque: Num,
    train_inertia: Num,
    axle_wheels_inertia: Num,
) -> Num:
    """Peak when spinning wheels find grip again, as from a wet patch to dry road.

    The tire arrests the wheels and the spinning train behind them runs into the shafts, with no
    clutch between to slip.  Energy limb: the train's whole speed gap goes into the shaft.  Tire
    limb: the tire can only step up by so much; of that step the shaft sees the train's share of
    the inertia, doubled by the swing.  The lesser comes on top of the torque that was there,
    which may be anything up to the torque while spinning: where the train is the heavier side,
    a smaller one leaves the tire a larger step and is the worse, so the worst of them counts.
    """
    share = train_inertia / (train_inertia + axle_wheels_inertia)
    both_limbs = np.maximum(gripping_torque - 0.5 * impact_torque / share, 0.0)
    before = np.where(share > 0.5, np.minimum(both_limbs, spinning_torque), spinning_torque)[()]
    tire_limb = 2.0 * (gripping_torque - before) * share
    struck = before + np.maximum(np.minimum(impact_torque, tire_limb), 0.0)
    result: Num = np.maximum(struck, spinning_torque)
    return result


@formula(
    "k_l",
    "ratio",
    source="falling weight on a spring, energy (closed form)",
    valid={"drop_height": (0.0, 2.0), "static_deflection": (1e-3, 0.3)},
    outside="such a landing ends on the bump stops, and this estimate with it",
)
def landing_load_factor(drop_height: Num, static_deflection: Num) -> Num:
    """How much heavier the car lands than it stands, from a height onto its springs and tires."""
    result: Num = 1.0 + np.sqrt(1.0 + 2.0 * drop_height / static_deflection)
    return result


@formula("T_w", "torque", source="friction on the dynamic load (derived)")
def landing_torque(
    tire_grip: Num, landing_load_factor: Num, tire_load: Num, tire_radius: Num
) -> Num:
    """Axle torque when the car lands under power: the tires hold for as long as the load is up."""
    return tire_grip * landing_load_factor * tire_load * tire_radius
