"""What a row of the worksheet is, and how rows are written for both sides at once."""

from __future__ import annotations

from collections.abc import Iterable

from axlewright.measuring.tools import Tool
from axlewright.quantities.records import record


@record
class Item:
    """One thing to measure; a picture's name, not its file."""

    key: str
    what: str
    datum: str
    tool: Tool
    why: str
    picture: str

    @property
    def careful(self) -> str:
        """Limits of one careful reading, as shop text."""
        return self.tool.careful

    @property
    def hurried(self) -> str:
        """Limits of one hurried reading, as shop text."""
        return self.tool.hurried


@record
class Stage:
    """Items that are measured together: one state of the car, one picture."""

    name: str
    state: str
    caution: str
    items: tuple[Item, ...]


Row = tuple[str, str, str, Tool, str]
"""Key below its table, what, datum, tool, why."""


def rows(table: str, picture: str, *written: Row) -> tuple[Item, ...]:
    """Items of one table that one picture shows."""
    return tuple(Item(f"{table}.{k}", w, d, t, y, picture) for k, w, d, t, y in written)


def both(table: str, picture: str, *written: Row) -> tuple[Item, ...]:
    """The same for both sides, each row left and right in turn."""
    return tuple(
        Item(f"{table}.{side}.{k}", f"{side}: {w}", d, t, y, f"{picture}_{side}")
        for k, w, d, t, y in written
        for side in ("left", "right")
    )


def joined(*parts: Iterable[Item]) -> tuple[Item, ...]:
    """Items of several tables in one stage."""
    return tuple(item for part in parts for item in part)
