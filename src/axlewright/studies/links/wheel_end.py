"""The wheel end: what bends and twists the shaft where it carries the wheel."""

from __future__ import annotations

from dataclasses import replace

from axlewright.build.machine import Machine, Steel
from axlewright.driveline import wheel_end_loads as loads
from axlewright.driveline.case_strength import endurance_strength
from axlewright.driveline.margins import stress_margin
from axlewright.driveline.shares import real_rating, real_strength
from axlewright.mechanics import shafts
from axlewright.mechanics.beams import overhung_near_reaction
from axlewright.mechanics.combined import stress_either_way, torque_alike
from axlewright.mechanics.hardness import tensile_strength_at
from axlewright.mechanics.notches import notched_moment, notched_stress
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Demand, Loads
from axlewright.studies.links.limit import Endurance, Limit, Link, torque_limit
from axlewright.studies.links.shafts import torsion


def _bending(m: Machine[Num], moment: Num) -> Num:
    return shafts.bending_stress(moment, m.shaft.seat_diameter, m.shaft.bore)


def _moment(m: Machine[Num], d: Demand, case: Loads) -> Num:
    """Bending moment at the bearing seat in a case."""
    lever = m.wheel_end.lever
    if case.case == "bump":
        return loads.vertical_moment(case.wheel_load, m.wheel_end.jolt_factor, lever)
    if case.case == "corner":
        outer = loads.outer_wheel_load(
            d.standing.rear_load, m.wheel_end.side_grip, m.car.cg_height, m.car.track
        )
        side = loads.side_force(outer, m.wheel_end.side_grip)
        return loads.outer_skid_moment(side, outer, d.standing.radius, lever)
    return loads.drive_moment(case.wheel_load, case.wheel_thrust, lever)


def _alike(m: Machine[Num], d: Demand, case: Loads) -> tuple[Num, Num]:
    """Torque that would do as much as torque and bending together; plain, and with the notch."""
    moment = _moment(m, d, case)
    torque = case.torques.get("shaft", m.use.rest)
    sharp = notched_moment(moment, m.wheel_end.flange_fillet)
    return torque_alike(torque, moment), torque_alike(torque, sharp)


def wheel_end(m: Machine[Num], d: Demand) -> Link:
    """A semi-floating wheel end; a full-floating one carries the wheel on its own hub."""
    end = m.wheel_end
    if end.floating == "full-floating":
        return Link(
            "wheel_end",
            "Wheel end",
            "full-floating hub",
            (),
            None,
            "a broken shaft leaves the wheel on",
            "The hub carries the wheel; its bearings are not worked out.",
        )
    steel = replace(m.shaft.steel, keeps=end.keeps)
    gives, breaks = torsion(steel, m.shaft.seat_diameter, m.shaft.bore)
    both = {c.case: _alike(m, d, c) for c in d.cases if c.case != "brake"}
    plain = {case: alike for case, (alike, _) in both.items()}
    sharp = {case: alike for case, (_, alike) in both.items()}
    return Link(
        "wheel_end",
        "Wheel end",
        f"semi-floating, {end.retention} retained",
        (
            torque_limit("takes a set", "shaft bends and twists at the bearing seat", gives, plain),
            torque_limit("breaks", "shaft breaks at the bearing shoulder", breaks, sharp),
            *_bearing(m, d),
        ),
        Endurance("Margin against bending fatigue on the road", "ratio", _forever(m, d, steel)),
        "the wheel leaves the car, flange and all",
        "Bending counts as torque that would do the same."
        + ("" if end.bearing else " Name axle.wheel_bearing to have it judged."),
    )


def _bearing(m: Machine[Num], d: Demand) -> tuple[Limit, ...]:
    """Static load of the wheel bearing in a bump and in a slide, if the build names it."""
    end = m.wheel_end
    if end.bearing_rating is None:
        return ()
    span = m.shaft.length
    loaded: dict[str, Num] = {}
    for case in d.cases:
        if case.case == "bump":
            jolt = loads.jolted_load(case.wheel_load, end.jolt_factor)
            loaded["bump"] = overhung_near_reaction(jolt, end.lever, span)
        if case.case == "corner":
            outer = loads.outer_wheel_load(
                d.standing.rear_load, end.side_grip, m.car.cg_height, m.car.track
            )
            loaded["corner"] = loads.wheel_bearing_in_skid(outer, _moment(m, d, case), span)
    rating = real_rating(end.bearing_rating, end.bearing_keeps)
    return (Limit("takes a set", "wheel bearing brinells", "force", rating, loaded),)


def _forever(m: Machine[Num], d: Demand, steel: Steel[Num]) -> Num:
    """Margin of the turning shaft against bending fatigue under the load that is always there."""
    end = m.wheel_end
    hard = steel.surface_hardness
    tensile = tensile_strength_at(hard) if hard is not None else steel.tensile_strength
    rolling = loads.vertical_moment(d.standing.wheel_load, end.endurance_jolt, end.lever)
    return stress_margin(
        real_strength(
            endurance_strength(tensile, end.endurance_share), steel.strength_factor, end.keeps
        ),
        notched_stress(stress_either_way(_bending(m, rolling)), end.flange_fillet),
    )
