"""Papers of fit: nothing lost, nothing guessed, both units, a stop where nothing is to order."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

from axlewright.build.edit import edit, raw_values
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.measuring.tools import STAMP
from axlewright.measuring.worksheet import STAGES, items
from axlewright.papers import fit_paper
from axlewright.papers.fit_paper import TitleOf
from axlewright.papers.order_sheet import order_content
from axlewright.papers.press import page_pictures
from axlewright.papers.worksheet_paper import HOW, is_wanted, rows_of, split, worksheet_content
from axlewright.quantities.finding import Finding
from axlewright.workshop import angles, fit_papers, fits

ROOT = Path(__file__).resolve().parents[2]
WREN = (ROOT / "examples" / "copper-wren-fit.toml").read_text(encoding="utf-8")
BARE = (ROOT / "examples" / "tin-pelican-tired.toml").read_text(encoding="utf-8")
DAY = "2025-03-31"
TITLE = TitleOf("Copper Wren", "wren.toml", "0123456789ab", "axlewright 0", DAY)
_SILENT = {
    "svg",
    "alt",
    "document_title",
    "keywords",
    "date",
    "paper",
    "short_name",
    "act",
    "width",
}


def opened(text: str) -> Resolved:
    return resolve(read_build(text, "build.toml"))


@pytest.fixture(scope="module")
def wren() -> Resolved:
    return opened(WREN)


@pytest.fixture(scope="module")
def bare() -> Resolved:
    return opened(BARE)


def order_of(build: Resolved) -> dict[str, Any]:
    return order_content(fits.fit(build), angles.angles(build), ("a book", "a book", ""), TITLE)


def text_of(pdf: bytes) -> str:
    return "".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(pdf)).pages)


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u200b\u00ad]+", "", text)


def strings(value: Any, key: str = "") -> list[str]:
    if key in _SILENT:
        return []
    if isinstance(value, dict):
        return [s for k, v in value.items() for s in strings(v, k)]
    if isinstance(value, list):
        return [s for v in value for s in strings(v, key)]
    return [value] if isinstance(value, str) else []


# The order sheet ----------------------------------------------------------------------------------


def test_every_text_of_the_order_sheet_is_on_paper(wren: Resolved) -> None:
    content = order_of(wren)
    printed = squeezed(text_of(fit_papers.order_pdf(wren, DAY)))
    content |= fit_paper.titled(fit_papers.title_of(wren, DAY, "letter"), "Order sheet")
    content["sources"] = []
    wanted = strings(content)
    assert len(wanted) > 400
    assert [w for w in wanted if squeezed(w) not in printed] == []
    assert all(squeezed(s) in printed for s in fit_papers.sources(wren))


def test_every_dimension_has_datum_state_and_both_units(wren: Resolved) -> None:
    for row in order_of(wren)["order"]:
        assert row["known"] and row["datum"] and row["state"], row["what"]
        inches, metric = (float(row[k].split()[0].replace(",", "")) for k in ("shop", "si"))
        # 25.4 mm to the inch by definition; each figure is rounded to its own last place.
        assert metric == pytest.approx(25.4 * inches, abs=25.4 * 0.0051), row["what"]
        assert row["off_shop"].startswith("±") and row["off_si"].startswith("±")


def test_rows_stand_in_the_order_of_the_study(wren: Resolved) -> None:
    content, report = order_of(wren), fits.fit(wren)
    assert [r["what"] for r in content["order"]] == [o.what for o in report.order]
    assert [r["number"] for r in content["order"]] == [
        str(n) for n in range(1, len(report.order) + 1)
    ]
    assert [h["item"] for h in content["holds"]] == [h.item for h in report.holds]
    assert [r["what"] for r in content["ends"]] == [e.what for e in report.ends]
    assert len(content["rooms"]) == len(report.rooms)
    assert content["line"][0]["what"] == angles.angles(wren).settings[0].what


def test_what_is_not_known_is_an_empty_line_that_names_its_reading(bare: Resolved) -> None:
    content = order_of(bare)
    report = fits.fit(bare)
    lacking = [o for o in report.order if o.finding is None]
    numbered = {m["number"]: m["key"] for m in content["missing"]}
    assert len(lacking) > 10
    for row, line in zip(content["order"], report.order, strict=True):
        if line.finding is None:
            assert (row["shop"], row["si"], row["off_shop"], row["known"]) == ("", "", "", False)
            assert row["origin"] == ""
            named = row["note"].removeprefix("measure ").split(", ")
            assert [numbered.get(n, n) for n in named] == list(line.lacks)
    assert content["stop"] == "NOT TO ORDER BY: readings are missing."


@pytest.mark.parametrize(
    ("key", "typed", "stop"),
    [
        ("fit.left.lip", "9 3/8 in", "ORDER NOTHING BY THIS SHEET: readings contradict"),
        ("fit.state", "hanging", "NOT TO ORDER BY: readings are missing"),
        ("wheel.section", "15 in", "NOT TO ORDER BY: it does not fit"),
    ],
)
def test_a_sheet_that_nothing_is_ordered_by_says_so_on_every_page(
    key: str, typed: str, stop: str
) -> None:
    build = opened(edit(WREN, key, typed))
    content = order_of(build)
    assert content["stop"].startswith(stop)
    assert "TO ORDER" not in {r["origin"] for r in content["order"]}
    pages = pypdf.PdfReader(io.BytesIO(fit_papers.order_pdf(build, DAY))).pages
    assert len(pages) > 3
    assert all(squeezed(stop) in squeezed(p.extract_text()) for p in pages)


def test_contradictions_are_told_with_what_would_tell() -> None:
    content = order_of(opened(edit(WREN, "fit.left.lip", "9 3/8 in")))
    assert content["contradictions"] and "fit.left.lip" in content["contradictions"][0]["said"]
    assert content["further"] == ""


def test_a_good_sheet_has_no_stop(wren: Resolved) -> None:
    content = order_of(wren)
    assert content["stop"] == ""
    assert content["planned"].startswith("275/60R15, rim 8 in (203 mm), backspace 5 in (127 mm)")
    # An axle is ordered over its bare flanges, never over hats or drums.
    over_hats, over_flanges = content["order"][:2]
    assert (over_hats["origin"], over_flanges["origin"]) == ("", "TO ORDER")


@pytest.mark.parametrize(("paper", "size"), [("letter", (612.0, 792.0)), ("A4", (595.3, 841.9))])
def test_papers_are_letter_or_a4(wren: Resolved, paper: Any, size: tuple[float, float]) -> None:
    """Sizes in points: 8 1/2 by 11 in, and 210 by 297 mm of ISO 216."""
    for pdf in (
        fit_papers.order_pdf(wren, DAY, paper),
        fit_papers.worksheet_pdf(wren, DAY, paper, only_missing=True),
    ):
        for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
            assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
                size, abs=0.1
            )


def test_the_same_build_gives_the_same_bytes(wren: Resolved) -> None:
    assert fit_papers.order_pdf(wren, DAY) == fit_papers.order_pdf(wren, DAY)
    assert fit_papers.worksheet_pdf(wren, DAY) == fit_papers.worksheet_pdf(wren, DAY)


def test_sources_are_numbered_once(wren: Resolved) -> None:
    assert order_of(wren)["sources"] == [{"number": "[1]", "text": "a book"}]
    found = fit_papers.sources(wren)
    assert len(found) == len(set(found)) > 20


def test_figures_without_a_length() -> None:
    angle = Finding("x", "x", 0.05, 0.04, 0.06, "angle")
    said = fit_paper.both(angle)
    assert said == {"shop": "2.86 deg", "si": "", "off_shop": "2.29 deg to 3.44 deg", "off_si": ""}
    ratio = Finding("x", "x", 1.5, 1.5, 1.5, "ratio")
    assert fit_paper.both(ratio) == {"shop": "1.5", "si": "", "off_shop": "", "off_si": ""}
    assert set(fit_paper.both(None).values()) == {""}


# The worksheet ------------------------------------------------------------------------------------


def test_the_empty_worksheet_asks_for_every_reading() -> None:
    content = worksheet_content(TITLE, {})
    rows = [r for s in content["stages"] for g in s["groups"] for r in g["rows"]]
    asked = sum(c["open"] for r in rows for c in r["cells"])
    assert asked == len(items())
    assert not [c for r in rows for c in r["cells"] if c["said"]]
    keys = {r["key"] for r in rows}
    assert len(keys) == len(rows) == len({split(k)[0] for k in items()})
    assert content["how"] == list(HOW)


def test_every_text_of_the_worksheet_is_on_paper(wren: Resolved) -> None:
    content = worksheet_content(fit_papers.title_of(wren, DAY, "letter"), raw_values(WREN))
    printed = squeezed(text_of(fit_papers.worksheet_pdf(wren, DAY)))
    wanted = strings(content)
    assert len(wanted) > 700
    assert [w for w in wanted if squeezed(w) not in printed] == []


def test_what_was_read_stands_on_its_line() -> None:
    content = worksheet_content(TITLE, raw_values(WREN))
    rows = rows_in(content)
    assert [c["said"] for c in rows["fit.….lip"]["cells"]] == ["6 3/8 in · 6 7/16 in", "6 1/4 in"]
    assert [c["said"] for c in rows["fit.bump"]["cells"]] == ["3 1/2 in"]
    alike = rows["ends.brake_space or ends.….brake_space"]["cells"]
    assert [c["said"] for c in alike] == ["2.5 in", "", ""]
    ticks = {t["key"]: t["said"] for t in content["ticks"]}
    assert ticks == {"fit.state": "ride height", "fit.care": "careful", "fit.old_face": "with hat"}


def rows_in(content: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {r["key"]: r for s in content["stages"] for g in s["groups"] for r in g["rows"]}


def test_the_short_worksheet_lists_what_is_missing_only(wren: Resolved) -> None:
    missing = wren.fitting.missing
    short = rows_in(worksheet_content(TITLE, raw_values(WREN), missing))
    assert "fit.….shock" in short and "fit.….lip" not in short and "fit.bump" not in short
    assert len(short) == len({split(key)[0] for key in missing})
    whole = rows_in(worksheet_content(TITLE, {}))
    assert all(whole[k]["number"] == row["number"] for k, row in short.items())


def test_one_side_alone_is_still_wanted() -> None:
    row = next(r for s in STAGES for r in rows_of(s) if r.first.key == "fit.left.lip")
    assert is_wanted(row, {"fit.right.lip"}) and not is_wanted(row, {"fit.left.inner"})


@pytest.mark.parametrize(
    ("key", "parts"),
    [
        ("fit.left.lip", ("fit.lip", "left")),
        ("ends.right.hat", ("ends.hat", "right")),
        ("points.right_shock_body", ("points.shock_body", "right")),
        ("centre.left_shaft", ("centre.left_shaft", "")),
        ("fit.bump", ("fit.bump", "")),
    ],
)
def test_a_key_and_its_side(key: str, parts: tuple[str, str]) -> None:
    assert split(key) == parts


def test_tools_to_bring_are_tools() -> None:
    brought = worksheet_content(TITLE, {})["tools"]
    assert STAMP.name not in brought and len(brought) == len(set(brought)) > 8


def test_pages_can_be_looked_at() -> None:
    pages = page_pictures("worksheet.typ", worksheet_content(TITLE, {}), 20.0)
    assert len(pages) > 5 and all(p.startswith(b"\x89PNG") for p in pages)
