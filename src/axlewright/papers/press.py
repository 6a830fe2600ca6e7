"""Sets a paper: one template, one JSON, bundled fonts only, the same bytes for the same report.

Papers are PDF/A-2a, which keeps for good, and PDF/UA-1, which can be read aloud.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Mapping
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

_LONG = re.compile(r"[\w\-./\\]{18,}")
_PIECE = re.compile(r"[^._/\\-]{1,12}[._/\\-]*|[._/\\-]+")
_AS_IS = frozenset({"svg", "alt", "document_title", "keywords", "short_name"})
"""Keys whose text is no prose on the page."""


def breakable(content: Any, key: str = "") -> Any:
    """The content with places in its long words where a line may break, so none leaves its cell."""
    if isinstance(content, dict):
        return {k: breakable(v, k) for k, v in content.items()}
    if isinstance(content, list):
        return [breakable(v, key) for v in content]
    if not isinstance(content, str) or key in _AS_IS:
        return content
    return _LONG.sub(lambda m: "\u200b".join(_PIECE.findall(m[0])), content)


def write_pdf(template: str, content: Mapping[str, Any], path: Path, made_on: str) -> Path:
    """Set ``content`` by a template of this package and write it; ``made_on`` is an ISO date."""
    day = int(_day(made_on).timestamp())
    pdf = _set(template, content, format="pdf", pdf_standards=["a-2a", "ua-1"], timestamp=day)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(pdf)
    return path


def page_pictures(template: str, content: Mapping[str, Any], ppi: float) -> list[bytes]:
    """The pages of a paper as PNG pictures with ``ppi`` points an inch."""
    pages = _set(template, content, format="png", ppi=ppi)
    return pages if isinstance(pages, list) else [pages]


def _set(template: str, content: Mapping[str, Any], **how: Any) -> Any:
    import typst  # noqa: PLC0415  (heavy, and only papers need it)

    with (
        as_file(files("axlewright.papers") / "templates") as templates,
        as_file(files("axlewright.drawing.fonts")) as fonts,
    ):
        return typst.compile(
            templates / template,
            root=templates,
            font_paths=typst.Fonts(
                include_system_fonts=False, include_embedded_fonts=False, font_paths=[fonts]
            ),
            sys_inputs={"content": json.dumps(breakable(dict(content)), ensure_ascii=False)},
            **how,
        )


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
