"""Papers of fit for every face: the worksheet, the order sheet, the drawings with their files."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from axlewright import __version__
from axlewright.build.edit import raw_values
from axlewright.build.resolve import Resolved
from axlewright.drawing.dxf import to_dxf
from axlewright.drawing.fit_sheets import MAKERS, FitSheet, Key, fit_sheet, fit_sheets, waits_for
from axlewright.drawing.sheet_svg import sheet_drawing
from axlewright.drawing.svg import to_svg
from axlewright.drawing.title_block import Heading, Projection
from axlewright.papers.drawing_pages import write_drawing_pages
from axlewright.papers.fit_paper import PaperSize, TitleOf
from axlewright.papers.order_sheet import write_order_sheet
from axlewright.papers.worksheet_paper import write_worksheet
from axlewright.quantities.estimate import Estimate
from axlewright.quantities.units import UnitError, read
from axlewright.quantities.working import Node
from axlewright.studies.fit_parts import PartsReport, parts_report
from axlewright.workshop import angles, fits
from axlewright.workshop.fits import FitAsk

SheetPaper = Literal["letter", "A4", "A3"]
PDF, DXF, SVG = "application/pdf", "image/vnd.dxf", "image/svg+xml"
_MM = 1000.0


@dataclass(frozen=True)
class DrawingAsk:
    """How drawings are wanted; ``general`` is the tolerance of sizes that state none, mm.

    ``fit`` is what is asked beside the build, such as what is there already.
    """

    paper: SheetPaper = "A3"
    projection: Projection = "third"
    general: float | None = None
    drawn: str = ""
    fit: FitAsk | None = None


def read_general(text: str) -> float | None:
    """A general tolerance as it is written in the shop; raises ``ValueError`` in words."""
    typed = text.strip().removeprefix("±").strip()
    if not typed:
        return None
    try:
        value = read(typed, "length").value
    except UnitError as e:
        raise ValueError(f"general tolerance: {e}") from None
    if not 0.0 < value < 1.0:
        raise ValueError("general tolerance: write it like 1/32 in")
    return value * _MM


def drawings(build: Resolved, ask: DrawingAsk, made_on: str) -> tuple[FitSheet, ...]:
    """Every drawing of a build."""
    return fit_sheets(_parts(build, ask.fit), _heading(build, ask, made_on))


def drawing(build: Resolved, key: Key, ask: DrawingAsk, made_on: str) -> FitSheet:
    """One drawing of a build."""
    return fit_sheet(_parts(build, ask.fit), key, _heading(build, ask, made_on))


def waiting(build: Resolved) -> dict[Key, tuple[str, ...]]:
    """What each drawing still lacks before a file may be cut from."""
    parts = _parts(build)
    return {key: waits_for(parts, key) for key in MAKERS}


def _parts(build: Resolved, ask: FitAsk | None = None) -> PartsReport:
    return parts_report(build, fits.fit(build, ask), angles.angles(build))


def _heading(build: Resolved, ask: DrawingAsk, made_on: str) -> Heading:
    return Heading(
        build=build.machine.name,
        revision=build.source.hash,
        date=made_on,
        paper=ask.paper,
        projection=ask.projection,
        general=ask.general,
        drawn=ask.drawn,
    )


def write_drawings(
    build: Resolved, ask: DrawingAsk, folder: Path, made_on: str
) -> tuple[tuple[Path, ...], tuple[FitSheet, ...]]:
    """One PDF of all drawings, and a file to cut from of each that is known well enough.

    Gives what was written, and the sheets that still wait for something.
    """
    sheets = drawings(build, ask, made_on)
    folder.mkdir(parents=True, exist_ok=True)
    written = [
        write_drawing_pages(
            sheets, build.machine.name, build.source.hash, folder / "drawings.pdf", made_on
        )
    ]
    for made in sheets:
        path = folder / f"{made.key}.dxf"
        if not made.waits:
            path.write_bytes(to_dxf(made.sheet))
            written.append(path)
    return tuple(written), tuple(s for s in sheets if s.waits)


def drawing_pdf(build: Resolved, ask: DrawingAsk, made_on: str) -> bytes:
    """All drawings as one PDF."""
    sheets = drawings(build, ask, made_on)
    return _bytes(
        lambda path: write_drawing_pages(
            sheets, build.machine.name, build.source.hash, path, made_on
        )
    )


def drawing_svg(made: FitSheet) -> str:
    """A drawing as a picture."""
    return to_svg(sheet_drawing(made.sheet), made.key)


def drawing_dxf(made: FitSheet) -> bytes:
    """A drawing as a file to cut from; raises ``ValueError`` in words while it waits."""
    if made.waits:
        raise ValueError(f"no file to cut from yet: missing are {', '.join(made.waits)}")
    return to_dxf(made.sheet)


def write_orders(
    build: Resolved,
    path: Path,
    made_on: str,
    paper: PaperSize = "letter",
    ask: FitAsk | None = None,
) -> Path:
    """The order sheet of a build."""
    return write_order_sheet(
        fits.fit(build, ask),
        angles.angles(build),
        sources(build),
        title_of(build, made_on, paper),
        path,
    )


def order_pdf(
    build: Resolved, made_on: str, paper: PaperSize = "letter", ask: FitAsk | None = None
) -> bytes:
    """The same as bytes."""
    return _bytes(lambda path: write_orders(build, path, made_on, paper, ask))


def write_worksheet_of(
    build: Resolved | None,
    path: Path,
    made_on: str,
    paper: PaperSize = "letter",
    only_missing: bool = False,
) -> Path:
    """The worksheet with the readings of a build, or an empty one."""
    if build is None:
        title = TitleOf("", "", "", _program(), made_on, paper)
        return write_worksheet(title, path, {})
    missing = build.fitting.missing if only_missing else None
    readings = raw_values(build.source.text)
    return write_worksheet(title_of(build, made_on, paper), path, readings, missing)


def worksheet_pdf(
    build: Resolved | None, made_on: str, paper: PaperSize = "letter", only_missing: bool = False
) -> bytes:
    """The same as bytes."""
    return _bytes(lambda path: write_worksheet_of(build, path, made_on, paper, only_missing))


def title_of(build: Resolved, made_on: str, paper: PaperSize) -> TitleOf:
    """Whose paper it is."""
    return TitleOf(
        build.machine.name,
        Path(build.source.file).name,
        build.source.hash,
        _program(),
        made_on,
        paper,
    )


def _program() -> str:
    return f"axlewright {__version__}"


def sources(build: Resolved) -> tuple[str, ...]:
    """Where formulas and values come from that the order sheet rests on."""
    found = set(_sources((*fits.nodes(build).values(), *angles.nodes(build).values())))
    return tuple(sorted(found, key=str.casefold))


def _sources(nodes: Iterable[Node]) -> Iterator[str]:
    """Every source in some workings; a step that several share is looked at once."""
    left, seen = list(nodes), set[int]()
    while left:
        node = left.pop()
        if id(node) in seen:
            continue
        seen.add(id(node))
        if node.formula is not None and node.formula.source:
            yield node.formula.source
        if isinstance(node.estimate, Estimate) and node.estimate.source:
            yield node.estimate.source
        left += [a for a in node.arguments.values() if isinstance(a, Node)]


def _bytes(write: Callable[[Path], Path]) -> bytes:
    """What a writer of papers writes."""
    with tempfile.TemporaryDirectory() as folder:
        return write(Path(folder, "paper.pdf")).read_bytes()
