"""What links and springs carry: balance, virtual work for every kind of linkage, give of bushes."""

import runpy
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.suspension.forces import compliance, link_forces, mount_of
from axlewright.suspension.kinds import ladder_bars, leaf_springs, mirrored, three_link
from axlewright.suspension.linkage import Link
from axlewright.suspension.loads import (
    braking_load,
    cornering_load,
    launch_load,
    tire_load,
    vector,
)
from axlewright.suspension.motion import roll_view_of, side_view_of
from axlewright.suspension.newton import NoPoseError
from axlewright.suspension.pose import Load, ride_height, solve_pose

KINDS = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
EVERY, GIVING, SOFT = KINDS["every"](), KINDS["giving"](), KINDS["soft"]()
WHEELS, RADIUS = KINDS["WHEELS"], KINDS["RADIUS"]
TRACK = 1.48


@pytest.fixture(params=EVERY, ids=str)
def linkage(request):
    return EVERY[request.param]


@pytest.fixture(params=SOFT | GIVING, ids=str)
def bushed(request):
    return (SOFT | GIVING)[request.param]


# ------------------------------------------------------------------------------- virtual work


def test_anti_squat_by_forces_is_anti_squat_by_motion(linkage):
    # Thrust at the contacts unloads the springs by thrust times the slope to the instant center.
    pose = ride_height(linkage)
    view = side_view_of(pose)
    forces = link_forces(pose, tire_load(pose, vector(500, 0, 0), vector(500, 0, 0), RADIUS))
    slope = view.thrust_slope + view.reaction_arm * RADIUS
    assert forces.springs.sum() == pytest.approx(-1000.0 * slope, abs=1e-5)


@pytest.mark.parametrize("name", EVERY)
def test_anti_squat_holds_through_travel(name):
    pose = solve_pose(EVERY[name], [0.0, 0.05, -0.06], [0.0, 0.05, -0.06])
    view = side_view_of(pose)
    idle = link_forces(pose, Load((0.0, 0.0, 0.0), (0.0, 0.0, 0.0)))
    load = tire_load(pose, vector(500, 0, 0), vector(500, 0, 0), RADIUS)
    change = link_forces(pose, load).springs.sum(axis=-1) - idle.springs.sum(axis=-1)
    slope = view.thrust_slope + view.reaction_arm * RADIUS
    # Where leaves are bent or bushes bind, their pull turns with them: a small share is left over.
    exact = name in KINDS["held"]()
    np.testing.assert_allclose(change, -1000.0 * slope, atol=1e-5 if exact else 8.0)


def test_braking_lifts_as_a_launch_squats(linkage):
    pose = ride_height(linkage)
    launch = link_forces(pose, launch_load(pose, 3000.0, RADIUS, 1e12))
    brake = link_forces(pose, braking_load(pose, 3000.0, RADIUS))
    np.testing.assert_allclose(brake.pull, -launch.pull, atol=1e-5)
    np.testing.assert_allclose(brake.springs, -launch.springs, atol=1e-5)


def test_roll_center_by_forces_is_roll_center_by_motion(linkage):
    # A side force rolls the axle against its springs by force times height of the roll center.
    pose = ride_height(linkage)
    height = roll_view_of(pose, RADIUS).center_height(RADIUS)
    load = tire_load(pose, vector(0, 600, 0), vector(0, 400, 0), RADIUS)
    left, right = link_forces(pose, load).springs
    assert 0.5 * TRACK * (left - right) == pytest.approx(1000.0 * height, rel=1e-9)


def test_driveshaft_torque_left_in_roll_by_forces_and_by_motion(linkage):
    pose, thrust, ratio = ride_height(linkage), 4000.0, 3.7
    left, right = link_forces(pose, launch_load(pose, thrust, RADIUS, ratio)).springs
    torque = thrust * RADIUS / ratio
    share = roll_view_of(pose, RADIUS).torque_share(RADIUS, ratio)
    assert -0.5 * TRACK * (left - right) == pytest.approx(torque * share, rel=1e-9)


def test_the_usual_engine_loads_the_left_tire():
    # With tires loaded as the torque asks, springs alike: left more than right.
    linkage = EVERY["triangulated"]
    pose, thrust, ratio = ride_height(linkage), 4000.0, 3.7
    more = thrust * RADIUS / ratio / TRACK
    load = launch_load(pose, thrust, RADIUS, ratio, 3000.0 + more, 3000.0 - more)
    left, right = link_forces(pose, load).springs
    assert left == pytest.approx(right, abs=1e-6)


# ------------------------------------------------------------------------------- balance


def test_links_springs_and_load_balance_on_the_axle(linkage):
    pose = solve_pose(linkage, 0.04, -0.02)
    load = cornering_load(pose, 4000.0, RADIUS, 2000.0, 4500.0)
    forces = link_forces(pose, load)
    down = forces.springs[:, None] * np.array([0.0, 0.0, -1.0])
    seats = np.stack([pose.place(WHEELS.left), pose.place(WHEELS.right)])
    total = load.force + forces.on_axle.sum(axis=0) + down.sum(axis=0)
    np.testing.assert_allclose(total, 0.0, atol=1e-5)
    arms = (forces.axle_ends, forces.on_axle), (seats, down)
    turning = load.moment + sum(
        np.cross(ends - pose.at_middle, push).sum(axis=0) for ends, push in arms
    )
    np.testing.assert_allclose(turning, 0.0, atol=1e-5)
    np.testing.assert_array_equal(forces.on_body, -forces.on_axle)


@pytest.mark.parametrize("name", ["three-link, Watt", "three-link, Watt on body", "leaf"])
def test_a_crank_stands_in_balance_about_its_pivot(name):
    linkage = EVERY[name]
    pose = ride_height(linkage)
    forces = link_forces(pose, cornering_load(pose, 4000.0, RADIUS, 2000.0, 4500.0))
    for number, crank in enumerate(linkage.cranks):
        rows = [n for n, p in enumerate(linkage.pieces) if p.crank == number]
        side = "axle" if crank.stands_on == "axle" else "body"
        ends = np.array([getattr(linkage.pieces[n], side) for n in rows])
        push = (forces.on_axle if side == "axle" else forces.on_body)[rows]
        moment = np.cross(ends - crank.pivot, push).sum(axis=0) @ crank.direction
        assert moment == pytest.approx(0.0, abs=1e-5)
        np.testing.assert_allclose(forces.on_pivots[number], push.sum(axis=0), atol=1e-9)


def test_a_lateral_rod_carries_the_side_force():
    low, _, _, middle, _ = KINDS["links"]()
    straight = replace(middle, body=(0.45, 0.0, 0.4), axle=(0.02, 0.0, 0.46))
    low = Link((0.56, 0.5, 0.2), (0.0, 0.5, 0.2))
    rod = Link((0.0, -0.5, 0.36), (0.0, 0.5, 0.36))
    pose = ride_height(three_link(WHEELS, low, straight, rod))
    pull = link_forces(pose, cornering_load(pose, 5000.0, RADIUS, 2000.0, 4000.0)).pull
    # A force to the left presses the axle away from the rod's end on the right of the body.
    assert pull[-1] == pytest.approx(5000.0, rel=1e-12)


def test_springs_that_lean_are_read_along_their_lines():
    linkage, lean = EVERY["triangulated"], 0.2
    pose = ride_height(linkage)
    springs = [Link((0.0, 0.4 - lean, 0.63), (0.0, 0.4, 0.23))]
    springs.append(Link(mirrored(springs[0].body), mirrored(springs[0].axle)))
    load = tire_load(pose, vector(0, 0, 3000), vector(0, 0, 3000), RADIUS, axle_weight=800.0)
    forces = link_forces(pose, load, springs)
    upright = np.hypot(lean, 0.4) / 0.4
    np.testing.assert_allclose(forces.springs, 2600.0 * upright, rtol=1e-9)
    with pytest.raises(ValueError, match="two springs"):
        link_forces(pose, load, springs[:1])


def test_arrays_of_loads_give_what_single_loads_give(linkage):
    thrusts = np.array([0.0, 2000.0, 6000.0])
    pose = solve_pose(linkage, np.array([-0.05, 0.0, 0.05]), 0.02)
    both = link_forces(pose, launch_load(pose, thrusts, RADIUS, 3.7, 3000.0, 2800.0))
    for n in range(3):
        one = solve_pose(linkage, [-0.05, 0.0, 0.05][n], 0.02)
        single = link_forces(one, launch_load(one, thrusts[n], RADIUS, 3.7, 3000.0, 2800.0))
        np.testing.assert_allclose(both.pull[n], single.pull, rtol=1e-6, atol=1e-3)
        np.testing.assert_allclose(both.springs[n], single.springs, rtol=1e-6, atol=1e-3)


# ------------------------------------------------------------------------------- give


def test_give_is_alike_both_ways(bushed):
    # Maxwell: the give at one place from a force at another is the same the other way round.
    give = compliance(ride_height(bushed))
    np.testing.assert_allclose(give, np.swapaxes(give, -1, -2), rtol=1e-6, atol=1e-14)
    assert np.all(np.linalg.eigvalsh(0.5 * (give + give.T)) > -1e-18)  # no give: stiff front eyes


def test_a_loaded_pose_gives_as_the_compliance_says(bushed):
    # A small load, so that the linkage is still straight: the whole solver against one equation.
    force, moment = np.array([30.0, 10.0, 0.0]), np.array([0.0, -8.0, 3.0])
    pose = solve_pose(bushed, load=Load(force, moment))
    give = compliance(ride_height(bushed)) @ [30.0, 10.0, 3.0, 8.0]
    np.testing.assert_allclose([pose.x, pose.y, pose.steer, pose.nose], give, rtol=2e-3, atol=1e-9)
    forces = link_forces(ride_height(bushed), Load(force, moment))
    np.testing.assert_allclose(forces.give[:4], give, rtol=1e-6, atol=1e-12)
    np.testing.assert_allclose(pose.tension, forces.pull, rtol=5e-3, atol=0.3)


def test_mount_is_the_same_spring_as_the_bushes(bushed):
    # Energy of the launch model's two springs for any force and moment is that of the linkage.
    mount, give = mount_of(ride_height(bushed)), compliance(ride_height(bushed))
    for force, moment in ((1.0, 0.0), (0.0, 1.0), (2.0, -0.3)):
        turn = (moment + mount.height * force) / mount.windup
        way = force / mount.stiffness + mount.height * turn
        ours = give[np.ix_([0, 3], [0, 3])] @ [force, moment]
        np.testing.assert_allclose(ours, [way, turn], rtol=1e-9)


def test_ladder_bars_wind_up_on_their_pivots():
    # Housing and bars are one: a torque is met by the front pivots, force over arm, both sides.
    upright, arm = 6.0e6, 0.82
    rod = Link((0.0, -0.5, RADIUS), (0.0, 0.5, RADIUS))
    bars = ladder_bars(WHEELS, (arm, 0.36, RADIUS), rod, 1.5e7, upright)
    mount = mount_of(ride_height(bars))
    assert mount.windup == pytest.approx(2 * upright * arm**2, rel=1e-9)
    assert mount.stiffness == pytest.approx(3.0e7, rel=1e-9)
    assert mount.height == pytest.approx(0.0, abs=1e-12)


def test_fore_aft_stiffness_acts_at_the_height_of_level_lower_links():
    low = Link((0.56, 0.5, 0.25), (0.0, 0.5, 0.25), 4.0e6)
    upper = Link((0.45, 0.0, 0.45), (0.0, 0.0, 0.45), 2.0e6)
    rod = Link((0.0, -0.5, RADIUS), (0.0, 0.5, RADIUS))
    mount = mount_of(ride_height(three_link(WHEELS, low, upper, rod)))
    # Two level springs: 8 at 0.25 m and 2 kN/mm at 0.45 m stand for one of 10 at 0.29 m.
    assert mount.stiffness == pytest.approx(1.0e7, rel=1e-9)
    assert mount.height == pytest.approx(0.29 - RADIUS, abs=1e-9)
    assert mount.windup == pytest.approx(8e6 * 0.04**2 + 2e6 * 0.16**2, rel=1e-9)


def test_torque_winds_leaves_up_at_the_nose():
    linkage = leaf_springs(WHEELS, KINDS["SOFT_LEAF"])
    pose = ride_height(linkage)
    forces = link_forces(pose, launch_load(pose, 5000.0, RADIUS, 3.7))
    loaded = solve_pose(linkage, load=launch_load(pose, 5000.0, RADIUS, 3.7))
    assert 0.02 < forces.give[3] < 0.2
    assert loaded.nose == pytest.approx(forces.give[3], rel=0.15)


def test_a_loaded_axle_moves_on_as_its_poses_say(bushed):
    load = launch_load(ride_height(bushed), 6000.0, RADIUS, 3.7)
    view, step = side_view_of(solve_pose(bushed, load=load)), 1e-4
    up, down = (solve_pose(bushed, t, t, load) for t in (step, -step))
    assert view.reaction_arm == pytest.approx((down.nose - up.nose) / (2 * step), rel=1e-4)
    assert view.thrust_slope == pytest.approx((down.x - up.x) / (2 * step), rel=1e-4)


def test_sampled_leaves_are_leaves_one_by_one():
    spread = np.random.default_rng(3).normal(0.0, 0.004, (3, 3))
    spring = KINDS["SOFT_LEAF"]
    eyes = np.add(spring.front_eye, spread)
    rates = np.array([20e3, 25e3, 30e3])
    many = replace(spring, front_eye=eyes, rate=rates)
    mounts = mount_of(solve_pose(leaf_springs(WHEELS, many), 0.02, 0.0))
    for n in range(3):
        one = replace(spring, front_eye=eyes[n], rate=rates[n])
        single = mount_of(solve_pose(leaf_springs(WHEELS, one), 0.02, 0.0))
        assert mounts.windup[n] == pytest.approx(single.windup, rel=1e-7)
        assert mounts.stiffness[n] == pytest.approx(single.stiffness, rel=1e-7)


def test_nothing_gives_where_nothing_can():
    with pytest.raises(NoPoseError, match="state the stiffness"):
        mount_of(ride_height(EVERY["triangulated"]))


def test_links_that_do_not_give_fore_and_aft_are_stiff_without_limit():
    low, _, _, middle, rod = KINDS["links"](np.inf, 1e6)
    for car in (three_link(WHEELS, low, middle, rod), GIVING["leaf"]):
        mount = mount_of(ride_height(car))
        assert mount.stiffness == np.inf
        assert 1e3 < mount.windup < 1e7
