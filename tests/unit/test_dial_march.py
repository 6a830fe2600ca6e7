"""The launch marched along the dials of the limit card."""

import sys
from pathlib import Path
from types import SimpleNamespace
from unittest.mock import patch

import numpy as np
import pytest

from axlewright.build.machine import Machine
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.quantities.estimate import Plain
from axlewright.studies import launch_dials
from axlewright.studies.demand import demand
from axlewright.studies.dial_march import DialMarch, turned_march
from axlewright.studies.dials import dials
from axlewright.studies.launch import fill, launch_study
from axlewright.workshop.marching import March, find, keep
from axlewright.workshop.messages import plain

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
import launch_study_builds as builds  # noqa: E402

pytestmark = pytest.mark.xdist_group("launch")


@pytest.fixture(scope="module")
def build():
    return resolve(read_build(builds.MANUAL, "ox.toml"))


@pytest.fixture(scope="module")
def along(build):
    """Few settings and samples, to be quick."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(launch_dials, "SETTINGS", 5)
        patch.setattr(launch_dials, "SAMPLES", 16)
        return launch_dials.dial_marches(build, 1)


def test_ratios_run_straight_between_settings_and_hold_beyond():
    found = DialMarch(
        "dump",
        np.array([0.0, 1.0, 2.0]),
        {"ring": np.array([1.0, 0.5, 0.7])},
        {"ring": np.array([[1.0, 2.0], [0.5, 1.0], [0.7, 1.4]])},
    )

    marked = SimpleNamespace(marched={"dump": {"ring": 0.9}, "shift": {"ring": 1.1}})

    def turned(grid):
        with patch("axlewright.studies.dial_march.replace", lambda _, **new: new["marched"]):
            return turned_march(marked, found, grid)

    at = np.array([-1.0, 0.0, 0.5, 1.5, 9.0])
    assert turned(at)["dump"]["ring"] == pytest.approx([1.0, 1.0, 0.75, 0.6, 0.7])
    many = turned(at[:, None])["dump"]["ring"]
    assert many.shape == (5, 2)
    assert many[:, 1] == pytest.approx(2.0 * many[:, 0])
    assert turned(at)["shift"] == {"ring": 1.1}


def test_a_build_that_was_not_marched_is_left_alone(build, along):
    m: Machine[float] = Plain().tree(build.machine)
    assert turned_march(m, along["tire grip"], np.array([0.8, 1.2])) is m
    assert turned_march(m, None, np.array([0.8, 1.2])) is m


def test_every_dial_of_a_build_is_marched(build, along):
    m = fill(build, Plain()).machine
    assert set(along) == {d.name for d in dials(m)}
    for name, found in along.items():
        assert found.case == "dump", name
        for place, values in found.sampled.items():
            assert values.shape == (5, 16), (name, place)
            assert np.all(values > 0.0)


def test_the_march_along_a_dial_is_that_of_the_build_so_turned(build, along):
    """A build file with the dial at the setting gives the same ratio."""
    found = along["clutch bite"]
    setting = float(found.settings[3])
    text = builds.MANUAL.replace("[clutch]", f'[clutch]\nbite = "{1000 * setting:.3f} ms"')
    assert text != builds.MANUAL
    said = resolve(read_build(text, "ox.toml"))
    study = launch_study(said, 1, 100)
    assert found.nominal["ring"][3] == pytest.approx(study.nominal_ratios["dump"]["ring"], rel=1e-3)


def test_more_launch_speed_never_brings_less(build, along):
    """Rising launch speed does not lower the marched peak by more than the ripple of the swing."""
    m = fill(build, Plain()).machine
    found = along["launch speed"]
    dial = next(d for d in dials(m) if d.name == "launch speed")
    peaks = []
    for setting, ratio in zip(found.settings, found.nominal["ring"], strict=True):
        cases = {c.case: c for c in demand(dial.turned(m, float(setting))).cases}
        peaks.append(float(cases["dump"].torques["ring"]) * ratio)
    assert np.all(np.diff(peaks) > -0.1 * max(peaks))
    assert peaks[-1] > peaks[0]


def test_told_to_stop_it_stops(build):
    assert launch_dials.dial_marches(build, 1, lambda _: False) == {}


def test_dials_are_kept_with_the_march(build, along, tmp_path):
    study = launch_study(build, 1, 100)
    made = March(1, study.nominal_ratios, study.ratios, plain(study.report), along)
    keep(build, made, tmp_path)
    found = find(build, 1, tmp_path)
    assert found is not None
    assert set(found.dials) == set(along)
    for name, d in along.items():
        assert found.dials[name].case == d.case
        assert found.dials[name].settings == pytest.approx(d.settings)
        for place in d.nominal:
            assert found.dials[name].nominal[place] == pytest.approx(d.nominal[place])
            assert found.dials[name].sampled[place] == pytest.approx(d.sampled[place], rel=1e-6)
