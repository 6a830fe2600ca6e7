"""The one font of page, drawing and paper, and how wide a text is in it.

Axlewright Sans is a subset (Latin, Greek, arrows, mathematical signs) of the open font Inter;
its license lies beside it.  ``widths.json`` holds the advance widths read from the font files
once, so that nothing at run time has to open a font.  Kerning is left out: it moves a line by
less than one percent.
"""

from __future__ import annotations

import functools
import json
from importlib.resources import files
from typing import Any, Literal

Weight = Literal["Regular", "SemiBold", "Bold"]

FAMILY = "Axlewright Sans"
WEIGHTS: dict[Weight, int] = {"Regular": 400, "SemiBold": 600, "Bold": 700}
_UNKNOWN = "M"
"""A character outside the font is counted as wide as this one."""


@functools.cache
def _metrics() -> dict[str, Any]:
    text = (files(__name__) / "widths.json").read_text(encoding="utf-8")
    metrics: dict[str, Any] = json.loads(text)
    return metrics


def text_width(text: str, size: float, weight: Weight = "Regular") -> float:
    """Width of one line of text, in the unit of ``size`` (the font size)."""
    metrics = _metrics()
    widths: dict[str, int] = metrics["widths"][weight]
    unknown = widths[_UNKNOWN]
    return size * sum(widths.get(c, unknown) for c in text) / float(metrics["units"])


def cap_height(size: float) -> float:
    """Height of a capital letter, for setting text on the middle of a bar."""
    metrics = _metrics()
    return size * float(metrics["cap"]) / float(metrics["units"])


def missing(text: str) -> set[str]:
    """The characters of a text that the font does not have."""
    return set(text) - set(_metrics()["widths"]["Regular"])


def shorten(text: str, size: float, width: float, weight: Weight = "Regular") -> str:
    """Cut a text with an ellipsis so that it is no wider than ``width``."""
    if text_width(text, size, weight) <= width:
        return text
    kept = text
    while kept and text_width(kept.rstrip() + "…", size, weight) > width:
        kept = kept[:-1]
    return kept.rstrip() + "…"
