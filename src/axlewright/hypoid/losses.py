"""What the hypoid mesh loses by sliding along its teeth, and up and down them.

Mean-point model: statics with Coulomb friction along the tooth, in the pitch plane; sliding up
and down the profile is added by its mean.  Measured whole axles run at 94 to 97.5 % hot and
loaded, and far lower cold at light load, where bearings and oil rule; those are in
``mechanics.bearing_friction`` and ``hypoid.churning``, and ``hypoid.efficiency`` adds them up.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_OUTSIDE = "outside the friction of lubricated steel teeth"


@formula(
    "η_D",
    "ratio",
    source="derived: mean-point statics with friction along the tooth",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def drive_efficiency(
    tooth_friction: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
) -> Num:
    """Share of the power that the mesh passes on while the pinion drives."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    return (1.0 + drag * np.tan(ring_mean_spiral)) / (1.0 + drag * np.tan(pinion_mean_spiral))


@formula(
    "η_C",
    "ratio",
    source="derived: mean-point statics with friction along the tooth",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def coast_efficiency(
    tooth_friction: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
) -> Num:
    """Share of the power that the mesh passes back while the wheels drive."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    return (1.0 - drag * np.tan(pinion_mean_spiral)) / (1.0 - drag * np.tan(ring_mean_spiral))


@formula("κ_s", "ratio", source="closed form: both pitch velocities share the normal part")
def sliding_ratio(offset_angle: Num, ring_mean_spiral: Num) -> Num:
    """Sliding speed along the tooth as a share of the pinion's pitch-line speed."""
    return np.sin(offset_angle) / np.cos(ring_mean_spiral)


_PROFILE = {"profile_contact_ratio": (1.0, 2.0)}


@formula(
    "H_v",
    "ratio",
    source="Ohlendorf's tooth loss factor (read in an open gearbox loss program), path of contact"
    " halved by the pitch point, on the teeth of the normal section",
    valid=_PROFILE,
    outside="fewer than one pair of teeth in contact, or more than two",
)
def profile_loss_factor(
    pinion_virtual_teeth: Num, ring_virtual_teeth: Num, profile_contact_ratio: Num
) -> Num:
    """Mean sliding up and down the teeth over their normal speed, times the friction's lever."""
    both = 1.0 / pinion_virtual_teeth + 1.0 / ring_virtual_teeth
    path = 1.0 - profile_contact_ratio + 0.5 * profile_contact_ratio * profile_contact_ratio
    return np.pi * both * path


@formula("κ_p", "ratio", source="definition of the tooth loss factor, turned round (derived)")
def profile_sliding_ratio(
    profile_loss_factor: Num, pinion_mean_spiral: Num, flank_pressure_angle: Num
) -> Num:
    """Mean sliding up and down the teeth as a share of the pinion's pitch-line speed."""
    return profile_loss_factor * np.cos(pinion_mean_spiral) * np.cos(flank_pressure_angle)


@formula(
    "κ_m",
    "ratio",
    source="mean of √(l² + (2p·x)²) over x from 0 to 1, sliding up and down growing evenly from"
    " the pitch point (derived, closed form)",
)
def mean_sliding_ratio(sliding_ratio: Num, profile_sliding_ratio: Num) -> Num:
    """Mean of all sliding, along the tooth and up and down it, over the pitch-line speed."""
    most = np.maximum(2.0 * profile_sliding_ratio, 1e-6)
    along = np.maximum(sliding_ratio, 1e-9)
    both = np.sqrt(along * along + most * most)
    result: Num = 0.5 * (both + along * along / most * np.log((most + both) / along))
    return result


@formula(
    "ζ_D",
    "ratio",
    source="derived: mean-point statics with friction along the mean sliding; without sliding up"
    " and down it is one less the efficiency above",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def drive_mesh_loss(
    tooth_friction: Num,
    mean_sliding_ratio: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
) -> Num:
    """Share of the pinion's power that the mesh turns into heat while the pinion drives."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    slides = drag * mean_sliding_ratio / np.cos(pinion_mean_spiral)
    return slides / (1.0 + drag * np.tan(pinion_mean_spiral))


@formula(
    "ζ_C",
    "ratio",
    source="derived: mean-point statics with friction along the mean sliding",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def coast_mesh_loss(
    tooth_friction: Num,
    mean_sliding_ratio: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
) -> Num:
    """Share of the ring's power that the mesh turns into heat while the wheels drive."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    slides = drag * mean_sliding_ratio / np.cos(pinion_mean_spiral)
    return slides / (1.0 - drag * np.tan(ring_mean_spiral))


@formula("P_z", "power", source="share times power (closed form)")
def mesh_loss_power(ring_torque: Num, turning_speed: Num, mesh_loss_share: Num) -> Num:
    """Heat of the mesh, from the torque that leaves the ring gear."""
    return ring_torque * turning_speed * mesh_loss_share / (1.0 - mesh_loss_share)


@formula("l_n", "length", source="statics of the mean point (closed form)")
def tooth_lever(ring_mean_radius: Num, ring_mean_spiral: Num, flank_pressure_angle: Num) -> Num:
    """Ring torque over the force square to the teeth."""
    return ring_mean_radius * np.cos(ring_mean_spiral) * np.cos(flank_pressure_angle)


@formula("F_n", "force", source="statics of the mean point (closed form)")
def tooth_force(ring_torque: Num, tooth_lever: Num) -> Num:
    """Force square to the teeth, from the torque of the ring gear."""
    return ring_torque / tooth_lever
