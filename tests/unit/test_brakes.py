"""Rear and parking brakes: limits, order of locking, words."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.vehicle import brake_balance as balance
from axlewright.vehicle import brake_rules, brake_torque, parking_brake
from axlewright.vehicle.brake_curves import brake_curves, rear_line_pressure

SHOE = (0.35, 0.125, 0.1, 0.3, 2.2, 0.19)
CAR = st.tuples(st.floats(0.3, 0.65), st.floats(0.35, 0.9), st.floats(2.0, 3.5))


def test_leading_shoe_pulls_more_than_a_trailing_one():
    leading = brake_torque.shoe_factor(*SHOE, 1.0)
    trailing = brake_torque.shoe_factor(*SHOE, -1.0)
    assert leading > 1.5 * trailing > 0.0
    still = brake_torque.shoe_factor(*SHOE, 0.0)
    assert 1 / still == pytest.approx(0.5 * (1 / leading + 1 / trailing))


def test_factor_grows_without_bound_toward_grabbing():
    grab = brake_torque.grabbing_friction(*SHOE[1:5])
    near = brake_torque.shoe_factor(0.999 * grab, *SHOE[1:], 1.0)
    assert near > 100.0
    assert brake_torque.shoe_factor(1.001 * grab, *SHOE[1:], 1.0) < 0.0


def test_pressure_does_the_torque():
    # Torque of the pressure profile equals factor times force times radius.
    force, width = 2000.0, 0.04
    friction, radius, _, start, end, _ = SHOE
    top = brake_torque.lining_pressure(force, width, *SHOE, 1.0)
    torque = friction * top * width * radius**2 * (np.cos(start) - np.cos(end))
    assert torque == pytest.approx(brake_torque.shoe_factor(*SHOE, 1.0) * force * radius)


def test_usual_factors_stand_in_order():
    for kind in brake_torque.USUAL_FACTORS.values():
        assert kind.low < kind.likely < kind.high
    likely = [k.likely for k in brake_torque.USUAL_FACTORS.values()]
    assert likely == sorted(likely)


def test_two_shoes_of_street_lining_fall_in_the_usual_range():
    lead, trail = (brake_torque.shoe_factor(*SHOE, s) for s in (1.0, -1.0))
    both = brake_torque.two_shoe_factor(lead, trail)
    usual = brake_torque.USUAL_FACTORS["leading and trailing"]
    assert usual.low < both < usual.high
    servo = brake_torque.servo_factor(lead, lead, 0.1, 0.1, 0.125)
    assert servo > 2.0 * lead


@settings(max_examples=60, deadline=None)
@given(CAR, st.floats(0.05, 1.4))
def test_ideal_share_makes_both_axles_use_the_rate(car, rate):
    share = balance.ideal_rear_share(car[0], rate, *car[1:])
    if share <= 0.01:
        return
    front = balance.front_grip_used(share, car[0], rate, *car[1:])
    rear = balance.rear_grip_used(share, car[0], rate, *car[1:])
    assert front == pytest.approx(rate)
    assert rear == pytest.approx(rate)


@settings(max_examples=60, deadline=None)
@given(CAR, st.floats(0.05, 0.6), st.floats(0.1, 1.3))
def test_the_axle_that_locks_first_uses_just_the_grip(car, rear_share, grip):
    (order,) = balance.lock_order([grip], rear_share, *car)
    rate = float(order.rate)
    used = (balance.front_grip_used, balance.rear_grip_used)
    front, rear = (u(rear_share, car[0], rate, *car[1:]) for u in used)
    assert max(front, rear) == pytest.approx(grip, rel=1e-9)
    assert rate <= grip * (1.0 + 1e-12)
    assert order.rear_first == float(rear > front)


def test_loads_add_up_to_the_car():
    args = (15e3, 0.45, np.linspace(0, 1.2, 7), 0.5, 2.5)
    both = balance.front_load_in_braking(*args) + balance.rear_load_in_braking(*args)
    np.testing.assert_allclose(both, 15e3)


def test_smaller_rear_tire_and_less_weight_behind_bring_the_rear_nearer():
    car = (0.42, 0.52, 2.7)
    tall = balance.rear_share_of_brakes(1500.0, 800.0, 0.32, 0.36)
    small = balance.rear_share_of_brakes(1500.0, 800.0, 0.32, 0.30)
    assert small > tall
    grips = (0.2, 0.5, 0.8, 1.1)
    rear_first = [o.rear_first for o in balance.lock_order(grips, small, *car)]
    assert rear_first == sorted(rear_first)
    light = balance.lock_changeover(0.38, small, *car[1:])
    assert light < balance.lock_changeover(0.42, small, *car[1:])


def test_a_car_near_its_ideal_share_is_strong_enough_and_one_far_off_is_not():
    car = (0.42, 0.52, 2.7)
    good = balance.ideal_rear_share(0.42, 0.7, 0.52, 2.7)
    assert brake_rules.grips_too_weak(good, *car).size == 0
    front_alone = brake_rules.grips_too_weak(0.0, *car)
    for grip in front_alone:  # front brakes alone: z = k·(1 - q)/(1 - k·h/L)
        assert grip * 0.58 / (1 - grip * 0.52 / 2.7) < 0.1 + 0.7 * (grip - 0.2)
    assert brake_rules.grips_too_weak(0.75, *car).size > front_alone.size


def test_a_rear_that_locks_first_is_said_plainly():
    orders = balance.lock_order((0.3, 0.6, 0.9), 0.36, 0.42, 0.52, 2.7)
    first, last = brake_rules.brake_cautions(orders)
    assert first.startswith("On a grip of 0.6, 0.9 the rear locks first: the car turns round")
    assert "inspector" in last
    safe = balance.lock_order((0.3, 0.6, 0.9), 0.20, 0.42, 0.52, 2.7)
    assert len(brake_rules.brake_cautions(safe)) == 1
    unsure = balance.lock_order([0.8], np.linspace(0.20, 0.28, 101), 0.42, 0.52, 2.7)
    assert "may lock first" in brake_rules.brake_cautions(unsure)[0]


def test_either_kind_of_brake_by_one_call():
    disc = brake_torque.wheel_brake_torque("disc", 6e6, 9e-4, 0.125, 0.4, 9.9)
    drum = brake_torque.wheel_brake_torque("drum", 4e6, 4e-4, 0.125, 9.9, 2.0)
    assert (disc, drum) == pytest.approx((540.0, 400.0))
    for kind in parking_brake.USUAL_PARKING.values():
        assert kind.low < kind.likely < kind.high


def test_samples_give_a_share_of_cars():
    rng = np.random.default_rng(1)
    share = rng.normal(0.30, 0.04, 4000)
    (order,) = balance.lock_order([0.8], share, 0.42, 0.52, 2.7)
    changeover = 0.42 - 0.8 * 0.52 / 2.7  # ideal share at a rate of 0.8
    assert order.rate.shape == (4000,)
    assert order.rear_first == pytest.approx(np.mean(share > changeover), abs=0.02)


# ------------------------------------------------------------------------------------ valve

PRESSURES = np.linspace(1e5, 16e6, 400)
BODY = (0.31, 0.33, 16e3, 0.42, 0.52, 2.7)


def curves(knee, slope):
    front = brake_torque.disc_brake_torque(PRESSURES, 2.0e-3, 0.38, 0.12)
    behind = rear_line_pressure(PRESSURES, knee, slope)
    rear = brake_torque.drum_brake_torque(behind, 3.5e-4, 2.3, 0.127)
    return brake_curves(front, rear, *BODY)


def test_without_a_valve_the_curves_are_those_of_one_share():
    plain = curves(1e9, 1.0)
    front, rear = (float(t) for t in (0.76 * 2.0e-3 * 0.12 / 0.31, 3.5e-4 * 2.3 * 0.127 / 0.33))
    share = rear / (front + rear)
    for grip in (0.3, 0.6, 0.9):
        (order,) = balance.lock_order([grip], share, *BODY[3:])
        assert plain.lock_rates(grip) == pytest.approx(
            (order.front_rate, order.rear_rate), rel=1e-4
        )


def test_a_valve_keeps_the_rear_from_locking_first():
    plain, held = curves(1e9, 1.0), curves(2.0e6, 0.3)
    assert not plain.front_first
    assert held.front_first
    front, rear = plain.lock_rates(0.9)
    assert rear < front
    front, rear = held.lock_rates(0.9)
    assert front < rear
    assert held.lock_rates(5.0) == (np.inf, np.inf)


# ------------------------------------------------------------------------------------ parking


@settings(max_examples=60, deadline=None)
@given(st.floats(0.01, 3.0), st.floats(8e3, 25e3), st.floats(0.25, 0.4))
def test_torque_to_hold_and_grade_by_brakes_undo_each_other(grade, weight, radius):
    torque = parking_brake.torque_to_hold(weight, grade, radius)
    assert parking_brake.grade_by_brakes(torque, radius, weight) == pytest.approx(grade)
    pull = parking_brake.grade_pull(weight, grade)
    assert 2.0 * torque / radius == pytest.approx(pull)


def test_parking_names_the_limit_and_the_chance():
    car = (0.33, 16e3, 0.7, 0.42, 0.52, 2.7)
    strong = parking_brake.parking(3000.0, *car)
    assert strong.steepest == pytest.approx(strong.by_grip_nose_down)
    assert strong.by_grip_nose_up > strong.by_grip_nose_down
    assert any("slide" in c for c in strong.cautions)
    weak = parking_brake.parking(300.0, *car)
    assert weak.steepest == pytest.approx(weak.by_brakes)
    assert weak.chance(parking_brake.WANTED_GRADE) == 0.0
    assert any("inspected" in c for c in weak.cautions)
    band = parking_brake.parking(np.linspace(300.0, 1500.0, 101), *car)
    needed = parking_brake.torque_to_hold(16e3, 0.20, 0.33)
    assert band.chance(0.20) == pytest.approx(np.mean(np.linspace(300, 1500, 101) >= needed))
    assert band.chance(parking_brake.STEEP_GRADE) < band.chance(parking_brake.WANTED_GRADE)


def test_lever_caliper_and_shoe_in_hat_go_through_the_same_formula():
    pull = parking_brake.cable_pull(400.0, 6.0, 0.8)
    caliper = parking_brake.parking_torque(pull, 6.0, 2 * 0.38, 0.12)
    small_shoe = parking_brake.parking_torque(pull, 5.0, 2.1, 0.085)
    assert caliper == pytest.approx(960 * 6 * 0.76 * 0.12)
    assert small_shoe == pytest.approx(960 * 5 * 2.1 * 0.085)
