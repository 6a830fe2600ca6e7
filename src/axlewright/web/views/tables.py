"""The tables of the load-path page: links with their margins, torque by case."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass

from axlewright.drawing.charts import in_order, limits_of
from axlewright.drawing.marks import State, state_of
from axlewright.drawing.svg import slug
from axlewright.papers.words import cell, margin_cell, place, with_band
from axlewright.quantities.finding import Finding
from axlewright.studies.report import LinkReport, LoadPathReport, Margin

GOVERNS: dict[str, str] = {
    "engine": "The engine sets it: the tires would hold more.",
    "grip": "The tires set it: more engine would only spin them.",
    "clutch": "The clutch sets it: above that it slips.",
    "steady": "No blow on top: the steady pull is the larger, so it sets this.",
    "blow": "The blow sets it: the spinning engine adds to the steady pull.",
    "drop": "The blow sets it: what spins adds to the steady pull.",
    "release": "The sudden release sets it: it goes beyond the steady pull.",
    "re-grip": "The blow sets it: the spinning train is stopped by the tires.",
    "landing": "The landing sets it: loaded tires grip more than the steady pull asks.",
    "grip of one wheel": "The wheel that grips sets it: it would spin above that.",
}
"""What a case's torque is set by, to a builder, by the branch that governs."""
_MARCHED = "Marched in time, see Launch."


@dataclass(frozen=True)
class Number:
    """A number as shown; ``id`` opens its working, and is empty where there is none.

    ``more`` stands below it in small: the other unit, the band.
    """

    id: str
    text: str
    more: str = ""


@dataclass(frozen=True)
class MarginLine:
    """One margin of a link in words and numbers."""

    number: Number
    band: str
    state: State
    word: str
    mode: str
    case: str
    stands: Number
    gets: Number


@dataclass(frozen=True)
class LinkLine:
    """One link of the table."""

    slug: str
    title: str
    part: str
    first: bool
    breaks: MarginLine | None
    gives: MarginLine | None
    endures: Number | None
    endures_means: str
    consequence: str
    note: str


@dataclass(frozen=True)
class CaseLine:
    """One load case with the torque at each place."""

    title: str
    means: str
    governed_by: str
    torques: tuple[Number, ...]


def links(report: LoadPathReport, known: Container[str]) -> list[LinkLine]:
    """Links, weakest first; ``known`` are the numbers whose working can be opened."""
    cases = {c.case: c.title for c in report.cases}
    return [_link(link, report, cases, known) for link in in_order(report)]


def _link(
    link: LinkReport, report: LoadPathReport, cases: dict[str, str], known: Container[str]
) -> LinkLine:
    breaks, gives = (
        None if m is None else _margin(m, cases, known) for m in (link.breaks, link.gives)
    )
    endures = link.endures
    return LinkLine(
        slug(link.link),
        link.title,
        link.part,
        link.link == report.verdict.weakest,
        breaks,
        gives,
        number(endures, with_band(endures), known) if endures is not None else None,
        endures.means if endures is not None else "",
        link.consequence,
        link.note,
    )


def number(finding: Finding, text: str, known: Container[str], more: str = "") -> Number:
    """A finding as shown."""
    return Number(finding.id if finding.id in known else "", text, more)


def _margin(margin: Margin, cases: dict[str, str], known: Container[str]) -> MarginLine:
    words = margin_cell(margin, cases)
    return MarginLine(
        number(margin.margin, words["number"], known),
        words["band"],
        state_of(margin.margin, margin.likelihood),
        words["state"],
        words["mode"],
        words["case"],
        _in_both(margin.capacity, words["stands"], known),
        _in_both(margin.demand, words["gets"], known),
    )


def _in_both(finding: Finding, words: str, known: Container[str]) -> Number:
    """A finding written in both units, the second one smaller below the first."""
    shop, _, metric = words.partition(" (")
    return number(finding, shop, known, metric.removesuffix(")"))


def places(report: LoadPathReport) -> list[str]:
    """Titles of the places along the path, for the columns of the torque table."""
    return [place(p) for p in _places(report)]


def _places(report: LoadPathReport) -> list[str]:
    return list(dict.fromkeys(p for c in report.cases for p in c.torques))


def cases(report: LoadPathReport, known: Container[str]) -> list[CaseLine]:
    """Load cases that bring torque, with what reaches each place."""
    columns = _places(report)
    return [
        CaseLine(
            c.title,
            c.means,
            GOVERNS.get(c.governed_by, f"{c.governed_by[:1].upper()}{c.governed_by[1:]} sets it.")
            if c.governed_by
            else _MARCHED,
            tuple(
                _torque(c.torques[p], known) if p in c.torques else Number("", "–") for p in columns
            ),
        )
        for c in report.cases
        if c.torques
    ]


def _torque(finding: Finding, known: Container[str]) -> Number:
    value, metric, band = cell(finding)
    return number(finding, value, known, "\n".join(filter(None, (metric, band))))


@dataclass(frozen=True)
class GearLine:
    """One gear at steady full throttle: each limit, and which one governs."""

    gear: int
    ratio: str
    governed_by: str
    limits: tuple[Number, ...]


def limits(report: LoadPathReport) -> list[str]:
    """What bounds the torque, for the columns of the table of gears."""
    return list(limits_of(report.gears).values())


def gears(report: LoadPathReport, known: Container[str]) -> list[GearLine]:
    """Ring-gear torque by gear and by limit."""
    keys = limits_of(report.gears)
    return [
        GearLine(
            g.gear,
            f"{g.ratio.value:.2f}",
            keys.get(g.governed_by, g.governed_by),
            tuple(
                _torque(g.torques[k], known) if k in g.torques else Number("", "–") for k in keys
            ),
        )
        for g in report.gears
    ]


def meanings(report: LoadPathReport) -> dict[str, str]:
    """What each number of a report means, by its id."""
    margins = [m for link in report.links for m in (link.breaks, link.gives) if m is not None]
    found = [f for m in margins for f in (m.margin, m.capacity, m.demand)]
    found += [link.endures for link in report.links if link.endures is not None]
    found += [t for c in report.cases for t in c.torques.values()]
    found += [t for g in report.gears for t in (g.ratio, *g.torques.values())]
    return {f.id: f.means for f in found}
