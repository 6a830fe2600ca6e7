"""A whole driveshaft, one piece or two: true angles at its joints and what they shake.

Works on slopes (see :mod:`axlewright.mechanics.joint_directions`): gearbox, one or two shafts,
pinion.  Nothing is worked out here; formulas are put in a row.  Two limits are kept apart: what a
single joint does to the shaft's own inertia, and what all joints together leave for the pinion.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.mechanics import joint_directions as lines
from axlewright.mechanics import universal_joints as joints
from axlewright.quantities.formula import Num, greatest

INERTIA_LIMIT = 1000.0
"""Single joint winding the shaft's own inertia, rad/s²; common practice, no source."""
SMOOTH_LIMIT = 400.0
"""What the joints leave over for smooth running, rad/s²; common practice, no source."""
LEAST_ANGLE = float(np.radians(0.5))
"""Below this the needles do not roll on (two driveline shops' rule); common practice, no source."""
GREATEST_DIFFERENCE = float(np.radians(1.0))
"""Working angles of the two ends agree within this; common practice, no source."""


@dataclass(frozen=True)
class Slope:
    """Side and plan slope of a part, rad: + front end higher, + front end further left."""

    side: Num
    plan: Num = 0.0


@dataclass(frozen=True)
class ShaftMotion:
    """What the joints of a line do.  Angles rad, accelerations rad/s²; numbers or arrays."""

    angles: tuple[Num, ...]
    inertia_accelerations: tuple[Num, ...]
    """Each joint alone: the shaft between the joints."""
    equivalent: Num
    left_over: Num
    """All joints together: pinion against gearbox."""

    @property
    def smooth_share(self) -> Num:
        """What is left over, as a share of what runs smoothly."""
        return lines.share_of_shake_limit(self.left_over, SMOOTH_LIMIT)

    @property
    def inertia_share(self) -> Num:
        """Hardest single joint, as a share of what a shaft's inertia is let do."""
        named = {f"joint_{n}": a for n, a in enumerate(self.inertia_accelerations, 1)}
        hardest = greatest("hardest_joint", "α_s", "angular acceleration", **named)
        return lines.share_of_shake_limit(hardest, INERTIA_LIMIT)


def shaft_motion(speed: Num, parts: Sequence[Slope], twists: Sequence[Num] = ()) -> ShaftMotion:
    """Angles and shake of gearbox, shaft (or two) and pinion, at a shaft speed in rad/s.

    ``parts`` are three or four slopes from front to rear; ``twists`` the twist between the yokes
    of each shaft, rad (nothing given: in line).
    """
    if len(parts) not in {3, 4}:
        raise ValueError("a driveshaft has gearbox, one or two shafts, and pinion")
    twists = twists or (0.0,) * (len(parts) - 2)
    if len(twists) != len(parts) - 2:
        raise ValueError("each shaft has one twist between its yokes")
    angles = tuple(
        lines.angle_between(a.side, a.plan, b.side, b.plan) for a, b in itertools.pairwise(parts)
    )
    phases = tuple(
        lines.joint_phase(twist, lines.plane_twist(a.side, a.plan, s.side, s.plan, b.side, b.plan))
        for twist, a, s, b in zip(twists, parts, parts[1:], parts[2:], strict=False)
    )
    if len(angles) == 2:
        equivalent = joints.equivalent_angle_phased(*angles, *phases)
    else:
        equivalent = lines.equivalent_angle_three(*angles, *phases)
    return ShaftMotion(
        angles,
        tuple(joints.peak_acceleration(speed, angle) for angle in angles),
        equivalent,
        joints.peak_acceleration_small_angle(speed, equivalent),
    )
