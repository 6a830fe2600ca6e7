"""Kept marches: found again while nothing that they read has changed, taken by the load path."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.quantities.working import steps
from axlewright.studies.limits import limit_card
from axlewright.studies.load_path import load_path
from axlewright.workshop import bench, marching
from axlewright.workshop.fine_verdict import fine_verdict
from axlewright.workshop.marching import BOUNDS, HELD, MOST_KEPT, March, find, keep, key_of

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
import launch_study_builds as builds  # noqa: E402

COUNT = 400
PLACES = ("flywheel", "driveshaft", "ring", "shaft")
RATIO = {"dump": 0.9, "re-grip": 1.25, "shift": 1.4, "lift-off": 1.1}


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("AXLEWRIGHT_DATA", str(tmp_path / "data"))
    return tmp_path / "data" / "marches"


def ox(text=builds.MANUAL):
    return resolve(read_build(text, "ox.toml"))


def marched(ratios=RATIO, seed=1):
    spread = np.linspace(0.8, 1.2, COUNT)
    return March(
        seed,
        {case: dict.fromkeys(PLACES, r) for case, r in ratios.items()},
        {case: dict.fromkeys(PLACES, r * spread) for case, r in ratios.items()},
        {"sentence": "told"},
    )


# --- found again -------------------------------------------------------------------------------


def test_what_was_kept_is_found():
    made = marched()
    keep(ox(), made)
    found = find(ox(), 1)
    assert found.nominal == made.nominal
    assert found.report == made.report
    for case, by_place in made.sampled.items():
        for place, values in by_place.items():
            assert found.sampled[case][place] == pytest.approx(values, rel=1e-6)
            assert found.sampled[case][place].dtype == np.float64
    assert find(ox(), 2) is None


def test_nothing_kept_is_nothing_found(own_folder):
    assert find(ox(), 1) is None
    assert not own_folder.exists()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Plain Ox", "Another Ox"),
        ("[car]", "# weighed on a Tuesday\n[car]"),
        ("3500 lb", "3500.0 lb"),
        ('ring_gear = "8.8"', 'ring_gear = "8.8"\ncase_iron = "nodular"'),
        ('ring_gear = "8.8"', 'ring_gear = "8.8"\ntube_joint = "welded"'),
        ('surface = "street"', 'surface = "street"\nlaunches = "200"'),
    ],
)
def test_what_moves_no_number_of_the_launch_keeps_the_march(old, new):
    changed = builds.MANUAL.replace(old, new)
    assert changed != builds.MANUAL
    assert key_of(ox(changed), 1) == key_of(ox(), 1)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("3500 lb", "3510 lb"),
        ("3500 lb", "3500 ± 20 lb"),
        ("420 lbf", "421 lbf"),
        ("620 ± 60", "620 ± 50"),
        ("2.97", "2.98"),
        ("41/11", "39/11"),
        ('differential = "clutch"', 'differential = "spool"'),
        ("255/60R15", "275/60R15"),
        ('"performance street"', '"sticky street"'),
        ('launch = "dump"', 'launch = "slip"'),
        ('surface = "street"', 'surface = "strip"'),
        ('surface = "street"', 'surface = "street"\nburnouts = true'),
        ('surface = "street"', 'surface = "street"\nlaunch_speed = "3500 rpm"'),
        ("[use]", '[suspension]\nkind = "leaf"\n[use]'),
        ("[use]", '[suspension]\nmount_stiffness = "2 kN/mm"\n[use]'),
        ("[use]", '[driver]\nthrottle_time = "120 ms"\n[use]'),
        ("[use]", '[brakes]\nrear_share = "30 %"\n[use]'),
        ('ratio = "41/11"', 'ratio = "41/11"\nbacklash = "0.008 in"'),
        ('ratio = "41/11"', 'ratio = "41/11"\nleft_shaft_length = "28 in"'),
        ('grip_class = "performance street"', 'grip_class = "performance street"\ntread = "hot"'),
    ],
)
def test_what_moves_a_number_of_the_launch_asks_for_another_march(old, new):
    changed = builds.MANUAL.replace(old, new)
    assert changed != builds.MANUAL
    assert key_of(ox(changed), 1) != key_of(ox(), 1)


def test_another_seed_program_or_data_is_another_march(monkeypatch):
    one = key_of(ox(), 1)
    assert key_of(ox(), 2) != one
    monkeypatch.setattr(marching, "__version__", "9.9.9")
    assert key_of(ox(), 1) != one
    monkeypatch.undo()
    monkeypatch.setattr(marching, "data_hash", lambda: "other")
    assert key_of(ox(), 1) != one


def test_a_broken_file_is_none(own_folder):
    keep(ox(), marched())
    (path,) = own_folder.glob("*.npz")
    whole = path.read_bytes()
    for broken in (b"", b"no march", whole[: len(whole) // 2], whole[:-30], b"PK" + whole[200:]):
        path.write_bytes(broken)
        assert find(ox(), 1) is None
    np.savez(path, other=np.zeros(3))
    assert find(ox(), 1) is None
    np.savez(path, told=np.frombuffer(b'{"nominal": {"dump": {"ring": 1}}}', dtype=np.uint8))
    assert find(ox(), 1) is None
    path.write_bytes(whole)
    assert find(ox(), 1) is not None


def test_old_marches_make_room(own_folder):
    own_folder.mkdir(parents=True)
    for n in range(MOST_KEPT + 3):
        path = own_folder / f"{n:040d}.npz"
        path.write_bytes(b"old")
        os.utime(path, (1e9 + n, 1e9 + n))
    abandoned = own_folder / "left.part"
    abandoned.write_bytes(b"")
    os.utime(abandoned, (1e9, 1e9))
    keep(ox(), marched())
    kept = {p.name for p in own_folder.glob("*.npz")}
    assert len(kept) == MOST_KEPT
    assert f"{key_of(ox(), 1)}.npz" in kept
    assert f"{0:040d}.npz" not in kept
    assert not abandoned.exists()


def test_two_processes_may_keep_at_once(own_folder):
    code = (
        "import sys; sys.path[:0] = sys.argv[1:]\n"
        "import test_marching as t\n"
        "for _ in range(15): t.keep(t.ox(), t.marched())\n"
    )
    here = [TESTS, str(Path(__file__).parent)]
    running = [subprocess.Popen([sys.executable, "-c", code, *here]) for _ in range(2)]
    while any(p.poll() is None for p in running):
        found = find(ox(), 1)
        assert found is None or found.nominal == marched().nominal
    assert [p.returncode for p in running] == [0, 0]
    assert [p.suffix for p in own_folder.iterdir()] == [".npz"]


# --- in the load path --------------------------------------------------------------------------


def test_without_a_march_the_report_says_that_loads_are_bounds():
    report = bench.check(ox(), 1, 200)
    assert BOUNDS in report.cautions
    assert BOUNDS in bench.limits(ox(), 1).cautions
    assert HELD not in bench.limits(ox(), 1).cautions


def test_a_kept_march_takes_the_place_of_the_bound():
    bound = {c.case: c for c in load_path(ox(), 1, COUNT).report.cases}
    keep(ox(), marched())
    report = bench.check(ox(), 1, COUNT)
    found = {c.case: c for c in report.cases}
    assert BOUNDS not in report.cautions
    assert found["dump"].torques["ring"].value == pytest.approx(
        0.9 * bound["dump"].torques["ring"].value
    )
    steady = bound["steady"].torques["ring"].value
    assert found["lift-off"].torques["ring"].value == pytest.approx(1.1 * steady)
    assert "lift-off" not in bound
    assert found["shift"].gear == 2
    assert found["landing"].torques == bound["landing"].torques  # not marched: the bound stays
    said = [c for c in report.cautions if "marched in time brings" in c]
    assert len(said) == 1
    assert said[0].startswith("Re-grip")
    assert "1.2 times" in said[0] or "1.3 times" in said[0]


def test_the_band_of_a_marched_case_is_that_of_the_march():
    """With the car exact but for its clutch, the spread of the ratio is seen in the torque."""
    keep(ox(), marched())
    ring = {c.case: c for c in bench.check(ox(), 1, COUNT).cases}["shift"].torques["ring"]
    assert ring.low < 0.95 * ring.value
    assert ring.high > 1.05 * ring.value


def test_a_marched_number_opens_down_to_the_march():
    keep(ox(), marched())
    study = load_path(bench.as_marched(ox(), 1), 1, 100)
    assert study.untracked == ()
    node = study.nodes["demand.dump.ring"]
    assert node.formula.function.__name__ == "marched_torque"
    kinds = {child.kind for child in node.arguments.values()}
    assert kinds == {"choice", "simulation"}
    printed = steps(node)
    assert "docs/launch-model.md" in printed[0].source
    assert any("marched" in s.title for s in printed[1:])
    assert all(s.result for s in printed)
    assert set(bench.workings(ox(), 1)) >= {"demand.lift-off.shaft", "demand.shift.ring"}


def test_the_limit_card_says_that_it_holds_the_ratio():
    keep(ox(), marched())
    marched_card = bench.limits(ox(), 1)
    assert HELD in marched_card.cautions
    assert [line.dial for line in marched_card.lines] == [
        line.dial for line in limit_card(ox(), 1).lines
    ]


def test_more_samples_than_were_marched_are_drawn_from_what_was_found():
    keep(ox(), marched())

    class Slot:
        def __enter__(self):
            return self

        def __exit__(self, *_):
            return None

    found = fine_verdict(bench.as_marched(ox(), 1), 1, Slot(), lambda _: True, 1200, 400)
    assert found.samples == 1200
    assert np.isfinite([found.low, found.high]).all()


def test_a_march_of_another_seed_is_not_taken():
    keep(ox(), marched(seed=7))
    assert BOUNDS in bench.check(ox(), 1, 100).cautions


def test_a_foot_brake_launch_is_a_shock_once_it_is_marched():
    build = ox(builds.AUTOMATIC)
    ratios = {"foot-brake": 1.3, "re-grip": 1.0, "water": 1.0, "shift": 1.0, "lift-off": 1.0}
    keep(build, replace(marched(ratios)))
    study = load_path(bench.as_marched(build, 1), 1, 100)
    cases = {c.case: c for c in study.report.cases}
    steady = cases["steady"].torques["ring"].value
    assert cases["foot-brake"].torques["ring"].value == pytest.approx(1.3 * steady)
    assert cases["foot-brake"].governed_by == ""
    assert study.untracked == ()


# --- light -------------------------------------------------------------------------------------


@pytest.mark.parametrize("kept", [False, True])
def test_check_stays_light(tmp_path, kept):
    path = tmp_path / "ox.toml"
    path.write_text(builds.MANUAL, encoding="utf-8")
    if kept:
        keep(bench.open_build(path), marched())
    code = (
        "import sys, json; from axlewright.cli.main import app; from axlewright.cli import faults;"
        "faults.guarded(app, sys.argv[1:]);"
        "print(json.dumps(sorted(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "check", str(path), "--samples", "100"],
        capture_output=True, text=True, check=True, env=os.environ | {"PYTHONWARNINGS": "error"},
    )  # fmt: skip
    loaded = set(json.loads(done.stderr.splitlines()[-1]))
    assert ("have been" not in done.stdout) and ("has not been marched" in done.stdout) is not kept
    assert not loaded & {"numba", "scipy", "sqlite3", "pydantic"}
    assert not {m for m in loaded if m.startswith("axlewright.dynamics")}
    resolving = {"axlewright.build.resolve.launching", "axlewright.studies.launch_reads"}
    assert (resolving <= loaded) if kept else not resolving & loaded
