"""Where each key and value of a valid TOML text begins and ends, to the character.

``lines`` answers for any text, right or wrong, and by line; this answers for texts that ``tomllib``
reads, and exactly enough to change one value and leave every other byte alone.
"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass, field

from axlewright.build.written import PLAIN_KEY, Path, decoded

_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?""""{0,2}'
    r"|'''.*?''''{0,2}"
    r'|"(?:\\.|[^"\\\n])*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_BARE_VALUE = re.compile(r"[^,\]}#\r\n]+")
_GAP = re.compile(r"[ \t]*")
_BREAKS = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")


@dataclass(frozen=True)
class Member:
    """A key of an inline table: from the first character of its key to the last of its value."""

    path: Path
    key_start: int
    value_start: int
    value_end: int


@dataclass(frozen=True)
class Inline:
    """An inline table from brace to brace."""

    start: int
    end: int
    members: tuple[Member, ...]


@dataclass(frozen=True)
class Statement:
    """A ``key = value`` with the whole lines that it stands on; ``table`` numbers its header."""

    table: int
    path: Path
    start: int
    key_start: int
    value_start: int
    value_end: int
    end: int


@dataclass(frozen=True)
class Header:
    """A table's header line; the first one stands for the top of the file.

    ``listed`` marks ``[[tables of a list]]`` and whatever lies inside one.
    """

    path: Path
    start: int
    end: int
    listed: bool


@dataclass(frozen=True)
class Layout:
    """Everything that stands in a text, in its order.

    ``leaves`` holds the span of every value that a path of keys leads to, inline tables opened.
    """

    headers: list[Header] = field(default_factory=lambda: [Header((), 0, 0, False)])
    statements: list[Statement] = field(default_factory=list)
    inlines: dict[Path, Inline] = field(default_factory=dict)
    leaves: dict[Path, tuple[int, int]] = field(default_factory=dict)
    lists: dict[Path, None] = field(default_factory=dict)

    def body_end(self, table: int, text: str) -> int:
        """Where the lines that belong to a header end."""
        return self.headers[table + 1].start if table + 1 < len(self.headers) else len(text)


class _Scanner:
    """One pass over a text that is known to be valid."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.layout = Layout()

    def run(self) -> Layout:
        while True:
            self.at = self._after(_BREAKS)
            if self.at >= len(self.text):
                return self.layout
            if self.text[self.at] == "[":
                self._header()
            else:
                self._statement()

    def _after(self, pattern: re.Pattern[str]) -> int:
        found = pattern.match(self.text, self.at)
        return found.end() if found else self.at

    def _line_start(self) -> int:
        return self.text.rfind("\n", 0, self.at) + 1

    def _to_next_line(self) -> int:
        end = self.text.find("\n", self.at)
        self.at = len(self.text) if end < 0 else end + 1
        return self.at

    def _header(self) -> None:
        start = self._line_start()
        double = self.text.startswith("[[", self.at)
        self.at += 2 if double else 1
        path = self._key()
        if double:
            self.layout.lists.setdefault(path)
        listed = any(path[:n] in self.layout.lists for n in range(1, len(path) + 1))
        self.layout.headers.append(Header(path, start, self._to_next_line(), listed))

    def _statement(self) -> None:
        start, key_start = self._line_start(), self.at
        table = self.layout.headers[-1]
        path = table.path + self._key()
        self.at += 1  # the equals sign
        self.at = value_start = self._after(_GAP)
        self._value(None if table.listed else path)
        value_end = self.at
        number = len(self.layout.headers) - 1
        end = self._to_next_line()
        self.layout.statements.append(
            Statement(number, path, start, key_start, value_start, value_end, end)
        )

    def _key(self) -> Path:
        """Read a dotted key; stops at what follows it."""
        parts: list[str] = []
        while True:
            self.at = self._after(_GAP)
            quoted = self.text[self.at] in "\"'"
            end = self._after(_STRING if quoted else PLAIN_KEY)
            part = self.text[self.at : end]
            parts.append(decoded(part) if quoted else part)
            self.at = end
            self.at = self._after(_GAP)
            if self.text[self.at] != ".":
                return tuple(parts)
            self.at += 1

    def _value(self, path: Path | None) -> None:
        """Go past a value; with a path it is a leaf or an inline table to be remembered."""
        start, first = self.at, self.text[self.at]
        if first == "{":
            self._inline(path)
            return
        if first == "[":
            self.entries()
        elif first in "\"'":
            self.at = self._after(_STRING)
        else:
            self.at += len(self.text[self.at : self._after(_BARE_VALUE)].rstrip())
        if path is not None:
            self.layout.leaves[path] = (start, self.at)

    def entries(self) -> list[int]:
        """Go past an array; gives where its entries begin."""
        starts: list[int] = []
        self.at += 1
        while True:
            self.at = self._after(_BREAKS)
            if self.text[self.at] == "]":
                self.at += 1
                return starts
            if self.text[self.at] == ",":
                self.at += 1
            else:
                starts.append(self.at)
                self._value(None)

    def _inline(self, path: Path | None) -> None:
        start = self.at
        self.at += 1
        members: list[Member] = []
        while True:
            self.at = self._after(_BREAKS)
            if self.text[self.at] == "}":
                break
            if self.text[self.at] == ",":
                self.at += 1
                continue
            key_start = self.at
            here = (path or ()) + self._key()
            self.at += 1
            self.at = value_start = self._after(_GAP)
            self._value(None if path is None else here)
            members.append(Member(here, key_start, value_start, self.at))
        self.at += 1
        if path is not None:
            self.layout.inlines[path] = Inline(start, self.at, tuple(members))


@functools.lru_cache(maxsize=32)
def layout_of(text: str) -> Layout:
    """Scan a text that ``tomllib`` reads; a text that it does not read is a caller's mistake."""
    return _Scanner(text).run()


def values_of(text: str) -> dict[Path, str]:
    """The literal behind every path of a valid text; a list of tables as all of its lines."""
    layout = layout_of(text)
    found = {path: text[a:b] for path, (a, b) in layout.leaves.items()}
    for path in layout.lists:
        if any(path[:n] in layout.lists for n in range(1, len(path))):
            continue  # told with the list around it
        found[path] = "".join(
            text[h.start : layout.body_end(n, text)]
            for n, h in enumerate(layout.headers)
            if h.path[: len(path)] == path
        )
    return found


def entry_starts(text: str, path: Path) -> list[int]:
    """Where each entry of the list behind a path of a valid text begins; nothing if it is none."""
    span = layout_of(text).leaves.get(path)
    if span is None or text[span[0]] != "[":
        return []
    scanner = _Scanner(text)
    scanner.at = span[0]
    return scanner.entries()
