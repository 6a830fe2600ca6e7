"""Fit: will it go in, and how is it cut; a wheel or a reading changed here moves the answer."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Form, HTTPException, Query, Request
from fastapi.responses import Response

from axlewright.build.edit import edit, field_values
from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.fit_rear import fit_rear
from axlewright.drawing.svg import to_svg
from axlewright.fit.hold_items import ITEMS
from axlewright.fit.hold_keys import BY_HAND
from axlewright.store.builds import Saved
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import environment, render
from axlewright.web.views import fit as shown
from axlewright.web.views.form import Field, FieldGroup, Mark, entries, groups, marks
from axlewright.web.views.frame import context, top_of
from axlewright.web.views.pictures import font_faces
from axlewright.web.views.working import tree
from axlewright.workshop import fits
from axlewright.workshop.shop import Workshop

TITLE = "Fit"
PATH = "/builds/{build}/fit"
router = APIRouter(include_in_schema=False)

_LONGEST = 200
_TABLES = ("fit", "fit.left", "fit.right", "wheel", "ends", "ends.left", "ends.right", "centre",
           "brakes")  # fmt: skip
_FIRST = {
    "wheel.rim_width": "Rim width", "wheel.backspace": "Backspace",
    "wheel.section": "Tire, widest", "centre.face_to_face": "New axle, wheel face to wheel face",
    "fit.left.lip": "Left: face to lip", "fit.right.lip": "Right: face to lip",
    "fit.left.inner": "Left: face to thing inboard",
    "fit.right.inner": "Right: face to thing inboard",
}  # fmt: skip
"""What is changed most, beside the picture, and how it is called there."""
Many = Annotated[list[str], Query(max_length=40)]


@dataclass(frozen=True)
class Asked:
    """What the form of the page says beside the build."""

    have: tuple[str, ...]
    drives: str
    old_ratio: str
    old_tire: str

    @property
    def query(self) -> str:
        """The same as part of an address."""
        more = [(k, v) for k, v in vars(self).items() if k != "have" and v]
        return urlencode([*(("have", h) for h in self.have), *more])


def _asked(have: list[str], drives: str, old_ratio: str, old_tire: str) -> Asked:
    if any(len(t) > _LONGEST for t in (*have, drives, old_ratio, old_tire)):
        raise HTTPException(422, "that is far too much to ask at once")
    return Asked(tuple(have), *(" ".join(t.split()) for t in (drives, old_ratio, old_tire)))


def _ask(asked: Asked) -> tuple[fits.FitAsk, str]:
    """What is asked, or why it does not read."""
    try:
        return fits.read_fit_ask(
            asked.have, [asked.drives], asked.old_ratio, asked.old_tire
        ), ""  # fmt: skip
    except fits.FitAskError as e:
        return fits.FitAsk(), str(e)


@router.get(PATH)
def page(
    request: Request,
    build: str,
    have: Many = [],  # noqa: B006 (read, never changed)
    drives: str = "",
    old_ratio: str = "",
    old_tire: str = "",
) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    asked = _asked(have, drives, old_ratio, old_tire)
    ask, refused = _ask(asked)
    text, top = frame["revision"].text, frame["top"]
    resolved = workshop.resolved(text) if top.study is not None else None
    beside = {m.slug: m for m in _beside(workshop, text)}
    return render(
        request, "fit.html", **frame, asked=asked, refused=refused, marks=beside,
        printed=_printed_field, items=[i.name for i in ITEMS], by_hand=BY_HAND,
        first=_fields(text), groups=_groups(text), **_shown(resolved, ask),
    )  # fmt: skip


def _shown(resolved: Resolved | None, ask: fits.FitAsk) -> dict[str, Any]:
    """The answer as the templates print it; nothing while the build does not read."""
    if resolved is None:
        return {"report": None}
    report = fits.fit(resolved, ask)
    now, later = shown.holds(report)
    return {
        "report": report,
        "picture": shown.picture(report),
        "order": shown.order(report),
        "rooms": [(side, shown.rooms(report, side)) for side in ("left", "right")],
        "choices": shown.choices(report),
        "costs": shown.costs(report),
        "ends": shown.gaps(report.ends),
        "brakes": shown.gaps(report.brakes.lines),
        "speedo": shown.gaps(report.speedometer.lines),
        "now": now,
        "later": later,
    }


def _groups(text: str) -> list[FieldGroup]:
    """The fields of this page, those beside the picture left out."""
    found = []
    for g in groups(field_values(text), ()):
        if g.path in _TABLES:
            fields = tuple(f for f in g.fields if f.path not in _FIRST)
            found.append(FieldGroup(g.path, g.title, g.means, fields, ()))
    return found


def _fields(text: str) -> list[Field]:
    every = {f.path: f for g in groups(field_values(text), ()) for f in g.fields}
    return [replace(every[path], label=label) for path, label in _FIRST.items()]


def _beside(workshop: Workshop, text: str) -> list[Mark]:
    paths = [p for p in entries() if p.rpartition(".")[0] in _TABLES]
    used = workshop.inputs(text)
    if used:  # nothing while the text is wrong
        used = used | fits.inputs(workshop.resolved(text))
    every = marks(workshop.problems(text), used, ())
    return [m for p, m in zip(entries(), every, strict=True) if p in paths]


@lru_cache(1024)
def _printed(mark: Mark) -> str:
    """What stands beside a field, printed once: an edit changes few of them."""
    return str(_macros().mark(mark.slug, mark))


@lru_cache(2048)
def _printed_field(build: str, field: Field, mark: Mark) -> str:
    """A field with what stands beside it, printed once."""
    return str(_macros().field(build, field, mark)).replace("/car/field", "/fit/field")


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
    have: Annotated[list[str], Form(max_length=40)] = [],  # noqa: B006 (read, never changed)
    drives: Annotated[str, Form()] = "",
    old_ratio: Annotated[str, Form()] = "",
    old_tire: Annotated[str, Form()] = "",
) -> Response:
    """Answer an edit of one field: kept as a revision, or only tried while it is being typed."""
    workshop = workshop_of(request)
    if path not in entries():
        raise HTTPException(422, "there is no such field")
    ask, _ = _ask(_asked(have, drives, old_ratio, old_tire))
    value = value.strip()
    latest = workshop.store.latest(build)
    if not keep:
        return _tried(request, build, edit(latest.text, path, value), serial, ask)
    old = workshop.store.revision(build, base).text
    text = edit(old, path, value)
    if text == old and base == latest.number:
        return _answer(request, build, serial, None, ask)
    note = f"{path} = {value}" if value else f"{path} left out"
    return _answer(request, build, serial, workshop.store.save(build, text, note, base), ask)


def _tried(request: Request, build: str, text: str, serial: int, ask: fits.FitAsk) -> Response:
    """The answer as it would be; while the text does not read, only a word about that."""
    workshop = workshop_of(request)
    latest = workshop.store.latest(build)
    top = top_of(workshop, text)
    resolved = workshop.resolved(text) if top.study is not None else None
    reply = render(request, "fit_tried.html", build=workshop.store.build(build), revision=latest,
                   top=top, trying=True, **_shown(resolved, ask))  # fmt: skip
    return _stamped(reply, latest.number, serial)


def _answer(
    request: Request, build: str, serial: int, saved: Saved | None, ask: fits.FitAsk
) -> Response:
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    text = frame["revision"].text
    resolved = workshop.resolved(text) if frame["top"].study is not None else None
    reply = render(
        request, "fit_changed.html", **frame, saved=saved,
        values=field_values(text) if saved and saved.merged else {},
        marks=[_printed(m) for m in _beside(workshop, text)], **_shown(resolved, ask),
    )  # fmt: skip
    return _stamped(reply, frame["revision"].number, serial)


def _stamped(reply: Response, revision: int, serial: int) -> Response:
    """Say which edit this answers, so that the page can drop an answer that comes late."""
    reply.headers["X-Revision"] = str(revision)
    reply.headers["X-Serial"] = str(serial)
    return reply


@router.get(PATH + "/working")
def working(request: Request, build: str, number: str) -> Response:
    """The working of one number, for the panel at the side."""
    workshop, resolved = _resolved(request, build)
    try:
        node = fits.nodes(resolved, _ask_of(number))[number[:_LONGEST]]
    except (LookupError, fits.FitAskError):
        raise HTTPException(404, "there is no such number in this build any more") from None
    made = fits.fit(resolved).made
    title = node.name if "." not in node.name else number.replace("_", " ").capitalize()
    reply = render(request, "working.html", number=number, title=title, root=tree(node), made=made)
    reply.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return reply


def _ask_of(number: str) -> fits.FitAsk:
    """The least that must be asked for a number to be there: teeth of a drive gear."""
    key, _, teeth = number.partition("_")
    return fits.read_fit_ask(drives=[teeth]) if key == "driven" else fits.FitAsk()


@router.get(PATH + "/picture.svg")
def picture(request: Request, build: str, font: bool = False) -> Response:
    """The picture from behind as a file."""
    workshop, resolved = _resolved(request, build)
    svg = to_svg(fit_rear(fits.fit(resolved)), "rear")
    if font:
        text = svg.replace("</svg>", f"<style>{font_faces()}</style></svg>")
        return Response(text, media_type="image/svg+xml")
    name = f"fit-revision-{workshop.store.latest(build).number}.svg"
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(svg, media_type="image/svg+xml", headers=headers)


def _resolved(request: Request, build: str) -> tuple[Workshop, Resolved]:
    workshop = workshop_of(request)
    try:
        return workshop, workshop.resolved(workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
