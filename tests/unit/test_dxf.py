"""The drawing file: it can be read back whole, is clean, and is the same bytes every time."""

from __future__ import annotations

import hashlib
import importlib.util
import io
import math
import os
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

ezdxf = pytest.importorskip("ezdxf")

from axlewright.drawing.dimensions import (  # noqa: E402
    Aligned,
    Angular,
    Diameter,
    Linear,
    Ordinate,
    Radius,
    size,
)
from axlewright.drawing.dxf import spread_views, to_dxf  # noqa: E402
from axlewright.drawing.dxf_entities import plain  # noqa: E402
from axlewright.drawing.sheet import PAPERS, Sheet, View  # noqa: E402
from axlewright.drawing.sheet_marks import LINES, Bow, Ring, Stroke, Words  # noqa: E402
from axlewright.drawing.title_block import TitleBlock  # noqa: E402

_SPEC = importlib.util.spec_from_file_location(
    "sheet_parts", Path(__file__).with_name("sheet_parts.py")
)
assert _SPEC is not None and _SPEC.loader is not None
parts = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(parts)

SHEETS = parts.sheets()
each = pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS.keys())


def read(data: bytes):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def every_kind() -> Sheet:
    """A sheet with each kind of dimension and mark."""
    marks = (
        Stroke(((0, 0), (100, 0), (60, 50)), "hidden"), Ring((50, 40), 12.5),
        Bow((0, 0), 30, 0.1, 1.2, "center"), Words((5, 5), "Ø ± ° × − 100^2 %"),
    )  # fmt: skip
    dimensions = (
        Linear((0, 0), (100, 0), (0, -20)),
        Linear((0, 0), (60, 50), (120, 0), 0.5 * math.pi),
        Linear((0, 0), (60, 50), (0, 70), 0.3),
        Aligned((100, 0), (60, 50), (110, 20)),
        Angular((0, 0), (100, 0), (60, 50), (80, 0)),
        Angular((0, 0), (60, 50), (100, 0), (80, 0)),
        Diameter((50, 40), 12.5, 1.0),
        Radius((50, 40), 12.5, 2.0),
        Ordinate((0, 0), (60, 50), (60, 90), "x"),
        Ordinate((0, 0), (60, 50), (-40, 50), "y"),
    )
    view = View("a", "All", (100.0, 150.0), 2, marks, dimensions)
    title = TitleBlock(part="All kinds \\ {x}\n%%u", build="x" * 300)
    return Sheet(PAPERS["A4"], title, "every kind", (view,))


def measured(entity) -> float:
    """What the file's own points measure, by the library that reads it."""
    value = entity.get_measurement()
    if entity.dimtype == 6:
        return abs(value.x if entity.dxf.dimtype & 64 else value.y)
    return math.radians(value) if entity.dimtype in {2, 5} else value


@pytest.mark.parametrize("name", [*SHEETS, "every kind"])
def test_the_file_is_clean(name):
    sheet = every_kind() if name == "every kind" else SHEETS[name]
    auditor = read(to_dxf(sheet)).audit()
    assert [e.message for e in auditor.errors] == []
    assert [e.message for e in auditor.fixes] == []


@pytest.mark.parametrize("name", [*SHEETS, "every kind"])
def test_every_dimension_measures_what_was_meant(name):
    sheet = every_kind() if name == "every kind" else SHEETS[name]
    document = read(to_dxf(sheet))
    entities = list(document.modelspace().query("DIMENSION"))
    meant = [d for v in sheet.views for d in v.dimensions]
    assert len(entities) == len(meant) > 0
    for entity, dimension in zip(entities, meant, strict=True):
        assert measured(entity) == pytest.approx(dimension.value, rel=1e-12, abs=1e-9)
        assert entity.dxf.actual_measurement == pytest.approx(dimension.value, rel=1e-12)


@pytest.mark.parametrize("name", [*SHEETS, "every kind"])
def test_every_dimension_says_both_units_and_has_its_picture(name):
    sheet = every_kind() if name == "every kind" else SHEETS[name]
    document = read(to_dxf(sheet))
    for entity in document.modelspace().query("DIMENSION"):
        block = document.blocks.get(entity.dxf.geometry)
        kinds = Counter(e.dxftype() for e in block)
        assert kinds["TEXT"] >= 1 and kinds["SOLID"] + kinds["LINE"] >= 1
        shown = " ".join(e.dxf.text for e in block.query("TEXT"))
        if entity.dimtype in {2, 5}:
            assert "%%d" in entity.dxf.text and "%%d" in shown
        else:
            assert " mm [" in entity.dxf.text and entity.dxf.text.endswith(" in]")
            assert shown.endswith(" in]")


def test_points_of_the_part_are_drawn_at_full_size():
    """Flange face to spline end and the bolt circle, in the file's own coordinates."""
    part = parts.shaft("left")
    space = read(to_dxf(SHEETS["shaft-left"])).modelspace()
    seen = [e for e in space.query("LWPOLYLINE") if e.dxf.layer == "VISIBLE"]
    corners = [p for e in seen for p in e.get_points("xy")]
    assert max(x for x, _ in corners) == pytest.approx(part.length.value, abs=1e-9)
    rings = [e.dxf.radius for e in space.query("CIRCLE") if e.dxf.layer == "CENTER"]
    assert rings == pytest.approx([0.5 * part.bolt_circle.value])


def test_units_layers_and_line_types():
    document = read(to_dxf(SHEETS["housing-down"]))
    assert document.dxfversion == "AC1024"
    assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1
    for layer, kind in LINES.items():
        found = document.layers.get(layer.upper())
        assert found.dxf.lineweight == round(100 * kind.width)
        assert (found.dxf.linetype == layer.upper()) == bool(kind.dash)
        if kind.dash:
            assert layer.upper() in document.linetypes
    used = {e.dxf.layer for e in document.modelspace()}
    assert used <= {x.upper() for x in LINES}
    assert {"VISIBLE", "HIDDEN", "CENTER", "DIMENSION", "TEXT"} <= used


@each
def test_the_layout_shows_every_view_at_its_scale(sheet):
    document = read(to_dxf(sheet))
    paper = document.layout("Sheet")
    windows = [v for v in paper.query("VIEWPORT") if v.dxf.layer == "WINDOW"]
    assert len(windows) == len(sheet.views)
    for window, view in zip(windows, sheet.views, strict=True):
        assert window.dxf.view_height / window.dxf.height == pytest.approx(view.scale)
    said = {e.dxf.text for e in paper.query("TEXT")}
    assert {"Drawn:", "Checked:", "Approved:", f"1:{sheet.title.scale}"} <= said


@each
def test_no_view_reaches_into_the_window_of_another(sheet):
    edges = []
    for spread in spread_views(sheet):
        view, box = spread.view, sheet.view_box(spread.view)
        left, right = (
            (x - view.origin[0]) * view.scale + spread.shift[0] for x in (box[0], box[2])
        )
        edges.append((left - view.scale, right + view.scale))
    for (_, right), (left, _) in pairwise(edges):
        assert left >= right


def test_the_same_sheet_gives_the_same_bytes():
    """In this process twice, and in two others whose order of sets differs."""
    here = to_dxf(SHEETS["section-left"])
    assert to_dxf(parts.MADE["section-left"](parts.HEADING)) == here
    code = (
        "import hashlib, runpy, sys; from axlewright.drawing.dxf import to_dxf;"
        "m = runpy.run_path(sys.argv[1]);"
        "print(hashlib.sha256(to_dxf(m['MADE']['section-left'](m['HEADING']))).hexdigest())"
    )
    for seed in ("1", "2"):
        done = subprocess.run(
            [sys.executable, "-c", code, str(Path(__file__).with_name("sheet_parts.py"))],
            capture_output=True, text=True, check=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )  # fmt: skip
        assert done.stdout.strip() == hashlib.sha256(here).hexdigest()


def test_another_figure_gives_another_file():
    from axlewright.drawing.parts_shaft import shaft_drawing

    longer = replace(parts.shaft("left"), length=size(800.0, 0.8))
    assert to_dxf(shaft_drawing(longer, parts.HEADING)) != to_dxf(SHEETS["shaft-left"])


def test_words_keep_their_meaning_in_plain_signs():
    assert plain("Ø 5 ±0.1° × −2") == "%%c 5 %%p0.1%%d x -2"
    assert plain("a\nb\x00c\ud800") == "a b c "
    texts = [e.dxf.text for e in read(to_dxf(every_kind())).modelspace().query("TEXT")]
    assert any("100^" in t for t in texts)


def test_a_file_needs_no_library_until_it_is_made():
    code = "import sys, axlewright.drawing.dxf; sys.exit('ezdxf' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
