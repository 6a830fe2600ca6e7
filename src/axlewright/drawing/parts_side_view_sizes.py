"""The sizes of the car from the left: points ahead of the rear axle and above the ground.

Lengths in millimeters, angles in radians.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlewright.drawing.dimensions import Size
from axlewright.drawing.primitives import Point


@dataclass(frozen=True)
class LinkSizes:
    """A link in side view: its ends on the axle and on the body (ahead, up)."""

    name: str
    axle: Point
    body: Point

    @property
    def slope(self) -> float:
        """Its angle, above zero with the front end higher (rad)."""
        return math.atan2(self.body[1] - self.axle[1], self.body[0] - self.axle[0])


@dataclass(frozen=True)
class SideSizes:
    """The car from the left.

    ``instant_center`` is None where the links are parallel; ``anti_squat`` is a share (1 is all),
    worked out elsewhere and written as it is given.  ``pinion_angle`` and ``shaft_angle`` are above
    zero with the front end up.
    """

    wheelbase: Size
    rear_radius: Size
    front_radius: Size
    mass_height: Size
    mass_ahead: Size
    links: tuple[LinkSizes, ...]
    instant_center: Point | None = None
    anti_squat: float | None = None
    pinion_angle: Size | None = None
    shaft_angle: Size | None = None
