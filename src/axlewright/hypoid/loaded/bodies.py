"""The body of one tooth of the ring gear and of the pinion, as a grid of points.

Each tooth is told the same way for both gears: heights ``h`` above and lengths ``s`` along its own
pitch line, and the angle about its own axis at which its drive and its coast flank stand there.
The ring's flanks are the cutter's cones; the pinion's are read from the envelope and carried on to
the root by a smooth polynomial.  Both teeth are half a pitch thick in the middle of the working
depth (the usual rule for a pinion with a long addendum), without backlash.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from axlewright.hypoid.conjugate_pinion import Flank
from axlewright.hypoid.placement import Line, Pair
from axlewright.hypoid.wheel_flank import flank_points
from axlewright.quantities.formula import Array, Num, formula

RIM = 1.5
"""Thickness of rim below the root that gives way, in whole depths (assumed)."""
CORE = 0.5
"""Share of the pinion's root radius at its toe that may give way at most (assumed)."""
_DEGREE = (6, 4)
"""Degrees of the polynomial of the pinion's flank along and up."""


@formula(
    "Δs_n",
    "length",
    source="thickness of a tooth with shifted profile, 2·x·m·tan α for one angle (ISO 23509, from "
    "memory; closed form for two)",
)
def thickness_gain(
    pinion_addendum: Num, ring_addendum: Num, drive_flank_angle: Num, coast_flank_angle: Num
) -> Num:
    """How much thicker than half a pitch the pinion's tooth is at the pitch cone, square to it."""
    shift = 0.5 * (pinion_addendum - ring_addendum)
    return shift * (np.tan(drive_flank_angle) + np.tan(coast_flank_angle))


Azimuth = Callable[[Array, Array], Array]
"""Angle of a flank about the gear's axis at places s, h."""


@dataclass(frozen=True)
class Tooth:
    """A tooth: where its pitch line runs, root and tip lines (h = a + b·s), its two flanks.

    ``axis`` is the coordinate along which the gear's axis runs.  ``flanks`` holds the drive
    flank (key +1) and the coast flank (key -1).
    """

    axis: int
    teeth: int
    radius: float
    place: float
    angle: float
    root: tuple[float, float]
    tip: tuple[float, float]
    ends: tuple[float, float]
    rim: float
    flanks: dict[int, Azimuth]

    def section(self, s: Array, h: Array) -> tuple[Array, Array]:
        """Distance from the axis and place along it."""
        sin, cos = np.sin(self.angle), np.cos(self.angle)
        return self.radius + s * sin + h * cos, self.place + s * cos - h * sin

    def located(self, points: Array) -> tuple[Array, Array]:
        """The inverse: shares along the face and up from root to tip of points (3, …)."""
        i, j = (self.axis + 1) % 3, (self.axis + 2) % 3
        sin, cos = np.sin(self.angle), np.cos(self.angle)
        out = np.hypot(points[i], points[j]) - self.radius
        on = points[self.axis] - self.place
        s, h = out * sin + on * cos, out * cos - on * sin
        low, high = line_at(self.root, s), line_at(self.tip, s)
        return (s - self.ends[0]) / (self.ends[1] - self.ends[0]), (h - low) / (high - low)

    def points(self, s: Array, h: Array, turn: Array) -> Array:
        """Points in the gear's frame, coordinates last."""
        radius, place = self.section(s, h)
        out = np.empty((*np.broadcast_shapes(radius.shape, turn.shape), 3))
        out[..., self.axis] = place
        out[..., (self.axis + 1) % 3] = radius * np.cos(turn)
        out[..., (self.axis + 2) % 3] = radius * np.sin(turn)
        return out


def ring_tooth(drive: Flank, coast: Flank) -> Tooth:
    """The ring gear's tooth between the cutter's cones of both its flanks."""
    pair = drive.pair
    behind = -drive.turn_side * (np.pi / pair.ring_teeth - _gain(drive, coast))
    start = float(np.arctan2(pair.mean_point[1], pair.mean_point[0]))

    def azimuth(flank: Flank, turned: float) -> Azimuth:
        def at(s: Array, h: Array) -> Array:
            p = flank_points(pair, flank.cone, s, h)
            return np.asarray(start + _about(np.arctan2(p[1], p[0]) - start) + turned)

        return at

    depth = pair.depth
    whole = depth.ring_dedendum + depth.ring_addendum
    return Tooth(
        2, pair.ring_teeth, float(pair.geometry.ring_mean_radius), float(pair.mean_point[2]),
        float(pair.geometry.ring_pitch_angle),
        (-depth.ring_dedendum, -float(np.tan(depth.root_taper))),
        (depth.ring_addendum, float(np.tan(depth.face_taper))),
        (-0.5 * pair.face_width, 0.5 * pair.face_width), RIM * whole,
        {1: azimuth(drive, 0.0), -1: azimuth(coast, behind)},
    )  # fmt: skip


def pinion_tooth(drive: Flank, coast: Flank) -> Tooth:
    """The pinion's tooth between both its flanks; it fills the ring's slot."""
    pair = drive.pair
    g = pair.geometry
    angle, radius, place = (
        float(g.pinion_pitch_angle), float(g.pinion_mean_radius), float(pair.mean_point[0])
    )  # fmt: skip
    root, tip = (
        _cone_line(pair, line) for line in (pair.depth.pinion_root, pair.depth.pinion_face)
    )
    bare = Tooth(0, pair.pinion_teeth, radius, place, angle, root, tip, (0.0, 1.0), 0.0, {})
    s = np.stack([bare.located(flank.pinion)[0] for flank in (drive, coast)])
    ends = (float(s.min()), float(s.max()))
    whole = tip[0] - root[0]
    toe = float(bare.section(np.asarray(ends[0]), np.asarray(line_at(root, ends[0])))[0])
    turned = -drive.turn_side * (np.pi / pair.pinion_teeth + pair.ratio * _gain(drive, coast))
    return Tooth(
        0, pair.pinion_teeth, radius, place, angle, root, tip, ends, min(RIM * whole, CORE * toe),
        {1: _read(drive, bare, 0.0), -1: _read(coast, bare, turned)},
    )  # fmt: skip


def _gain(drive: Flank, coast: Flank) -> float:
    """The pinion's extra thickness as a turn (rad) of the ring."""
    pair = drive.pair
    mean = pair.mean_point[:, None]
    angles = (float(np.arcsin(pair.above @ f.cone.normal(mean)[:, 0])) for f in (drive, coast))
    gain = thickness_gain(pair.depth.pinion_addendum, pair.depth.ring_addendum, *angles)
    g = pair.geometry
    return float(gain / (g.ring_mean_radius * np.cos(g.ring_mean_spiral)))


def _cone_line(pair: Pair, line: Line) -> tuple[float, float]:
    """Height above the pinion's pitch line of a cone of its blank, as a + b·s."""
    g = pair.geometry
    sin, cos = np.sin(g.pinion_pitch_angle), np.cos(g.pinion_pitch_angle)
    slope = np.tan(line.angle)
    size = cos + sin * slope
    here = line.radius - g.pinion_mean_radius + (pair.mean_point[0] - line.place) * slope
    return float(here / size), float((cos * slope - sin) / size)


def _read(flank: Flank, bare: Tooth, turned: float) -> Azimuth:
    """Smooth polynomial through the azimuths of a pinion's flank."""
    p = flank.pinion
    middle = float(np.arctan2(p[2].mean(), p[1].mean()))
    turn = _about(np.arctan2(p[2], p[1]) - middle)
    s, up = bare.located(p)
    low, high = line_at(bare.root, s), line_at(bare.tip, s)
    h = low + up * (high - low)
    scale = s.mean(), 0.5 * np.ptp(s), h.mean(), 0.5 * np.ptp(h)

    def table(s: Array, h: Array) -> Array:
        return np.asarray(
            np.polynomial.chebyshev.chebvander2d(
                (s - scale[0]) / scale[1], (h - scale[2]) / scale[3], _DEGREE
            )
        )

    weights = np.linalg.lstsq(table(s, h).reshape(turn.size, -1), turn.ravel(), rcond=1e-10)[0]

    def at(s: Array, h: Array) -> Array:
        return np.asarray(middle + turned + table(s, h) @ weights)

    return at


def line_at(line: tuple[float, float], s: Array | float) -> Array:
    """Height of a root or tip line (a, b) at places along the face."""
    return np.asarray(line[0] + line[1] * np.asarray(s))


def _about(angle: Array) -> Array:
    return np.asarray((angle + np.pi) % (2.0 * np.pi) - np.pi)
