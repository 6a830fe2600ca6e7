"""Roller bearings of the axle by their rollers, and proportions where only the size is known.

Catalogues do not give rollers.  Thickness, number and length follow here from bore, outside
diameter and width by proportions of common light and wide series (*assumption*, from memory):
pitch circle halfway, rollers a quarter of the ring section's diameter difference thick, 85 percent
of the circle full, two thirds of the width long.  How well they do was not measured.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.mechanics import roller_contact, tapered_bearings

THICKNESS_SHARE = 0.25
"""Roller diameter over outside diameter less bore (assumption, ± 10 %)."""
FILLING = 0.85
"""Rollers times their diameter over the pitch circle (assumption, ± 5 %)."""
LENGTH_SHARE = 0.67
"""Carrying length of a roller over the width of the bearing (assumption, ± 10 %)."""


@dataclass(frozen=True)
class Roller:
    """One row of rollers (m, rad, N).

    ``facing`` is the direction along the shaft in which the shaft loads the bearing: +1, -1, or 0
    for a cylindrical bearing, which carries no thrust.  ``stiffening`` multiplies the contact
    stiffness: one for steel, very large to take the rollers out of the account.
    """

    facing: int
    contact_angle: float
    pitch_radius: float
    count: int
    diameter: float
    length: float
    rating: float = 0.0
    clearance: float = 0.0
    crowned: bool = True
    stiffening: float = 1.0

    def __post_init__(self) -> None:
        """Refuse what is no bearing."""
        if self.facing not in {-1, 0, 1}:
            raise ValueError("a bearing faces +1 or -1, or 0 when it carries no thrust")
        if (self.facing == 0) != (self.contact_angle == 0.0):
            raise ValueError("a cylindrical bearing has no contact angle, a tapered one has")
        sizes = (self.pitch_radius, self.count, self.diameter, self.length, self.stiffening)
        if min(sizes) <= 0.0 or self.clearance < 0.0:
            raise ValueError("sizes of a bearing are positive")

    @property
    def load_centre(self) -> float:
        """From the middle of the rollers to where the lines of force meet the axis."""
        return -self.facing * self.pitch_radius * float(np.tan(self.contact_angle))

    @property
    def half_taper(self) -> float:
        """Half the cone angle of a roller."""
        return float(
            roller_contact.half_taper(self.diameter, self.contact_angle, 2.0 * self.pitch_radius)
        )

    def rigid(self) -> Roller:
        """The same bearing with rollers that hardly give."""
        return replace(self, stiffening=1e3 * self.stiffening, crowned=False)


def typical_tapered(
    bore: float, outside: float, width: float, contact_angle: float, facing: int
) -> Roller:
    """Tapered bearing of a size by proportion (assumed rollers), with the rating of ISO 281."""
    return _typical(bore, outside, width, contact_angle, facing, 0.0, 1.1)


def typical_pilot(bore: float, outside: float, width: float, clearance: float) -> Roller:
    """Cylindrical bearing on the pinion's nose (assumed rollers); clearance on the diameter."""
    return _typical(bore, outside, width, 0.0, 0, clearance, 1.1)


def _typical(
    bore: float,
    outside: float,
    width: float,
    angle: float,
    facing: int,
    clearance: float,
    material: float,
) -> Roller:
    pitch = 0.5 * (bore + outside)
    thick = THICKNESS_SHARE * (outside - bore)
    count = max(6, round(FILLING * np.pi * pitch / thick))
    length = LENGTH_SHARE * width
    geometry = tapered_bearings.rating_geometry_factor(thick, angle, pitch)
    rating = tapered_bearings.dynamic_rating(
        material, geometry, 1.0, length, angle, float(count), thick
    )
    return Roller(facing, angle, 0.5 * pitch, count, thick, length, float(rating), clearance)
