"""The workshop behind the workbench: builds in the store, studies on them, answers kept.

A study is worked out once for each text, version, data, seed and number of samples; at most two are
worked out at a time, so that a page of another build never waits behind a crowd.
"""

from __future__ import annotations

import dataclasses
import json
import re
import tempfile
import threading
import unicodedata
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

from pydantic import TypeAdapter

from axlewright import __version__
from axlewright.build.problems import BuildError, Problem
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.catalogue.load import data_hash
from axlewright.quantities.working import Node
from axlewright.store.builds import Store
from axlewright.studies import limits, load_path
from axlewright.studies.mesh import SAMPLES as GEAR_SAMPLES
from axlewright.studies.report import InputLine, LimitCard
from axlewright.workshop.comparing import Comparison, comparison
from axlewright.workshop.fine_verdict import SAMPLES as FINE_SAMPLES
from axlewright.workshop.fine_verdict import StoppedError, fine_verdict
from axlewright.workshop.jobs import Job, Jobs, Task, Tell
from axlewright.workshop.keeping import Kept
from axlewright.workshop.marched import SAMPLES as LAUNCH_SAMPLES
from axlewright.workshop.marched import Marches
from axlewright.workshop.meshes import Meshes
from axlewright.workshop.messages import plain

if TYPE_CHECKING:
    from axlewright.papers.launch_page import MarchedLaunch

FILE = "build.toml"
"""What messages call a text that has no file yet."""
FINE: Final = "fine verdict"
LAUNCH: Final = "launch"
MESH: Final = "gear pair"
SEED, SAMPLES = 1, 10_000
PaperKind = Literal["check", "card"]

_AT_A_TIME = 2
_KEPT = 32


class Workshop:
    """Everything that a face asks for, by the text of a build."""

    def __init__(
        self,
        store: Store,
        launch_samples: int = LAUNCH_SAMPLES,
        gear_samples: int = GEAR_SAMPLES,
    ) -> None:
        self.store = store
        self.marches = Marches(store.folder and store.folder / "marches", launch_samples)
        self.meshes = Meshes(store.folder and store.folder / "meshes", gear_samples)
        self.jobs = Jobs({FINE: self._fine, LAUNCH: self._launch, MESH: self._mesh})
        self._slots = threading.BoundedSemaphore(_AT_A_TIME)
        self._resolved: Kept[Resolved] = Kept(_KEPT)
        self._studies: Kept[load_path.Study] = Kept(_KEPT)
        self._cards: Kept[LimitCard] = Kept(_KEPT)
        self._comparisons: Kept[Comparison] = Kept(_KEPT)

    def close(self) -> None:
        """Stop the jobs and close the store."""
        self.jobs.close()
        self.store.close()
        self.marches.close()
        self.meshes.close()

    def resolved(self, text: str) -> Resolved:
        """The build that a text describes; raises :class:`BuildError` in words."""
        return self._resolved.get(text_hash(text), lambda: resolve(read_build(text, FILE)))

    def study(self, text: str, seed: int = SEED, samples: int = SAMPLES) -> load_path.Study:
        """The load path with the working of its numbers; raises :class:`BuildError` in words."""
        build, march = self.marches.build(self.resolved(text), seed)

        def make() -> load_path.Study:
            with self._slots:
                return load_path.load_path(build, seed, samples)

        return self._studies.get(_key(load_path.STUDY, text, seed, samples, march), make)

    def working(self, text: str, number: str) -> Node | None:
        """The working behind a number of the load path, or None if it has no such number."""
        return self.study(text).nodes.get(number)

    def card(self, text: str, seed: int = SEED) -> LimitCard:
        """The limit card, also from an earlier day; raises :class:`BuildError` in words."""
        build, turning, march = self.marches.for_dials(self.resolved(text), seed)
        key = _key(limits.STUDY, text, seed, limits.SAMPLES, march)

        def make() -> LimitCard:
            known = self.store.result(key)
            if known is not None:
                return _CARD.validate_python(json.loads(known))
            with self._slots:
                card = limits.limit_card(build, seed, marched=turning)
            self.store.keep_result(key, json.dumps(dataclasses.asdict(card)))
            return card

        return self._cards.get(key, make)

    def problems(self, text: str) -> tuple[Problem, ...]:
        """Every error of a text, or, where it reads, every caution about it."""
        try:
            build = self.resolved(text)
        except BuildError as e:
            return e.problems
        read = build.source.cautions
        further = build.cautions[len(read) :]
        return (*read, *(Problem("caution", "", said, 1, 1) for said in further))

    def inputs(self, text: str) -> dict[str, InputLine]:
        """Every input as used, by key; nothing while the text is wrong."""
        try:
            study = self.study(text)
        except BuildError:
            return {}
        return {line.path: line for line in study.report.inputs}

    def compare(self, old: str, new: str) -> Comparison:
        """Two texts side by side; raises :class:`BuildError` in words."""
        before = (self.resolved(old), self.study(old).report)
        after = (self.resolved(new), self.study(new).report)

        def make() -> Comparison:
            with self._slots:
                return comparison(before, after)

        marches = " ".join(self.marches.stamp(build) for build in (before[0], after[0]))
        return self._comparisons.get(f"{text_hash(old)} {text_hash(new)} {marches}", make)

    def paper(self, text: str, name: str, kind: PaperKind) -> bytes:
        """The check paper or the limit card as PDF, dated today."""
        from axlewright.papers.check_paper import write_check_paper  # noqa: PLC0415 (heavy)
        from axlewright.papers.limit_card import write_limit_card  # noqa: PLC0415

        card = self.card(text)
        today = date.today().isoformat()
        report = launch = gears = None
        if kind == "check":
            launch = self._marched_launch(text)
            gears = self.meshes.report(self.geared(text))
            report = dataclasses.replace(self.study(text).report, file=file_name(name, ".toml"))
        with self._slots, tempfile.TemporaryDirectory() as folder:
            path = Path(folder, "paper.pdf")
            if report is None:
                write_limit_card(card, path, today)
            else:
                write_check_paper(report, card, path, today, launch, gears)
            return path.read_bytes()

    def _marched_launch(self, text: str) -> MarchedLaunch | None:
        """What the check paper prints of the launch, if it has been marched."""
        build = self.resolved(text)
        report = self.marches.report(build)
        if report is None:
            return None
        from axlewright.workshop.launches import paper_of  # noqa: PLC0415 (compiler)

        return paper_of(report, lambda case: self.marches.history(build, case).result())

    def _fine(self, text: str) -> Task:
        build, march = self.marches.build(self.resolved(text), SEED)
        key = _key(f"{FINE} {load_path.STUDY}", text, SEED, FINE_SAMPLES, march)
        known = self.store.result(key)

        def work(tell: Tell) -> dict[str, Any] | None:
            try:
                result: dict[str, Any] = plain(fine_verdict(build, SEED, self._slots, tell))
            except StoppedError:
                return None
            self.store.keep_result(key, json.dumps(result))
            return result

        return Task(text_hash(text), json.loads(known) if known is not None else None, work, march)

    def outdated(self, job: Job, text: str) -> str:
        """Why a verdict is out of date for a text, in words; nothing while it is not."""
        if job.build_hash != text_hash(text):
            return "the build has changed since"
        march = self.marches.stamp(self.resolved(text), SEED)
        if job.rests_on == march:
            return ""
        if not march:
            return "the march of the launch that it rests on is no longer kept"
        return "the launch has been marched since, and the load path takes what that found"

    def _launch(self, text: str) -> Task:
        return self.marches.task(self.resolved(text), text_hash(text))

    def geared(self, text: str) -> Resolved:
        """The build as the gear study reads it: with its march, if there is one."""
        return self.marches.build(self.resolved(text), SEED)[0]

    def _mesh(self, text: str) -> Task:
        build, march = self.marches.build(self.resolved(text), SEED)
        return dataclasses.replace(self.meshes.task(build, text_hash(text)), rests_on=march)


_CARD = TypeAdapter(LimitCard)


def text_hash(text: str) -> str:
    """Short hash of a build's text, as its papers print it."""
    return sha256(text.encode()).hexdigest()[:12]


def file_name(name: str, ending: str) -> str:
    """A file name for what a build is exported as: plain letters, whatever the build is called."""
    plain_letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    words = re.findall(r"[a-z0-9]+", plain_letters.lower())
    return ("-".join(words)[:60].strip("-") or "build") + ending


def _key(study: str, text: str, seed: int, samples: int, march: str) -> str:
    return "|".join(
        (
            study,
            __version__,
            data_hash(),
            sha256(text.encode()).hexdigest(),
            f"{seed}",
            f"{samples}",
            march,
        )
    )
