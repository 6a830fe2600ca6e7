"""Drawings of a build: the figures of the study, empty lines where nobody knows, files to cut."""

from __future__ import annotations

import io
import itertools
import math
from pathlib import Path
from typing import Any

import ezdxf
import pypdf
import pytest

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve
from axlewright.drawing.dimensions import UNKNOWN, Size, hint, is_known, size
from axlewright.drawing.dimensions_text import BLANK, angle_line, figure, in_both, in_words
from axlewright.drawing.fit_sheets import (
    CONTRADICT,
    EMPTY_LINES,
    FORM,
    HANGING,
    MAKERS,
    NOT_YET,
    FitSheet,
)
from axlewright.drawing.sheet_faults import all_marks, faults
from axlewright.drawing.sheet_marks import Words
from axlewright.studies.fit_parts import PartsReport, parts_report
from axlewright.workshop import angles, fit_papers, fits
from axlewright.workshop.fit_papers import DrawingAsk

ROOT = Path(__file__).resolve().parents[2]
WREN = (ROOT / "examples" / "copper-wren-fit.toml").read_text(encoding="utf-8")
BARE = (ROOT / "examples" / "tin-pelican-tired.toml").read_text(encoding="utf-8")
DAY = "2025-03-31"
INCH = 25.4


def opened(text: str) -> Resolved:
    return resolve(read_build(text, "build.toml"))


def parts_of(build: Resolved) -> PartsReport:
    return parts_report(build, fits.fit(build), angles.angles(build))


@pytest.fixture(scope="module")
def wren() -> Resolved:
    return opened(WREN)


@pytest.fixture(scope="module")
def sheets(wren: Resolved) -> dict[str, FitSheet]:
    return {s.key: s for s in fit_papers.drawings(wren, DrawingAsk(), DAY)}


@pytest.fixture(scope="module")
def bare() -> dict[str, FitSheet]:
    return {s.key: s for s in fit_papers.drawings(opened(BARE), DrawingAsk("A4"), DAY)}


def words(made: FitSheet) -> list[str]:
    return [m.text for m in all_marks(made.sheet) if isinstance(m, Words)]


def dimensions(made: FitSheet) -> list[tuple[str, float]]:
    """What a drawing program measures in the file: text and length of every dimension (mm)."""
    document = ezdxf.read(io.StringIO(fit_papers.drawing_dxf(made).decode()))
    found = []
    for entity in document.modelspace().query("DIMENSION"):
        measured = entity.get_measurement()
        value = measured if isinstance(measured, float) else abs(measured.x)
        found.append((str(entity.dxf.text), value))
    return found


def test_seven_sheets_and_nothing_overlaps(sheets: dict[str, FitSheet]) -> None:
    assert list(sheets) == list(MAKERS)
    assert {k: faults(s.sheet) for k, s in sheets.items() if faults(s.sheet)} == {}
    assert all(EMPTY_LINES in words(s) for s in sheets.values())


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("text", [WREN, BARE], ids=["measured", "bare"])
def test_nothing_overlaps_on_small_paper(text: str, paper: Any) -> None:
    for projection in ("third", "first"):
        ask = DrawingAsk(paper, projection, 0.8)  # type: ignore[arg-type]
        for made in fit_papers.drawings(opened(text), ask, DAY):
            assert faults(made.sheet) == [], made.key


def test_the_file_measures_what_the_study_found(
    wren: Resolved, sheets: dict[str, FitSheet]
) -> None:
    """Read back by an open library: the lengths of the order, in millimeters."""
    order = {o.key: o.finding.value * 1000.0 for o in fits.fit(wren).order if o.finding}
    for key, name in (
        ("housing", "housing_left"), ("housing", "housing_right"), ("housing", "housing_width"),
        ("shaft-left", "shaft_left"), ("shaft-right", "shaft_right"),
        ("section-left", "backspace"), ("section-right", "section"),
    ):  # fmt: skip
        near = [m for _, m in dimensions(sheets[key]) if abs(m - order[name]) < 1e-6]
        assert len(near) == 1, (key, name)


def test_clearances_of_the_section_are_those_of_the_study(
    wren: Resolved, sheets: dict[str, FitSheet]
) -> None:
    rooms = {r.key: r.clearance.value * 1000.0 for r in fits.fit(wren).rooms if r.clearance}
    for side in ("left", "right"):
        clear = [m for text, m in dimensions(sheets[f"section-{side}"]) if text.startswith("clear")]
        assert clear == pytest.approx([rooms[f"lip_ride_{side}"], rooms[f"inner_ride_{side}"]])


def test_a_spacer_moves_the_wheel_and_not_the_axle(wren: Resolved) -> None:
    made = opened(edit(WREN, "ends.spacer", "0.25 in"))
    rooms = {r.key: r.clearance.value * 1000.0 for r in fits.fit(made).rooms if r.clearance}
    sheet = fit_papers.drawing(made, "section-left", DrawingAsk(), DAY)
    clear = [m for text, m in dimensions(sheet) if text.startswith("clear")]
    assert clear == pytest.approx([rooms["lip_ride_left"], rooms["inner_ride_left"]])


def test_perches_stand_where_the_car_wants_them(sheets: dict[str, FitSheet]) -> None:
    """By hand: rails 44 in apart, faces 8 in outside of them, seats 9 in inside of the faces: 21 in
    from the middle; the cross pin stands half an inch to the right."""
    found = sorted(m / INCH for text, m in dimensions(sheets["housing"]) if 500.0 < m < 560.0)
    assert found == pytest.approx([20.5, 21.5], abs=0.06)


def test_no_assumed_figure_is_printed() -> None:
    """Every size that nobody knows: neither its millimeters nor its inches stand on any sheet."""
    build = opened(BARE)
    parts = parts_of(build)
    unknown = {n: s.value * 1000.0 for n, s in parts.sizes.items() if not s.known and s.value}
    assert len(unknown) > 8
    known = {round(s.value * 1000.0, 1) for s in parts.sizes.values() if s.known}
    said = " ".join(w for s in fit_papers.drawings(build, DrawingAsk(), DAY) for w in words(s))
    numbers = set(said.replace("[", " ").replace("]", " ").split())
    for name, value in unknown.items():
        if round(value, 1) not in known and name not in {"stud_count", "spline_teeth"}:
            assert figure(value, 1) not in numbers, name
            assert figure(value / INCH, 3, zero=False) not in numbers, name


def test_a_bare_build_gives_forms_and_no_files(bare: dict[str, FitSheet]) -> None:
    for key, made in bare.items():
        assert made.waits, key
        assert FORM in words(made), key
        assert key == "side" or any(BLANK in w for w in words(made)), key
        with pytest.raises(ValueError, match="missing are"):
            fit_papers.drawing_dxf(made)


def test_what_may_not_be_ordered_yet_says_so(sheets: dict[str, FitSheet]) -> None:
    for key in ("housing", "shaft-left", "shaft-right", "driveshaft"):
        assert NOT_YET in words(sheets[key]) and NOT_YET in sheets[key].sheet.cautions


def test_what_is_there_releases_a_sheet(wren: Resolved) -> None:
    ask = fits.read_fit_ask(
        ["brake size", "wheels and tires", "brakes", "housing ends", "shaft spline"]
    )
    made = fit_papers.drawing(wren, "housing", DrawingAsk(fit=ask), DAY)
    assert next(h for h in fits.fit(wren, ask).holds if h.item == "housing").now
    assert NOT_YET not in words(made) and made.sheet.cautions == ()


def test_the_file_warns_whoever_opens_the_part_only(sheets: dict[str, FitSheet]) -> None:
    """In model space, where no note of the sheet is seen."""
    document = ezdxf.read(io.StringIO(fit_papers.drawing_dxf(sheets["housing"]).decode()))
    said = [str(t.dxf.text) for t in document.modelspace().query("TEXT")]
    assert said.count(NOT_YET) == 1


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [("fit.left.lip", "9 3/8 in", CONTRADICT), ("fit.state", "hanging", HANGING)],
)
def test_readings_that_cannot_be_trusted_stop_every_sheet(key: str, typed: str, said: str) -> None:
    for made in fit_papers.drawings(opened(edit(WREN, key, typed)), DrawingAsk("letter"), DAY):
        assert said in words(made) and said in made.sheet.cautions
        assert made.waits[0].startswith("readings")
        assert faults(made.sheet) == []


def test_a_side_that_was_not_measured_stays_open_alone() -> None:
    text = edit(WREN, "fit.left.lip", None)
    text = edit(edit(text, "fit.lip_to_lip", None), "centre.face_to_face", "59 1/4 in")
    found = fit_papers.waiting(opened(text))
    assert found["section-left"] == ("fender lip",)
    assert found["section-right"] == ()


def test_ends_that_differ_are_left_open() -> None:
    text = edit(WREN, "ends.left.bearing_bore", "3.05 in")
    made = fit_papers.drawing(opened(text), "housing", DrawingAsk(), DAY)
    bore = [t for t, m in dimensions(made) if "%%c" in t and "tube" not in t and m < 82.0]
    assert bore and all(BLANK in t for t in bore)


def test_the_general_tolerance_is_what_was_agreed(wren: Resolved) -> None:
    general = fit_papers.read_general("± 1/32 in")
    assert general == pytest.approx(INCH / 32)
    made = fit_papers.drawing(wren, "shaft-left", DrawingAsk(general=general), DAY)
    assert "±0.8 mm [±.031 in]" in words(made)
    assert fit_papers.read_general("  ") is None
    for wrong in ("3 lb", "2 m", "-1 mm"):
        with pytest.raises(ValueError, match="general tolerance"):
            fit_papers.read_general(wrong)


def test_the_pdf_has_one_page_a_sheet_at_full_size(wren: Resolved) -> None:
    """A3 is 420 by 297 mm (ISO 216); a point is 1/72 in."""
    pages = pypdf.PdfReader(io.BytesIO(fit_papers.drawing_pdf(wren, DrawingAsk(), DAY))).pages
    assert len(pages) == len(MAKERS)
    for page in pages:
        sizes = [float(v) * INCH / 72.0 for v in (page.mediabox.width, page.mediabox.height)]
        assert sizes == pytest.approx([420.0, 297.0], abs=0.1)


def test_files_are_written_and_what_waits_is_told(tmp_path: Path, wren: Resolved) -> None:
    written, waiting = fit_papers.write_drawings(wren, DrawingAsk(), tmp_path / "out", DAY)
    assert waiting == () and all(p.exists() for p in written)
    assert [p.name for p in written] == ["drawings.pdf", *(f"{key}.dxf" for key in MAKERS)]
    written, waiting = fit_papers.write_drawings(opened(BARE), DrawingAsk(), tmp_path / "b", DAY)
    assert [p.name for p in written] == ["drawings.pdf"]
    assert {w.key for w in waiting} == set(MAKERS)


def test_the_same_sheet_gives_the_same_bytes(wren: Resolved, sheets: dict[str, FitSheet]) -> None:
    again = fit_papers.drawing(wren, "housing", DrawingAsk(), DAY)
    assert fit_papers.drawing_dxf(again) == fit_papers.drawing_dxf(sheets["housing"])
    assert fit_papers.drawing_svg(again) == fit_papers.drawing_svg(sheets["housing"])


# Sizes that nobody knows --------------------------------------------------------------------------


def test_a_hint_has_an_empty_line_for_its_figure() -> None:
    assert in_both(hint(25.4)) == f"{BLANK} [{BLANK} in]"
    assert angle_line(math.radians(3.0), UNKNOWN) == f"{BLANK}°"
    assert in_words(hint(25.4)) == "a length not known yet"
    assert in_words(size(10.0), size(15.0)) == "25.0 mm"


def test_one_unknown_size_makes_the_whole_unknown() -> None:
    for a, b in itertools.product((size(1.0), hint(1.0)), repeat=2):
        assert is_known(a, b) == (a.tolerance is None and b.tolerance is None)
    assert is_known(Size(1.0))


def test_known_is_what_was_measured_or_stated(wren: Resolved) -> None:
    parts = parts_of(wren)
    assert parts.sizes["rim_width"].known and parts.sizes["housing_tube"].known
    # the class of studs says no circle, the class of gears an offset in limits only
    assert not parts.sizes["stud_circle"].known and not parts.sizes["gear_offset"].known
    stated = parts_of(opened(edit(WREN, "wheels.stud_circle", "4.75 in")))
    assert stated.sizes["stud_circle"].known


def test_a_tire_known_by_its_number_only_is_not_known() -> None:
    text = edit(edit(WREN, "wheel.section", None), "wheel.diameter", None)
    parts = parts_of(opened(text))
    assert not parts.sizes["tire_section"].known and not parts.sizes["tire_diameter"].known
    assert "width of the mounted tire" in fit_papers.waiting(opened(text))["section-left"]
    # a width that was found for such a tire is a first idea, nothing to cut by
    assert not parts.sizes["order_housing_left"].known
    assert "left half of the housing" in fit_papers.waiting(opened(text))["housing"]


def test_a_usual_class_is_a_guess() -> None:
    """Parts that nobody named: their sizes are those of the usual class, and stay empty."""
    text = WREN
    for key in (
        "driveshaft.joint", "driveshaft.tube_diameter", "wheels.studs", "axle.tube_diameter",
        "engine.rev_limit",
    ):  # fmt: skip
        text = edit(text, key, None)
    build = opened(text)
    parts = parts_of(build)
    for name in ("joint_span", "driveshaft_tube", "stud_diameter", "housing_tube"):
        assert not parts.sizes[name].known, name
    assert [parts.words[n] for n in ("joint", "stud_thread", "shaft_top")] == ["", "", ""]
    shaft = fit_papers.drawing(build, "shaft-left", DrawingAsk(), DAY)
    assert f"{BLANK} × {BLANK}" in words(shaft)


def test_perches_are_open_where_the_middle_is_only_assumed() -> None:
    text = WREN
    for key in ("fit.rail_to_rail", "fit.left.rail", "fit.right.rail"):
        text = edit(text, key, None)
    parts = parts_of(opened(text))
    assert not parts.sizes["seat_left"].known and not parts.sizes["seat_right"].known
    assert "seat on tube, left" not in words(
        fit_papers.drawing(opened(text), "housing", DrawingAsk(), DAY)
    )
