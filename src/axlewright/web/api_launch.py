"""The programs' side: the launch in time and the sizing of clutch or converter.

A march takes a while: it is started, asked after as a job, and read when it is done.
"""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, HTTPException, Query
from fastapi.responses import Response

from axlewright.studies.coupling import CouplingReport
from axlewright.studies.launch_report import History, LaunchReport
from axlewright.web.answers import BuildId, Which, said, text_of
from axlewright.web.needs import Bench
from axlewright.web.shapes import told
from axlewright.workshop.jobs import Job
from axlewright.workshop.shop import LAUNCH

router = APIRouter()

NOT_YET = (
    "the launch of this build has not been marched yet; send POST to this address to start it, and"
    " ask after its job"
)


@router.get("/builds/{build}/launch", responses=told("launch", LaunchReport))
def launch(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """What the launch in time found; 409 as long as it has not been marched with these inputs."""
    resolved = workshop.resolved(text_of(workshop, build, revision))
    report = workshop.marches.report(resolved)
    if report is None:
        raise HTTPException(409, NOT_YET)
    return said("launch", report)


@router.post("/builds/{build}/launch", status_code=202, responses=told("job", Job, 202))
def start(workshop: Bench, build: BuildId) -> Response:
    """March the launch of the latest revision, or join the march that is already running."""
    return said("job", workshop.jobs.start(LAUNCH, build, workshop.store.latest(build).text), 202)


@router.get("/builds/{build}/launch/history", responses=told("launch-history", History))
def history(
    workshop: Bench,
    build: BuildId,
    case: Annotated[str, Query(max_length=40, description="Name of a case, like `dump`.")],
    revision: Which = None,
) -> Response:
    """The likeliest car in one case, moment by moment, in SI. The first one ever is compiled."""
    resolved = workshop.resolved(text_of(workshop, build, revision))
    try:
        marching = workshop.marches.history(resolved, case)
    except KeyError as e:
        raise HTTPException(404, str(e.args[0])) from None
    return said("launch-history", marching.result())


@router.get("/builds/{build}/coupling", responses=told("coupling", CouplingReport))
def coupling(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """Does the clutch hold, where does the converter stall, and what slips first."""
    resolved = workshop.resolved(text_of(workshop, build, revision))
    return said("coupling", workshop.marches.coupling(resolved).report)
