"""The gear pair on the page, in the API and on paper: kept studies, controls, charts, words."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from starlette.testclient import TestClient

from axlewright.build.edit import edit
from axlewright.papers.check_paper import content, write_check_paper
from axlewright.papers.mesh_page import mesh_content
from axlewright.store.builds import Store
from axlewright.studies import mesh_choices as choices
from axlewright.studies import mesh_map as maps
from axlewright.studies.mesh import MeshStudy, mesh_study
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_working import findings_of
from axlewright.web.app import create_app
from axlewright.web.views import mesh as views
from axlewright.web.views import mesh_controls as controls
from axlewright.workshop import meshes
from axlewright.workshop.mesh_asking import AskedWrongError, asked
from axlewright.workshop.shop import MESH, Workshop

TEXT = (
    'format = 1\nname = "Gray Heron"\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
    'ratio = "41/11"\ncase_iron = "gray"\nsupport = "overhung"\n'
)
EVEN = f'{TEXT}[gears]\ndepth = "even"\n'
IMPOSSIBLE = f'{TEXT}pinion_offset = "3.9 in"\n'
HERE = "http://127.0.0.1"
WAIT = 240.0


@pytest.fixture(scope="module")
def worked() -> Iterator[tuple[Workshop, MeshReport]]:
    """A workshop with the likeliest pair worked out, contact in the loop, a map of few cases."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(maps, "DEPTHS", (-7.62e-5, 7.62e-5))
        patch.setattr(maps, "TORQUES", 2)
        patch.setattr(maps, "IRONS", ("gray",))
        patch.setattr(choices, "STEPS", 3)
        workshop = Workshop(Store(None), gear_samples=0)
        job = workshop.jobs.wait(workshop.jobs.start(MESH, "any", TEXT).id, WAIT)
        assert job.state == "done", job.message
    report = workshop.meshes.report(workshop.geared(TEXT))
    assert report is not None
    yield workshop, report
    workshop.close()


@pytest.fixture
def quickly(monkeypatch: pytest.MonkeyPatch) -> None:
    """Studies under the textbook's force, and no map: in no time."""

    def quick(build, seed, count, tell=None, contact=False):  # type: ignore[no-untyped-def]
        return mesh_study(build, seed, count, tell, contact=False)

    monkeypatch.setattr(meshes, "mesh_study", quick)
    monkeypatch.setattr(maps, "DEPTHS", (0.0, 7.62e-5))
    monkeypatch.setattr(maps, "TORQUES", 2)


@pytest.fixture
def client(worked: tuple[Workshop, MeshReport]) -> Iterator[TestClient]:
    made = TestClient(
        create_app(worked[0]), base_url=HERE, headers={"Origin": HERE}, follow_redirects=False
    )
    yield made
    made.close()


def new(client: TestClient, text: str = TEXT) -> str:
    made = client.post("/api/builds", json={"text": text})
    assert made.status_code == 201, made.text
    return str(made.json()["result"]["build"]["id"])


@pytest.fixture(scope="module")
def study(worked: tuple[Workshop, MeshReport]) -> MeshStudy:
    return worked[0].meshes.quick(worked[0].geared(TEXT))


# Pages -------------------------------------------------------------------------------------------


def test_the_page_of_a_pair_that_is_worked_out(client: TestClient) -> None:
    build = new(client)
    page = client.get(f"/builds/{build}/mesh")
    assert page.status_code == 200
    assert 'id="mesh-sentence"' in page.text and "mesh-job" not in page.text
    assert "Assumed micro-geometry" in page.text
    for part in ("moves-title", "loads-title", "change-title", "gives-title", "mesh-notes"):
        assert f'id="{part}"' in page.text
    assert 'data-wanted="yes"' in page.text
    ids = re.findall(r' id="([^"]+)"', page.text)
    assert len(ids) == len(set(ids)), sorted({i for i in ids if ids.count(i) > 1})


def test_the_page_before_and_after_the_job(client: TestClient, quickly: None) -> None:
    build = new(client, edit(TEXT, "gears.pattern_length", "52 %"))
    page = client.get(f"/builds/{build}/mesh")
    assert 'id="mesh-quick"' in page.text and 'hx-trigger="load"' in page.text
    assert client.get(f"/api/builds/{build}/jobs").json()["result"] == [], "a look starts nothing"
    answer = client.get(f"/api/builds/{build}/mesh")
    assert answer.status_code == 409 and "send POST" in answer.text
    assert "follows once the map" in client.get(f"/builds/{build}/mesh/under").text
    setting = client.get(f"/api/builds/{build}/mesh/setting", params={"torque": 500.0})
    assert setting.status_code == 409
    assert client.post(f"/builds/{build}/mesh/job").status_code == 200
    workshop = client.app.state.workshop  # type: ignore[attr-defined]
    (job,) = workshop.jobs.of(build)
    assert workshop.jobs.wait(job.id, WAIT).state == "done"
    done = client.get(f"/builds/{build}/mesh/job").text
    assert 'id="mesh-sentence"' in done and 'hx-swap-oob="innerHTML"' in done
    known = client.post(f"/api/builds/{build}/mesh").json()["result"]
    assert known["state"] == "done" and known["kind"] == MESH


def test_an_older_job_makes_room_and_can_be_stopped(client: TestClient, quickly: None) -> None:
    workshop: Workshop = client.app.state.workshop  # type: ignore[attr-defined]
    build = new(client, edit(TEXT, "gears.pattern_length", "55 %"))
    with workshop.jobs._turn:  # nothing begins while this is held
        client.post(f"/builds/{build}/mesh/job")
        client.patch(f"/api/builds/{build}/keys/gears.pattern_length", json={"value": "56 %"})
        client.post(f"/builds/{build}/mesh/job")
        newest, oldest = workshop.jobs.of(build)
        assert (newest.state, oldest.state) == ("running", "stopped")
        told = client.post(f"/builds/{build}/mesh/job/{newest.id}/stop")
        assert "Stopped." in told.text and "Work it out" in told.text


def test_a_pair_that_cannot_be_is_said_in_words(client: TestClient) -> None:
    build = new(client, IMPOSSIBLE)
    page = client.get(f"/builds/{build}/mesh")
    assert page.status_code == 200 and "This gear pair cannot be" in page.text
    for address in ("set", "under", "job", "working?number=x", "flanks.csv"):
        assert client.get(f"/builds/{build}/mesh/{address}").status_code == 409
    assert client.post(f"/builds/{build}/mesh/job").status_code == 409
    assert client.post(f"/api/builds/{build}/mesh").status_code == 409


def test_teeth_of_even_depth_have_no_flank_to_draw(client: TestClient, quickly: None) -> None:
    build = new(client, EVEN)
    page = client.get(f"/builds/{build}/mesh")
    assert page.status_code == 200 and "No flanks to draw" in page.text
    assert "mesh-form" not in page.text and "moves-title" in page.text
    assert client.get(f"/builds/{build}/mesh/flanks.csv").status_code == 409


def test_a_wrong_build_has_no_gear_pair(client: TestClient) -> None:
    build = new(client, "format = 1\n[car]\nweight = 'heavy'\n")
    assert "No gear pair yet" in client.get(f"/builds/{build}/mesh").text
    assert client.get(f"/builds/{build}/mesh/set").status_code == 409
    assert client.post(f"/builds/{build}/mesh/job").status_code == 409


def test_sliders_are_answered(client: TestClient) -> None:
    build = new(client)
    here = client.get(f"/builds/{build}/mesh/set").text
    thick = client.get(f"/builds/{build}/mesh/set", params={"shim": "0.006"})
    assert thick.status_code == 200 and "thicker" in thick.text and here != thick.text
    assert 'data-shim="6.0"' in thick.text
    metric = client.get(f"/builds/{build}/mesh/set", params={"shim": "0.1524 mm"})
    assert 'data-shim="6.0"' in metric.text
    for shim in ("banana", "0.2 in", "9" * 50):
        told = client.get(f"/builds/{build}/mesh/set", params={"shim": shim})
        assert told.status_code == 422


def test_pressed_flanks_are_answered(client: TestClient) -> None:
    build = new(client)
    base = f"/builds/{build}/mesh/under"
    some = client.get(base, params={"torque": "1500", "iron": "gray", "support": "straddle"})
    assert some.status_code == 200 and "pressing up to" in some.text
    assert "read between the cases" in some.text
    none = client.get(base, params={"torque": "0"})
    assert "no torque" in none.text
    assert client.get(base, params={"torque": "-5 lb·ft"}).status_code == 422
    assert client.get(base, params={"torque": "1e5"}).status_code == 422


def test_every_number_of_the_page_has_a_working(client: TestClient) -> None:
    build = new(client)
    ids = set(re.findall(r'data-from="mesh" data-working="([^"]+)"',
                         client.get(f"/builds/{build}/mesh").text))  # fmt: skip
    assert len(ids) > 40
    for number in sorted(ids)[::7]:
        told = client.get(f"/builds/{build}/mesh/working", params={"number": number})
        assert told.status_code == 200 and number in told.text
    assert client.get(f"/builds/{build}/mesh/working?number=nothing").status_code == 404


def test_charts_and_flanks_are_saved(client: TestClient) -> None:
    build = new(client)
    base = f"/builds/{build}/mesh"
    for name in ("deflection", "compound", "pressed"):
        told = client.get(f"{base}/chart/{name}.svg", params={"shim": "0.002", "torque": "1000"})
        assert told.status_code == 200 and told.text.startswith("<svg")
        assert "attachment" in told.headers["content-disposition"]
    drawn = client.get(f"{base}/chart/deflection.svg?font=true")
    assert "font-face" in drawn.text and "content-disposition" not in drawn.headers
    rows = client.get(f"{base}/chart/deflection.csv").text.splitlines()
    assert rows[0].startswith("side,") and len(rows) == 1 + 2 * 3
    assert client.get(f"{base}/flanks.csv").text.startswith("# points in mm")
    assert len(json.loads(client.get(f"{base}/flanks.json").text)) == 4
    for wrong in ("flanks.xml", "chart/deflection.png", "chart/nothing.svg", "chart/pressed.csv"):
        assert client.get(f"{base}/{wrong}").status_code == 404
    assert client.get(f"{base}/chart/compound.svg?shim=banana").status_code == 422


# Programs' side ----------------------------------------------------------------------------------


def test_programs_get_the_study_the_setting_and_the_flanks(client: TestClient) -> None:
    build = new(client)
    study = client.get(f"/api/builds/{build}/mesh").json()
    assert study["schema"] == "axlewright.mesh/1" and len(study["result"]["loads"]) == 5
    base = f"/api/builds/{build}/mesh/setting"
    bare = client.get(base, params={"pinion_shim": 5e-5, "backlash": 2e-4}).json()["result"]
    assert bare["under"] is None
    assert bare["setting"]["backlash"] == pytest.approx(2e-4, abs=1e-6)
    pressed = client.get(base, params={"torque": 1000.0, "support": "straddle"}).json()["result"]
    assert pressed["under"]["flanks"]["drive"]["loaded"]["peak"] > 1e8
    flanks = client.get(f"/api/builds/{build}/mesh/flanks").json()
    assert flanks["schema"] == "axlewright.flank-points/1" and len(flanks["result"]) == 4
    assert client.get(base, params={"torque": -1.0}).status_code == 422
    even = new(client, EVEN)
    assert client.get(f"/api/builds/{even}/mesh/flanks").status_code == 409
    assert client.get(f"/api/builds/{even}/mesh/setting").status_code == 409


# Controls and words ------------------------------------------------------------------------------


def test_controls_that_are_left_out_are_as_the_build_has_it(
    worked: tuple[Workshop, MeshReport], study: MeshStudy
) -> None:
    build = worked[0].geared(TEXT)
    at = asked(build, study, {})
    rated = next(x for x in study.report.loads if x.name == "drive.rated")
    assert (at.shim, at.iron, at.support) == (0.0, "gray", "overhung")
    assert at.torque == rated.ring_torque.value
    other = asked(build, study, {"iron": "nodular", "support": "straddle", "torque": "900 N*m"})
    assert (other.iron, other.support, other.torque) == ("nodular", "straddle", 900.0)
    most = study.report.curves[0].torques[-1]
    assert asked(build, study, {"torque": f"{1.001 * most} N*m"}).torque == most


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"shim": "0.5 in"}, "beyond what a pattern is set with"),
        ({"backlash": "0.1 in"}, "must lie between"),
        ({"torque": "99999"}, "hardest case of this build"),
        ({"shim": "two"}, "two"),
    ],
)
def test_controls_that_make_no_sense_are_refused_in_words(
    worked: tuple[Workshop, MeshReport], study: MeshStudy, said: dict[str, str], words: str
) -> None:
    with pytest.raises(AskedWrongError, match=words):
        asked(worked[0].geared(TEXT), study, said)


def test_a_stated_pattern_is_fitted_and_said(worked: tuple[Workshop, MeshReport]) -> None:
    assert controls.micro_geometry(worked[0].geared(TEXT))[0] == "Assumed micro-geometry."
    stated = worked[0].geared(edit(TEXT, "gears.pattern_length", "52 %"))
    assert controls.micro_geometry(stated)[0].startswith("Fitted to your pattern")


def test_a_case_that_is_not_on_the_map_is_said(worked: tuple[Workshop, MeshReport]) -> None:
    build = worked[0].geared(TEXT)
    assert controls.off_the_map(build) == ""
    light = SimpleNamespace(meshing=SimpleNamespace(iron=SimpleNamespace(metal="aluminum")))
    assert "is of aluminum" in controls.off_the_map(light)  # type: ignore[arg-type]


def test_loads_limits_and_choices_in_words(worked: tuple[Workshop, MeshReport]) -> None:
    report = worked[1]
    known = findings_of(report)
    rows = views.loads(report, known)
    assert [r.title for r in rows] == [x.title for x in report.loads]
    assert all(r.torque.id in known and r.peak.id in known for r in rows)
    assert not any(r.sentence.startswith(r.title) for r in rows)
    for row, line in zip(views.limits(report, known), report.limits, strict=True):
        assert row.word.startswith("within" if line.holds else "beyond")
    assert sum(c.present for c in views.choices(report)) >= 1
    assert len(views.shares(report, known)) == len(report.loads)
    assert all(len(b.cells) == 7 for b in views.bearings(report.loads[0]))
    endless = replace(report.loads[0].bearings[0], life=None)
    told = views.bearings(replace(report.loads[0], bearings=(endless,)))
    assert told[0].cells[-1] == "endless"
    torques = views.torques(report)
    assert len({t for _, t in torques}) == len(torques) == 4


# Paper -------------------------------------------------------------------------------------------


def test_the_paper_has_the_gear_pair_when_it_was_worked_out(
    worked: tuple[Workshop, MeshReport], tmp_path: Path
) -> None:
    workshop, report = worked
    told = mesh_content(report)
    assert len(told["pictures"]) == 3 and len(told["loads"]) == 5
    json.dumps(told, allow_nan=False)
    path = write_check_paper(workshop.study(TEXT).report, None, tmp_path / "a.pdf", "2025-03-31",
                             mesh=report)  # fmt: skip
    assert path.read_bytes().startswith(b"%PDF")
    assert content(workshop.study(TEXT).report, None, "2025-03-31")["mesh"] is None


def test_the_paper_without_flanks_and_without_contact(study: MeshStudy) -> None:
    quick = mesh_content(study.report)
    assert len(quick["pictures"]) == 1 and quick["loads"][0]["peak"][0] == "–"
    bare = replace(
        study.report, shapes={}, pictures={}, refused="the flanks are not known", warm=None,
        choices=tuple(replace(c, peak_hardest=None, times=math.nan) for c in study.report.choices),
    )  # fmt: skip
    told = mesh_content(bare)
    assert told["pictures"] == [] and told["choices"][0]["times"] == "–"
