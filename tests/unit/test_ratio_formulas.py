"""Shifts, road load and tooth counts: what must hold for any numbers."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from axlewright.driveline.tooth_counts import USUAL, common_teeth, hunting_class, usual_pairs
from axlewright.vehicle.gearing import shift_drop, speed_after_shift
from axlewright.vehicle.road_load import road_load, top_speed_in_gear

CURVE = ((100.0, 300.0, 450.0, 600.0), (300.0, 420.0, 400.0, 280.0))
CAR = {"driveline_efficiency": 0.88, "tire_radius": 0.33, "road_drag": 0.45,
       "vehicle_mass": 1600.0, "rolling_share": 0.013}  # fmt: skip


@given(st.floats(200.0, 900.0), st.floats(1.2, 4.0), st.floats(0.5, 1.1))
def test_the_drop_and_what_is_left_make_the_whole(engine, gear, after):
    left = speed_after_shift(engine, gear, after)
    assert np.isclose(left + shift_drop(engine, gear, after), engine)
    assert 0.0 < left < engine


@given(st.integers(24, 60), st.integers(5, 20))
def test_only_pairs_without_a_common_divisor_hunt(ring, pinion):
    common = int(common_teeth(float(ring), float(pinion)))
    assert ring % common == 0
    assert pinion % common == 0
    assert (hunting_class(common, pinion) == "hunting") == (common == 1)


def test_common_teeth_takes_arrays():
    ring, pinion = np.array([39.0, 40.0, 41.0]), np.array([12.0, 10.0, 11.0])
    assert common_teeth(ring, pinion).tolist() == [3.0, 10.0, 1.0]


@given(st.floats(400.0, 700.0), st.floats(0.6, 3.0), st.floats(2.5, 5.0))
def test_at_top_speed_the_push_is_the_load_or_the_limiter_is_reached(limit, gear, axle):
    top = top_speed_in_gear(*CURVE, limit, gear, axle, **CAR)
    turns = top * gear * axle / 0.33
    push = np.interp(turns, *CURVE) * gear * axle * 0.88 / 0.33
    load = road_load(top, 0.45, 1600.0, 0.013)
    assert np.isclose(turns, limit) or np.isclose(push, load)
    assert push >= load * (1.0 - 1e-9)


def test_a_gear_that_cannot_hold_the_car_gives_nothing():
    weak = ((100.0, 600.0), (1.0, 1.0))
    assert top_speed_in_gear(*weak, 600.0, 0.6, 2.5, **CAR) == 0.0


def test_samples_agree_with_single_cars():
    rng = np.random.default_rng(3)
    axle = rng.uniform(2.5, 5.0, (4, 1))
    drag = rng.uniform(0.3, 0.6, 5)
    torques = [np.broadcast_to(t, (5,)) * rng.uniform(0.9, 1.1, 5) for t in CURVE[1]]
    speeds = [np.full(5, s) for s in CURVE[0]]
    many = top_speed_in_gear(speeds, torques, 620.0, 1.0, axle, **(CAR | {"road_drag": drag}))
    assert many.shape == (4, 5)
    for i in range(4):
        for j in range(5):
            one = top_speed_in_gear(
                CURVE[0], tuple(t[j] for t in torques), 620.0, 1.0, axle[i, 0],
                **(CAR | {"road_drag": drag[j]}),
            )  # fmt: skip
            assert np.isclose(many[i, j], one, rtol=1e-12)


def test_small_ring_gears_stop_at_milder_ratios():
    small, middle, large = (usual_pairs(d * 0.0254) for d in (7.5, 8.8, 9.75))
    assert set(small) < set(middle) < set(large) == set(USUAL)
    assert [p.ring / p.pinion for p in large] == sorted(p.ring / p.pinion for p in large)
