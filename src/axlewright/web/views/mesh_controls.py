"""What the controls of the gear page say: read from an address, and where the sliders stand."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from axlewright.build.resolve import Resolved
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.tooth_flank import compound_flanks, pressed_flanks
from axlewright.quantities.units import UnitError, from_si, read, show, show_both, significant
from axlewright.studies.mesh import MeshStudy
from axlewright.studies.mesh_map import IRONS, SUPPORTS
from axlewright.studies.mesh_pictures import Shimmed
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_under import Case, Under

_PLAIN = re.compile(r"\s*[-+−]?(\d+\.?\d*|\.\d+)\s*")
_LONGEST = 40
_INCH: Final = 0.0254
_MOST_SHIM: Final = 0.010 * _INCH
_LASH: Final = (0.002 * _INCH, 0.020 * _INCH)
_THOU: Final = 1e-3 * _INCH
_STEPS: Final = 100
"""Steps of the torque slider at least."""
IRON_WORDS: Final = {"gray": "gray iron", "nodular": "nodular iron"}
SUPPORT_WORDS: Final = {
    "overhung": "two bearings (overhung)",
    "straddle": "third bearing on its nose (straddled)",
}


class AskedWrongError(ValueError):
    """What was asked cannot be read, in words."""


@dataclass(frozen=True)
class Asked:
    """What the controls say: shim thicker by (m), backlash (m), torque (N·m), iron and support."""

    shim: float
    backlash: float
    torque: float
    iron: str
    support: str

    @property
    def case(self) -> Case:
        """The same as a case of the map."""
        return Case(self.torque, self.iron, self.support)


@dataclass(frozen=True)
class Slider:
    """A slider and its field: whole steps for the slider, words for the field."""

    low: float
    high: float
    step: float
    at: float
    text: str


def asked(build: Resolved, study: MeshStudy, said: dict[str, str]) -> Asked:
    """Read the controls; what is left out is as the build has it.  Raises in words."""
    run = study.nominal
    setting = run.meshing.setting
    rated = next(x.ring_torque.value for x in study.report.loads if x.name == "drive.rated")
    shim = _read(said["shim"], "length", " in", setting.pinion_shim)
    backlash = _read(said["backlash"], "length", " in", setting.backlash)
    torque = _read(said["torque"], "torque", " lb·ft", rated)
    if abs(shim) > max(_MOST_SHIM, abs(setting.pinion_shim)):
        raise AskedWrongError(
            f"A shim changed by {show_both(abs(shim), 'length', 2)} is beyond what a pattern is"
            f" set with; try up to {show_both(_MOST_SHIM, 'length', 2)} either way."
        )
    if not min(_LASH[0], setting.backlash) <= backlash <= max(_LASH[1], setting.backlash):
        low, high = (show(v, "length", digits=2) for v in _LASH)
        raise AskedWrongError(f"Backlash must lie between {low} and {high}.")
    most = study.report.curves[0].torques[-1]
    if not 0.0 <= torque <= most * (1.0 + 1e-6):
        raise AskedWrongError(
            f"Torque at the ring gear must lie between none and {show_both(most, 'torque', 3)}, the"
            " hardest case of this build."
        )
    metal = build.meshing.iron.metal
    iron = said["iron"] if said["iron"] in IRONS else metal if metal in IRONS else IRONS[0]
    stated = build.machine.pinion.support
    support = said["support"] if said["support"] in SUPPORTS else stated
    return Asked(shim, backlash, min(torque, most), iron, support)


def _read(text: str, dimension: str, unit: str, left_out: float) -> float:
    """A quantity as typed; a plain number has the unit of the shop."""
    if not text.strip():
        return left_out
    if len(text) > _LONGEST:
        raise AskedWrongError("That is too long for a number.")
    try:
        return read(text + unit if _PLAIN.fullmatch(text) else text, dimension).value
    except UnitError as e:
        raise AskedWrongError(str(e)) from None


def sliders(at: Asked, report: MeshReport) -> dict[str, Slider]:
    """The sliders as they stand: shim and backlash in thousandths of an inch, torque in lb·ft."""
    most = from_si(report.curves[0].torques[-1], "torque")[0]
    return {
        "shim": Slider(-10.0, 10.0, 0.5, round(at.shim / _THOU, 2), inches(at.shim)),
        "backlash": Slider(2.0, 20.0, 0.5, round(at.backlash / _THOU, 2), inches(at.backlash)),
        "torque": Slider(
            0.0, round(most, 0), 10.0, round(from_si(at.torque, "torque")[0], 0),
            show(at.torque, "torque", digits=3).replace(",", ""),
        ),
    }  # fmt: skip


def inches(length: float) -> str:
    """A length as one types it."""
    return f"{significant(length / _INCH, 3)} in"


def set_words(at: Asked, found: Shimmed) -> str:
    """What was done to the shims, and what that takes."""
    if abs(at.shim) < _TOUCH:
        depth = "Depth shim as when the pattern was set"
    else:
        way = "thicker" if at.shim > 0.0 else "thinner"
        depth = f"Depth shim {show_both(abs(at.shim), 'length', 2)} {way}"
    ring = found.ring_shim
    if abs(ring) < _TOUCH:
        moved = "the ring gear stays where it was"
    elif ring > 0.0:
        moved = f"move {show_both(ring, 'length', 2)} of shim from the far side to behind the ring"
    else:
        moved = f"move {show_both(-ring, 'length', 2)} of shim from behind the ring to the far side"
    return f"{depth}; for backlash of {show_both(found.backlash, 'length', 2)}, {moved}."


_TOUCH: Final = 2.5e-6
"""Shim (m) below which nobody has one so thin."""


def set_picture(report: MeshReport, found: Shimmed) -> Drawing:
    """What compound shows there."""
    title = f"What marking compound shows on a ring-gear tooth of {report.name}"
    return compound_flanks(report.shapes, found.pictures, title)


def under_picture(report: MeshReport, found: Under) -> Drawing:
    """Where it presses there."""
    torque = show_both(found.ring_torque, "torque", 3)
    title = f"Where a ring-gear tooth of {report.name} presses under {torque} at the ring gear"
    return pressed_flanks(report.shapes, {s: f.loaded for s, f in found.flanks.items()}, title)


def off_the_map(build: Resolved) -> str:
    """What of this build the map does not hold, in a sentence."""
    metal = build.meshing.iron.metal
    if metal in IRONS:
        return ""
    return (
        f"The case of this build is of {metal}; the map holds gray and nodular iron only. The table"
        " of loads below is of the case as it is."
    )


def choices(at: Asked) -> dict[str, list[tuple[str, str, bool]]]:
    """What can be chosen beside the torque."""
    return {
        "irons": [(k, w, k == at.iron) for k, w in IRON_WORDS.items()],
        "supports": [(k, w, k == at.support) for k, w in SUPPORT_WORDS.items()],
    }
