"""A limit: what a part stands in one way of giving, and what asks for it, case by case."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from axlewright.driveline.margins import force_margin, stress_margin, torque_margin
from axlewright.quantities.formula import Num
from axlewright.quantities.records import branch
from axlewright.studies.demand import Demand
from axlewright.studies.report import LimitKind


@branch
class Limit:
    """One way in which a part gives."""

    kind: LimitKind
    mode: str
    dimension: str
    capacity: Num
    demands: Mapping[str, Num]

    def margin(self, demand: Num) -> Num:
        """Capacity over a demand."""
        if self.dimension == "torque":
            return torque_margin(self.capacity, demand)
        if self.dimension == "force":
            return force_margin(self.capacity, demand)
        return stress_margin(self.capacity, demand)

    def margins(self) -> dict[str, Num]:
        """Capacity over demand in every case."""
        return {case: self.margin(d) for case, d in self.demands.items()}


@branch
class Endurance:
    """A first endurance figure: launches, or a margin or torque for a long life."""

    means: str
    dimension: str
    value: Num


@branch
class Link:
    """One link of the load path with all its limits."""

    name: str
    title: str
    part: str
    limits: tuple[Limit, ...]
    endures: Endurance | None = None
    consequence: str = ""
    note: str = ""
    cautions: tuple[str, ...] = field(default=())


def at(d: Demand, place: str) -> dict[str, Num]:
    """Torque at a place in every case that has torque."""
    return d.places[place]


def torque_limit(kind: LimitKind, mode: str, capacity: Num, demands: Mapping[str, Num]) -> Limit:
    """A limit on torque."""
    return Limit(kind, mode, "torque", capacity, demands)
