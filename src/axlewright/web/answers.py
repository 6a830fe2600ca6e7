"""What routes of the programs' side share: parameters, bodies, and how an answer is written."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import HTTPException, Path, Query, UploadFile
from fastapi.responses import Response
from pydantic import BaseModel, ConfigDict

from axlewright.store.builds import LARGEST_ATTACHMENT
from axlewright.store.rows import Attachment
from axlewright.web.security import PICTURE_POLICY
from axlewright.workshop import attaching, messages
from axlewright.workshop.attaching import SHOWN
from axlewright.workshop.shop import Workshop

ID = r"^[A-Za-z0-9_-]{1,64}$"
LARGEST_NUMBER = 2**31 - 1

BuildId = Annotated[str, Path(pattern=ID, description="Id of a build.")]
Which = Annotated[
    int | None,
    Query(ge=1, le=LARGEST_NUMBER, description="Number of a revision; the latest if left out."),
]


class Body(BaseModel):
    """What a request brings; unknown keys are refused."""

    model_config = ConfigDict(extra="forbid")


def said(kind: str, result: Any, status: int = 200) -> Response:
    """A good answer."""
    return Response(messages.envelope(kind, result), status, media_type="application/json")


def text_of(workshop: Workshop, build: str, revision: int | None) -> str:
    """The text of a revision; of the latest if none is named."""
    store = workshop.store
    return (store.latest(build) if revision is None else store.revision(build, revision)).text


def download(data: bytes, kind: str, name: str) -> Response:
    """A file to keep."""
    disposition = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(data, media_type=kind, headers=disposition)


def kept_file(workshop: Workshop, build: str, file: str, shown: bool) -> Response:
    """A file that was kept with a build; ``shown`` lets a browser show it if it is a picture."""
    found, data = workshop.store.attachment(build, file)
    shown = shown and found.kind in SHOWN
    headers = {
        "Content-Disposition": attaching.disposition(found.name, shown),
        "Cache-Control": "private, no-cache",
    }
    if shown:
        headers["Content-Security-Policy"] = PICTURE_POLICY
    return Response(data, media_type=found.kind, headers=headers)


def keep_file(workshop: Workshop, build: str, file: UploadFile) -> Attachment:
    """Keep a file with a build; raises :class:`FileRefusedError` in words."""
    data = file.file.read(LARGEST_ATTACHMENT + 1)
    name = attaching.plain_name(file.filename or "")
    if len(data) > LARGEST_ATTACHMENT:
        raise HTTPException(413, attaching.TOO_LARGE)
    return workshop.store.attach(build, name, data, attaching.kind_of(name, data))
