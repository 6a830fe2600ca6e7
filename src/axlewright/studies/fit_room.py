"""What room is left beside each wheel, reading by reading: at ride height and at full bump."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from axlewright.fit import old_axle, room
from axlewright.quantities.formula import Num
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Known, read, work
from axlewright.studies.fit_look import Look
from axlewright.studies.fit_side import SideLook, wanted_when_moving

RIDE, BUMP, ANYWHERE = "ride height", "full bump", "anywhere in its travel"


@dataclass(frozen=True)
class Room:
    """One clearance: beside what, in which state, what there is and what is wanted."""

    key: str
    side: str
    thing: str
    where: str
    clearance: Known
    wanted: Num
    faces: bool = True
    """Whether what is wanted is counted sideways, so that wheel and width change it."""


def rooms(x: Filled, look: Look) -> Iterator[Room]:
    """Clearances that follow from one reading each, side by side."""
    for side in SIDES:
        yield from _side(x, look, side, look.side(side))


def _side(x: Filled, look: Look, side: str, s: SideLook) -> Iterator[Room]:
    car, r = x.fitting.car, x.side(side)
    moving = wanted_when_moving(x)
    thing = r.inner_thing or "the nearest thing inboard"

    def outer(key: str, what: str, where: str, lip: Known, wanted: Num) -> Room:
        left = work(room.outer_clearance, lip_position=lip, fit_half=look.half,
                    outboard_reach=s.out)  # fmt: skip
        return Room(f"{key}_{side}", side, what, where, left, wanted)

    def inner(key: str, what: str, where: str, at: Known, reach: Known, wanted: Num) -> Room:
        left = work(room.inner_clearance, fit_half=look.half, inboard_reach=reach,
                    inner_position=at)  # fmt: skip
        return Room(f"{key}_{side}", side, what, where, left, wanted)

    yield outer("lip_ride", "outer lip", RIDE, s.lip, car.outer_clearance)
    yield inner("inner_ride", thing, RIDE, s.inner, s.inside, car.inner_clearance)
    yield inner("shock_ride", "shock or spring", "at every height: it moves along", s.shock,
                s.inside, car.inner_clearance)  # fmt: skip
    yield outer("lip_bump", "outer lip", BUMP, s.lip_at_bump, moving)
    yield inner("inner_bump", thing, BUMP, s.inner_at_bump, s.inside_high, moving)
    yield _roof(x, look, side)


def _roof(x: Filled, look: Look, side: str) -> Room:
    left = work(
        old_axle.roof_clearance,
        roof_over_center=read(x.side(side).roof, f"fit.{side}.roof"),
        bump_travel=read(x.fitting.car.bump, "fit.bump"),
        running_radius=look.wheel.running,
    )
    return Room(f"roof_{side}", side, "roof of the wheelhouse", BUMP, left,
                x.fitting.car.moving_clearance, faces=False)  # fmt: skip
