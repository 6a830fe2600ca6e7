"""Keys of housing ends: bearing, retainer, brake and flange, from the tube out to the wheel."""

from __future__ import annotations

from typing import Literal

from axlewright.build.model_fit import PRACTICE
from axlewright.quantities.fields import LengthReadings, key
from axlewright.quantities.sections import Section


class End(Section):
    """Housing end, bearing, retainer, brake and flange of one side, parts loose on the bench."""

    brake_space: LengthReadings = key(
        "Housing-end face outward to the bare flange face of the shaft, seated.",
        example="2.5 in", usual=("1.5 in", "4 in"), possible=("0.5 in", "10 in"),
        advice="Shaft pushed home: square on the flange, depth gauge to the end face.",
    )  # fmt: skip
    hat: LengthReadings = key(
        "Thickness of the new rotor hat or drum web, between flange and wheel.",
        example="0.28 in", usual=("0.06 in", "0.5 in"), possible=("0 in", "2 in"),
        advice="Caliper beside a stud hole.",
    )  # fmt: skip
    spacer: LengthReadings = key(
        "Thickness of a wheel spacer.", example="0 in", default="0 in",
        because="no spacer unless stated", usual=("0 in", "2 in"), possible=("0 in", "6 in"),
        advice="Caliper.",
    )  # fmt: skip
    register: LengthReadings = key(
        "Diameter of the flange's register that centers rotor and wheel.",
        example="2.78 in", usual=("2 in", "5.5 in"), possible=("1 in", "10 in"),
        advice="Caliper in two directions, paint off.",
    )  # fmt: skip
    register_height: LengthReadings = key(
        "How far that register stands out of the flange face.",
        example="0.45 in", usual=("0.1 in", "1.5 in"), possible=("0 in", "5 in"),
        advice="Depth gauge off the flange face.",
    )  # fmt: skip
    rotor_bore: LengthReadings = key(
        "Center bore of the rotor hat or drum.", example="2.8 in",
        usual=("2 in", "5.5 in"), possible=("1 in", "10 in"), advice="Caliper in two directions.",
    )  # fmt: skip
    hat_inside: LengthReadings = key(
        "Inner diameter of the rotor hat or drum where the flange has to go in.",
        example="6.4 in", usual=("5 in", "12 in"), possible=("2 in", "20 in"),
        advice="Caliper at its narrowest place, near the web.",
    )  # fmt: skip
    flange_diameter: LengthReadings = key(
        "Outer diameter of the shaft's wheel flange.", example="6.25 in",
        usual=("5 in", "8 in"), possible=("3 in", "15 in"), advice="Caliper or tape round it.",
    )  # fmt: skip
    flange_thickness: LengthReadings = key(
        "Thickness of the shaft's wheel flange at the studs.", example="0.44 in",
        usual=("0.25 in", "0.8 in"), possible=("0.1 in", "3 in"), advice="Caliper.",
    )  # fmt: skip
    stud_length: LengthReadings = key(
        "Stud from the bare flange face to its tip.", example="2 in",
        usual=("1 in", "3.5 in"), possible=("0.3 in", "8 in"), advice="Depth gauge off the flange.",
    )  # fmt: skip
    stud_blank: LengthReadings = key(
        "Part of that length without thread, at the flange.", example="0.2 in",
        default="0 to 0.25 in", because=PRACTICE, usual=("0 in", "0.8 in"),
        possible=("0 in", "4 in"), advice="Caliper to the first full thread.",
    )  # fmt: skip
    nut_thread: LengthReadings = key(
        "Length of thread in the wheel nut.", example="0.75 in",
        usual=("0.4 in", "1.5 in"), possible=("0.2 in", "4 in"),
        advice="Depth gauge from the seat to the end of the thread.",
    )  # fmt: skip
    bearing_pocket: LengthReadings = key(
        "Depth of the bearing's pocket in the housing end, from the end face.",
        example="0.83 in", usual=("0 in", "2 in"), possible=("0 in", "6 in"),
        advice="Depth gauge off the end face, in three places.",
    )  # fmt: skip
    bearing_width: LengthReadings = key(
        "Width of the wheel bearing's outer ring.", example="0.85 in",
        usual=("0.4 in", "2.5 in"), possible=("0.2 in", "6 in"), advice="Caliper, bare bearing.",
    )  # fmt: skip
    bearing_to_flange: LengthReadings = key(
        "Outboard side of the pressed bearing outward to the bare flange face.",
        example="2.48 in", usual=("0.8 in", "4 in"), possible=("0.2 in", "10 in"),
        advice="Shaft on the bench, bearing home: depth gauge off the flange.",
    )  # fmt: skip
    backing_plate: LengthReadings = key(
        "Thickness of drum backing plate or disc bracket between end face and retainer.",
        example="0.12 in", usual=("0.05 in", "0.6 in"), possible=("0 in", "2 in"),
        advice="Caliper at the bolt holes; a thicker bracket leaves the bearing loose.",
    )  # fmt: skip
    retainer: LengthReadings = key(
        "Thickness of the bearing retainer plate.", example="0.25 in",
        usual=("0.1 in", "0.5 in"), possible=("0.03 in", "2 in"), advice="Caliper.",
    )  # fmt: skip
    retainer_lip: LengthReadings = key(
        "How far the retainer reaches into the pocket to press on the bearing; 0 if it is flat.",
        example="0 in", default="0 in", because=PRACTICE, usual=("0 in", "0.5 in"),
        possible=("0 in", "2 in"), advice="Depth gauge on the plate.",
    )  # fmt: skip
    gasket: LengthReadings = key(
        "Thickness of gaskets and shims between end face and retainer, together.",
        example="0.01 in", default="0 to 0.02 in", because=PRACTICE, usual=("0 in", "0.06 in"),
        possible=("0 in", "0.5 in"), advice="Micrometer.",
    )  # fmt: skip
    bolt_length: LengthReadings = key(
        "Length of the retainer bolts under the head.", example="1.25 in",
        usual=("0.75 in", "3 in"), possible=("0.25 in", "6 in"), advice="Caliper.",
    )  # fmt: skip
    bolts_across: LengthReadings = key(
        "Retainer bolts, center to center, the wide way.", example="3.5 in",
        usual=("2 in", "6 in"), possible=("1 in", "10 in"),
        advice="Edge to edge of two holes plus one hole.",
    )  # fmt: skip
    bolts_up: LengthReadings = key(
        "Retainer bolts, center to center, the other way.", example="2.36 in",
        usual=("1.5 in", "5 in"), possible=("0.5 in", "10 in"),
        advice="Edge to edge of two holes plus one hole.",
    )  # fmt: skip
    bearing_bore: LengthReadings = key(
        "Bore of the housing end for the bearing.", example="3.15 in",
        usual=("2 in", "4.5 in"), possible=("1 in", "8 in"), advice="Bore gauge or caliper.",
    )  # fmt: skip
    rotor_depth: LengthReadings = key(
        "Flange side of the hat inboard to the middle of the rotor's rubbing ring.",
        example="1.9 in", usual=("0 in", "4 in"), possible=("-3 in", "10 in"),
        advice="Rotor face down: straightedge, depth gauge; half the ring's thickness.",
    )  # fmt: skip
    rotor_thickness: LengthReadings = key(
        "Thickness of the rotor's rubbing ring.", example="0.81 in",
        usual=("0.3 in", "1.5 in"), possible=("0.1 in", "4 in"), advice="Micrometer.",
    )  # fmt: skip
    caliper_out: LengthReadings = key(
        "Housing-end face outward to the middle of the caliper's slot, bracket bolted on.",
        example="0.8 in", usual=("-2 in", "4 in"), possible=("-6 in", "10 in"),
        advice="Caliper on its bracket on the end: depth gauge to both pads, mean.",
    )  # fmt: skip
    caliper_slot: LengthReadings = key(
        "Width of the caliper's slot for the rotor.", example="1.0 in",
        usual=("0.4 in", "2 in"), possible=("0.2 in", "5 in"), advice="Caliper.",
    )  # fmt: skip
    bearing_shim: LengthReadings = key(
        "Shim beside the bearing in its pocket: takes play; one under the retainer adds it.",
        example="0 in", default="0 in", because="none unless stated",
        usual=("0 in", "0.06 in"), possible=("0 in", "0.5 in"),
        advice="Micrometer.",
    )  # fmt: skip
    drum_depth: LengthReadings = key(
        "Drum: flange side of its web inboard to the open edge.",
        example="2.6 in",
        usual=("1 in", "4.5 in"), possible=("0.3 in", "8 in"),
        advice="Drum face down: straightedge over the edge, depth gauge.",
    )  # fmt: skip
    plate_face: LengthReadings = key(
        "Drum: housing-end face outward to the backing plate beside that edge.",
        example="0.2 in",
        usual=("-1 in", "2 in"), possible=("-4 in", "5 in"),
        advice="Depth gauge off the end face, plate bolted on.",
    )  # fmt: skip
    caliper_radius: LengthReadings = key(
        "Axle center to the outermost point of the caliper.",
        example="6.1 in",
        usual=("4.5 in", "9 in"), possible=("2 in", "14 in"),
        advice="Caliper bolted on: rule from the middle of the shaft.",
    )  # fmt: skip
    caliper_face: LengthReadings = key(
        "Housing-end face outward to the outboard face of the caliper.",
        example="2.3 in",
        usual=("0 in", "5 in"), possible=("-4 in", "10 in"),
        advice="Caliper bolted on: square off the end face.",
    )  # fmt: skip
    access_hole: LengthReadings = key(
        "Diameter of the hole in the flange through which the retainer is tightened.",
        example="1.25 in",
        usual=("0.75 in", "2 in"), possible=("0.3 in", "4 in"),
        advice="Caliper.",
    )  # fmt: skip
    access_radius: LengthReadings = key(
        "Shaft center to the middle of that hole.",
        example="2.1 in",
        usual=("1.5 in", "3 in"), possible=("0.5 in", "6 in"),
        advice="Edge of the shaft to the edge of the hole, plus half of each.",
    )  # fmt: skip
    socket: LengthReadings = key(
        "Outer diameter of the socket that must go through it.",
        example="0.95 in", default="0.85 to 1 in", because=PRACTICE,
        usual=("0.7 in", "1.4 in"), possible=("0.3 in", "3 in"),
        advice="Caliper.",
    )  # fmt: skip
    end_flange: LengthReadings = key(
        "Thickness of the housing end where its bolts pass.",
        example="0.4 in",
        usual=("0.25 in", "0.8 in"), possible=("0.1 in", "2 in"),
        advice="Caliper.",
    )  # fmt: skip
    retainer_nut: LengthReadings = key(
        "Height of the retainer nut with its washer.",
        example="0.45 in",
        usual=("0.3 in", "0.7 in"), possible=("0.1 in", "2 in"),
        advice="Caliper.",
    )  # fmt: skip
    stud_lead: LengthReadings = key(
        "Lead without thread at the tip of the stud.",
        example="0 in", default="0 to 0.1 in", because=PRACTICE,
        usual=("0 in", "0.4 in"), possible=("0 in", "2 in"),
        advice="Caliper to the first full thread from the tip.",
    )  # fmt: skip
    nut_sink: LengthReadings = key(
        "How far the nut's thread goes into the wheel past its seat.",
        example="0 in", default="0 in", because="seat and thread begin together unless stated",
        usual=("0 in", "0.8 in"), possible=("0 in", "3 in"),
        advice="Depth gauge on the nut: seat to its inner end.",
    )  # fmt: skip
    nut_depth: LengthReadings = key(
        "Closed nut: depth inside, seat to bottom; none for an open nut.",
        example="1.1 in",
        usual=("0.6 in", "2.5 in"), possible=("0.3 in", "5 in"),
        advice="Depth gauge down the nut.",
    )  # fmt: skip


class Ends(End):
    """Housing ends: what both have alike; what differs or was measured apart stands by side."""

    end_play_aim: Literal["play", "flush", "crush"] | None = key(
        "What this bearing wants between retainer and bearing: families ask for opposite things.",
        choices={"play": "a little end play", "flush": "face to face",
                 "crush": "retainer proud: squeezed a little"},
        advice="Read the sheet of the bearing and its end; do not take it from another axle.",
    )  # fmt: skip
    left: End | None = key("Left end where it was measured apart; parts loose on the bench.")
    right: End | None = key("Right end where it was measured apart; parts loose on the bench.")
