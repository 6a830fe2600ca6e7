"""Samples: draws keyed by the input's name, so that adding an input shifts nobody else.

The stream of an input depends on the seed and its identity alone.  A chunk that starts at sample
``start`` continues the very same stream, so any number of workers agree on every sample.
"""

from __future__ import annotations

import functools
import hashlib

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.estimate import Estimate, Filler, Kinds, Mixture, Spread
from axlewright.quantities.formula import Array, Num

_KEPT, _KEPT_COUNT = 512, 10_000
"""Arrays kept and the longest kept: some 40 MB at most, for a page that answers as one types."""


def uniforms(identity: str, seed: int, count: int, start: int = 0) -> Array:
    """``count`` uniform draws in [0, 1) of the named input, from sample ``start`` on."""
    digest = hashlib.blake2b(f"{seed}:{identity}".encode(), digest_size=16).digest()
    stream = np.random.PCG64(int.from_bytes(digest, "little"))
    stream.advance(start)
    return np.random.Generator(stream).random(count)


@functools.lru_cache(maxsize=_KEPT)
def _kept_uniforms(identity: str, seed: int, count: int) -> Array:
    drawn = uniforms(identity, seed, count)
    drawn.flags.writeable = False
    return drawn


@functools.lru_cache(maxsize=_KEPT)
def _kept(spread: Spread, value: float, identity: str, seed: int, count: int) -> Num:
    """Samples of an estimate, kept for the next build: an edit leaves most inputs as they were."""
    values = spread.at(value, _kept_uniforms(identity, seed, count))
    if isinstance(values, np.ndarray):
        values.flags.writeable = False
    return values


def forget() -> None:
    """Drop all kept arrays, as at the start of a program: for measuring."""
    _kept.cache_clear()
    _kept_uniforms.cache_clear()


class Samples(Filler):
    """Fills a tree with arrays of samples and remembers the draw behind each input."""

    def __init__(self, seed: int, count: int, start: int = 0) -> None:
        super().__init__()
        self.seed = seed
        self.count = count
        self.start = start
        self.draws: dict[str, Array] = {}
        self.kinds: dict[str, NDArray[np.intp]] = {}

    def draw(self, identity: str) -> Array:
        """The uniform draw of an identity, made once."""
        if identity not in self.draws:
            self.draws[identity] = (
                _kept_uniforms(identity, self.seed, self.count)
                if self._keeps
                else uniforms(identity, self.seed, self.count, self.start)
            )
        return self.draws[identity]

    @property
    def _keeps(self) -> bool:
        """Whether the arrays are worth keeping: the chunk that every page asks for."""
        return self.start == 0 and self.count <= _KEPT_COUNT

    def estimate(self, leaf: Estimate) -> Num:
        """Samples of an estimate; an exact one stays a float, which broadcasts."""
        if not hasattr(leaf.spread, "low") and not hasattr(leaf.spread, "share"):
            return leaf.value
        drawn = self.draw(leaf.draw)
        if self._keeps:
            return _kept(leaf.spread, leaf.value, leaf.draw, self.seed, self.count)
        return leaf.spread.at(leaf.value, drawn)

    def kind(self, choice: Kinds) -> NDArray[np.intp]:
        """Index of the kind in each sample."""
        if choice.path not in self.kinds:
            edges = np.cumsum(choice.weights) / sum(choice.weights)
            self.kinds[choice.path] = np.searchsorted(edges[:-1], self.draw(choice.path), "right")
        return self.kinds[choice.path]

    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """Each sample takes the option of its kind."""
        if sum(w > 0 for w in leaf.choice.weights) == 1:
            return options[leaf.choice.likeliest]
        index = self.kind(leaf.choice)
        return np.choose(index, [np.broadcast_to(o, (self.count,)) for o in options])
