"""Everything that moves with the axle: grid of travel, rooms, lengths, joints; and how fast."""

import runpy
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.fit.travel import Travel, in_words, least_of, places, plain_axle
from axlewright.fit.travel_lengths import (
    SlipYoke,
    Strut,
    coil,
    hose,
    joint_rooms,
    shock,
    slip_rooms,
    strut_rooms,
)
from axlewright.fit.travel_shapes import Ball, Bar, Plane, bar_distance, driveshaft_bar, whirl_reach
from axlewright.fit.travel_sweep import Pair, sampled_room, sweep
from axlewright.fit.travel_watch import WATCHED
from axlewright.fit.tunnel import TunnelRoom, tunnel_edges
from axlewright.suspension.kinds import parallel_four_link, three_link
from axlewright.suspension.pose import Load

KINDS = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
EVERY, WHEELS = KINDS["every"](), KINDS["WHEELS"]
TRAVEL = Travel(0.08, 0.10)
INCH = 0.0254
GEARBOX, PINION = (1.35, 0.0, 0.36), (0.30, 0.0, 0.32)


@pytest.fixture(scope="module")
def plain():
    return places(plain_axle(WHEELS), TRAVEL)


def test_travel_reaches_both_stops_and_never_beyond():
    left, right = TRAVEL.wheels()
    for side in (left, right):
        assert side.min() == pytest.approx(-0.10)
        assert side.max() == pytest.approx(0.08)
    corner = np.max(np.abs(left - right))
    assert corner == pytest.approx(0.18)
    assert np.all(left[0] == right[0])
    np.testing.assert_allclose(left, right[:, ::-1])


@pytest.mark.parametrize("wrong", [(-0.01, 0.1), (0.0, 0.0), (0.1, 0.1, 40), (0.1, 0.1, 41, 8)])
def test_travel_that_is_none_is_refused(wrong):
    with pytest.raises(ValueError, match=r"above zero|odd number"):
        Travel(*wrong)


@pytest.mark.parametrize("kind", sorted(EVERY))
def test_a_finer_grid_finds_no_less_room(kind):
    # 41 x 9 places against 161 x 65: what lies between the places is not lost.
    pairs = [
        Pair(
            Bar("tube", (0, 0.6, 0.33), (0, 0.1, 0.33), 0.04),
            Bar("pipe", (0.3, 0.3, 0.55), (-0.3, 0.25, 0.55), 0.03, "body", "body"),
        ),
        Pair(Ball("cover", (-0.16, 0.05, 0.36)), Plane("tank", (-0.3, 0, 0.4), (1, 0, -0.25))),
    ]
    coarse = {f.moving: f.least for f in sweep(places(EVERY[kind], TRAVEL), pairs)}
    fine = {
        f.moving: f.least for f in sweep(places(EVERY[kind], Travel(0.08, 0.1, 161, 65)), pairs)
    }
    for name, least in coarse.items():
        assert least == pytest.approx(fine[name], abs=1.5e-4), name


def test_plain_axle_goes_straight_up_and_rolls(plain):
    pose = plain.pose
    assert np.max(np.abs(pose.x)) < 1e-5
    assert np.max(np.abs(pose.y)) < 1e-3
    assert np.max(np.abs(pose.nose)) < 1e-4
    np.testing.assert_allclose(pose.place(WHEELS.left)[..., 2], 0.33 + plain.left, atol=1e-10)


def test_room_over_the_tube_is_bump_and_lever_arm(plain):
    # Straight over the axle: what is left at full bump; half way out roll adds nothing to that.
    tube = Bar("tube", (0.0, 0.7, 0.33), (0.0, -0.7, 0.33), 0.04)
    floor = Plane("floor", (0.0, 0.0, 0.50), (0.0, 0.0, -1.0))
    (found,) = sweep(plain, [Pair(tube, floor, wanted=0.02)])
    assert found.at_ride == pytest.approx(0.50 - 0.33 - 0.04)
    outer = 0.5 * (0.08 - 0.10) + 0.7 / 0.74 * 0.5 * 0.18  # one wheel at bump, the other hanging
    assert outer < 0.08
    assert found.least == pytest.approx(0.13 - 0.08, abs=1e-5)
    assert (found.left, found.right) == pytest.approx((0.08, 0.08))
    assert found.clears
    assert "3.1 in up" in found.words


def test_what_lies_outside_the_wheels_is_nearest_in_roll(plain):
    beyond = Ball("hub nut", (0.0, 0.95, 0.33))
    wing = Plane("wing", (0.0, 0.0, 0.42), (0.0, 0.0, -1.0))
    (found,) = sweep(plain, [Pair(beyond, wing)])
    rise = -0.01 + 0.95 / 0.74 * 0.09
    assert found.least == pytest.approx(0.09 - rise, abs=5e-4)
    assert found.least < 0.0
    assert not found.clears
    assert found.words == "hub nut hits wing: left wheel 3.1 in up, right wheel 3.9 in down"


def test_worst_pair_comes_first_and_sideways_shift_takes_room(plain):
    diff = Ball("cover", (-0.16, 0.0, 0.33))
    rail = Plane("rail", (0.0, 0.10, 0.0), (0.0, -1.0, 0.0))
    roof = Plane("floor", (0.0, 0.0, 0.9), (0.0, 0.0, -1.0))
    found = sweep(plain, [Pair(diff, roof), Pair(diff, rail)])
    assert [f.against for f in found] == ["rail", "floor"]
    shifted = sweep(plain, [Pair(diff, rail)], sideways=0.012)[0]
    assert found[0].least - shifted.least == pytest.approx(0.012, abs=1e-9)
    assert shifted.at_ride == pytest.approx(0.088)


def test_pieces_side_by_side_and_points():
    one, other = np.zeros(3), np.array([1.0, 0.0, 0.0])
    up = np.array([0.0, 0.0, 0.3])
    assert bar_distance(one, other, one + up, other + up) == pytest.approx(0.3)
    assert bar_distance(one, other, other + up, one + up) == pytest.approx(0.3)
    apart = np.array([2.0, 0.0, 0.0])
    assert bar_distance(one, other, other + apart, other + 2 * apart) == pytest.approx(2.0)
    assert bar_distance(one, one, up, up) == pytest.approx(0.3)
    across = bar_distance(
        np.array([-1.0, 0, 0]), other, np.array([0, -1.0, 0.2]), np.array([0, 1.0, 0.2])
    )
    assert across == pytest.approx(0.2)


def test_least_between_the_places_of_the_grid(plain):
    heave = 0.5 * (plain.left + plain.right)
    least, _ = least_of((heave - 0.0113) ** 2, plain)
    assert least == pytest.approx(0.0, abs=1e-12)
    grid_only = np.min((heave - 0.0113) ** 2)
    assert grid_only > 1e-7


# ------------------------------------------------------------------------------------ lengths


def test_shock_spring_and_hose_at_the_stops(plain):
    body, axle = (0.0, 0.5, 0.83), (0.0, 0.5, 0.33)  # upright, 0.5 m at ride height
    reach = 0.09 * 0.5 / 0.74
    full = 0.5 + 0.01 + reach + (0.09 - reach)  # both wheels hanging
    found = strut_rooms(
        plain,
        [
            shock("shock", body, axle, opened=0.62, closed=0.40),
            coil("spring", body, axle, free=0.59, bind=0.43),
            hose("brake hose", body, axle, length=0.65, slack=0.02),
        ],
    )
    rooms = {(f.name, f.what): f for f in found}
    assert len(found) == 5
    assert rooms["shock", "to full length"].least == pytest.approx(0.62 - full, abs=1e-4)
    assert rooms["shock", "to closed length"].least == pytest.approx(0.42 - 0.40, abs=1e-4)
    assert rooms["spring", "to full length"].least == pytest.approx(-0.01, abs=1e-4)
    assert "may fall out: both wheels 3.9 in down" in rooms["spring", "to full length"].words
    bound = rooms["spring", "to closed length"]
    assert not bound.holds
    assert bound.words == "spring goes solid: both wheels 3.1 in up"
    assert rooms["brake hose", "to full length"].least == pytest.approx(0.03, abs=1e-4)
    assert rooms["brake hose", "to full length"].words == ""


def test_strut_without_limits_says_nothing(plain):
    assert strut_rooms(plain, [Strut("strap", (0, 0.5, 0.8), (0, 0.5, 0.3))]) == ()


def test_slip_yoke_keeps_its_length_in_the_sum(plain):
    yoke = SlipYoke(ride_gap=0.02, bottomed_engagement=0.10, spline_diameter=0.035)
    bottom, engaged = slip_rooms(plain, GEARBOX, PINION, yoke)
    ride = np.hypot(1.05, 0.04)
    lengths = np.linalg.norm(plain.pose.place(PINION) - np.array(GEARBOX), axis=-1)
    assert bottom.least == pytest.approx(0.02 + lengths.min() - ride, abs=2e-5)
    assert engaged.least == pytest.approx(0.10 - (0.02 + lengths.max() - ride) - 0.07, abs=2e-5)
    assert bottom.holds
    strict = SlipYoke(0.02, 0.10, 0.035, least_free=0.006, least_engaged=0.05)
    tighter, longer = slip_rooms(plain, GEARBOX, PINION, strict)
    assert bottom.least - tighter.least == pytest.approx(0.006)
    assert longer.least - engaged.least == pytest.approx(0.02)
    short = SlipYoke(0.0001, 0.10, 0.035)
    assert "bottoms in the gearbox" in slip_rooms(plain, GEARBOX, PINION, short)[0].words


def test_joint_is_steepest_at_full_droop(plain):
    front, rear = joint_rooms(
        plain, GEARBOX, PINION, (1, 0, 0), (1, 0, 0), np.radians(12.0), np.radians(6.0)
    )
    steep = np.arctan2(0.04 + 0.10, 1.05)
    assert front.least == pytest.approx(np.radians(12.0) - steep, abs=1e-4)
    assert front.left == pytest.approx(-0.10)
    assert not rear.holds
    assert rear.words == "rear joint binds: both wheels 3.9 in down"


# ------------------------------------------------------------------------------------ every axle


@pytest.mark.parametrize("kind", ["triangulated", "leaf", "leaf in soft eyes"])
def test_a_car_alike_on_both_sides_has_alike_rooms(kind):
    axle = places(EVERY[kind], TRAVEL)
    left = Bar("tube", (0, 0.6, 0.33), (0, 0.1, 0.33), 0.04)
    right = Bar("tube", (0, -0.6, 0.33), (0, -0.1, 0.33), 0.04)
    pipe = [
        Bar("pipe", (0.3, s * 0.3, 0.55), (-0.3, s * 0.25, 0.55), 0.03, "body", "body")
        for s in (1, -1)
    ]
    first = sweep(axle, [Pair(left, pipe[0])])[0]
    second = sweep(axle, [Pair(right, pipe[1])])[0]
    assert first.least == pytest.approx(second.least, abs=1e-9)


def test_a_lateral_rod_keeps_its_length_as_a_strut():
    axle = places(EVERY["three-link"], TRAVEL)
    body, end = KINDS["ROD"]
    long = float(np.linalg.norm(np.subtract(body, end)))
    (room,) = strut_rooms(axle, [Strut("rod", body, end, full=long)])
    assert room.least == pytest.approx(0.0, abs=1e-9)


def test_samples_give_a_room_each():
    # Lower link's front point unknown by a few mm: every sample alone gives the same room.
    low, _, _, middle, rod = KINDS["links"]()
    front = np.array(low.body) + np.random.default_rng(2).normal(0.0, 0.004, (7, 3))
    pair = Pair(Ball("cover", (-0.16, 0.05, 0.36)), Plane("tank", (-0.3, 0, 0.4), (1, 0, -0.25)))
    grid = Travel(0.08, 0.10, 11, 5)
    together = sampled_room(
        places(three_link(WHEELS, replace(low, body=front), middle, rod), grid), pair, 0.003
    )
    assert together.shape == (7,)
    for sample, point in zip(together, front, strict=True):
        axle = places(three_link(WHEELS, replace(low, body=point), middle, rod), grid)
        alone = sampled_room(axle, pair, 0.003)
        assert alone == pytest.approx(sample, abs=1e-9)
        assert sweep(axle, [pair], 0.003)[0].least <= alone + 1e-12
    sampled = places(three_link(WHEELS, replace(low, body=front), middle, rod), grid)
    with pytest.raises(ValueError, match="least of each"):
        sweep(sampled, [pair])


def test_a_whirling_driveshaft_takes_room_from_the_tunnel(plain):
    edge = Plane("tunnel", (0, 0, 0.55), (0, 0, -1))
    rooms = [
        sweep(plain, [Pair(driveshaft_bar(GEARBOX, PINION, 0.038, float(reach)), edge)])[0].least
        for reach in (0.0, whirl_reach(0.0005, 0.7))
    ]
    assert rooms[0] - rooms[1] == pytest.approx(0.00025 / 0.51)


def test_tunnel_is_as_wide_as_it_was_measured(plain):
    # At ride height the shaft has just the room that was measured; the tube takes its half.
    room = TunnelRoom(ahead=0.75, above=0.10, below=0.12, left=0.11, right=0.09)
    edges = tunnel_edges(GEARBOX, PINION, room)
    shaft = driveshaft_bar(GEARBOX, PINION, 0.038, 0.0)
    found = {f.against: f for f in sweep(plain, [Pair(shaft, edge) for edge in edges])}
    slope = np.cos(np.arctan2(0.04, 1.05))
    assert found["tunnel left"].at_ride == pytest.approx(0.11 - 0.038, abs=1e-9)
    assert found["tunnel right"].at_ride == pytest.approx(0.09 - 0.038, abs=1e-9)
    assert found["tunnel above"].at_ride == pytest.approx(0.10 * slope - 0.038, abs=1e-9)
    # What the pinion moves reaches the place in proportion: 0.30 of 1.05 m from the gearbox.
    share = 1.0 - 0.75 / np.hypot(1.05, 0.04)
    upper = found["tunnel above"]
    assert upper.least == pytest.approx(0.10 - share * 0.08 - 0.038, abs=1.5e-3)
    assert (upper.left, upper.right) == pytest.approx((0.08, 0.08))
    assert tunnel_edges(GEARBOX, PINION, TunnelRoom(0.5, left=0.1))[0].name == "tunnel left"


def test_a_launch_turns_the_nose_into_the_tunnel():
    # Torque on the housing, nose up, winds up links in bushes and takes room over the yoke.
    low, _, upper, _, rod = KINDS["links"](8.0e6, 6.0e6, 5.0e6)
    axle = parallel_four_link(WHEELS, low, upper, rod)
    yoke = Ball("yoke", PINION, 0.05)
    tunnel = Plane("tunnel", (0.3, 0.0, 0.50), (0.0, 0.0, -1.0))
    still = sweep(places(axle, TRAVEL), [Pair(yoke, tunnel)])[0]
    wound = places(axle, TRAVEL, Load((0.0, 0.0, 0.0), (0.0, -4000.0, 0.0)))
    assert sweep(wound, [Pair(yoke, tunnel)])[0].least < still.least - 1e-3


def test_a_nominal_sweep_is_quick():
    # 41 x 9 places, a dozen pairs, four struts, slip and joints: 30 ms on one core when idle.
    linkage = EVERY["three-link"]
    parts = [Ball(f"bracket {n}", (0.1, 0.1 * n, 0.4), 0.01) for n in range(6)]
    pipe = Bar("pipe", (0.3, 0.3, 0.6), (-0.3, 0.25, 0.6), 0.03, "body", "body")
    floor = Plane("floor", (0, 0, 0.7), (0, 0, -1))
    pairs = [Pair(p, w) for p in parts for w in (pipe, floor)]
    struts = [shock(f"shock {n}", (0, 0.4, 0.8), (0, 0.4, 0.3), 0.7, 0.3) for n in range(4)]
    yoke = SlipYoke(0.02, 0.1, 0.035)

    def once():
        begun = time.process_time()
        axle = places(linkage, TRAVEL)
        sweep(axle, pairs)
        strut_rooms(axle, struts)
        slip_rooms(axle, GEARBOX, PINION, yoke)
        joint_rooms(axle, GEARBOX, PINION, (1, 0, 0), (1, 0, 0), 0.3, 0.3)
        return time.process_time() - begun

    assert min(once() for _ in range(5)) < 0.06


def test_places_in_words():
    assert in_words(0.0, 0.0) == "both wheels at ride height"
    assert in_words(3 * INCH, 3 * INCH) == "both wheels 3.0 in up"
    assert in_words(-2 * INCH, 0.0) == "left wheel 2.0 in down, right wheel at ride height"


def test_the_list_of_what_is_forgotten_is_whole():
    pairs = {(w.moving, w.against) for w in WATCHED}
    assert len(pairs) == len(WATCHED) > 10
    for watch in WATCHED:
        assert 0.005 < watch.wanted < 0.06
        assert watch.why
        assert watch.worst
    moving = {w.moving for w in WATCHED}
    assert {"axle tube", "pinion yoke", "driveshaft", "differential cover"} <= moving
