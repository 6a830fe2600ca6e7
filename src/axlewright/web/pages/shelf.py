"""The shelf: every build, a way to start one, and the ones that were put away."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, File, Form, HTTPException, Request, UploadFile
from fastapi.responses import RedirectResponse, Response

from axlewright.build.edit import edit
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views.form import entries
from axlewright.web.views.frame import top_of
from axlewright.workshop.bench import LARGEST
from axlewright.workshop.template import template

TITLE = "Shelf"
PATH = "/"
router = APIRouter(include_in_schema=False)

_BARE = 'format = 1\nname = ""\n\n[gearbox]\nkind = "manual"\n\n[axle]\nring_gear = "8.5"\n'


@router.get(PATH)
def page(request: Request) -> Response:
    """The whole page."""
    store = workshop_of(request).store
    return render(
        request,
        "shelf.html",
        here=TITLE,
        builds=store.builds(),
        removed=store.removed(),
        kinds=entries()["gearbox.kind"].kinds,
        rings=entries()["axle.ring_gear"].named_rows,
    )


@router.get("/builds/{build}/line")
def line(request: Request, build: str) -> Response:
    """The verdict of one build in a line, for its place on the shelf."""
    workshop = workshop_of(request)
    return render(
        request, "shelf_line.html", top=top_of(workshop, workshop.store.latest(build).text)
    )


@router.post("/builds/new")
def create(
    request: Request,
    name: Annotated[str, Form(max_length=120)] = "",
    start: Annotated[Literal["example", "bare"], Form()] = "example",
    kind: Annotated[str, Form(max_length=40)] = "manual",
    ring: Annotated[str, Form(max_length=40)] = "8.5",
) -> Response:
    """Start a build from the commented template, or with only what cannot be assumed."""
    text = template("short") if start == "example" else _BARE
    text = edit(text, "name", name.strip() or "Unnamed build")
    if start == "bare":
        text = edit(edit(text, "gearbox.kind", kind), "axle.ring_gear", ring)
    made = workshop_of(request).store.create(text, "started from the template")
    return RedirectResponse(f"/builds/{made.id}/car", 303)


@router.post("/builds/import")
def bring_in(request: Request, file: Annotated[UploadFile, File()]) -> Response:
    """Take in a build file as it is; a wrong one is kept too, and says what is wrong."""
    data = file.file.read(LARGEST + 1)
    if len(data) > LARGEST:
        raise HTTPException(413, "this file is far too large for a build file")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise HTTPException(422, "this file is no text in UTF-8; save it as plain text") from None
    made = workshop_of(request).store.create(text, "imported")
    return RedirectResponse(f"/builds/{made.id}/car", 303)


@router.post("/builds/{build}/remove")
def remove(request: Request, build: str) -> Response:
    """Put a build away; it can be taken back."""
    workshop_of(request).store.remove(build)
    return RedirectResponse("/", 303)


@router.post("/builds/{build}/take-back")
def take_back(request: Request, build: str) -> Response:
    """Take a build back that was put away."""
    workshop_of(request).store.put_back(build)
    return RedirectResponse("/", 303)
