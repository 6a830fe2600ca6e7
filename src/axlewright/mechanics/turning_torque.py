"""Preload of a pair of tapered bearings from the torque that turns it by hand, without load.

The shop reads drag in inch-pounds on a beam wrench; thrust follows only by a coefficient of
friction that scatters by a factor of two with oil, surface and running in.
"""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula(
    "F_p",
    "force",
    source="one thrust drags at the mean radius of both bearings (derived)",
    valid={"turning_torque": (0.0, None), "turning_friction": (0.002, 0.03)},
    outside="tapered bearings that are oiled and turned by hand drag neither so little nor so much",
)
def thrust_from_turning(
    turning_torque: Num,
    turning_friction: Num,
    first_bearing_radius: Num,
    second_bearing_radius: Num,
) -> Num:
    """Thrust in a preloaded pair from the torque that turns it slowly, seal not counted."""
    return turning_torque / (turning_friction * (first_bearing_radius + second_bearing_radius))


@formula("r_m", "length", source="plain geometry (closed form)")
def mean_bearing_radius(bearing_bore: Num, bearing_outside: Num) -> Num:
    """Radius half-way between bore and outside of a bearing, where its rollers run."""
    return 0.25 * (bearing_bore + bearing_outside)
