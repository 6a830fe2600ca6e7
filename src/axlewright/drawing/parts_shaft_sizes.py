"""The sizes of one axle shaft, counted from its flange face.

Lengths in millimeters.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.dimensions import Size


@dataclass(frozen=True)
class SplineSizes:
    """The spline at the inner end; a text that is empty, or no teeth, is a field to fill in."""

    teeth: int
    pitch: str
    major_diameter: Size
    length: Size
    engagement: Size | None = None
    pressure_angle: str = ""
    root: str = ""
    fit: str = ""
    minor_diameter: Size | None = None


@dataclass(frozen=True)
class ShaftSizes:
    """One axle shaft (mm); ``length`` is flange face to spline end.

    ``seat_start`` is the flange face to the near edge of the bearing seat; the register stands out
    from the flange face by ``register_height``.
    """

    side: Literal["left", "right"]
    length: Size
    flange_diameter: Size
    flange_thickness: Size
    register_diameter: Size
    register_height: Size
    bolt_circle: Size
    studs: int
    stud_thread: str
    stud_diameter: float
    stud_length: Size
    seat_diameter: Size
    seat_start: Size
    seat_length: Size
    body_diameter: Size
    spline: SplineSizes
    material: str = ""
    hardness: str = ""
