"""Gear blank of a face-milled pair with tapered depth: how deep the teeth are, and their cones.

Proportions by depth and addendum factors as in ISO 23509 (data type II) and AGMA 2005; the
default factors are from memory and stay open as arguments.  Depth tapers with the cone distance
(standard taper).  The pinion's face and root cones are those that touch the ring gear's root and
face cones in the middle of the face, drawn back by the clearance: closed form for axes at 90°.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

DEPTH_FACTOR = 2.0
"""Mean working depth over mean normal module (from memory)."""
CLEARANCE_FACTOR = 0.125
"""Clearance at the root over mean working depth (from memory)."""

_PROPORTIONS = "ISO 23509, data type II (from memory)"
_TANGENT = "derived: two cones that touch have one normal in common, and it meets both axes"


@formula("h_mw", "length", source=_PROPORTIONS)
def mean_working_depth(depth_factor: Num, mean_normal_module: Num) -> Num:
    """Depth over which the teeth of both gears overlap in the middle of the face."""
    return depth_factor * mean_normal_module


@formula(
    "c_ham",
    "ratio",
    source="ISO 23509 and AGMA 2005 (from memory)",
    valid={"axle_ratio": (1.0, None)},
    outside="the rule counts ring teeth over pinion teeth",
)
def ring_addendum_share(axle_ratio: Num) -> Num:
    """Share of the working depth that stands above the ring gear's pitch cone."""
    return 0.21 + 0.29 / (axle_ratio * axle_ratio)


@formula("h_am2", "length", source=_PROPORTIONS)
def ring_mean_addendum(ring_addendum_share: Num, mean_working_depth: Num) -> Num:
    """Height of the ring gear's teeth above its pitch cone in the middle of the face."""
    return ring_addendum_share * mean_working_depth


@formula("h_am1", "length", source=_PROPORTIONS)
def pinion_mean_addendum(ring_addendum_share: Num, mean_working_depth: Num) -> Num:
    """Height of the pinion's teeth above its pitch cone: the rest of the working depth."""
    return (1.0 - ring_addendum_share) * mean_working_depth


@formula("c", "length", source=_PROPORTIONS)
def tooth_clearance(clearance_factor: Num, mean_working_depth: Num) -> Num:
    """Room between the tip of one gear and the root of the other."""
    return clearance_factor * mean_working_depth


@formula("h_fm", "length", source="closed form: a root clears the mate's tip")
def mean_dedendum(mating_addendum: Num, tooth_clearance: Num) -> Num:
    """Depth of a gear's teeth below its pitch cone in the middle of the face."""
    return mating_addendum + tooth_clearance


@formula("θ_t", "angle", source="standard depth taper (ISO 23509, from memory)")
def taper_angle(mean_dedendum: Num, ring_cone_distance: Num) -> Num:
    """Angle between pitch line and root line; the mate's dedendum gives the face line's."""
    return np.arctan(mean_dedendum / ring_cone_distance)


@formula("h_e", "length", source="closed form: a straight line along the face")
def outer_height(mean_height: Num, taper_angle: Num, ring_face_width: Num) -> Num:
    """Addendum or dedendum at the outer end of the face."""
    return mean_height + 0.5 * ring_face_width * np.tan(taper_angle)


@formula("ψ", "angle", source=_TANGENT)
def touching_azimuth(
    hypoid_offset: Num, ring_point_radius: Num, ring_point_height: Num, ring_cone_angle: Num
) -> Num:
    """Where around the ring's axis a cone of the ring comes closest to the pinion's axis."""
    reach = ring_point_radius + ring_point_height / np.tan(ring_cone_angle)
    return np.arcsin(hypoid_offset / reach)


@formula("δ_t1", "angle", source=_TANGENT)
def touching_cone_angle(ring_cone_angle: Num, touching_azimuth: Num) -> Num:
    """Angle of the pinion's cone that touches a cone of the ring gear."""
    angle: Num = np.arcsin(np.cos(ring_cone_angle) * np.cos(touching_azimuth))
    return angle


@formula("r_t1", "length", source=_TANGENT)
def touching_radius(
    ring_point_height: Num,
    ring_cone_angle: Num,
    touching_cone_angle: Num,
    tooth_clearance: Num,
) -> Num:
    """Radius of the pinion's face or root cone, across from the middle of the ring's face."""
    normal = ring_point_height / np.sin(ring_cone_angle) - tooth_clearance
    return normal * np.cos(touching_cone_angle)


@formula("x_t1", "length", source=_TANGENT)
def touching_place(
    ring_point_radius: Num,
    ring_cone_angle: Num,
    touching_azimuth: Num,
    tooth_clearance: Num,
) -> Num:
    """Distance of that circle from the ring's axis, along the pinion's axis."""
    reach = ring_point_radius + tooth_clearance * np.cos(ring_cone_angle)
    return reach * np.cos(touching_azimuth)


@formula("r_v", "length", source="Tredgold's approximation in the normal section (closed form)")
def virtual_radius(member_mean_radius: Num, member_pitch_angle: Num, member_spiral: Num) -> Num:
    """Pitch radius of the spur gear that has the same tooth form square to the tooth."""
    lean = np.cos(member_spiral)
    return member_mean_radius / (np.cos(member_pitch_angle) * lean * lean)


@formula(
    "ε_α",
    "ratio",
    source="contact ratio of spur gears with the radii of the normal section (closed form)",
)
def profile_overlap(
    pinion_virtual_radius: Num,
    ring_virtual_radius: Num,
    pinion_addendum: Num,
    ring_addendum: Num,
    mean_normal_module: Num,
    flank_pressure_angle: Num,
) -> Num:
    """How many teeth the profile lets share (estimate by the equivalent spur gears)."""
    cos = np.cos(flank_pressure_angle)
    tip1 = (pinion_virtual_radius + pinion_addendum) / pinion_virtual_radius
    tip2 = (ring_virtual_radius + ring_addendum) / ring_virtual_radius
    path1 = pinion_virtual_radius * np.sqrt(tip1 * tip1 - cos * cos)
    path2 = ring_virtual_radius * np.sqrt(tip2 * tip2 - cos * cos)
    between = (pinion_virtual_radius + ring_virtual_radius) * np.sin(flank_pressure_angle)
    return (path1 + path2 - between) / (np.pi * mean_normal_module * cos)


@formula("ε_0", "ratio", source="modified contact ratio of AGMA 2005 (from memory)")
def total_overlap(profile_contact_ratio: Num, face_overlap: Num) -> Num:
    """Teeth in contact by profile and spiral together, for a localized contact."""
    return np.sqrt(profile_contact_ratio * profile_contact_ratio + face_overlap * face_overlap)
