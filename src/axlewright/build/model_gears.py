"""Keys of the gear pair: how it was cut, what its pattern showed, how it was set and is held.

All of them serve the gear study; the load path reads the sizes of the teeth alone.
"""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.fields import (
    Angle,
    Force,
    Length,
    Ratio,
    SmallTorque,
    Torque,
    key,
)
from axlewright.quantities.sections import Section

_PRACTICE = "common practice, no source"
_MEMORY = "from memory"


class Gears(Section):
    """How the gear pair was cut, set and is held: for the gear study."""

    depth: Literal["tapered", "even"] | None = key(
        "Whether a ring-gear tooth, seen from its side, gets lower from outer to inner end.",
        choices={"tapered": "lower at the inner end: face-milled",
                 "even": "as high at both ends: face-hobbed, whose flanks are not worked out"},
        default={"tapered": 1.0}, because=_PRACTICE,
        advice="Caliper the depth of a tooth space at the outer and at the inner end.",
    )  # fmt: skip
    face_width: Length = key(
        "Length of a ring-gear tooth, outer to inner end.", example="1.28 in",
        default="by ring-gear class", because="catalogue", possible=("0.3 in", "4 in"),
        advice="Caliper along the tip of a ring-gear tooth.", stated_spread="1 %",
    )  # fmt: skip
    spiral_angle: Angle = key(
        "Spiral angle of the pinion's teeth in the middle of the face.", example="48 deg",
        default="by ring-gear class", because="catalogue",
        usual=("35 deg", "55 deg"), possible=("20 deg", "60 deg"),
        advice="Ask the maker of the gear set.",
    )  # fmt: skip
    pressure_angle: Angle = key(
        "Mean pressure angle of drive and coast flank.", example="21 deg",
        default="by ring-gear class", because="catalogue",
        usual=("18 deg", "24 deg"), possible=("14 deg", "28 deg"),
        advice="Ask the maker of the gear set.",
    )  # fmt: skip
    cutter_radius: Length = key(
        "Radius of the cutter: that of the curve along a ring-gear tooth.", example="3.75 in",
        default="by ring-gear class", because="catalogue", possible=("1 in", "9 in"),
        advice="Lay card cut to a known radius along the curve of a tooth, seen from its tip.",
    )  # fmt: skip
    pattern_length: Ratio = key(
        "Share of the face that the pattern covered when the set was new, in compound, by hand.",
        example="50 %", default="40 to 60 %",
        because="half the face: a gear maker's set-up page; limits common practice",
        usual=("30 %", "80 %"), possible=("15 %", "95 %"),
        advice="Roll it by hand against a rag on the ring, and measure the smear.",
    )  # fmt: skip
    pattern_place: Ratio = key(
        "Middle of that pattern along the face, from toe (0 %) to heel (100 %).",
        example="45 %", default="40 to 50 %",
        because="slightly toward the toe: a gear maker's set-up page; the figure is judged",
        usual=("30 %", "70 %"), possible=("15 %", "85 %"),
        advice="Measure from the inner end of a tooth to the middle of the smear.",
    )  # fmt: skip
    pattern_height: Ratio = key(
        "Middle of that pattern up the height that touches, from root (0 %) to tip (100 %).",
        example="50 %", default="40 to 60 %", because=_PRACTICE,
        usual=("25 %", "75 %"), possible=("10 %", "90 %"),
        advice="Measure across the smear in the middle of the tooth.",
    )  # fmt: skip
    profile_crown: Length = key(
        "How far the flank falls away at root and tip.", example="10 um", default="5 to 15 um",
        because="assumed micro-geometry, no source", possible=("1 um", "100 um"),
        advice="Only a gear-checking machine shows it.",
    )  # fmt: skip
    pinion_shim: Length = key(
        "Added to the pinion's depth shim since that pattern (minus: taken out).",
        example="0.002 in", default="0 in", because="as the pattern was set",
        usual=("-0.015 in", "0.015 in"), possible=("-0.06 in", "0.06 in"),
    )  # fmt: skip
    pinion_shim_at: Literal["head", "cartridge"] | None = key(
        "Where the depth shim lies.",
        choices={"head": "under the pinion's head or its inner cup: thicker is deeper",
                 "cartridge": "between a bolted cartridge and the case: thicker is shallower"},
        default={"head": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    ring_shim: Length = key(
        "Moved from the far side to behind the ring gear since that pattern (minus: away).",
        example="0.003 in", default="0 in", because="as the pattern was set",
        usual=("-0.02 in", "0.02 in"), possible=("-0.06 in", "0.06 in"),
    )  # fmt: skip
    depth_error: Length = key(
        "How far the pinion stands out from the depth that is right for it (minus: too deep).",
        example="0.001 in", default="-0.002 to 0.002 in", because=_PRACTICE,
        usual=("-0.01 in", "0.01 in"), possible=("-0.06 in", "0.06 in"),
        advice="Depth gauge against the mark on the pinion's head.",
    )  # fmt: skip
    rated_torque: Torque = key(
        "Torque at the ring gear that the set is rated for in service: deflections are judged at"
        " it.",
        example="2400 lbf*ft", default="by ring diameter", because="size rule, from memory",
        possible=("200 lbf*ft", "30000 lbf*ft"),
    )  # fmt: skip
    pinion_preload: SmallTorque = key(
        "Torque that turns the pinion alone in its bearings, seal not counted.",
        example="20 lbf*in", default="by condition: 15 to 30 lbf*in new, 8 to 15 used",
        because="service manuals' usual figures, from memory",
        usual=("3 lbf*in", "40 lbf*in"), possible=("0.5 lbf*in", "100 lbf*in"),
        advice="Beam wrench on the pinion nut, ring gear out, turning slowly.",
    )  # fmt: skip
    pinion_thrust: Force = key(
        "Thrust with which the pinion's bearings are squeezed, if it is known; goes before the"
        " turning torque.",
        example="6 kN", default="by pinion_preload", because="friction judged, from memory",
        possible=("0.1 kN", "60 kN"),
    )  # fmt: skip
    carrier_preload: Force = key(
        "Thrust with which the carrier bearings are squeezed.", example="3.5 kN",
        default="2 to 5 kN", because=_MEMORY, possible=("0.1 kN", "30 kN"),
    )  # fmt: skip
    head_bearing: str | None = key(
        "Pinion bearing at the head, by catalogue name or your own [parts.bearings] row.",
        example="32210", default="by ring-gear size", because=_MEMORY,
        advice="Read the number on its ring.",
    )  # fmt: skip
    tail_bearing: str | None = key(
        "Pinion bearing at the yoke.", example="32208", default="by ring-gear size",
        because=_MEMORY, advice="Read the number on its ring.",
    )  # fmt: skip
    carrier_bearing: str | None = key(
        "Bearings of the differential; both are taken alike.", example="30210",
        default="by ring-gear size", because=_MEMORY, advice="Read the number on its ring.",
    )  # fmt: skip
    case_stiffness: Ratio = key(
        "Stiffness of the bearing seats over what is assumed for this form of case and iron.",
        example="100 %", default="50 to 150 %", because="judged from proportions, no source",
        possible=("20 %", "500 %"),
    )  # fmt: skip
    caps: Literal["cast", "billet"] | None = key(
        "Caps over the carrier bearings.",
        choices={"cast": "as the case came", "billet": "machined from steel"},
        default={"cast": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    cover: Literal["plain", "load-carrying"] | None = key(
        "Rear cover.",
        choices={"plain": "keeps the oil in", "load-carrying": "with bolts that press on the caps"},
        default={"plain": 1.0}, because=_PRACTICE,
    )  # fmt: skip
    flange_thickness: Length = key(
        "Thickness of the differential's flange that the ring gear bolts to.", example="0.5 in",
        default="by ring-gear size", because=_MEMORY, possible=("0.15 in", "2 in"),
        advice="Caliper it between two bolts.",
    )  # fmt: skip
