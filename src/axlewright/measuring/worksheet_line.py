"""Worksheet of the driveline, last of all: the axle fitted, at ride height."""

from __future__ import annotations

from axlewright.measuring.tools import CALIPER, CAMERA, GAUGE, GRID, PLAN, RULE, TAPE
from axlewright.measuring.worksheet_rows import Stage, joined, rows

_RIDE = "axle fitted, ride height, weight on the tires, driver or ballast in"
_BELOW = "Never work under a car on a jack; gearbox in neutral, wheels chocked."

LINE = (
    Stage(
        "Angles", _RIDE, _BELOW,
        rows(
            "angles", "angles_side",
            ("gauge_zero", "where the gauge was zeroed", "level", GAUGE, "what its numbers mean"),
            ("floor", "slope of the floor", "level, along the car", GAUGE, "gauge against car"),
            ("gearbox", "engine and gearbox", "machined face", GAUGE, "front joint"),
            ("driveshaft", "tube", "clear of welds", GAUGE, "both joints"),
            ("pinion", "pinion", "cap or machined face", GAUGE, "rear joint"),
            ("pinion_loaded", "pinion under full pull", "body", CAMERA,
             "the angle that it works at"),
            ("pinion_rise", "rise of the nose", "slope at rest", CAMERA,
             "what to set the pinion down by"),
            ("phase", "twist between the yokes", "yoke to yoke", GAUGE, "out of phase they add"),
        ),
    ),
    Stage(
        "Where the joints are", _RIDE, _BELOW,
        rows(
            "angles", "angles_plan",
            ("joint_to_joint", "joint center to joint center", "crosses", TAPE,
             "length of the driveshaft"),
            ("seal_to_joint", "seal face to the rear joint", "seal's metal face", TAPE,
             "length with a slip yoke"),
            ("gearbox_height", "front joint above the ground", "floor", GRID,
             "checks the tube's slope"),
            ("pinion_height", "rear joint above the ground", "floor", GRID,
             "checks the tube's slope"),
            ("gearbox_left", "front joint left of the middle", "car's center plane", GRID,
             "angle seen from above"),
            ("pinion_left", "rear joint left of the middle", "car's center plane", GRID,
             "angle seen from above"),
            ("gearbox_plan", "gearbox seen from above", "car's center plane", PLAN,
             "angle seen from above"),
            ("pinion_plan", "pinion seen from above", "car's center plane", PLAN,
             "angle seen from above"),
        ),
    ),
    Stage(
        "Slip joint and tunnel", _RIDE, _BELOW,
        joined(
            rows(
                "slip", "slip",
                ("bottomed_reach", "yoke pushed home", "seal face to joint center", RULE,
                 "shortest that the shaft can be"),
                ("reach", "yoke as it stands", "seal face to joint center", RULE,
                 "where it rides"),
                ("gap", "how far it stands out", "mark at the seal", RULE, "room at bump"),
                ("spline_length", "spline covered when home", "end to end", RULE,
                 "engagement at droop"),
                ("spline_diameter", "spline", "across its teeth", CALIPER, "least engagement"),
            ),
            rows(
                "tunnel", "tunnel",
                ("ahead", "narrowest place", "rear joint center", TAPE, "where the shaft is near"),
                ("above", "room above the center line", "shaft's center line", RULE, "at bump"),
                ("below", "room below it", "shaft's center line", RULE, "loop at droop"),
                ("left", "room to the left", "shaft's center line", RULE, "with a bigger tube"),
                ("right", "room to the right", "shaft's center line", RULE, "with a bigger tube"),
            ),
        ),
    ),
)  # fmt: skip
