"""Sheets: nothing overlaps, figures say what is drawn, unknown fields stay empty."""

from __future__ import annotations

import importlib.util
import io
import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.drawing.dimensions import (
    Aligned,
    Angular,
    Diameter,
    Linear,
    Ordinate,
    Radius,
    Size,
    Tolerance,
    limits,
    size,
)
from axlewright.drawing.dimensions_base import Place
from axlewright.drawing.dimensions_lines import drawn
from axlewright.drawing.dimensions_text import (
    angle_line,
    decimals_for,
    figure,
    in_both,
    length_lines,
    lines_of,
    one_line,
    written,
)
from axlewright.drawing.fonts import missing
from axlewright.drawing.hatch import hatch_lines
from axlewright.drawing.parts_housing import housing_drawing
from axlewright.drawing.parts_shaft import shaft_drawing
from axlewright.drawing.primitives import Text, bounds, flat
from axlewright.drawing.sheet import PAPERS, SCALES, View, view_box
from axlewright.drawing.sheet_faults import CROWDED, all_marks, checked, faults
from axlewright.drawing.sheet_layout import Wanted, in_row
from axlewright.drawing.sheet_marks import HEIGHT, LINES, Blot, Ring, Stroke, Words
from axlewright.drawing.sheet_svg import sheet_drawing
from axlewright.drawing.svg import to_svg
from axlewright.drawing.title_block import CHECK, TitleBlock, cone, fields, general_text


def _beside(name):
    path = Path(__file__).with_name(f"{name}.py")
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


parts = _beside("sheet_parts")
SVG = "{http://www.w3.org/2000/svg}"
SHEETS = parts.sheets()
each = pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("projection", ["first", "third"])
@pytest.mark.parametrize("name", SHEETS)
def test_nothing_overlaps_and_all_is_inside_the_frame(paper, projection, name):
    heading = replace(parts.HEADING, paper=paper, projection=projection)
    assert faults(parts.MADE[name](heading)) == []


def test_the_check_of_overlaps_finds_them():
    sheet = SHEETS["shaft-left"]
    view = sheet.views[0]
    doubled = replace(view, origin=(view.origin[0] + 4.0, view.origin[1]))
    found = faults(replace(sheet, views=(*sheet.views, doubled)))
    assert any(" over " in f for f in found) and any("on a line" in f for f in found)
    assert checked(replace(sheet, views=(*sheet.views, doubled))).cautions == (CROWDED,)
    assert checked(sheet) == sheet
    outside = replace(sheet, views=(replace(view, origin=(400.0, 100.0)),))
    assert any("outside" in f for f in faults(outside))


@each
def test_svg_passes_the_rules_of_page_and_paper(sheet):
    drawing = sheet_drawing(sheet)
    text = to_svg(drawing, "sheet")
    root = ET.fromstring(text)
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids)) and all(i.startswith("sheet-") for i in ids)
    assert not any(e.get("style") for e in root.iter())
    assert "var(" not in text and "url(" not in text and "nan" not in text.split("<desc")[0]
    assert (drawing.width, drawing.height) == (sheet.paper.width, sheet.paper.height)
    assert drawing.title and drawing.description
    assert text == to_svg(sheet_drawing(sheet), "sheet")


@each
def test_words_can_be_read_on_paper(sheet):
    words = [m for m in all_marks(sheet) if isinstance(m, Words)]
    assert len(words) > 20
    assert min(w.height for w in words) >= 2.5
    assert missing("".join(w.text for w in words)) == set()
    texts = [s for s in flat(sheet_drawing(sheet).shapes) if isinstance(s, Text)]
    assert len(texts) == len(words)
    assert all(bounds(t)[0] >= 0.0 and bounds(t)[2] <= sheet.paper.width for t in texts)


@each
def test_every_length_is_written_in_both_units(sheet):
    count = 0
    for view in sheet.views:
        for dimension in view.dimensions:
            said = lines_of(dimension, sheet.general)
            count += 1
            if isinstance(dimension, Angular):
                assert "°" in said[0] and len(said) == 1
            else:
                assert said[1].startswith("[") and said[1].endswith(" in]")
                assert " mm [" in one_line(dimension, sheet.general)
    assert count >= 2


@pytest.mark.parametrize("name", ["housing-down", "section-left"])
def test_a_paper_takes_the_sheet(name, tmp_path):
    """Set by the same program as the papers: ink stands where the sheet has its frame and words."""
    typst, image = pytest.importorskip("typst"), pytest.importorskip("PIL.Image")
    sheet = SHEETS[name]
    width, height = sheet.paper.width, sheet.paper.height
    (tmp_path / "sheet.svg").write_text(to_svg(sheet_drawing(sheet), "s"), encoding="utf-8")
    page = f"#set page(width: {width}mm, height: {height}mm, margin: 0mm)"
    (tmp_path / "page.typ").write_text(f'{page}\n#image("sheet.svg")', encoding="utf-8")
    ppi = 72.0
    data = typst.compile(tmp_path / "page.typ", format="png", ppi=ppi)
    picture = image.open(io.BytesIO(data)).convert("L")
    assert picture.width == pytest.approx(width / 25.4 * ppi, abs=1.0)
    left, bottom, _, top = sheet.paper.inner
    x, y = left / 25.4 * ppi, (height - 0.5 * (bottom + top)) / 25.4 * ppi
    frame = [picture.getpixel((round(x) + i, round(y))) for i in (-1, 0, 1)]
    assert min(frame) < 100 and picture.getpixel((round(0.5 * x), round(y))) == 255


def _values(sheet):
    return [d.value for v in sheet.views for d in v.dimensions]


def _has(sheet, value):
    return any(math.isclose(v, value, abs_tol=1e-9) for v in _values(sheet))


def test_the_shaft_is_dimensioned_as_it_was_given():
    part, sheet = parts.shaft("left"), SHEETS["shaft-left"]
    for given_size in (
        part.length, part.flange_diameter, part.flange_thickness, part.register_diameter,
        part.register_height, part.bolt_circle, part.seat_diameter, part.seat_start,
        part.seat_length, part.body_diameter, part.spline.length, part.spline.engagement,
        part.spline.major_diameter,
    ):  # fmt: skip
        assert _has(sheet, given_size.value), given_size
    rows = dict(sheet.tables[0].rows)
    assert rows["Teeth"] == "31" and rows["Pitch"] == "24/48"
    assert rows["Root and fit"] == "fillet root, side fit"


def test_left_and_right_shafts_are_two_sheets():
    left, right = SHEETS["shaft-left"], SHEETS["shaft-right"]
    assert "LEFT" in left.title.part and "RIGHT" in right.title.part
    assert _has(left, 31.25 * 25.4) and not _has(right, 31.25 * 25.4)


@pytest.mark.parametrize("name", ["housing-down", "housing-up"])
def test_the_housing_is_dimensioned_as_it_was_given(name):
    part = parts.housing(-2.0 * parts.DEGREE if name == "housing-down" else 3.0 * parts.DEGREE)
    sheet = SHEETS[name]
    whole = part.left.value + part.right.value
    for value in (
        part.left.value, part.right.value, whole, part.tube_diameter.value, part.nose.value,
        part.pinion_to_left.value, part.pinion_below.value, abs(part.pinion_angle.value),
        part.end.bolts_across.value, part.end.bolts_up.value, part.end.bore.value,
        *(abs(b.where.value) for b in part.brackets),
    ):  # fmt: skip
        assert _has(sheet, value), value
    said = [line for v in sheet.views for d in v.dimensions for line in lines_of(d, 0.5)]
    word = "nose down" if name == "housing-down" else "nose up"
    assert any(line.startswith(word) for line in said)


def test_a_housing_without_offset_or_angle_is_drawn_too():
    bare = replace(
        parts.housing(0.0), pinion_to_left=size(0.0), pinion_below=size(0.0), brackets=()
    )
    sheet = housing_drawing(bare, parts.HEADING)
    assert faults(sheet) == []
    assert not any(isinstance(d, Angular) for v in sheet.views for d in v.dimensions)


def test_the_clearances_follow_from_the_section():
    part, sheet = parts.section(), SHEETS["section-left"]
    middle = 5.5 * 25.4 - 5.0 * 25.4
    assert part.outer_clearance == pytest.approx(160.0 - 137.5 + middle)
    assert part.inner_clearance == pytest.approx(195.0 - 137.5 - middle)
    assert _has(sheet, part.outer_clearance) and _has(sheet, part.inner_clearance)
    assert sheet.cautions == ()


def test_what_touches_is_said_outright():
    sheet = SHEETS["section-right"]
    assert sheet.cautions == ("The tire stands out past the fender lip.",)
    words = [m.text for m in all_marks(sheet) if isinstance(m, Words)]
    assert any(w.startswith("OVERLAP 14.8") for w in words)
    assert sheet.cautions[0] in words


def test_the_side_view_shows_where_the_links_meet():
    sheet = SHEETS["side"]
    ahead, up = parts.side_view().instant_center
    assert _has(sheet, ahead) and _has(sheet, up) and _has(sheet, math.atan2(up, ahead))
    assert "parallel" in SHEETS["side-parallel"].cautions[0]


def test_a_far_instant_center_is_written_not_drawn():
    from axlewright.drawing.parts_side_view import side_view_drawing

    car = replace(parts.side_view(), instant_center=(9000.0, 620.0))
    sheet = side_view_drawing(car, parts.HEADING)
    assert "too far away" in sheet.cautions[0]
    assert any("9000.0, 620.0" in cell for row in sheet.tables[0].rows for cell in row)
    assert faults(sheet) == [] and not _has(sheet, 9000.0)


def test_the_driveshaft_is_dimensioned_as_it_was_given():
    part = parts.driveshaft()
    for stated in (part.center_to_center, part.tube_diameter, part.front_yoke, part.rear_yoke,
                   part.engaged, part.free, part.barrel):  # fmt: skip
        assert _has(SHEETS["driveshaft"], stated.value)
    assert _has(SHEETS["driveshaft-turned"], 12.0 * parts.DEGREE)


def test_unknown_fields_stay_empty():
    from axlewright.drawing.title_block import Heading

    sheet = shaft_drawing(replace(parts.shaft(), hardness="", material=""), Heading())
    given = [value for row in fields(sheet.title) for _, name, value in row
             if name in {"Build", "Revision", "Date", "Material", "Drawn", "Checked", "Approved",
                         "Unless stated"}]  # fmt: skip
    assert given == [""] * 8
    assert dict(sheet.tables[0].rows)["Hardness"] == ""
    names = [m.text for m in all_marks(sheet) if isinstance(m, Words)]
    assert {"Drawn:", "Checked:", "Approved:", CHECK} <= set(names)


def test_what_no_paper_takes_is_refused():
    long = replace(parts.housing(), left=size(9000.0), right=size(9000.0))
    with pytest.raises(ValueError, match="take larger paper"):
        housing_drawing(long, parts.HEADING)


def test_long_names_are_cut_to_their_field():
    heading = replace(parts.HEADING, build="a very long name of a build " * 6)
    sheet = shaft_drawing(parts.shaft(), heading)
    assert faults(sheet) == []
    cut = [m for m in all_marks(sheet) if isinstance(m, Words) and m.full]
    assert [w.full for w in cut] == [heading.build]


@pytest.mark.parametrize("projection", ["first", "third"])
def test_the_cone_stands_as_its_projection_says(projection):
    """Seen from the left, both circles show only if the small end is on the left (closed form)."""
    shapes = cone((0.0, 0.0), projection)
    trapezoid, rings = shapes[0], [s for s in shapes if isinstance(s, Ring)]
    small = min(trapezoid.points, key=lambda p: abs(p[1]))
    assert small[0] == min(p[0] for p in trapezoid.points)
    on_left = rings[0].center[0] < min(p[0] for p in trapezoid.points)
    assert on_left == (projection == "third") and len(rings) == 2


@pytest.mark.parametrize("projection", ["first", "third"])
def test_a_view_from_the_left_stands_on_its_side(projection):
    heading = replace(parts.HEADING, projection=projection)
    views = {v.key: v for v in parts.MADE["housing-down"](heading).views}
    on_left = views["side"].origin[0] < views["rear"].origin[0]
    assert on_left == (projection == "third")
    assert views["side"].origin[1] == views["rear"].origin[1]


def _bar(length: float, key: str = "bar") -> Wanted:
    """A wanted view of a bar as long as that, and a tenth as high."""
    marks = (Stroke(((0.0, 0.0), (length, 0.0), (length, 0.1 * length))),)
    return Wanted(lambda scale: View(key, "Bar", (0.0, 0.0), scale, marks))


@settings(max_examples=60)
@given(st.floats(10.0, 4000.0), st.floats(60.0, 400.0), st.floats(20.0, 200.0))
def test_the_largest_scale_that_fits_is_taken(length, wide, high):
    region = (20.0, 10.0, 20.0 + wide, 10.0 + high)

    def fits(scale: int) -> bool:
        return length <= (wide + 1e-6) * scale and 0.1 * length <= (high + 1e-6) * scale

    if not fits(SCALES[-1]):
        with pytest.raises(ValueError, match="larger paper"):
            in_row((_bar(length),), region, None)
        return
    (view,) = in_row((_bar(length),), region, None)
    assert fits(view.scale) and not any(fits(s) for s in SCALES if s < view.scale)
    box = view_box(view, None)
    assert box[0] >= 20.0 - 2e-6 and box[2] <= 20.0 + wide + 2e-6
    assert box[1] >= 10.0 - 2e-6 and box[3] <= 10.0 + high + 2e-6


@settings(max_examples=60)
@given(st.floats(50.0, 1500.0), st.floats(50.0, 400.0))
def test_views_in_a_row_keep_apart_and_off_what_is_taken(long, short):
    region, taken = (0.0, 0.0, 300.0, 150.0), (0.0, 0.0, 100.0, 60.0)
    views = in_row((_bar(short, "a"), _bar(long, "b")), region, None, (taken,), first=1)
    boxes = [view_box(v, None) for v in views]
    assert boxes[0][2] + 4.9 <= boxes[1][0]
    assert views[0].origin[1] == views[1].origin[1]
    for box in boxes:
        assert box[0] >= 100.0 or box[1] >= 60.0 - 1e-6


def test_values_come_from_the_points():
    assert Linear((0, 0), (3, 4), (0, 9)).value == 3.0
    assert Linear((0, 0), (3, 4), (9, 0), 0.5 * math.pi).value == pytest.approx(4.0)
    assert Aligned((0, 0), (3, 4), (0, 1)).value == 5.0
    assert Angular((0, 0), (1, 0), (0, 2), (1, 0)).value == pytest.approx(math.pi / 2)
    assert Angular((0, 0), (0, 2), (1, 0), (1, 0)).value == pytest.approx(1.5 * math.pi)
    assert Diameter((1, 1), 7.0, 0.0).value == 14.0 and Radius((1, 1), 7.0, 0.0).value == 7.0
    assert Ordinate((1, 1), (-5, 3), (-5, 9), "x").value == 6.0
    assert Ordinate((1, 1), (-5, 3), (9, 3), "y").value == 2.0


def test_figures_have_the_decimals_that_their_tolerance_needs():
    """By the rule in the module's head; inches divided by 25.4 by hand."""
    assert length_lines(1511.3, Tolerance(0.8, 0.8), None) == ("1511.3 ±0.8", "[59.500 ±.031 in]")
    assert length_lines(80.0, Tolerance(0.025, 0.0), None) == (
        "80.000 +0.025/0", "[3.1496 +.0010/0 in]"
    )  # fmt: skip
    assert length_lines(82.55, None, None) == ("82.6", "[3.250 in]")
    assert length_lines(82.55, None, 0.05) == ("82.55", "[3.2500 in]")
    assert angle_line(math.radians(-3.0), Tolerance(math.radians(0.25), math.radians(0.25))) == (
        "−3.00° ±0.25°"
    )
    assert in_both(None) == "" and in_both(limits(10.0, 12.0)) == "10.0 to 12.0 [.394 to .472 in]"
    assert figure(-0.001, 1) == "0.0" and figure(-0.5, 2, zero=False) == "−.50"
    assert [decimals_for(t) for t in (5.0, 1.0, 0.8, 0.25, 0.127, 0.013)] == [0, 1, 1, 2, 2, 3]


@settings(max_examples=200)
@given(st.floats(-3000.0, 3000.0), st.floats(1e-3, 20.0))
def test_what_is_written_is_what_is_meant(value, tolerance):
    text = written(value, Tolerance(tolerance, tolerance), 1).replace("−", "-")
    shown, _, either = text.partition(" ±")
    assert abs(float(shown) - value) <= 0.11 * tolerance
    assert abs(float(either) - tolerance) <= 0.05 * tolerance + 1e-9


@settings(max_examples=200)
@given(st.floats(0.0, 3000.0), st.floats(1e-3, 20.0))
def test_limits_are_rounded_inward(value, tolerance):
    text = written(value, Tolerance(tolerance, tolerance, limits=True), 1).replace("−", "-")
    low, high = (float(t) for t in text.split(" to "))
    slack = 1e-5 * 10.0 ** -decimals_for(tolerance)
    assert value - tolerance <= low + slack and high <= value + tolerance + slack


def test_senseless_sizes_are_refused():
    with pytest.raises(ValueError, match="no tolerance"):
        Tolerance(-0.1, 0.1)
    with pytest.raises(ValueError, match="no tolerance"):
        Tolerance(0.0, 0.0)
    with pytest.raises(ValueError, match="cannot be drawn"):
        Size(math.nan)


@given(st.floats(0.2, 300.0), st.floats(-math.pi, math.pi))
def test_arrows_touch_the_ends_of_what_they_measure(length, angle):
    end = (length * math.cos(angle), length * math.sin(angle))
    marks = drawn(Aligned((0.0, 0.0), end, (0.0, 0.0)), Place((50.0, 60.0), 0.5), None)
    tips = sorted(m.points[0] for m in marks if isinstance(m, Blot))
    ends = sorted([(50.0, 60.0), (50.0 + 0.5 * end[0], 60.0 + 0.5 * end[1])])
    assert len(tips) == 2
    for tip, point in zip(tips, ends, strict=True):
        assert math.dist(tip, point) < 1e-6 or math.dist(tip, ends[0]) < 1e-6


@given(st.floats(0.0, math.pi), st.floats(0.5, 4.0))
def test_hatch_stays_inside_and_fills(angle, spacing):
    """Length of the lines times their spacing is the area, but for the last line (closed form)."""
    box = ((0.0, 0.0), (40.0, 0.0), (40.0, 25.0), (0.0, 25.0))
    cut = hatch_lines(box, angle, spacing)
    for line in cut:
        for x, y in line:
            assert -1e-6 <= x <= 40.0 + 1e-6 and -1e-6 <= y <= 25.0 + 1e-6
    filled = spacing * sum(math.dist(a, b) for a, b in cut)
    assert abs(filled - 1000.0) <= spacing * 50.0


def test_hatch_leaves_holes_open():
    ring = ((0, 0), (10, 0), (10, 10), (0, 10), (0, 0), (3, 3), (3, 7), (7, 7), (7, 3), (3, 3))
    for (x1, y1), (x2, y2) in hatch_lines(ring, 0.0, 1.0):
        x, y = 0.5 * (x1 + x2), 0.5 * (y1 + y2)
        assert not (3 < x < 7 and 3 < y < 7)


def test_lines_have_two_widths_and_their_own_dashes():
    assert {k.width for k in LINES.values()} == {0.5, 0.25, 0.18}
    dashes = [k.dash for k in LINES.values() if k.dash]
    assert len(dashes) == len(set(dashes)) == 3
    assert HEIGHT >= 2.5


def test_general_tolerance_is_written_in_both_units():
    assert general_text(0.5) == "±0.5 mm [±.020 in]" and general_text(None) == ""
    assert TitleBlock("x").general is None
    assert isinstance(cone((0, 0), "first")[0], Stroke)
