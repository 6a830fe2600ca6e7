"""Limits: how far each thing may go with what is on the car, by link and by class of tire."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from axlewright.papers.limit_card import card_content
from axlewright.studies.report import LimitCard
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views.frame import context
from axlewright.web.views.pictures import WORDS

TITLE = "Limits"
PATH = "/builds/{build}/limits"
router = APIRouter(include_in_schema=False)

_STATES = {word: state for state, word in WORDS.items()}


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page; without a study the frame says why."""
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    card = workshop.card(shown["revision"].text) if shown["top"].study else None
    return render(request, "limits.html", **shown, card=_words(card) if card else None)


def _words(card: LimitCard) -> dict[str, Any]:
    """The card in the words of the paper, with how it was made and the states as pictured."""
    said = card_content(card)
    return {
        **said,
        "lines": [_line(line) for line in said["lines"]],
        "tires": [{**t, "mark": _STATES[t["state"]]} for t in said["tires"]],
        "made": card.made,
    }


def _line(line: dict[str, str]) -> dict[str, str]:
    """A dial; on a page there is room to say what "none" means."""
    if line["allowed"] != "none":
        return line
    return {**line, "allowed": "no setting holds", "note": "change something else first"}
