"""What the links do: instant center, anti-squat, roll, wind-up, and the forces that they carry."""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.driveline.pinion_turn import nose_in_squat, rise_of_windup
from axlewright.driveline.wheel_end_loads import inner_wheel_load, outer_wheel_load
from axlewright.quantities.formula import Num
from axlewright.studies.angles_fill import Filled, Number, Numbers
from axlewright.studies.angles_linkage import Axle, axle_height
from axlewright.studies.angles_trace import solved
from axlewright.suspension.forces import Forces, link_forces, mount_of
from axlewright.suspension.loads import braking_load, cornering_load, launch_load
from axlewright.suspension.motion import SideView, roll_view_of, side_view_of
from axlewright.suspension.pose import Load, Pose
from axlewright.suspension.roll_motion import roll_center_height
from axlewright.suspension.side_view import anti_lift_of_links, anti_squat_of_links
from axlewright.vehicle.axle_forces import rear_braking, sideways_push, tail_squat
from axlewright.vehicle.brake_balance import rear_load_in_braking
from axlewright.vehicle.wheels import one_wheel_load, wheel_thrust

CASES = {
    "launch": "Launch, full throttle in first gear",
    "brake": "Hard stop",
    "corner": "Sliding in a bend to the left",
}
NOSE = 3
"""Which entry of a give is the turn of the nose."""


@dataclass(frozen=True)
class Carried:
    """One case: what every piece carries, and where on axle and body."""

    case: str
    forces: Forces


def axle_numbers(x: Filled, pose: Pose | None) -> Numbers:
    """The side view, roll and wind-up: of the links, or of the class where they are not known."""
    if pose is None:
        return _class_numbers(x)
    view, told = side_view_of(pose), told_of(x)

    def one(means: str, dimension: str, value: Num) -> Num:
        return solved(means, dimension, value, told)

    side = SideView(
        one("thrust slope of the links", "ratio", view.thrust_slope),
        one("reaction arm of the links", "per distance", view.reaction_arm),
    )
    roll, mount = roll_view_of(pose, axle_height(x)), mount_of(pose)
    above = one("roll center above the axle line", "length", roll.center_above_axle)
    steer = one("steer for each radian of roll", "ratio", roll.understeer)
    return {
        **_side(x, side, axle_height(x)),
        "ic_ahead": Number(
            "Instant center ahead of the axle", "length",
            one("instant center ahead", "length", view.instant_center_ahead),
        ),
        "ic_height": Number(
            "Instant center above ground", "length",
            one("instant center above ground", "length",
                view.instant_center_height(axle_height(x))),
        ),
        "roll_center": Number(
            "Roll center above ground", "length", roll_center_height(above, axle_height(x))
        ),
        "roll_steer": Number(
            "Roll steer, above zero steers the axle into the bend", "ratio", steer
        ),
        "torque_left": Number(
            "Driveshaft torque that the links do not cancel in roll", "ratio",
            one("share of the driveshaft torque left", "ratio",
                roll.torque_share(axle_height(x), x.machine.gears.ratio)),
        ),
        "windup_stiffness": Number(
            "Stiffness against winding up", "torsional stiffness",
            one("wind-up stiffness of the bushes", "torsional stiffness", mount.windup),
        ),
        "mount_stiffness": Number(
            "Stiffness of the axle fore and aft", "stiffness",
            one("fore-aft stiffness of the bushes", "stiffness", mount.stiffness),
        ),
        "mount_height": Number(
            "Height above the axle line at which a push does not turn it", "length",
            one("height of the mounts", "length", mount.height),
        ),
    }  # fmt: skip


def windup_rise(x: Filled, carried: Carried | None) -> Num:
    """Rise of the nose under full pull: by the bushes of the links, else by the class."""
    if carried is None:
        return rise_of_windup(x.pull.torques["ring"], x.launching.mount.windup_stiffness)
    give = carried.forces.give[..., NOSE][()]
    return solved("wind-up in the bushes at full pull", "angle", give, told_of(x))


def squatting(x: Filled, pose: Pose) -> tuple[Num, Num]:
    """How far the tail sinks under full pull, and how far that turns the nose up."""
    m, view, told = x.machine, side_view_of(pose), told_of(x)
    slope = solved("thrust slope of the links", "ratio", view.thrust_slope, told)
    arm = solved("reaction arm of the links", "per distance", view.reaction_arm, told)
    share = anti_squat_of_links(slope, arm, axle_height(x), m.car.cg_height, m.car.wheelbase)
    push = wheel_thrust(x.pull.torques["ring"], x.standing.radius)
    squat = tail_squat(
        push, m.car.cg_height, m.car.wheelbase, share, x.launching.body.rear_stiffness
    )
    return squat, nose_in_squat(squat, arm)


def carried(x: Filled, axle: Axle, pose: Pose, cases: tuple[str, ...]) -> dict[str, Carried]:
    """Forces in links and brackets, case by case, at ride height."""
    return {
        case: Carried(case, link_forces(pose, _LOADS[case](x, pose), axle.springs))
        for case in cases
    }


def _launch(x: Filled, pose: Pose) -> Load:
    car, radius = x.standing, axle_height(x)
    thrust = wheel_thrust(x.pull.torques["ring"], car.radius)
    ratio = x.machine.gears.ratio
    return launch_load(pose, thrust, radius, ratio, car.grip.left_load, car.grip.right_load)


def _brake(x: Filled, pose: Pose) -> Load:
    m, car = x.machine, x.standing
    braking = rear_braking(car.weight, m.wheel_end.brake_grip, m.wheel_end.brake_share)
    behind = rear_load_in_braking(
        car.weight, m.car.rear_share, m.wheel_end.brake_grip, m.car.cg_height, m.car.wheelbase
    )
    each = one_wheel_load(behind)
    return braking_load(pose, braking, axle_height(x), each, each)


def _corner(x: Filled, pose: Pose) -> Load:
    """A bend to the left: the right wheel is the outer one."""
    m, car = x.machine, x.standing
    slide = (car.rear_load, m.wheel_end.side_grip)
    where = (m.car.cg_height, m.car.track)
    inner, outer = inner_wheel_load(*slide, *where), outer_wheel_load(*slide, *where)
    return cornering_load(pose, sideways_push(*slide), axle_height(x), inner, outer)


_LOADS = {"launch": _launch, "brake": _brake, "corner": _corner}


def pulls(pose: Pose, forces: Forces) -> dict[str, Num]:
    """Pull in each link, and push of each guide, by its name; springs last."""
    names = pose.linkage.names
    found: dict[str, Num] = {name: forces.pull[..., n][()] for n, name in enumerate(names)}
    for n, side in enumerate(("left", "right")):
        found[f"{side} spring"] = forces.springs[..., n][()]
    return found


def _side(x: Filled, view: SideView, radius: Num) -> Numbers:
    m = x.machine
    shape = (view.thrust_slope, view.reaction_arm, radius, m.car.cg_height, m.car.wheelbase)
    return {
        "thrust_slope": Number("Slope from the axle to the instant center", "ratio",
                               view.thrust_slope),
        "reaction_arm": Number("One over the instant center's distance", "per distance",
                               view.reaction_arm),
        "anti_squat": Number("Anti-squat", "ratio", anti_squat_of_links(*shape)),
        "anti_lift": Number("Anti-lift in braking", "ratio",
                            anti_lift_of_links(*shape, m.wheel_end.brake_share)),
    }  # fmt: skip


def _class_numbers(x: Filled) -> Numbers:
    mount = x.launching.mount
    return {
        **_side(x, SideView(mount.thrust_slope, mount.reaction_arm), x.launching.tire.radius),
        "ic_ahead": Number("Instant center ahead of the axle", "length",
                           mount.instant_center_ahead),
        "ic_height": Number("Instant center above ground", "length", mount.instant_center_height),
        "torque_left": Number("Driveshaft torque that the links do not cancel in roll", "ratio",
                              mount.roll_torque_share),
        "windup_stiffness": Number("Stiffness against winding up", "torsional stiffness",
                                   mount.windup_stiffness),
        "mount_stiffness": Number("Stiffness of the axle fore and aft", "stiffness",
                                  mount.stiffness),
    }  # fmt: skip


def told_of(x: Filled) -> dict[str, Num]:
    """What a working of the links shows: points by name, and the bushes."""
    told: dict[str, Num] = {}
    for name, spot in x.fitting.points.items():
        for axis in ("forward", "left", "up"):
            told[f"{name} {axis}"] = getattr(spot, axis)
    b = x.fitting.bushes
    return told | {"lower bush": b.lower, "upper bush": b.upper, "lateral bush": b.lateral}
