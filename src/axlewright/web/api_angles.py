"""The programs' side: at what angles the driveline runs, and how the axle moves."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import Response

from axlewright.studies.angles_report import AnglesReport
from axlewright.web.answers import LARGEST_NUMBER, BuildId, Which, said, text_of
from axlewright.web.needs import Bench
from axlewright.web.shapes import told
from axlewright.workshop import angles as study

router = APIRouter()


@router.get("/builds/{build}/angles", responses=told("angles", AnglesReport))
def angles(
    workshop: Bench,
    build: BuildId,
    revision: Which = None,
    seed: Annotated[int, Query(ge=0, le=LARGEST_NUMBER, description="Seed of the samples.")] = 1,
    samples: Annotated[int, Query(ge=50, le=5000, description="Number of samples.")] = 200,
) -> Response:
    """How to set the pinion, what joints and driveshaft do, and what the links carry."""
    resolved = workshop.resolved(text_of(workshop, build, revision))
    return said("angles", study.angles(resolved, seed, samples))
