"""Every formula of the program by name; what a case may refer to."""

from __future__ import annotations

import difflib
import functools
import importlib
import pkgutil

from axlewright import driveline, fit, hypoid, measuring, mechanics, suspension, vehicle
from axlewright.quantities.formula import REGISTRY, Formula

_ROOMS = (mechanics, vehicle, driveline, suspension, hypoid, fit, measuring)


@functools.cache
def _import_all() -> frozenset[str]:
    """Import every module that holds formulas; gives their names."""
    found = [
        info.name
        for room in _ROOMS
        for info in pkgutil.walk_packages(room.__path__, f"{room.__name__}.")
    ]
    for name in found:
        importlib.import_module(name)
    return frozenset(name.removeprefix("axlewright.") for name in found)


def all_formulas() -> dict[str, Formula]:
    """Every formula of the package, by its registry name, in order of name."""
    modules = _import_all()
    return {n: f for n, f in sorted(REGISTRY.items()) if n.rpartition(".")[0] in modules}


def nearest(name: str, count: int = 3) -> list[str]:
    """Registry names that a mistyped one may have meant; the last word counts most."""
    known = list(all_formulas())
    last: dict[str, str] = {}
    for full in known:
        last.setdefault(full.rpartition(".")[2], full)
    by_word = difflib.get_close_matches(name.rpartition(".")[2], last, n=count, cutoff=0.75)
    by_whole = difflib.get_close_matches(name, known, n=count, cutoff=0.6)
    return list(dict.fromkeys([*(last[w] for w in by_word), *by_whole]))[:count]
