"""``axlewright angles``: exit codes, JSON, and working of a number."""

import json
from pathlib import Path

import pytest

from axlewright.cli import faults
from axlewright.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
BUILD = str(ROOT / "examples" / "copper-wren-fit.toml")
BARE = str(ROOT / "examples" / "copper-wren-tired.toml")


@pytest.fixture
def call(capfd):
    def run(*arguments):
        capfd.readouterr()
        code = faults.guarded(app, [str(a) for a in arguments])
        out, err = capfd.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return run


def test_angles_says_what_to_set(call):
    code, out, err = call("angles", BUILD)
    assert (code, err) == (0, "")
    assert "Turn the pinion's nose up by" in out
    for said in ("gauge on the pinion", "left over", "Whirl speed", "Anti-squat", "left lower link",
                 "Least room over the travel", "Which tube would do"):  # fmt: skip
        assert said in out, said


def test_angles_says_what_to_measure_first(call):
    code, out, err = call("angles", BARE)
    assert (code, err) == (0, "")
    assert "Measure the gearbox's slope" in out
    assert "angles.gearbox, which the answer waits for" in out
    assert "of its class, points not measured" in out


def test_angles_as_json(call):
    code, out, err = call("angles", BUILD, "--seed", 3, "--samples", 60, "--json")
    assert (code, err) == (0, "")
    answer = json.loads(out)
    assert answer["schema"] == "axlewright.angles/1"
    report = answer["result"]
    assert report["verdict"] == "turn"
    assert report["made"]["seed"] == 3
    gauge = report["findings"]["gauge"]
    assert gauge["low"] < gauge["value"] < gauge["high"]
    assert gauge["unit"] == "rad"


def test_angles_in_metric_units(call):
    code, out, _ = call("angles", BUILD, "--si")
    assert code == 0
    assert "1,219 mm" in out


def test_working_of_an_angle(call):
    code, out, err = call("angles", BUILD, "--working", "gauge")
    assert (code, err) == (0, "")
    assert "s_f" in out
    code, out, _ = call("angles", BUILD, "--working", "gauge", "--json")
    assert code == 0
    assert json.loads(out)["result"][0]["depth"] == 0
    code, out, err = call("angles", BUILD, "--working", "nothing")
    assert (code, out) == (2, "")
    assert "nothing" in err


def test_a_missing_build_is_refused(call, tmp_path):
    code, _, err = call("angles", tmp_path / "none.toml")
    assert code == 2
    assert "no such file" in err
