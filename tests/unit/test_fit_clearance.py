"""Clearance of a tire against brute force in space, and its places on real links."""

import runpy
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.spatial import cKDTree

from axlewright.fit.axle_places import (
    SOLVED,
    STRAIGHT,
    AxlePlaces,
    Stops,
    places_of,
    solved_places,
    straight_places,
)
from axlewright.fit.clearance import (
    Obstacle,
    WheelEnd,
    chance_of_all,
    clearances,
    gaps,
    worst,
)
from axlewright.fit.envelope import ZONES, Tire, distance, kept_reach, outline, reach
from axlewright.suspension.pose import solve_pose

KINDS = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
WHEELS, giving, held = KINDS["WHEELS"], KINDS["giving"], KINDS["held"]
TIRE = Tire(
    section=0.275, over_lips=0.254, offset=0.02, radius=0.335, tread=0.23, lip_radius=0.2
)  # fmt: skip
STRETCHED = Tire(
    section=0.225, over_lips=0.28, offset=-0.03, radius=0.31, tread=0.205, lip_radius=0.21,
    widest_radius=0.25,
)  # fmt: skip
STOPS = Stops(0.08, 0.09, 0.01)


def surface(tire, around=720, steps=60):
    """Points of the tire's skin in space about the y axis, from the curves that it is defined by.

    Written apart from the program: exact ellipses instead of chords, no symmetry used.
    """
    t = np.linspace(0.0, np.pi / 2, steps)
    half, rim, corner = tire.section / 2, tire.over_lips / 2, tire.tread / 2
    middle = tire.at_widest
    across = [np.linspace(0.0, corner, steps), corner + (half - corner) * np.sin(t)]
    radii = [np.full(steps, tire.radius), middle + (tire.radius - middle) * np.cos(t)]
    across += [rim + (half - rim) * np.cos(t), np.full(steps, rim)]
    radii += [middle - (middle - tire.lip_radius) * np.sin(t)]
    radii += [np.linspace(tire.lip_radius, 0.0, steps)]
    u, r = np.concatenate(across), np.concatenate(radii)
    u, r = np.concatenate([u, -u]), np.concatenate([r, r])
    angle = np.linspace(0.0, 2 * np.pi, around, endpoint=False)[:, None]
    points = [r * np.sin(angle), np.broadcast_to(u, (around, u.size)), r * np.cos(angle)]
    return np.stack(points, axis=-1).reshape(-1, 3)


def rotation(rng, most):
    """A rotation by small angles about x and z."""
    a, b = rng.uniform(-most, most, 2)
    about_x = [[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]]
    about_z = [[np.cos(b), -np.sin(b), 0], [np.sin(b), np.cos(b), 0], [0, 0, 1]]
    return np.array(about_z) @ np.array(about_x)


@pytest.mark.parametrize("tire", [TIRE, STRETCHED], ids=["plain", "stretched"])
def test_distance_against_brute_force_in_space(tire):
    rng = np.random.default_rng(5)
    tree = cKDTree(surface(tire))
    for side, sign in (("left", 1.0), ("right", -1.0)):
        turned = rotation(rng, 0.08)
        center = np.array([0.02, 0.01, 0.33]) + rng.uniform(-0.03, 0.03, 3)
        axis = turned @ np.array([0.0, 1.0, 0.0])
        hub = center + sign * axis * (0.74 - tire.offset)
        from_hub = rng.uniform(-1.0, 1.0, (500, 3)) * (0.45, 0.25, 0.45)
        want, _ = tree.query(from_hub @ turned)
        points = hub + from_hub
        places = AxlePlaces(center[None, None], axis[None, None], ("here",), STRAIGHT)
        obstacle = Obstacle(
            "points", side, "inner", sign * points[:, 1], points[:, 2], points[:, 0]
        )  # fmt: skip
        got, _ = gaps(WheelEnd(0.74, tire), obstacle, places)
        # Chords stand 0.15 mm inside the ellipses; points of the skin lie up to 3 mm apart, so
        # that seen from near the grid is coarse.
        assert np.all(np.abs(np.abs(got[0]) - want) < 0.16e-3 + 2.5e-6 / np.maximum(want, 1.5e-3))


@pytest.mark.parametrize("tire", [TIRE, STRETCHED], ids=["plain", "stretched"])
def test_inside_is_below_zero(tire):
    rng = np.random.default_rng(6)
    u, r = rng.uniform(-0.2, 0.2, 2000), rng.uniform(0.0, 0.4, 2000)
    got, _ = distance(tire, u - tire.offset, r)
    width = reach(tire, r)
    clear = np.abs(np.abs(u) - width) > 1e-6
    assert np.array_equal((got < 0.0)[clear], (np.abs(u) < width)[clear])


def test_outline_lies_inside_its_ellipses_by_a_hair():
    # Closed form: points of the quarter ellipse that runs from the tread to the widest place.
    turn = np.linspace(0.0, np.pi / 2, 999)
    rise = TIRE.radius - TIRE.at_widest
    across = 0.115 + 0.0225 * np.sin(turn)
    off, _ = distance(TIRE, across - TIRE.offset, TIRE.at_widest + rise * np.cos(turn))
    assert off.min() > -1e-12
    assert off.max() < 0.0022 * rise
    assert outline(TIRE)[0][0] == outline(TIRE)[1][-1] == 0.0


def test_zones_are_named_from_outside_in():
    named = {
        "tread": (-0.02, 0.40),
        "shoulder": (0.15, 0.36),
        "sidewall": (0.16, 0.26),
        "rim": (0.16, 0.10),
    }
    for zone, (along, radius) in named.items():
        assert ZONES[distance(TIRE, along, radius)[1]] == zone


@pytest.mark.parametrize("wanted", [0.0, 0.005, 0.019, 0.05])
@pytest.mark.parametrize("tire", [TIRE, STRETCHED], ids=["plain", "stretched"])
def test_point_at_the_kept_reach_stands_off_by_just_that(tire, wanted):
    radius = np.linspace(0.01, tire.radius + 0.999 * wanted, 400)
    u = kept_reach(tire, radius, wanted)
    got, _ = distance(tire, u - tire.offset, radius)
    assert got == pytest.approx(np.full(400, wanted), abs=1e-9)
    assert kept_reach(tire, tire.radius + wanted + 1e-6, wanted) == -np.inf


def test_edge_is_nearest_where_a_fine_walk_along_it_says():
    places = straight_places(STOPS, 0.33, 1.5)
    end = WheelEnd(0.74, TIRE)
    for ahead, height in ((0.0, 0.6), (0.1, 0.42), (-0.2, 0.33)):
        lip = Obstacle("lip", "left", "outer", 0.88, height, ahead, 0.3)
        found = clearances({"left": end}, [lip], places)[0]
        walk, _ = gaps(end, lip, places, np.linspace(-0.3, 0.3, 1001))
        assert found.least == pytest.approx(walk.min(), abs=2e-5)
        assert abs(found.ahead - ahead) <= 0.3 + 1e-12


def test_edge_against_a_minimizer():
    # scipy.optimize.minimize over the place along the edge and the travel of one wheel.
    linkage = held()["three-link"]
    end = WheelEnd(0.74, TIRE)
    lip = Obstacle("lip", "right", "outer", 0.90, 0.58, 0.0, 0.3)

    def at(way):
        pose = solve_pose(linkage, np.array([[0.0]]), np.array([[way[1]]]))
        return float(gaps(end, lip, places_of(pose, ("there",)), way[0])[0][0, 0])

    travel = np.linspace(0.0, 0.08, 9)[:, None]
    pose = solve_pose(linkage, 0.0 * travel, travel)
    found = clearances({"right": end}, [lip], places_of(pose, tuple(map(str, range(9)))))[0]
    bounds = [(-0.3, 0.3), (0.0, 0.08)]
    starts = [(x, t) for x in (-0.1, 0.1) for t in (0.02, 0.06)]
    best = min(minimize(at, s, bounds=bounds, method="L-BFGS-B").fun for s in starts)
    assert best <= found.least + 1e-6
    assert found.least == pytest.approx(best, abs=3e-4)  # steps of 10 mm of travel


# ------------------------------------------------------------------------------- places


@pytest.mark.parametrize("name", [*held(), *giving()])
def test_solved_places_carry_the_wheel_where_the_pose_does(name):
    linkage = (held() | giving())[name]
    places = solved_places(linkage, Stops(0.07, 0.06))
    assert places.known == SOLVED
    assert places.names[0] == "ride height"
    top = places.names.index("left wheel at full bump, right at full droop")
    pose = solve_pose(linkage, 0.07, -0.06)
    for half in (0.74, 0.81):
        got = places.center[top, 0] + half * places.axis[top, 0]
        assert got == pytest.approx(pose.place((0.0, half, WHEELS.left[2])), abs=1e-9)
    assert np.linalg.norm(places.axis, axis=-1) == pytest.approx(1.0, abs=1e-12)


def test_shift_comes_on_top_of_the_links():
    linkage = held()["three-link"]
    still, moved = (solved_places(linkage, Stops(0.07, 0.06, s)) for s in (0.0, 0.008))
    assert len(moved.names) == 2 * len(still.names) + 1
    for way, name in ((1, ", axle shifted left"), (-1, ", axle shifted right")):
        for n, place in enumerate(still.names):
            there = moved.center[moved.names.index(place + name)]
            assert there[..., 1] == pytest.approx(still.center[n, :, 1] + way * 0.008)
            assert there[..., 2] == pytest.approx(still.center[n, :, 2])
    assert moved.center[moved.names.index("ride height"), 0, 1] == pytest.approx(0.0, abs=1e-12)


def test_places_hold_each_wheel_at_its_stops_while_the_other_goes_all_the_way():
    names = straight_places(Stops(0.08, 0.09), 0.33, 1.5).names
    assert len(set(names)) == len(names) == 7 * 3 + 3 * 7 - 3 * 3
    assert names[0] == "ride height"
    assert {"both wheels at full bump", "left wheel at 3/4 bump, right at full droop"} <= set(names)
    assert "left wheel at ride height, right at full bump" in names


def test_straight_places_are_those_of_an_axle_that_only_goes_up_and_down():
    # A Watt linkage holds its middle to a straight line, so for a level axle both must agree.
    solved = solved_places(held()["three-link, Watt on body"], Stops(0.04, 0.04))
    straight = straight_places(Stops(0.04, 0.04), 0.33, 1.48)
    assert straight.known == STRAIGHT
    assert straight.names == solved.names
    assert straight.center[..., 1:] == pytest.approx(solved.center[..., 1:], abs=2e-3)
    assert straight.axis[..., 2] == pytest.approx(solved.axis[..., 2], abs=1e-4)


def test_clearance_comes_with_how_the_places_are_known():
    lip = Obstacle("lip", "left", "outer", 0.9, 0.6, 0.0, 0.3)
    found = clearances({"left": WheelEnd(0.74, TIRE)}, [lip], straight_places(STOPS, 0.33, 1.5))
    assert found[0].known == STRAIGHT


def test_both_sides_of_a_car_alike_are_mirror_images():
    for linkage in (held()["triangulated"], giving()["leaf"]):
        places = solved_places(linkage, STOPS)
        ends = {side: WheelEnd(0.74, TIRE) for side in ("left", "right")}
        rails = [Obstacle("rail", s, "inner", 0.55, 0.40, 0.1) for s in ("left", "right")]
        left, right = clearances(ends, rails, places)
        assert left.least == pytest.approx(right.least, abs=1e-8)
        assert left.zone == right.zone


# ------------------------------------------------------------------------------- meaning


def test_lower_obstacles_meet_the_tire_as_it_stands():
    standing = Tire(0.305, 0.254, 0.02, 0.335, 0.23, 0.2)
    places = straight_places(Stops(0.0, 0.0), 0.33, 1.5)
    low = Obstacle("low", "left", "inner", 0.50, 0.08)
    high = Obstacle("high", "left", "inner", 0.50, 0.45)
    both = clearances({"left": WheelEnd(0.74, TIRE, standing)}, [low, high], places)
    plain = clearances({"left": WheelEnd(0.74, TIRE)}, [low, high], places)
    assert both[0].least < plain[0].least - 0.008
    assert both[1].least == plain[1].least


def test_chances_are_shares_of_samples():
    rng = np.random.default_rng(2)
    out = 0.90 + rng.normal(0.0, 0.004, 400)
    lip = Obstacle("lip", "left", "outer", out, 0.45, wanted=0.019)
    rail = Obstacle("rail", "left", "inner", 0.5, 0.40, wanted=0.019)
    places = straight_places(Stops(0.0, 0.0, 0.005), 0.33, 1.5)
    found = clearances({"left": WheelEnd(0.74, TIRE)}, [lip, rail], places)
    assert np.shape(found[0].least) == (400,)
    assert found[0].place == "ride height, axle shifted left"
    # The lip is beside the tire, so an error of its place is one of the clearance.
    at_middle = clearances(
        {"left": WheelEnd(0.74, TIRE)}, [Obstacle("lip", "left", "outer", 0.90, 0.45)], places
    )[0]
    moved = at_middle.least + (out - 0.90)
    assert found[0].least == pytest.approx(moved, abs=3e-4)
    assert found[0].chance == pytest.approx(np.mean(moved >= 0.019), abs=0.03)
    assert found[1].chance == 1.0
    assert chance_of_all(found) == found[0].chance
    assert worst(found) is found[0]


def test_samples_agree_with_single_numbers():
    linkage = held()["three-link"]
    section, half, out = (np.array(v) for v in ((0.27, 0.29), (0.74, 0.75), (0.9, 0.92)))
    places = solved_places(linkage, STOPS)
    tire = Tire(section, 0.254, 0.02, 0.335, 0.23, 0.2)
    lip = Obstacle("lip", "left", "outer", out, 0.6, 0.0, 0.3)
    together = clearances({"left": WheelEnd(half, tire)}, [lip], places)[0]
    for n in range(2):
        one = Tire(float(section[n]), 0.254, 0.02, 0.335, 0.23, 0.2)
        edge = Obstacle("lip", "left", "outer", float(out[n]), 0.6, 0.0, 0.3)
        alone = clearances({"left": WheelEnd(float(half[n]), one)}, [edge], places)[0]
        assert together.least[n] == pytest.approx(alone.least, abs=1e-12)


@pytest.mark.parametrize(
    "name", ["section", "over_lips", "offset", "radius", "tread", "lip_radius"]
)
def test_any_one_size_of_a_tire_may_be_sampled(name):
    value = getattr(TIRE, name)
    sampled = replace(TIRE, **{name: np.full(3, value)})
    radius = np.linspace(0.1, 0.4, 5)[:, None]
    got, zone = distance(sampled, 0.15, radius)
    want, named = distance(TIRE, 0.15, radius)
    np.testing.assert_allclose(got, np.broadcast_to(want, (5, 3)), rtol=1e-13)
    assert np.all(zone == named)
    swollen = kept_reach(sampled, radius, 0.02)
    np.testing.assert_allclose(
        swollen, np.broadcast_to(kept_reach(TIRE, radius, 0.02), swollen.shape), rtol=1e-13
    )


def test_what_cannot_be_is_refused():
    with pytest.raises(ValueError, match="tread is wider than the tire"):
        distance(Tire(0.2, 0.2, 0.0, 0.33, 0.25, 0.2), 0.1, 0.3)
    with pytest.raises(ValueError, match="above zero"):
        straight_places(Stops(0.08, -0.09), 0.33, 1.5)
    with pytest.raises(ValueError, match="no axle reaches both"):
        straight_places(Stops(0.9, 0.9), 0.33, 1.5)
    with pytest.raises(ValueError, match="no obstacle"):
        worst([])
