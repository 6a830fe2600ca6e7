"""Unloaded contact of a moved pair: transmission error, path of contact, pattern in the compound.

All pairs of teeth in mesh are one field seen a pitch apart.  At every roll position the pair that
touches first carries; the ring lags by the least rotation that closes its gap.  Marking compound
shows where the gap at a point's own roll position is no more than the film.

Only contact along the lines of contact is followed: an edge that touches before its line comes
(corner contact) is flagged by the contact having reached the edge, not computed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.hypoid import chebyshev
from axlewright.hypoid.conjugate_pinion import NODES, Flank
from axlewright.hypoid.ease_off import PROFILE_CROWN, EaseOff, PinionSurface, ground
from axlewright.hypoid.lines import EDGES, GRID, Touch, picture, reader, touch
from axlewright.hypoid.rolling import AT_REST, Meeting, meet
from axlewright.hypoid.support.mesh import Movement
from axlewright.quantities.formula import Array

FILM = 6.35e-6
"""Thickness of marking compound, m: 0.00025 in (from memory)."""
PATTERN_LENGTH = 0.5
"""Share of the face that a new set's pattern covers (a gear maker's set-up page)."""
PATTERN_PLACE = 0.45
"""Its middle as a share of the face from the toe: slightly toward the toe (common practice)."""
STEPS = 24
"""Roll positions per pitch."""
_ALONG = chebyshev.derivative(NODES[0])
_EDGE = 2e-3
"""Share of the film by which an edge must be nearer than the inside to count as edge contact."""


@dataclass(frozen=True)
class Pattern:
    """What the compound shows.

    Places are shares: along the face from the toe (0) to the heel (1), up the tooth from the
    lowest line of contact (0) to the tip (1).  ``marked`` and ``gap`` (m, beyond first touch)
    are on the picture's points (along, up), whose places on the ring are ``s`` and ``h`` (m).
    """

    center: float
    height: float
    length: float
    width: float
    toe_end: float
    heel_end: float
    marked: Array
    gap: Array
    s: Array
    h: Array


@dataclass(frozen=True)
class Contact:
    """Contact of one flank over a pitch of the pinion.

    ``turn`` (rad, about z) is how far the ring has turned from the exact ratio at first touch.
    ``error`` (rad) is the rest by roll position (``roll``, rad of pinion): zero at best, below
    zero where the ring lags; ``path`` is where it touches: (positions, x and y on -1…1).
    ``edges`` names the edges that carry and the share of the pitch for which they do.
    """

    flank: Flank
    movement: Movement
    turn: float
    roll: Array
    error: Array
    path: Array
    edges: dict[str, float]
    pattern: Pattern
    strained: float

    @property
    def amplitude(self) -> float:
        """Peak-to-peak transmission error, rad of ring rotation."""
        return float(self.error.max() - self.error.min())


def closing(surface: PinionSurface, movement: Movement) -> tuple[Meeting, float]:
    """Meeting with the ring turned until the flanks nearly touch; the turn about z.

    A second look from there leaves gaps so small that only the square of their slope across the
    lines of contact still counts: the least gap lies beside the line and is smaller by it.
    """
    flank = surface.flank
    meeting = meet(surface, movement)
    turn = flank.turn_side * float((meeting.gap / np.abs(meeting.lever)).min())
    meeting = meet(surface, movement, turn)
    slope = (_ALONG @ meeting.gap) / (_ALONG @ meeting.roll)
    gap = meeting.gap - 0.5 * slope * slope / flank.parting
    return meeting._replace(gap=gap), turn


def analyze(
    surface: PinionSurface,
    movement: Movement = AT_REST,
    film: float = FILM,
    grid: tuple[int, int] = GRID,
) -> Contact:
    """Roll a moved pair through a pitch without load."""
    read = reader(grid)
    pair = surface.flank.pair
    meeting, turn = closing(surface, movement)
    angular = meeting.gap / np.abs(meeting.lever)
    pitch = 2.0 * np.pi / pair.pinion_teeth
    middle = float(meeting.roll[meeting.roll.shape[0] // 2, meeting.roll.shape[1] // 2])
    low = int(np.floor((meeting.roll.min() - middle) / pitch))
    high = int(np.ceil((meeting.roll.max() - middle) / pitch))
    levels = middle + pitch * (low + np.arange((high - low) * STEPS) / STEPS)
    close = _EDGE * film / abs(float(meeting.lever.mean()))
    found = touch(meeting.roll, angular, levels, read, close)
    # Of pairs that touch alike, one that touches inside is taken before one at an edge.
    order = (found.least + close * (found.edge > 0)).reshape(high - low, STEPS)
    pick = np.argmin(order, axis=0) * STEPS + np.arange(STEPS)
    least = found.least[pick]
    best = float(least.min())
    return Contact(
        flank=surface.flank,
        movement=movement,
        turn=turn + surface.flank.turn_side * best,
        roll=levels[pick],
        error=best - least,
        path=np.stack([found.x[pick], found.y[pick]], axis=1),
        edges=_edges(found, pick),
        pattern=_pattern(meeting, angular, least, (middle, pitch), film, grid),
        strained=meeting.strained,
    )


def _edges(found: Touch, pick: Array) -> dict[str, float]:
    """Edges that carry, and for which share of the pitch."""
    edge = found.edge[pick]
    return {
        name: float(np.mean(edge == k)) for k, name in enumerate(EDGES) if k and (edge == k).any()
    }


def _pattern(
    meeting: Meeting,
    angular: Array,
    least: Array,
    phase: tuple[float, float],
    film: float,
    grid: tuple[int, int],
) -> Pattern:
    """Where the gap beyond first touch is within the film, and how far that reaches."""
    read = reader(grid)
    roll, gap = picture(meeting.roll, read), picture(angular, read)
    at = (roll - phase[0]) / phase[1] % 1.0
    closed = np.interp(at, np.arange(STEPS + 1) / STEPS, np.append(least, least[0]))
    clear = (gap - closed) * np.abs(picture(meeting.lever, read))
    along = _reach(clear, film)
    up = _reach(clear.T, film)
    center, length = _middle(along)
    height, width = _middle(up)
    some = along[0] < along[1]
    return Pattern(
        center=center, height=height, length=length, width=width,
        toe_end=float(along[0][some].min()) if some.any() else np.nan,
        heel_end=float(along[1][some].max()) if some.any() else np.nan,
        marked=clear <= film, gap=clear,
        s=picture(meeting.s, read), h=picture(meeting.h, read),
    )  # fmt: skip


def _reach(clear: Array, film: float) -> tuple[Array, Array]:
    """First and last marked place of every column (0…1), straight lines between points."""
    count = clear.shape[0]
    marked = clear <= film
    column = np.arange(clear.shape[1])
    some = marked.any(axis=0)
    ends = []
    for sense, rows in ((-1, np.argmax(marked, axis=0)),
                        (1, count - 1 - np.argmax(marked[::-1], axis=0))):  # fmt: skip
        out = np.clip(rows + sense, 0, count - 1)
        inside, outside = clear[rows, column], clear[out, column]
        rise = np.where(outside > inside, outside - inside, 1.0)
        share = np.where(out == rows, 0.0, np.clip((film - inside) / rise, 0.0, 1.0))
        ends.append(np.where(some, (rows + sense * share) / (count - 1), 0.0))
    return ends[0], ends[1]


def _middle(reach: tuple[Array, Array]) -> tuple[float, float]:
    """Center of the marked area in this direction, and its length where it is longest."""
    length = reach[1] - reach[0]
    if not length.any():
        return np.nan, 0.0
    middle = 0.5 * (reach[0] + reach[1])
    return float((middle * length).sum() / length.sum()), float(length.max())


def fit_ease_off(
    flank: Flank,
    start: EaseOff | None = None,
    length: float = PATTERN_LENGTH,
    place: float = PATTERN_PLACE,
    height: float = 0.5,
    film: float = FILM,
) -> EaseOff:
    """Length crowning and center such that the unloaded pattern has a length and a place.

    The other figures stay as in ``start``; without it, an assumed profile crown.
    """
    ease = start or EaseOff(profile_crown=PROFILE_CROWN)
    crown = ease.length_crown or 4.0 * film / (length * length)
    ease = ease.moved(length_crown=crown, along=2.0 * place - 1.0, up=2.0 * height - 1.0)
    for _ in range(40):
        seen = analyze(ground(flank, ease.on(flank)), film=film).pattern
        off = (seen.length - length, seen.center - place, seen.height - height)
        if max(abs(v) for v in off) < 2e-4:
            return ease
        ease = ease.moved(
            length_crown=ease.length_crown * (seen.length / length) ** 2,
            along=float(np.clip(ease.along - 2.0 * off[1], -1.2, 1.2)),
            up=float(np.clip(ease.up - 2.0 * off[2], -1.5, 1.5)),
        )
    raise ArithmeticError("no crowning gives a pattern of this length and place")
