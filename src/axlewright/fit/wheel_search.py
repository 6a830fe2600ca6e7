"""Every wheel, tire and axle width of a list tried at once: which clear, and what the rest lack.

A combination fits when every obstacle keeps its wanted clearance in space, in every place of the
axle.  What is spare is told sideways, along the axle, since that is what offset and width change:
how far the wheel could still move before a clearance falls short.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from axlewright.fit import tire_section, wheel
from axlewright.fit.axle_places import AxlePlaces
from axlewright.fit.clearance import Obstacle
from axlewright.fit.swept_room import Pair, spare_samples, swept_room, tires_of
from axlewright.fit.wheel_choice import Choice, Found, Halves, Size, Slips
from axlewright.quantities.formula import Array

GRAIN = 0.8e-3
"""m, about 1/32 in: room that differs by less counts as the same."""


@dataclass(frozen=True)
class _Table:
    """All pairs of tire and rim, and all combinations with backspace and axle."""

    pairs: list[Pair]
    spare: Array
    """(pairs, backspaces, halves, obstacles)."""
    place: NDArray[np.intp]
    """(pairs, obstacles)."""


def search(
    sizes: Sequence[Size],
    rim_widths: Sequence[float],
    backspaces: Sequence[float],
    halves: Sequence[Halves],
    rim_lip: float,
    obstacles: Sequence[Obstacle],
    places: AxlePlaces | Sequence[AxlePlaces],
    slips: Slips | None = None,
    keep_misses: int = 5,
) -> Found:
    """Try every combination.  Obstacles and places must be single numbers; spreads go to slips.

    ``places`` are those of all obstacles, or one for each obstacle where some count at ride height
    only and others wherever the axle goes.
    """
    if not obstacles:
        raise ValueError("a search needs at least one obstacle, else everything fits")
    where = [places] * len(obstacles) if isinstance(places, AxlePlaces) else places
    pairs = [
        (s, w, float(tire_section.section_on_rim(s.section, w, s.measuring_rim)))
        for s in sizes
        for w in rim_widths
        if s.narrowest_rim <= w <= s.widest_rim
    ]
    off_range = (len(sizes) * len(rim_widths) - len(pairs)) * len(backspaces) * len(halves)
    if not pairs:
        return Found((), (), 0, 0, off_range)
    table = _table(pairs, backspaces, halves, rim_lip, obstacles, where)
    least = table.spare.min(axis=-1)
    fits = least >= 0.0
    ranked = _best(table, least, fits, halves) if fits.any() else _nearest(least, keep_misses)
    made = tuple(
        _choice(table, n, backspaces, halves, rim_lip, obstacles, where, slips) for n in ranked
    )
    counts = (int(least.size), int(fits.sum()), off_range)
    return Found(_reasons(made), (), *counts) if fits.any() else Found((), made, *counts)


def _table(
    pairs: list[Pair],
    backspaces: Sequence[float],
    halves: Sequence[Halves],
    rim_lip: float,
    obstacles: Sequence[Obstacle],
    places: Sequence[AxlePlaces],
) -> _Table:
    tires, standing = tires_of(pairs, rim_lip)
    offsets = np.array(
        [[wheel.offset_from_backspace(b, w, rim_lip) for b in backspaces] for _, w, _ in pairs]
    )
    spare = np.empty((*offsets.shape, len(halves), len(obstacles)))
    place = np.empty((len(pairs), len(obstacles)), dtype=np.intp)
    for n, (obstacle, there) in enumerate(zip(obstacles, places, strict=True)):
        half = np.array([getattr(h, obstacle.side) for h in halves])
        room, place[:, n] = swept_room(tires, standing, obstacle, there, half)
        face = half - offsets[..., None]  # middle of the tire from the car's center
        free = room[:, None, None] + (-face if obstacle.facing == "outer" else face)
        spare[..., n] = free
    return _Table(pairs, spare, place)


def _best(
    table: _Table, least: Array, fits: NDArray[np.bool_], halves: Sequence[Halves]
) -> list[tuple[int, ...]]:
    """Combinations that no other beats in tire, cost, rim and room at once."""
    places = np.argwhere(fits)
    section = np.array([s.section for s, _, _ in table.pairs])[places[:, 0]]
    off_rim = np.array([abs(w - s.measuring_rim) for s, w, _ in table.pairs])[places[:, 0]]
    cost = np.array([h.cost for h in halves])[places[:, 2]]
    spare = np.floor(least[fits] / GRAIN)
    beaten = np.zeros(len(places), dtype=bool)
    kept: list[int] = []
    for n in np.lexsort((-least[fits], -spare, off_rim, cost, -section)):
        if beaten[n]:
            continue
        kept.append(int(n))
        no_more = (section <= section[n]) & (spare <= spare[n])
        beaten |= no_more & (cost >= cost[n]) & (off_rim >= off_rim[n])
    return [tuple(int(v) for v in places[n]) for n in kept]


def _nearest(least: Array, count: int) -> list[tuple[int, ...]]:
    order = np.argsort(-least, axis=None)[:count]
    return [tuple(int(v) for v in np.unravel_index(n, least.shape)) for n in order]


def _choice(
    table: _Table, where: tuple[int, ...], backspaces: Sequence[float], halves: Sequence[Halves],
    rim_lip: float, obstacles: Sequence[Obstacle], places: Sequence[AxlePlaces],
    slips: Slips | None,
) -> Choice:  # fmt: skip
    pair, back, half = where
    size, rim_width, section = table.pairs[pair]
    spare = table.spare[where]
    tightest = int(np.argmin(spare))
    drawn = None if slips is None else spare_samples(spare, obstacles, slips)
    low_high = None if drawn is None else np.quantile(drawn, (0.05, 0.95))
    short = sorted((float(s), o.name) for s, o in zip(spare, obstacles, strict=True) if s < 0.0)
    return Choice(
        size=size,
        section=section,
        rim_width=rim_width,
        backspace=backspaces[back],
        offset=float(wheel.offset_from_backspace(backspaces[back], rim_width, rim_lip)),
        halves=halves[half],
        spare=float(spare[tightest]),
        tightest=obstacles[tightest].name,
        place=places[tightest].names[table.place[pair, tightest]],
        lacks=tuple((name, -amount) for amount, name in short),
        chance=None if drawn is None else float(np.mean(drawn >= 0.0)),
        band=None if low_high is None else (float(low_high[0]), float(low_high[1])),
    )


def _reasons(choices: tuple[Choice, ...]) -> tuple[Choice, ...]:
    """Say of each choice why it stands in the list."""
    roomiest = max(choices, key=lambda c: c.spare)
    cheapest = min(c.halves.cost for c in choices)
    told = []
    for n, choice in enumerate(choices):
        why = ["the widest tire that clears"] if n == 0 else []
        if choice is roomiest:
            why.append("the most room to spare")
        if choice.halves.cost == cheapest and all(c.halves.cost > cheapest for c in choices[:n]):
            why.append("the widest tire for the least cost")
        if not why:
            why.append("more room, less cost or a better rim than any tire as wide")
        told.append(replace(choice, reason="; ".join(why)))
    return tuple(told)
