"""Clutch, gearbox, universal joint and differential."""

from __future__ import annotations

from axlewright.build.machine import Machine
from axlewright.driveline.case_strength import differential_strength
from axlewright.driveline.shares import real_capacity
from axlewright.mechanics import joint_crosses
from axlewright.mechanics.hardness import tensile_strength_at, tensile_yield_at
from axlewright.mechanics.sizes import needle_middles
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Demand, input_torque
from axlewright.studies.links.limit import Link, at, torque_limit
from axlewright.studies.links.shafts import spline_root, torsion
from axlewright.vehicle.converter import turbine_torque


def coupling(m: Machine[Num], d: Demand) -> Link:
    """The clutch: it slips, and so guards everything behind it; or the automatic's clutches."""
    del d
    engine = {"steady": m.engine.torque}
    if m.clutch is not None:
        limit = torque_limit("slips", "clutch slips at full throttle", m.clutch.capacity, engine)
        return Link(
            "clutch",
            "Clutch",
            "dry clutch",
            (limit,),
            None,
            "slipping guards what is behind it and burns the clutch",
            "It has no breaking limit here: burst is a matter of rpm and scatter shields.",
        )
    assert m.converter is not None
    stalled = {"steady": turbine_torque(m.engine.torque, m.converter.torque_ratio)}
    limit = torque_limit("slips", "inner clutches slip", m.converter.band_capacity, stalled)
    return Link(
        "converter",
        "Automatic's clutches",
        "bands and clutches inside",
        (limit,),
        None,
        "slipping burns them quickly",
    )


def gearbox(m: Machine[Num], d: Demand) -> Link:
    """The gearbox, judged only against a rating that the builder trusts."""
    del d
    if m.gearbox.torque_rating is None:
        return Link(
            "gearbox",
            "Gearbox",
            f"{m.gearbox.kind} gearbox",
            (),
            None,
            "",
            "Not judged: state gearbox.torque_rating from a source that you trust.",
        )
    limit = torque_limit(
        "takes a set",
        "input torque above its rating",
        m.gearbox.torque_rating,
        {"steady": input_torque(m, min(2, len(m.gearbox.ratios)))},
    )
    return Link(
        "gearbox",
        "Gearbox",
        f"{m.gearbox.kind} gearbox",
        (limit,),
        None,
        "drive is lost; wheels can lock",
    )


def universal_joint(m: Machine[Num], d: Demand) -> Link:
    """Cross and caps of the harder loaded joint."""
    j = m.driveshaft.joint
    angle = m.driveshaft.joint_angle
    demands = at(d, "driveshaft")
    lever = needle_middles(j.cap_span, j.needle_length)
    shape = (lever, angle, j.needle_length, j.needle_gap, j.trunnion_diameter, j.trunnion_bore)
    set_at = joint_crosses.torque_at_trunnion_bending(tensile_yield_at(j.surface_hardness), *shape)
    breaks = joint_crosses.torque_at_trunnion_bending(
        tensile_strength_at(j.surface_hardness), *shape
    )
    rating = joint_crosses.needle_static_rating(
        j.needles, j.needle_diameter, j.needle_length, j.trunnion_diameter
    )
    brinells = joint_crosses.torque_at_cap_force(rating, lever, angle)
    return Link(
        "universal_joint",
        "Universal joint",
        f"{j.name} in",
        (
            torque_limit(
                "takes a set",
                "needles brinell the trunnion",
                real_capacity(brinells, j.strength_factor, j.keeps),
                demands,
            ),
            torque_limit(
                "takes a set",
                "trunnion bends",
                real_capacity(set_at, j.strength_factor, j.keeps),
                demands,
            ),
            torque_limit(
                "breaks",
                "trunnion breaks at its root",
                real_capacity(breaks, j.strength_factor, j.keeps),
                demands,
            ),
        ),
        None,
        "the driveshaft comes loose at one end: a loop must catch it",
        "Yoke ears, straps and bolts are not worked out.",
    )


def differential(m: Machine[Num], d: Demand) -> Link:
    """The differential by its class, set against the spline that fits it."""
    x = m.differential
    gives, breaks = torsion(m.shaft.steel, spline_root(m.shaft.spline), m.shaft.bore)
    del gives
    capacity = differential_strength(breaks, x.strength_share)
    limit = torque_limit(
        "breaks",
        "side gears or case break",
        real_capacity(capacity, m.gears.one, x.keeps),
        at(d, "shaft"),
    )
    return Link(
        "differential",
        "Differential",
        x.name,
        (limit,),
        None,
        "drive is lost; pieces can lock the axle",
        "Judged by class against its shaft spline, not by its own gears.",
    )
