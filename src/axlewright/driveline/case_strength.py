"""The case under its bearing loads, and the joint of tube and centre.

The web behind a carrier bearing is taken as a plate that the ring gear's side thrust bends and
the bearing load presses, with a notch at the rib foot.  It is a crude model that ranks irons and
sizes; it is no finite-element result.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula("σ_w", "stress", source="cantilever plate, part held at its edges (derived, crude)")
def web_bending_stress(
    web_force: Num,
    web_height: Num,
    web_width: Num,
    web_thickness: Num,
    web_support: Num,
    casting_notch: Num,
) -> Num:
    """Stress at the foot of the case web from a force across it."""
    free = 6.0 * web_force * web_height / (web_width * web_thickness * web_thickness)
    return free * web_support * casting_notch


@formula("σ_c", "stress", source="force over section (closed form)")
def web_pressing_stress(web_force: Num, web_width: Num, web_thickness: Num) -> Num:
    """Compression in the web under a bearing load, negative."""
    return -web_force / (web_width * web_thickness)


@formula(
    "u",
    "ratio",
    source="gray iron by modified Mohr, nodular by distortion energy (Shigley, ch. 5, from memory)",
)
def usage_by_iron(brittle_share: Num, brittle_usage: Num, ductile_usage: Num) -> Num:
    """Usage of the case by the criterion that fits its iron."""
    result: Num = np.where(brittle_share > 0.5, brittle_usage, ductile_usage)[()]
    return result


@formula("T_j", "torque", source="press fit and welds share at the end (assumption, stated)")
def joint_torque(press_torque: Num, plug_torque: Num, weld_torque: Num) -> Num:
    """Torque at which a tube turns in the centre for good: friction and welds together."""
    return press_torque + plug_torque + weld_torque


@formula(
    "S_e", "stress", source="endurance limit as a share of strength (Shigley, ch. 6, from memory)"
)
def endurance_strength(tensile_strength: Num, endurance_share: Num) -> Num:
    """Bending stress that a shaft stands for ever."""
    return tensile_strength * endurance_share


@formula("C_D", "torque", source="strength by class (common practice, no source)")
def differential_strength(capacity: Num, strength_share: Num) -> Num:
    """Shaft torque at which a differential breaks, by its class and its shaft spline's strength."""
    return capacity * strength_share


@formula("F_x", "force", source="deceleration times weight, shared between axles (closed form)")
def braking_thrust(vehicle_weight: Num, brake_grip: Num, brake_share: Num) -> Num:
    """Braking force of one rear wheel in a hard stop."""
    return 0.5 * vehicle_weight * brake_grip * brake_share
