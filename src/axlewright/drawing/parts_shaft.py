"""The axle shaft as it is ordered: one sheet for each side, since sides are seldom alike.

All lengths run from the flange face, which is the datum.  Lengths in millimeters.
"""

from __future__ import annotations

from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import in_both, in_words
from axlewright.drawing.parts_shaft_sizes import ShaftSizes
from axlewright.drawing.parts_shaft_views import (
    body_dimensions,
    body_marks,
    face_datum,
    flange_dimensions,
    flange_marks,
    stud_leader,
)
from axlewright.drawing.sheet import (
    PAPERS,
    Sheet,
    View,
    above_block,
    notes_high,
    table_low,
)
from axlewright.drawing.sheet_faults import checked
from axlewright.drawing.sheet_layout import Wanted, below, in_row
from axlewright.drawing.title_block import Heading, titled

_TABLE = (40.0, 66.0)
NOTES = (
    "Lengths run from the flange face A.",
    "Left and right are ordered apart: each has its own sheet.",
)


def shaft_drawing(shaft: ShaftSizes, heading: Heading, said: tuple[str, ...] = ()) -> Sheet:
    """The order drawing of one axle shaft."""
    paper = PAPERS[heading.paper]
    third = heading.projection == "third"
    table = table_low(paper, _TABLE, spline_rows(shaft), on_right=not third)
    notes = notes_high(paper, (*NOTES, *said))
    left, bottom, right, _ = above_block(paper)
    side = Wanted(lambda scale: _side_view(shaft, scale))
    face = Wanted(lambda scale: _face_view(shaft, scale), (2, 5, 10))
    views = in_row(
        (face, side) if third else (side, face),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
        first=1 if third else 0,
    )
    scale = next(v.scale for v in views if v.key == "side")
    sheet = Sheet(
        paper=paper,
        title=titled(
            heading, f"Axle shaft, {shaft.side.upper()}", scale, f"shaft, {shaft.side}",
            shaft.material,
        ),
        description=(
            f"The {shaft.side} axle shaft with its flange, seat and spline, "
            f"{in_words(shaft.length)} from flange face to spline end."
        ),
        views=tuple(sorted(views, key=lambda v: v.key, reverse=True)),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
    )  # fmt: skip
    return checked(sheet)


def _side_view(shaft: ShaftSizes, scale: int) -> View:
    """The shaft from the side."""
    foot = -0.5 * shaft.flange_diameter.value / scale
    return View(
        "side", "Seen from the side", (0.0, 0.0), scale,
        body_marks(shaft, scale), body_dimensions(shaft, scale),
        datums=(face_datum(shaft, scale),),
        name_at=(0.0, foot - 5.8 * ROW_STEP),
    )  # fmt: skip


def _face_view(shaft: ShaftSizes, scale: int) -> View:
    """The flange from outside."""
    return View(
        "flange", "Flange from outside", (0.0, 0.0), scale,
        flange_marks(shaft, scale), flange_dimensions(shaft, scale),
        leaders=(stud_leader(shaft, scale),),
        name_at=(-20.0, -0.5 * shaft.flange_diameter.value / scale - 16.0),
    )  # fmt: skip


def spline_rows(shaft: ShaftSizes) -> tuple[tuple[str, str], ...]:
    """What the maker of the spline needs, and heat treatment."""
    spline = shaft.spline
    return (
        ("Spline", ""),
        ("Teeth", str(spline.teeth) if spline.teeth else ""),
        ("Pitch", spline.pitch),
        ("Pressure angle", spline.pressure_angle),
        ("Root and fit", ", ".join(t for t in (spline.root, spline.fit) if t)),
        ("Major diameter", in_both(spline.major_diameter)),
        ("Minor diameter", in_both(spline.minor_diameter)),
        ("In the gear, least", in_both(spline.engagement)),
        ("Hardness", shaft.hardness),
    )
