"""What may be ordered or done now, what waits for which reading, and what to measure first."""

from __future__ import annotations

from axlewright.build.edit import raw_values
from axlewright.build.resolve import Resolved
from axlewright.fit.hold_keys import known_readings
from axlewright.fit.hold_points import verdicts
from axlewright.measuring.worksheet import items
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_report import HoldLine, MeasureLine, Verdict

ROOM = "room each side"
_CONTRADICT = (
    "its readings contradict each other",
    "a wheel or housing ordered by them may be wrong",
)


def holds(build: Resolved, ask: FitAsk, verdict: Verdict, trusted: bool) -> tuple[HoldLine, ...]:
    """Every item; ``trusted`` says that readings do not contradict each other.

    Room that does not fit, or readings that contradict each other, hold up what is ordered by them.
    """
    known = set(known_readings(_stated(build), build.fitting.state == "hanging"))
    known.update(ask.have)
    if not trusted:
        known.discard(ROOM)
    del verdict
    return tuple(
        HoldLine(
            v.item.name, v.item.act, v.now, v.item.made_to_order, v.words,
            tuple((n.thing, n.why) for n in v.waits),
        )
        for v in verdicts(known)
    )  # fmt: skip


def _stated(build: Resolved) -> frozenset[str]:
    """Keys that were stated, and those that others leave no choice."""
    return frozenset(raw_values(build.source.text)) | frozenset(build.fitting.worked_out)


def missing(build: Resolved, wanted: tuple[str, ...]) -> tuple[MeasureLine, ...]:
    """Readings that the answer lacks, in the order in which it asks for them."""
    sheet = items()
    found = []
    for key in wanted:
        each = [sheet.get(k) for k in key.split(" or ")]
        known = [i for i in each if i is not None]
        if not known:
            found.append(MeasureLine(key, _means(build, key), "", "", ""))
            continue
        one = known[0]
        found.append(MeasureLine(key, one.what, one.datum, one.tool.name, one.why))
    return tuple(found)


def _means(build: Resolved, key: str) -> str:
    del build
    return key.rpartition(".")[2].replace("_", " ")
