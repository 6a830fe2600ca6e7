"""The load path evaluated: demand and all links for one filling of the machine."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.build.machine import Machine
from axlewright.quantities.formula import Num
from axlewright.studies.demand import Demand, demand
from axlewright.studies.links import driving, gears, housing, shafts, wheel_end
from axlewright.studies.links.limit import Link


@dataclass(frozen=True)
class Path:
    """Demand and links, flywheel to ground and then the reaction path."""

    demand: Demand
    links: tuple[Link, ...]
    margins: tuple[tuple[dict[str, Num], ...], ...]
    """For each link and each of its limits: margin by case."""


def evaluate(m: Machine[Num]) -> Path:
    """Evaluate the whole load path on floats, samples or traced floats."""
    d = demand(m)
    x = gears.mesh(m, d)
    links = (
        driving.coupling(m, d),
        driving.gearbox(m, d),
        shafts.slip_spline(m, d),
        shafts.driveshaft_tube(m, d),
        driving.universal_joint(m, d),
        shafts.pinion_stem(m, d),
        gears.gear_set(m, d, x),
        gears.ring_bolts(m, d),
        driving.differential(m, d),
        shafts.axle_shaft(m, d),
        wheel_end.wheel_end(m, d),
        gears.studs(m, d),
        housing.case(m, d, x),
        housing.caps(m, d, x),
        housing.tube_joint(m, d),
        housing.tube(m, d),
        housing.brackets(m, d),
    )
    return Path(d, links, tuple(tuple(limit.margins() for limit in link.limits) for link in links))
