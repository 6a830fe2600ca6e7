"""The reaction path: case, caps, tube joints, tubes and brackets."""

from __future__ import annotations

from typing import NamedTuple

from axlewright.build.machine import Machine
from axlewright.driveline import case_loads, case_strength, housing_loads
from axlewright.driveline.shares import (
    real_capacity,
    real_strength,
    torque_at_force,
    torque_at_usage,
)
from axlewright.driveline.wheel_end_loads import outer_wheel_load, side_force
from axlewright.mechanics import bolts, brittle, iron, press_fits, tubes, welds
from axlewright.mechanics.beams import resultant_moment
from axlewright.mechanics.combined import stress_either_way, von_mises
from axlewright.mechanics.sizes import bore_of_tube, scaled_length
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Demand, Loads
from axlewright.studies.links.gears import Mesh, stress_area
from axlewright.studies.links.limit import Limit, Link, at, torque_limit


def _near_bearing(m: Machine[Num], x: Mesh) -> tuple[Num, Num]:
    """Rearward and radial load of the carrier bearing behind the ring, at the mesh's torque."""
    back = case_loads.ring_rearward_force(
        x.ring_tangential, x.ring_radial, x.cones.mesh_angle, m.gears.drive
    )
    down = case_loads.ring_downward_force(
        x.ring_tangential, x.ring_radial, x.cones.mesh_angle, m.gears.drive
    )
    arm = scaled_length(m.case.bearing_span, m.case.ring_side_share)
    shape = (x.ring_axial, x.cones.ring_mean_radius, x.cones.mesh_angle, arm, m.case.bearing_span)
    rearward = case_loads.near_rearward_force(back, *shape)
    downward = case_loads.near_downward_force(down, *shape)
    return rearward, case_loads.carrier_radial_load(rearward, downward)


def case(m: Machine[Num], d: Demand, x: Mesh) -> Link:
    """The case web behind the ring-side bearing: gray iron by fracture, nodular by yield."""
    c = m.case
    _, radial = _near_bearing(m, x)
    tension = case_strength.web_bending_stress(
        x.ring_axial,
        c.web_height,
        c.cap_bolt_spacing,
        c.web_thickness,
        c.web_support,
        c.casting_notch,
    )
    pressing = case_strength.web_pressing_stress(radial, c.cap_bolt_spacing, c.web_thickness)
    gives, cracks = _iron_usage(m, tension, pressing)
    demands = at(d, "ring")
    limits = (
        torque_limit(
            "takes a set",
            "case web yields (nodular) or cracks (gray)",
            torque_at_usage(x.torque, gives),
            demands,
        ),
        torque_limit(
            "breaks",
            "case web cracks",
            torque_at_usage(x.torque, cracks),
            demands,
        ),
    )
    return Link(
        "case",
        "Axle case",
        f"{c.iron}, {c.carrier}",
        limits,
        None,
        "gears lose their place, then break",
        "A crude plate model: it ranks irons and sizes. Iron changes fracture and cap"
        " distress far more than stiffness.",
    )


def _iron_usage(m: Machine[Num], greater: Num, lesser: Num) -> tuple[Num, Num]:
    """Usage of the case iron before it gives and before it breaks, by the criterion that fits."""
    c = m.case
    tensile = real_strength(c.tensile_strength, c.strength_factor, c.keeps)
    compressive = real_strength(c.compressive_strength, c.strength_factor, c.keeps)
    yielding = real_strength(c.yield_strength, c.strength_factor, c.keeps)
    by_fracture = brittle.modified_mohr_usage(greater, lesser, tensile, compressive)
    to_yield = brittle.distortion_energy_usage(greater, lesser, yielding)
    to_break = brittle.distortion_energy_usage(greater, lesser, tensile)
    return (
        case_strength.usage_by_iron(c.brittle, by_fracture, to_yield),
        case_strength.usage_by_iron(c.brittle, by_fracture, to_break),
    )


def caps(m: Machine[Num], d: Demand, x: Mesh) -> Link:
    """The bearing cap on the ring side and its bolts."""
    c, b = m.case, m.case.cap_bolts
    rearward, _ = _near_bearing(m, x)
    pull = case_loads.bearing_cap_load(rearward)
    preload = bolts.preload_from_torque(b.tightening_torque, b.nut_factor, b.diameter)
    gap = bolts.separation_load(b.count, preload, c.joint_share)
    strength = bolts.bolt_pull_strength(b.count, b.tensile_strength, stress_area(b))
    bridge = iron.bridge_bending_stress(
        iron.clamped_bridge_moment(pull, c.cap_bolt_spacing, c.cap_bore),
        c.cap_width,
        c.cap_thickness,
    )
    stretch = iron.bridge_stretch_stress(pull, c.cap_width, c.cap_thickness)
    tension = iron.cap_stress(bridge, stretch, c.cap_bridge_share)
    _, cracks = _iron_usage(m, tension, c.no_stress)
    demands = at(d, "ring")

    def kept(capacity: Num) -> Num:
        return real_capacity(capacity, m.gears.one, c.caps_keep)

    lifts = kept(torque_at_force(x.torque, gap, pull))
    bolts_break = kept(torque_at_force(x.torque, strength, pull))
    cap_cracks = kept(torque_at_usage(x.torque, cracks))
    return Link(
        "caps",
        "Bearing caps",
        f"{c.iron} cap, two {b.size} bolts",
        (
            torque_limit("slips", "cap lifts off the case", lifts, demands),
            torque_limit("breaks", "cap bolts break", bolts_break, demands),
            torque_limit("breaks", "cap cracks across", cap_cracks, demands),
        ),
        None,
        "the differential comes out of its bearings and breaks the gears",
        "The cap is judged by a crude model; steel caps are stronger.",
    )


def reactions(m: Machine[Num], d: Demand) -> tuple[Link, Link, Link]:
    """Tube in centre, tubes and brackets: by the real links, or by what is usual for their kind."""
    loaded = _by_share(m, d) if m.housing.held is None else _by_links(m, d)
    return tube_joint(m, loaded), tube(m, loaded), brackets(m, loaded)


class Loaded(NamedTuple):
    """Torque where a tube enters the centre, stress in a tube, torque on a bracket's welds."""

    twists: dict[str, Num]
    stresses: dict[str, Num]
    welds: dict[str, Num]
    note: str = ""


def _by_links(m: Machine[Num], d: Demand) -> Loaded:
    """From the forces of the links at the places that were measured."""
    from axlewright.studies.links import held, held_housing  # noqa: PLC0415 (few builds have points)

    assert m.housing.held is not None
    x = held.Holding(m, d, m.housing.held)
    return Loaded(
        held_housing.tube_twists(x),
        held_housing.tube_stresses(x),
        held_housing.weld_torques(x),
        held_housing.note(x),
    )


def _by_share(m: Machine[Num], d: Demand) -> Loaded:
    """Each tube takes the share of the ring gear's torque that is usual for the suspension."""
    twists = {
        case: housing_loads.launch_tube_torque(t, m.housing.reaction_share)
        for case, t in at(d, "ring").items()
    }
    return Loaded(twists, {c.case: _tube_stress(m, d, c) for c in d.cases}, twists)


def tube_joint(m: Machine[Num], loaded: Loaded) -> Link:
    """Tube in centre under the reaction torque."""
    h = m.housing
    pressure = press_fits.contact_pressure(
        h.press,
        h.tube_diameter,
        h.hub_diameter,
        bore_of_tube(h.tube_diameter, h.tube_wall),
        h.centre_modulus,
        h.tube_modulus,
        h.hub_poisson,
        h.tube_poisson,
    )
    pressed = press_fits.fit_slip_torque(pressure, h.tube_diameter, h.depth, h.press_friction)
    plugs = welds.plug_torque(h.weld_strength, h.plug_count, h.plug_diameter, h.tube_diameter)
    ring = welds.round_fillet_torque(h.weld_strength, h.round_weld_leg, h.tube_diameter)
    none = m.use.rest
    held = {"pressed": (none, none), "plug-welded": (plugs, none), "welded": (plugs, ring)}[h.joint]
    demands = loaded.twists
    whole = case_strength.joint_torque(pressed, *held)
    slips = torque_limit(
        "slips",
        "press fit slips; plugs carry alone",
        real_capacity(pressed, m.gears.one, h.joint_keeps),
        demands,
    )
    breaks = torque_limit(
        "breaks",
        "tube turns in the centre",
        real_capacity(whole, m.gears.one, h.joint_keeps),
        demands,
    )
    return Link(
        "tube_joint",
        "Tube in centre",
        h.joint,
        (breaks,) if h.joint == "welded" else (slips, breaks),
        None,
        "pinion angle runs away, brake lines and driveshaft go with it",
        loaded.note,
    )


def _tube_stress(m: Machine[Num], d: Demand, load: Loads) -> Num:
    """Equivalent stress in a tube at the spring seat."""
    h, end = m.housing, m.wheel_end
    section = tubes.tube_section_modulus(h.tube_diameter, h.tube_wall)
    polar = tubes.tube_polar_moment(h.tube_diameter, h.tube_wall)
    radius = d.standing.radius
    if load.case == "bump":
        moment = housing_loads.seat_vertical_moment(load.wheel_load, end.jolt_factor, h.seat_inset)
        return tubes.bending_stress(moment, section)
    if load.case == "corner":
        outer = outer_wheel_load(d.standing.rear_load, end.side_grip, m.car.cg_height, m.car.track)
        moment = housing_loads.skid_outer_moment(
            outer, side_force(outer, end.side_grip), radius, h.seat_inset
        )
        return stress_either_way(tubes.bending_stress(moment, section))
    if load.case == "brake":
        thrust = case_strength.braking_thrust(d.standing.weight, end.brake_grip, end.brake_share)
        twist = housing_loads.brake_tube_torque(thrust, radius)
    else:
        thrust = load.wheel_thrust
        twist = housing_loads.launch_tube_torque(load.torques["ring"], h.reaction_share)
    moment = resultant_moment(
        housing_loads.seat_vertical_moment(load.wheel_load, m.gears.one, h.seat_inset),
        housing_loads.seat_fore_aft_moment(thrust, h.seat_inset),
    )
    return von_mises(
        tubes.bending_stress(moment, section), tubes.torsion_stress(twist, h.tube_diameter, polar)
    )


def tube(m: Machine[Num], loaded: Loaded) -> Link:
    """The axle tube at the spring seat, or where its links stress it most."""
    h, stresses = m.housing, loaded.stresses

    def strength(of: Num) -> Num:
        return real_strength(of, h.steel.strength_factor, h.steel.keeps)

    return Link(
        "tube",
        "Axle tubes",
        f"tube of {h.steel.name}",
        (
            Limit(
                "takes a set",
                "tube bends at the seat",
                "stress",
                strength(h.steel.yield_strength),
                stresses,
            ),
            Limit(
                "breaks",
                "tube breaks at the seat",
                "stress",
                strength(h.steel.tensile_strength),
                stresses,
            ),
        ),
        None,
        "toe and camber run off; seals leak, splines wear",
        _said(
            "A plain tube: a truss or back brace makes it stiffer and is not worked out.", loaded
        ),
    )


def _said(note: str, loaded: Loaded) -> str:
    return f"{note} {loaded.note}".rstrip()


def brackets(m: Machine[Num], loaded: Loaded) -> Link:
    """Bracket or perch welds that react the tube's torque."""
    h = m.housing
    tears = welds.perch_weld_torque(h.weld_strength, h.weld_leg, h.bracket_weld, h.tube_diameter)
    strength = real_capacity(tears, m.gears.one, h.bracket_keeps)
    return Link(
        "brackets",
        "Bracket welds",
        "fillet welds on both sides of a bracket",
        (torque_limit("breaks", "bracket weld tears", strength, loaded.welds),),
        None,
        "the axle turns under the car",
        _said("Bending of the bracket itself is not worked out.", loaded),
    )
