"""What may be ordered or welded now, and what must wait for which measurement.

Every item names the readings and the earlier items that it needs; nothing here is reckoned, and
nothing is guessed for a reading that is missing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from axlewright.fit.hold_items import ITEMS, Item, Need

BY_NAME: Mapping[str, Item] = {item.name: item for item in ITEMS}


@dataclass(frozen=True)
class Verdict:
    """What may be done about one item now."""

    item: Item
    waits: tuple[Need, ...]
    """What is missing, in the order in which it is asked for; items of the list and readings."""

    @property
    def now(self) -> bool:
        """Whether it may be ordered or done now."""
        return not self.waits

    @property
    def words(self) -> str:
        """The verdict in a sentence."""
        act = {"order": "order now", "weld": "weld now", "cut": "cut now", "do": "do now"}
        if self.now:
            last = "; made to order, not taken back" if self.item.made_to_order else ""
            return f"{self.item.name}: {act[self.item.act]}{last}"
        first = self.waits[0]
        more = f" (and {len(self.waits) - 1} more)" if len(self.waits) > 1 else ""
        return f"{self.item.name}: wait for {first.thing}, because {first.why}{more}"


def verdicts(known: Collection[str], items: Collection[Item] = ITEMS) -> tuple[Verdict, ...]:
    """For every item not yet done: order it now, or wait for what, and why.

    ``known`` are readings that have been taken and items that are there, by name.
    """
    _check(known, items)
    have = set(known)
    return tuple(
        Verdict(item, tuple(n for n in item.needs if n.thing not in have))
        for item in items
        if item.name not in have
    )


def readings(items: Collection[Item] = ITEMS) -> tuple[str, ...]:
    """Every reading that is asked for, in the order in which it first is."""
    names = {item.name for item in items}
    found = dict.fromkeys(t for item in items for t in item.things if t not in names)
    return tuple(found)


def most_wanted(
    known: Collection[str], items: Collection[Item] = ITEMS
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Readings not yet taken, the one that holds up most first, each with what waits for it."""
    waiting = {verdict.item.name for verdict in verdicts(known, items)}
    missing = [reading for reading in readings(items) if reading not in set(known)]
    held = [(r, tuple(n for n in held_up_by(r, items) if n in waiting)) for r in missing]
    return tuple(sorted((h for h in held if h[1]), key=lambda h: -len(h[1])))


def in_order(items: Collection[Item] = ITEMS) -> tuple[Item, ...]:
    """Items so that each stands after all that it needs; refuses a list that runs in a circle."""
    left = {item.name: item for item in items}
    done: list[Item] = []
    while left:
        ready = [i for i in left.values() if not any(t in left for t in i.things)]
        if not ready:
            raise ValueError(f"these wait for each other: {', '.join(left)}")
        done += ready
        for item in ready:
            del left[item.name]
    return tuple(done)


def held_up_by(missing: str, items: Collection[Item] = ITEMS) -> tuple[str, ...]:
    """Every item that waits for one thing, directly or through others."""
    found: dict[str, None] = {}
    ahead = [missing]
    while ahead:
        thing = ahead.pop(0)
        held = [i.name for i in items if thing in i.things and i.name not in found]
        found.update(dict.fromkeys(held))
        ahead += held
    return tuple(found)


def _check(known: Collection[str], items: Collection[Item]) -> None:
    wanted = {item.name for item in items} | set(readings(items))
    strange = sorted(set(known) - wanted)
    if strange:
        raise ValueError(f"nothing here is called {', '.join(strange)}")
