"""The pair worked out once for the likeliest axle and once for each of many that it may be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from axlewright.build.machine import Machine
from axlewright.build.meshing import Meshing
from axlewright.build.resolve import Resolved
from axlewright.hypoid.support.equilibrium import Housed
from axlewright.quantities.estimate import Estimate, Filler, Leaf, Mixture, Plain
from axlewright.quantities.formula import Num
from axlewright.quantities.sampling import Samples
from axlewright.studies.mesh_heat import Warmth, warmth_of
from axlewright.studies.mesh_loads import LoadSet, hardest_case, load_set
from axlewright.studies.mesh_pair import Blank, GearPair, blank_of, gear_pair
from axlewright.studies.mesh_rest import Stand, stands
from axlewright.studies.mesh_support import housed
from axlewright.studies.mesh_teeth import COARSE, Teeth, give_of, teeth_of

Tell = Callable[[float], bool]
"""Hears the share that is done (0 to 1) and says whether to go on."""


class StoppedError(Exception):
    """The study was told to stop."""


class NoPairError(ValueError):
    """No gears of this size can stand so; says in words why."""


@dataclass(frozen=True)
class Run:
    """One axle: its teeth (without flanks where ``refused`` says why), its support, every load.

    ``unpressed`` says why there is no loaded contact though it was asked for; ``warmth`` is what
    its losses and its oil follow from.
    """

    machine: Machine[float]
    meshing: Meshing[float]
    teeth: Teeth
    refused: str
    support: Housed
    loads: LoadSet
    stands: dict[str, Stand]
    warmth: Warmth
    unpressed: str = ""

    @property
    def blank(self) -> Blank:
        """Pitch cones and mesh."""
        return self.teeth.blank

    @property
    def pair(self) -> GearPair | None:
        """Both flanks, where they are known."""
        return self.teeth.pair


@dataclass(frozen=True)
class Runs:
    """The likeliest axle, the others, and why some of those could not be worked out.

    ``coarse`` is the likeliest axle worked out as the samples are: they tell how far answers
    scatter about it.
    """

    nominal: Run
    coarse: Run
    samples: Samples
    sampled: tuple[Run | None, ...]
    lost: dict[str, int]


class OneOf(Filler):
    """Fills a tree with what the leaves are in one sample."""

    def __init__(self, samples: Samples, i: int) -> None:
        super().__init__()
        self._samples, self._i = samples, i

    def fill(self, leaf: Leaf) -> Num:
        """The leaf's value in this sample."""
        many = np.asarray(self._samples.fill(leaf))
        return float(many if many.ndim == 0 else many[self._i])

    def estimate(self, leaf: Estimate) -> Num:
        """The same for an estimate."""
        return self.fill(leaf)

    def mixture(self, leaf: Mixture, options: list[Num]) -> Num:
        """The same for a mixture, whose options are not needed one by one."""
        del options
        return self.fill(leaf)


def nominal_run(resolved: Resolved, contact: bool = True) -> Run:
    """The likeliest axle; a pair without known flanks still has forces and a support.

    ``contact`` puts the loaded contact into the loop, which takes seconds.  Raises
    :class:`NoPairError` in words where there are no pitch cones, or nothing comes to rest.
    """
    try:
        return _likeliest(resolved, contact)
    except (ValueError, ArithmeticError) as e:
        raise NoPairError(f"this gear pair cannot be: {e}") from e


def _likeliest(resolved: Resolved, contact: bool) -> Run:
    """The same; a pair that cannot be fails as it may."""
    filler = Plain()
    m: Machine[float] = filler.tree(resolved.machine)
    x: Meshing[float] = filler.tree(resolved.meshing)
    blank, pair, refused = blank_of(m), None, ""
    try:
        pair = gear_pair(m, x)
    except (ValueError, ArithmeticError) as e:
        refused = str(e)
    teeth, unpressed = teeth_of(m, blank, pair), ""
    if contact and pair is not None:
        try:
            teeth = replace(teeth, give=give_of(pair))
        except ArithmeticError as e:
            unpressed = str(e)
    support, loads = housed(blank, m, x), load_set(m, x)
    found = stands(teeth, support, loads.one())
    warmth = warmth_of(resolved, filler, m)
    return Run(m, x, teeth, refused, support, loads, found, warmth, unpressed)


def with_teeth(run: Run, teeth: Teeth) -> Run:
    """The same axle with its teeth asked in another way."""
    return replace(run, teeth=teeth, stands=stands(teeth, run.support, run.loads.one()))


def all_runs(
    resolved: Resolved, seed: int, count: int, tell: Tell | None = None, contact: bool = True
) -> Runs:
    """Nominal and samples; a sample without an answer is counted under its reason.

    Samples take the contact coarser, and the give of the likeliest pair's teeth for their own.
    """
    nominal = nominal_run(resolved, contact)
    samples = Samples(seed, count)
    loads = load_set(
        samples.tree(resolved.machine),
        samples.tree(resolved.meshing),
        hardest_case(nominal.machine),
    )
    coarse = nominal
    if nominal.teeth.give is not None:
        coarse = with_teeth(nominal, replace(nominal.teeth, counts=COARSE))
    lost: Counter[str] = Counter()
    sampled = []
    for i, found in enumerate(_sampled(resolved, samples, loads, coarse.teeth)):
        if isinstance(found, str):
            lost[found] += 1
        sampled.append(None if isinstance(found, str) else found)
        heard(tell, (i + 1) / count)
    return Runs(nominal, coarse, samples, tuple(sampled), dict(lost))


def heard(tell: Tell | None, share: float) -> None:
    """Tell a share that is done; raises :class:`StoppedError` if told to stop."""
    if tell is not None and not tell(share):
        raise StoppedError


def part(tell: Tell | None, start: float, length: float) -> Tell | None:
    """Hear the progress of a part as progress of the whole."""
    if tell is None:
        return None
    return lambda share: tell(start + share * length)


def _sampled(
    resolved: Resolved, samples: Samples, loads: LoadSet, like: Teeth
) -> Iterator[Run | str]:
    """Each sample's run with its teeth asked like those, or in words why there is none."""
    for i in range(samples.count):
        filler = OneOf(samples, i)
        m: Machine[float] = filler.tree(resolved.machine)
        x: Meshing[float] = filler.tree(resolved.meshing)
        try:
            pair = None if like.pair is None else gear_pair(m, x)
            own = teeth_of(m, blank_of(m) if pair is None else pair.blank, pair)
            teeth = replace(own, give=like.give, counts=like.counts)
            support = housed(teeth.blank, m, x)
            found = stands(teeth, support, loads.one(i))
            warmth = warmth_of(resolved, filler, m)
        except (ValueError, ArithmeticError) as e:
            yield str(e).split(":", 1)[0]
        else:
            unsettled = next((s.note for s in found.values() if s.note), "")
            run = Run(m, x, teeth, "", support, loads, found, warmth)
            yield unsettled.split(":", 1)[0] or run
