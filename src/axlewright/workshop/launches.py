"""Launch and coupling studies for every face: marched once, kept, found again."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from axlewright.build.resolve import Resolved
from axlewright.studies.coupling import CouplingStudy, coupling_study
from axlewright.studies.launch import Tell, history_of, launch_study
from axlewright.studies.launch_report import History, LaunchReport
from axlewright.workshop.marching import March, find, keep
from axlewright.workshop.messages import plain

if TYPE_CHECKING:
    from axlewright.papers.launch_page import MarchedLaunch

SEED, SAMPLES = 1, 10_000


def launch(
    build: Resolved,
    seed: int = SEED,
    samples: int = SAMPLES,
    tell: Tell | None = None,
    fewest: int = SAMPLES,
    where: Path | None = None,
) -> LaunchReport:
    """March the launch and keep it for the load path; raises ``StoppedError`` if told to stop.

    A march of less than ``fewest`` samples is not kept; ``where`` is the folder of marches.
    """
    study = launch_study(build, seed, samples, tell)
    if samples >= fewest:
        told: dict[str, Any] = plain(study.report)
        keep(build, March(seed, study.nominal_ratios, study.ratios, told, study.dials), where)
    return study.report


def known_launch(build: Resolved, seed: int = SEED) -> LaunchReport | None:
    """The kept report of a launch of this build, as long as its inputs are the same."""
    march = find(build, seed)
    return None if march is None else kept_report(march.report)


def launch_on_paper(build: Resolved, seed: int = SEED) -> MarchedLaunch | None:
    """What the check paper prints of a launch that was marched."""
    report = known_launch(build, seed)
    return None if report is None else paper_of(report, lambda case: history(build, case))


def paper_of(report: LaunchReport, told: Callable[[str], History]) -> MarchedLaunch:
    """The launch for the check paper, with the story of its hardest case."""
    from axlewright.drawing.launch_chart import Story  # noqa: PLC0415 (only papers need it)
    from axlewright.papers.launch_page import MarchedLaunch, hardest  # noqa: PLC0415

    drawn = hardest(report)
    return MarchedLaunch(report, Story(report.name, drawn.title, drawn.case, told(drawn.case)))


def kept_report(told: dict[str, Any]) -> LaunchReport | None:
    """The same, or nothing where another state of this program wrote it: then march anew."""
    try:
        return report_from(told)
    except ValueError:
        return None


def report_from(told: dict[str, Any]) -> LaunchReport:
    """A report from its kept text."""
    from pydantic import TypeAdapter  # noqa: PLC0415 (only where kept reports are read)

    return TypeAdapter(LaunchReport).validate_python(_with_gaps(told))


def _with_gaps(told: Any) -> Any:
    """A kept text as it was: what was no number is written as nothing."""
    if isinstance(told, dict):
        return {k: _with_gaps(v) for k, v in told.items()}
    if isinstance(told, list):
        return [_with_gaps(v) for v in told]
    return math.nan if told is None else told


def history(build: Resolved, case: str) -> History:
    """One nominal launch in time; raises :class:`KeyError` for a case that the build has not."""
    return history_of(build, case)


def coupling(build: Resolved, seed: int = SEED) -> CouplingStudy:
    """Does the clutch hold, where does the converter stall, what slips first."""
    return coupling_study(build, seed)
