"""The order sheet: every dimension with datum, state and ±, what may be ordered, what must wait."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from axlewright.papers.fit_paper import (
    TitleOf,
    both,
    plain_length,
    sentences,
    titled,
    to_measure,
)
from axlewright.papers.press import write_pdf
from axlewright.studies.angles_report import AnglesReport
from axlewright.studies.fit_figures import percent
from axlewright.studies.fit_report import (
    Contradiction,
    EndLine,
    FitReport,
    HoldLine,
    OrderLine,
    RoomLine,
)
from axlewright.studies.fit_words import combination

TEMPLATE = "order.typ"
_ORIGINS = {"to order": "TO ORDER", "measured": "measured", "assumed": "assumed", "follows": ""}


def write_order_sheet(
    report: FitReport,
    angles: AnglesReport,
    sources: Sequence[str],
    title: TitleOf,
    path: Path,
) -> Path:
    """Write the order sheet as a PDF."""
    return write_pdf(TEMPLATE, order_content(report, angles, sources, title), path, title.made_on)


def order_content(
    report: FitReport, angles: AnglesReport, sources: Sequence[str], title: TitleOf
) -> dict[str, Any]:
    """Everything that the template prints, already in words."""
    numbers = {m.key: f"M{n}" for n, m in enumerate(report.missing, start=1)}
    stop = _stop(report)
    return {
        **titled(title, "Order sheet"),
        "study": f"{report.made.study}, {angles.made.study}",
        "samples": f"{report.made.seed}, {report.made.samples:,}",
        "data": report.made.data_hash,
        "sentence": report.sentence,
        "further": "" if report.contradictions else report.further,
        "stop": stop,
        "planned": combination(report.planned) if report.planned else "",
        "contradictions": [_contradiction(c) for c in report.contradictions],
        "order": [_order(n, o, stop, numbers) for n, o in enumerate(report.order, start=1)],
        "rooms": [_room(r, numbers) for r in report.rooms],
        "ends": _gaps(report.ends, numbers),
        "line_sentence": angles.sentence,
        "line": _settings(angles),
        "holds": [_hold(h) for h in report.holds],
        "missing": [
            {
                "number": numbers[m.key],
                "key": m.key,
                "what": m.what,
                "datum": m.datum,
                "tool": m.tool,
                "why": m.why,
            }
            for m in report.missing
        ],
        "assumed": sentences(report.assumed),
        "unchecked": list(report.unchecked),
        "cautions": sentences((*report.cautions, *angles.cautions)),
        "safety": list(dict.fromkeys((*report.safety, *angles.safety))),
        "sources": sources_of(sources),
    }


def _stop(report: FitReport) -> str:
    """What stands large over the whole sheet where nothing may be ordered by it."""
    if report.contradictions:
        return "ORDER NOTHING BY THIS SHEET: readings contradict each other."
    if report.verdict == "not known":
        return "NOT TO ORDER BY: readings are missing."
    if report.verdict == "does not fit":
        return "NOT TO ORDER BY: it does not fit as it is planned."
    return ""


def _contradiction(c: Contradiction) -> dict[str, Any]:
    tell = [" and ".join(keys) for keys in c.would_tell]
    return {"title": c.title, "said": c.said, "tell": tell}


def _order(number: int, o: OrderLine, stop: str, numbers: Mapping[str, str]) -> dict[str, Any]:
    """One dimension; where nobody knows it, its fields are empty lines."""
    origin = "not to order yet" if stop and o.origin == "to order" else _ORIGINS[o.origin]
    return {
        "number": str(number),
        "what": o.what,
        "datum": o.datum,
        "state": o.state,
        "origin": origin if o.finding is not None else "",
        "note": o.note if o.finding is not None else to_measure(o.lacks, numbers),
        "known": o.finding is not None,
        **both(o.finding),
    }


def _room(r: RoomLine, numbers: Mapping[str, str]) -> dict[str, Any]:
    kept = {"kept": percent(r.chance or 0.0), "short": "SHORT", "not measured": ""}[r.kept]
    return {
        "side": r.side,
        "thing": r.thing,
        "where": r.where,
        "known": r.clearance is not None,
        "wanted": plain_length(r.wanted),
        "kept": kept,
        "note": r.note if r.clearance is not None else to_measure(r.lacks, numbers),
        **both(r.clearance),
    }


def _gaps(lines: Sequence[EndLine], numbers: Mapping[str, str]) -> list[dict[str, Any]]:
    return [
        {
            "side": e.side,
            "what": e.what,
            "known": e.finding is not None,
            "note": e.fault if e.finding is not None else to_measure(e.lacks, numbers),
            "wrong": bool(e.fault) and e.finding is not None,
            **both(e.finding),
        }
        for e in lines
    ]


def _settings(angles: AnglesReport) -> list[dict[str, Any]]:
    """What to set and to order of the driveline, and what is missing for it."""
    known = [
        {"what": s.what, "how": s.how, "known": True, **both(angles.findings[s.number])}
        for s in angles.settings
    ]
    missing = [
        {"what": w.means.rstrip("."), "how": w.advice, "known": False, **both(None)}
        for w in angles.wanted
        if w.first
    ]
    return [*known, *missing]


def _hold(h: HoldLine) -> dict[str, Any]:
    waits = [f"{thing}: {why}" for thing, why in h.waits]
    return {
        "item": h.item,
        "act": h.act,
        "now": h.now,
        "made": h.made_to_order,
        "waits": waits,
    }


def sources_of(sources: Iterable[str]) -> list[dict[str, str]]:
    """Sources with their numbers."""
    once = dict.fromkeys(s for s in sources if s)
    return [{"number": f"[{n}]", "text": text} for n, text in enumerate(once, start=1)]
