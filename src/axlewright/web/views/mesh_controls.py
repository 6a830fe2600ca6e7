"""Where the controls of the gear page stand, and the pictures that answer them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from axlewright.build.resolve import Resolved
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.tooth_flank import compound_flanks, pressed_flanks
from axlewright.quantities.estimate import Estimate
from axlewright.quantities.units import from_si, show, show_both, significant
from axlewright.studies.mesh_map import IRONS
from axlewright.studies.mesh_pictures import Shimmed
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_sentences import METAL_WORDS
from axlewright.studies.mesh_under import Under
from axlewright.workshop.mesh_asking import Asked

_INCH: Final = 0.0254
_THOU: Final = 1e-3 * _INCH
_STEPS: Final = 100
"""Steps of the torque slider at least."""
IRON_WORDS: Final = {iron: METAL_WORDS[iron] for iron in IRONS}
SUPPORT_WORDS: Final = {
    "overhung": "two bearings",
    "straddle": "three, one on its nose",
}


@dataclass(frozen=True)
class Slider:
    """A slider and its field: whole steps for the slider, words for the field."""

    low: float
    high: float
    step: float
    at: float
    text: str


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


def set_picture(report: MeshReport, found: Shimmed) -> Drawing:
    """What compound shows there."""
    title = f"What marking compound shows on a ring-gear tooth of {report.name}"
    return compound_flanks(report.shapes, found.pictures, title)


def under_picture(report: MeshReport, found: Under) -> Drawing:
    """Where it presses there."""
    torque = show_both(found.ring_torque, "torque", 3)
    title = f"Where a ring-gear tooth of {report.name} presses under {torque} at the ring gear"
    return pressed_flanks(report.shapes, {s: f.loaded for s, f in found.flanks.items()}, title)


def micro_geometry(build: Resolved) -> tuple[str, str]:
    """How far the flanks are known: in short, and in a sentence."""
    pattern = build.meshing.pattern
    known = (leaf for leaf in (pattern.length, pattern.place) if isinstance(leaf, Estimate))
    if any(leaf.origin in {"stated", "measured"} for leaf in known):
        return (
            "Fitted to your pattern, else assumed.",
            "The flanks are given the crowning that shows the pattern that you stated; how they"
            " fall away beyond it is assumed.",
        )
    return (
        "Assumed micro-geometry.",
        "The flanks are given the crowning that shows a usual pattern; state that of your set when"
        " it was new, and they are fitted to it.",
    )


def off_the_map(build: Resolved) -> str:
    """What of this build the map does not hold, in a sentence."""
    metal = build.meshing.iron.metal
    if metal in IRONS:
        return ""
    return (
        f"The case of this build is of {METAL_WORDS[metal]}; the map holds gray and nodular iron"
        " only. The table of loads below is of the case as it is."
    )


def choices(at: Asked) -> dict[str, list[tuple[str, str, bool]]]:
    """What can be chosen beside the torque."""
    return {
        "irons": [(k, w, k == at.iron) for k, w in IRON_WORDS.items()],
        "supports": [(k, w, k == at.support) for k, w in SUPPORT_WORDS.items()],
    }
