"""Recall: what the last evaluation gave, so that an edit pays only for what it touches.

A result is known by the name of the work and by its very arguments: arrays by identity, anything
else by type and value.  Arrays of samples are kept from run to run for inputs that stay as they
are, and so are the results that follow from them; one changed input renews what depends on it.
What is noted holds its arguments, so no identity is ever used twice; its arrays are read only.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, Protocol, TypeVar, cast

import numpy as np

R = TypeVar("R")
_Notes = dict[tuple[Any, ...], tuple[tuple[Any, ...], Any]]
_FIRST = 64
"""Results held at a time by the first run of a program: some 5 MB of samples."""
_PLAIN = (float, int, bool, str, type(None), np.float64)


class Recalling(Protocol):
    """Does a piece of work, or gives what the very same work gave before."""

    def __call__(self, name: str, work: Callable[..., R], *args: Any) -> R:
        """Give ``work(*args)``; the name must tell the work from any other."""


def afresh(name: str, work: Callable[..., R], *args: Any) -> R:
    """Do the work and keep nothing."""
    del name
    return work(*args)


class _Run:
    """One evaluation: looks at the one before, notes what it used or did itself."""

    def __init__(self, before: _Notes | None) -> None:
        self._before = {} if before is None else before
        self._most = _FIRST if before is None else None
        self.notes: _Notes = {}

    def recall(self, name: str, work: Callable[..., R], *args: Any) -> R:
        """What this work gave before, or its result, noted for the next run."""
        key = _key(name, args)
        if key is None:
            return work(*args)
        noted = self.notes.get(key) or self._before.get(key)
        if noted is None:
            noted = (args, _closed(work(*args)))
            if self._most is not None and len(self.notes) >= self._most:
                del self.notes[next(iter(self.notes))]
        self.notes[key] = noted
        return cast(R, noted[1])


def _key(name: str, args: tuple[Any, ...]) -> tuple[Any, ...] | None:
    """What tells this work from other work; None if an argument is neither array nor plain."""
    key: list[Any] = [name]
    for a in args:
        kind = type(a)
        if kind is np.ndarray:
            key.append(id(a))
        elif kind in _PLAIN:
            key.append((kind, a or str(a)))  # 0.0 and -0.0 are equal, yet not alike
        else:
            return None
    return tuple(key)


def _closed(result: R) -> R:
    """The same with its arrays read only, so that a note stays what it was."""
    for part in result if isinstance(result, tuple) else (result,):
        if isinstance(part, np.ndarray):
            part.flags.writeable = False
        elif isinstance(part, tuple):
            _closed(part)
    return result


_before: _Notes | None = None


@contextmanager
def recalling(worth_keeping: bool = True) -> Iterator[Recalling]:
    """A run that recalls the one before it and is recalled by the next.

    The first run of a program holds only its last few results and passes none on: a command that
    asks once would pay for fresh memory.  Runs at the same time look at the same notes, which
    nobody changes; the last one stays.
    """
    global _before  # noqa: PLW0603 (one memory for all builds: they share most of their inputs)
    if not worth_keeping:
        yield afresh
        return
    first = _before is None
    run = _Run(_before)
    yield run.recall
    _before = {} if first else run.notes


def forget() -> None:
    """Drop all notes, as at the start of a program."""
    global _before  # noqa: PLW0603
    _before = None
