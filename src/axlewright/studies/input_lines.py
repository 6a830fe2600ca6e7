"""The inputs as a report lists them: printed value and spread, and where each comes from."""

from __future__ import annotations

import functools

from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.units import show, significant
from axlewright.studies.report import InputLine


@functools.lru_cache(maxsize=2048)
def input_line(e: Estimate | Kinds) -> InputLine:
    """An input as used; an edit leaves most as they were, hence the cache."""
    if isinstance(e, Kinds):
        weights = ", ".join(
            f"{k} {significant(w / sum(e.weights) * 100, 2)} %"
            for k, w in zip(e.kinds, e.weights, strict=True)
        )
        return InputLine(
            e.path,
            e.means,
            e.kinds[e.likeliest],
            weights if len(e.kinds) > 1 else "",
            e.origin,
            e.source,
            e.advice,
        )
    return InputLine(
        e.path, e.means, show(e.value, e.dimension), _spread_text(e), e.origin, e.source, e.advice
    )


def _spread_text(e: Estimate) -> str:
    """The spread of an input in shop words."""
    low, high = getattr(e.spread, "low", None), getattr(e.spread, "high", None)
    if low is not None and high is not None:
        return f"{show(low, e.dimension)} to {show(high, e.dimension)}"
    share = getattr(e.spread, "share", None)
    return f"scatters by {significant(share * 100, 2)} %" if share else ""
