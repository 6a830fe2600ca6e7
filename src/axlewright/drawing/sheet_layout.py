"""Finds room for views: the largest usual scales at which all that is written goes on the paper."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from axlewright.drawing.primitives import Box
from axlewright.drawing.sheet import SCALES, Notes, View, view_box
from axlewright.drawing.sheet_marks import HEIGHT, LEADING

_GAP = 5.0
"""Least room between two views (mm on paper)."""
_SLACK = 1e-6


@dataclass(frozen=True)
class Wanted:
    """A view that is to be placed: made for a scale with its zero at (0, 0)."""

    make: Callable[[int], View]
    scales: tuple[int, ...] = SCALES


def below(notes: Notes) -> float:
    """The height on paper under a block of notes."""
    return notes.at[1] - LEADING * HEIGHT * (len(notes.sentences) - 1) - 4.0


def in_row(
    wanted: Sequence[Wanted],
    region: Box,
    general: float | None,
    taken: Sequence[Box] = (),
    first: int = 0,
) -> tuple[View, ...]:
    """Views beside one another on one center line, inside a region and off what is taken.

    The coarsest scale is made as fine as it can be; among equals view ``first`` comes first.
    """
    made = [{s: w.make(s) for s in w.scales} for w in wanted]
    boxes = [{s: view_box(v, general) for s, v in m.items()} for m in made]

    def coarse(scales: tuple[int, ...]) -> tuple[int, int, int]:
        return (max(scales), scales[first], sum(scales))

    for scales in sorted(product(*(w.scales for w in wanted)), key=coarse):
        sizes = [b[s] for b, s in zip(boxes, scales, strict=True)]
        spots = _spots(sizes, region, taken)
        if spots is not None:
            return tuple(
                replace(m[s], origin=spot) for m, s, spot in zip(made, scales, spots, strict=True)
            )
    raise ValueError("this does not go on the paper at any usual scale; take larger paper")


def _spots(
    sizes: Sequence[Box], region: Box, taken: Sequence[Box]
) -> list[tuple[float, float]] | None:
    """Where the zero of each view stands, if there is room: spread out, else to one side."""
    left, _, right, _ = region
    inner = len(sizes) - 1
    spare = right - left - sum(b[2] - b[0] for b in sizes)
    even = spare / (inner + 2)
    rest = spare - _GAP * inner
    if rest < -_SLACK:
        return None
    for lead, gap in ((even, even), (rest, _GAP), (0.0, _GAP)):
        spots = _row(sizes, region, taken, lead, max(gap, _GAP))
        if spots is not None:
            return spots
    return None


def _row(
    sizes: Sequence[Box], region: Box, taken: Sequence[Box], lead: float, gap: float
) -> list[tuple[float, float]] | None:
    """The same with a given lead and given gaps."""
    left, bottom, right, top = region
    lowest, highest = -math.inf, math.inf
    x = left + lead
    places: list[float] = []
    for box in sizes:
        end = x + box[2] - box[0]
        floor = max([bottom, *(t[3] for t in taken if t[0] < end and x < t[2])])
        lowest, highest = max(lowest, floor - box[1]), min(highest, top - box[3])
        places.append(x - box[0])
        x = end + gap
    if lowest > highest + _SLACK or x - gap > right + _SLACK:
        return None
    return [(place, 0.5 * (lowest + highest)) for place in places]
