"""Every gap of an end as a chain of tolerances, and which dimension governs it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from axlewright.fit.end_look import End, look_at
from axlewright.fit.tolerance import Chain, Part, close_chain

REST = "all else"


def end_chains(end: End, limits: Mapping[str, float]) -> dict[str, Chain]:
    """Worst case, root of the sum of squares and shares of every gap that the limits move.

    ``limits`` are ± in m by name, like ``bearing.pocket`` or ``seat.hat``.  Each dimension is moved
    alone, both ways, to see what it does; the gaps are sums, so that is exact, but for thread that
    ends with its nut and a disc on the other side of its caliper's middle.
    """
    nominal = look_at(end).numbers
    moved = {
        where: tuple(look_at(_moved(end, where, way * limit)).numbers for way in (1.0, -1.0))
        for where, limit in limits.items()
    }
    chains = {}
    for name, value in nominal.items():
        parts = []
        for where, (up, down) in moved.items():
            direction = (float(up[name]) - float(down[name])) / (2.0 * limits[where])
            if abs(direction) > 1e-9:
                at, limit = _value(end, where), limits[where]
                parts.append(Part(where, at, at - limit, at + limit, direction))
        if parts:
            rest = float(value) - sum(p.direction * p.value for p in parts)
            chains[name] = close_chain([*parts, Part(REST, rest, rest, rest)])
    return chains


def governs(chain: Chain) -> str:
    """Dimension that moves the gap most: the one to measure again or hold closer."""
    return next(iter(chain.shares))


def _value(end: End, where: str) -> float:
    part, _, name = where.partition(".")
    return float(getattr(getattr(end, part), name))


def _moved(end: End, where: str, by: float) -> End:
    part, _, name = where.partition(".")
    old = getattr(end, part)
    return dataclasses.replace(
        end, **{part: dataclasses.replace(old, **{name: getattr(old, name) + by})}
    )
