"""Where a solid axle goes: closure, exact slopes, mirror images, arrays, and what is refused."""

import runpy
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.suspension import reach
from axlewright.suspension.closure import close
from axlewright.suspension.kinds import (
    Watt,
    ladder_bars,
    leaf_springs,
    mirrored,
    parallel_four_link,
    three_link,
    triangulated_four_link,
)
from axlewright.suspension.linkage import Crank, Guide, Link, Linkage, Wheels
from axlewright.suspension.motion import heave, roll, roll_view_of, side_view_of
from axlewright.suspension.newton import NoPoseError
from axlewright.suspension.pose import ride_height, solve_pose
from axlewright.suspension.rotation import Stand

KINDS = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
HELD, GIVING, EVERY = KINDS["held"](), KINDS["giving"](), KINDS["every"]()
WHEELS, RADIUS = KINDS["WHEELS"], KINDS["RADIUS"]
TRAVEL = np.linspace(-0.1, 0.1, 21)


@pytest.fixture(params=EVERY, ids=str)
def linkage(request):
    return EVERY[request.param]


@pytest.fixture(params=HELD, ids=str)
def stiff(request):
    return HELD[request.param]


# ------------------------------------------------------------------------------------ closure


def test_every_link_keeps_its_length_in_bump_droop_and_roll(stiff):
    pose = solve_pose(stiff, TRAVEL[:, None], TRAVEL)
    assert np.max(pose.closure) <= 1e-10
    for piece in stiff.pieces:
        if isinstance(piece, Link) and piece.crank is None:
            measured = np.linalg.norm(np.subtract(piece.axle, piece.body))
            np.testing.assert_allclose(
                reach.distance(pose, piece.body, piece.axle), measured, rtol=0.0, atol=1e-10
            )


def test_wheels_stand_where_travel_says(linkage):
    pose = solve_pose(linkage, TRAVEL, 0.4 * TRAVEL)
    left, right = pose.place(linkage.wheels.left), pose.place(linkage.wheels.right)
    np.testing.assert_allclose(left[:, 2], RADIUS + TRAVEL, atol=1e-12)
    np.testing.assert_allclose(right[:, 2], RADIUS + 0.4 * TRAVEL, atol=1e-12)
    span = np.linalg.norm(left - right, axis=-1)
    np.testing.assert_allclose(span, 1.48, atol=1e-12)


def test_ride_height_is_where_it_was_measured(linkage):
    pose = ride_height(linkage)
    assert (pose.steer, pose.roll, pose.nose) == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)
    np.testing.assert_allclose(pose.at_middle, (0.0, 0.0, RADIUS), atol=1e-12)
    np.testing.assert_allclose(pose.rotation, np.eye(3), atol=1e-12)
    np.testing.assert_allclose(pose.tension, 0.0, atol=1e-3)


def test_giving_links_stand_in_equilibrium(linkage):
    # The pulls of all pieces cancel along each coordinate that travel leaves free.
    pose = solve_pose(linkage, TRAVEL, -TRAVEL)
    push = np.einsum("cmn,mn->cn", pose.closed().slopes(pose.layout.free), pose.row(pose.tension))
    size = np.max(np.abs(pose.tension), initial=1.0)
    assert np.max(np.abs(push)) < 1e-6 * size + 1e-6


def test_a_bent_or_shifted_axle_is_taken_as_measured():
    # Left wheel ahead of and above the right one: wheels still rise as told, links close.
    wheels = Wheels((0.02, 0.75, 0.335), (-0.01, -0.73, 0.325))
    pose = solve_pose(replace(HELD["three-link"], wheels=wheels), 0.06, -0.05)
    assert pose.closure < 1e-10
    assert pose.place(wheels.left)[2] == pytest.approx(0.395, abs=1e-12)
    assert pose.place(wheels.right)[2] == pytest.approx(0.275, abs=1e-12)
    np.testing.assert_allclose(pose.rotation @ pose.rotation.T, np.eye(3), atol=1e-14)


# ------------------------------------------------------------------------------------ exact slopes


@settings(deadline=None, max_examples=20)
@given(st.sampled_from(sorted(EVERY)), st.integers(0, 2**32 - 1))
def test_slopes_and_bends_match_finite_differences(name, seed):
    rng = np.random.default_rng(seed)
    layout = solve_pose(EVERY[name]).layout
    cranks = layout.free[4:]
    names = ["x", "y", "z", "steer", "roll", "nose", *cranks]
    place = dict(zip(names, rng.uniform(-0.1, 0.1, len(names)), strict=True))
    place["z"] += RADIUS
    weights = rng.normal(size=(len(layout.rest), 1))

    def at(**moved):
        now = {n: np.array([v + moved.get(n.replace(" ", "_"), 0.0)]) for n, v in place.items()}
        stand = Stand(now["x"], now["y"], now["z"], now["steer"], now["roll"], now["nose"])
        return close(layout, stand, np.array([now[c] for c in cranks]).reshape(len(cranks), 1))

    here = at()
    slopes = here.slopes(names)
    bends = here.bends(weights, names, slopes)
    for i, coordinate in enumerate(names):
        key, step = coordinate.replace(" ", "_"), 1e-5
        up, down = at(**{key: step}), at(**{key: -step})
        np.testing.assert_allclose(slopes[i], (up.length - down.length) / (2 * step), atol=1e-8)
        change = (up.slopes(names) - down.slopes(names)) / (2 * step)
        np.testing.assert_allclose(bends[i], (change * weights).sum(axis=1), atol=1e-7)


def test_motion_is_the_slope_of_the_poses(linkage):
    for left, right in ((0.0, 0.0), (0.05, 0.03), (0.04, -0.05)):
        pose, step = solve_pose(linkage, left, right), 1e-4
        up = solve_pose(linkage, left + step, right + step)
        down = solve_pose(linkage, left - step, right - step)
        moved = (up.at_middle - down.at_middle) / (2 * step)
        turned = (up.rotation - down.rotation) @ pose.rotation.T / (2 * step)
        motion = heave(pose)
        np.testing.assert_allclose(motion.velocity, moved, atol=2e-6)
        spin = motion.spin
        skew = [[0, -spin[2], spin[1]], [spin[2], 0, -spin[0]], [-spin[1], spin[0], 0]]
        np.testing.assert_allclose(skew, turned, atol=2e-6)


def test_roll_motion_is_the_slope_of_the_poses(linkage):
    step = 1e-4
    up, down = solve_pose(linkage, step, -step), solve_pose(linkage, -step, step)
    motion, turned = roll(ride_height(linkage)), up.roll - down.roll
    np.testing.assert_allclose(motion.velocity, (up.at_middle - down.at_middle) / turned, atol=2e-6)
    assert motion.spin[0] == pytest.approx(1.0, abs=1e-12)
    assert motion.spin[1] == pytest.approx(-(up.nose - down.nose) / turned, abs=2e-6)
    assert motion.spin[2] == pytest.approx((up.steer - down.steer) / turned, abs=2e-6)


# ------------------------------------------------------------------------------------ symmetry


def reflected(linkage):
    """The car seen in a mirror."""

    def piece(p):
        other = {"body": mirrored(p.body), "axle": mirrored(p.axle)}
        if isinstance(p, Guide):
            other["direction"] = mirrored(p.direction)
        return replace(p, **other)

    cranks = [replace(c, pivot=mirrored(c.pivot)) for c in linkage.cranks]
    wheels = Wheels(mirrored(linkage.wheels.right), mirrored(linkage.wheels.left))
    return Linkage(wheels, [piece(p) for p in linkage.pieces], cranks)


def test_a_car_in_the_mirror_does_the_mirrored_thing(linkage):
    one = solve_pose(linkage, 0.07, -0.02)
    other = solve_pose(reflected(linkage), -0.02, 0.07)
    assert (other.x, other.z, other.nose) == pytest.approx((one.x, one.z, one.nose), abs=1e-10)
    mine = (one.y, one.steer, one.roll)
    assert (-other.y, -other.steer, -other.roll) == pytest.approx(mine, abs=1e-10)


def test_a_car_alike_on_both_sides_goes_straight_up():
    pose = solve_pose(HELD["triangulated"], TRAVEL, TRAVEL)
    for still in (pose.y, pose.steer, pose.roll):
        np.testing.assert_allclose(still, 0.0, atol=1e-12)


def test_a_watt_linkage_keeps_the_axle_straighter_than_a_rod():
    rod, watt = (
        np.max(np.abs(reach.sideways(solve_pose(HELD[n], TRAVEL, TRAVEL))))
        for n in ("three-link", "three-link, Watt")
    )
    assert watt < 0.1 * rod
    assert rod > 1e-3


# ------------------------------------------------------------------------------------ arrays


def test_arrays_give_what_single_poses_give(linkage):
    pose = solve_pose(linkage, TRAVEL[::5, None], TRAVEL[::10])
    view, turn = side_view_of(pose), roll_view_of(pose, RADIUS)
    assert pose.shape == (5, 3)
    for i, j in ((0, 0), (1, 2), (4, 1)):
        one = solve_pose(linkage, TRAVEL[5 * i], TRAVEL[10 * j])
        assert np.ndim(one.nose) == 0
        for name in ("x", "y", "z", "steer", "roll", "nose"):
            assert getattr(pose, name)[i, j] == pytest.approx(getattr(one, name), abs=1e-10)
        single = side_view_of(one)
        assert view.thrust_slope[i, j] == pytest.approx(single.thrust_slope, abs=1e-7)
        assert view.reaction_arm[i, j] == pytest.approx(single.reaction_arm, abs=1e-7)
        assert turn.center_above_axle[i, j] == pytest.approx(
            roll_view_of(one, RADIUS).center_above_axle, abs=1e-7
        )


def sampled(linkage, count, spread=0.002, seed=5):
    """Every link point measured a little differently in each sample."""
    rng = np.random.default_rng(seed)

    def points(point):
        return np.asarray(point) + rng.normal(0.0, spread, (count, 3))

    pieces = [replace(p, body=points(p.body), axle=points(p.axle)) for p in linkage.pieces]
    return replace(linkage, pieces=pieces)


@pytest.mark.parametrize("name", ["three-link, Watt", "parallel", "leaf"])
def test_samples_do_not_touch_each_other(name):
    many = sampled(EVERY[name], 4)
    pose = solve_pose(many, 0.06, -0.03)
    for n in range(4):
        pieces = [replace(p, body=p.body[n], axle=p.axle[n]) for p in many.pieces]
        one = solve_pose(replace(many, pieces=pieces), 0.06, -0.03)
        assert pose.nose[n] == pytest.approx(one.nose, abs=1e-10)
        assert pose.y[n] == pytest.approx(one.y, abs=1e-10)


@pytest.mark.parametrize("name", ["triangulated", "parallel"])
def test_a_sweep_with_samples_takes_a_tenth_of_a_second(name):
    # 41 heights of 200 samples; processor time, the best of several, as other work may run beside.
    many = sampled(EVERY[name], 200)
    travel = np.linspace(-0.1, 0.1, 41)[:, None]
    times = []
    for _ in range(6):
        start = time.process_time()
        pose = solve_pose(many, travel, travel)
        times.append(time.process_time() - start)
    assert pose.shape == (41, 200)
    assert min(times) < 0.1


# ------------------------------------------------------------------------------------ side and roll


@pytest.mark.parametrize("rise", [0.0, 0.06, -0.1])
def test_parallel_links_have_no_instant_center_and_no_trouble(rise):
    lower = Link((0.5, 0.45, 0.2 + rise), (0.0, 0.45, 0.2))
    upper = Link((0.5, 0.0, 0.42 + rise), (0.0, 0.0, 0.42))
    rod = Link((-0.1, -100.0, 0.33), (-0.1, 0.4, 0.33))
    view = side_view_of(ride_height(three_link(WHEELS, lower, upper, rod)))
    assert view.reaction_arm == pytest.approx(0.0, abs=1e-12)
    assert view.thrust_slope == pytest.approx(rise / 0.5, abs=1e-12)
    assert view.anti_squat(RADIUS, 0.55, 2.75) == pytest.approx(rise / 0.5 * 5.0, abs=1e-11)
    assert abs(view.instant_center_ahead) > 1e9


def test_an_unlimited_instant_center_is_said_to_be_so():
    from axlewright.suspension.motion import SideView

    view = SideView(np.array([0.1, -0.1, 0.0, 0.2]), np.array([0.0, 0.0, 0.0, 0.5]))
    np.testing.assert_array_equal(view.instant_center_ahead, [np.inf, np.inf, np.inf, 2.0])
    np.testing.assert_array_equal(
        view.instant_center_height(0.3), [np.inf, -np.inf, np.nan, 0.3 + 0.4]
    )


def test_links_that_fall_forward_at_the_bottom_steer_the_axle_out_of_the_bend():
    # Roll lifts the left wheel; that end of the axle goes back where its lower link rises forward.
    def steer(rise):
        low = Link((0.55, 0.5, 0.2 + rise), (0.0, 0.5, 0.2))
        upper = Link((0.45, 0.0, 0.42), (0.0, 0.0, 0.42))
        rod = Link((-0.1, -50.0, 0.33), (-0.1, 0.4, 0.33))
        return roll_view_of(ride_height(three_link(WHEELS, low, upper, rod)), RADIUS)

    assert steer(-0.05).understeer > 0.05
    assert steer(0.05).understeer < -0.05
    assert steer(0.0).understeer == pytest.approx(0.0, abs=1e-9)


def test_a_longer_upper_link_turns_the_nose_up():
    low, _, _, middle, rod = KINDS["links"]()
    pose = ride_height(three_link(WHEELS, low, replace(middle, lengthened=0.003), rod))
    # 3 mm back at the top, over the 0.257 m from the line of the lower links up to there.
    assert pose.nose == pytest.approx(0.003 / 0.257, rel=0.05)
    assert pose.closure < 1e-10
    assert pose.z == pytest.approx(RADIUS, abs=1e-12)


def test_a_shackle_that_would_swing_over_is_refused():
    swung = replace(KINDS["LEAF"], shackle_top=(-0.80, 0.55, 0.42))
    with pytest.raises(NoPoseError, match="do not reach"):
        solve_pose(leaf_springs(WHEELS, swung), -0.1, -0.1)


# ------------------------------------------------------------------------------------ reach


def test_reach_follows_points_of_the_axle():
    linkage = HELD["triangulated"]
    pose = solve_pose(linkage, TRAVEL, TRAVEL)
    gearbox, pinion = (1.3, 0.0, 0.33), (0.28, 0.0, 0.32)
    grown = reach.lengthening(pose, gearbox, pinion)
    by_hand = np.linalg.norm(pose.place(pinion) - gearbox, axis=-1)
    np.testing.assert_allclose(grown, by_hand - np.hypot(1.02, 0.01), atol=1e-14)
    assert grown[10] == pytest.approx(0.0, abs=1e-12)
    angle = reach.pinion_angle(pose)
    np.testing.assert_allclose(angle, pose.nose, atol=1e-12)
    joint = reach.joint_angle(pose, gearbox, pinion, (1.0, 0.0, 0.0))
    ahead = np.subtract(gearbox, pose.place(pinion))
    in_side_view = np.abs(np.arctan2(ahead[:, 2], ahead[:, 0]) - pose.nose)
    np.testing.assert_allclose(joint, in_side_view, atol=1e-12)
    box = reach.gearbox_angle(pose, gearbox, pinion, (1.0, 0.0, 0.0))
    np.testing.assert_allclose(box, np.abs(np.arctan2(ahead[:, 2], ahead[:, 0])), atol=1e-12)


def test_clearance_to_a_plane_is_what_the_tape_says():
    pose = solve_pose(HELD["torque arm"], TRAVEL, TRAVEL)
    floor = (0.0, 0.0, 0.40)
    gap = reach.plane_clearance(pose, WHEELS.left, floor, (0.0, 0.0, -2.0))
    np.testing.assert_allclose(gap, 0.07 - TRAVEL, atol=1e-12)
    assert reach.least_clearance(gap) == pytest.approx(-0.03, abs=1e-12)


def test_a_rod_end_turns_in_its_bracket_as_the_axle_travels():
    pose = solve_pose(HELD["three-link"], TRAVEL, TRAVEL)
    angles = reach.link_angle(pose, 0)
    assert angles[10] == pytest.approx(0.0, abs=1e-9)
    # The link swings by travel over its length less what the nose turns with it.
    assert 0.05 < angles[-1] < 0.25
    with pytest.raises(ValueError, match="turns with its crank"):
        reach.link_angle(solve_pose(HELD["three-link, Watt"]), 3)


def test_moves_count_from_ride_height():
    shifted = replace(HELD["three-link"], wheels=Wheels((0.01, 0.75, 0.33), (0.01, -0.73, 0.33)))
    pose = solve_pose(shifted, [0.0, 0.05], [0.0, 0.05])
    assert reach.sideways(pose)[0] == pytest.approx(0.0, abs=1e-12)
    assert reach.fore_aft(pose)[0] == pytest.approx(0.0, abs=1e-12)
    assert abs(reach.sideways(pose)[1]) > 1e-4


# ------------------------------------------------------------------------------------ refusals


def test_what_holds_nothing_is_refused_in_words():
    low, slanted, upper, middle, rod = KINDS["links"]()
    loose = Linkage(WHEELS, triangulated_four_link(WHEELS, low, slanted).pieces[:2])
    with pytest.raises(NoPoseError, match="nothing holds the axle"):
        ride_height(loose)
    flat = [Link((0.5, y, z), (0.0, y, z)) for y in (0.4, -0.4) for z in (0.2, 0.45)]
    with pytest.raises(NoPoseError, match="nothing holds the axle sideways"):
        ride_height(Linkage(WHEELS, flat))
    with pytest.raises(NoPoseError, match="give the bushes a stiffness"):
        ride_height(parallel_four_link(WHEELS, low, upper, rod))
    with pytest.raises(NoPoseError, match="give the bushes a stiffness"):
        ride_height(ladder_bars(WHEELS, (0.8, 0.3, 0.3), rod, np.inf, np.inf))
    soft = replace(middle, stiffness=1e6)
    twice = Linkage(WHEELS, [low, replace(low, name="again"), slanted, soft, rod, upper])
    with pytest.raises(NoPoseError, match=r"hold the same thing|give the bushes"):
        ride_height(twice)


def test_travel_out_of_reach_is_refused():
    short = Link((0.12, 0.4, 0.2), (0.0, 0.4, 0.2))
    upper = Link((0.12, 0.0, 0.4), (0.0, 0.0, 0.4))
    rod = Link((-0.1, -0.5, 0.33), (-0.1, 0.5, 0.33))
    linkage = three_link(WHEELS, short, upper, rod)
    assert solve_pose(linkage, 0.05, 0.05).closure < 1e-10
    with pytest.raises(NoPoseError, match=r"do not reach|lock"):
        solve_pose(linkage, 0.3, 0.3)
    with pytest.raises(NoPoseError, match="no axle reaches both"):
        solve_pose(linkage, 0.8, -0.8)


def test_what_makes_no_sense_is_refused():
    low = KINDS["links"]()[0]
    with pytest.raises(ValueError, match="three coordinates"):
        ride_height(Linkage(WHEELS, [Link((0.0, 1.0), (0.0, 0.0, 0.0))]))
    with pytest.raises(ValueError, match="finite"):
        ride_height(Linkage(WHEELS, [Link((0.0, 1.0, np.nan), (0.0, 0.0, 0.0))]))
    with pytest.raises(ValueError, match="y points left"):
        Linkage(Wheels((0.0, -0.7, 0.3), (0.0, 0.7, 0.3)), [low])
    with pytest.raises(ValueError, match="crank that is not there"):
        Linkage(WHEELS, [replace(low, crank=0)])
    with pytest.raises(ValueError, match="stiffness above zero"):
        Linkage(WHEELS, [replace(low, stiffness=0.0)])
    with pytest.raises(ValueError, match="some samples"):
        Linkage(WHEELS, [replace(low, stiffness=np.array([1e6, np.inf]))])
    with pytest.raises(ValueError, match="needs a direction"):
        Linkage(WHEELS, [Guide((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))])
    with pytest.raises(ValueError, match="no length"):
        ride_height(Linkage(WHEELS, [Link((0.0, 1.0, 0.2), (0.0, 1.0, 0.2)), low]))


def test_pieces_are_found_by_name():
    linkage = HELD["three-link, Watt"]
    assert linkage.names[:4] == (
        "left lower link", "right lower link", "upper link", "left Watt rod",
    )  # fmt: skip
    assert linkage.index("upper link") == 2
    assert Linkage(WHEELS, [Link((1, 0, 0), (0, 0, 0))]).names == ("link 1",)
    assert isinstance(KINDS["watt"](), Watt)
    assert isinstance(linkage.cranks[0], Crank)
