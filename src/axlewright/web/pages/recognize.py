"""Recognize: what to look at to know which axle it is, and what wear to look for and note."""

from __future__ import annotations

import tomllib
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from axlewright.build.edit import edit, raw_values
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views.frame import context
from axlewright.workshop.keys import quoted
from axlewright.workshop.recognising import guide

TITLE = "Recognize"
PATH = "/builds/{build}/recognize"
KEY = "axle.found"
router = APIRouter(include_in_schema=False)


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    clues = guide()
    return render(
        request,
        "recognize.html",
        **shown,
        features=[c for c in clues if c.kind == "feature"],
        wear=[c for c in clues if c.kind == "wear"],
        noted=_noted(shown["revision"].text),
    )


@router.post(PATH + "/found")
def found(
    request: Request,
    build: str,
    name: Annotated[str, Form(max_length=100)],
    base: Annotated[int, Form()],
    there: Annotated[bool, Form()] = True,
) -> Response:
    """Note in the build that a wear was found, or take the note back."""
    if name not in {c.name for c in guide() if c.kind == "wear"}:
        raise HTTPException(422, "there is no such finding")
    store = workshop_of(request).store
    text = store.revision(build, base).text
    names = [n for n in _noted(text) if n != name] + [name] * there
    value = f"[{', '.join(quoted(n) for n in names)}]" if names else ""
    note = f"found: {name}" if there else f"not found after all: {name}"
    store.save(build, edit(text, KEY, value), note, base)
    return RedirectResponse(PATH.format(build=build) + "#wear", 303)


def _noted(text: str) -> list[str]:
    """Names that the build's list holds; none while it does not read as a list."""
    written = raw_values(text).get(KEY, "")
    try:
        names = tomllib.loads(f"v = {written}")["v"] if written.startswith("[") else []
    except tomllib.TOMLDecodeError:
        return []
    return [n for n in names if isinstance(n, str)]
