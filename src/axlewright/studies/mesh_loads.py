"""The torques at which a pair is judged: rated, full throttle, the hardest case, and coasting."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from axlewright.build.machine import Machine
from axlewright.build.meshing import Meshing
from axlewright.quantities.formula import Num
from axlewright.studies.demand import demand
from axlewright.studies.mesh_pair import Side
from axlewright.studies.mesh_teeth import Load
from axlewright.vehicle.engine import axle_torque


@dataclass(frozen=True)
class LoadName:
    """A load by the words for it; ``judged`` ones are held against the limits of a test."""

    name: str
    side: Side
    title: str
    means: str
    judged: bool = False


@dataclass(frozen=True)
class LoadSet:
    """Loads by name with their torques at the ring gear: floats or samples."""

    names: tuple[LoadName, ...]
    torques: dict[str, Num]

    def one(self, i: int | None = None) -> dict[str, Load]:
        """The loads as floats: the nominal ones, or those of a sample."""
        return {n.name: Load(n.side, _one(self.torques[n.name], i)) for n in self.names}


def _one(value: Num, i: int | None) -> float:
    many = np.asarray(value)
    return float(many if many.ndim == 0 or i is None else many[i])


def load_set(m: Machine[Any], x: Meshing[Any], hardest: str = "") -> LoadSet:
    """All loads of a machine; ``hardest`` names the case that is taken as such, else the largest.

    Floats and samples of one build must be told the same case.
    """
    found = demand(m)
    ring = found.places["ring"]
    case = hardest or _most(ring)
    title = next(c.title for c in found.cases if c.case == case)
    coasting = axle_torque(x.motored_torque, m.gearbox.ratios[0], m.gears.ratio, m.gears.one)
    names = (
        LoadName(
            "drive.rated", "drive", "Drive, rated torque",
            "What the set is rated for in service; deflection tests are made at it.", True,
        ),
        LoadName(
            "drive.steady", "drive", "Drive, full throttle",
            "Engine against grip in first gear; nothing sudden.",
        ),
        LoadName(
            "drive.hardest", "drive", f"Drive, {title[:1].lower()}{title[1:]}",
            "The case that brings the most torque to the ring gear.",
        ),
        LoadName(
            "coast.rated", "coast", "Coast, rated torque",
            "The rated torque backward: to compare both flanks, no service load.",
        ),
        LoadName(
            "coast.engine", "coast", "Coast, throttle shut",
            "Drag of the engine in first gear at high speed: the service load of this flank.", True,
        ),
    )  # fmt: skip
    return LoadSet(
        names,
        {
            "drive.rated": x.rated_torque,
            "drive.steady": ring["steady"],
            "drive.hardest": ring[case],
            "coast.rated": x.rated_torque,
            "coast.engine": coasting,
        },
    )


def hardest_case(m: Machine[Any]) -> str:
    """Name of the case that brings the most torque to the ring gear."""
    return _most(demand(m).places["ring"])


def _most(ring: dict[str, Num]) -> str:
    return max(ring, key=lambda case: float(np.median(ring[case])))
