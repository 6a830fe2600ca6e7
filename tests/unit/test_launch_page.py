"""The launch on the page, in the API and on paper: kept marches, charts, what is told."""

from __future__ import annotations

import json
import math
import re
import time
from collections.abc import Iterator
from dataclasses import replace
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

import jsonschema
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.testclient import TestClient

from axlewright.build.edit import edit
from axlewright.drawing import launch_picture, time_chart
from axlewright.drawing.launch_chart import Story, chart
from axlewright.drawing.primitives import Polygon, Text, bounds, flat
from axlewright.drawing.svg import to_svg
from axlewright.drawing.sweep_chart import Swept, sweep_chart
from axlewright.papers.check_paper import write_check_paper
from axlewright.store.builds import Store
from axlewright.studies.launch_report import LaunchReport, Sweep
from axlewright.web.app import create_app
from axlewright.web.views import launch as views
from axlewright.web.views import launch_story as stories
from axlewright.workshop import marching, shop
from axlewright.workshop.jobs import Job
from axlewright.workshop.launches import kept_report, paper_of, report_from
from axlewright.workshop.marching import BOUNDS
from axlewright.workshop.messages import plain
from axlewright.workshop.representative import BUILDS
from axlewright.workshop.shop import LAUNCH, Workshop
from axlewright.workshop.template import template

TEXT = template()
HERE = "http://127.0.0.1"
FEW = 100
STYLE = (files("axlewright.web") / "static" / "workbench.css").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def marched() -> Iterator[tuple[Workshop, LaunchReport]]:
    """A workshop in which the launch of the template has been marched."""
    workshop = Workshop(Store(None), launch_samples=FEW)
    job = workshop.jobs.wait(workshop.jobs.start(LAUNCH, "any", TEXT).id, 120.0)
    assert job.state == "done", job.message
    report = workshop.marches.report(workshop.resolved(TEXT))
    assert report is not None
    yield workshop, report
    workshop.close()


@pytest.fixture(scope="module")
def story(marched: tuple[Workshop, LaunchReport]) -> Story:
    workshop, report = marched
    case = report.cases[0]
    history = workshop.marches.history(workshop.resolved(TEXT), case.case).result()
    return Story(report.name, case.title, case.case, history)


# Kept marches ------------------------------------------------------------------------------------


def test_an_answer_from_before_the_march_is_not_given_after_it(tmp_path: Path) -> None:
    workshop = Workshop(Store(tmp_path / "kept.sqlite"), launch_samples=FEW)
    before = workshop.study(TEXT, samples=FEW)
    assert BOUNDS in before.report.cautions
    card = workshop.card(TEXT)
    assert workshop.marches.report(workshop.resolved(TEXT)) is None
    job = workshop.jobs.wait(workshop.jobs.start(LAUNCH, "any", TEXT).id, 120.0)
    assert job.result is not None and job.result["samples"] == FEW
    after = workshop.study(TEXT, samples=FEW)
    assert after is not before and BOUNDS not in after.report.cautions
    assert workshop.study(TEXT, samples=FEW) is after
    report = workshop.marches.report(workshop.resolved(TEXT))
    assert report is not None
    stated = report.cases[0]
    same = next(c for c in after.report.cases if c.case == stated.case)
    assert same.torques["ring"].value == pytest.approx(stated.peaks["ring"].value, rel=1e-9)
    assert workshop.card(TEXT) != card and "dial" in workshop.card(TEXT).cautions[-1]
    # The march outlives the server, and belongs to its inputs, not to the text.
    workshop.close()
    again = Workshop(Store(tmp_path / "kept.sqlite"), launch_samples=FEW)
    thought = TEXT + "\n# a thought\n"
    assert again.marches.report(again.resolved(thought)) is not None
    assert again.jobs.start(LAUNCH, "any", thought).state == "done"
    heavier = edit(TEXT, "car.weight", "4400 lb")
    assert again.marches.report(again.resolved(heavier)) is None
    assert BOUNDS in again.study(heavier, samples=FEW).report.cautions
    again.close()


def test_a_build_of_another_name_shares_a_march_and_keeps_its_name(
    marched: tuple[Workshop, LaunchReport],
) -> None:
    workshop, report = marched
    other = workshop.resolved(re.sub(r'name = "[^"]*"', 'name = "Tin Pelican"', TEXT, count=1))
    found = workshop.marches.report(other)
    assert found is not None and found.name == "Tin Pelican" != report.name
    assert found.cases == report.cases


def test_a_report_is_read_again_as_it_was_kept(marched: tuple[Workshop, LaunchReport]) -> None:
    _, report = marched
    again = report_from(json.loads(json.dumps(plain(report))))
    assert type(again.sweeps) is tuple and again.cases[0].peaks == report.cases[0].peaks
    gaps = [math.isnan(v) for s in report.sweeps for v in s.low]
    assert any(gaps), "with few samples some places of a sweep have no band"
    assert [math.isnan(v) for s in again.sweeps for v in s.low] == gaps
    assert plain(again) == plain(report)
    told = json.loads(json.dumps(plain(report)))
    del told["ways"]["ways"][0]["at_least"]
    assert kept_report(told) is None  # written by another state of the program: march anew


def test_a_stamp_tells_marches_apart(tmp_path: Path) -> None:
    assert marching.stamp("none", tmp_path) == ""
    (tmp_path / "key.npz").write_bytes(b"1")
    first = marching.stamp("key", tmp_path)
    time.sleep(0.01)
    (tmp_path / "key.npz").write_bytes(b"2")
    assert first != marching.stamp("key", tmp_path) != ""


def test_a_workshop_in_memory_leaves_nothing_behind() -> None:
    workshop = Workshop(Store(None), launch_samples=FEW)
    where = workshop.marches._where
    assert where.is_dir() and where != marching.folder()
    workshop.close()
    assert not where.exists()


def test_a_verdict_from_before_a_march_is_out_of_date_after_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Kept or just worked out: it says so, and starting it again gives one that takes the march."""
    real = shop.fine_verdict
    monkeypatch.setattr(shop, "fine_verdict", lambda *a: real(*a, samples=300, chunk=100))
    workshop = Workshop(Store(None), launch_samples=FEW)
    page = TestClient(create_app(workshop), base_url=HERE, headers={"Origin": HERE})
    build = page.post("/api/builds", json={"text": TEXT}).json()["result"]["build"]["id"]
    where = f"/builds/{build}/load-path"

    def verdict() -> Job:
        started = workshop.jobs.start(shop.FINE, build, TEXT)
        over = workshop.jobs.wait(started.id, 60.0)
        assert over.state == "done", over.message
        return over

    before = verdict()
    assert before.rests_on == "" and workshop.outdated(before, TEXT) == ""
    assert "Out of date" not in page.get(where).text
    found = workshop.resolved(TEXT)
    ratios = {"slip": dict.fromkeys(("flywheel", "driveshaft", "ring", "shaft"), 0.9)}
    many = {c: {p: np.full(FEW, r) for p, r in by.items()} for c, by in ratios.items()}
    march = marching.March(1, ratios, many, {})
    marching.keep(found, march, workshop.marches._where)
    for text in (page.get(where).text, page.get(f"{where}/fine").text):
        assert "Out of date:</strong> the launch has been marched since" in text
        assert 'id="job-start"' in text
    after = verdict()
    assert after.rests_on != "" and workshop.outdated(after, TEXT) == ""
    assert after.result != before.result
    assert "Out of date" not in page.get(f"{where}/fine").text
    assert page.get(f"/api/jobs/{after.id}").json()["result"]["rests_on"] == after.rests_on
    (workshop.marches._where / f"{marching.key_of(found, 1)}.npz").unlink()
    assert workshop.outdated(after, TEXT).endswith("no longer kept")
    heavier = edit(TEXT, "car.weight", "4400 lb")
    assert workshop.outdated(after, heavier) == "the build has changed since"
    workshop.close()


# Charts ------------------------------------------------------------------------------------------


@given(st.lists(st.floats(0, 60), min_size=1, max_size=5).map(sorted), st.just(0.5), st.just(54.0))
def test_names_at_the_ends_of_curves_never_stand_on_each_other(
    places: list[float], top: float, bottom: float
) -> None:
    found = time_chart._apart(places, top, bottom)
    assert all(b - a >= 3.2 - 1e-9 for a, b in pairwise(found))
    assert found[-1] <= max(bottom, top + 3.2 * (len(places) - 1)) + 1e-9


@given(st.floats(-1e4, 1e4), st.floats(0, 1e4))
def test_a_round_scale_holds_its_values_between_round_ticks(low: float, reach: float) -> None:
    scale = time_chart.round_scale(low, low + reach, 0.0, 100.0, 5)
    slack = 1e-6 * max(1.0, abs(low), reach)
    assert scale.low <= low + slack and scale.high >= low + reach - slack
    assert 2 <= len(scale.ticks) <= 14
    assert scale.at(scale.low) == 0.0 and scale.at(scale.high) == pytest.approx(100.0)


def test_the_chart_of_a_launch_draws_every_panel_inside_its_page(story: Story) -> None:
    drawn = chart(story, cursor=True)
    svg = to_svg(drawn, "one")
    for panel in ("torques", "engine", "wheels", "slip", "loads", "cursor"):
        assert f'id="one-{panel}"' in svg
    assert "cursor" not in to_svg(chart(story), "one")
    for shape in flat(drawn.shapes):
        left, _, right, bottom = bounds(shape)
        assert left >= -0.01 and right <= drawn.width + 0.01 and bottom <= drawn.height + 0.01
        if isinstance(shape, Text) and shape.room is not None:
            assert shape.width <= shape.room + 1e-6, shape.text
    assert "peak" in svg and "The likeliest car." in drawn.description


def test_the_peak_of_the_chart_is_that_of_the_table(
    story: Story, marched: tuple[Workshop, LaunchReport]
) -> None:
    ring = marched[1].cases[0].peaks["ring"].value
    assert max(story.history.series["axle"]) == pytest.approx(ring, rel=0.01)


def test_the_picture_shows_the_moment_and_its_bars_end_at_the_greatest(story: Story) -> None:
    at = story.hardest
    svg = to_svg(stories.picture(story, at), "moment")
    told = stories.moments(story)
    json.dumps(told, allow_nan=False)
    assert told["start"] == at and len(told["places"]) == 8
    for place in told["places"]:
        assert len(place["values"]) == len(told["time"])
        assert f'id="moment-at-{place["key"]}"' in svg
        ends = [place["zero"] + place["scale"] * v for v in place["values"]]
        assert max(ends) - min(place["zero"], *ends) <= 38.01
    ring = next(p for p in told["places"] if p["key"] == "ring")
    assert launch_picture.figure(ring["values"][at]) in svg


@pytest.mark.parametrize(
    ("value", "text"), [(0.4, "0"), (12.6, "13"), (999.4, "999"), (3544.0, "3,540"), (-87.0, "−87")]
)
def test_figures_that_change_are_short(value: float, text: str) -> None:
    assert launch_picture.figure(value) == text


def test_a_bar_that_goes_backward_starts_at_its_value() -> None:
    reading = launch_picture.Reading("ring", "Ring gear", "lb·ft", -500.0, -1000.0, 3000.0)
    bar = launch_picture.bar_of(reading)
    left, width = bar.span(-500.0)
    assert left == pytest.approx(bar.zero - 0.5 * (bar.zero - bar.span(-1000.0)[0]))
    assert width == pytest.approx(bar.zero - left)


def test_a_sweep_without_enough_samples_has_a_line_and_no_band() -> None:
    def swept(low: float) -> Swept:
        band = (low, low, low)
        sweep = Sweep("clutch.bite", "Time", "short time", (0.1, 0.2, 0.3), (4e3, 3e3, 2e3),
                      band, tuple(2 * v for v in band))  # fmt: skip
        return Swept(sweep, 0.2)

    def bands(s: Swept) -> int:
        drawn = sweep_chart("x", [s])
        return sum(isinstance(x, Polygon) for x in flat(drawn.shapes))

    assert bands(swept(math.nan)) == 0
    assert bands(swept(1e3)) == 1


def test_every_color_has_its_dark_twin(
    story: Story, marched: tuple[Workshop, LaunchReport]
) -> None:
    workshop, report = marched
    sweeps = views.sweeps(report, workshop.resolved(TEXT))
    assert sweeps is not None
    for drawing in (chart(story, cursor=True), stories.picture(story, 0), sweeps):
        svg = to_svg(drawing, "x")
        for attribute, color in set(re.findall(r'(fill|stroke)="(#[0-9a-f]{6})"', svg)):
            assert f'[{attribute}="{color}"]' in STYLE


def test_rows_of_the_charts(story: Story, marched: tuple[Workshop, LaunchReport]) -> None:
    rows = stories.rows(story)
    assert len(rows) == len(story.history.time) + 1
    assert len({len(r) for r in rows}) == 1 and len(set(rows[0])) == len(rows[0])
    sweeps = views.sweep_rows(marched[1])
    assert len(sweeps) == 1 + sum(len(s.values) for s in marched[1].sweeps)


# Words -------------------------------------------------------------------------------------------


def test_cases_open_the_working_of_the_load_path(marched: tuple[Workshop, LaunchReport]) -> None:
    workshop, report = marched
    study = workshop.study(TEXT)
    rows = views.cases(report, study.report, study.nodes)
    assert [r.title for r in rows] == [c.title for c in report.cases]
    first = rows[0].peaks[2]
    assert first.peak.id in study.nodes and first.bound.startswith("× ")
    assert all(r.decides for r in rows)


def test_ways_to_launch_stand_beside_one_another(
    client: TestClient, marched: tuple[Workshop, LaunchReport]
) -> None:
    report = marched[1]
    rows = views.ways(report)
    assert [r.title for r in rows] == [
        "Gentle start", "Slipped launch", "Clutch dump", "Two-step launch"
    ]  # fmt: skip
    assert [r.stated for r in rows].count(True) == 1
    assert all(len(r.peaks) == 4 and float(r.sixty_feet.text.strip("≥ ")) > 1.0 for r in rows)
    build = client.post("/api/builds", json={"text": TEXT}).json()["result"]["build"]["id"]
    page = client.get(f"/builds/{build}/launch").text
    assert "What would another way to launch do?" in page and "Quickest to 60 ft" in page
    csv = client.get(f"/builds/{build}/launch/chart/sweeps.csv").text
    assert "Tread temperature" in csv


def test_hop_is_told_with_likelihood_rate_and_what_to_measure(
    marched: tuple[Workshop, LaunchReport],
) -> None:
    told = views.hop(marched[1].hop)
    assert told.word in {"likely", "possible", "unlikely"}
    low, high = (float(v) for v in told.rate.split(" to "))
    assert 0.0 < low <= high < 60.0
    assert told.measure and told.decides


def test_what_slips_first_has_its_working(marched: tuple[Workshop, LaunchReport]) -> None:
    study = marched[0].marches.coupling(marched[0].resolved(TEXT))
    told = views.coupling(study.report, study.nodes)
    assert all(n.id in study.nodes for _, n in told.numbers if n.id)
    assert any(n.id == "coupling.hold" for _, n in told.numbers)
    assert len(told.gears) == len(study.report.gears)
    assert set(views.meanings(study.report)) >= set(study.nodes)


# Pages and programs' side ------------------------------------------------------------------------


@pytest.fixture
def client(marched: tuple[Workshop, LaunchReport]) -> Iterator[TestClient]:
    """The workbench on a workshop that is left open."""
    app = create_app(marched[0])
    made = TestClient(app, base_url=HERE, headers={"Origin": HERE}, follow_redirects=False)
    yield made
    made.close()


def test_the_page_before_and_after_the_march(client: TestClient) -> None:
    heavier = edit(TEXT, "car.weight", "4100 lb")
    build = client.post("/api/builds", json={"text": heavier}).json()["result"]["build"]["id"]
    page = client.get(f"/builds/{build}/launch")
    assert page.status_code == 200 and "Not marched yet" in page.text
    assert f'hx-post="/builds/{build}/launch/march" hx-trigger="load"' in page.text
    assert client.get(f"/api/builds/{build}/jobs").json()["result"] == [], "a look starts nothing"
    answer = client.get(f"/api/builds/{build}/launch")
    assert answer.status_code == 409 and answer.json()["error"]["kind"] == "not possible"
    card = client.post(f"/builds/{build}/launch/march")
    assert card.status_code == 200
    workshop = client.app.state.workshop
    (job,) = workshop.jobs.of(build)
    assert workshop.jobs.wait(job.id, 120.0).state == "done"
    done = client.get(f"/builds/{build}/launch/march").text
    assert 'id="top"' in done and 'hx-swap-oob="patch"' in done and "Hardest on the axle" in done
    assert "hop-sentence" in client.get(f"/builds/{build}/launch").text
    assert client.get(f"/builds/{build}/launch/chart/sweeps.csv").text.startswith("what,setting")


@pytest.mark.parametrize("text", BUILDS, ids=range(len(BUILDS)))
def test_every_kind_of_car_has_its_launch(client: TestClient, text: str) -> None:
    build = client.post("/api/builds", json={"text": text}).json()["result"]["build"]["id"]
    begun = client.post(f"/api/builds/{build}/launch").json()["result"]
    assert client.app.state.workshop.jobs.wait(begun["id"], 120.0).state == "done"
    page = client.get(f"/builds/{build}/launch")
    assert page.status_code == 200 and "Hardest on the axle" in page.text
    for case in re.findall(r'<option value="([^"]*)"', page.text.partition('id="case"')[2]):
        told = client.get(f"/builds/{build}/launch/moments", params={"case": case})
        assert told.status_code == 200 and len(told.json()["places"]) == 8
    pdf = client.get(f"/builds/{build}/papers/check.pdf")
    assert pdf.status_code == 200 and pdf.content.startswith(b"%PDF")


def test_an_older_march_makes_room_for_the_newest(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    workshop: Workshop = client.app.state.workshop
    first = edit(TEXT, "car.weight", "4200 lb")
    build = client.post("/api/builds", json={"text": first}).json()["result"]["build"]["id"]
    with workshop.jobs._turn:  # nothing begins while this is held
        client.post(f"/builds/{build}/launch/march")
        client.patch(f"/api/builds/{build}/keys/car.weight", json={"value": "4300 lb"})
        client.post(f"/builds/{build}/launch/march")
        newest, oldest = workshop.jobs.of(build)
        assert (newest.state, oldest.state) == ("running", "stopped")
        told = client.post(f"/builds/{build}/launch/march/{newest.id}/stop")
        assert "Stopped." in told.text and "March the launch" in told.text


def test_a_build_that_does_not_read_has_no_launch(client: TestClient) -> None:
    wrong = edit(TEXT, "car.weight", "3 bananas")
    build = client.post("/api/builds", json={"text": wrong}).json()["result"]["build"]["id"]
    assert "No launch yet" in client.get(f"/builds/{build}/launch").text
    assert client.get(f"/builds/{build}/launch/one").status_code == 409
    assert client.post(f"/builds/{build}/launch/march").status_code == 409
    assert client.get(f"/api/builds/{build}/launch").status_code == 422


def test_the_programs_side_answers_as_described(client: TestClient) -> None:
    build = client.post("/api/builds", json={"text": TEXT}).json()["result"]["build"]["id"]
    described = client.get("/api/openapi.json").json()
    for path, query in (("launch", ""), ("launch/history", "?case=slip"), ("coupling", "")):
        answer = client.get(f"/api/builds/{build}/{path}{query}")
        assert answer.status_code == 200, answer.text
        route = described["paths"][f"/api/builds/{{build}}/{path}"]["get"]
        schema = route["responses"]["200"]["content"]["application/json"]["schema"]
        jsonschema.validate(answer.json(), {**schema, "components": described["components"]})
    assert client.get(f"/api/builds/{build}/launch/history?case=moon").status_code == 404
    job = client.post(f"/api/builds/{build}/launch")
    assert job.status_code == 202 and job.json()["result"]["state"] == "done"


@pytest.mark.parametrize(
    "path",
    ["chart/none.svg", "chart/time.pdf", "chart/time.svg?case=moon", "moments?case=moon",
     "working?number=none"],
)  # fmt: skip
def test_what_is_not_there_is_said(client: TestClient, path: str) -> None:
    build = client.post("/api/builds", json={"text": TEXT}).json()["result"]["build"]["id"]
    assert client.get(f"/builds/{build}/launch/{path}").status_code == 404


# Paper -------------------------------------------------------------------------------------------


def pages_of(path: Path) -> list[str]:
    import pypdf

    return [" ".join(p.extract_text().split()) for p in pypdf.PdfReader(path).pages]


def test_the_check_paper_has_a_page_on_a_marched_launch(
    marched: tuple[Workshop, LaunchReport], tmp_path: Path
) -> None:
    def pages(text: str) -> list[str]:
        path = tmp_path / "check.pdf"
        path.write_bytes(marched[0].paper(text, "Copper Wren", "check"))
        return pages_of(path)

    told = pages(TEXT)
    (at,) = [i for i, p in enumerate(told) if "Launch in time" in p]
    for said in ("Will the axle hop?", "Wheel hop is", "Other ways to launch it", "Gentle start"):
        assert said in told[at], "all tables stand on one page"
    assert "by tread temperature, whose effect on grip is assumed" in told[at]
    other = pages(edit(TEXT, "car.weight", "4600 lb"))
    assert not any("Launch in time" in p for p in other)
    assert any("has not been marched in time yet" in p for p in other)


@pytest.mark.parametrize("times", [1, 2])
def test_the_launch_breaks_between_its_tables_and_its_chart(
    marched: tuple[Workshop, LaunchReport], tmp_path: Path, times: int
) -> None:
    """However many cases: tables, then the chart with the rest of the paper below it."""
    workshop, report = marched
    many = replace(report, cases=report.cases * times)
    case = report.cases[0].case
    told = paper_of(
        many, lambda _: workshop.marches.history(workshop.resolved(TEXT), case).result()
    )
    path = tmp_path / "check.pdf"
    write_check_paper(workshop.study(TEXT).report, None, path, "2025-03-31", told)
    pages = pages_of(path)
    at = next(i for i, p in enumerate(pages) if "Launch in time" in p)
    assert "Other ways to launch it" in pages[at] and "likeliest car" not in pages[at]
    assert "over time, the likeliest car" in pages[at + 1]
    assert "Stated and measured by the builder" in pages[at + 1], "no page is left nearly empty"
