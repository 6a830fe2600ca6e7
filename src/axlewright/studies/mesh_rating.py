"""What the gear pair carries: by the axle method's own load distribution, and by the contact's.

The stress is the axle method's both times; what differs is how evenly the load is taken to lie.
The method has a factor for it by how the pinion is held; the loaded contact knows it of these very
flanks, case and bearings.  Only hands values from formula to formula, on floats and traced alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from axlewright.build.machine import Machine
from axlewright.driveline.margins import torque_margin
from axlewright.driveline.shares import real_capacity, real_strength
from axlewright.hypoid import peak_load, rating, teeth
from axlewright.hypoid.geometry import HypoidGeometry
from axlewright.hypoid.loaded.contact import LoadedContact
from axlewright.hypoid.loaded.evenness import crossing, evenness
from axlewright.hypoid.loaded.hertz import contact_modulus
from axlewright.hypoid.peak_load import Allowed, FlankMethod
from axlewright.mechanics.bevel_factors import face_load_factor
from axlewright.quantities.formula import Num, least
from axlewright.studies.links.gears import bending_geometry, contact_geometry
from axlewright.studies.mesh_heat import Rubbing
from axlewright.studies.mesh_pair import SIDES, Side

CROWNING: Final = 1.5
"""Peak over mean load that crowning alone makes; it stands in the method's contact constant."""
ONE_STRADDLED: Final = 1.10
"""Mounting factor where only the ring gear stands between its bearings (AGMA 2003, memory)."""
BOTH_STRADDLED: Final = 1.00
WAYS: Final = ("method", "contact")

_BY = {"method": "by the method", "contact": "by the contact's load distribution"}
_WHAT: dict[str, tuple[str, str]] = {
    "load_factor": ("ratio", "uneven load"),
    "bending": ("stress", "bending stress at the root"),
    "bending_margin": ("ratio", "torque to the design limit of the root over this torque"),
    "pitting": ("stress", "pressure between the flanks, as rated"),
    "pitting_margin": ("ratio", "torque to the design limit of the flanks over this torque"),
    "snap": ("torque", "torque at the ring gear that snaps a tooth in one go"),
    "snap_margin": ("ratio", "torque that snaps a tooth over this torque"),
    "long_life": ("torque", "torque at the ring gear for a long life"),
}
RATED: Final[dict[str, tuple[str, str]]] = {
    **{
        f"{what}_by_{way}": (dimension, f"{means}, {_BY[way]}")
        for what, (dimension, means) in _WHAT.items()
        for way in WAYS
    },
    "load_factor_by_standard": ("ratio", "uneven load, by AGMA 2003 for how the pair is held"),
    "pressure_margin": ("ratio", "torque to the design pressure over this, by the contact's own"),
    "unevenness": ("ratio", "greatest over mean load along the lines of contact in mesh"),
    "largest_share": ("ratio", "most of the torque that one pair of teeth carries"),
    "carried_load": ("line load", "load along the line of contact, mean over the load"),
    "contact_radius": ("length", "relative radius of the flanks, mean over the load"),
    "pinion_travel": ("length", "travel of the contact over the pinion's flank per radian of ring"),
    "ring_travel": ("length", "travel of the contact over the ring's flank per radian of ring"),
    "sliding_travel": ("length", "sliding of the flanks per radian of ring"),
}


@dataclass(frozen=True)
class Pressed:
    """What a rating takes from a loaded contact."""

    unevenness: Num
    largest_share: Num
    peak_pressure: Num
    rubbing: Rubbing


def pressed_of(found: LoadedContact, youngs: Num, poisson: Num) -> Pressed:
    """Read it out of a contact result."""
    even = evenness(found, float(contact_modulus(youngs, poisson)))
    cross = crossing(found.flank, found.pattern.center, found.pattern.height)
    return Pressed(
        unevenness=float(peak_load.face_load_from_contact(even.peak, even.mean)),
        largest_share=even.largest_share,
        peak_pressure=found.peak_pressure,
        rubbing=Rubbing(even.carried, even.radius, cross.pinion, cross.ring, cross.sliding),
    )


def told(x: Pressed) -> Iterator[tuple[str, Num]]:
    """The same by the names of :data:`RATED`."""
    yield "unevenness", x.unevenness
    yield "largest_share", x.largest_share
    yield "carried_load", x.rubbing.line_load
    yield "contact_radius", x.rubbing.radius
    yield "pinion_travel", x.rubbing.pinion_travel
    yield "ring_travel", x.rubbing.ring_travel
    yield "sliding_travel", x.rubbing.sliding_travel


def rated(
    m: Machine[Any],
    cones: HypoidGeometry,
    side: Side,
    angle: Num,
    torque: Num,
    pressed: Pressed | None,
) -> Iterator[tuple[str, Num]]:
    """Ratings of one load by the names of :data:`RATED`; without a contact only the method's."""
    flank, g = _flank(m, cones, side, angle), m.gears
    yield "load_factor_by_standard", face_load_factor(g.face_width, _mounting(m))
    yield from _by("method", m, flank, torque, g.load_factor)
    if pressed is None:
        return
    yield from told(pressed)
    uneven = peak_load.beyond_crowning(pressed.unevenness, CROWNING)
    yield from _by("contact", m, flank, torque, uneven)
    reached = peak_load.torque_at_pressure(torque, pressed.peak_pressure, g.peak_contact, 2.0)
    yield "pressure_margin", torque_margin(real_capacity(reached, g.one, g.keeps), torque)


def _mounting(m: Machine[Any]) -> float:
    return BOTH_STRADDLED if m.pinion.support == "straddle" else ONE_STRADDLED


def _flank(m: Machine[Any], c: HypoidGeometry, side: Side, angle: Num) -> FlankMethod:
    g = m.gears
    outer = teeth.pinion_outer_diameter(
        g.ring_diameter, g.ratio, c.pinion_mean_spiral, c.ring_mean_spiral
    )
    return FlankMethod(
        g.ring_teeth, g.ratio, g.face_width, teeth.outer_module(g.ring_diameter, g.ring_teeth),
        outer, bending_geometry(m, c),
        contact_geometry(m, c, angle, float(SIDES[side]), outer), g.contact_constant,
    )  # fmt: skip


def _by(
    way: str, m: Machine[Any], x: FlankMethod, torque: Num, uneven: Num
) -> Iterator[tuple[str, Num]]:
    """One way of rating, which is the method with its factor of uneven load."""
    for what, value in _ratings(m, x, torque, uneven):
        yield f"{what}_by_{way}", value


def _ratings(
    m: Machine[Any], x: FlankMethod, torque: Num, uneven: Num
) -> Iterator[tuple[str, Num]]:
    g = m.gears
    breaks = real_strength(g.peak_bending, g.overload_reserve, g.keeps)
    peak = peak_load.by_method(x, Allowed(g.peak_bending, g.peak_contact, breaks), uneven)
    lasting = Allowed(g.endurance_bending, g.endurance_contact, breaks)
    lasts = peak_load.by_method(x, lasting, uneven)
    bends, presses = (real_capacity(t, g.one, g.keeps) for t in (peak.bending, peak.pressure))
    yield "load_factor", uneven
    yield (
        "bending",
        rating.bending_stress(
            torque, g.one, rating.axle_size_factor(x.outer_module), uneven, g.one, x.face_width,
            x.outer_module, x.ring_teeth, x.bending_geometry,
        ),
    )  # fmt: skip
    yield "bending_margin", torque_margin(bends, torque)
    yield (
        "pitting",
        rating.contact_stress(
            x.contact_constant, torque, x.axle_ratio, g.one, uneven, g.one, g.one, x.face_width,
            x.pinion_outer_diameter, x.contact_geometry,
        ),
    )  # fmt: skip
    yield "pitting_margin", torque_margin(presses, torque)
    yield "snap", peak.fracture
    yield "snap_margin", torque_margin(peak.fracture, torque)
    yield (
        "long_life",
        least(
            "torque for a long life", "T_D", "torque", bending=lasts.bending,
            pitting=lasts.pressure,
        ),
    )  # fmt: skip
