"""Ratio: which pair of teeth to run, on which tires, and what the car does down the strip."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.run_chart import run_chart
from axlewright.drawing.saw_tooth import saw_tooth
from axlewright.drawing.svg import to_svg
from axlewright.studies.ratio_report import RatioOption, RatioReport
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views import ratio as shown
from axlewright.web.views.frame import context
from axlewright.web.views.pictures import font_faces
from axlewright.web.views.working import tree
from axlewright.workshop import ratios as strip
from axlewright.workshop.keeping import Kept
from axlewright.workshop.shop import Workshop

TITLE = "Ratio"
PATH = "/builds/{build}/ratio"
router = APIRouter(include_in_schema=False)

_AT_ONCE = 0.4  # s that a page waits for an answer before it shows that it is being worked out
_LONGEST = 2000
_PLAIN = {"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}


@dataclass(frozen=True)
class Asked:
    """What the form of the page says."""

    ratios: str
    tires: str
    speeds: str

    @property
    def query(self) -> str:
        """The same as part of an address."""
        return urlencode({k: v for k, v in vars(self).items() if v})


@router.get(PATH)
def page(
    request: Request,
    build: str,
    ratios: str = "",
    tires: str = "",
    speeds: str = "",
    show: str = "",
) -> Response:
    """The whole page; answers that are not there yet follow."""
    asked = _asked(ratios, tires, speeds)
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    resolved, refused, ask = None, "", None
    if frame["top"].study is not None:
        resolved = workshop.resolved(frame["revision"].text)
        try:
            ask = strip.read_ask(resolved, [ratios], [tires], [speeds])
        except strip.AskError as e:
            refused = str(e)
    answer = _answer(resolved, ask, asked, show) if resolved and ask else {}
    run = _strip(resolved) if resolved else {}
    return render(
        request, "ratio.html", **frame, asked=asked, show=show, refused=refused,
        usual=_usual(resolved), **answer, **run,
    )  # fmt: skip


def _asked(ratios: str, tires: str, speeds: str) -> Asked:
    if max(map(len, (ratios, tires, speeds))) > _LONGEST:
        raise HTTPException(422, "that is far too much to compare at once")
    return Asked(" ".join(ratios.split()), " ".join(tires.split()), " ".join(speeds.split()))


def _usual(resolved: Resolved | None) -> dict[str, str]:
    """What is compared where the form is left empty."""
    if resolved is None:
        return {"ratios": "", "tires": "", "speeds": ""}
    ask = strip.read_ask(resolved)
    return {
        "ratios": ", ".join(t.text for t in ask.teeth),
        "tires": ", ".join(t.text for t in ask.tires),
        "speeds": ", ".join(s.text for s in ask.speeds),
    }


@router.get(PATH + "/answer")
def answer(
    request: Request,
    build: str,
    ratios: str = "",
    tires: str = "",
    speeds: str = "",
    show: str = "",
) -> Response:
    """The comparison, or that it is still being worked out."""
    workshop, resolved = _resolved(request, build)
    asked = _asked(ratios, tires, speeds)
    found = _answer(resolved, _ask(resolved, asked), asked, show)
    return render(request, "ratio_answer.html", build=workshop.store.build(build), asked=asked,
                  show=show, **found)  # fmt: skip


@router.get(PATH + "/run")
def run(request: Request, build: str) -> Response:
    """The run down the strip, or that it is still being worked out."""
    workshop, resolved = _resolved(request, build)
    return render(request, "ratio_run.html", build=workshop.store.build(build), **_strip(resolved))


def _answer(resolved: Resolved, ask: strip.Ask, asked: Asked, show: str) -> dict[str, Any]:
    """What the comparison shows; ``report`` is None while it is being worked out."""
    question = tuple(vars(asked).values())
    future = strip.answer("ratio", resolved, question, lambda: strip.ratios(resolved, ask))
    if not strip.waited(future, _AT_ONCE):
        return {"report": None}
    report: RatioReport = future.result()
    option = _option(report, show)

    def draw() -> str:
        return shown.inline(saw_tooth(strip.saw_tooth(resolved, ask, option.name)), "saw-chart")

    return {
        "report": report,
        "option": option,
        "heads": shown.heads(report),
        "tables": [(t, shown.lines(report, t)) for t in report.tires],
        "gears": shown.gears(report, option),
        "noise": shown.noise(report, option),
        "saw": _DRAWN.get(f"{resolved.source.hash} {option.name}", draw),
    }


def _option(report: RatioReport, show: str) -> RatioOption:
    """The option that is looked at: the one named, else the choice."""
    return next(
        (o for o in report.options if o.name == show), next(o for o in report.options if o.chosen)
    )


def _strip(resolved: Resolved) -> dict[str, Any]:
    future = strip.answer("run", resolved, (), lambda: strip.strip(resolved))
    if not strip.waited(future, _AT_ONCE):
        return {"run": None}
    told: strip.Strip = future.result()
    return {
        "run": told.report,
        "marks": shown.marks(told.report),
        "run_chart": _DRAWN.get(
            resolved.source.hash, lambda: shown.inline(run_chart(told.history), "strip-chart")
        ),
    }


_DRAWN: Kept[str] = Kept(64)
"""Charts by text, and by pair and tire where they show one."""


@router.get(PATH + "/working")
def working(request: Request, build: str, number: str) -> Response:
    """The working of one number, for the panel at the side."""
    workshop, resolved = _resolved(request, build)
    key, _, option = number[:_LONGEST].partition("@")
    try:
        nodes = strip.ratio_nodes(resolved, strip.ask_of(resolved, number[:_LONGEST]), option)
        node = nodes[number]
    except (LookupError, strip.AskError):
        raise HTTPException(404, "there is no such number in this build any more") from None
    made = workshop.study(workshop.store.latest(build).text).report.made
    reply = render(request, "working.html", number=number, title=_title(node.name, key, option),
                   root=tree(node), made=made)  # fmt: skip
    reply.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return reply


def _title(name: str, key: str, option: str) -> str:
    words = key.replace("_", " ") if "." in name else name
    teeth, _, tire = option.partition("@")
    return f"{words[:1].upper()}{words[1:]}, {teeth} on {tire}"


@router.get(PATH + "/chart/{name}.{kind}")
def chart(
    request: Request, build: str, name: str, kind: str, option: str = "", font: bool = False
) -> Response:
    """A chart as a file: a picture (SVG) or its numbers (CSV)."""
    if name not in {"saw-tooth", "run"} or kind not in _PLAIN:
        raise HTTPException(404, "there is no such chart")
    workshop, resolved = _resolved(request, build)
    if name == "run":
        future = strip.answer("run", resolved, (), lambda: strip.strip(resolved))
        told: strip.Strip = future.result()
        picture, rows = run_chart(told.history), shown.run_rows(told.history)
    else:
        try:
            curves = strip.saw_tooth(resolved, strip.ask_of(resolved, f"@{option}"), option)
        except (LookupError, strip.AskError):
            raise HTTPException(404, "there is no such pair on such a tire here") from None
        picture, rows = saw_tooth(curves), shown.saw_tooth_rows(curves)
    text = _csv(rows) if kind == "csv" else _picture(to_svg(picture, name), font)
    file = f"{name}-revision-{workshop.store.latest(build).number}.{kind}"
    headers = {} if font else {"Content-Disposition": f'attachment; filename="{file}"'}
    return Response(text, media_type=_PLAIN[kind], headers=headers)


def _csv(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _picture(svg: str, font: bool) -> str:
    return svg.replace("</svg>", f"<style>{font_faces()}</style></svg>") if font else svg


def _resolved(request: Request, build: str) -> tuple[Workshop, Resolved]:
    workshop = workshop_of(request)
    try:
        return workshop, workshop.resolved(workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None


def _ask(resolved: Resolved, asked: Asked) -> strip.Ask:
    try:
        return strip.read_ask(resolved, [asked.ratios], [asked.tires], [asked.speeds])
    except strip.AskError as e:
        raise HTTPException(422, str(e)) from None
