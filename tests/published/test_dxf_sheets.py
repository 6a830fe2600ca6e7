"""Sheets and drawing files against what stands outside the project.

The file is read here tag by tag, without the library that wrote it: group codes as in the public
DXF reference (from memory).  Paper, scales, lines and letters by ISO standards (from memory).
"""

from __future__ import annotations

import math

import pytest

from axlewright.drawing.dimensions import (
    Aligned,
    Angular,
    Diameter,
    Linear,
    Ordinate,
    Radius,
    Tolerance,
)
from axlewright.drawing.dimensions_text import length_lines
from axlewright.drawing.dxf import to_dxf
from axlewright.drawing.fonts import cap_height
from axlewright.drawing.sheet import PAPERS, SCALES, Sheet, View
from axlewright.drawing.sheet_marks import HEIGHT, LINES, font_size
from axlewright.drawing.title_block import TitleBlock

pytestmark = pytest.mark.published

TRIANGLE = ((0.0, 0.0), (300.0, 0.0), (300.0, 400.0))
"""Sides 300, 400, 500; angle at the first corner atan(4/3) (Euclid)."""


def _sheet() -> Sheet:
    a, b, c = TRIANGLE
    dimensions = (
        Linear(a, c, (0.0, -50.0)),
        Linear(a, c, (400.0, 0.0), 0.5 * math.pi),
        Aligned(a, c, (-40.0, 30.0)),
        Angular(a, b, c, (150.0, 0.0)),
        Diameter((100.0, 500.0), 50.8, 0.7),
        Radius((100.0, 500.0), 50.8, 2.0),
        Ordinate(a, c, (300.0, 480.0), "x"),
        Ordinate(a, c, (420.0, 400.0), "y"),
    )
    view = View("t", "Triangle", (120.0, 90.0), 10, (), dimensions)
    return Sheet(PAPERS["A3"], TitleBlock(part="Triangle"), "a triangle", (view,))


def _entities() -> list[list[tuple[int, str]]]:
    """Every DIMENSION of the ENTITIES section as its pairs of group code and value."""
    rows = to_dxf(_sheet()).decode("utf-8").splitlines()
    pairs = [(int(code), value) for code, value in zip(rows[::2], rows[1::2], strict=True)]
    start = next(i for i, p in enumerate(pairs) if p == (2, "ENTITIES"))
    found: list[list[tuple[int, str]]] = []
    inside = False
    for code, value in pairs[start:]:
        if code == 0:
            if value == "ENDSEC":
                break
            inside = value == "DIMENSION"
            if inside:
                found.append([])
        elif inside:
            found[-1].append((code, value))
    return found


def _number(entity: list[tuple[int, str]], code: int) -> float:
    return next(float(v) for c, v in entity if c == code)


def _point(entity: list[tuple[int, str]], code: int) -> tuple[float, float]:
    return (_number(entity, code), _number(entity, code + 10))


def test_points_in_the_file_give_the_sides_of_the_triangle():
    """Rotated and aligned dimensions: points 13 and 14, direction 50; figure 42."""
    across, up, slant = _entities()[:3]
    for entity, expected in ((across, 300.0), (up, 400.0)):
        (x1, y1), (x2, y2) = _point(entity, 13), _point(entity, 14)
        turn = math.radians(_number(entity, 50))
        length = (x2 - x1) * math.cos(turn) + (y2 - y1) * math.sin(turn)
        assert abs(length) == pytest.approx(expected, abs=1e-9)
        assert _number(entity, 42) == pytest.approx(expected, abs=1e-9)
    assert math.dist(_point(slant, 13), _point(slant, 14)) == pytest.approx(500.0, abs=1e-9)
    assert [int(_number(e, 70)) & 7 for e in (across, up, slant)] == [0, 0, 1]


def test_points_in_the_file_give_the_angle():
    """Three points: sides 13 and 14, corner 15."""
    entity = _entities()[3]
    corner = _point(entity, 15)
    sides = [
        math.atan2(p[1] - corner[1], p[0] - corner[0])
        for p in (_point(entity, 13), _point(entity, 14))
    ]
    assert sides[1] - sides[0] == pytest.approx(math.atan(4.0 / 3.0), abs=1e-9)
    assert int(_number(entity, 70)) & 7 == 5


def test_points_in_the_file_give_circle_and_coordinates():
    """Diameter and radius between 10 and 15; ordinates from 10 to 13, bit 64 along x."""
    diameter, radius, along, up = _entities()[4:]
    assert math.dist(_point(diameter, 10), _point(diameter, 15)) == pytest.approx(101.6, abs=1e-9)
    assert math.dist(_point(radius, 10), _point(radius, 15)) == pytest.approx(50.8, abs=1e-9)
    assert _point(along, 13)[0] - _point(along, 10)[0] == pytest.approx(300.0, abs=1e-9)
    assert _point(up, 13)[1] - _point(up, 10)[1] == pytest.approx(400.0, abs=1e-9)
    assert [int(_number(e, 70)) & 64 for e in (along, up)] == [64, 0]


def test_figures_in_both_units():
    """One inch is 25.4 mm by definition: 12, 16, 20, 4 and 2 in, written to a thousandth."""
    said = [next(v for c, v in e if c == 1) for e in _entities()]
    for millimeters, text in ((300.0, said[0]), (400.0, said[1]), (500.0, said[2])):
        assert text == f"{millimeters:.1f} mm [{millimeters / 25.4:.3f} in]"
    assert said[3] == "53.1%%d"
    assert said[4] == "%%c 101.6 mm [4.000 in]" and said[5] == "R 50.8 mm [2.000 in]"


@pytest.mark.parametrize(
    ("inches", "tolerance", "expected"),
    [
        (60.0, 1.0 / 32.0, ("1524.0 ±0.8", "[60.000 ±.031 in]")),
        (1.5, 0.001, ("38.100 ±0.025", "[1.5000 ±.0010 in]")),
        (0.5, 0.005, ("12.70 ±0.13", "[.500 ±.005 in]")),
    ],
)
def test_shop_tolerances_in_millimeters(inches, tolerance, expected):
    """1/32 in = 0.794 mm, .001 in = 0.0254 mm, .005 in = 0.127 mm (25.4 times, by hand)."""
    stated = Tolerance(25.4 * tolerance, 25.4 * tolerance)
    assert length_lines(25.4 * inches, stated, None) == expected


def test_the_file_is_in_millimeters():
    """$INSUNITS 4 is millimeters, $MEASUREMENT 1 metric, AC1024 the release of 2010."""
    rows = [r.strip() for r in to_dxf(_sheet()).decode("utf-8").splitlines()]
    for name, value in (("$INSUNITS", "4"), ("$MEASUREMENT", "1"), ("$ACADVER", "AC1024")):
        assert rows[rows.index(name) + 2] == value


def test_paper_is_the_size_that_is_sold():
    """ISO 216: A4 is 210 × 297 mm, A3 twice that; letter is 8 1/2 × 11 in."""
    sizes = {p.name: (p.width, p.height) for p in PAPERS.values()}
    assert sizes["A4"] == (297.0, 210.0) and sizes["A3"] == (420.0, 297.0)
    assert sizes["letter"] == pytest.approx((11.0 * 25.4, 8.5 * 25.4))


def test_scales_lines_and_letters_are_those_of_the_standards():
    """ISO 5455: 1:1 to 1:20; ISO 128-2: dashes 12 d, long ones 24 d, gaps 3 d, dots 0.5 d, narrow
    half of wide; ISO 3098: letters of 2.5 mm."""
    assert SCALES == (1, 2, 5, 10, 20)
    d = LINES["center"].width
    assert LINES["visible"].width == pytest.approx(2.0 * d)
    assert LINES["hidden"].dash == pytest.approx((12 * d, 3 * d))
    assert LINES["center"].dash == pytest.approx((24 * d, 3 * d, d / 2, 3 * d))
    assert LINES["adjacent"].dash == pytest.approx((24 * d, 3 * d, d / 2, 3 * d, d / 2, 3 * d))
    assert HEIGHT == 2.5 and cap_height(font_size(HEIGHT)) == pytest.approx(2.5)
