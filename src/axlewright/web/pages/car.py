"""Car: everything that the builder says, as fields, with what is assumed where nothing is said."""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from axlewright.build.edit import edit, field_values
from axlewright.store.builds import Saved
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import environment, render
from axlewright.web.views.form import Field, Mark, entries, groups, marks
from axlewright.web.views.frame import Top, context, top_of
from axlewright.workshop.shop import Workshop

TITLE = "Car"
PATH = "/builds/{build}/car"
router = APIRouter(include_in_schema=False)


@router.get("/builds/{build}")
def build_page(build: str) -> Response:
    """A build opens at its inputs."""
    return RedirectResponse(PATH.format(build=build), 303)


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    text, top = shown["revision"].text, shown["top"]
    beside = _beside(workshop, text, top)
    marked = [p for p, m in zip(entries(), beside, strict=True) if m.error or m.caution or m.rank]
    return render(
        request,
        "car.html",
        **shown,
        groups=groups(field_values(text), marked),
        marks={m.slug: m for m in beside},
        printed=_printed_field,
    )


def _beside(workshop: Workshop, text: str, top: Top) -> list[Mark]:
    measure = [m.path for m in top.study.report.verdict.measure_next] if top.study else []
    return marks(workshop.problems(text), workshop.inputs(text), measure)


@lru_cache(2048)
def _printed(mark: Mark) -> str:
    """What stands beside a field, printed once: an edit changes few of them."""
    return str(_macros().mark(mark.slug, mark))


@lru_cache(4096)
def _printed_field(build: str, field: Field, mark: Mark) -> str:
    """A field with what stands beside it, printed once."""
    return str(_macros().field(build, field, mark))


def _macros() -> Any:
    return environment().get_template("fields.html").module


@router.post(PATH + "/field")
def change_field(
    request: Request,
    build: str,
    path: Annotated[str, Form(max_length=100)],
    base: Annotated[int, Form()],
    serial: Annotated[int, Form()] = 0,
    value: Annotated[str, Form(max_length=4000)] = "",
    keep: Annotated[bool, Form()] = True,
) -> Response:
    """Answer an edit of one field: kept as a revision, or only tried while it is being typed."""
    workshop = workshop_of(request)
    if path not in entries():
        raise HTTPException(422, "there is no such field")
    value = value.strip()
    latest = workshop.store.latest(build)
    if not keep:
        return _tried(request, build, edit(latest.text, path, value), serial)
    old = workshop.store.revision(build, base).text
    text = edit(old, path, value)
    if text == old and base == latest.number:
        return _answer(request, build, serial, None)
    note = f"{path} = {value}" if value else f"{path} left out"
    saved = workshop.store.save(build, text, note, base)
    return _answer(request, build, serial, saved)


def _tried(request: Request, build: str, text: str, serial: int) -> Response:
    """The frame as it would be; while the text does not read, only a word about that."""
    workshop = workshop_of(request)
    revision = workshop.store.latest(build)
    answer = render(
        request,
        "car_tried.html",
        build=workshop.store.build(build),
        revision=revision,
        top=top_of(workshop, text),
    )
    return _stamped(answer, revision.number, serial)


def _answer(request: Request, build: str, serial: int, saved: Saved | None) -> Response:
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    text = shown["revision"].text
    answer = render(
        request,
        "car_answer.html",
        **shown,
        saved=saved,
        values=field_values(text) if saved and saved.merged else {},
        marks=[_printed(m) for m in _beside(workshop, text, shown["top"])],
    )
    return _stamped(answer, shown["revision"].number, serial)


def _stamped(answer: Response, revision: int, serial: int) -> Response:
    """Say which edit this answers, so that the page can drop an answer that comes late."""
    answer.headers["X-Revision"] = str(revision)
    answer.headers["X-Serial"] = str(serial)
    return answer


@router.post(PATH + "/text")
def change_text(
    request: Request,
    build: str,
    base: Annotated[int, Form()],
    text: Annotated[str, Form(max_length=1_000_000)] = "",
) -> Response:
    """Keep the whole text of the build, right or wrong."""
    store = workshop_of(request).store
    plain = text.replace("\r\n", "\n")
    if plain != store.revision(build, base).text:
        store.save(build, plain, "text edited", base)
    return RedirectResponse(PATH.format(build=build) + "#text", 303)


@router.get("/builds/{build}/pulse")
def pulse(request: Request, build: str) -> dict[str, int]:
    """The latest revision: says that the server is there and whether somebody else changed it."""
    return {"revision": workshop_of(request).store.latest(build).number}
