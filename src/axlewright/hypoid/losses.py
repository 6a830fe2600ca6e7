"""What the hypoid mesh loses by sliding along its teeth.

Mean-point model: statics with Coulomb friction along the tooth, in the pitch plane only, so a
first estimate.  Measured whole axles run at 94 to 97.5 % hot and loaded, and far lower cold at
light load, where oil churning rules; that is not in here.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_OUTSIDE = "outside the friction of lubricated steel teeth"


@formula(
    "η_D",
    "ratio",
    source="derived: mean-point statics with friction along the tooth",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def drive_efficiency(
    tooth_friction: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
) -> Num:
    """Share of the power that the mesh passes on while the pinion drives."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    return (1.0 + drag * np.tan(ring_mean_spiral)) / (1.0 + drag * np.tan(pinion_mean_spiral))


@formula(
    "η_C",
    "ratio",
    source="derived: mean-point statics with friction along the tooth",
    valid={"tooth_friction": (0.0, 0.2)},
    outside=_OUTSIDE,
)
def coast_efficiency(
    tooth_friction: Num,
    flank_pressure_angle: Num,
    pinion_mean_spiral: Num,
    ring_mean_spiral: Num,
) -> Num:
    """Share of the power that the mesh passes back while the wheels drive."""
    drag = tooth_friction / np.cos(flank_pressure_angle)
    return (1.0 - drag * np.tan(pinion_mean_spiral)) / (1.0 - drag * np.tan(ring_mean_spiral))


@formula("v_s/v_1", "ratio", source="closed form: both pitch velocities share the normal part")
def sliding_ratio(offset_angle: Num, ring_mean_spiral: Num) -> Num:
    """Sliding speed along the tooth as a share of the pinion's pitch-line speed."""
    return np.sin(offset_angle) / np.cos(ring_mean_spiral)
