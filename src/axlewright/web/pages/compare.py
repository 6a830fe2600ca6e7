"""Compare: two revisions or two builds side by side, what differs in and what differs out."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.store.builds import Store
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views.differences import differences
from axlewright.web.views.frame import context, top_of

TITLE = "Compare"
PATH = "/builds/{build}/compare"
router = APIRouter(include_in_schema=False)


@dataclass(frozen=True)
class Choice:
    """A text that can be compared."""

    value: str
    label: str
    group: str


@router.get(PATH)
def page(request: Request, build: str, old: str = "", new: str = "") -> Response:
    """The whole page; without a choice, the latest revision against the one before."""
    workshop = workshop_of(request)
    store = workshop.store
    shown = context(workshop, build, TITLE)
    choices = _choices(store, build)
    new = new or choices[0].value
    old = old or choices[min(1, len(choices) - 1)].value
    texts = [_text(store, value) for value in (old, new)]
    comparison, refused = None, ""
    try:
        comparison = workshop.compare(*texts)
    except BuildError as e:
        refused = e.problems[0].message
    return render(
        request,
        "compare.html",
        **shown,
        choices=choices,
        old=old,
        new=new,
        sides=[
            (label, top_of(workshop, t)) for label, t in zip(("Old", "New"), texts, strict=True)
        ],
        comparison=comparison,
        links=differences(comparison) if comparison else [],
        refused=refused,
    )


def _choices(store: Store, build: str) -> list[Choice]:
    """Every revision of this build, newest first, then the latest of every other build."""
    mine = [
        Choice(f"{build}:{r.number}", f"revision {r.number}: {r.note or 'first'}", "This build")
        for r in store.history(build)
    ]
    others = [
        Choice(f"{b.id}:{b.revision}", f"{b.name}, revision {b.revision}", "Other builds")
        for b in store.builds()
        if b.id != build
    ]
    return [*mine, *others]


def _text(store: Store, value: str) -> str:
    build, _, number = value.partition(":")
    if not number.isascii() or not number.isdigit() or len(number) > 9:
        raise HTTPException(422, "choose two revisions from the lists")
    return store.revision(build, int(number)).text
