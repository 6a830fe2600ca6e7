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

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
launch_builds = importlib.import_module("launch_builds")
launch_differences = importlib.import_module("launch_differences")
reference = importlib.import_module("reference_launch")

pytestmark = [pytest.mark.published, pytest.mark.slow]

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
