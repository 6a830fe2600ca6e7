"""The programs' side: how the gears sit, what load does to that, and points of the flanks.

The study takes a while: it is started, asked after as a job, and read when it is done.
"""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, HTTPException, Query
from fastapi.responses import Response

from axlewright.build.resolve import Resolved
from axlewright.studies.mesh_pictures import Shimmed
from axlewright.studies.mesh_points import FlankPoints
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_runs import NoPairError
from axlewright.studies.mesh_under import Case, Setting
from axlewright.web.answers import BuildId, Which, said, text_of
from axlewright.web.needs import Bench
from axlewright.web.shapes import told
from axlewright.workshop.jobs import Job
from axlewright.workshop.shop import MESH, Workshop

router = APIRouter()

NOT_YET = (
    "the gear pair of this build has not been worked out yet; send POST to this address to start"
    " it, and ask after its job"
)
_SHIM = Query(ge=-0.003, le=0.003, description="How much thicker the depth shim is, m.")
_LASH = Query(gt=0.0, le=0.001, description="Backlash at the heel, m; as stated if left out.")
Shim = Annotated[float | None, _SHIM]
Backlash = Annotated[float | None, _LASH]


@router.get("/builds/{build}/mesh", responses=told("mesh", MeshReport))
def mesh(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """The study of the gear pair; 409 as long as it has not been worked out with these inputs."""
    report = workshop.meshes.report(_geared(workshop, build, revision))
    if report is None:
        raise HTTPException(409, NOT_YET)
    return said("mesh", report)


@router.post("/builds/{build}/mesh", status_code=202, responses=told("job", Job, 202))
def start(workshop: Bench, build: BuildId) -> Response:
    """Work out the gear pair of the latest revision, or join the job that is already running."""
    try:
        job = workshop.jobs.start(MESH, build, workshop.store.latest(build).text)
    except NoPairError as e:
        raise HTTPException(409, str(e)) from None
    return said("job", job, 202)


@router.get("/builds/{build}/mesh/setting", responses=told("mesh-setting", Setting))
def setting(
    workshop: Bench,
    build: BuildId,
    pinion_shim: Shim = None,
    backlash: Backlash = None,
    torque: Annotated[
        float | None, Query(ge=0.0, le=100_000.0, description="At the ring gear, N·m.")
    ] = None,
    iron: Literal["gray", "nodular"] = "gray",
    support: Literal["overhung", "straddle"] = "overhung",
    revision: Which = None,
) -> Response:
    """Both patterns with another depth shim and backlash, and under a torque if one is named.

    Under torque the gears are placed by the map of the build; 409 as long as there is none.
    """
    resolved = _geared(workshop, build, revision)
    try:
        placed = _set(workshop, resolved, pinion_shim, backlash)
        if torque is None:
            return said("mesh-setting", Setting(placed, None))
        found = workshop.meshes.under(resolved, placed, Case(torque, iron, support))
    except (ValueError, ArithmeticError) as e:
        raise HTTPException(409, str(e)) from None
    if found is None:
        raise HTTPException(409, NOT_YET)
    return said("mesh-setting", Setting(placed, found))


@router.get("/builds/{build}/mesh/flanks", responses=told("flank-points", tuple[FlankPoints, ...]))
def flanks(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """Points (mm) and normals of the four flanks."""
    try:
        return said("flank-points", workshop.meshes.points(_geared(workshop, build, revision)))
    except ValueError as e:
        raise HTTPException(409, str(e)) from None


def _geared(workshop: Workshop, build: str, revision: int | None) -> Resolved:
    return workshop.geared(text_of(workshop, build, revision))


def _set(
    workshop: Workshop, resolved: Resolved, pinion_shim: float | None, backlash: float | None
) -> Shimmed:
    shim = workshop.meshes.shim(resolved) if pinion_shim is None else pinion_shim
    lash = workshop.meshes.backlash(resolved) if backlash is None else backlash
    return workshop.meshes.shimmed(resolved, shim, lash)
