"""Mesh: how the gears sit, what load does to the pattern, and what would change that.

The unloaded pattern follows the sliders at once; what stands under torque comes from the study and
the map of this build, which are worked out as a job and kept.
"""

from __future__ import annotations

import csv
import io
from typing import Any

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from axlewright.build.problems import BuildError
from axlewright.build.resolve import Resolved
from axlewright.drawing.deflection_chart import deflection_chart
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import to_svg
from axlewright.studies.mesh import MeshStudy
from axlewright.studies.mesh_numbers import SHARES
from axlewright.studies.mesh_points import as_csv, as_json
from axlewright.studies.mesh_runs import NoPairError
from axlewright.studies.mesh_sentences import (
    moved_words,
    reversal_words,
    set_words,
    warm_words,
)
from axlewright.studies.mesh_working import findings_of
from axlewright.web.needs import workshop_of
from axlewright.web.rendering import render
from axlewright.web.views import launch as launch_views
from axlewright.web.views import mesh as shown
from axlewright.web.views import mesh_controls as controls
from axlewright.web.views.frame import context
from axlewright.web.views.pictures import fluid, font_faces
from axlewright.web.views.working import tree
from axlewright.workshop.jobs import Job
from axlewright.workshop.mesh_asking import Asked, AskedWrongError, asked
from axlewright.workshop.shop import MESH, Workshop, text_hash

TITLE = "Mesh"
PATH = "/builds/{build}/mesh"
router = APIRouter(include_in_schema=False)

_PLAIN = {"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}
_LONGEST = 40


@router.get(PATH)
def page(
    request: Request, build: str, shim: str = "", backlash: str = "", torque: str = "",
    iron: str = "", support: str = "",
) -> Response:  # fmt: skip
    """The whole page; what takes long follows."""
    workshop = workshop_of(request)
    frame = context(workshop, build, TITLE)
    found: dict[str, Any] = {"refused": "", "report": None}
    if frame["top"].study is not None:
        said = _said(shim, backlash, torque, iron, support)
        found = _page(workshop, build, frame["revision"].text, said)
    return render(request, "mesh.html", **frame, **found)


def _page(workshop: Workshop, build: str, text: str, said: dict[str, str]) -> dict[str, Any]:
    resolved = workshop.geared(text)
    try:
        study = workshop.meshes.quick(resolved)
    except NoPairError as e:
        return {"refused": str(e), "report": None}
    wrong = ""
    try:
        at = asked(resolved, study, said)
    except AskedWrongError as e:
        wrong = str(e)
        at = asked(resolved, study, dict.fromkeys(said, ""))
    return {
        **_answer(workshop, build, text, resolved, study),
        **(_set(workshop, resolved, study, at) if study.pair else {}),
        "wrong": wrong,
        "at": at,
        "sliders": controls.sliders(at, study.report),
        "options": controls.choices(at),
        "torques": shown.torques(study.report),
        "off_the_map": controls.off_the_map(resolved),
        "refused": "",
    }


def _answer(
    workshop: Workshop, build: str, text: str, resolved: Resolved, study: MeshStudy
) -> dict[str, Any]:
    """What the study found; until it is done, what can be said at once."""
    kept = workshop.meshes.report(resolved)
    report = kept or study.report
    known = findings_of(report)
    return {
        "report": report,
        "assumed": controls.micro_geometry(resolved),
        "done": kept is not None,
        "mapped": kept is not None and not kept.refused,
        "job": None if kept is not None else _job(workshop, build, text),
        "samples": workshop.meshes.samples,
        "heads": list(shown.DIALS.values()),
        "loads": shown.loads(report, known),
        "limits": shown.limits(report, known),
        "share_heads": list(SHARES),
        "shares": shown.shares(report, known),
        "bearings": [(x.title, x.name, shown.bearings(x)) for x in report.loads],
        "choices": shown.choices(report),
        "decides": shown.decides(report),
        "warm": warm_words(report),
        "reversal": reversal_words(report),
        "setting": shown.setting(report, known),
        "tables": shown.rating_tables(report, known),
        "measure_next": launch_views.measure(report.measure_next),
        "chart": _inline(deflection_chart(report), "deflection-chart"),
    }


def _job(workshop: Workshop, build: str, text: str) -> Job | None:
    """The latest job of this very text and march that has not given an answer, if any was begun."""
    wanted = (MESH, text_hash(text), workshop.marches.stamp(workshop.resolved(text)))
    return next(
        (
            j
            for j in workshop.jobs.of(build)
            if (j.kind, j.build_hash, j.rests_on) == wanted and j.state != "done"
        ),
        None,
    )


def _set(workshop: Workshop, resolved: Resolved, study: MeshStudy, at: Asked) -> dict[str, Any]:
    """Both patterns without torque, with the shims as asked."""
    try:
        found = workshop.meshes.shimmed(resolved, at.shim, at.backlash)
    except ArithmeticError as e:
        return {
            "set_picture": "",
            "set_words": "",
            "set_moved": "",
            "set_refused": _sentence(str(e)),
        }
    return {
        "set_picture": _inline(controls.set_picture(study.report, found), "compound"),
        "set_words": set_words(at.shim, found),
        "set_moved": moved_words(study.report.pictures, found.pictures),
        "set_refused": "",
    }


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


@router.get(PATH + "/set")
def set_anew(
    request: Request, build: str, shim: str = "", backlash: str = "", torque: str = ""
) -> Response:
    """The patterns without torque at a place of the sliders."""
    workshop, resolved = _resolved(request, build)
    study = _quick(workshop, resolved)
    try:
        at = asked(resolved, study, _said(shim, backlash, torque, "", ""))
    except AskedWrongError as e:
        raise HTTPException(422, str(e)) from None
    return render(request, "mesh_set.html", at=at, sliders=controls.sliders(at, study.report),
                  **_set(workshop, resolved, study, at))  # fmt: skip


@router.get(PATH + "/under")
def under(
    request: Request, build: str, shim: str = "", backlash: str = "", torque: str = "",
    iron: str = "", support: str = "",
) -> Response:  # fmt: skip
    """Where both flanks press under the chosen torque, case and support."""
    workshop, resolved = _resolved(request, build)
    study = _quick(workshop, resolved)
    try:
        at = asked(resolved, study, _said(shim, backlash, torque, iron, support))
    except AskedWrongError as e:
        raise HTTPException(422, str(e)) from None
    found, refused = None, ""
    try:
        placed = workshop.meshes.shimmed(resolved, at.shim, at.backlash)
        found = workshop.meshes.under(resolved, placed, at.case)
    except ArithmeticError as e:
        refused = _sentence(str(e))
    told: dict[str, Any] = {"under": None}
    if found is not None:
        told = {
            "under": shown.under(found),
            "under_picture": _inline(controls.under_picture(study.report, found), "pressed"),
            "cautions": (*found.cautions, *shown.under_cautions(found)),
        }
    return render(request, "mesh_under.html", at=at, under_refused=refused,
                  heads=list(shown.DIALS.values()),
                  sliders=controls.sliders(at, study.report), **told)  # fmt: skip


@router.get(PATH + "/job")
def job(request: Request, build: str) -> Response:
    """How far the study is; once it is done, all that was waiting for it."""
    workshop, resolved = _resolved(request, build)
    study = _quick(workshop, resolved)
    text = workshop.store.latest(build).text
    return render(request, "mesh_job_answer.html", build=workshop.store.build(build),
                  off_the_map=controls.off_the_map(resolved),
                  **_answer(workshop, build, text, resolved, study))  # fmt: skip


@router.post(PATH + "/job")
def start(request: Request, build: str) -> Response:
    """Start the study; one of an older state of this build makes room for it."""
    workshop = workshop_of(request)
    text = workshop.store.latest(build).text
    for other in workshop.jobs.of(build):
        if other.kind == MESH and other.state == "running" and other.build_hash != text_hash(text):
            workshop.jobs.stop(other.id)
    try:
        workshop.jobs.start(MESH, build, text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
    except NoPairError as e:
        raise HTTPException(409, str(e)) from None
    return job(request, build)


@router.post(PATH + "/job/{job_id}/stop")
def stop(request: Request, build: str, job_id: str) -> Response:
    """Stop it."""
    workshop = workshop_of(request)
    if job_id in {j.id for j in workshop.jobs.of(build)}:
        workshop.jobs.stop(job_id)
    return job(request, build)


@router.get(PATH + "/working")
def working(request: Request, build: str, number: str) -> Response:
    """The working of a number, for the panel at the side."""
    workshop, resolved = _resolved(request, build)
    report = workshop.meshes.report(resolved) or _quick(workshop, resolved).report
    node = workshop.meshes.nodes(resolved, report).get(number)
    if node is None:
        raise HTTPException(404, "there is no such number in this build any more")
    title = findings_of(report)[number].means
    answer = render(request, "working.html", number=number,
                    title=f"{title[:1].upper()}{title[1:]}", root=tree(node),
                    made=report.made)  # fmt: skip
    answer.headers["X-Revision"] = str(workshop.store.latest(build).number)
    return answer


@router.get(PATH + "/flanks.{kind}")
def flanks(request: Request, build: str, kind: str) -> Response:
    """Points and normals of the four flanks as a file."""
    workshop, resolved = _resolved(request, build)
    _quick(workshop, resolved)
    try:
        points = workshop.meshes.points(resolved)
    except ValueError as e:
        raise HTTPException(409, str(e)) from None
    made = {"csv": as_csv, "json": as_json}.get(kind)
    if made is None:
        raise HTTPException(404, "there is no such file")
    return _download(made(points), "flanks", kind, workshop, build)


@router.get(PATH + "/chart/{name}.{kind}")
def chart(
    request: Request, build: str, name: str, kind: str, shim: str = "", backlash: str = "",
    torque: str = "", iron: str = "", support: str = "", font: bool = False,
) -> Response:  # fmt: skip
    """A picture as a file (SVG), or the numbers of the chart (CSV)."""
    if kind not in _PLAIN or (kind == "csv" and name != "deflection"):
        raise HTTPException(404, "there is no such chart")
    workshop, resolved = _resolved(request, build)
    study = _quick(workshop, resolved)
    report = workshop.meshes.report(resolved) or study.report
    if kind == "csv":
        return _download(_csv(shown.chart_rows(report)), name, kind, workshop, build)
    if name == "deflection":
        picture = deflection_chart(report)
    else:
        said = _said(shim, backlash, torque, iron, support)
        picture = _flank_picture(workshop, resolved, study, name, said)
    svg = to_svg(picture, name)
    text = svg.replace("</svg>", f"<style>{font_faces()}</style></svg>") if font else svg
    return _download(text, name, kind, workshop, build, shown_here=font)


def _flank_picture(
    workshop: Workshop, resolved: Resolved, study: MeshStudy, name: str, said: dict[str, str]
) -> Drawing:
    try:
        at = asked(resolved, study, said)
        placed = workshop.meshes.shimmed(resolved, at.shim, at.backlash)
        if name == "compound":
            return controls.set_picture(study.report, placed)
        found = workshop.meshes.under(resolved, placed, at.case) if name == "pressed" else None
    except (ValueError, ArithmeticError) as e:
        raise HTTPException(422, _sentence(str(e))) from None
    if found is None:
        raise HTTPException(404, "there is no such chart")
    return controls.under_picture(study.report, found)


def _download(
    text: str, name: str, kind: str, workshop: Workshop, build: str, shown_here: bool = False
) -> Response:
    file = f"{name}-revision-{workshop.store.latest(build).number}.{kind}"
    headers = {} if shown_here else {"Content-Disposition": f'attachment; filename="{file}"'}
    kinds = {**_PLAIN, "json": "application/json"}
    return Response(text, media_type=kinds[kind], headers=headers)


def _said(shim: str, backlash: str, torque: str, iron: str, support: str) -> dict[str, str]:
    said = {
        "shim": shim, "backlash": backlash, "torque": torque, "iron": iron, "support": support
    }  # fmt: skip
    return {name: text[: _LONGEST + 1] for name, text in said.items()}


def _quick(workshop: Workshop, resolved: Resolved) -> MeshStudy:
    try:
        return workshop.meshes.quick(resolved)
    except NoPairError as e:
        raise HTTPException(409, str(e)) from None


def _inline(drawing: Drawing, name: str) -> str:
    return fluid(to_svg(drawing, name))


def _csv(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _resolved(request: Request, build: str) -> tuple[Workshop, Resolved]:
    workshop = workshop_of(request)
    try:
        return workshop, workshop.geared(workshop.store.latest(build).text)
    except BuildError as e:
        raise HTTPException(409, f"no answer yet: {e.problems[0].message}") from None
