"""Axles on links and leaves against other ways of working them out: circles, frames, optimizers."""

import runpy
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import fsolve, minimize
from scipy.spatial.transform import Rotation

from axlewright.suspension import leaf, roll_motion, side_view
from axlewright.suspension.forces import link_forces, mount_of
from axlewright.suspension.kinds import (
    LeafSpring,
    leaf_springs,
    parallel_four_link,
    three_link,
    triangulated_four_link,
)
from axlewright.suspension.linkage import Link, Wheels
from axlewright.suspension.loads import launch_load, tire_load, vector
from axlewright.suspension.motion import roll_view_of, side_view_of
from axlewright.suspension.pose import ride_height, solve_pose

pytestmark = pytest.mark.published

KINDS = runpy.run_path(str(Path(__file__).parents[1] / "unit" / "suspension_kinds.py"))
RADIUS, WHEELS = KINDS["RADIUS"], KINDS["WHEELS"]
INCH = 0.0254
FAR = 1e5


def inches(*point):
    return np.array(point) * INCH


def flat(lower, upper, radius):
    """A three-link whose rod is so long that the axle moves in side view only."""
    wheels = Wheels(inches(0, 30, radius), inches(0, -30, radius))
    low = Link(*(inches(x, 20, z) for x, z in lower))
    high = Link(*(inches(x, 0, z) for x, z in upper))
    rod = Link(inches(0, -FAR, radius), inches(0, 20, radius))
    return three_link(wheels, low, high, rod)


FOUR_BAR = flat([(22, 9), (0, 8)], [(16.5, 14.5), (0.5, 17)], 13)


# Exact rigid four-bar, worked out apart from this program (closed form, circles of both links):
# lower link (0, 8)-(22, 9), upper (0.5, 17)-(16.5, 14.5) in, wheel center at 13 in.
@pytest.mark.parametrize(
    ("rise", "turn", "ahead"),
    [(-2, 2.340, -0.0221), (-1, 1.220, -0.0383), (1, -1.329, 0.0932), (2, -2.774, 0.2423)],
)
def test_four_bar_turns_and_moves_as_its_circles_say(rise, turn, ahead):
    pose = solve_pose(FOUR_BAR, rise * INCH, rise * INCH)
    assert np.degrees(pose.nose) == pytest.approx(turn, abs=0.0006)
    assert pose.x / INCH == pytest.approx(ahead, abs=0.00006)


def test_four_bar_has_its_center_where_its_lines_cross():
    # The lines cross 45.007 in ahead, 10.046 in up; 114.79 % with 21 in of height over 108 in.
    view = side_view_of(ride_height(FOUR_BAR))
    assert view.instant_center_ahead / INCH == pytest.approx(45.007, abs=0.0006)
    assert view.instant_center_height(13 * INCH) / INCH == pytest.approx(10.046, abs=0.0006)
    assert view.anti_squat(13 * INCH, 21 * INCH, 108 * INCH) == pytest.approx(1.1479, abs=6e-5)
    small = 0.01 * INCH
    slope = (
        solve_pose(FOUR_BAR, -small, -small).nose - solve_pose(FOUR_BAR, small, small).nose
    ) / (2 * small)
    assert slope == pytest.approx(view.reaction_arm, rel=1e-5)


def test_formulas_of_the_side_view_agree_with_the_linkage():
    low = side_view.link_slope(9 * INCH, 8 * INCH, 22 * INCH, 0.0)
    high = side_view.link_slope(14.5 * INCH, 17 * INCH, 16.5 * INCH, 0.5 * INCH)
    crossings = [
        side_view.link_crossing(z * INCH, x * INCH, m) for z, x, m in ((8, 0, low), (17, 0.5, high))
    ]
    arm = side_view.reaction_arm_of_links(low, high, *crossings)
    slope = side_view.thrust_slope_of_links(low, crossings[0], 13 * INCH, arm)
    view = side_view_of(ride_height(FOUR_BAR))
    assert (view.reaction_arm, view.thrust_slope) == pytest.approx((arm, slope), rel=1e-9)


def test_four_bar_over_the_whole_travel():
    # Both circle equations in the plane, solved by SciPy's fsolve (MINPACK) pose by pose.
    body = np.array([[22, 9], [16.5, 14.5]]) * INCH
    axle = np.array([[0, 8 - 13], [0.5, 17 - 13]]) * INCH
    lengths = np.linalg.norm(np.add(axle, (0, 13 * INCH)) - body, axis=1)
    for rise in np.linspace(-0.1, 0.1, 9):

        def miss(state, height=13 * INCH + rise):
            x, nose = state
            turn = np.array([[np.cos(nose), -np.sin(nose)], [np.sin(nose), np.cos(nose)]])
            return np.linalg.norm(axle @ turn.T + (x, height) - body, axis=1) - lengths

        x, nose = fsolve(miss, [0.0, 0.0], xtol=1e-13)
        pose = solve_pose(FOUR_BAR, rise, rise)
        assert (pose.x, pose.nose) == pytest.approx((x, nose), abs=2e-9)


# ------------------------------------------------------------------------------- whole poses


def energy(linkage, left, right, state):
    """Half stiffness times stretch squared, with a rotation of SciPy's and no word of ours."""
    x, y, steer, nose = state
    turn = Rotation.from_euler("ZXY", [steer, np.arcsin((left - right) / 1.48), -nose])
    middle = np.array([x, y, RADIUS + 0.5 * (left + right)])
    total = 0.0
    for p in linkage.pieces:
        now = middle + turn.apply(np.subtract(p.axle, (0, 0, RADIUS))) - p.body
        old = np.subtract(p.axle, p.body)
        if isinstance(p, Link):
            stretch = np.linalg.norm(now) - np.linalg.norm(old)
        else:
            stretch = np.dot(now - old, p.direction)
        total += 0.5 * p.stiffness * stretch**2
    return total


@pytest.mark.parametrize("name", ["parallel", "ladder bars"])
@pytest.mark.parametrize(("left", "right"), [(0.06, 0.06), (0.07, -0.05)])
def test_giving_linkages_stand_where_an_optimizer_puts_them(name, left, right):
    # SciPy's Nelder-Mead on the energy alone, without any slopes.
    linkage = KINDS["giving"]()[name]
    pose = solve_pose(linkage, left, right)
    ours = np.array([pose.x, pose.y, pose.steer, pose.nose])
    least = energy(linkage, left, right, ours)
    found = minimize(
        lambda s: energy(linkage, left, right, s) / 1e5, np.zeros(4), method="Nelder-Mead",
        options={"xatol": 1e-9, "fatol": 1e-14, "maxiter": 4000, "maxfev": 4000},
    )  # fmt: skip
    np.testing.assert_allclose(found.x, ours, atol=2e-5)
    assert least <= found.fun * 1e5 + 1e-6


# ------------------------------------------------------------------------------- roll


@pytest.mark.parametrize("rise", [-0.04, 0.0, 0.05])
def test_slanted_uppers_roll_about_the_line_of_their_apex(rise):
    # Construction of Milliken & Milliken, ch. 17 (from memory): through the apex of the uppers,
    # parallel to lowers that are parallel in plan.
    low = Link((0.55, 0.48, 0.22 + rise), (0.0, 0.48, 0.22))
    slanted = Link((0.40, 0.40, 0.38), (0.01, 0.12, 0.43))
    view = roll_view_of(ride_height(triangulated_four_link(WHEELS, low, slanted)), RADIUS)
    back = (0.40 - 0.01) / (0.40 - 0.12) * 0.12
    apex = 0.01 - back, 0.43 + back * (0.43 - 0.38) / (0.40 - 0.01)
    assert roll_motion.apex_ahead(0.40, 0.01, 0.40, 0.12) == pytest.approx(apex[0], rel=1e-12)
    expected = roll_motion.apex_roll_center(apex[1], apex[0], rise / 0.55)
    assert expected == pytest.approx(apex[1] - apex[0] * rise / 0.55, rel=1e-12)
    assert view.center_height(RADIUS) == pytest.approx(expected, rel=1e-9)
    assert view.understeer == pytest.approx(-rise / 0.55, abs=1e-9)


def test_links_slanted_both_ways_roll_about_the_line_of_both_apexes():
    # Same construction with lowers slanted too: the roll axis joins both apexes.
    low = Link((0.55, 0.30, 0.20), (0.0, 0.50, 0.23))
    slanted = Link((0.40, 0.40, 0.38), (0.01, 0.12, 0.43))
    view = roll_view_of(ride_height(triangulated_four_link(WHEELS, low, slanted)), RADIUS)
    upper = np.array([-0.1571428571, 0.4514285714])  # 0.12 of the 0.28 m that they spread
    lower = np.array([0.0 + 0.55 * 2.5, 0.23 - 0.03 * 2.5])  # 0.50 over the 0.20 m they close in
    slope = (upper[1] - lower[1]) / (upper[0] - lower[0])
    named = roll_motion.roll_axis_between(upper[1], lower[1], upper[0], lower[0])
    assert named == pytest.approx(slope, rel=1e-12)
    height = upper[1] - upper[0] * slope
    assert view.center_height(RADIUS) == pytest.approx(height, rel=1e-8)


def test_a_rod_rolls_the_axle_where_it_crosses_the_middle():
    # Lateral constraint alone: lowers and uppers level and parallel have no say (closed form).
    low, high = Link((0.5, 0.4, 0.2), (0.0, 0.4, 0.2)), Link((0.5, 0.0, 0.4), (0.0, 0.0, 0.4))
    rod = Link((0.0, -0.5, 0.40), (0.0, 0.45, 0.31))
    view = roll_view_of(ride_height(three_link(WHEELS, low, high, rod)), RADIUS)
    expected = roll_motion.rod_roll_center(0.40, 0.31, -0.5, 0.45)
    assert expected == pytest.approx(0.40 - 0.09 * 0.5 / 0.95, rel=1e-12)
    assert view.center_height(RADIUS) == pytest.approx(expected, rel=1e-9)


def test_unequal_links_cancel_the_driveshaft_torque():
    # Moments about the length of the car: slopes of both sides that differ by 4 r/(i s) cancel it.
    spacing, ratio = 1.0, 2.9
    slope = 2.0 * RADIUS / (ratio * spacing)

    def side(y, m, z):
        return Link((0.5, y, z + 0.5 * m), (0.0, y, z), 1e7)

    rod = Link((0.0, -0.5, RADIUS), (0.0, 0.5, RADIUS), 1e7)
    pieces = [side(0.5 * w, -w * slope, z) for w in (1, -1) for z in (0.2, 0.44)]
    linkage = parallel_four_link(WHEELS, pieces[0], pieces[1], rod)
    linkage = type(linkage)(WHEELS, [*pieces, rod])
    pose = ride_height(linkage)
    assert roll_view_of(pose, RADIUS).torque_share(RADIUS, ratio) == pytest.approx(0.0, abs=1e-12)
    left, right = link_forces(pose, launch_load(pose, 5000.0, RADIUS, ratio)).springs
    assert left == pytest.approx(right, abs=1e-6)


# ------------------------------------------------------------------------------- forces


def frame_of(linkage, load, pynite):
    """The same axle as a frame of PyNiteFEA: links with pinned ends on a very stiff housing."""
    model = pynite.FEModel3D()
    model.add_material("steel", 1.0, 1.0, 0.3, 0.0)
    model.add_node("O", 0.0, 0.0, RADIUS)
    model.add_section("stiff", 1e13, 1e13, 1e13, 1e13)
    for side, point in (("L", linkage.wheels.left), ("R", linkage.wheels.right)):
        model.add_node(side, *point)
        model.add_member(f"O{side}", "O", side, "steel", "stiff")
        model.def_support(side, support_DZ=True)
    for n, p in enumerate(linkage.pieces):
        model.add_node(f"A{n}", *p.axle)
        model.add_node(f"B{n}", *p.body)
        model.add_member(f"H{n}", "O", f"A{n}", "steel", "stiff")
        size = p.stiffness * np.linalg.norm(np.subtract(p.axle, p.body))
        model.add_section(f"bar {n}", size, 1.0, 1.0, 1e-3)  # a bar: it only pulls
        model.add_member(f"M{n}", f"B{n}", f"A{n}", "steel", f"bar {n}")
        model.def_releases(f"M{n}", Ryi=True, Rzi=True, Ryj=True, Rzj=True)
        model.def_support(f"B{n}", True, True, True, True, True, True)
    for way, value in zip(("FX", "FY", "FZ"), load.force, strict=True):
        model.add_node_load("O", way, float(value))
    for way, value in zip(("MX", "MY", "MZ"), load.moment, strict=True):
        model.add_node_load("O", way, float(value))
    model.analyze_linear()
    return model


@pytest.mark.parametrize("name", ["parallel", "three-link"])
def test_link_forces_are_those_of_a_frame_program(name):
    # PyNiteFEA 3.2.0, one redundant linkage and one determinate: launch, bend and load together.
    pynite = pytest.importorskip("Pynite", reason="PyNiteFEA is not installed")
    linkage = (KINDS["giving"]() | KINDS["soft"]())[name]
    pose = ride_height(linkage)
    load = tire_load(
        pose, vector(2400, 900, 3600), vector(2100, 500, 2500), RADIUS, 420.0, axle_weight=900.0
    )
    model = frame_of(linkage, load, pynite)
    forces = link_forces(pose, load)
    theirs = [-model.members[f"M{n}"].max_axial("Combo 1") for n in range(len(linkage.pieces))]
    np.testing.assert_allclose(forces.pull, theirs, rtol=1e-4, atol=0.5)
    held = [-model.nodes[side].RxnFZ["Combo 1"] for side in "LR"]
    np.testing.assert_allclose(forces.springs, held, rtol=1e-4, atol=0.5)
    moved = [model.nodes["O"].DX["Combo 1"], -model.nodes["O"].RY["Combo 1"]]
    np.testing.assert_allclose(forces.give[[0, 3]], moved, rtol=1e-3, atol=1e-8)


# ------------------------------------------------------------------------------- leaves


@pytest.mark.parametrize("rise", [-0.10, 0.03, 0.12])
def test_half_a_stepped_leaf_moves_its_eye_like_a_link_of_three_quarters(rise):
    # The leaf as an arc of constant length, tangent integrated along it (SciPy's quad).
    half, link = 0.70, leaf.stepped_leaf_link(0.70)

    def eye(curve):
        return [
            quad(f, 0, half)[0] for f in (lambda s: np.cos(curve * s), lambda s: np.sin(curve * s))
        ]

    curve = fsolve(lambda c: eye(c[0])[1] - rise, [2 * rise / half**2])[0]
    turning = half - link
    assert np.hypot(eye(curve)[0] - turning, rise) == pytest.approx(link, rel=1e-3)
    # The path bends as the link's circle does: the shortening itself within 4 %.
    by_link = half - turning - np.sqrt(link**2 - rise**2)
    assert half - eye(curve)[0] == pytest.approx(by_link, rel=0.04)


def test_half_a_single_leaf_moves_its_eye_like_a_link_of_five_sixths():
    # Elastica of one thickness under a load at its eye, integrated along the leaf (SciPy's RK45).
    half, link = 0.70, leaf.single_leaf_link(0.70)

    def eye(load):
        # angle, curvature, x, z from the seat; curvature falls with the load's arm, upright load
        def rates(_, y):
            return [y[1], -load * np.cos(y[0]), np.cos(y[0]), np.sin(y[0])]

        def end(start):
            return solve_ivp(rates, (0, half), [0, start, 0, 0], rtol=1e-10, atol=1e-12).y[:, -1]

        start = fsolve(lambda c: end(c[0])[1], [load * half])[0]
        return end(start)[2:]

    x, z = eye(0.6)
    assert 0.05 < z < 0.09
    assert np.hypot(x - (half - link), z) == pytest.approx(link, rel=2e-4)
    assert half - x == pytest.approx(link - np.sqrt(link**2 - z**2), rel=0.03)


@pytest.mark.parametrize("rear", [0.7, 0.85])
def test_leaves_wind_up_as_a_beam_on_three_supports(rear):
    # Slope-deflection: turning the middle of a beam with pinned ends takes 3EI/a + 3EI/b.
    front, rate = 0.6, 24e3
    bending = rate * front**2 * rear**2 / (3 * (front + rear))
    expected = 2 * (3 * bending / front + 3 * bending / rear)
    spring = LeafSpring(
        (front, 0.5, RADIUS), (0, 0.5, RADIUS), (-rear, 0.5, RADIUS), (-rear, 0.5, RADIUS + 0.1),
        rate, bush=5e6, sideways=4e5,
    )  # fmt: skip
    mount = mount_of(ride_height(leaf_springs(WHEELS, spring)))
    assert mount.windup == pytest.approx(expected, rel=1e-9)
    assert leaf.leaf_windup_stiffness(rate, front, rear) == pytest.approx(expected / 2, rel=1e-12)
    assert mount.stiffness == pytest.approx(1e7, rel=1e-9)


def test_leaves_alike_fore_and_aft_rise_without_turning_much():
    # A leaf alike in both halves keeps its seat level but for the swing of the shackle.
    spring = LeafSpring(
        (0.7, 0.5, RADIUS), (0, 0.5, RADIUS), (-0.7, 0.5, RADIUS), (-0.7, 0.5, RADIUS + 0.12),
        24e3, sideways=4e5,
    )  # fmt: skip
    pose = solve_pose(leaf_springs(WHEELS, spring), 0.03, 0.03)
    # Front link of 3/4 of 0.7 m draws the seat in by rise squared over twice its length.
    assert pose.x == pytest.approx(0.03**2 / (2 * 0.525), rel=0.05)
    assert abs(pose.nose) < np.radians(0.2)
