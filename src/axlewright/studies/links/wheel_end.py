"""The wheel end: what bends and twists the shaft where it carries the wheel."""

from __future__ import annotations

from axlewright.build.machine import Machine
from axlewright.driveline import wheel_end_loads as loads
from axlewright.driveline.case_strength import endurance_strength
from axlewright.driveline.margins import stress_margin
from axlewright.driveline.shares import real_strength
from axlewright.mechanics import shafts
from axlewright.mechanics.combined import stress_either_way, von_mises
from axlewright.mechanics.hardness import tensile_strength_at, tensile_yield_at
from axlewright.mechanics.notches import notched_stress
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Demand, Loads
from axlewright.studies.links.limit import Endurance, Limit, Link


def _bending(m: Machine[Num], moment: Num) -> Num:
    return shafts.bending_stress(moment, m.shaft.seat_diameter, m.shaft.bore)


def _stresses(m: Machine[Num], d: Demand, case: Loads) -> tuple[Num, Num]:
    """Equivalent stress at the bearing seat in a case, plain and with the notch of the shoulder."""
    bending = _bending_stress(m, d, case)
    sharp = notched_stress(bending, m.wheel_end.flange_fillet)
    if not case.torques:
        return bending, sharp
    twist = shafts.torsion_shear(case.torques["shaft"], m.shaft.seat_diameter, m.shaft.bore)
    return von_mises(bending, twist), von_mises(sharp, twist)


def _bending_stress(m: Machine[Num], d: Demand, case: Loads) -> Num:
    """Bending stress at the bearing seat in a case."""
    lever = m.wheel_end.lever
    if case.case == "bump":
        return _bending(m, loads.vertical_moment(case.wheel_load, m.wheel_end.jolt_factor, lever))
    if case.case == "corner":
        outer = loads.outer_wheel_load(
            d.standing.rear_load, m.wheel_end.side_grip, m.car.cg_height, m.car.track
        )
        side = loads.side_force(outer, m.wheel_end.side_grip)
        moment = loads.outer_skid_moment(side, outer, d.standing.radius, lever)
        return stress_either_way(_bending(m, moment))
    return _bending(m, loads.drive_moment(case.wheel_load, case.wheel_thrust, lever))


def wheel_end(m: Machine[Num], d: Demand) -> Link:
    """A semi-floating wheel end; a full-floating one carries the wheel on its own hub."""
    end, steel = m.wheel_end, m.shaft.steel
    if end.floating == "full-floating":
        return Link("wheel_end", "Wheel end", "full-floating hub", (), None,
                    "a broken shaft leaves the wheel on",
                    "The hub carries the wheel; its bearings are not worked out.")  # fmt: skip
    hard = steel.surface_hardness
    gives = tensile_yield_at(hard) if hard is not None else steel.yield_strength
    breaks = tensile_strength_at(hard) if hard is not None else steel.tensile_strength
    both = {c.case: _stresses(m, d, c) for c in d.cases if c.case != "brake"}
    stresses = {case: plain for case, (plain, _) in both.items()}
    sharp = {case: notched for case, (_, notched) in both.items()}
    rolling = _bending(
        m, loads.vertical_moment(d.standing.wheel_load, end.endurance_jolt, end.lever)
    )
    forever = stress_margin(
        real_strength(endurance_strength(breaks, end.endurance_share), steel.strength_factor,
                      end.keeps),
        notched_stress(rolling, end.flange_fillet),
    )  # fmt: skip
    return Link(
        "wheel_end", "Wheel end", f"semi-floating, {end.retention} retained",
        (
            Limit("takes a set", "shaft bends at the bearing seat", "stress",
                  real_strength(gives, steel.strength_factor, end.keeps), stresses),
            Limit("breaks", "shaft breaks at the bearing shoulder", "stress",
                  real_strength(breaks, steel.strength_factor, end.keeps), sharp),
        ),
        Endurance("Margin against bending fatigue on the road", "ratio", forever),
        "the wheel leaves the car, flange and all",
        "The wheel bearing's own life is not worked out here.",
    )  # fmt: skip
