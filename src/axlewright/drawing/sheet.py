"""A sheet: paper, views to scale, tables, notes and a title block.

The same sheet is drawn on a page, on paper and into a file for a drawing program.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from axlewright.drawing.dimensions import Datum, Dimension, Leader
from axlewright.drawing.dimensions_base import Place
from axlewright.drawing.dimensions_lines import drawn, led, standing
from axlewright.drawing.primitives import Box, Point
from axlewright.drawing.sheet_marks import (
    HEIGHT,
    Mark,
    Stroke,
    Words,
    box_of,
    lines,
    placed,
)
from axlewright.drawing.title_block import BLOCK_HEIGHT, BLOCK_WIDTH, TitleBlock, block_marks

BINDING, EDGE = 20.0, 10.0
"""Margins of the frame: on the left, where a sheet is filed, and all round (ISO 5457, memory)."""
SCALES = (1, 2, 5, 10, 20)
"""1:1 to 1:20."""
ROW = 2.2 * HEIGHT
_INSET = 1.5


@dataclass(frozen=True)
class Paper:
    """A sheet of paper lying on its long side (mm)."""

    name: str
    width: float
    height: float

    @property
    def inner(self) -> Box:
        """The frame: left, bottom, right, top."""
        return (BINDING, EDGE, self.width - EDGE, self.height - EDGE)


PAPERS = {
    p.name: p
    for p in (Paper("A4", 297.0, 210.0), Paper("A3", 420.0, 297.0), Paper("letter", 279.4, 215.9))
}  # fmt: skip


@dataclass(frozen=True)
class View:
    """What is seen from one side: marks and dimensions in real mm, its zero at ``origin`` (mm).

    ``scale`` is the n of 1:n.  ``name`` says from where it is seen; it stands at ``name_at`` (mm
    on paper from the origin).
    """

    key: str
    name: str
    origin: Point
    scale: int
    marks: tuple[Mark, ...]
    dimensions: tuple[Dimension, ...] = ()
    leaders: tuple[Leader, ...] = ()
    datums: tuple[Datum, ...] = ()
    name_at: Point | None = None

    @property
    def place(self) -> Place:
        """Where the view stands on paper."""
        return Place(self.origin, 1.0 / self.scale)

    @property
    def geometry(self) -> tuple[Mark, ...]:
        """The part itself, on paper."""
        return tuple(placed(m, self.origin, 1.0 / self.scale) for m in self.marks)

    @property
    def pointers(self) -> tuple[Mark, ...]:
        """Leaders, datums and the name of the view, on paper."""
        marks = [m for leader in self.leaders for m in led(leader, self.place)]
        marks += [m for datum in self.datums for m in standing(datum, self.place)]
        if self.name_at is not None:
            at = (self.origin[0] + self.name_at[0], self.origin[1] + self.name_at[1])
            marks.append(Words(at, f"{self.name}, 1:{self.scale}", bold=True))
        return tuple(marks)


@dataclass(frozen=True)
class Table:
    """Rows of words from an upper left corner on paper (mm); the first row is the heading."""

    corner: Point
    widths: tuple[float, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def height(self) -> float:
        """How tall it is (mm)."""
        return ROW * len(self.rows)

    @property
    def box(self) -> Box:
        """Where it stands, with a little room around."""
        (x, y), wide = self.corner, sum(self.widths)
        return (x - 2.0, y - self.height - 2.0, x + wide + 2.0, y + 2.0)


@dataclass(frozen=True)
class Notes:
    """Sentences one under the other, the first line's baseline at a point on paper (mm)."""

    at: Point
    sentences: tuple[str, ...]


@dataclass(frozen=True)
class Sheet:
    """One drawing; ``general`` is the tolerance (mm) of sizes that state none, if one is given."""

    paper: Paper
    title: TitleBlock
    description: str
    views: tuple[View, ...]
    tables: tuple[Table, ...] = ()
    notes: tuple[Notes, ...] = ()
    general: float | None = None
    cautions: tuple[str, ...] = field(default=())

    def dimension_marks(self, view: View, dimension: Dimension) -> tuple[Mark, ...]:
        """A dimension of a view, on paper."""
        return drawn(dimension, view.place, self.general)

    def around(self) -> tuple[Mark, ...]:
        """Everything that is no view: frame, title block, tables, notes."""
        left, bottom, right, top = self.paper.inner
        frame = Stroke(
            ((left, bottom), (right, bottom), (right, top), (left, top)), "frame", closed=True
        )
        marks: list[Mark] = [frame, *block_marks(self.title, (right - BLOCK_WIDTH, bottom))]
        for table in self.tables:
            marks.extend(table_marks(table))
        for notes in self.notes:
            marks.extend(lines(notes.at, notes.sentences))
        return tuple(marks)

    def view_box(self, view: View) -> Box:
        """The box of a view with all that is written on it, on paper."""
        return view_box(view, self.general)


def view_box(view: View, general: float | None) -> Box:
    """The box of a view with all that is written on it, on paper."""
    marks = [*view.geometry, *view.pointers]
    for dimension in view.dimensions:
        marks.extend(drawn(dimension, view.place, general))
    return box_of(marks)


def table_marks(table: Table) -> tuple[Mark, ...]:
    """A table on paper."""
    left, top = table.corner
    right, bottom = left + sum(table.widths), top - table.height
    edge = Stroke(((left, bottom), (right, bottom), (right, top), (left, top)), "text", True)
    marks: list[Mark] = [edge]
    for i, row in enumerate(table.rows):
        y = top - (i + 1) * ROW
        if i < len(table.rows) - 1:
            marks.append(Stroke(((left, y), (right, y)), "text"))
        x = left
        for width, word in zip(table.widths, row, strict=False):
            at = (x + _INSET, y + 0.5 * (ROW - HEIGHT))
            if word:
                marks.append(Words(at, word, bold=i == 0))
            x += width
    x = left
    for width in table.widths[:-1]:
        x += width
        marks.append(Stroke(((x, top - ROW), (x, bottom)), "text"))
    return tuple(marks)


def table_low(
    paper: Paper,
    widths: tuple[float, ...],
    rows: tuple[tuple[str, ...], ...],
    on_right: bool = False,
) -> Table:
    """A table in the lower left corner; above the title block where the paper is too narrow.

    There it stands on the left, or on the right if asked.
    """
    left, bottom, right, _ = paper.inner
    wide = sum(widths)
    beside = left + 4.0 + wide <= right - BLOCK_WIDTH
    x = left + 2.0 if beside or not on_right else right - 2.0 - wide
    foot = bottom + 2.0 + (0.0 if beside else BLOCK_HEIGHT)
    return Table((x, foot + ROW * len(rows)), widths, rows)


def notes_high(paper: Paper, sentences: tuple[str, ...]) -> Notes:
    """Notes in the upper left corner."""
    left, _, _, top = paper.inner
    return Notes((left + 3.0, top - 3.0 - HEIGHT), sentences)


def above_block(paper: Paper) -> Box:
    """The room above the title block."""
    left, bottom, right, top = paper.inner
    return (left + 2.0, bottom + BLOCK_HEIGHT + 2.0, right - 2.0, top - 2.0)
