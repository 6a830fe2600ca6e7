"""The formulary: the table of symbols and every formula as text, printed from the running code."""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Iterator
from itertools import groupby

import axlewright
from axlewright.quantities.algebra import render, straight_line
from axlewright.quantities.formula import Bounds, Formula
from axlewright.quantities.symbols import Symbol, symbols
from axlewright.quantities.units import DIMENSIONS, pretty, show_both
from axlewright.verify.formulas import all_formulas
from axlewright.workshop.reference import markdown_table

ROOMS = ("mechanics", "hypoid", "driveline", "suspension", "vehicle", "fit", "measuring")
"""Packages that hold formulas, the most general first."""

_SYMBOLS_HEAD = """\
# Symbols

One name, one symbol, one dimension for every argument of every formula. Formulas work in SI with
angles in radians; the units here are the ones that are printed."""

_FORMULAS_HEAD = """\
# Formulas

The expressions are printed from the code that computes, in SI with angles in radians; the names of
the symbols stand in [symbols](symbols.md). *Valid* is the range for which the source gives the
formula: outside it the answer carries a caution. `ln` is the natural logarithm."""

_HOW = {
    "lookup": "read from a table",
    "solve": "found by iteration",
    "simulation": "marched step by step",
}


def symbol_page() -> str:
    """The page of all symbols by area."""
    by_area = groupby(sorted(symbols().values(), key=lambda s: (s.area, s.name)), lambda s: s.area)
    parts = [f"## {area}\n\n{_symbols(list(rows))}" for area, rows in by_area]
    return "\n\n".join([_SYMBOLS_HEAD, *parts]) + "\n"


def _symbols(rows: list[Symbol]) -> str:
    lines = [
        [f"`{s.name}`", f"`{s.symbol}`", s.means, s.dimension, _units(s.dimension)] for s in rows
    ]
    return markdown_table(["name", "symbol", "meaning", "dimension", "units"], lines)


def _units(dimension: str) -> str:
    dim = DIMENSIONS[dimension]
    return ", ".join(dict.fromkeys(pretty(u) for u in (dim.shop, dim.metric) if u))


def in_order() -> list[Formula]:
    """Every formula of the program by room and module, as it stands in its module."""
    known = all_formulas().values()
    return sorted(known, key=lambda f: (ROOMS.index(_room(f)), _module(f), _line(f)))


def _room(what: Formula) -> str:
    return what.name.partition(".")[0]


def _module(what: Formula) -> str:
    return what.name.rpartition(".")[0]


def _line(what: Formula) -> int:
    return what.function.__code__.co_firstlineno


def formula_page() -> str:
    """The page of all formulas with their text, validity and source."""
    parts = [_FORMULAS_HEAD]
    for room, inside in groupby(in_order(), _room):
        parts.append(f"## {room}\n\n{_about(room)}")
        for module, rows in groupby(inside, _module):
            parts.append(f"### {module}\n\n{_about(module)}")
            parts += ["\n\n".join(_shown(what)) for what in rows]
    return "\n\n".join(parts) + "\n"


def _about(module: str) -> str:
    said = inspect.getdoc(importlib.import_module(f"{axlewright.__name__}.{module}"))
    return (said or "").partition("\n\n")[0].replace("\n", " ")


def _shown(what: Formula) -> Iterator[str]:
    yield f"#### `{what.name.rpartition('.')[2]}`"
    yield what.summary
    yield "```text\n" + "\n".join(_text(what)) + "\n```"
    notes = [f"- Arguments: {', '.join(_arguments(what))}."]
    if what.valid:
        notes.append(f"- Valid: {', '.join(_validity(what))}.")
    if what.outside:
        notes.append(f"- Outside: {what.outside}.")
    yield "\n".join([*notes, f"- Source: {what.source}."])


def _names(what: Formula) -> dict[str, str]:
    table = symbols()
    return {
        name: what.symbols.get(name) or (table[name].symbol if name in table else name)
        for name in what.signature.parameters
    }


def _text(what: Formula) -> Iterator[str]:
    names = _names(what)
    if what.kind == "formula":
        for left, expression in straight_line(what.function):
            yield f"{left or what.symbol} = {render(expression, names)}"
        return
    result = inspect.signature(what.function, eval_str=True).return_annotation
    for field in getattr(result, "_fields", ("",)):
        symbol = f"{symbols()[field].symbol} ({symbols()[field].means})" if field else what.symbol
        yield f"{symbol}: {_HOW[what.kind]} with {', '.join(names.values())}"


def _arguments(what: Formula) -> Iterator[str]:
    for name, symbol in _names(what).items():
        yield f"`{symbol}` `{name}`"


def _validity(what: Formula) -> Iterator[str]:
    names = _names(what)
    for name, bounds in what.valid.items():
        dimension = symbols()[name].dimension if name in symbols() else "ratio"
        yield f"`{names[name]}` {_bounds(bounds, dimension)}"


def _bounds(bounds: Bounds, dimension: str) -> str:
    low, high = (None if b is None else show_both(b, dimension) for b in bounds)
    if low is None:
        return f"at most {high}"
    return f"at least {low}" if high is None else f"from {low} to {high}"
