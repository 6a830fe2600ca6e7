"""Bringing two changes of one build together, key by key."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from difflib import SequenceMatcher

from axlewright.build.spans import values_of
from axlewright.build.splice import EditError, remove_value, set_value
from axlewright.build.written import Path, decoded, dotted


@dataclass(frozen=True)
class Conflict:
    """A key that both sides changed, each to something else; empty text where it is absent.

    An empty ``key`` means the whole file: one of the texts cannot be read, so there are no keys.
    """

    key: str
    base: str
    ours: str
    theirs: str


@dataclass(frozen=True)
class Merged:
    """A merged text; ``complete`` if all of ours is in it, the comments too."""

    text: str
    conflicts: tuple[Conflict, ...]
    complete: bool


def merge(base: str, ours: str, theirs: str) -> tuple[str, tuple[Conflict, ...]]:
    """Their text with our changed keys in it, and the conflicts, in which theirs was kept."""
    merged = merge_all(base, ours, theirs)
    return merged.text, merged.conflicts


def merge_all(base: str, ours: str, theirs: str) -> Merged:
    """Merge by key; comments and layout of both sides are kept where their lines do not touch."""
    if ours in {base, theirs}:
        return Merged(theirs, (), True)
    if theirs == base:
        return Merged(ours, (), True)
    values = [_values(text) for text in (base, ours, theirs)]
    was, mine, other = values
    if was is None or mine is None or other is None:
        together = _by_lines(base, ours, theirs, apart=1)
        if together is not None:
            return Merged(together, (), True)
        return Merged(theirs, (Conflict("", base, ours, theirs),), False)
    together = _by_lines(base, ours, theirs, apart=0)
    wanted = _wanted(was, mine, other)
    if together is not None and wanted is not None and _values(together) == wanted:
        return Merged(together, (), True)
    text, conflicts = _by_keys(theirs, was, mine, other)
    return Merged(text, conflicts, not conflicts and _new_lines(base, ours) <= set(_lines(text)))


def _values(text: str) -> dict[Path, str] | None:
    try:
        tomllib.loads(text)
        return values_of(text)
    except (ValueError, RecursionError):
        return None


def _changed(was: dict[Path, str], mine: dict[Path, str]) -> list[Path]:
    """What ours changed: first what it took out, so that there is room for the rest."""
    changed = [p for p in {**was, **mine} if _differ(was.get(p), mine.get(p))]
    return sorted(changed, key=lambda p: p in mine)


def _wanted(
    was: dict[Path, str], mine: dict[Path, str], other: dict[Path, str]
) -> dict[Path, str] | None:
    """What the merged text should say; None if both changed one key, each to something else."""
    wanted = dict(other)
    for path in _changed(was, mine):
        if not _differ(mine.get(path), other.get(path)):
            continue
        if _differ(was.get(path), other.get(path)):
            return None
        wanted.pop(path, None)
        if path in mine:
            wanted[path] = mine[path]
    return wanted


def _by_keys(
    theirs: str, was: dict[Path, str], mine: dict[Path, str], other: dict[Path, str]
) -> tuple[str, tuple[Conflict, ...]]:
    text = theirs
    conflicts: list[Conflict] = []
    for path in _changed(was, mine):
        old, new, their = was.get(path), mine.get(path), other.get(path)
        if not _differ(new, their):
            continue
        try:
            if _differ(old, their):
                raise EditError("both changed it")
            text = set_value(text, path, new) if new is not None else remove_value(text, path)
        except EditError:
            conflicts.append(Conflict(dotted(path), *(_typed(v) for v in (old, new, their))))
    return text, tuple(conflicts)


def _differ(one: str | None, two: str | None) -> bool:
    if one is None or two is None:
        return one is not two
    if one == two:
        return False
    return not (one[0] in "\"'" and two[0] in "\"'" and decoded(one) == decoded(two))


def _typed(literal: str | None) -> str:
    return "" if literal is None else decoded(literal)


def _lines(text: str) -> list[str]:
    return [line.rstrip() for line in text.split("\n")]


def _new_lines(base: str, ours: str) -> set[str]:
    """Lines that ours has and the base had not."""
    return set(_lines(ours)) - set(_lines(base))


def _by_lines(base: str, ours: str, theirs: str, apart: int) -> str | None:
    """Three-way merge by lines; None where both sides changed one place.

    ``apart`` is how many lines must lie between: none if what comes out can be checked.
    """
    was, mine, other = (t.splitlines(keepends=True) for t in (base, ours, theirs))
    changes = sorted(_changes(was, mine) + _changes(was, other))
    out: list[str] = []
    at = 0
    last: tuple[int, int, list[str]] | None = None
    for change in changes:
        start, end, lines = change
        if change == last:
            continue  # both made it
        if last is not None and (start < last[1] + apart or start == last[0]):
            return None
        out += was[at:start] + lines
        at, last = end, change
    return "".join(out + was[at:])


def _changes(was: list[str], now: list[str]) -> list[tuple[int, int, list[str]]]:
    """Each run of lines that was replaced: where it began and ended, and what stands there now."""
    found = SequenceMatcher(None, was, now, autojunk=False).get_opcodes()
    return [(a, b, now[c:d]) for tag, a, b, c, d in found if tag != "equal"]
