"""Papers: check paper, limit card, worksheet, orders, drawings, build file, files, revisions."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, File, Form, HTTPException, Path, Request, UploadFile
from fastapi.responses import RedirectResponse, Response

from axlewright.build.problems import BuildError
from axlewright.store.builds import MOST_ATTACHMENTS
from axlewright.store.database import NotFoundError, StoreError
from axlewright.web.answers import ID, download, keep_file, kept_file
from axlewright.web.needs import workshop_of
from axlewright.web.pages import papers_fit
from axlewright.web.rendering import render
from axlewright.web.views.frame import context
from axlewright.workshop.attaching import ENDINGS, SHOWN
from axlewright.workshop.shop import file_name

TITLE = "Papers"
PATH = "/builds/{build}/papers"
router = APIRouter(include_in_schema=False)
router.include_router(papers_fit.router)

FileId = Annotated[str, Path(pattern=ID)]


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page."""
    return _page(request, build)


def _page(request: Request, build: str, refused: str = "", status: int = 200) -> Response:
    workshop = workshop_of(request)
    kept: dict[str, Any] = {
        "history": workshop.store.history(build),
        "files": workshop.store.attachments(build),
        "shown": SHOWN,
        "endings": ENDINGS,
        "most": MOST_ATTACHMENTS,
        "refused": refused,
        "drawings": papers_fit.TITLES,
    }
    answer = render(request, "papers.html", **context(workshop, build, TITLE), **kept)
    answer.status_code = status
    return answer


@router.get(PATH + "/{kind}.pdf")
def paper(request: Request, build: str, kind: Literal["check", "card"]) -> Response:
    """A paper of the latest revision, made when it is asked for."""
    workshop = workshop_of(request)
    name = workshop.store.build(build).name
    try:
        pdf = workshop.paper(workshop.store.latest(build).text, name, kind)
    except BuildError as e:
        raise HTTPException(409, f"no paper yet: {e.problems[0].message}") from None
    return download(pdf, "application/pdf", file_name(name, f"-{kind}.pdf"))


@router.get(PATH + "/build.toml")
def text(request: Request, build: str, revision: int | None = None) -> Response:
    """The build file, byte for byte."""
    store = workshop_of(request).store
    kept = store.latest(build) if revision is None else store.revision(build, revision)
    name = file_name(store.build(build).name, f"-revision-{kept.number}.toml")
    return download(kept.text.encode(), "application/toml; charset=utf-8", name)


@router.post(PATH + "/restore")
def restore(request: Request, build: str, number: Annotated[int, Form()]) -> Response:
    """Go back to an earlier revision, as a new revision: nothing is lost by it."""
    workshop_of(request).store.restore(build, number)
    return RedirectResponse(PATH.format(build=build), 303)


@router.post(PATH + "/files")
def keep(request: Request, build: str, file: Annotated[UploadFile, File()]) -> Response:
    """Keep a file with the build; one that is not taken is told beside the field."""
    try:
        keep_file(workshop_of(request), build, file)
    except NotFoundError:
        raise
    except StoreError as e:
        return _page(request, build, str(e), 422)
    return RedirectResponse(PATH.format(build=build) + "#files", 303)


@router.get(PATH + "/files/{file}")
def kept(request: Request, build: str, file: FileId, show: bool = False) -> Response:
    """A file that is kept with the build, to save; a picture also to look at."""
    return kept_file(workshop_of(request), build, file, show)


@router.post(PATH + "/files/{file}/remove")
def remove(request: Request, build: str, file: FileId) -> Response:
    """Remove a file for good."""
    workshop_of(request).store.detach(build, file)
    return RedirectResponse(PATH.format(build=build) + "#files", 303)
