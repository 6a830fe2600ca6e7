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
def table(name: str) -> dict[str, rows.Row]:
    """Rows of a catalogue table by name."""
    model = TABLES[name]
    text = _text(name)
    return {key: model.model_validate(row) for key, row in tomllib.loads(text).items()}


def rows_of(model: type[R]) -> dict[str, R]:
    """Rows of the table that holds a row type."""
    name = next(n for n, m in TABLES.items() if m is model)
    return {k: r for k, r in table(name).items() if isinstance(r, model)}
