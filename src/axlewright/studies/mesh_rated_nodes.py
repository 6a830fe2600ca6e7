"""Working of ratings, heat and oil: the same formulas traced; a contact result enters as found."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.hypoid.geometry import HypoidGeometry, pitch_cones
from axlewright.hypoid.teeth import coast_pressure_angle, drive_pressure_angle
from axlewright.quantities.estimate import Filler
from axlewright.quantities.finding import Finding
from axlewright.quantities.formula import Num
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies.mesh_carries import oil_id
from axlewright.studies.mesh_heat import Rubbing, Warmth, heated, losses_of, warmth_of
from axlewright.studies.mesh_numbers import id_of
from axlewright.studies.mesh_pair import Side
from axlewright.studies.mesh_rating import Pressed, rated, told
from axlewright.studies.mesh_report import GearLoad

_SIDES: dict[str, Side] = {"drive": "drive", "coast": "coast"}
_CONTACT = "the loaded contact at the place where shafts, bearings and case let the gears go"


def rated_nodes(
    build: Resolved,
    filler: Filler,
    m: Machine[Any],
    loads: Sequence[GearLoad],
    traced: Mapping[str, Num],
) -> Iterator[tuple[str, Num]]:
    """Traced numbers by id, from torques ``traced`` before, with the filler of the machine."""
    warmth = warmth_of(build, filler, m)
    for name, value in warmth.oil.items():
        yield oil_id(name), value
    g = m.gears
    cones: HypoidGeometry = pitch_cones(
        g.pinion_teeth, g.ring_teeth, g.ring_diameter, g.face_width, g.offset, g.spiral_angle,
        g.cutter_radius, g.shaft_angle,
    )  # fmt: skip
    limit = cones.limit_pressure_angle
    angles = {
        "drive": drive_pressure_angle(g.pressure_angle, g.limit_share, limit),
        "coast": coast_pressure_angle(g.pressure_angle, g.limit_share, limit),
    }
    for load in loads:
        if load.rated:
            torque = traced[load.ring_torque.id]
            for what, value in _of(load, torque, m, cones, angles[load.side], warmth):
                yield id_of(load.name, what), value


def beyond_ranges(build: Resolved, loads: Sequence[GearLoad]) -> tuple[str, ...]:
    """In words, which formulas of the ratings leave their range at the nominal values."""
    filler = Nominal()
    with tracing() as traced:
        m: Machine[Any] = filler.tree(build.machine)
        torques = {load.ring_torque.id: _as_found(load.ring_torque) for load in loads}
        for _ in rated_nodes(build, filler, m, loads, torques):
            pass
    return tuple(dict.fromkeys(traced.outside.values()))


def _of(
    load: GearLoad, torque: Num, m: Machine[Any], cones: HypoidGeometry, angle: Num, warmth: Warmth
) -> Iterator[tuple[str, Num]]:
    pressed = _pressed(load)
    given = dict(told(pressed)) if pressed is not None else {}
    for what, value in rated(m, cones, _SIDES[load.side], angle, torque, pressed):
        if what not in given:
            yield what, value
    if pressed is not None:
        yield from heated(warmth, pressed.rubbing)
    if load.side == "drive":
        yield from losses_of(warmth, torque)


def _pressed(load: GearLoad) -> Pressed | None:
    """What the contact gave, as the report has it."""
    r = load.rated
    if "unevenness" not in r:
        return None
    return Pressed(
        unevenness=_as_found(r["unevenness"]),
        largest_share=_as_found(r["largest_share"]),
        peak_pressure=_as_found(load.contact["peak_pressure"]),
        rubbing=Rubbing(
            line_load=_as_found(r["carried_load"]),
            radius=_as_found(r["contact_radius"]),
            pinion_travel=_as_found(r["pinion_travel"]),
            ring_travel=_as_found(r["ring_travel"]),
            sliding_travel=_as_found(r["sliding_travel"]),
        ),
    )


def _as_found(finding: Finding) -> Traced:
    name = f"{finding.means}: {_CONTACT}"
    return Traced(Node("simulation", name, "", finding.dimension, finding.value, {}))
