"""Pictures: well-formed, complete, the same every time, and every text inside its room."""

from __future__ import annotations

import importlib.util
import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.drawing import palette, parts
from axlewright.drawing.charts import LIMITS, in_order, limits_of, margins_chart, torque_by_gear
from axlewright.drawing.fonts import missing, shorten, text_width
from axlewright.drawing.load_path import REACTION, load_path
from axlewright.drawing.marks import (
    MARKS,
    dots,
    hatch,
    margin_bar,
    margin_text,
    patterned,
    state_of,
)
from axlewright.drawing.primitives import (
    Arc,
    Circle,
    Drawing,
    Group,
    Line,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
    bounds,
    flat,
)
from axlewright.drawing.scales import amount_scale, margin_scale
from axlewright.drawing.svg import to_svg
from axlewright.quantities.finding import Finding
from axlewright.workshop import bench

_SPEC = importlib.util.spec_from_file_location(
    "sample_reports", Path(__file__).with_name("sample_reports.py")
)
assert _SPEC is not None and _SPEC.loader is not None
samples = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(samples)

ROOT = Path(__file__).resolve().parents[2]
SVG = "{http://www.w3.org/2000/svg}"


def _drawings() -> dict[str, Drawing]:
    found = {}
    for kind, report in (("plain", samples.report()), ("long", samples.long_names())):
        found[f"path-{kind}"] = load_path(report)
        found[f"margins-{kind}"] = margins_chart(report)
        found[f"gears-{kind}"] = torque_by_gear(report.gears, report.name)
    return found


DRAWINGS = _drawings()
each = pytest.mark.parametrize("drawing", DRAWINGS.values(), ids=DRAWINGS.keys())


@each
def test_svg_is_plain_and_says_what_it_is(drawing: Drawing) -> None:
    text = to_svg(drawing, "p1")
    root = ET.fromstring(text)
    assert root.tag == f"{SVG}svg"
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and title.text == drawing.title
    assert desc is not None and desc.text == drawing.description
    assert root.get("aria-labelledby") == "p1-title p1-desc"
    ids = [e.get("id") for e in root.iter() if e.get("id") is not None]
    assert len(ids) == len(set(ids))
    assert all(str(i).startswith("p1-") for i in ids)
    assert not any(e.get("style") for e in root.iter())
    assert "var(" not in text and "url(" not in text and "nan" not in text.split("<desc")[0]


@each
def test_every_text_fits_its_room_and_the_sheet(drawing: Drawing) -> None:
    texts = [s for s in flat(drawing.shapes) if isinstance(s, Text)]
    assert len(texts) > 10
    for text in texts:
        assert text.room is None or text.width <= text.room + 1e-9, text
        left, top, right, bottom = bounds(text)
        assert left >= 0 and right <= drawing.width and top >= 0 and bottom <= drawing.height, text


@each
def test_every_shape_is_on_the_sheet(drawing: Drawing) -> None:
    left, top, right, bottom = bounds(Group(drawing.shapes))
    assert left >= 0 and top >= -0.1 and right <= drawing.width and bottom <= drawing.height


@each
def test_no_two_texts_overlap(drawing: Drawing) -> None:
    boxes = [bounds(s) for s in flat(drawing.shapes) if isinstance(s, Text)]
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            across = min(a[2], b[2]) - max(a[0], b[0])
            down = min(a[3], b[3]) - max(a[1], b[1])
            assert across <= 0.05 or down <= 0.75, (a, b)


@each
def test_the_font_has_every_sign(drawing: Drawing) -> None:
    used = "".join(s.text for s in flat(drawing.shapes) if isinstance(s, Text))
    assert missing(used) == set()


def test_a_picture_is_the_same_every_time() -> None:
    one = to_svg(load_path(samples.report()), "a")
    assert one == to_svg(load_path(samples.report()), "a")
    assert one != to_svg(load_path(samples.report()), "b")


def test_prefix_must_start_an_id() -> None:
    with pytest.raises(ValueError, match="cannot start an id"):
        to_svg(DRAWINGS["path-plain"], "1 bad")


def test_every_link_has_its_line_and_its_number() -> None:
    report = samples.report()
    root = ET.fromstring(to_svg(load_path(report), "p"))
    for number, link in enumerate(report.links, start=1):
        line = root.find(f".//{SVG}g[@id='p-link-{link.link}']")
        assert line is not None, link.link
        words = [t.text for t in line.iter(f"{SVG}text")]
        assert str(number) in words and link.title in words
        margin = link.breaks or link.gives
        if margin is not None:
            assert margin_text(margin.margin.value) in words


def test_only_the_weakest_goes_first() -> None:
    root = ET.fromstring(to_svg(load_path(samples.report()), "p"))
    said = {
        g.get("id"): " ".join(t.text or "" for t in g.iter(f"{SVG}text"))
        for g in root.iter(f"{SVG}g") if (g.get("id") or "").startswith("p-link-")
    }  # fmt: skip
    assert [i for i, words in said.items() if "goes first" in words] == ["p-link-axle_shaft"]


def test_every_known_link_has_a_place_on_the_picture() -> None:
    known = {x.link for x in samples.links()}
    assert known <= set(parts.PLACES)
    assert set(parts.PLACES) >= REACTION
    for place in parts.PLACES.values():
        for x, y in (place.target, place.balloon):
            assert 0 <= x <= parts.WIDTH and 0 <= y <= parts.HEIGHT


def test_balloons_do_not_touch() -> None:
    places = [p.balloon for k, p in parts.PLACES.items() if k not in {"converter", "axle_shaft"}]
    gaps = [math.dist(a, b) for i, a in enumerate(places) for b in places[i + 1 :]]
    assert min(gaps) > 5.5


def test_two_sides_get_two_lines() -> None:
    sample = samples.report()
    shaft = next(x for x in sample.links if x.link == "axle_shaft")
    sides = tuple(
        replace(shaft, link=f"axle_shaft.{side}", title=f"Axle shaft, {side}")
        for side in ("left", "right")
    )
    others = tuple(x for x in sample.links if x.link != "axle_shaft")
    report = replace(
        sample, links=others[:9] + sides + others[9:],
        verdict=replace(sample.verdict, weakest="axle_shaft.left"),
    )  # fmt: skip
    text = to_svg(load_path(report), "p")
    assert 'id="p-link-axle_shaft-left"' in text and 'id="p-link-axle_shaft-right"' in text
    # Beside its balloon, on two lines where balloons stand in a column; its line says "short, …".
    assert text.count(">goes</text>") == text.count(">first</text>") == 1


def test_a_converter_takes_the_place_of_the_clutch() -> None:
    sample = samples.report()
    links = tuple(
        replace(x, link="converter", title="Converter") if x.link == "clutch" else x
        for x in sample.links
    )
    drawn = load_path(replace(sample, links=links))
    clutch = load_path(sample)
    assert ">Converter<" in to_svg(drawn, "p")
    assert drawn.shapes != clutch.shapes


@pytest.mark.parametrize("name", ["tin-pelican-tired", "tin-pelican-upgraded"])
def test_a_real_automatic_is_drawn_with_its_converter(name: str) -> None:
    report = bench.check(bench.open_build(ROOT / "examples" / f"{name}.toml"), 1, 100)
    links = [x.link for x in report.links]
    assert "converter" in links and "clutch" not in links
    assert {x.split(".")[0] for x in links} <= set(parts.PLACES)
    drawn = parts.picture({"converter": "#123456"})
    painted = [s for s in flat(drawn) if isinstance(s, Rect) and s.look.fill == "#123456"]
    assert len(painted) == 1 and painted[0].round > 0
    root = ET.fromstring(to_svg(load_path(report), "p"))
    line = root.find(f".//{SVG}g[@id='p-link-converter']")
    assert line is not None


def test_the_picture_of_the_documentation_stands_on_white() -> None:
    root = ET.parse(ROOT / "docs" / "pictures" / "load-path.svg").getroot()
    ground = next(e for e in root if e.tag not in {f"{SVG}title", f"{SVG}desc"})
    assert ground.tag == f"{SVG}rect" and ground.get("fill") == palette.PAPER
    _, _, width, height = (root.get("viewBox") or "").split()
    assert (ground.get("width"), ground.get("height")) == (width, height)
    for name in ("paper-page-1.png", "limit-card.png"):
        assert 20_000 < (ROOT / "docs" / "pictures" / name).stat().st_size <= 150_000


def test_margins_of_every_size_can_be_drawn() -> None:
    odd = (0.0, 0.003, 0.9999, 1.0, 55.0, math.inf, math.nan)
    sample = samples.report()
    links = []
    for value, link in zip(odd, sample.links[1:], strict=False):
        assert link.breaks is not None
        wild = Finding("x", "margin", value, value * 0.5, value * 2, "ratio")
        links.append(replace(link, breaks=replace(link.breaks, margin=wild)))
    report = replace(sample, links=tuple(links))
    for drawing in (load_path(report), margins_chart(report)):
        ET.fromstring(to_svg(drawing, "p"))
        left, _, right, _ = bounds(Group(drawing.shapes))
        assert left >= 0 and right <= drawing.width


def test_states() -> None:
    good = Finding("m", "margin", 1.4, 1.2, 1.6, "ratio")
    assert state_of(good, "unlikely") == "holds"
    assert state_of(good, "possible") == "possible"
    assert state_of(good, "likely") == "short"
    assert state_of(replace(good, value=0.99), "unlikely") == "short"
    assert state_of(replace(good, value=math.nan), "unlikely") == "unknown"
    assert state_of(None, None) == "unknown"


@given(st.floats(0.0, 9.99))
def test_a_margin_is_never_rounded_across_one(value: float) -> None:
    shown = float(margin_text(value))
    assert (shown < 1) == (value < 1)
    assert shown == pytest.approx(value, abs=0.051 if value >= 3 else 0.0051)


@given(st.floats(0.05, 20), st.floats(0.05, 20))
def test_margin_axis_keeps_order_and_stays_inside(a: float, b: float) -> None:
    scale = margin_scale([a, b], 10.0, 90.0)
    low, high = sorted((a, b))
    assert 10.0 <= scale.at(low) <= scale.at(high) <= 90.0
    assert scale.low <= 0.5 and scale.high >= 3.0 and 1.0 in scale.ticks


@given(st.floats(1e-3, 1e7))
def test_amount_axis_reaches_over_the_most(most: float) -> None:
    scale = amount_scale(most, 0.0, 100.0)
    assert scale.high >= most * (1 - 1e-6)
    assert 3 <= len(scale.ticks) <= 7
    assert scale.ticks[-1] == pytest.approx(scale.high)


@given(st.floats(1, 60), st.floats(1, 6))
def test_patterns_stay_in_their_box(width: float, height: float) -> None:
    box = (5.0, 7.0, 5.0 + width, 7.0 + height)
    shapes: list[Shape] = [*hatch(box, palette.INK), *dots(box, palette.INK)]
    for shape in shapes:
        left, top, right, bottom = bounds(shape)
        assert left >= box[0] - 1e-9 and right <= box[2] + 1e-9
        assert top >= box[1] - 1e-9 and bottom <= box[3] + 1e-9


def test_each_state_has_its_own_pattern() -> None:
    kinds = set()
    for state in MARKS:
        shapes = patterned((0, 0, 10, 3), state)
        frame = shapes[0]
        assert isinstance(frame, Rect)
        solid = frame.look.fill == MARKS[state].ink
        inside = type(shapes[1]).__name__ if len(shapes) > 1 else ""
        kinds.add((solid, bool(frame.look.dash), inside))
    assert len(kinds) == len(MARKS)


def test_inks_can_be_read() -> None:
    assert palette.contrast("#000000", "#ffffff") == pytest.approx(21.0)
    for mark in MARKS.values():
        for ground in (palette.PAPER, mark.tint):
            assert palette.contrast(mark.ink, ground) >= 4.5
        assert palette.contrast(palette.INK, mark.tint) >= 7
    assert palette.contrast(palette.MUTED, palette.SHORT_TINT) >= 4.5


def test_bars_show_what_lies_off_the_axis() -> None:
    scale = margin_scale([1.0], 10.0, 90.0)
    inside = margin_bar(Finding("", "", 1.0, 0.8, 1.2, "ratio"), "holds", scale, 0, 3)
    beyond = margin_bar(Finding("", "", 5.0, 0.01, 50.0, "ratio"), "holds", scale, 0, 3)
    arrows = [sum(isinstance(s, Polygon) for s in g.shapes) for g in (inside, beyond)]
    assert arrows == [0, 2]


def test_gears_without_limits_show_the_ring_gear_alone() -> None:
    sample = samples.report()
    bare = [replace(g, torques={"ring": g.torques["ring"]}) for g in sample.gears]
    assert limits_of(sample.gears) == LIMITS
    assert list(limits_of(bare)) == ["ring"]
    text = to_svg(torque_by_gear(bare, "x"), "g")
    assert "grip governs" in text and "engine governs" in text
    with pytest.raises(ValueError, match="no gear tells its torque"):
        torque_by_gear([replace(g, torques={}) for g in sample.gears], "x")


def test_order_of_weakness_keeps_every_link() -> None:
    report = samples.report()
    ordered = in_order(report)
    assert ordered[0].link == report.verdict.weakest
    assert {x.link for x in ordered} == {x.link for x in report.links}


def test_every_kind_of_shape_is_drawn() -> None:
    shapes: tuple[Shape, ...] = (
        Line((0, 0), (1, 1)), Polyline(((0, 0), (1, 0), (1, 1))), Polygon(((0, 0), (1, 0), (1, 1))),
        Rect((0, 0), 1, 1), Circle((1, 1), 1), Arc((1, 1), 1, 0, 4),
        Text((0, 3), "<&>", full="a&b"),
    )  # fmt: skip
    group = Group(shapes, id="g", title="A & B")
    assert bounds(group)[:2] == (0, 0) and bounds(group)[2] > 5
    assert bounds(shapes[5]) == (0, 0, 2, 2)
    text = to_svg(Drawing(9, 9, "t", "d", (group,)), "p")
    ET.fromstring(text)
    assert "&lt;&amp;&gt;" in text and "A 1 1 0 1 1" in text


def test_font_widths_are_those_of_the_font() -> None:
    tools = pytest.importorskip("fontTools.ttLib")
    for weight in ("Regular", "SemiBold", "Bold"):
        path = files("axlewright.drawing.fonts") / f"AxlewrightSans-{weight}.otf"
        font = tools.TTFont(str(path))
        assert Path(str(path)).stat().st_size < 120_000
        cmap, widths = font.getBestCmap(), font["hmtx"]
        text = "Torque 1,234 lb·ft ± 5 % → σ ≤ τ_y ½"
        expected = sum(widths[cmap[ord(c)]][0] for c in text) / font["head"].unitsPerEm
        assert text_width(text, 3.0, weight) == pytest.approx(3.0 * expected)
        assert font["name"].getDebugName(16 if weight == "SemiBold" else 1) == "Axlewright Sans"


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=50), st.floats(8, 80))
def test_shortened_text_fits(text: str, width: float) -> None:
    short = shorten(text, 3.0, width)
    assert text_width(short, 3.0) <= width
    assert short == text or text.startswith(short[:-1])
