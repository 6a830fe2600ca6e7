"""Values that come several at a time: one quantity read more than once, a list, a point in space.

A repeated reading is still a reading: its value is the mean and its limits hold all that was read.
How sure the mean is, is worked out in ``measuring``, which knows the tool that it was read with.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from axlewright.quantities.units import Reading, UnitError, read


class EntryError(UnitError):
    """An entry of a list that does not read; ``entry`` is its number, from 0."""

    def __init__(self, entry: int, why: str) -> None:
        self.entry = entry
        super().__init__(why)


@dataclass(frozen=True)
class Repeated(Reading):
    """One quantity read several times, each reading kept as it was written."""

    readings: tuple[Reading, ...]


def each(value: Reading) -> tuple[Reading, ...]:
    """Every single reading behind a reading."""
    return value.readings if isinstance(value, Repeated) else (value,)


def read_several(value: Any, dimension: str) -> Reading:
    """Read one text, or a list of texts that are readings of the same thing."""
    if not isinstance(value, list | tuple):
        return read(value, dimension)
    if not value:
        raise UnitError("an empty list says nothing; write at least one reading")
    found = _entries(value, dimension)
    if len(found) == 1:
        return found[0]
    mean = sum(r.value for r in found) / len(found)
    low, high = min(r.low for r in found), max(r.high for r in found)
    return Repeated(mean, low, high, "; ".join(r.text for r in found), dimension, found)


def read_list(value: Any, dimension: str) -> tuple[Reading, ...]:
    """Read a list of different values of one dimension; a single text is a list of one."""
    entries = value if isinstance(value, list | tuple) else [value]
    if not entries:
        raise UnitError("an empty list says nothing; write at least one value")
    return _entries(entries, dimension)


def read_place(value: Any) -> tuple[Reading, ...]:
    """Read a point: how far forward, how far left, how far up."""
    if not isinstance(value, list | tuple) or len(value) != 3:
        raise UnitError(
            'must be a point of three lengths: forward, left, up, like ["22 in", "18.1 in", "9 in"]'
        )
    return _entries(value, "length")


def _entries(values: list[Any] | tuple[Any, ...], dimension: str) -> tuple[Reading, ...]:
    made: list[Reading] = []
    for number, value in enumerate(values):
        try:
            made.append(value if isinstance(value, Reading) else read(value, dimension))
        except UnitError as e:
            raise EntryError(number, str(e)) from None
    return tuple(made)
