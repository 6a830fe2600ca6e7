"""The launches of a workshop: marched in the background, kept beside its builds, found again.

A page never waits for a march: it takes the one that belongs to these very inputs, or the closed
form with a caution.  What an answer was made from is told by a stamp, so that an answer from before
the march is not given after it.
"""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from axlewright.build.resolve import Resolved
from axlewright.quantities.estimate import Plain
from axlewright.studies.coupling import CouplingStudy, coupling_study
from axlewright.studies.dial_march import DialMarch
from axlewright.studies.launch_setup import launch_cases
from axlewright.workshop.jobs import Task, Tell
from axlewright.workshop.keeping import Kept
from axlewright.workshop.marching import find, key_of, stamp, with_held_march, with_march

if TYPE_CHECKING:
    from concurrent.futures import Future

    from axlewright.studies.launch_report import History, LaunchReport

SEED, SAMPLES = 1, 10_000
_KEPT = 32


@dataclass(frozen=True)
class CaseName:
    """A way to load the driveline that can be marched."""

    case: str
    title: str
    means: str


class Marches:
    """Launches of builds by their text, kept in one folder; ``samples`` launches of each case."""

    def __init__(self, where: Path | None, samples: int = SAMPLES) -> None:
        self.samples = samples
        self._passing = None if where is not None else Path(tempfile.mkdtemp(prefix="axlewright-"))
        self._where: Path = where or self._passing  # type: ignore[assignment]
        self._keys: Kept[str] = Kept(_KEPT)
        self._builds: Kept[Resolved] = Kept(_KEPT)
        self._reports: Kept[LaunchReport | None] = Kept(_KEPT)
        self._cases: Kept[tuple[CaseName, ...]] = Kept(_KEPT)
        self._couplings: Kept[CouplingStudy] = Kept(_KEPT)

    def close(self) -> None:
        """Drop what belongs to a store in memory."""
        if self._passing is not None:
            shutil.rmtree(self._passing, ignore_errors=True)

    def stamp(self, build: Resolved, seed: int = SEED) -> str:
        """What tells the march of a build from another one, and from none, which is empty."""
        if not self._where.is_dir() or not any(self._where.iterdir()):
            return ""
        key = self._keys.get(f"{build.source.hash} {seed}", lambda: key_of(build, seed))
        return stamp(key, self._where)

    def build(self, build: Resolved, seed: int = SEED) -> tuple[Resolved, str]:
        """The build with its march, or the caution that it has none; and the stamp of that."""
        made = self.stamp(build, seed)

        def find_it() -> Resolved:
            return with_march(build, find(build, seed, self._where) if made else None)

        return self._builds.get(f"{build.source.hash} {seed} {made}", find_it), made

    def for_dials(
        self, build: Resolved, seed: int = SEED
    ) -> tuple[Resolved, dict[str, DialMarch], str]:
        """The same for a study that turns dials, with what was marched along each of them."""
        marched, made = self.build(build, seed)
        march = find(build, seed, self._where) if made else None
        return with_held_march(marched), march.dials if march else {}, made

    def report(self, build: Resolved, seed: int = SEED) -> LaunchReport | None:
        """What the march of a build told, if it was marched with these inputs."""
        made = self.stamp(build, seed)

        def read() -> LaunchReport | None:
            from axlewright.workshop.launches import kept_report  # noqa: PLC0415 (compiler)

            march = find(build, seed, self._where)
            kept = None if march is None else kept_report(march.report)
            if kept is None:
                return None
            # A build of another name may have the very same inputs.
            return replace(kept, name=build.machine.name, file=build.source.file)

        return self._reports.get(f"{build.source.hash} {made}", read) if made else None

    def task(self, build: Resolved, text_hash: str) -> Task:
        """The march as a job: its answer says in short what was found."""
        known = self.report(build)

        def work(tell: Tell) -> dict[str, Any] | None:
            from axlewright.studies.launch import StoppedError  # noqa: PLC0415 (compiler)
            from axlewright.workshop.launches import launch  # noqa: PLC0415 (compiler)

            try:
                return _short(launch(build, SEED, self.samples, tell, self.samples, self._where))
            except StoppedError:
                return None

        return Task(text_hash, None if known is None else _short(known), work)

    def cases(self, build: Resolved) -> tuple[CaseName, ...]:
        """What can be marched of this build, the stated launch first."""

        def make() -> tuple[CaseName, ...]:
            plain = Plain()
            found = launch_cases(plain.tree(build.machine), plain.tree(build.launching))
            return tuple(CaseName(c.case, c.title, c.means) for c in found)

        return self._cases.get(build.source.hash, make)

    def history(self, build: Resolved, case: str) -> Future[History]:
        """One nominal launch in time, being marched or kept; KeyError in words for no such case."""
        known = [c.case for c in self.cases(build)]
        if case not in known:
            raise KeyError(f"this build has no case {case!r}; it has {', '.join(known)}")
        from axlewright.workshop.ratios import answer  # noqa: PLC0415

        def march() -> History:
            from axlewright.workshop.launches import history  # noqa: PLC0415 (compiler)

            return history(build, case)

        return answer("launch", build, (case,), march)

    def coupling(self, build: Resolved, seed: int = SEED) -> CouplingStudy:
        """Does the clutch hold, where does the converter stall, what slips first."""
        return self._couplings.get(
            f"{build.source.hash} {seed}", lambda: coupling_study(build, seed)
        )


def _short(report: LaunchReport) -> dict[str, Any]:
    """What a job tells of a report; the whole of it has an address of its own."""
    return {
        "sentence": report.sentence,
        "hop": report.hop.sentence,
        "samples": report.made.samples,
        "seed": report.made.seed,
    }
