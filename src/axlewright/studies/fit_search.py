"""The wheels and widths that can be had, tried one with another: which clear, what others lack."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from axlewright.build.sizes import read_tire
from axlewright.fit import old_axle, tire_section, wheel
from axlewright.fit.axle_places import AxlePlaces
from axlewright.fit.clearance import Facing, Obstacle, Side
from axlewright.fit.swept_room import tires_of
from axlewright.fit.trade_off import Setup, changes
from axlewright.fit.wheel_choice import Choice, Halves, Size, Slips
from axlewright.fit.wheel_search import search
from axlewright.quantities.formula import Array
from axlewright.studies.fit_fill import SIDES, Filled
from axlewright.studies.fit_known import Known, Lack, lacking, read
from axlewright.studies.fit_look import Look
from axlewright.studies.fit_places import Moving
from axlewright.studies.fit_report import SearchReport, StepCost, WheelChoice
from axlewright.studies.fit_side import wanted_when_moving
from axlewright.vehicle.tire import free_diameter

INCH = 0.0254
QUARTER = 0.25 * INCH
_RIM_RANGE = 1.5 * INCH
"""How far from its measuring rim a tire may be mounted; from memory, makers' tables rule."""
_BACK, _WIDER = 6, 8
"""Quarter inches to either side that are tried where no list was stated."""
MOST = 12_000
"""Combinations that are tried at once."""
EVERY_BACKSPACE = (
    "Backspaces are tried every quarter inch: whether they can be had only the maker's list tells"
    " (wheel.backspaces narrows them)."
)
EVERY_WIDTH = (
    "Axle widths are tried every quarter inch to 2 in either way; what costs least is the width"
    " nearest to the one that is planned."
)
RIM_RANGE = (
    "A tire is tried on rims within 1 1/2 in of its measuring rim (from memory): the maker's table"
    " says what it may really go on."
)


@dataclass(frozen=True)
class Lists:
    """What is tried, SI."""

    sizes: tuple[Size, ...]
    rims: tuple[float, ...]
    backspaces: tuple[float, ...]
    halves: tuple[Halves, ...]
    notes: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many combinations there are."""
        return len(self.sizes) * len(self.rims) * len(self.backspaces) * len(self.halves)


RIDE = AxlePlaces(np.zeros((1, 1, 3)), np.array([[[0.0, 1.0, 0.0]]]), ("ride height",), "as read")
BUMP = AxlePlaces(np.zeros((1, 1, 3)), np.array([[[0.0, 1.0, 0.0]]]), ("full bump",), "as read")
_TREAD_SHARE = 0.78
_RIM_SHARES = {True: 0.725, False: 0.875}
_TALL = 0.5
OTHER_TIRES = (
    "Tires other than the one that is planned are taken by the numbers of their size: mounted they"
    " may be a half inch wider or narrower. Measure before anything is ordered for them."
)


def lists(x: Filled, look: Look, tire: str) -> Lists | Lack:
    """What is to be tried: the lists of the build, else quarter inches about what is planned."""
    w = x.fitting.wheel
    rim = read(w.rim_width, "wheel.rim_width", "wheel.rim_widths")
    rims = tuple(float(r) for r in w.rim_widths)
    if not rims and isinstance(rim, Lack):
        return rim
    rims = tuple(dict.fromkeys((*(() if isinstance(rim, Lack) else (float(rim),)), *rims)))
    if isinstance(look.best, Lack):
        return look.best
    others = tuple(t for t in w.tires if t.lower() != tire.lower())
    notes = [RIM_RANGE] if len(rims) > 1 or others else []
    backs = tuple(float(b) for b in w.backspaces)
    if not backs:
        notes.append(EVERY_BACKSPACE)
        backs = _about(_backspace(x, look, rims[0]), _BACK)
    if others:
        notes.append(OTHER_TIRES)
    notes.append(EVERY_WIDTH)
    sizes = _sizes(x, look, others)
    lip = float(w.lip_width)
    wrong = {size.name: said for size in sizes if (said := _wrong(size, rims, lip))}
    notes += [f"{name} was left out: {said}." for name, said in wrong.items()]
    sizes = tuple(size for size in sizes if size.name not in wrong)
    return Lists(sizes, rims, backs, _widths(look), tuple(notes))


def _wrong(size: Size, rims: Sequence[float], lip: float) -> str:
    """Why a tire's numbers cannot be so, on any of the rims; nothing if they can."""
    pairs = [
        (size, w, float(tire_section.section_on_rim(size.section, w, size.measuring_rim)))
        for w in rims
    ]
    return "; ".join(tires_of(pairs, lip)[0].problems)


def _about(middle: float, count: int) -> tuple[float, ...]:
    """Whole quarter inches to both sides of a length."""
    nearest = round(middle / QUARTER)
    return tuple(float(n * QUARTER) for n in range(nearest - count, nearest + count + 1))


def _backspace(x: Filled, look: Look, rim: float) -> float:
    offset = 0.0 if isinstance(look.offset, Lack) else float(look.offset)
    return float(wheel.backspace_from_offset(offset, rim, float(x.fitting.wheel.lip_width)))


def _widths(look: Look) -> tuple[Halves, ...]:
    assert not isinstance(look.width, Lack)
    now = float(look.width)
    made = []
    for n in sorted(range(-_WIDER, _WIDER + 1), key=abs):
        half = 0.5 * (now + n * QUARTER)
        made.append(Halves("this width" if n == 0 else "another width", half, half, abs(n)))
    return tuple(made)


def _sizes(x: Filled, look: Look, others: Sequence[str]) -> tuple[Size, ...]:
    """The tire that is planned, and those that are thought of."""
    w = x.fitting.wheel
    fitted = Size(
        PLANNED, float(w.section), float(w.measuring_rim),
        float(w.measuring_rim) - _RIM_RANGE, float(w.measuring_rim) + _RIM_RANGE,
        float(look.wheel.running), float(look.wheel.tread), float(look.wheel.lip_radius),
        0.5 * float(w.loaded_bulge),
    )  # fmt: skip
    return (fitted, *(_size(x, text) for text in others))


PLANNED = "the tire that is planned"


def _size(x: Filled, text: str) -> Size:
    w, size = x.fitting.wheel, read_tire(text)
    rim = float(tire_section.theoretical_rim(
        size.section_width, _RIM_SHARES[size.aspect_ratio >= _TALL]
    ))  # fmt: skip
    free = tire_section.free_radius_of(
        free_diameter(size.section_width, size.aspect_ratio, size.rim_diameter)
    )
    return Size(
        text, size.section_width, rim, rim - _RIM_RANGE, rim + _RIM_RANGE,
        float(old_axle.radius_at_top_speed(free, w.growth)),
        float(tire_section.tread_of_section(size.section_width, _TREAD_SHARE)),
        float(wheel.rim_lip_radius(size.rim_diameter, w.lip_height)),
        0.5 * float(w.loaded_bulge),
    )  # fmt: skip


def obstacles(
    x: Filled, look: Look, m: Moving, low: dict[str, bool], sizes: Sequence[Size]
) -> tuple[list[Obstacle], list[AxlePlaces], list[str]]:
    """Everything that a wheel must stay off, where the axle stands then, and whose value it is.

    What was read sideways is an edge that every tire meets where it is widest.
    """
    found: list[Obstacle] = []
    where: list[AxlePlaces] = []
    of: list[str] = []
    waists = [0.5 * (size.radius + size.lip_radius) for size in sizes]
    waist, run = min(waists), float(np.sqrt(max(waists) ** 2 - min(waists) ** 2))
    wanted = x.fitting.car
    outer, inner = float(wanted.outer_clearance), float(wanted.inner_clearance)
    moving = float(wanted_when_moving(x))
    for side in SIDES:
        s, thing = look.side(side), x.side(side).inner_thing or "thing inboard"
        under = -waist if low[side] else waist
        for key, name, facing, at, height, clear, places in (
            ("lip", "outer lip", "outer", s.lip, waist, outer, RIDE),
            ("inner", thing, "inner", s.inner, under, inner, RIDE),
            ("shock", "shock or spring", "inner", s.shock, under, inner, RIDE),
            ("lip_at_bump", "outer lip", "outer", s.lip_at_bump, waist, moving, BUMP),
            ("inner_at_bump", thing, "inner", s.inner_at_bump, waist, moving, BUMP),
        ):
            if not isinstance(at, Lack):
                found.append(_obstacle(name, side, facing, (float(at), height, run), clear))
                where.append(places)
                of.append(key)
    if m.places is not None:
        for t in m.things:
            if t.obstacle is not None:
                found.append(replace(t.obstacle, name=f"{t.obstacle.side} {t.obstacle.name}"))
                where.append(m.places)
                of.append(t.key.partition("_")[0])
    return found, where, of


def _obstacle(
    name: str, side: str, facing: str, where: tuple[float, float, float], wanted: float
) -> Obstacle:
    which: Side = "left" if side == "left" else "right"
    looks: Facing = "outer" if facing == "outer" else "inner"
    out, height, run = where
    return Obstacle(f"{side} {name}", which, looks, out, height, half_run=run, wanted=wanted)


def slips(look: Look, drawn: Look, found: Sequence[Obstacle], of: Sequence[str]) -> Slips:
    """How far off each thing, each wheel face and the tire may be, in the samples."""
    out = [
        _off(getattr(drawn.side(o.side), key), getattr(look.side(o.side), key))
        for o, key in zip(found, of, strict=True)
    ]
    half = _off(drawn.half, look.half)
    section = _off(drawn.wheel.section, look.wheel.section)
    rows = np.stack(np.broadcast_arrays(*out, half, section))
    sides: dict[Side, Array] = {"left": rows[-2], "right": rows[-2]}
    return Slips(rows[:-2], sides, rows[-1])


def _off(drawn: Known, nominal: Known) -> Array:
    assert not isinstance(drawn, Lack)
    assert not isinstance(nominal, Lack)
    return np.atleast_1d(np.asarray(drawn, dtype=np.float64) - float(nominal))


def search_report(
    x: Filled, look: Look, drawn: Look, m: Moving, low: dict[str, bool], tire: str
) -> SearchReport:
    """Try everything that can be had; ``tire`` is the size of the one that is planned."""
    tried = lists(x, look, tire)
    if isinstance(tried, Lack):
        return SearchReport(0, 0, 0, (), (), (), tried.keys)
    if tried.count > MOST:
        said = f"{tried.count:,} combinations are too many at once; {MOST:,} are tried at most."
        return SearchReport(0, 0, 0, (), (), (said,), ())
    if not tried.sizes or tried.sizes[0].name != PLANNED:
        return SearchReport(0, 0, 0, (), (), tried.notes, ())
    found, where, of = obstacles(x, look, m, low, tried.sizes)
    off = slips(look, drawn, found, of)
    lip = float(x.fitting.wheel.lip_width)
    got = search(tried.sizes, tried.rims, tried.backspaces, tried.halves, lip, found, where, off)
    return SearchReport(
        tried=got.tried,
        fitting=got.fitting,
        off_range=got.off_range,
        choices=tuple(_told(c, tire) for c in got.choices),
        misses=tuple(_told(c, tire) for c in got.misses),
        notes=tried.notes,
        lacks=(),
    )


def _told(c: Choice, tire: str) -> WheelChoice:
    low, high = c.band or (c.spare, c.spare)
    return WheelChoice(
        tire=tire if c.size.name == PLANNED else c.size.name,
        rim_width=c.rim_width,
        section=c.section,
        backspace=c.backspace,
        offset=c.offset,
        width=c.halves.left + c.halves.right,
        spare=c.spare,
        low=low,
        high=high,
        chance=1.0 if c.chance is None else c.chance,
        tightest=c.tightest,
        place=c.place,
        lacks=c.lacks,
        reason=c.reason,
    )


def costs(x: Filled, look: Look) -> tuple[StepCost, ...]:
    """What a quarter inch of each dimension costs in room."""
    w, s = x.fitting.wheel, look.left
    rim = read(w.rim_width, "wheel.rim_width")
    parts = (look.half, look.offset, rim, s.lip, s.inner)
    if lacking(parts):
        return ()
    half, offset, width, lip, inner = (float(p) for p in parts if not isinstance(p, Lack))
    edge = float(w.lip_width)
    setup = Setup(
        half, wheel.backspace_from_offset(offset, width, edge), width, edge,
        float(w.section), float(w.measuring_rim), lip, inner,
    )  # fmt: skip
    return tuple(StepCost(c.what, float(c.outer), float(c.inner)) for c in changes(setup, QUARTER))
