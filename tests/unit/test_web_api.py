"""The programs' side of the workbench: every route, its shape as described, and its errors."""

import contextlib
import json
import time

import jsonschema
import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis.checks import not_a_server_error
from schemathesis.generation import GenerationMode
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from axlewright.build.edit import edit
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.studies.report import LoadPathReport
from axlewright.web.shapes import KnownKey
from axlewright.workshop import messages, shop
from axlewright.workshop.template import template

TEXT = template()
CHECKS = [
    not_a_server_error, status_code_conformance, content_type_conformance,
    response_schema_conformance,
]  # fmt: skip
WRONG = edit(TEXT, "car.weight", "3 bananas")


@pytest.fixture(scope="module")
def client(workbench):
    with workbench() as made:
        yield made


@pytest.fixture(scope="module")
def described(client):
    return client.get("/api/openapi.json").json()


@pytest.fixture(scope="module")
def kept(client):
    """A build with two revisions that nobody changes."""
    made = result(client.post("/api/builds", json={"text": TEXT}), 201)["build"]
    result(change(client, made["id"], "car.weight", "3000 lb"))
    return made["id"]


@pytest.fixture
def build(client):
    """A build to work on."""
    return result(client.post("/api/builds", json={"text": TEXT}), 201)["build"]["id"]


def result(answer, status=200):
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/json"
    told = answer.json()
    assert set(told) == {"schema", "result"} and told["schema"].startswith("axlewright.")
    return told["result"]


def fault(answer, status):
    """An error in the one shape; gives what it says."""
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/json"
    told = answer.json()
    assert told["schema"] == "axlewright.error/1" and set(told) == {"schema", "error"}
    assert set(told["error"]) == {"kind", "message", "problems"}
    assert told["error"]["message"]
    for problem in told["error"]["problems"]:
        assert set(problem) == {"file", "severity", "key", "message", "line", "column"}
    return told["error"]


def change(client, build, key, value, **more):
    return client.patch(f"/api/builds/{build}/keys/{key}", json={"value": value, **more})


def fits(described, method, path, answer):
    """The answer is what the description of the route says."""
    responses = described["paths"][path][method]["responses"]
    schema = responses[str(answer.status_code)]["content"]["application/json"]["schema"]
    whole = {**schema, "components": described["components"]}
    jsonschema.Draft202012Validator(whole).validate(answer.json())


# Builds and revisions --------------------------------------------------------------------------


def test_a_build_from_a_text_keeps_every_byte(client, build):
    told = result(client.get(f"/api/builds/{build}"))
    assert told["text"] == TEXT and told["problems"] == []
    assert told["build"]["name"] == "Copper Wren" and told["build"]["revision"] == 1
    answer = client.get(f"/api/builds/{build}/build.toml")
    assert answer.content == TEXT.encode()
    assert answer.headers["content-disposition"] == 'attachment; filename="copper-wren.toml"'


@pytest.mark.parametrize("style", ["short", "full"])
def test_a_build_from_a_template(client, style):
    told = result(client.post("/api/builds", json={"template": style}), 201)
    assert told["text"] == template(style)


def test_a_wrong_text_is_kept_and_its_findings_withheld(client):
    told = result(client.post("/api/builds", json={"text": WRONG}), 201)
    assert [p["key"] for p in told["problems"]] == ["car.weight"]
    build = told["build"]["id"]
    assert result(client.get(f"/api/builds/{build}"))["text"] == WRONG
    for path in ("load-path", "limit-card", "workings", "papers/check.pdf", "papers/card.pdf"):
        fault(client.get(f"/api/builds/{build}/{path}"), 422)
    fault(client.post(f"/api/builds/{build}/jobs", json={}), 422)


def test_errors_are_in_the_words_of_the_command_line(client):
    build = result(client.post("/api/builds", json={"text": WRONG}), 201)["build"]["id"]
    told = client.get(f"/api/builds/{build}/load-path")
    with pytest.raises(BuildError) as e:
        read_build(WRONG, shop.FILE)
    assert told.json() == json.loads(messages.build_error_envelope(e.value))


def test_the_shelf_lists_and_loses_a_removed_build(client, build):
    assert build in {b["id"] for b in result(client.get("/api/builds"))}
    assert result(client.delete(f"/api/builds/{build}")) == {"id": build}
    assert build not in {b["id"] for b in result(client.get("/api/builds"))}
    fault(client.get(f"/api/builds/{build}"), 404)
    assert client.workshop.store.put_back(build).id == build


def test_saving_a_text_and_going_back(client, build):
    new = edit(TEXT, "name", "Tin Pelican")
    saved = result(
        client.post(f"/api/builds/{build}/revisions", json={"text": new, "base": 1, "note": "n"})
    )
    assert (saved["revision"]["number"], saved["merged"], saved["conflicts"]) == (2, False, [])
    assert result(client.get(f"/api/builds/{build}"))["build"]["name"] == "Tin Pelican"
    back = result(client.post(f"/api/builds/{build}/revisions/1/restore"))
    assert (back["number"], back["text"]) == (3, TEXT)
    history = result(client.get(f"/api/builds/{build}/revisions"))
    assert [r["number"] for r in history] == [3, 2, 1]
    assert result(client.get(f"/api/builds/{build}/revisions/2"))["note"] == "n"


def test_two_who_save_other_keys_are_merged(client, build):
    result(change(client, build, "car.weight", "3000 lb", base=1))
    saved = result(change(client, build, "engine.torque", "500 lbf*ft", base=1))
    assert saved["merged"] and saved["conflicts"] == []
    assert 'weight = "3000 lb"' in saved["revision"]["text"]
    assert 'torque = "500 lbf*ft"' in saved["revision"]["text"]


def test_two_who_save_one_key_are_told(client, build):
    result(change(client, build, "car.weight", "3000 lb", base=1))
    saved = result(change(client, build, "car.weight", "3900 lb", base=1))
    (conflict,) = saved["conflicts"]
    assert (conflict["key"], conflict["ours"], conflict["theirs"]) == (
        "car.weight", "3900 lb", "3000 lb",
    )  # fmt: skip
    assert 'weight = "3000 lb"' in saved["revision"]["text"]


def test_a_key_is_changed_as_typed_and_left_out(client, build):
    saved = result(change(client, build, "driveshaft.tube_diameter", "3 1/8 in"))
    assert 'tube_diameter = "3 1/8 in"' in saved["revision"]["text"]
    assert saved["revision"]["note"] == "driveshaft.tube_diameter = 3 1/8 in"
    saved = result(change(client, build, "driveshaft.tube_diameter", None))
    assert "tube_diameter" not in saved["revision"]["text"]


def test_a_value_that_does_not_read_is_kept_with_what_is_wrong(client, build):
    saved = result(change(client, build, "car.weight", "3 bananas"))
    (problem,) = saved["problems"]
    assert problem["key"] == "car.weight" and "no unit of mass" in problem["message"]


def test_keys_of_a_build_typed_and_used(client, kept):
    rows = {k["key"]: k for k in result(client.get(f"/api/builds/{kept}/keys"))}
    assert rows["car.weight"]["typed"] == "3000 lb"
    assert rows["car.weight"]["used"]["value"] == "3,000 lb"
    assert rows["car.wheelbase"]["typed"] is None
    assert rows["car.wheelbase"]["used"]["origin"] == "assumed"


def test_every_key_is_described(client):
    rows = {k["key"]: k for k in result(client.get("/api/keys"))}
    assert rows["car.weight"]["dimension"] == "mass" and rows["car.weight"]["first"]
    assert "manual" in rows["gearbox.kind"]["kinds"]
    assert "8.5" in rows["axle.ring_gear"]["rows"]
    assert set(rows["car.weight"]) == set(KnownKey.__dataclass_fields__)


# Studies ---------------------------------------------------------------------------------------


def test_the_load_path_is_the_report_of_the_command_line(client, kept):
    told = result(client.get(f"/api/builds/{kept}/load-path?revision=1&samples=300&seed=4"))
    study = client.workshop.study(TEXT, 4, 300)
    assert told == messages.plain(study.report)
    assert set(told) == set(LoadPathReport.__dataclass_fields__)
    latest = result(client.get(f"/api/builds/{kept}/load-path?samples=300"))
    assert latest["made"]["build_hash"] != told["made"]["build_hash"]


def test_limit_card(client, kept):
    told = result(client.get(f"/api/builds/{kept}/limit-card"))
    assert told["name"] == "Copper Wren" and told["lines"] and told["tires"]


def test_working_of_every_kind_of_number(client, kept):
    ids = result(client.get(f"/api/builds/{kept}/workings"))
    assert len(ids) > 100
    steps = result(client.get(f"/api/builds/{kept}/workings/{ids[0]}"))
    assert steps[0]["depth"] == 0 and any(s["source"] for s in steps)
    si = result(client.get(f"/api/builds/{kept}/workings/{ids[0]}?system=si"))
    assert [s["title"] for s in si] == [s["title"] for s in steps] and si != steps
    fault(client.get(f"/api/builds/{kept}/workings/none.such"), 404)


def test_compare_revisions_and_builds(client, kept):
    told = result(client.get(f"/api/builds/{kept}/compare?old=1"))
    assert [i["key"] for i in told["inputs"]] == ["car.weight"] and told["links"]
    other = result(client.post("/api/builds", json={"text": TEXT}), 201)["build"]["id"]
    told = result(client.get(f"/api/builds/{kept}/compare?old=1&other={other}"))
    assert told["inputs"] == [] and told["links"] == []
    fault(client.get(f"/api/builds/{kept}/compare"), 422)


@pytest.mark.parametrize(("kind", "name"), [("check", "copper-wren.pdf"),
                                            ("card", "copper-wren.card.pdf")])  # fmt: skip
def test_papers(client, kept, kind, name):
    answer = client.get(f"/api/builds/{kept}/papers/{kind}.pdf?revision=1")
    assert answer.status_code == 200 and answer.content.startswith(b"%PDF-")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'


def test_a_job_is_started_asked_after_and_stopped(client, kept, monkeypatch):
    monkeypatch.setattr(shop, "fine_verdict", endless)
    started = result(client.post(f"/api/builds/{kept}/jobs", json={}), 202)
    assert started["kind"] == "fine verdict" and started["state"] == "running"
    assert result(client.get(f"/api/jobs/{started['id']}"))["build"] == kept
    assert result(client.get(f"/api/builds/{kept}/jobs"))[0]["id"] == started["id"]
    stopped = result(client.post(f"/api/jobs/{started['id']}/stop"))
    assert stopped["state"] == "stopped"
    client.workshop.jobs.wait(started["id"], 10)
    assert result(client.get(f"/api/jobs/{started['id']}"))["result"] is None


def endless(build, seed, slot, tell):
    while tell(0.5):
        time.sleep(0.005)
    raise shop.StoppedError


# Errors ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("method", "path", "status", "kind"),
    [
        ("get", "/api", 404, "not found"),
        ("get", "/api/nothing", 404, "not found"),
        ("get", "/api/builds/", 404, "not found"),
        ("get", "/api/builds/none", 404, "not found"),
        ("delete", "/api/builds/none", 404, "not found"),
        ("get", "/api/builds/none/load-path", 404, "not found"),
        ("get", "/api/builds/none/jobs", 404, "not found"),
        ("get", "/api/builds/none/revisions/1", 404, "not found"),
        ("post", "/api/builds/none/revisions/1/restore", 404, "not found"),
        ("get", "/api/jobs/none", 404, "not found"),
        ("post", "/api/jobs/none/stop", 404, "not found"),
        ("put", "/api/builds", 405, "not allowed"),
        ("get", "/api/builds/..", 404, "not found"),
        ("get", "/api/builds/a%00b", 422, "bad input"),
        ("get", "/api/builds/%2e%2e%2fetc", 404, "not found"),
        ("get", "/api/jobs/" + "x" * 65, 422, "bad input"),
    ],
)
def test_one_shape_for_every_error(client, method, path, status, kind):
    assert fault(client.request(method, path), status)["kind"] == kind


@pytest.mark.parametrize("query", ["revision=0", "revision=x", f"revision={2**80}", "seed=-1",
                                   "samples=99", "samples=1e9"])  # fmt: skip
def test_what_cannot_be_asked(client, kept, query):
    told = fault(client.get(f"/api/builds/{kept}/load-path?{query}"), 422)
    assert told["problems"][0]["key"] == query.partition("=")[0]


def test_a_revision_that_is_not_there(client, kept):
    assert (
        "no revision 99"
        in fault(client.get(f"/api/builds/{kept}/load-path?revision=99"), 404)["message"]
    )
    fault(change(client, kept, "car.weight", "1 lb", base=99), 404)
    fault(client.post(f"/api/builds/{kept}/revisions", json={"text": "", "base": 99}), 404)


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"{", "this is no JSON"),
        (b"[]", "must be a JSON object"),
        (b'{"text": 3}', "text: must be text"),
        (b'{"tekst": "x"}', "tekst: is not known here"),
        (b'{"template": "long"}', "template: must be one of short or full"),
        (b'{"text": "\\ud800"}', "text: is no text in Unicode"),
        (b"\xff\xfe", "this is no JSON"),
        (b"\x80\x1b\xa0", "does not read as text in UTF-8"),
    ],
)
def test_a_body_that_does_not_read(client, body, said):
    headers = {"Content-Type": "application/json"}
    told = fault(client.post("/api/builds", content=body, headers=headers), 422)
    assert said in told["message"]


@pytest.mark.parametrize("key", ["car weight", ".a", "a..b", "a" * 65, "x=1", "a.b.c.d.e.f.g.h.i"])
def test_a_path_that_is_no_key(client, kept, key):
    assert fault(change(client, kept, key, "1"), 422)["problems"][0]["key"] == "key"


def test_what_we_did_not_foresee_is_our_fault_and_told_briefly(client, kept, monkeypatch, capfd):
    def breaks(*_):
        raise ZeroDivisionError("inside")

    monkeypatch.setattr(type(client.workshop), "card", breaks)
    told = fault(client.get(f"/api/builds/{kept}/limit-card"), 500)
    assert told["kind"] == "our fault" and "ZeroDivisionError" in told["message"]
    assert "inside" not in told["message"]
    assert "ZeroDivisionError: inside" in capfd.readouterr().err


# Description -----------------------------------------------------------------------------------


def test_every_route_is_described(described):
    assert described["openapi"].startswith("3.")
    routes = [(p, m) for p, ms in described["paths"].items() for m in ms]
    assert len(routes) >= 22 and all(p.startswith("/api/") for p, _ in routes)
    for path, methods in described["paths"].items():
        for method, route in methods.items():
            assert route["description"], (method, path)
            assert {"404", "413", "422", "500"} <= set(route["responses"]), (method, path)
    assert "HTTPValidationError" not in json.dumps(described)


def test_answers_are_as_described(client, described, kept):
    asked = [
        ("/api/keys", "/api/keys"),
        ("/api/builds", "/api/builds"),
        ("/api/builds/{build}", f"/api/builds/{kept}"),
        ("/api/builds/{build}/revisions", f"/api/builds/{kept}/revisions"),
        ("/api/builds/{build}/revisions/{number}", f"/api/builds/{kept}/revisions/1"),
        ("/api/builds/{build}/keys", f"/api/builds/{kept}/keys"),
        ("/api/builds/{build}/load-path", f"/api/builds/{kept}/load-path?samples=300"),
        ("/api/builds/{build}/limit-card", f"/api/builds/{kept}/limit-card"),
        ("/api/builds/{build}/workings", f"/api/builds/{kept}/workings"),
        ("/api/builds/{build}/compare", f"/api/builds/{kept}/compare?old=1"),
        ("/api/builds/{build}/jobs", f"/api/builds/{kept}/jobs"),
    ]
    for path, address in asked:
        fits(described, "get", path, client.get(address))
    number = client.get(f"/api/builds/{kept}/workings").json()["result"][3]
    working = client.get(f"/api/builds/{kept}/workings/{number}")
    fits(described, "get", "/api/builds/{build}/workings/{number}", working)
    fits(described, "get", "/api/builds/{build}", client.get("/api/builds/none"))
    new = client.post("/api/builds", json={"text": WRONG})
    fits(described, "post", "/api/builds", new)
    made = new.json()["result"]["build"]["id"]
    fits(
        described,
        "patch",
        "/api/builds/{build}/keys/{key}",
        change(client, made, "car.weight", "1"),
    )
    fits(described, "delete", "/api/builds/{build}", client.delete(f"/api/builds/{made}"))


# Anything at all, made from the description ----------------------------------------------------

HEADERS = {"Host": "127.0.0.1", "Origin": "http://127.0.0.1"}
FEW = settings(
    max_examples=12, deadline=None, derandomize=True, database=None,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE])
def test_no_request_made_from_the_description_fails(client, mode, monkeypatch):
    """Requests right and wrong, half of them on a build that is there."""
    monkeypatch.setattr(shop, "fine_verdict", endless)
    build = result(client.post("/api/builds", json={"text": TEXT}), 201)["build"]["id"]
    api = schemathesis.openapi.from_asgi("/api/openapi.json", client.app, headers=HEADERS)
    asked = []

    def check(case):
        names = case.path_parameters
        if names and "build" in names and case.method != "DELETE" and len(asked) % 2:
            names["build"] = build
        answer = case.call(headers=HEADERS)
        asked.append(answer.status_code)
        case.validate_response(answer, checks=CHECKS)
        if answer.status_code >= 400:
            told = answer.json()
            assert told["schema"] == "axlewright.error/1" and told["error"]["message"]

    for found in api.get_all_operations():
        with contextlib.suppress(Unsatisfiable):  # a request that brings nothing cannot be wrong
            FEW(given(case=found.ok().as_strategy(generation_mode=mode))(check))()
    for job in client.workshop.jobs.of(build):
        client.workshop.jobs.stop(job.id)
    assert len(asked) > 100 and max(asked) < 500
