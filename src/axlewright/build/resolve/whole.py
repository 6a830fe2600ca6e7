"""The whole machine from a build file."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from axlewright.build.lines import key_lines, place_of
from axlewright.build.machine import Machine
from axlewright.build.problems import BuildError, Problem
from axlewright.build.reader import BuildFile
from axlewright.build.resolve import axle_ends, driveshaft, gear_set, housing, pushing
from axlewright.build.resolve.ledger import Ledger
from axlewright.build.shelf import PartError
from axlewright.quantities.estimate import Leaf

if TYPE_CHECKING:
    from axlewright.build.axle_oil import AxleHeat
    from axlewright.build.fitting import Fitting
    from axlewright.build.launching import Launching
    from axlewright.build.meshing import Meshing


@dataclass(frozen=True)
class Resolved:
    """A build file with its machine of estimates and the cautions of resolving it."""

    source: BuildFile
    machine: Machine[Leaf]
    cautions: tuple[str, ...]

    @functools.cached_property
    def launching(self) -> Launching[Leaf]:
        """What launch and run read beyond the machine; resolved when first asked for.

        Fill it with the filler that filled the machine, so that both share their draws.
        """
        from axlewright.build.resolve.launching import launching  # noqa: PLC0415 (check goes without)

        return launching(self.source.build, self.machine)

    @functools.cached_property
    def meshing(self) -> Meshing[Leaf]:
        """What the gear study reads beyond the machine; resolved when first asked for, alike.

        Raises :class:`BuildError` where a bearing that the build names will not do.
        """
        from axlewright.build.resolve.meshing import meshing  # noqa: PLC0415 (check goes without)

        try:
            return meshing(self.source.build, self.machine)
        except PartError as e:
            raise _refused(self.source, e) from None

    @functools.cached_property
    def axle_heat(self) -> AxleHeat[Leaf]:
        """What the heat of the axle is worked out from; resolved when first asked for, alike."""
        from axlewright.build.resolve.axle_oil import axle_heat  # noqa: PLC0415 (check goes without)

        return axle_heat(self.source.build, self.machine)

    @functools.cached_property
    def fitting(self) -> Fitting[Leaf]:
        """What was measured for fit and angles; resolved when first asked for.

        Fill it with the filler that filled the machine, so that both share their draws.
        """
        from axlewright.build.resolve.fitting import fitting  # noqa: PLC0415 (check goes without)

        return fitting(self.source.build, self.machine)


def resolve(source: BuildFile) -> Resolved:
    """Fill defaults and return the frozen machine; raises :class:`BuildError` on unknown parts."""
    try:
        book = Ledger(source.build)
        machine = _machine(book)
    except PartError as e:
        raise _refused(source, e) from None
    said = tuple(p.text(source.file) for p in source.cautions)
    return Resolved(source, machine, (*said, *dict.fromkeys(book.cautions)))


def _refused(source: BuildFile, e: PartError) -> BuildError:
    """A part that will not do, with the line that names it."""
    line, column = place_of(key_lines(source.text), e.path)
    return BuildError(source.file, [Problem("error", ".".join(e.path), str(e), line, column)])


def _machine(book: Ledger) -> Machine[Leaf]:
    engine = pushing.engine(book)
    return Machine(
        name=book.build.name or "unnamed build",
        car=pushing.car(book),
        engine=engine,
        clutch=pushing.clutch(book, engine.torque),
        converter=pushing.converter(book, engine.torque),
        gearbox=pushing.gearbox(book),
        driveshaft=driveshaft.driveshaft(book),
        gears=gear_set.gears(book),
        pinion=gear_set.pinion(book),
        ring_bolts=gear_set.ring_bolts(book),
        ring_dowels=gear_set.ring_dowels(book),
        differential=axle_ends.differential(book),
        shaft=axle_ends.shaft(book),
        wheel_end=axle_ends.wheel_end(book),
        studs=axle_ends.studs(book),
        case=housing.case(book),
        housing=housing.housing(book),
        tires=pushing.tires(book),
        use=pushing.use(book),
    )
