"""The hypoid gear set by the axle designers' torque method, and the bolts that hold the ring."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.build.machine import BoltGroup, Machine
from axlewright.driveline.margins import torque_margin
from axlewright.driveline.shares import real_capacity
from axlewright.hypoid import forces, geometry_factors, rating, teeth
from axlewright.hypoid.geometry import HypoidGeometry, pitch_cones
from axlewright.mechanics import bolt_circles, bolts
from axlewright.quantities.formula import Num, least
from axlewright.studies.demand import Demand
from axlewright.studies.links.limit import Endurance, Limit, Link, at, torque_limit
from axlewright.vehicle.hill import hill_torque


@dataclass(frozen=True)
class Mesh:
    """The pair's geometry and the forces in it at the steady ring torque."""

    cones: HypoidGeometry
    flank: Num
    torque: Num
    ring_tangential: Num
    ring_axial: Num
    ring_radial: Num
    pinion_tangential: Num


def mesh(m: Machine[Num], d: Demand) -> Mesh:
    """Work out geometry and drive-side forces."""
    g = m.gears
    cones = pitch_cones(
        g.pinion_teeth,
        g.ring_teeth,
        g.ring_diameter,
        g.face_width,
        g.offset,
        g.spiral_angle,
        g.cutter_radius,
        g.shaft_angle,
    )
    flank = teeth.drive_pressure_angle(g.pressure_angle, g.limit_share, cones.limit_pressure_angle)
    torque = d.cases[0].torques["ring"]
    tangential = forces.ring_tangential_force(torque, cones.ring_mean_radius)
    shape = (flank, cones.ring_mean_spiral, cones.ring_pitch_angle, g.drive)
    return Mesh(
        cones,
        flank,
        torque,
        tangential,
        forces.ring_axial_force(tangential, *shape),
        forces.ring_radial_force(tangential, *shape),
        forces.pinion_tangential_force(
            tangential, cones.pinion_mean_spiral, cones.ring_mean_spiral
        ),
    )


def bending_geometry(m: Machine[Num], c: HypoidGeometry) -> Num:
    """The smaller bending geometry factor of pinion and ring."""
    g = m.gears
    module = teeth.mean_normal_module(c.ring_mean_radius, c.ring_mean_spiral, g.ring_teeth)
    overlap = teeth.face_overlap(g.face_width, c.ring_mean_spiral, module)
    sharing = geometry_factors.load_share_factor(g.profile_contact_ratio, overlap)
    members = {
        "pinion": (g.pinion_teeth, c.pinion_pitch_angle, c.pinion_mean_spiral),
        "ring": (g.ring_teeth, c.ring_pitch_angle, c.ring_mean_spiral),
    }
    factors = {
        name: geometry_factors.bending_geometry_estimate(
            c.ring_mean_spiral,
            c.ring_mean_radius,
            g.ring_diameter,
            geometry_factors.tooth_form_product(teeth.virtual_teeth(*member)),
            sharing,
        )
        for name, member in members.items()
    }
    return least("bending geometry factor", "J", "ratio", **factors)


def contact_geometry(
    m: Machine[Num], c: HypoidGeometry, flank: Num, side: Num, pinion_outer: Num
) -> Num:
    """Contact geometry factor of the pair on a flank of that pressure angle, drive +1, coast -1."""
    rolls = teeth.effective_pressure_angle(flank, c.limit_pressure_angle, side)
    pinion = geometry_factors.profile_radius(
        c.pinion_mean_radius, c.pinion_pitch_angle, c.pinion_mean_spiral, rolls
    )
    ring = geometry_factors.profile_radius(
        c.ring_mean_radius, c.ring_pitch_angle, c.ring_mean_spiral, rolls
    )
    return geometry_factors.contact_geometry_estimate(
        geometry_factors.relative_radius(pinion, ring),
        c.pinion_mean_radius,
        pinion_outer,
        c.pinion_mean_spiral,
        c.ring_mean_spiral,
        flank,
        m.gears.contact_length_ratio,
    )


def gear_set(m: Machine[Num], d: Demand, x: Mesh) -> Link:
    """Root bending and flank pressure of ring and pinion."""
    g = m.gears
    module = teeth.outer_module(g.ring_diameter, g.ring_teeth)
    geometry = bending_geometry(m, x.cones)
    bend = (
        g.one,
        rating.axle_size_factor(module),
        g.load_factor,
        g.one,
        g.face_width,
        module,
        g.ring_teeth,
        geometry,
    )
    pinion_outer = teeth.pinion_outer_diameter(
        g.ring_diameter, g.ratio, x.cones.pinion_mean_spiral, x.cones.ring_mean_spiral
    )
    contact = (
        g.contact_constant,
        g.ratio,
        g.one,
        g.load_factor,
        g.one,
        g.one,
        g.face_width,
        pinion_outer,
        contact_geometry(m, x.cones, x.flank, g.drive, pinion_outer),
    )
    peak = rating.bending_torque(g.peak_bending, *bend)
    snap = real_capacity(peak, g.overload_reserve, g.keeps)
    crush = real_capacity(rating.contact_torque(g.peak_contact, *contact), g.one, g.keeps)
    long_life = least(
        "torque for a long life",
        "T_D",
        "torque",
        bending=rating.bending_torque(g.endurance_bending, *bend),
        pitting=rating.contact_torque(g.endurance_contact, *contact),
    )
    hill = hill_torque(m.car.mass, m.use.trailer, m.use.grade, m.use.rolling, d.standing.radius)
    demands = at(d, "ring")
    limits: tuple[Limit, ...] = (
        torque_limit("breaks", "a tooth snaps at its root", snap, demands),
        torque_limit(
            "endures",
            "root stress above the design peak",
            real_capacity(peak, g.one, g.keeps),
            demands,
        ),
        torque_limit("endures", "flank pressure above the design peak", crush, demands),
    )
    return Link(
        "gear_set",
        "Ring and pinion",
        f"{g.name} in class",
        limits,
        Endurance(
            "Torque for a long life over that of a long hill",
            "ratio",
            torque_margin(long_life, hill),
        ),
        "a broken tooth can lock the axle",
    )


def _preload(group: BoltGroup[Num]) -> Num:
    return bolts.preload_from_torque(group.tightening_torque, group.nut_factor, group.diameter)


def stress_area(group: BoltGroup[Num]) -> Num:
    """Tensile stress area of a thread; the inch form serves both within half a percent."""
    return bolts.stress_area_inch(group.diameter, group.threads)


def _bolted(group: BoltGroup[Num], demands: dict[str, Num], what: str) -> tuple[Limit, ...]:
    """Friction slip and shear of bolts on a circle."""
    slip = bolt_circles.circle_slip_torque(
        group.count, group.friction, _preload(group), group.circle
    )
    shear = bolt_circles.circle_shear_torque(
        group.count,
        stress_area(group),
        bolts.steel_bolt_shear_strength(group.tensile_strength),
        group.circle,
    )
    return (
        torque_limit("slips", f"{what} slip on their faces", slip, demands),
        torque_limit("breaks", f"{what} shear", shear, demands),
    )


def ring_bolts(m: Machine[Num], d: Demand) -> Link:
    """Ring-gear bolts."""
    b = m.ring_bolts
    slips, breaks = _bolted(b, at(d, "ring"), "ring-gear bolts")
    if m.ring_dowels is not None:
        pins = m.ring_dowels
        shear = bolt_circles.dowel_shear_torque(
            pins.count,
            pins.diameter,
            bolts.steel_bolt_shear_strength(pins.tensile_strength),
            pins.circle,
        )
        both = bolt_circles.doweled_shear_torque(breaks.capacity, shear)
        breaks = torque_limit("breaks", "bolts and dowels shear", both, breaks.demands)
    kept = torque_limit(
        "breaks", breaks.mode, real_capacity(breaks.capacity, m.gears.one, b.keeps), breaks.demands
    )
    return Link(
        "ring_bolts",
        "Ring-gear bolts",
        f"{b.size}",
        (slips, kept),
        None,
        "the ring gear comes loose and locks the axle",
        "A joint that slips frets and loosens; it does not break at once.",
    )


def studs(m: Machine[Num], d: Demand) -> Link:
    """Wheel studs of the harder loaded wheel."""
    b = m.studs
    slips, breaks = _bolted(b, at(d, "shaft"), "wheel studs")
    kept = torque_limit(
        "breaks", breaks.mode, real_capacity(breaks.capacity, m.gears.one, b.keeps), breaks.demands
    )
    return Link(
        "studs",
        "Wheel studs",
        f"{b.size}",
        (slips, kept),
        None,
        "the wheel leaves the car",
        "A wheel that slips on its studs works them loose: re-torque.",
    )
