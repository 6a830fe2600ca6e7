"""What is asked of a gear pair: other shims, another torque, another case; read from words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from axlewright.build.resolve import Resolved
from axlewright.quantities.units import UnitError, read, show, show_both
from axlewright.studies.mesh import MeshStudy
from axlewright.studies.mesh_map import IRONS, SUPPORTS
from axlewright.studies.mesh_under import Case

_PLAIN = re.compile(r"\s*[-+−]?(\d+\.?\d*|\.\d+)\s*")
_LONGEST = 40
_INCH: Final = 0.0254
_MOST_SHIM: Final = 0.010 * _INCH
_ROUNDED: Final = 1.005
"""Times the hardest torque that still counts as it: it may be typed rounded."""
_LASH: Final = (0.002 * _INCH, 0.020 * _INCH)


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


def asked(build: Resolved, study: MeshStudy, said: Mapping[str, str]) -> Asked:
    """Read the controls; what is left out is as the build has it.  Raises in words."""
    run = study.nominal
    setting = run.meshing.setting
    rated = next(x.ring_torque.value for x in study.report.loads if x.name == "drive.rated")
    shim = _read(said.get("shim", ""), "length", " in", setting.pinion_shim)
    backlash = _read(said.get("backlash", ""), "length", " in", setting.backlash)
    torque = _read(said.get("torque", ""), "torque", " lb·ft", rated)
    if abs(shim) > max(_MOST_SHIM, abs(setting.pinion_shim)):
        raise AskedWrongError(
            f"A shim changed by {show_both(abs(shim), 'length', 2)} is beyond what a pattern is"
            f" set with; try up to {show_both(_MOST_SHIM, 'length', 2)} either way."
        )
    if not min(_LASH[0], setting.backlash) <= backlash <= max(_LASH[1], setting.backlash):
        low, high = (show(v, "length", digits=2) for v in _LASH)
        raise AskedWrongError(f"Backlash must lie between {low} and {high}.")
    most = study.report.curves[0].torques[-1]
    if not 0.0 <= torque <= most * _ROUNDED:
        raise AskedWrongError(
            f"Torque at the ring gear must lie between none and {show_both(most, 'torque', 3)}, the"
            " hardest case of this build."
        )
    metal = build.meshing.iron.metal
    iron = said.get("iron", "")
    if iron not in IRONS:
        iron = metal if metal in IRONS else IRONS[0]
    support = said.get("support", "")
    if support not in SUPPORTS:
        support = build.machine.pinion.support
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
