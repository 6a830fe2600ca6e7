"""Keys of the new axle's center, its shafts, and the widths that are known or ordered."""

from __future__ import annotations

from axlewright.build.model_fit import MEMORY
from axlewright.quantities.fields import Count, LengthReadings, key
from axlewright.quantities.sections import Section


class Centre(Section):
    """The new axle's center and the width that is known or ordered of it."""

    face_to_face: LengthReadings = key(
        "New axle, wheel face to wheel face with its new brakes, if it is at hand or ordered.",
        example="58 in", usual=("46 in", "72 in"), possible=("20 in", "100 in"),
        advice="Assembled on the bench: straightedges on the hats.",
    )  # fmt: skip
    bare_to_bare: LengthReadings = key(
        "New axle, bare flange to bare flange: the width by which axles are ordered.",
        example="57 7/16 in", usual=("46 in", "72 in"), possible=("20 in", "100 in"),
        advice="Assembled on the bench, brakes off.",
    )  # fmt: skip
    end_to_end: LengthReadings = key(
        "New housing, end face to end face.", example="52 7/16 in",
        usual=("40 in", "68 in"), possible=("15 in", "95 in"),
        advice="Bar or tape along the tubes.",
    )  # fmt: skip
    left_half: LengthReadings = key(
        "Cross-pin center of the new housing outward to its left end face: with the right one it"
        " checks the housing before shafts are ordered, which are not taken back.",
        example="26 23/32 in", usual=("16 in", "36 in"), possible=("4 in", "60 in"),
        advice="Rod through the tube from the cross pin's middle, mark at the end face.",
    )  # fmt: skip
    right_half: LengthReadings = key(
        "Cross-pin center of the new housing outward to its right end face.",
        example="25 23/32 in", usual=("16 in", "36 in"), possible=("4 in", "60 in"),
        advice="Rod through the tube from the cross pin's middle, mark at the end face.",
    )  # fmt: skip
    pinion_left: LengthReadings = key(
        "Pinion center left of the middle between the wheel faces; minus to the right. Left and"
        " right halves differ by twice this.",
        example="-1 in", usual=("-2.5 in", "2.5 in"), possible=("-10 in", "10 in"),
        advice="Half of (right half less left half), measured from the pinion center.",
    )  # fmt: skip
    differential_left: LengthReadings = key(
        "Cross-pin center of the differential left of the middle between the wheel faces; minus to"
        " the right. It sets the lengths of the shafts.",
        example="-0.5 in", usual=("-2.5 in", "2.5 in"), possible=("-10 in", "10 in"),
        advice="Half of (right half less left half), measured from the cross pin.",
    )  # fmt: skip
    differential_gap: LengthReadings = key(
        "Gap that must stay between the two shafts' ends at the differential's center.",
        example="1.0 in", usual=("0.05 in", "3 in"), possible=("0 in", "8 in"),
        advice="Cross pin and clearance, spool pilot or block: measure the real differential.",
    )  # fmt: skip
    spline_inner: LengthReadings = key(
        "Cross-pin center outward to where the side gear's spline begins.",
        example="0.6 in", usual=("0 in", "3 in"), possible=("0 in", "8 in"),
        advice="Depth gauge down the side gear, on the real unit.",
    )  # fmt: skip
    spline_outer: LengthReadings = key(
        "Cross-pin center outward to where the side gear's spline ends.",
        example="2.1 in", usual=("0.5 in", "6 in"), possible=("0 in", "12 in"),
        advice="Depth gauge down the side gear, on the real unit.",
    )  # fmt: skip
    shaft_float: LengthReadings = key(
        "How far a shaft can move in and out once it is in.", example="0.01 in",
        default="0.002 to 0.03 in", because=MEMORY, usual=("0 in", "0.06 in"),
        possible=("0 in", "1 in"), advice="Dial gauge on the flange, push and pull.",
    )  # fmt: skip
    left_shaft: LengthReadings = key(
        "Left shaft, bare flange face to spline end.", example="28 23/32 in",
        usual=("18 in", "42 in"), possible=("5 in", "60 in"),
        advice="Straightedge on the flange, tape to the end; not from the studs.",
    )  # fmt: skip
    right_shaft: LengthReadings = key(
        "Right shaft, bare flange face to spline end.", example="27 23/32 in",
        usual=("18 in", "42 in"), possible=("5 in", "60 in"),
        advice="Straightedge on the flange, tape to the end; not from the studs.",
    )  # fmt: skip
    nose: LengthReadings = key(
        "Axle line forward to the center of the joint at the pinion yoke.",
        example="12.5 in", usual=("8 in", "18 in"), possible=("3 in", "30 in"),
        advice="Along the pinion; yoke fitted and tight.",
    )  # fmt: skip
    height_above: LengthReadings = key(
        "Axle line up to the top of the new center section.", example="5.5 in",
        usual=("4 in", "8 in"), possible=("2 in", "15 in"), advice="Straightedge over the top.",
    )  # fmt: skip
    depth_behind: LengthReadings = key(
        "Axle line back to the rearmost point of the new center section or its cover.",
        example="7 in", usual=("4 in", "11 in"), possible=("2 in", "20 in"),
        advice="Square off the tube, cover and its bolts fitted.",
    )  # fmt: skip
    fill_hole_up: LengthReadings = key(
        "Axle line up to the lower edge of the fill hole; minus if it lies below.",
        example="-1.5 in", usual=("-4 in", "2 in"), possible=("-8 in", "8 in"),
        advice="Housing level as it will sit: from the middle of the tube.",
    )  # fmt: skip
    shaft_spline: LengthReadings = key(
        "Length of the spline on the shafts.",
        example="2.2 in",
        usual=("1 in", "6 in"), possible=("0.3 in", "12 in"),
        advice="Rule along the full teeth.",
    )  # fmt: skip
    fill_hole_behind: LengthReadings = key(
        "Axle line back to the fill hole; minus if it lies ahead.",
        example="6.5 in",
        usual=("-8 in", "10 in"), possible=("-15 in", "20 in"),
        advice="Housing level as it will sit: square off the tube.",
    )  # fmt: skip
    bearing_ahead: LengthReadings = key(
        "Axle line forward to the front pinion bearing.",
        example="8.5 in",
        usual=("5 in", "12 in"), possible=("2 in", "20 in"),
        advice="Square off the tube to behind the seal.",
    )  # fmt: skip
    splines_engaged: Count = key(
        "Spline diameters that a shaft must reach into its side gear.",
        example="1.25", default="1 to 1.25", because=MEMORY, possible=("0.3", "4"),
    )  # fmt: skip
