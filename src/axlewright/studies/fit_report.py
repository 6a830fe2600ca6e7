"""What the question of fit reports: what to order, what room is left, and what must be known first.

Where a reading is missing there is no number, and ``lacks`` names the keys that would give it; two
keys joined by "or" mean that either will do.
"""

from __future__ import annotations

from typing import Literal

from axlewright.fit.hold_items import Act
from axlewright.quantities.finding import Finding
from axlewright.quantities.records import record
from axlewright.studies.report import Made, MeasureNext

Verdict = Literal["fits", "does not fit", "not known"]
Origin = Literal["to order", "measured", "follows", "assumed"]
Kept = Literal["kept", "short", "not measured"]


@record
class OrderLine:
    """One dimension to order by or to hold against what came; ``finding`` is None where it lacks.

    ``datum`` says from where to where, ``state`` how car or part stands when it is measured.
    """

    key: str
    what: str
    datum: str
    state: str
    origin: Origin
    finding: Finding | None
    lacks: tuple[str, ...]
    note: str


@record
class RoomLine:
    """One clearance of one side in one state; ``chance`` is the share of samples that keep it."""

    key: str
    side: str
    thing: str
    where: str
    clearance: Finding | None
    wanted: float
    chance: float | None
    kept: Kept
    lacks: tuple[str, ...]
    note: str


@record
class TravelCurve:
    """The room beside one thing while the axle travels, m, step by step."""

    side: str
    thing: str
    facing: str
    wanted: float
    both: tuple[float, ...]
    lean: tuple[float, ...]


@record
class Travel:
    """The axle on its way: both wheels together, and leaning with one up and the other down.

    ``steps`` are travel of both wheels, ``lean`` those of the left one while the right goes the
    other way; m, above zero upward.
    """

    known: str
    steps: tuple[float, ...]
    lean: tuple[float, ...]
    curves: tuple[TravelCurve, ...]


@record
class RearSide:
    """What a picture from behind shows of one side, m from the car's center plane, outward.

    Heights are over the wheel's center; None where nobody measured.
    """

    face: float | None
    middle: float | None
    """Of tire and rim."""
    lip: float | None
    lip_up: float | None
    inner: float | None
    inner_up: float | None
    inner_thing: str
    shock: float | None
    flange: float | None
    end: float | None
    """End face of the housing."""


@record
class RearView:
    """The axle from behind at ride height, m; both centers left of the middle."""

    left: RearSide
    right: RearSide
    section: float | None
    over_lips: float | None
    radius: float
    lip_radius: float
    tread: float
    differential: float | None
    pinion: float | None
    track: float


@record
class Contradiction:
    """Readings that do not add up: which, what would explain it, what to measure to tell."""

    title: str
    said: str
    suspects: tuple[str, ...]
    explained_by: tuple[str, ...]
    would_tell: tuple[tuple[str, ...], ...]


@record
class WheelChoice:
    """One combination of tire, rim, backspace and axle; lengths in m.

    ``spare`` is how far the wheel could still move sideways, below zero what it lacks.
    """

    tire: str
    rim_width: float
    section: float
    backspace: float
    offset: float
    width: float
    spare: float
    low: float
    high: float
    chance: float
    tightest: str
    place: str
    lacks: tuple[tuple[str, float], ...]
    reason: str


@record
class SearchReport:
    """What was found among what can be had; ``misses`` where nothing fits."""

    tried: int
    fitting: int
    off_range: int
    choices: tuple[WheelChoice, ...]
    misses: tuple[WheelChoice, ...]
    notes: tuple[str, ...]
    lacks: tuple[str, ...]


@record
class StepCost:
    """What a quarter inch more of one thing does to the room outside and inside, m."""

    what: str
    outer: float
    inner: float


@record
class EndLine:
    """One gap of a housing end; ``fault`` says what is wrong with it, if anything."""

    key: str
    side: str
    what: str
    finding: Finding | None
    lacks: tuple[str, ...]
    fault: str


@record
class BrakeReport:
    """Which axle locks first, what the parking brake holds, and what must be said of both."""

    lines: tuple[EndLine, ...]
    words: tuple[str, ...]


@record
class SpeedoReport:
    """What the speedometer sees of the new ratio and tire."""

    lines: tuple[EndLine, ...]
    gears: tuple[tuple[int, int, float], ...]
    """Drive teeth, driven teeth, share by which the needle shows too much."""
    words: tuple[str, ...]


@record
class HoldLine:
    """One item: whether it may be ordered or done now, else what it waits for and why."""

    item: str
    act: Act
    now: bool
    made_to_order: bool
    words: str
    waits: tuple[tuple[str, str], ...]


@record
class MeasureLine:
    """A reading that nobody took yet: what, from where, with what, and what waits for it."""

    key: str
    what: str
    datum: str
    tool: str
    why: str


@record
class FitReport:
    """Will it fit, and how is it cut."""

    name: str
    file: str
    sentence: str
    verdict: Verdict
    further: str
    order: tuple[OrderLine, ...]
    rooms: tuple[RoomLine, ...]
    rear: RearView
    travel: Travel | None
    contradictions: tuple[Contradiction, ...]
    unchecked: tuple[str, ...]
    planned: WheelChoice | None
    search: SearchReport
    costs: tuple[StepCost, ...]
    ends: tuple[EndLine, ...]
    brakes: BrakeReport
    speedometer: SpeedoReport
    holds: tuple[HoldLine, ...]
    missing: tuple[MeasureLine, ...]
    measure_next: tuple[MeasureNext, ...]
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    made: Made
