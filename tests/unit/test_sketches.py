"""Measuring sketches: every reading shown once, numbers apart, nothing outside, marks in place."""

from __future__ import annotations

import itertools
import math
import re
import xml.etree.ElementTree as ET

import pytest

from axlewright.drawing.primitives import Circle, Line, Polygon, Text, bounds, flat
from axlewright.drawing.sketch_lines import BUBBLE, drawn, lines_of
from axlewright.drawing.sketch_marks import Along, Sketch, Span, Spot, Turn, mirrored, path
from axlewright.drawing.sketches import SKETCHES, pictures
from axlewright.drawing.svg import to_svg
from axlewright.measuring.worksheet import STAGES
from axlewright.papers.worksheet_paper import by_picture, rows_of

ALL = [s for of in SKETCHES.values() for s in of]
NAMES = [s.title for s in ALL]


def shown() -> dict[str, set[str]]:
    """Readings by picture, as the worksheet asks for them."""
    found: dict[str, set[str]] = {}
    for stage in STAGES:
        for picture, rows in by_picture(rows_of(stage)):
            found.setdefault(picture, set()).update(r.name for r in rows)
    return found


def test_every_reading_is_shown_and_nothing_else() -> None:
    wanted = shown()
    assert set(wanted) == set(SKETCHES)
    for picture, names in wanted.items():
        assert set().union(*(s.names for s in SKETCHES[picture])) == names, picture


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_a_reading_is_marked_once(sketch: Sketch) -> None:
    names = [m.name for m in sketch.marks]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_numbers_keep_apart_and_inside(sketch: Sketch) -> None:
    centers = {m.name: lines_of(m)[1] for m in sketch.marks}
    for (a, p), (b, q) in itertools.combinations(centers.items(), 2):
        assert math.dist(p, q) > 2.0 * BUBBLE + 0.2, (a, b)
    for name, (x, y) in centers.items():
        assert BUBBLE <= x <= sketch.width - BUBBLE, name
        assert BUBBLE <= y <= sketch.height - BUBBLE, name


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_words_keep_off_numbers_and_each_other(sketch: Sketch) -> None:
    numbers = {m.name: 88 for m in sketch.marks}
    shapes = list(flat(drawn(sketch, numbers).shapes))
    texts = [s for s in shapes if isinstance(s, Text) and s.text != "88"]
    bubbles = [s for s in shapes if isinstance(s, Circle) and s.radius == BUBBLE]
    boxes = {t.text: bounds(t) for t in texts}
    for text, (left, top, right, bottom) in boxes.items():
        assert left >= 0.0 and top >= 0.0, text
        assert right <= sketch.width and bottom <= sketch.height, text
        for bubble in bubbles:
            x, y = bubble.center
            near = (min(max(x, left), right), min(max(y, top), bottom))
            assert math.dist((x, y), near) > BUBBLE, text
    for (a, p), (b, q) in itertools.combinations(boxes.items(), 2):
        apart = p[2] <= q[0] or q[2] <= p[0] or p[3] <= q[1] or q[3] <= p[1]
        assert apart, (a, b)


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_no_dimension_line_runs_through_words(sketch: Sketch) -> None:
    """Each line of a mark, walked in small steps, stays out of the box of every word."""
    height = sketch.height
    texts = [s for s in drawn(sketch, {}).shapes if isinstance(s, Text)]
    lines = [s for m in sketch.marks for s in lines_of(m)[0] if isinstance(s, Line)]
    for text in texts:
        left, top, right, bottom = bounds(text)
        for line in lines:
            (ax, ay), (bx, by) = line.start, line.end
            for i in range(201):
                x = ax + (bx - ax) * i / 200
                y = height - (ay + (by - ay) * i / 200)
                assert not (left < x < right and top < y < bottom), (text.text, line)


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_everything_stays_on_the_sketch(sketch: Sketch) -> None:
    for shape in flat(drawn(sketch, {m.name: 1 for m in sketch.marks}).shapes):
        left, top, right, bottom = bounds(shape)
        assert -0.01 <= left <= right <= sketch.width + 0.01, shape
        assert -0.01 <= top <= bottom <= sketch.height + 0.01, shape


def test_only_what_is_asked_for_has_a_number() -> None:
    (only,) = pictures("slip", {"gap": 7})
    assert [s.text for s in flat(only.shapes) if isinstance(s, Text) and s.text.isdigit()] == ["7"]
    assert pictures("slip", {"something else": 1}) == ()


@pytest.mark.parametrize("sketch", ALL, ids=NAMES)
def test_a_sketch_says_what_it_shows(sketch: Sketch) -> None:
    svg = to_svg(drawn(sketch, {m.name: 1 for m in sketch.marks}), "k")
    root = ET.fromstring(svg)
    said = [e.text for e in root if e.tag.endswith(("title", "desc"))]
    assert said == [sketch.title, sketch.says] and len(sketch.says) > 30
    assert not re.search(r"nan|inf", svg)


# Marks against plain geometry ---------------------------------------------------------------------


def tips(mark: Span | Along) -> list[tuple[float, float]]:
    """Tips of both arrowheads."""
    return [s.points[0] for s in lines_of(mark)[0] if isinstance(s, Polygon)]


def test_a_span_runs_from_point_to_point() -> None:
    assert tips(Span("x", (10, 5), (40, 30), 60.0)) == [(10, 60.0), (40, 60.0)]
    assert tips(Span("x", (10, 5), (40, 30), 3.0, "up")) == [(3.0, 5), (3.0, 30)]


def test_a_straight_distance_is_set_off_square() -> None:
    """A 3-4-5 triangle: 5 off a way of 3 and 4 is 4 to the left and 3 up."""
    first, last = tips(Along("x", (0.0, 0.0), (30.0, 40.0), 5.0))
    assert first == pytest.approx((-4.0, 3.0)) and last == pytest.approx((26.0, 43.0))
    assert math.dist(first, last) == pytest.approx(50.0)


def test_a_number_outside_is_reached_by_its_line() -> None:
    lines, center = lines_of(Span("x", (10, 0), (14, 0), 8.0, share=3.0))
    assert center == (22.0, 8.0)
    assert max(bounds(s)[2] for s in lines) == 22.0


def test_a_slope_stands_at_its_radius() -> None:
    _, center = lines_of(Turn("x", (0.0, 0.0), 20.0, 0.0, 30.0))
    assert math.hypot(*center) == pytest.approx(20.0)
    assert math.degrees(math.atan2(center[1], center[0])) > 30.0


def test_a_spot_points_at_its_place() -> None:
    lines, center = lines_of(Spot("x", (3.0, 4.0), (9.0, 9.0)))
    assert center == (9.0, 9.0)
    assert any(isinstance(s, Circle) and s.center == (3.0, 4.0) for s in lines)


def test_a_mirror_image_keeps_its_distance() -> None:
    one, other = mirrored([path((10.0, 5.0), (20.0, 7.0))], 90.0)
    assert [90.0 - x for x, _ in one.points] == [x - 90.0 for x, _ in other.points]
