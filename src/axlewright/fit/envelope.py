"""The space that a mounted tire fills, and how far a point is from it.

Tire and rim are a solid turned about the wheel's axis: flat tread, shoulders and sidewalls as
quarter ellipses that meet at the widest place, the rim's lip, and all inside the lip filled.  What
looks for room inside the rim itself (brakes) is not asked here.  Chords stand for the ellipses and
lie inside them by no more than 0.0022 of half the sidewall's height, some 0.15 mm.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.formula import Array, Num

_CHORDS = 12
"""Chords for each quarter of an ellipse."""
ZONES = ("tread", "shoulder", "sidewall", "rim")
"""Where on the tire, from outside in; the index that ``distance`` gives."""


@dataclass(frozen=True)
class Tire:
    """A mounted tire with its rim, all lengths in m; numbers or arrays of samples."""

    section: Num
    """Width over the sidewalls on this rim."""
    over_lips: Num
    """Width of the rim over both lips."""
    offset: Num
    """Mounting face outboard of the middle of the rim."""
    radius: Num
    """To the tread."""
    tread: Num
    """Width of the tread, corner to corner."""
    lip_radius: Num
    """To the edge of the rim's lip."""
    widest_radius: Num | None = None
    """Where the section is widest; half-way between lip and tread when not stated."""

    @property
    def at_widest(self) -> Num:
        """Radius of the widest place."""
        if self.widest_radius is None:
            return 0.5 * (self.radius + self.lip_radius)
        return self.widest_radius

    @property
    def problems(self) -> tuple[str, ...]:
        """What cannot be so; empty when the shape makes sense in every sample."""
        checks = (
            (self.lip_radius > 0.0, "the rim needs a radius"),
            (self.at_widest > self.lip_radius, "the tire is widest outside the rim's lip"),
            (self.radius > self.at_widest, "the tread lies outside the widest place"),
            (self.tread > 0.0, "the tread needs a width"),
            (self.section >= self.tread, "the tread is wider than the tire: give its real width"),
            (self.over_lips > 0.0, "the rim needs a width"),
        )
        return tuple(text for holds, text in checks if not np.all(holds))

    @functools.cached_property
    def corners(self) -> tuple[Array, Array]:
        """What :func:`outline` gives, worked out once: a search asks for it again and again."""
        if self.problems:
            raise ValueError("; ".join(self.problems))
        turn = np.linspace(0.0, 0.5 * np.pi, _CHORDS + 1)
        half, lip = 0.5 * np.asarray(self.section), 0.5 * np.asarray(self.over_lips)
        corner, middle = 0.5 * np.asarray(self.tread), np.asarray(self.at_widest)
        upper = [(corner + (half - corner) * np.sin(t), np.cos(t)) for t in turn]
        lower = [(lip + (half - lip) * np.cos(t), np.sin(t)) for t in turn[1:]]
        rise, fall = self.radius - middle, middle - self.lip_radius
        across = [0.0 * corner, *(a for a, _ in upper), *(a for a, _ in lower), lip]
        radii = [self.radius, *(middle + rise * c for _, c in upper)]
        radii += [*(middle - fall * s for _, s in lower), 0.0]
        both = _stacked([*across, *radii])
        return both[: len(across)], both[len(across) :]


def outline(tire: Tire) -> tuple[Array, Array]:
    """Corners of one half of the section: distance from the tire's middle, and radius.

    From the middle of the tread out, around and in to the axis; corners on the first axis.
    """
    return tire.corners


def distance(tire: Tire, along: Num, radius: Num) -> tuple[Num, NDArray[np.intp]]:
    """Distance of a point from the tire in m, below zero inside, and the index of the nearest zone.

    ``along`` is the point's place along the axle, outboard from the mounting face; ``radius`` its
    distance from the axle line.  A solid of revolution is nearest in the plane through its axis and
    the point, so this is the distance in space.
    """
    u = np.abs(np.asarray(along + tire.offset, dtype=np.float64))
    across, radii = outline(tire)
    shape = np.broadcast_shapes(u.shape, np.shape(radius), across.shape[1:])
    best = np.full(shape, np.inf)
    nearest = np.zeros(shape, dtype=np.intp)
    inside = np.zeros(shape, dtype=bool)
    for n in range(len(across) - 1):
        a, r, b, s = across[n], radii[n], across[n + 1], radii[n + 1]
        square = _to_segment(u, radius, a, r, b, s)
        closer = square < best
        np.copyto(best, square, where=closer)
        np.copyto(nearest, n, where=closer)
        within = (radius < r) & (radius >= s)
        share = (r - radius) / np.where(r > s, r - s, 1.0)
        inside |= within & (u < a + (b - a) * share)
    signed: Num = np.where(inside, -np.sqrt(best), np.sqrt(best))[()]
    return signed, _zone(nearest)


def reach(tire: Tire, radius: Num) -> Num:
    """Half-width of tire or rim at a radius; none outside the tread."""
    across, radii = outline(tire)
    shape = np.broadcast_shapes(np.shape(radius), across.shape[1:])
    found = np.full(shape, -np.inf)
    for n in range(1, len(across) - 1):
        a, r, b, s = across[n], radii[n], across[n + 1], radii[n + 1]
        share = (r - radius) / np.where(r > s, r - s, 1.0)
        within = (radius <= r) & (radius >= s)
        np.copyto(found, a + (b - a) * share, where=within)
    result: Num = found[()]
    return result


def kept_reach(tire: Tire, radius: Num, wanted: float) -> Num:
    """How far from the tire's middle a point at a radius must be to stay off by ``wanted``.

    The half-section swollen by the clearance wanted: an arc about each corner, and each chord
    moved out.  Minus infinity where the tire is out of reach.
    """
    found = np.asarray(reach(tire, radius))
    across, radii = outline(tire)
    for n in range(1, len(across) - 1 if wanted > 0.0 else 0):
        a, r, b, s = across[n], radii[n], across[n + 1], radii[n + 1]
        off = radius - r
        arc = a + np.sqrt(np.maximum(wanted * wanted - off * off, 0.0))
        found = np.maximum(found, np.where(np.abs(off) <= wanted, arc, -np.inf))
        length = np.sqrt((b - a) ** 2 + (r - s) ** 2)
        share = (r + wanted * (b - a) / length - radius) / (r - s)
        chord = a + wanted * (r - s) / length + (b - a) * share
        found = np.maximum(found, np.where((share >= 0.0) & (share <= 1.0), chord, -np.inf))
    result: Num = found[()]
    return result


def _to_segment(u: Any, v: Any, a: Any, r: Any, b: Any, s: Any) -> Array:
    """Square of the distance of (u, v) from the segment (a, r) to (b, s)."""
    run, fall = b - a, s - r
    share = ((u - a) * run + (v - r) * fall) / (run * run + fall * fall)
    share = np.clip(share, 0.0, 1.0)
    off, up = u - (a + share * run), v - (r + share * fall)
    square: Array = off * off + up * up
    return square


def _zone(segment: NDArray[np.intp]) -> NDArray[np.intp]:
    """Zone of a segment: tread, half a quarter of shoulder, sidewall, and the rim."""
    zones = np.full(2 * _CHORDS + 2, 2, dtype=np.intp)
    zones[0], zones[1 : 1 + _CHORDS // 2], zones[-1] = 0, 1, 3
    return zones[segment]


def _stacked(rows: list[Any]) -> Array:
    shape = np.broadcast_shapes(*(np.shape(r) for r in rows))
    return np.stack([np.broadcast_to(np.asarray(r, dtype=np.float64), shape) for r in rows])
