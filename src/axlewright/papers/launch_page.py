"""The page on the launch in the check paper, where the launch of the build has been marched."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from axlewright.drawing.launch_chart import Story, chart
from axlewright.drawing.svg import to_svg
from axlewright.papers.words import cell, place
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import from_si, show, significant
from axlewright.studies.launch_report import CaseInTime, LaunchReport, Way

_PLACES = ("flywheel", "driveshaft", "ring", "shaft")
_PANELS = ("torques", "engine", "slip")
_DECIDERS = 3
_NO_HEAT, _AT_ONCE = 1.0, 2e-3  # J, s: below this a clutch stayed shut


@dataclass(frozen=True)
class MarchedLaunch:
    """What a march found, and one launch of it over time."""

    report: LaunchReport
    story: Story


def hardest(report: LaunchReport) -> CaseInTime:
    """The case that is hardest on the axle: the one that the paper draws."""
    return max(report.cases, key=lambda c: c.peaks["ring"].value)


def launch_content(launch: MarchedLaunch) -> dict[str, Any]:
    """Everything that the page prints, already in words."""
    report = launch.report
    drawn = chart(launch.story, which=_PANELS)
    return {
        "sentence": report.sentence,
        "places": [place(p) for p in _PLACES],
        "cases": [_case(c) for c in report.cases],
        "left_out": list(report.left_out),
        "ways_sentence": report.ways.sentence,
        "ways": [_way(w) for w in report.ways.ways],
        "ways_note": report.ways.note,
        "warmth": _warmth(report),
        "chart_title": f"{launch.story.title} over time, the likeliest car",
        "chart": {
            "svg": to_svg(drawn, "launch"), "alt": f"{drawn.title}. {drawn.description}"
        },
        "hop": report.hop.sentence,
        "cautions": list(report.cautions),
        "samples": f"{report.made.samples:,}",
    }  # fmt: skip


def _case(c: CaseInTime) -> dict[str, Any]:
    decides = "; ".join(
        f"{d.means[:1].lower()}{d.means[1:].rstrip('.')} ({significant(100.0 * d.share, 2)} %)"
        for d in c.decides[:_DECIDERS]
    )
    return {
        "title": c.title,
        "decides": f"decided by {decides}" if decides else "no single unknown decides it",
        "peaks": [[*cell(c.peaks[p]), _against(c, p)] for p in _PLACES],
        "heat": _heat(c.others["heat"]),
        "locks": _locks(c),
    }


def _way(w: Way) -> dict[str, Any]:
    time = w.sixty_feet
    return {
        "title": w.title,
        "stated": "as stated" if w.stated else "",
        "speed": significant(from_si(w.speed.value, "rotation")[0], 2),
        "peaks": [list(cell(w.peaks[p])) for p in _PLACES],
        "sixty_feet": [
            f"{'≥ ' if w.at_least else ''}{time.value:.2f}",
            f"{time.low:.2f} to {time.high:.2f}",
        ],
    }


def _warmth(report: LaunchReport) -> str:
    """What a cold and a hot tread would bring."""
    sweep = next(s for s in report.sweeps if s.dimension == "temperature")
    best = sweep.peak.index(max(sweep.peak))
    told = ", ".join(
        f"{show(sweep.peak[i], 'torque', digits=3)} ({_figure(sweep.low[i])} to"
        f" {_figure(sweep.high[i])}) at {show(sweep.values[i], sweep.dimension, digits=2)}"
        for i in dict.fromkeys((0, best, len(sweep.peak) - 1))
    )
    return f"Ring gear by tread temperature, whose effect on grip is assumed: {told}."


def _figure(torque: float) -> str:
    """A torque without its unit."""
    return significant(from_si(torque, "torque")[0], 3)


def _against(c: CaseInTime, where: str) -> str:
    bound = c.bounds.get(where, 0.0)
    if bound <= 0.0:
        return ""
    ratio = significant(c.peaks[where].value / bound, 2)
    return f"× {ratio} of {significant(from_si(bound, 'torque')[0], 3)}"


def _heat(heat: Finding) -> str:
    return "none" if heat.high < _NO_HEAT else show(heat.value, "energy", digits=2)


def _locks(c: CaseInTime) -> str:
    lock = c.others["lock"]
    if c.clutch_holds == 0.0 or math.isnan(lock.value):
        return "never"
    return "never slips" if lock.high < _AT_ONCE else show(lock.value, "short time", digits=2)
