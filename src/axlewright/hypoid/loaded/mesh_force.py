"""The loaded contact as the force that the gears' supports feel, for the balance of both.

The supports ask for a force at a movement of the pair; here it is the mean over a pitch of what
the flanks really press, where they press.  It hardly changes in size as the pair moves (the torque
is given) but its point wanders with the pattern.
"""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.ease_off import PinionSurface
from axlewright.hypoid.loaded.compliance import Compliance
from axlewright.hypoid.loaded.contact import Counts, contact_force
from axlewright.hypoid.support.mesh import Movement, NoToothLoadError, ToothForce, ToothLoad
from axlewright.quantities.formula import Array

_STEPS = Movement(2e-6, 2e-6, 2e-6, 2e-5)
"""Steps (m, rad) of the differences: far above what the sharing settles to."""


def mesh_force(
    surface: PinionSurface, teeth: Compliance, ring_torque: float, counts: Counts | None = None
) -> ToothForce:
    """Force on the pinion (N) and moment about the mean point (N·m) at a movement of the pair."""

    def at(E: float, P: float, G: float, sigma: float) -> ToothLoad:
        try:
            return contact_force(surface, teeth, ring_torque, Movement(E, P, G, sigma), counts)
        except ArithmeticError as trouble:
            raise NoToothLoadError(str(trouble)) from trouble

    return at


def tangent(force: ToothForce, movement: Movement) -> Array:
    """Change of force and moment (6) per E, P, G (m) and Σ (rad): (6, 4), by differences."""
    columns = []
    for name, step in _STEPS._asdict().items():
        ahead, back = (
            force(*movement._replace(**{name: getattr(movement, name) + way * step}))
            for way in (1.0, -1.0)
        )
        change = np.concatenate([ahead.force - back.force, ahead.moment - back.moment])
        columns.append(change / (2.0 * step))
    return np.stack(columns, axis=1)
