"""Keys of the new wheel with its tire, and of what can be had for the search."""

from __future__ import annotations

from axlewright.build.model_fit import PRACTICE
from axlewright.quantities.fields import LengthList, LengthReadings, Ratio, key
from axlewright.quantities.sections import Section


class Wheel(Section):
    """The new wheel with its tire mounted: numbers of the wheel maker, or measured on a wheel."""

    rim_width: LengthReadings = key(
        "Width of the rim between the bead seats, as wheels are sold.",
        example="9 in", usual=("5 in", "15 in"), possible=("3 in", "24 in"),
        advice="Caliper inside the rim lips; not over them.",
    )  # fmt: skip
    rim_diameter: LengthReadings = key(
        "Diameter of the rim at the bead seats, as wheels are sold.",
        example="15 in", default="by tire size", because="the tire's size says it",
        usual=("13 in", "22 in"), possible=("8 in", "30 in"), advice="Read it off the tire.",
    )  # fmt: skip
    backspace: LengthReadings = key(
        "Rear edge of the rim lip forward to the mounting face. State this or the offset.",
        example="5 in", usual=("1.5 in", "8 in"), possible=("-6 in", "18 in"),
        advice="Wheel face down: straightedge over the rear lip, depth to the mounting face.",
    )  # fmt: skip
    offset: LengthReadings = key(
        "Middle of the rim to its mounting face, + with the face nearer the street side. State"
        " this or the backspace.",
        example="0 mm", usual=("-60 mm", "60 mm"), possible=("-200 mm", "200 mm"),
        advice="Stamped behind a spoke in millimeters, often after ET.",
    )  # fmt: skip
    lip_width: LengthReadings = key(
        "Thickness of one rim lip outside the bead seat: turns rim width into width over all.",
        example="0.5 in", default="0.4 to 0.55 in", because="half of the trade's inch over both;"
        " from memory", usual=("0.2 in", "0.8 in"), possible=("0 in", "2 in"),
        advice="Caliper over both lips, less the rim width, halved.",
    )  # fmt: skip
    pad_thickness: LengthReadings = key(
        "Thickness of the wheel at the stud holes, mounting face to nut seat.",
        example="0.5 in", usual=("0.2 in", "1.2 in"), possible=("0.05 in", "3 in"),
        advice="Depth gauge down a stud hole, at the nut's seat.",
    )  # fmt: skip
    hub_bore: LengthReadings = key(
        "Center bore of the wheel.", example="2.8 in", usual=("2 in", "5.5 in"),
        possible=("1 in", "10 in"), advice="Caliper in two directions.",
    )  # fmt: skip
    section: LengthReadings = key(
        "Width of the tire's section on its measuring rim, or as mounted on measured_rim.",
        example="11 in", default="by tire size", because="the nominal section of the size",
        usual=("6 in", "20 in"), possible=("3 in", "30 in"),
        advice="Mounted, at pressure, free of the ground: straightedges on both sidewalls.",
    )  # fmt: skip
    measuring_rim: LengthReadings = key(
        "Rim width at which that section was measured.", example="8 in",
        default="by tire size", because="tire design guides, from memory",
        usual=("5 in", "16 in"), possible=("3 in", "24 in"),
        advice="The maker's sheet says it; or the rim that carried the tire.",
    )  # fmt: skip
    loaded_bulge: LengthReadings = key(
        "How much wider the tire is at its bulge over the ground than at the top, at its pressure"
        " and load.",
        example="0.5 in", default="0.3 to 1 in", because=PRACTICE,
        usual=("0.1 in", "2 in"), possible=("0 in", "5 in"),
        advice="Straightedges at the bottom bulge and at the top.",
    )  # fmt: skip
    diameter: LengthReadings = key(
        "Diameter of the mounted tire, free of the ground.", example="28 in",
        default="by tire size", because="the tire's size says it",
        usual=("22 in", "36 in"), possible=("12 in", "50 in"),
        advice="Tape round the tread over 3.1416.",
    )  # fmt: skip
    lip_height: LengthReadings = key(
        "Height of the rim lip above the bead seat.",
        example="0.69 in", default="0.62 to 0.72 in",
        because="flanges of passenger-car rims, from memory",
        usual=("0.5 in", "0.9 in"), possible=("0.2 in", "2 in"),
        advice="Rule from the bead seat to the top of the lip.",
    )  # fmt: skip
    tread_width: LengthReadings = key(
        "Width of the tread from corner to corner.",
        example="8.5 in", default="by section",
        because="72 to 84 % of it, common practice, no source",
        usual=("4 in", "16 in"), possible=("2 in", "28 in"),
        advice="Square on both corners, tire at its pressure.",
    )  # fmt: skip
    loaded_radius: LengthReadings = key(
        "Ground up to the wheel center with the new tire at its pressure and load.",
        example="13.2 in", default="by diameter", because="46 to 48.5 % of it, from memory",
        usual=("10 in", "18 in"), possible=("5 in", "30 in"),
        advice="On the car or a scale press: rule on the floor.",
    )  # fmt: skip
    inner_radius: LengthReadings = key(
        "Least inside radius of the rim over the brake.",
        example="6.9 in",
        usual=("5.5 in", "10 in"), possible=("3 in", "16 in"),
        advice="Caliper across the barrel where the caliper runs, halved.",
    )  # fmt: skip
    spoke_back: LengthReadings = key(
        "Mounting face outboard to the back of the spokes where the caliper passes.",
        example="0.9 in",
        usual=("-1 in", "3 in"), possible=("-4 in", "8 in"),
        advice="Wheel face down: straightedge on the mounting face, depth gauge.",
    )  # fmt: skip
    growth: Ratio = key(
        "How much the diameter grows at the top speed of the car.",
        example="2 %", default="0 to 3 %", because="radials little, bias slicks much; from memory",
        usual=("0 %", "8 %"), possible=("0 %", "25 %"),
    )  # fmt: skip
    backspaces: LengthList = key(
        "Backspaces that can be had, for the search.", example='["4.5 in", "5 in", "5.5 in"]',
        possible=("-6 in", "18 in"),
    )  # fmt: skip
    rim_widths: LengthList = key(
        "Rim widths that can be had, for the search.", example='["8 in", "9 in", "10 in"]',
        possible=("3 in", "24 in"),
    )  # fmt: skip
    tires: list[str] | None = key(
        "Tire sizes that are thought of, for the search.", example='["255/60R15", "275/60R15"]'
    )
