"""Readings as leaves: repeats combined, limits by tool and care, nothing where nobody measured."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from axlewright.build.fitting import Check
from axlewright.build.resolve.ledger import Ledger
from axlewright.measuring.datum import hats_short
from axlewright.measuring.repeats import Combined, combine
from axlewright.measuring.tools import Tool
from axlewright.measuring.worksheet import tool_of
from axlewright.quantities.estimate import Estimate, Leaf, Limits
from axlewright.quantities.repeats import each
from axlewright.quantities.units import Reading, UnitError, read, show


class Notebook:
    """Turns what the build says of fit and angles into leaves; remembers what was combined."""

    def __init__(self, book: Ledger) -> None:
        self.book = book
        self.hurried = book.choice("fit.care") == "hurried"
        self.bare = book.choice("fit.old_face") == "bare"
        self.taken: dict[str, Estimate] = {}
        self.settled: dict[str, Leaf] = {}
        self.worked_out: list[str] = []
        self.checks: list[Check] = []
        self.hat = self.single("fit.old_hat")

    def note(self, check: Check) -> None:
        """Keep a check, and its contradiction as a caution."""
        self.checks.append(check)
        if check.said:
            self.book.cautions.append(check.said)

    def leaf(self, path: str, otherwise: Leaf | None = None) -> Leaf | None:
        """What was measured, else ``otherwise``, else a default in numbers, else nothing."""
        if path in self.settled:
            return self.settled[path]
        said = self.book.stated(path)
        if isinstance(said, Reading):
            return self.reading(path, said)
        if otherwise is not None:
            return otherwise
        meta, dimension = self.book.meta(path)
        if not isinstance(meta.default, str) or not _is_quantity(meta.default, dimension):
            return None
        return self.book.quantity(path)

    def sure(self, path: str, otherwise: Leaf | None = None) -> Leaf:
        """The same where the key has a default, so that there always is a leaf."""
        found = self.leaf(path, otherwise)
        if found is None:
            raise LookupError(f"{path} has no default")
        return found

    def reading(self, path: str, said: Reading) -> Leaf:
        """A stated value: its own limits, or those of the tool that the worksheet names."""
        tool = tool_of(path)
        if tool is None:
            return self.book.quantity(path)
        if path not in self.taken:
            self.taken[path] = self._on_the_face(path, self._combined(path, said, tool))
        return self.taken[path]

    def _on_the_face(self, path: str, taken: Estimate) -> Estimate:
        """A reading from the bare flange brought to the face that the wheel touches."""
        hats = hats_short(path) if self.bare else 0.0
        if hats == 0.0 or self.hat is None:
            return taken
        moved = taken.value + hats * self.hat.value
        half = math.hypot(half_width(taken), hats * half_width(self.hat))
        return replace(
            taken,
            value=moved,
            spread=Limits(moved - half, moved + half),
            source=f"{taken.source}; from the bare flange to the wheel face by {_HATS[abs(hats)]}",
        )

    def single(self, path: str, *, assumed: bool = False) -> Estimate | None:
        """A reading by itself, before it is settled with others; its default if that will do."""
        said = self.book.stated(path)
        if isinstance(said, Reading):
            leaf: Leaf | None = self.reading(path, said)
        else:
            leaf = self.book.quantity(path) if assumed else None
        return leaf if isinstance(leaf, Estimate) else None

    def place(self, path: str, axis: str, said: Reading) -> Estimate:
        """One coordinate of a point."""
        tool = tool_of(path)
        assert tool is not None, path
        return self._combined(f"{path}.{axis}", said, tool, path)

    def _combined(self, path: str, said: Reading, tool: Tool, key: str = "") -> Estimate:
        meta, _ = self.book.meta(key or path)
        usual = read(tool.hurried if self.hurried else tool.careful, said.dimension).value
        singles = each(said)
        found = combine(
            [r.value for r in singles],
            [0.5 * (r.high - r.low) if r.has_limits else usual for r in singles],
            read(tool.division, said.dimension).value,
        )
        self._tell(path, found, singles)
        half = found.half_width
        return Estimate(
            path,
            found.value,
            said.dimension,
            Limits(found.value - half, found.value + half),
            "measured",
            _source(singles, tool, self.hurried),
            advice=meta.advice,
            means=meta.means,
            text=said.text,
        )

    def _tell(self, path: str, found: Combined, singles: tuple[Reading, ...]) -> None:
        """A caution where one of the repeats does not belong to the others."""
        apart = found.apart
        if apart is None:
            return
        by = show(abs(apart.by), singles[0].dimension)
        if apart.number == 0:
            said = f"{path}: its two readings are {by} apart, more than the tool explains; take it"
            self.book.cautions.append(f"{said} a third time")
            return
        odd = singles[apart.number - 1].text
        self.book.cautions.append(
            f"{path}: reading {apart.number} ({odd}) is {by} off the others; take it again and"
            " strike it out if it was misread"
        )


_HATS = {1.0: "one hat", 2.0: "two hats"}


def half_width(estimate: Estimate) -> float:
    """Half of a leaf's limits; none for what is exact."""
    spread = estimate.spread
    return 0.5 * (spread.high - spread.low) if isinstance(spread, Limits) else 0.0


def _source(singles: tuple[Reading, ...], tool: Tool, hurried: bool) -> str:
    count = f"{len(singles)} readings" if len(singles) > 1 else "one reading"
    if all(r.has_limits for r in singles):
        return f"the build file: {count}, limits as stated"
    return f"the build file: {count}, {tool.name}, {'hurried' if hurried else 'careful'}"


def _is_quantity(text: str, dimension: str) -> bool:
    try:
        read(text, dimension)
    except UnitError:
        return False
    return bool(text)


def text_of(book: Ledger, path: str) -> str | None:
    """A stated text, or nothing."""
    said: Any = book.stated(path)
    return str(said) if said is not None else None
