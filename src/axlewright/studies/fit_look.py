"""Where everything stands across the car: lips, wheel, faces of the old and of the new axle.

The new axle's width is the one that is there, or the one that shares the room evenly.  What is
decided so is a choice, not a measurement: samples of what may be off are held against the choice
made at the nominal values (:class:`Plan`), else every clearance would always come out even.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.fit import old_axle, room, shaft_length, width
from axlewright.mechanics.splines import external_major_diameter
from axlewright.quantities.formula import Num, greatest, least
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Known, Lack, first, read, work
from axlewright.studies.fit_side import (
    SideLook,
    SideRoom,
    WheelLook,
    choose,
    side_look,
    side_room,
    wheel_look,
)


@dataclass(frozen=True)
class Plan:
    """What was decided at the nominal values, in m; None where it is measured."""

    width: Num | None = None
    offset: Num | None = None


@dataclass(frozen=True)
class Look:
    """Everything across the car."""

    wheel: WheelLook
    left: SideLook
    right: SideLook
    there: bool
    """Whether the new axle's width is known, so that it is not to be found."""
    best: Known
    """Width that shares the room evenly, or the one that is there."""
    width: Known
    """Width that the rest is worked out for."""
    half: Known
    offset: Known
    """Of the wheel, without spacers."""

    def side(self, which: str) -> SideLook:
        """One side."""
        return self.left if which == "left" else self.right


def look_across(x: Filled, low: dict[str, bool], plan: Plan) -> Look:
    """Work it out; ``low`` says by side whether the thing inboard meets the bulge at the ground."""
    tire = wheel_look(x)
    there = width_there(x)
    rooms = {side: side_room(x, side) for side in SIDES}
    offset = _offset(x, tire, rooms, there, low, plan)
    sides = {side: side_look(x, side, rooms[side], tire, offset, low[side]) for side in SIDES}
    best = there if not isinstance(there, Lack) else _even(sides)
    planned = work(old_axle.ordered_width, best_width=best, order_step=x.beside.order_step)
    chosen: Known = planned if isinstance(there, Lack) else there
    if plan.width is not None:
        chosen = plan.width
    return Look(
        wheel=tire,
        left=sides["left"],
        right=sides["right"],
        there=not isinstance(there, Lack),
        best=best,
        width=chosen,
        half=work(old_axle.half_of_width, whole_width=chosen),
        offset=offset,
    )


def width_there(x: Filled) -> Known:
    """The new axle's width between wheel faces, where it was measured, one way or another."""
    c = x.fitting.centre
    hats = {f"{s}_hat": hat(x, s) for s in SIDES}
    spaces = {f"{s}_brake_space": brake_space(x, s) for s in SIDES}
    bare = read(c.bare_to_bare, "centre.bare_to_bare")
    housing = read(c.end_to_end, "centre.end_to_end")
    of_housing = work(width.order_width_of_housing, housing_width=housing, **spaces)
    return first(
        read(c.face_to_face, "centre.face_to_face"),
        work(width.fit_width, order_width=bare, **hats),
        work(width.fit_width, order_width=of_housing, **hats),
    )


def hat(x: Filled, side: str) -> Known:
    """Hat or drum at the new flange."""
    return read(x.end(side).hat, "ends.hat")


def brake_space(x: Filled, side: str) -> Known:
    """Housing end face to bare flange."""
    return read(x.end(side).brake_space, "ends.brake_space")


def _offset(
    x: Filled, tire: WheelLook, rooms: dict[str, SideRoom], there: Known, low: dict[str, bool],
    plan: Plan,
) -> Known:  # fmt: skip
    """The wheel's offset as stated; on an axle that is there the one that shares the room."""
    stated = read(x.fitting.wheel.offset, "wheel.backspace", "wheel.offset")
    if not isinstance(stated, Lack):
        return stated
    if plan.offset is not None:
        return plan.offset
    if isinstance(there, Lack):
        return stated
    flat = {s: side_look(x, s, rooms[s], tire, 0.0, low[s]) for s in SIDES}
    return work(
        old_axle.offset_for_half,
        fit_half=work(old_axle.half_of_width, whole_width=there),
        half_without_offset=_even_half(flat),
    )


def limits(sides: dict[str, SideLook]) -> tuple[Known, Known]:
    """Widest and narrowest half that suits both sides."""
    widest = {n: s.widest for n, s in sides.items()}
    narrowest = {n: s.narrowest for n, s in sides.items()}
    return (
        choose("widest half of both sides", "H_max", widest, least),
        choose("narrowest half of both sides", "H_min", narrowest, greatest),
    )


def _even_half(sides: dict[str, SideLook]) -> Known:
    widest, narrowest = limits(sides)
    return work(room.even_half, widest_half=widest, narrowest_half=narrowest)


def _even(sides: dict[str, SideLook]) -> Known:
    half = _even_half(sides)
    return work(width.whole_width, left_half=half, right_half=half)


def spline_diameter(x: Filled) -> Num:
    """Outside of the shaft's spline."""
    return external_major_diameter(x.beside.spline_teeth, x.beside.spline_pitch)


def end_gap(x: Filled) -> Known:
    """Differential center to the inner end of each shaft."""
    gap = read(x.fitting.centre.differential_gap, "centre.differential_gap")
    return work(old_axle.half_gap, shaft_gap=gap)


def shaft_of(bare_half: Known, gap: Known) -> Known:
    """Shaft from flange face to spline end."""
    return work(shaft_length.shaft_length, bare_half=bare_half, end_gap=gap)
