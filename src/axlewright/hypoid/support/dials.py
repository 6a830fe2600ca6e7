"""What dials on pinion head and ring gear read in a deflection test.

Dials stand on the case and touch the gears themselves; E, P, G and Σ are told at the crossing
point and hold the tilt of each shaft times its distance, so they are not what a dial reads.  In a
test the pinion is locked or turned slowly under torque and four dials are read: lift and axial
movement of both gears at the mesh.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from axlewright.hypoid.support.equilibrium import Housed
from axlewright.hypoid.support.mesh import cross_matrix
from axlewright.hypoid.support.newton import Rest
from axlewright.quantities.formula import Array

_THOU = 25.4e-6
LIMITS = {
    "pinion_lift": (-3.0 * _THOU, 3.0 * _THOU),
    "pinion_axial": (-3.0 * _THOU, 3.0 * _THOU),
    "ring_lift": (-3.0 * _THOU, 3.0 * _THOU),
    "ring_axial": (-3.0 * _THOU, 10.0 * _THOU),
}
"""Limits (m) of a deflection test for gears of 6 to 15 inches at their *greatest service load*:
.003 in each, .010 in for a ring gear that moves away from the pinion (a gear maker's page, read).
The .003 for a ring gear that moves toward the pinion is our reading.  A launch is several times
the service load: do not hold its movement against these."""


class Dials(NamedTuple):
    """Readings at the mesh, m: lift along the offset, axial away from the own apex, and sideways.

    Lift is positive where a gear moves the way from the ring's to the pinion's axis.  Sideways the
    pinion moves along the ring's axis, toward the ring's back, and the ring along the pinion's,
    toward its tail.
    """

    pinion_lift: float
    pinion_axial: float
    pinion_sideways: float
    ring_lift: float
    ring_axial: float
    ring_sideways: float


def dials(housed: Housed, rest: Rest) -> Dials:
    """Readings since the pair was unloaded: pinion on its axis, ring on its rim at the mesh."""
    shift, rim = _points(housed, rest.state - housed.unloaded.state)
    x, y, z = (float(v) for v in shift)
    rx, ry, rz = (float(v) for v in rim)
    return Dials(y, x, z, ry, rz, rx)


def beyond_limits(readings: Dials) -> dict[str, float]:
    """Which readings leave the limits of a deflection test, and by how many times the limit."""
    over: dict[str, float] = {}
    for name, (low, high) in LIMITS.items():
        value = float(getattr(readings, name))
        share = value / (high if value > 0.0 else low)
        if share > 1.0:
            over[name] = share
    return over


def _points(housed: Housed, change: Array) -> tuple[Array, Array]:
    """Movement of the pinion's axis at the mesh and of the ring's rim at the mean point."""
    system = housed.system
    pinion, ring = (system.nodes @ change).reshape(2, 3)
    arm = system.mesh.mean_point - np.array([0.0, 0.0, system.ring.gear_at])
    return pinion, np.asarray(ring - cross_matrix(arm) @ (system.ring_turns @ change))
