"""Straight beams of one section: a housing on two wheels, a shaft past its bearing, a stud.

Closed forms of Euler-Bernoulli beam theory, as any handbook has them; deflection by shear is left
out (for a 3 in tube over 60 in it is about one percent).  Lengths are measured along the beam,
forces are positive as drawn and deflections come out positive in the direction of the force.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_SEATS = {"load_inset": (0.0, None), "beam_span": (0.0, None)}
_SEATS_WORDS = "both loads stand between the supports"


@formula("M", "torque", source="closed form")
def two_load_moment(force: Num, load_inset: Num) -> Num:
    """Bending moment between two equal loads that stand the same distance inside the supports.

    It is the same everywhere between the two loads: spring seats on an axle.
    """
    return force * load_inset


@formula("y_c", "length", source="closed form", valid=_SEATS, outside=_SEATS_WORDS)
def two_load_centre_deflection(
    force: Num, load_inset: Num, beam_span: Num, youngs_modulus: Num, second_moment: Num
) -> Num:
    """Sag at the middle of a beam with two equal loads the same distance inside the supports."""
    return (
        force
        * load_inset
        * (3.0 * beam_span**2 - 4.0 * load_inset**2)
        / (24.0 * youngs_modulus * second_moment)
    )


@formula("y_a", "length", source="closed form", valid=_SEATS, outside=_SEATS_WORDS)
def two_load_deflection_at_load(
    force: Num, load_inset: Num, beam_span: Num, youngs_modulus: Num, second_moment: Num
) -> Num:
    """Sag under each of two equal loads the same distance inside the supports."""
    return (
        force
        * load_inset**2
        * (3.0 * beam_span - 4.0 * load_inset)
        / (6.0 * youngs_modulus * second_moment)
    )


@formula("θ_e", "angle", source="closed form", valid=_SEATS, outside=_SEATS_WORDS)
def two_load_end_slope(
    force: Num, load_inset: Num, beam_span: Num, youngs_modulus: Num, second_moment: Num
) -> Num:
    """Slope at the ends of a beam with two equal loads: the camber that load bends into an axle."""
    return force * load_inset * (beam_span - load_inset) / (2.0 * youngs_modulus * second_moment)


@formula(
    "y_s",
    "length",
    source="derived by moment areas for a beam that is rigid over its middle length",
    valid=_SEATS,
    outside=_SEATS_WORDS,
)
def stiff_centre_deflection(
    force: Num,
    load_inset: Num,
    beam_span: Num,
    stiff_length: Num,
    youngs_modulus: Num,
    second_moment: Num,
) -> Num:
    """Sag at the middle when the middle length does not bend: an axle with a stiff centre.

    The loads stand on the bare tube, outside the stiff length.  A real centre bends a little:
    the truth lies between this and a tube without centre.
    """
    free = 0.5 * (beam_span - stiff_length)
    return (
        force
        * load_inset
        * (0.5 * free**2 - load_inset**2 / 6.0)
        / (youngs_modulus * second_moment)
    )


@formula(
    "θ_s",
    "angle",
    source="derived by moment areas for a beam that is rigid over its middle length",
    valid=_SEATS,
    outside=_SEATS_WORDS,
)
def stiff_centre_end_slope(
    force: Num,
    load_inset: Num,
    beam_span: Num,
    stiff_length: Num,
    youngs_modulus: Num,
    second_moment: Num,
) -> Num:
    """Slope at the ends when the middle length does not bend: camber under load with a centre."""
    free = 0.5 * (beam_span - stiff_length)
    return force * load_inset * (free - 0.5 * load_inset) / (youngs_modulus * second_moment)


@formula("M", "torque", source="closed form")
def cantilever_moment(force: Num, lever: Num) -> Num:
    """Bending moment at the root of a beam held at one end."""
    return force * lever


@formula("y", "length", source="closed form")
def cantilever_deflection(force: Num, lever: Num, youngs_modulus: Num, second_moment: Num) -> Num:
    """How far the free end of a beam held at one end moves under a force there."""
    return force * lever**3 / (3.0 * youngs_modulus * second_moment)


@formula("R_1", "force", source="closed form")
def overhung_near_reaction(force: Num, overhang: Num, beam_span: Num) -> Num:
    """Load on the bearing next to an overhung force; it exceeds the force itself."""
    return force * (beam_span + overhang) / beam_span


@formula("R_2", "force", source="closed form")
def overhung_far_reaction(force: Num, overhang: Num, beam_span: Num) -> Num:
    """Load on the bearing far from an overhung force, against the direction of the near one."""
    return force * overhang / beam_span


@formula("y_o", "length", source="closed form")
def overhung_deflection(
    force: Num, overhang: Num, beam_span: Num, youngs_modulus: Num, second_moment: Num
) -> Num:
    """How far an overhung end moves under a force there, the two bearings being rigid."""
    return force * overhang**2 * (beam_span + overhang) / (3.0 * youngs_modulus * second_moment)


@formula("θ_o", "angle", source="closed form")
def overhung_slope(
    force: Num, overhang: Num, beam_span: Num, youngs_modulus: Num, second_moment: Num
) -> Num:
    """Slope of an overhung end under a force there, the two bearings being rigid."""
    return (
        force
        * overhang
        * (2.0 * beam_span + 3.0 * overhang)
        / (6.0 * youngs_modulus * second_moment)
    )


@formula("M", "torque", source="closed form")
def resultant_moment(vertical_moment: Num, fore_aft_moment: Num) -> Num:
    """Two bending moments about crossed axes as one; a round section only feels their resultant."""
    return np.sqrt(vertical_moment**2 + fore_aft_moment**2)
