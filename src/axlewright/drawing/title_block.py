"""The title block: what the sheet shows, of which build, and who has looked at it.

What is not known stays an empty field, to be filled in by hand.  The fields follow ISO 7200 and
the cone of the projection ISO 5456-2 (both from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.dimensions_text import INCH, decimals_for, figure
from axlewright.drawing.fonts import shorten
from axlewright.drawing.primitives import Point
from axlewright.drawing.sheet_marks import HEIGHT, Mark, Ring, Stroke, Words, font_size

Projection = Literal["first", "third"]

BLOCK_WIDTH = 190.0
_ROW = 6.6
_ROWS = 6
BLOCK_HEIGHT = _ROW * _ROWS
_INSET = 1.5
CHECK = "Check every figure against the car before you cut, weld or order."


@dataclass(frozen=True)
class Heading:
    """What is the same on every sheet of a build; ``general`` in mm, the rest as it is written."""

    build: str = ""
    revision: str = ""
    date: str = ""
    paper: str = "A3"
    projection: Projection = "third"
    general: float | None = None
    drawn: str = ""
    checked: str = ""
    approved: str = ""


@dataclass(frozen=True)
class TitleBlock:
    """What is written in the block; an empty text is a field to fill in by hand."""

    part: str
    build: str = ""
    revision: str = ""
    date: str = ""
    sheet: str = ""
    scale: int = 1
    paper: str = ""
    projection: Projection = "third"
    general: float | None = None
    material: str = ""
    drawn: str = ""
    checked: str = ""
    approved: str = ""


def titled(
    heading: Heading, part: str, scale: int, sheet: str = "", material: str = ""
) -> TitleBlock:
    """The block of one sheet."""
    return TitleBlock(part=part, sheet=sheet, scale=scale, material=material, **vars(heading))


def general_text(general: float | None) -> str:
    """The general tolerance in both units, or nothing."""
    if general is None:
        return ""
    metric = figure(general, decimals_for(general))
    inches = figure(general / INCH, decimals_for(general / INCH), zero=False)
    return f"±{metric} mm [±{inches} in]"


def fields(block: TitleBlock) -> tuple[tuple[tuple[float, str, str], ...], ...]:
    """Rows of the block from the top: width of each field, its name, and what stands in it."""
    way = f"{block.projection} angle"
    return (
        ((130.0, "", block.part), (60.0, "Sheet", block.sheet)),
        ((80.0, "Build", block.build), (50.0, "Revision", block.revision),
         (60.0, "Date", block.date)),
        ((38.0, "Scale", f"1:{block.scale}"), (42.0, "Paper", block.paper),
         (50.0, "", way), (60.0, "Units", "mm [in]")),
        ((95.0, "Unless stated", general_text(block.general)), (95.0, "Material", block.material)),
        ((64.0, "Drawn", block.drawn), (63.0, "Checked", block.checked),
         (63.0, "Approved", block.approved)),
        ((BLOCK_WIDTH, "", CHECK),),
    )  # fmt: skip


def block_marks(block: TitleBlock, corner: Point) -> tuple[Mark, ...]:
    """The block with its lower left corner on paper."""
    left, bottom = corner
    right, top = left + BLOCK_WIDTH, bottom + BLOCK_HEIGHT
    marks: list[Mark] = [
        Stroke(((left, bottom), (right, bottom), (right, top), (left, top)), "frame", closed=True)
    ]
    for i, row in enumerate(fields(block)):
        y = top - (i + 1) * _ROW
        if i < _ROWS - 1:
            marks.append(Stroke(((left, y), (right, y)), "text"))
        x = left
        for width, name, value in row:
            if x > left:
                marks.append(Stroke(((x, y), (x, y + _ROW)), "text"))
            marks.extend(_field((x, y), width, name, value, bold=i in (0, _ROWS - 1)))
            x += width
    marks.extend(cone((left + 116.0, top - 2.5 * _ROW), block.projection))
    return tuple(marks)


def _field(corner: Point, width: float, name: str, value: str, bold: bool) -> tuple[Words, ...]:
    """Name and value of a field on one line; a value that is too long is cut with an ellipsis."""
    x, y = corner[0] + _INSET, corner[1] + 0.5 * (_ROW - HEIGHT)
    found: list[Words] = []
    if name:
        found.append(Words((x, y), f"{name}:"))
        x += found[0].width + 2.0
    if value:
        room = corner[0] + width - _INSET - x
        text = shorten(value, font_size(HEIGHT), room, "Bold" if bold else "Regular")
        full = value if text != value else ""
        found.append(Words((x, y), text, bold=bold, full=full))
    return tuple(found)


def cone(center: Point, projection: Projection) -> tuple[Mark, ...]:
    """The truncated cone seen from the side and from its small end.

    In third angle what is seen from the left stands on the left; in first angle on the right.  The
    small end of the cone is on its left, so both of its circles are seen from there.
    """
    x, y = center
    side = 4.5 if projection == "third" else -4.5
    big, small, half = 2.4, 1.2, 2.4
    rings = (x - side, y)
    cx = x + side
    trapezoid = Stroke(
        (
            (cx - half, y - small),
            (cx + half, y - big),
            (cx + half, y + big),
            (cx - half, y + small),
        ),
        "text",
        closed=True,
    )
    axes = (
        Stroke(((cx - half - 1.0, y), (cx + half + 1.0, y)), "center"),
        Stroke(((rings[0] - big - 1.0, y), (rings[0] + big + 1.0, y)), "center"),
        Stroke(((rings[0], y - big - 0.8), (rings[0], y + big + 0.8)), "center"),
    )
    return (trapezoid, Ring(rings, small, "text"), Ring(rings, big, "text"), *axes)
