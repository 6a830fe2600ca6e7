"""The programs' side: studies, papers and jobs of a build.

They are plain functions, so they run in threads; the workshop lets two be worked out at a time.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, HTTPException, Path, Query
from fastapi.responses import Response

from axlewright.quantities.working import steps
from axlewright.studies.report import LimitCard, LoadPathReport
from axlewright.web.answers import ID, LARGEST_NUMBER, Body, BuildId, Which, download, said, text_of
from axlewright.web.needs import Bench
from axlewright.web.shapes import WorkingStep, told
from axlewright.workshop.comparing import Comparison
from axlewright.workshop.jobs import Job
from axlewright.workshop.shop import FINE, file_name

router = APIRouter()

JobId = Annotated[str, Path(pattern=ID, description="Id of a job.")]
Seed = Annotated[int, Query(ge=0, le=LARGEST_NUMBER, description="Seed of the samples.")]
Count = Annotated[int, Query(ge=100, le=200_000, description="Number of samples.")]
PDF: dict[int | str, dict[str, Any]] = {
    200: {"description": "PDF", "content": {"application/pdf": {"schema": {"type": "string"}}}}
}


class NewJob(Body):
    """A job to start."""

    kind: Literal["fine verdict", "launch", "gear pair"] = FINE


@router.get("/builds/{build}/load-path", responses=told("load-path", LoadPathReport))
def load_path(
    workshop: Bench,
    build: BuildId,
    revision: Which = None,
    seed: Seed = 1,
    samples: Count = 10_000,
) -> Response:
    """What torque reaches each part, what each stands, and which goes first."""
    text = text_of(workshop, build, revision)
    return said("load-path", workshop.study(text, seed, samples).report)


@router.get("/builds/{build}/limit-card", responses=told("limit-card", LimitCard))
def limit_card(workshop: Bench, build: BuildId, revision: Which = None, seed: Seed = 1) -> Response:
    """How far launch speed, torque, grip and bite may go with what is on the car."""
    return said("limit-card", workshop.card(text_of(workshop, build, revision), seed))


@router.get("/builds/{build}/workings", responses=told("working-ids", tuple[str, ...]))
def workings(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """Ids of the numbers whose working can be opened."""
    return said("working-ids", sorted(workshop.study(text_of(workshop, build, revision)).nodes))


@router.get("/builds/{build}/workings/{number}", responses=told("working", tuple[WorkingStep, ...]))
def working(
    workshop: Bench,
    build: BuildId,
    number: Annotated[str, Path(max_length=200, description="Id of a number.")],
    revision: Which = None,
    system: Annotated[Literal["shop", "si"], Query(description="Units.")] = "shop",
) -> Response:
    """How a number came about: formulas, values, sources."""
    node = workshop.working(text_of(workshop, build, revision), number)
    if node is None:
        raise HTTPException(404, "there is no such number in this build")
    rows = [
        WorkingStep(s.depth, s.title, s.result, s.lines, s.source, s.origin)
        for s in steps(node, system)
    ]
    return said("working", rows)


@router.get("/builds/{build}/compare", responses=told("comparison", Comparison))
def compare(
    workshop: Bench,
    build: BuildId,
    old: Annotated[int, Query(ge=1, le=LARGEST_NUMBER, description="Revision on the old side.")],
    new: Which = None,
    other: Annotated[
        str | None, Query(pattern=ID, description="Build on the new side; this one if left out.")
    ] = None,
) -> Response:
    """Two revisions, or two builds, side by side: what differs going in and coming out."""
    after = text_of(workshop, other or build, new)
    return said("comparison", workshop.compare(text_of(workshop, build, old), after))


@router.get("/builds/{build}/papers/{kind}.pdf", response_class=Response, responses=PDF)
def paper(
    workshop: Bench, build: BuildId, kind: Literal["check", "card"], revision: Which = None
) -> Response:
    """The check paper or the limit card, to print."""
    name = workshop.store.build(build).name
    pdf = workshop.paper(text_of(workshop, build, revision), name, kind)
    return download(
        pdf, "application/pdf", file_name(name, ".card.pdf" if kind == "card" else ".pdf")
    )


@router.post("/builds/{build}/jobs", status_code=202, responses=told("job", Job, 202))
def start(workshop: Bench, build: BuildId, new: NewJob) -> Response:
    """Start long work on the latest revision, or join the same work that is already running."""
    text = workshop.store.latest(build).text
    return said("job", workshop.jobs.start(new.kind, build, text), 202)


@router.get("/builds/{build}/jobs", responses=told("jobs", tuple[Job, ...]))
def jobs_of(workshop: Bench, build: BuildId) -> Response:
    """The jobs of a build, newest first."""
    workshop.store.build(build)
    return said("jobs", workshop.jobs.of(build))


@router.get("/jobs/{job}", responses=told("job", Job))
def job(workshop: Bench, job: JobId) -> Response:
    """A job as it stands: running, done, stopped or failed."""
    return said("job", workshop.jobs.get(job))


@router.post("/jobs/{job}/stop", responses=told("job", Job))
def stop(workshop: Bench, job: JobId) -> Response:
    """Stop a job; one that is over stays as it is."""
    return said("job", workshop.jobs.stop(job))
