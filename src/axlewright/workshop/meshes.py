"""Gear pairs of a workshop: worked out in the background, kept beside its builds, found again.

A page never waits for the contact in the loop: it takes the study and the map that belong to these
very inputs, or the quick answer.  What follows a slider is worked out at once on the kept flanks.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from dataclasses import asdict, replace
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import numpy as np

from axlewright import __version__
from axlewright.build.resolve import Resolved
from axlewright.catalogue.load import data_hash
from axlewright.hypoid.loaded.compliance import Compliance
from axlewright.hypoid.setting import set_movement
from axlewright.quantities.working import Node
from axlewright.store.folder import data_folder
from axlewright.studies.mesh import SAMPLES, SEED, STUDY, MeshStudy, mesh_study
from axlewright.studies.mesh_map import MeshMap, mesh_map
from axlewright.studies.mesh_pair import GearPair, Side
from axlewright.studies.mesh_pictures import Shimmed, shimmed
from axlewright.studies.mesh_points import FlankPoints, flank_points
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_runs import StoppedError, Tell, part
from axlewright.studies.mesh_teeth import give_of
from axlewright.studies.mesh_under import Case, Under, placed, worked_out
from axlewright.studies.mesh_working import mesh_nodes
from axlewright.workshop.jobs import Task
from axlewright.workshop.keeping import Kept
from axlewright.workshop.keyed_files import facts, tidy, write

FORMAT: Final = "mesh 3"
MOST_KEPT: Final = 64
_STUDIED: Final = 0.55
"""Share of a job that is done when the map begins."""
_KEPT: Final = 8
_GIVES: Final = 4


def folder() -> Path:
    """Where gear pairs are kept."""
    return data_folder() / "meshes"


def key_of(build: Resolved, seed: int = SEED, samples: int = SAMPLES) -> str:
    """Hash of everything that the study reads: text that changes nothing keeps its answer."""
    said = sha256(f"{FORMAT}|{STUDY}|{__version__}|{data_hash()}|{seed}|{samples}".encode())
    for fact in facts(
        (replace(build.machine, name=""), build.meshing, build.axle_heat, build.launching)
    ):
        said.update(fact.encode())
    return said.hexdigest()[:40]


class Meshes:
    """Gear pairs of builds, kept in one folder; ``samples`` of each."""

    def __init__(self, where: Path | None = None, samples: int = SAMPLES) -> None:
        self.samples = samples
        self._passing = None if where is not None else Path(tempfile.mkdtemp(prefix="axlewright-"))
        self._where: Path = where or self._passing  # type: ignore[assignment]
        self._keys: Kept[str] = Kept(_KEPT)
        self._quick: Kept[MeshStudy] = Kept(_KEPT)
        self._gives: Kept[dict[Side, Compliance]] = Kept(_GIVES)

    def close(self) -> None:
        """Drop what belongs to a store in memory."""
        if self._passing is not None:
            shutil.rmtree(self._passing, ignore_errors=True)

    def quick(self, build: Resolved) -> MeshStudy:
        """The likeliest axle under the textbook's tooth force, at once; no bands.

        Raises ``NoPairError`` in words for a build whose pair cannot be.
        """
        return self._quick.get(_of(build), lambda: mesh_study(build, SEED, 0, contact=False))

    def report(self, build: Resolved) -> MeshReport | None:
        """The kept study of a build, as long as its inputs are the same."""
        told = self._read(build, "report")
        kept = None if told is None else kept_report(told)
        if kept is None:
            return None
        # A build of another name may have the very same inputs.
        return replace(kept, name=build.machine.name, file=build.source.file)

    def map(self, build: Resolved) -> MeshMap | None:
        """The kept map of a build; none where it was not made, or where there are no flanks."""
        told = self._read(build, "map")
        return None if told is None else map_from(told)

    def work(self, build: Resolved, tell: Tell | None = None) -> MeshReport:
        """Make study and map and keep both; raises ``StoppedError`` if told to stop."""
        found = mesh_study(build, SEED, self.samples, part(tell, 0.0, _STUDIED))
        drawn = None
        if found.pair is not None:
            drawn = mesh_map(found.nominal, part(tell, _STUDIED, 1.0 - _STUDIED))
        self._keep(build, "report", asdict(found.report))
        if drawn is not None:
            self._keep(build, "map", told_map(drawn))
        return found.report

    def task(self, build: Resolved, text_hash: str) -> Task:
        """Study and map as a job: its answer says in short what was found.

        Raises ``NoPairError`` in words before the job begins where the pair cannot be.
        """
        self.quick(build)
        known = self.report(build)

        def work(tell: Tell) -> dict[str, Any] | None:
            try:
                return _short(self.work(build, tell))
            except StoppedError:
                return None

        return Task(text_hash, None if known is None else _short(known), work)

    def shimmed(self, build: Resolved, pinion_shim: float, backlash: float) -> Shimmed:
        """Both patterns with a depth shim so much thicker (m) and the ring set to a backlash (m).

        The shim counts from the set pattern, like its key.  Raises ``ValueError`` or
        ``ArithmeticError`` in words where there is no such pattern.
        """
        pair, s = self._pair(build), self.quick(build).nominal.meshing.setting
        out = set_movement(s.shim_at, pinion_shim, 0.0, s.depth_error).P
        return shimmed(pair, out, backlash)

    def nodes(self, build: Resolved, report: MeshReport) -> dict[str, Node]:
        """Working of every number of a report, by id."""
        return mesh_nodes(build, report)

    def points(self, build: Resolved) -> tuple[FlankPoints, ...]:
        """Points and normals of the four flanks; ``ValueError`` where they are not known."""
        return flank_points(self._pair(build))

    def under(self, build: Resolved, at: Shimmed, case: Case) -> Under | None:
        """Both flanks under a torque, as the kept map places them; none where there is no map.

        The first answer for a blank takes seconds more: how its teeth give.  Raises
        ``ArithmeticError`` in words where there is no such place.
        """
        drawn, pair = self.map(build), self._pair(build)
        if drawn is None:
            return None
        give = self._gives.get(build.source.hash, lambda: give_of(pair))
        return placed(pair, give, drawn, at, case)

    def worked_out(self, build: Resolved, at: Shimmed, ring_torque: float) -> Under:
        """The same with shafts, bearings, case and teeth brought to balance, as the case is."""
        return worked_out(self.quick(build).nominal, at, ring_torque)

    def shim(self, build: Resolved) -> float:
        """How much thicker the depth shim is than when the pattern was set (m), as stated."""
        return self.quick(build).nominal.meshing.setting.pinion_shim

    def backlash(self, build: Resolved) -> float:
        """Backlash at the heel (m), as stated."""
        return self.quick(build).nominal.meshing.setting.backlash

    def _pair(self, build: Resolved) -> GearPair:
        study = self.quick(build)
        if study.pair is None:
            raise ValueError(study.report.refused)
        return study.pair

    def _path(self, build: Resolved, what: str) -> Path:
        key = self._keys.get(_of(build), lambda: key_of(build, SEED, self.samples))
        return self._where / f"{key}.{what}.json"

    def _read(self, build: Resolved, what: str) -> dict[str, Any] | None:
        try:
            told = json.loads(self._path(build, what).read_text(encoding="utf-8"))
        except (OSError, ValueError):  # not there, cut short, or written by something else
            return None
        return told if isinstance(told, dict) else None

    def _keep(self, build: Resolved, what: str, told: dict[str, Any]) -> None:
        write(self._path(build, what), json.dumps(told))
        tidy(self._where, f"*.{what}.json", MOST_KEPT)


def _of(build: Resolved) -> str:
    """What tells builds apart that are read alike: their text, and whether a march is with them."""
    return f"{build.source.hash} {bool(build.machine.marched)}"


def kept_report(told: dict[str, Any]) -> MeshReport | None:
    """The same, or nothing where another state of this program wrote it: then work it out anew."""
    try:
        return report_from(told)
    except ValueError:
        return None


def report_from(told: dict[str, Any]) -> MeshReport:
    """A report from its kept text."""
    from pydantic import TypeAdapter  # noqa: PLC0415 (only where kept reports are read)

    return TypeAdapter(MeshReport).validate_python(told)


def told_map(drawn: MeshMap) -> dict[str, Any]:
    """A map as plain data: axes, and values as (side, torque, iron, support, depth)."""
    values = {name: array.tolist() for name, array in drawn.values.items()}
    return {
        "sides": drawn.sides, "torques": drawn.torques, "irons": drawn.irons,
        "supports": drawn.supports, "depths": drawn.depths, "backlash": drawn.backlash,
        "values": values,
    }  # fmt: skip


def map_from(told: dict[str, Any]) -> MeshMap:
    """A map from its kept text."""
    values = {name: np.array(array, dtype=np.float64) for name, array in told["values"].items()}
    axes = {name: tuple(told[name]) for name in _AXES}
    return MeshMap(**axes, backlash=told["backlash"], values=values)


_AXES: Final = ("sides", "torques", "irons", "supports", "depths")


def _short(report: MeshReport) -> dict[str, Any]:
    """What a job tells of a report; the whole of it has an address of its own."""
    return {
        "sentence": report.sentence,
        "refused": report.refused,
        "samples": report.made.samples,
        "seed": report.made.seed,
    }
