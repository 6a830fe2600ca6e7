"""Findings of the gear study: the likeliest value of each number and the band of the samples."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from axlewright.quantities.estimate import Estimate, Kinds
from axlewright.quantities.finding import HIGH, LOW, Finding, quantiles
from axlewright.quantities.formula import Array
from axlewright.studies.launch_report import Decider
from axlewright.studies.launch_spread import deciders
from axlewright.studies.mesh_carries import all_numbers
from axlewright.studies.mesh_numbers import Number, id_of
from axlewright.studies.mesh_runs import Runs
from axlewright.studies.mesh_words import NO_BAND

_ASKED = (
    ("drive.rated", "pinion_lift"),
    ("drive.rated", "heel_end"),
    ("drive.hardest", "heel_end"),
)


class Told:
    """Findings by id: the likeliest value, the band of the samples that gave an answer."""

    def __init__(self, runs: Runs) -> None:
        self.run, self.samples = runs.nominal, runs.samples
        self.answered = np.array([r is not None for r in runs.sampled], dtype=bool)
        self.nominal: dict[str, Number] = all_numbers(runs.nominal)
        each = [all_numbers(r) for r in runs.sampled if r is not None]
        coarse = all_numbers(runs.coarse)
        self._found: dict[str, Array] = {
            key: _about(number, coarse.get(key), [one[key].value for one in each if key in one])
            for key, number in self.nominal.items()
        }

    def finding(self, key: str) -> Finding:
        """One finding; without samples its band has no width, and it says so."""
        number = self.nominal[key]
        known = self.sampled(key)
        if not known.size:
            value = number.value
            return Finding(key, number.means, value, value, value, number.dimension, (NO_BAND,))
        low, high = quantiles(known, (LOW, HIGH))
        return Finding(key, number.means, number.value, low, high, number.dimension)

    def sampled(self, key: str) -> Array:
        """What the samples gave, those without an answer left out."""
        return self._found[key]

    def all(self, keys: Iterable[str]) -> dict[str, Finding]:
        """Findings of those ids that there are, by id."""
        return {key: self.finding(key) for key in keys if key in self.nominal}

    @property
    def asked(self) -> str:
        """What measuring should narrow: the end of the rated pattern, or the pinion's lift."""
        key = id_of("drive.rated", "heel_end")
        return key if key in self._found else id_of("drive.rated", "pinion_lift")

    def whole(self, key: str) -> Array:
        """All samples of a number; those without an answer stand in the middle."""
        found = self._found[key]
        filled = np.full(self.answered.size, np.median(found) if found.size else 0.0)
        filled[self.answered] = found
        return filled

    def decides(self, inputs: Mapping[str, Estimate | Kinds]) -> dict[str, tuple[Decider, ...]]:
        """What scatters the answers most that a builder asks for."""
        if not self.answered.any():
            return {}
        asked = (id_of(*each) for each in _ASKED)
        return {
            key: deciders(self.samples, self.whole(key), inputs)
            for key in asked
            if key in self._found
        }


def _about(number: Number, coarse: Number | None, sampled: list[float]) -> Array:
    """Samples of a number, moved by what the finer contact makes of the likeliest axle.

    A share stays between none and all.
    """
    if coarse is None:
        return np.array(sampled)
    found = np.array(sampled) + (number.value - coarse.value)
    return np.clip(found, 0.0, 1.0) if number.share else found
