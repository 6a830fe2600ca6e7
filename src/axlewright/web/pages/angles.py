"""Angles: how to set the pinion, what joints and links do, and how it all moves."""

from __future__ import annotations

import csv
import io
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Query, Request
from fastapi.responses import Response

from axlewright.build.edit import edit, field_values, raw_values
from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.angles_picture import angles_picture, height_words
from axlewright.drawing.svg import to_svg
from axlewright.store.builds import Saved
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views import angles as shown
from axlewright.web.views.form import entries
from axlewright.web.views.frame import context, top_of
from axlewright.web.views.pictures import font_faces
from axlewright.web.views.ratio import inline
from axlewright.web.views.working import tree
from axlewright.workshop import angles as study
from axlewright.workshop.shop import Workshop

TITLE = "Angles"
PATH = "/builds/{build}/angles"
router = APIRouter(include_in_schema=False)

_INCH = 0.0254
_PLAIN = {"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}
Travel = Annotated[float, Query(ge=-60.0, le=60.0, description="Both wheels up, inches.")]


@router.get(PATH)
def page(request: Request, build: str, travel: Travel = 0.0) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    text = frame["revision"].text
    resolved = workshop.resolved(text) if frame["top"].study is not None else None
    return render(
        request, "angles.html", **frame, **_answer(resolved, travel),
        fieldsets=_fields(workshop, text, resolved),
    )  # fmt: skip


def _answer(resolved: Resolved | None, travel: float) -> dict[str, Any]:
    """Everything that an edit changes; without a build that reads there is none."""
    if resolved is None:
        return {"report": None}
    report = study.angles(resolved)
    return {"report": report, **shown.tables(report), **_moves(resolved, travel)}


def _moves(resolved: Resolved, travel: float) -> dict[str, Any]:
    """The picture at one height of the axle, and the numbers beside it."""
    standing = study.picture(resolved, travel * _INCH)
    if standing is None:
        return {"standing": None}
    return {
        "standing": standing,
        "height": height_words(standing.travel),
        "least": round(standing.least_travel / _INCH, 2),
        "most": round(standing.greatest_travel / _INCH, 2),
        "at": round(standing.travel / _INCH, 2),
        "picture": inline(angles_picture(standing), "angles-picture"),
        "beside": shown.moves(standing),
    }


def _fields(workshop: Workshop, text: str, resolved: Resolved | None) -> Any:
    report = study.angles(resolved) if resolved is not None else None
    return shown.fields(field_values(text), report, workshop.problems(text), _kind(text))


def _kind(text: str) -> str:
    """The kind of suspension as it stands in the text."""
    return raw_values(text).get("suspension.kind", "")


@router.get(PATH + "/moves")
def moves(request: Request, build: str, travel: Travel = 0.0) -> Response:
    """The picture at another height."""
    _, resolved = _resolved(request, build)
    return render(request, "angles_moves.html", **_moves(resolved, travel))


@router.post(PATH + "/field")
def change_field(
    request: Request,
    build: str,
    path: Annotated[str, Form(max_length=100)],
    base: Annotated[int, Form()],
    serial: Annotated[int, Form()] = 0,
    value: Annotated[str, Form(max_length=4000)] = "",
    keep: Annotated[bool, Form()] = True,
    travel: Annotated[float, Form(ge=-60.0, le=60.0)] = 0.0,
) -> Response:
    """Answer an edit of one field: kept as a revision, or only tried while it is being typed."""
    workshop = workshop_of(request)
    if path not in entries():
        raise HTTPException(422, "there is no such field")
    value = value.strip()
    latest = workshop.store.latest(build)
    if not keep:
        return _told(request, build, edit(latest.text, path, value), serial, travel, None, True)
    text = edit(workshop.store.revision(build, base).text, path, value)
    saved = None
    if text != workshop.store.revision(build, base).text or base != latest.number:
        note = f"{path} = {value}" if value else f"{path} left out"
        saved = workshop.store.save(build, text, note, base)
    return _told(request, build, workshop.store.latest(build).text, serial, travel, saved, False)


def _told(
    request: Request,
    build: str,
    text: str,
    serial: int,
    travel: float,
    saved: Saved | None,
    tried: bool,
) -> Response:
    """The answer to an edit: frame, answer, marks beside the fields."""
    workshop = workshop_of(request)
    revision = workshop.store.latest(build)
    top = top_of(workshop, text)
    resolved = workshop.resolved(text) if top.study is not None else None
    reply = render(
        request, "angles_edit.html", build=workshop.store.build(build), revision=revision, top=top,
        tried=tried, saved=saved, fieldsets=_fields(workshop, text, resolved),
        values=field_values(text) if saved is not None and saved.merged else {},
        **_answer(resolved, travel),
    )  # fmt: skip
    reply.headers["X-Revision"] = str(revision.number)
    reply.headers["X-Serial"] = str(serial)
    return reply


@router.get(PATH + "/working")
def working(
    request: Request, build: str, number: Annotated[str, Query(max_length=200)]
) -> Response:
    """The working of one number, for the panel at the side."""
    workshop, resolved = _resolved(request, build)
    node = study.nodes(resolved).get(number)
    finding = study.angles(resolved).findings.get(number)
    if node is None or finding is None:
        raise HTTPException(404, "there is no such number in this build any more")
    made = study.angles(resolved).made
    reply = render(request, "working.html", number=number, title=finding.means, root=tree(node),
                   made=made)  # fmt: skip
    reply.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return reply


@router.get(PATH + "/chart/side.{kind}")
def chart(
    request: Request, build: str, kind: str, travel: Travel = 0.0, font: bool = False
) -> Response:
    """The picture as a file (SVG), or the travel as numbers (CSV)."""
    if kind not in _PLAIN:
        raise HTTPException(404, "there is no such chart")
    workshop, resolved = _resolved(request, build)
    standing = study.picture(resolved, travel * _INCH)
    if standing is None:
        raise HTTPException(404, "nothing to draw as long as the angles are not measured")
    if kind == "csv":
        text = _csv(shown.travel_rows(study.angles(resolved)))
    else:
        text = to_svg(angles_picture(standing), "side")
        if font:
            text = text.replace("</svg>", f"<style>{font_faces()}</style></svg>")
    name = f"side-revision-{workshop.store.latest(build).number}.{kind}"
    headers = {} if font else {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(text, media_type=_PLAIN[kind], headers=headers)


def _csv(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _resolved(request: Request, build: str) -> tuple[Workshop, Resolved]:
    workshop = workshop_of(request)
    try:
        return workshop, workshop.resolved(workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
