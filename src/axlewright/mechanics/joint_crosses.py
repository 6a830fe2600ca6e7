"""The cross of a universal joint: four trunnions, each in a cap full of needles.

A trunnion is a stub beam fixed at its root, after Ivanović, Josifović, Živković and Stojanović,
"Cross shaft design from the aspect of capacity", *Scientific Technical Review* 61 (2011); its
needles are rated by ISO 76.  Nothing here rates the yoke's ears: their shape decides, and no open
formula covers them.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_CROSS = (
    "Ivanović, Josifović, Živković & Stojanović, Cross shaft design from the aspect of capacity, "
    "Scientific Technical Review 61(1), 2011, eqs. 3-5 (read for a solid trunnion; "
    "bored: closed form)"
)
_WORKING = {"joint_angle": (0.0, np.pi / 4.0)}
_TOO_STEEP = "steeper than 45 degrees a cross joint does not run"


@formula(
    "F_c",
    "force",
    source=f"{_CROSS}; greatest torque on the cross T/cos β (closed form)",
    valid=_WORKING,
    outside=_TOO_STEEP,
)
def cap_force(torque: Num, cap_lever: Num, joint_angle: Num) -> Num:
    """Force on one bearing cap: torque over the distance between the middles of the caps.

    The two caps of a yoke push as a pair.  At an angle the cross carries up to 1/cos of the
    angle more than the shaft.
    """
    return torque / (cap_lever * np.cos(joint_angle))


@formula("T_c", "torque", source=f"{_CROSS}, solved for torque", valid=_WORKING, outside=_TOO_STEEP)
def torque_at_cap_force(cap_rating: Num, cap_lever: Num, joint_angle: Num) -> Num:
    """Shaft torque at which the cap carries its rated force.

    With the static rating of the needles: the torque that starts to dent the trunnion.  With
    their dynamic rating: the torque rating that the life formula wants.
    """
    result: Num = cap_rating * cap_lever * np.cos(joint_angle)
    return result


@formula("σ_tr", "stress", source=_CROSS)
def trunnion_bending_stress(
    cap_force: Num,
    needle_length: Num,
    needle_gap: Num,
    trunnion_root_diameter: Num,
    trunnion_bore: Num,
) -> Num:
    """Bending stress at the root of a trunnion, without the notch of its fillet.

    The cap's force acts at the middle of the needles.  A grease hole through the trunnion takes
    its part of the section away.
    """
    bending = cap_force * (0.5 * needle_length + needle_gap)
    section = np.pi * (trunnion_root_diameter**4 - trunnion_bore**4) / 32.0
    return bending * trunnion_root_diameter / section


@formula("T_tr", "torque", source=f"{_CROSS}, solved for torque")
def torque_at_trunnion_bending(
    trunnion_strength: Num,
    cap_lever: Num,
    joint_angle: Num,
    needle_length: Num,
    needle_gap: Num,
    trunnion_root_diameter: Num,
    trunnion_bore: Num,
) -> Num:
    """Shaft torque at which bending at the root of the trunnion reaches a given strength."""
    section = np.pi * (trunnion_root_diameter**4 - trunnion_bore**4) / 32.0
    force = (
        trunnion_strength * section / trunnion_root_diameter / (0.5 * needle_length + needle_gap)
    )
    result: Num = force * cap_lever * np.cos(joint_angle)
    return result


@formula("τ_tr", "stress", source="shear of a round or ring section, V·Q/(I·b), closed form")
def trunnion_shear_stress(cap_force: Num, trunnion_root_diameter: Num, trunnion_bore: Num) -> Num:
    """Greatest shear stress across the root of a trunnion: 4/3 of the mean when solid."""
    outer = trunnion_root_diameter * trunnion_root_diameter
    inner = trunnion_bore * trunnion_bore
    area = np.pi * (outer - inner) / 4.0
    peak = (outer + trunnion_root_diameter * trunnion_bore + inner) / (outer + inner)
    return 4.0 / 3.0 * cap_force / area * peak


@formula("p_c", "pressure", source="force over projected area, common practice, no source")
def cap_pressure(cap_force: Num, trunnion_diameter: Num, needle_length: Num) -> Num:
    """Force on a cap over the trunnion's shadow: a plain yardstick between joint sizes."""
    return cap_force / (trunnion_diameter * needle_length)


@formula(
    "Z_n",
    "count",
    kind="lookup",
    source="touching circles on a pitch circle, closed form",
)
def full_complement(trunnion_diameter: Num, needle_diameter: Num) -> Num:
    """Most needles that fit round a trunnion without a cage."""
    slot = np.arcsin(needle_diameter / (trunnion_diameter + needle_diameter))
    result: Num = np.floor(np.pi / slot + 1e-9)
    return result


@formula(
    "C_0n",
    "force",
    source="ISO 76:2006, radial roller bearings, C0 = 44(1 - D·cos α/Dpw)·i·Z·L·D·cos α "
    "(from memory) with one row and no contact angle",
)
def needle_static_rating(
    needle_count: Num, needle_diameter: Num, needle_length: Num, trunnion_diameter: Num
) -> Num:
    """Static rating of a cap's needles: beyond it they leave dents in the trunnion.

    ISO 76 wants the trunnion as hard and as true as a bearing race; a softer one dents sooner.
    """
    free = 1.0 - needle_diameter / (trunnion_diameter + needle_diameter)
    return 44.0e6 * free * needle_count * needle_length * needle_diameter


@formula(
    "p_n",
    "stress",
    source="Hertz, line contact of two cylinders of one material; fullest needle 5·F/Z "
    "(usual clearance, from memory)",
)
def needle_contact_pressure(
    cap_force: Num,
    needle_count: Num,
    needle_diameter: Num,
    needle_length: Num,
    trunnion_diameter: Num,
    youngs_modulus: Num,
    poisson_ratio: Num,
) -> Num:
    """Contact pressure between the fullest needle and the trunnion.

    ISO 76 sets its static rating at 4,000 MPa, where a dent of a ten-thousandth of the needle's
    diameter stays.
    """
    fullest = 5.0 * cap_force / needle_count
    combined = youngs_modulus / (2.0 * (1.0 - poisson_ratio * poisson_ratio))
    rolling = needle_diameter * trunnion_diameter / (2.0 * (needle_diameter + trunnion_diameter))
    result: Num = np.sqrt(fullest * combined / (np.pi * needle_length * rolling))
    return result
