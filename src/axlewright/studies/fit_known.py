"""Values that may not be known yet: what cannot be worked out names the readings that it lacks."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from axlewright.quantities.formula import Num


@dataclass(frozen=True)
class Lack:
    """A value that nobody can work out yet, and the keys of the readings that it wants."""

    keys: tuple[str, ...]


Known = Num | Lack
"""A value, or what is missing for it."""


def read(value: Num | None, *keys: str) -> Known:
    """A reading under its key; where there are several, any one of them would do."""
    return Lack((" or ".join(keys),)) if value is None else value


def work(function: Callable[..., Any], **given: Known) -> Known:
    """The value of a formula, or all that its arguments lack together."""
    lacks = lacking(given.values())
    if lacks:
        return Lack(lacks)
    result: Num = function(**given)
    return result


def lacking(values: Iterable[Known]) -> tuple[str, ...]:
    """Keys that are missing for any of these, each once, in order."""
    return tuple(dict.fromkeys(k for v in values if isinstance(v, Lack) for k in v.keys))


def first(*values: Known) -> Known:
    """The first that is known; else what the last one lacks."""
    for value in values:
        if not isinstance(value, Lack):
            return value
    return values[-1]


def number(value: Known) -> float | None:
    """A plain number, or none."""
    return None if isinstance(value, Lack) else float(value)
