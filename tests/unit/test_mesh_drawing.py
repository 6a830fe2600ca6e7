"""Pictures of the gear pair: outlines of fields, the tooth and its pattern, the chart."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from importlib.resources import files
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.drawing.deflection_chart import deflection_chart
from axlewright.drawing.pattern_marks import between, marked, outlines
from axlewright.drawing.primitives import Line, Look, Polygon, Polyline, Text, bounds, flat
from axlewright.drawing.svg import to_svg
from axlewright.drawing.tooth_flank import compound_flanks, pressed_flanks
from axlewright.studies.mesh import mesh_study
from axlewright.studies.mesh_report import LoadedPicture, MeshReport

STYLE = (files("axlewright.web") / "static" / "workbench.css").read_text(encoding="utf-8")
TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\n'
)


@pytest.fixture(scope="module")
def report() -> MeshReport:
    """The likeliest axle under the textbook's force."""
    return mesh_study(resolve(read_build(TEXT, "heron.toml")), 1, 0, contact=False).report


def pressed(side: str, **changes: object) -> LoadedPicture:
    """A load that is a hill in the middle of the flank."""
    along, up = np.linspace(0.0, 1.0, 41), np.linspace(0.0, 1.0, 21)
    hill = 2.4e9 * (1.0 - (2.0 * along[:, None] - 1.0) ** 2) * (1.0 - (2.0 * up - 1.0) ** 2)
    told = LoadedPicture(
        side, 0.5, 0.5, 0.0, 1.0, 2.4e9, tuple(along), tuple(up),
        tuple(tuple(row) for row in hill.tolist()), {}, 0.0, (), (),
    )  # fmt: skip
    return replace(told, **changes)  # type: ignore[arg-type]


# Outlines ----------------------------------------------------------------------------------------


def area(loop: tuple[tuple[float, float], ...]) -> float:
    """Area with its sign, by the shoelace rule."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*loop, loop[0]))) / 2.0


@given(st.floats(0.15, 0.45), st.floats(0.35, 0.65), st.floats(0.35, 0.65))
def test_the_outline_of_a_round_hill_is_a_circle(radius: float, x: float, y: float) -> None:
    """Area and reach of a circle: closed form."""
    side = np.linspace(0.0, 1.0, 101)
    distance = np.hypot(side[:, None] - x, side - y)
    inside = min(x, y, 1.0 - x, 1.0 - y) > radius
    found = outlines(distance.tolist(), radius)
    if inside:
        assert len(found) == 1
        assert abs(area(found[0])) == pytest.approx(math.pi * radius**2, rel=2e-3)
        assert all(math.hypot(a - x, b - y) == pytest.approx(radius, abs=2e-4) for a, b in found[0])
    for loop in found:
        assert all(0.0 <= a <= 1.0 and 0.0 <= b <= 1.0 for a, b in loop)


def test_above_and_below_share_their_outline() -> None:
    side = np.linspace(-1.0, 1.0, 41)
    field = np.add.outer(side**2, side**2)
    low = outlines(field.tolist(), 0.5)
    high = outlines((-field).tolist(), -0.5, above=True)
    assert area(low[0]) == pytest.approx(area(high[0]))
    assert np.ravel(sorted(low[0])) == pytest.approx(np.ravel(sorted(high[0])), abs=1e-9)


def test_an_area_at_the_rim_is_closed_along_it_and_a_whole_field_is_its_frame() -> None:
    field = np.tile(np.linspace(0.0, 1.0, 11)[:, None], (1, 6)).tolist()
    (half,) = outlines(field, 0.25)
    assert abs(area(half)) == pytest.approx(0.25)
    (whole,) = outlines(field, 2.0)
    assert abs(area(whole)) == pytest.approx(1.0)
    assert outlines(field, -1.0) == ()


def test_two_islands_have_two_outlines_and_a_ring_has_a_hole() -> None:
    side = np.linspace(-1.0, 1.0, 81)
    x, y = np.meshgrid(side, side, indexing="ij")
    islands = np.minimum(np.hypot(x - 0.5, y), np.hypot(x + 0.5, y))
    assert len(outlines(islands.tolist(), 0.3)) == 2
    ring = np.abs(np.hypot(x, y) - 0.6)
    outer, inner = outlines(ring.tolist(), 0.2)
    assert area(outer) * area(inner) < 0.0, "a hole runs the other way round"
    hatched = marked((outer, inner), lambda p: (10.0 * p[0], 10.0 * p[1]), Look(),
                     (math.pi / 4, 0.5, Look()))  # fmt: skip
    for line in (s for s in hatched if isinstance(s, Line)):
        middle = [(a + b) / 20.0 for a, b in zip(line.start, line.end, strict=True)]
        assert math.hypot(middle[0] - 0.5, middle[1] - 0.5) > 0.19, "nothing is hatched in the hole"


@pytest.mark.parametrize("middle", [0.2, -0.2])
def test_corners_that_face_each_other_are_joined_as_their_middle_says(middle: float) -> None:
    """A saddle: joined where the middle of the cell is inside, apart where it is not."""
    field = [[1.0, -1.0 + 4.0 * middle], [-1.0, 1.0]]
    found = outlines(field, 0.0, above=True)
    assert len(found) == (1 if middle > 0.0 else 2)


@given(st.lists(st.lists(st.floats(-1, 1), min_size=4, max_size=4), min_size=4, max_size=6))
def test_outlines_of_anything_close_and_never_leave_the_grid(field: list[list[float]]) -> None:
    for loop in outlines(field, 0.1):
        assert len(loop) >= 3
        assert all(0.0 <= a <= 1.0 and 0.0 <= b <= 1.0 for a, b in loop)


def test_trifles_are_left_out() -> None:
    field = np.ones((21, 21))
    field[5, 5] = field[15, 15] = -1.0
    assert len(outlines(field.tolist(), 0.0)) == 2
    assert outlines(field.tolist(), 0.0, trifle=0.01) == ()


@given(st.floats(0.0, 4.0))
def test_between_is_straight(x: float) -> None:
    at, values = (0.0, 1.0, 3.0, 4.0), (0.0, 2.0, -2.0, 5.0)
    assert between(at, values, x) == pytest.approx(float(np.interp(x, at, values)))


# The tooth ---------------------------------------------------------------------------------------


def test_the_tooth_lies_with_its_toes_in_the_middle_and_its_marks_inside(
    report: MeshReport,
) -> None:
    drawn = compound_flanks(report.shapes, report.pictures, "Pattern")
    svg = to_svg(drawn, "one")
    assert 'id="one-drive"' in svg and 'id="one-coast"' in svg
    toes = [t.at[0] for t in flat(drawn.shapes) if isinstance(t, Text) and t.text == "toe"]
    heels = [t.at[0] for t in flat(drawn.shapes) if isinstance(t, Text) and t.text == "heel"]
    assert heels[0] < toes[0] < toes[1] < heels[1]
    for shape in flat(drawn.shapes):
        left, top, right, bottom = bounds(shape)
        assert left >= -0.01 and right <= drawn.width + 0.01
        assert top >= -0.01 and bottom <= drawn.height + 0.01
    assert "45 % from the toe" in drawn.description


def test_the_heel_is_the_deep_end(report: MeshReport) -> None:
    """Tapered depth: a face-milled tooth is deepest at its outer end (common practice)."""
    for shape in report.shapes.values():
        assert shape.along == tuple(sorted(shape.along))
        assert shape.tip[-1] - shape.root[-1] > shape.tip[0] - shape.root[0]
        assert all(t > f > r for t, f, r in zip(shape.tip, shape.foot, shape.root, strict=True))


def test_a_pattern_off_the_tooth_and_a_flank_that_is_not_known_are_said(report: MeshReport) -> None:
    gone = {
        side: replace(p, length=0.0, center=math.nan, height=math.nan, gap=((1.0, 1.0), (1.0, 1.0)))
        for side, p in report.pictures.items()
    }
    drawn = compound_flanks(report.shapes, gone, "Pattern")
    assert "no pattern on this flank" in drawn.description
    to_svg(drawn, "gone")
    bare = pressed_flanks(report.shapes, {"drive": pressed("drive"), "coast": None}, "Load")
    assert "Coast side: not worked out." in bare.description


def test_harder_pressure_is_hatched_more_densely(report: MeshReport) -> None:
    def strokes(peak: float) -> int:
        told = pressed("drive")
        scaled = tuple(tuple(v * peak / 2.4e9 for v in row) for row in told.pressure)
        drawn = pressed_flanks(
            report.shapes, {"drive": replace(told, pressure=scaled), "coast": None}, "x"
        )
        return sum(isinstance(s, Line) for s in flat(drawn.shapes))

    assert strokes(0.3e9) < strokes(1.0e9) < strokes(1.7e9) < strokes(2.4e9)


def test_edges_that_carry_are_marked_and_said(report: MeshReport) -> None:
    quiet = pressed("drive", edges={"heel": 0.02})
    loud = pressed("drive", edges={"heel": 0.5, "tip": 1.0})

    def drawn(p: LoadedPicture) -> tuple[int, str]:
        picture = pressed_flanks(report.shapes, {"drive": p, "coast": None}, "x")
        marks = [s for s in flat(picture.shapes) if isinstance(s, Polyline) and s.look.dash]
        return len(marks), picture.description

    assert drawn(loud)[0] == drawn(quiet)[0] + 2
    assert "heel, tip" in drawn(loud)[1] and "edge" not in drawn(quiet)[1]


def test_every_color_has_its_dark_twin(report: MeshReport) -> None:
    loaded = {side: pressed(side, edges={"toe": 1.0, "root": 1.0}) for side in report.shapes}
    for drawing in (
        compound_flanks(report.shapes, report.pictures, "x"),
        pressed_flanks(report.shapes, loaded, "x"),
        deflection_chart(report),
    ):
        svg = to_svg(drawing, "x")
        for attribute, color in set(re.findall(r'(fill|stroke)="(#[0-9a-f]{6})"', svg)):
            assert f'[{attribute}="{color}"]' in STYLE


# The chart ---------------------------------------------------------------------------------------


def test_the_chart_marks_limits_at_the_service_loads_only(report: MeshReport) -> None:
    drawn = deflection_chart(report)
    svg = to_svg(drawn, "chart")
    assert 'id="chart-gate-drive-rated"' in svg and 'id="chart-gate-coast-engine"' in svg
    assert "hardest" not in svg
    for shape in flat(drawn.shapes):
        left, _, right, bottom = bounds(shape)
        assert left >= -0.01 and right <= drawn.width + 0.01 and bottom <= drawn.height + 0.01
    assert drawn.description.count("Drive, rated torque") == 4


def test_coast_is_drawn_no_farther_than_twice_what_it_sees(report: MeshReport) -> None:
    engine = next(x for x in report.loads if x.name == "coast.engine")
    drawn = deflection_chart(report)
    curves = [s for s in flat(drawn.shapes) if isinstance(s, Polyline)]
    zero = min(p[0] for c in curves[:4] for p in c.points)
    coast = [p[0] for c in curves[4:] for p in c.points]
    drive = max(p[0] for c in curves[:4] for p in c.points)
    most = report.curves[0].torques[-1]
    assert min(coast) < zero
    share = (zero - min(coast)) / (drive - zero)
    assert share == pytest.approx(2.0 * engine.ring_torque.value / most, rel=1e-6)


def test_a_movement_beyond_its_limit_is_crossed_out(report: MeshReport) -> None:
    def crosses(lines: tuple) -> int:  # type: ignore[type-arg]
        drawn = deflection_chart(replace(report, limits=lines))
        return sum(isinstance(s, Line) for s in flat(drawn.shapes))

    within = tuple(replace(line, holds=True) for line in report.limits)
    beyond = tuple(replace(line, holds=False) for line in report.limits)
    assert crosses(beyond) == crosses(within) + 2 * len(report.limits)


def test_patterns_are_filled_as_well_as_hatched(report: MeshReport) -> None:
    drawn = compound_flanks(report.shapes, report.pictures, "x")
    filled = [s for s in flat(drawn.shapes) if isinstance(s, Polygon)]
    assert len(filled) >= 6 + 4
