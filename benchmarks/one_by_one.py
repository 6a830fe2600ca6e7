"""The same formulas once more, one sample at a time and with ``math`` only: the yardstick.

The modules of the load path are read again from their own source, with a stand-in for numpy whose
functions are those of ``math``.  Three things are rewritten on the way, each to what a programmer
without arrays would write: ``np.where(c, a, b)`` becomes ``a if c else b``, a trailing ``[()]`` is
dropped, ``x.astype(int)`` becomes ``int(x)``.  Nothing else changes, so whatever ratio comes out
is that of arrays to loops and not that of two programs.
"""

from __future__ import annotations

import ast
import bisect
import contextlib
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import math
import sys
from collections.abc import Callable, Iterator, Sequence
from types import ModuleType
from typing import Any

_PACKAGE = "axlewright"


class Table(list):  # type: ignore[type-arg]
    """A short table of constants: as much of an array as the look-ups ask for."""

    @property
    def size(self) -> int:
        """Number of entries."""
        return len(self)

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, tuple):
            here: Any = self
            for i in at:
                here = list.__getitem__(here, int(i))
            return here
        found = list.__getitem__(self, at)
        return Table(found) if isinstance(at, slice) else found

    def __mul__(self, by: Any) -> Table:
        return Table(x * by for x in self)

    __rmul__ = __mul__

    def __rtruediv__(self, over: float) -> Table:
        return Table(over / x for x in self)


def _table(values: Any) -> Any:
    return Table(_table(v) for v in values) if isinstance(values, list | tuple) else values


def _each(function: Callable[[float], float]) -> Callable[[Any], Any]:
    def on(value: Any) -> Any:
        return Table(map(function, value)) if isinstance(value, list | tuple) else function(value)

    return on


def _interp(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect.bisect_right(xs, x) - 1
    return ys[i] + (ys[i + 1] - ys[i]) / (xs[i + 1] - xs[i]) * (x - xs[i])


def _searchsorted(edges: Sequence[float], value: float, side: str = "left") -> int:
    return (bisect.bisect_right if side == "right" else bisect.bisect_left)(edges, value)


class _Typing:
    def __class_getitem__(cls, item: Any) -> type:
        return object


def _numpy() -> dict[str, ModuleType]:
    np = ModuleType("numpy")
    plain = {
        "pi": math.pi, "inf": math.inf, "nan": math.nan, "float64": float, "intp": int,
        "bool_": bool, "floating": _Typing, "sin": math.sin, "cos": math.cos, "tan": math.tan,
        "arcsin": math.asin, "arccos": math.acos, "arctan": math.atan, "arctan2": math.atan2,
        "sqrt": math.sqrt, "exp": math.exp, "log": math.log, "log10": _each(math.log10),
        "radians": math.radians, "abs": abs, "floor": math.floor, "isfinite": math.isfinite,
        "minimum": lambda a, b: a if a <= b else b,
        "maximum": lambda a, b: a if a >= b else b,
        "clip": lambda x, low, high: low if x < low else high if x > high else x,
        "interp": _interp, "searchsorted": _searchsorted, "array": _table,
        "arange": lambda n: Table(float(i) for i in range(int(n))),
        "multiply": lambda a, b: Table(x * y for x, y in zip(a, b, strict=True)),
        "errstate": lambda **_: contextlib.nullcontext(),
    }  # fmt: skip
    vars(np).update(plain)
    typing = ModuleType("numpy.typing")
    vars(typing)["NDArray"] = _Typing
    vars(np)["typing"] = typing
    return {"numpy": np, "numpy.typing": typing}


class _Rewrite(ast.NodeTransformer):
    """Array idioms to plain Python."""

    def visit_Subscript(self, node: ast.Subscript) -> ast.AST:
        self.generic_visit(node)
        empty = isinstance(node.slice, ast.Tuple) and not node.slice.elts
        return node.value if empty else node

    def visit_Call(self, node: ast.Call) -> ast.AST:
        self.generic_visit(node)
        match node:
            case ast.Call(func=ast.Attribute(value=ast.Name("np"), attr="where"), args=[c, a, b]):
                return ast.copy_location(ast.IfExp(c, a, b), node)
            case ast.Call(func=ast.Attribute(value=value, attr="astype"), args=[ast.Name("int")]):
                whole = ast.Call(ast.Name("int", ast.Load()), [value], [])
                return ast.copy_location(ast.fix_missing_locations(whole), node)
        return node


class _Loader(importlib.machinery.SourceFileLoader):
    def get_code(self, fullname: str) -> Any:
        path = self.get_filename(fullname)
        tree = _Rewrite().visit(ast.parse(self.get_data(path), path))
        return compile(ast.fix_missing_locations(tree), path, "exec", dont_inherit=True)


class _Finder(importlib.abc.MetaPathFinder):
    def find_spec(self, name: str, path: Any, target: Any = None) -> Any:
        if name != _PACKAGE and not name.startswith(f"{_PACKAGE}."):
            return None
        spec = importlib.machinery.PathFinder.find_spec(name, path)
        if spec is None or spec.origin is None:
            return spec
        return importlib.util.spec_from_file_location(
            name,
            spec.origin,
            loader=_Loader(name, spec.origin),
            submodule_search_locations=spec.submodule_search_locations,
        )


@contextlib.contextmanager
def _without_numpy() -> Iterator[None]:
    """Inside, the package is imported anew and sees the stand-in; afterwards all is as before."""

    def ours(name: str) -> bool:
        return name.partition(".")[0] in {_PACKAGE, "numpy"}

    kept = {n: m for n, m in sys.modules.items() if ours(n)}
    for name in kept:
        del sys.modules[name]
    sys.modules.update(_numpy())
    finder = _Finder()
    sys.meta_path.insert(0, finder)
    try:
        yield
    finally:
        sys.meta_path.remove(finder)
        for name in [n for n in sys.modules if ours(n)]:
            del sys.modules[name]
        sys.modules.update(kept)


def evaluate_one_by_one() -> Callable[[Any], Any]:
    """``studies.path.evaluate`` for one machine of plain floats, without numpy behind it."""
    with _without_numpy():
        path = importlib.import_module(f"{_PACKAGE}.studies.path")
    evaluate: Callable[[Any], Any] = path.evaluate
    return evaluate
