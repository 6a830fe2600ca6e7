"""What the tooth forces do to the axle case: pinion head, pinion bearings, carrier caps.

Rigid-body statics of ring and pinion on their bearings.  Seen from the side with the car heading
right, the pinion enters from the front, its axis one offset *below* the axis of the ring gear,
so the mesh lies ahead of and below the ring's centre by the mesh angle.  Rearward forces pull
the caps off the case; downward forces push the carrier into it and lift the pinion head.

``flank_side`` is +1 on drive and -1 on coast, as with the tooth forces.  "Near" is the carrier
bearing behind the ring gear's back, "far" the other one.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_STATICS = "derived: statics of rigid bodies on point bearings"


@formula("F_x", "force", source=_STATICS)
def ring_rearward_force(
    ring_tangential: Num, ring_radial: Num, mesh_angle: Num, flank_side: Num
) -> Num:
    """Force that pushes the ring gear back, away from the pinion: what the caps must hold.

    It equals the thrust of the pinion, action for reaction.
    """
    return ring_radial * np.cos(mesh_angle) + flank_side * ring_tangential * np.sin(mesh_angle)


@formula("F_z", "force", source=_STATICS)
def ring_downward_force(
    ring_tangential: Num, ring_radial: Num, mesh_angle: Num, flank_side: Num
) -> Num:
    """Force that pushes the ring gear down; it equals the force that lifts the pinion head."""
    return flank_side * ring_tangential * np.cos(mesh_angle) - ring_radial * np.sin(mesh_angle)


@formula("F_lift", "force", source=_STATICS)
def pinion_head_lift(
    pinion_tangential: Num, pinion_radial: Num, ring_offset_angle: Num, flank_side: Num
) -> Num:
    """Force that lifts the head of the pinion: it climbs the ring gear on drive."""
    return flank_side * pinion_tangential * np.cos(ring_offset_angle) - pinion_radial * np.sin(
        ring_offset_angle
    )


@formula("F_side", "force", source=_STATICS)
def pinion_head_side(
    pinion_tangential: Num, pinion_radial: Num, ring_offset_angle: Num, flank_side: Num
) -> Num:
    """Force that pushes the head of the pinion sideways, away from the ring gear."""
    return pinion_radial * np.cos(ring_offset_angle) + flank_side * pinion_tangential * np.sin(
        ring_offset_angle
    )


@formula("F_xn", "force", source=_STATICS)
def near_rearward_force(
    ring_rearward: Num,
    ring_axial: Num,
    ring_mean_radius: Num,
    mesh_angle: Num,
    mesh_arm: Num,
    carrier_span: Num,
) -> Num:
    """Rearward force on the carrier bearing behind the ring gear."""
    couple = ring_axial * ring_mean_radius * np.cos(mesh_angle)
    return (ring_rearward * (carrier_span - mesh_arm) + couple) / carrier_span


@formula("F_xf", "force", source=_STATICS)
def far_rearward_force(
    ring_rearward: Num,
    ring_axial: Num,
    ring_mean_radius: Num,
    mesh_angle: Num,
    mesh_arm: Num,
    carrier_span: Num,
) -> Num:
    """Rearward force on the carrier bearing away from the ring gear."""
    couple = ring_axial * ring_mean_radius * np.cos(mesh_angle)
    return (ring_rearward * mesh_arm - couple) / carrier_span


@formula("F_zn", "force", source=_STATICS)
def near_downward_force(
    ring_downward: Num,
    ring_axial: Num,
    ring_mean_radius: Num,
    mesh_angle: Num,
    mesh_arm: Num,
    carrier_span: Num,
) -> Num:
    """Downward force on the carrier bearing behind the ring gear."""
    couple = ring_axial * ring_mean_radius * np.sin(mesh_angle)
    return (ring_downward * (carrier_span - mesh_arm) - couple) / carrier_span


@formula("F_zf", "force", source=_STATICS)
def far_downward_force(
    ring_downward: Num,
    ring_axial: Num,
    ring_mean_radius: Num,
    mesh_angle: Num,
    mesh_arm: Num,
    carrier_span: Num,
) -> Num:
    """Downward force on the carrier bearing away from the ring gear."""
    couple = ring_axial * ring_mean_radius * np.sin(mesh_angle)
    return (ring_downward * mesh_arm + couple) / carrier_span


@formula("F_r", "force", source=_STATICS)
def carrier_radial_load(bearing_rearward: Num, bearing_downward: Num) -> Num:
    """Radial load of a carrier bearing."""
    return np.sqrt(bearing_rearward * bearing_rearward + bearing_downward * bearing_downward)


@formula("F_cap", "force", source=_STATICS)
def bearing_cap_load(bearing_rearward: Num) -> Num:
    """Force that pulls a cap off the case; nothing where the bearing is pushed into the case.

    The joint of cap and case is taken as vertical, with the cap behind the bearing.
    """
    return np.maximum(bearing_rearward, 0.0)


@formula("F_cb", "force", source=_STATICS)
def cap_bolt_share(bearing_cap_load: Num, cap_bolt_count: Num) -> Num:
    """Share of one bolt in the force on its cap, with no prying."""
    return bearing_cap_load / cap_bolt_count


@formula("F_h", "force", source=_STATICS)
def overhung_head_load(
    pinion_tangential: Num,
    pinion_radial: Num,
    pinion_axial: Num,
    pinion_mean_radius: Num,
    pinion_overhang: Num,
    pinion_span: Num,
) -> Num:
    """Radial load of the bearing behind the head of an overhung pinion."""
    lever = pinion_overhang / pinion_span
    across = pinion_tangential * (1.0 + lever)
    along = pinion_radial * (1.0 + lever) - pinion_axial * pinion_mean_radius / pinion_span
    return np.sqrt(across * across + along * along)


@formula("F_t", "force", source=_STATICS)
def overhung_tail_load(
    pinion_tangential: Num,
    pinion_radial: Num,
    pinion_axial: Num,
    pinion_mean_radius: Num,
    pinion_overhang: Num,
    pinion_span: Num,
) -> Num:
    """Radial load of the bearing at the yoke of an overhung pinion."""
    across = pinion_tangential * pinion_overhang / pinion_span
    along = (pinion_radial * pinion_overhang - pinion_axial * pinion_mean_radius) / pinion_span
    return np.sqrt(across * across + along * along)


@formula("F_p", "force", source=_STATICS)
def straddle_pilot_load(
    pinion_tangential: Num,
    pinion_radial: Num,
    pinion_axial: Num,
    pinion_mean_radius: Num,
    pinion_overhang: Num,
    straddle_span: Num,
) -> Num:
    """Radial load of the pilot bearing of a straddle-mounted pinion.

    The stem is held at the pilot and at the bearing behind the head; the bearing at the yoke is
    taken to carry no radial load, which overstates the other two a little.
    """
    across = pinion_tangential * pinion_overhang / straddle_span
    along = (pinion_radial * pinion_overhang - pinion_axial * pinion_mean_radius) / straddle_span
    return np.sqrt(across * across + along * along)


@formula("F_hs", "force", source=_STATICS)
def straddle_head_load(
    pinion_tangential: Num,
    pinion_radial: Num,
    pinion_axial: Num,
    pinion_mean_radius: Num,
    pinion_overhang: Num,
    straddle_span: Num,
) -> Num:
    """Radial load of the bearing behind the head of a straddle-mounted pinion."""
    lever = 1.0 - pinion_overhang / straddle_span
    across = pinion_tangential * lever
    along = pinion_radial * lever + pinion_axial * pinion_mean_radius / straddle_span
    return np.sqrt(across * across + along * along)
