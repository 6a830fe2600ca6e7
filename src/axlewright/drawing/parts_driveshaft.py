"""The driveshaft: joint center to joint center, tube, yokes, slip, joints and phase.

Front to the left.  Lengths in millimeters, angles in radians.
"""

from __future__ import annotations

from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import in_both, in_words
from axlewright.drawing.parts_driveshaft_sizes import DriveshaftSizes
from axlewright.drawing.parts_driveshaft_views import (
    in_line_leader,
    joint_datum,
    phase_dimensions,
    side_dimensions,
    side_marks,
    yoke_marks,
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

_TABLE = (40.0, 62.0)
NOTES = (
    "At ride height, weight on the tires. Mark both halves of the slip joint before taking apart.",
    "A turning shaft can kill: fit a safety loop and keep clear.",
)


def driveshaft_drawing(
    shaft: DriveshaftSizes, heading: Heading, said: tuple[str, ...] = ()
) -> Sheet:
    """The order drawing of a driveshaft."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, shaft_rows(shaft))
    notes = notes_high(paper, (*NOTES, *said))
    left, bottom, right, _ = above_block(paper)
    side = Wanted(lambda scale: _side_view(shaft, scale))
    end = Wanted(lambda scale: _phase_view(shaft, scale), (2, 5))
    third = heading.projection == "third"
    views = in_row(
        (side, end) if third else (end, side),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
        first=0 if third else 1,
    )
    scale = next(v.scale for v in views if v.key == "side")
    sheet = Sheet(
        paper=paper,
        title=titled(heading, "Driveshaft", scale, "driveshaft", shaft.material),
        description=(
            "The driveshaft from the left and its yokes from the rear, "
            f"{in_words(shaft.center_to_center)} between joint centers."
        ),
        views=tuple(sorted(views, key=lambda v: v.key, reverse=True)),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
    )
    return checked(sheet)


def _side_view(shaft: DriveshaftSizes, scale: int) -> View:
    """The shaft from the left."""
    half = 0.5 * shaft.tube_diameter.value / scale
    return View(
        "side", "Seen from the left", (0.0, 0.0), scale,
        side_marks(shaft, scale), side_dimensions(shaft, scale),
        datums=(joint_datum(shaft, scale),),
        name_at=(0.0, -half - 2.8 * ROW_STEP),
    )  # fmt: skip


def _phase_view(shaft: DriveshaftSizes, scale: int) -> View:
    """Both yokes from the rear."""
    half = 0.5 * max(shaft.tube_diameter.value, shaft.rear.span.value) / scale
    return View(
        "phase", _phase_name(shaft.phase.value), (0.0, 0.0), scale,
        yoke_marks(shaft, scale), phase_dimensions(shaft, scale),
        leaders=in_line_leader(shaft, scale),
        name_at=(-24.0, -half - 9.0),
    )  # fmt: skip


def shaft_rows(shaft: DriveshaftSizes) -> tuple[tuple[str, str], ...]:
    """Joints, tube, balance."""
    rows = [("Joints and tube", "")]
    for place, joint in (("Front", shaft.front), ("Rear", shaft.rear)):
        rows.append((f"{place} joint", joint.name))
        rows.append((f"{place} cap", in_both(joint.cap)))
        rows.append((f"{place} width", in_both(joint.span)))
    return (
        *rows,
        ("Tube wall", in_both(shaft.tube_wall)),
        ("Balance grade", shaft.balance),
        ("Highest speed", shaft.speed),
        ("Runout, most", in_both(shaft.runout)),
    )


def _phase_name(phase: float) -> str:
    """What the view shows, and which way the front yoke is turned."""
    if not phase:
        return "Phase, from the rear"
    return "Front yoke counterclockwise" if phase > 0.0 else "Front yoke clockwise"
