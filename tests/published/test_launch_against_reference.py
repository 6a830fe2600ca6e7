"""The launch march against the same equations written and solved another way.

Source of the expected numbers: ``tests/reference_launch.py``, an eighth-order Runge-Kutta method
(scipy's DOP853, relative tolerance 1e-8) on the equations of ``docs/launch-model.md``, dry friction
switched exactly.  ``scripts/prove_launch.py`` does the same for sixty builds.
"""

import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.dynamics.launch_history import launch_history

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
launch_builds = importlib.import_module("launch_builds")
launch_differences = importlib.import_module("launch_differences")
compiled = importlib.import_module("reference_launch_compiled")
equations = importlib.import_module("reference_launch_equations")
slips = importlib.import_module("reference_launch").slips

# One group: the march is compiled once, in one process.
pytestmark = [pytest.mark.published, pytest.mark.slow, pytest.mark.xdist_group("launch")]

SEED = 20
BUILDS = launch_builds.builds(12, SEED, duration=0.35)


@pytest.fixture(scope="module")
def differences():
    return [launch_differences.difference(b) for b in BUILDS]


def test_the_builds_span_what_a_launch_can_be():
    assert {b.case for b in BUILDS} == set(launch_builds.CASES)
    assert {b.transmission for b in BUILDS} == {"manual", "automatic"}
    assert {b.differential for b in BUILDS} == set(launch_builds.DIFFERENTIALS)


@pytest.mark.parametrize("name", launch_differences.TORQUES)
def test_peaks_agree(differences, name):
    off = np.abs([d.off[name] for d in differences])
    assert np.median(off) < launch_differences.MEDIAN_LIMIT
    assert off.max() < launch_differences.WORST_LIMIT


@pytest.mark.parametrize("name", launch_differences.TORQUES)
def test_swings_the_other_way_agree(differences, name):
    assert max(abs(d.other_off[name]) for d in differences) < 0.01


def test_road_speeds_agree(differences):
    assert max(abs(d.speed_off) for d in differences) < 2e-3


def test_builds_are_violent_enough_to_prove_something(differences):
    assert min(d.peak["axle"] for d in differences) > 1000.0
    assert sum(d.switches for d in differences) > 40


def test_a_finer_march_comes_closer_in_proportion():
    """First order: a quarter of the step leaves about a quarter of the difference."""
    build = launch_builds.Build(
        "clutch dump",
        "manual",
        "limited slip",
        launch_builds.plain_car(),
        launch_builds.plain_events(duration=0.2),
    )
    coarse = launch_differences.difference(build, step=2e-4).off
    fine = launch_differences.difference(build, step=5e-5).off
    for name in ("axle", "driveshaft", "left_shaft"):
        assert 2.5 < coarse[name] / fine[name] < 6.5


@pytest.mark.parametrize("case", ["landing", "lift-off and coast"])
def test_both_start_alike(case):
    build = next(b for b in launch_builds.builds(10, SEED) if b.case == case)
    march = launch_history(build.car, build.events)
    begin = equations.start(build.car, build.events)
    assert [march[name][0] for name in equations.STATES] == pytest.approx(begin, rel=1e-8, abs=1e-9)


def test_a_start_under_way_is_steady():
    """Wound up by the axle torque, body, axle and housing stand still against one another."""
    build = next(b for b in launch_builds.builds(10, SEED) if b.case == "lift-off and coast")
    assert build.events.axle_torque > 500.0
    begin = equations.start(build.car, build.events).tolist()
    modes = equations.Modes(0, 1, 1, 1, 0)
    rates, acting = equations.moment(0.0, begin, build.car, build.events, modes)
    for name in ("heave_rate", "pitch_rate", "axle_rate", "roll_rate", "windup_rate"):
        assert rates[equations.INDEX[name]] == pytest.approx(0.0, abs=1e-8)
    assert acting.axle == pytest.approx(build.events.axle_torque, rel=1e-12)


# Sizes of the states, so that random ones reach every branch.
SIZES = np.array(
    [
        *(200.0, 200.0, 200.0, 0.1, 50.0, 0.1, 0.1, 0.1, 5.0, 10.0, 10.0, 0.05, 0.05, 5.0),
        *(5.0, 0.01, 0.05, 0.5, 0.05, 0.5, 0.01, 0.5, 0.05, 0.5, 0.1, 2.0, 1.0),
    ]
)


@pytest.mark.parametrize("case", ["trans-brake release", "foot-brake release", "clutch slip"])
def test_compiled_reference_is_the_same_car(case):
    """What the march is timed against answers as the reference does, friction slipping."""
    build = next(b for b in launch_builds.builds(30, 3) if b.case == case and not b.car.locked)
    rates = compiled.compiled_rhs(build.car, build.events, width=1e-9)
    rng = np.random.default_rng(5)
    for _ in range(50):
        t, y = float(rng.uniform(0.0, 0.4)), rng.normal(size=27) * SIZES
        if build.car.converter is None:
            y[0] = y[1]
        modes = equations.Modes(*(1 if s > 0.0 else -1 for s in slips(y)))
        exact = equations.right_hand_side(t, y, build.car, build.events, modes)
        np.testing.assert_allclose(rates(t, y), exact, rtol=1e-10, atol=1e-7)
