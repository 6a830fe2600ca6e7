"""The load path evaluated: demand and all links for one filling of the machine."""

from __future__ import annotations

import functools

import numpy as np

from axlewright.build.machine import Machine
from axlewright.quantities.formula import Num
from axlewright.quantities.recall import Recalling, afresh
from axlewright.quantities.records import record
from axlewright.studies.demand import Demand, demand
from axlewright.studies.links import driving, gears, housing, shafts, wheel_end
from axlewright.studies.links.limit import Limit, Link


@record
class Path:
    """Demand and links, flywheel to ground and then the reaction path."""

    demand: Demand
    links: tuple[Link, ...]
    margins: tuple[tuple[dict[str, Num], ...], ...]
    """For each link and each of its limits: margin by case; empty if only the least was asked."""
    least: tuple[tuple[Num, ...], ...]
    """For each link and each of its limits: least margin over the cases."""


def evaluate(m: Machine[Num], by_case: bool = True, recall: Recalling = afresh) -> Path:
    """Evaluate the whole load path on floats, samples or traced floats.

    Without ``by_case`` only the least margin of each limit is worked out, from the greatest
    demand: a fifth of the divisions, for samples.
    """
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
        *housing.reactions(m, d),
    )
    if by_case:
        margins = tuple(tuple(limit.margins() for limit in link.limits) for link in links)
        least = tuple(tuple(_least(by) for by in of_link) for of_link in margins)
        return Path(d, links, margins, least)
    greatest: dict[int, Num] = {}
    only = tuple(
        tuple(limit.margin(_most(limit, greatest, recall)) for limit in link.limits)
        for link in links
    )
    return Path(d, links, (), only)


def _least(by_case: dict[str, Num]) -> Num:
    """Least margin over the cases."""
    return functools.reduce(np.minimum, by_case.values())


def _most(limit: Limit, known: dict[int, Num], recall: Recalling) -> Num:
    """Greatest demand over the cases; limits at one place share it."""
    key = id(limit.demands)
    if key not in known:
        known[key] = recall("most of all cases", _largest, *limit.demands.values())
    return known[key]


def _largest(*demands: Num) -> Num:
    return functools.reduce(np.maximum, demands)
