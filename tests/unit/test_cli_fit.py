"""``axlewright fit``: exit codes, JSON by its schema, bad input in words, the worksheet."""

import json
from pathlib import Path

import jsonschema
import pytest

from axlewright.cli import faults
from axlewright.cli.main import app

ROOT = Path(__file__).resolve().parents[2]
BUILD = str(ROOT / "examples" / "copper-wren-fit.toml")
BARE = str(ROOT / "examples" / "copper-wren-tired.toml")
FEW = ("--samples", "50")


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


def test_fit_says_first_whether_it_fits(call):
    code, out, err = call("fit", BUILD, *FEW)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[1].startswith("It fits with the axle to order, ")
    for part in ("What is ordered by", "Left shaft", "Room beside each wheel", "outer lip",
                 "Wheels and widths", "Housing ends", "Brakes and parking", "Speedometer",
                 "Order now, or wait for", "Measure next"):  # fmt: skip
        assert part in out, part


def test_fit_as_json(call):
    code, out, err = call("fit", BUILD, *FEW, "--seed", 3, "--json")
    assert (code, err) == (0, "")
    report = by_schema("fit", out)
    assert report["verdict"] == "fits"
    assert (report["made"]["seed"], report["made"]["samples"]) == (3, 50)
    shaft = next(o for o in report["order"] if o["key"] == "shaft_left")["finding"]
    assert shaft["low"] < shaft["value"] < shaft["high"]
    assert shaft["unit"] == "m"


def test_fit_in_metric_units(call):
    code, out, _ = call("fit", BUILD, *FEW, "--si")
    assert code == 0
    assert "1,505.0 mm" in out
    assert "(59.25 in)" in out


def test_what_does_not_fit_and_what_is_not_known_exit_with_one(call):
    code, out, _ = call("fit", BUILD, *FEW, "--width", "57 in")
    assert code == 1
    assert "It does not fit" in out
    assert "SHORT" in out
    code, out, _ = call("fit", BARE, *FEW)
    assert code == 1
    assert "Not known yet: measure" in out
    code, out, _ = call("fit", BARE, *FEW, "--json")
    assert code == 1
    report = by_schema("fit", out)
    assert report["planned"] is None
    assert all(o["finding"] is None for o in report["order"])


def test_another_wheel_is_tried_without_being_kept(call):
    before = Path(BUILD).read_bytes()
    code, out, _ = call("fit", BUILD, *FEW, "--backspace", "4.5 in", "--rim", "9 in", "--json")
    assert code == 0
    order = {o["key"]: o["finding"] for o in by_schema("fit", out)["order"]}
    assert order["backspace"]["value"] == pytest.approx(4.5 * 0.0254)
    assert order["rim_width"]["value"] == pytest.approx(9 * 0.0254)
    assert Path(BUILD).read_bytes() == before


def test_the_worksheet_lists_what_is_missing(call):
    code, out, _ = call("fit", BARE, "--worksheet")
    assert code == 1
    assert "fit.left.lip" in out
    assert "____" in out
    assert "plumb bob" in out
    _, less, _ = call("fit", BUILD, "--worksheet")
    assert "fit.left.lip " not in less


def test_working_of_a_number(call):
    code, out, err = call("fit", BUILD, "--working", "shaft_left")
    assert (code, err) == (0, "")
    assert "L_s = H_b − g_e" in out
    code, out, _ = call("fit", BUILD, "--working", "shaft_left", "--json")
    assert code == 0
    assert by_schema("working", out)[0]["depth"] == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--backspace", "dog"), "dog"),
        (("--width", "900 in"), "900 in"),
        (("--have", "banana"), "brake size"),
        (("--drive-teeth", "x"), "like 7"),
        (("--old-ratio", "x"), "41/11"),
        (("--old-tire", "x"), "275/60R15"),
        (("--working", "nothing"), "nothing"),
    ],
)
def test_bad_questions_are_refused_in_words(call, arguments, said):
    code, out, err = call("fit", BUILD, *FEW, *arguments)
    assert (code, out) == (2, "")
    assert said in err
    code, out, err = call("fit", BUILD, *FEW, *arguments, "--json")
    assert (code, err) == (2, "")
    assert by_schema("error", out)["message"]


def test_speedometer_gears_are_told(call):
    code, out, _ = call("fit", BUILD, *FEW, "--drive-teeth", "7,8", "--old-ratio", "3.08")
    assert code == 0
    assert "driven with 7 drive" in out
    assert "Shown at a true 60 mph" in out
