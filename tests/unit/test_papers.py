"""Papers: nothing lost, pages counted, the same bytes for the same report."""

from __future__ import annotations

import importlib.util
import json
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pytest

from axlewright.cli import show
from axlewright.papers.check_paper import content, sorted_inputs, write_check_paper
from axlewright.papers.limit_card import card_content, card_page, write_limit_card
from axlewright.papers.press import breakable, page_pictures
from axlewright.papers.words import cell, place, prose, spread_words, units_of, with_band
from axlewright.quantities.finding import Finding
from axlewright.workshop import bench

_SPEC = importlib.util.spec_from_file_location(
    "sample_reports", Path(__file__).with_name("sample_reports.py")
)
assert _SPEC is not None and _SPEC.loader is not None
samples = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(samples)

DAY = "2025-03-31"
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
_SILENT = {"svg", "alt", "document_title", "keywords", "date", "holds", "origin"}


def squeezed(text: str) -> str:
    """Text without spaces and line breaks, as lines break where they like."""
    return re.sub(r"[\s\u200b\u00ad]+", "", text)


def pages(path: Path) -> list[str]:
    with path.open("rb") as file:
        return [p.extract_text() for p in pypdf.PdfReader(file).pages]


def strings(value: Any, key: str = "") -> list[str]:
    if key in _SILENT:
        return []
    if isinstance(value, dict):
        return [s for k, v in value.items() for s in strings(v, k)]
    if isinstance(value, list):
        return [s for v in value for s in strings(v, key)]
    return [value] if isinstance(value, str) else []


@pytest.fixture(scope="module")
def paper(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("paper")
    return write_check_paper(samples.report(), samples.card(), folder / "check.pdf", DAY)


@pytest.fixture(scope="module")
def found(paper: Path) -> list[str]:
    return pages(paper)


def test_every_text_is_on_paper(found: list[str]) -> None:
    printed = squeezed("".join(found))
    wanted = strings(content(samples.report(), samples.card(), DAY))
    assert len(wanted) > 500
    assert [w for w in wanted if squeezed(w) not in printed] == []


def test_no_row_is_lost(found: list[str]) -> None:
    """Every row of every table stands there as often as it should."""
    printed = squeezed("".join(found))
    report = samples.report()
    numbers = {s["text"]: s["number"] for s in content(report, None, DAY)["sources"]}
    given, advised, rest = sorted_inputs(report.inputs)
    for line in report.inputs:
        row = f"{prose(line.means)}{line.path}{line.value}{spread_words(line.value, line.spread)}"
        origin = line.origin if line in given or line in advised else ""
        assert printed.count(squeezed(row + origin + numbers[line.source])) == 1, line.path
    kept = [*given, *advised, *(x for rows in rest.values() for x in rows)]
    assert sorted(kept, key=repr) == sorted(report.inputs, key=repr)
    for link in report.links:
        assert squeezed(link.consequence) in printed
        for margin in (link.breaks, link.gives):
            assert margin is None or squeezed(margin.mode) in printed


def test_inputs_are_sorted_by_what_the_builder_does_with_them() -> None:
    given, advised, rest = sorted_inputs(samples.report().inputs)
    assert {x.origin for x in given} == {"stated", "measured"}
    assert {x.advice for x in advised} == {"Measure it with a caliper.", "Count the teeth."}
    assert [x.advice for x in advised] == sorted([x.advice for x in advised], reverse=True)
    assert {title: {x.origin for x in rows} for title, rows in rest.items()} == {
        "Assumed": {"assumed"}, "Fixed by the kind of part": {"stated"},
    }  # fmt: skip
    printed = [x["advice"] for x in content(samples.report(), None, DAY)["advised"]]
    assert printed == ["Measure it with a caliper", *["″"] * 9, "Count the teeth", *["″"] * 9]


def test_inputs_that_say_the_same_share_a_row() -> None:
    sample = samples.report()
    line = sample.inputs[4]
    twice = (line, sample.inputs[0], replace(line, path="other.path"))
    rows = content(replace(sample, inputs=twice), None, DAY)["rest"][0]["rows"]
    assert [r["paths"] for r in rows] == [f"{line.path}, other.path"]


def test_each_source_is_printed_once(found: list[str]) -> None:
    printed = "".join(found)
    report = samples.report()
    said = content(report, None, DAY)
    listed = [*said["sources"], *said["formula_sources"]]
    assert [s["number"] for s in listed] == [f"[{n + 1}]" for n in range(len(listed))]
    assert {s["text"] for s in listed} == {*report.sources, *(i.source for i in report.inputs)}
    for source in {i.source for i in report.inputs} - {"from memory"}:
        assert squeezed(printed).count(squeezed(source)) == 1, source


def test_nothing_goes_first_in_percent(found: list[str]) -> None:
    assert "of samples" not in "".join(found[1:]).replace("95 % of samples", "")
    assert "58 %" not in "".join(found)


def test_road_cases_have_no_torques() -> None:
    said = content(samples.report(), None, DAY)
    by_title = {c["title"]: c for c in said["cases"]}
    for title in ("Hard corner", "Braking hard", "Bump at speed"):
        assert (by_title[title]["gear"], by_title[title]["governed"]) == ("–", "–")
        assert title not in {c["title"] for t in said["case_tables"] for c in t["columns"]}
    assert len(said["case_tables"]) == 1


def test_a_case_that_both_limits_share_is_said_once() -> None:
    links = {x["title"]: x for x in content(samples.report(), None, DAY)["links"]}
    pinion, shaft = links["Pinion stem and spline"], links["Axle shafts"]
    assert [x["case"] for x in pinion["limits"]] == ["", ""]
    assert pinion["notes"][0] == "worst in: wheels in the air, throttle open, landing"
    assert [x["case"] for x in shaft["limits"]] == [
        "wheels in the air, throttle open, landing", "clutch dumped",
    ]  # fmt: skip
    assert shaft["first"] == "goes first" and pinion["first"] == ""


def test_a_caution_of_the_report_is_not_said_again_on_the_card() -> None:
    report, card = samples.report(), samples.card()
    assert content(report, card, DAY)["card_cautions"] == ["Tire grip is assumed, not measured."]
    again = replace(card, cautions=report.cautions)
    assert content(report, again, DAY)["card_cautions"] == []


@pytest.mark.parametrize("name", sorted(p.name for p in EXAMPLES.glob("*.toml")))
def test_a_real_build_fits_nine_pages_and_loses_nothing(name: str, tmp_path: Path) -> None:
    build = bench.open_build(EXAMPLES / name)
    report, card = bench.check(build, 1, 200), bench.limits(build, 1)
    found = pages(write_check_paper(report, card, tmp_path / "real.pdf", DAY))
    assert 6 <= len(found) <= 9
    printed = squeezed("".join(re.sub(r"\S+ rev \S+ .*page \d+ of \d+", "", x) for x in found))
    said = content(report, card, DAY)
    paths = {i.path for i in report.inputs}
    rows = [*said["given"], *said["advised"], *(r for group in said["rest"] for r in group["rows"])]
    assert {p for r in rows for p in r["paths"].split(", ")} == paths
    for row in rows:
        assert squeezed(row["means"] + row["paths"] + row["value"] + row["spread"]) in printed, row
    for link in report.links:
        for text in (link.title, link.part, link.consequence, link.note):
            assert squeezed(text) in printed
    assert squeezed(said["card"]["unbroken"]) in printed
    for row in said["card"]["links"]:
        assert squeezed(row["link"] + "".join(row["words"])) in printed
    wheel_end = next(x for x in said["links"] if x["title"] == "Wheel end")
    assert any("as torque that would do the same" in note for note in wheel_end["notes"])
    assert len(pages(write_limit_card(card, tmp_path / "card.pdf", DAY))) == 1


def test_pages_are_numbered_and_carry_the_revision(found: list[str]) -> None:
    assert len(found) >= 4
    for number, text in enumerate(found, start=1):
        assert f"page {number} of {len(found)}" in text
        assert f"rev {samples.MADE.build_hash}" in text and DAY in text


def test_the_verdict_and_the_picture_come_first(found: list[str]) -> None:
    first = squeezed(found[0])
    report = samples.report()
    assert squeezed(report.verdict.sentence) in first and "goesfirst" in first
    assert all(squeezed(link.title) in first for link in report.links)
    assert "Whattomeasurenext" in squeezed(found[1])


def test_the_file_says_what_it_is(paper: Path) -> None:
    with paper.open("rb") as file:
        reader = pypdf.PdfReader(file)
        assert reader.metadata is not None
        assert reader.metadata.title == "Driveline check: Blue wagon, street and strip"
        xmp = reader.trailer["/Root"]["/Metadata"].get_data().decode()  # type: ignore[index]
        box = reader.pages[0].mediabox
        fonts = {
            str(f["/BaseFont"]) for p in reader.pages
            for f in (x.get_object() for x in p["/Resources"]["/Font"].values())  # type: ignore[index]
        }  # fmt: skip
    assert "pdfaid" in xmp and "pdfuaid" in xmp
    assert (float(box.width), float(box.height)) == (612.0, 792.0)
    assert all("AxlewrightSans" in f for f in fonts) and len(fonts) == 3


def test_the_same_report_gives_the_same_bytes(tmp_path: Path, paper: Path) -> None:
    again = write_check_paper(samples.report(), samples.card(), tmp_path / "again.pdf", DAY)
    assert again.read_bytes() == paper.read_bytes()
    other = write_check_paper(samples.report(), samples.card(), tmp_path / "x.pdf", "2025-04-01")
    assert other.read_bytes() != paper.read_bytes()


def test_long_names_stay_in_their_cells(tmp_path: Path) -> None:
    report = samples.long_names()
    report = replace(report, inputs=report.inputs[:12], links=report.links[7:12])
    path = write_check_paper(report, samples.card(), tmp_path / "long.pdf", DAY)
    edge = 612.0 - 14.9 / 25.4 * 72 + 0.5
    starts: list[float] = []

    def note(text: str, cm: list[float], tm: list[float], *_: Any) -> None:
        if text.strip():
            starts.append(tm[4] * cm[0] + cm[4])

    with path.open("rb") as file:
        found = [page.extract_text(visitor_text=note) for page in pypdf.PdfReader(file).pages]
    printed = squeezed("".join(found))
    wanted = [squeezed(w) for w in strings(content(report, None, DAY)) if "…" not in w]

    def over_two_pages(text: str) -> bool:
        return any(text[:k] in printed and text[k:] in printed for k in range(1, len(text)))

    assert [w for w in wanted if w not in printed and not over_two_pages(w)] == []
    assert "goesfirst" in squeezed(found[0])
    assert starts and max(starts) < edge


def test_the_limit_card_prints_in_a_hundred_columns(capsys: pytest.CaptureFixture[str]) -> None:
    show.print_card(samples.card())
    printed = capsys.readouterr().out.splitlines()
    assert max(len(line) for line in printed) <= 100
    table = printed[next(i for i, x in enumerate(printed) if x.startswith("link ")) :]
    assert table[0].split("  ")[-1] == "clutch bite"
    shaft = next(x for x in table if x.startswith("Axle shafts"))
    assert re.split("  +", shaft.rstrip()) == [
        "Axle shafts", "≤ 510 lb·ft", "≤ 0.93", "short already",
    ]  # fmt: skip
    assert {len(x.rstrip()) for x in table if x} == {len(table[0])}


def test_links_that_no_dial_breaks_share_a_line_on_the_card() -> None:
    said = card_content(samples.card())
    assert said["dials"] == ["engine torque", "tire grip", "clutch bite"]
    assert [x["link"] for x in said["links"]] == [
        "Ring and pinion", "Axle shafts", "Axle center section",
    ]  # fmt: skip
    assert said["unbroken"].split(", ")[:2] == ["Clutch", "Gearbox"]
    whole = [x["link"] for x in said["links"]] + said["unbroken"].split(", ")
    assert len(whole) >= len(samples.card().links)


def test_a_page_can_be_had_as_a_picture() -> None:
    found = page_pictures("card.typ", card_page(samples.card(), DAY), 40.0)
    assert len(found) == 1 and found[0].startswith(b"\x89PNG")


def test_the_card_is_one_small_page(tmp_path: Path) -> None:
    card = samples.card()
    path = write_limit_card(card, tmp_path / "card.pdf", DAY)
    with path.open("rb") as file:
        box = pypdf.PdfReader(file).pages[0].mediabox
    assert float(box.width) == pytest.approx(90 / 25.4 * 72, abs=0.1)
    assert float(box.height) == pytest.approx(140 / 25.4 * 72, abs=0.1)
    found = pages(path)
    assert len(found) == 1 and "page 1 of 1" in found[0] and card.made.build_hash in found[0]
    wanted = strings(card_content(card))
    skipped = {t["torque"] for t in card_content(card)["tires"]}
    skipped |= {t["band"] for t in card_content(card)["tires"]}
    lost = [w for w in wanted if squeezed(w) not in squeezed(found[0])]
    assert set(lost) <= skipped  # the card shows the margin, the check paper torque and band
    again = write_limit_card(card, tmp_path / "again.pdf", DAY)
    assert again.read_bytes() == path.read_bytes()


def test_an_overfull_card_goes_on_to_a_second_page(tmp_path: Path) -> None:
    card = samples.card()
    many = replace(card, lines=tuple(replace(card.lines[0], dial=f"Dial {i}") for i in range(40)))
    found = pages(write_limit_card(many, tmp_path / "card.pdf", DAY))
    printed = " ".join(found)
    assert len(found) > 1 and all(f"Dial {i}" in printed for i in range(40))


def test_a_bare_report_can_be_printed(tmp_path: Path) -> None:
    sample = samples.report()
    bare = replace(
        sample, cases=(), gears=(), inputs=(), cautions=(), sources=(),
        verdict=replace(sample.verdict, holds=True, measure_next=()),
    )  # fmt: skip
    text = " ".join(pages(write_check_paper(bare, None, tmp_path / "bare.pdf", DAY)))
    assert "The driveline holds" in text and "Limit card" not in text
    assert "no single unknown" in text


def test_a_date_must_be_a_date(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="is no date; write it like"):
        write_limit_card(samples.card(), tmp_path / "x.pdf", "tomorrow")
    assert not (tmp_path / "x.pdf").exists()


def test_numbers_are_written_in_both_units() -> None:
    torque = Finding("t", "torque", 1355.8179, 1220.0, 1490.0, "torque")
    assert cell(torque) == ["1,000", "(1,360)", "900 to 1,100"]
    assert units_of("torque") == "lb·ft (N·m)"
    assert with_band(torque) == "1,000 lb·ft (1,360 N·m), 5 to 95 %: 900 lb·ft to 1,100 lb·ft"
    count = Finding("n", "launches", 410.0, 410.0, 410.0, "count")
    assert cell(count) == ["410", "", ""] and with_band(count) == "410" and units_of("count") == ""
    assert cell(replace(torque, value=float("nan")))[0] == "not known"
    assert place("ring") == "Ring gear" and place("left_hub") == "Left hub"
    many = replace(count, value=2.1e8, low=431.0, high=1.8e9)
    assert with_band(many) == "over a million, 5 to 95 %: 430 to over a million"


@pytest.mark.parametrize(
    ("value", "spread", "printed"),
    [
        ("3,540 lb", "3,500 lb to 3,580 lb", "3,500 to 3,580"),
        ("1 3/8 in", "34 mm to 36 mm", "34 to 36 mm"),
        ("0.65", "0.5 to 0.8", "0.5 to 0.8"),
        ("gray", "gray 70 %, nodular 30 %", "gray 70 %, nodular 30 %"),
        ("1", "scatters by 5.5 %", "scatters by 5.5 %"),
        ("2 ft", "11 in to 2 ft", "11 in to 2 ft"),
        ("41", "", ""),
    ],
)
def test_a_unit_is_said_once(value: str, spread: str, printed: str) -> None:
    assert spread_words(value, spread) == printed


def test_code_marks_are_not_printed() -> None:
    assert prose("Inspect it: see `axlewright recognise`.") == (
        "Inspect it: see “axlewright recognise”"
    )


def test_long_words_may_break_and_lose_nothing() -> None:
    given = {"a": ["short", "axle.shaft.spline.major_diameter"], "svg": "axle.shaft.spline.major"}
    broken = breakable(given)
    assert broken["a"][0] == "short" and "\u200b" in broken["a"][1]
    assert broken["a"][1].split("\u200b") == ["axle.", "shaft.", "spline.", "major_", "diameter"]
    assert broken["svg"] == given["svg"]
    assert json.dumps(broken, ensure_ascii=False).replace("\u200b", "") == json.dumps(given)


def test_the_answer_is_not_slowed_by_papers() -> None:
    """Importing papers brings neither typst nor fontTools."""
    code = (
        "import sys; import axlewright.papers.check_paper, axlewright.papers.limit_card; "
        "print(sorted({'typst', 'fontTools'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
