"""Papers: the check paper, the limit card, the build file itself, and every revision of it."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from axlewright.build.problems import BuildError
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views.frame import context
from axlewright.workshop.shop import file_name

TITLE = "Papers"
PATH = "/builds/{build}/papers"
router = APIRouter(include_in_schema=False)


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    return render(request, "papers.html", **shown, history=workshop.store.history(build))


@router.get(PATH + "/{kind}.pdf")
def paper(request: Request, build: str, kind: Literal["check", "card"]) -> Response:
    """A paper of the latest revision, made when it is asked for."""
    workshop = workshop_of(request)
    name = workshop.store.build(build).name
    try:
        pdf = workshop.paper(workshop.store.latest(build).text, name, kind)
    except BuildError as e:
        raise HTTPException(409, f"no paper yet: {e.problems[0].message}") from None
    return _file(pdf, "application/pdf", file_name(name, f"-{kind}.pdf"))


@router.get(PATH + "/build.toml")
def text(request: Request, build: str, revision: int | None = None) -> Response:
    """The build file, byte for byte."""
    store = workshop_of(request).store
    kept = store.latest(build) if revision is None else store.revision(build, revision)
    name = file_name(store.build(build).name, f"-revision-{kept.number}.toml")
    return _file(kept.text.encode(), "application/toml; charset=utf-8", name)


@router.post(PATH + "/restore")
def restore(request: Request, build: str, number: Annotated[int, Form()]) -> Response:
    """Go back to an earlier revision, as a new revision: nothing is lost by it."""
    workshop_of(request).store.restore(build, number)
    return RedirectResponse(PATH.format(build=build), 303)


def _file(data: bytes, kind: str, name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(data, media_type=kind, headers=headers)
