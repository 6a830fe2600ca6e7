"""What stands on top of every page of a build: the verdict, the driveline, a chip for each link."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from axlewright.build.problems import BuildError, Problem
from axlewright.drawing.load_path import REACTION, base, shown_margin
from axlewright.drawing.marks import MARKS, State, band_text, margin_text, state_of
from axlewright.drawing.svg import slug
from axlewright.studies.load_path import Study
from axlewright.studies.report import LoadPathReport, MeasureNext
from axlewright.web.views.form import owner
from axlewright.web.views.pictures import bar_scale, driveline, numbered, small_bar
from axlewright.web.views.tables import Number

if TYPE_CHECKING:
    from axlewright.workshop.shop import Workshop


@dataclass(frozen=True)
class Chip:
    """One link with its number on the picture, its margin as number, bar and word."""

    number: int
    slug: str
    title: str
    margin: Number
    band: str
    state: State
    word: str
    bar: str
    weakest: bool
    holds: bool


@dataclass(frozen=True)
class ProblemLine:
    """What is wrong with the text, with the field that it belongs to."""

    severity: str
    key: str
    message: str
    line: int
    field: str


@dataclass(frozen=True)
class MeasureLine:
    """A thing to measure next, with its field where there is one."""

    means: str
    now: str
    advice: str
    field: str


@dataclass(frozen=True)
class Top:
    """The frame of a build page; without a study it says what is wrong instead."""

    study: Study | None
    problems: tuple[ProblemLine, ...]
    sentence: str
    short: str
    state: State
    picture: str
    carries: tuple[Chip, ...]
    reaction: tuple[Chip, ...]
    measure: tuple[MeasureLine, ...]

    @property
    def errors(self) -> tuple[ProblemLine, ...]:
        """What must be put right before there is an answer."""
        return tuple(p for p in self.problems if p.severity == "error")


def top_of(workshop: Workshop, text: str) -> Top:
    """Work out the frame of a text; a wrong text gives one with its problems only."""
    try:
        study = workshop.study(text)
    except BuildError as e:
        return _without(e.problems)
    report = study.report
    chips = _chips(study)
    first = next((c for c in chips if c.weakest), None)
    problems = _problems(workshop.problems(text))
    return Top(
        study,
        problems,
        report.verdict.sentence,
        f"{first.title} {first.margin.text}" if first else "",
        _state(report),
        driveline(report),
        tuple(c for c in chips if not c.holds),
        tuple(c for c in chips if c.holds),
        tuple(_measure(m) for m in report.verdict.measure_next),
    )


def _without(problems: Sequence[Problem]) -> Top:
    lines = _problems(problems)
    count = sum(p.severity == "error" for p in lines)
    what = "one thing is" if count == 1 else f"{count} things are"
    sentence = f"No answer yet: {what} to be put right first."
    return Top(None, lines, sentence, "no answer yet", "unknown", "", (), (), ())


def _problems(problems: Sequence[Problem]) -> tuple[ProblemLine, ...]:
    return tuple(
        ProblemLine(p.severity, p.key, p.message, p.line, slug(owner(p.key))) for p in problems
    )


def _state(report: LoadPathReport) -> State:
    """State of the verdict: as the weakest link's, and never better than the verdict itself."""
    if not report.verdict.holds:
        return "short"
    first = next(link for link in report.links if link.link == report.verdict.weakest)
    margin = shown_margin(first)
    return state_of(margin.margin, margin.likelihood) if margin else "unknown"


def _measure(m: MeasureNext) -> MeasureLine:
    return MeasureLine(m.means.rstrip("."), m.now, m.advice, slug(owner_of_input(m.path)))


def owner_of_input(path: str) -> str:
    """The field behind an input as used; inputs that no field gives have none."""
    found = owner(path)
    return found if found == path else ""


def _chips(study: Study) -> list[Chip]:
    report = study.report
    scale = bar_scale(report)
    chips = []
    for count, link in numbered(report):
        margin = shown_margin(link)
        state = state_of(margin.margin, margin.likelihood) if margin else "unknown"
        known = margin is not None and state != "unknown"
        weakest = link.link == report.verdict.weakest
        word = MARKS[state].word + (", goes first" if weakest else "")
        chips.append(
            Chip(
                count,
                slug(link.link),
                link.title,
                Number(
                    margin.margin.id if margin and margin.margin.id in study.nodes else "",
                    margin_text(margin.margin.value) if margin and known else "–",
                ),
                band_text(margin.margin) if margin and known else "",
                state,
                word,
                small_bar(margin.margin, state, scale) if margin and known else "",
                weakest,
                base(link.link) in REACTION,
            )
        )
    return chips


def context(workshop: Workshop, build_id: str, here: str) -> dict[str, Any]:
    """What the frame's template needs; pages add their own."""
    store = workshop.store
    revision = store.latest(build_id)
    return {
        "build": store.build(build_id),
        "revision": revision,
        "here": here,
        "top": top_of(workshop, revision.text),
    }
