"""The check paper: the whole load-path report, to print, check by hand, sign and keep."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from axlewright.drawing.charts import in_order, limits_of, margins_chart, torque_by_gear
from axlewright.drawing.fonts import shorten
from axlewright.drawing.load_path import load_path
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import to_svg
from axlewright.papers.launch_page import MarchedLaunch, launch_content
from axlewright.papers.limit_card import card_content
from axlewright.papers.mesh_page import mesh_content
from axlewright.papers.press import date_parts, write_pdf
from axlewright.papers.words import (
    cell,
    margin_cell,
    place,
    prose,
    spread_words,
    units_of,
    with_band,
)
from axlewright.quantities.finding import Finding
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.report import (
    CaseReport,
    InputLine,
    LimitCard,
    LinkReport,
    LoadPathReport,
    Made,
)

_COLUMNS = 6
"""Columns of figures in one table; more cases or gears make another table."""
_BUILD = "the build file"
"""What a source says of a value that the builder stated."""
_DITTO = "″"


def write_check_paper(
    report: LoadPathReport,
    card: LimitCard | None,
    path: Path,
    made_on: str,
    launch: MarchedLaunch | None = None,
    mesh: MeshReport | None = None,
) -> Path:
    """Write the report as a PDF; ``made_on`` is the date to print, like 2025-03-31.

    With a launch that was marched the paper has a page on it, and with a gear pair that was worked
    out some more.
    """
    return write_pdf("check.typ", content(report, card, made_on, launch, mesh), path, made_on)


def content(
    report: LoadPathReport,
    card: LimitCard | None,
    made_on: str,
    launch: MarchedLaunch | None = None,
    mesh: MeshReport | None = None,
) -> dict[str, Any]:
    """Everything the template prints, already in words."""
    sources = numbered_sources(report)
    cited = {i.source for i in report.inputs}
    given, advised, rest = sorted_inputs(report.inputs)
    return {
        "document_title": f"Driveline check: {report.name}",
        "keywords": [report.made.build_hash, report.made.program],
        "name": report.name,
        "short_name": shorten(report.name, 2.65, 85.0),
        "file": report.file,
        "made_on": made_on,
        "date": date_parts(made_on),
        "made": made_fields(report.made),
        "sentence": report.verdict.sentence,
        "holds": report.verdict.holds,
        "picture": _picture(load_path(report), "path"),
        "margins_picture": _picture(margins_chart(report), "margins"),
        "gears_picture": _gears_picture(report),
        "measure": [
            {"what": prose(m.means), "now": m.now, "advice": prose(m.advice), "path": m.path}
            for m in report.verdict.measure_next
        ],
        "links": _links(report),
        "cases": [
            {"title": c.title, "means": c.means, "gear": str(c.gear) if c.gear else "–",
             "governed": _by(c)}
            for c in report.cases
        ],
        "case_tables": _tables(
            [(c.title, _governs(_by(c)), c.torques) for c in report.cases]
        ),
        "gear_tables": _tables(
            [(f"Gear {g.gear}, {g.ratio.value:.3g} : 1", _governs(g.governed_by), g.torques)
             for g in report.gears]
        ),
        "launch": launch_content(launch) if launch else None,
        "mesh": mesh_content(mesh) if mesh else None,
        "card": card_content(card) if card else None,
        "card_cautions": [x for x in card.cautions if x not in report.cautions] if card else [],
        "given": _inputs([replace(i, advice="") for i in given], sources),
        "advised": _with_ditto(_inputs(advised, sources)),
        "rest": [{"title": title, "rows": _inputs(x, sources)} for title, x in rest.items()],
        "cautions": list(dict.fromkeys(report.cautions)),
        "safety": list(report.safety),
        "sources": _numbered(sources, cited),
        "formula_sources": _numbered(sources, set(sources) - cited),
    }  # fmt: skip


_MARCHED = "marched in time"


def _by(case: CaseReport) -> str:
    """What a case's torque is set by; where no closed form sets it, it was marched."""
    return case.governed_by or (_MARCHED if case.torques else "–")


def _governs(by: str) -> str:
    return by if by == _MARCHED else f"{by} governs"


def numbered_sources(report: LoadPathReport) -> dict[str, int]:
    """The number of each source: first those of inputs, then those only of formulas."""
    cited = sorted({i.source for i in report.inputs if i.source}, key=str.casefold)
    return {text: n for n, text in enumerate(dict.fromkeys([*cited, *report.sources]), start=1)}


def _numbered(sources: dict[str, int], wanted: set[str]) -> list[dict[str, str]]:
    return [{"number": f"[{n}]", "text": text} for text, n in sources.items() if text in wanted]


def sorted_inputs(
    lines: Sequence[InputLine],
) -> tuple[list[InputLine], list[InputLine], dict[str, list[InputLine]]]:
    """Inputs by what the builder does with them.

    First what he stated or measured; then what is worth measuring, those with the same advice
    together; then the rest by where it comes from.
    """
    given: list[InputLine] = []
    advised: dict[str, list[InputLine]] = {}
    rest: dict[str, list[InputLine]] = {
        "Assumed": [], "From the catalogue": [], "Fixed by the kind of part": []
    }  # fmt: skip
    for line in lines:
        if line.origin == "measured" or (
            line.origin == "stated" and (line.spread or line.source == _BUILD)
        ):
            given.append(line)
        elif line.origin == "stated":
            rest["Fixed by the kind of part"].append(line)
        elif line.advice:
            advised.setdefault(line.advice, []).append(line)
        else:
            rest["From the catalogue" if line.origin == "catalogue" else "Assumed"].append(line)
    together = [line for same in advised.values() for line in same]
    return given, together, {title: rows for title, rows in rest.items() if rows}


def made_fields(made: Made) -> dict[str, str]:
    """How the paper was made, for its title block."""
    return {
        "revision": made.build_hash,
        "program": made.program,
        "study": made.study,
        "data": made.data_hash,
        "seed": str(made.seed),
        "samples": f"{made.samples:,}",
    }


def _picture(drawing: Drawing, prefix: str) -> dict[str, str]:
    return {"svg": to_svg(drawing, prefix), "alt": f"{drawing.title}. {drawing.description}"}


def _gears_picture(report: LoadPathReport) -> dict[str, str] | None:
    if not limits_of(report.gears):
        return None
    return _picture(torque_by_gear(report.gears, report.name), "gears")


def _links(report: LoadPathReport) -> list[dict[str, Any]]:
    cases = {c.case: c.title.lower() for c in report.cases}
    return [_link(link, cases, link.link == report.verdict.weakest) for link in in_order(report)]


def _link(link: LinkReport, cases: dict[str, str], weakest: bool) -> dict[str, Any]:
    """One link: its limits, and below them its notes; a case that they share is said once."""
    limits = [margin_cell(m, cases) for m in (link.breaks, link.gives) if m is not None]
    shared = {x["case"] for x in limits}
    worst = f"worst in: {limits[0]['case']}" if len(shared) == 1 else ""
    if worst:
        limits = [{**x, "case": ""} for x in limits]
    endures = f"{link.endures.means}: {with_band(link.endures)}" if link.endures else ""
    return {
        "title": link.title,
        "part": link.part,
        "first": "goes first" if weakest else "",
        "limits": limits,
        "notes": [x for x in (worst, link.consequence, endures, link.note) if x],
    }


def _inputs(lines: Sequence[InputLine], sources: dict[str, int]) -> list[dict[str, str]]:
    """Rows of inputs; those that say the same of several parts share a row with all their paths."""
    same: dict[InputLine, list[str]] = {}
    for line in lines:
        same.setdefault(replace(line, path=""), []).append(line.path)
    return [
        {
            "paths": ", ".join(paths),
            "means": prose(line.means),
            "value": line.value,
            "spread": spread_words(line.value, line.spread),
            "origin": line.origin,
            "source": f"[{sources[line.source]}]" if line.source else "",
            "advice": prose(line.advice),
        }
        for line, paths in same.items()
    ]


def _with_ditto(rows: list[dict[str, str]]) -> list[dict[str, str]]:
    """The same rows; an advice that stands in the row above is a ditto mark."""
    above = ["", *(r["advice"] for r in rows)]
    return [
        {**r, "advice": _DITTO} if r["advice"] == a else r
        for r, a in zip(rows, above, strict=False)
    ]


def _tables(columns: Sequence[tuple[str, str, dict[str, Finding]]]) -> list[dict[str, Any]]:
    """Columns of findings as tables no wider than a page; a row is a place and its units."""
    filled = [c for c in columns if c[2]]
    count = math.ceil(len(filled) / _COLUMNS)
    width = math.ceil(len(filled) / max(count, 1))
    return [_table(filled[i * width : (i + 1) * width]) for i in range(count)]


def _table(columns: Sequence[tuple[str, str, dict[str, Finding]]]) -> dict[str, Any]:
    rows = dict.fromkeys((key, t.dimension) for _, _, ts in columns for key, t in ts.items())
    return {
        "columns": [{"title": title, "governed": by} for title, by, _ in columns],
        "rows": [
            {
                "place": place(key),
                "units": units_of(dimension),
                "cells": [
                    cell(ts[key]) if key in ts and ts[key].dimension == dimension else ["–", "", ""]
                    for _, _, ts in columns
                ],
            }
            for key, dimension in rows
        ],
    }
