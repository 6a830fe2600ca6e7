"""Will it fit, and how is it cut?  From readings to what is ordered, with what is not known named.

Everything is worked out twice by the same code: at the nominal values, and on samples of what the
readings may be off, held against the width or the offset that was decided at the nominal values.
Clearances over the travel are found in space at the nominal values; their samples are those of the
room at ride height on the same face, moved sideways one to one.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import Estimate, Plain, leaves
from axlewright.quantities.finding import Finding, band
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.sampling import Samples
from axlewright.quantities.working import Node, Nominal, Traced, tracing
from axlewright.studies import fit_holds, fit_words
from axlewright.studies.angles_fill import filled as angles_filled
from axlewright.studies.angles_fill import kind_of
from axlewright.studies.angles_linkage import axle_of
from axlewright.studies.angles_linkage import lacking as lacking_points
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_brakes import (
    brake_gaps,
    brake_words,
    gears,
    rear_share,
    speedo_gaps,
    speedo_words,
)
from axlewright.studies.fit_ends import Gap, fault_of, gaps_of_end
from axlewright.studies.fit_fill import OLD_AXLE_OFF, SIDES, Filled, beside, fill
from axlewright.studies.fit_known import Known, Lack, number
from axlewright.studies.fit_look import Look, Plan, look_across
from axlewright.studies.fit_order import Dimension, dimensions, wanted_engagement
from axlewright.studies.fit_places import Moving, moving, travel
from axlewright.studies.fit_rear import rear_view
from axlewright.studies.fit_report import (
    BrakeReport,
    Contradiction,
    EndLine,
    FitReport,
    Kept,
    OrderLine,
    RoomLine,
    SpeedoReport,
    Travel,
    WheelChoice,
)
from axlewright.studies.fit_room import ANYWHERE, Room, rooms
from axlewright.studies.fit_search import costs, search_report
from axlewright.studies.influence import measure_next
from axlewright.studies.report import Made, MeasureNext
from axlewright.studies.safety import safety_lines
from axlewright.suspension.linkage import Linkage

STUDY = "fit 1"
SAMPLES, SEED = 400, 1


@dataclass(frozen=True)
class Both:
    """The same looked at plainly and on samples."""

    plain: Filled
    look: Look
    drawn: Filled
    sampled: Look
    low: dict[str, bool]
    samples: Samples
    moving: Moving


def fit_study(
    build: Resolved, ask: FitAsk | None = None, seed: int = SEED, count: int = SAMPLES
) -> FitReport:
    """The whole answer."""
    asked = ask or FitAsk()
    b = both(build, seed, count)
    order, lines = _order(b), _rooms(b)
    clashes = _contradictions(build)
    doubt = _doubt(build, b)
    verdict = fit_words.verdict_of(lines, clashes, doubt)
    lacks = fit_holds.missing(_lacks(order, lines))
    tire = build.machine.tires.size
    search = search_report(b.plain, b.look, b.sampled, b.moving, b.low, tire)
    return FitReport(
        name=build.machine.name,
        file=build.source.file,
        sentence=fit_words.sentence(verdict, order, lines, clashes, lacks, doubt),
        verdict=verdict,
        further=fit_words.further(verdict, search, clashes),
        order=order,
        rooms=lines,
        rear=rear_view(b.plain, b.look),
        travel=_travel(b),
        contradictions=clashes,
        unchecked=tuple(dict.fromkeys(k for c in build.fitting.checks for k in c.unchecked)),
        planned=_planned(b, lines, tire),
        search=search,
        costs=costs(b.plain, b.look),
        ends=_ends(build, b),
        brakes=BrakeReport(
            _gap_lines("", brake_gaps(b.plain), brake_gaps(b.drawn)),
            brake_words(b.plain, b.drawn),
        ),
        speedometer=SpeedoReport(
            _gap_lines("", speedo_gaps(b.plain, asked), speedo_gaps(b.drawn, asked)),
            gears(b.plain, asked),
            speedo_words(asked),
        ),
        holds=fit_holds.holds(build, asked, verdict, not clashes),
        missing=lacks,
        measure_next=_next(build, b),
        assumed=assumptions(build, b),
        cautions=_cautions(build, b),
        safety=safety_lines(build.machine),
        made=Made(f"axlewright {__version__}", STUDY, data_hash(), build.source.hash, seed, count),
    )


def _doubt(build: Resolved, b: Both) -> str:
    """Why nothing can be said though readings are there."""
    if build.fitting.state == "hanging":
        return fit_words.HANGING
    wrong = b.moving.impossible
    return f"the numbers of this tire cannot be so: {wrong} (look at [wheel])" if wrong else ""


def both(build: Resolved, seed: int, count: int) -> Both:
    """Look at a build plainly and on samples."""
    plain = fill(build, Plain())
    low = meets_bulge(plain)
    look = look_across(plain, low, Plan())
    samples = Samples(seed, count)
    drawn = fill(build, samples)
    return Both(
        plain, look, drawn, look_across(drawn, low, plan_of(plain, look)), low, samples,
        moving(plain, look, _linkage(build)),
    )  # fmt: skip


def _linkage(build: Resolved) -> Linkage | None:
    """The links, where kind and points are known."""
    kind = kind_of(build)
    if not kind or lacking_points(kind, build.fitting.points):
        return None
    axle = axle_of(angles_filled(build, Plain()), kind)
    return None if axle is None else axle.linkage


def meets_bulge(plain: Filled) -> dict[str, bool]:
    """Whether the thing inboard is beside the bulge over the ground, side by side.

    So it counts where nobody measured its height.
    """
    ups = {side: plain.side(side).inner_up for side in SIDES}
    return {side: up is None or float(up) < 0.0 for side, up in ups.items()}


def plan_of(plain: Filled, look: Look) -> Plan:
    """What was decided: a width that is to be ordered, an offset for an axle that is there."""
    width = None if look.there else number(look.width)
    offset = None if plain.fitting.wheel.offset is not None else number(look.offset)
    return Plan(width, offset)


def _finding(key: str, means: str, plain: Known, drawn: Known, dimension: str) -> Finding | None:
    if isinstance(plain, Lack):
        return None
    value = float(plain)
    low, high = (value, value) if isinstance(drawn, Lack) else band(drawn, value)
    return Finding(key, means, value, low, high, dimension)


def _order(b: Both) -> tuple[OrderLine, ...]:
    rows = zip(dimensions(b.plain, b.look), dimensions(b.drawn, b.sampled), strict=True)
    return tuple(_order_line(b, d, s) for d, s in rows)


def _order_line(b: Both, d: Dimension, s: Dimension) -> OrderLine:
    drawn = b.sampled.best if d.key == "fit_width" else s.value
    found = _finding(d.key, d.what, d.value, drawn, d.dimension)
    note = d.note
    if d.key.startswith("spline_") and found is not None:
        wanted = float(wanted_engagement(b.plain))  # type: ignore[arg-type]
        short = " TOO LITTLE" if found.value < wanted else ""
        note = f"at least {fit_words.length(wanted, 3)} wanted{short}"
    lacks = d.value.keys if isinstance(d.value, Lack) else ()
    return OrderLine(d.key, d.what, d.datum, d.state, d.origin, found, lacks, note)


def _rooms(b: Both) -> tuple[RoomLine, ...]:
    plain = {r.key: r for r in rooms(b.plain, b.look)}
    drawn = {r.key: r for r in rooms(b.drawn, b.sampled)}
    made = [_room_line(r, drawn[r.key].clearance) for r in plain.values()]
    made += _travelled(b, plain, drawn)
    order = {side: n for n, side in enumerate(SIDES)}
    return tuple(sorted(made, key=lambda line: order[line.side]))


def _room_line(r: Room, drawn: Known, note: str = "") -> RoomLine:
    wanted = float(np.median(np.asarray(r.wanted)))
    found = _finding(r.key, f"{r.side}: {r.thing}, {r.where}", r.clearance, drawn, "length")
    if found is None:
        lacks = r.clearance.keys if isinstance(r.clearance, Lack) else ()
        return RoomLine(
            r.key, r.side, r.thing, r.where, None, wanted, None, "not measured", lacks, note
        )
    chance = 1.0 if isinstance(drawn, Lack) else float(np.mean(np.asarray(drawn) >= wanted))
    kept: Kept = "kept" if found.value >= wanted else "short"
    return RoomLine(r.key, r.side, r.thing, r.where, found, wanted, chance, kept, (), note)


def _travelled(b: Both, plain: dict[str, Room], drawn: dict[str, Room]) -> Iterator[RoomLine]:
    """The least room over the whole travel, with what the same face may be off at ride height."""
    least = b.moving.least
    for thing in b.moving.things:
        what, _, side = thing.key.rpartition("_travel_")
        base = f"{what}_ride_{side}"
        ride, off = plain[base], drawn[base].clearance
        lacks = (*thing.lacks, *b.moving.lacks)
        room = Room(thing.key, side, ride.thing, ANYWHERE, Lack(lacks),
                    b.plain.fitting.car.moving_clearance)  # fmt: skip
        found = least.get(thing.key)
        if found is None or isinstance(off, Lack) or isinstance(ride.clearance, Lack):
            yield _room_line(room, room.clearance)
            continue
        nearest = float(found.least)
        moved = Room(thing.key, side, ride.thing, ANYWHERE, nearest, room.wanted)
        samples = nearest + (np.asarray(off) - float(ride.clearance))
        yield _room_line(moved, samples, f"{found.place}, at the {found.zone}")


def _planned(b: Both, lines: Sequence[RoomLine], tire: str) -> WheelChoice | None:
    """What is planned as one of the choices: what is spare beside every face that was measured."""
    by_key = {line.key: line for line in lines if line.clearance is not None}
    faces = [r for r in rooms(b.plain, b.look) if r.faces and r.key in by_key]
    sizes = [number(d.value) for d in dimensions(b.plain, b.look) if d.key in _CHOSEN]
    if not faces or any(v is None for v in sizes):
        return None
    width, backspace, offset, rim, section = (float(v or 0.0) for v in sizes)
    over = {r.key: _over(by_key[r.key]) for r in faces}
    worst = by_key[min(over, key=lambda k: over[k])]
    drawn = [np.asarray(r.clearance) - r.wanted for r in _same(b, over)]
    spare = np.min(np.stack(np.broadcast_arrays(*drawn)), axis=0)
    low, high = band(spare, over[worst.key])
    return WheelChoice(
        tire, rim, section, backspace, offset, width, over[worst.key], low, high,
        float(np.mean(spare >= 0.0)), f"{worst.side} {worst.thing}", worst.where,
        tuple((f"{by_key[k].side} {by_key[k].thing}", -v) for k, v in over.items() if v < 0.0),
        "as it is planned",
    )  # fmt: skip


_CHOSEN = ("fit_width", "backspace", "offset", "rim_width", "section")


def _over(line: RoomLine) -> float:
    assert line.clearance is not None
    return line.clearance.value - line.wanted


def _same(b: Both, keys: Container[str]) -> Iterator[Room]:
    """The sampled rooms of these keys, against what is wanted at the nominal values."""
    wanted = {r.key: float(np.median(np.asarray(r.wanted))) for r in rooms(b.plain, b.look)}
    for r in rooms(b.drawn, b.sampled):
        if r.key in keys:
            yield replace(r, wanted=wanted[r.key])


def _travel(b: Both) -> Travel | None:
    car = b.plain.fitting.car
    if car.bump is None or car.droop is None:
        return None
    return travel(b.moving, float(car.bump), float(car.droop), float(b.plain.beside.track))


def _contradictions(build: Resolved) -> tuple[Contradiction, ...]:
    return tuple(
        Contradiction(c.title, c.said, c.suspects, c.explained_by, c.would_tell)
        for c in build.fitting.checks
        if not c.agree
    )


def _lacks(order: Sequence[OrderLine], lines: Sequence[RoomLine]) -> tuple[str, ...]:
    """Missing keys: first those of the room at ride height, then of the order, then the rest."""
    ride = [k for r in lines if r.key.startswith(("lip_ride", "inner_ride")) for k in r.lacks]
    cut = [k for o in order for k in o.lacks]
    rest = [k for r in lines for k in r.lacks]
    return tuple(dict.fromkeys((*ride, *cut, *rest)))


def _gap_lines(side: str, plain: Iterator[Gap], drawn: Iterator[Gap]) -> tuple[EndLine, ...]:
    return tuple(
        EndLine(
            f"{p.key}_{side}" if side else p.key,
            side,
            p.what,
            _finding(f"{p.key}_{side}" if side else p.key, p.what, p.value, d.value, p.dimension),
            p.value.keys if isinstance(p.value, Lack) else (),
            fault_of(p),
        )
        for p, d in zip(plain, drawn, strict=True)
    )


def _ends(build: Resolved, b: Both) -> tuple[EndLine, ...]:
    """Both ends, or one for both where they were taken alike."""
    alike = _alike(build)
    sides = ("both",) if alike else SIDES
    return tuple(
        line
        for side in sides
        for line in _gap_lines(
            side,
            gaps_of_end(b.plain, "left" if alike else side),
            gaps_of_end(b.drawn, "left" if alike else side),
        )
    )


def _next(build: Resolved, b: Both) -> tuple[MeasureNext, ...]:
    """What widens the tightest clearance most, else the width."""
    known = [r for r in rooms(b.drawn, b.sampled) if isinstance(r.clearance, np.ndarray)]
    answer: Num | Array | None = None
    if known:
        spare = [np.asarray(r.clearance) - np.asarray(r.wanted) for r in known if r.faces]
        answer = np.min(np.stack(np.broadcast_arrays(*spare)), axis=0) if spare else None
    elif isinstance(b.sampled.best, np.ndarray):
        answer = b.sampled.best
    if not isinstance(answer, np.ndarray):
        return ()
    return measure_next(leaves((build.fitting, beside(build))), b.samples, answer)


def assumptions(build: Resolved, b: Both) -> tuple[str, ...]:
    """What is taken for granted where nobody measured, in words."""
    f = build.fitting
    used = leaves((f.car, f.wheel, f.left_end, f.right_end, f.centre, f.brakes))
    if _middle_assumed(b):
        used[OLD_AXLE_OFF.path] = OLD_AXLE_OFF
    idle = _idle(b)
    return tuple(
        f"{e.means.rstrip('.')}: {e.text} ({e.source})"
        for e in used.values()
        if isinstance(e, Estimate) and e.origin == "assumed" and e.text and e.path not in idle
    )


def _idle(b: Both) -> frozenset[str]:
    """Keys of the brakes that nothing is worked out from in this build."""
    brakes = b.plain.fitting.brakes
    found = {"brakes.knee_share"} if brakes.knee_pressure is None else set()
    if not isinstance(rear_share(b.plain), Lack):
        found.add("brakes.rear_share")
    if brakes.rear_kind != "drum":
        found.add("brakes.rear_drum_factor")
    return frozenset(found)


def _middle_assumed(b: Both) -> bool:
    """Whether the old axle is taken as sitting in the middle, for want of body datums."""
    f = b.plain.fitting
    datums = (f.car.rail_to_rail, f.left.rail, f.right.rail)
    return f.car.face_to_face is not None and any(d is None for d in datums)


_STRAIGHT = (
    "The links are not worked in: the axle goes straight up and down and leans where it stands. A"
    " lateral rod moves it sideways: state fit.lateral_shift so that it covers that, or measure the"
    " points of the suspension."
)
_BEFORE_CUTTING = (
    "Lengths of shafts are taken again from the finished, straightened housing; a shaft that was"
    " cut is not taken back."
)
_MIDDLE = (
    "Body datums were not measured (fit.rail_to_rail, fit.left.rail, fit.right.rail): the old axle"
    " is taken as sitting in the middle, within a quarter inch."
)
_CLEARANCE = (
    "There is no firm standard for clearance: what is wanted here is common practice for street"
    " radials. Tires lean in bends, throw stones and wear chains; turn the wheel by hand through"
    " the whole travel before it is driven."
)
_SHOCK = (
    "Shocks and springs are taken where they stand on the old axle; new brackets may move them."
)


def _cautions(build: Resolved, b: Both) -> tuple[str, ...]:
    said = [*build.fitting.cautions, b.moving.caution]
    if _middle_assumed(b):
        said.append(_MIDDLE)
    if b.moving.places is not None and b.moving.linkage is None:
        said.append(_STRAIGHT)
    if any(b.plain.side(side).shock is not None for side in SIDES):
        said.append(_SHOCK)
    said += [_CLEARANCE, _BEFORE_CUTTING]
    return tuple(dict.fromkeys(s for s in said if s))


def fit_nodes(build: Resolved) -> dict[str, Node]:
    """The working behind every number that is worked out from one reading after the other, by id.

    Clearances over the whole travel are looked for in space: theirs tells where they were found.
    """
    b = both(build, SEED, 2)
    with tracing():
        x = fill(build, Nominal())
        look = look_across(x, meets_bulge(x), Plan())
        found: dict[str, Known] = {d.key: d.value for d in dimensions(x, look)}
        found |= {r.key: r.clearance for r in rooms(x, look)}
        found |= {g.key: g.value for g in (*brake_gaps(x), *speedo_gaps(x, FitAsk()))}
        sides = ("both",) if _alike(build) else SIDES
        for side in sides:
            which = "left" if side == "both" else side
            found |= {f"{g.key}_{side}": g.value for g in gaps_of_end(x, which)}
    nodes = {key: v.node for key, v in found.items() if isinstance(v, Traced)}
    for key, clearance in b.moving.least.items():
        nodes[key] = Node(
            "solve", f"Least room over the whole travel: {clearance.place}, at the"
            f" {clearance.zone} ({clearance.known})", "", "length", float(clearance.least),
            {"room at ride height": nodes[key.replace("_travel_", "_ride_")]},
        )  # fmt: skip
    return nodes


def _alike(build: Resolved) -> bool:
    """Whether both ends were taken alike."""
    left, right = build.fitting.left_end, build.fitting.right_end
    return all(
        getattr(v, "path", None) == getattr(getattr(right, name), "path", None)
        for name, v in vars(left).items()
    )
