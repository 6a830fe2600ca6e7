"""Tooth load and give of the support brought to agree, with few calls of the tooth load.

A loaded contact answers in tens of milliseconds, the support in two.  So the support is solved
anew for every tooth load, and only the movement is searched for::

    M(w(m)) = m        w(m) load of the teeth at a movement, M(w) movement of the support under it

by Newton's rule with the support's own exact give ∂M/∂w and a slope ∂w/∂m that is learned from the
calls that are made anyway (Broyden's rule), or by differences where learning does not help.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.support.mesh import NoToothLoadError, ToothForce, ToothLoad
from axlewright.quantities.formula import Array

MATCH = 1e-7
"""Movement (m, turns at the arm below) within which teeth and support must agree."""
MOST_CALLS = 60
"""Calls of the tooth load before the search is given up."""
_SCALE = np.array([1.0, 1.0, 1.0, 0.1])
"""Shaft angle is compared with lengths at an arm of 0.1 m."""
_PROBE = 5e-6
"""Step (m) of the differences; beyond the noise of a contact that is solved step by step."""
_PATIENCE = 3
"""Refused steps in a row before the slope is taken by differences."""


class NoRestError(ArithmeticError):
    """No equilibrium was found; says how far the search came."""


class _SpentError(Exception):
    """The calls are used up."""


@dataclass(frozen=True)
class Given:
    """How the support stands under a load: movement (4), its give (4, 6), state, stiffness."""

    movement: Array
    give: Array
    state: Array
    stiffness: Array
    residual: float


@dataclass(frozen=True)
class Agreed:
    """Where teeth and support agree: load, answer of the support, slope of the teeth (6, 4)."""

    load: ToothLoad
    given: Given
    slope: Array
    mismatch: float
    calls: int


@dataclass(frozen=True)
class _Trial:
    at: Array
    load: ToothLoad
    given: Given

    @property
    def off(self) -> Array:
        """How far the support's movement is from the one that the teeth were asked about."""
        return np.asarray((self.given.movement - self.at) * _SCALE)


class _Search:
    """One search: what was asked of the teeth so far."""

    def __init__(self, support: Callable[[ToothLoad], Given], tooth: ToothForce) -> None:
        self.support, self.tooth = support, tooth
        self.calls = 0

    def load(self, at: Array) -> ToothLoad:
        """The teeth's answer at a movement, refused when it is no number."""
        if self.calls >= MOST_CALLS:
            raise _SpentError
        self.calls += 1
        E, P, G, sigma = (float(v) for v in at)
        load = self.tooth(E, P, G, sigma)
        if not (np.all(np.isfinite(load.force)) and np.all(np.isfinite(load.moment))):
            raise NoToothLoadError(f"the tooth load is no number at {_words(at)}")
        return load

    def trial(self, at: Array) -> _Trial:
        """Teeth and support at a movement; a load that no support stands is no answer either."""
        load = self.load(at)
        try:
            return _Trial(at, load, self.support(load))
        except NoRestError as e:
            raise NoToothLoadError(str(e)) from e

    def slope(self, here: _Trial) -> Array:
        """Slope of the tooth load by differences: four calls."""
        columns = []
        for i in range(4):
            step = np.zeros(4)
            step[i] = _PROBE / _SCALE[i]
            columns.append((_six(self.load(here.at + step)) - _six(here.load)) / step[i])
        return np.stack(columns, axis=1)


def couple(
    support: Callable[[ToothLoad], Given],
    tooth: ToothForce,
    start: Array,
    slope: Array | None = None,
    match: float = MATCH,
) -> Agreed:
    """The movement at which the tooth load is the one that moves the support so."""
    search = _Search(support, tooth)
    known = np.zeros((6, 4)) if slope is None else slope.copy()
    reach, refused = np.inf, 0
    try:
        here = search.trial(start)
    except NoToothLoadError as e:
        raise NoRestError(f"no answer where the search begins: {e}") from e
    try:
        while True:
            off = _size(here.off)
            if off <= match:
                return Agreed(here.load, here.given, known, off, search.calls)
            if refused == _PATIENCE:
                known, reach, refused = search.slope(here), np.inf, 0
            there, known, long = _step(search, here, known, reach)
            if there is None:
                reach, refused = 0.5 * long, refused + 1
            else:
                here, reach, refused = there, max(reach, 2.0 * long), 0
    except NoToothLoadError as e:
        raise NoRestError(f"the teeth have no answer close to {_words(here.at)}: {e}") from e
    except _SpentError:
        raise NoRestError(
            f"teeth and bearings do not agree: after {search.calls} tries the gears would move "
            f"{1e6 * _size(here.off):.3g} µm further than the tooth load was worked out for, "
            f"at {_words(here.at)}"
        ) from None


def _step(
    search: _Search, here: _Trial, slope: Array, reach: float
) -> tuple[_Trial | None, Array, float]:
    """One step: the better place or none, the slope after it, and how long the step was.

    Better is judged by how far there would be still to go, with the same matrix (so that a stiff
    mesh does not look worse than it is).
    """
    matrix = np.eye(4) - (here.given.give @ slope / _SCALE) * _SCALE[:, None]
    whole = _solved(matrix, here.off)
    way = whole * min(1.0, reach / max(_size(whole), 1e-30))
    try:
        there = search.trial(here.at + way / _SCALE)
    except NoToothLoadError:
        return None, slope, 0.5 * _size(way)
    move = way / _SCALE
    unforeseen = _six(there.load) - _six(here.load) - slope @ move
    learned = slope + np.outer(unforeseen, way * _SCALE) / float(way @ way)
    better = _size(_solved(matrix, there.off)) < (1.0 - 1e-3) * _size(whole)
    return there if better else None, learned, _size(way)


def _solved(matrix: Array, right: Array) -> Array:
    return np.asarray(np.linalg.lstsq(matrix, right, rcond=1e-12)[0])


def _six(load: ToothLoad) -> Array:
    return np.concatenate([load.force, load.moment])


def _size(scaled: Array) -> float:
    return float(np.sqrt(np.sum(scaled * scaled)))


def _words(at: Array) -> str:
    E, P, G = (1e6 * float(v) for v in at[:3])
    return f"E {E:.1f}, P {P:.1f}, G {G:.1f} µm, shaft angle {1e3 * float(at[3]):.3f} mrad"
