"""Stepped shafts as beams with shear (Timoshenko), condensed to the places where something acts.

Node freedoms: shift along the shaft, two across it, turns about both cross axes; torsion is left
out because turning a gear about its own axis moves no pattern.  Shear shares after Cowper, *The
shear coefficient in Timoshenko's beam theory* (1966, from memory).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from axlewright.quantities.formula import Array

Indices = NDArray[np.intp]

_SHORTEST = 1e-9
"""Stations closer than this (m) are one."""


@dataclass(frozen=True)
class Section:
    """A length of shaft of one outer and one inner diameter (m)."""

    length: float
    outer: float
    inner: float = 0.0


@dataclass(frozen=True)
class Shaft:
    """Sections one after the other from ``start`` (m along the axis); moduli Pa."""

    start: float
    sections: tuple[Section, ...]
    youngs_modulus: float = 206e9
    poisson_ratio: float = 0.3
    shear: bool = True

    @property
    def ends(self) -> Array:
        """Places of all section boundaries."""
        return np.asarray(self.start + np.cumsum([0.0, *(s.length for s in self.sections)]))


def shaft_stiffness(shaft: Shaft, stations: Sequence[float]) -> Array:
    """Stiffness of the free shaft between stations, (5n, 5n); what lies between follows."""
    wanted = np.asarray(stations, dtype=np.float64)
    ends = shaft.ends
    if np.any(wanted < ends[0] - _SHORTEST) or np.any(wanted > ends[-1] + _SHORTEST):
        raise ValueError(f"a station lies off the shaft, which runs from {ends[0]} to {ends[-1]} m")
    nodes = _merged(np.concatenate([ends, wanted]))
    whole = np.zeros((5 * nodes.size, 5 * nodes.size))
    for i, (a, b) in enumerate(itertools.pairwise(nodes)):
        section = shaft.sections[int(np.searchsorted(ends, 0.5 * (a + b))) - 1]
        whole[5 * i : 5 * i + 10, 5 * i : 5 * i + 10] += _element(shaft, section, b - a)
    places = np.array([int(np.argmin(np.abs(nodes - w))) for w in wanted])
    if np.unique(places).size != places.size:
        raise ValueError("two stations of a shaft fall on one place")
    kept = (5 * places[:, None] + np.arange(5)).ravel()
    rest = np.setdiff1d(np.arange(whole.shape[0]), kept)
    return _condense(whole, kept, rest)


def _merged(places: Array) -> Array:
    ordered = np.sort(places)
    return np.asarray(ordered[np.concatenate([[True], np.diff(ordered) > _SHORTEST])])


def _condense(whole: Array, kept: Indices, rest: Indices) -> Array:
    """Static condensation, made symmetric to the last digit."""
    result = whole[np.ix_(kept, kept)]
    if rest.size:
        coupling = whole[np.ix_(rest, kept)]
        result = result - coupling.T @ np.linalg.solve(whole[np.ix_(rest, rest)], coupling)
    return np.asarray(0.5 * (result + result.T))


def shear_share(outer: float, inner: float, poisson_ratio: float) -> float:
    """Share of a round section that counts as evenly sheared (Cowper)."""
    bored = (inner / outer) ** 2
    both = (1.0 + bored) ** 2
    nu = poisson_ratio
    return 6.0 * (1.0 + nu) * both / ((7.0 + 6.0 * nu) * both + (20.0 + 12.0 * nu) * bored)


def _element(shaft: Shaft, section: Section, length: float) -> Array:
    """Beam element with shear between two nodes of five freedoms."""
    d, b, E = section.outer, section.inner, shaft.youngs_modulus
    area = 0.25 * np.pi * (d * d - b * b)
    I = np.pi / 64.0 * (d**4 - b**4)
    G = 0.5 * E / (1.0 + shaft.poisson_ratio)
    phi = 0.0
    if shaft.shear:
        share = shear_share(d, b, shaft.poisson_ratio)
        phi = 12.0 * E * I / (share * G * area * length * length)
    k = E * I / ((1.0 + phi) * length**3)
    L = length
    bending = k * np.array(
        [
            [12.0, 6.0 * L, -12.0, 6.0 * L],
            [6.0 * L, (4.0 + phi) * L * L, -6.0 * L, (2.0 - phi) * L * L],
            [-12.0, -6.0 * L, 12.0, -6.0 * L],
            [6.0 * L, (2.0 - phi) * L * L, -6.0 * L, (4.0 + phi) * L * L],
        ]
    )
    flip = np.array([1.0, -1.0, 1.0, -1.0])
    result = np.zeros((10, 10))
    result[np.ix_([0, 5], [0, 5])] = E * area / L * np.array([[1.0, -1.0], [-1.0, 1.0]])
    result[np.ix_([1, 4, 6, 9], [1, 4, 6, 9])] = bending
    result[np.ix_([2, 3, 7, 8], [2, 3, 7, 8])] = bending * np.outer(flip, flip)
    return result
