"""Launch: what the driveline really sees, marched in time; hop, sweeps, and what slips first.

Opening the page starts the march as a job; what needs no march is shown at once.
"""

from __future__ import annotations

import csv
import io
import json
from typing import Any

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.launch_chart import Story
from axlewright.drawing.launch_chart import chart as time_chart
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import to_svg
from axlewright.studies.launch_report import LaunchReport
from axlewright.studies.load_path import Study
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views import launch as shown
from axlewright.web.views import launch_story as stories
from axlewright.web.views import tables
from axlewright.web.views.frame import context, top_of
from axlewright.web.views.pictures import fluid, font_faces
from axlewright.web.views.working import tree
from axlewright.workshop.jobs import Job
from axlewright.workshop.keeping import Kept
from axlewright.workshop.ratios import waited
from axlewright.workshop.shop import LAUNCH, Workshop, text_hash

TITLE = "Launch"
PATH = "/builds/{build}/launch"
router = APIRouter(include_in_schema=False)

_AT_ONCE = 0.4  # s that a page waits for an answer before it shows that it is being worked out
_PLAIN = {"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}


@router.get(PATH)
def page(request: Request, build: str, case: str = "") -> Response:
    """The whole page; what is not there yet follows."""
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    study = frame["top"].study
    found: dict[str, Any] = {}
    if study is not None:
        resolved = workshop.resolved(frame["revision"].text)
        found = {
            **_march(workshop, build, frame["revision"].text, study),
            **_one(workshop, resolved, case),
            "coupling": _coupling(workshop, resolved),
        }
    return render(request, "launch.html", **frame, **found)


@router.get(PATH + "/march")
def march(request: Request, build: str) -> Response:
    """How far the march is; once it is done, all that was waiting for it."""
    workshop = workshop_of(request)
    text = workshop.store.latest(build).text
    top = top_of(workshop, text)
    if top.study is None:
        raise HTTPException(409, "no answer yet: the build does not read any more")
    return render(request, "launch_march_answer.html", build=workshop.store.build(build), top=top,
                  **_march(workshop, build, text, top.study))  # fmt: skip


@router.post(PATH + "/march")
def start(request: Request, build: str) -> Response:
    """Start the march; one of an older state of this build makes room for it."""
    workshop = workshop_of(request)
    text = workshop.store.latest(build).text
    for job in workshop.jobs.of(build):
        if job.kind == LAUNCH and job.state == "running" and job.build_hash != text_hash(text):
            workshop.jobs.stop(job.id)
    try:
        workshop.jobs.start(LAUNCH, build, text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
    return march(request, build)


@router.post(PATH + "/march/{job_id}/stop")
def stop(request: Request, build: str, job_id: str) -> Response:
    """Stop it."""
    workshop = workshop_of(request)
    if job_id in {j.id for j in workshop.jobs.of(build)}:
        workshop.jobs.stop(job_id)
    return march(request, build)


def _march(workshop: Workshop, build: str, text: str, study: Study) -> dict[str, Any]:
    """What the march found, or how far it is and what the closed forms say meanwhile."""
    resolved = workshop.resolved(text)
    report = workshop.marches.report(resolved)
    if report is None:
        return {
            "launch": None,
            "job": _job(workshop, build, text),
            "samples": workshop.marches.samples,
            "bounds": _bounds(study),
        }
    chart = shown.sweeps(report, resolved)
    return {
        "launch": report,
        "job": None,
        "places": shown.PLACES.values(),
        "cases": shown.cases(report, study.report, study.nodes),
        "hop": shown.hop(report.hop),
        "ways": shown.ways(report),
        "sweeps": _inline(chart, "sweeps-chart") if chart else "",
        "measure_next": shown.measure(report.measure_next),
    }


def _bounds(study: Study) -> list[tuple[str, str, tables.Number]]:
    """Shock cases of the load path with the closed-form torque at the ring gear."""
    at = next((i for i, c in enumerate(tables.places(study.report)) if c == "Ring gear"), 0)
    return [(c.title, c.means, c.torques[at]) for c in tables.cases(study.report, study.nodes)]


def _job(workshop: Workshop, build: str, text: str) -> Job | None:
    """The latest march of this very text, if any was begun."""
    wanted = text_hash(text)
    return next(
        (j for j in workshop.jobs.of(build) if j.kind == LAUNCH and j.build_hash == wanted), None
    )


@router.get(PATH + "/one")
def one(request: Request, build: str, case: str = "") -> Response:
    """One launch over time, or that it is still being marched."""
    workshop, resolved = _resolved(request, build)
    return render(request, "launch_one.html", build=workshop.store.build(build),
                  **_one(workshop, resolved, case))  # fmt: skip


def _one(workshop: Workshop, resolved: Resolved, case: str) -> dict[str, Any]:
    """The pictures of one case; ``story`` is None while it is being marched."""
    names = workshop.marches.cases(resolved)
    looked = next((c for c in names if c.case == case), names[0])
    told = {"case_names": names, "looked": looked, "story": None}
    marching = workshop.marches.history(resolved, looked.case)
    if not waited(marching, _AT_ONCE):
        return told
    story = Story(resolved.machine.name, looked.title, looked.case, marching.result())
    over_time, picture = _DRAWN.get(f"{resolved.source.hash} {looked.case}", lambda: _draw(story))
    return {
        **told,
        "story": story,
        "last": len(story.history.time) - 1,
        "time_chart": over_time,
        "picture": picture,
    }


_DRAWN: Kept[tuple[str, str]] = Kept(64)
"""Pictures of a case by text and case: they take longer than the rest of the page."""


def _draw(story: Story) -> tuple[str, str]:
    over_time = _inline(time_chart(story, cursor=True), "time-chart")
    return over_time, _inline(stories.picture(story, story.hardest), "moment")


@router.get(PATH + "/moments")
def moments(request: Request, build: str, case: str) -> Response:
    """Every moment of one launch, for the picture that follows the slider."""
    workshop, resolved = _resolved(request, build)
    text = json.dumps(stories.moments(_story(workshop, resolved, case)), allow_nan=False)
    return Response(text, media_type="application/json")


def _story(workshop: Workshop, resolved: Resolved, case: str) -> Story:
    names = {c.case: c for c in workshop.marches.cases(resolved)}
    if case not in names:
        raise HTTPException(404, "this build has no such case any more")
    history = workshop.marches.history(resolved, case).result()
    return Story(resolved.machine.name, names[case].title, case, history)


@router.get(PATH + "/working")
def working(request: Request, build: str, number: str) -> Response:
    """The working of a number of the clutch or converter, for the panel at the side."""
    workshop, resolved = _resolved(request, build)
    study = workshop.marches.coupling(resolved)
    node = study.nodes.get(number)
    if node is None:
        raise HTTPException(404, "there is no such number in this build any more")
    title = shown.meanings(study.report).get(number, number)
    answer = render(request, "working.html", number=number, title=title, root=tree(node),
                    made=study.report.made)  # fmt: skip
    answer.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return answer


def _coupling(workshop: Workshop, resolved: Resolved) -> shown.CouplingLines:
    study = workshop.marches.coupling(resolved)
    return shown.coupling(study.report, study.nodes)


@router.get(PATH + "/chart/{name}.{kind}")
def chart(
    request: Request, build: str, name: str, kind: str, case: str = "", font: bool = False
) -> Response:
    """A chart as a file: a picture (SVG) or its numbers (CSV)."""
    if name not in {"time", "sweeps"} or kind not in _PLAIN:
        raise HTTPException(404, "there is no such chart")
    workshop, resolved = _resolved(request, build)
    if name == "time":
        story = _story(workshop, resolved, case)
        picture, rows = time_chart(story), stories.rows(story)
    else:
        report = _report(workshop, resolved)
        drawn = shown.sweeps(report, resolved)
        if drawn is None:
            raise HTTPException(404, "there is no such chart")
        picture, rows = drawn, shown.sweep_rows(report)
    text = _csv(rows) if kind == "csv" else _saved(picture, name, font)
    about = f"{name}-{case.replace(' ', '-')}" if case else name
    file = f"{about}-revision-{workshop.store.latest(build).number}.{kind}"
    headers = {} if font else {"Content-Disposition": f'attachment; filename="{file}"'}
    return Response(text, media_type=_PLAIN[kind], headers=headers)


def _report(workshop: Workshop, resolved: Resolved) -> LaunchReport:
    report = workshop.marches.report(resolved)
    if report is None:
        raise HTTPException(409, "the launch of this build has not been marched yet")
    return report


def _inline(drawing: Drawing, name: str) -> str:
    return fluid(to_svg(drawing, name))


def _saved(drawing: Drawing, name: str, font: bool) -> str:
    svg = to_svg(drawing, name)
    return svg.replace("</svg>", f"<style>{font_faces()}</style></svg>") if font else svg


def _csv(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _resolved(request: Request, build: str) -> tuple[Workshop, Resolved]:
    workshop = workshop_of(request)
    try:
        return workshop, workshop.resolved(workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
