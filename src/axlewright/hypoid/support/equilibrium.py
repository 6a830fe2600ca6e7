"""Where everything comes to rest under a tooth load: Newton's rule with the exact stiffness.

The tooth load may depend on the movement (a contact in the loop); its own derivative is left out,
so the rule then converges step by step instead of quadratically, to the same rest.  Preload is
found as the closing of a pair that gives the wanted thrust without tooth load.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.support.duty import Duty, duties
from axlewright.hypoid.support.mesh import Movement, ToothForce, ToothLoad, steady
from axlewright.hypoid.support.system import System
from axlewright.quantities.formula import Array

TOLERANCE = 1e-9
"""Largest unbalanced force over the largest force at work."""
_STEPS = 200
_LONGEST = 200e-6
"""Longest shift (m), of a turn at the arm below, per step while bearings find their seats."""
_FIRST = 20e-6
"""First guess (m) of how much a preloaded pair is squeezed."""
_ROUNDS = 60
_ARM = 0.05
"""Length (m) by which moments are compared with forces."""
_NO_LOAD = ToothLoad(np.zeros(3), np.zeros(3))


class NoRestError(ArithmeticError):
    """No equilibrium was found; says how far the search came."""


@dataclass(frozen=True)
class Rest:
    """A state of equilibrium: freedoms, stiffness there, what is left unbalanced (relative)."""

    state: Array
    stiffness: Array
    load: ToothLoad
    residual: float
    steps: int


@dataclass(frozen=True)
class Housed:
    """A system with its preload set: closings of the bearings and the unloaded rest."""

    system: System
    closing: Array
    unloaded: Rest

    def rest(self, tooth: ToothForce, start: Array | None = None) -> Rest:
        """Equilibrium under a tooth load, from the unloaded rest or a given state."""
        base = self.unloaded.state

        def moved(state: Array) -> ToothLoad:
            return tooth(*self.system.movement(state - base))

        return _newton(self.system, moved, self.closing, base if start is None else start)

    def movement(self, rest: Rest) -> Movement:
        """How the pair has moved since it was unloaded."""
        return self.system.movement(rest.state - self.unloaded.state)

    def march(self, teeth: Iterable[ToothForce]) -> list[Rest]:
        """Equilibria one after the other, each started from the one before."""
        found: list[Rest] = []
        for tooth in teeth:
            found.append(self.rest(tooth, found[-1].state if found else None))
        return found

    def nodes(self, rest: Rest) -> Array:
        """Shifts of the pinion's and the ring's mesh node in the frame (2, 3), seen by dials."""
        return np.asarray((self.system.nodes @ (rest.state - self.unloaded.state)).reshape(2, 3))

    def duties(self, rest: Rest) -> dict[str, Duty]:
        """What each bearing goes through, by name."""
        found = duties(self.system.bearings, _shifts(self.system, rest.state), self.closing)
        return dict(zip(self.system.names, found, strict=True))


def house(system: System, warming: Array | None = None) -> Housed:
    """Set the preload of both lines cold, then warm the case if so wished.

    ``warming`` is how much each bearing closes by it, see :func:`case.warm_closing`.
    """
    closing = _preloaded(system)
    if warming is not None:
        closing = closing + warming
    rest = _newton(system, lambda state: _NO_LOAD, closing, np.zeros(system.size))
    return Housed(system, closing, rest)


def thrusts(system: System, state: Array, closing: Array) -> Array:
    """Axial force of each bearing, along its shaft."""
    force = system.bearings.respond(_shifts(system, state), closing).force
    return np.asarray(force[:, 0])


def float_at_reversal(housed: Housed, drive: ToothLoad, coast: ToothLoad) -> Movement:
    """How the pair jumps when a small torque turns from coast to drive: play if there is any."""
    one = housed.movement(housed.rest(steady(drive)))
    other = housed.movement(housed.rest(steady(coast)))
    return Movement(*(a - b for a, b in zip(one, other, strict=True)))


def _shifts(system: System, state: Array) -> Array:
    return np.asarray(state[system.inner] - state[system.outer])


def _newton(
    system: System, tooth: Callable[[Array], ToothLoad], closing: Array, start: Array
) -> Rest:
    """Newton's rule with limited steps and halving on the energy of the frozen load."""
    state = start.copy()
    weight = np.tile([1.0, 1.0, 1.0, 1.0 / _ARM, 1.0 / _ARM], system.size // 5)
    softest = 1e-9 * np.diag(system.linear).max() / weight**-2
    for step in range(_STEPS):
        load = tooth(state)
        outer = system.spread @ np.concatenate([load.force, load.moment])
        energy, inner, stiffness = _assembled(system, state, closing)
        missing = outer - inner[0]
        scale = max(np.abs(load.force).max(), np.abs(inner[1]).max(), 1.0)
        residual = float(np.abs(missing * weight).max() / scale)
        if residual <= TOLERANCE:
            return Rest(state, stiffness, load, residual, step)
        way = _direction(stiffness, missing, softest)
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


def _direction(stiffness: Array, missing: Array, softest: Array) -> Array:
    """Newton's step; where a shaft floats in its play a faint spring leads it."""
    return np.asarray(np.linalg.solve(stiffness + np.diag(softest), missing))


def _assembled(
    system: System, state: Array, closing: Array
) -> tuple[float, tuple[Array, Array], Array]:
    """Energy, (inner forces, those of the bearings), stiffness."""
    answer = system.bearings.respond(_shifts(system, state), closing)
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
    answer = system.bearings.respond(_shifts(system, state), closing)
    return 0.5 * float(state @ system.linear @ state) + answer.energy


def _preloaded(system: System) -> Array:
    """Closings that give each line its thrust without tooth load; with play they are below zero.

    Thrust grows by hardly more than its closing, so stretching the closing by what is missing
    gets there in a few rounds.
    """
    lean = np.array([np.sin(r.contact_angle) for r in system.bearings.rollers])
    pinions = len(system.pinion.seats)
    lines = ((system.pinion, slice(0, pinions)), (system.ring, slice(pinions, lean.size)))
    squeeze = np.array([_FIRST if line.preload > 0.0 else -line.play for line, _ in lines])
    for _ in range(_ROUNDS):
        closing = np.zeros(lean.size)
        for (_, own), total in zip(lines, squeeze, strict=True):
            closing[own] = 0.5 * total * lean[own]
        if not any(line.preload > 0.0 for line, _ in lines):
            return closing
        rest = _newton(system, lambda state: _NO_LOAD, closing, np.zeros(system.size))
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
