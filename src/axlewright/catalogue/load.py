"""Reading the catalogue's data files, each once and only when asked for."""

from __future__ import annotations

import functools
import hashlib
import tomllib
from importlib.resources import files
from typing import TypeVar

from axlewright.catalogue import rows

TABLES: dict[str, type[rows.Row]] = {
    "irons": rows.Iron,
    "steels": rows.Steel,
    "splines": rows.Spline,
    "axle_shafts": rows.AxleShaft,
    "ring_gears": rows.RingGear,
    "universal_joints": rows.UniversalJoint,
    "tubes": rows.Tube,
    "bearings": rows.Bearing,
    "bolt_grades": rows.BoltGrade,
    "bolt_sizes": rows.BoltSize,
    "tires": rows.Tire,
    "gear_oils": rows.GearOil,
    "suspensions": rows.Suspension,
    "differentials": rows.Differential,
    "findings": rows.Finding,
    "features": rows.Feature,
}
R = TypeVar("R", bound=rows.Row)


@functools.cache
def _text(name: str) -> str:
    return files(__package__).joinpath("data", f"{name}.toml").read_text(encoding="utf-8")


@functools.cache
def data_hash() -> str:
    """Short hash of all catalogue data, so that a report names what it was made from."""
    digest = hashlib.sha256("".join(_text(n) for n in sorted(TABLES)).encode())
    return digest.hexdigest()[:12]


@functools.cache
def raw_table(name: str) -> dict[str, dict[str, object]]:
    """Rows of a catalogue table as written."""
    return tomllib.loads(_text(name))


@functools.cache
def row(model: type[R], name: str) -> R | None:
    """One row by its type and name, read when asked for; None if there is none."""
    written = raw_table(table_of(model)).get(name)
    return None if written is None else model.model_validate(written)


def table_of(model: type[rows.Row]) -> str:
    """Name of the table that holds a row type."""
    return next(n for n, m in TABLES.items() if m is model)


def names_of(model: type[rows.Row]) -> tuple[str, ...]:
    """Names of the rows of a type, in the order of the file."""
    return tuple(raw_table(table_of(model)))


def rows_of(model: type[R]) -> dict[str, R]:
    """Every row of a type by name."""
    return {name: found for name in names_of(model) if (found := row(model, name)) is not None}


def table(name: str) -> dict[str, rows.Row]:
    """Every row of a table by the table's name."""
    return rows_of(TABLES[name])
