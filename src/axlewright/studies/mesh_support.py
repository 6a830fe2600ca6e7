"""From the machine to shafts, bearings and case that hold the gear pair, and their options."""

from __future__ import annotations

from dataclasses import dataclass, replace

from axlewright.build.machine import Machine
from axlewright.build.meshing import BearingSize, Meshing
from axlewright.hypoid.setting import stiffened
from axlewright.hypoid.support import case, layout
from axlewright.hypoid.support.equilibrium import Housed, house
from axlewright.hypoid.support.system import Seat, System
from axlewright.studies.mesh_pair import Blank


@dataclass(frozen=True)
class Held:
    """How a pair is held: what a builder could change about it, the rest as the machine has it."""

    form: str
    modulus: float
    straddle: bool
    billet_caps: bool
    loaded_cover: bool

    def changed(self, **changes: object) -> Held:
        """The same with something changed."""
        return replace(self, **changes)  # type: ignore[arg-type]


def held_as(m: Machine[float], x: Meshing[float]) -> Held:
    """How the machine's pair is held."""
    i = x.iron
    return Held(i.form, i.modulus, m.pinion.support == "straddle", i.billet_caps, i.loaded_cover)


def housed(blank: Blank, m: Machine[float], x: Meshing[float], held: Held | None = None) -> Housed:
    """Support of the pair with its preload set; raises ``ValueError`` or ``NoRestError``."""
    how = held or held_as(m, x)
    design = case.with_caps(
        stiffened(case.CLASSES[how.form], x.iron.stiffness), how.billet_caps, how.loaded_cover
    )
    metal = replace(case.METALS["gray"], youngs_modulus=how.modulus)
    typical = layout.support(blank.mesh, _sizes(m, x, how.straddle), design, metal)
    return house(_with_known_rollers(typical, x))


def _sizes(m: Machine[float], x: Meshing[float], straddle: bool) -> layout.Sizes:
    h = x.holding
    pilot = layout.Pilot(
        h.pilot.bore, h.pilot.outside, h.pilot.width, h.pilot_clearance, h.pilot_ahead
    )
    return layout.Sizes(
        overhang=h.overhang,
        span=h.span,
        stem=m.pinion.stem_diameter,
        head=_bearing(h.head),
        tail=_bearing(h.tail),
        carrier=_bearing(h.carrier),
        carrier_span=m.case.bearing_span,
        ring_side_share=m.case.ring_side_share,
        flange_thickness=h.flange_thickness,
        pinion_preload=h.pinion_preload,
        carrier_preload=h.carrier_preload,
        pilot=pilot if straddle else None,
    )


def _with_known_rollers(typical: System, x: Meshing[float]) -> System:
    """The same with rating and rollers of the bearings of which they are known."""
    h = x.holding
    known = {
        "head bearing": h.head,
        "tail bearing": h.tail,
        "ring side bearing": h.carrier,
        "far side bearing": h.carrier,
    }
    if all(size.rating is None for size in known.values()):
        return typical
    pinion, ring = (
        replace(line, seats=tuple(_seat(seat, known.get(seat.name)) for seat in line.seats))
        for line in (typical.pinion, typical.ring)
    )
    return System(typical.mesh, pinion, ring)


def _seat(seat: Seat, size: BearingSize[float] | None) -> Seat:
    if size is None or size.rating is None:
        return seat
    r = seat.roller
    measured = replace(
        r,
        rating=size.rating,
        count=r.count if size.rollers is None else round(size.rollers),
        diameter=r.diameter if size.roller_diameter is None else size.roller_diameter,
        length=r.length if size.roller_length is None else size.roller_length,
    )
    return replace(seat, roller=measured)


def _bearing(size: BearingSize[float]) -> layout.BearingSize:
    return layout.BearingSize(size.bore, size.outside, size.width, size.contact_angle)
