"""Geometry factors of a hypoid pair, estimated where the gear maker's summary is not at hand.

The published charts of these factors belong to one tooth proportion each.  The estimates here
are equivalent spur gears in the normal section: good to ±15 % in bending and ±20 % in contact
(own judgement, no source).  Whoever has the maker's figures should use those instead.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

TEETH = (17.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 150.0, 200.0)
FORM = (2.97, 2.80, 2.62, 2.52, 2.40, 2.32, 2.28, 2.22, 2.18, 2.14, 2.12)
CORRECTION = (1.52, 1.55, 1.59, 1.625, 1.67, 1.70, 1.73, 1.77, 1.79, 1.83, 1.865)


@formula(
    "Y_Fa·Y_Sa",
    "ratio",
    kind="lookup",
    source="ISO 6336-3 form and stress-correction factors of the 20° standard rack without "
    "profile shift (widely reprinted table, from memory)",
    valid={"virtual_teeth": (17.0, 200.0)},
    outside="fewer or more teeth than the table has; its end value is held",
)
def tooth_form_product(virtual_teeth: Num) -> Num:
    """Form factor times stress correction of the equivalent spur tooth.

    Interpolated over 1/z.  The product hardly varies: slender roots have gentle fillets.
    """
    product = np.multiply(FORM, CORRECTION)[::-1]
    result: Num = np.interp(1.0 / virtual_teeth, 1.0 / np.array(TEETH[::-1]), product)
    return result


@formula(
    "Y_ε",
    "ratio",
    source="ISO 10300-3:2014, contact ratio factor (from memory)",
    valid={"profile_contact_ratio": (1.0, 2.0)},
    outside="ISO 10300 holds for a profile contact ratio below two",
)
def load_share_factor(profile_contact_ratio: Num, face_overlap: Num) -> Num:
    """Relief of a tooth's root by its neighbours; full overlap along the face gives 0.625."""
    along = np.minimum(face_overlap, 1.0)
    profile = 0.25 + 0.75 / profile_contact_ratio
    return profile + along * (0.625 - profile)


@formula(
    "J",
    "ratio",
    source="derived: the root stress of ISO 10300-3 written on outer module and outer force",
)
def bending_geometry_estimate(
    ring_mean_spiral: Num,
    ring_mean_radius: Num,
    ring_diameter: Num,
    tooth_form_product: Num,
    load_share_factor: Num,
) -> Num:
    """Bending geometry factor of one member (±15 %)."""
    inward = 2.0 * ring_mean_radius / ring_diameter
    return inward * inward * np.cos(ring_mean_spiral) / (tooth_form_product * load_share_factor)


@formula("ρ_n", "length", source="Tredgold's approximation in the normal section (closed form)")
def profile_radius(
    member_mean_radius: Num, member_pitch_angle: Num, member_spiral: Num, flank_pressure_angle: Num
) -> Num:
    """Radius of curvature of a tooth flank at the pitch point, square to the tooth.

    On an offset pair the angle is the effective one: from the limit pressure angle.
    """
    lean = np.cos(member_spiral)
    bend = np.cos(member_pitch_angle) * lean * lean
    return member_mean_radius / bend * np.sin(flank_pressure_angle)


@formula("ρ_rel", "length", source="Hertz (closed form)")
def relative_radius(pinion_profile_radius: Num, ring_profile_radius: Num) -> Num:
    """Radius of the roller on a flat that is pressed as the two flanks are."""
    return (
        pinion_profile_radius * ring_profile_radius / (pinion_profile_radius + ring_profile_radius)
    )


@formula(
    "I",
    "ratio",
    source="derived: Hertz line contact at the mean point written in the form of AGMA 2003",
    valid={"contact_length_ratio": (0.5, 1.5)},
    outside="the line of contact is no longer about one tooth long",
)
def contact_geometry_estimate(
    relative_radius: Num,
    pinion_mean_radius: Num,
    pinion_outer_diameter: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
    flank_pressure_angle: Num,
    contact_length_ratio: Num,
) -> Num:
    """Contact geometry factor of the pair (±20 %).

    ``contact_length_ratio`` is the length of the line of contact over that of the tooth: 1 where
    the crowning already stands in the contact constant, as with 232.6 MPa^½.
    """
    inward = 2.0 * pinion_mean_radius / pinion_outer_diameter
    slant = np.cos(flank_pressure_angle) * np.cos(pinion_mean_spiral) / np.cos(ring_mean_spiral)
    return contact_length_ratio * relative_radius / pinion_outer_diameter * inward * slant
