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
Make = Callable[[tuple[str, ...]], Sheet]

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
    makers, larger = _makers(parts, heading), _makers(parts, replace(heading, paper=LARGEST))
    return tuple(
        _made(parts, key, make, on_larger)
        for (key, make), (_, on_larger) in zip(makers, larger, strict=True)
    )


def _makers(parts: PartsReport, heading: Heading) -> Iterator[tuple[Key, Make]]:
    yield (
        "section-left",
        lambda said: wheel_section_drawing(of.section(parts, "left"), heading, said),
    )
    yield (
        "section-right",
        lambda said: wheel_section_drawing(of.section(parts, "right"), heading, said),
    )
    yield "housing", lambda said: housing_drawing(of.housing(parts), heading, said)
    yield "shaft-left", lambda said: shaft_drawing(of.shaft(parts, "left"), heading, said)
    yield "shaft-right", lambda said: shaft_drawing(of.shaft(parts, "right"), heading, said)
    yield "side", lambda said: side_view_drawing(of.side_view(parts), heading, said)
    yield "driveshaft", lambda said: driveshaft_drawing(of.driveshaft(parts), heading, said)


def _made(parts: PartsReport, key: Key, make: Make, on_larger: Make) -> FitSheet:
    lacks = lacking(parts, key)
    said = (*_said(parts, key), *((FORM,) if lacks else ()))
    try:
        sheet = make((*said, EMPTY_LINES))
    except ValueError:  # what does not go on the paper is set on the largest
        sheet = on_larger((*said, EMPTY_LINES))
    held = () if parts.trusted else ("readings that agree",)
    at_ride = ("readings at ride height",) if parts.hanging else ()
    return FitSheet(
        key, replace(sheet, cautions=(*said, *sheet.cautions)), (*held, *at_ride, *lacks)
    )


def _said(parts: PartsReport, key: Key) -> Iterator[str]:
    """What a sheet must say before anybody orders by it."""
    if not parts.trusted:
        yield CONTRADICT
    if parts.hanging:
        yield HANGING
    if _ITEMS.get(key) in parts.waits:
        yield NOT_YET


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
