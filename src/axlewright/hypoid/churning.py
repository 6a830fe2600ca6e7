"""What the ring gear loses by stirring the oil.

The form is that of Changenet and Velex (ASME J. Mech. Des. 129, 2007), who fitted it to single
gears in a wide box.  **Coefficients are from memory**, an axle's case is narrow, and what the
pinion, the bearings and the differential case stir is not in it: a measure for ranking, with a
band from half to twice.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_PAPER = "Changenet & Velex, ASME J. Mech. Des. 129 (2007) (coefficients from memory)"
_DEPTH = {"oil_immersion": (0.05, 1.0)}
_TOO_DEEP = "gears that dip by less than a twentieth, or more than all, of their radius"


@formula(
    "S_m",
    "area",
    source="segments of a disk and an arc (closed form)",
    valid=_DEPTH,
    outside=_TOO_DEEP,
)
def immersed_surface(ring_diameter: Num, ring_face_width: Num, oil_immersion: Num) -> Num:
    """Surface of the ring gear in the oil at rest: both sides and the rim."""
    radius = 0.5 * ring_diameter
    arc = 2.0 * np.arccos(1.0 - oil_immersion)
    return radius * radius * (arc - np.sin(arc)) + radius * arc * ring_face_width


@formula("Fr", "ratio", source="definition in the paper (from memory)")
def churning_froude(turning_speed: Num, ring_diameter: Num) -> Num:
    """How far the turning throws the oil against how far weight holds it down."""
    return turning_speed * turning_speed * 0.5 * ring_diameter / 9.80665


@formula("Re", "ratio", source="definition in the paper (from memory)")
def churning_reynolds(
    turning_speed: Num, ring_diameter: Num, ring_face_width: Num, kinematic_viscosity: Num
) -> Num:
    """How little the oil's thickness counts."""
    return turning_speed * 0.5 * ring_diameter * ring_face_width / kinematic_viscosity


@formula("C_m", "ratio", source=_PAPER + ", Re below 6000", valid=_DEPTH, outside=_TOO_DEEP)
def thick_churning(
    oil_immersion: Num,
    oil_volume: Num,
    ring_diameter: Num,
    churning_froude: Num,
    churning_reynolds: Num,
) -> Num:
    """Drag coefficient where the oil's thickness counts."""
    depth = (0.5 * oil_immersion) ** 0.45
    room = (oil_volume / ring_diameter**3) ** 0.1
    return 1.366 * depth * room * churning_froude**-0.6 * churning_reynolds**-0.21


@formula("C_m", "ratio", source=_PAPER + ", Re above 9000", valid=_DEPTH, outside=_TOO_DEEP)
def thin_churning(
    oil_immersion: Num,
    oil_volume: Num,
    ring_diameter: Num,
    ring_face_width: Num,
    churning_froude: Num,
) -> Num:
    """Drag coefficient where only the oil's mass counts."""
    depth = (0.5 * oil_immersion) ** 0.1
    room = (oil_volume / ring_diameter**3) ** -0.35
    wide = (ring_face_width / ring_diameter) ** 0.85
    return 3.644 * depth * room * wide * churning_froude**-0.88


@formula("T_ch", "small torque", source=_PAPER)
def churning_torque(
    churning_share: Num,
    oil_density: Num,
    turning_speed: Num,
    immersed_surface: Num,
    ring_diameter: Num,
    churning_coefficient: Num,
) -> Num:
    """Torque that stirring takes, so much of it in this case as in a wide box."""
    radius = 0.5 * ring_diameter
    push = 0.5 * oil_density * turning_speed * turning_speed * radius**3
    return churning_share * push * immersed_surface * churning_coefficient


@formula("P_ch", "power", source=_PAPER + "; a straight line between both laws (own choice)")
def churning_heat(thick_churning_heat: Num, thin_churning_heat: Num, churning_reynolds: Num) -> Num:
    """Heat of stirring: the thick law's below Re 6000, the thin one's above 9000."""
    along = np.minimum(np.maximum((churning_reynolds - 6000.0) / 3000.0, 0.0), 1.0)
    return thick_churning_heat + along * (thin_churning_heat - thick_churning_heat)
