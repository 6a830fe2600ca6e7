"""The angles page and its program's side, as the server writes them."""

import re
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
EXAMPLE = (EXAMPLES / "copper-wren-fit.toml").read_text(encoding="utf-8")
BARE = (EXAMPLES / "copper-wren-tired.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture
def build(client):
    return client.workshop.store.create(EXAMPLE).id


def words(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def edited(client, build, path, value, **more):
    form = {"path": path, "value": value, "base": "1", "serial": "3", "keep": "true"} | more
    return client.post(f"/builds/{build}/angles/field", data=form)


def test_the_page_answers_first(client, build):
    page = client.get(f"/builds/{build}/angles")
    assert page.status_code == 200
    said = words(page.text)
    for wanted in ("Turn the pinion&#39;s nose up by", "Gauge on the pinion", "Left over",
                   "Anti-squat", "Which tube would do", "Left lower link"):  # fmt: skip
        assert wanted in said, wanted
    assert said.index("At what angles") < said.index("What to set") < said.index("in every state")
    ids = re.findall(r' id="([^"]+)"', page.text)
    assert len(ids) == len(set(ids)), sorted({i for i in ids if ids.count(i) > 1})


def test_without_readings_the_page_says_what_to_measure(client):
    bare = client.workshop.store.create(BARE).id
    said = words(client.get(f"/builds/{bare}/angles").text)
    assert "Measure the gearbox&#39;s slope" in said
    assert "The picture comes as soon as" in said
    assert client.get(f"/builds/{bare}/angles/chart/side.svg").status_code == 404
    assert "The picture comes" in client.get(f"/builds/{bare}/angles/moves").text


def test_a_wrong_build_has_no_angles(client):
    wrong = client.workshop.store.create("format = 1\n[car]\nweight = 3\n").id
    page = client.get(f"/builds/{wrong}/angles")
    assert page.status_code == 200
    assert "No angles yet" in page.text
    assert client.get(f"/builds/{wrong}/angles/moves").status_code == 409


def test_the_slider_moves_the_axle(client, build):
    low = words(client.get(f"/builds/{build}/angles/moves?travel=-2").text)
    high = words(client.get(f"/builds/{build}/angles/moves?travel=2").text)
    assert low != high
    assert "further in" in high
    assert client.get(f"/builds/{build}/angles/moves?travel=1000").status_code == 422


def test_a_reading_is_tried_and_then_kept(client, build):
    tried = edited(client, build, "angles.pinion", "2 deg", keep="false")
    assert tried.status_code == 200
    assert tried.headers["X-Serial"] == "3"
    assert "Trying it; revision" in tried.text
    assert 'id="angles-answer" hx-swap-oob="patch"' in tried.text
    assert client.workshop.store.latest(build).number == 1
    kept = edited(client, build, "angles.pinion", "2 deg")
    assert kept.headers["X-Revision"] == "2"
    assert 'pinion = "2 deg"' in client.workshop.store.latest(build).text
    assert 'id="used-angles-pinion"' in kept.text


def test_a_link_point_moves_the_anti_squat(client, build):
    def squat(text):
        return re.search(r"Anti-squat</dt><dd>(\d+) %", text)[1]

    before = squat(client.get(f"/builds/{build}/angles").text)
    point = '["20 1/2 in", "18 1/4 in", "11 in"]'
    after = squat(edited(client, build, "points.lower_body", point, travel="0").text)
    assert int(after) > int(before) + 30


def test_what_does_not_read_leaves_the_answer_standing(client, build):
    tried = edited(client, build, "angles.pinion", "2 lb", keep="false")
    assert "Does not read yet" in tried.text
    assert "angles-answer" not in tried.text
    kept = edited(client, build, "angles.pinion", "2 lb")
    assert "is no unit of angle" in words(kept.text)
    assert edited(client, build, "no.such", "1").status_code == 422


def test_every_number_of_the_page_has_a_working(client, build):
    html = client.get(f"/builds/{build}/angles").text
    ids = re.findall(r'data-from="angles" data-working="([^"]+)"', html)
    assert len(ids) > 100
    assert len(set(ids)) > 100
    for number in ("gauge", "left_over", ids[0], "launch_left_lower_link", "set_rear"):
        reply = client.get(f"/builds/{build}/angles/working", params={"number": number})
        assert reply.status_code == (404 if number == "left_over" else 200), number
    shown = words(client.get(f"/builds/{build}/angles/working?number=gauge").text)
    assert "s_f" in shown


def test_the_picture_is_saved(client, build):
    svg = client.get(f"/builds/{build}/angles/chart/side.svg?travel=1")
    assert svg.text.startswith("<svg")
    assert "side-revision-1.svg" in svg.headers["Content-Disposition"]
    assert "font-face" in client.get(f"/builds/{build}/angles/chart/side.svg?font=true").text
    rows = client.get(f"/builds/{build}/angles/chart/side.csv").text.splitlines()
    assert rows[0].startswith(chr(34) + "travel, in")
    assert len(rows) > 30
    assert client.get(f"/builds/{build}/angles/chart/side.pdf").status_code == 404


def test_programs_get_the_whole_report(client, build):
    answer = client.get(f"/api/builds/{build}/angles?samples=50").json()
    assert answer["schema"] == "axlewright.angles/1"
    report = answer["result"]
    assert report["verdict"] == "turn"
    assert report["made"]["samples"] == 50
    assert report["brackets"][0]["case"] == "launch"
    assert len(report["sweep"]["travel"]) == len(report["sweep"]["front"])
