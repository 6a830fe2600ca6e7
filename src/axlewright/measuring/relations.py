"""The sums that readings of a car must keep: names are those of the keys in a build file.

All are definitions of lengths along one line, square to the car or along the driveshaft.  One is
soft: a body is not exactly symmetric, so its symmetry enters as a reading of nothing with a spread.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from axlewright.measuring.network import Relation

IN = 0.0254
SYMMETRY = "the body's symmetry"
SOFT: dict[str, tuple[float, float]] = {SYMMETRY: (0.0, 0.25 * IN)}
"""What is taken as true of a body within a standard deviation (common practice, no source)."""


def _sum(name: str, total: str, *parts: str) -> Relation:
    return Relation(name, {total: -1.0} | dict.fromkeys(parts, 1.0))


def _bearings() -> tuple[Relation, ...]:
    """Shaft with its bearing in the pocket: the brake space of each end."""
    return tuple(
        Relation(
            f"bearing and pocket make the brake space on the {side}",
            {
                f"ends.{side}.brake_space": -1.0,
                f"ends.{side}.bearing_to_flange": 1.0,
                f"ends.{side}.bearing_width": 1.0,
                f"ends.{side}.bearing_pocket": -1.0,
            },
        )
        for side in ("left", "right")
    )


OLD_AXLE = (
    _sum("both halves from the cross pin make the width", "fit.face_to_face",
         "fit.left.differential", "fit.right.differential"),
    _sum("both halves from the pinion make the width", "fit.face_to_face",
         "fit.left.pinion", "fit.right.pinion"),
    _sum("width and both lips make lip to lip", "fit.lip_to_lip",
         "fit.face_to_face", "fit.left.lip", "fit.right.lip"),
    _sum("both inner gaps and what is between them make the width", "fit.face_to_face",
         "fit.left.inner", "fit.right.inner", "fit.inner_to_inner"),
    _sum("both rails and what is between them make the width", "fit.face_to_face",
         "fit.left.rail", "fit.right.rail", "fit.rail_to_rail"),
    Relation("bare width and two hats make the width",
             {"fit.face_to_face": -1.0, "fit.bare_to_bare": 1.0, "fit.old_hat": 2.0}),
    _sum("housing and both ends make the width", "fit.face_to_face",
         "fit.end_to_end", "fit.left.housing_end", "fit.right.housing_end"),
    Relation("lip and rail are alike on both sides",
             {"fit.left.lip": 1.0, "fit.left.rail": 1.0, "fit.right.lip": -1.0,
              "fit.right.rail": -1.0, SYMMETRY: -1.0}),
)  # fmt: skip
NEW_AXLE = (
    *_bearings(),
    _sum("bare width and both hats make the width", "centre.face_to_face",
         "centre.bare_to_bare", "ends.left.hat", "ends.right.hat"),
    _sum("housing and both brake spaces make the bare width", "centre.bare_to_bare",
         "centre.end_to_end", "ends.left.brake_space", "ends.right.brake_space"),
    _sum("both halves of the housing make its width", "centre.end_to_end",
         "centre.left_half", "centre.right_half"),
    Relation("halves, brake spaces and hats differ by twice the cross pin's place",
             {"centre.right_half": 1.0, "ends.right.brake_space": 1.0, "ends.right.hat": 1.0,
              "centre.left_half": -1.0, "ends.left.brake_space": -1.0, "ends.left.hat": -1.0,
              "centre.differential_left": -2.0}),
    _sum("both shafts and the gap make the bare width", "centre.bare_to_bare",
         "centre.left_shaft", "centre.right_shaft", "centre.differential_gap"),
    Relation("shafts with their hats differ by twice the cross pin's place",
             {"centre.right_shaft": 1.0, "ends.right.hat": 1.0, "centre.left_shaft": -1.0,
              "ends.left.hat": -1.0, "centre.differential_left": -2.0}),
)  # fmt: skip
WHEEL = (
    Relation("offset, half the rim and a lip make the backspace",
             {"wheel.backspace": -1.0, "wheel.offset": 1.0, "wheel.rim_width": 0.5,
              "wheel.lip_width": 1.0}),
)  # fmt: skip
SLIP = (
    _sum("bottomed yoke and gap make the yoke's reach", "slip.reach",
         "slip.bottomed_reach", "slip.gap"),
    _sum("reach and driveshaft make seal to rear joint", "angles.seal_to_joint",
         "slip.reach", "angles.joint_to_joint"),
)  # fmt: skip
NETWORKS: dict[str, tuple[Relation, ...]] = {
    "old axle": OLD_AXLE, "new axle": NEW_AXLE, "new wheel": WHEEL, "slip joint": SLIP,
}  # fmt: skip


def _same(one: str, other: str, name: str) -> Relation:
    return Relation(name, {one: 1.0, other: -1.0})


TWICE = (
    _same("driveshaft.length", "angles.joint_to_joint", "joint center to joint center"),
    _same("points.wheel_center.up", "fit.left.ground_to_center", "height of the left wheel"),
    _same("points.right_wheel_center.up", "fit.right.ground_to_center",
          "height of the right wheel"),
    _same("points.pinion_joint.up", "angles.pinion_height", "height of the rear joint"),
    _same("points.gearbox_joint.up", "angles.gearbox_height", "height of the front joint"),
    _same("points.pinion_joint.left", "angles.pinion_left", "rear joint left of the middle"),
    _same("points.gearbox_joint.left", "angles.gearbox_left", "front joint left of the middle"),
    Relation("gap to the bump stop",
             {"points.stop_body.up": 1.0, "points.stop_axle.up": -1.0, "fit.stop_gap": -1.0}),
)  # fmt: skip
"""What can be read in two places: a coordinate of a point, and a reading of its own."""
PAIRS = (
    *(
        (f"fit.left.{n}", f"fit.right.{n}")
        for n in ("lip", "inner", "rail", "pinion", "differential", "housing_end")
    ),
    ("centre.left_shaft", "centre.right_shaft"),
    ("centre.left_half", "centre.right_half"),
    ("ends.left.brake_space", "ends.right.brake_space"),
    ("ends.left.hat", "ends.right.hat"),
)
"""Readings that can be written down the wrong way round."""


def rising_nose() -> Relation:
    """A stated rise of the nose against the slopes at rest and under pull."""
    return Relation(
        "the nose rises from its slope at rest to the loaded one",
        {
            "angles.pinion_loaded": 1.0,
            "angles.pinion": -1.0,
            "angles.gauge_zero": -1.0,
            "angles.floor": 1.0,
            "angles.pinion_rise": -1.0,
        },
    )


def tube_slope(slope: float, length: float) -> Relation:
    """Heights of both joints against the tube's slope, made linear about what was read.

    height in front - height behind = length * sin(gauge + zero - floor), heights square to the
    floor; the rest of the sine's bend is below a hundredth of an inch for slopes read to a degree.
    """
    lever = length * math.cos(slope)
    return Relation(
        "heights of the joints and slope of the tube agree",
        {
            "angles.gearbox_height": 1.0,
            "angles.pinion_height": -1.0,
            "angles.joint_to_joint": -math.sin(slope),
            "angles.driveshaft": -lever,
            "angles.gauge_zero": -lever,
            "angles.floor": lever,
        },
        constant=lever * slope,
    )


def renamed(relation: Relation, other: Mapping[str, str]) -> Relation:
    """The relation with some quantities read elsewhere: both hats from one that is alike.

    What then cancels is left out.
    """
    shares: dict[str, float] = {}
    for name, share in relation.shares.items():
        here = other.get(name, name)
        shares[here] = shares.get(here, 0.0) + share
    left = {name: share for name, share in shares.items() if share != 0.0}
    return Relation(relation.name, left, relation.constant)
