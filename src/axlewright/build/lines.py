"""Where each key of a TOML text stands, so that a message can name the line."""

from __future__ import annotations

import re

Path = tuple[str, ...]
_HEADER = re.compile(r"^\s*(\[\[?)([^\]]+)\]\]?\s*(?:#.*)?$")
_PART = r"(?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')"
_KEY = re.compile(rf"^(\s*)({_PART}(?:\s*\.\s*{_PART})*)\s*=")


def _split(dotted: str) -> Path:
    return tuple(p.strip().strip("\"'") for p in re.findall(_PART, dotted))


def key_lines(text: str) -> dict[Path, tuple[int, int]]:
    """Line and column (from 1) of every table header and key, by path.

    Keys inside inline tables and arrays share the place of the key that holds them.
    """
    places: dict[Path, tuple[int, int]] = {}
    table: Path = ()
    open_quote, depth = "", 0
    for number, line in enumerate(text.split("\n"), start=1):
        if open_quote or depth:
            open_quote, depth = _scan(line, open_quote, depth)
            continue
        header = _HEADER.match(line)
        if header:
            table = _split(header[2])
            for n in range(1, len(table) + 1):
                places.setdefault(table[:n], (number, line.index("[") + 1))
            continue
        found = _KEY.match(line)
        if found:
            path = table + _split(found[2])
            for n in range(len(table) + 1, len(path) + 1):
                places.setdefault(path[:n], (number, len(found[1]) + 1))
            open_quote, depth = _scan(line[found.end() :], "", 0)
    return places


def _scan(line: str, quote: str, depth: int) -> tuple[str, int]:
    """Follow quotes and brackets through a line; gives the open triple quote and the depth."""
    i = 0
    while i < len(line):
        if quote:
            end = line.find(quote, i)
            if end < 0:
                return (quote, depth) if len(quote) == 3 else ("", depth)
            i, quote = end + len(quote), ""
            continue
        char = line[i]
        if char == "#":
            break
        if line.startswith(('"""', "'''"), i):
            quote = line[i : i + 3]
            i += 3
            continue
        if char in "\"'":
            quote = char
        depth += (char in "[{") - (char in "]}")
        i += 1
    return (quote if len(quote) == 3 else "", max(depth, 0))


def place_of(places: dict[Path, tuple[int, int]], path: Path) -> tuple[int, int]:
    """Line and column of a path, or of the nearest thing that holds it; (1, 1) if none does."""
    for n in range(len(path), 0, -1):
        if path[:n] in places:
            return places[path[:n]]
    return (1, 1)


DEEPEST = 40
"""Names in one dotted key; deeper ones make TOML readers take minutes and mean nothing here."""


def too_deep(text: str) -> int | None:
    """Line of a key or table header with more names than any build file has, or None."""
    for number, line in enumerate(text.split("\n"), start=1):
        if line.count(".") > DEEPEST and not line.lstrip().startswith("#"):
            head = line.split("=", 1)[0]
            if head.count(".") > DEEPEST and not any(quote in head for quote in "\"'"):
                return number
    return None
