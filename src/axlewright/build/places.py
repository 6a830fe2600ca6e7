"""Where a line may go in a build file, and which comments belong to which line."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator

from axlewright.build.model import Build
from axlewright.build.spans import Layout, Statement
from axlewright.build.written import Path
from axlewright.quantities.fields import subsection, walk

_COMMENT = re.compile(r"([ \t]*)#")
_INDENT = re.compile(r"[ \t]*")
PARKED_KEY = re.compile(r"""[ \t]*#[\w"'-][^=#]*=""")
"""A key that is commented out, as the full template offers it."""


@functools.cache
def _order() -> dict[Path, tuple[int, bool]]:
    """Place of every key among all keys, and whether it is a table that must be there."""
    return {
        tuple(path.split(".")): (n, info.is_required() and subsection(info) is not None)
        for n, (path, info) in enumerate(walk(Build))
    }


def place(path: Path) -> int:
    """Place of a key in the order of the keys; one that is not known comes last."""
    return _order().get(path, (10**6, False))[0]


def rank(path: Path) -> int:
    """Place of a table in the order of the keys, by the nearest table that is known."""
    known = _order()
    return next((known[path[:n]][0] for n in range(len(path), 0, -1) if path[:n] in known), 10**6)


def required(path: Path) -> bool:
    """Whether a table must be there, as the top of the file must."""
    return not path or _order().get(path, (0, False))[1]


def newline(text: str) -> str:
    """How the lines of a text end."""
    return "\r\n" if "\r\n" in text else "\n"


def insert(text: str, at: int, indent: str, line: str) -> str:
    """The text with a line more."""
    end = newline(text)
    start = end if at and text[at - 1] != "\n" else ""
    return f"{text[:at]}{start}{indent}{line}{end}{text[at:]}"


def after(text: str, statement: Statement) -> tuple[int, str]:
    """Where a line after a statement and its continued comment goes, and how it is indented."""
    indent = text[statement.start : statement.key_start]
    at = statement.end
    while (found := _COMMENT.match(text, at)) and len(found[1]) > len(indent):
        end = text.find("\n", at)
        at = len(text) if end < 0 else end + 1
    return at, indent


def free_lines(text: str, layout: Layout, number: int) -> Iterator[tuple[int, int]]:
    """Lines below a header on which no key or value stands."""
    at, end = layout.headers[number].end, layout.body_end(number, text)
    for start, stop in [(s.start, s.end) for s in layout.statements if s.table == number] + [
        (end, end)
    ]:
        while at < start:
            line_end = text.find("\n", at, start) + 1 or start
            yield at, line_end
            at = line_end
        at = stop


def comment_above(text: str, layout: Layout, at: int) -> bool:
    """Whether a comment stands directly above a line and belongs to it."""
    return above(text, layout, at) < at


def above(text: str, layout: Layout, at: int) -> int:
    """Start of the comment lines that stand directly above a line and belong to it."""
    ends = [*(h.end for h in layout.headers), *(s.end for s in layout.statements)]
    floor = max((end for end in ends if end <= at), default=0)
    found = _INDENT.match(text, at)
    indent = len(found[0]) if found else 0
    while at > floor:
        start = text.rfind("\n", 0, at - 1) + 1
        comment = _COMMENT.match(text, start, at)
        line = text[start:at]
        if not comment or len(comment[1]) > indent or PARKED_KEY.match(line):
            break
        at = start
    return at
