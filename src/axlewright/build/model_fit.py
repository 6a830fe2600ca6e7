"""Keys of the whole car for fit: what is measured round the old wheels at ride height.

All distances are level and across the car unless the key says otherwise, and run from the *wheel
face* of the old axle: the surface that the wheel touches, brake rotor or drum in place.  Left and
right are measured apart and never assumed equal.
"""

from __future__ import annotations

from typing import Literal

from axlewright.quantities.fields import Length, LengthReadings, key
from axlewright.quantities.sections import Section

PRACTICE = "common practice, no source"
MEMORY = "from memory"
_ROOM = ("0.5 in", "14 in")
_ROOM_POSSIBLE = ("-6 in", "24 in")


class Side(Section):
    """One side of the car: everything from the wheel face of the old axle, at ride height."""

    lip: LengthReadings = key(
        "Wheel face outward to the plumb line off the fender lip, at the axle line; minus if the"
        " lip hangs inboard of the face. Ride height.",
        example='7 1/8 in', usual=("1 in", "12 in"), possible=_ROOM_POSSIBLE,
        advice="Hang a plumb bob off the inner edge of the lip; straightedge across the bare face.",
    )  # fmt: skip
    lip_at_bump: LengthReadings = key(
        "Wheel face outward to whatever the tire meets first when its side is up at full bump."
        " State: axle jacked to the bump stop on this side.",
        example="6 7/8 in", usual=_ROOM, possible=_ROOM_POSSIBLE,
        advice="Spring out, axle up on its stop: plumb bob off the lip or the fold behind it.",
    )  # fmt: skip
    lip_height: LengthReadings = key(
        "Wheel center up to the fender lip, plumb above it: the ride height of this side.",
        example="14 1/2 in", usual=("8 in", "24 in"), possible=("0 in", "40 in"),
        advice="Tape from the middle of the hub straight up; write it down before anything moves.",
    )  # fmt: skip
    inner: LengthReadings = key(
        "Wheel face inboard to the nearest thing at the height of the tire's bulge: frame, spring,"
        " shock, brake line or tank. Ride height.",
        example="9 1/4 in", usual=("3 in", "20 in"), possible=("0 in", "36 in"),
        advice="Sweep a square round the tire's outline; note what it met as inner_thing.",
    )  # fmt: skip
    inner_at_bump: LengthReadings = key(
        "The same at full bump: wheel face inboard to the nearest thing beside the raised tire.",
        example="8 7/8 in", usual=("3 in", "20 in"), possible=("0 in", "36 in"),
        advice="Axle up on its stop: frame kick-up, inner fender, bump stop bracket.",
    )  # fmt: skip
    inner_thing: str | None = key("What the nearest thing inboard is.", example="frame rail")
    inner_up: LengthReadings = key(
        "Wheel center up to that nearest thing; minus if it lies below. Ride height.",
        example="7 in", usual=("-12 in", "18 in"), possible=("-30 in", "40 in"),
        advice="Tape from the height of the hub's middle.",
    )  # fmt: skip
    inner_ahead: LengthReadings = key(
        "Axle line forward to that nearest thing; minus if it lies behind. Ride height.",
        example="4 in", usual=("-18 in", "18 in"), possible=("-30 in", "30 in"),
        advice="Plumb bob off the thing to the floor, line of the hubs on the floor.",
    )  # fmt: skip
    roof: LengthReadings = key(
        "Wheel center up to the roof of the wheelhouse over the tread. Ride height.",
        example="19 in", usual=("12 in", "30 in"), possible=("4 in", "60 in"),
        advice="Tape straight up behind the lip.",
    )  # fmt: skip
    pinion: LengthReadings = key(
        "Pinion center across to the wheel face of this side. The differential's center is"
        " another place: measure both.",
        example="30 in", usual=("18 in", "42 in"), possible=("8 in", "70 in"),
        advice="Plumb bobs off the middle of the yoke and off the face, to the floor.",
    )  # fmt: skip
    differential: LengthReadings = key(
        "Cross-pin center of the differential across to the wheel face of this side.",
        example="30 in", usual=("18 in", "42 in"), possible=("8 in", "70 in"),
        advice="Cover off: tape from the middle of the cross pin; or shaft pulled: its length.",
    )  # fmt: skip
    housing_end: LengthReadings = key(
        "Housing-end face of the old axle outward to the wheel face of this side.",
        example="2 3/4 in", usual=("1.5 in", "5 in"), possible=("-2 in", "12 in"),
        advice="Depth gauge through the flange's access hole, or brake off and a square.",
    )  # fmt: skip
    rail: LengthReadings = key(
        "A body datum (the same hole or rail edge on both sides) across to the wheel face; tells"
        " whether the old axle sits in the middle.",
        example="8 in", usual=("0 in", "20 in"), possible=("-20 in", "40 in"),
        advice="Pick a hole or a rail edge that the maker put there twice.",
    )  # fmt: skip
    seat: LengthReadings = key(
        "Middle of the spring or link seat on the axle across to the wheel face of this side.",
        example="9 in", usual=("3 in", "20 in"), possible=("0 in", "40 in"),
        advice="Middle of the perch or bracket, square to the tube.",
    )  # fmt: skip
    shock: LengthReadings = key(
        "Shock or spring's outermost point inboard of the wheel face, at its nearest height.",
        example="10 in", usual=("3 in", "24 in"), possible=("0 in", "40 in"),
        advice="Square off the wheel face to the body of the shock.",
    )  # fmt: skip
    ground_to_center: LengthReadings = key(
        "Ground up to the wheel center of this side. Ride height, the tires of that day.",
        example="12 7/8 in", usual=("10 in", "18 in"), possible=("5 in", "30 in"),
        advice="Rule on the floor beside the tire, to the middle of the hub.",
    )  # fmt: skip


class Fit(Section):
    """Whole-car readings for wheel, tire and axle width: weight on the tires, at ride height."""

    state: Literal["ride height", "stands at ride height", "hanging"] | None = key(
        "How the car stood when it was measured.",
        choices={"ride height": "weight on the tires",
                 "stands at ride height": "axle on stands, body loaded to ride height",
                 "hanging": "wheels hanging: fine for droop only, the rest does not count"},
        default={"ride height": 1.0}, because="what the keys ask for",
    )  # fmt: skip
    care: Literal["careful", "hurried"] | None = key(
        "How the readings were taken: sets the spread of each one.",
        choices={"careful": "straightedge, plumb bob, level floor, a second pair of hands, twice",
                 "hurried": "tape alone, read once"},
        default={"hurried": 1.0}, because="the wider limits, unless you say otherwise",
    )  # fmt: skip
    old_face: Literal["bare", "with hat"] | None = key(
        "What the wheel face of the old axle was in these readings: the bare flange, or the rotor"
        " hat or drum that the wheel touches. The wrong one orders a wrong axle.",
        choices={"bare": "flange face, brake off", "with hat": "rotor hat or drum in place"},
        default={"with hat": 1.0}, because="what the keys ask for",
    )  # fmt: skip
    old_hat: LengthReadings = key(
        "Thickness of the old rotor hat or drum web between flange and wheel.",
        example="0.28 in", usual=("0.06 in", "0.5 in"), possible=("0 in", "2 in"),
        advice="Caliper through a stud hole.",
    )  # fmt: skip
    face_to_face: LengthReadings = key(
        "Old axle, wheel face to wheel face. Ride height or on the bench.",
        example="60 in", usual=("46 in", "72 in"), possible=("20 in", "100 in"),
        advice="Two straightedges on the faces, tape between them ahead of and behind the axle.",
    )  # fmt: skip
    bare_to_bare: LengthReadings = key(
        "Old axle, bare flange to bare flange, brakes off: differs from wheel face to wheel face by"
        " two hats.",
        example="59 7/16 in", usual=("46 in", "72 in"), possible=("20 in", "100 in"),
        advice="Brakes off; straightedges on the flanges.",
    )  # fmt: skip
    end_to_end: LengthReadings = key(
        "Old housing, end face to end face.",
        example="54 1/2 in", usual=("40 in", "68 in"), possible=("15 in", "95 in"),
        advice="Bar or tape through the tubes, or a tape hooked on the outer edge of each end.",
    )  # fmt: skip
    lip_to_lip: LengthReadings = key(
        "Fender lip to fender lip across the car at the axle line, plumb line to plumb line.",
        example="74 1/4 in", usual=("60 in", "90 in"), possible=("30 in", "120 in"),
        advice="Plumb bobs off both lips; tape between the marks on the floor.",
    )  # fmt: skip
    inner_to_inner: LengthReadings = key(
        "Between the two nearest things inboard, left to right, at the height of the bulge.",
        example="41 1/2 in", usual=("20 in", "60 in"), possible=("5 in", "90 in"),
        advice="Plumb bobs off both things that `inner` was measured to.",
    )  # fmt: skip
    rail_to_rail: LengthReadings = key(
        "Between the two body datums that `rail` was measured from.",
        example="44 in", usual=("20 in", "70 in"), possible=("5 in", "100 in"),
        advice="Tape between the two holes or edges.",
    )  # fmt: skip
    bump: LengthReadings = key(
        "Travel of a wheel upward from ride height to the bump stop pressed flat.",
        example="3 1/2 in", usual=("1 in", "7 in"), possible=("0 in", "15 in"),
        advice="Zip tie on the shock rod; or jack one side up to its stop: what lip_height lost.",
    )  # fmt: skip
    droop: LengthReadings = key(
        "Travel of a wheel downward from ride height until the shock is fully out.",
        example="3 in", usual=("1 in", "8 in"), possible=("0 in", "18 in"),
        advice="Jack the body until the tires just leave the ground: how much lip_height grew.",
    )  # fmt: skip
    lateral_shift: Length = key(
        "How far the axle moves sideways under the body in a hard bend, to each side.",
        example="0.3 in", default="0.25 to 0.5 in",
        because="solid axle on leaves or a lateral rod, from memory",
        usual=("0 in", "1 in"), possible=("0 in", "3 in"),
        advice="Pry the body sideways against the axle; dial or tape on a lip.",
    )  # fmt: skip
    outer_clearance: Length = key(
        "Clearance wanted between tire and fender lip at ride height.",
        example="1 in", default="0.75 to 1 in",
        because="street radials, from memory; there is no firm standard, slicks need more",
        usual=("0.3 in", "2.5 in"), possible=("0 in", "6 in"),
    )  # fmt: skip
    inner_clearance: Length = key(
        "Clearance wanted between tire or rim and the nearest thing inboard at ride height.",
        example="0.75 in", default="0.75 in",
        because="street radials, from memory; there is no firm standard, slicks need more",
        usual=("0.3 in", "2.5 in"), possible=("0 in", "6 in"),
    )  # fmt: skip
    moving_clearance: Length = key(
        "Clearance that must be left at any height, roll or sideways shift.",
        example="0.25 in", default="0.25 in", because=PRACTICE,
        usual=("0.1 in", "1 in"), possible=("0 in", "3 in"),
    )  # fmt: skip
    floor_gap: LengthReadings = key(
        "Top of the old center section up to floor or tank above it. Ride height.",
        example="5 in", usual=("2 in", "12 in"), possible=("0 in", "30 in"),
        advice="Tape between the nearest points; the new center may be taller.",
    )  # fmt: skip
    tank_gap: LengthReadings = key(
        "Rear of the old center section or its cover back to tank, bar or lateral rod."
        " Ride height.",
        example="4 in", usual=("1 in", "12 in"), possible=("0 in", "40 in"),
        advice="Nearest points, level; note what it is.",
    )  # fmt: skip
    exhaust_gap: LengthReadings = key(
        "Axle tube up to the exhaust over it. Ride height.",
        example="4 1/2 in", usual=("2 in", "12 in"), possible=("0 in", "30 in"),
        advice="Nearest points along the whole tube.",
    )  # fmt: skip
    stop_gap: LengthReadings = key(
        "Axle up to the bump stop before it touches. Ride height.",
        example="2 3/4 in", usual=("1 in", "6 in"), possible=("0 in", "15 in"),
        advice="Tape between pad and stop, both sides; state the smaller.",
    )  # fmt: skip
    hose_slack: LengthReadings = key(
        "Length of the brake hose less the straight way between its ends. Ride height.",
        example="4 in", usual=("1 in", "10 in"), possible=("0 in", "30 in"),
        advice="String along the hose, and straight.",
    )  # fmt: skip
    left: Side | None = key("Left side, wheel face of the old axle as the datum. Ride height.")
    right: Side | None = key("Right side, wheel face of the old axle as the datum. Ride height.")
