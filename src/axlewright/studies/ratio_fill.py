"""A build with other teeth and other tires: as a build of its own, or many ratios side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from axlewright.build.edit import edit
from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.quantities.estimate import Filler, Leaf
from axlewright.quantities.formula import Num
from axlewright.studies.ratio_ask import TeethAsked, TireAsked
from axlewright.studies.ratio_road import Filled, filled
from axlewright.studies.run_car import Driving, driving


@dataclass(frozen=True)
class Side:
    """A filling of the build for many ratios, and of what the driver adds."""

    filled: Filled
    driving: Driving[Num]


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


def side_by_side(build: Resolved, teeth: tuple[TeethAsked, ...], filler: Filler) -> Side:
    """Fill the build once and put every pair of teeth in along a first axis.

    Samples stay along the last axis, so that all ratios share their draws.
    """
    machine: Machine[Num] = filler.tree(build.machine)
    launching: Launching[Num] = filler.tree(build.launching)
    assumed: Driving[Num] = filler.tree(_leaves(build))
    sampled = hasattr(filler, "count")
    columns = np.array([(t.ring, t.pinion, t.ratio) for t in teeth], dtype=np.float64).T
    ring, pinion, ratio = columns[:, :, None] if sampled else columns
    gears = replace(machine.gears, ring_teeth=ring, pinion_teeth=pinion, ratio=ratio)
    return Side(filled(replace(machine, gears=gears), launching), assumed)


def alone(build: Resolved, filler: Filler) -> Side:
    """Fill the build as it is."""
    machine: Machine[Num] = filler.tree(build.machine)
    launching: Launching[Num] = filler.tree(build.launching)
    assumed: Driving[Num] = filler.tree(_leaves(build))
    return Side(filled(machine, launching), assumed)


def _leaves(build: Resolved) -> Driving[Leaf]:
    return driving(build.machine)
