"""Formulas: plain functions that carry their symbol, dimension, source and range of validity.

A formula is written once, as straight-line NumPy code on SI floats or arrays::

    @formula("τ", "stress", source="Shigley, eq. 3-37 (from memory)", valid={"diameter": (0, None)})
    def torsion_shear(torque: Num, diameter: Num) -> Num:
        \"\"\"Shear stress at the surface of a solid round shaft.\"\"\"
        return 16.0 * torque / (np.pi * diameter**3)

Called normally it costs one extra test.  Under a tracer (see :mod:`working`) the same call
records itself, so the working that a reader opens is this very code and cannot drift from it.
"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Mapping, Sequence
from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import Any, Literal, ParamSpec, Protocol, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Num = float | Array
"""A number in SI: one float, or an array of samples that broadcasts."""

Kind = Literal["formula", "lookup", "solve", "simulation"]
Bounds = tuple[float | None, float | None]

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True)
class Formula:
    """What is known about a formula besides its code."""

    name: str
    symbol: str
    dimension: str
    source: str
    function: Callable[..., Any]
    kind: Kind = "formula"
    valid: Mapping[str, Bounds] = field(default_factory=dict)
    outside: str = ""
    symbols: Mapping[str, str] = field(default_factory=dict)

    @functools.cached_property
    def signature(self) -> inspect.Signature:
        """Names and defaults of the arguments."""
        return inspect.signature(self.function)

    @functools.cached_property
    def _defaults(self) -> dict[str, Any]:
        """Defaults by name, in the order of the signature; an argument without one has none."""
        return {
            name: p.default
            for name, p in self.signature.parameters.items()
            if p.default is not inspect.Parameter.empty
        }

    @functools.cached_property
    def names(self) -> tuple[str, ...]:
        """Names of the arguments in order."""
        return tuple(self.signature.parameters)

    @functools.cached_property
    def _all_names(self) -> frozenset[str]:
        """The same as a set."""
        return frozenset(self.names)

    def named(self, args: tuple[Any, ...], kwargs: dict[str, Any]) -> dict[str, Any]:
        """Arguments of a call by name, without those left to their defaults."""
        return dict(zip(self.names, args, strict=False)) | kwargs

    def whole(self, given: dict[str, Any]) -> dict[str, Any]:
        """The same with the defaults of what was left out; raises like the call itself would."""
        if len(given) != len(self.names):
            given = self._defaults | given
        if given.keys() != self._all_names:
            self.signature.bind(**given)
        return given

    def positional(self, args: tuple[Any, ...], kwargs: dict[str, Any]) -> tuple[Any, ...]:
        """All arguments of a call in the order of the signature, defaults included."""
        given = self.whole(self.named(args, kwargs))
        return tuple([given[name] for name in self.names])

    @property
    def summary(self) -> str:
        """First line of the docstring."""
        return (inspect.getdoc(self.function) or self.name).splitlines()[0]


class Tracer(Protocol):
    """Whoever wants to see each formula as it is evaluated."""

    def formula(self, what: Formula, args: tuple[Any, ...], kwargs: dict[str, Any]) -> Any:
        """Evaluate the formula and note whatever the tracer is after."""

    def choice(self, what: Choice, branches: dict[str, Any]) -> Any:
        """Note which branch governs and give its value."""


@dataclass(frozen=True)
class Choice:
    """A point where the smaller or larger of several branches governs."""

    name: str
    symbol: str
    dimension: str
    rule: Literal["least", "greatest"]


REGISTRY: dict[str, Formula] = {}
tracer: ContextVar[Tracer | None] = ContextVar("tracer", default=None)


def formula(
    symbol: str,
    dimension: str,
    *,
    source: str,
    kind: Kind = "formula",
    valid: Mapping[str, Bounds] | None = None,
    outside: str = "",
    symbols: Mapping[str, str] | None = None,
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register a function as a formula.

    ``valid`` gives the range in SI within which each named argument may lie, ``outside`` says in
    plain words what it means to leave it.  ``kind`` other than ``formula`` marks code whose
    working cannot be shown as one expression (a table, an iteration, a march in time).
    ``symbols`` overrides the symbol of an argument where the table of symbols has another one.
    The registry name is the module path below the package plus the function's name.
    """

    def register(function: Callable[P, R]) -> Callable[P, R]:
        module = function.__module__.removeprefix("axlewright.")
        what = Formula(
            name=f"{module}.{function.__name__}",
            symbol=symbol,
            dimension=dimension,
            source=source,
            function=function,
            kind=kind,
            valid=dict(valid or {}),
            outside=outside,
            symbols=dict(symbols or {}),
        )
        REGISTRY[what.name] = what

        @functools.wraps(function)
        def evaluate(*args: P.args, **kwargs: P.kwargs) -> R:
            watching = tracer.get()
            if watching is None:
                return function(*args, **kwargs)
            return cast(R, watching.formula(what, args, kwargs))

        return evaluate

    return register


def least(name: str, symbol: str, dimension: str, **branches: Num) -> Num:
    """Elementwise smallest of the named branches; the working keeps the losing ones."""
    return _govern(Choice(name, symbol, dimension, "least"), branches)


def greatest(name: str, symbol: str, dimension: str, **branches: Num) -> Num:
    """Elementwise largest of the named branches; the working keeps the losing ones."""
    return _govern(Choice(name, symbol, dimension, "greatest"), branches)


def _govern(what: Choice, branches: dict[str, Num]) -> Num:
    if not branches:
        raise ValueError(f"{what.name}: no branch to choose from")
    watching = tracer.get()
    if watching is not None:
        return cast(Num, watching.choice(what, branches))
    return settle(what.rule, list(branches.values()))


def settle(rule: Literal["least", "greatest"], values: Sequence[Num]) -> Num:
    """Reduce the branches of a choice by its rule."""
    pick = np.minimum if rule == "least" else np.maximum
    return functools.reduce(pick, values)
