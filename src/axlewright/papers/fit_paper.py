"""What the papers of fit share: title block, figures in both units, blanks, what must be known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from axlewright.drawing.fonts import shorten
from axlewright.papers.press import date_parts
from axlewright.papers.words import prose
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import System, from_si, pretty, significant
from axlewright.studies.fit_figures import figure, plus_minus, value_text

PaperSize = Literal["letter", "A4"]
_TYPST = {"letter": "us-letter", "A4": "a4"}
_EXACT = 1e-6


@dataclass(frozen=True)
class TitleOf:
    """Whose paper it is: ``revision`` is the hash of the build's text, ``program`` who made it."""

    build: str
    file: str
    revision: str
    program: str
    made_on: str
    paper: PaperSize = "letter"


def titled(title: TitleOf, sheet: str) -> dict[str, Any]:
    """Everything that the title block and the foot of each page print."""
    return {
        "document_title": f"{sheet}: {title.build}" if title.build else sheet,
        "keywords": [title.revision, title.program],
        "sheet": sheet,
        "build": title.build,
        "short_name": shorten(title.build, 2.65, 85.0),
        "file": title.file,
        "revision": title.revision,
        "program": title.program,
        "made_on": title.made_on,
        "date": date_parts(title.made_on),
        "paper": _TYPST[title.paper],
    }


def value(f: Finding, system: System) -> str:
    """A figure with its unit; as many decimals as its band is worth."""
    return value_text(f, system)


def off(f: Finding) -> list[str]:
    """What a finding may be off by, in both units; lengths as ±, all else by its ends."""
    if f.dimension == "length":
        return [plus_minus(f, "shop"), plus_minus(f, "si")]
    if f.high - f.low < _EXACT * max(abs(f.value), _EXACT):
        return ["", ""]
    return ["{} to {}".format(*_ends(f, "shop")), "{} to {}".format(*_ends(f, "si"))]


def _ends(f: Finding, system: System) -> list[str]:
    made = []
    for v in (f.low, f.high):
        number, unit = from_si(v, f.dimension, system)
        made.append(f"{significant(number, 3)} {pretty(unit)}".strip())
    return made


def both(f: Finding | None) -> dict[str, str]:
    """A figure and what it may be off by, ready for a row; all empty where nobody knows it."""
    if f is None:
        return {"shop": "", "si": "", "off_shop": "", "off_si": ""}
    shop, si = value(f, "shop"), value(f, "si")
    off_shop, off_si = off(f)
    same = shop == si
    return {
        "shop": shop,
        "si": "" if same else si,
        "off_shop": off_shop,
        "off_si": "" if same or off_shop == off_si else off_si,
    }


def plain_length(metres: float) -> dict[str, str]:
    """A length that is wanted, in both units."""
    return {"shop": figure(metres, 0.0, "shop"), "si": figure(metres, 0.0, "si")}


def to_measure(keys: Iterable[str], numbers: Mapping[str, str]) -> str:
    """What to measure, where a figure is missing: by its number in the list, else by its key."""
    named = ", ".join(numbers.get(key, key) for key in keys)
    return f"measure {named}" if named else "not known"


def sentences(texts: Iterable[str]) -> list[str]:
    """Texts as printed, each once."""
    return list(dict.fromkeys(prose(t) for t in texts if t))
