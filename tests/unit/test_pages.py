"""Pages: how they are declared, their colors, and what they show of a report."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.drawing import palette
from axlewright.drawing.svg import slug
from axlewright.studies.load_path import Study, load_path
from axlewright.web.pages import PAGES
from axlewright.web.views import pictures, tables
from axlewright.web.views.form import entries, groups, marks, owner
from axlewright.web.views.working import tree
from axlewright.workshop.representative import BUILDS, MANUAL

STYLE = (files("axlewright.web") / "static" / "workbench.css").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def studies() -> list[Study]:
    return [load_path(resolve(read_build(text)), 1, 500) for text in BUILDS]


def test_every_page_has_title_path_and_router() -> None:
    titles = [page.TITLE for page in PAGES]
    assert len(set(titles)) == len(titles)
    for page in PAGES:
        served = {getattr(route, "path", "") for route in page.router.routes}
        assert page.PATH in served


def test_every_color_of_the_pictures_has_its_dark_twin(studies: list[Study]) -> None:
    for study in studies:
        drawn = [pictures.driveline(study.report)]
        drawn += [pictures.inline(name, study.report) for name in pictures.CHARTS]
        for attribute, color in set(re.findall(r'(fill|stroke)="(#[0-9a-f]{6})"', "".join(drawn))):
            assert f'[{attribute}="{color}"]' in STYLE


def _themes() -> list[dict[str, str]]:
    light, dark = re.findall(r":root(?:\[data-theme=\"dark\"\])? \{(.*?)\}", STYLE, re.DOTALL)[:2]
    return [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", text)) for text in (light, dark)]


@pytest.mark.parametrize("theme", _themes(), ids=["light", "dark"])
def test_words_stand_out_by_at_least_four_and_a_half_to_one(theme: dict[str, str]) -> None:
    for ground in ("ground", "sheet", "faint"):
        for ink in ("ink", "muted", "holds", "possible", "short", "press"):
            assert palette.contrast(theme[ink], theme[ground]) >= 4.5, (ink, ground)
    for state in ("holds", "possible", "short", "unknown"):
        assert palette.contrast(theme[state], theme[f"{state}-tint"]) >= 4.5
        assert palette.contrast(theme["ink"], theme[f"{state}-tint"]) >= 4.5
    assert palette.contrast(theme["on-press"], theme["press"]) >= 4.5
    assert palette.contrast(theme["ink"], theme["mark"]) >= 4.5
    assert palette.contrast(theme["edge"], theme["sheet"]) >= 3.0


def test_both_ways_into_the_dark_are_the_same() -> None:
    dark = re.findall(r"\{\s*color-scheme: dark;(.*?)\}", STYLE, re.DOTALL)
    assert len(dark) == 2
    assert dark[0].split() == dark[1].split()


def test_each_balloon_of_the_picture_names_its_link(studies: list[Study]) -> None:
    for study in studies:
        drawn = pictures.driveline(study.report)
        named = set(re.findall(r'id="path-balloon-([^"]+)"', drawn))
        assert named <= {slug(link.link) for link in study.report.links}
        assert len(named) > 10
        assert ' width="' not in drawn.partition(">")[0]


def test_tables_name_only_numbers_that_open(studies: list[Study]) -> None:
    for study in studies:
        lines = tables.links(study.report, study.nodes)
        shown = [m.number.id for line in lines for m in (line.breaks, line.gives) if m]
        assert shown
        assert all(i in study.nodes for i in shown)
        assert set(shown) <= set(tables.meanings(study.report))


def test_a_chart_saved_as_numbers_holds_every_gear_and_link(studies: list[Study]) -> None:
    report = studies[0].report
    torque = pictures.table("torque", report).splitlines()
    assert {line.split(",")[0] for line in torque[1:]} == {str(g.gear) for g in report.gears}
    margins = pictures.table("margins", report)
    assert all(x.title in margins for x in report.links if x.breaks or x.gives)
    assert "<style>@font-face" in pictures.saved("torque", report, with_font=True)
    assert "<style" not in pictures.saved("torque", report)


def test_the_working_is_a_tree_of_the_printed_steps(studies: list[Study]) -> None:
    study = studies[0]
    margin = next(x.breaks for x in study.report.links if x.breaks is not None)
    top = tree(study.nodes[margin.margin.id])
    assert top.steps > 5
    assert top.below


def test_every_key_has_one_field() -> None:
    raw = {"car.weight": "3650 lb"}
    found = [f.path for g in groups(raw, ("axle.tube_wall",)) for f in g.fields]
    assert sorted(found) == sorted(entries())
    shown = [f.path for g in groups(raw, ("axle.tube_wall",)) for f in g.shown]
    assert {"car.weight", "axle.tube_wall", "axle.ratio"} <= set(shown)
    assert "axle.tube_press" not in shown


def test_a_problem_stands_beside_the_nearest_field() -> None:
    assert owner("gearbox.ratios.2") == "gearbox.ratios"
    assert owner("axle") == ""
    assert owner("parts.axle_shafts.mine") == ""


def test_marks_tell_what_is_used_and_what_to_measure() -> None:
    study = load_path(resolve(read_build(MANUAL)), 1, 200)
    used = {i.path: i for i in study.report.inputs}
    made = {m.slug: m for m in marks((), used, ["car.wheelbase"])}
    assert made["car-wheelbase"].rank == 1
    assert made["car-wheelbase"].origin == "assumed"
    assert "in" in made["car-wheelbase"].used
