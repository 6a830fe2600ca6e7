"""Where gearbox, driveshaft and pinion point at rest, from whatever was measured of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from axlewright.build.fitting import Spot
from axlewright.driveline import driveshaft_length, line_places
from axlewright.driveline.pinion_setting import slope_from_gauge, slope_in_car
from axlewright.driveline.shaft_line import Slope
from axlewright.quantities.formula import Num
from axlewright.studies.angles_fill import Filled


class Place(NamedTuple):
    """A point in the car's axes: forward of the axle line, left, up from the ground."""

    x: Num
    y: Num
    z: Num


@dataclass(frozen=True)
class Line:
    """The driveline at rest.  Slopes are None where nobody measured them."""

    gearbox: Slope | None
    shaft: Slope | None
    pinion: Slope | None
    front: Place | None
    rear: Place
    length: Num
    nose: Num
    found: dict[str, str]
    """How each was found, in words."""


def line_of(x: Filled) -> Line:
    """The driveline as measured: a gauge before points, points before heights."""
    a, found = x.fitting.angles, dict[str, str]()
    nose = _nose(x, found)
    rear = _rear(x, nose)
    length = _length(x, found)
    side = _side(x, length, found)
    plan = _plan(x, length, found)
    shaft = Slope(side, plan) if side is not None else None
    return Line(
        gearbox=_slope(x, a.gearbox, a.gearbox_plan),
        shaft=shaft,
        pinion=_slope(x, a.pinion, a.pinion_plan),
        front=front_of(rear, length, shaft) if shaft is not None else None,
        rear=rear,
        length=length,
        nose=nose,
        found=found,
    )


def in_car(x: Filled, gauge: Num) -> Num:
    """Slope against the car's floor line of what the gauge showed."""
    a = x.fitting.angles
    return slope_in_car(slope_from_gauge(gauge, a.gauge_zero), a.floor)


def front_of(rear: Place, length: Num, shaft: Slope) -> Place:
    """The front joint center at the other end of the shaft."""
    run = line_places.run_of_shaft(length, shaft.side, shaft.plan)
    return Place(
        line_places.front_joint_ahead(rear.x, run),
        line_places.front_joint_left(rear.y, run, shaft.plan),
        line_places.front_joint_up(rear.z, run, shaft.side),
    )


def shaft_between(front: Place, rear: Place) -> Slope:
    """Slopes of the shaft between two places of its joints."""
    return Slope(
        line_places.slope_of_joints(front.x, front.z, rear.x, rear.z),
        line_places.plan_of_joints(front.x, front.y, rear.x, rear.y),
    )


def length_between(front: Place, rear: Place) -> Num:
    """Joint center to joint center."""
    return driveshaft_length.joint_distance(*front, *rear)


def _slope(x: Filled, gauge: Num | None, plan: Num) -> Slope | None:
    return None if gauge is None else Slope(in_car(x, gauge), plan)


def _spot(x: Filled, name: str) -> Place | None:
    spot: Spot[Num] | None = x.fitting.points.get(name)
    return None if spot is None else Place(spot.forward, spot.left, spot.up)


def _nose(x: Filled, found: dict[str, str]) -> Num:
    if x.fitting.centre.nose is not None:
        return x.fitting.centre.nose
    joint = _spot(x, "pinion_joint")
    if joint is not None:
        return joint.x
    found["nose"] = "length of the pinion's nose assumed: state centre.nose"
    return x.assumed.nose


def _rear(x: Filled, nose: Num) -> Place:
    joint = _spot(x, "pinion_joint")
    if joint is not None:
        return joint
    a, radius = x.fitting.angles, x.launching.tire.radius
    left = 0.0 if a.pinion_left is None else a.pinion_left
    return Place(nose, left, radius if a.pinion_height is None else a.pinion_height)


def _length(x: Filled, found: dict[str, str]) -> Num:
    a, slip = x.fitting.angles, x.fitting.slip
    if a.joint_to_joint is not None:
        found["length"] = "measured between the joint centers"
        return a.joint_to_joint
    if a.seal_to_joint is not None and slip.bottomed_reach is not None:
        found["length"] = "from the seal, less the bottomed yoke and its gap"
        return driveshaft_length.length_from_seal(a.seal_to_joint, slip.bottomed_reach, slip.gap)
    front, rear = _spot(x, "gearbox_joint"), _spot(x, "pinion_joint")
    if front is not None and rear is not None:
        found["length"] = "between the points of both joints"
        return length_between(front, rear)
    found["length"] = "driveshaft.length of the build, not measured at ride height"
    return x.machine.driveshaft.length


def _side(x: Filled, length: Num, found: dict[str, str]) -> Num | None:
    a = x.fitting.angles
    if a.driveshaft is not None:
        found["shaft"] = "by the gauge on the tube"
        return in_car(x, a.driveshaft)
    front, rear = _spot(x, "gearbox_joint"), _spot(x, "pinion_joint")
    if front is not None and rear is not None:
        found["shaft"] = "from the points of both joints"
        return line_places.slope_of_joints(front.x, front.z, rear.x, rear.z)
    if a.gearbox_height is not None and a.pinion_height is not None:
        found["shaft"] = "from the heights of both joints"
        return line_places.slope_of_heights(a.gearbox_height, a.pinion_height, length)
    return None


def _plan(x: Filled, length: Num, found: dict[str, str]) -> Num:
    a = x.fitting.angles
    front, rear = _spot(x, "gearbox_joint"), _spot(x, "pinion_joint")
    if front is not None and rear is not None:
        return line_places.plan_of_joints(front.x, front.y, rear.x, rear.y)
    if a.gearbox_left is not None and a.pinion_left is not None:
        return line_places.plan_of_offsets(a.gearbox_left, a.pinion_left, length)
    found["plan"] = "driveshaft seen from above not measured: taken within a degree of straight"
    return x.assumed.shaft_plan
