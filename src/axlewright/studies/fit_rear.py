"""What a picture of the axle from behind shows, as plain numbers."""

from __future__ import annotations

from axlewright.fit import width
from axlewright.quantities.formula import Num
from axlewright.studies.fit_fill import Filled
from axlewright.studies.fit_known import number, work
from axlewright.studies.fit_look import Look, brake_space, hat
from axlewright.studies.fit_report import RearSide, RearView


def rear_view(x: Filled, look: Look) -> RearView:
    """Everything across the car, side by side."""
    w, c = look.wheel, x.fitting.centre
    return RearView(
        left=_side(x, look, "left"),
        right=_side(x, look, "right"),
        section=number(w.section),
        over_lips=number(w.over_lips),
        radius=float(w.running),
        lip_radius=float(w.lip_radius),
        tread=float(w.tread),
        differential=_plain(c.differential_left),
        pinion=_plain(c.pinion_left),
        track=float(x.beside.track),
    )


def _side(x: Filled, look: Look, side: str) -> RearSide:
    s, r = look.side(side), x.side(side)
    flange = work(width.bare_half, fit_half=look.half, wheel_hat=hat(x, side))
    end = work(width.housing_half, bare_half=flange, brake_space=brake_space(x, side))
    middle = work(
        width.half_to_nearer_center, half_width=look.half, center_shift=s.offset
    )  # a wheel's offset draws its middle in
    return RearSide(
        face=number(look.half),
        middle=number(middle),
        lip=number(s.lip),
        lip_up=_plain(r.lip_height),
        inner=number(s.inner),
        inner_up=_plain(r.inner_up),
        inner_thing=r.inner_thing or "thing inboard",
        shock=number(s.shock),
        flange=number(flange),
        end=number(end),
    )


def _plain(value: Num | None) -> float | None:
    return None if value is None else float(value)
