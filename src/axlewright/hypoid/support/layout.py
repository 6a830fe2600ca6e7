"""A support from what a builder knows: spans, overhang, stem, bearing sizes, case, iron.

What only a drawing tells (steps of the pinion, hub of the differential, rollers, seats) follows by
proportion and is *assumed*.  Effective spans run between load centers: a tapered bearing's rollers
stand nearer to the middle of a pinion, and further out in a carrier, than its load center.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.support import case as cases
from axlewright.hypoid.support.case import CaseMetal, DesignClass
from axlewright.hypoid.support.mesh import Mesh
from axlewright.hypoid.support.roller import Roller, typical_pilot, typical_tapered
from axlewright.hypoid.support.shaft import Section, Shaft
from axlewright.hypoid.support.system import Line, Seat, System
from axlewright.quantities.formula import Array

STEEL = 206e9
FLANGE_FACTOR = 4.0
"""Tilt stiffness of a ring gear's flange over E·t³ (assumption, 2 to 12).

A plate held rigidly at half the bolt circle has 12.4 (closed form); the hub behind it gives too."""
FLANGE_DIRECT = 20e9
"""Direct stiffness of a bolted ring gear on its flange, N/m: hardly gives."""


@dataclass(frozen=True)
class BearingSize:
    """Bore, outside, width (m) and contact angle (rad) of a tapered bearing."""

    bore: float
    outside: float
    width: float
    contact_angle: float = 0.26


@dataclass(frozen=True)
class Pilot:
    """Bearing on the nose: sizes, clearance on the diameter, distance from the mesh (m)."""

    bore: float
    outside: float
    width: float
    clearance: float
    ahead_of_mesh: float


@dataclass(frozen=True)
class Sizes:
    """What is known or assumed of a support (m, N, Pa)."""

    overhang: float
    span: float
    stem: float
    head: BearingSize
    tail: BearingSize
    carrier: BearingSize
    carrier_span: float
    ring_side_share: float
    flange_thickness: float
    pinion_preload: float
    carrier_preload: float
    pilot: Pilot | None = None
    flange_factor: float = FLANGE_FACTOR


def support(mesh: Mesh, sizes: Sizes, design: DesignClass, metal: CaseMetal) -> System:
    """The whole support of a pair, see :class:`System`."""
    modulus = metal.youngs_modulus
    return System(mesh, _pinion(mesh, sizes, design, modulus), _ring(mesh, sizes, design, modulus))


def _tapered(size: BearingSize, facing: int) -> Roller:
    return typical_tapered(size.bore, size.outside, size.width, size.contact_angle, facing)


def _pinion(mesh: Mesh, sizes: Sizes, design: DesignClass, modulus: float) -> Line:
    """Pinion: head at the mean radius, journals as thick as the bores, stem between."""
    head, tail = _tapered(sizes.head, 1), _tapered(sizes.tail, -1)
    x = float(mesh.mean_point[0])
    head_at = x + sizes.overhang - head.load_centre
    tail_at = x + sizes.overhang + sizes.span - tail.load_centre
    if tail_at <= head_at + 0.5 * (sizes.head.width + sizes.tail.width):
        raise ValueError("the pinion's bearings leave no room between them: check the span")
    seats = [
        Seat("head bearing", head_at, head, _springs(design.head, modulus, sizes.head)),
        Seat("tail bearing", tail_at, tail, _springs(design.tail, modulus, sizes.tail)),
    ]
    front = x
    sections: list[Section] = []
    if sizes.pilot is not None:
        p = sizes.pilot
        front = x - p.ahead_of_mesh
        roller = typical_pilot(p.bore, p.outside, p.width, p.clearance)
        springs = cases.seat_springs(design.pilot, modulus, p.outside)
        seats.append(Seat("pilot bearing", front, roller, springs))
        sections.append(Section(0.5 * p.ahead_of_mesh, p.bore))
    thick = 1.7 * float(mesh.geometry.pinion_mean_radius)
    cone_end = head_at - 0.5 * sizes.head.width
    neck = head_at + 0.5 * sizes.head.width
    start = front + sum(s.length for s in sections)
    sections += [
        Section(cone_end - start, max(thick, sizes.head.bore)),
        Section(neck - cone_end, sizes.head.bore),
        Section(tail_at - 0.5 * sizes.tail.width - neck, max(sizes.stem, sizes.tail.bore)),
        Section(sizes.tail.width, sizes.tail.bore),
    ]
    pair = cases.pair_stiffness(np.stack([s.springs for s in seats]))
    return Line(Shaft(front, tuple(sections), STEEL), tuple(seats), pair, sizes.pinion_preload, x)


def _ring(mesh: Mesh, sizes: Sizes, design: DesignClass, modulus: float) -> Line:
    """Ring gear on the flange of the differential, hubs on both sides bored for the axle shafts."""
    back, front = _tapered(sizes.carrier, 1), _tapered(sizes.carrier, -1)
    z = float(mesh.mean_point[2])
    near = z + sizes.ring_side_share * sizes.carrier_span
    back_at = near - back.load_centre
    front_at = near - sizes.carrier_span - front.load_centre
    springs = _springs(design.carrier, modulus, sizes.carrier)
    seats = (
        Seat("ring side bearing", back_at, back, springs),
        Seat("far side bearing", front_at, front, springs),
    )
    hub = 0.5 * sizes.carrier.width
    bore = 0.72 * sizes.carrier.bore
    body = 1.3 * sizes.carrier.outside
    sections = (
        Section(2.0 * hub, sizes.carrier.bore, bore),
        Section(back_at - front_at - 2.0 * hub, body, 0.85 * body),
        Section(2.0 * hub, sizes.carrier.bore, bore),
    )
    tilt = float(cases.flange_tilt_stiffness(sizes.flange_factor, STEEL, sizes.flange_thickness))
    flange = np.array([FLANGE_DIRECT, FLANGE_DIRECT, FLANGE_DIRECT, tilt, tilt])
    pair = cases.pair_stiffness(np.stack([s.springs for s in seats]))
    shaft = Shaft(front_at - hub, sections, STEEL)
    return Line(shaft, seats, pair, sizes.carrier_preload, z, flange)


def _springs(factors: cases.SeatFactors, modulus: float, size: BearingSize) -> Array:
    return cases.seat_springs(factors, modulus, size.outside)
