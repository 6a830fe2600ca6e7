"""The pair warm: what heat in case and shafts does to backlash, preload and place.

Backlash is read again on the real flanks where they are known.
"""

from __future__ import annotations

from typing import Final

from axlewright.hypoid.setting import together
from axlewright.hypoid.support.case import METALS
from axlewright.hypoid.support.equilibrium import Housed, house
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.support.opening import warm_lash_change
from axlewright.hypoid.support.warm import warming
from axlewright.studies.mesh_report import WarmPair
from axlewright.studies.mesh_rest import stand
from axlewright.studies.mesh_runs import Run

CASE_RISE: Final = 60.0
SHAFT_RISE: Final = 70.0
"""Warming of case and of shafts, gears and oil, K, on a hard road on a hot day (assumption)."""


def warm_pair(run: Run) -> WarmPair:
    """The likeliest axle warm; raises ``ArithmeticError`` in words where nothing comes to rest."""
    metal = METALS[run.meshing.iron.metal]
    support = house(run.support.system, warming(run.support.system, metal, CASE_RISE, SHAFT_RISE))
    moved = support.warmed()
    load = run.loads.one()["drive.rated"]
    there = stand(run.teeth, support, load)
    return WarmPair(
        metal=run.meshing.iron.metal,
        case_rise=CASE_RISE,
        shaft_rise=SHAFT_RISE,
        pinion_out=moved.P,
        ring_out=moved.G,
        lash_change=_lash_change(run, moved),
        preloads=_preloaded(support),
        lift_rated=there.dials.pinion_lift,
        loose=_loose(support),
    )


def _lash_change(run: Run, moved: Movement) -> float:
    """Change of backlash at the heel, on the flanks or to first order at the mean point."""
    pair, angles = run.pair, run.blank.angles
    if pair is None:
        return warm_lash_change(
            run.blank.mesh, moved, angles["drive"], angles["coast"],
            run.machine.gears.ring_diameter,
        )  # fmt: skip
    cold, warm = (pair.lash.moved(at) for at in (pair.set_at, together(pair.set_at, moved)))
    return pair.lash.at_dial(warm - cold)


def _preloaded(support: Housed) -> dict[str, tuple[float, float]]:
    """Thrust cold and warm of the bearings that are set with one: a pilot bearing never is."""
    return {name: both for name, both in support.preloads().items() if max(both) > 0.0}


def _loose(support: Housed) -> tuple[str, ...]:
    """Bearings that have lost their preload."""
    return tuple(name for name, (_, warm) in _preloaded(support).items() if warm <= 0.0)
