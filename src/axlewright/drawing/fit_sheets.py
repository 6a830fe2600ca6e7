"""The drawings of a build: from what is known of its parts to seven sheets.

A size that nobody knows is drawn as a hint and keeps an empty line for its figure.  A sheet whose
main sizes are not known is a form to fill in; it says what it waits for, and makes no file to cut
from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from axlewright.drawing import fit_sizes as of
from axlewright.drawing.parts_driveshaft import driveshaft_drawing
from axlewright.drawing.parts_housing import housing_drawing
from axlewright.drawing.parts_shaft import shaft_drawing
from axlewright.drawing.parts_side_view import side_view_drawing
from axlewright.drawing.parts_wheel_section import wheel_section_drawing
from axlewright.drawing.sheet import Sheet
from axlewright.drawing.title_block import Heading
from axlewright.studies.fit_parts import PartsReport

Key = Literal[
    "housing", "shaft-left", "shaft-right", "section-left", "section-right", "side", "driveshaft"
]
Make = Callable[[PartsReport, Heading, tuple[str, ...]], Sheet]

LARGEST = "A3"
EMPTY_LINES = "An empty line is a figure that nobody knows yet; what is drawn there is only a hint."
CONTRADICT = "ORDER NOTHING BY THIS SHEET: readings contradict each other."
HANGING = "ORDER NOTHING BY THIS SHEET: the car was measured with its wheels hanging."
NOT_YET = "NOT TO BE ORDERED YET: the order sheet says what it waits for."
FORM = "A FORM TO FILL IN: main sizes are not known, nothing is to be cut by it."
_ITEMS: dict[str, str] = {
    "housing": "housing",
    "shaft-left": "axle shafts",
    "shaft-right": "axle shafts",
    "driveshaft": "driveshaft",
}


@dataclass(frozen=True)
class FitSheet:
    """One drawing of a build; ``waits`` names what is missing before a file may be cut from."""

    key: Key
    sheet: Sheet
    waits: tuple[str, ...]

    @property
    def title(self) -> str:
        """What it shows."""
        return self.sheet.title.part


def fit_sheets(parts: PartsReport, heading: Heading) -> tuple[FitSheet, ...]:
    """Every drawing, in the order of the work."""
    return tuple(fit_sheet(parts, key, heading) for key in MAKERS)


def fit_sheet(parts: PartsReport, key: Key, heading: Heading) -> FitSheet:
    """One drawing; what does not go on the paper is set on the largest."""
    said = tuple(_said(parts, key))
    try:
        sheet = MAKERS[key](parts, heading, (*said, EMPTY_LINES))
    except ValueError:
        larger = replace(heading, paper=LARGEST)
        sheet = MAKERS[key](parts, larger, (*said, EMPTY_LINES))
    return FitSheet(key, replace(sheet, cautions=(*said, *sheet.cautions)), waits_for(parts, key))


def waits_for(parts: PartsReport, key: Key) -> tuple[str, ...]:
    """What a sheet lacks before a file may be cut from."""
    held = () if parts.trusted else ("readings that agree",)
    at_ride = ("readings at ride height",) if parts.hanging else ()
    return (*held, *at_ride, *lacking(parts, key))


def _section_left(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return wheel_section_drawing(of.section(parts, "left"), heading, said)


def _section_right(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return wheel_section_drawing(of.section(parts, "right"), heading, said)


def _housing(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return housing_drawing(of.housing(parts), heading, said)


def _shaft_left(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return shaft_drawing(of.shaft(parts, "left"), heading, said)


def _shaft_right(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return shaft_drawing(of.shaft(parts, "right"), heading, said)


def _side(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return side_view_drawing(of.side_view(parts), heading, said)


def _driveshaft(parts: PartsReport, heading: Heading, said: tuple[str, ...]) -> Sheet:
    return driveshaft_drawing(of.driveshaft(parts), heading, said)


MAKERS: dict[Key, Make] = {
    "section-left": _section_left,
    "section-right": _section_right,
    "housing": _housing,
    "shaft-left": _shaft_left,
    "shaft-right": _shaft_right,
    "side": _side,
    "driveshaft": _driveshaft,
}
"""In the order of the work."""


def _said(parts: PartsReport, key: Key) -> Iterator[str]:
    """What a sheet must say before anybody orders by it."""
    if not parts.trusted:
        yield CONTRADICT
    if parts.hanging:
        yield HANGING
    if _ITEMS.get(key) in parts.waits:
        yield NOT_YET
    if lacking(parts, key):
        yield FORM


_MAIN: dict[str, dict[str, str]] = {
    "housing": {
        "order_housing_left": "left half of the housing",
        "order_housing_right": "right half of the housing",
    },
    "shaft-left": {"order_shaft_left": "length of the left shaft"},
    "shaft-right": {"order_shaft_right": "length of the right shaft"},
    "driveshaft": {"driveshaft_length": "joint center to joint center, measured"},
}
_SECTION = {
    "order_fit_width": "width of the axle",
    "order_backspace": "backspace",
    "rim_width": "rim width",
    "tire_section": "width of the mounted tire",
    "tire_diameter": "diameter of the mounted tire",
}


def lacking(parts: PartsReport, key: Key) -> tuple[str, ...]:
    """The main sizes of a sheet that nobody knows yet."""
    if key == "side":
        return () if parts.links else ("points of the suspension",)
    side = key.removeprefix("section-")
    main = _MAIN.get(key, _SECTION)
    lacks = [words for name, words in main.items() if not of.known(parts, name)]
    if key.startswith("section") and parts.side(side).lip is None:
        lacks.append("fender lip")
    return tuple(lacks)
