"""Drawings as pages of one PDF, each on its own paper at full size: print it at 100 %."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from axlewright.drawing.fit_sheets import FitSheet
from axlewright.drawing.sheet_svg import sheet_drawing
from axlewright.drawing.svg import to_svg
from axlewright.papers.press import date_parts, write_pdf

TEMPLATE = "drawings.typ"


def write_drawing_pages(
    sheets: Sequence[FitSheet], build: str, revision: str, path: Path, made_on: str
) -> Path:
    """Write the sheets as a PDF, one a page."""
    return write_pdf(TEMPLATE, drawing_content(sheets, build, revision, made_on), path, made_on)


def drawing_content(
    sheets: Sequence[FitSheet], build: str, revision: str, made_on: str
) -> dict[str, Any]:
    """Everything that the template sets."""
    return {
        "document_title": f"Drawings: {build}",
        "keywords": [revision],
        "date": date_parts(made_on),
        "sheets": [_page(s) for s in sheets],
    }


def _page(made: FitSheet) -> dict[str, Any]:
    """One page: the picture, and in words what it shows and what it lacks."""
    sheet = made.sheet
    said = " ".join((sheet.description, *sheet.cautions))
    return {
        "width": sheet.paper.width,
        "height": sheet.paper.height,
        "svg": to_svg(sheet_drawing(sheet), made.key),
        "alt": f"{made.title}. {said}",
    }
