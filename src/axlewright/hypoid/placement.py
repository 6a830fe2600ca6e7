"""The pair in space: mean point, tooth direction, flank normals.

Frame as for the movement of the pair: origin on the ring's axis at the foot of the common
perpendicular, x along the pinion's axis away from its apex, y from the ring's to the pinion's
axis, z along the ring's axis away from its apex.  Axes stand at 90°.  Vectors are arrays whose
first axis has three entries, so that a whole flank moves at once.  Lengths m, angles rad.

``hand`` +1 is a left-hand pinion below the ring's center, the usual rear axle; -1 is its mirror
image.  ``side`` +1 is the drive flank (ring convex), -1 the coast flank (ring concave).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from axlewright.hypoid import blank
from axlewright.hypoid.geometry import HypoidGeometry
from axlewright.quantities.formula import Array


class Line(NamedTuple):
    """A generating line of a cone: radius and place along the axis at one point, cone angle."""

    radius: float
    place: float
    angle: float

    def radius_at(self, place: Array) -> Array:
        """Radius of the cone at other places along its axis."""
        return np.asarray(self.radius + (place - self.place) * np.tan(self.angle))


@dataclass(frozen=True)
class Depth:
    """Tooth depth of the ring gear and the pinion's cones that follow from it."""

    ring_addendum: float
    pinion_addendum: float
    clearance: float
    face_taper: float
    root_taper: float
    pinion_face: Line
    pinion_root: Line

    @property
    def ring_dedendum(self) -> float:
        """Depth of the ring's teeth below its pitch cone at the mean point."""
        return self.pinion_addendum + self.clearance


@dataclass(frozen=True)
class Pair:
    """Cones, counts and the directions at the mean point."""

    geometry: HypoidGeometry
    depth: Depth
    pinion_teeth: int
    ring_teeth: int
    offset: float
    face_width: float
    outer_radius: float
    cutter_radius: float
    hand: int
    mean_point: Array
    along: Array
    above: Array
    around: Array

    @property
    def ratio(self) -> float:
        """Ring teeth over pinion teeth."""
        return self.ring_teeth / self.pinion_teeth

    @property
    def axis_at(self) -> float:
        """Place of the pinion's axis along y; below zero in the mirror image."""
        return self.hand * self.offset

    def tooth(self) -> Array:
        """Direction of the tooth at the mean point, toward the heel."""
        spiral = float(self.geometry.ring_mean_spiral)
        return np.asarray(np.cos(spiral) * self.along + np.sin(spiral) * self.around)

    def normal(self, pressure_angle: float, side: int) -> Array:
        """Normal of the ring's flank at the mean point, out of the ring's tooth."""
        spiral = float(self.geometry.ring_mean_spiral)
        across = np.sin(spiral) * self.along - np.cos(spiral) * self.around
        return np.asarray(
            side * np.cos(pressure_angle) * across + np.sin(pressure_angle) * self.above
        )

    def ring_section(self, s: Array, h: Array) -> tuple[Array, Array]:
        """Radius and place along the ring's axis of points s along and h above the pitch line."""
        sin, cos = np.sin(self.geometry.ring_pitch_angle), np.cos(self.geometry.ring_pitch_angle)
        radius = self.geometry.ring_mean_radius + s * sin + h * cos
        return np.asarray(radius), np.asarray(self.mean_point[2] + s * cos - h * sin)

    def ring_flank_place(self, points: Array) -> tuple[Array, Array]:
        """The inverse: s and h of points in the ring's frame."""
        sin, cos = np.sin(self.geometry.ring_pitch_angle), np.cos(self.geometry.ring_pitch_angle)
        dr = np.hypot(points[0], points[1]) - self.geometry.ring_mean_radius
        dz = points[2] - self.mean_point[2]
        return np.asarray(dr * sin + dz * cos), np.asarray(dr * cos - dz * sin)

    def face_line(self, s: Array) -> Array:
        """Height of the ring's tip above its pitch line."""
        return np.asarray(self.depth.ring_addendum + s * np.tan(self.depth.face_taper))

    def root_line(self, s: Array) -> Array:
        """Height of the ring's root, below zero."""
        return np.asarray(-self.depth.ring_dedendum - s * np.tan(self.depth.root_taper))


def place(
    geometry: HypoidGeometry,
    pinion_teeth: int,
    ring_teeth: int,
    hypoid_offset: float,
    ring_face_width: float,
    ring_diameter: float,
    cutter_radius: float,
    *,
    hand: int = 1,
    depth_factor: float = blank.DEPTH_FACTOR,
    clearance_factor: float = blank.CLEARANCE_FACTOR,
    addendum_share: float | None = None,
) -> Pair:
    """Place a solved pair (axes at 90°) in space and give it its depth."""
    g = HypoidGeometry(*(float(v) for v in geometry))
    if not all(np.isfinite(v) for v in g):
        raise ValueError("the pitch cones of this pair were not solved")
    if hand not in (1, -1):
        raise ValueError("hand is +1 or -1")
    away = g.ring_mean_radius * np.sin(g.mesh_angle)
    if abs(hypoid_offset - g.pinion_mean_radius * np.sin(g.ring_offset_angle) - away) > 1e-7:
        raise ValueError("offset does not belong to these pitch cones, or the axes are not at 90°")
    cos1, sin1 = np.cos(g.mesh_angle), hand * np.sin(g.mesh_angle)
    cos2, sin2 = np.cos(g.ring_pitch_angle), np.sin(g.ring_pitch_angle)
    point = np.array([
        g.ring_mean_radius * cos1,
        g.ring_mean_radius * sin1,
        g.pinion_mean_radius * np.cos(g.ring_offset_angle),
    ])  # fmt: skip
    share = addendum_share
    if share is None:
        share = float(blank.ring_addendum_share(ring_teeth / pinion_teeth))
    module = 2.0 * g.ring_mean_radius * np.cos(g.ring_mean_spiral) / ring_teeth
    depth = _depth(
        g, float(point[2]), hypoid_offset, float(blank.mean_working_depth(depth_factor, module)),
        clearance_factor, share,
    )  # fmt: skip
    return Pair(
        geometry=g, depth=depth, pinion_teeth=pinion_teeth, ring_teeth=ring_teeth,
        offset=hypoid_offset, face_width=ring_face_width, outer_radius=0.5 * ring_diameter,
        cutter_radius=cutter_radius, hand=hand, mean_point=point,
        along=np.array([sin2 * cos1, sin2 * sin1, cos2]),
        above=np.array([cos2 * cos1, cos2 * sin1, -sin2]),
        around=hand * np.array([-sin1, cos1, 0.0]),
    )  # fmt: skip


def _depth(
    g: HypoidGeometry, height: float, offset: float, working: float, clearance: float, share: float
) -> Depth:
    """Addenda and tapers at the mean point, and the pinion's cones that clear the ring's."""
    gap = float(blank.tooth_clearance(clearance, working))
    ring_up = float(blank.ring_mean_addendum(share, working))
    pinion_up = float(blank.pinion_mean_addendum(share, working))
    ring_down = blank.mean_dedendum(pinion_up, gap)
    root_taper = float(blank.taper_angle(ring_down, g.ring_cone_distance))
    face_taper = float(blank.taper_angle(blank.mean_dedendum(ring_up, gap), g.ring_cone_distance))
    sin, cos = np.sin(g.ring_pitch_angle), np.cos(g.ring_pitch_angle)
    lines = []
    for up, taper in ((-ring_down, -root_taper), (ring_up, face_taper)):
        radius, z = g.ring_mean_radius + up * cos, height - up * sin
        angle = g.ring_pitch_angle + taper
        azimuth = blank.touching_azimuth(offset, radius, z, angle)
        lean = blank.touching_cone_angle(angle, azimuth)
        lines.append(
            Line(
                float(blank.touching_radius(z, angle, lean, gap)),
                float(blank.touching_place(radius, angle, azimuth, gap)),
                float(lean),
            )
        )
    return Depth(ring_up, pinion_up, gap, face_taper, root_taper, lines[0], lines[1])
