"""How to recognise the axle that one has, and the wear to look for: catalogue data for a reader."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.catalogue.load import rows_of
from axlewright.catalogue.rows import Feature, Finding


@dataclass(frozen=True)
class Clue:
    """One thing to look at and what it tells; ``found`` names go into ``axle.found``."""

    name: str
    kind: str
    look_for: str
    tells: str
    source: str


def guide() -> tuple[Clue, ...]:
    """Features by which an axle is recognised, then findings of wear."""
    features = (
        Clue(name, "feature", row.look_for, row.tells, row.source)
        for name, row in rows_of(Feature).items()
    )
    wear = (
        Clue(name, "wear", row.look_for, f"{row.means} Weakens: {row.link}.", row.source)
        for name, row in rows_of(Finding).items()
    )
    return (*features, *wear)
