"""What the handbook says of splines beyond their teeth: bursting hubs, life factors, allowables.

The allowable stresses of Dudley and Machinery's Handbook are meant for endless service.  For
short, hard use they are far too low and serve only to compare one spline with another.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_DUDLEY = "Dudley, When Splines Need Stress Control (as reproduced in a secondary copy)"
_BURST = "Machinery's Handbook, bursting stresses of internal splines (from memory)"

_TORQUE_CYCLES = np.log10([1e3, 1e4, 1e5, 1e6, 1e7])
_ONE_WAY = (1.8, 1.0, 0.5, 0.4, 0.3)
_BOTH_WAYS = (1.8, 1.0, 0.4, 0.3, 0.2)
_WEAR_REVOLUTIONS = np.log10([1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10])
_WEAR = (4.0, 2.8, 2.0, 1.4, 1.0, 0.7, 0.5)
_MISALIGNMENT = np.array([0.001, 0.002, 0.004, 0.008])
_FACE = 0.0254 * np.array([0.5, 1.0, 2.0, 4.0])
_DISTRIBUTION = np.array(
    [[1.0, 1.0, 1.0, 1.5], [1.0, 1.0, 1.5, 2.0], [1.0, 1.5, 2.0, 2.5], [1.5, 2.0, 2.5, 3.0]]
)


@formula(
    "L_f",
    "ratio",
    source=f"{_DUDLEY}, life factors, torque one way; interpolated over log cycles",
    kind="lookup",
    valid={"spline_torque_cycles": (1e3, 1e7)},
    outside="beyond the table; the end value is held",
)
def life_factor_one_way(spline_torque_cycles: Num) -> Num:
    """Life factor of a spline whose torque comes and goes in one direction."""
    return np.interp(np.log10(spline_torque_cycles), _TORQUE_CYCLES, _ONE_WAY)


@formula(
    "L_f",
    "ratio",
    source=f"{_DUDLEY}, life factors, torque reversed; interpolated over log cycles",
    kind="lookup",
    valid={"spline_torque_cycles": (1e3, 1e7)},
    outside="beyond the table; the end value is held",
)
def life_factor_both_ways(spline_torque_cycles: Num) -> Num:
    """Life factor of a spline whose torque changes direction."""
    return np.interp(np.log10(spline_torque_cycles), _TORQUE_CYCLES, _BOTH_WAYS)


@formula(
    "L_w",
    "ratio",
    source=f"{_DUDLEY}, wear life factors; interpolated over log revolutions",
    kind="lookup",
    valid={"spline_revolutions": (1e4, 1e10)},
    outside="beyond the table; the end value is held",
)
def wear_factor(spline_revolutions: Num) -> Num:
    """Wear factor of a spline that slides or rocks at each turn."""
    return np.interp(np.log10(spline_revolutions), _WEAR_REVOLUTIONS, _WEAR)


@formula(
    "K_m",
    "ratio",
    source=f"{_DUDLEY}, load distribution; interpolated both ways",
    kind="lookup",
    valid={"spline_misalignment": (0.0, 0.008), "spline_length": (0.0, 0.1016)},
    outside="beyond the table; the end value is held",
)
def load_distribution(spline_misalignment: Num, spline_length: Num) -> Num:
    """How much more the worst end of a crooked spline carries than a straight one."""
    across = np.interp(spline_misalignment, _MISALIGNMENT, np.arange(4.0))
    along = np.interp(spline_length, _FACE, np.arange(4.0))
    row, column = np.minimum(across, 2.999).astype(int), np.minimum(along, 2.999).astype(int)
    u, v = across - row, along - column
    between: Num = (
        (1.0 - u) * (1.0 - v) * _DISTRIBUTION[row, column]
        + u * (1.0 - v) * _DISTRIBUTION[row + 1, column]
        + (1.0 - u) * v * _DISTRIBUTION[row, column + 1]
        + u * v * _DISTRIBUTION[row + 1, column + 1]
    )
    return between


@formula("t_h", "length", source="closed form")
def hub_wall(spline_hub_diameter: Num, spline_hub_root_diameter: Num) -> Num:
    """Wall of a splined hub between its outside and the roots of its teeth."""
    return 0.5 * (spline_hub_diameter - spline_hub_root_diameter)


@formula("S_1", "stress", source=_BURST)
def hub_radial_burst(
    torque: Num,
    spline_pressure_angle: Num,
    spline_pitch_diameter: Num,
    spline_hub_wall: Num,
    spline_length: Num,
) -> Num:
    """Hoop stress in a splined hub because slanted flanks push it open."""
    return (
        torque
        * np.tan(spline_pressure_angle)
        / (np.pi * spline_pitch_diameter * spline_hub_wall * spline_length)
    )


@formula(
    "S_2",
    "stress",
    source="Timoshenko & Goodier, Theory of Elasticity, rotating disk with a hole (from memory)",
)
def hub_spin_burst(
    speed: Num,
    density: Num,
    poisson_ratio: Num,
    spline_hub_diameter: Num,
    spline_hub_root_diameter: Num,
) -> Num:
    """Hoop stress at the bore of a splined hub because it spins."""
    return (
        density
        * speed**2
        / 16.0
        * (
            (3.0 + poisson_ratio) * spline_hub_diameter**2
            + (1.0 - poisson_ratio) * spline_hub_root_diameter**2
        )
    )


@formula("S_3", "stress", source=_BURST)
def hub_tooth_tension(
    torque: Num, spline_pitch_diameter: Num, spline_length: Num, spline_form_factor: Num
) -> Num:
    """Tension at the tooth roots of a splined hub from the bending of its teeth."""
    return 4.0 * torque / (spline_pitch_diameter**2 * spline_length * spline_form_factor)


@formula("S_t", "stress", source=_BURST)
def hub_burst(
    spline_radial_burst: Num,
    spline_tooth_tension: Num,
    spline_spin_burst: Num,
    spline_application_factor: Num,
    spline_load_distribution: Num,
    spline_life_factor: Num,
) -> Num:
    """Whole tension that tries to burst a splined hub, to be held against an allowable."""
    return (
        spline_application_factor
        * spline_load_distribution
        * (spline_radial_burst + spline_tooth_tension)
        + spline_spin_burst
    ) / spline_life_factor


@formula("S_a", "stress", source=_DUDLEY)
def working_shear_limit(
    spline_handbook_shear: Num, spline_life_factor: Num, spline_application_factor: Num
) -> Num:
    """Shear stress that the handbook allows a spline for a life and a kind of drive."""
    return spline_handbook_shear * spline_life_factor / spline_application_factor


@formula("S_a", "stress", source=_DUDLEY)
def working_bearing_limit_fixed(
    spline_handbook_bearing: Num, spline_life_factor: Num, spline_application_factor: Num
) -> Num:
    """Flank pressure that the handbook allows a spline whose hub does not slide or rock."""
    return 9.0 * spline_handbook_bearing * spline_life_factor / spline_application_factor


@formula("S_a", "stress", source=_DUDLEY)
def working_bearing_limit_flexible(
    spline_handbook_bearing: Num, spline_wear_factor: Num, spline_application_factor: Num
) -> Num:
    """Flank pressure that the handbook allows a spline whose hub slides or rocks."""
    return spline_handbook_bearing * spline_wear_factor / spline_application_factor


@formula("S_h", "stress", source=_BURST)
def hub_stress_at_rest(spline_radial_burst: Num, spline_tooth_tension: Num) -> Num:
    """Tension that tries to burst a hub that hardly turns: radial burst and tooth bending."""
    return spline_radial_burst + spline_tooth_tension


@formula("u", "ratio", source="stress over strength (closed form)")
def hub_usage(hub_stress: Num, tensile_strength: Num) -> Num:
    """Share of its strength that a splined hub uses."""
    return hub_stress / tensile_strength
