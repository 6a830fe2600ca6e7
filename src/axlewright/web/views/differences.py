"""What a comparison says of each link, in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.drawing.marks import band_text, margin_text
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import significant
from axlewright.workshop.comparing import Comparison, LinkChange

Kind = Literal["better", "worse", "alike"]


@dataclass(frozen=True)
class LinkDifference:
    """One link on both sides, the new margin over the old one, and what that comes to."""

    title: str
    old: str
    old_band: str
    new: str
    new_band: str
    change: str
    change_band: str
    kind: Kind
    word: str


def differences(comparison: Comparison) -> list[LinkDifference]:
    """Every link that differs."""
    return [_difference(link) for link in comparison.links]


def _difference(link: LinkChange) -> LinkDifference:
    kind, word = _judged(link)
    change, band = "–", ""
    if link.change is not None:
        c = link.change
        low, high = (significant(v, 3) for v in (c.low, c.high))
        change, band = f"× {significant(c.value, 3)}", "" if low == high else f"{low} to {high}"
    return LinkDifference(
        link.title,
        *_side(link.old),
        *_side(link.new),
        change,
        band,
        kind,
        word,
    )


def _side(margin: Finding | None) -> tuple[str, str]:
    return ("–", "") if margin is None else (margin_text(margin.value), band_text(margin))


def _judged(link: LinkChange) -> tuple[Kind, str]:
    """Better or worse, and whether the band of the change leaves no doubt of it."""
    if link.old is None or link.new is None:
        return "alike", "new here" if link.old is None else "not there any more"
    c = link.change
    if c is None or c.value == 1.0:
        return "alike", "other band only"
    kind: Kind = "better" if c.value > 1.0 else "worse"
    sure = c.low >= 1.0 if c.value > 1.0 else c.high <= 1.0
    arrow = "▲" if kind == "better" else "▼"
    return kind, f"{arrow} {kind}" + ("" if sure else ", not for sure")
