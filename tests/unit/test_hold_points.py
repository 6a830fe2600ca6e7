"""What may be ordered now: order of the items, nothing runs in a circle, nothing is let slip."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.fit.hold_items import ITEMS, Item, Need
from axlewright.fit.hold_keys import AT_RIDE_HEIGHT, BY_HAND, KEYS, known_readings
from axlewright.fit.hold_points import (
    BY_NAME,
    held_up_by,
    in_order,
    most_wanted,
    readings,
    verdicts,
)
from axlewright.workshop.keys import tables

NAMES = [item.name for item in ITEMS]
READINGS = readings()
EVERYTHING = (*NAMES, *READINGS)


def words(known):
    return {v.item.name: v.words for v in verdicts(known)}


def test_every_item_stands_once_and_needs_something():
    assert len(set(NAMES)) == len(NAMES)
    for item in ITEMS:
        assert item.needs
        assert len(set(item.things)) == len(item.things)
        assert all(len(need.why) > 8 for need in item.needs)


def test_nothing_runs_in_a_circle():
    order = [item.name for item in in_order()]
    assert sorted(order) == sorted(NAMES)
    for item in ITEMS:
        for thing in item.things:
            if thing in BY_NAME:
                assert order.index(thing) < order.index(item.name)


def test_a_circle_is_refused():
    one = Item("one", "order", False, (Need("two", "because of it"),))
    two = Item("two", "order", False, (Need("one", "because of it"),))
    with pytest.raises(ValueError, match="one, two"):
        in_order([one, two])


def test_wheels_come_first_and_the_driveshaft_last():
    order = [item.name for item in in_order()]
    chain = ["wheels and tires", "brakes", "housing ends", "housing", "axle shafts"]
    assert [order.index(n) for n in chain] == sorted(order.index(n) for n in chain)
    waits = set(held_up_by("wheels and tires"))
    assert {"brakes", "housing", "axle shafts", "driveshaft"} <= waits
    assert held_up_by("driveshaft") == ()


def test_nothing_may_be_ordered_with_nothing_known():
    assert not any(v.now for v in verdicts([]))


def test_all_may_be_done_with_all_readings_taken_and_earlier_items_there():
    for item in in_order():
        earlier = [n for n in NAMES if n != item.name]
        (verdict,) = [v for v in verdicts([*READINGS, *earlier]) if v.item is item]
        assert verdict.now


def test_housing_waits_for_what_is_missing_and_says_why():
    known = [t for t in BY_NAME["housing"].things if t != "hat thickness"]
    said = words(known)["housing"]
    assert said == (
        "housing: wait for hat thickness, because the wheel sits on the hat, not on the flange"
    )
    now = words([*known, "hat thickness"])["housing"]
    assert now == "housing: order now; made to order, not taken back"


def test_driveshaft_is_never_ordered_before_the_axle_is_in():
    without = [t for t in EVERYTHING if t not in {"fit in the car", "driveshaft"}]
    (verdict,) = [v for v in verdicts(without) if v.item.name == "driveshaft"]
    assert [need.thing for need in verdict.waits] == ["fit in the car"]


def test_what_is_there_is_not_asked_for_again():
    assert "housing" not in words(["housing"])


def test_the_reading_that_holds_up_most_comes_first():
    wanted = most_wanted([])
    counts = [len(held) for _, held in wanted]
    assert counts == sorted(counts, reverse=True)
    assert {name for name, _ in wanted} == set(READINGS)
    first = dict(wanted)
    assert {"wheels and tires", "housing", "driveshaft"} <= set(first["room each side"])
    fewer = dict(most_wanted(["room each side", "wheels and tires"]))
    assert "room each side" not in fewer
    assert "wheels and tires" not in fewer["bump and droop travel"]
    assert most_wanted([*READINGS]) == ()


def test_a_name_that_is_not_known_is_refused():
    with pytest.raises(ValueError, match="backspcae"):
        verdicts(["backspcae"])


@settings(max_examples=60, deadline=None)
@given(st.sets(st.sampled_from(EVERYTHING)), st.sampled_from(EVERYTHING))
def test_knowing_more_never_takes_an_order_away(known, more):
    before = {v.item.name for v in verdicts(known) if v.now}
    after = {v.item.name for v in verdicts(known | {more}) if v.now}
    assert before - {more} <= after


@settings(max_examples=60, deadline=None)
@given(st.sets(st.sampled_from(EVERYTHING)))
def test_a_verdict_is_open_just_when_all_its_needs_are_met(known):
    for verdict in verdicts(known):
        assert verdict.now == set(verdict.item.things).issubset(known)
        assert set(verdict.item.things) == known & set(verdict.item.things) | {
            need.thing for need in verdict.waits
        }


def test_made_to_order_items_wait_for_readings_of_the_car_itself():
    for item, reading in itertools.product(ITEMS, ("room each side",)):
        if item.name in {"housing", "wheels of special backspace"}:
            assert reading in item.things
    assert all(item.made_to_order for item in ITEMS if item.act == "weld")


# ------------------------------------------------------------------------------------ keys


def test_every_reading_has_its_keys_or_is_ticked_off_by_hand():
    assert set(KEYS) | set(BY_HAND) == set(READINGS)
    assert not set(KEYS) & set(BY_HAND)


def test_the_keys_are_keys_of_a_build_file():
    known = {entry.path for table in tables() for entry in table.entries}
    for keys in KEYS.values():
        assert set(keys) <= known


def test_a_reading_is_known_when_all_its_keys_are_stated():
    assert known_readings([]) == frozenset()
    assert known_readings(["fit.bump"]) == frozenset()
    assert known_readings(["fit.bump", "fit.droop"]) == {"bump and droop travel"}


def test_both_sides_apart_are_as_good_as_one_for_both():
    assert known_readings(["ends.hat"]) == {"hat thickness"}
    assert known_readings(["ends.left.hat"]) == frozenset()
    assert known_readings(["ends.left.hat", "ends.right.hat"]) == {"hat thickness"}


def test_what_was_read_with_the_wheels_hanging_does_not_count():
    every = [key for keys in KEYS.values() for key in keys]
    assert known_readings(every) == set(KEYS)
    assert known_readings(every, hanging=True) == set(KEYS) - AT_RIDE_HEIGHT
    assert {name for name in KEYS if "ride height" in name} <= AT_RIDE_HEIGHT
