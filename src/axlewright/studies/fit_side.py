"""One side across the car: where lip and things inboard are, and which halves they allow."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from axlewright.fit import old_axle, room, tire_section, wheel, width
from axlewright.quantities.formula import Num, greatest, least
from axlewright.studies.fit_fill import Filled
from axlewright.studies.fit_known import Known, Lack, first, lacking, read, work


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


def wheel_look(x: Filled) -> WheelLook:
    """The new wheel with its tire."""
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
class SideRoom:
    """What the body leaves, from its center plane, and the old wheel face."""

    face: Known
    lip: Known
    inner: Known


def side_room(x: Filled, side: str) -> SideRoom:
    """Old face, lip and thing inboard of one side."""
    r = x.side(side)
    face = _old_face(x, side)
    return SideRoom(
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


def side_look(
    x: Filled, side: str, there: SideRoom, tire: WheelLook, offset: Known, low: bool
) -> SideLook:
    """One side with a wheel of some offset; ``low`` says that the bulge over the ground counts."""
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


def choose(name: str, symbol: str, of: dict[str, Known], rule: Callable[..., Num]) -> Known:
    """The least or greatest of several, or what they lack."""
    lacks = lacking(of.values())
    return Lack(lacks) if lacks else rule(name, symbol, "length", **of)
