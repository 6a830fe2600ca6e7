"""Where everything stands across the car: lips, wheel, faces of the old and of the new axle.

The new axle's width is the one that is there, or the one that shares the room evenly.  What is
decided so is a choice, not a measurement: samples of what may be off are held against the choice
made at the nominal values (:class:`Plan`), else every clearance would always come out even.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from axlewright.fit import old_axle, room, shaft_length, tire_section, wheel, width
from axlewright.mechanics.splines import external_major_diameter
from axlewright.quantities.formula import Num, greatest, least
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Known, Lack, first, lacking, read, work


@dataclass(frozen=True)
class Plan:
    """What was decided at the nominal values, in m; None where it is measured."""

    width: Num | None = None
    offset: Num | None = None


@dataclass(frozen=True)
class WheelLook:
    """The new wheel with its tire, in m."""

    section: Known
    over_lips: Known
    radius: Num
    running: Num
    lip_radius: Num
    tread: Num


@dataclass(frozen=True)
class SideLook:
    """One side, from the car's center plane outward, in m."""

    face: Known
    """Wheel face of the old axle."""
    lip: Known
    lip_at_bump: Known
    inner: Known
    inner_at_bump: Known
    shock: Known
    offset: Known
    """Of the wheel, with this side's spacer."""
    out: Known
    """Tire or rim outboard of the wheel face."""
    inside: Known
    """Tire or rim inboard of the wheel face, where the nearest thing is."""
    inside_high: Known
    """The same above the wheel's center."""
    widest: Known
    narrowest: Known


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
    tire = _wheel(x)
    there = width_there(x)
    rooms = {side: _room(x, side) for side in SIDES}
    offset = _offset(x, tire, rooms, there, low, plan)
    sides = {side: _side(x, side, rooms[side], tire, offset, low[side]) for side in SIDES}
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


def _wheel(x: Filled) -> WheelLook:
    w = x.fitting.wheel
    rim = read(w.rim_width, "wheel.rim_width")
    radius = tire_section.free_radius_of(w.diameter)
    return WheelLook(
        section=work(
            tire_section.section_on_rim,
            measured_section=w.section,
            rim_width=rim,
            measuring_rim=w.measuring_rim,
        ),
        over_lips=work(wheel.rim_over_lips, rim_width=rim, rim_lip=w.lip_width),
        radius=radius,
        running=old_axle.radius_at_top_speed(radius, w.growth),
        lip_radius=wheel.rim_lip_radius(w.rim_diameter, w.lip_height),
        tread=w.tread_width,
    )


@dataclass(frozen=True)
class _Room:
    """What the body leaves, from its center plane, and the old wheel face."""

    face: Known
    lip: Known
    inner: Known


def _room(x: Filled, side: str) -> _Room:
    r = x.side(side)
    face = _old_face(x, side)
    return _Room(
        face,
        work(room.lip_from_face, fit_half=face, face_to_lip=read(r.lip, f"fit.{side}.lip")),
        work(room.inner_from_face, fit_half=face, face_to_inner=read(r.inner, f"fit.{side}.inner")),
    )


def _old_face(x: Filled, side: str) -> Known:
    """Old wheel face from the body's datum; else half the old width, which may be off."""
    car = x.fitting.car
    by_rail = work(
        old_axle.face_from_rail,
        rail_to_rail=read(car.rail_to_rail, "fit.rail_to_rail"),
        rail_to_face=read(x.side(side).rail, f"fit.{side}.rail"),
    )
    by_width = work(
        width.left_half if side == "left" else width.right_half,
        whole_width=read(car.face_to_face, "fit.face_to_face"),
        center_offset=x.beside.old_axle_off,
    )
    return first(by_rail, by_width)


def _offset(
    x: Filled, tire: WheelLook, rooms: dict[str, _Room], there: Known, low: dict[str, bool],
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
    flat = {s: _side(x, s, rooms[s], tire, 0.0, low[s]) for s in SIDES}
    return work(
        old_axle.offset_for_half,
        fit_half=work(old_axle.half_of_width, whole_width=there),
        half_without_offset=_even_half(flat),
    )


def choose(name: str, symbol: str, of: dict[str, Known], rule: Callable[..., Num]) -> Known:
    """The least or greatest of several, or what they lack."""
    lacks = lacking(of.values())
    return Lack(lacks) if lacks else rule(name, symbol, "length", **of)


def _side(
    x: Filled, side: str, there: _Room, tire: WheelLook, offset: Known, low: bool
) -> SideLook:
    r = x.side(side)
    own = work(wheel.offset_with_spacer, wheel_offset=offset, wheel_spacer=x.end(side).spacer)
    high = {"mounted_section": tire.section, "rim_over_lips": tire.over_lips, "wheel_offset": own}
    inside_high = work(wheel.inboard_reach, **high)
    inside = _over_ground(x, tire, high) if low else inside_high
    out = work(wheel.outboard_reach, **high)
    at_bump = read(r.lip_at_bump, f"fit.{side}.lip_at_bump")
    lip_at_bump = work(room.lip_from_face, fit_half=there.face, face_to_lip=at_bump)
    inner_at_bump = _inward(there.face, r.inner_at_bump, f"fit.{side}.inner_at_bump")
    shock = _inward(there.face, r.shock, f"fit.{side}.shock")
    return SideLook(
        face=there.face,
        lip=there.lip,
        lip_at_bump=lip_at_bump,
        inner=there.inner,
        inner_at_bump=inner_at_bump,
        shock=shock,
        offset=own,
        out=out,
        inside=inside,
        inside_high=inside_high,
        widest=_widest(x, side, there.lip, lip_at_bump, out),
        narrowest=_narrowest(
            x, side, {"inboard": (there.inner, inside), "shock": (shock, inside)},
            (inner_at_bump, inside_high),
        ),
    )  # fmt: skip


def _over_ground(x: Filled, tire: WheelLook, high: dict[str, Known]) -> Known:
    """Inboard of the wheel face where the tire bulges over the ground."""
    wide = work(
        old_axle.section_over_ground,
        mounted_section=tire.section,
        ground_bulge=x.fitting.wheel.loaded_bulge,
    )
    return work(wheel.inboard_reach, **(high | {"mounted_section": wide}))


def wanted_when_moving(x: Filled) -> Num:
    """Clearance to keep beside a centered axle at bump."""
    car = x.fitting.car
    return old_axle.wanted_when_moving(car.moving_clearance, car.lateral_shift)


def _widest(x: Filled, side: str, lip: Known, at_bump: Known, out: Known) -> Known:
    """Widest half for the lip, and for what is beside the tire at bump where that was measured."""
    wanted = x.fitting.car.outer_clearance
    halves = {
        "lip": work(room.widest_half, lip_position=lip, outer_wanted=wanted, outboard_reach=out)
    }
    if not isinstance(at_bump, Lack):
        halves["at_bump"] = work(
            room.widest_half,
            lip_position=at_bump,
            outer_wanted=wanted_when_moving(x),
            outboard_reach=out,
        )
    return choose(f"widest half, {side}", "H_max", halves, least)


def _narrowest(
    x: Filled, side: str, things: dict[str, tuple[Known, Known]], at_bump: tuple[Known, Known]
) -> Known:
    """Narrowest half for what lies inboard; what nobody measured beside the nearest is left out."""
    wanted = x.fitting.car.inner_clearance
    halves = {
        name: work(room.narrowest_half, inner_position=at, inner_wanted=wanted,
                   inboard_reach=inside)
        for name, (at, inside) in things.items()
        if name == "inboard" or not isinstance(at, Lack)
    }  # fmt: skip
    if not isinstance(at_bump[0], Lack):
        halves["at_bump"] = work(
            room.narrowest_half,
            inner_position=at_bump[0],
            inner_wanted=wanted_when_moving(x),
            inboard_reach=at_bump[1],
        )
    return choose(f"narrowest half, {side}", "H_min", halves, greatest)


def _inward(face: Known, reading: Num | None, key: str) -> Known:
    return work(room.inner_from_face, fit_half=face, face_to_inner=read(reading, key))


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
