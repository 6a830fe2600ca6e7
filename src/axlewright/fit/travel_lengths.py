"""What travel does to lengths and angles: shocks, springs, hoses, cables, slip joint, joints."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from axlewright.driveline import driveshaft_length
from axlewright.fit.travel import Places, in_words, least_of
from axlewright.quantities.formula import Num, formula
from axlewright.suspension import reach

_SPAN = "lengths between two points compared (closed form)"


@formula("g_o", "length", source=_SPAN)
def room_to_full_length(full_length: Num, present_length: Num) -> Num:
    """What shock, strap, hose or cable has left before it is pulled tight; below zero it tears."""
    return full_length - present_length


@formula("g_c", "length", source=_SPAN)
def room_to_closed(present_length: Num, closed_length: Num) -> Num:
    """What shock or spring has left before it bottoms or binds; below zero it is the bump stop."""
    return present_length - closed_length


@formula("g_a", "angle", source="difference of two angles (closed form)")
def room_to_bind(binding_angle: Num, joint_angle: Num) -> Num:
    """What a joint has left before its yokes touch; below zero it binds and breaks something."""
    return binding_angle - joint_angle


@dataclass(frozen=True)
class Strut:
    """Something between a point of the body and one of the axle; lengths in m, None: no limit."""

    name: str
    body: ArrayLike
    axle: ArrayLike
    full: float | None = None
    """Open length of a shock, free length of a spring, usable length of hose or cable."""
    closed: float | None = None
    """Closed length of a shock, bind length of a spring."""
    at_full: str = "is pulled out to its end"
    at_closed: str = "bottoms"


def shock(name: str, body: ArrayLike, axle: ArrayLike, opened: float, closed: float) -> Strut:
    """A shock by its lengths eye to eye."""
    return Strut(name, body, axle, opened, closed, "tops out and holds the axle up", "bottoms")


def coil(name: str, body: ArrayLike, axle: ArrayLike, free: float, bind: float) -> Strut:
    """A coil spring between its seats: free length and length with all coils touching."""
    return Strut(name, body, axle, free, bind, "hangs loose and may fall out", "goes solid")


def hose(name: str, body: ArrayLike, axle: ArrayLike, length: float, slack: float) -> Strut:
    """A brake hose or cable between its fixings: never nearer to straight than ``slack``.

    Whether it rubs, kinks or twists is seen only on the car.
    """
    return Strut(name, body, axle, length - slack, None, "is pulled tight: it will tear")


def slack_hose(name: str, body: ArrayLike, axle: ArrayLike, slack: float) -> Strut:
    """A hose by its slack at ride height: how much longer it is than the straight way."""
    straight = float(np.linalg.norm(np.subtract(axle, body)))
    return hose(name, body, axle, straight + slack, 0.0)


@dataclass(frozen=True)
class Least:
    """The least of something over the travel, and where: m or rad, below zero it is wrong."""

    name: str
    what: str
    least: float
    left: float
    right: float
    trouble: str

    @property
    def holds(self) -> bool:
        """Whether anything is left."""
        return self.least >= 0.0

    @property
    def words(self) -> str:
        """What happens where it fails; nothing if it does not."""
        return (
            "" if self.holds else f"{self.name} {self.trouble}: {in_words(self.left, self.right)}"
        )


def strut_rooms(axle: Places, struts: Sequence[Strut]) -> tuple[Least, ...]:
    """What shocks, springs, hoses and cables have left at their worst."""
    found = []
    for strut in struts:
        length = reach.distance(axle.pose, strut.body, strut.axle)
        if strut.full is not None:
            left = room_to_full_length(strut.full, length)
            found.append(_least(axle, strut.name, "to full length", left, strut.at_full))
        if strut.closed is not None:
            left = room_to_closed(length, strut.closed)
            found.append(_least(axle, strut.name, "to closed length", left, strut.at_closed))
    return tuple(found)


@dataclass(frozen=True)
class SlipYoke:
    """The slip joint; lengths in m."""

    ride_gap: float
    """How far it stands off its bottom at ride height."""
    bottomed_engagement: float
    """Spline engaged when it is bottomed."""
    spline_diameter: float
    least_free: float = 0.0
    """Way to the bottom that must be left at any height."""
    least_engaged: float | None = None
    """Spline that must stay engaged; by rule of thumb if not given."""


def slip_rooms(
    axle: Places, gearbox_joint: ArrayLike, pinion_joint: ArrayLike, yoke: SlipYoke
) -> tuple[Least, ...]:
    """Least way to the bottom, and least engagement beyond the least that is right."""
    now = reach.distance(axle.pose, gearbox_joint, pinion_joint)
    ride = float(np.linalg.norm(np.subtract(gearbox_joint, pinion_joint)))
    free = driveshaft_length.free_to_bottom(yoke.ride_gap, ride, now)
    engaged = driveshaft_length.engagement(yoke.bottomed_engagement, yoke.ride_gap, ride, now)
    needed = yoke.least_engaged
    if needed is None:
        needed = float(driveshaft_length.least_engagement(yoke.spline_diameter))
    return (
        _least(
            axle, "slip yoke", "to bottom", room_to_closed(free, yoke.least_free),
            "bottoms in the gearbox",
        ),
        _least(
            axle, "slip yoke", "engagement to spare", room_to_closed(engaged, needed),
            "is pulled out too far for its spline",
        ),
    )  # fmt: skip


def joint_rooms(
    axle: Places, gearbox_joint: ArrayLike, pinion_joint: ArrayLike, output: ArrayLike,
    pinion: ArrayLike, front_binding: float, rear_binding: float,
) -> tuple[Least, ...]:  # fmt: skip
    """What both joints have left before they bind, rad.

    ``output`` and ``pinion`` point forward along gearbox output and pinion.  Binding angles are
    measured on the real joint in its yokes, turned through a whole turn.
    """
    front = reach.gearbox_angle(axle.pose, gearbox_joint, pinion_joint, output)
    rear = reach.joint_angle(axle.pose, gearbox_joint, pinion_joint, pinion)
    return (
        _least(axle, "front joint", "to bind", room_to_bind(front_binding, front), "binds"),
        _least(axle, "rear joint", "to bind", room_to_bind(rear_binding, rear), "binds"),
    )


def _least(axle: Places, name: str, what: str, left: Num, trouble: str) -> Least:
    least, index = least_of(left, axle)
    return Least(name, what, least, *axle.where(index), trouble)
