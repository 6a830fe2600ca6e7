"""The driveline in every state, as it is and as it should be set, and what its joints do in each.

At rest, under full pull, and at both ends of the travel.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.driveline import line_places, pinion_setting, pinion_turn
from axlewright.driveline.shaft_line import ShaftMotion, Slope, shaft_motion
from axlewright.quantities.formula import Array, Num, greatest
from axlewright.studies.angles_line import Line, Place, length_between, shaft_between
from axlewright.studies.angles_trace import solved
from axlewright.suspension.pose import Pose


@dataclass(frozen=True)
class State:
    """The driveline in one state, with what its joints do at the top speed of the shaft."""

    key: str
    title: str
    gearbox: Slope
    shaft: Slope
    pinion: Slope
    rear: Place
    length: Num
    motion: ShaftMotion

    @property
    def front_angle(self) -> Num:
        """Working angle of the front joint."""
        return self.motion.angles[0]

    @property
    def rear_angle(self) -> Num:
        """Working angle of the rear joint."""
        return self.motion.angles[1]

    @property
    def hardest(self) -> Num:
        """The joint that winds the shaft's inertia hardest."""
        front, rear = self.motion.inertia_accelerations
        return greatest("hardest joint", "α_s", "angular acceleration", front=front, rear=rear)


def state(
    line: Line, key: str, title: str, rear: Place, pinion: Slope, speed: Num, phase: Num
) -> State:
    """A state from where the rear joint is and where the pinion points."""
    assert line.gearbox is not None and line.front is not None
    shaft = shaft_between(line.front, rear)
    motion = shaft_motion(speed, (line.gearbox, shaft, pinion), (phase,))
    length = length_between(line.front, rear)
    return State(key, title, line.gearbox, shaft, pinion, rear, length, motion)


def at_rest(line: Line, speed: Num, phase: Num) -> State:
    """As measured, at ride height."""
    assert line.pinion is not None
    return state(line, "now", "As it is, coasting", line.rear, line.pinion, speed, phase)


def turned(
    line: Line, before: State, key: str, title: str, turn: Num, speed: Num, phase: Num
) -> State:
    """The same with the nose turned up about the axle line; the joint center comes with it."""
    was = before.pinion.side
    rise = pinion_setting.joint_rise(line.nose, was, turn)
    advance = pinion_setting.joint_advance(line.nose, was, turn)
    rear = Place(
        line_places.rear_joint_moved_ahead(before.rear.x, advance),
        before.rear.y,
        line_places.rear_joint_moved_up(before.rear.z, rise),
    )
    pinion = Slope(pinion_turn.turned_pinion(was, turn), before.pinion.plan)
    return state(line, key, title, rear, pinion, speed, phase)


def lifted(
    line: Line, before: State, key: str, title: str, travel: Num, speed: Num, phase: Num
) -> State:
    """The same with the whole axle straight up: where its links are not known."""
    up = line_places.rear_joint_moved_up(before.rear.z, travel)
    return state(line, key, title, before.rear._replace(z=up), before.pinion, speed, phase)


def posed(
    line: Line, before: State, key: str, title: str, pose: Pose, speed: Num, phase: Num
) -> State:
    """The same with the axle where its links hold it; one pose, or an array of them."""
    joint = pose.place(_vector(before.rear))
    direction = pose.turn(_direction(before.pinion))
    told = {"pinion": before.pinion.side, "forward": before.rear.x, "up": before.rear.z}

    def one(means: str, dimension: str, value: Num) -> Num:
        return solved(f"{means}, {title[0].lower()}{title[1:]}", dimension, value, told)

    rear = Place(
        one("rear joint forward", "length", joint[..., 0][()]),
        one("rear joint left", "length", joint[..., 1][()]),
        one("rear joint up", "length", joint[..., 2][()]),
    )
    pinion = Slope(
        one("pinion's side slope", "angle", np.arctan2(direction[..., 2], direction[..., 0])[()]),
        one("pinion's plan slope", "angle", np.arctan2(direction[..., 1], direction[..., 0])[()]),
    )
    return state(line, key, title, rear, pinion, speed, phase)


def _vector(place: Place) -> Array:
    several = (np.asarray(v, dtype=np.float64) for v in place)
    return np.stack(np.broadcast_arrays(*several), axis=-1)


def _direction(slope: Slope) -> Array:
    """Forward along a part, by its slopes."""
    up, left = np.tan(slope.side), np.tan(slope.plan)
    return np.stack(np.broadcast_arrays(1.0, left, up), axis=-1)
