"""The sizes of one wheel in its arch, counted across from the face that the wheel is bolted to.

Lengths in millimeters.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.dimensions import Size, Tolerance


@dataclass(frozen=True)
class ObstacleSizes:
    """What stands inside of the tire: distance inward from the wheel's face, height over center."""

    name: str
    inward: Size
    height: Size


@dataclass(frozen=True)
class SectionSizes:
    """One rear wheel in its arch (mm); heights are over the wheel's center.

    ``rim_width`` is bead to bead, ``rim_overall`` lip to lip; ``backspace`` runs from the wheel's
    face to the inner lip; ``lip_outward`` from the face out to the fender's lip.  The clearances
    follow from these; ``outer`` and ``inner`` are their tolerances.
    """

    side: Literal["left", "right"]
    face_to_center: Size
    tire_width: Size
    tire_radius: Size
    rim_diameter: float
    rim_width: Size
    rim_overall: Size
    backspace: Size
    brake_radius: Size
    brake_depth: Size
    lip_outward: Size
    lip_height: Size
    obstacle: ObstacleSizes | None = None
    outer: Tolerance | None = None
    inner: Tolerance | None = None

    @property
    def middle(self) -> float:
        """The tire's center plane, inward from the wheel's face."""
        return self.backspace.value - 0.5 * self.rim_overall.value

    @property
    def outer_clearance(self) -> float:
        """Tire's side to fender lip; below zero it stands out."""
        return self.lip_outward.value - (0.5 * self.tire_width.value - self.middle)

    @property
    def inner_clearance(self) -> float | None:
        """Tire's side to the obstacle; below zero they meet."""
        if self.obstacle is None:
            return None
        return self.obstacle.inward.value - (self.middle + 0.5 * self.tire_width.value)
