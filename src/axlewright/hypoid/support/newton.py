"""The support under one tooth load: Newton's rule with the exact stiffness.

Springs that only push and stiffen have one rest, so the start does not matter.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.support.coupling import NoRestError
from axlewright.hypoid.support.mesh import ToothLoad
from axlewright.hypoid.support.system import System
from axlewright.quantities.formula import Array

TOLERANCE = 1e-9
"""Largest unbalanced force over the largest force at work."""
_STEPS = 500
_LONGEST = 200e-6
"""Longest shift (m), of a turn at the arm below, per step while bearings find their seats."""
_ARM = 0.05
"""Length (m) by which moments are compared with forces."""
NO_LOAD = ToothLoad(np.zeros(3), np.zeros(3))


@dataclass(frozen=True)
class Rest:
    """A state of equilibrium: freedoms, stiffness there, what is left unbalanced (relative).

    ``slope`` is how the tooth load changes with movement (6, 4), as far as the search learned it;
    ``mismatch`` the movement (m) by which teeth and support still differ; ``calls`` how often the
    teeth were asked.
    """

    state: Array
    stiffness: Array
    load: ToothLoad
    residual: float
    steps: int
    slope: Array | None = None
    mismatch: float = 0.0
    calls: int = 0


def thrusts(system: System, state: Array, closing: Array) -> Array:
    """Axial force of each bearing, along its shaft."""
    force = system.bearings.respond(shifts(system, state), closing).force
    return np.asarray(force[:, 0])


def shifts(system: System, state: Array) -> Array:
    """Shifts of each inner against its outer ring."""
    return np.asarray(state[system.inner] - state[system.outer])


def softest(system: System) -> Array:
    """Faint springs that lead a shaft where it floats in its play."""
    return np.asarray(1e-9 * np.diag(system.linear).max() * _weight(system) ** -2)


def _weight(system: System) -> Array:
    return np.tile([1.0, 1.0, 1.0, 1.0 / _ARM, 1.0 / _ARM], system.size // 5)


def solve(system: System, load: ToothLoad, closing: Array, held: Array, start: Array) -> Rest:
    """Newton's rule with limited steps and halving on the energy.

    ``held`` are forces besides those of the teeth.
    """
    state = start.copy()
    weight, faint = _weight(system), softest(system)
    outer = held + system.spread @ np.concatenate([load.force, load.moment])
    for step in range(_STEPS):
        energy, inner, stiffness = _assembled(system, state, closing)
        missing = outer - inner[0]
        scale = max(np.abs(load.force).max(), np.abs(inner[1]).max(), 1.0)
        residual = float(np.abs(missing * weight).max() / scale)
        if residual <= TOLERANCE:
            return Rest(state, stiffness, load, residual, step)
        way = _direction(stiffness, missing, faint)
        way *= min(1.0, _LONGEST / max(float(np.abs(way / weight).max()), 1e-30))
        gain = float(missing @ way)
        now = energy - float(outer @ state)
        for _ in range(30):
            there = state + way
            after = _energy(system, there, closing) - float(outer @ there)
            if after <= now - 1e-4 * gain + 1e-12 * abs(energy):
                break
            way, gain = 0.5 * way, 0.5 * gain
        state = there
    raise NoRestError(f"the gears found no rest; {residual:.1e} of the load is unbalanced")


def _direction(stiffness: Array, missing: Array, faint: Array) -> Array:
    """Newton's step; where a shaft floats in its play a faint spring leads it."""
    return np.asarray(np.linalg.solve(stiffness + np.diag(faint), missing))


def _assembled(
    system: System, state: Array, closing: Array
) -> tuple[float, tuple[Array, Array], Array]:
    """Energy, (inner forces, those of the bearings), stiffness."""
    answer = system.bearings.respond(shifts(system, state), closing)
    inner = system.linear @ state
    energy = 0.5 * float(state @ inner) + answer.energy
    stiffness = system.linear.copy()
    for i, (a, b) in enumerate(zip(system.inner, system.outer, strict=True)):
        k = answer.stiffness[i]
        stiffness[np.ix_(a, a)] += k
        stiffness[np.ix_(b, b)] += k
        stiffness[np.ix_(a, b)] -= k
        stiffness[np.ix_(b, a)] -= k
        inner[a] += answer.force[i]
        inner[b] -= answer.force[i]
    return energy, (inner, answer.force[:, :3]), stiffness


def _energy(system: System, state: Array, closing: Array) -> float:
    answer = system.bearings.respond(shifts(system, state), closing)
    return 0.5 * float(state @ system.linear @ state) + answer.energy
