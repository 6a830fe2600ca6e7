"""Brakes, parking, oil and sweeps against other ways of working them out; sources beside each."""

import runpy
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq, differential_evolution, minimize

from axlewright.fit.oil_level import OilRoom, level_of, oil_over_point, oil_volume
from axlewright.fit.speedometer import exact_driven_teeth, reading_with_gear
from axlewright.fit.travel import Travel, places
from axlewright.fit.travel_shapes import Ball, Bar, Plane, bar_distance, driveshaft_bar
from axlewright.fit.travel_sweep import Pair, sweep
from axlewright.suspension.pose import solve_pose
from axlewright.vehicle import brake_balance as balance
from axlewright.vehicle import brake_rules, brake_torque, parking_brake
from axlewright.vehicle.tire import turns_per_distance

pytestmark = pytest.mark.published

KINDS = runpy.run_path(str(Path(__file__).parents[1] / "unit" / "suspension_kinds.py"))
AXLES = KINDS["every"]()
RNG = np.random.default_rng(20)

# ------------------------------------------------------------------------------------ brakes


def stopped(front, rear, weight, share, height, base):
    """Loads of both axles from forces and moments alone (numerical solution)."""
    ahead, behind = share * base, (1.0 - share) * base  # center of mass to front and rear contact
    push = front + rear
    return np.linalg.solve([[1.0, 1.0], [-ahead, behind]], [weight, -push * height])


def car_of(seed):
    rng = np.random.default_rng(seed)
    share, height = rng.uniform(0.35, 0.6), rng.uniform(0.4, 0.8)
    return share, height, rng.uniform(2.2, 3.2), rng.uniform(0.1, 0.5), rng.uniform(0.2, 1.3)


@pytest.mark.parametrize("seed", range(12))
def test_lock_rates_are_the_roots_of_the_balance(seed):
    # closed form against a root finder on the raw balance of forces and moments
    share, height, base, rear_share, grip = car_of(seed)

    def over(rate, axle):
        forces = np.array([(1.0 - rear_share) * rate, rear_share * rate])
        front, rear = stopped(*forces, 1.0, share, height, base)
        return forces[axle] - grip * (front, rear)[axle]

    front = brentq(over, 0.0, 50.0, args=(0,))
    rear = brentq(over, 0.0, 50.0, args=(1,))
    car = (grip, rear_share, share, height, base)
    assert balance.rate_at_front_lock(*car) == pytest.approx(front, rel=1e-9)
    assert balance.rate_at_rear_lock(*car) == pytest.approx(rear, rel=1e-9)
    changeover = balance.lock_changeover(share, rear_share, height, base)
    if abs(changeover) > 1e-6 and min(front, rear) > 0.0:
        assert (front < rear) == (min(front, rear) < changeover)


def test_front_is_the_nearer_one_where_the_directive_asks_for_it():
    # Directive 71/320/EEC, annex II, appendix, 3.1.1 (read): the front's curve above the rear's
    # for all rates of 0.15 to 0.8; between 0.3 and 0.45 the rear may be above by z + 0.05.
    share, height, base = 0.42, 0.52, 2.74
    good = balance.ideal_rear_share(share, 0.8, height, base)
    assert brake_rules.rates_out_of_order(good - 1e-9, share, height, base).size == 0
    wrong = brake_rules.rates_out_of_order(good + 0.02, share, height, base)
    changeover = balance.lock_changeover(share, good + 0.02, height, base)
    assert wrong.min() >= changeover
    assert wrong.max() == pytest.approx(0.8)
    at = np.linspace(0.15, 0.8, 131)
    slight = balance.ideal_rear_share(share, 0.30, height, base)
    excused = brake_rules.rates_out_of_order(slight, share, height, base)
    kept = (at > 0.31) & (at < 0.44)
    rear = balance.rear_grip_used(slight, share, at, height, base)
    assert np.all(rear[kept] <= at[kept] + 0.05)
    assert not np.any((excused > 0.31) & (excused < 0.44))


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_shoe_factor_is_the_integral_of_its_pressure(sense):
    # long shoe: pressure with the sine of the angle; moments integrated numerically (SciPy)
    friction, r, a, start, end, lever = 0.35, 0.125, 0.1, 0.3, 2.2, 0.19
    drag = quad(lambda t: friction * np.sin(t) * r * r, start, end)[0]
    normal = quad(lambda t: np.sin(t) * r * a * np.sin(t), start, end)[0]
    rubbing = quad(lambda t: friction * np.sin(t) * r * (r - a * np.cos(t)), start, end)[0]
    force = (normal - sense * rubbing) / lever
    ours = brake_torque.shoe_factor(friction, r, a, start, end, lever, sense)
    assert ours == pytest.approx(drag / (force * r), rel=1e-10)


def test_textbook_brake_as_a_whole():
    # Shigley, 9th ed., example 16-2 (from memory): 366 + 162 = 528 N·m at 2.28 kN on each shoe
    shoe = (0.32, 0.150, 0.1227, 0.0, np.radians(126.0), 0.212)
    both = brake_torque.two_shoe_factor(
        brake_torque.shoe_factor(*shoe, 1.0), brake_torque.shoe_factor(*shoe, -1.0)
    )
    assert both * 2280.0 * 0.150 == pytest.approx(528.0, rel=2e-3)


def test_second_shoe_of_a_servo_does_about_three_quarters():
    # A hobby forum (read): the secondary shoe does about 75 % of the braking.  Equal shoes with the
    # textbook's factor, levers of cylinder and adjuster four fifths of the drum's radius.
    factor, radius, lever = 1.07, 0.125, 0.100
    whole = brake_torque.servo_factor(factor, factor, lever, lever, radius)
    assert (whole - factor) / whole == pytest.approx(0.75, abs=0.06)


@pytest.mark.parametrize("nose", [1.0, -1.0])
def test_grip_on_a_slope_by_forces_and_moments(nose):
    # car at rest on a slope, rear wheels held: numerical balance, root of friction used
    share, height, base, grip = 0.44, 0.55, 2.7, 0.6
    front_to_mass = share * base

    def over(grade):
        angle = np.arctan(grade)
        along, down = np.sin(angle), np.cos(angle)
        # moments about the front contact; nose up the hill, gravity's part along it loads the rear
        rear = (down * front_to_mass + nose * along * height) / base
        return along - grip * rear

    limit = brentq(over, 0.0, 3.0)
    formula = (
        parking_brake.grade_by_grip_nose_up if nose > 0 else parking_brake.grade_by_grip_nose_down
    )
    assert formula(grip, share, height, base) == pytest.approx(limit, rel=1e-9)


# ------------------------------------------------------------------------------------ instruments


def test_twenty_inch_tire_turns_as_the_page_says():
    # worked example of a public page on speedometer gears (read): 20 in, ratio 3, 40 teeth:
    # 1,008.4 turns in a mile and about 121 teeth with 1,001 cable turns
    turns = turns_per_distance(10.0 * 0.0254)
    assert turns * 1609.344 == pytest.approx(1008.4, abs=0.05)
    teeth = exact_driven_teeth(40.0, 3.0, turns, 1001.0 / 1609.344)
    assert round(teeth) == 121
    assert reading_with_gear(60.0, teeth, 121.0) == pytest.approx(60.0, rel=1e-3)


# ------------------------------------------------------------------------------------ oil

ROOM = OilRoom(0.12, 0.15, 0.035, 0.8, -0.03, 0.10, 0.25, 0.055, 0.040, filled_by_parts=0.0)


@pytest.mark.parametrize(("level", "nose"), [(-0.04, 0.0), (0.0, 0.1), (-0.03, -0.12)])
def test_oil_volume_is_the_integral_over_the_room(level, nose):
    # bowl and tubes: area below the level integrated; nose: chord integrated over its section
    def round_part(radius, length):
        half = max(min(level, radius), -radius)
        area = quad(lambda z: 2.0 * np.sqrt(radius**2 - z * z), -radius, half)[0]
        return area * length

    def radius_at(x):
        return np.interp(x, (0.10, 0.25), (0.055, 0.040))

    def wet(z, x):
        radius = radius_at(x)
        height = x * np.sin(nose) + (ROOM.nose_above + z) * np.cos(nose)
        inside = radius**2 - z * z
        return 2.0 * np.sqrt(inside) if inside > 0.0 and height < level else 0.0

    def up_to(x):
        radius = radius_at(x)
        edge = (level - x * np.sin(nose)) / np.cos(nose) - ROOM.nose_above
        return max(-radius, min(radius, edge))

    front = dblquad(wet, 0.10, 0.25, lambda x: -radius_at(x), up_to, epsabs=1e-9)[0]
    whole = round_part(0.12, 0.15) + round_part(0.035, 0.8) + front
    assert oil_volume(ROOM, level, nose) == pytest.approx(whole, rel=2e-4)


def test_half_full_is_half():
    # closed form: level through the axis of bowl and tubes, nose empty
    low = OilRoom(0.12, 0.15, 0.035, 0.8, 0.30, 0.10, 0.25, 0.055, 0.040, filled_by_parts=0.0)
    half = 0.5 * np.pi * (0.12**2 * 0.15 + 0.035**2 * 0.8)
    assert oil_volume(low, 0.0, 0.0) == pytest.approx(half, rel=1e-12)
    assert level_of(low, half, 0.0) == pytest.approx(0.0, abs=1e-9)


def test_oil_over_a_point_by_a_rotation():
    # rotation matrix about the axis of the axle: nose up turns what lies ahead upward
    level, point, nose = np.array([-0.12, 0.01]), np.array([0.22, -0.06]), 0.07
    turn = np.array([[np.cos(nose), -np.sin(nose)], [np.sin(nose), np.cos(nose)]])
    depth = (turn @ level)[1] - (turn @ point)[1]
    assert oil_over_point(*level, *point, nose) == pytest.approx(depth, rel=1e-12)


# ------------------------------------------------------------------------------------ sweeps


@pytest.mark.parametrize("seed", range(25))
def test_distance_of_two_pieces_is_the_least_that_an_optimizer_finds(seed):
    rng = np.random.default_rng(seed)
    one, other, third, fourth = rng.normal(size=(4, 3))

    def apart(place):
        s, t = place
        gap = one + s * (other - one) - third - t * (fourth - third)
        return gap @ gap

    starts = [(0.0, 0.0), (0.0, 1.0), (1.0, 0.0), (1.0, 1.0), (0.5, 0.5)]
    best = min(
        minimize(apart, s, bounds=[(0, 1), (0, 1)], tol=1e-14, method="L-BFGS-B").fun
        for s in starts
    )
    assert bar_distance(one, other, third, fourth) == pytest.approx(np.sqrt(best), abs=2e-6)


PIPE = Bar("exhaust", (0.35, 0.30, 0.50), (-0.35, 0.33, 0.52), 0.03, one_on="body", other_on="body")
COVER = Ball("cover", (-0.16, 0.0, 0.36), 0.01)
TUBE = Bar("axle tube", (0.0, 0.60, 0.33), (0.0, 0.10, 0.33), 0.038)
SHAFT = driveshaft_bar((1.35, 0.02, 0.36), (0.30, 0.0, 0.32), 0.038, 0.003)


@pytest.mark.parametrize("kind", ["triangulated", "three-link", "torque arm", "leaf"])
def test_least_room_is_what_an_optimizer_finds_over_the_travel(kind):
    # SciPy's global optimizer over both wheels' travel, each try a pose of its own
    linkage, bump, droop = AXLES[kind], 0.085, 0.10
    axle = places(linkage, Travel(bump, droop))
    tank = Plane("tank", (-0.30, 0.0, 0.4), (1.0, 0.0, -0.25))
    tunnel = Bar("tunnel edge", (1.2, 0.12, 0.42), (0.5, 0.12, 0.44), one_on="body",
                 other_on="body")  # fmt: skip

    def pipe_room(pose):
        here = bar_distance(
            pose.place(TUBE.one), pose.place(TUBE.other), np.array(PIPE.one), np.array(PIPE.other)
        )
        return here - 0.038 - 0.03

    def tank_room(pose):
        normal = np.array(tank.away) / np.linalg.norm(tank.away)
        return (pose.place(COVER.at) - np.array(tank.at)) @ normal - 0.01

    def shaft_room(pose):
        return bar_distance(
            np.array(SHAFT.one), pose.place(SHAFT.other), np.array(tunnel.one),
            np.array(tunnel.other),
        ) - 0.041  # fmt: skip

    for pair, room in (
        (Pair(TUBE, PIPE), pipe_room),
        (Pair(COVER, tank), tank_room),
        (Pair(SHAFT, tunnel), shaft_room),
    ):
        best = differential_evolution(
            lambda t, room=room: float(room(solve_pose(linkage, *t))),
            [(-droop, bump)] * 2, seed=3, maxiter=6, popsize=6, tol=1e-6, polish=True,
        ).fun  # fmt: skip
        (ours,) = sweep(axle, [pair])
        assert ours.least == pytest.approx(best, abs=1.5e-4)
