"""The limit card: one small page for the sun visor, how far each thing may be raised."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from axlewright.drawing.marks import MARKS, band_text, margin_text, state_of
from axlewright.papers.press import date_parts, write_pdf
from axlewright.quantities.units import show_both
from axlewright.studies.report import GripStep, LimitCard


def write_limit_card(card: LimitCard, path: Path, made_on: str) -> Path:
    """Write the card as a PDF page of 90 × 140 mm; ``made_on`` is a date like 2025-03-31."""
    return write_pdf("card.typ", card_page(card, made_on), path, made_on)


def card_page(card: LimitCard, made_on: str) -> dict[str, Any]:
    """Everything on the page of the card, already in words."""
    return {
        **card_content(card),
        "document_title": f"Limit card: {card.name}",
        "keywords": [card.made.build_hash, card.made.program],
        "made_on": made_on,
        "date": date_parts(made_on),
        "revision": card.made.build_hash,
        "program": card.made.program,
    }


def card_content(card: LimitCard) -> dict[str, Any]:
    """The card in words, for its own page and for the check paper."""
    dials = dict.fromkeys(d for x in card.links for d in x.allowed)
    unbroken = [x for x in card.links if set(x.allowed.values()) == {"any"}]
    return {
        "name": card.name,
        "lines": [
            {"dial": line.dial, "now": line.now, "allowed": line.allowed,
             "first": "holds in the range tried" if line.holds_everything else line.first_to_go,
             "note": line.note}
            for line in card.lines
        ],
        "tires": [_tire(step) for step in card.tires],
        "dials": list(dials),
        "links": [
            {"link": x.title, "words": [x.allowed.get(d, "–") for d in dials]}
            for x in card.links
            if x not in unbroken
        ],
        "unbroken": ", ".join(x.title for x in unbroken),
        "cautions": list(card.cautions),
    }  # fmt: skip


def _tire(step: GripStep) -> dict[str, str]:
    return {
        "class": step.grip_class,
        "grip": f"{step.grip.value:.2f}",
        "torque": show_both(step.ring_torque.value, step.ring_torque.dimension, 3),
        "worst": step.worst_link,
        "margin": margin_text(step.margin.value),
        "band": band_text(step.margin),
        "state": MARKS[state_of(step.margin, step.likelihood)].word,
    }
