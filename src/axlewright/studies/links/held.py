"""Loads and shares by case, where the points of the real links were measured.

Unit loads are solved once for the places as read; here they are picked and handed to the formulas.
Which cut or bracket is the worst is decided by the middle of each load.
"""

from __future__ import annotations

import functools

import numpy as np

from axlewright.build.held import held_by
from axlewright.build.machine import Held, Machine
from axlewright.driveline import link_shares
from axlewright.driveline.case_strength import braking_thrust
from axlewright.driveline.wheel_end_loads import inner_wheel_load, outer_wheel_load, side_force
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.records import branch
from axlewright.quantities.solved import solved
from axlewright.studies.demand import Demand, Loads
from axlewright.suspension import housing_wrenches as unit

UPRIGHT, TWIST, LEVEL = 0, 1, 2
"""Components of a moment: bending by upright forces, twist, bending by level ones."""
_MOMENTS = ("bending by upright forces", "twist", "bending by level forces")
_FORCES = ("force along the car", "force across", "force up")


@branch
class Place:
    """A cut or a bracket with its unit loads, and which wheel is the outer one, if any."""

    name: str
    parts: Array
    words: tuple[str, str, str]
    outer: str = ""


class Holding:
    """One filling of the machine with its unit loads."""

    def __init__(self, m: Machine[Num], d: Demand, held: Held[Num]) -> None:
        self.m, self.d, self.told = m, d, held.places
        self.wrenches = held_by(held, _middle(m.housing.seat_inset))
        hub = _middle(link_shares.tubes_begin(m.case.bearing_span, m.housing.depth))
        self.cuts = unit.sections(self.wrenches, hub)
        self.centers = tuple(c for c in self.cuts if c.name.endswith(unit.CENTER))
        self.brackets = unit.tube_brackets(self.wrenches, hub)
        self._shares: dict[tuple[str, str, str, str], Num] = {}

    @property
    def on_center(self) -> tuple[str, ...]:
        """Links whose brackets sit so near the middle that they are the center's own."""
        links = self.wrenches.names[: -unit.NO_LINKS]
        return tuple(name for n, name in enumerate(links) if n not in self.brackets)

    @functools.cached_property
    def braking(self) -> Num:
        """Braking of one wheel in a hard stop."""
        end = self.m.wheel_end
        return braking_thrust(self.d.standing.weight, end.brake_grip, end.brake_share)

    @functools.cached_property
    def bend(self) -> tuple[Num, Num, Num, Num]:
        """Load and side force of the outer wheel, then of the inner one, sliding in a bend."""
        end, car = self.m.wheel_end, self.m.car
        where = (self.d.standing.rear_load, end.side_grip, car.cg_height, car.track)
        outer, inner = outer_wheel_load(*where), inner_wheel_load(*where)
        return outer, side_force(outer, end.side_grip), inner, side_force(inner, end.side_grip)

    def typical(self, load: Loads) -> dict[str, Array]:
        """Middle of every load in a case, by the outer wheel; a bend goes both ways."""
        weight = _middle(load.wheel_load)
        if load.case == "corner":
            heavy, hard, light, easy = (_middle(v) for v in self.bend)
            return {
                way: unit.bending(way, (heavy, light), (hard, easy)) for way in ("right", "left")
            }
        if load.case == "bump":
            return {"": unit.pulling(weight)}
        if load.case == "brake":
            return {"": unit.pulling(weight, brake=_middle(self.braking))}
        ring, drive = (_middle(load.torques[p]) for p in ("ring", "driveshaft"))
        return {"": unit.pulling(weight, ring, drive, _middle(load.wheel_thrust))}

    def worst_cut(self, load: Loads) -> Place:
        """Where a tube is stressed hardest in a case."""
        found = {way: unit.worst_cut(self.cuts, of) for way, of in self.typical(load).items()}
        way = max(found, key=lambda w: found[w][1])
        cut = self.cuts[found[way][0]]
        return Place(cut.name, cut.moment, _MOMENTS, way)

    def most_twisted(self, load: Loads) -> Place:
        """The tube that is twisted hardest where it enters the center."""
        cut = self.centers[unit.most_twisted(self.centers, self.typical(load)[""])]
        return Place(cut.name, cut.moment, _MOMENTS)

    def worst_bracket(self, load: Loads) -> tuple[Place, Place]:
        """The bracket whose welds are sheared hardest: its moments and its forces."""
        w, radius = self.wrenches, _middle(self.m.housing.tube_diameter) / 2.0
        shears = {
            (way, n): unit.sheared(w, n, of, radius)
            for way, of in self.typical(load).items()
            for n in self.brackets
        }
        way, n = max(shears, key=lambda k: shears[k])
        name = w.names[n]
        return (
            Place(name, w.moment[:, n], _MOMENTS, way),
            Place(name, w.force[:, n], _FORCES, way),
        )

    def moment(self, place: Place, axis: int, load: Loads) -> Num:
        """A component of the moment at a place."""
        lever = functools.partial(self._share, place, axis, "length")
        part = functools.partial(self._share, place, axis, "ratio")
        if load.case == "corner":
            outer, push, inner, pull = self.bend
            return link_shares.bend_moment(
                lever("outer load"), outer, lever("outer side"), push,
                lever("inner load"), inner, lever("inner side"), pull,
            )  # fmt: skip
        if load.case == "bump":
            jolt = self.m.wheel_end.jolt_factor
            return link_shares.bump_moment(lever("load"), load.wheel_load, jolt)
        if load.case == "brake":
            return link_shares.brake_moment(
                lever("brake"), self.braking, lever("load"), load.wheel_load
            )
        return link_shares.pull_moment(
            part("ring"), load.torques["ring"], part("drive"), load.torques["driveshaft"],
            lever("thrust"), load.wheel_thrust, lever("load"), load.wheel_load,
        )  # fmt: skip

    def force(self, place: Place, axis: int, load: Loads) -> Num:
        """A component of the force at a bracket."""
        part = functools.partial(self._share, place, axis, "ratio")
        arm = functools.partial(self._share, place, axis, "per distance")
        if load.case == "corner":
            outer, push, inner, pull = self.bend
            return link_shares.bend_force(
                part("outer load"), outer, part("outer side"), push,
                part("inner load"), inner, part("inner side"), pull,
            )  # fmt: skip
        if load.case == "brake":
            return link_shares.brake_force(
                part("brake"), self.braking, part("load"), load.wheel_load
            )
        return link_shares.pull_force(
            arm("ring"), load.torques["ring"], arm("drive"), load.torques["driveshaft"],
            part("thrust"), load.wheel_thrust, part("load"), load.wheel_load,
        )  # fmt: skip

    def _share(self, place: Place, axis: int, dimension: str, load: str) -> Num:
        """One share as a step of the working, solved from the places."""
        key = (place.name, place.words[axis], load, place.outer)
        if key not in self._shares:
            value = unit.share(place.parts, load, axis, place.outer)
            means = f"{place.name}: {place.words[axis]} for each unit of {load}"
            self._shares[key] = solved(means, dimension, value, self.told)
        return self._shares[key]


def _middle(value: Num) -> float:
    return float(np.mean(value))
