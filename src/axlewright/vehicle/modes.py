"""Natural speeds of single masses on springs, and damping as the time that goes with them.

Dampers are rarely known as such; how fast a swing dies away is.  For a spring of stiffness k whose
mass swings at ω with damping ratio ζ, the damper is k times the damping time 2ζ/ω.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula("ω", "rotation", source="inertia on a torsion spring (closed form)")
def torsion_speed(torsional_stiffness: Num, swinging_inertia: Num) -> Num:
    """Rate at which an inertia swings on a torsion spring; 60 rpm is one swing a second."""
    result: Num = np.sqrt(torsional_stiffness / swinging_inertia)
    return result


@formula("ω", "rotation", source="mass on a spring (closed form)")
def bounce_speed(spring_stiffness: Num, bouncing_mass: Num) -> Num:
    """Rate at which a mass bounces on a spring; 60 rpm is one bounce a second."""
    result: Num = np.sqrt(spring_stiffness / bouncing_mass)
    return result


@formula(
    "β",
    "short time",
    source="β = 2ζ/ω of a damped mass on a spring (closed form)",
    valid={"damping_ratio": (0.0, 1.5)},
    outside="so much damping lets nothing swing: it is friction rather",
)
def damping_time(damping_ratio: Num, swing_speed: Num) -> Num:
    """Time by which a spring's damper is told: damping over stiffness."""
    return 2.0 * damping_ratio / swing_speed
