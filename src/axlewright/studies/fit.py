"""Will it fit, and how is it cut?  From readings to what is ordered, with what is not known named.

Everything is worked out twice by the same code: at the nominal values, and on samples of what the
readings may be off, held against the width or the offset that was decided at the nominal values.
Clearances over the travel are found in space at the nominal values; their samples are those of the
room at ride height on the same face, moved sideways one to one.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.quantities.estimate import leaves
from axlewright.quantities.formula import Array, Num
from axlewright.studies import fit_holds, fit_words
from axlewright.studies.fit_ask import FitAsk
from axlewright.studies.fit_both import Both, both, meets_bulge
from axlewright.studies.fit_brakes import brake_gaps, brake_words, gears, speedo_gaps, speedo_words
from axlewright.studies.fit_fill import beside
from axlewright.studies.fit_lines import end_lines, gap_lines, order_lines, room_lines
from axlewright.studies.fit_places import travel
from axlewright.studies.fit_planned import planned
from axlewright.studies.fit_rear import rear_view
from axlewright.studies.fit_report import (
    BrakeReport,
    Contradiction,
    FitReport,
    OrderLine,
    RoomLine,
    SpeedoReport,
    Travel,
)
from axlewright.studies.fit_room import rooms
from axlewright.studies.fit_search import costs, search_report
from axlewright.studies.fit_taken import assumptions, cautions
from axlewright.studies.influence import measure_next
from axlewright.studies.report import Made, MeasureNext
from axlewright.studies.safety import safety_lines

__all__ = ["SAMPLES", "SEED", "STUDY", "both", "fit_study", "meets_bulge"]

STUDY = "fit 1"
SAMPLES, SEED = 400, 1


def fit_study(
    build: Resolved, ask: FitAsk | None = None, seed: int = SEED, count: int = SAMPLES
) -> FitReport:
    """The whole answer."""
    asked = ask or FitAsk()
    b = both(build, seed, count)
    order, lines = order_lines(b), room_lines(b)
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
        planned=planned(b, lines, tire),
        search=search,
        costs=costs(b.plain, b.look),
        ends=end_lines(build, b),
        brakes=BrakeReport(
            gap_lines("", brake_gaps(b.plain), brake_gaps(b.drawn)),
            brake_words(b.plain, b.drawn),
        ),
        speedometer=SpeedoReport(
            gap_lines("", speedo_gaps(b.plain, asked), speedo_gaps(b.drawn, asked)),
            gears(b.plain, asked),
            speedo_words(asked),
        ),
        holds=fit_holds.holds(build, asked, verdict, not clashes),
        missing=lacks,
        measure_next=_next(build, b),
        assumed=assumptions(build, b),
        cautions=cautions(build, b),
        safety=safety_lines(build.machine),
        made=Made(f"axlewright {__version__}", STUDY, data_hash(), build.source.hash, seed, count),
    )


def _doubt(build: Resolved, b: Both) -> str:
    """Why nothing can be said though readings are there."""
    if build.fitting.state == "hanging":
        return fit_words.HANGING
    wrong = b.moving.impossible
    return f"the numbers of this tire cannot be so: {wrong} (look at [wheel])" if wrong else ""


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
