"""The commands from end to end: exit codes, JSON by its schema, bad input in words."""

import importlib.util
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import jsonschema
import pytest
from pypdf import PdfReader

from axlewright import __version__
from axlewright.cli import faults
from axlewright.cli.main import app
from axlewright.workshop.template import template

ROOT = Path(__file__).resolve().parents[2]
SCHEMAS = ROOT / "docs" / "json"

WEAK = """format = 1
name = "Copper Wren"
[car]
weight = "3600 lb"
[engine]
torque = "620 lbf*ft"
[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.43, 1.00]
[axle]
ring_gear = "7.5"
ratio = "41/11"
differential = "clutch"
[wheels]
tire = "275/60R15"
grip_class = "slick"
[use]
launch = "dump"
surface = "strip"
"""
STRONG = (
    WEAK.replace("620", "160").replace('"7.5"', '"9.75"').replace('"slick"', '"all-season street"')
    .replace('"dump"', '"gentle"').replace('"strip"', '"street"').replace("Copper Wren", "Plain Ox")
)  # fmt: skip
AUTOMATIC = STRONG.replace('"manual"', '"automatic"').replace('"gentle"', '"trans-brake"')


@pytest.fixture
def weak(tmp_path):
    path = tmp_path / "weak.toml"
    path.write_text(WEAK, encoding="utf-8")
    return str(path)


@pytest.fixture
def strong(tmp_path):
    path = tmp_path / "strong.toml"
    path.write_text(STRONG, encoding="utf-8")
    return str(path)


@pytest.fixture
def call(capfd):
    """Run a command inside this process; gives exit code, standard output and error output."""

    def run(*arguments):
        capfd.readouterr()
        code = faults.guarded(app, [str(a) for a in arguments])
        out, err = capfd.readouterr()
        assert "Traceback" not in out + err
        assert code in {0, 1, 2}, out + err
        return code, out, err

    return run


def by_schema(kind, text):
    """The answer in JSON, checked against the schema in docs/json."""
    page = json.loads((SCHEMAS / f"{kind}.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(page)
    answer = json.loads(text)
    jsonschema.validate(answer, page, cls=jsonschema.Draft202012Validator)
    assert answer["schema"] == f"axlewright.{kind}/1"
    return answer["error" if kind == "error" else "result"]


def fails(call, *arguments):
    """A command that must refuse, in words on the error output and as JSON on standard output."""
    code, out, err = call(*arguments)
    assert code == 2
    assert out == ""
    assert err.strip()
    code, out, silent = call(*arguments, "--json")
    assert code == 2
    assert silent == ""
    error = by_schema("error", out)
    assert error["message"].strip()
    return err, error


# --- check ------------------------------------------------------------------------------------


def test_check_says_short_with_exit_one(call, weak):
    code, out, err = call("check", weak, "--samples", 200)
    assert (code, err) == (1, "")
    assert "Copper Wren" in out
    assert "Short: the " in out
    assert "Measure next" in out


def test_check_says_holds_with_exit_zero(call, strong):
    code, out, err = call("check", strong, "--samples", 200)
    assert (code, err) == (0, "")
    assert "It holds" in out


@pytest.mark.parametrize("text", [WEAK, STRONG, AUTOMATIC], ids=["weak", "strong", "automatic"])
def test_check_as_json(call, tmp_path, text):
    path = tmp_path / "build.toml"
    path.write_text(text, encoding="utf-8")
    code, out, err = call("check", path, "--samples", 200, "--seed", 7, "--json")
    assert err == ""
    report = by_schema("load-path", out)
    assert code == (0 if report["verdict"]["holds"] else 1)
    assert report["made"]["seed"] == 7
    assert report["made"]["samples"] == 200
    ring = report["cases"][0]["torques"]["ring"]
    assert ring["unit"] == "N·m"
    assert ring["text"].endswith("lb·ft")
    assert ring["low"] <= ring["value"] * 1.2


def test_check_repeats_itself_to_the_letter(call, weak):
    first = call("check", weak, "--samples", 300, "--json")
    assert call("check", weak, "--samples", 300, "--json") == first
    other = call("check", weak, "--samples", 300, "--seed", 2, "--json")
    assert other != first


def test_check_in_si_and_with_every_input(call, weak):
    shop = call("check", weak, "--samples", 200)[1]
    metric = call("check", weak, "--samples", 200, "--si")[1]
    assert "lb·ft" in shop
    assert "N·m" in metric
    listed = call("check", weak, "--samples", 200, "--inputs")[1]
    assert "car.weight" in listed
    assert "car.weight" not in shop


# --- limits, working --------------------------------------------------------------------------


def test_limits(call, weak, tmp_path):
    code, out, _ = call("limits", weak)
    assert code == 0
    assert "engine torque" in out
    assert "stickier tires" in out
    card = by_schema("limit-card", call("limits", weak, "--json")[1])
    assert {line["dial"] for line in card["lines"]} >= {"engine torque", "tire grip"}
    path = tmp_path / "automatic.toml"
    path.write_text(AUTOMATIC, encoding="utf-8")
    assert by_schema("limit-card", call("limits", path, "--json")[1])["lines"]


def test_working_lists_ids_and_opens_each(call, weak):
    code, out, _ = call("working", weak)
    assert code == 0
    ids = out.split()
    assert len(ids) > 100
    assert by_schema("working-ids", call("working", weak, "--json")[1]) == ids
    for number in (ids[0], ids[len(ids) // 2], ids[-1]):
        code, out, _ = call("working", weak, number)
        assert code == 0
        assert out.startswith(number)
        rows = by_schema("working", call("working", weak, number, "--json")[1])
        assert rows[0]["depth"] == 0
        assert len(rows) >= 1
    assert call("working", weak, ids[0], "--si")[0] == 0


def test_every_number_of_a_check_opens_its_working(call, weak):
    report = by_schema("load-path", call("check", weak, "--samples", 100, "--json")[1])
    ids = set(by_schema("working-ids", call("working", weak, "--json")[1]))

    def numbers(node):
        if isinstance(node, dict):
            if "dimension" in node and "unit" in node:
                yield node["id"]
            for value in node.values():
                yield from numbers(value)
        elif isinstance(node, list):
            for value in node:
                yield from numbers(value)

    shown = set(numbers(report))
    assert len(shown) > 50
    assert shown - ids == set()


def test_unknown_id_names_the_nearest(call, weak):
    ids = call("working", weak)[1].split()
    err, error = fails(call, "working", weak, ids[0] + "x")
    assert ids[0] in err
    assert ids[0] in error["message"]
    err, _ = fails(call, "working", weak, ids[0].partition(".")[0])
    assert any(number in err for number in ids)
    fails(call, "working", weak, "zzz")


# --- new, paper, recognise, verify -----------------------------------------------------------


@pytest.mark.parametrize("style", ["short", "full"])
def test_new_prints_the_template(call, style):
    more = ["--full"] if style == "full" else []
    code, out, _ = call("new", *more)
    assert code == 0
    assert out == template(style)
    written = by_schema("new", call("new", *more, "--json")[1])
    assert written == {"path": None, "text": template(style)}


def test_new_writes_a_file_that_can_be_checked_and_never_overwrites(call, tmp_path):
    path = tmp_path / "mine.toml"
    code, out, _ = call("new", path)
    assert code == 0
    assert str(path) in out
    assert call("check", path, "--samples", 100)[0] in {0, 1}
    path.write_text("precious", encoding="utf-8")
    err, _ = fails(call, "new", path)
    assert "nothing was overwritten" in err
    assert path.read_text(encoding="utf-8") == "precious"
    fails(call, "new", tmp_path / "no" / "folder" / "x.toml")
    fails(call, "new", tmp_path)
    other = tmp_path / "other.toml"
    assert by_schema("new", call("new", other, "--json")[1])["path"] == str(other)


def test_paper_is_a_pdf_that_names_the_build(call, weak, tmp_path):
    out = tmp_path / "papers" / "mine.pdf"
    code, said, _ = call("paper", weak, "-o", out)
    assert code == 0
    assert str(out) in said
    text = "".join(page.extract_text() for page in PdfReader(out).pages)
    assert "Copper Wren" in text
    code, said, _ = call("paper", weak, "--card", "--json")
    assert code == 0
    card = Path(by_schema("paper", said)["path"])
    assert card == Path(weak).with_suffix(".card.pdf")
    assert card.read_bytes().startswith(b"%PDF")


def test_paper_refuses_where_it_cannot_write(call, weak, tmp_path):
    err, _ = fails(call, "paper", weak, "-o", tmp_path)
    assert "folder" in err
    fails(call, "paper", weak, "-o", Path(weak) / "x.pdf")


def test_recognise(call):
    code, out, _ = call("recognise")
    assert code == 0
    assert "→" in out
    rows = by_schema("recognise", call("recognise", "--json")[1])
    assert {row["kind"] for row in rows} == {"feature", "wear"}
    assert all(row["source"] for row in rows)


def test_verify_passes_and_says_what_it_covers(call, tmp_path):
    code, out, _ = call("verify")
    assert code == 0
    assert "passed, 0 failed" in out
    assert "formulas that enter a verdict" in out
    wrong = tmp_path / "cases.toml"
    wrong.write_text("[[case]]\nid = 3\n", encoding="utf-8")
    fails(call, "verify", wrong)
    fails(call, "verify", tmp_path / "none.toml")


WRONG = """[[case]]
id = "wrong-on-purpose"
formula = "vehicle.wheels.one_wheel_load"
inputs = { static_rear_load = "1000 N" }
expect = "400 N"
tolerance = "1 %"
source = "made up for this test"
obtained = "closed form"
"""


def test_verify_fails_on_a_wrong_number(call, tmp_path):
    case = tmp_path / "cases.toml"
    case.write_text(WRONG, encoding="utf-8")
    code, out, _ = call("verify", case)
    assert code == 1
    assert "wrong-on-purpose" in out
    assert ", 1 failed" in out


def test_verify_as_json(call, tmp_path):
    code, out, _ = call("verify", "--json")
    assert code == 0
    outcome = by_schema("verify", out)
    assert outcome["passed"] is True
    assert all(r["passed"] for r in outcome["results"])
    case = tmp_path / "cases.toml"
    case.write_text(WRONG, encoding="utf-8")
    code, out, _ = call("verify", case, "--json")
    assert code == 1
    assert by_schema("verify", out)["passed"] is False


# --- nonsense ----------------------------------------------------------------------------------

COMMANDS = ("check", "limits", "working", "paper")


@pytest.mark.parametrize("command", COMMANDS)
def test_missing_file_folder_and_binary(call, tmp_path, command):
    (tmp_path / "near.toml").write_text(WEAK, encoding="utf-8")
    err, error = fails(call, command, tmp_path / "none.toml")
    assert "near.toml" in err
    assert error["problems"][0]["file"] == str(tmp_path / "none.toml")
    err, _ = fails(call, command, tmp_path)
    assert "folder" in err
    binary = tmp_path / "binary.toml"
    binary.write_bytes(bytes(range(256)) * 8)
    err, _ = fails(call, command, binary)
    assert "text" in err
    fails(call, command, tmp_path / "near.toml" / "below.toml")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "format"),
        ("\0", "TOML"),
        ("format = 1", "missing"),
        ("format = 99", "99"),
        (WEAK.replace("3600 lb", "3600"), "car.weight"),
        (WEAK.replace("3600 lb", "3600 lb "), ""),
        (WEAK.replace('"7.5"', '"7.6"'), "near it"),
        (WEAK.replace("[axle]", "[axel]"), "axle"),
        (WEAK + "[" * 5000, "TOML"),
    ],
    ids=["empty", "null", "bare", "newer", "unit", "space", "part", "table", "brackets"],
)
def test_bad_text(call, tmp_path, text, said):
    path = tmp_path / "build.toml"
    path.write_text(text, encoding="utf-8")
    if not said:
        assert call("check", path, "--samples", 100)[0] == 1
        return
    err, error = fails(call, "check", path)
    assert said in err
    assert re.match(r".*build\.toml:\d+: ", err)
    assert all(p["line"] >= 1 and p["column"] >= 1 for p in error["problems"])


@pytest.mark.parametrize(
    "arguments",
    [
        ["chekc"],
        ["check"],
        ["check", "a.toml", "b.toml"],
        ["check", "--nonsense"],
        ["check", "x.toml", "--samples", "many"],
        ["check", "x.toml", "--samples", "1"],
        ["check", "x.toml", "--seed", "-1"],
        ["working"],
        ["--nonsense"],
    ],
    ids=" ".join,
)
def test_nonsense_arguments(call, arguments):
    err, error = fails(call, *arguments)
    assert "axlewright --help" in err
    assert error["kind"] == "bad command"


def test_json_before_the_command_is_still_json(call):
    code, out, _ = call("--json", "check")
    assert code == 2
    assert by_schema("error", out)["kind"] == "bad command"


@pytest.mark.parametrize("arguments", [["--help"], *([c, "--help"] for c in COMMANDS)])
def test_help_is_no_fault(call, arguments):
    code, out, _ = call(*arguments)
    assert code == 0
    assert "Usage" in out


def test_version(call):
    assert call("--version")[1].strip() == f"axlewright {__version__}"


def test_our_own_fault_is_short_with_a_log_and_no_traceback(
    capfd, weak, monkeypatch, tmp_path
):  # fmt: skip
    def broken(*_):
        raise ZeroDivisionError("on purpose")

    monkeypatch.setattr("axlewright.workshop.bench.check", broken)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert faults.guarded(app, ["check", weak]) == 3
    out, err = capfd.readouterr()
    assert out == ""
    assert "Traceback" not in err
    log = Path(re.search(r"stands in (\S+)", err)[1])
    assert "ZeroDivisionError: on purpose" in log.read_text(encoding="utf-8")
    assert faults.guarded(app, ["check", weak, "--json"]) == 3
    out, err = capfd.readouterr()
    assert err == ""
    assert by_schema("error", out)["kind"] == "our fault"


# --- as a user starts it -----------------------------------------------------------------------


def started(*arguments, **kwargs):
    done = subprocess.run(
        [sys.executable, "-m", "axlewright.cli.main", *arguments],
        capture_output=True, text=True, check=False, encoding="utf-8", **kwargs,
    )  # fmt: skip
    assert "Traceback" not in done.stdout + done.stderr
    return done


def test_exit_codes_reach_the_shell(weak, strong, tmp_path):
    assert started("check", weak, "--samples", "100").returncode == 1
    assert started("check", strong, "--samples", "100").returncode == 0
    gone = started("check", str(tmp_path / "none.toml"), "--json")
    assert gone.returncode == 2
    assert by_schema("error", gone.stdout)["kind"] == "bad input"


def test_a_reader_who_leaves_is_no_fault(weak):
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-m", "axlewright.cli.main", "working", weak],
        stdout=writer, stderr=subprocess.PIPE, text=True, check=False,
    )  # fmt: skip
    os.close(writer)
    assert "Traceback" not in done.stderr
    assert done.returncode in {0, 1}


def test_plain_terminal_without_unicode_is_no_fault(weak):
    plain = os.environ | {"PYTHONIOENCODING": "ascii", "LC_ALL": "C", "PYTHONUTF8": "0"}
    done = started("check", weak, "--samples", "100", env=plain)
    assert done.returncode == 1, done.stderr


# --- the schemas -------------------------------------------------------------------------------


def test_stored_schemas_are_fresh():
    spec = importlib.util.spec_from_file_location("schemas", ROOT / "scripts" / "schemas.py")
    schemas = importlib.util.module_from_spec(spec)
    sys.modules["schemas"] = schemas
    spec.loader.exec_module(schemas)
    made = schemas.pages()
    stored = {p.name: p.read_text(encoding="utf-8") for p in SCHEMAS.glob("*.json")}
    assert stored.keys() == made.keys()
    for name, text in made.items():
        assert stored[name] == text, f"{name}: run python scripts/schemas.py"


def test_schemas_refuse_what_is_not_printed(call, weak):
    answer = json.loads(call("check", weak, "--samples", 100, "--json")[1])
    page = json.loads((SCHEMAS / "load-path.json").read_text(encoding="utf-8"))
    judge = jsonschema.Draft202012Validator(page)
    assert judge.is_valid(answer)
    finding = answer["result"]["cases"][0]["torques"]["ring"]
    for key in ("unit", "text", "value"):
        kept = finding.pop(key)
        assert not judge.is_valid(answer)
        finding[key] = kept
    finding["more"] = 1
    assert not judge.is_valid(answer)
