"""What a run down the strip reports: times with bands, and one run as a history."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.quantities.finding import Finding
from axlewright.studies.report import Made


@dataclass(frozen=True)
class RunMark:
    """One mark on the strip: when the car is there, and how fast; either may not be told."""

    name: str
    time: Finding | None
    speed: Finding | None


@dataclass(frozen=True)
class RunAssumption:
    """Something about the run that no build file says: as used."""

    means: str
    value: str
    source: str


@dataclass(frozen=True)
class RunReport:
    """A run down the strip: the answer as a sentence, the marks, and what else came of it."""

    name: str
    file: str
    sentence: str
    marks: tuple[RunMark, ...]
    findings: dict[str, Finding]
    assumed: tuple[RunAssumption, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    made: Made


@dataclass(frozen=True)
class RunHistory:
    """One run, at the nominal values, against time; SI."""

    title: str
    times: tuple[float, ...]
    speeds: tuple[float, ...]
    distances: tuple[float, ...]
    engine_speeds: tuple[float, ...]
    gears: tuple[int, ...]
    marks: tuple[tuple[str, float], ...]
