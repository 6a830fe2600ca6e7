"""Readings for fit and angles stand in for what load path and launch would assume.

Only where the key itself is not stated.  What is stated is kept; where the readings cannot be
true beside it, a caution gives both.
"""

from __future__ import annotations

import functools

import numpy as np

from axlewright.build.fitting import AngleReadings, BushStiffness, Spot
from axlewright.build.resolve.fit_readings import Notebook
from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import Estimate, Leaf, Limits, Plain
from axlewright.quantities.sampling import Samples
from axlewright.quantities.units import show

_DRAWS, _SEED = 64, 1
_SETTLED = ("new axle", "new wheel", "slip joint")
_SETTLED_TABLES = ("wheel", "ends", "centre", "angles", "slip")
_OPEN = (
    "readings contradict each other, and some of them are used here: `axlewright fit` names them"
)


class Readings:
    """A notebook for the load path; its own remarks stay with the questions of fit and angles.

    What works a table out is loaded when something of that table is asked for.
    """

    def __init__(self, book: Ledger) -> None:
        self.book = book
        self.notes = Notebook(Ledger(book.build))
        if any(book.stated(table) is not None for table in _SETTLED_TABLES):
            self.settle(*_SETTLED)
        self.hangs = "hanging" in (book.choice("fit.state"), book.choice("angles.state"))
        """The car hung while it was measured, so that its angles and points do not count."""

    def settle(self, *titles: str) -> None:
        """Bring lengths together that must add up."""
        from axlewright.build.resolve.fit_settled import settle  # noqa: PLC0415 (as said above)

        settle(self.notes, titles)
        if not all(c.agree for c in self.notes.checks) and _OPEN not in self.book.cautions:
            self.book.cautions.append(_OPEN)

    def leaf(self, path: str) -> Leaf | None:
        """What was measured, or nothing."""
        return self.notes.leaf(path)

    def either(
        self, path: str, found: Leaf | None, otherwise: Leaf | None = None, *, at_most: bool = False
    ) -> Leaf:
        """The stated value of a key, else what the readings say, else what is usual.

        With ``at_most`` the readings only say what a value cannot exceed.
        """
        if found is None:
            return self.book.quantity(path, otherwise)
        if self.book.stated(path) is None:
            return found
        said = self.book.quantity(path)
        compare(self.book, path, said, found, at_most=at_most)
        return said

    def slope(self, part: str) -> Leaf | None:
        """Slope of a part against the car's floor line, by the gauge."""
        gauge = self.leaf(f"angles.{part}")
        if gauge is None:
            return None
        from axlewright.build.resolve import fit_line  # noqa: PLC0415 (likewise)

        return fit_line.in_car(self.notes, part, gauge)

    @property
    def line(self) -> AngleReadings[Leaf]:
        """Gauge readings, and how far the nose rises."""
        from axlewright.build.resolve import fit_line  # noqa: PLC0415 (likewise)

        return fit_line.angles(self.notes)

    @property
    def gap(self) -> Leaf:
        """Gap of the slip yoke, measured or as the trade leaves it."""
        return self.notes.sure("slip.gap")

    @functools.cached_property
    def points(self) -> dict[str, Spot[Leaf]]:
        """Points of the suspension at ride height, both sides; none where the car hung."""
        if self.hangs or self.book.stated("points") is None:
            return {}
        from axlewright.build.resolve import fit_points  # noqa: PLC0415 (likewise)

        return fit_points.points(self.notes)

    @functools.cached_property
    def bushes(self) -> BushStiffness[Leaf]:
        """Bushes of the links, and rates of the springs."""
        from axlewright.build.resolve import fit_points  # noqa: PLC0415 (likewise)

        return fit_points.bushes(self.notes)

    @functools.cached_property
    def offset(self) -> Leaf | None:
        """Offset of the new wheel."""
        if self.book.stated("wheel") is None:
            return None
        from axlewright.build.resolve import fit_wheel  # noqa: PLC0415 (likewise)

        return fit_wheel.offset_of(self.notes)

    def end(self, side: str, name: str) -> Leaf | None:
        """A reading of one end."""
        if self.book.stated("ends") is None:
            return None
        from axlewright.build.resolve import fit_ends  # noqa: PLC0415 (likewise)

        return fit_ends.of_end(self.notes, side, name)

    def spacer(self, side: str) -> Leaf:
        """Wheel spacer of one side; none unless stated."""
        return self.end(side, "spacer") or self.notes.sure("ends.spacer")


def compare(book: Ledger, path: str, said: Leaf, found: Leaf, *, at_most: bool = False) -> None:
    """A caution where what is stated and what was measured cannot both be true."""
    (least, most), (low, high) = (_ends(leaf) for leaf in (said, found))
    if least <= high and (at_most or low <= most):
        return
    _, dimension = book.meta(path)
    stated, measured = (show(float(Plain().fill(leaf)), dimension) for leaf in (said, found))
    book.cautions.append(
        f"{path}: {stated} is stated, but the readings say {measured}; the stated value is used:"
        " strike it out or take the readings again"
    )


def _ends(leaf: Leaf) -> tuple[float, float]:
    """Least and greatest value of a leaf; the limits themselves where it has them."""
    if isinstance(leaf, Estimate) and isinstance(leaf.spread, Limits):
        return leaf.spread.low, leaf.spread.high
    values = np.asarray(Samples(_SEED, _DRAWS).fill(leaf))
    return float(values.min()), float(values.max())
