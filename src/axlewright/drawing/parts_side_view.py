"""The car from the left with its rear links: instant center, anti-squat line, angles.

Points are measured from below the rear axle: ahead of it, and above the ground.  Lengths in
millimeters, angles in radians.  The car's outline is only a hint.
"""

from __future__ import annotations

from axlewright.drawing.dimensions_base import ROW_STEP
from axlewright.drawing.dimensions_text import INCH, angle_line, figure
from axlewright.drawing.parts_side_view_marks import (
    car_dimensions,
    car_leaders,
    car_marks,
    drawable,
)
from axlewright.drawing.parts_side_view_sizes import SideSizes
from axlewright.drawing.primitives import Point
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

_TABLE = (30.0, 52.0, 52.0, 24.0)
NOTES = (
    "From the left, at ride height. Points are ahead of the rear axle and above level ground.",
    "Slopes are above zero with the front end higher.",
)


def side_view_drawing(car: SideSizes, heading: Heading, said: tuple[str, ...] = ()) -> Sheet:
    """The side view of the rear suspension."""
    paper = PAPERS[heading.paper]
    table = table_low(paper, _TABLE, point_rows(car))
    notes = notes_high(paper, (*NOTES, *said, *cautions_of(car)))
    left, bottom, right, _ = above_block(paper)
    (view,) = in_row(
        (Wanted(lambda scale: _view(car, scale)),),
        (left, bottom, right, below(notes)),
        heading.general,
        (table.box,),
    )
    sheet = Sheet(
        paper=paper,
        title=titled(heading, "Rear suspension, side view", view.scale, "side view"),
        description=(
            f"The car from the left with {len(car.links)} links of the rear axle"
            + ("" if car.instant_center is None else ", their instant center")
            + ("." if car.anti_squat is None else " and the anti-squat line.")
        ),
        views=(view,),
        tables=(table,),
        notes=(notes,),
        general=heading.general,
        cautions=cautions_of(car),
    )
    return checked(sheet)


def _view(car: SideSizes, scale: int) -> View:
    """The car from the left."""
    return View(
        "side", "Seen from the left", (0.0, 0.0), scale,
        car_marks(car, scale), car_dimensions(car, scale), leaders=car_leaders(car, scale),
        name_at=(-0.5 * car.wheelbase.value / scale - 20.0, -2.9 * ROW_STEP),
    )  # fmt: skip


def cautions_of(car: SideSizes) -> tuple[str, ...]:
    """What is not on the picture."""
    if not car.links:
        return ("The points of the suspension are not measured: no links are drawn.",)
    if car.instant_center is None:
        return ("The links are parallel in side view, or nearly: no instant center is drawn.",)
    if not drawable(car):
        return ("The instant center is too far away to draw; its place is in the table.",)
    return ()


def point_rows(car: SideSizes) -> tuple[tuple[str, ...], ...]:
    """The ends of every link, the instant center, and the angles."""
    rows = [("Point: ahead, up", "on the axle, mm [in]", "on the body, mm [in]", "slope")]
    for link in car.links:
        rows.append((link.name, _both(link.axle), _both(link.body), angle_line(link.slope, None)))
    center = (
        ("none" if car.links else "") if car.instant_center is None else _both(car.instant_center)
    )
    rows.append(("Instant center", center, "", ""))
    for name, angle in (("Pinion", car.pinion_angle), ("Driveshaft", car.shaft_angle)):
        said = "" if angle is None else angle_line(angle.value, None)
        rows.append((name, "", "", said))
    return tuple(rows)


def _both(point: Point) -> str:
    metric = ", ".join(figure(v, 1) for v in point)
    inches = ", ".join(figure(v / INCH, 2, zero=False) for v in point)
    return f"{metric} [{inches}]"
