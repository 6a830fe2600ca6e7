"""Pitch cones of a hypoid pair: how big the pinion gets, and at what angles the teeth meet.

The sequence is that of ISO 23509, clause 6, method 1 (equation order from memory), where
the wheel offset angle is varied until the limit radius of curvature equals the cutter radius.
The standard stops at 1 %; this module goes on to rounding.  All steps are written in the
variable ``t = sin(η)/a`` and without inverse functions, so that no offset at all is no special
case: the result is then the spiral bevel pair.

The cones are confirmed independently: the axes cross at the shaft angle, exactly the offset
apart, and sliding lies along the tooth.  That check also settled the sign of the terms in the
excess of the shaft angle over 90°, where the recollection of the standard was wrong.  The factor
sec(α_lim) of the limit curvature alone rests on memory; it is worth 0.3 to 1.4 % of the cutter
radius.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.quantities.formula import Num, formula

STEPS = 7
"""Secant steps; five solve the proportions of cars, the others are reserve."""

SOLVED = 1e-8
"""Largest relative curvature mismatch that counts as solved; beyond it the sample is NaN."""


class HypoidGeometry(NamedTuple):
    """Pitch cones at the mean point of the face."""

    pinion_mean_radius: Num
    ring_mean_radius: Num
    pinion_pitch_angle: Num
    ring_pitch_angle: Num
    pinion_mean_spiral: Num
    ring_mean_spiral: Num
    offset_angle: Num
    mesh_angle: Num
    ring_offset_angle: Num
    pinion_cone_distance: Num
    ring_cone_distance: Num
    limit_pressure_angle: Num


class _Given(NamedTuple):
    """What stays the same while the offset angle is sought."""

    u: Num
    a: Num
    r2: Num
    rn1: Num
    tan_spiral: Num
    sin_wheel: Num
    cos_entry: Num
    cos_shaft: Num
    tan_shaft: Num


class _Cones(NamedTuple):
    """One trial: tangents and sines of the angles, lengths."""

    sin_eta: Num
    sin_e1: Num
    sin_offset: Num
    cos_offset: Num
    tan_d1: Num
    tan_d2: Num
    tan_b1: Num
    tan_b2: Num
    r1: Num
    cone1: Num
    cone2: Num
    tan_limit: Num


@formula(
    "hypoid",
    "ratio",
    kind="solve",
    source="ISO 23509, cl. 6, method 1 (equation order from memory; cones confirmed by "
    "independent vector calculation), solved to ρ = r_c0",
    valid={
        "hypoid_offset": (0.0, None),
        "pinion_teeth": (5.0, 25.0),
        "pinion_spiral": (0.0, np.radians(60.0)),
        "shaft_angle": (np.radians(60.0), np.radians(120.0)),
    },
    outside="the pair lies outside what method 1 is used for",
)
def pitch_cones(
    pinion_teeth: Num,
    ring_teeth: Num,
    ring_diameter: Num,
    ring_face_width: Num,
    hypoid_offset: Num,
    pinion_spiral: Num,
    cutter_radius: Num,
    shaft_angle: Num,
) -> HypoidGeometry:
    """Pitch cones of the pair from what can be counted, measured or read off the cutting card.

    A sample for which no offset angle fits the cutter comes back as NaN.
    """
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        given, t = _start(
            pinion_teeth, ring_teeth, ring_diameter, ring_face_width, hypoid_offset,
            pinion_spiral, shaft_angle,
        )  # fmt: skip
        before = _mismatch(_trial(t, given), cutter_radius)
        step = 0.2 * t
        for _ in range(STEPS):
            t = t + step
            now = _mismatch(_trial(t, given), cutter_radius)
            change = now - before
            step = np.where(change == 0.0, 0.0, -now * step / change)
            before = now
        t = np.where(np.abs(before) <= SOLVED, t, np.nan)[()]
        return _angles(_trial(t, given), given)


def _start(
    pinion_teeth: Num,
    ring_teeth: Num,
    ring_diameter: Num,
    ring_face_width: Num,
    offset: Num,
    spiral: Num,
    shaft_angle: Num,
) -> tuple[_Given, Num]:
    """Steps 1 to 7: what is fixed, and the standard's first guess of t."""
    u = ring_teeth / pinion_teeth
    shaft = shaft_angle - 0.5 * np.pi
    sin_shaft, cos_shaft = np.sin(shaft), np.cos(shaft)
    tan_wheel = u * cos_shaft / (1.2 * (1.0 - u * sin_shaft))
    sin_wheel = tan_wheel / np.sqrt(1.0 + tan_wheel * tan_wheel)
    r2 = 0.5 * (ring_diameter - ring_face_width * sin_wheel)
    sin_entry = offset * sin_wheel / r2
    cos_entry = np.sqrt(1.0 - sin_entry * sin_entry)
    tan_spiral = np.tan(spiral)
    rn1 = r2 * (tan_spiral * sin_entry + cos_entry) / u
    reach = r2 * (tan_wheel * cos_shaft - sin_shaft) + rn1
    t = 1.0 / np.sqrt(reach * reach + offset * offset)
    return (
        _Given(u, offset, r2, rn1, tan_spiral, sin_wheel, cos_entry, cos_shaft,
               sin_shaft / cos_shaft),
        t,
    )  # fmt: skip


def _trial(t: Num, given: _Given) -> _Cones:
    """Steps 8 to 20 for one value of t, every quotient of two vanishing terms cancelled."""
    u, a, r2, rn1, tan_spiral, sin_wheel, cos_entry, cos_shaft, tan_shaft = given
    sin_eta = a * t
    cos_eta = np.sqrt(1.0 - sin_eta * sin_eta)
    first = 1.0 - rn1 * t
    sin_e2 = a * first / r2
    cos_e2 = np.sqrt(1.0 - sin_e2 * sin_e2)
    tan_i = t * r2 * cos_e2 / (first * cos_shaft) + tan_shaft * cos_eta
    cos_i = 1.0 / np.sqrt(1.0 + tan_i * tan_i)
    sin_2 = sin_e2 * cos_shaft / cos_i
    cos_2 = np.sqrt(1.0 - sin_2 * sin_2)
    q = sin_wheel * cos_i / (first * cos_shaft)
    tan_bi = tan_spiral * q + sin_2 * (1.0 - q * q) / (cos_entry + cos_2)
    r1 = rn1 + r2 / u * sin_2 * (tan_spiral - tan_bi)
    second = 1.0 - r1 * t
    sin_e1 = a * second / r2
    cos_e1 = np.sqrt(1.0 - sin_e1 * sin_e1)
    tan_d1 = t * r2 * cos_e1 / (second * cos_shaft) + tan_shaft * cos_eta
    cos_d1 = 1.0 / np.sqrt(1.0 + tan_d1 * tan_d1)
    sin_offset = sin_e1 * cos_shaft / cos_d1
    cos_offset = np.sqrt(1.0 - sin_offset * sin_offset)
    q = first * cos_d1 / (second * cos_i)
    tan_b1 = tan_spiral * q + sin_offset * (1.0 - q * q) / (cos_2 + cos_offset)
    tan_offset = sin_offset / cos_offset
    tan_b2 = (tan_b1 - tan_offset) / (1.0 + tan_b1 * tan_offset)
    tan_d2 = second * cos_eta / (r2 * t * cos_shaft) + cos_e1 * tan_shaft
    cone1 = r1 / (tan_d1 * cos_d1)
    cone2 = r2 * np.sqrt(1.0 + tan_d2 * tan_d2) / tan_d2
    arm1 = cone1 * tan_b1 / np.sqrt(1.0 + tan_b1 * tan_b1)
    arm2 = cone2 * tan_b2 / np.sqrt(1.0 + tan_b2 * tan_b2)
    tan_limit = -tan_d1 * tan_d2 / cos_offset * (arm1 - arm2) / (cone1 * tan_d1 + cone2 * tan_d2)
    return _Cones(sin_eta, sin_e1, sin_offset, cos_offset, tan_d1, tan_d2, tan_b1, tan_b2, r1,
                  cone1, cone2, tan_limit)  # fmt: skip


def _mismatch(cones: _Cones, cutter_radius: Num) -> Num:
    """Step 21 as cutter radius over limit radius of curvature, cleared of its fraction."""
    return cutter_radius * _curvature(cones) - np.sqrt(1.0 + cones.tan_limit**2) * (
        cones.tan_b1 - cones.tan_b2
    )


def _curvature(cones: _Cones) -> Num:
    """Denominator of the limit radius of curvature."""
    c = cones
    return (
        -c.tan_limit * (c.tan_b1 / (c.cone1 * c.tan_d1) + c.tan_b2 / (c.cone2 * c.tan_d2))
        + np.sqrt(1.0 + c.tan_b1 * c.tan_b1) / c.cone1
        - np.sqrt(1.0 + c.tan_b2 * c.tan_b2) / c.cone2
    )


def _angles(c: _Cones, given: _Given) -> HypoidGeometry:
    """Turn the trial that fits into angles."""
    return HypoidGeometry(
        pinion_mean_radius=c.r1,
        ring_mean_radius=given.r2 + 0.0 * c.r1,  # takes over the NaN of an unsolved sample
        pinion_pitch_angle=np.arctan(c.tan_d1),
        ring_pitch_angle=np.arctan(c.tan_d2),
        pinion_mean_spiral=np.arctan(c.tan_b1),
        ring_mean_spiral=np.arctan(c.tan_b2),
        offset_angle=np.arcsin(c.sin_offset),
        mesh_angle=np.arcsin(c.sin_e1),
        ring_offset_angle=np.arcsin(c.sin_eta),
        pinion_cone_distance=c.cone1,
        ring_cone_distance=c.cone2,
        limit_pressure_angle=np.arctan(c.tan_limit),
    )
