"""The driveshaft itself: how fast it turns, where it whirls, its balance, which tube would do."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.catalogue import rows
from axlewright.catalogue.load import row, rows_of
from axlewright.driveline.joint_fit import YokeEars, joint_wanted
from axlewright.driveline.margins import torque_margin
from axlewright.driveline.tube_choice import Tube, TubeMargins, bare_tube_mass, rank_tubes
from axlewright.mechanics import (
    joint_crosses,
    joint_motion,
    universal_joints,
    whirl,
    whirl_ends,
)
from axlewright.mechanics.hardness import shear_yield_by_distortion_energy
from axlewright.mechanics.needle_pitch import needle_pitch_diameter
from axlewright.mechanics.sizes import bore_of_tube, needle_middles, scaled_length
from axlewright.mechanics.tapered_bearings import dynamic_rating, rating_geometry_factor
from axlewright.mechanics.tubes import tube_area, tube_second_moment
from axlewright.quantities.formula import Num, greatest
from axlewright.studies.angles_fill import Filled, Number, Numbers
from axlewright.studies.angles_moves import State
from axlewright.vehicle.gearing import driveshaft_speed, driveshaft_speed_on_road
from axlewright.vehicle.grip import driveshaft_torque, ring_torque
from axlewright.vehicle.road_load import road_load
from axlewright.vehicle.tire import road_speed

_STEEL, _ALUMINUM = "CREW 1010 ERW", "aluminum 6061-T6"
_STEEL_STUFF, _ALUMINUM_STUFF = (205e9, 7850.0), (69e9, 2700.0)
"""Young's modulus and density, as the build file takes them: handbook values."""


@dataclass(frozen=True)
class TubeChoice:
    """A tube of the catalogue, or the one that is fitted, with what it would give."""

    name: str
    fitted: bool
    margins: TubeMargins


def top_shaft_speed(x: Filled) -> Num:
    """Driveshaft at the rev limit in direct gear, as the load path has it."""
    m = x.machine
    gear = greatest("gear in which the rev limit is reached", "i_g", "ratio",
                    top=m.gearbox.ratios[-1], direct=m.gears.one)  # fmt: skip
    return driveshaft_speed(m.engine.rev_limit, gear)


def hardest_torque(x: Filled) -> Num:
    """The greatest torque that reaches the driveshaft in any case of the load path."""
    return greatest("greatest driveshaft torque", "T_d", "torque", **x.demand.places["driveshaft"])


def whirl_numbers(x: Filled, length: Num, speed: Num) -> Numbers:
    """Whirl on stiff pins and on real ends, the half-critical band, and balance."""
    d, a = x.machine.driveshaft, x.assumed
    top = Number("Driveshaft at the rev limit in direct gear", "rotation", speed)
    if np.min(length) <= 0.0:  # readings that contradict each other leave no length
        return {"shaft_top": top}
    bore = bore_of_tube(d.tube_diameter, d.tube_wall)
    pinned = whirl.critical_speed(d.youngs_modulus, d.density, d.tube_diameter, bore, length)
    mass = bare_tube_mass(tube_area(d.tube_diameter, d.tube_wall), length, d.density)
    ends = whirl_ends.whirl_on_springs(
        d.youngs_modulus, tube_second_moment(d.tube_diameter, d.tube_wall), mass, length,
        a.front_support, a.rear_support, a.front_end_mass, a.rear_end_mass,
    )  # fmt: skip
    half = whirl_ends.half_critical_speed(ends.first_whirl)
    radius = x.launching.tire.radius
    weight = whirl.balance_weight_allowed(
        a.balance_grade, mass, speed, scaled_length(d.tube_diameter, a.half)
    )
    return {
        "shaft_top": top,
        "whirl_pinned": Number("Whirl speed on stiff pins", "rotation", pinned),
        "whirl_ends": Number("Whirl speed on springy ends", "rotation", ends.first_whirl),
        "whirl_margin": Number(
            "Safe speed before it whirls over the top speed of the shaft", "ratio",
            whirl.whirl_margin(pinned, d.critical_share, speed),
        ),
        "half_critical": Number("Half the whirl speed on springy ends", "rotation", half),
        "half_distance": Number(
            "Distance of the top speed from half the whirl speed", "ratio",
            whirl_ends.distance_from_half_critical(speed, ends.first_whirl),
        ),
        "half_road": Number(
            "Road speed at which the joints' shake meets the whirl", "speed",
            road_speed(half, x.machine.gears.one, x.machine.gears.ratio, radius),
        ),
        "tube_mass": Number("Tube from joint to joint", "mass", mass),
        "balance_offset": Number(
            "Offset of the mass center that grade G16 leaves", "length",
            whirl.balance_offset_allowed(a.balance_grade, speed),
        ),
        "balance_weight": Number(
            "Weight at the tube's skin that grade G16 leaves, both ends together", "mass", weight
        ),
    }  # fmt: skip


def joint_numbers(x: Filled, loaded: State | None) -> Numbers:
    """What torque dents the trunnions, the bending couple, and what the joints shake."""
    d = x.machine.driveshaft
    j = d.joint
    torque = hardest_torque(x)
    lever = needle_middles(j.cap_span, j.needle_length)
    rating = joint_crosses.needle_static_rating(
        j.needles, j.needle_diameter, j.needle_length, j.trunnion_diameter
    )
    angle = d.joint_angle if loaded is None else loaded.rear_angle
    force = joint_crosses.cap_force(torque, lever, angle)
    return {
        "hard_torque": Number("Greatest driveshaft torque of the load path", "torque", torque),
        "cap_force": Number("Force on a bearing cap at that torque", "force", force),
        "dents_at": Number(
            "Torque at which needles dent the trunnion", "torque",
            joint_crosses.torque_at_cap_force(rating, lever, angle),
        ),
        "couple": Number(
            "Bending couple of the rear joint at that torque", "torque",
            joint_motion.secondary_couple(torque, angle),
        ),
    }  # fmt: skip


def life_numbers(x: Filled, state: State) -> Numbers:
    """Running time of the rear joint's needles: cruising, and at full pull in first gear."""
    d, a = x.machine.driveshaft, x.assumed
    j = d.joint
    pitch = needle_pitch_diameter(j.trunnion_diameter, j.needle_diameter)
    shape = rating_geometry_factor(j.needle_diameter, a.none, pitch)
    rating = dynamic_rating(
        a.one, shape, a.one, j.needle_length, a.none, j.needles, j.needle_diameter
    )
    lever = needle_middles(j.cap_span, j.needle_length)
    rated = joint_crosses.torque_at_cap_force(rating, lever, state.rear_angle)
    angle = joint_motion.reckoned_angle(state.rear_angle, a.least_life_angle)
    m, radius = x.machine, x.launching.tire.radius
    push = road_load(a.cruise, x.launching.body.air_drag, m.car.mass, m.use.rolling)
    torque = driveshaft_torque(ring_torque(push, radius), m.gears.ratio, m.gears.efficiency)
    turns = driveshaft_speed_on_road(a.cruise, m.gears.ratio, radius)
    pull = x.pull.torques["driveshaft"]
    slow = driveshaft_speed(m.engine.rev_limit, m.gearbox.ratios[0])
    return {
        "joint_rating": Number(
            "Torque rating of a joint's needles: 5,000 h at 3 deg and 100 rpm", "torque", rated
        ),
        "life_cruise": Number(
            "Needle life of the rear joint at a steady 70 mph", "time",
            universal_joints.joint_life(angle, turns, rated, torque),
        ),
        "life_pull": Number(
            "Needle life of the rear joint at full pull in first gear", "time",
            universal_joints.joint_life(angle, slow, rated, pull),
        ),
    }  # fmt: skip


@dataclass(frozen=True)
class JointChoice:
    """A class of joint, what it stands of the greatest torque, and how it goes with the fitted."""

    name: str
    fitted: bool
    dents: float
    rating: float
    fits: str


def joints(x: Filled, angle: float) -> list[JointChoice]:
    """Every class of joint in the catalogue, at nominal sizes."""
    mine = x.machine.driveshaft.joint.name
    every = rows_of(rows.UniversalJoint)
    own = _ears(every[mine]) if mine in every else None
    return [_joint(x, name, row, angle, own, mine) for name, row in every.items()]


def _joint(
    x: Filled, name: str, r: rows.UniversalJoint, angle: float, own: YokeEars | None, mine: str
) -> JointChoice:
    sizes = (r.span, r.needle_length, r.needle_diameter, r.trunnion_diameter, r.needles)
    span, long, thick, trunnion, count = (_plain(v) for v in sizes)
    lever = needle_middles(span, long)
    still = joint_crosses.needle_static_rating(count, thick, long, trunnion)
    dents = joint_crosses.torque_at_cap_force(still, lever, angle)
    shape = rating_geometry_factor(thick, 0.0, needle_pitch_diameter(trunnion, thick))
    turning = dynamic_rating(1.0, shape, 1.0, long, 0.0, count, thick)
    rated = joint_crosses.torque_at_cap_force(turning, lever, angle)
    fits = "" if own is None else joint_wanted(own, _ears(r))
    margin = torque_margin(dents, hardest_torque(x))
    return JointChoice(name, name == mine, float(margin), float(rated), fits)


def _ears(r: rows.UniversalJoint) -> YokeEars:
    """The ears of a yoke that takes this joint, by the spans of the catalogue: outside clips."""
    return YokeEars(_plain(r.cap_diameter), _plain(r.span), "outside")


def _plain(reading: object) -> float:
    """A size of the catalogue at its middle."""
    return float(getattr(reading, "value", reading))  # type: ignore[arg-type]


def tubes(x: Filled, length: Num, speed: Num) -> list[TubeChoice]:
    """Tubes of the catalogue and the fitted one: those that hold first, lightest ahead."""
    d = x.machine.driveshaft
    holds = shear_yield_by_distortion_energy(d.steel.yield_strength)
    sizes = (d.tube_diameter, d.tube_wall, d.youngs_modulus, d.density, holds)
    fitted = Tube("fitted", *(float(v) for v in sizes))
    ranked = rank_tubes(
        [fitted, *_catalogued()], hardest_torque(x), speed, length, d.critical_share
    )
    return [TubeChoice(m.tube.name, m.tube is fitted, m) for m in ranked]


def _catalogued() -> list[Tube]:
    """Driveshaft tubes of the catalogue, in their usual metals."""
    found = []
    for name, size in rows_of(rows.Tube).items():
        if not size.means.startswith("Driveshaft tube"):
            continue
        light = name.endswith("aluminum")
        metal = row(rows.Steel, _ALUMINUM if light else _STEEL)
        assert metal is not None and metal.yield_strength is not None
        assert size.outer_diameter is not None and size.wall is not None
        holds = float(shear_yield_by_distortion_energy(metal.yield_strength.value))
        stuff = _ALUMINUM_STUFF if light else _STEEL_STUFF
        found.append(Tube(name, size.outer_diameter.value, size.wall.value, *stuff, holds))
    return found
