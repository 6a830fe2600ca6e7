"""What the angles study reports: one sentence, what to set, and everything that moves."""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.finding import Finding, Likelihood
from axlewright.quantities.records import record
from axlewright.studies.report import InputLine, Made

Verdict = Literal["right", "turn", "no setting", "measure"]


@record
class Judged:
    """A limit: the number that it is about, what it is, the limit in words, whether it is kept."""

    number: str
    what: str
    limit: str
    keeps: bool


@record
class StateLine:
    """A state of the driveline; its numbers begin with its key, as in ``now_front``."""

    key: str
    title: str


@record
class Setting:
    """What to set and to see: a gauge reading or a length, with how to take it."""

    number: str
    what: str
    how: str


@record
class Wanted:
    """A reading that nobody took, with how to take it."""

    path: str
    means: str
    advice: str
    first: bool
    """Whether the answer waits for it."""


@record
class Room:
    """Least room over the travel, wanted and found, m; below zero something touches."""

    what: str
    least: float
    wanted: float
    where: str
    holds: bool
    dimension: str = "length"


@record
class TubeLine:
    """One tube: what it would give."""

    name: str
    fitted: bool
    holds: bool
    twist: float
    whirl: float
    mass: float


@record
class JointLine:
    """A class of joint: margin before its needles dent, rating, and how it goes with the fitted."""

    name: str
    fitted: bool
    dents: float
    rating: float
    fits: str


@record
class Carries:
    """One piece of the suspension: its numbers by case, and its greatest pull and push."""

    name: str
    numbers: dict[str, str]


@record
class Bracket:
    """Force of a piece on its bracket on the axle in one case, and where that is; SI, x y z."""

    case: str
    piece: str
    at: tuple[float, float, float]
    force: tuple[float, float, float]


@record
class Sweep:
    """The line as it should be set over the travel of both wheels, ride height at 0; SI."""

    travel: tuple[float, ...]
    pinion: tuple[float, ...]
    front: tuple[float, ...]
    rear: tuple[float, ...]
    length: tuple[float, ...]
    anti_squat: tuple[float, ...]
    roll_center: tuple[float, ...]
    roll_steer: tuple[float, ...]


@record
class Proposal:
    """A line that the build file might say, from what was found here."""

    key: str
    value: str
    why: str


@record
class AnglesReport:
    """The whole answer.

    ``findings`` holds every number by its key; the key opens its working.
    """

    name: str
    file: str
    verdict: Verdict
    sentence: str
    more: tuple[str, ...]
    likelihood: Likelihood | None
    """How likely a limit is passed as it is."""
    likelihood_then: Likelihood | None
    """The same as it should be, with what is not known."""
    findings: dict[str, Finding]
    settings: tuple[Setting, ...]
    states: tuple[StateLine, ...]
    now: tuple[Judged, ...]
    then: tuple[Judged, ...]
    window: tuple[float, float] | None
    rooms: tuple[Room, ...]
    tubes: tuple[TubeLine, ...]
    joints: tuple[JointLine, ...]
    axle_known: bool
    carries: tuple[Carries, ...]
    brackets: tuple[Bracket, ...]
    sweep: Sweep | None
    wanted: tuple[Wanted, ...]
    proposals: tuple[Proposal, ...]
    inputs: tuple[InputLine, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    made: Made
