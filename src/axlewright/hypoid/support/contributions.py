"""Who gives how much: each part's share of the movement, adding up exactly.

By virtual work: a unit load along E (or P, G, Σ) is put on the loaded system's tangent springs;
what a part gives under it, times its own force from the real movement, is that part's share.  The
shares add up to the whole by Betti's rule whatever the bearings' law.  A part that works against
the rest has a share below zero.
"""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.support.equilibrium import Housed
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.support.newton import Rest
from axlewright.hypoid.support.system import System
from axlewright.quantities.formula import Array


def contributions(housed: Housed, rest: Rest) -> dict[str, Movement]:
    """Movement of the pair by contributor: shafts, flange, bearings, case."""
    system = housed.system
    change = rest.state - housed.unloaded.state
    unit = np.linalg.solve(rest.stiffness, system.rows.T).T
    shares: dict[str, Array] = {}
    for part in system.parts:
        own = part.freedoms
        shares[part.name] = unit[:, own] @ (part.stiffness @ change[own])
    across = _across(system, change)
    dummy = np.stack([_across(system, u) for u in unit])
    tangent = _bearing_tangents(housed, rest)
    for i, name in enumerate(system.names):
        shares[name] = dummy[:, i] @ (tangent[i] @ across[i])
    return {name: Movement(*(float(v) for v in row)) for name, row in shares.items()}


def _across(system: System, state: Array) -> Array:
    return np.asarray(state[system.inner] - state[system.outer])


def _bearing_tangents(housed: Housed, rest: Rest) -> Array:
    shifts = _across(housed.system, rest.state)
    return housed.system.bearings.respond(shifts, housed.closing).stiffness
