"""Estimates: what is known of an input, with its spread, origin and source.

A tree of estimates is *filled* three ways: with nominal values that carry their origin (for the
answer and its working), with arrays of samples (for the bands), or plainly.  Formulas never see
an estimate, only what it was filled with.
"""

from __future__ import annotations

import functools
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import Any, Literal

import numpy as np

from axlewright.quantities.formula import Array, Num
from axlewright.quantities.normal import normal_quantile
from axlewright.quantities.records import record

Origin = Literal["measured", "stated", "assumed", "catalogue"]


@record
class Exact:
    """No spread: counts, standards, the builder's choices."""

    def at(self, value: float, u: Array) -> Num:
        """Value at each probability."""
        return np.full_like(u, value)

    def scaled(self, by: float) -> Exact:
        """The same knowledge of a quantity ``by`` times as large."""
        del by
        return self


@record
class Limits:
    """Shop limits: surely between ``low`` and ``high``, most likely at the value (triangular)."""

    low: float
    high: float

    def at(self, value: float, u: Array) -> Num:
        """Value at each probability (inverse of the triangular distribution)."""
        width = self.high - self.low
        if width <= 0.0:
            return np.full_like(u, value)
        mode = (min(max(value, self.low), self.high) - self.low) / width
        side = (u >= mode).astype(np.float64)  # 0 where rising, 1 where falling
        far = side - u  # up to a sign u where rising, 1 - u where falling; no branch to guess
        share = side - mode  # likewise mode and 1 - mode
        far *= share  # both have one sign
        np.sqrt(far, out=far)
        np.subtract(side, far, out=far)
        np.abs(far, out=far)
        far *= width
        far += self.low
        return far

    def scaled(self, by: float) -> Limits:
        """The same knowledge of a quantity ``by`` times as large."""
        ends = sorted((self.low * by, self.high * by))
        return Limits(ends[0], ends[1])


@record
class Scatter:
    """Natural scatter from piece to piece: lognormal about the value, ``share`` its deviation."""

    share: float

    def at(self, value: float, u: Array) -> Num:
        """Value at each probability, cut at 3.5 standard deviations."""
        z = np.clip(normal_quantile(u), -3.5, 3.5)
        return value * np.exp(self.share * z)

    def scaled(self, by: float) -> Scatter:
        """The same knowledge of a quantity ``by`` times as large."""
        del by
        return self


Spread = Exact | Limits | Scatter
EXACT = Exact()


@record
class Estimate:
    """One input: SI value, spread, where it comes from, and how to know it better.

    ``identity`` names the draw: estimates that share it move together (two shafts of one bar).
    """

    path: str
    value: float
    dimension: str
    spread: Spread = EXACT
    origin: Origin = "stated"
    source: str = ""
    identity: str = ""
    advice: str = ""
    means: str = ""
    text: str = ""

    @property
    def draw(self) -> str:
        """Name of the random draw behind it."""
        return self.identity or self.path

    def times(self, by: float, path: str = "") -> Estimate:
        """The same knowledge of a quantity ``by`` times as large."""
        return replace(
            self, value=self.value * by, spread=self.spread.scaled(by), path=path or self.path
        )


@record
class Kinds:
    """An unknown kind: gray or nodular iron, open or locked; weights say what is likely."""

    path: str
    kinds: tuple[str, ...]
    weights: tuple[float, ...]
    origin: Origin = "assumed"
    source: str = ""
    advice: str = ""
    means: str = ""

    @property
    def likeliest(self) -> int:
        """Index of the most likely kind."""
        return max(range(len(self.kinds)), key=self.weights.__getitem__)


@record
class Mixture:
    """A value that depends on an unknown kind: one leaf for each kind."""

    path: str
    choice: Kinds
    options: tuple[Any, ...]


@record
class Derived:
    """A value worked out from other leaves by a formula, under its own path."""

    path: str
    function: Callable[..., Num]
    arguments: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class Marched:
    """A ratio that a march in time found: nominal, and for the samples of one seed in order."""

    path: str
    value: float
    values: Array
    seed: int
    means: str = ""


Leaf = Estimate | Mixture | Derived | Marched


@functools.cache
def _names(kind: type[Any]) -> tuple[str, ...]:
    """Names of the fields of a dataclass."""
    return tuple(f.name for f in fields(kind))


class Filler(ABC):
    """Turns leaves into values, each once; subclasses say what an estimate becomes."""

    def __init__(self) -> None:
        self._done: dict[str, Num] = {}

    @abstractmethod
    def estimate(self, leaf: Estimate) -> Num:
        """Value of an estimate."""

    @abstractmethod
    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """Value of a mixture whose options have been filled."""

    def derived(self, leaf: Derived, arguments: dict[str, Num]) -> Num:
        """Value of a derived leaf whose arguments have been filled."""
        del self
        return leaf.function(**arguments)

    def marched(self, leaf: Marched) -> Num:
        """Value of what a march found."""
        del self
        return leaf.value

    def fill(self, leaf: Leaf) -> Num:
        """Value of any leaf, worked out once per path."""
        if leaf.path not in self._done:
            self._done[leaf.path] = self._fill(leaf)
        return self._done[leaf.path]

    def _fill(self, leaf: Leaf) -> Num:
        if isinstance(leaf, Estimate):
            return self.estimate(leaf)
        if isinstance(leaf, Mixture):
            return self.mixture(leaf, [self.fill(o) for o in leaf.options])
        if isinstance(leaf, Marched):
            return self.marched(leaf)
        return self.derived(
            leaf,
            {k: self.fill(v) if isinstance(v, Leaf) else v for k, v in leaf.arguments.items()},
        )

    def tree(self, node: Any) -> Any:
        """Copy a tree of dataclasses, tuples and dictionaries with every leaf filled."""
        return self._tree(node)

    def _tree(self, node: Any) -> Any:
        if isinstance(node, Leaf):
            return self.fill(node)
        if isinstance(node, tuple):
            return tuple(self._tree(n) for n in node)
        if isinstance(node, dict):
            return {k: self._tree(v) for k, v in node.items()}
        if is_dataclass(node) and not isinstance(node, type):
            if isinstance(node, Kinds):
                return node
            return type(node)(**{f: self._tree(getattr(node, f)) for f in _names(type(node))})
        return node


class Plain(Filler):
    """Fills a tree with bare nominal values: the fastest way, with no working."""

    def estimate(self, leaf: Estimate) -> Num:
        """The nominal value."""
        return leaf.value

    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """The option of the likeliest kind."""
        return options[leaf.choice.likeliest]


def leaves(
    node: Any, seen: dict[str, Estimate | Kinds] | None = None
) -> dict[str, Estimate | Kinds]:
    """Every estimate and unknown kind in a tree, by path, in order of appearance."""
    seen = {} if seen is None else seen
    if isinstance(node, Estimate | Kinds):
        seen.setdefault(node.path, node)
    elif isinstance(node, Mixture):
        leaves(node.choice, seen)
        leaves(node.options, seen)
    elif isinstance(node, Derived):
        leaves(tuple(node.arguments.values()), seen)
    elif isinstance(node, tuple):
        for n in node:
            leaves(n, seen)
    elif isinstance(node, dict):
        leaves(tuple(node.values()), seen)
    elif is_dataclass(node) and not isinstance(node, type):
        for f in _names(type(node)):
            leaves(getattr(node, f), seen)
    return seen
