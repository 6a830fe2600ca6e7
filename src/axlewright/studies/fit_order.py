"""The dimensions that are ordered by, each under its key: widths, shafts, wheel, ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from axlewright.fit import room, shaft_length, wheel, width
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Known, read, work
from axlewright.studies.fit_look import (
    Look,
    brake_space,
    end_gap,
    hat,
    shaft_of,
    spline_diameter,
)
from axlewright.studies.fit_report import Origin

_HAT = "wheel face to wheel face: what the wheels touch, hats or drums in place"
_BARE = "bare flange face to bare flange face, brakes off"
_PIN = "center of the differential (cross pin)"
_BENCH = "housing bare and straight, on the bench"
_SHAFT = "shaft seated; taken again from the finished housing before it is cut"


@dataclass(frozen=True)
class Dimension:
    """One dimension of the order: its value, and from where to where it runs."""

    key: str
    what: str
    datum: str
    state: str
    value: Known
    origin: Origin = "follows"
    note: str = ""
    dimension: str = "length"


def dimensions(x: Filled, look: Look) -> Iterator[Dimension]:
    """Every dimension, in the order in which they are cut."""
    hats = {f"{s}_hat": hat(x, s) for s in SIDES}
    order = work(width.order_width, fit_width=look.width, **hats)
    spaces = {f"{s}_brake_space": brake_space(x, s) for s in SIDES}
    yield Dimension("fit_width", "Axle over the wheel faces", _HAT, "on the bench or in the car",
                    look.width, "measured" if look.there else "follows",
                    "" if look.there else "to the nearest 1/8 in")  # fmt: skip
    yield Dimension("order_width", "Axle over the bare flanges", _BARE, "shafts seated", order,
                    "follows" if look.there else "to order",
                    "the width by which axles are ordered")  # fmt: skip
    housing = work(width.housing_width, order_width=order, **spaces)
    yield Dimension("housing_width", "Housing, end to end", "end face to end face", _BENCH, housing)
    yield from _halves(x, look)
    yield from _wheel(x, look)
    yield from _ends(x)


def _halves(x: Filled, look: Look) -> Iterator[Dimension]:
    """Both sides from the center of the differential, and both shafts."""
    c = x.fitting.centre
    differential = read(c.differential_left, "centre.differential_left")
    pinion = read(c.pinion_left, "centre.pinion_left")
    gap = end_gap(x)
    bare = {s: _bare(x, look, s, differential) for s in SIDES}
    for side in SIDES:
        half = work(width.housing_half, bare_half=bare[side], brake_space=brake_space(x, side))
        yield Dimension(f"housing_{side}", f"Housing, {side} end face from the differential",
                        f"{_PIN} to {side} end face", _BENCH, half)  # fmt: skip
    for side in SIDES:
        flange = _bare(x, look, side, pinion)
        yield Dimension(f"pinion_{side}", f"Pinion center to the {side} flange",
                        f"pinion center line to {side} bare flange face", "shafts seated",
                        flange)  # fmt: skip
    for side in SIDES:
        yield Dimension(f"shaft_{side}", f"{side.capitalize()} shaft",
                        "flange face to spline end", _SHAFT, shaft_of(bare[side], gap))  # fmt: skip
    for side in SIDES:
        yield Dimension(f"spline_{side}", f"{side.capitalize()} spline engaged",
                        f"side gear's spline, from {_PIN}", "shaft drawn out by its float",
                        _engaged(x, gap))  # fmt: skip


def _bare(x: Filled, look: Look, side: str, center: Known) -> Known:
    """Center of differential or pinion to the bare flange of a side."""
    moved = width.half_to_nearer_center if side == "left" else width.half_to_further_center
    half = work(moved, half_width=look.half, center_shift=center)
    return work(width.bare_half, fit_half=half, wheel_hat=hat(x, side))


def _engaged(x: Filled, gap: Known) -> Known:
    c = x.fitting.centre
    return work(
        shaft_length.engaged_length,
        end_gap=gap,
        shaft_spline=read(c.shaft_spline, "centre.shaft_spline"),
        gear_spline_inner=read(c.spline_inner, "centre.spline_inner"),
        gear_spline_outer=read(c.spline_outer, "centre.spline_outer"),
        float_out=c.shaft_float,
    )


def wanted_engagement(x: Filled) -> Known:
    """Least spline that should stay engaged."""
    return work(
        shaft_length.wanted_engagement,
        shaft_spline_diameter=spline_diameter(x),
        engagement_share=x.fitting.centre.splines_engaged,
    )


def _wheel(x: Filled, look: Look) -> Iterator[Dimension]:
    w = x.fitting.wheel
    rim = read(w.rim_width, "wheel.rim_width")
    stated = w.offset is not None
    origin: Origin = "measured" if stated else "to order"
    back = work(wheel.backspace_from_offset, wheel_offset=look.offset, rim_width=rim,
                rim_lip=w.lip_width)  # fmt: skip
    lip = "edge of the inner rim lip to mounting face"
    yield Dimension("backspace", "Wheel, backspace", lip, "wheel alone, face down", back, origin)
    yield Dimension("offset", "Wheel, offset", "middle of the rim to mounting face, + outboard",
                    "wheel alone", look.offset, origin)  # fmt: skip
    yield Dimension("rim_width", "Wheel, rim width", "bead seat to bead seat", "as sold", rim,
                    "measured")  # fmt: skip
    yield Dimension("section", "Tire, widest", "sidewall to sidewall on this rim",
                    "mounted, at pressure, free of the ground", look.wheel.section)  # fmt: skip
    for side in SIDES:
        s = look.side(side)
        yield Dimension(f"widest_tire_{side}", f"Widest tire or rim that the {side} takes",
                        "lip to the thing inboard, less both clearances", "ride height",
                        work(room.widest_tire, lip_position=s.lip, inner_position=s.inner,
                             outer_wanted=x.fitting.car.outer_clearance,
                             inner_wanted=x.fitting.car.inner_clearance))  # fmt: skip


def _ends(x: Filled) -> Iterator[Dimension]:
    for side in SIDES:
        yield Dimension(f"brake_space_{side}", f"Brake space, {side}",
                        "housing end face to bare flange face", "shaft seated, parts on the bench",
                        brake_space(x, side), "measured")  # fmt: skip
    for side in SIDES:
        yield Dimension(f"hat_{side}", f"Rotor hat or drum, {side}",
                        "flange side to wheel side", "new part, on the bench", hat(x, side),
                        "measured")  # fmt: skip
