"""What a housing carries where: unit loads on its wheels and gears, and what its links push back.

The housing alone is looked at here, not the axle with its shafts: gears turn it in the middle, its
bearings take push and weight at the axle line, brakes turn its ends.  Every load is taken once
with one unit; all of it is linear, so that a case is a sum.  Axes and signs as in the suspension.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from axlewright.quantities.formula import Array
from axlewright.quantities.records import branch
from axlewright.suspension.forces import link_forces
from axlewright.suspension.linkage import Guide, Link, Linkage, Wheels, label, spot
from axlewright.suspension.pose import Load, ride_height

LOADS = (
    "ring", "drive", "thrust", "brake", "left load", "right load", "left side", "right side",
)  # fmt: skip
"""Torque of the ring gear (N·m, nose up) and of the driveshaft; push and braking of each wheel
(N); weight on one wheel; push to the left at one wheel's contact."""
_FORWARD, _LEFT, _UP = np.eye(3)
CENTER = "the center"
NO_LINKS = 4
"""How many of the names are no links: both springs and both wheels."""
_APART = 1e-4
"""Sections are taken this far (m) beside a bracket."""


@branch
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


@branch
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
        cuts = [(f"{side} tube at {CENTER}", hub)]
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


def share(parts: Array, load: str, axis: int, outer: str = "") -> float:
    """One component for one unit of a load, of a bracket's or a cut's (loads, 3) parts.

    ``load`` is one of ``LOADS``; "load" weighs on both wheels.  With an outer wheel, "outer side"
    and its like are the wheels of that bend, side forces counted toward its inside.
    """
    if load == "load":
        return float(parts[LOADS.index("left load"), axis] + parts[LOADS.index("right load"), axis])
    wheel, _, kind = load.partition(" ")
    if not outer:
        return float(parts[LOADS.index(load), axis])
    inner = "left" if outer == "right" else "right"
    side = outer if wheel == "outer" else inner
    sign = -1.0 if kind == "side" and outer == "left" else 1.0
    return sign * float(parts[LOADS.index(f"{side} {kind}"), axis])


def pulling(
    weight: float, ring: float = 0.0, drive: float = 0.0, thrust: float = 0.0, brake: float = 0.0
) -> Array:
    """Loads as in ``LOADS`` that are alike at both wheels."""
    return np.array([ring, drive, thrust, brake, weight, weight, 0.0, 0.0])


def bending(outer: str, weights: tuple[float, float], sides: tuple[float, float]) -> Array:
    """Loads as in ``LOADS`` in a bend: of the outer wheel, named, and of the inner one."""
    (heavy, light), (hard, easy) = weights, sides
    if outer == "right":
        return np.array([0.0, 0.0, 0.0, 0.0, light, heavy, easy, hard])
    return np.array([0.0, 0.0, 0.0, 0.0, heavy, light, -hard, -easy])


def worst_cut(cuts: Sequence[Section], loads: Array) -> tuple[int, float]:
    """The cut of a round tube that loads as in ``LOADS`` stress most, and how much, as bending."""
    here = np.einsum("l,clx->cx", loads, np.stack([c.moment for c in cuts]))
    alike = here[:, 0] ** 2 + here[:, 2] ** 2 + 0.75 * here[:, 1] ** 2
    return int(np.argmax(alike)), float(np.sqrt(alike.max()))


def most_twisted(cuts: Sequence[Section], loads: Array) -> int:
    """The cut that is twisted hardest."""
    return int(np.argmax([abs(float(loads @ c.moment[:, 1])) for c in cuts]))


def tube_brackets(w: Wrenches, hub: float) -> tuple[int, ...]:
    """Which links are held on a tube, springs and wheels left out."""
    links = range(len(w.names) - NO_LINKS)
    return tuple(n for n in links if abs(float(w.station[n])) > hub)


def sheared(w: Wrenches, bracket: int, loads: Array, tube_radius: float) -> float:
    """Torque that would shear a bracket's welds to the tube as hard as force and torque do."""
    force, torque = loads @ w.force[:, bracket], loads @ w.moment[:, bracket, 1]
    return abs(float(torque)) + tube_radius * float(np.sqrt(force @ force))
