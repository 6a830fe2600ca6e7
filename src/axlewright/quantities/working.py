"""Working: how a number came about, recorded from the very code that computed it.

Under :func:`tracing`, formulas work on :class:`Traced` floats that carry the node they came from.
A node is an input, a formula, a table look-up, a choice between branches, an iteration or a
statistic; each shows what it honestly can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, Literal

import numpy as np

from axlewright.quantities.algebra import render, straight_line
from axlewright.quantities.estimate import Derived, Estimate, Filler, Marched, Mixture
from axlewright.quantities.formula import Array, Choice, Formula, Num, settle, tracer
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import DIMENSIONS, System, pretty, show, significant

NodeKind = Literal["input", "formula", "lookup", "solve", "simulation", "choice", "mixture"]
_DIGITS = 5
_FEW = 3
"""Points of a curve that are printed before its last one."""


@dataclass(frozen=True, eq=False)
class Node:
    """One step of the working; ``arguments`` are the steps (or plain values) that it used."""

    kind: NodeKind
    name: str
    symbol: str
    dimension: str
    value: float
    arguments: dict[str, Node | Any] = field(default_factory=dict)
    formula: Formula | None = None
    estimate: Estimate | None = None
    governs: str = ""
    outside: tuple[str, ...] = ()
    output: str = ""


class Traced(float):
    """A float that remembers the node it came from; arithmetic on it forgets, on purpose."""

    __slots__ = ("node",)
    node: Node

    def __new__(cls, node: Node) -> Traced:
        """Wrap a node's value."""
        made = super().__new__(cls, node.value)
        made.node = node
        return made


class NominalTracer:
    """Evaluates formulas on traced floats, records nodes, validity and what lost its origin."""

    def __init__(self) -> None:
        self.used: dict[str, Formula] = {}
        self.outside: dict[str, str] = {}
        self.untracked: list[str] = []

    def formula(self, what: Formula, args: tuple[Any, ...], kwargs: dict[str, Any]) -> Any:
        """Evaluate on plain floats, wrap the result with its node."""
        given = what.named(args, kwargs)
        nodes = dict(what.whole(given))
        plain = nodes.copy()
        for name, value in plain.items():
            if type(value) is Traced:
                nodes[name], plain[name] = value.node, float(value)
            elif isinstance(value, float) and name in given:
                self.untracked.append(f"{what.name}({name})")
        self.used[what.name] = what
        broken = self._check_range(what, plain) if what.valid else ()
        return _wrap(what, what.function(**plain), nodes, broken)

    def _check_range(self, what: Formula, plain: dict[str, Any]) -> tuple[str, ...]:
        broken = []
        for name, (low, high) in what.valid.items():
            value = plain[name]
            if (low is not None and value < low) or (high is not None and value > high):
                broken.append(out_of_range(what, name, value, low, high))
                self.outside[f"{what.name}({name})"] = broken[-1]
        return tuple(broken)

    def choice(self, what: Choice, branches: dict[str, Any]) -> Any:
        """Wrap the governing branch's value, keeping the others for the reader."""
        value = float(settle(what.rule, [float(b) for b in branches.values()]))
        governs = next((k for k, b in branches.items() if float(b) == value), "")
        nodes = {k: b.node if isinstance(b, Traced) else b for k, b in branches.items()}
        self.untracked += [f"{what.name}({k})" for k, b in nodes.items() if isinstance(b, float)]
        return Traced(
            Node("choice", what.name, what.symbol, what.dimension, value, nodes, governs=governs)
        )


def _wrap(what: Formula, result: Any, nodes: dict[str, Any], broken: tuple[str, ...]) -> Any:
    if hasattr(result, "_fields"):
        each = (_one(what, v, nodes, broken, f) for f, v in result._asdict().items())
        return type(result)(*each)
    return _one(what, result, nodes, broken, "")


def _one(
    what: Formula, value: Any, nodes: dict[str, Any], broken: tuple[str, ...], output: str
) -> Traced:
    """Wrap one result; a frozen dataclass's own start sets each field by a call: far slower."""
    node = object.__new__(Node)
    node.__dict__.update(
        kind=what.kind,
        name=what.name,
        symbol=what.symbol,
        dimension=what.dimension,
        value=float(value),
        arguments=nodes,
        formula=what,
        outside=broken,
        output=output,
    )
    return Traced(node)


def dimension_of(node: Node) -> str:
    """Dimension of a node; one of several results of a formula has its own."""
    return symbols()[node.output].dimension if node.output else node.dimension


def symbol_of(node: Node) -> str:
    """Symbol of a node; one of several results of a formula has its own."""
    return symbols()[node.output].symbol if node.output else node.symbol


def out_of_range(
    what: Formula, name: str, value: float, low: float | None, high: float | None
) -> str:
    """Say in words that an argument left a formula's range of validity."""
    known = symbols().get(name)
    dimension = known.dimension if known else "ratio"
    means = known.means if known else name
    limits = " to ".join(show(b, dimension) for b in (low, high) if b is not None)
    sense = "at least " if high is None else "at most " if low is None else ""
    tail = f": {what.outside}" if what.outside else ""
    head = f"{what.summary.rstrip('.')}: {means} is {show(value, dimension)}"
    return f"{head}, valid {sense}{limits}{tail}"


@contextmanager
def tracing() -> Iterator[NominalTracer]:
    """Trace every formula evaluated inside the block."""
    active = NominalTracer()
    token = tracer.set(active)
    try:
        yield active
    finally:
        tracer.reset(token)


class Nominal(Filler):
    """Fills a tree with traced nominal values."""

    def estimate(self, leaf: Estimate) -> Num:
        """The estimate's value, knowing it is an input."""
        return Traced(Node("input", leaf.path, "", leaf.dimension, leaf.value, estimate=leaf))

    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """The option of the likeliest kind, keeping the others for the reader."""
        kinds = leaf.choice.kinds
        picked = options[leaf.choice.likeliest]
        if sum(w > 0 for w in leaf.choice.weights) == 1:
            return picked
        nodes = {
            f"{k} ({significant(w * 100, 2)} %)": getattr(o, "node", o)
            for k, w, o in zip(kinds, leaf.choice.weights, options, strict=True)
        }
        governs = list(nodes)[leaf.choice.likeliest]
        dimension = dimension_of(picked.node) if isinstance(picked, Traced) else "ratio"
        return Traced(
            Node("mixture", leaf.path, "", dimension, float(picked), nodes, governs=governs)
        )

    def marched(self, leaf: Marched) -> Num:
        """The ratio that the march found on the likeliest car."""
        return Traced(Node("simulation", leaf.means or leaf.path, "", "ratio", leaf.value))

    def derived(self, leaf: Derived, arguments: dict[str, Num]) -> Num:
        """The derived value with its own working."""
        return leaf.function(**arguments)


@dataclass(frozen=True)
class Step:
    """One printed step of a working."""

    depth: int
    title: str
    result: str
    lines: tuple[str, ...]
    source: str
    origin: str
    node: Node


def steps(node: Node, system: System = "shop") -> list[Step]:
    """The working of a node as printed steps, the answer first, each step once."""
    out: list[Step] = []
    seen: set[int] = set()

    def visit(n: Node, depth: int) -> None:
        if id(n) in seen:
            return
        seen.add(id(n))
        out.append(_step(n, depth, system))
        for child in n.arguments.values():
            if isinstance(child, Node):
                visit(child, depth + 1)

    visit(node, 0)
    return out


def _step(node: Node, depth: int, system: System) -> Step:
    result = show(node.value, dimension_of(node), system, _DIGITS)
    if node.kind == "input" and node.estimate is not None:
        e = node.estimate
        return Step(
            depth, e.means or e.path, result, (_spread_text(e, system),), e.source, e.origin, node
        )
    if node.formula is None:
        lines = tuple(
            f"{'▸' if k == node.governs else '·'} {k.replace('_', ' ')}:"
            f" {_value_text(c, dimension_of(node), system)}"
            for k, c in node.arguments.items()
        )
        return Step(depth, node.name, result, lines, "", "", node)
    lines = (*_expression(node, system), *node.outside)
    return Step(depth, node.formula.summary, result, lines, node.formula.source, "", node)


def _value_text(child: Node | Any, dimension: str, system: System) -> str:
    if isinstance(child, Node):
        return show(child.value, dimension_of(child), system, _DIGITS)
    return show(child, dimension, system, _DIGITS) if isinstance(child, float) else str(child)


def _spread_text(e: Estimate, system: System) -> str:
    low = getattr(e.spread, "low", None)
    if low is not None:
        high = e.spread.high  # type: ignore[union-attr]
        return f"between {show(low, e.dimension, system)} and {show(high, e.dimension, system)}"
    share = getattr(e.spread, "share", None)
    return f"scatter {significant(share * 100, 2)} % (one standard deviation)" if share else "exact"


def _expression(node: Node, system: System) -> tuple[str, ...]:
    what = node.formula
    assert what is not None
    table = symbols()
    names = {
        n: what.symbols.get(n) or (table[n].symbol if n in table else n) for n in node.arguments
    }
    where = ", ".join(
        f"{names[n]} = {_argument_text(n, c, system)}" for n, c in node.arguments.items()
    )
    head = f"{symbol_of(node)} — {table[node.output].means}" if node.output else symbol_of(node)
    if what.kind != "formula":
        how = {"lookup": "read from a table", "solve": "found by iteration"}.get(
            what.kind, "marched in time"
        )
        return (f"{head}: {how} with {where}",)
    values = {n: _si_text(c) for n, c in node.arguments.items()}
    lines = []
    for name, expression in straight_line(what.function):
        lines.append(f"{name or head} = {render(expression, names)}")
    if len(lines) == 1:
        unit = pretty(DIMENSIONS[dimension_of(node)].si)
        tail = f"{render(straight_line(what.function)[-1][1], values)}"
        answer = f"{significant(node.value, _DIGITS)} {unit}".strip()
        lines.append(f"  = {tail} = {answer} (SI)")
    return (*lines, f"with {where}")


def _argument_text(name: str, child: Node | Any, system: System) -> str:
    known = symbols().get(name)
    dimension = (
        dimension_of(child) if isinstance(child, Node) else known.dimension if known else "ratio"
    )
    if isinstance(child, Node):
        return show(child.value, dimension, system, _DIGITS)
    if isinstance(child, tuple | list | np.ndarray):
        return _points_text(child, lambda v: show(v, dimension, system, _DIGITS))
    return (
        show(float(child), dimension, system, _DIGITS)
        if isinstance(child, int | float)
        else str(child)
    )


def _si_text(child: Node | Any) -> str:
    value = child.value if isinstance(child, Node) else child
    if isinstance(value, tuple | list | np.ndarray):
        return _points_text(value, lambda v: significant(v, _DIGITS))
    return significant(float(value), _DIGITS) if isinstance(value, int | float) else str(value)


def _points_text(points: Sequence[Any] | Array, text: Callable[[float], str]) -> str:
    """Points of a curve: how many, the first few and the last."""
    told = [text(float(p)) for p in points]
    shown = told if len(told) <= _FEW + 1 else [*told[:_FEW], "…", told[-1]]
    return f"{len(told)} points ({', '.join(shown).replace(', …,', ' …')})"
