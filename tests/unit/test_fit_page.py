"""The picture and the tables of the page about fit, and the programs' side of it."""

import json
from pathlib import Path

import jsonschema
import pytest
from starlette.testclient import TestClient

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.drawing.fit_rear import HEIGHT, WIDTH, fit_rear
from axlewright.drawing.primitives import Text, bounds, flat
from axlewright.drawing.svg import to_svg
from axlewright.store.builds import Store
from axlewright.studies.fit import fit_study
from axlewright.web.app import create_app
from axlewright.web.views import fit as views
from axlewright.workshop.shop import Workshop

ROOT = Path(__file__).resolve().parents[2]
TEXT = (ROOT / "examples" / "copper-wren-fit.toml").read_text(encoding="utf-8")
BARE = (ROOT / "examples" / "copper-wren-tired.toml").read_text(encoding="utf-8")
HERE = "http://127.0.0.1"


def reported(text=TEXT, **changes):
    for key, value in changes.items():
        text = edit(text, key.replace("__", "."), value)
    return fit_study(resolve(read_build(text, "build.toml")), count=60)


@pytest.fixture(scope="module")
def client():
    workshop = Workshop(Store(None))
    with TestClient(create_app(workshop), base_url=HERE, headers={"Origin": HERE}) as made:
        yield made
    workshop.close()


def kept(client, text=TEXT):
    return client.post("/api/builds", json={"text": text}).json()["result"]["build"]["id"]


@pytest.mark.parametrize(
    "changes",
    [
        {}, {"fit__left__lip": None, "fit__lip_to_lip": None}, {"wheel__rim_width": None},
        {"centre__face_to_face": "57 in"}, {"fit__left__shock": "8 in"},
        {"wheel__section": "13 in"}, {"centre__pinion_left": None},
    ],
)  # fmt: skip
def test_everything_of_the_picture_lies_inside_it(changes):
    picture = fit_rear(reported(**changes))
    for shape in flat(picture.shapes):
        left, top, right, bottom = bounds(shape)
        assert left >= 0.0, shape
        assert top >= 0.0, shape
        assert right <= WIDTH, shape
        assert bottom <= HEIGHT, shape
    assert to_svg(picture, "rear").startswith("<svg")


def test_no_words_of_the_picture_lie_on_each_other():
    texts = [s for s in flat(fit_rear(reported()).shapes) if isinstance(s, Text)]
    boxes = [bounds(t) for t in texts]
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
            assert apart, (texts[n].text, a, b)


def test_the_picture_says_in_words_what_it_shows():
    assert "left outer lip: " in fit_rear(reported()).description
    assert "no room was measured" in fit_rear(reported(BARE)).description
    short = [
        s.text
        for s in flat(fit_rear(reported(centre__face_to_face="56 in")).shapes)
        if isinstance(s, Text)
    ]
    assert any("short" in t for t in short)


def test_what_moves_is_one_group_and_the_body_stays():
    svg = to_svg(fit_rear(reported()), "rear")
    axle = svg[svg.index('id="rear-axle"') : svg.index('id="rear-lip-left"')]
    for name in ("rear-wheel-left", "rear-wheel-right"):
        assert f'id="{name}"' in axle
    assert 'id="rear-inner-left"' not in axle


def test_the_slider_is_given_what_the_study_found():
    report = reported()
    picture = views.picture(report)
    told = json.loads(picture.data)
    assert len(told["both"]) == len(told["lean"]) == picture.last + 1
    assert told["both"][picture.middle] == 0.0
    for curve, found in zip(told["curves"], report.travel.curves, strict=True):
        assert curve["both"][0] == pytest.approx(found.both[0] / 0.0254, abs=1e-3)
    assert len(picture.rows) == 5
    assert views.picture(reported(BARE)).svg == ""


def test_a_table_shows_a_stroke_for_what_is_missing_and_leads_to_the_field():
    line = next(o for o in views.order(reported(BARE)) if o.key == "fit_width")
    assert (line.number.id, line.number.text) == ("", "–")
    assert ("fit.left.lip", "fit.left.lip") in line.lacks
    assert line.more > 0


def test_what_is_planned_stands_first_and_once():
    report = reported()
    lines = views.choices(report)
    assert [c.planned for c in lines] == [True] + [False] * (len(lines) - 1)
    same = {(c.tire, *(n.text for n in c.cells[:4])) for c in lines}
    assert len(same) == len(lines)


def test_programs_get_the_report_by_its_schema(client):
    reply = client.get(f"/api/builds/{kept(client)}/fit", params={"samples": 50, "have": "brakes"})
    assert reply.status_code == 200
    schema = json.loads((ROOT / "docs" / "json" / "fit.json").read_text(encoding="utf-8"))
    jsonschema.validate(reply.json(), schema, cls=jsonschema.Draft202012Validator)
    assert "brakes" not in {h["item"] for h in reply.json()["result"]["holds"]}


@pytest.mark.parametrize("query", ["have=banana", "old_ratio=x", "drive_teeth=x", "samples=1"])
def test_bad_questions_are_refused(client, query):
    assert client.get(f"/api/builds/{kept(client)}/fit?{query}").status_code == 422


def test_asked_numbers_have_their_working(client):
    build = kept(client)
    page = f"/builds/{build}/fit"
    shown = client.get(page, params={"drives": "7", "old_ratio": "3.08"}).text
    assert 'data-working="driven_7"' in shown
    assert client.get(f"{page}/working", params={"number": "driven_7"}).status_code == 200
    for number in ("driven_x", "driven_", "nothing"):
        assert client.get(f"{page}/working", params={"number": number}).status_code == 404


def test_a_trial_is_not_kept_and_a_wrong_one_says_so(client):
    build = kept(client)
    sent = {"path": "wheel.backspace", "value": "4.5 in", "base": 1, "serial": 3, "keep": "false"}
    reply = client.post(f"/builds/{build}/fit/field", data=sent)
    assert reply.status_code == 200
    assert (reply.headers["X-Serial"], reply.headers["X-Revision"]) == ("3", "1")
    assert "4.5 in (114.3 mm) of backspace" in reply.text
    wrong = client.post(f"/builds/{build}/fit/field", data=sent | {"value": "4.5 lb"})
    assert "Does not read yet" in wrong.text
    kept_one = client.post(f"/builds/{build}/fit/field", data=sent | {"keep": "true"})
    assert kept_one.headers["X-Revision"] == "2"
    bad = client.post(f"/builds/{build}/fit/field", data=sent | {"path": "no.such"})
    assert bad.status_code == 422
