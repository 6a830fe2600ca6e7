"""The ledger: what is stated, defaulted or catalogued becomes an estimate with its origin."""

from __future__ import annotations

import functools
from typing import TYPE_CHECKING, Any

from axlewright.build.model import Build
from axlewright.build.shelf import Shelf
from axlewright.catalogue.rows import Row
from axlewright.quantities.estimate import (
    EXACT,
    Derived,
    Estimate,
    Kinds,
    Leaf,
    Limits,
    Mixture,
    Origin,
    Scatter,
    Spread,
)
from axlewright.quantities.fields import Key, dimension_of, meta_of, subsection
from axlewright.quantities.sections import Section
from axlewright.quantities.units import Reading, read

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings

PRACTICE = "common practice, no source"
MEMORY = "from memory"
_READ = ("fit", "wheel", "ends", "centre", "points", "angles", "slip")
"""Tables of readings that stand in for inputs of the load path."""


def limits_of(reading: Reading, bare: str = "") -> Spread:
    """Spread of a reading: its own limits, else the customary ones of a bare statement."""
    if reading.has_limits:
        return Limits(reading.low, reading.high)
    if bare:
        half = abs(reading.value) * read(bare, "ratio").value
        return Limits(reading.value - half, reading.value + half)
    return EXACT


def row_estimate(
    row: Row, name: str, path: str, scatter: float = 0.0, advice: str = ""
) -> Estimate:
    """A value from a catalogue row, with the row's limits or a natural scatter."""
    info = type(row).model_fields[name]
    reading = getattr(row, name)
    dimension = dimension_of(info) or "ratio"
    if not isinstance(reading, Reading):
        raise LookupError(f"the catalogue has no {name} for {path}")
    spread: Spread = Scatter(scatter) if scatter and not reading.has_limits else limits_of(reading)
    return Estimate(
        path,
        reading.value,
        dimension,
        spread,
        "catalogue",
        row.source,
        advice=advice,
        means=meta_of(info).means,
        text=reading.text,
    )


class Ledger:
    """Makes estimates under their paths for one build."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.shelf = Shelf(build.parts)
        self.cautions: list[str] = []

    @functools.cached_property
    def readings(self) -> Readings | None:
        """What was measured for fit and angles, settled when first asked for; None if nothing."""
        if not any(getattr(self.build, table) is not None for table in _READ):
            return None
        from axlewright.build.resolve.measured import Readings  # noqa: PLC0415 (few builds have any)

        return Readings(self)

    def stated(self, path: str) -> Any:
        """What the build file says at a path, or None."""
        here: Any = self.build
        for part in path.split("."):
            here = getattr(here, part, None) if here is not None else None
        return here

    def meta(self, path: str) -> tuple[Key, str]:
        """Declaration and dimension of a key."""
        section: type[Section] = Build
        *tables, name = path.split(".")
        for table in tables:
            inner = subsection(section.model_fields[table])
            assert inner is not None, path
            section = inner
        info = section.model_fields[name]
        return meta_of(info), dimension_of(info) or "ratio"

    def quantity(self, path: str, otherwise: Leaf | None = None) -> Leaf:
        """The stated value of a key, else ``otherwise``, else the key's own default."""
        meta, dimension = self.meta(path)
        reading = self.stated(path)
        if isinstance(reading, Reading):
            origin: Origin = "measured" if reading.has_limits else "stated"
            spread = limits_of(reading, meta.stated_spread)
            return Estimate(
                path,
                reading.value,
                dimension,
                spread,
                origin,
                "the build file",
                advice=meta.advice,
                means=meta.means,
                text=reading.text,
            )
        if otherwise is not None:
            return otherwise
        if not isinstance(meta.default, str) or not meta.default:
            raise LookupError(f"{path} has no default")
        return self.assumed(path, meta.default, dimension, meta.because, meta.means, meta.advice)

    def assumed(
        self, path: str, text: str, dimension: str, because: str, means: str, advice: str = ""
    ) -> Estimate:
        """An assumption of ours, with its spread written as the shop would."""
        reading = read(text, dimension)
        return Estimate(
            path,
            reading.value,
            dimension,
            limits_of(reading),
            "assumed",
            because,
            advice=advice,
            means=means,
            text=text,
        )

    def exact(self, path: str, value: float, dimension: str, source: str, means: str) -> Estimate:
        """A value without spread that the build or a standard fixes."""
        return Estimate(path, value, dimension, EXACT, "stated", source, means=means)

    def row(
        self, row: Row, name: str, path: str, scatter: float = 0.0, advice: str = ""
    ) -> Estimate:
        """A value from a catalogue row."""
        del self
        return row_estimate(row, name, path, scatter, advice)

    def kinds(self, path: str, weights: dict[str, float] | None = None) -> Kinds:
        """The stated kind of a key, or the weights over kinds that stand in for it."""
        meta, _ = self.meta(path)
        said = self.stated(path)
        if said is not None:
            return Kinds(
                path, (str(said),), (1.0,), "stated", "the build file", meta.advice, meta.means
            )
        chosen = weights or meta.default
        if not isinstance(chosen, dict):
            raise LookupError(f"{path} has no default kinds")
        return Kinds(
            path,
            tuple(chosen),
            tuple(chosen.values()),
            "assumed",
            meta.because,
            meta.advice,
            meta.means,
        )

    def choice(self, path: str, weights: dict[str, float] | None = None) -> str:
        """The stated kind, or the likeliest: for kinds that change the structure, not a number."""
        kinds = self.kinds(path, weights)
        return kinds.kinds[kinds.likeliest]


def mixture(choice: Kinds, path: str, options: list[Leaf]) -> Leaf:
    """A leaf that depends on an unknown kind; a known kind is just its leaf."""
    return options[0] if len(options) == 1 else Mixture(path, choice, tuple(options))


def derived(path: str, function: Any, **arguments: Any) -> Derived:
    """A leaf worked out by a formula from other leaves."""
    return Derived(path, function, arguments)
