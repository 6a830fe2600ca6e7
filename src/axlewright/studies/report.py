"""What the load-path study reports: verdict, links, cases, inputs, and how it was made."""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.finding import Finding, Likelihood
from axlewright.quantities.records import record

LimitKind = Literal["slips", "takes a set", "breaks", "endures"]


@record
class Margin:
    """Capacity over demand of one way in which a link gives, in its worst case.

    ``short_share`` is the share of samples with a margin below one.
    """

    id: str
    link: str
    kind: LimitKind
    mode: str
    case: str
    capacity: Finding
    demand: Finding
    margin: Finding
    short_share: float
    likelihood: Likelihood


@record
class LinkReport:
    """One link of the load path.

    ``breaks`` competes for "goes first"; ``gives`` is the worst limit at which it slips or takes a
    set, shown beside it; ``endures`` is a first endurance figure.  Any may be missing: ``note``
    then says why.  ``first_share`` is the share of samples in which this link breaks first.
    """

    link: str
    title: str
    part: str
    breaks: Margin | None
    gives: Margin | None
    endures: Finding | None
    first_share: float
    consequence: str
    note: str


@record
class CaseReport:
    """One load case: the torque at each place along the path and what governs it."""

    case: str
    title: str
    means: str
    gear: int
    governed_by: str
    torques: dict[str, Finding]


@record
class GearReport:
    """Steady full throttle in one gear."""

    gear: int
    ratio: Finding
    governed_by: str
    torques: dict[str, Finding]


@record
class InputLine:
    """One input as used: printed value and spread, where it comes from."""

    path: str
    means: str
    value: str
    spread: str
    origin: str
    source: str
    advice: str


@record
class MeasureNext:
    """An unknown that widens the answer most, and how to measure it."""

    path: str
    means: str
    now: str
    advice: str
    share: float


@record
class Verdict:
    """The answer: a sentence, whether the path is short, and the order of weakness."""

    sentence: str
    holds: bool
    weakest: str
    order: tuple[str, ...]
    measure_next: tuple[MeasureNext, ...]


@record
class Made:
    """How the report was made, so that it can be made again."""

    program: str
    study: str
    data_hash: str
    build_hash: str
    seed: int
    samples: int


@record
class LoadPathReport:
    """The whole answer: what torque reaches each part, and what goes first."""

    name: str
    file: str
    verdict: Verdict
    links: tuple[LinkReport, ...]
    cases: tuple[CaseReport, ...]
    gears: tuple[GearReport, ...]
    inputs: tuple[InputLine, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    sources: tuple[str, ...]
    made: Made


@record
class CardLine:
    """How far one thing may be raised before the first link breaks, all else as it is.

    ``allowed`` is the printed limit; ``holds_everything`` means no limit inside the range tried.
    """

    dial: str
    now: str
    allowed: str
    first_to_go: str
    holds_everything: bool
    note: str


@record
class GripStep:
    """What a stickier tire does: ring-gear torque and the first link to go, per grip class."""

    grip_class: str
    grip: Finding
    ring_torque: Finding
    worst_link: str
    margin: Finding
    likelihood: Likelihood


@record
class LinkLimits:
    """How far each dial may go, all else as it is, before this link breaks.

    ``allowed`` says it by dial: a setting, "any" in the whole range tried, or "short already" where
    no setting of that dial helps.
    """

    title: str
    allowed: dict[str, str]


@record
class LimitCard:
    """What may be done with what is on the car: the small page for the sun visor."""

    name: str
    lines: tuple[CardLine, ...]
    tires: tuple[GripStep, ...]
    links: tuple[LinkLimits, ...]
    cautions: tuple[str, ...]
    made: Made
