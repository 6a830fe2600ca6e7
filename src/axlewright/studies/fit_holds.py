"""What may be ordered or done now, what waits for which reading, and what to measure first."""

from __future__ import annotations

from axlewright.build.edit import raw_values
from axlewright.build.resolve import Resolved
from axlewright.fit.hold_keys import known_readings
from axlewright.fit.hold_points import Verdict as Held
from axlewright.fit.hold_points import verdicts
from axlewright.measuring.worksheet import items
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_report import HoldLine, MeasureLine, Verdict

ROOM = "room each side"
BY_ROOM = ("wheels and tires", "wheels of special backspace", "housing")
_NOT_SO = (
    "a wheel and a width that fit",
    "what is planned does not clear: choose from the search first",
)


def holds(build: Resolved, ask: FitAsk, verdict: Verdict, trusted: bool) -> tuple[HoldLine, ...]:
    """Every item; ``trusted`` says that readings do not contradict each other.

    Room that does not fit, or readings that contradict each other, hold up what is ordered by them.
    """
    known = set(known_readings(_stated(build), build.fitting.state == "hanging"))
    known.update(ask.have)
    if not trusted:
        known.discard(ROOM)
    return tuple(_line(v, verdict) for v in verdicts(known))


def _line(v: Held, verdict: Verdict) -> HoldLine:
    waits = tuple((n.thing, n.why) for n in v.waits)
    now, words = v.now, v.words
    if now and verdict == "does not fit" and v.item.name in BY_ROOM:
        now, waits = False, (_NOT_SO,)
        words = f"{v.item.name}: wait for {_NOT_SO[0]}, because {_NOT_SO[1]}"
    return HoldLine(v.item.name, v.item.act, now, v.item.made_to_order, words, waits)


def _stated(build: Resolved) -> frozenset[str]:
    """Keys that were stated, and those that others leave no choice."""
    return frozenset(raw_values(build.source.text)) | frozenset(build.fitting.worked_out)


def missing(wanted: tuple[str, ...]) -> tuple[MeasureLine, ...]:
    """Readings that the answer lacks, in the order in which it asks for them."""
    return tuple(_row(key) for key in wanted)


def _row(key: str) -> MeasureLine:
    """A row of the worksheet; a key that is in none says what it is by its name."""
    found = next((i for i in (items().get(k) for k in key.split(" or ")) if i is not None), None)
    if found is None:
        return MeasureLine(key, key.rpartition(".")[2].replace("_", " "), "", "", "")
    return MeasureLine(key, found.what, found.datum, found.tool.name, found.why)
