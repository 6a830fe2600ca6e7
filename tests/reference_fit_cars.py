"""Ten invented cars as bodies in space: what is really there, and what each reading would show.

Apart from the program under test: nothing of it is imported, rotations are Rodrigues' formula
written here, lengths come from points.  Inches and radians.  Floor axes: x forward, y left, z
square to the floor; the floor itself may slope.  The body may lean on its springs, the housing may
be bent, and no two sides are quite alike.  ``exact_readings`` gives what a perfect tape, bob and
gauge would show under the names of the build file; who measures is ``reference_measurer``.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]
Readings = dict[str, float]
"""Lengths in inches, angles in degrees, by the key of the build file; points by key and axis."""
SIDES = (("left", 1.0), ("right", -1.0))
X, Y, Z = np.eye(3)
AXES = ("forward", "left", "up")


def turned(vector: Vector, axis: Vector, angle: float) -> Vector:
    """A vector turned about an axis (Rodrigues)."""
    k = axis / math.sqrt(float(axis @ axis))
    cosine, sine = math.cos(angle), math.sin(angle)
    return vector * cosine + np.cross(k, vector) * sine + k * float(k @ vector) * (1.0 - cosine)


@dataclass(frozen=True)
class Housing:
    """An axle: from the cross pin outward, each side by itself."""

    flange: tuple[float, float]
    """Cross pin to bare flange along the tube, left and right."""
    brake_space: tuple[float, float]
    hat: tuple[float, float]
    gap: float
    """Between the inner ends of the shafts."""
    pinion_left: float
    """Pinion left of the cross pin."""
    nose: float
    """Axle line forward to the joint."""
    bent: tuple[float, float] = (0.0, 0.0)
    """Each tube bent forward (toed in) by so many degrees."""

    @property
    def shafts(self) -> tuple[float, float]:
        """Flange face to spline end."""
        return self.flange[0] - 0.5 * self.gap, self.flange[1] - 0.5 * self.gap


@dataclass(frozen=True)
class Wheel:
    """A wheel with its tire."""

    rim: float
    lip: float
    offset: float
    section: float
    diameter: float


@dataclass(frozen=True)
class Car:
    """A car as it stands; body points are of the upright body, axle points of the unturned axle."""

    name: str
    kind: str
    """What locates the axle: see ``reference_fit_motion``."""
    old: Housing
    new: Housing
    wheel: Wheel
    old_offset: float
    center_height: float
    pinion_slope: float
    """Degrees against the floor, nose up; likewise the gearbox, and both plan slopes."""
    pinion_plan: float
    gearbox_slope: float
    gearbox_plan: float
    gearbox_joint: tuple[float, float, float]
    axle_left: float
    """Cross pin left of the body's center plane."""
    lean: float
    """Body's roll on its springs, degrees, left side down."""
    floor: float
    """Floor's rise to the front and to the left, degrees."""
    cross_floor: float
    gauge_zero: float
    loaded_rise: float
    lip: tuple[float, float]
    """Fender lip from the body's center plane."""
    lip_up: float
    inner: tuple[float, float]
    inner_up: float
    rail: tuple[float, float]
    rail_up: float
    body: Mapping[str, Vector]
    """Points of the left on the body; ``right_`` ones for the other side."""
    axle: Mapping[str, Vector]
    slip_bottomed: float
    slip_gap: float
    spline: tuple[float, float]
    """Side gear's spline from the cross pin."""
    bare_datum: bool = False
    """The readings were taken from bare flanges, and the build says so."""
    symmetric: bool = True
    bad: bool = False
    """Each try has one bad reading."""
    parts: Mapping[str, float] = field(default_factory=dict)
    """All that is one plain dimension of a part or a gap, by its key."""

    # where things are, in floor axes with y from the body's center plane at the floor

    def on_body(self, point: Vector) -> Vector:
        """A point of the leaning body; it leans about its center plane where that meets z = 12."""
        pivot = 12.0 * Z
        return pivot + turned(np.asarray(point, float) - pivot, X, -math.radians(self.lean))

    @property
    def cross_pin(self) -> Vector:
        """Middle of the differential."""
        return np.array([0.0, self.axle_left, self.center_height])

    def tube(self, side: int) -> Vector:
        """Outward direction of a tube."""
        way = SIDES[side][1]
        return turned(way * Y, Z, -way * math.radians(self.old.bent[side]))

    def flange(self, side: int, hat: bool) -> Vector:
        """Middle of the wheel face, or of the bare flange."""
        out = self.old.flange[side] + (self.old.hat[side] if hat else 0.0)
        return self.cross_pin + out * self.tube(side)

    def face(self, side: int) -> float:
        """The face that readings run from, left of the middle: mean of fore and aft of the axle."""
        middle = self.flange(side, not self.bare_datum)
        ahead = np.cross(self.tube(side), Z)
        return float(np.mean([(middle + s * 12.0 * ahead)[1] for s in (-1.0, 1.0)]))

    def wheel_center(self, side: int) -> Vector:
        """Middle of the tire that stands there."""
        return self.flange(side, True) - self.old_offset * self.tube(side)

    @property
    def pinion(self) -> Vector:
        """Direction of the pinion, forward."""
        up, left = math.tan(math.radians(self.pinion_slope)), math.radians(self.pinion_plan)
        line = np.array([1.0, math.tan(left), up])
        return line / math.sqrt(float(line @ line))

    @property
    def gearbox(self) -> Vector:
        """Direction of the gearbox, forward (its tail hangs, so it rises to the front)."""
        left = math.tan(math.radians(self.gearbox_plan))
        line = np.array([1.0, left, math.tan(math.radians(self.gearbox_slope))])
        return line / math.sqrt(float(line @ line))

    @property
    def pinion_joint(self) -> Vector:
        """Joint center at the pinion; its line runs below the axle line by the hypoid drop."""
        start = self.cross_pin + self.old.pinion_left * Y - 1.5 * Z
        return start + self.old.nose * self.pinion

    @property
    def front_joint(self) -> Vector:
        """Joint center at the gearbox."""
        return self.on_body(np.array(self.gearbox_joint))

    def points(self) -> dict[str, Vector]:
        """Every point of the suspension as it stands."""
        found = {n: self.on_body(p) for n, p in self.body.items()}
        found |= {n: self.cross_pin + np.asarray(p, float) for n, p in self.axle.items()}
        found["wheel_center"], found["right_wheel_center"] = map(self.wheel_center, (0, 1))
        found["pinion_joint"], found["gearbox_joint"] = self.pinion_joint, self.front_joint
        return found


def elevation(line: Vector, floor: float) -> float:
    """What a gauge laid along a line shows against level, degrees; the floor rises to the front."""
    level = turned(line, Y, -math.radians(floor))
    return math.degrees(math.atan2(level[2], math.hypot(level[0], level[1])))


def _hung(point: Vector, at: float, cross: float) -> float:
    """Where a plumb line off a point passes the height ``at``: the floor may rise to the left."""
    return float(point[1] + (point[2] - at) * math.tan(math.radians(cross)))


def exact_readings(car: Car) -> Readings:
    """Every reading of the worksheet that this car needs, without any error of measuring."""
    found: Readings = {}
    faces = [car.face(s) for s in (0, 1)]
    marks: dict[str, list[float]] = {"lip": [], "inner": [], "rail": []}
    for side, (name, way) in enumerate(SIDES):
        here = f"fit.{name}"
        face, height = faces[side], car.flange(side, True)[2]
        lip = car.on_body(np.array([0.0, way * car.lip[side], car.lip_up]))
        inner = car.on_body(np.array([4.0, way * car.inner[side], car.inner_up]))
        rail = car.on_body(np.array([2.0, way * car.rail[side], car.rail_up]))
        hung = {
            "lip": _hung(lip, height, car.cross_floor),
            "inner": float(inner[1]),
            "rail": _hung(rail, height, car.cross_floor),
        }
        found[f"{here}.lip"] = way * (hung["lip"] - face)
        found[f"{here}.inner"] = way * (face - hung["inner"])
        found[f"{here}.rail"] = way * (face - hung["rail"])
        found[f"{here}.pinion"] = way * (face - car.axle_left - car.old.pinion_left)
        found[f"{here}.differential"] = way * (face - car.axle_left)
        end = car.flange(side, False) - car.old.brake_space[side] * car.tube(side)
        found[f"{here}.housing_end"] = way * (face - end[1])
        found[f"{here}.lip_height"] = float(lip[2] - height)
        found[f"{here}.inner_up"] = float(inner[2] - height)
        found[f"{here}.inner_ahead"] = 4.0
        found[f"{here}.ground_to_center"] = float(height)
        for what, at in (("lip", lip), ("inner", inner)):
            marks[what].append(_hung(at, 0.0, car.cross_floor))
        marks["rail"].append(float(rail[1]))
    found["fit.face_to_face"] = faces[0] - faces[1]
    bare = [car.flange(s, False) for s in (0, 1)]
    found["fit.bare_to_bare"] = float(bare[0][1] - bare[1][1])
    ends = [bare[s] - car.old.brake_space[s] * car.tube(s) for s in (0, 1)]
    found["fit.end_to_end"] = float(np.linalg.norm(ends[0] - ends[1]))
    found["fit.old_hat"] = 0.5 * sum(car.old.hat)
    for key, what in (("lip_to_lip", "lip"), ("inner_to_inner", "inner"), ("rail_to_rail", "rail")):
        found[f"fit.{key}"] = marks[what][0] - marks[what][1]
    return found | _bench(car) | _line(car) | _spots(car) | _parts(car)


_FROM_FACE = {"seat": -1.0, "shock": -1.0, "inner_at_bump": -1.0, "lip_at_bump": 1.0}
"""Dimensions that run from the wheel face: what a missing hat does to each."""


def _parts(car: Car) -> Readings:
    """Plain dimensions, from the bare flange where that is the datum."""
    if not car.bare_datum:
        return dict(car.parts)
    return {
        key: value + _FROM_FACE.get(key.rpartition(".")[2], 0.0) * car.old.hat[0]
        if key.startswith(("fit.left.", "fit.right."))
        else value
        for key, value in car.parts.items()
    }


def _bench(car: Car) -> Readings:
    """The new wheel and the new axle's parts before its shafts are cut."""
    new, wheel = car.new, car.wheel
    width = sum(new.flange)
    middle = 0.5 * (new.flange[1] + new.hat[1] - new.flange[0] - new.hat[0])
    found = {
        "wheel.rim_width": wheel.rim,
        "wheel.lip_width": wheel.lip,
        "wheel.backspace": wheel.offset + 0.5 * wheel.rim + wheel.lip,
        "wheel.offset": wheel.offset,
        "wheel.section": wheel.section,
        "wheel.measuring_rim": wheel.rim,
        "wheel.diameter": wheel.diameter,
        "centre.end_to_end": width - sum(new.brake_space),
        "centre.left_half": new.flange[0] - new.brake_space[0],
        "centre.right_half": new.flange[1] - new.brake_space[1],
        "centre.differential_gap": new.gap,
        "centre.differential_left": middle,
        "centre.pinion_left": middle + new.pinion_left,
        "centre.spline_inner": car.spline[0],
        "centre.spline_outer": car.spline[1],
    }
    for side, (name, _) in enumerate(SIDES):
        found[f"ends.{name}.brake_space"] = new.brake_space[side]
        found[f"ends.{name}.hat"] = new.hat[side]
    return found


def _line(car: Car) -> Readings:
    """Gauge readings and joints."""
    shaft = car.front_joint - car.pinion_joint
    length = float(np.linalg.norm(shaft))

    def shown(line: Vector) -> float:
        return elevation(line, car.floor) - car.gauge_zero

    # the loaded pinion is read by a camera on the body, against the floor line
    return {
        "angles.gearbox": shown(car.gearbox),
        "angles.driveshaft": shown(shaft),
        "angles.pinion": shown(car.pinion),
        "angles.floor": car.floor,
        "angles.gauge_zero": car.gauge_zero,
        "angles.pinion_loaded": elevation(car.pinion, 0.0) + car.loaded_rise,
        "angles.pinion_rise": car.loaded_rise,
        "angles.gearbox_left": float(car.front_joint[1]),
        "angles.pinion_left": float(car.pinion_joint[1]),
        "angles.gearbox_plan": car.gearbox_plan,
        "angles.pinion_plan": car.pinion_plan,
        "angles.joint_to_joint": length,
        "angles.seal_to_joint": length + car.slip_bottomed + car.slip_gap,
        "angles.gearbox_height": float(car.front_joint[2]),
        "angles.pinion_height": float(car.pinion_joint[2]),
        "slip.bottomed_reach": car.slip_bottomed,
        "slip.gap": car.slip_gap,
        "slip.reach": car.slip_bottomed + car.slip_gap,
    }


def _spots(car: Car) -> Readings:
    """Coordinates of points; the right ones only where the build says that sides differ."""
    gap = car.points()["stop_body"] - car.points()["stop_axle"]
    return {"fit.stop_gap": float(gap[2])} | {
        f"points.{name}.{axis}": float(at[n])
        for name, at in car.points().items()
        if not car.symmetric or not name.startswith("right_")
        for n, axis in enumerate(AXES)
    }


def truths(car: Car) -> Readings:
    """What the answers should be, from the bodies alone; degrees and inches."""
    seen = exact_readings(replace(car, bare_datum=False))
    shaft = car.front_joint - car.pinion_joint
    new = car.new
    found = {
        "new axle, face to face": sum(new.flange) + sum(new.hat),
        "new axle, bare to bare": sum(new.flange),
        "old axle, face to face": seen["fit.face_to_face"],
        "old axle, bare to bare": seen["fit.bare_to_bare"],
        "old housing, end to end": seen["fit.end_to_end"],
        "width to order": planned_width(car),
        "wheel offset": car.wheel.offset,
        "wheel backspace": car.wheel.offset + 0.5 * car.wheel.rim + car.wheel.lip,
        "driveshaft, joint to joint": float(np.linalg.norm(shaft)),
        "pinion slope": elevation(car.pinion, 0.0),
        "gearbox slope": elevation(car.gearbox, 0.0),
        "driveshaft slope": elevation(shaft, 0.0),
        "front joint": between(car.gearbox, shaft),
        "rear joint": between(shaft, car.pinion),
        "pinion at rest, in line under pull": elevation(car.gearbox, 0.0) - car.loaded_rise,
    }
    for side, (name, _) in enumerate(SIDES):
        found[f"{name} shaft"] = new.shafts[side]
        found[f"{name} half of the housing"] = new.flange[side] - new.brake_space[side]
        found[f"{name} pinion half"] = new.flange[side] + (-1.0, 1.0)[side] * new.pinion_left
        found[f"{name} brake space"] = new.brake_space[side]
    return found


def shafts_for(car: Car, width: float) -> tuple[float, float]:
    """Shafts that a width over the faces asks for with this differential and these hats."""
    new = car.new
    aside = 0.5 * (new.flange[1] + new.hat[1] - new.flange[0] - new.hat[0])
    left, right = 0.5 * width - aside, 0.5 * width + aside
    return left - new.hat[0] - 0.5 * new.gap, right - new.hat[1] - 0.5 * new.gap


def between(one: Vector, other: Vector) -> float:
    """Angle between two lines in space, degrees."""
    across = float(np.linalg.norm(np.cross(one, other)))
    return math.degrees(math.atan2(across, float(one @ other)))


OUTER, INNER, MOVING, SHIFT = 1.0, 0.75, 0.25, 0.3
"""Clearances wanted at rest and moving, and how far the axle shifts aside; inches."""


def planned_width(car: Car) -> float:
    """Width over the faces of a symmetric axle, midway between what lips and inner things allow.

    Its middle is that between the rails.
    """
    half_tire = 0.5 * max(car.wheel.section, car.wheel.rim + 2 * car.wheel.lip)
    out, inside = half_tire - car.wheel.offset, half_tire + car.wheel.offset
    widest, narrowest = math.inf, -math.inf
    middle = 0.5 * sum(
        car.on_body(np.array([2.0, way * car.rail[side], car.rail_up]))[1]
        for side, (_, way) in enumerate(SIDES)
    )
    for side, (name, way) in enumerate(SIDES):
        face = way * (replace(car, bare_datum=False).face(side) - middle)
        lip = way * (car.on_body(np.array([0.0, way * car.lip[side], car.lip_up]))[1] - middle)
        inner = way * (
            car.on_body(np.array([4.0, way * car.inner[side], car.inner_up]))[1] - middle
        )
        here = {k: car.parts[f"fit.{name}.{k}"] for k in _FROM_FACE}
        widest = min(widest, lip - OUTER - out, face + here["lip_at_bump"] - MOVING - SHIFT - out)
        narrowest = max(
            narrowest,
            inner + INNER + inside,
            face - here["shock"] + INNER + inside,
            face - here["inner_at_bump"] + MOVING + SHIFT + inside,
        )
    return float(widest + narrowest)
