"""What a search for wheels tries, and what it says of each combination.  All lengths in m."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.fit.clearance import Side
from axlewright.quantities.formula import Array


@dataclass(frozen=True)
class Size:
    """A tire to try, in m."""

    name: str
    section: float
    """On its measuring rim."""
    measuring_rim: float
    narrowest_rim: float
    widest_rim: float
    radius: float
    """Of the tread, grown by speed where it grows."""
    tread: float
    lip_radius: float
    """Of the edge of the rim that goes with it."""
    bulge: float = 0.0
    """How much further out each sidewall stands over the contact patch."""


@dataclass(frozen=True)
class Halves:
    """An axle to try: the car's center to the face that the wheel touches, each side, in m."""

    name: str
    left: float
    right: float
    cost: float = 0.0
    """What choosing it costs, in any one unit: nothing for the axle that is there."""


@dataclass(frozen=True)
class Slips:
    """Samples of how far off the measured dimensions may be, in m; obstacles on the first axis."""

    out: Array
    """Each obstacle further out than measured, (obstacles, samples)."""
    half: Mapping[Side, Array]
    """The wheel face of each side further out than planned, (samples)."""
    section: Array
    """Tire wider than told, (samples)."""


@dataclass(frozen=True)
class Choice:
    """One combination."""

    size: Size
    section: float
    """On this rim."""
    rim_width: float
    backspace: float
    offset: float
    halves: Halves
    spare: float
    """How far the wheel could still move sideways, in m; below zero it does not fit."""
    tightest: str
    """The obstacle that decides."""
    place: str
    """Where the axle stands then."""
    lacks: tuple[tuple[str, float], ...]
    """Obstacles whose clearance falls short, and by how much sideways, worst first."""
    chance: float | None
    """Share of the samples in which all clearances are kept, if samples were given."""
    band: tuple[float, float] | None
    """The same from 5 to 95 % of the samples."""
    reason: str = ""


@dataclass(frozen=True)
class Found:
    """What a search found."""

    choices: tuple[Choice, ...]
    """Those that fit and that no other beats in width of the tire, cost of the axle, nearness to
    the measuring rim and room at once; widest tire first."""
    misses: tuple[Choice, ...]
    """If none fits: those that come nearest, nearest first."""
    tried: int
    fitting: int
    off_range: int
    """Left out because the tire's maker does not allow the rim."""
