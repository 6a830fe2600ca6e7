"""Rows of the answer: each value with its band, what is kept of it, and what it lacks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from axlewright.build.resolve import Resolved
from axlewright.quantities.finding import Finding, band
from axlewright.studies.fit_both import Both
from axlewright.studies.fit_ends import Gap, fault_of, gaps_of_end
from axlewright.studies.fit_fill import SIDES
from axlewright.studies.fit_known import Known, Lack
from axlewright.studies.fit_order import Dimension, dimensions, wanted_engagement
from axlewright.studies.fit_report import EndLine, Kept, OrderLine, RoomLine
from axlewright.studies.fit_room import ANYWHERE, Room, rooms
from axlewright.studies.fit_words import length


def order_lines(b: Both) -> tuple[OrderLine, ...]:
    """What is ordered by."""
    rows = zip(dimensions(b.plain, b.look), dimensions(b.drawn, b.sampled), strict=True)
    return tuple(_order_line(b, d, s) for d, s in rows)


def _order_line(b: Both, d: Dimension, s: Dimension) -> OrderLine:
    drawn = b.sampled.best if d.key == "fit_width" else s.value
    found = _finding(d.key, d.what, d.value, drawn, d.dimension)
    note = d.note
    if d.key.startswith("spline_") and found is not None:
        wanted = float(wanted_engagement(b.plain))  # type: ignore[arg-type]
        short = " TOO LITTLE" if found.value < wanted else ""
        note = f"at least {length(wanted, 3)} wanted{short}"
    lacks = d.value.keys if isinstance(d.value, Lack) else ()
    return OrderLine(d.key, d.what, d.datum, d.state, d.origin, found, lacks, note)


def room_lines(b: Both) -> tuple[RoomLine, ...]:
    """Room beside both wheels, left first."""
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


def gap_lines(side: str, plain: Iterator[Gap], drawn: Iterator[Gap]) -> tuple[EndLine, ...]:
    """Gaps of one side, or of the whole car where no side is named."""
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


def end_lines(build: Resolved, b: Both) -> tuple[EndLine, ...]:
    """Both ends, or one for both where they were taken alike."""
    alike = alike_ends(build)
    sides = ("both",) if alike else SIDES
    return tuple(
        line
        for side in sides
        for line in gap_lines(
            side,
            gaps_of_end(b.plain, "left" if alike else side),
            gaps_of_end(b.drawn, "left" if alike else side),
        )
    )


def alike_ends(build: Resolved) -> bool:
    """Whether both ends were taken alike."""
    left, right = build.fitting.left_end, build.fitting.right_end
    return all(
        getattr(v, "path", None) == getattr(getattr(right, name), "path", None)
        for name, v in vars(left).items()
    )


def _finding(key: str, means: str, plain: Known, drawn: Known, dimension: str) -> Finding | None:
    if isinstance(plain, Lack):
        return None
    value = float(plain)
    low, high = (value, value) if isinstance(drawn, Lack) else band(drawn, value)
    return Finding(key, means, value, low, high, dimension)
