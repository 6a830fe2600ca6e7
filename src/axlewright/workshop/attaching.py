"""What may be kept with a build: photos, dyno sheets, notes; told by what is in the file.

The ending of a name says what a file claims to be, its first bytes whether it is that.  Only plain
pictures are ever shown by a browser; everything else is handed out as a file to save.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from urllib.parse import quote

from axlewright.store.builds import LARGEST_ATTACHMENT
from axlewright.store.database import StoreError

TOO_LARGE = f"a file may have {LARGEST_ATTACHMENT // 1_000_000} MB, no more"
_LONGEST_NAME = 120


@dataclass(frozen=True)
class FileKind:
    """A kind of file: its media type, how its first bytes look, whether it is shown in a page."""

    media: str
    heads: tuple[tuple[int, bytes], ...]
    shown: bool = False


_ZIP = ((0, b"PK\x03\x04"),)
KINDS: dict[str, FileKind] = {
    "jpg": FileKind("image/jpeg", ((0, b"\xff\xd8\xff"),), True),
    "png": FileKind("image/png", ((0, b"\x89PNG\r\n\x1a\n"),), True),
    "webp": FileKind("image/webp", ((8, b"WEBP"),), True),
    "gif": FileKind("image/gif", ((0, b"GIF87a"), (0, b"GIF89a")), True),
    "heic": FileKind("image/heic", ((4, b"ftyp"),)),
    "pdf": FileKind("application/pdf", ((0, b"%PDF-"),)),
    "xlsx": FileKind("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", _ZIP),
    "ods": FileKind("application/vnd.oasis.opendocument.spreadsheet", _ZIP),
    "csv": FileKind("text/csv", ()),
    "tsv": FileKind("text/tab-separated-values", ()),
    "txt": FileKind("text/plain", ()),
    "log": FileKind("text/plain", ()),
    "toml": FileKind("application/toml", ()),
}
"""Kinds by the ending of the name; one without a head is text, which holds no zero byte."""
_SAME = {"jpeg": "jpg", "jpe": "jpg", "heif": "heic", "text": "txt"}
ENDINGS = tuple(sorted((*KINDS, *_SAME)))
SHOWN = frozenset(k.media for k in KINDS.values() if k.shown)
"""Media types that a browser may show by itself."""


class FileRefusedError(StoreError):
    """A file that is not kept; says why."""


def kind_of(name: str, data: bytes) -> str:
    """The media type of a file; raises :class:`FileRefusedError` for what is not taken."""
    ending = name.rpartition(".")[2].lower() if "." in name else ""
    kind = KINDS.get(_SAME.get(ending, ending))
    if kind is None:
        said = f"files ending in .{ending[:12]} are" if ending else "a file without an ending is"
        raise FileRefusedError(f"{said} not taken; taken are {', '.join(ENDINGS)}")
    if not data:
        raise FileRefusedError("this file is empty")
    fits = (
        any(data[at : at + len(head)] == head for at, head in kind.heads)
        if kind.heads
        else b"\0" not in data
    )
    if not fits:
        raise FileRefusedError(f"this file ends in .{ending} but holds something else")
    return kind.media


def plain_name(name: str) -> str:
    """A file's name without folders or signs that mean something to a machine."""
    last = name.replace("\\", "/").rpartition("/")[2]
    kept = "".join(c for c in last if unicodedata.category(c)[0] != "C" and c not in '<>:"|?*')
    stem, dot, ending = kept.strip().rpartition(".")
    if not dot:
        return kept.strip()[:_LONGEST_NAME] or "file"
    return f"{stem.strip(' .')[:_LONGEST_NAME] or 'file'}.{ending[:12]}"


def disposition(name: str, shown: bool) -> str:
    """How a file is handed out: its name in plain letters and, for whoever can, as it is."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    plain = "".join(c for c in plain if c.isalnum() or c in " ._-()").strip(" .") or "file"
    how = "inline" if shown else "attachment"
    return f"{how}; filename=\"{plain}\"; filename*=UTF-8''{quote(name, safe='')}"
