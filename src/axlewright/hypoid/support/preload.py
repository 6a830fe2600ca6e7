"""Preload set cold: how far a pair must be squeezed to give its thrust without tooth load."""

from __future__ import annotations

import numpy as np

from axlewright.hypoid.support.coupling import NoRestError
from axlewright.hypoid.support.newton import NO_LOAD, solve, thrusts
from axlewright.hypoid.support.system import System
from axlewright.quantities.formula import Array

_FIRST = 20e-6
"""First guess (m) of how much a preloaded pair is squeezed."""
_ROUNDS = 60


def preloaded(system: System) -> Array:
    """Closings that give each line its thrust without tooth load; with play they are below zero.

    Thrust grows by hardly more than its closing, so stretching the closing by what is missing
    gets there in a few rounds.
    """
    lean = np.array([np.sin(r.contact_angle) for r in system.bearings.rollers])
    pinions = len(system.pinion.seats)
    lines = ((system.pinion, slice(0, pinions)), (system.ring, slice(pinions, lean.size)))
    squeeze = np.array([_FIRST if line.preload > 0.0 else -line.play for line, _ in lines])
    none = np.zeros(system.size)
    for _ in range(_ROUNDS):
        closing = np.zeros(lean.size)
        for (_, own), total in zip(lines, squeeze, strict=True):
            closing[own] = 0.5 * total * lean[own]
        if not any(line.preload > 0.0 for line, _ in lines):
            return closing
        rest = solve(system, NO_LOAD, closing, none, none)
        thrust = np.abs(thrusts(system, rest.state, closing))
        off = 0.0
        for i, (line, own) in enumerate(lines):
            if line.preload > 0.0:
                got = float(thrust[own].max()) / line.preload
                squeeze[i] *= got**-0.9
                off = max(off, abs(got - 1.0))
        if off < 1e-9:
            return closing
    raise NoRestError("no closing of the bearings gives the wanted preload")
