"""The pages on the gear pair in the check paper, where it has been worked out for the build."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Final

from axlewright.drawing.deflection_chart import deflection_chart
from axlewright.drawing.primitives import Drawing
from axlewright.drawing.svg import to_svg
from axlewright.drawing.tooth_flank import compound_flanks, pressed_flanks
from axlewright.papers.words import cell
from axlewright.quantities.finding import Finding
from axlewright.quantities.units import show, show_both, significant
from axlewright.studies.mesh_report import (
    BearingLine,
    Choice,
    GearLoad,
    LimitLine,
    MeshReport,
    RatingTable,
)
from axlewright.studies.mesh_sentences import (
    mm,
    moved_cell,
    rated_cell,
    reversal_words,
    thou,
    warm_words,
)

_MOVES: Final = ("pinion_lift", "pinion_axial", "ring_axial", "ring_lift")
_AS_IT_IS: Final = "as it is"
_DIGITS: Final = 2
_MILLION: Final = 1e6
_HARDEST, _ENGINE = "drive.hardest", "coast.engine"


def mesh_content(report: MeshReport) -> dict[str, Any]:
    """Everything that the pages print, already in words."""
    named = {x.name: x for x in report.loads}
    rated = {x.side: x for x in report.loads if x.name.endswith(".rated")}
    service = {"drive": named[_HARDEST], "coast": named[_ENGINE]}
    titles = {x.name: x.title for x in report.loads}
    return {
        "sentence": report.sentence,
        "refused": report.refused,
        "pictures": _pictures(report, rated, service),
        "chart": _picture(deflection_chart(report), "deflection"),
        "loads": [_load(x) for x in report.loads],
        "limits": [_limit(x, titles[x.load], report.made.samples) for x in report.limits],
        "choices": [_choice(x) for x in report.choices],
        "bearings": [_bearing(x) for x in rated["drive"].bearings],
        "bearings_title": f"The bearings under {rated['drive'].title.lower()}",
        "shares": [
            {"title": x.title, "shares": [_percent(f.value) for f in x.shares.values()]}
            for x in report.loads
        ],
        "share_heads": [name.capitalize() for name in rated["drive"].shares],
        "rating": report.rating,
        "tables": [_rated(t) for t in report.tables],
        "more": [said for said in (reversal_words(report), *warm_words(report)) if said],
        "cautions": [*report.cautions],
        "samples": f"{report.made.samples:,}",
    }


def _pictures(
    report: MeshReport, rated: Mapping[str, GearLoad], service: Mapping[str, GearLoad]
) -> list[dict[str, str]]:
    """The tooth rolled by hand, at rated torque either way, and as hard as each side ever gets."""
    if not report.shapes:
        return []
    shown = [
        ("By hand, in compound", compound_flanks(report.shapes, report.pictures, "Pattern by hand"))
    ]
    for loads in (rated, service):
        if any(x.loaded is not None for x in loads.values()):
            title = "; ".join(_named(x) for x in loads.values())
            pressed = {side: x.loaded for side, x in loads.items()}
            shown.append((title, pressed_flanks(report.shapes, pressed, title)))
    return [
        {"title": title, **_picture(drawing, f"flank{n}")}
        for n, (title, drawing) in enumerate(shown)
    ]


def _named(x: GearLoad) -> str:
    return f"{x.title}, {show_both(x.ring_torque.value, 'torque', 3)}"


def _picture(drawing: Drawing, prefix: str) -> dict[str, str]:
    return {"svg": to_svg(drawing, prefix), "alt": f"{drawing.title}. {drawing.description}"}


def _percent(share: float) -> str:
    return f"{significant(100.0 * share, _DIGITS)} %"


def _load(x: GearLoad) -> dict[str, Any]:
    place = x.contact.get("load_center") or x.pattern.get("center")
    heel = x.contact.get("load_heel_end") or x.pattern.get("heel_end")
    peak = x.contact.get("peak_pressure")
    return {
        "title": x.title,
        "torque": cell(x.ring_torque),
        "moves": [moved_cell(x.moves[what]) for what in _MOVES],
        "place": _share(place),
        "heel": _share(heel),
        "peak": ["–", "", ""] if peak is None else cell(peak),
        "cautions": list(x.cautions),
    }


def _share(f: Finding | None) -> list[str]:
    if f is None or math.isnan(f.value):
        return ["–", "", ""]
    low, high = (significant(100.0 * v, _DIGITS) for v in (f.low, f.high))
    return [_percent(f.value), "", "" if low == high else f"{low} to {high} %"]


def _limit(x: LimitLine, load: str, samples: int) -> dict[str, Any]:
    word = "within" if x.holds else "beyond"
    if samples and x.share > 0.0:
        often = f"in {_percent(x.share)} of the samples"
        word = f"{word} {often}" if not x.holds else f"{word}; beyond {often}"
    low, high = (show(v, "length", digits=_DIGITS) for v in (x.low, x.high))
    return {
        "load": load,
        "means": x.means,
        "moves": show_both(x.found.value, "length", _DIGITS),
        "allowed": f"{low} to {high}",
        "word": word,
    }


def _choice(x: Choice) -> dict[str, Any]:
    moves = (x.lift_rated, x.lift_hardest, x.ring_axial_rated)
    return {
        "title": x.title,
        "present": _AS_IT_IS if x.present and x.title != _AS_IT_IS else "",
        "moves": [f"{thou(v)} ({mm(v)})" for v in moves],
        "peak": "–" if x.peak_hardest is None else show(x.peak_hardest, "stress", digits=_DIGITS),
        "times": f"× {significant(x.times, 3)}" if math.isfinite(x.times) else "–",
    }


def _rated(t: RatingTable) -> dict[str, Any]:
    return {
        "title": t.title,
        "means": t.means,
        "columns": list(t.columns),
        "rows": [
            {"title": row.title, "cells": [rated_cell(f) for f in row.cells], "says": row.says}
            for row in t.rows
        ],
        "cautions": list(t.cautions),
    }


def _bearing(x: BearingLine) -> list[str]:
    life = "endless" if x.life is None else f"{significant(x.life / _MILLION, _DIGITS)} million"
    forces = [show_both(v, "force", _DIGITS) for v in (x.radial, x.axial)]
    return [x.name, *forces, _percent(x.load_zone), show_both(x.rib, "force", _DIGITS), life]
