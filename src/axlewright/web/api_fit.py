"""The programs' side: will it fit, and how is it cut."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, HTTPException, Query
from fastapi.responses import Response

from axlewright.studies.fit_report import FitReport
from axlewright.web.answers import LARGEST_NUMBER, BuildId, Which, said, text_of
from axlewright.web.needs import Bench
from axlewright.web.shapes import told
from axlewright.workshop import fits

router = APIRouter()

Text = Annotated[str, Query(max_length=200)]
Have = Annotated[
    list[str],
    Query(max_length=40, description="Items that are there, readings taken that have no key."),
]
Seed = Annotated[int, Query(ge=0, le=LARGEST_NUMBER, description="Seed of the samples.")]
Count = Annotated[int, Query(ge=50, le=20_000, description="Number of samples.")]


@router.get("/builds/{build}/fit", responses=told("fit", FitReport))
def fit(
    workshop: Bench,
    build: BuildId,
    revision: Which = None,
    have: Have = [],  # noqa: B006 (read, never changed)
    drive_teeth: Text = "",
    old_ratio: Text = "",
    old_tire: Text = "",
    seed: Seed = fits.SEED,
    samples: Count = fits.SAMPLES,
) -> Response:
    """Room beside the wheels, what is ordered by, what to measure first."""
    try:
        ask = fits.read_fit_ask(have, [drive_teeth], old_ratio, old_tire)
    except fits.FitAskError as e:
        raise HTTPException(422, str(e)) from None
    resolved = workshop.resolved(text_of(workshop, build, revision))
    return said("fit", fits.fit(resolved, ask, seed, samples))
