"""The keys of a build file as a reader meets them: what each takes, and how it is written.

The template and the reference page are both printed from these entries.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, get_args, get_origin

from axlewright.build.model import Build
from axlewright.catalogue.load import table
from axlewright.quantities.fields import (
    Key,
    dimension_of,
    listed_of,
    meta_of,
    repeatable,
    subsection,
)
from axlewright.quantities.sections import FieldInfo, Section
from axlewright.quantities.units import DIMENSIONS, Dimension, pretty

TABLE_OF_KEY = {
    "driveshaft.tube_steel": "steels",
    "driveshaft.joint": "universal_joints",
    "gearbox.output_spline": "splines",
    "axle.ring_gear": "ring_gears",
    "axle.case_iron": "irons",
    "axle.differential": "differentials",
    "axle.shaft": "axle_shafts",
    "axle.found": "findings",
    "wheels.grip_class": "tires",
    "axle.oil_grade": "gear_oils",
    "gears.head_bearing": "bearings",
    "gears.tail_bearing": "bearings",
    "gears.carrier_bearing": "bearings",
}
"""Keys that name a row of the catalogue, with the table that holds it."""


@dataclass(frozen=True)
class Entry:
    """One key of a build file; ``kinds`` are the words that a choice may take.

    ``repeats`` marks a reading that may be taken several times, ``point`` a place in space.
    """

    path: str
    meta: Key
    dimension: str | None
    kinds: tuple[str, ...]
    bare: bool
    required: bool
    repeats: bool = False
    point: bool = False

    @property
    def name(self) -> str:
        """The key as it stands below its table."""
        return self.path.rpartition(".")[2]

    @property
    def table(self) -> str:
        """Dotted name of the table that holds the key; empty at the top of the file."""
        return self.path.rpartition(".")[0]

    @property
    def named_rows(self) -> tuple[str, ...]:
        """Names in the catalogue that the key may take."""
        return tuple(table(TABLE_OF_KEY[self.path])) if self.path in TABLE_OF_KEY else ()


@dataclass(frozen=True)
class Table:
    """A table of a build file with its keys; ``means`` is its own description."""

    path: str
    means: str
    entries: tuple[Entry, ...]


def tables() -> tuple[Table, ...]:
    """Every table of a build file in its order, the top of the file first."""
    return tuple(_tables(Build, "", "The file itself."))


def _tables(section: type[Section], path: str, means: str) -> Iterator[Table]:
    entries: list[Entry] = []
    inner: list[tuple[type[Section], str, str]] = []
    for name, info in section.model_fields.items():
        here = f"{path}.{name}" if path else name
        below = subsection(info)
        if below is not None:
            inner.append((below, here, meta_of(info).means))
        else:
            entries.append(_entry(here, info))
    yield Table(path, means, tuple(entries))
    for below, here, said in inner:
        yield from _tables(below, here, said)


def _entry(path: str, info: FieldInfo) -> Entry:
    options = {info.annotation, *get_args(info.annotation)}
    choice = next((o for o in options if get_origin(o) is Literal), info.annotation)
    kinds = get_args(choice) if get_origin(choice) is Literal else ()
    listed = listed_of(info)
    bare = dimension_of(info) is None and (
        bool in options
        or int in options
        or listed is not None
        or any(get_origin(o) in {list, dict} for o in options)
    )
    return Entry(
        path,
        meta_of(info),
        dimension_of(info),
        kinds,
        bare,
        info.is_required(),
        repeatable(info),
        listed is not None and listed.point,
    )


def sample(entry: Entry) -> str:
    """A value of the key as it is written in the file: its default if it can be written down."""
    meta = entry.meta
    default = meta.default
    if entry.dimension is not None and isinstance(default, str) and default[:1].isdigit():
        return quoted(default)
    if entry.bare and entry.named_rows:
        return f"[{quoted(entry.named_rows[0])}]"
    if entry.bare:
        return meta.example or "true"
    return quoted(meta.example or likeliest(default) or next(iter(entry.kinds), ""))


def quoted(text: str) -> str:
    """Text as TOML writes it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def likeliest(default: str | dict[str, float]) -> str:
    """The kind with the most weight; nothing for a default in words."""
    return max(default, key=lambda kind: default[kind]) if isinstance(default, dict) else ""


def left_out(entry: Entry) -> str:
    """What stands in when the key is left out, as a phrase; empty if nothing does."""
    default = entry.meta.default
    if isinstance(default, str):
        return default
    if len(default) == 1:
        return next(iter(default))
    return ", ".join(f"{weight * 100:.0f} % {kind}" for kind, weight in default.items())


def takes(entry: Entry) -> str:
    """What kind of value the key takes."""
    if entry.kinds:
        return "a choice"
    if entry.dimension is not None:
        plain = _in_units(DIMENSIONS[entry.dimension])
        return f"{plain}, or a list of readings" if entry.repeats else plain
    if entry.path == "parts":
        return "tables"
    if entry.path in TABLE_OF_KEY:
        return f"catalogue name ({TABLE_OF_KEY[entry.path]})"
    if entry.bare:
        listed = "point: forward, left, up (in, mm)" if entry.point else "list"
        return {"[": listed, "": "yes or no"}.get(entry.meta.example[:1], "whole number")
    return "text"


def _in_units(dim: Dimension) -> str:
    units = ", ".join(dict.fromkeys(pretty(u) for u in (dim.shop, dim.metric) if u))
    return f"{dim.name} ({units})" if units else dim.name
