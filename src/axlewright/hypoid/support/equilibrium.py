"""Where everything comes to rest under a tooth load: Newton's rule with the exact stiffness.

Under one load the springs have one rest; :mod:`coupling` finds it where the tooth load depends on
the movement (a contact in the loop).  Preload is found as the closing of a pair that gives the
wanted thrust without tooth load.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from axlewright.hypoid.support.coupling import MATCH, Given, NoRestError, couple
from axlewright.hypoid.support.duty import Duty, duties
from axlewright.hypoid.support.mesh import Movement, ToothForce, ToothLoad, steady, weaker
from axlewright.hypoid.support.newton import NO_LOAD, Rest, shifts, softest, solve, thrusts
from axlewright.hypoid.support.preload import preloaded
from axlewright.hypoid.support.system import System
from axlewright.hypoid.support.warm import Warming
from axlewright.quantities.formula import Array

__all__ = ["Housed", "NoRestError", "Rest", "float_at_reversal", "house", "thrusts"]

_STAGE = 0.25
"""Share of the tooth load that is put on first where the whole finds no rest at once."""
_FINEST_STAGE = 0.001
"""Share below which no shorter stage is tried."""


@dataclass(frozen=True)
class Housed:
    """A system with its preload set: closings of the bearings and the unloaded rest.

    ``held`` are the forces of seats that warming has moved; ``cold`` is the unloaded rest before.
    """

    system: System
    closing: Array
    unloaded: Rest
    held: Array
    cold: Rest
    cold_closing: Array

    def rest(
        self, tooth: ToothForce, start: Rest | Array | None = None, match: float = MATCH
    ) -> Rest:
        """Equilibrium under a tooth load, from the unloaded rest or from another one.

        Where the whole load finds no rest at once it is put on in stages.
        """
        begin = self.unloaded if start is None else start
        calls = 0

        def counted(E: float, P: float, G: float, sigma: float) -> ToothLoad:
            nonlocal calls
            calls += 1
            return tooth(E, P, G, sigma)

        try:
            found = self._rest(counted, begin, match)
        except NoRestError as at_once:
            found = self._in_stages(counted, match, at_once)
        return replace(found, calls=calls)

    def _in_stages(self, tooth: ToothForce, match: float, at_once: NoRestError) -> Rest:
        """The tooth load put on share by share, each from the rest before; shorter where needed."""
        found, done, step = self.unloaded, 0.0, _STAGE
        while done < 1.0:
            share = min(1.0, done + step)
            try:
                found = self._rest(weaker(tooth, share), found, match)
            except NoRestError as e:
                step *= 0.5
                if step < _FINEST_STAGE:
                    raise NoRestError(f"{at_once}; in stages at {share:.1%} of it: {e}") from e
            else:
                done, step = share, 2.0 * step
        return found

    def _rest(self, tooth: ToothForce, start: Rest | Array, match: float) -> Rest:
        base = self.unloaded.state
        rows, spread = self.system.rows, self.system.spread
        state, slope = (start.state, start.slope) if isinstance(start, Rest) else (start, None)
        last, steps = [state], 0

        def support(load: ToothLoad) -> Given:
            nonlocal steps
            rest = solve(self.system, load, self.closing, self.held, last[0])
            last[0], steps = rest.state, steps + rest.steps
            firm = rest.stiffness + np.diag(softest(self.system))
            give = rows @ np.linalg.solve(firm, spread)
            moved = rows @ (rest.state - base)
            return Given(moved, give, rest.state, rest.stiffness, rest.residual)

        found = couple(support, tooth, rows @ (state - base), slope, match)
        at = found.given
        return Rest(
            at.state, at.stiffness, found.load, at.residual, steps, found.slope, found.mismatch
        )  # fmt: skip

    def movement(self, rest: Rest) -> Movement:
        """How the pair has moved since it was unloaded."""
        return self.system.movement(rest.state - self.unloaded.state)

    def warmed(self) -> Movement:
        """How warming alone has moved the pair; with play nothing holds its gears in place."""
        return self.system.movement(self.unloaded.state - self.cold.state)

    def preloads(self) -> dict[str, tuple[float, float]]:
        """Thrust (N) of each bearing without tooth load, cold and warm."""
        cold = np.abs(thrusts(self.system, self.cold.state, self.cold_closing))
        warm = np.abs(thrusts(self.system, self.unloaded.state, self.closing))
        return {
            name: (float(a), float(b))
            for name, a, b in zip(self.system.names, cold, warm, strict=True)
        }

    def march(self, teeth: Iterable[ToothForce]) -> list[Rest]:
        """Equilibria one after the other, each started from the one before."""
        found: list[Rest] = []
        for tooth in teeth:
            found.append(self.rest(tooth, found[-1] if found else None))
        return found

    def nodes(self, rest: Rest) -> Array:
        """Shifts of the pinion's and the ring's mesh node on their axes in the frame (2, 3)."""
        return np.asarray((self.system.nodes @ (rest.state - self.unloaded.state)).reshape(2, 3))

    def duties(self, rest: Rest) -> dict[str, Duty]:
        """What each bearing goes through, by name."""
        found = duties(self.system.bearings, shifts(self.system, rest.state), self.closing)
        return dict(zip(self.system.names, found, strict=True))

    def cautions(self, rest: Rest) -> tuple[str, ...]:
        """What a rest does not hold for, bearing by bearing, in words."""
        duties = self.duties(rest)
        return tuple(f"{name}: {said}" for name, d in duties.items() for said in d.cautions)


def house(system: System, warming: Warming | None = None) -> Housed:
    """Set the preload of both lines cold, then warm the case if so wished."""
    closing = preloaded(system)
    none = np.zeros(system.size)
    cold = solve(system, NO_LOAD, closing, none, none)
    if warming is None:
        return Housed(system, closing, cold, none, cold, closing)
    warm_closing = closing + warming.closing
    held = system.moved_seats(warming.shifts)
    warm = solve(system, NO_LOAD, warm_closing, held, cold.state)
    return Housed(system, warm_closing, warm, held, cold, closing)


def float_at_reversal(housed: Housed, drive: ToothLoad, coast: ToothLoad) -> Movement:
    """How the pair jumps when a small torque turns from coast to drive: play if there is any."""
    one = housed.movement(housed.rest(steady(drive)))
    other = housed.movement(housed.rest(steady(coast)))
    return Movement(*(a - b for a, b in zip(one, other, strict=True)))
