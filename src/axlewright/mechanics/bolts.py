"""Bolts: the area of a thread, the clamp that a torque gives, and what pulls a joint apart.

Joints follow Budynas & Nisbett, Shigley's Mechanical Engineering Design, chapter 8; thread areas
follow ASME B1.1 and ISO 898-1.  What a circle of bolts holds in torque stands in
:mod:`axlewright.mechanics.bolt_circles`, thread stripping in :mod:`axlewright.mechanics.threads`.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SHIGLEY = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed."


@formula(
    "A_t",
    "area",
    source="ASME B1.1, tensile stress area of a unified thread (form from memory; "
    "areas read in published tables)",
    valid={"bolt_diameter": (0.0, None), "threads_per_length": (0.0, None)},
    outside="a bolt has a diameter and a thread",
)
def stress_area_inch(bolt_diameter: Num, threads_per_length: Num) -> Num:
    """Area of an inch thread that counts in tension."""
    return np.pi / 4.0 * (bolt_diameter - 0.9743 / threads_per_length) ** 2


@formula(
    "A_t",
    "area",
    source="ISO 898-1, nominal stress area of a metric thread (form from memory; areas read)",
    valid={"bolt_diameter": (0.0, None), "thread_pitch": (0.0, None)},
    outside="a bolt has a diameter and a thread",
)
def stress_area_metric(bolt_diameter: Num, thread_pitch: Num) -> Num:
    """Area of a metric thread that counts in tension."""
    return np.pi / 4.0 * (bolt_diameter - 0.9382 * thread_pitch) ** 2


@formula("d_2", "length", source="basic profile of the 60° thread, ISO 68-1 (closed form)")
def pitch_diameter_of_thread(bolt_diameter: Num, thread_pitch: Num) -> Num:
    """Pitch diameter of a 60° thread, where thread and gap are equally wide."""
    return bolt_diameter - 0.6495191 * thread_pitch


@formula("C_j", "ratio", source=f"{_SHIGLEY}, example 8-3 (read)")
def joint_constant(bolt_stiffness: Num, member_stiffness: Num) -> Num:
    """Share of an outside pull that the bolt itself feels; the clamped parts feel the rest."""
    return bolt_stiffness / (bolt_stiffness + member_stiffness)


@formula("σ_i", "stress", source=f"{_SHIGLEY}, example 8-3 (read)")
def preload_stress(bolt_preload: Num, stress_area: Num) -> Num:
    """Stress in a tightened bolt before anything pulls on the joint."""
    return bolt_preload / stress_area


@formula(
    "σ_b",
    "stress",
    source=f"{_SHIGLEY}, example 8-3 (read)",
    valid={"joint_share": (0.0, 1.0)},
    outside="the bolt feels between none and all of the pull",
)
def bolt_stress(bolt_preload: Num, external_pull: Num, joint_share: Num, stress_area: Num) -> Num:
    """Stress in a tightened bolt while the joint is pulled, as long as the faces still touch."""
    return (joint_share * external_pull + bolt_preload) / stress_area


@formula(
    "T_t",
    "torque",
    source=f"{_SHIGLEY}, T = K F d, example 8-3 (read)",
    valid={"nut_factor": (0.08, 0.4)},
    outside="outside the torque coefficients in use (about 0.09 coated to 0.30 dry and black)",
)
def tightening_torque(nut_factor: Num, bolt_preload: Num, bolt_diameter: Num) -> Num:
    """Torque on the wrench for a wanted clamp force."""
    return nut_factor * bolt_preload * bolt_diameter


@formula(
    "F_i",
    "force",
    source=f"{_SHIGLEY}, T = K F d turned round, example 8-3 (read)",
    valid={"nut_factor": (0.08, 0.4)},
    outside="outside the torque coefficients in use (about 0.09 coated to 0.30 dry and black)",
)
def preload_from_torque(wrench_torque: Num, nut_factor: Num, bolt_diameter: Num) -> Num:
    """Clamp force that a torque on the wrench gives.

    With a torque wrench it scatters some 15 to 25 %: the torque coefficient carries that spread.
    """
    return wrench_torque / (nut_factor * bolt_diameter)


@formula(
    "F_i",
    "force",
    source=f"{_SHIGLEY}, eq. 8-31 (read): 0.75 of proof reused, 0.90 permanent",
    valid={"proof_share": (0.0, 1.0)},
    outside="past proof load the bolt takes a set and the clamp is no longer known",
)
def preload_of_proof(proof_share: Num, proof_strength: Num, stress_area: Num) -> Num:
    """Clamp force of a bolt tightened to a share of its proof load."""
    return proof_share * proof_strength * stress_area


@formula(
    "T_t",
    "torque",
    source=f"{_SHIGLEY}, eq. 8-26 (form from memory; power-screw case of it read)",
)
def tightening_torque_screw(
    bolt_preload: Num,
    pitch_diameter: Num,
    thread_lead: Num,
    thread_flank_angle: Num,
    thread_friction: Num,
    collar_friction: Num,
    collar_diameter: Num,
) -> Num:
    """Torque to tighten a screw, from friction in the thread and under the head.

    Lead lifts the load, the wedge of the flanks raises the friction, the head rubs on its face.
    """
    rub = thread_friction / np.cos(thread_flank_angle)
    climb = thread_lead / (np.pi * pitch_diameter)
    thread = 0.5 * bolt_preload * pitch_diameter * (climb + rub) / (1.0 - rub * climb)
    return thread + 0.5 * bolt_preload * collar_friction * collar_diameter


@formula(
    "T_l",
    "torque",
    source=f"{_SHIGLEY}, eq. 8-2 with the flank angle added (form from memory; a case of it read)",
)
def loosening_torque_screw(
    bolt_preload: Num,
    pitch_diameter: Num,
    thread_lead: Num,
    thread_flank_angle: Num,
    thread_friction: Num,
    collar_friction: Num,
    collar_diameter: Num,
) -> Num:
    """Torque to back a screw off under its load; below zero it would run back by itself."""
    rub = thread_friction / np.cos(thread_flank_angle)
    climb = thread_lead / (np.pi * pitch_diameter)
    thread = 0.5 * bolt_preload * pitch_diameter * (rub - climb) / (1.0 + rub * climb)
    return thread + 0.5 * bolt_preload * collar_friction * collar_diameter


@formula(
    "F_sep",
    "force",
    source=f"{_SHIGLEY}, chapter 8, separation of a joint (form from memory; a case of it read)",
)
def separation_load(bolt_count: Num, bolt_preload: Num, joint_share: Num) -> Num:
    """Pull on a whole joint at which its faces part and the bolts take all that follows."""
    return bolt_count * bolt_preload / (1.0 - joint_share)


@formula(
    "n_0",
    "ratio",
    source=f"{_SHIGLEY}, chapter 8, separation factor (read in a solution to chapter 8)",
    valid={"external_pull": (0.0, None)},
    outside="a joint that is pushed together cannot be pulled apart",
)
def separation_factor(bolt_preload: Num, external_pull: Num, joint_share: Num) -> Num:
    """How many times the pull on one bolt may rise before the faces of the joint part."""
    return bolt_preload / (external_pull * (1.0 - joint_share))


@formula(
    "F_p",
    "force",
    source=f"{_SHIGLEY}, chapter 8, load factor (read in a solution to chapter 8)",
)
def joint_proof_load(
    bolt_count: Num, proof_strength: Num, stress_area: Num, bolt_preload: Num, joint_share: Num
) -> Num:
    """Pull on a whole joint at which its bolts reach proof stress, preload included.

    Put the yield strength in place of the proof strength for the load that stretches the bolts.
    It holds while the faces touch: take the smaller of it and the separation load.
    """
    return bolt_count * (proof_strength * stress_area - bolt_preload) / joint_share


@formula(
    "S_su",
    "stress",
    source="MIL-HDBK-5J, low-alloy steel F_su = 0.60 F_tu (read)",
)
def steel_bolt_shear_strength(tensile_strength: Num) -> Num:
    """Ultimate shear strength of an alloy-steel bolt or dowel from its tensile strength."""
    return 0.60 * tensile_strength


@formula("F_t", "force", source="strength times stress area (closed form)")
def bolt_pull_strength(bolt_count: Num, tensile_strength: Num, stress_area: Num) -> Num:
    """Pull at which all bolts of a joint break, pulled evenly."""
    return bolt_count * tensile_strength * stress_area
