"""What a housing carries where: unit loads on its wheels and gears, and what its links push back.

The housing alone is looked at here, not the axle with its shafts: gears turn it in the middle, its
bearings take push and weight at the axle line, brakes turn its ends.  Every load is taken once
with one unit; all of it is linear, so that a case is a sum.  Axes and signs as in the suspension.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from axlewright.quantities.formula import Array
from axlewright.suspension.forces import link_forces
from axlewright.suspension.linkage import Guide, Link, Linkage, Wheels, label, spot
from axlewright.suspension.pose import Load, ride_height

LOADS = (
    "ring", "drive", "thrust", "brake", "left load", "right load", "left side", "right side",
)  # fmt: skip
"""Torque of the ring gear (N·m, nose up) and of the driveshaft; push and braking of each wheel
(N); weight on one wheel; push to the left at one wheel's contact."""
_FORWARD, _LEFT, _UP = np.eye(3)
_APART = 1e-4
"""Sections are taken this far (m) beside a bracket."""


@dataclass(frozen=True)
class Wrenches:
    """Unit loads on the first axis, as in ``LOADS``; x, y, z on the last."""

    names: tuple[str, ...]
    """Brackets, then both wheel ends, left first."""
    station: Array
    """How far left of the middle each one acts, m."""
    force: Array
    """(loads, brackets and ends, 3), N for each unit."""
    moment: Array
    """The same about the middle of the axle, N·m for each unit."""


@dataclass(frozen=True)
class Section:
    """A cut through a tube, looked at from outside."""

    name: str
    moment: Array
    """(loads, 3): bending about x, twist about y, bending about z."""


def wrenches(linkage: Linkage, springs: Sequence[Link | Guide], axle_height: float) -> Wrenches:
    """Solve every unit load at ride height; ``springs`` are two lines of action, left first."""
    left, right = spot(linkage.wheels.left), spot(linkage.wheels.right)
    middle, count = 0.5 * (left + right), len(LOADS)
    ends = _wheel_ends(0.5 * (left - right), axle_height)
    outside = _gears() + ends.sum(axis=1)
    wide = Wheels(*(np.broadcast_to(w, (count, 3)) for w in (left, right)))
    pose = ride_height(replace(linkage, wheels=wide))
    found = link_forces(pose, Load(outside[:, 0], outside[:, 1]), springs)
    groups = _groups(linkage)
    names = [*dict.fromkeys(groups), "left spring", "right spring"]
    arms = found.axle_ends - middle
    force = np.zeros((count, len(names) + 2, 3))
    moment = np.zeros_like(force)
    station = np.zeros(len(names) + 2)
    for n, group in enumerate(groups):
        at = names.index(group)
        force[:, at] += found.on_axle[:, n]
        moment[:, at] += np.cross(arms[:, n], found.on_axle[:, n])
        station[at] = _station(linkage, n) - middle[1]
    for n, spring in enumerate(springs):
        at = names.index(("left spring", "right spring")[n])
        push = -found.springs[:, n, None] * _along(spring)
        arm = spot(spring.axle) - middle
        force[:, at], moment[:, at] = push, np.cross(arm, push)
        station[at] = arm[1]
    for n, wheel in enumerate((left, right)):
        force[:, -2 + n], moment[:, -2 + n] = ends[:, n, 0], ends[:, n, 1]
        station[-2 + n] = wheel[1] - middle[1]
    return Wrenches((*names, "left wheel", "right wheel"), station, force, moment)


def sections(w: Wrenches, hub: float) -> tuple[Section, ...]:
    """Cuts through both tubes: on both sides of every bracket, and where the tubes begin."""
    made = []
    for side, sign in (("left", 1.0), ("right", -1.0)):
        out = sign * w.station
        near = [(n, y) for n, y in zip(w.names[:-2], out[:-2], strict=True) if y > hub]
        cuts = [(f"{side} tube at the center", hub)]
        cuts += [
            (f"{side} tube at the {n}", y + shift) for n, y in near for shift in (-_APART, _APART)
        ]
        made += [_cut(w, name, sign, y) for name, y in cuts]
    return tuple(made)


def _cut(w: Wrenches, name: str, sign: float, y: float) -> Section:
    beyond = sign * w.station > y
    force, moment = (part[:, beyond].sum(axis=1) for part in (w.force, w.moment))
    return Section(name, moment - sign * y * np.cross(_LEFT, force))


def _gears() -> Array:
    """(loads, force and moment, 3): the ring gear turns the nose up, the driveshaft the axle."""
    made = np.zeros((len(LOADS), 2, 3))
    made[LOADS.index("ring"), 1] = -_LEFT
    made[LOADS.index("drive"), 1] = -_FORWARD
    return made


def _wheel_ends(half: Array, height: float) -> Array:
    """(loads, ends, force and moment about the middle, 3)."""
    made = np.zeros((len(LOADS), 2, 2, 3))
    below = -height * _UP
    for n, (side, arm) in enumerate((("left", half), ("right", -half))):
        for load, push, drop in (
            ("thrust", _FORWARD, 0.0 * below),
            ("brake", -_FORWARD, below),
            (f"{side} load", _UP, 0.0 * below),
            (f"{side} side", _LEFT, below),
        ):
            at = LOADS.index(load)
            made[at, n] = push, np.cross(arm + drop, push)
    return made


def _along(spring: Link | Guide) -> Array:
    """Unit vector from the axle's end of a spring toward the body's."""
    if isinstance(spring, Guide):
        way = -spot(spring.direction)
    else:
        way = spot(spring.body) - spot(spring.axle)
    unit: Array = way / np.sqrt(np.sum(way * way))
    return unit


_PERCH = ("front half", "front bending", "rear half", "rear bending", "leaf sideways")
_BAR = ("bar thrust", "bar reaction")


def _groups(linkage: Linkage) -> list[str]:
    """For each piece the bracket that holds it: leaves share a perch, a bar is one."""
    return [_bracket(linkage, label(p, linkage), p.crank) for p in linkage.pieces]


def _bracket(linkage: Linkage, name: str, crank: int | None) -> str:
    if crank is not None and linkage.cranks[crank].stands_on == "axle":
        return "Watt pivot"
    side, _, rest = name.partition(" ")
    if rest in _PERCH:
        return f"{side} perch"
    return f"{side} bar" if rest in _BAR else name


def _station(linkage: Linkage, n: int) -> float:
    """Where across the car a piece is held on the axle; a torque arm sits on its center."""
    piece = linkage.pieces[n]
    if piece.name == "torque arm":
        return float(0.5 * (spot(linkage.wheels.left) + spot(linkage.wheels.right))[1])
    crank = piece.crank
    if crank is not None and linkage.cranks[crank].stands_on == "axle":
        return float(spot(linkage.cranks[crank].pivot)[1])
    return float(spot(piece.axle)[1])
