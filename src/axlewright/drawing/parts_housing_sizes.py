"""The sizes of an axle housing, counted from the differential's center.

Lengths in millimeters, angles in radians.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.drawing.dimensions import Size


@dataclass(frozen=True)
class EndSizes:
    """The face of a housing end: outline, bolt spacings across and up, bearing bore."""

    across: float
    up: float
    bolts_across: Size
    bolts_up: Size
    bolt_hole: Size
    bore: Size
    thickness: Size


@dataclass(frozen=True)
class BracketSizes:
    """A bracket or perch: ``where`` from the differential's center, above zero on the left.

    ``height`` is from the axle's center up to its seat or hole; ``angle`` that of its seat, above
    zero with the front up.
    """

    name: str
    where: Size
    width: float
    height: Size
    angle: Size | None = None


@dataclass(frozen=True)
class HousingSizes:
    """A housing: its halves, tube, ends, brackets and pinion.

    ``pinion_to_left`` is the pinion's center from the differential's, above zero on the left;
    ``pinion_below`` its offset below the axle, square to the pinion; ``nose`` runs from the axle
    along the pinion to the face of its flange; ``pinion_angle`` is above zero with the nose up.
    """

    left: Size
    right: Size
    tube_diameter: Size
    tube_wall: Size
    case_diameter: float
    case_width: float
    pinion_to_left: Size
    pinion_below: Size
    nose: Size
    pinion_angle: Size
    end: EndSizes
    brackets: tuple[BracketSizes, ...]
    material: str = ""
