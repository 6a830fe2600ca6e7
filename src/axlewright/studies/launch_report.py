"""What the launch study reports: peaks in time, what decides them, hop, sweeps, one history."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.quantities.finding import Finding, Likelihood
from axlewright.studies.report import Made, MeasureNext


@dataclass(frozen=True)
class Decider:
    """An unknown and its share in the scatter of an answer."""

    path: str
    means: str
    share: float


@dataclass(frozen=True)
class History:
    """One nominal launch in time: series in SI by name, on one time axis."""

    time: tuple[float, ...]
    series: dict[str, tuple[float, ...]]


@dataclass(frozen=True)
class CaseInTime:
    """One case marched in time: peak torque at each place, nominal and band.

    ``bounds`` holds the closed-form bound at the same places where the load path has one, ``lost``
    counts launches without a finite answer, which take no part in the bands.
    """

    case: str
    title: str
    means: str
    gear: int
    peaks: dict[str, Finding]
    others: dict[str, Finding]
    bounds: dict[str, float]
    decides: tuple[Decider, ...]
    clutch_holds: float
    lost: int
    sentence: str


@dataclass(frozen=True)
class Sweep:
    """How the peak at the ring gear follows one input: nominal line, band of the samples.

    ``low`` and ``high`` hold NaN where fewer than thirty samples lie.
    """

    path: str
    means: str
    dimension: str
    values: tuple[float, ...]
    peak: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


@dataclass(frozen=True)
class Way:
    """One way to launch: peak torque at each place, heat into the clutch, and the time to 60 ft.

    ``at_least``: the way takes longer than that, because the run knows nothing of its slowness.
    """

    way: str
    title: str
    stated: bool
    speed: Finding
    peaks: dict[str, Finding]
    heat: Finding
    sixty_feet: Finding
    at_least: bool


@dataclass(frozen=True)
class Ways:
    """The ways to launch this car side by side, each on so many samples but for the stated one."""

    sentence: str
    ways: tuple[Way, ...]
    note: str
    samples: int


@dataclass(frozen=True)
class HopSweep:
    """In what share of the samples the axle hops when every sample has this stiffness."""

    path: str
    means: str
    dimension: str
    values: tuple[float, ...]
    shares: tuple[float, ...]


@dataclass(frozen=True)
class Hop:
    """Whether the axle hops by itself: share of samples in which it grows, and how fast."""

    sentence: str
    share: float
    likelihood: Likelihood
    frequency: Finding
    growth: Finding
    kind: str
    decides: tuple[Decider, ...]
    measure_next: tuple[MeasureNext, ...]
    sweeps: tuple[HopSweep, ...]


@dataclass(frozen=True)
class LaunchReport:
    """The launch in time: cases, those that this build cannot have, hop, sweeps, ways to launch."""

    name: str
    file: str
    sentence: str
    cases: tuple[CaseInTime, ...]
    left_out: tuple[str, ...]
    hop: Hop
    sweeps: tuple[Sweep, ...]
    ways: Ways
    measure_next: tuple[MeasureNext, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    sources: tuple[str, ...]
    made: Made
