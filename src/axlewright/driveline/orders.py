"""Noise by order: how fast each part of the driveline repeats itself at a road speed.

Rates are rotations: 60 rpm is one a second (1 Hz).  A recording's peak is compared with them.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("ω_j", "rotation", source="kinematics of Cardan's joint (closed form)")
def joint_rate(shaft_turning: Num) -> Num:
    """Rate at which a universal joint speeds up and slows down: twice a turn of the shaft."""
    return 2.0 * shaft_turning


@formula("ω_m", "rotation", source="one contact for each tooth of the pinion (closed form)")
def mesh_rate(shaft_turning: Num, pinion_teeth: Num) -> Num:
    """Rate at which teeth of the axle gears come into mesh: what gear whine sounds at."""
    return shaft_turning * pinion_teeth
