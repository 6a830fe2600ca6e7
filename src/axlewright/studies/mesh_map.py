"""A map of the pair: both flanks over torque, iron, support and pinion depth, the lash set anew.

200 cases, so that a page can look a case up between them instead of working it out.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from axlewright.hypoid.support.case import METALS
from axlewright.hypoid.support.equilibrium import Housed, Rest
from axlewright.hypoid.support.mesh import Movement
from axlewright.quantities.formula import Array
from axlewright.studies.mesh_numbers import LOADED, loaded_values
from axlewright.studies.mesh_pair import SIDES, GearPair, Side
from axlewright.studies.mesh_pictures import shimmed
from axlewright.studies.mesh_rest import Stand, stand
from axlewright.studies.mesh_runs import Run, Tell, heard
from axlewright.studies.mesh_support import held_as, housed
from axlewright.studies.mesh_teeth import COARSE, Load

TORQUES: Final = 5
"""Torques at the ring gear, from none to the hardest case."""
IRONS: Final = ("gray", "nodular")
SUPPORTS: Final = ("overhung", "straddle")
DEPTHS: Final = (-1.524e-4, -7.62e-5, 0.0, 7.62e-5, 1.524e-4)
"""Pinion out of its set place, m: .003 in steps."""

_READ: dict[str, Callable[[Stand], float]] = {
    "pinion_lift": lambda s: s.dials.pinion_lift,
    "pinion_axial": lambda s: s.dials.pinion_axial,
    "ring_lift": lambda s: s.dials.ring_lift,
    "ring_axial": lambda s: s.dials.ring_axial,
    "E": lambda s: s.at.E,
    "P": lambda s: s.at.P,
    "G": lambda s: s.at.G,
    "shaft_angle": lambda s: s.at.sigma,
}
_SEEN = ("center", "height", "length", "width", "toe_end", "heel_end")


@dataclass(frozen=True)
class MeshMap:
    """Axes and values of the map, values by name as (side, torque, iron, support, depth).

    Lengths m, torques N·m at the ring gear, places of the pattern as shares; no number where a case
    has no answer.  E, P, G and the angle hold shims and support together.  At each depth the ring
    is set to ``backlash`` (m at the heel).
    """

    sides: tuple[Side, ...]
    torques: tuple[float, ...]
    irons: tuple[str, ...]
    supports: tuple[str, ...]
    depths: tuple[float, ...]
    backlash: float
    values: dict[str, Array]

    def at(
        self, side: Side, torque: float, iron: str, support: str, depth: float
    ) -> dict[str, float]:
        """Values between the cases of the map: straight lines over torque and depth.

        Beyond the ends of an axis stands what is at its end; what needs a torque has no number
        below the first one.
        """
        where = self.sides.index(side), self.irons.index(iron), self.supports.index(support)
        found = {}
        for name, values in self.values.items():
            plate = values[where[0], :, where[1], where[2], :]
            by_depth = [float(np.interp(depth, self.depths, row)) for row in plate]
            found[name] = float(np.interp(torque, self.torques, by_depth))
        return found


def mesh_map(run: Run, tell: Tell | None = None) -> MeshMap:
    """Work out every case; raises :class:`StoppedError` if told to stop.

    Raises ``ValueError`` where the flanks are not known.
    """
    if run.pair is None:
        raise ValueError(f"without flanks there is no map: {run.refused}")
    backlash = run.meshing.setting.backlash
    places = [_set_anew(run.pair, depth, backlash) for depth in DEPTHS]
    there = [None if at is None else replace(run.pair, set_at=at) for at in places]
    most = run.loads.one()["drive.hardest"].ring_torque
    torques = tuple(np.linspace(0.0, most, TORQUES).tolist())
    sides: tuple[Side, ...] = tuple(SIDES)
    shape = (len(sides), TORQUES, len(IRONS), len(SUPPORTS), len(DEPTHS))
    values = {name: np.full(shape, np.nan) for name in (*_READ, *_SEEN, "error", *LOADED)}
    rows = len(IRONS) * len(SUPPORTS) * len(sides) * TORQUES
    done = 0
    for k, n in itertools.product(range(len(IRONS)), range(len(SUPPORTS))):
        support = _support(run, IRONS[k], SUPPORTS[n])
        for i, side in enumerate(sides):
            last: Rest | None = None
            for j, torque in enumerate(torques):
                for d, found in _row(run, support, there, Load(side, torque), last):
                    last = found.rest
                    _note(values, (i, j, k, n, d), found)
                done += 1
                heard(tell, done / rows)
    return MeshMap(sides, torques, IRONS, SUPPORTS, DEPTHS, backlash, values)


def _support(run: Run, iron: str, support: str) -> Housed | None:
    """The pair held so, or nothing where it cannot be."""
    held = held_as(run.machine, run.meshing).changed(
        modulus=METALS[iron].youngs_modulus, straddle=support == "straddle"
    )
    try:
        return housed(run.blank, run.machine, run.meshing, held)
    except (ValueError, ArithmeticError):
        return None


def _row(
    run: Run, support: Housed | None, there: list[GearPair | None], load: Load, start: Rest | None
) -> Iterator[tuple[int, Stand]]:
    """Every depth under one load, each search begun where the one before ended."""
    last = start
    for d, pair in enumerate(there):
        if pair is None or support is None:
            continue
        try:
            found = stand(replace(run.teeth, pair=pair, counts=COARSE), support, load, last)
        except ArithmeticError:  # nothing comes to rest here
            continue
        last = found.rest
        yield d, found


def _set_anew(pair: GearPair, depth: float, backlash: float) -> Movement | None:
    """Where a pinion at this depth puts the pair, or nothing where that lash cannot be set."""
    try:
        found = shimmed(pair, depth, backlash)
    except ArithmeticError:
        return None
    return pair.set_at._replace(P=found.pinion_out, G=found.ring_out)


def _note(values: dict[str, Array], where: tuple[int, ...], found: Stand) -> None:
    for name, read in _READ.items():
        values[name][where] = read(found)
    if found.contact is not None:
        for name in _SEEN:
            values[name][where] = getattr(found.contact.pattern, name)
        values["error"][where] = found.contact.amplitude
    if found.loaded is not None:
        for name, value in loaded_values(found.loaded).items():
            values[name][where] = value
