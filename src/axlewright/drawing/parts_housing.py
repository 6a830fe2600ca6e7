"""The axle housing: where its ends, brackets and pinion stand about the differential's center.

The datum A is the center of the differential (its cross pin), not the pinion: the two need not lie
in one plane.  Lengths in millimeters, angles in radians.  In views from behind, left is left.
"""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import Datum, Size
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import angle_line, in_both, in_words
from axlewright.drawing.parts_housing_end import end_dimensions, end_holes, end_marks
from axlewright.drawing.parts_housing_rear import rear_dimensions, rear_marks, rows_below
from axlewright.drawing.parts_housing_side import side_dimensions, side_marks
from axlewright.drawing.parts_housing_sizes import HousingSizes
from axlewright.drawing.sheet import (
    PAPERS,
    Paper,
    Sheet,
    Table,
    View,
    above_block,
    notes_high,
    table_low,
    view_box,
)
from axlewright.drawing.sheet_faults import checked
from axlewright.drawing.sheet_layout import Wanted, below, in_row
from axlewright.drawing.title_block import Heading, titled

_TABLE = (34.0, 52.0, 52.0, 28.0)
_END_HIGH = 41.0
"""Room in height for the face of an end (mm on paper)."""
NOTES = (
    "A is the center of the differential. Left and right as seen from behind.",
    "Angles are against level ground with the car at ride height.",
    "Tack only, with a straight bar through bearings and ends; then measure again.",
)


def housing_drawing(housing: HousingSizes, heading: Heading, said: tuple[str, ...] = ()) -> Sheet:
    """The drawing to build or order a housing from."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, bracket_rows(housing))
    notes = notes_high(paper, (*NOTES, *said))
    left, bottom, right, _ = above_block(paper)
    rear = Wanted(lambda scale: _rear_view(housing, scale))
    side = Wanted(lambda scale: _side_view(housing, scale), (2, 5, 10))
    end = _end_view(housing, table, paper, heading.general)
    third = heading.projection == "third"
    views = in_row(
        (side, rear) if third else (rear, side),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box, view_box(end, heading.general)),
        first=1 if third else 0,
    )
    views = (*sorted(views, key=lambda v: v.key), end)
    scale = views[0].scale
    sheet = Sheet(
        paper=paper,
        title=titled(heading, "Axle housing", scale, "housing", housing.material),
        description=(
            f"The axle housing from behind, from the left, and its end face; "
            f"{in_words(housing.left, housing.right)} end to end, "
            f"{in_words(housing.left)} of it on the left."
        ),
        views=views,
        tables=(table,),
        notes=(notes,),
        general=heading.general,
    )
    return checked(sheet)


def _rear_view(housing: HousingSizes, scale: int) -> View:
    """The housing from behind."""
    case = 0.5 * housing.case_diameter
    return View(
        "rear", "Seen from behind", (0.0, 0.0), scale,
        rear_marks(housing, scale), rear_dimensions(housing, scale),
        datums=(Datum((0.0, case), "A", 0.5 * math.pi, 5.0),),
        name_at=(-20.0, -case / scale - rows_below(housing, scale) * ROW_STEP - 7.5),
    )  # fmt: skip


def _side_view(housing: HousingSizes, scale: int) -> View:
    """The housing from the left."""
    return View(
        "side", "Seen from the left", (0.0, 0.0), scale,
        side_marks(housing, scale), side_dimensions(housing, scale),
        name_at=(-20.0, -0.5 * housing.case_diameter / scale - 2.6 * ROW_STEP),
    )  # fmt: skip


def _end_view(housing: HousingSizes, table: Table, paper: Paper, general: float | None) -> View:
    """The face of an end, above the table or beside it, at the largest scale that fits there."""
    end = housing.end

    def made(scale: int) -> View:
        return View(
            "end", "Housing end", (0.0, 0.0), scale,
            end_marks(end, scale), end_dimensions(end, scale),
            leaders=(end_holes(end, scale),),
            name_at=(0.5 * end.across / scale + 10.0, 0.5 * end.up / scale + 6.0),
        )  # fmt: skip

    left, bottom, right, _ = above_block(paper)
    edge, foot = table.box[2], table.box[3]
    raised = table.box[1] >= bottom - 2.5
    region = (
        (edge, bottom - 1.5, right, bottom + _END_HIGH)
        if raised
        else (left, foot, edge, foot + 1.5 * _END_HIGH)
    )
    (view,) = in_row((Wanted(made, (2, 5, 10, 20)),), region, general)
    return view


def bracket_rows(housing: HousingSizes) -> tuple[tuple[str, ...], ...]:
    """Every bracket with its place, and what else is no picture."""
    rows = [("Bracket", "from center A", "height over axle", "seat angle")]
    for bracket in housing.brackets:
        angle = "" if bracket.angle is None else angle_line(
            bracket.angle.value, bracket.angle.tolerance
        )  # fmt: skip
        side = "left" if bracket.where.value >= 0.0 else "right"
        where = Size(abs(bracket.where.value), bracket.where.tolerance)
        rows.append((f"{bracket.name}, {side}", in_both(where), in_both(bracket.height), angle))
    rows.append(("Tube wall", in_both(housing.tube_wall), "", ""))
    return tuple(rows)
