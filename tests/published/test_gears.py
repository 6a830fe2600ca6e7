"""Hypoid cones, tooth forces and losses against vectors in space, tables and other methods."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from axlewright.hypoid import forces, geometry, geometry_factors, losses
from axlewright.mechanics import bevel_factors

pytestmark = pytest.mark.published

# Solved separately with ISO 23509 method 1 (equation order from memory), every column confirmed
# by vectors in space; angles in degrees, lengths in mm.  Keys: tooth counts.
PAIRS: dict[str, dict[str, float]] = {
    "13/42": {
        "pinion_teeth": 13.0, "ring_teeth": 42.0, "hypoid_offset": 31.75, "ring_diameter": 170.0,
        "ring_face_width": 30.0, "pinion_spiral": 50.0, "cutter_radius": 63.5,
    },
    "9/41": {
        "pinion_teeth": 9.0, "ring_teeth": 41.0, "hypoid_offset": 38.1, "ring_diameter": 241.3,
        "ring_face_width": 35.0, "pinion_spiral": 48.0, "cutter_radius": 95.25,
    },
}  # fmt: skip
SOLVED: dict[str, dict[str, float]] = {
    "13/42": {
        "ring_mean_radius": 70.93862, "ring_offset_angle": 10.28942, "mesh_angle": 21.73556,
        "offset_angle": 23.94093, "pinion_pitch_angle": 24.13447, "ring_pitch_angle": 63.88497,
        "pinion_mean_spiral": 49.97749, "ring_mean_spiral": 26.03656,
        "pinion_cone_distance": 75.03011, "ring_cone_distance": 79.00397,
        "pinion_mean_radius": 30.67828, "limit_pressure_angle": -6.67042,
    },
    "9/41": {
        "ring_mean_radius": 103.72727, "ring_offset_angle": 5.88228, "mesh_angle": 19.72314,
        "offset_angle": 20.54811, "pinion_pitch_angle": 15.95340, "ring_pitch_angle": 73.02317,
        "pinion_mean_spiral": 47.99640, "ring_mean_spiral": 27.44829,
        "pinion_cone_distance": 109.85978, "ring_cone_distance": 108.45335,
        "pinion_mean_radius": 30.19556, "limit_pressure_angle": -4.67896,
    },
}  # fmt: skip
FIRST_PASS: dict[str, dict[str, float]] = {
    "13/42": {
        "ring_offset_angle": 8.14280, "mesh_angle": 22.72117, "offset_angle": 24.06324,
        "pinion_pitch_angle": 18.68821, "ring_pitch_angle": 69.67309,
        "pinion_mean_spiral": 49.98417, "ring_mean_spiral": 25.92092,
        "limit_pressure_angle": -9.67468,
    },
    "9/41": {
        "ring_offset_angle": 5.13416, "mesh_angle": 19.95316, "offset_angle": 20.57701,
        "pinion_pitch_angle": 13.84700, "ring_pitch_angle": 75.24928,
        "pinion_mean_spiral": 47.99719, "ring_mean_spiral": 27.42017,
        "limit_pressure_angle": -5.77994,
    },
}  # fmt: skip
# Three-dimensional statics at 1,000 N·m of pinion torque and 20°, newtons: (drive, coast).
FORCES: dict[str, dict[str, tuple[float, float]]] = {
    "13/42": {
        "Fn": (53940.19, 53940.19), "Ft1": (32596.36, 32596.36), "Fa1": (42966.15, -27879.62),
        "Fr1": (965.00, 32707.01), "Ft2": (45543.16, 45543.16), "Fa2": (6771.86, 26358.64),
        "Fr2": (28098.15, -11856.91),
    },
    "9/41": {
        "Fn": (52665.94, 52665.94), "Ft1": (33117.45, 33117.45), "Fa1": (40310.52, -30408.68),
        "Fr1": (7210.97, 27427.15), "Ft2": (43918.59, 43918.59), "Fa2": (10567.04, 23888.69),
        "Fr2": (27077.59, -16558.65),
    },
}  # fmt: skip
# Statics with friction along the tooth, 20°: friction -> (drive, coast).
EFFICIENCY = {
    "13/42": {0.03: (0.978401, 0.977224), 0.05: (0.964859, 0.961635), 0.08: (0.945715, 0.937617)},
    "9/41": {0.03: (0.981777, 0.980812), 0.05: (0.970305, 0.967657), 0.08: (0.954027, 0.947353)},
}
ALPHA = math.radians(20.0)


def si(row: dict[str, float]) -> dict[str, float]:
    """Degrees and millimetres to SI by the name of the quantity."""
    out = {}
    for name, value in row.items():
        if name.endswith(("angle", "spiral")):
            out[name] = math.radians(value)
        elif name.endswith("teeth"):
            out[name] = value
        else:
            out[name] = value / 1000.0
    return out


def solve(pair: str, **changes: float) -> geometry.HypoidGeometry:
    given = {**si(PAIRS[pair]), "shaft_angle": 0.5 * math.pi, **changes}
    return geometry.pitch_cones(**given)


def tooth_forces(g: geometry.HypoidGeometry, pinion_torque: float, side: float) -> dict[str, Any]:
    ft1 = pinion_torque / g.pinion_mean_radius
    ft2 = ft1 * math.cos(g.ring_mean_spiral) / math.cos(g.pinion_mean_spiral)
    pinion = (ALPHA, g.pinion_mean_spiral, g.pinion_pitch_angle, side)
    ring = (ALPHA, g.ring_mean_spiral, g.ring_pitch_angle, side)
    return {
        "Fn": forces.tooth_normal_force(ft1, ALPHA, g.pinion_mean_spiral),
        "Ft1": forces.pinion_tangential_force(ft2, g.pinion_mean_spiral, g.ring_mean_spiral),
        "Fa1": forces.pinion_axial_force(ft1, *pinion),
        "Fr1": forces.pinion_radial_force(ft1, *pinion),
        "Ft2": ft2,
        "Fa2": forces.ring_axial_force(ft2, *ring),
        "Fr2": forces.ring_radial_force(ft2, *ring),
    }


class Space:
    """Two cones that touch along their mean point, built from vectors alone."""

    def __init__(self, g: geometry.HypoidGeometry) -> None:
        e = g.offset_angle
        self.n = np.array([0.0, 0.0, 1.0])
        self.g1 = np.array([1.0, 0.0, 0.0])
        self.g2 = np.array([math.cos(e), -math.sin(e), 0.0])
        self.axis1 = math.cos(g.pinion_pitch_angle) * self.g1 + (
            math.sin(g.pinion_pitch_angle) * self.n
        )
        self.axis2 = math.cos(g.ring_pitch_angle) * self.g2 - (
            math.sin(g.ring_pitch_angle) * self.n
        )
        self.apex1 = -g.pinion_cone_distance * self.g1
        self.apex2 = -g.ring_cone_distance * self.g2
        # The tooth leans by the spiral angle from each generatrix, on the side of the other.
        b = g.pinion_mean_spiral
        self.tooth = np.array([math.cos(b), -math.sin(b), 0.0])
        self.across = np.cross(self.n, self.tooth)

    def shaft_angle(self) -> float:
        return math.acos(float(self.axis1 @ self.axis2))

    def offset(self) -> float:
        normal = np.cross(self.axis1, self.axis2)
        return abs(float((self.apex1 - self.apex2) @ normal)) / float(np.linalg.norm(normal))

    def velocities(self, ratio: float) -> tuple[Any, Any]:
        """Of the mean point on pinion and ring, pinion at 1 rad/s."""
        v1 = np.cross(self.axis1, -self.apex1)
        v2 = np.cross(-self.axis2 / ratio, -self.apex2)
        return v1, v2


@pytest.mark.parametrize("pair", PAIRS)
def test_solved_cones_match_the_separate_solution(pair: str) -> None:
    got = solve(pair)._asdict()
    for name, expected in si(SOLVED[pair]).items():
        tolerance = math.radians(1e-5) if name.endswith(("angle", "spiral")) else 1e-8
        assert got[name] == pytest.approx(expected, abs=tolerance), name


@pytest.mark.parametrize("pair", PAIRS)
def test_first_pass_matches_the_separate_solution(pair: str) -> None:
    row = si(PAIRS[pair])
    given, t = geometry._start(
        row["pinion_teeth"], row["ring_teeth"], row["ring_diameter"], row["ring_face_width"],
        row["hypoid_offset"], row["pinion_spiral"], 0.5 * math.pi,
    )  # fmt: skip
    got = geometry._angles(geometry._trial(t, given), given)._asdict()
    for name, expected in si(FIRST_PASS[pair]).items():
        assert got[name] == pytest.approx(expected, abs=math.radians(1e-5)), name


@pytest.mark.parametrize("pair", PAIRS)
@pytest.mark.parametrize("shaft", [80.0, 90.0, 100.0])
def test_axes_cross_at_the_shaft_angle_one_offset_apart(pair: str, shaft: float) -> None:
    """Closed form: two tangent cones in space know nothing of the solution's equations."""
    g = solve(pair, shaft_angle=math.radians(shaft))
    space = Space(g)
    assert space.shaft_angle() == pytest.approx(math.radians(shaft), abs=1e-10)
    assert space.offset() == pytest.approx(PAIRS[pair]["hypoid_offset"] / 1000.0, abs=1e-12)


@pytest.mark.parametrize("pair", PAIRS)
def test_sliding_lies_along_the_tooth_and_fits_the_ratio(pair: str) -> None:
    """Closed form: rigid rotation about both axes."""
    g = solve(pair)
    u = PAIRS[pair]["ring_teeth"] / PAIRS[pair]["pinion_teeth"]
    space = Space(g)
    v1, v2 = space.velocities(u)
    slip = v1 - v2
    assert slip @ space.across == pytest.approx(0.0, abs=1e-12)
    assert slip @ space.n == pytest.approx(0.0, abs=1e-12)
    share = np.linalg.norm(slip) / np.linalg.norm(v1)
    assert losses.sliding_ratio(g.offset_angle, g.ring_mean_spiral) == pytest.approx(share)
    turned = g.ring_mean_radius * math.cos(g.ring_mean_spiral)
    assert turned / (g.pinion_mean_radius * math.cos(g.pinion_mean_spiral)) == pytest.approx(
        u, rel=1e-12
    )


@pytest.mark.parametrize("pair", PAIRS)
def test_limit_pressure_angle_by_kinematics(pair: str) -> None:
    """Closed form: the limit normal is the one square to q = ω1×v2 - ω2×v1."""
    g = solve(pair)
    u = PAIRS[pair]["ring_teeth"] / PAIRS[pair]["pinion_teeth"]
    space = Space(g)
    v1, v2 = space.velocities(u)
    q = np.cross(space.axis1, v2) - np.cross(-space.axis2 / u, v1)
    angle = math.atan(float(space.across @ q) / float(space.n @ q))
    assert abs(g.limit_pressure_angle) == pytest.approx(abs(angle), abs=1e-12)


@pytest.mark.parametrize("pair", PAIRS)
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_tooth_forces_match_the_table(pair: str, side: float) -> None:
    got = tooth_forces(solve(pair), 1000.0, side)
    for name, expected in FORCES[pair].items():
        assert got[name] == pytest.approx(expected[0 if side > 0 else 1], abs=0.02), name


@pytest.mark.parametrize("pair", PAIRS)
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_tooth_forces_match_one_vector_in_space(pair: str, side: float) -> None:
    """One normal force, resolved along and about each crossed axis."""
    g = solve(pair)
    space = Space(g)
    got = tooth_forces(g, 1000.0, side)
    # The flank's normal on the pinion: into the pinion and against its driven sense.
    on_pinion = got["Fn"] * (math.cos(ALPHA) * side * space.across + math.sin(ALPHA) * space.n)
    assert float(np.linalg.norm(on_pinion)) == pytest.approx(got["Fn"])
    for axis, away, force, axial, radial, tangential, radius in (
        (space.axis1, space.n, on_pinion, "Fa1", "Fr1", "Ft1", g.pinion_mean_radius),
        (space.axis2, -space.n, -on_pinion, "Fa2", "Fr2", "Ft2", g.ring_mean_radius),
    ):
        inward = away - (away @ axis) * axis
        inward = inward / np.linalg.norm(inward)
        apex = space.apex1 if axial == "Fa1" else space.apex2
        moment = float(np.cross(-apex, force) @ axis)
        assert abs(moment) / radius == pytest.approx(got[tangential])
        assert force @ axis == pytest.approx(got[axial], abs=1e-6)
        assert force @ inward == pytest.approx(got[radial], abs=1e-6)


@pytest.mark.parametrize("pair", PAIRS)
def test_efficiency_table(pair: str) -> None:
    g = solve(pair)
    for friction, (drive, coast) in EFFICIENCY[pair].items():
        angles = (ALPHA, g.pinion_mean_spiral, g.ring_mean_spiral)
        assert losses.drive_efficiency(friction, *angles) == pytest.approx(drive, abs=1e-6)
        assert losses.coast_efficiency(friction, *angles) == pytest.approx(coast, abs=1e-6)


def rack_tooth(z: float) -> float:
    """Form factor times stress correction by ISO 6336-3 (from memory), rack 1.25/0.38, 20°."""
    tip, fillet, dedendum = 1.0, 0.38, 1.25
    e = math.pi / 4 - dedendum * math.tan(ALPHA) - (1 - math.sin(ALPHA)) * fillet / math.cos(ALPHA)
    g = fillet - dedendum
    h = 2 / z * (math.pi / 2 - e) - math.pi / 3
    theta = math.pi / 6
    for _ in range(60):
        theta = 2 * g / z * math.tan(theta) - h
    root = z * math.sin(math.pi / 3 - theta) + math.sqrt(3) * (g / math.cos(theta) - fillet)
    rho = fillet + 2 * g**2 / (math.cos(theta) * (z * math.cos(theta) ** 2 - 2 * g))
    da = z + 2 * tip
    at_tip = math.acos(z * math.cos(ALPHA) / da)
    gamma = math.pi / (2 * z) + math.tan(ALPHA) - ALPHA - (math.tan(at_tip) - at_tip)
    load = at_tip - gamma
    lever = 0.5 * (
        (math.cos(gamma) - math.sin(gamma) * math.tan(load)) * da
        - z * math.cos(math.pi / 3 - theta)
        - g / math.cos(theta)
        + fillet
    )
    form = 6 * lever * math.cos(load) / (root**2 * math.cos(ALPHA))
    slender = root / lever
    notch = root / (2 * rho)
    return form * (1.2 + 0.13 * slender) * notch ** (1 / (1.21 + 2.3 / slender))


@pytest.mark.parametrize("z", [17, 18, 22, 28, 35, 45, 70, 90, 120, 200])
def test_tooth_form_table_against_the_racks_geometry(z: int) -> None:
    assert geometry_factors.tooth_form_product(float(z)) == pytest.approx(rack_tooth(z), rel=1e-2)


def test_pieces_of_the_life_factors_meet() -> None:
    """From memory: lines recalled apart that meet at their joints support one another."""
    for joint, rate in ((1e3, 1e-3), (3e6, 1e-4)):
        below = bevel_factors.bending_life_factor(joint * (1 - 1e-9))
        assert bevel_factors.bending_life_factor(joint) == pytest.approx(below, rel=rate)
        assert bevel_factors.bending_life_factor_flat(joint) == pytest.approx(below, rel=rate)
    assert bevel_factors.contact_life_factor(1e4) == pytest.approx(2.0, rel=1e-3)
    assert bevel_factors.bending_reliability_factor(0.99) == pytest.approx(1.0, abs=1e-12)
    assert bevel_factors.bending_reliability_factor(0.99 - 1e-12) == pytest.approx(1.0, abs=1e-9)


def test_contact_constant_holds_the_crowning() -> None:
    """From memory, two sources: 232.6 MPa^½ is 189.8 MPa^½ (ISO 10300, steel) times √1.5."""
    assert math.sqrt(1.5) * 189.8 == pytest.approx(232.6, rel=1e-3)
