"""The same page through the terminal library, for whatever is out of the ordinary."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from axlewright.cli import page


def console() -> Console:
    """A console that prints plainly into a pipe and never narrower than the table."""
    out = Console(highlight=False)
    return out if out.is_terminal else Console(highlight=False, width=page.PIPE)


def print_blocks(blocks: Iterable[page.Block]) -> None:
    """Print every line and table of a page."""
    out = console()
    for block in blocks:
        if isinstance(block, page.Grid):
            out.print(_table(block))
        else:
            text = Padding(Text(block.text, style=block.style), (0, 0, 0, block.indent))
            out.print(text, width=min(block.width or out.width, out.width))


def _table(grid: page.Grid) -> Table:
    table = Table(
        box=None,
        pad_edge=False,
        header_style="dim",
        title=grid.title or None,
        title_justify="left",
        title_style="bold",
    )
    for column in grid.columns:
        table.add_column(
            column.name,
            justify="right" if column.right else "left",
            no_wrap=not column.wraps,
            min_width=column.least or None,
            max_width=column.most or None,
        )
    for row in grid.rows:
        table.add_row(*(Text(cell.text, style=cell.style) for cell in row))
    return table
