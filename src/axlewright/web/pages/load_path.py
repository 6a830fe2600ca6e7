"""Load path: the verdict, torque by gear and limit, margins, tables, and any number's working."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.studies.load_path import Study
from axlewright.studies.report import LoadPathReport
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views import pictures, tables
from axlewright.web.views.frame import context
from axlewright.web.views.working import tree
from axlewright.workshop.jobs import Job
from axlewright.workshop.keeping import Kept
from axlewright.workshop.shop import FINE, Workshop

TITLE = "Load path"
PATH = "/builds/{build}/load-path"
router = APIRouter(include_in_schema=False)

_LONGEST_ID = 200
_PLAIN = {"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}


@router.get(PATH)
def page(request: Request, build: str) -> Response:
    """The whole page."""
    workshop = workshop_of(request)
    shown = context(workshop, build, TITLE)
    study, job = shown["top"].study, _job(workshop, build)
    return render(
        request,
        "load_path.html",
        **shown,
        **(_contents(study) if study else {}),
        job=job,
        stale=workshop.outdated(job, shown["revision"].text) if job else "",
    )


def _contents(study: Study) -> dict[str, Any]:
    report = study.report
    return {
        "report": report,
        "charts": {name: (c.title, _inline(name, report)) for name, c in pictures.CHARTS.items()},
        "links": tables.links(report, study.nodes),
        "places": tables.places(report),
        "cases": tables.cases(report, study.nodes),
        "limits": tables.limits(report),
        "gears": tables.gears(report, study.nodes),
    }


_WHOLE = "load-path"
"""The chart that is fetched only when somebody wants to see it."""
_INLINE: Kept[str] = Kept(64)


def _inline(name: str, report: LoadPathReport) -> str:
    """A chart as part of the page, drawn once for each report."""
    if name == _WHOLE:
        return ""
    made = report.made
    key = (name, made.study, made.data_hash, made.build_hash, str(made.seed), str(made.samples))
    return _INLINE.get(" ".join(key), lambda: pictures.inline(name, report))


@router.get(PATH + "/working")
def working(request: Request, build: str, number: str, revision: int | None = None) -> Response:
    """The working of one number, for the panel at the side."""
    workshop = workshop_of(request)
    study = _study(workshop, build, revision)
    node = study.nodes.get(number) if len(number) <= _LONGEST_ID else None
    if node is None:
        raise HTTPException(404, "there is no such number in this build any more")
    answer = render(request, "working.html", number=number, title=_title(study, number),
                    root=tree(node), made=study.report.made)  # fmt: skip
    answer.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return answer


def _study(workshop: Workshop, build: str, revision: int | None = None) -> Study:
    store = workshop.store
    kept = store.latest(build) if revision is None else store.revision(build, revision)
    try:
        return workshop.study(kept.text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None


def _title(study: Study, number: str) -> str:
    return tables.meanings(study.report).get(number, number)


@router.get(PATH + "/chart/{name}.{kind}")
def chart(
    request: Request,
    build: str,
    name: str,
    kind: str,
    font: bool = False,
    revision: int | None = None,
) -> Response:
    """A chart as a file: a picture (SVG) or its numbers (CSV)."""
    if name not in pictures.CHARTS or kind not in _PLAIN:
        raise HTTPException(404, "there is no such chart")
    workshop = workshop_of(request)
    report = _study(workshop, build, revision).report
    text = (
        pictures.table(name, report)
        if kind == "csv"
        else pictures.saved(name, report, with_font=font)
    )
    number = workshop.store.latest(build).number if revision is None else revision
    file = f"{name}-revision-{number}.{kind}"
    headers = {} if font else {"Content-Disposition": f'attachment; filename="{file}"'}
    return Response(text, media_type=_PLAIN[kind], headers=headers)


@router.post(PATH + "/fine")
def start_fine(request: Request, build: str) -> Response:
    """Start the verdict on many more samples in the background."""
    workshop = workshop_of(request)
    try:
        job = workshop.jobs.start(FINE, build, workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
    return _job_card(request, build, job)


@router.get(PATH + "/fine")
def fine(request: Request, build: str) -> Response:
    """How far that is."""
    return _job_card(request, build, _job(workshop_of(request), build))


@router.post(PATH + "/fine/{job_id}/stop")
def stop_fine(request: Request, build: str, job_id: str) -> Response:
    """Stop it."""
    workshop = workshop_of(request)
    if job_id in {j.id for j in workshop.jobs.of(build)}:
        workshop.jobs.stop(job_id)
    return _job_card(request, build, _job(workshop, build))


def _job(workshop: Workshop, build: str) -> Job | None:
    """The latest job of this kind on this build, if there was any."""
    return next((j for j in workshop.jobs.of(build) if j.kind == FINE), None)


def _job_card(request: Request, build: str, job: Job | None) -> Response:
    workshop = workshop_of(request)
    revision = workshop.store.latest(build)
    return render(
        request,
        "job.html",
        build=workshop.store.build(build),
        job=job,
        stale=workshop.outdated(job, revision.text) if job else "",
    )
