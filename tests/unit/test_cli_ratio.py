"""``axlewright ratio`` and ``run``: exit codes, JSON by its schema, bad input in words."""

import json
from pathlib import Path

import jsonschema
import pytest

from axlewright.cli import faults
from axlewright.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
BUILD = str(ROOT / "examples" / "copper-wren-tired.toml")
FEW = ("--ratios", "41/11,40/10", "--samples", "50")


@pytest.fixture
def call(capfd):
    def run(*arguments):
        capfd.readouterr()
        code = faults.guarded(app, [str(a) for a in arguments])
        out, err = capfd.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return run


def by_schema(kind, text):
    page = json.loads((ROOT / "docs" / "json" / f"{kind}.json").read_text(encoding="utf-8"))
    answer = json.loads(text)
    jsonschema.validate(answer, page, cls=jsonschema.Draft202012Validator)
    return answer["error" if kind == "error" else "result"]


def test_ratio_says_what_to_take_and_what_beats_what(call):
    code, out, err = call("ratio", BUILD, *FEW, "--tires", "28x10.5-15 drag radial")
    assert (code, err) == (0, "")
    assert "over the quarter mile" in out
    assert "On 28x10.5-15 drag radial" in out
    assert "40/10" in out
    assert "non-hunting" in out
    assert "gear mesh" in out
    assert "fitted" in out


def test_ratio_as_json(call):
    code, out, err = call("ratio", BUILD, *FEW, "--seed", 3, "--json")
    assert (code, err) == (0, "")
    report = by_schema("ratio", out)
    assert [o["teeth"] for o in report["options"]] == ["41/11", "40/10"]
    assert report["made"]["seed"] == 3
    quarter = report["options"][0]["findings"]["time_quarter_mile"]
    assert quarter["low"] < quarter["value"] < quarter["high"]
    assert quarter["unit"] == "s"
    assert sum(o["chosen"] for o in report["options"]) == 1


def test_ratio_in_metric_units(call):
    code, out, _ = call("ratio", BUILD, *FEW, "--si")
    assert code == 0
    assert "km/h" in out


def test_working_of_a_number_of_the_ratio_study(call):
    code, out, err = call("ratio", BUILD, "--working", "mesh_70mph@40/10@275/60R15")
    assert (code, err) == (0, "")
    assert "ω_m" in out
    code, out, _ = call("ratio", BUILD, "--working", "mesh_70mph@40/10@275/60R15", "--json")
    assert code == 0
    assert json.loads(out)["result"][0]["depth"] == 0


def test_working_of_a_time_says_that_it_was_marched(call):
    code, out, _ = call("ratio", BUILD, "--working", "time_60_ft@40/10@275/60R15")
    assert code == 0
    assert "marched in time" in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--ratios", "4.10"), "41/11"),
        (("--ratios", "dog"), "41/11"),
        (("--tires", "banana"), "275/60R15"),
        (("--speeds", "fast"), "70 mph"),
        (("--working", "nothing"), "top_speed@"),
        (("--working", "nothing@41/11@275/60R15"), "nothing"),
        (("--working", "x@4.1@275/60R15"), "top_speed@"),
    ],
)
def test_bad_questions_are_refused_in_words(call, arguments, said):
    code, out, err = call("ratio", BUILD, *arguments)
    assert (code, out) == (2, "")
    assert said in err
    code, out, err = call("ratio", BUILD, *arguments, "--json")
    assert (code, err) == (2, "")
    assert by_schema("error", out)["message"]


@pytest.mark.parametrize("command", ["ratio", "run"])
def test_a_missing_build_is_refused(call, tmp_path, command):
    code, _, err = call(command, tmp_path / "none.toml")
    assert code == 2
    assert "no such file" in err


def test_run_says_when_each_mark_is_passed(call, tmp_path):
    picture = tmp_path / "run.svg"
    code, out, err = call("run", BUILD, "--samples", 50, "--chart", picture)
    assert (code, err) == (0, "")
    assert "1/4 mile" in out
    assert "Assumed about the run" in out
    assert picture.read_text(encoding="utf-8").startswith("<svg")


def test_run_as_json(call):
    code, out, err = call("run", BUILD, "--samples", 50, "--json")
    assert (code, err) == (0, "")
    report = by_schema("run", out)
    assert [m["name"] for m in report["marks"]][-2:] == ["1/4 mile", "1 km"]


def test_the_saw_tooth_chart_is_written(call, tmp_path):
    picture = tmp_path / "saw.svg"
    code, _, _ = call("ratio", BUILD, *FEW, "--chart", picture)
    assert code == 0
    assert "1→2" in picture.read_text(encoding="utf-8")
    code, _, err = call("ratio", BUILD, *FEW, "--chart", tmp_path)
    assert code == 2
    assert "folder" in err
