"""Ratio study: teeth counted one by one, and top speeds found by another root finder."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from axlewright.driveline import tooth_counts
from axlewright.driveline.orders import joint_rate, mesh_rate
from axlewright.vehicle import gearing
from axlewright.vehicle.road_load import road_load, top_speed_in_gear

pytestmark = pytest.mark.published

# Ratio, common divisor and class as a trade reference tabulates them (common practice); the
# counting below is ours and does not use a divisor.
TABLE = [
    (37, 12, 3.08, 1, "hunting"), (39, 12, 3.25, 3, "partial"), (39, 11, 3.55, 1, "hunting"),
    (35, 10, 3.50, 5, "partial"), (41, 11, 3.73, 1, "hunting"), (35, 9, 3.89, 1, "hunting"),
    (40, 10, 4.00, 10, "non-hunting"), (41, 10, 4.10, 1, "hunting"), (39, 9, 4.33, 3, "partial"),
    (45, 11, 4.09, 1, "hunting"), (41, 9, 4.56, 1, "hunting"),
]  # fmt: skip


@pytest.mark.parametrize(("ring", "pinion", "ratio", "common", "kind"), TABLE)
def test_teeth_meet_as_counted_one_by_one(ring, pinion, ratio, common, kind):
    met, turned = set(), 0
    while True:  # roll the pair tooth by tooth until no new pair meets in a whole ring turn
        fresh = {((turned + k) % ring, (turned + k) % pinion) for k in range(ring)} - met
        if not fresh:
            break
        met |= fresh
        turned += ring
    divisor = tooth_counts.common_teeth(float(ring), float(pinion))
    assert divisor == common
    assert tooth_counts.turns_until_all_met(float(pinion), divisor) == turned / ring
    assert tooth_counts.partners(float(ring), divisor) == len({r for r, p in met if p == 0})
    assert tooth_counts.hunting_class(int(divisor), pinion) == kind
    assert ring / pinion == pytest.approx(ratio, abs=0.005)


def test_speeds_and_noise_at_sixty_on_a_tire_of_twenty_six_inches():
    # 60 mph on 26 in: wheel 12.9 Hz, shaft 45.8, joint 2x 91.7, mesh 504 at 39/11 (by hand:
    # 88 ft/s over 6.807 ft a turn, times 39/11, times 2, times 11).
    speed, radius = 60 * 0.44704, 0.5 * 26 * 0.0254
    shaft = gearing.driveshaft_speed_on_road(speed, 39 / 11, radius)
    hertz = [
        v / (2 * math.pi)
        for v in (
            gearing.wheel_speed_on_road(speed, radius), shaft, joint_rate(shaft),
            mesh_rate(shaft, 11.0),
        )
    ]  # fmt: skip
    assert hertz == pytest.approx([12.9, 45.8, 91.7, 504.0], rel=0.004)


def test_top_speed_is_the_root_that_a_bracketing_search_finds():
    """scipy.optimize.brentq on the balance of push and road load, from the top speed down."""
    rng = np.random.default_rng(5)
    checked = 0
    for _ in range(60):
        speeds = np.sort(rng.uniform(80.0, 700.0, 7))
        torques = rng.uniform(60.0, 350.0, 7)
        gear, axle, radius = rng.uniform(0.5, 1.5), rng.uniform(2.0, 4.0), rng.uniform(0.28, 0.36)
        drag, mass, roll = rng.uniform(0.3, 0.7), rng.uniform(1000, 2200), rng.uniform(0.01, 0.02)
        limit = rng.uniform(400.0, 750.0)

        def spare(v):
            n = v * gear * axle / radius  # noqa: B023
            push = np.interp(n, speeds, torques) * gear * axle * 0.88 / radius  # noqa: B023
            return push - road_load(v, drag, mass, roll)  # noqa: B023

        ours = top_speed_in_gear(
            tuple(speeds), tuple(torques), limit, gear, axle, 0.88, radius, drag, mass, roll
        )
        grid = np.linspace(1e-3, limit * radius / (gear * axle), 4001)
        good = np.array([spare(v) >= 0.0 for v in grid])
        last = int(np.flatnonzero(good)[-1]) if good.any() else -1
        if last == grid.size - 1:
            expected = grid[-1]
        elif last < 0:
            expected = 0.0
        else:
            expected = brentq(spare, grid[last], grid[last + 1])
            checked += 1
        assert ours == pytest.approx(expected, rel=1e-6, abs=1e-6)
    assert checked > 15
