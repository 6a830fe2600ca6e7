"""The verdict on many more samples: rare breaks counted, worked out in chunks that can be stopped.

Every chunk continues the streams of the one before it, so the first chunk holds the very samples of
the page, and the answer does not depend on how the work is divided.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.build.resolve import Resolved
from axlewright.quantities.finding import HIGH, LOW, Likelihood, likelihood, quantiles
from axlewright.quantities.formula import Array
from axlewright.quantities.sampling import Samples
from axlewright.studies.limits import breaking_margin
from axlewright.studies.path import Path, evaluate

SAMPLES = 400_000
CHUNK = 10_000


@dataclass(frozen=True)
class FineLink:
    """One link on many samples: band of its margin against breaking, how often it is short.

    ``short_error`` is the standard error that the number of samples leaves in ``short_share``.
    """

    link: str
    title: str
    low: float
    high: float
    short_share: float
    short_error: float
    first_share: float
    likelihood: Likelihood


@dataclass(frozen=True)
class FineVerdict:
    """The whole path on many samples; ``short_share`` counts samples in which anything breaks."""

    samples: int
    seed: int
    low: float
    high: float
    short_share: float
    short_error: float
    likelihood: Likelihood
    links: tuple[FineLink, ...]


class StoppedError(Exception):
    """The work was told to stop before it was done."""


def fine_verdict(
    build: Resolved,
    seed: int,
    slot: AbstractContextManager[object],
    tell: Callable[[float], bool],
    samples: int = SAMPLES,
    chunk: int = CHUNK,
) -> FineVerdict:
    """Work the load path out on many samples.

    ``slot`` is held while a chunk is worked out, so that others get a turn; ``tell`` hears the
    share that is done and says whether to go on.  Raises :class:`StoppedError` if not.
    """
    table: NDArray[np.float32] | None = None
    titles: dict[str, str] = {}
    short: NDArray[np.int64] = np.zeros(0, dtype=np.int64)
    first, any_short = short, 0
    for start in range(0, samples, chunk):
        count = min(chunk, samples - start)
        with slot:
            margins = _margins(_path(build, seed, count, start), count)
        values = np.vstack([m for _, m in margins.values()])
        if table is None:
            titles = {name: title for name, (title, _) in margins.items()}
            table = np.empty((len(titles), samples), dtype=np.float32)
            short, first = (np.zeros(len(titles), dtype=np.int64) for _ in range(2))
        table[:, start : start + count] = values
        short = short + np.sum(values < 1.0, axis=1)
        first = first + np.bincount(np.argmin(values, axis=0), minlength=len(titles))
        any_short += int(np.sum(np.min(values, axis=0) < 1.0))
        if not tell((start + count) / samples):
            raise StoppedError
    assert table is not None
    low, high = _band(np.min(table, axis=0))
    return FineVerdict(
        samples=samples,
        seed=seed,
        low=low,
        high=high,
        short_share=any_short / samples,
        short_error=_error(any_short / samples, samples),
        likelihood=likelihood(any_short / samples),
        links=tuple(
            _link(name, titles[name], table[i], int(short[i]), int(first[i]))
            for i, name in enumerate(titles)
        ),
    )


def _path(build: Resolved, seed: int, count: int, start: int) -> Path:
    return evaluate(Samples(seed, count, start).tree(build.machine), by_case=False)


def _margins(path: Path, count: int) -> dict[str, tuple[str, Array]]:
    """Margin against breaking of each link that can break, sample by sample."""
    found = {}
    for link, by_limit in zip(path.links, path.least, strict=True):
        least = breaking_margin(link, by_limit)
        if least is not None:
            values: Array = np.broadcast_to(np.asarray(least, dtype=np.float64), (count,))
            found[link.name] = (link.title, values)
    return found


def _link(name: str, title: str, margins: NDArray[np.float32], short: int, first: int) -> FineLink:
    low, high = _band(margins)
    share = short / margins.size
    return FineLink(
        link=name,
        title=title,
        low=low,
        high=high,
        short_share=share,
        short_error=_error(share, margins.size),
        first_share=first / margins.size,
        likelihood=likelihood(share),
    )


def _band(margins: NDArray[np.float32]) -> tuple[float, float]:
    low, high = quantiles(margins.astype(np.float64), (LOW, HIGH))
    return low, high


def _error(share: float, samples: int) -> float:
    """Standard error of a share: closed form of the binomial."""
    return math.sqrt(share * (1.0 - share) / samples)
