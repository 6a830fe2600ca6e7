"""Tooth sizes that follow from counts, ring-gear diameter and pitch cones.

Definitions of ISO 23509 and AGMA 2005 (from memory); the hypoid pinion's working diameter as a
bearing maker's engineering manual has it.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula("i", "ratio", source="definition")
def tooth_ratio(pinion_teeth: Num, ring_teeth: Num) -> Num:
    """Axle ratio from the tooth counts."""
    return ring_teeth / pinion_teeth


@formula("m_et", "length", source="ISO 23509 (from memory)")
def outer_module(ring_diameter: Num, ring_teeth: Num) -> Num:
    """Tooth size as diameter per tooth, at the outer end of the ring gear."""
    return ring_diameter / ring_teeth


@formula("P_d", "pitch", source="AGMA 2005 (from memory)")
def outer_diametral_pitch(ring_diameter: Num, ring_teeth: Num) -> Num:
    """Tooth size as teeth per diameter, at the outer end of the ring gear."""
    return ring_teeth / ring_diameter


@formula("m_mn", "length", source="ISO 23509 (from memory)")
def mean_normal_module(ring_mean_radius: Num, ring_mean_spiral: Num, ring_teeth: Num) -> Num:
    """Tooth size square to the tooth in the middle of the face."""
    return 2.0 * ring_mean_radius * np.cos(ring_mean_spiral) / ring_teeth


@formula("K_h", "ratio", source="closed form: the teeth of both members have one normal pitch")
def pinion_gain(pinion_mean_spiral: Num, ring_mean_spiral: Num) -> Num:
    """How much larger the hypoid pinion is than a pinion without offset of the same ratio."""
    return np.cos(ring_mean_spiral) / np.cos(pinion_mean_spiral)


@formula(
    "d_e1",
    "length",
    source="a bearing maker's engineering manual, p. 39 (read): effective working diameter of a "
    "hypoid pinion, here taken at the outer end",
)
def pinion_outer_diameter(
    ring_diameter: Num, axle_ratio: Num, pinion_mean_spiral: Num, ring_mean_spiral: Num
) -> Num:
    """Pitch diameter of the pinion: the ring's share by tooth count, times the hypoid gain."""
    return ring_diameter / axle_ratio * np.cos(ring_mean_spiral) / np.cos(pinion_mean_spiral)


@formula(
    "β_m",
    "angle",
    source="ISO 10300:2014, limits in its scope (as reproduced in a seller's abstract)",
)
def mean_spiral(pinion_mean_spiral: Num, ring_mean_spiral: Num) -> Num:
    """Mean of both spiral angles; above 45° the rating wants confirming by experience."""
    return 0.5 * (pinion_mean_spiral + ring_mean_spiral)


@formula(
    "z_vn",
    "count",
    source="Tredgold's approximation in the normal section (closed form)",
    valid={"member_pitch_angle": (0.0, np.radians(89.0))},
    outside="the equivalent spur gear grows without limit",
)
def virtual_teeth(gear_tooth_count: Num, member_pitch_angle: Num, member_spiral: Num) -> Num:
    """Teeth of the spur gear that has the same tooth form square to the tooth."""
    lean = np.cos(member_spiral)
    return gear_tooth_count / (np.cos(member_pitch_angle) * lean * lean * lean)


@formula("ε_β", "ratio", source="ISO 23509 / ISO 10300-1 (from memory)")
def face_overlap(ring_face_width: Num, ring_mean_spiral: Num, mean_normal_module: Num) -> Num:
    """How many teeth the spiral lets share along the face."""
    return ring_face_width * np.sin(ring_mean_spiral) / (np.pi * mean_normal_module)


@formula("α_nD", "angle", source="ISO 23509 (from memory)")
def drive_pressure_angle(
    design_pressure_angle: Num, limit_share: Num, limit_pressure_angle: Num
) -> Num:
    """Pressure angle of the drive flank measured from the pitch plane."""
    return design_pressure_angle + limit_share * limit_pressure_angle


@formula("α_nC", "angle", source="ISO 23509 (from memory)")
def coast_pressure_angle(
    design_pressure_angle: Num, limit_share: Num, limit_pressure_angle: Num
) -> Num:
    """Pressure angle of the coast flank measured from the pitch plane."""
    return design_pressure_angle - limit_share * limit_pressure_angle


@formula("α_e", "angle", source="ISO 23509: α_eD = α_nD - α_lim, α_eC = α_nC + α_lim (from memory)")
def effective_pressure_angle(
    flank_pressure_angle: Num, limit_pressure_angle: Num, flank_side: Num
) -> Num:
    """Pressure angle of a flank from the limit one, about which both flanks are alike.

    Curvature follows it: on an offset pair drive and coast differ from the pitch plane, not in how
    they roll.
    """
    return flank_pressure_angle - flank_side * limit_pressure_angle


@formula(
    "d_rule",
    "length",
    source="handbook proportion D = K T^(1/3), K = 13 to 16 in mm and N·m (from memory)",
    valid={"size_coefficient": (12.0, 17.0)},
    outside="a coefficient that the handbooks do not use",
)
def proportioned_ring_diameter(ring_torque: Num, size_coefficient: Num) -> Num:
    """Ring-gear diameter that a designer of street axles would start from.

    A rule for peak torque in street duty only: gears for racing are run far above it.
    """
    return 0.001 * size_coefficient * ring_torque ** (1.0 / 3.0)
