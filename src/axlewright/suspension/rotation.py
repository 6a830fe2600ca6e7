"""How an axle stands: middle of the wheels, steer, roll and nose; points carried along with it.

Arrays inside the suspension room carry x, y, z on their *first* axis, then the points, then the
samples.  The axle turns from its ride height by R = R_z(steer) R_x(roll) R_y(-nose) A_0^T, with A_0
the steer and roll that the line through the wheel centers had there.  In this order steer and
nose leave the height of both wheel centers alone, so travel gives roll and height in closed form.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.quantities.formula import Array


@dataclass(frozen=True)
class Stand:
    """Place of the middle between the wheel centers and the three angles, as sines and cosines."""

    x: Array
    y: Array
    z: Array
    steer: Array
    roll: Array
    nose: Array

    @property
    def middle(self) -> Array:
        """x, y, z of the middle on the first axis."""
        return np.stack(np.broadcast_arrays(self.x, self.y, self.z))

    @property
    def axle_line(self) -> Array:
        """Unit vector from right to left wheel."""
        cos_roll = np.cos(self.roll)
        return np.stack(
            np.broadcast_arrays(
                -np.sin(self.steer) * cos_roll, np.cos(self.steer) * cos_roll, np.sin(self.roll)
            )
        )

    @property
    def roll_line(self) -> Array:
        """Level unit vector square to the axle line: roll turns about it."""
        cos, sin = np.broadcast_arrays(np.cos(self.steer), np.sin(self.steer))
        return np.stack([cos, sin, np.zeros_like(cos)])

    def turned(self, arms: Array) -> Array:
        """Arms of the axle (3, points, samples), seen along it, as they stand now."""
        x, y, z = arms
        cos, sin = np.cos(self.nose), np.sin(self.nose)
        x, z = cos * x - sin * z, sin * x + cos * z
        cos, sin = np.cos(self.roll), np.sin(self.roll)
        y, z = cos * y - sin * z, sin * y + cos * z
        cos, sin = np.cos(self.steer), np.sin(self.steer)
        return np.stack(np.broadcast_arrays(cos * x - sin * y, sin * x + cos * y, z))


def unturned(arms: Array, steer: Array, roll: Array) -> Array:
    """Arms at ride height seen along the axle: takes its own steer and roll out of them."""
    x, y, z = arms
    cos, sin = np.cos(steer), np.sin(steer)
    x, y = cos * x + sin * y, cos * y - sin * x
    cos, sin = np.cos(roll), np.sin(roll)
    return np.stack(np.broadcast_arrays(x, cos * y + sin * z, cos * z - sin * y))


def cross(a: Array, b: Array) -> Array:
    """Vector product along the first axis."""
    return np.stack(
        np.broadcast_arrays(
            a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
        )
    )


def dot(a: Array, b: Array) -> Array:
    """Scalar product along the first axis."""
    result: Array = a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
    return result


def about(axis: Array, arm: Array, angle: Array) -> Array:
    """An arm turned about a unit axis by an angle (Rodrigues)."""
    along = axis * dot(axis, arm)
    square = arm - along
    return along + np.cos(angle) * square + np.sin(angle) * cross(axis, arm)


def across_z(arm: Array) -> Array:
    """Vector product of the upright unit vector with an arm."""
    return np.stack([-arm[1], arm[0], np.zeros_like(arm[0])])
