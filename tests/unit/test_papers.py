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

from axlewright.papers.check_paper import content, write_check_paper
from axlewright.papers.limit_card import card_content, write_limit_card
from axlewright.papers.press import breakable
from axlewright.papers.words import cell, first_words, place, units_of, with_band
from axlewright.quantities.finding import Finding

_SPEC = importlib.util.spec_from_file_location(
    "sample_reports", Path(__file__).with_name("sample_reports.py")
)
assert _SPEC is not None and _SPEC.loader is not None
samples = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(samples)

DAY = "2025-03-31"
_SILENT = {"svg", "alt", "document_title", "keywords", "date", "holds", "weakest", "origin"}


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
    for line in report.inputs:
        row = squeezed(f"{line.means}{line.path}{line.value}{line.spread}{line.source}")
        last = squeezed(line.advice if line.origin == "assumed" else line.origin)
        assert printed.count(row + last) == 1, line.path
    for link in report.links:
        assert squeezed(link.consequence) in printed
        for margin in (link.breaks, link.gives):
            assert margin is None or squeezed(margin.mode + margin.case) in printed


def test_many_inputs_keep_every_row(tmp_path: Path) -> None:
    first = samples.report().inputs[1]
    many = tuple(replace(first, path=f"axle.item_{i:03d}", value=f"{i}.5 in") for i in range(120))
    sample = samples.report()
    report = replace(sample, inputs=many, links=sample.links[:3], gears=())
    printed = squeezed("".join(pages(write_check_paper(report, None, tmp_path / "x.pdf", DAY))))
    assert [i for i in many if squeezed(i.path + i.value) not in printed] == []


def test_pages_are_numbered_and_carry_the_revision(found: list[str]) -> None:
    assert len(found) >= 5
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
        sample, cases=(), gears=(), inputs=(), cautions=(),
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
    link = samples.links()[9]
    assert first_words(link, "axle_shaft") == "goes first, in 58 % of samples"
    assert (
        first_words(replace(link, first_share=0.006), "clutch") == "first in under 1 % of samples"
    )


def test_long_words_may_break_and_lose_nothing() -> None:
    given = {"a": ["short", "axle.shaft.spline.major_diameter"], "svg": "axle.shaft.spline.major"}
    broken = breakable(given)
    assert broken["a"][0] == "short" and "\u200b" in broken["a"][1]
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
