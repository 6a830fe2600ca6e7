"""How papers write numbers: both units, the band, and no more figures than they support."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from axlewright.drawing.marks import MARKS, band_text, margin_text, state_of
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import DIMENSIONS, from_si, pretty, show, show_both, significant
from axlewright.studies.report import Margin

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
_CODE = re.compile("`([^`]*)`")
_ENDS = re.compile(r"(?P<low>\S+)(?P<unit> \S.*) to (?P<high>\S+)(?P=unit)")


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
    if finding.dimension == "count":
        value, low, high = (_count(v) for v in (finding.value, *_ends(finding)))
    else:
        low, high = (show(v, finding.dimension, "shop", _DIGITS) for v in _ends(finding))
        value = show_both(finding.value, finding.dimension, _DIGITS)
    return value if low == high else f"{value}, 5 to 95 %: {low} to {high}"


def _count(value: float) -> str:
    """A number of times: two figures are all that a count of launches is good for."""
    return "over a million" if value > 1e6 else significant(value, 2)


def prose(text: str) -> str:
    """A text of the program as printed: code marks become quotation marks, no full stop."""
    return _CODE.sub(r"“\1”", text).removesuffix(".")


def margin_cell(margin: Margin, cases: Mapping[str, str]) -> dict[str, str]:
    """A margin in a table: number, band, state, how it goes, in which case, capacity and demand.

    ``cases`` gives the title of each case.
    """
    state = state_of(margin.margin, margin.likelihood)
    return {
        "number": margin_text(margin.margin.value),
        "band": band_text(margin.margin),
        "state": MARKS[state].word + (f", {margin.likelihood}" if state == "short" else ""),
        "mode": f"{margin.kind}: {margin.mode}" if margin.kind != margin.mode else margin.mode,
        "case": cases.get(margin.case, margin.case),
        "stands": show_both(margin.capacity.value, margin.capacity.dimension, _DIGITS),
        "gets": show_both(margin.demand.value, margin.demand.dimension, _DIGITS),
    }


def spread_words(value: str, spread: str) -> str:
    """The spread of an input beside its value: what bears the same unit says it once."""
    ends = _ENDS.fullmatch(spread)
    if ends is None:
        return spread
    unit = ends["unit"]
    return f"{ends['low']} to {ends['high']}" + ("" if value.endswith(unit) else unit)
