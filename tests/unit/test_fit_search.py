"""The search for wheels and widths against trying each combination on its own."""

import itertools
import runpy
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.fit import tire_section, wheel
from axlewright.fit.axle_places import Stops, solved_places, straight_places
from axlewright.fit.clearance import Obstacle, WheelEnd, chance_of_all, clearances
from axlewright.fit.envelope import Tire
from axlewright.fit.wheel_choice import Halves, Size, Slips
from axlewright.fit.wheel_search import GRAIN, search

KINDS = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
INCH = 0.0254
LIP = 0.5 * INCH
PLACES = straight_places(Stops(3 * INCH, 3.5 * INCH, 0.375 * INCH), 13 * INCH, 60 * INCH)


def size(name, section, rim, bulge=0.0):
    return Size(
        name, section, rim * INCH, (rim - 0.5) * INCH, (rim + 1.5) * INCH, 13.2 * INCH,
        0.85 * section, 8.2 * INCH, bulge,
    )  # fmt: skip


SIZES = [size("narrow", 0.245, 7.5), size("middle", 0.275, 8.0), size("wide", 0.305, 9.5)]
RIMS = [w * INCH for w in (7.5, 8.5, 9.5, 10.5)]
BACKS = [b * INCH for b in (4.5, 5.0, 5.5, 6.0)]
HALVES = [
    Halves("as it is", 29.0 * INCH, 29.0 * INCH),
    Halves("longer right", 29.0 * INCH, 29.4 * INCH, 1.0),
    Halves("new", 29.6 * INCH, 29.6 * INCH, 1.0),
]


def obstacles(lip=36.4):
    found = []
    for side, more in (("left", 0.0), ("right", -0.1)):
        found += [
            Obstacle(f"{side} lip", side, "outer", (lip + more) * INCH, 25 * INCH, 0.0,
                     10 * INCH, 0.75 * INCH),
            Obstacle(f"{side} rail", side, "inner", (22.2 + more) * INCH, 17 * INCH, 0.0, 0.0,
                     0.75 * INCH),
            Obstacle(f"{side} spring", side, "inner", 21.6 * INCH, 10 * INCH, -4 * INCH, 6 * INCH,
                     0.5 * INCH),
        ]  # fmt: skip
    return found


def one_by_one(sizes, places, things):
    """Least spare distance in space of every allowed combination, each as one sample."""
    tries = [
        (s, w, b, h)
        for s, w, b, h in itertools.product(sizes, RIMS, BACKS, HALVES)
        if s.narrowest_rim <= w <= s.widest_rim
    ]
    section = np.array(
        [tire_section.section_on_rim(s.section, w, s.measuring_rim) for s, w, _, _ in tries]
    )
    rims = np.array([w for _, w, _, _ in tries])
    backs = np.array([b for _, _, b, _ in tries])
    tire = Tire(
        section,
        wheel.rim_over_lips(rims, LIP),
        wheel.offset_from_backspace(backs, rims, LIP),
        np.array([s.radius for s, _, _, _ in tries]),
        np.array([s.tread for s, _, _, _ in tries]),
        np.array([s.lip_radius for s, _, _, _ in tries]),
    )
    bulge = np.array([s.bulge for s, _, _, _ in tries])
    standing = replace(tire, section=section + 2 * bulge)
    ends = {
        side: WheelEnd(np.array([getattr(h, side) for _, _, _, h in tries]), tire, standing)
        for side in ("left", "right")
    }
    spare = np.array([c.spare for c in clearances(ends, things, places)])
    return tries, spare.min(axis=0)


@pytest.mark.parametrize("places", ["straight", "links"])
@pytest.mark.parametrize("bulge", [0.0, 0.012])
def test_search_finds_what_trying_one_by_one_finds(places, bulge):
    where = PLACES if places == "straight" else solved_places(
        KINDS["held"]()["three-link"], Stops(0.07, 0.08, 0.008)
    )  # fmt: skip
    sizes = [replace(s, bulge=bulge) for s in SIZES]
    found = search(sizes, RIMS, BACKS, HALVES, LIP, obstacles(), where)
    tries, spare = one_by_one(sizes, where, obstacles())
    assert found.tried == len(tries)
    assert found.tried + found.off_range == 3 * 4 * 4 * 3
    # Edges are walked along in steps; within a fifth of a millimeter either answer will do.
    assert np.sum(spare >= 0.2e-3) <= found.fitting <= np.sum(spare >= -0.2e-3)
    assert 0 < found.fitting < found.tried
    told = {(s.name, w, b, h.name): float(x) for (s, w, b, h), x in zip(tries, spare, strict=True)}
    for choice in found.choices:
        exact = told[choice.size.name, choice.rim_width, choice.backspace, choice.halves.name]
        assert exact >= -0.2e-3
        # Nearest in space is never further than sideways.
        assert exact <= choice.spare + 0.2e-3


def test_no_choice_is_beaten_and_none_that_is_not_is_left_out():
    found = search(SIZES, RIMS, BACKS, HALVES, LIP, obstacles(), PLACES)

    def marks(c):
        off = abs(c.rim_width - c.size.measuring_rim)
        return np.array([c.size.section, np.floor(c.spare / GRAIN), -c.halves.cost, -off])

    all_marks = [marks(c) for c in found.choices]
    for one, other in itertools.permutations(all_marks, 2):
        assert not np.all(one >= other)
    # Each that fits, tried on its own, is beaten by some choice or is one.
    for s, w, b, h in itertools.product(SIZES, RIMS, BACKS, HALVES):
        alone = search([s], [w], [b], [h], LIP, obstacles(), PLACES)
        for choice in alone.choices:
            assert any(np.all(m >= marks(choice)) for m in all_marks)


def test_reasons_name_the_widest_and_the_roomiest():
    found = search(SIZES, RIMS, BACKS, HALVES, LIP, obstacles(), PLACES)
    first = found.choices[0]
    assert first.size.section == max(c.size.section for c in found.choices)
    assert "the widest tire that clears" in first.reason
    roomiest = max(found.choices, key=lambda c: c.spare)
    assert "the most room to spare" in roomiest.reason
    assert all(c.reason for c in found.choices)
    assert all(c.lacks == () for c in found.choices)
    assert any("least cost" in c.reason for c in found.choices if c.halves.cost == 0.0)


def test_when_nothing_fits_it_says_what_is_short_and_by_how_much():
    tight = obstacles(lip=32.0)
    found = search(SIZES, RIMS, BACKS, HALVES, LIP, tight, PLACES)
    assert found.choices == ()
    assert found.fitting == 0
    assert len(found.misses) == 5
    spares = [m.spare for m in found.misses]
    assert spares == sorted(spares, reverse=True)
    nearest = found.misses[0]
    assert nearest.lacks
    name, amount = nearest.lacks[0]
    assert amount == pytest.approx(-nearest.spare)
    assert name == nearest.tightest
    # Moved sideways by just that much, this one obstacle keeps its clearance.
    thing = next(o for o in tight if o.name == name)
    by = amount if thing.facing == "inner" else -amount
    moved = replace(nearest.halves, left=nearest.halves.left + by, right=nearest.halves.right + by)
    again = search(
        [nearest.size], [nearest.rim_width], [nearest.backspace], [moved], LIP, [thing], PLACES
    )
    shown = (again.choices + again.misses)[0]
    assert shown.spare == pytest.approx(0.0, abs=1e-12)


def test_chances_against_samples_in_space():
    rng = np.random.default_rng(4)
    things = obstacles()
    count = 200
    out = rng.normal(0.0, 0.003, (len(things), count))
    half = {side: rng.normal(0.0, 0.001, count) for side in ("left", "right")}
    section = rng.normal(0.0, 0.003, count)
    slips = Slips(out, half, section)
    found = search(SIZES, RIMS, BACKS, HALVES, LIP, things, PLACES, slips)
    for choice in found.choices[:3]:
        tire = Tire(
            choice.section + section, choice.rim_width + 2 * LIP, choice.offset,
            choice.size.radius, choice.size.tread, choice.size.lip_radius,
        )  # fmt: skip
        ends = {
            side: WheelEnd(getattr(choice.halves, side) + half[side], tire)
            for side in ("left", "right")
        }
        moved = [replace(o, out=o.out + out[n]) for n, o in enumerate(things)]
        exact = chance_of_all(clearances(ends, moved, PLACES))
        assert choice.chance == pytest.approx(exact, abs=0.04)
        low, high = choice.band
        assert low < choice.spare < high


def test_rims_that_the_tire_may_not_go_on_are_left_out_and_counted():
    found = search(SIZES, [5.0 * INCH], BACKS, HALVES, LIP, obstacles(), PLACES)
    assert (found.choices, found.misses, found.tried) == ((), (), 0)
    assert found.off_range == len(SIZES) * len(BACKS) * len(HALVES)


def test_without_obstacles_there_is_no_search():
    with pytest.raises(ValueError, match="at least one obstacle"):
        search(SIZES, RIMS, BACKS, HALVES, LIP, [], PLACES)


def test_samples_in_an_obstacle_are_refused():
    thing = Obstacle("rail", "left", "inner", np.array([0.55, 0.56]), 0.4)
    with pytest.raises(ValueError, match="single numbers"):
        search(SIZES, RIMS, BACKS, HALVES, LIP, [thing], PLACES)


def test_ten_thousand_combinations_are_tried_in_a_second():
    sizes = [size(f"{w}", w / 1000, 7.5) for w in range(225, 325, 10)]
    rims = [w * INCH for w in (7.0, 7.5, 8.0, 8.5, 9.0)]
    backs = [b * INCH for b in np.arange(4.0, 6.5, 0.25)]
    halves = [Halves(f"{w}", w * INCH, w * INCH) for w in np.arange(28.0, 30.5, 0.125)]
    start = time.process_time()
    found = search(sizes, rims, backs, halves, LIP, obstacles(), PLACES)
    took = time.process_time() - start
    assert found.tried == 10_000
    assert took < 1.0
