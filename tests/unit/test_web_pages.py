"""Pages as the server writes them: limits, recognizing, wording; and the tidying between them."""

import gc
import re
import time

import pytest

from axlewright.studies.load_path import load_path
from axlewright.web import files
from axlewright.web.rendering import advice
from axlewright.web.tidying import Tidying
from axlewright.web.views import pictures, tables
from axlewright.workshop.recognising import guide
from axlewright.workshop.representative import BUILDS
from axlewright.workshop.template import template


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture
def build(client):
    return client.workshop.store.create(template()).id


def words(html):
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


# Limits ----------------------------------------------------------------------------------------


def test_the_limits_page_says_what_the_card_says(client, build):
    card = client.workshop.card(client.workshop.store.latest(build).text)
    said = words(client.get(f"/builds/{build}/limits").text)
    for line in card.lines:
        allowed = "no setting holds" if line.allowed == "none" else line.allowed
        assert f"{line.dial.capitalize()} {line.now} {allowed}" in said
    for step in card.tires:
        assert step.grip_class in said
    for link in card.links:
        assert link.title in said


def test_without_an_answer_there_are_no_limits_and_it_says_why(client):
    build = client.workshop.store.create("format = 1\n[car]\nweight = 3\n").id
    page = client.get(f"/builds/{build}/limits")
    assert page.status_code == 200 and "No limits yet" in page.text
    assert "to be put right first" in page.text


# Recognizing -----------------------------------------------------------------------------------


def test_every_clue_stands_on_the_page(client, build):
    said = client.get(f"/builds/{build}/recognize").text
    for clue in guide():
        assert re.sub("'", "&#39;", clue.look_for) in said, clue.name


def test_wear_is_noted_in_the_build_and_taken_back(client, build):
    wear = [c.name for c in guide() if c.kind == "wear"][:2]
    for base, name in enumerate(wear, start=1):
        form = {"name": name, "base": str(base)}
        assert client.post(f"/builds/{build}/recognize/found", data=form).status_code == 303
    text = client.workshop.store.latest(build).text
    assert f'found = ["{wear[0]}", "{wear[1]}"]' in text
    assert client.workshop.problems(text) == () or all(
        p.severity == "caution" for p in client.workshop.problems(text)
    )
    assert client.get(f"/builds/{build}/recognize").text.count(">noted<") == 2
    form = {"name": wear[0], "base": "3", "there": "false"}
    client.post(f"/builds/{build}/recognize/found", data=form)
    assert f'found = ["{wear[1]}"]' in client.workshop.store.latest(build).text


def test_only_known_wear_is_noted(client, build):
    form = {"name": "anything", "base": "1"}
    assert client.post(f"/builds/{build}/recognize/found", data=form).status_code == 422


def test_advice_that_names_a_command_leads_to_the_page():
    said = advice("<b> see `axlewright recognise`.", "abc")
    assert said == '&lt;b&gt; see <a href="/builds/abc/recognize">how to recognize it</a>.'
    assert advice("Weigh `it`.", "abc") == "Weigh it."


def test_no_page_sends_a_builder_to_a_command(client, build):
    for page in ("car", "load-path", "limits", "recognize", "compare", "papers"):
        html = client.get(f"/builds/{build}/{page}").text
        shown = re.sub(r"<textarea.*?</textarea>", "", html, flags=re.DOTALL)
        assert "axlewright recognise" not in shown, page


# Wording and pictures --------------------------------------------------------------------------


@pytest.mark.parametrize("text", BUILDS)
def test_what_sets_a_torque_is_said_in_a_sentence(client, text):
    study = client.workshop.study(text, 1, 200)
    told = {c.governed_by for c in study.report.cases if c.governed_by}
    assert told <= set(tables.GOVERNS)
    for case in tables.cases(study.report, study.nodes):
        assert re.fullmatch(r"[A-Z][^.]+\.", case.governed_by), case.title


def test_the_picture_of_the_driveline_follows_the_report(client):
    first, second = (client.workshop.study(t, 1, 200).report for t in BUILDS[:2])
    for report in (first, second, first):
        drawn = pictures.driveline(report)
        title = next(x.title for x in report.links if x.link == report.verdict.weakest)
        assert re.search(rf">(?:Goes|Would go) first: \d+ {re.escape(title)}<", drawn)
        assert f"Load path of {report.name}</title>" in drawn
        assert "goes first" not in re.sub(r"<desc.*?</desc>", "", drawn, flags=re.DOTALL)


def test_a_kept_picture_is_the_same_as_a_new_one(client):
    report = client.workshop.study(BUILDS[0], 1, 200).report
    pictures._DRIVELINES._answers.clear()
    new = pictures.driveline(report)
    assert pictures.driveline(report) == new
    assert pictures.driveline(client.workshop.study(BUILDS[0], 1, 200).report) == new


def test_every_row_of_a_chart_tells_what_it_shows(client):
    report = client.workshop.study(BUILDS[0], 1, 200).report
    margins, torque = (pictures.inline(n, report) for n in ("margins", "torque"))
    assert margins.count("<title>") >= len(report.links)
    assert torque.count("<title>Gear ") == len(report.gears)


# Files of the package --------------------------------------------------------------------------


def test_what_a_page_waits_for_is_packed_beforehand(client):
    for name in ("static/workbench.css", "static/htmx-2.0.11.min.js", "static/workbench.js"):
        file = files.kept()[name]
        raw = client.get(f"/{name}", headers={"Accept-Encoding": "identity"})
        packed = client.get(f"/{name}", headers={"Accept-Encoding": "gzip"})
        assert raw.content == packed.content == file.data
        assert packed.headers["content-encoding"] == "gzip"
        assert "content-encoding" not in raw.headers
        assert packed.headers["vary"] == raw.headers["vary"] == "Accept-Encoding"


# Tidying ---------------------------------------------------------------------------------------


def test_memory_is_tidied_when_nobody_asks(monkeypatch):
    tidying = Tidying()
    assert not tidying.due()
    tidying.since = 1
    now = time.monotonic()
    monkeypatch.setattr(time, "monotonic", lambda: now + 10.0)
    assert tidying.due()
    tidying.open = 1
    assert not tidying.due()
    tidying.since = 1000
    assert tidying.due()
    tidying.tidy()
    assert not tidying.due()


def test_python_tidies_as_before_once_the_workbench_is_closed(workbench):
    others = Tidying.running_now
    before = Tidying.before if others else gc.get_threshold()
    with workbench() as first:
        with workbench() as second:
            assert Tidying.running_now == others + 2
            assert gc.get_threshold() != before
            assert second.get("/").status_code == 200
        assert gc.get_threshold() != before
        assert first.get("/").status_code == 200
    assert Tidying.running_now == others
    assert (gc.get_threshold() == before) is (others == 0)


def test_a_study_that_is_dropped_is_given_back(client):
    """What is kept for long holds no studies that the workshop has let go."""
    import weakref

    made = load_path(client.workshop.resolved(BUILDS[0]), 1, 150)
    gone = weakref.ref(made)
    tables.links(made.report, made.nodes)
    pictures.driveline(made.report)
    del made
    gc.collect()
    assert gone() is None
