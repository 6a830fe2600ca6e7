"""Forces of the teeth on pinion and ring gear at the mean point, without friction.

Textbook form of the spiral bevel formulas, with each member's own pitch and spiral angle
(from memory; confirmed by decomposing one normal force about both crossed axes).  An axial
force is positive away from that member's apex, a radial force positive when it separates.

Which way the pinion is thrust is told by the flank, not by hand or view: ``flank_side`` is +1
where the pinion's concave flank carries (drive in the usual layout: the pinion is pushed out of
mesh) and -1 where its convex flank carries (coast: the pinion is pulled into mesh).
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_BOOK = "textbook form for spiral bevel gears (from memory), checked by three-dimensional statics"


@formula("F_t2", "force", source="a bearing maker's engineering manual, p. 39 (read)")
def ring_tangential_force(ring_torque: Num, ring_mean_radius: Num) -> Num:
    """Driving force on the ring gear in the middle of the face."""
    return ring_torque / ring_mean_radius


@formula("F_t1", "force", source="a bearing maker's engineering manual, p. 39 (read)")
def pinion_tangential_force(
    ring_tangential: Num, pinion_mean_spiral: Num, ring_mean_spiral: Num
) -> Num:
    """Driving force at the pinion: smaller than the ring's, because the pinion is larger."""
    return ring_tangential * np.cos(pinion_mean_spiral) / np.cos(ring_mean_spiral)


@formula("T_1", "torque", source="closed form: power in equals power out, without losses")
def pinion_torque(ring_torque: Num, axle_ratio: Num) -> Num:
    """Torque at the pinion that belongs to a torque at the ring gear."""
    return ring_torque / axle_ratio


@formula(
    "T_2",
    "torque",
    source="closed form: power in, less the losses of the mesh, equals power out",
    valid={"axle_efficiency": (0.0, 1.0)},
    outside="an efficiency above one makes power",
)
def ring_torque(pinion_torque: Num, axle_ratio: Num, axle_efficiency: Num) -> Num:
    """Torque that arrives at the ring gear from a torque at the pinion."""
    return pinion_torque * axle_ratio * axle_efficiency


@formula("F_n", "force", source=_BOOK)
def tooth_normal_force(
    pinion_tangential: Num, flank_pressure_angle: Num, pinion_mean_spiral: Num
) -> Num:
    """Force square to the tooth flanks, the same on both members."""
    return pinion_tangential / (np.cos(flank_pressure_angle) * np.cos(pinion_mean_spiral))


@formula("F_a1", "force", source=_BOOK)
def pinion_axial_force(
    pinion_tangential: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    pinion_pitch_angle: Num,
    flank_side: Num,
) -> Num:
    """Thrust of the pinion, positive away from its apex (out of the ring gear)."""
    wedge = np.tan(flank_pressure_angle) * np.sin(pinion_pitch_angle)
    screw = flank_side * np.sin(pinion_mean_spiral) * np.cos(pinion_pitch_angle)
    return pinion_tangential / np.cos(pinion_mean_spiral) * (wedge + screw)


@formula("F_r1", "force", source=_BOOK)
def pinion_radial_force(
    pinion_tangential: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    pinion_pitch_angle: Num,
    flank_side: Num,
) -> Num:
    """Force that pushes the pinion sideways out of the ring gear."""
    wedge = np.tan(flank_pressure_angle) * np.cos(pinion_pitch_angle)
    screw = flank_side * np.sin(pinion_mean_spiral) * np.sin(pinion_pitch_angle)
    return pinion_tangential / np.cos(pinion_mean_spiral) * (wedge - screw)


@formula("F_a2", "force", source=_BOOK)
def ring_axial_force(
    ring_tangential: Num,
    flank_pressure_angle: Num,
    ring_mean_spiral: Num,
    ring_pitch_angle: Num,
    flank_side: Num,
) -> Num:
    """Side thrust of the ring gear, positive away from the pinion."""
    wedge = np.tan(flank_pressure_angle) * np.sin(ring_pitch_angle)
    screw = flank_side * np.sin(ring_mean_spiral) * np.cos(ring_pitch_angle)
    return ring_tangential / np.cos(ring_mean_spiral) * (wedge - screw)


@formula("F_r2", "force", source=_BOOK)
def ring_radial_force(
    ring_tangential: Num,
    flank_pressure_angle: Num,
    ring_mean_spiral: Num,
    ring_pitch_angle: Num,
    flank_side: Num,
) -> Num:
    """Force that pushes the ring gear off the pinion, toward its own axis."""
    wedge = np.tan(flank_pressure_angle) * np.cos(ring_pitch_angle)
    screw = flank_side * np.sin(ring_mean_spiral) * np.sin(ring_pitch_angle)
    return ring_tangential / np.cos(ring_mean_spiral) * (wedge + screw)
