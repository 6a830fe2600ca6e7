"""Where everything stands at one height of the axle, seen from the left: for the picture."""

from __future__ import annotations

from numpy.typing import ArrayLike

from axlewright.build.resolve import Resolved
from axlewright.driveline import driveshaft_length, line_places
from axlewright.quantities.estimate import Plain
from axlewright.quantities.records import record
from axlewright.studies import angles_moves as moves
from axlewright.studies.angles import rise_measured
from axlewright.studies.angles_fill import Filled, filled, kind_of
from axlewright.studies.angles_judge import asked_of
from axlewright.studies.angles_linkage import axle_height, posing, with_or_without
from axlewright.studies.angles_numbers import Found, found
from axlewright.studies.angles_states import pulling
from axlewright.studies.angles_sweep import travel_of
from axlewright.suspension.linkage import Link, spot
from axlewright.suspension.motion import roll_view_of, side_view_of
from axlewright.suspension.pose import Pose, solve_pose

Point = tuple[float, float]
_PARALLEL = 1e-9


@record
class Bar:
    """A link seen from the side: its ends on body and axle (ahead, up), m."""

    name: str
    body: Point
    axle: Point


@record
class Standing:
    """The left side of the car at one height: places ahead of the axle line and up, m; angles rad.

    In axes of the body: the axle goes up and down.  The pinion points as it should be set.  No
    instant center where the links are parallel or not known.
    """

    travel: float
    least_travel: float
    greatest_travel: float
    wheelbase: float
    radius: float
    cg_height: float
    axle: Point
    front: Point
    rear: Point
    gearbox_slope: float
    shaft_slope: float
    pinion_slope: float
    front_angle: float
    rear_angle: float
    slip: float
    """How much longer the shaft's line has become since ride height; below zero it went in."""
    bars: tuple[Bar, ...]
    center_ahead: float | None
    """Instant center ahead of the axle line."""
    center_up: float | None
    """The same above the ground as it is now."""
    anti_squat: float | None
    roll_center: float | None
    """Above the ground as it is now."""


def standing_at(build: Resolved, travel: float) -> Standing | None:
    """Everything with both wheels at a travel; kept within the stops."""
    x = filled(build, Plain())

    def do(kind: str, trouble: str) -> Standing | None:
        asked = asked_of(x, kind, rise_measured(build), trouble)
        with posing():
            return _at(x, found(x, asked), travel)

    return with_or_without(kind_of(build), do)


def _at(x: Filled, f: Found, travel: float) -> Standing | None:
    if not f.states:
        return None
    ways = travel_of(x)
    low, high = float(ways[0]), float(ways[-1])
    at = min(max(travel, low), high)
    rest = next(s for s in f.states if s.key == "set")
    how = pulling(x, f.numbers["rise"].value)
    if f.axle is None:
        s = moves.lifted(f.line, rest, "at", "At", at, how.top, how.phase)
        return _standing(x, f, s, (at, low, high), None)
    pose = solve_pose(f.axle.linkage, at, at)
    s = moves.posed(f.line, rest, "at", "At", pose, how.top, how.phase)
    return _standing(x, f, s, (at, low, high), pose)


def _standing(
    x: Filled, f: Found, s: moves.State, travel: tuple[float, float, float], pose: Pose | None
) -> Standing:
    m, radius = x.machine, float(axle_height(x))
    base, high = float(m.car.wheelbase), float(m.car.cg_height)
    assert f.line.front is not None
    ahead, up, squat, roll = None, None, None, None
    axle = (0.0, float(line_places.rear_joint_moved_up(radius, travel[0])))
    if pose is not None:
        view = side_view_of(pose)
        axle = (float(pose.x), float(pose.z))
        squat = float(view.anti_squat(radius, high, base))
        if abs(float(view.reaction_arm)) > _PARALLEL:
            ahead = float(view.instant_center_ahead)
            up = float(view.instant_center_height(radius))
        roll = float(roll_view_of(pose, radius).center_height(radius))
    slip = float(driveshaft_length.free_to_bottom(0.0, f.line.length, s.length))
    return Standing(
        *travel, base, radius, high, axle,
        (float(f.line.front.x), float(f.line.front.z)),
        (float(s.rear.x), float(s.rear.z)),
        float(s.gearbox.side), float(s.shaft.side), float(s.pinion.side),
        float(s.front_angle), float(s.rear_angle), slip,
        _bars(pose), ahead, up, squat, roll,
    )  # fmt: skip


def _bars(pose: Pose | None) -> tuple[Bar, ...]:
    """Links of the left side and of the middle."""
    if pose is None:
        return ()
    made = []
    for piece in pose.linkage.pieces:
        if not isinstance(piece, Link) or piece.name.startswith("right"):
            continue
        if piece.crank is not None:
            continue
        body, axle = _side(piece.body), _side(pose.place(piece.axle))
        made.append(Bar(piece.name.removeprefix("left "), body, axle))
    return tuple(made)


def _side(point: ArrayLike) -> Point:
    x, _, z = (float(v) for v in spot(point))
    return x, z
