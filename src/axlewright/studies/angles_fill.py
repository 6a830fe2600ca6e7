"""A filling of all that the angles are worked out from, and what is assumed where nobody measured.

Works with floats, samples and traced floats alike.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, NamedTuple, TypeVar

from axlewright.build.fitting import Fitting
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.resolve import Resolved
from axlewright.driveline.shaft_line import INERTIA_LIMIT, SMOOTH_LIMIT
from axlewright.quantities.estimate import EXACT, Estimate, Filler, Leaf, Limits
from axlewright.quantities.formula import Num
from axlewright.quantities.records import branch
from axlewright.quantities.units import read
from axlewright.studies.demand import Demand, Loads, Standing, demand

T = TypeVar("T")
PRACTICE = "common practice, no source"
MEMORY = "from memory"


class Number(NamedTuple):
    """A number with what it means and its dimension."""

    means: str
    dimension: str
    value: Num


Numbers = dict[str, Number]


@branch
class Assumed(Generic[T]):
    """What no key of the build file tells, or what is taken where nobody measured."""

    nose: T
    shaft_plan: T
    inertia_limit: T
    smooth_limit: T
    least_life_angle: T
    front_support: T
    rear_support: T
    front_end_mass: T
    rear_end_mass: T
    balance_grade: T
    half: T
    one: T
    none: T
    cruise: T


@dataclass(frozen=True)
class Filled:
    """The build filled one way."""

    machine: Machine[Num]
    launching: Launching[Num]
    fitting: Fitting[Num]
    assumed: Assumed[Num]
    demand: Demand

    @property
    def standing(self) -> Standing:
        """The car before anything turns."""
        return self.demand.standing

    @property
    def pull(self) -> Loads:
        """Full throttle in first gear, steady."""
        return self.demand.gears[0]


def filled(build: Resolved, filler: Filler) -> Filled:
    """Fill everything with one filler, so that all of it shares its draws."""
    machine: Machine[Num] = filler.tree(build.machine)
    launching: Launching[Num] = filler.tree(build.launching)
    fitting: Fitting[Num] = filler.tree(build.fitting)
    assumed: Assumed[Num] = filler.tree(assumptions())
    return Filled(machine, launching, fitting, assumed, demand(machine))


def kind_of(build: Resolved) -> str:
    """How the axle is held, if the build says so; else nothing."""
    section = build.source.build.suspension
    return str(section.kind) if section is not None and section.kind is not None else ""


def assumptions() -> Assumed[Leaf]:
    """Each with its spread and where it is from."""
    return Assumed(
        nose=_assumed("nose", "10 to 14 in", "length", MEMORY,
                      "Axle line forward to the center of the joint at the pinion.",
                      "State centre.nose."),
        shaft_plan=_assumed("shaft_plan", "-1 to 1 deg", "angle", MEMORY,
                            "Driveshaft seen from above.",
                            "State angles.gearbox_left and angles.pinion_left."),
        inertia_limit=_exact("inertia_limit", INERTIA_LIMIT, "angular acceleration", PRACTICE,
                             "Most that one joint may wind the shaft's own inertia."),
        smooth_limit=_exact("smooth_limit", SMOOTH_LIMIT, "angular acceleration", PRACTICE,
                            "Most that all joints together may leave over."),
        least_life_angle=_exact("least_life_angle", read("3 deg", "angle").value, "angle",
                                PRACTICE, "Least joint angle that needle life is reckoned with."),
        front_support=_assumed("front_support", "4 to 20 kN/mm", "stiffness", MEMORY,
                               "Stiffness of the gearbox's tail at the joint.",
                               "Press the yoke with a known load, dial on the joint."),
        rear_support=_assumed("rear_support", "8 to 40 kN/mm", "stiffness", MEMORY,
                              "Stiffness of the pinion and its bearings at the joint.",
                              "Press the yoke with a known load, dial on the joint."),
        front_end_mass=_assumed("front_end_mass", "2 to 4 kg", "mass", MEMORY,
                                "Yoke, joint and part of the tail that move with the front end."),
        rear_end_mass=_assumed("rear_end_mass", "2 to 4 kg", "mass", MEMORY,
                               "Yoke, joint and part of the nose that move with the rear end."),
        balance_grade=_exact("balance_grade", 0.016, "speed", "ISO 21940-11, grade G16, named for"
                             " driveshafts (as reproduced in a grade table)",
                             "Grade that the shaft is balanced to."),
        one=_exact("one", 1.0, "ratio", "one row of needles; a drawn cap's factor (ISO 281, from"
                   " memory)", "Rows of needles in a cap, and the factor for a drawn cap."),
        none=_exact("none", 0.0, "angle", "needles carry square to the trunnion",
                    "Contact angle of needles."),
        cruise=_exact("cruise", read("70 mph", "speed").value, "speed", "asked for",
                      "Road speed that needle life is told at."),
        half=_exact("half", 0.5, "ratio", "radius over diameter", "Radius of the tube's skin."),
    )  # fmt: skip


def _assumed(
    name: str, text: str, dimension: str, because: str, means: str, advice: str = ""
) -> Estimate:
    reading = read(text, dimension)
    return Estimate(
        f"angles.assumed.{name}", reading.value, dimension, Limits(reading.low, reading.high),
        "assumed", because, advice=advice, means=means, text=text,
    )  # fmt: skip


def _exact(name: str, value: float, dimension: str, because: str, means: str) -> Estimate:
    return Estimate(
        f"angles.assumed.{name}", value, dimension, EXACT, "stated", because, means=means
    )
