"""Samples: draws keyed by the input's name, so that adding an input shifts nobody else.

The stream of an input depends on the seed and its identity alone.  A chunk that starts at sample
``start`` continues the very same stream, so any number of workers agree on every sample.
"""

from __future__ import annotations

import functools
import hashlib

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.estimate import Estimate, Filler, Kinds, Marched, Mixture, Spread
from axlewright.quantities.formula import Array, Num
from axlewright.quantities.recall import Recalling, afresh
from axlewright.quantities.recall import forget as forget_results

_KEPT, _KEPT_COUNT = 512, 10_000
"""Arrays kept and the longest kept: some 40 MB at most, for a page that answers as one types."""


def uniforms(identity: str, seed: int, count: int, start: int = 0) -> Array:
    """``count`` uniform draws in [0, 1) of the named input, from sample ``start`` on."""
    digest = hashlib.blake2b(f"{seed}:{identity}".encode(), digest_size=16).digest()
    stream = np.random.PCG64(int.from_bytes(digest, "little"))
    if start:
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
    forget_results()


MARCH = "marched launch"
"""Identity of the draw that picks a launch where more samples are wanted than were marched."""


class Samples(Filler):
    """Fills a tree with arrays of samples and remembers the draw behind each input."""

    def __init__(self, seed: int, count: int, start: int = 0, recall: Recalling = afresh) -> None:
        super().__init__()
        self.seed = seed
        self.count = count
        self.start = start
        self.draws: dict[str, Array] = {}
        self.kinds: dict[str, NDArray[np.intp]] = {}
        self._recall = recall
        self._keeps = start == 0 and kept(count)

    def draw(self, identity: str) -> Array:
        """The uniform draw of an identity, made once."""
        if identity not in self.draws:
            self.draws[identity] = (
                _kept_uniforms(identity, self.seed, self.count)
                if self._keeps
                else uniforms(identity, self.seed, self.count, self.start)
            )
        return self.draws[identity]

    def estimate(self, leaf: Estimate) -> Num:
        """Samples of an estimate; an exact one stays a float, which broadcasts."""
        if not hasattr(leaf.spread, "low") and not hasattr(leaf.spread, "share"):
            return leaf.value
        drawn = self.draw(leaf.draw)
        if self._keeps:
            return _kept(leaf.spread, leaf.value, leaf.draw, self.seed, self.count)
        return leaf.spread.at(leaf.value, drawn)

    def marched(self, leaf: Marched) -> Num:
        """What the march found in these very samples; beyond them, drawn from what it found.

        One draw picks the launch for all places and cases, so that they belong together.
        """
        if leaf.seed == self.seed and self.start + self.count <= leaf.values.size:
            return leaf.values[self.start : self.start + self.count]
        which = (self.draw(MARCH) * leaf.values.size).astype(np.intp)
        return leaf.values[which]

    def kind(self, choice: Kinds) -> NDArray[np.intp]:
        """Index of the kind in each sample."""
        if choice.path not in self.kinds:
            self.kinds[choice.path] = self._recall(
                "kind of each sample", _kind, self.draw(choice.path), *choice.weights
            )
        return self.kinds[choice.path]

    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """Each sample takes the option of its kind."""
        if sum(w > 0 for w in leaf.choice.weights) == 1:
            return options[leaf.choice.likeliest]
        return self._recall("mixture", _choose, self.kind(leaf.choice), *options)


def kept(count: int) -> bool:
    """Whether arrays so long are worth keeping: those that every page asks for."""
    return count <= _KEPT_COUNT


def _kind(drawn: Array, *weights: float) -> NDArray[np.intp]:
    edges = np.cumsum(weights) / sum(weights)
    return np.searchsorted(edges[:-1], drawn, "right")


def _choose(index: NDArray[np.intp], *options: Num) -> Array:
    return np.choose(index, [np.broadcast_to(o, index.shape) for o in options])
