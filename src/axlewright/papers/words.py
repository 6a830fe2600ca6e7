"""How papers write numbers: both units, the band, and no more figures than they support."""

from __future__ import annotations

import math

from axlewright.drawing.marks import MARKS, band_text, margin_text, state_of
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import DIMENSIONS, from_si, pretty, show, show_both, significant
from axlewright.studies.report import LinkReport, Margin

PLACES: dict[str, str] = {
    "flywheel": "Flywheel or gearbox input",
    "driveshaft": "Driveshaft",
    "ring": "Ring gear",
    "shaft": "Harder-loaded axle shaft",
    "engine": "Engine, at the ring gear",
    "clutch": "Clutch just slipping, at the ring gear",
    "grip": "Tires just spinning, at the ring gear",
}
"""Titles of the places along the path, by their key; others are written as they are named."""

_DIGITS = 3


def place(key: str) -> str:
    """Title of a place."""
    words = key.replace("_", " ")
    return PLACES.get(key, words[:1].upper() + words[1:])


def units_of(dimension: str) -> str:
    """The units of a row: shop, and SI in brackets."""
    dim = DIMENSIONS[dimension]
    shop, metric = pretty(dim.shop), pretty(dim.metric)
    if not shop and not metric:
        return ""
    return shop if shop == metric else f"{shop} ({metric})"


def cell(torque: Finding) -> list[str]:
    """A finding in a table whose row names the unit: shop value, SI value, band in shop units."""
    shop, metric = (from_si(torque.value, torque.dimension, s)[0] for s in ("shop", "si"))
    low, high = (significant(from_si(v, torque.dimension)[0], _DIGITS) for v in _ends(torque))
    band = "" if low == high else f"{low} to {high}"
    if math.isnan(torque.value):
        return ["not known", "", ""]
    value, other = significant(shop, _DIGITS), significant(metric, _DIGITS)
    return [value, "" if value == other else f"({other})", band]


def _ends(finding: Finding) -> tuple[float, float]:
    return (finding.low, finding.high)


def with_band(finding: Finding) -> str:
    """A finding in a sentence: both units, and the band where it has one."""
    if math.isnan(finding.value):
        return "not known"
    low, high = (show(v, finding.dimension, "shop", _DIGITS) for v in _ends(finding))
    value = show_both(finding.value, finding.dimension, _DIGITS)
    return value if low == high else f"{value}, 5 to 95 %: {low} to {high}"


def margin_cell(margin: Margin | None) -> dict[str, str]:
    """A margin in a table: number, band, state, likelihood, mode, case, capacity and demand."""
    if margin is None:
        empty = ("number", "band", "state", "likelihood", "mode", "case", "stands", "gets")
        return dict.fromkeys(empty, "")
    state = state_of(margin.margin, margin.likelihood)
    return {
        "number": margin_text(margin.margin.value),
        "band": band_text(margin.margin),
        "state": MARKS[state].word,
        "likelihood": f"{margin.likelihood} short",
        "mode": f"{margin.kind}: {margin.mode}" if margin.kind != margin.mode else margin.mode,
        "case": margin.case,
        "stands": show_both(margin.capacity.value, margin.capacity.dimension, _DIGITS),
        "gets": show_both(margin.demand.value, margin.demand.dimension, _DIGITS),
    }


def first_words(link: LinkReport, weakest: str) -> str:
    """Whether a link goes first, and in what share of the samples."""
    if link.link == weakest:
        return f"goes first, in {_share(link.first_share)} of samples"
    return "" if link.first_share < 0.005 else f"first in {_share(link.first_share)} of samples"


def _share(share: float) -> str:
    return "under 1 %" if share < 0.01 else f"{share * 100:.0f} %"
