"""The circle on which the needles of a joint's cap run, for their dynamic rating."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("D_pw", "length", source="needles between trunnion and cap (closed form)")
def needle_pitch_diameter(trunnion_diameter: Num, needle_diameter: Num) -> Num:
    """Diameter of the circle through the middles of the needles."""
    return trunnion_diameter + needle_diameter
