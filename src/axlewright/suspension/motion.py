"""How the axle moves next: its motion for a little heave or roll, and what follows from it.

Motion and force are two sides of one thing: links do no work, so the direction in which a point
of the axle moves is the one in which the links cannot be pushed.  Instant center, anti-squat and
roll center are read off the motion here; the tests read them off the forces.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from axlewright.quantities.formula import Array, Num
from axlewright.suspension import roll_motion, side_view
from axlewright.suspension.closure import Closure
from axlewright.suspension.layout import GIVEN
from axlewright.suspension.linkage import spot
from axlewright.suspension.newton import solved
from axlewright.suspension.pose import Pose

_LOCKED = "the links lock in this pose: the axle cannot move on"


@dataclass(frozen=True)
class Motion:
    """Motion of the axle against the body per unit of heave (1 m up) or roll (1 rad, left up)."""

    velocity: Array
    """Of the middle between the wheel centers, x, y, z on the last axis."""
    spin: Array
    """Turning of the axle, about x, y, z."""

    def at(self, from_middle: ArrayLike) -> Array:
        """Velocity of a point of the axle, by its place from the middle in axes of the body."""
        return self.velocity + np.cross(self.spin, spot(from_middle))


@dataclass(frozen=True)
class SideView:
    """Seen from the side: the arm that the links make of the axle.  Finite for parallel links."""

    thrust_slope: Num
    """Rise over run from the axle line to the instant center, as the launch model takes it."""
    reaction_arm: Num
    """1/m, one over the distance of the instant center ahead; zero for parallel links."""

    @property
    def instant_center_ahead(self) -> Num:
        """Meters from the axle line forward; unlimited for parallel links, negative behind."""
        arm = np.asarray(self.reaction_arm, dtype=np.float64)
        ahead = np.full(arm.shape, np.inf)
        result: Num = np.divide(1.0, arm, out=ahead, where=arm != 0.0)[()]
        return result

    def instant_center_height(self, tire_radius: Num) -> Num:
        """Meters above ground; unlimited for parallel links that slope, none for level ones."""
        slope, arm = np.broadcast_arrays(
            np.asarray(self.thrust_slope, dtype=np.float64), self.reaction_arm
        )
        far = np.where(slope == 0.0, np.nan, np.copysign(np.inf, slope))
        above: Num = (tire_radius + np.divide(slope, arm, out=far, where=arm != 0.0))[()]
        return above

    def anti_squat(self, tire_radius: Num, cg_height: Num, wheelbase: Num) -> Num:
        """Share of the load transfer of a launch that the links carry instead of the springs."""
        return side_view.anti_squat_of_links(
            self.thrust_slope, self.reaction_arm, tire_radius, cg_height, wheelbase
        )

    def anti_lift(
        self, tire_radius: Num, cg_height: Num, wheelbase: Num, rear_brake_share: Num
    ) -> Num:
        """The same for braking: how far the links keep the tail from rising."""
        return side_view.anti_lift_of_links(
            self.thrust_slope, self.reaction_arm, tire_radius, cg_height, wheelbase,
            rear_brake_share,
        )  # fmt: skip


@dataclass(frozen=True)
class RollView:
    """What the links do when the body rolls on the axle."""

    center_above_axle: Num
    """Meters: roll center above the axle line, in the plane of the wheel centers."""
    steer: Num
    """Angle of steer to the left for each rad by which the left wheel rises: roll steer."""
    thrust: Num
    """Meters forward for each rad by which the left wheel rises, at the ground under the middle."""

    def center_height(self, tire_radius: Num) -> Num:
        """Meters of the roll center above ground."""
        return roll_motion.roll_center_height(self.center_above_axle, tire_radius)

    @property
    def understeer(self) -> Num:
        """Roll steer counted so that a positive number steers the axle into the bend."""
        return -self.steer

    def torque_share(self, tire_radius: Num, axle_ratio: Num) -> Num:
        """Share of the driveshaft torque that the links do not cancel in roll."""
        return roll_motion.roll_torque_left(self.thrust, tire_radius, axle_ratio)


def heave(pose: Pose) -> Motion:
    """Motion as both wheels rise together, per meter."""
    return _motion(pose, "z")


def roll(pose: Pose) -> Motion:
    """Motion as the left wheel rises and the right one falls, per radian."""
    return _motion(pose, "roll")


def side_view_of(pose: Pose) -> SideView:
    """Thrust slope and reaction arm in a pose."""
    up = heave(pose)
    return SideView(-up.velocity[..., 0][()], up.spin[..., 1][()])


def roll_view_of(pose: Pose, tire_radius: Num) -> RollView:
    """Roll center, roll steer and fore-aft motion of the contact in a pose."""
    turn = roll(pose)
    spin = turn.spin[..., 0]
    below = np.stack(np.broadcast_arrays(0.0, 0.0, -np.asarray(tire_radius)), axis=-1)
    return RollView(
        (turn.velocity[..., 1] / spin)[()],
        (turn.spin[..., 2] / spin)[()],
        (turn.at(below)[..., 0] / spin)[()],
    )


def _motion(pose: Pose, given: str) -> Motion:
    now = pose.closed()
    rates = _free_rates(pose, now, given)
    steer, nose = rates[2], rates[3]
    line, axis = now.stand.axle_line, now.stand.roll_line
    rise = np.full_like(steer, given == "z")
    spin = steer * np.array([[0.0], [0.0], [1.0]]) - nose * line + (given == "roll") * axis
    velocity = np.stack([rates[0], rates[1], rise])
    return Motion(pose.shaped(velocity), pose.shaped(spin))


def _free_rates(pose: Pose, now: Closure, given: str) -> Array:
    """How fast the free coordinates follow one of those given, (coordinates, poses)."""
    if given not in GIVEN:
        raise ValueError(f"{given} is not given")
    free, count = pose.layout.free, len(pose.layout.free)
    slopes, drive = now.slopes(free), now.slope(given)
    size = slopes.shape[-1]
    drive = np.broadcast_to(drive, (slopes.shape[1], size))
    if pose.held:
        return solved(np.moveaxis(slopes, (0, 1), (2, 1)), -drive, _LOCKED)
    hard = pose.layout.rigid
    pulls = pose.row(pose.tension)
    every = (*free, given)
    all_slopes = np.concatenate([slopes, drive[None]])
    bend = now.bends(pulls, every, all_slopes)
    soft = all_slopes[:, ~hard]
    bend = bend + np.einsum("imn,jmn->ijn", soft * pose.layout.stiffness[~hard], soft)
    bars = int(hard.sum())
    whole = np.zeros((size, count + bars, count + bars))
    whole[:, :count, :count] = np.moveaxis(bend[:count, :count], -1, 0)
    whole[:, count:, :count] = np.moveaxis(slopes[:, hard], (0, 1), (2, 1))
    whole[:, :count, count:] = np.moveaxis(slopes[:, hard], -1, 0)
    right = -np.concatenate([bend[:count, count], drive[hard]])
    return solved(whole, right, _LOCKED)[:count]
