"""A build with other teeth and other tires: as a build of its own, or many ratios side by side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.build.axle_oil import AxleHeat
from axlewright.build.edit import edit
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.quantities.estimate import Filler, Leaf, Plain
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.ratio_ask import TeethAsked, TireAsked
from axlewright.studies.ratio_road import Filled, filled
from axlewright.studies.run_car import Driving, driving


@dataclass(frozen=True)
class Side:
    """A filling of the build for many ratios, of what the driver adds, and of what makes heat."""

    filled: Filled
    driving: Driving[Num]
    heat: AxleHeat[Num]


def with_tire(build: Resolved, tire: TireAsked) -> Resolved:
    """The build on other tires, as if its file said so; a stated grip goes with its tires."""
    if tire.fitted:
        return build
    text = edit(build.source.text, "wheels.tire", tire.text.removesuffix(tire.grip_class).strip())
    if tire.grip_class:
        text = edit(text, "wheels.grip_class", tire.grip_class)
        text = edit(text, "wheels.grip", None)
    return resolve(read_build(text, build.source.file))


def with_teeth(build: Resolved, teeth: TeethAsked) -> Resolved:
    """The build with another pair of teeth, as if its file said so."""
    if teeth.fitted:
        return build
    text = edit(build.source.text, "axle.ratio", teeth.text)
    return resolve(read_build(text, build.source.file))


class _Given(Filler):
    """A filler that is told the values of some leaves; what derives from them follows."""

    given: dict[str, Num]

    def fill(self, leaf: Leaf) -> Num:
        """The given value of a leaf, else what the filler makes of it."""
        if leaf.path in self.given:
            return self.given[leaf.path]
        return super().fill(leaf)


class _PlainGiven(_Given, Plain):
    """Nominal values beside what is given."""


class _SamplesGiven(_Given, Samples):
    """Samples beside what is given."""


def side_by_side(
    build: Resolved, teeth: tuple[TeethAsked, ...], seed: int = 0, count: int = 0
) -> Side:
    """Fill the build once and put every pair of teeth in along a first axis.

    With a ``count``, samples stay along the last axis, so that all ratios share their draws.
    """
    gears = build.machine.gears
    columns = np.array([(t.ring, t.pinion, t.ratio) for t in teeth], dtype=np.float64).T
    filler: _PlainGiven | _SamplesGiven = _SamplesGiven(seed, count) if count else _PlainGiven()
    leaves = (gears.ring_teeth, gears.pinion_teeth, gears.ratio)
    values = columns[:, :, None] if count else columns
    filler.given = {leaf.path: v for leaf, v in zip(leaves, values, strict=True)}
    return alone(build, filler)


def alone(build: Resolved, filler: Filler) -> Side:
    """Fill the build as it is."""
    machine: Machine[Num] = filler.tree(build.machine)
    launching: Launching[Num] = filler.tree(build.launching)
    assumed: Driving[Num] = filler.tree(_leaves(build))
    heat: AxleHeat[Num] = filler.tree(build.axle_heat)
    return Side(filled(machine, launching), assumed, heat)


def _leaves(build: Resolved) -> Driving[Leaf]:
    return driving(build.machine)
