"""Measuring sketches: what to show beside the readings of each picture of the worksheet."""

from __future__ import annotations

from collections.abc import Mapping

from axlewright.drawing import (
    sketches_axle,
    sketches_car,
    sketches_end,
    sketches_line,
    sketches_points,
    sketches_wheel,
)
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.sketch_lines import drawn
from axlewright.drawing.sketch_marks import Sketch

SKETCHES: dict[str, tuple[Sketch, ...]] = {
    "wheel_section": (sketches_wheel.WHEEL,),
    "wheelhouse": (sketches_car.WHEELHOUSE,),
    "car_across": (sketches_car.ACROSS,),
    "car_side": (sketches_car.SIDE,),
    "wheelhouse_bump": (sketches_car.BUMP,),
    "points_side": (sketches_points.LINKS, sketches_points.LEAF, sketches_points.ROD),
    "old_axle": (sketches_axle.OLD,),
    "end_stack": (
        sketches_end.BEARING, sketches_end.DISC, sketches_end.DRUM, sketches_end.FACE,
        sketches_end.STUD,
    ),
    "new_axle": (sketches_axle.NEW, sketches_axle.GAP, sketches_axle.BESIDE),
    "brake": (sketches_axle.BRAKE,),
    "angles_side": (sketches_line.ANGLES,),
    "angles_plan": (sketches_line.PLAN,),
    "slip": (sketches_line.SLIP,),
    "tunnel": (sketches_line.TUNNEL,),
}  # fmt: skip
"""By the name of the picture, without the side: both sides are mirror images."""


def pictures(picture: str, numbers: Mapping[str, int]) -> tuple[Drawing, ...]:
    """The sketches of a picture that show any of these readings, with their numbers."""
    return tuple(drawn(s, numbers) for s in SKETCHES[picture] if s.names & numbers.keys())
