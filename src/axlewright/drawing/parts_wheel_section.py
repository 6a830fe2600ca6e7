"""Wheel, tire and arch in section, from behind: what room is left on each side.

Lengths in millimeters.  Across, everything is counted from the face that the wheel is bolted to.
"""

from __future__ import annotations

from axlewright.drawing.dimensions import Size, is_known
from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import in_both, in_words
from axlewright.drawing.parts_wheel_section_sizes import SectionSizes
from axlewright.drawing.parts_wheel_section_views import (
    face_datum,
    obstacle_name,
    section_dimensions,
    section_marks,
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

_TABLE = (42.0, 58.0)
NOTES = (
    "From behind, car level at ride height, weight on the tires.",
    "A is the face that the wheel is bolted to. Tires bulge and grow: check full bump and roll.",
)


def wheel_section_drawing(
    section: SectionSizes, heading: Heading, said: tuple[str, ...] = ()
) -> Sheet:
    """The section through one wheel and its arch."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, section_rows(section))
    notes = notes_high(paper, (*NOTES, *said, *cautions_of(section)))
    left, bottom, right, _ = above_block(paper)
    (view,) = in_row(
        (Wanted(lambda scale: _view(section, scale)),),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
    )
    sheet = Sheet(
        paper=paper,
        title=titled(
            heading,
            f"Wheel and arch, {section.side.upper()}",
            view.scale,
            f"section, {section.side}",
        ),
        description=(
            f"Section through the {section.side} rear wheel: "
            f"{in_words(Size(section.outer_clearance, section.outer))} between tire and fender lip."
        ),
        views=(view,),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
        cautions=cautions_of(section),
    )
    return checked(sheet)


def _view(section: SectionSizes, scale: int) -> View:
    """The section from behind."""
    return View(
        "section", f"{section.side.capitalize()} wheel, from behind", (0.0, 0.0), scale,
        section_marks(section, scale), section_dimensions(section, scale),
        leaders=obstacle_name(section, scale),
        datums=(face_datum(section, scale),),
        name_at=(-24.0, -3.0 * ROW_STEP),
    )  # fmt: skip


def cautions_of(section: SectionSizes) -> tuple[str, ...]:
    """What touches."""
    found = []
    if section.outer_clearance < 0.0 and is_known(Size(0.0, section.outer)):
        found.append("The tire stands out past the fender lip.")
    inner = section.inner_clearance
    if inner is not None and inner < 0.0 and is_known(Size(0.0, section.inner)):
        assert section.obstacle is not None
        found.append(f"The tire meets the {section.obstacle.name}.")
    return tuple(found)


def section_rows(section: SectionSizes) -> tuple[tuple[str, str], ...]:
    """The figures behind the picture."""
    rows = [
        ("Measured", ""),
        ("Wheel face to center", in_both(section.face_to_center)),
        ("Rim, bead to bead", in_both(section.rim_width)),
        ("Rim, lip to lip", in_both(section.rim_overall)),
        ("Brake radius", in_both(section.brake_radius)),
        ("Brake, from face in", in_both(section.brake_depth)),
        ("Lip, from face out", in_both(section.lip_outward)),
    ]
    if section.obstacle is not None:
        rows.append(("Inside, from face in", in_both(section.obstacle.inward)))
    return tuple(rows)
