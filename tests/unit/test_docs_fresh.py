"""The generated pages of docs/ say what the code says now; `make docs` writes them anew."""

import runpy
from pathlib import Path

import pytest

from axlewright.catalogue.load import TABLES, table
from axlewright.quantities.symbols import symbols
from axlewright.workshop.formulary import formula_page, in_order, symbol_page
from axlewright.workshop.keys import tables
from axlewright.workshop.reference import build_reference, catalogue_page, markdown_table

ROOT = Path(__file__).resolve().parents[2]
PAGES = runpy.run_path(str(ROOT / "scripts" / "docs.py"))["PAGES"]


@pytest.mark.parametrize("name", PAGES)
def test_page_is_fresh(name):
    written = (ROOT / "docs" / name).read_text(encoding="utf-8")
    assert written == PAGES[name](), f"docs/{name} is stale: run `make docs`"


def test_build_reference_names_every_key():
    page = build_reference()
    for part in tables():
        below = page.partition(f"`[{part.path}]`" if part.path else "## Top of the file")[2]
        for entry in part.entries:
            assert f"| `{entry.name}`" in below.partition("\n## ")[0], entry.path


def test_symbol_page_names_every_symbol():
    page = symbol_page()
    assert [s for s in symbols().values() if f"| `{s.name}` | `{s.symbol}` |" not in page] == []


def test_formula_page_shows_every_formula_with_its_source():
    page = formula_page()
    assert page.count("\n#### `") == len(in_order()) == page.count("\n- Source: ")
    assert [f.name for f in in_order() if f.source not in page] == []


def test_formula_page_prints_the_code():
    page = formula_page()
    shown = page.partition("#### `two_load_moment`")[2].partition("####")[0]
    assert "M = F·a\n" in shown


def test_catalogue_page_holds_every_row_with_its_source():
    page = catalogue_page()
    for name in TABLES:
        for key, row in table(name).items():
            assert f"**{key}**" in page
            assert row.source.replace("|", "\\|") in page


def test_tables_of_features_stand_in_their_own_section():
    parts, _, seen = catalogue_page().partition("## By what one recognises an axle")
    assert "`features`" not in parts
    assert "`features`" in seen and "`findings`" in seen
    assert "`ring_gears`" in parts


def test_every_markdown_table_is_even():
    for page in (build_reference(), catalogue_page(), symbol_page()):
        width = 0
        for line in page.splitlines():
            if not line.startswith("|"):
                width = 0
                continue
            cells = line.replace("\\|", "").count("|")
            assert width in {0, cells}, line
            width = cells


def test_a_bar_inside_a_cell_does_not_split_it():
    assert markdown_table(["a"], [["b | c"]]).splitlines()[-1] == "| b \\| c |"
