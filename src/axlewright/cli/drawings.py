"""The commands ``axlewright worksheet`` and ``axlewright drawings``."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from axlewright.cli import faults


class Page(StrEnum):
    """Paper of the worksheet and the order sheet."""

    LETTER = "letter"
    A4 = "A4"


class SheetPage(StrEnum):
    """Paper of the drawings."""

    A3 = "A3"
    A4 = "A4"
    LETTER = "letter"


class Way(StrEnum):
    """How views stand beside each other."""

    THIRD = "third"
    FIRST = "first"


Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
PageOption = Annotated[Page, typer.Option("--paper", help="Paper: letter or A4.")]


def worksheet(
    build: Annotated[
        Path | None,
        typer.Argument(
            help="Build file (TOML), whose readings stand on their lines; empty when left out.",
            metavar="[BUILD]",
        ),
    ] = None,
    out: Annotated[Path | None, typer.Option("-o", "--out", help="PDF to write.")] = None,
    missing: Annotated[bool, typer.Option("--missing", help="Only what is still missing.")] = False,
    paper: PageOption = Page.LETTER,
    as_json: Json = False,
) -> None:
    """Write the measuring worksheet as a PDF: sketches, and a line for each reading."""
    from axlewright.workshop import bench, fit_papers, messages

    resolved = None if build is None else bench.open_build(build)
    path = out or (Path("worksheet.pdf") if build is None else build.with_suffix(".worksheet.pdf"))
    faults.writable(path)
    today = date.today().isoformat()
    written = fit_papers.write_worksheet_of(resolved, path, today, paper.value, missing)
    typer.echo(
        messages.envelope("worksheet", {"path": str(written)}) if as_json else f"Wrote {written}"
    )


def drawings(
    build: Annotated[Path, typer.Argument(help="Build file (TOML).", metavar="BUILD")],
    out: Annotated[
        Path | None, typer.Option("-o", "--out", help="Folder to write into.", metavar="DIR")
    ] = None,
    paper: Annotated[
        SheetPage, typer.Option("--paper", help="Paper of the drawings: A3, A4 or letter.")
    ] = SheetPage.A3,
    projection: Annotated[
        Way, typer.Option("--projection", help="Third or first angle.")
    ] = Way.THIRD,
    general: Annotated[
        str,
        typer.Option(
            "--general",
            help="Tolerance agreed with the shop for sizes that state none, like '1/32 in'.",
        ),
    ] = "",
    drawn: Annotated[str, typer.Option("--drawn", help="Who drew it.")] = "",
    have: Annotated[
        list[str] | None,
        typer.Option("--have", help="What is there or was looked at, like 'brake size,brakes'."),
    ] = None,
    as_json: Json = False,
) -> None:
    """Write the order sheet, the drawings as a PDF, and a DXF file of each that is known.

    Exit 1 if a drawing still waits for something.
    """
    from axlewright.workshop import bench, fit_papers, fits, messages

    resolved = bench.open_build(build)
    folder = out or build.with_suffix("")
    faults.writable(folder / "drawings.pdf")
    try:
        there = fits.read_fit_ask(have or ())
        ask = fit_papers.DrawingAsk(
            paper.value, projection.value, fit_papers.read_general(general), drawn, there
        )
    except ValueError as e:
        raise faults.InputError(str(e)) from None
    today = date.today().isoformat()
    orders: Page = Page.LETTER if paper is SheetPage.LETTER else Page.A4
    sheet = fit_papers.write_orders(
        resolved, folder / "order-sheet.pdf", today, orders.value, there
    )
    written, waiting = fit_papers.write_drawings(resolved, ask, folder, today)
    if as_json:
        found = {
            "written": [str(p) for p in (sheet, *written)],
            "waiting": {w.key: list(w.waits) for w in waiting},
        }
        typer.echo(messages.envelope("drawings", found))
    else:
        for path in (sheet, *written):
            typer.echo(f"Wrote {path}")
        for w in waiting:
            typer.echo(f"No {w.key}.dxf: missing are {', '.join(w.waits)}")
            if (folder / f"{w.key}.dxf").exists():
                typer.echo(f"  An older {w.key}.dxf lies there: do not cut from it.")
    raise typer.Exit(messages.SHORT if waiting else messages.HOLDS)
