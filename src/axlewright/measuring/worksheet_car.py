"""Worksheet of the car as it stands: weight on the tires, then up and down its travel."""

from __future__ import annotations

from axlewright.measuring.tools import CALIPER, GRID, PLUMB, RULE, SQUARE, TAPE, TRAVEL
from axlewright.measuring.worksheet_rows import Stage, both, joined, rows

_FACE = "wheel face of the old axle, brake in place"
_RIDE = "level floor, ride height, weight on the tires, driver or ballast in"
_JACK = "Chock the front wheels; stands under the body, never a jack alone."

_STANDING = joined(
    both(
        "fit", "wheelhouse",
        ("lip_height", "fender lip above the wheel center", "middle of the hub", RULE,
         "the ride height that all else belongs to"),
        ("ground_to_center", "wheel center above the ground", "floor", RULE,
         "joins heights from the floor to the axle line"),
        ("lip", "fender lip outward", _FACE, PLUMB, "room for the tire on the street side"),
        ("inner", "nearest thing inboard at the bulge", _FACE, SQUARE,
         "room for the tire on the inner side"),
        ("inner_up", "how high that thing is", "middle of the hub", RULE,
         "whether bulge, rim or tread meets it"),
        ("inner_ahead", "how far ahead that thing is", "axle line", PLUMB,
         "whether it is beside the tire or in front of it"),
        ("shock", "outermost point of shock or spring", _FACE, SQUARE,
         "moves with the axle, so it is near at every height"),
        ("seat", "middle of spring or link seat", _FACE, PLUMB, "where perches go on the new tube"),
        ("roof", "roof of the wheelhouse above the wheel center", "middle of the hub", RULE,
         "room above the tread at bump"),
        ("rail", "body datum", _FACE, PLUMB, "whether the old axle sits in the middle"),
        ("pinion", "pinion center", _FACE, PLUMB, "where the driveshaft must arrive"),
    ),
    rows(
        "fit", "car_across",
        ("lip_to_lip", "fender lip to fender lip", "plumb lines of both lips", TAPE,
         "checks both lips and the old width in one go"),
        ("inner_to_inner", "nearest things inboard, left to right", "plumb lines of both", TAPE,
         "checks both inner gaps"),
        ("rail_to_rail", "body datum to body datum", "the same holes or edges", TAPE,
         "checks that the axle is in the middle"),
        ("face_to_face", "wheel face to wheel face", "straightedges on both faces", TAPE,
         "the old width as the wheel feels it; closes every sum"),
    ),
    rows(
        "fit", "car_side",
        ("floor_gap", "top of the center section to the floor", "nearest points", RULE,
         "room for a taller center at bump"),
        ("tank_gap", "cover back to tank or rod", "nearest points", RULE,
         "a deeper center or cover meets the tank"),
        ("exhaust_gap", "tube up to the exhaust", "nearest points", RULE, "meets at bump"),
        ("stop_gap", "axle up to the bump stop", "pad and stop", RULE, "travel to the first touch"),
        ("hose_slack", "slack of the brake hose", "between its fittings", RULE,
         "a tight hose tears at droop"),
    ),
)  # fmt: skip

_TRAVEL = joined(
    rows(
        "fit", "car_side",
        ("bump", "travel up to the stop, pressed flat", "ride height", TRAVEL,
         "everything is checked up to here"),
        ("droop", "travel down to the shock's end", "ride height", TRAVEL,
         "and down to here: hose, joint, slip"),
    ),
    both(
        "fit", "wheelhouse_bump",
        ("lip_at_bump", "what the tire meets outside at bump", _FACE, PLUMB,
         "lips lean in above the opening"),
        ("inner_at_bump", "nearest thing inboard at bump", _FACE, SQUARE,
         "kick-up and stop brackets lie higher"),
    ),
)  # fmt: skip

_DATUM = "axle line, center plane, ground"
_POINTS = (
    ("wheel_center", "wheel center, middle of the tire", "the origin of all points"),
    ("lower_body", "lower link on the body", "lower side of the instant center"),
    ("lower_axle", "lower link on the axle", "lower side of the instant center"),
    ("upper_body", "upper link on the body", "upper side of the instant center"),
    ("upper_axle", "upper link on the axle", "upper side of the instant center"),
    ("lateral_body", "lateral rod on the body", "roll center and sideways shift"),
    ("lateral_axle", "lateral rod on the axle", "roll center and sideways shift"),
    ("watt_pivot", "pivot of the Watt crank", "roll center"),
    ("watt_left_body", "left Watt rod on the body", "straightness of the Watt linkage"),
    ("watt_left_crank", "left Watt rod on the crank", "straightness of the Watt linkage"),
    ("watt_right_body", "right Watt rod on the body", "straightness of the Watt linkage"),
    ("watt_right_crank", "right Watt rod on the crank", "straightness of the Watt linkage"),
    ("arm_front", "front of the torque arm", "reaction of the axle torque"),
    ("bar_pivot", "ladder bar's pivot", "instant center itself"),
    ("leaf_front_eye", "front eye of the leaf", "path and wind-up of the axle"),
    ("leaf_seat", "main leaf at its clamp", "path and wind-up of the axle"),
    ("leaf_rear_eye", "rear eye of the leaf", "path and wind-up of the axle"),
    ("shackle_top", "shackle's bolt on the body", "path of the axle"),
    ("spring_body", "upper seat of the coil", "travel of the spring"),
    ("spring_axle", "lower seat of the coil", "travel of the spring"),
    ("shock_body", "upper eye of the shock", "length of the shock at bump and droop"),
    ("shock_axle", "lower eye of the shock", "length of the shock at bump and droop"),
    ("stop_body", "tip of the bump stop", "where bump ends"),
    ("stop_axle", "where the stop meets the axle", "where bump ends"),
    ("hose_body", "brake hose on the body", "length of the hose at droop"),
    ("hose_axle", "brake hose on the axle", "length of the hose at droop"),
    ("bar_body", "anti-roll bar's bush", "bar against cover and tube"),
    ("bar_axle", "anti-roll bar's link on the axle", "bar against cover and tube"),
    ("exhaust", "lowest place of the exhaust over the tube", "meets the tube at bump"),
    ("tank", "nearest place of the tank", "meets the cover at bump"),
    ("pinion_joint", "joint center at the pinion", "path of the driveshaft's rear end"),
    ("gearbox_joint", "joint center at the gearbox", "front end of the driveshaft"),
)  # fmt: skip
_RIGHT = (
    "wheel_center", "lower_body", "lower_axle", "upper_body", "upper_axle", "bar_pivot",
    "leaf_front_eye", "leaf_seat", "leaf_rear_eye", "shackle_top", "spring_body", "spring_axle",
    "shock_body", "shock_axle",
)  # fmt: skip
_WHAT = {name: what for name, what, _ in _POINTS}

CAR = (
    Stage("The car as it stands", _RIDE, "A car on the floor can roll: chocks.", _STANDING),
    Stage("Up and down its travel", "springs out or body jacked, axle at its stops", _JACK,
          _TRAVEL),
    Stage(
        "Points of the suspension", _RIDE, _JACK,
        joined(
            rows("points", "points_side", *((n, w, _DATUM, GRID, y) for n, w, y in _POINTS)),
            rows("points", "points_side", *(
                (f"right_{n}", f"right: {_WHAT[n]}", _DATUM, GRID, "only where sides differ")
                for n in _RIGHT
            )),
        ),
    ),
    Stage(
        "The old axle, brakes and shafts off", "on stands, shafts safe; or out on the bench", _JACK,
        joined(
            rows(
                "fit", "old_axle",
                ("bare_to_bare", "bare flange to bare flange", "straightedges on the flanges", TAPE,
                 "the width by which axles are ordered"),
                ("old_hat", "rotor hat or drum web", "through a stud hole", CALIPER,
                 "the difference between the two widths, each side"),
                ("end_to_end", "housing end to housing end", "end faces", TAPE,
                 "the bare housing"),
            ),
            both(
                "fit", "old_axle",
                ("housing_end", "housing-end face outward", _FACE, SQUARE,
                 "brake space and hat of the old axle together"),
                ("differential", "cross-pin center", _FACE, TAPE, "lengths of the old shafts"),
            ),
        ),
    ),
)  # fmt: skip
