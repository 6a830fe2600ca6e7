"""``axlewright mesh``: exit codes, JSON by its schema, files, bad input in words."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from axlewright.cli import faults
from axlewright.cli.main import app
from axlewright.studies.mesh import mesh_study
from axlewright.workshop import meshes

ROOT = Path(__file__).resolve().parents[2]
TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\ncase_iron = "gray"\nsupport = "overhung"\n'
)
Call = Callable[..., tuple[int, str, str]]


@pytest.fixture
def build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A build file; gear pairs are kept beside it."""
    monkeypatch.setattr(meshes, "folder", lambda: tmp_path / "meshes")
    path = tmp_path / "heron.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


@pytest.fixture
def call(capfd: pytest.CaptureFixture[str]) -> Call:
    def run(*arguments: object) -> tuple[int, str, str]:
        capfd.readouterr()
        code = faults.guarded(app, [str(a) for a in arguments])
        out, err = capfd.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return run


def by_schema(kind: str, text: str) -> Any:
    page = json.loads((ROOT / "docs" / "json" / f"{kind}.json").read_text(encoding="utf-8"))
    answer = json.loads(text)
    jsonschema.validate(answer, page, cls=jsonschema.Draft202012Validator)
    return answer["error" if kind == "error" else "result"]


def test_mesh_says_how_the_gears_sit(call: Call, build: Path) -> None:
    code, out, err = call("mesh", build, "--quick")
    assert (code, err) == (0, "")
    for said in ("In service the gears", "Drive side, by hand", "Against a deflection test",
                 "What gives", "Bearings under", "What would change it", "jumps",
                 "micro-geometry is assumed"):  # fmt: skip
        assert said in " ".join(out.split()), said


def test_mesh_in_metric_units(call: Call, build: Path) -> None:
    out = call("mesh", build, "--quick", "--si")[1]
    assert "N·m" in out and " mm" in out and "lb·ft  " not in out


def test_mesh_as_json(call: Call, build: Path) -> None:
    code, out, err = call("mesh", build, "--quick", "--json")
    assert (code, err) == (0, "")
    report = by_schema("mesh", out)
    assert [x["name"] for x in report["loads"]][:2] == ["drive.rated", "drive.steady"]
    assert set(report["shapes"]) == {"drive", "coast"} and report["reversal"]["pinion"] > 0.0


def test_a_study_is_kept_and_found_again(
    call: Call, build: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = []

    def quick(opened, seed, count, tell=None, contact=True):  # type: ignore[no-untyped-def]
        made.append(contact)
        return mesh_study(opened, seed, 0, tell, contact=False)

    monkeypatch.setattr(meshes, "mesh_study", quick)
    monkeypatch.setattr(meshes, "mesh_map", lambda run, tell: None)
    monkeypatch.setattr(meshes, "told_map", lambda drawn: {})
    first = call("mesh", build, "--samples", 2)[1]
    assert made.count(True) == 1
    assert call("mesh", build, "--samples", 2)[1] == first
    assert made.count(True) == 1, "the kept study is found"


def test_a_setting_is_answered_alone(call: Call, build: Path) -> None:
    code, out, _ = call("mesh", build, "--pinion-shim", "0.004")
    assert code == 0
    assert "0.004 in (0.1 mm) thicker" in " ".join(out.split())
    assert "In service" not in out and "Under" not in out
    told = by_schema("mesh-setting", call("mesh", build, "--backlash", "0.2 mm", "--json")[1])
    assert told["under"] is None
    assert told["setting"]["backlash"] == pytest.approx(2e-4, abs=1e-6)


def test_a_setting_under_torque_is_in_balance(call: Call, build: Path) -> None:
    told = by_schema("mesh-setting", call("mesh", build, "--torque", "1500 N*m", "--json")[1])
    drive = told["under"]["flanks"]["drive"]
    assert told["under"]["ring_torque"] == 1500.0
    assert drive["moves"]["pinion_lift"] < 0.0, "the pinion climbs"
    assert drive["loaded"]["peak"] > 1e8
    out = call("mesh", build, "--torque", "1500 N*m", "--si")[1]
    assert "Under 1,500 N·m at the ring gear, in balance" in out


@pytest.mark.parametrize("ending", ["csv", "json"])
def test_flanks_are_written(call: Call, build: Path, tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"flanks.{ending}"
    code, out, _ = call("mesh", build, "--flanks", path)
    assert code == 0 and "Wrote" in out
    text = path.read_text(encoding="utf-8")
    if ending == "csv":
        assert text.startswith("# points in mm") and text.count("\n") == 4 + 4 * 21 * 11
    else:
        assert [f["gear"] for f in json.loads(text)].count("pinion") == 2
    by_schema("mesh-flanks", call("mesh", build, "--flanks", path, "--json")[1])


def test_a_chart_and_a_working(call: Call, build: Path, tmp_path: Path) -> None:
    path = tmp_path / "chart.svg"
    assert call("mesh", build, "--quick", "--chart", path)[0] == 0
    assert path.read_text(encoding="utf-8").startswith("<svg")
    number = "gear_pair.drive.pinion_torque.rated"
    out = call("mesh", build, "--quick", "--working", number)[1]
    assert "T_1 = T_ring / i_a" in out
    rows = by_schema("working", call("mesh", build, "--quick", "--working", number, "--json")[1])
    assert rows[0]["depth"] == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--pinion-shim", "banana"), "banana"),
        (("--backlash", "3 in"), "must lie between"),
        (("--torque", "900000"), "hardest case"),
        (("--flanks", "x.xml"), "ends in .csv or .json"),
        (("--quick", "--working", "nothing"), "nothing"),
    ],
)
def test_bad_input_is_said_in_words(
    call: Call, build: Path, arguments: tuple[str, ...], said: str
) -> None:
    code, _, err = call("mesh", build, *arguments)
    assert code == 2 and said in err


def test_a_pair_that_cannot_be_is_bad_input(call: Call, build: Path) -> None:
    build.write_text(f'{TEXT}pinion_offset = "3.9 in"\n', encoding="utf-8")
    code, out, _ = call("mesh", build, "--json")
    assert code == 2
    assert "cannot be" in by_schema("error", out)["message"]


def test_teeth_of_even_depth_have_no_flanks_to_write(call: Call, build: Path) -> None:
    build.write_text(f'{TEXT}[gears]\ndepth = "even"\n', encoding="utf-8")
    code, _, err = call("mesh", build, "--flanks", build.with_suffix(".csv"))
    assert code == 2 and "face-hobbed" in err
    code, out, _ = call("mesh", build, "--quick")
    assert code == 0 and "face-hobbed" in " ".join(out.split())
