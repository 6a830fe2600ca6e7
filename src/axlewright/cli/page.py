"""A page for the terminal: lines and tables with a few styles.

An ordinary page is laid out here, because loading the terminal library takes longer than the
answer does; that library prints what is out of the ordinary: a narrow or a special terminal,
wide characters, a table that has to wrap.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

Style = Literal["", "bold", "dim", "yellow"]

_CODES: dict[Style, str] = {"": "", "bold": "1", "dim": "2", "yellow": "33"}
PIPE = 120
_LEAST_CUT = 8
_SPECIAL = ("NO_COLOR", "FORCE_COLOR", "TTY_COMPATIBLE", "TTY_INTERACTIVE", "COLUMNS")
_PLAIN = re.compile("[\x20-\u02ff\u0370-\u03ff\u2000-\u200a\u2010-\u2027\u2030-\u25ff]*")
"""Latin, Greek, punctuation, arrows, signs, lines: one place wide each on every terminal."""


class Line(NamedTuple):
    """A line of words, wrapped at a width or at the edge; indented lines stay so."""

    text: str
    style: Style = ""
    width: int = 0
    indent: int = 0


class Column(NamedTuple):
    """A column of a table; one with a ``most`` may be cut shorter, one that ``wraps`` may wrap."""

    name: str
    right: bool = False
    least: int = 0
    most: int = 0
    wraps: bool = False


class Cell(NamedTuple):
    """A cell with a style."""

    text: str
    style: Style = ""


class Grid(NamedTuple):
    """A table without lines."""

    columns: Sequence[Column]
    rows: Sequence[Sequence[Cell]]
    title: str = ""


Block = Line | Grid


def width() -> int:
    """Width of the page: of the terminal, or a fixed one into a pipe."""
    if _special():
        from axlewright.cli.rich_page import console

        return console().width
    return shutil.get_terminal_size().columns if sys.stdout.isatty() else PIPE


def print_page(blocks: Sequence[Block]) -> None:
    """Print a page."""
    if _ordinary(blocks):
        sys.stdout.write("".join(f"{line}\n" for block in blocks for line in _lines(block)))
    else:
        from axlewright.cli.rich_page import print_blocks  # the slow library

        print_blocks(blocks)


def _special() -> bool:
    """Whether the terminal or the one who set it up wants something out of the ordinary."""
    if any(name in os.environ for name in _SPECIAL):
        return True
    return sys.stdout.isatty() and (os.name == "nt" or os.environ.get("TERM", "dumb") == "dumb")


def _ordinary(blocks: Iterable[Block]) -> bool:
    """Whether the page can be laid out here."""
    if _special():
        return False
    room = width()
    for block in blocks:
        if isinstance(block, Line):
            if not _PLAIN.fullmatch(block.text):
                return False
        elif _across(_widths(block)) > room or not all(
            _PLAIN.fullmatch(cell.text) for row in block.rows for cell in row
        ):
            return False
    return True


def _paint(text: str, style: Style) -> str:
    if not style or not text or not sys.stdout.isatty():
        return text
    return f"\x1b[{_CODES[style]}m{text}\x1b[0m"


def _lines(block: Block) -> Iterator[str]:
    if isinstance(block, Grid):
        yield from _grid(block)
        return
    room = min(block.width or width(), width()) - block.indent
    for line in textwrap.wrap(block.text, room, break_on_hyphens=False) or [""]:
        yield " " * block.indent + _paint(line, block.style)


def _widths(grid: Grid) -> list[int]:
    """Width of each column; where the page is too narrow, one that may be cut gives way."""
    widths = [
        min(
            max([len(column.name), column.least, *(len(row[n].text) for row in grid.rows)]),
            column.most or sys.maxsize,
        )
        for n, column in enumerate(grid.columns)
    ]
    excess = _across(widths) - width()
    for n, column in enumerate(grid.columns):
        if column.most and excess > 0:
            given = max(min(excess, widths[n] - _LEAST_CUT), 0)
            widths[n] -= given
            excess -= given
    return widths


def _across(widths: list[int]) -> int:
    return sum(widths) + 2 * len(widths) - 2


def _grid(grid: Grid) -> Iterator[str]:
    if grid.title:
        yield _paint(grid.title, "bold")
    widths = _widths(grid)
    heads = [Cell(column.name, "dim") for column in grid.columns]
    for row in (heads, *grid.rows):
        yield "  ".join(
            _paint(_fit(cell.text, room, column.right), cell.style)
            for cell, column, room in zip(row, grid.columns, widths, strict=True)
        ).rstrip()


def _fit(text: str, room: int, right: bool) -> str:
    short = text if len(text) <= room else text[: room - 1] + "…"
    return short.rjust(room) if right else short.ljust(room)
