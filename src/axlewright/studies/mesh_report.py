"""What the gear study reports: how far the pair moves, what its pattern does, what helps."""

from __future__ import annotations

from dataclasses import dataclass, field

from axlewright.quantities.finding import Finding
from axlewright.studies.launch_report import Decider
from axlewright.studies.report import Made, MeasureNext


@dataclass(frozen=True)
class Picture:
    """A pattern as data for a drawing.

    Places are shares: along the face from toe (0) to heel (1), up from the lowest line of contact
    (0) to the tip (1).  ``gap`` (m beyond first touch) stands at ``along`` × ``up``; it is marked
    where it is no more than ``film``.  ``path`` is where it touches as it rolls; ``edges`` names
    edges that carry and the share of a tooth's pitch for which they do; ``error`` (rad of the ring)
    is the transmission error from peak to peak.
    """

    side: str
    center: float
    height: float
    length: float
    width: float
    toe_end: float
    heel_end: float
    film: float
    along: tuple[float, ...]
    up: tuple[float, ...]
    gap: tuple[tuple[float, ...], ...]
    path: tuple[tuple[float, float], ...]
    edges: dict[str, float]
    error: float


@dataclass(frozen=True)
class LoadedPicture:
    """What the torque itself makes of the flank.

    ``pressure`` (Pa) is the greatest at each place through the pitch, ``peak`` the greatest of all;
    ``center`` and ``height`` are the middle of the load; ``edges`` says for which share of the
    pitch an edge carries; ``error`` (rad of the ring) is peak to peak; ``shares`` is each tooth
    pair's part of the torque by roll position.
    """

    side: str
    center: float
    height: float
    toe_end: float
    heel_end: float
    peak: float
    along: tuple[float, ...]
    up: tuple[float, ...]
    pressure: tuple[tuple[float, ...], ...]
    edges: dict[str, float]
    error: float
    shares: tuple[tuple[float, ...], ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class ToothShape:
    """A flank of a ring-gear tooth, seen square on: heights (m) above the pitch line.

    ``along`` runs from toe to heel, m from the middle of the face; ``foot`` is the lowest line of
    contact, ``root`` the bottom of the tooth space.
    """

    along: tuple[float, ...]
    tip: tuple[float, ...]
    foot: tuple[float, ...]
    root: tuple[float, ...]


@dataclass(frozen=True)
class BearingLine:
    """What a bearing goes through under a load (N, Pa), of the likeliest axle only.

    ``load_zone`` is the share of its circumference on which rollers carry; ``rib`` is the force of
    all rollers on the cone's rib.  ``life`` counts turns under this very load that nine of ten
    reach, and is missing where it is endless.
    """

    name: str
    radial: float
    axial: float
    load_zone: float
    fullest_roller: float
    rib: float
    pressure: float
    life: float | None
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class RatingRow:
    """A row of a table: a load or what stands in its place, a finding to each column, a remark.

    A cell without a finding has no number: without the loaded contact, or where a life is endless.
    """

    name: str
    title: str
    cells: tuple[Finding | None, ...]
    says: str


@dataclass(frozen=True)
class RatingTable:
    """A table of ratings to be printed as it stands; its columns are short heads."""

    name: str
    title: str
    means: str
    columns: tuple[str, ...]
    rows: tuple[RatingRow, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class GearLoad:
    """One load: torques, movement of the gears as dials read it, who gives, and the pattern.

    ``moves`` holds pinion and ring by name, and E, P, G and shaft angle of the pair;
    ``shares`` how much of the change of offset (E) shafts, bearings and case give; ``by_part`` the
    same by single part, as a share.  ``pattern`` is of the compound's picture, ``contact`` of the
    loaded contact; it is empty where the textbook's tooth force was used.  ``rated`` holds what it
    carries, its heat and its bearings' lives, by name.
    """

    name: str
    side: str
    title: str
    means: str
    judged: bool
    ring_torque: Finding
    pinion_torque: Finding
    moves: dict[str, Finding]
    shares: dict[str, Finding]
    by_part: dict[str, float]
    bearings: tuple[BearingLine, ...]
    pattern: dict[str, Finding]
    contact: dict[str, Finding]
    picture: Picture | None
    loaded: LoadedPicture | None
    sentence: str
    cautions: tuple[str, ...]
    rated: dict[str, Finding] = field(default_factory=dict)


@dataclass(frozen=True)
class LimitLine:
    """A limit of a deflection test against what was found, at service loads only.

    ``times`` is the movement over its limit; ``share`` how many of the samples go beyond.
    """

    load: str
    what: str
    means: str
    found: Finding
    low: float
    high: float
    times: float
    holds: bool
    share: float


@dataclass(frozen=True)
class Choice:
    """One thing that would change the movement, and what it does at rated and hardest torque.

    ``times`` is the pinion's lift in the hardest case over the lift as it is; what is not known
    (pattern without flanks, pressure without the loaded contact) is missing.
    """

    name: str
    title: str
    present: bool
    lift_rated: float
    lift_hardest: float
    ring_axial_rated: float
    center_hardest: float | None
    heel_end_hardest: float | None
    peak_hardest: float | None
    times: float


@dataclass(frozen=True)
class TorqueCurve:
    """One flank from no torque to the hardest: ring torques (N·m), movement (m), pattern.

    ``load_center`` and ``peak`` (greatest pressure, Pa) belong to all torques but the first, which
    is none; they are empty where the textbook's tooth force was used.
    """

    side: str
    torques: tuple[float, ...]
    moves: dict[str, tuple[float, ...]]
    center: tuple[float, ...]
    height: tuple[float, ...]
    toe_end: tuple[float, ...]
    heel_end: tuple[float, ...]
    load_center: tuple[float, ...]
    peak: tuple[float, ...]


@dataclass(frozen=True)
class Reversal:
    """How the likeliest pair jumps when a little coast (N·m at the ring gear) becomes drive.

    Movement in m, drive less coast: what the bearings' play, or preload that is low, lets go.
    """

    ring_torque: float
    offset: float
    pinion: float
    ring: float


@dataclass(frozen=True)
class WarmPair:
    """The likeliest axle warm (K above the cold shop) against cold; lengths m.

    Without torque but for ``lift_rated``, the pinion's lift.  ``lash_change`` is at the heel;
    ``preloads`` holds the thrust of each bearing cold and warm (N), ``loose`` those that lost it.
    """

    metal: str
    case_rise: float
    shaft_rise: float
    pinion_out: float
    ring_out: float
    lash_change: float
    preloads: dict[str, tuple[float, float]]
    lift_rated: float
    loose: tuple[str, ...]


@dataclass(frozen=True)
class MeshReport:
    """The gear pair: how it is set, how it sits under torque, what would change it.

    ``pictures`` are those without torque, by flank, ``shapes`` the flanks to draw them on; both are
    missing where the flanks are not known, with ``refused`` saying why.  ``decides`` names what
    scatters an answer most, by its id.  ``rating`` says what the pair carries, ``tables`` its
    ratings in full, ``oil`` its losses and its oil at the cruise by name.
    """

    name: str
    file: str
    sentence: str
    refused: str
    facts: dict[str, Finding]
    setting: dict[str, Finding]
    pictures: dict[str, Picture]
    loads: tuple[GearLoad, ...]
    limits: tuple[LimitLine, ...]
    choices: tuple[Choice, ...]
    curves: tuple[TorqueCurve, ...]
    warm: WarmPair | None
    reversal: Reversal | None
    shapes: dict[str, ToothShape]
    decides: dict[str, tuple[Decider, ...]]
    lost: int
    lost_because: tuple[str, ...]
    measure_next: tuple[MeasureNext, ...]
    cautions: tuple[str, ...]
    safety: tuple[str, ...]
    sources: tuple[str, ...]
    made: Made
    rating: str = ""
    tables: tuple[RatingTable, ...] = ()
    oil: dict[str, Finding] = field(default_factory=dict)
