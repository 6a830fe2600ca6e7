"""What is solved without a formula to print, such as geometry in space, as a step of a working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

import numpy as np

from axlewright.quantities.formula import Num, tracer
from axlewright.quantities.working import Node, NominalTracer, Traced


def solved(means: str, dimension: str, value: Num, arguments: Mapping[str, Num]) -> Num:
    """The value; under a tracer it remembers what it was solved from."""
    if not isinstance(tracer.get(), NominalTracer) or np.ndim(value):
        return value
    nodes = {k: v.node if isinstance(v, Traced) else v for k, v in arguments.items()}
    return Traced(Node("solve", means, "", dimension, float(value), dict(nodes)))


@contextmanager
def untraced() -> Iterator[None]:
    """Formulas inside the block are steps of a solution, not of a working that one reads."""
    token = tracer.set(None)
    try:
        yield
    finally:
        tracer.reset(token)
