"""Files of the package that a browser loads: read once at the start, served from memory.

A request names an entry of a table, never a path: nothing it says reaches the file system.  What a
page waits for before it is painted is packed beforehand and answered without a thread of its own.
"""

from __future__ import annotations

import gzip
import hashlib
import mimetypes
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.abc import Traversable
from importlib.resources import files

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

router = APIRouter(include_in_schema=False)

_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".woff2": "font/woff2",
    ".txt": "text/plain; charset=utf-8",
}
_YEAR = "public, max-age=31536000, immutable"


@dataclass(frozen=True)
class Kept:
    """A file in memory."""

    data: bytes
    kind: str
    mark: str
    packed: bytes | None
    """As gzip, where that is shorter."""


@cache
def kept() -> dict[str, Kept]:
    """Every file by its address without the leading stroke: ``static/…`` and ``fonts/…``."""
    found = dict(_walk(files("axlewright.web") / "static", "static"))
    fonts = _walk(files("axlewright.drawing.fonts"), "fonts")
    return found | {name: file for name, file in fonts if name.endswith(".woff2")}


def _walk(folder: Traversable, name: str) -> Iterator[tuple[str, Kept]]:
    for entry in sorted(folder.iterdir(), key=lambda e: e.name):
        here = f"{name}/{entry.name}"
        if entry.is_dir():
            yield from _walk(entry, here)
        elif entry.is_file():
            data = entry.read_bytes()
            ending = "." + entry.name.rpartition(".")[2]
            kind = _TYPES.get(ending) or mimetypes.guess_type(entry.name)[0]
            mark = hashlib.sha256(data).hexdigest()[:12]
            packed = gzip.compress(data, 9, mtime=0)
            worth = packed if len(packed) < 0.9 * len(data) else None
            yield here, Kept(data, kind or "application/octet-stream", mark, worth)


def address(name: str) -> str:
    """Address of a file in static/ that changes with its contents, so it may be kept for long."""
    return f"/static/{name}?v={kept()[f'static/{name}'].mark}"


@router.get("/static/{name:path}")
async def static(request: Request, name: str, v: str = "") -> Response:
    """A style, a script or a picture of ours."""
    return _answer(request, f"static/{name}", v)


@router.get("/fonts/{name}")
async def font(request: Request, name: str, v: str = "") -> Response:
    """The font of pages and papers."""
    return _answer(request, f"fonts/{name}", v)


def _answer(request: Request, name: str, version: str) -> Response:
    file = kept().get(name)
    if file is None:
        raise HTTPException(404, "there is no such file")
    tag = f'"{file.mark}"'
    headers = {"ETag": tag, "Cache-Control": _YEAR if version == file.mark else "no-cache"}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    data = file.data
    if file.packed is not None and "gzip" in request.headers.get("accept-encoding", ""):
        data = file.packed
        headers |= {"Content-Encoding": "gzip", "Vary": "Accept-Encoding"}
    return Response(data, media_type=file.kind, headers=headers)
