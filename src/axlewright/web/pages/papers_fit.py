"""Papers of fit: the worksheet, the order sheet, the drawings as PDF, pictures and files to cut."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.fit_sheets import Key
from axlewright.papers.fit_paper import PaperSize
from axlewright.web.answers import download
from axlewright.web.needs import workshop_of
from axlewright.web.security import PICTURE_POLICY
from axlewright.workshop import fit_papers
from axlewright.workshop.fit_papers import DrawingAsk, SheetPaper
from axlewright.workshop.fits import FitAsk, FitAskError, read_fit_ask
from axlewright.workshop.shop import file_name

PATH = "/builds/{build}/papers"
TITLES: dict[Key, str] = {
    "section-left": "Left wheel in its arch",
    "section-right": "Right wheel in its arch",
    "housing": "Axle housing",
    "shaft-left": "Left axle shaft",
    "shaft-right": "Right axle shaft",
    "side": "Suspension from the side",
    "driveshaft": "Driveshaft",
}
router = APIRouter()

Paper = Annotated[PaperSize, Query()]
OnSheet = Annotated[SheetPaper, Query()]
General = Annotated[str, Query(max_length=40)]
Have = Annotated[list[str], Query(max_length=40)]
"""What is there or was looked at, as the page on fit has it."""


@router.get(PATH + "/worksheet.pdf")
def worksheet(
    request: Request, build: str, missing: bool = False, paper: Paper = "letter"
) -> Response:
    """The measuring worksheet with what was read already."""
    resolved, name = _opened(request, build)
    pdf = fit_papers.worksheet_pdf(resolved, _today(), paper, missing)
    return download(pdf, fit_papers.PDF, file_name(name, "-worksheet.pdf"))


@router.get(PATH + "/order-sheet.pdf")
def orders(
    request: Request,
    build: str,
    paper: Paper = "letter",
    have: Have = [],  # noqa: B006 (read, never changed)
) -> Response:
    """What is ordered by, and what it waits for."""
    resolved, name = _opened(request, build)
    pdf = fit_papers.order_pdf(resolved, _today(), paper, _there(have))
    return download(pdf, fit_papers.PDF, file_name(name, "-order-sheet.pdf"))


@router.get(PATH + "/drawings.pdf")
def drawings(
    request: Request,
    build: str,
    paper: OnSheet = "A3",
    general: General = "",
    have: Have = [],  # noqa: B006 (read, never changed)
) -> Response:
    """Every drawing, one a page."""
    resolved, name = _opened(request, build)
    pdf = fit_papers.drawing_pdf(resolved, _asked(paper, general, have), _today())
    return download(pdf, fit_papers.PDF, file_name(name, "-drawings.pdf"))


@router.get(PATH + "/drawings/{key}.svg")
def picture(
    request: Request,
    build: str,
    key: Key,
    paper: OnSheet = "A3",
    general: General = "",
    have: Have = [],  # noqa: B006 (read, never changed)
) -> Response:
    """One drawing, to look at."""
    resolved, _ = _opened(request, build)
    made = fit_papers.drawing(resolved, key, _asked(paper, general, have), _today())
    headers = {"Content-Security-Policy": PICTURE_POLICY, "Cache-Control": "no-store"}
    return Response(fit_papers.drawing_svg(made), media_type=fit_papers.SVG, headers=headers)


@router.get(PATH + "/drawings/{key}.dxf")
def cut_from(
    request: Request,
    build: str,
    key: Key,
    paper: OnSheet = "A3",
    general: General = "",
    have: Have = [],  # noqa: B006 (read, never changed)
) -> Response:
    """One drawing as a file to cut from; refused in words while its main sizes are not known."""
    resolved, name = _opened(request, build)
    made = fit_papers.drawing(resolved, key, _asked(paper, general, have), _today())
    try:
        file = fit_papers.drawing_dxf(made)
    except ValueError as e:
        raise HTTPException(409, str(e)) from None
    return download(file, fit_papers.DXF, file_name(name, f"-{key}.dxf"))


def _opened(request: Request, build: str) -> tuple[Resolved, str]:
    """The latest revision, resolved, and what the build is called."""
    workshop = workshop_of(request)
    name = workshop.store.build(build).name
    try:
        return workshop.resolved(workshop.store.latest(build).text), name
    except BuildError as e:
        raise HTTPException(409, f"no paper yet: {e.problems[0].message}") from None


def _asked(paper: SheetPaper, general: str, have: list[str]) -> DrawingAsk:
    try:
        agreed = fit_papers.read_general(general)
    except ValueError as e:
        raise HTTPException(422, str(e)) from None
    return DrawingAsk(paper, general=agreed, fit=_there(have))


def _there(have: list[str]) -> FitAsk:
    try:
        return read_fit_ask(have)
    except FitAskError as e:
        raise HTTPException(422, str(e)) from None


def _today() -> str:
    return date.today().isoformat()
