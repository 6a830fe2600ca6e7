"""The commands launch and coupling from end to end."""

import csv
import json
import sys
from pathlib import Path

import jsonschema
import pytest

from axlewright.cli import faults
from axlewright.cli.main import app

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
import launch_study_builds as builds  # noqa: E402

SCHEMAS = Path(__file__).resolve().parents[2] / "docs" / "json"


def by_schema(kind, out):
    """The result of an answer that keeps to its schema."""
    answer = json.loads(out)
    page = json.loads((SCHEMAS / f"{kind}.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(page).validate(answer)
    return answer["result"]


@pytest.fixture
def ox(tmp_path, monkeypatch):
    monkeypatch.setenv("AXLEWRIGHT_DATA", str(tmp_path / "data"))
    path = tmp_path / "ox.toml"
    path.write_text(builds.MANUAL, encoding="utf-8")
    return path


@pytest.fixture
def call(capsys):
    def called(*args):
        code = faults.guarded(app, [str(a) for a in args])
        said = capsys.readouterr()
        return code, said.out, said.err

    return called


def test_launch_prints_peaks_deciders_hop_and_cautions(call, ox):
    code, out, _ = call("launch", ox, "--samples", 100)
    assert code == 0
    for words in (
        "Hardest on the axle is", "Peak torque in time, lb·ft", "Clutch dump", "Re-grip",
        "Hard shift to second", "Lift off and back on", "closed form, ring", "Wheel hop is",
        "has not been compared with a measured launch", "left out, no burnouts are stated",
    ):  # fmt: skip
        assert words in " ".join(out.split()), words
    assert "N·m" in call("launch", ox, "--samples", 100, "--si")[1]


def test_launch_as_json_has_every_finding_with_its_unit(call, ox):
    code, out, err = call("launch", ox, "--samples", 100, "--json")
    assert (code, err) == (0, "")
    told = by_schema("launch", out)
    assert [c["case"] for c in told["cases"]] == ["dump", "re-grip", "shift", "lift-off"]
    ring = told["cases"][0]["peaks"]["ring"]
    assert ring["id"] == "launch.dump.ring"
    assert ring["low"] <= ring["value"] * 1.5
    assert ring["unit"]
    assert told["made"]["samples"] == 100


def test_few_samples_are_not_kept(call, ox, tmp_path):
    call("launch", ox, "--samples", 100)
    assert not list((tmp_path / "data").rglob("*.npz"))
    out = " ".join(call("check", ox, "--samples", 100)[1].split())
    assert "has not been marched in time yet" in out


def test_check_takes_a_march_that_was_kept(call, ox, tmp_path, monkeypatch):
    from axlewright.workshop import launches

    before = call("check", ox, "--samples", 100)[1]
    launches.launch(launches_build(ox), 1, 100, fewest=100)
    (kept,) = (tmp_path / "data").rglob("*.npz")
    after = call("check", ox, "--samples", 100)[1]
    assert "Lift off and back on" in after
    assert "Lift off and back on" not in before
    assert "has not been marched in time yet" not in " ".join(after.split())
    kept.unlink()
    assert call("check", ox, "--samples", 100)[1] == before


def launches_build(path):
    from axlewright.workshop import bench

    return bench.open_build(path)


def test_a_kept_report_is_the_report(ox):
    from axlewright.workshop import launches

    build = launches_build(ox)
    assert launches.known_launch(build) is None
    made = launches.launch(build, 1, 100, fewest=100)
    known = launches.known_launch(build)
    assert known.sentence == made.sentence
    assert repr(known.cases) == repr(made.cases)
    assert known.left_out == made.left_out
    assert [s.path for s in known.sweeps] == [s.path for s in made.sweeps]


def test_a_trace_is_a_table_over_time(call, ox, tmp_path):
    path = tmp_path / "shift.csv"
    code, out, _ = call("launch", ox, "--trace", "shift", "-o", path)
    assert code == 0
    assert str(path) in out
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    told = by_schema(
        "launch-trace", call("launch", ox, "--trace", "shift", "-o", path, "--json")[1]
    )
    assert told == {"path": str(path)}
    names = rows[0]
    assert names[0].startswith("time")
    assert any(n.startswith("axle") for n in names)
    times = [float(r[0]) for r in rows[1:]]
    assert len(times) > 200
    assert times == sorted(times)
    assert all(len(r) == len(names) for r in rows)


def test_a_trace_of_no_such_case_is_refused_in_words(call, ox):
    code, _, err = call("launch", ox, "--trace", "water")
    assert code == 2
    assert "has no case 'water'" in err
    assert "dump, re-grip, shift, lift-off" in err


def test_coupling_prints_and_tells_as_json(call, ox):
    code, out, _ = call("coupling", ox)
    assert code == 0
    assert "The clutch holds" in out
    assert "What gives first at full throttle" in out
    told = by_schema("coupling", call("coupling", ox, "--json")[1])
    assert told["kind"] == "clutch"
    assert told["gears"][0]["first"] == "tires"
