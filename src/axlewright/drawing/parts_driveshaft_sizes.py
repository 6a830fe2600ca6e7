"""The sizes of a driveshaft, counted from its front joint's center.

Lengths in millimeters, angles in radians.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.drawing.dimensions import Size


@dataclass(frozen=True)
class JointSizes:
    """A universal joint: its class, cap diameter, and width over the caps or between the clips."""

    name: str
    cap: Size
    span: Size


@dataclass(frozen=True)
class DriveshaftSizes:
    """A one-piece shaft with a slip yoke at the front (mm).

    ``front_yoke`` and ``rear_yoke`` run from the joint's center to the end of the tube; ``barrel``
    is how far the slip yoke's barrel reaches ahead of the front joint.  ``engaged`` and ``free``
    are the spline in use and the way left before it bottoms, at ride height.  ``phase`` is how far
    the front yoke is turned against the rear one, counterclockwise as seen from the rear.
    """

    center_to_center: Size
    tube_diameter: Size
    tube_wall: Size
    front_yoke: Size
    rear_yoke: Size
    barrel: Size
    barrel_diameter: float
    spline_diameter: float
    engaged: Size
    free: Size
    front: JointSizes
    rear: JointSizes
    phase: Size
    balance: str = ""
    speed: str = ""
    runout: Size | None = None
    material: str = ""
