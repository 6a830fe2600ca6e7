"""Sets a paper: one template, one JSON, bundled fonts only, the same bytes for the same report.

Papers are PDF/A-2a, which keeps for good, and PDF/UA-1, which can be read aloud.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any


def write_pdf(template: str, content: Mapping[str, Any], path: Path, made_on: str) -> Path:
    """Set ``content`` by a template of this package and write it; ``made_on`` is an ISO date."""
    import typst  # noqa: PLC0415  (heavy, and only papers need it)

    day = _day(made_on)
    with (
        as_file(files("axlewright.papers") / "templates") as templates,
        as_file(files("axlewright.drawing.fonts")) as fonts,
    ):
        pdf = typst.compile(
            templates / template,
            root=templates,
            font_paths=typst.Fonts(
                include_system_fonts=False, include_embedded_fonts=False, font_paths=[fonts]
            ),
            format="pdf",
            pdf_standards=["a-2a", "ua-1"],
            timestamp=int(day.timestamp()),
            sys_inputs={"content": json.dumps(dict(content), ensure_ascii=False)},
        )
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(pdf)
    return path


def _day(made_on: str) -> datetime.datetime:
    try:
        day = datetime.date.fromisoformat(made_on)
    except ValueError:
        raise ValueError(f"{made_on!r} is no date; write it like 2025-03-31") from None
    return datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC)


def date_parts(made_on: str) -> list[int]:
    """Year, month, day, for the date of the document."""
    day = _day(made_on)
    return [day.year, day.month, day.day]
