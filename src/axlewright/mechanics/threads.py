"""Thread stripping: how deep a screw must go in so that it breaks before its thread pulls out.

The shear areas follow FED-STD-H28 as Machinery's Handbook gives them.  Pass the largest minor and
the smallest pitch diameter that the thread class allows for the safe side, or the basic ones for
the middle.  Stripping matters where a strong screw sits in iron or aluminum: bearing caps, ring
gear bolts in a carrier.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula(
    "A_se",
    "area",
    source="FED-STD-H28 as in Machinery's Handbook, shear area of external thread (from memory)",
)
def screw_strip_area(
    thread_engagement: Num, thread_pitch: Num, pitch_diameter: Num, internal_minor_diameter: Num
) -> Num:
    """Area that shears when the thread of the screw strips, at the bore of the tapped hole."""
    return (
        np.pi
        * thread_engagement
        * internal_minor_diameter
        * (0.5 + 0.57735 * (pitch_diameter - internal_minor_diameter) / thread_pitch)
    )


@formula(
    "A_si",
    "area",
    source="FED-STD-H28 as in Machinery's Handbook, shear area of internal thread (from memory)",
)
def hole_strip_area(
    thread_engagement: Num, thread_pitch: Num, bolt_diameter: Num, internal_pitch_diameter: Num
) -> Num:
    """Area that shears when the tapped hole strips, at the crest of the screw."""
    return (
        np.pi
        * thread_engagement
        * bolt_diameter
        * (0.5 + 0.57735 * (bolt_diameter - internal_pitch_diameter) / thread_pitch)
    )


@formula("F_st", "force", source="shear strength over the area (closed form)")
def strip_load(strip_area: Num, shear_strength: Num) -> Num:
    """Pull at which a thread strips."""
    return strip_area * shear_strength


@formula(
    "L_e",
    "length",
    source="Machinery's Handbook, 24th ed., length of engagement, formula 1 "
    "(read, as reproduced in a discussion of it)",
)
def full_strength_engagement(
    stress_area: Num, thread_pitch: Num, pitch_diameter: Num, internal_minor_diameter: Num
) -> Num:
    """Length of engagement at which a screw breaks before its thread strips, like metals.

    It asks for twice the tensile area in shear, which leaves a little in hand.  In a weaker hole
    compare the strip load of the hole with the strength of the screw instead.
    """
    return (
        2.0
        * stress_area
        / (
            np.pi
            * internal_minor_diameter
            * (0.5 + 0.57735 * (pitch_diameter - internal_minor_diameter) / thread_pitch)
        )
    )
