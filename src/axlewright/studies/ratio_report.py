"""What the ratio study reports: each pair of teeth on each tire, what beats it, and the choice."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.driveline.tooth_counts import HuntingClass
from axlewright.quantities.finding import Finding, Likelihood
from axlewright.studies.report import Made


@dataclass(frozen=True)
class RatioOption:
    """One pair of teeth on one tire.

    ``findings`` holds its numbers by key; the id of each, ``key@teeth@tire``, opens its working.
    ``counted`` says whether the tooth counts are known; ``beaten_by`` names the option that is no
    worse in any aim and better in one, ``beaten`` says by how much; both are empty if none is.
    """

    teeth: str
    tire: str
    fitted: bool
    ring_teeth: int
    pinion_teeth: int
    counted: bool
    hunting: HuntingClass
    setting: str
    launch_limit: str
    top_gear: int
    top_limit: str
    weakest: str
    likelihood: Likelihood
    findings: dict[str, Finding]
    beaten_by: str = ""
    beaten: str = ""
    chosen: bool = False

    @property
    def name(self) -> str:
        """Teeth and tire, as ids carry them."""
        return f"{self.teeth}@{self.tire}"


@dataclass(frozen=True)
class SpeedAsked:
    """A road speed at which engine speeds and noise are told: its key in ids, and as printed."""

    key: str
    text: str
    value: float


@dataclass(frozen=True)
class RatioReport:
    """Which ratio: the choice and its price in words, and every option that was looked at."""

    name: str
    file: str
    sentence: str
    price: str
    gears: tuple[float, ...]
    tires: tuple[str, ...]
    speeds: tuple[SpeedAsked, ...]
    cruise: SpeedAsked
    options: tuple[RatioOption, ...]
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    made: Made


@dataclass(frozen=True)
class GearCurve:
    """One gear on the road: torque at the wheels and engine speed against road speed, SI."""

    gear: int
    speeds: tuple[float, ...]
    torques: tuple[float, ...]
    engine_speeds: tuple[float, ...]


@dataclass(frozen=True)
class SawTooth:
    """Wheel torque of every gear against road load and grip, and the engine's saw teeth, SI.

    ``shifts`` are road speed, engine speed before and engine speed after each shift.
    """

    title: str
    gears: tuple[GearCurve, ...]
    load_speeds: tuple[float, ...]
    load_torques: tuple[float, ...]
    grip: float
    shifts: tuple[tuple[float, float, float], ...]
    top_speed: float
    rev_limit: float
