"""Dimensions, leaders and datums as strokes, arrowheads and words on paper.

Figures stand upright, whatever the direction of their line: they read from the bottom of the sheet.
One that does not fit between its arrows stands beside them.
"""

from __future__ import annotations

import math

from axlewright.drawing.dimensions import (
    Aligned,
    Angular,
    Datum,
    Diameter,
    Dimension,
    Leader,
    Linear,
    Ordinate,
    Radius,
)
from axlewright.drawing.dimensions_base import CLEAR, Place, ahead, arrow, block_of, stroke, unit
from axlewright.drawing.dimensions_round import round_size, turned_angle
from axlewright.drawing.dimensions_straight import ordinate, straight
from axlewright.drawing.dimensions_text import lines_of
from axlewright.drawing.primitives import Anchor
from axlewright.drawing.sheet_marks import HEIGHT, Blot, Mark, Ring, Stroke, Words


def drawn(dimension: Dimension, place: Place, general: float | None) -> tuple[Mark, ...]:
    """A dimension on paper."""
    said = lines_of(dimension, general)
    match dimension:
        case Linear() | Aligned():
            return straight(dimension, place, said)
        case Angular():
            return turned_angle(dimension, place, said)
        case Diameter() | Radius():
            return round_size(dimension, place, said)
        case Ordinate():
            return ordinate(dimension, place, said)


def led(leader: Leader, place: Place) -> tuple[Mark, ...]:
    """A leader: arrow or dot, line, shoulder, words."""
    tip, knee = place.at(leader.tip), place.at(leader.knee)
    length = math.dist(tip, knee)
    way = ((tip[0] - knee[0]) / length, (tip[1] - knee[1]) / length)
    side = 1.0 if knee[0] >= tip[0] else -1.0
    shoulder = (knee[0] + 2.0 * side, knee[1])
    head: Mark = Ring(tip, 0.5, "dimension") if leader.dot else arrow(tip, way)
    anchor: Anchor = "start" if side > 0 else "end"
    words = block_of((shoulder[0] + CLEAR * side, knee[1]), leader.words, anchor)
    return (stroke(tip, knee, shoulder), head, *words)


def standing(datum: Datum, place: Place) -> tuple[Mark, ...]:
    """A datum: filled triangle on the feature, line, and the letter in a box (ISO 5459, memory)."""
    foot = place.at(datum.at)
    ray = unit(datum.angle)
    side = (-ray[1], ray[0])
    base = ahead(foot, ray, 2.0)
    half = 2.5
    center = ahead(foot, ray, datum.out + half)
    x, y = center
    box = Stroke(
        ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)),
        "dimension",
        closed=True,
    )
    return (
        Blot((ahead(foot, side, 1.4), ahead(foot, side, -1.4), base)),
        stroke(base, ahead(foot, ray, datum.out)),
        box,
        Words((x, y - 0.5 * HEIGHT), datum.letter, anchor="middle", layer="dimension"),
    )
