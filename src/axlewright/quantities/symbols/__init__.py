"""The table of symbols: one name, one symbol, one dimension, for every formula's arguments."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from importlib.resources import files


@dataclass(frozen=True)
class Symbol:
    """How an argument is printed and what it means."""

    name: str
    symbol: str
    dimension: str
    means: str
    area: str


@functools.cache
def symbols() -> dict[str, Symbol]:
    """All symbols by name; a name defined twice is a fault of the project."""
    table: dict[str, Symbol] = {}
    for path in sorted(files(__package__).iterdir(), key=lambda p: p.name):
        if not path.name.endswith(".toml"):
            continue
        area = path.name.removesuffix(".toml")
        for name, row in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if name in table:
                raise ValueError(f"symbol {name} stands in {table[name].area} and in {area}")
            table[name] = Symbol(name, row["symbol"], row["dimension"], row["means"], area)
    return table
