"""The programs' side: files that are kept with a build."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, File, Path, Query, UploadFile
from fastapi.responses import Response

from axlewright.store.rows import Attachment
from axlewright.web.answers import ID, BuildId, keep_file, kept_file, said
from axlewright.web.needs import Bench
from axlewright.web.shapes import Removed, told

router = APIRouter()

FileId = Annotated[str, Path(pattern=ID, description="Id of a file.")]
ANY: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "The file, byte for byte",
        "content": {"*/*": {"schema": {"type": "string", "format": "binary"}}},
    }
}


@router.get("/builds/{build}/attachments", responses=told("attachments", tuple[Attachment, ...]))
def attachments(workshop: Bench, build: BuildId) -> Response:
    """The files that are kept with a build, the oldest first."""
    return said("attachments", workshop.store.attachments(build))


@router.post(
    "/builds/{build}/attachments", status_code=201, responses=told("attachment", Attachment, 201)
)
def attach(
    workshop: Bench,
    build: BuildId,
    file: Annotated[UploadFile, File(description="Photo, PDF, sheet or text; 20 MB at most.")],
) -> Response:
    """Keep a file with a build. What it is, is told by its ending and checked by its contents."""
    return said("attachment", keep_file(workshop, build, file), 201)


@router.get("/builds/{build}/attachments/{file}", response_class=Response, responses=ANY)
def attachment(
    workshop: Bench,
    build: BuildId,
    file: FileId,
    show: Annotated[bool, Query(description="Let a browser show it if it is a picture.")] = False,
) -> Response:
    """One file, to save."""
    return kept_file(workshop, build, file, show)


@router.delete("/builds/{build}/attachments/{file}", responses=told("removed", Removed))
def detach(workshop: Bench, build: BuildId, file: FileId) -> Response:
    """Remove a file for good."""
    workshop.store.detach(build, file)
    return said("removed", Removed(file))
