"""Watching samples: which share of them leaves a formula's range of validity."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np

from axlewright.quantities.formula import Choice, Formula, settle, tracer
from axlewright.quantities.recall import Recalling, afresh
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import significant

_WORTH_SAYING = 0.05


class SampleWatcher:
    """Evaluates formulas on arrays and notes the share of samples outside their range."""

    def __init__(self, recall: Recalling = afresh) -> None:
        self.recall = recall
        self.shares: dict[tuple[str, str], float] = {}
        self._said: dict[tuple[str, str], Formula] = {}

    def formula(self, what: Formula, args: tuple[Any, ...], kwargs: dict[str, Any]) -> Any:
        """Evaluate as if nobody watched, and look at the arguments that have a range."""
        if kwargs:
            args = what.positional(args, kwargs)
        result, outside = self.recall(what.name, lambda *given: _watched(what, given), *args)
        for name, share in outside:
            if share > self.shares.get((what.name, name), 0.0):
                self.shares[what.name, name] = share
                self._said[what.name, name] = what
        return result

    def choice(self, what: Choice, branches: dict[str, Any]) -> Any:
        """Settle the choice."""
        return self.recall(what.rule, lambda *given: settle(what.rule, given), *branches.values())

    def cautions(self, already: set[str]) -> Iterator[str]:
        """Say where more than a few samples left a range, except where it has been said."""
        table = symbols()
        for (formula, name), share in self.shares.items():
            if share < _WORTH_SAYING or f"{formula}({name})" in already:
                continue
            means = table[name].means if name in table else name
            what = self._said[formula, name]
            yield (
                f"{what.summary.rstrip('.')}: in {significant(share * 100, 2)} % of the samples"
                f" the {means} is outside the range" + (f": {what.outside}" if what.outside else "")
            )


def _watched(what: Formula, args: tuple[Any, ...]) -> tuple[Any, list[tuple[str, float]]]:
    """A formula's result, and the share of samples outside for each argument that leaves."""
    shares = [
        (name, share)
        for name, (low, high) in what.valid.items()
        if (place := what.names.index(name)) < len(args)
        and (share := _outside(args[place], low, high)) > 0.0
    ]
    return what.function(*args), shares


def _outside(value: Any, low: float | None, high: float | None) -> float:
    """Share of samples outside the bounds; the ends alone tell that there are none."""
    if value is None:
        return 0.0
    samples = np.asarray(value)
    below = low is not None and bool(samples.min() < low)
    above = high is not None and bool(samples.max() > high)
    if not below and not above:
        return 0.0
    outside = np.zeros(samples.shape, dtype=bool)
    if below:
        outside |= samples < low
    if above:
        outside |= samples > high
    return float(np.mean(outside))


@contextmanager
def watching(recall: Recalling = afresh) -> Iterator[SampleWatcher]:
    """Watch every formula evaluated on samples inside the block."""
    active = SampleWatcher(recall)
    token = tracer.set(active)
    try:
        yield active
    finally:
        tracer.reset(token)
