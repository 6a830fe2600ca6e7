"""Wheel hop: what is said of it, and what more damping does to it."""

import runpy
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.dynamics.hop import (
    AXLE_SHARE,
    BAND,
    KINDS,
    NO_KIND,
    hop_influence,
    hop_modes,
    hop_verdict,
)
from axlewright.dynamics.hop_matrix import State

CARS = runpy.run_path(str(Path(__file__).with_name("hop_cars.py")))
CAR, HARD, SLIPS, unknown_cars = (CARS[k] for k in ("CAR", "HARD", "SLIPS", "unknown_cars"))


def test_modes_come_by_frequency_and_their_shares_add_up():
    modes = hop_modes(unknown_cars(40), 0.25, 5.0)
    found = np.isfinite(modes.frequency)
    assert modes.frequency.shape == (40, 8)
    assert modes.participation.shape == (40, 8, len(KINDS))
    np.testing.assert_allclose(modes.participation.sum(axis=-1)[found], 1.0)
    for one in modes.frequency:
        assert np.all(np.diff(one[np.isfinite(one)]) >= 0)
    np.testing.assert_array_equal(modes.growth[found] > 0, modes.damping_ratio[found] < 0)
    assert set(np.sum(found, axis=1)) <= {6, 7, 8}
    assert not modes.hop[~found].any()


def test_every_state_is_of_one_kind():
    members = [s for states in KINDS.values() for s in states]
    assert sorted(members) == sorted(State._fields)


def test_names_of_well_known_modes():
    modes = hop_modes(CAR, 0.3, 5.0)
    kinds = np.array(list(KINDS))[np.argmax(modes.participation, axis=-1)]
    found = np.isfinite(modes.frequency)
    hertz = np.round(modes.frequency[found]).astype(int).tolist()
    told = dict(zip(hertz, kinds[found].tolist(), strict=True))
    assert told == {1: "body", 6: "wind-up", 11: "vertical", 21: "fore-aft",
                    23: "wheels", 214: "driveline"} | told  # fmt: skip
    assert modes.hop.sum() == 4
    assert modes.runaway > 0  # past the peak the wheels spin up unless the driver lifts


def test_samples_give_what_single_cars_give():
    cars = unknown_cars(6)
    verdict = hop_verdict(cars, SLIPS[::4], 5.0)
    modes = hop_modes(cars, 0.3, 5.0)
    for n in range(6):
        one = {k: v[n] for k, v in vars(cars).items() if isinstance(v, np.ndarray)}
        alone = hop_verdict(replace(cars, **one), SLIPS[::4], 5.0)
        assert alone.worst_growth[0] == pytest.approx(verdict.worst_growth[n], rel=1e-6)
        assert alone.kind[0] == verdict.kind[n]
        assert alone.worst_slip[0] == verdict.worst_slip[n]
        single = hop_modes(replace(cars, **one), 0.3, 5.0)
        np.testing.assert_allclose(single.frequency, modes.frequency[n], rtol=1e-6)


def test_verdict_is_the_worst_of_the_modes():
    cars, slips = unknown_cars(30), [0.1, 0.2, 0.4]
    verdict = hop_verdict(cars, slips, 5.0)
    modes = [hop_modes(cars, s, 5.0) for s in slips]
    inside = [(m.frequency >= BAND[0]) & (m.frequency <= BAND[1]) for m in modes]
    growths = [np.where(i, m.growth, -np.inf).max(axis=1) for i, m in zip(inside, modes, strict=1)]
    np.testing.assert_allclose(verdict.worst_growth, np.max(growths, axis=0), rtol=1e-6)
    assert verdict.share_growing == np.mean(verdict.worst_growth > 0)


def test_without_a_mode_in_the_band_nothing_is_said():
    soft = replace(
        CAR, axle_mass=1590.0, mount_stiffness=1e3, windup_stiffness=1.0, left_shaft_stiffness=1.0,
        right_shaft_stiffness=1.0, rear_stiffness=1e3, tire_vertical_stiffness=1e3,
        front_stiffness=1e3, driveshaft_stiffness=1e-3, reaction_arm=0.0, cg_height=0.345,
        tire_rise=0.01,
    )  # fmt: skip
    verdict = hop_verdict(soft, [0.0], 5.0)
    assert verdict.worst_growth[0] == -np.inf
    assert np.isnan(verdict.frequency[0])
    assert verdict.kind[0] == NO_KIND
    assert verdict.share_growing == 0.0
    assert np.isnan(verdict.frequency_band[0])


def test_what_grows_in_the_band_is_the_axle():
    cars = unknown_cars(100)
    for slip in (0.15, 0.25, 0.4):
        modes = hop_modes(cars, slip, 5.0)
        inside = (modes.frequency >= BAND[0]) & (modes.frequency <= BAND[1])
        growing = inside & (modes.growth > 0)
        assert growing.any()
        assert modes.participation[..., :3].sum(axis=-1)[growing].min() > AXLE_SHARE


def test_the_hard_case_hops_and_the_example_does_not():
    hard, calm = hop_verdict(HARD, SLIPS, 5.0), hop_verdict(CAR, SLIPS, 5.0)
    assert hard.share_growing == 1.0
    assert calm.share_growing == 0.0
    assert hard.kind[0] == "wind-up"
    assert 0.12 < hard.worst_slip[0] < 0.4  # where grip falls


def test_influence_finds_what_was_made_to_decide():
    cars = replace(HARD, windup_damping=np.geomspace(5.0, 300.0, 60),
                   pitch_inertia=np.tile([2300.0, 2400.0], 30))  # fmt: skip
    first, second = hop_influence(cars, hop_verdict(cars, SLIPS[::3], 5.0))
    assert first.name == "windup_damping"
    assert first.rank_correlation < -0.99
    assert first.shift < -1.0
    assert second.name == "pitch_inertia"
    assert abs(second.rank_correlation) < 0.2


# ------------------------------------------------------------------------------- more damping

STEPS = ("windup_damping", "mount_damping", "shaft_damping_time")


@pytest.fixture(scope="module")
def plain():
    cars = unknown_cars(120, seed=7)
    return cars, hop_verdict(cars, SLIPS[4:18:2], 6.0)


def more(plain, name, factor):
    cars, _ = plain
    return hop_verdict(replace(cars, **{name: getattr(cars, name) * factor}), SLIPS[4:18:2], 6.0)


@pytest.mark.parametrize("name", [*STEPS, "rear_damping", "tire_vertical_damping"])
def test_more_damping_starts_no_hop(plain, name):
    before, after = plain[1], more(plain, name, 1.3)
    started = (before.worst_growth <= 0) & (after.worst_growth > 0)
    assert not started[np.abs(before.worst_growth) > 0.1].any()
    assert after.share_growing <= before.share_growing + 0.01


@pytest.mark.parametrize("name", STEPS)
def test_more_damping_of_mounts_and_shafts_slows_what_grows(plain, name):
    before, after = plain[1], more(plain, name, 1.3)
    # A mode that crosses the edge of the band begins to count or no longer does.
    kept = (before.worst_growth > 0) & (before.frequency > 1.05 * BAND[0])
    assert kept.sum() > 20
    rise = (after.worst_growth - before.worst_growth)[kept]
    assert np.max(rise) < 0.2
    assert np.mean(rise) < 0.0
    assert np.mean(rise < 1e-3) > 0.9


@pytest.mark.parametrize("name", STEPS[:2])
def test_much_damping_stops_more_than_it_starts(plain, name):
    assert more(plain, name, 4.0).share_growing <= plain[1].share_growing
    assert more(plain, name, 0.25).share_growing >= plain[1].share_growing


def test_damping_of_the_tire_upright_may_feed_a_hop():
    # Said in docs/hop.md: thrust follows load, so what damps the load also shakes the thrust.
    stiff = replace(HARD, tire_vertical_damping=np.array([200.0, 800.0, 2000.0]))
    grows = hop_verdict(stiff, SLIPS, 5.0).worst_growth
    assert np.all(np.diff(grows) > 0)
    assert grows[-1] - grows[0] < 0.1 * grows[0]
