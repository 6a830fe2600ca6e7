"""One try: a car is drawn, measured, written down, worked out, and held against what is there."""

from __future__ import annotations

import functools
import zlib
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from axlewright.build.fitting import Fitting
from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Leaf
from axlewright.quantities.finding import band
from axlewright.quantities.sampling import Samples
from fit_car_answers import DEG, IN, Answer, before_there_is_an_axle, resolved, worked
from reference_fit_cars import Car, exact_readings, shafts_for, truths
from reference_fit_motion import motion
from reference_measurer import Measurer, Written

Make = Callable[[int], Car]


def exact(car: Car) -> dict[str, float]:
    """Readings that this car's owner takes; a gauge that shows level needs no zero."""
    found = exact_readings(car)
    if car.gauge_zero == 0.0:
        del found["angles.gauge_zero"]
    return found


@dataclass(frozen=True)
class Try:
    """A car with its filled worksheet."""

    car: Car
    sheet: Written
    seed: int
    care: str = "careful"

    @functools.cached_property
    def build(self) -> Resolved:
        """What the program makes of the sheet."""
        return resolved(self.car, self.sheet, self.care)

    @property
    def plan(self) -> Resolved:
        """The same before there is a new axle."""
        return resolved(self.car, before_there_is_an_axle(self.sheet), self.care)

    def with_sheet(self, sheet: Written) -> Try:
        return replace(self, sheet=sheet)


def measured(
    make: Make, seed: int, haste: float = 1.0, repeats: bool = True, care: str = "careful"
) -> Try:
    """A try by a careful person; ``haste`` makes every error so much larger."""
    car = make(seed)
    own = zlib.crc32(f"{car.name} {seed}".encode())
    return Try(car, Measurer(own, haste, repeats).all(exact(car)), seed, care)


def judged(it: Try, moving: bool = True) -> dict[str, tuple[Answer, float]]:
    """Each answer with the truth."""
    found = worked(it.plan, it.build, it.seed, moving)
    true = truths(it.car) | (motion(it.car) if moving else {})
    for n, name in enumerate(("left shaft", "right shaft")):
        true[f"{name}, planned"] = shafts_for(it.car, found.chosen)[n]
        true[f"{name}, by the sums"] = true[name]
    return {name: (answer, true[name]) for name, answer in found.answers.items()}


def as_read(it: Try) -> dict[str, tuple[Answer, float]]:
    """Each reading by itself, after settling, with the truth (on the face that a wheel touches)."""
    true = exact(replace(it.car, bare_datum=False))
    fit = it.build.fitting
    filler = Samples(it.seed, 200)
    found = {}
    for key, value in true.items():
        leaf = leaf_of(fit, key)
        if leaf is None:
            continue
        unit = DEG if key.startswith("angles.") and "_to_" not in key and not _length(key) else IN
        samples = np.asarray(filler.tree(leaf)) / unit
        low, high = band(samples, float(np.mean(samples)))
        found[key] = (
            Answer(float(np.mean(samples)), low, high, float(samples.min()), float(samples.max())),
            value,
        )
    return found


def _length(key: str) -> bool:
    return key.endswith(("_left", "_height"))


def leaf_of(fit: Fitting[Leaf], key: str) -> Leaf | None:
    """Where a reading went."""
    table, _, name = key.rpartition(".")
    if table.startswith("points."):
        return getattr(fit.points[table.removeprefix("points.")], name)
    places = {
        "fit": fit.car, "fit.left": fit.left, "fit.right": fit.right, "wheel": fit.wheel,
        "ends": fit.left_end, "ends.left": fit.left_end, "ends.right": fit.right_end,
        "centre": fit.centre, "angles": fit.angles, "slip": fit.slip, "tunnel": fit.tunnel,
        "brakes": fit.brakes,
    }  # fmt: skip
    return getattr(places[table], name, None)


@dataclass(frozen=True)
class Objection:
    """Something that the program does not believe."""

    said: str
    suspects: tuple[str, ...]
    explained: tuple[str, ...]
    further: tuple[tuple[str, ...], ...]


def objections(build: Resolved) -> list[Objection]:
    """Contradictions, repeats that do not belong together, and what is out of the ordinary."""
    fit = build.fitting
    found = [
        Objection(c.said, c.suspects, c.explained_by, c.would_tell)
        for c in fit.checks
        if not c.agree
    ]
    for caution in fit.cautions:
        key, _, rest = caution.partition(": ")
        if rest.startswith(("reading ", "its two readings ")):
            found.append(Objection(caution, (key,), (), ()))
    for problem in build.source.cautions:
        found.append(Objection(f"{problem.key}: {problem.message}", (problem.key,), (), ()))
    return found


def names(found: list[Objection], key: str) -> bool:
    """Whether a reading is accused, by itself or in a mistake that would explain everything."""
    return any(
        key in o.suspects or any(key in e or "every reading" in e for e in o.explained)
        for o in found
    )


HALF_WIDTHS = {"shaft": 1 / 16, "width": 1 / 8, "angle": 0.3}
"""What bands may be at most, in inches and degrees."""
_GROUPS = {
    "shaft": ("left shaft", "right shaft", "left shaft, planned", "right shaft, planned",
              "left shaft, by the sums", "right shaft, by the sums"),
    "width": ("width to order", "new axle, face to face", "new axle, bare to bare",
              "left half of the housing", "right half of the housing", "left pinion half",
              "right pinion half", "old axle, face to face", "old axle, bare to bare",
              "old housing, end to end"),
    "angle": ("gearbox slope", "driveshaft slope", "pinion slope", "front joint", "rear joint",
              "pinion at rest, in line under pull", "pinion change, bump",
              "pinion change, droop"),
}  # fmt: skip


def most_of(name: str) -> float | None:
    """Widest half band that is asked for, if any."""
    return next((HALF_WIDTHS[g] for g, members in _GROUPS.items() if name in members), None)
