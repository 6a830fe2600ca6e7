"""What spins between gearbox and wheels, gathered into a few lumps for the launch.

Tubes and shafts are plain round bars.  Gears, case and housing are alike in form from size to
size, so their inertia goes with the fifth power of the ring gear's diameter: rough, with a wide
share, but it costs no weighing.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_ALIKE = "bodies alike in form (closed form)"
_LUMPS = "inertia divided by the square of a ratio; halves of a shaft to both ends (closed form)"


@formula("J", "inertia", source="hollow cylinder about its axis (closed form)")
def round_shaft_inertia(density: Num, length: Num, outer_diameter: Num, inner_diameter: Num) -> Num:
    """Inertia of a shaft or tube about its own axis."""
    return np.pi / 32.0 * density * length * (outer_diameter**4 - inner_diameter**4)


@formula(
    "J_ds",
    "inertia",
    source="definition of the share of the ends (closed form)",
    valid={"ends_factor": (1.0, 4.0)},
    outside="joints and yokes do not weigh so much against their tube",
)
def inertia_with_ends(bare_inertia: Num, ends_factor: Num) -> Num:
    """Inertia of a driveshaft with its joints, yokes and weights."""
    return bare_inertia * ends_factor


@formula("J", "inertia", source=_ALIKE)
def inertia_by_size(density: Num, ring_gear_diameter: Num, inertia_share: Num) -> Num:
    """Inertia of a part whose size goes with the ring gear: density times diameter to the fifth.

    A solid disc as thick as a tenth of its diameter has a share of π/320, about 0.01.
    """
    square = ring_gear_diameter * ring_gear_diameter
    return inertia_share * density * square * square * ring_gear_diameter


@formula("J_g", "inertia", source=_LUMPS)
def input_inertia(transmission_inertia: Num, whole_shaft_inertia: Num, gear_ratio: Num) -> Num:
    """Gearbox and the front half of the driveshaft, at the speed of the gearbox input."""
    return transmission_inertia + 0.5 * whole_shaft_inertia / (gear_ratio * gear_ratio)


@formula("J_p", "inertia", source=_LUMPS)
def pinion_side_inertia(
    whole_shaft_inertia: Num, bare_pinion_inertia: Num, ring_case_inertia: Num, axle_ratio: Num
) -> Num:
    """Rear half of the driveshaft, pinion, ring gear and case, at the speed of the pinion."""
    return (
        0.5 * whole_shaft_inertia
        + bare_pinion_inertia
        + ring_case_inertia / (axle_ratio * axle_ratio)
    )


@formula("J", "inertia", source=_LUMPS)
def inertia_with_half_shaft(part_inertia: Num, axle_shaft_inertia: Num) -> Num:
    """A side gear or a wheel with its half of the axle shaft."""
    return part_inertia + 0.5 * axle_shaft_inertia
