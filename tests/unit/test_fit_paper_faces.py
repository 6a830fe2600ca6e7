"""Worksheet, order sheet and drawings from the command line and from the workbench."""

from __future__ import annotations

import json
from pathlib import Path

import ezdxf
import jsonschema
import pytest

from axlewright.build.edit import edit
from axlewright.cli import faults
from axlewright.cli.main import app
from axlewright.drawing.fit_sheets import MAKERS
from axlewright.web.pages.papers_fit import TITLES

ROOT = Path(__file__).resolve().parents[2]
BUILD = ROOT / "examples" / "copper-wren-fit.toml"
BARE = ROOT / "examples" / "copper-wren-tired.toml"


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
    return answer["result"]


# The command ------------------------------------------------------------------------------------


def test_an_empty_worksheet_needs_no_build(call, tmp_path):
    path = tmp_path / "sheet.pdf"
    assert call("worksheet", "-o", path, "--paper", "A4") == (0, f"Wrote {path}\n", "")
    assert path.read_bytes().startswith(b"%PDF")


def test_the_worksheet_of_a_build_in_json(call, tmp_path):
    path = tmp_path / "sheet.pdf"
    code, out, _ = call("worksheet", BUILD, "--missing", "-o", path, "--json")
    assert code == 0 and by_schema("worksheet", out) == {"path": str(path)}


def test_drawings_are_written_with_the_order_sheet(call, tmp_path):
    code, out, err = call("drawings", BUILD, "--out", tmp_path, "--general", "1/32 in", "--json")
    assert (code, err) == (0, "")
    result = by_schema("drawings", out)
    names = [Path(p).name for p in result["written"]]
    assert names == ["order-sheet.pdf", "drawings.pdf", *(f"{key}.dxf" for key in MAKERS)]
    assert result["waiting"] == {} and all(Path(p).exists() for p in result["written"])
    document = ezdxf.readfile(tmp_path / "housing.dxf")
    assert not document.audit().errors


def test_a_bare_build_is_short_and_an_older_file_is_named(call, tmp_path):
    (tmp_path / "housing.dxf").write_text("of last week", encoding="utf-8")
    code, out, _ = call("drawings", BARE, "--out", tmp_path, "--paper", "letter")
    assert code == 1
    assert "No housing.dxf: missing are left half of the housing" in out
    assert "An older housing.dxf lies there: do not cut from it." in out
    assert (tmp_path / "housing.dxf").read_text(encoding="utf-8") == "of last week"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("drawings", BUILD, "--general", "3 lb"), "general tolerance"),
        (("drawings", BUILD, "--paper", "B5"), "--paper"),
        (("drawings", BUILD, "--have", "a good mood"), "is nothing that is waited for"),
        (("drawings", ROOT / "nowhere.toml"), "there is no such file"),
        (("worksheet", ROOT / "nowhere.toml"), "there is no such file"),
    ],
)
def test_what_is_wrong_is_told(call, tmp_path, arguments, said):
    code, _, err = call(*arguments, "--out", tmp_path / "x")
    assert code == 2 and said in err


# The workbench ----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture(scope="module")
def build(client):
    return client.workshop.store.create(BUILD.read_text(encoding="utf-8")).id


@pytest.fixture(scope="module")
def bare(client):
    return client.workshop.store.create(BARE.read_text(encoding="utf-8")).id


def test_the_page_offers_every_paper_and_drawing(client, build):
    page = client.get(f"/builds/{build}/papers").text
    for name in ("worksheet.pdf", "worksheet.pdf?missing=true", "order-sheet.pdf", "drawings.pdf"):
        assert f'/builds/{build}/papers/{name}"' in page
    assert set(TITLES) == set(MAKERS)
    for key in MAKERS:
        assert f"/papers/drawings/{key}.svg" in page and f"/papers/drawings/{key}.dxf" in page


@pytest.mark.parametrize("name", ["worksheet.pdf?missing=true&paper=A4", "order-sheet.pdf"])
def test_papers_come_as_files(client, build, name):
    answer = client.get(f"/builds/{build}/papers/{name}")
    assert answer.status_code == 200 and answer.content.startswith(b"%PDF")
    file = name.partition("?")[0]
    assert f'-{file}"' in answer.headers["content-disposition"]


def test_a_drawing_comes_as_picture_and_as_file(client, build):
    picture = client.get(f"/builds/{build}/papers/drawings/shaft-left.svg?paper=A4")
    assert picture.headers["content-type"].startswith("image/svg+xml")
    assert "Axle shaft, LEFT" in picture.text
    assert "sandbox" in picture.headers["content-security-policy"]
    file = client.get(f"/builds/{build}/papers/drawings/shaft-left.dxf")
    assert file.status_code == 200 and "AC1024" in file.text
    assert '-shaft-left.dxf"' in file.headers["content-disposition"]


def test_the_drawings_come_as_one_pdf(client, build):
    answer = client.get(f"/builds/{build}/papers/drawings.pdf?paper=letter&general=1/32%20in")
    assert answer.status_code == 200 and answer.content.startswith(b"%PDF")


def test_what_cannot_be_made_is_told(client, build, bare):
    waits = client.get(f"/builds/{bare}/papers/drawings/housing.dxf")
    assert waits.status_code == 409 and "left half of the housing" in waits.text
    wrong = client.get(f"/builds/{build}/papers/drawings.pdf?general=3%20lb")
    assert wrong.status_code == 422 and "general tolerance" in wrong.text
    mood = client.get(f"/builds/{build}/papers/order-sheet.pdf?have=a%20good%20mood")
    assert mood.status_code == 422 and "nothing that is waited for" in mood.text
    assert client.get(f"/builds/{build}/papers/drawings/nothing.svg").status_code == 422
    broken = client.workshop.store.create(
        edit(BUILD.read_text(encoding="utf-8"), "fit.left.lip", "three hands")
    ).id
    assert client.get(f"/builds/{broken}/papers/order-sheet.pdf").status_code == 409
    assert "order-sheet.pdf" not in client.get(f"/builds/{broken}/papers").text
