"""The working behind the numbers of the gear study.

Torques, angles, tooth forces and rates of backlash are formulas and show themselves.  Movement,
load and pattern come out of a balance of shafts, rollers, seats and teeth, which is no formula:
their working shows what that balance was made with.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from axlewright.build.machine import Machine
from axlewright.build.meshing import BearingSize, Meshing
from axlewright.build.resolve import Resolved
from axlewright.hypoid import forces
from axlewright.hypoid.backlash import dial_lash, lash_per_pinion_move, lash_per_ring_move
from axlewright.hypoid.geometry import HypoidGeometry, pitch_cones
from axlewright.hypoid.teeth import coast_pressure_angle, drive_pressure_angle, tooth_ratio
from axlewright.quantities.finding import Finding
from axlewright.quantities.formula import Num
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies.mesh_loads import LoadName, load_set
from axlewright.studies.mesh_numbers import id_of
from axlewright.studies.mesh_pair import SIDES
from axlewright.studies.mesh_rated_nodes import rated_nodes
from axlewright.studies.mesh_report import GearLoad, MeshReport

_BALANCE = "shafts, rollers, seats and teeth in balance under this load, at the nominal values"
_UNLOADED = "flanks rolled on each other without load, as the shims have set the pair"


def mesh_nodes(build: Resolved, report: MeshReport) -> dict[str, Node]:
    """Working of every finding of a report, by id."""
    filler = Nominal()
    with tracing():
        m: Machine[Any] = filler.tree(build.machine)
        x: Meshing[Any] = filler.tree(build.meshing)
        traced = dict(_traced(m, x))
        traced |= dict(rated_nodes(build, filler, m, report.loads, traced))
    nodes = {name: value.node for name, value in traced.items() if isinstance(value, Traced)}
    for load in report.loads:
        nodes |= _balanced(load, nodes, m, x)
    for finding in (*report.facts.values(), *report.setting.values()):
        if finding.id not in nodes:
            nodes[finding.id] = _node(finding, _UNLOADED, _shape(m, x))
    return {name: node for name, node in nodes.items() if not name.startswith("force.")}


def findings_of(report: MeshReport) -> dict[str, Finding]:
    """Every finding of a report that may be asked for its working, by id."""
    plain = (*report.facts.values(), *report.setting.values(), *report.oil.values())
    found = {f.id: f for f in plain}
    for load in report.loads:
        found |= {f.id: f for f in _of_load(load)}
    return found


def _of_load(load: GearLoad) -> Iterator[Finding]:
    yield load.ring_torque
    yield load.pinion_torque
    for many in (load.moves, load.shares, load.pattern, load.contact, load.rated):
        yield from many.values()


def _traced(m: Machine[Any], x: Meshing[Any]) -> Iterator[tuple[str, Num]]:
    g = m.gears
    cones: HypoidGeometry = pitch_cones(
        g.pinion_teeth, g.ring_teeth, g.ring_diameter, g.face_width, g.offset,
        g.spiral_angle, g.cutter_radius, g.shaft_angle,
    )  # fmt: skip
    limit = cones.limit_pressure_angle
    angles = {
        "drive": drive_pressure_angle(g.pressure_angle, g.limit_share, limit),
        "coast": coast_pressure_angle(g.pressure_angle, g.limit_share, limit),
    }
    yield "gear_pair.pinion_spiral", cones.pinion_mean_spiral
    yield "gear_pair.ring_spiral", cones.ring_mean_spiral
    yield "gear_pair.drive_angle", angles["drive"]
    yield "gear_pair.coast_angle", angles["coast"]
    wedge = angles["drive"], angles["coast"]
    for gear, rate in (
        ("ring", lash_per_ring_move(*wedge, cones.ring_pitch_angle, cones.ring_mean_spiral)),
        ("pinion", lash_per_pinion_move(*wedge, cones.pinion_pitch_angle, cones.ring_mean_spiral)),
    ):
        at_heel = dial_lash(rate, g.ring_diameter, cones.ring_mean_radius)
        yield f"gear_pair.lash_per_{gear}_move", at_heel
    loads = load_set(m, x)
    for name in loads.names:
        yield from _of(name, loads.torques[name.name], m, cones, angles[name.side])


def _of(
    name: LoadName, ring: Num, m: Machine[Any], cones: HypoidGeometry, angle: Num
) -> Iterator[tuple[str, Num]]:
    """Torques and the textbook's tooth forces of one load."""
    pinion = forces.pinion_torque(ring, tooth_ratio(m.gears.pinion_teeth, m.gears.ring_teeth))
    yield id_of(name.name, "ring_torque"), ring
    yield id_of(name.name, "pinion_torque"), pinion
    tangential = forces.pinion_tangential_force(
        forces.ring_tangential_force(ring, cones.ring_mean_radius),
        cones.pinion_mean_spiral,
        cones.ring_mean_spiral,
    )
    of_flank = (cones.pinion_mean_spiral, cones.pinion_pitch_angle, float(SIDES[name.side]))
    yield f"force.{name.name}.thrust", forces.pinion_axial_force(tangential, angle, *of_flank)
    yield f"force.{name.name}.parting", forces.pinion_radial_force(tangential, angle, *of_flank)


def _balanced(
    load: GearLoad, nodes: Mapping[str, Node], m: Machine[Any], x: Meshing[Any]
) -> dict[str, Node]:
    """What the balance under a load gave; its arguments are what it was made with."""
    arguments: dict[str, Node | Any] = {
        "torque at the ring gear": nodes.get(load.ring_torque.id, load.ring_torque.value),
        "thrust on the pinion, textbook": nodes[f"force.{load.name}.thrust"],
        "force that parts the gears, textbook": nodes[f"force.{load.name}.parting"],
        **_shape(m, x),
        **_held(m, x),
    }
    return {
        f.id: _node(f, _BALANCE, arguments) for f in _of_load(load) if f.id not in nodes
    }  # fmt: skip


def _shape(m: Machine[Any], x: Meshing[Any]) -> dict[str, Node | Any]:
    p, s = x.pattern, x.setting
    return _nodes(
        {
            "ring diameter": m.gears.ring_diameter,
            "face width": m.gears.face_width,
            "offset": m.gears.offset,
            "length of the stated pattern": p.length,
            "place of the stated pattern": p.place,
            "height of the stated pattern": p.height,
            "profile crowning": p.profile_crown,
            "backlash": s.backlash,
            "pinion shim": s.pinion_shim,
            "ring shim": s.ring_shim,
            "depth error": s.depth_error,
        }
    )


def _held(m: Machine[Any], x: Meshing[Any]) -> dict[str, Node | Any]:
    h, iron = x.holding, x.iron
    bearings: dict[str, BearingSize[Any]] = {
        "head bearing": h.head, "tail bearing": h.tail, "carrier bearing": h.carrier
    }  # fmt: skip
    sizes = {
        f"{what} of the {name}": getattr(size, what)
        for name, size in bearings.items()
        for what in ("bore", "outside")
    }
    return _nodes(
        {
            "overhang of the pinion": h.overhang,
            "span of the pinion's bearings": h.span,
            "pinion stem": m.pinion.stem_diameter,
            **sizes,
            "preload of the pinion's bearings": h.pinion_preload,
            "preload of the carrier bearings": h.carrier_preload,
            "stiffness of the seats over what is assumed": iron.stiffness,
            "modulus of the case": iron.modulus,
        }
    )


def _nodes(values: Mapping[str, Any]) -> dict[str, Node | Any]:
    return {name: v.node if isinstance(v, Traced) else v for name, v in values.items()}


def _node(finding: Finding, how: str, arguments: dict[str, Node | Any]) -> Node:
    name = f"{finding.means}: {how}"
    return Node("simulation", name, "", finding.dimension, finding.value, arguments)
