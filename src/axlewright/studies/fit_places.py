"""Lips and things inboard in space, and the places that the axle takes between its stops.

At the nominal values only: what readings may be off is added sideways, one to one, from the room
at ride height.  Heights are counted from the wheel's center, so that no floor is needed; forward
from the axle line.  Places come from the real links where their points are measured.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.fit.axle_places import (
    STRAIGHT,
    AxlePlaces,
    Stops,
    places_of,
    solved_places,
    straight_places,
)
from axlewright.fit.clearance import Clearance, Facing, Obstacle, Side, WheelEnd, clearances, gaps
from axlewright.fit.envelope import Tire
from axlewright.quantities.formula import Array
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Lack, lacking, read
from axlewright.studies.fit_look import Look
from axlewright.studies.fit_report import Travel, TravelCurve
from axlewright.suspension.linkage import Linkage
from axlewright.suspension.newton import NoPoseError
from axlewright.suspension.pose import solve_pose

_STEPS = 13
"""Steps of the way that a page goes through, each half of it the same number."""


@dataclass(frozen=True)
class Thing:
    """One thing of one side: where it is, or what is missing to know it."""

    key: str
    obstacle: Obstacle | None
    lacks: tuple[str, ...]


@dataclass(frozen=True)
class Moving:
    """Everything that is needed to drive the wheels through their travel."""

    ends: dict[Side, WheelEnd]
    things: tuple[Thing, ...]
    places: AxlePlaces | None
    lacks: tuple[str, ...]
    linkage: Linkage | None = None
    caution: str = ""
    impossible: str = ""
    """Why the tire cannot be so, if its numbers say so."""

    @property
    def least(self) -> dict[str, Clearance]:
        """Least room beside each thing over the whole travel, by its key."""
        known = [t for t in self.things if t.obstacle is not None]
        if self.places is None or not self.ends:
            return {}
        of = [t.obstacle for t in known if t.obstacle is not None]
        found = clearances(self.ends, of, self.places)
        return {t.key: c for t, c in zip(known, found, strict=True)}


def moving(x: Filled, look: Look, linkage: Linkage | None) -> Moving:
    """Wheels, things and places from plain numbers."""
    car = x.fitting.car
    bump, droop = read(car.bump, "fit.bump"), read(car.droop, "fit.droop")
    tire_lacks = lacking((look.wheel.section, look.wheel.over_lips, look.offset, look.half))
    things = tuple(t for side in SIDES for t in _things(x, look, side))
    lacks = (*tire_lacks, *lacking((bump, droop)))
    ends = {} if tire_lacks else {_side(s): _end(x, look, s) for s in SIDES}
    wrong = [p for e in ends.values() for p in e.running.problems]
    if wrong:
        return Moving({}, things, None, ("wheel.section",), impossible=wrong[0])
    if isinstance(bump, Lack) or isinstance(droop, Lack):
        return Moving(ends, things, None, lacks)
    stops = Stops(float(bump), float(droop), float(car.lateral_shift))
    if linkage is not None:
        try:
            return Moving(ends, things, _from_rest(solved_places(linkage, stops)), lacks, linkage)
        except NoPoseError as e:
            caution = f"The links were left out: {e}. Look at the points of the suspension again."
            straight = straight_places(stops, 0.0, float(x.beside.track))
            return Moving(ends, things, straight, lacks, None, caution)
    straight = straight_places(stops, 0.0, float(x.beside.track))
    return Moving(ends, things, straight, lacks)


def _from_rest(places: AxlePlaces) -> AxlePlaces:
    """Heights and ways forward counted from where the axle rests."""
    rest = places.center[:1] * np.array([1.0, 0.0, 1.0])
    return replace(places, center=places.center - rest)


def _side(name: str) -> Side:
    return "left" if name == "left" else "right"


def tire_of(look: Look, offset: float, wider: float = 0.0) -> Tire:
    """The tire on its rim as a solid; ``wider`` is its bulge over the ground, both sides."""
    w = look.wheel
    assert not isinstance(w.section, Lack)
    assert not isinstance(w.over_lips, Lack)
    return Tire(
        float(w.section) + wider, float(w.over_lips), offset, float(w.running), float(w.tread),
        float(w.lip_radius),
    )  # fmt: skip


def _end(x: Filled, look: Look, side: str) -> WheelEnd:
    offset, half = look.side(side).offset, look.half
    assert not isinstance(offset, Lack)
    assert not isinstance(half, Lack)
    bulge = float(x.fitting.wheel.loaded_bulge)
    tire = tire_of(look, float(offset))
    return WheelEnd(float(half), tire, tire_of(look, float(offset), bulge))


def _things(x: Filled, look: Look, side: str) -> tuple[Thing, Thing]:
    r, s = x.side(side), look.side(side)
    wanted = float(x.fitting.car.moving_clearance)
    lip = (s.lip, read(r.lip_height, f"fit.{side}.lip_height"), 0.0)
    inner = (
        s.inner,
        read(r.inner_up, f"fit.{side}.inner_up"),
        read(r.inner_ahead, f"fit.{side}.inner_ahead"),
    )
    made = []
    for key, name, facing, at in (
        ("lip_travel", "outer lip", "outer", lip),
        ("inner_travel", r.inner_thing or "the nearest thing inboard", "inner", inner),
    ):
        lacks = lacking(at)
        obstacle = None
        if not lacks:
            out, up, ahead = (float(v) for v in at if not isinstance(v, Lack))
            facing_: Facing = "outer" if facing == "outer" else "inner"
            obstacle = Obstacle(name, _side(side), facing_, out, up, ahead, wanted=wanted)
        made.append(Thing(f"{key}_{side}", obstacle, lacks))
    return made[0], made[1]


def travel(m: Moving, bump: float, droop: float, track: float) -> Travel | None:
    """Room beside each thing, step by step, both wheels together and leaning."""
    known = [t.obstacle for t in m.things if t.obstacle is not None]
    if m.places is None or not m.ends or not known:
        return None
    steps = _steps(bump, droop)
    lean = _steps(min(bump, droop), min(bump, droop))
    together = _on_the_way(m, steps, steps, track)
    leaning = _on_the_way(m, lean, -lean, track)
    curves = tuple(
        TravelCurve(
            o.side, o.name, o.facing, float(o.wanted),
            _floats(gaps(m.ends[o.side], o, together)[0]),
            _floats(gaps(m.ends[o.side], o, leaning)[0]),
        )
        for o in known
    )  # fmt: skip
    return Travel(m.places.known, _floats(steps), _floats(lean), curves)


def _on_the_way(m: Moving, left: Array, right: Array, track: float) -> AxlePlaces:
    """One place a step, ride height in the middle."""
    if m.linkage is None:
        return _straight(left, right, track)
    names = tuple("" for _ in left)
    rows = (left[:, None], right[:, None])
    found = places_of(solve_pose(m.linkage, *rows), names)
    rest = found.center[len(left) // 2] * np.array([1.0, 0.0, 1.0])
    return replace(found, center=found.center - rest)


def _steps(bump: float, droop: float) -> Array:
    half = _STEPS // 2 + 1
    down, up = np.linspace(-droop, 0.0, half), np.linspace(0.0, bump, half)
    return np.concatenate([down[:-1], up])


def _straight(left: Array, right: Array, track: float) -> AxlePlaces:
    """The axle straight up and down and leaning where it stands, one place a step."""
    sine = (left - right) / track
    nothing = np.zeros_like(left)
    center = np.stack([nothing, nothing, 0.5 * (left + right)], axis=-1)[:, None, :]
    axis = np.stack([nothing, np.sqrt(1.0 - sine * sine), sine], axis=-1)[:, None, :]
    return AxlePlaces(center, axis, tuple("" for _ in left), STRAIGHT)


def _floats(values: Array) -> tuple[float, ...]:
    return tuple(float(v) for v in np.asarray(values).reshape(-1))
