"""The measuring worksheet: sketches with numbers, and a line to write each reading on.

Stage by stage in the order of the work.  A reading that the build has already stands on its line.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from axlewright.drawing.sketches import pictures
from axlewright.drawing.svg import slug, to_svg
from axlewright.measuring.tools import STAMP
from axlewright.measuring.worksheet import STAGES, Item, Stage
from axlewright.papers.fit_paper import TitleOf, titled
from axlewright.papers.press import write_pdf
from axlewright.quantities.units import read, show

TEMPLATE = "worksheet.typ"
Side = Literal["", "left", "right"]
_SIDES: tuple[Side, ...] = ("left", "right")
_TICKS = (
    ("fit.state", ("ride height", "hanging")),
    ("fit.care", ("careful", "hurried")),
    ("fit.old_face", ("with hat", "bare")),
)
"""What is ticked, not measured; the words are those of the build file."""
HOW = (
    "Level floor, driver or ballast in, tires at pressure, weight on the wheels unless"
    " the stage says otherwise.",
    "Write each reading with its unit, as the tool shows it: 6 3/8 in, 162 mm. Fractions are fine.",
    "Three ticks on a line: take it three times and let go in between. Readings that agree count"
    " for more, and one that stands apart is found.",
    "Left and right are measured each; never write one side down for the other.",
    "What you cannot reach stays empty: an empty line does less harm than a guess.",
)


@dataclass(frozen=True)
class Row:
    """One thing to measure, with an item for each side or one for both."""

    number: int
    name: str
    items: Mapping[Side, Item]

    @property
    def first(self) -> Item:
        """Whose words are printed."""
        return next(iter(self.items.values()))


def write_worksheet(
    title: TitleOf,
    path: Path,
    readings: Mapping[str, str],
    missing: Collection[str] | None = None,
) -> Path:
    """Write the worksheet as a PDF; ``readings`` is what was typed, by key.

    ``missing`` names the readings that are asked for; all of them where it is left out.
    """
    return write_pdf(TEMPLATE, worksheet_content(title, readings, missing), path, title.made_on)


def worksheet_content(
    title: TitleOf, readings: Mapping[str, str], missing: Collection[str] | None = None
) -> dict[str, Any]:
    """Everything that the template prints."""
    stages = [s for s in (_stage(s, readings, missing) for s in STAGES) if s["groups"]]
    return {
        **titled(title, "Measuring worksheet"),
        "how": list(HOW),
        "ticks": [
            {"key": key, "words": list(words), "said": _typed(readings.get(key, ""))}
            for key, words in _TICKS
        ],
        "tools": tools(stages),
        "stages": stages,
        "only_missing": missing is not None,
    }


def tools(stages: Sequence[Mapping[str, Any]]) -> list[str]:
    """What to bring."""
    named = (r["tool"] for s in stages for g in s["groups"] for r in g["rows"])
    return [name for name in dict.fromkeys(named) if name != STAMP.name]


def _stage(
    stage: Stage, readings: Mapping[str, str], missing: Collection[str] | None
) -> dict[str, Any]:
    rows = [r for r in rows_of(stage) if missing is None or is_wanted(r, missing)]
    groups = [_group(stage, picture, of, readings) for picture, of in by_picture(rows)]
    return {
        "name": stage.name,
        "state": stage.state,
        "caution": stage.caution,
        "groups": groups,
    }


def is_wanted(row: Row, missing: Collection[str]) -> bool:
    """Whether a reading is missing, be it of one side only."""
    return any(item.key in missing for item in row.items.values())


def rows_of(stage: Stage) -> list[Row]:
    """The rows of a stage, both sides of a thing in one, numbered from 1."""
    found: dict[str, dict[Side, Item]] = {}
    for item in stage.items:
        base, side = split(item.key)
        found.setdefault(base, {})[side] = item
    return [
        Row(n, base.rpartition(".")[2], items)
        for n, (base, items) in enumerate(found.items(), start=1)
    ]


def split(key: str) -> tuple[str, Side]:
    """A key without its side, and the side: ``fit.left.lip``, ``points.right_shock_body``."""
    table, _, name = key.rpartition(".")
    for side in _SIDES:
        if table.endswith(f".{side}"):
            return f"{table.removesuffix(side)}{name}", side
        if table == "points" and name.startswith(f"{side}_"):
            return f"{table}.{name.removeprefix(f'{side}_')}", side
    return key, ""


def by_picture(rows: Sequence[Row]) -> Iterator[tuple[str, list[Row]]]:
    """Rows that the same sketches show, in the order in which each picture first comes."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        picture = row.first.picture
        for side in _SIDES:
            picture = picture.removesuffix(f"_{side}")
        found.setdefault(picture, []).append(row)
    yield from found.items()


def _group(
    stage: Stage, picture: str, rows: Sequence[Row], readings: Mapping[str, str]
) -> dict[str, Any]:
    numbers = {r.name: r.number for r in rows}
    columns = columns_of(picture, rows)
    return {
        "sketches": [
            {
                "title": d.title,
                "alt": f"{d.title}. {d.description}",
                "svg": to_svg(d, f"s-{slug(stage.name)}-{n}"),
                "width": d.width,
            }
            for n, d in enumerate(pictures(picture, numbers))
        ],
        "columns": [title for _, title in columns],
        "three": picture == "points_side",
        "rows": [_row(r, columns, readings) for r in rows],
    }


def columns_of(picture: str, rows: Sequence[Row]) -> list[tuple[Side, str]]:
    """The columns to write in."""
    sides = {side for r in rows for side in r.items}
    if picture == "points_side":
        return [("", "Left or middle"), ("right", "Right, where it differs")]
    if sides == {""}:
        return [("", "Reading")]
    both: list[tuple[Side, str]] = [("left", "Left"), ("right", "Right")]
    if "" not in sides:
        return both
    alike = any("" in r.items and len(r.items) > 1 for r in rows)
    return [("", "Both alike" if alike else "Reading"), *both]


def _row(
    row: Row, columns: Sequence[tuple[Side, str]], readings: Mapping[str, str]
) -> dict[str, Any]:
    item = row.first
    cells = [{"open": side in row.items, "said": _said(row, side, readings)} for side, _ in columns]
    table = split(item.key)[0]
    sided = any(row.items) and not table.startswith("points")
    return {
        "number": str(row.number),
        "what": _without_side(item.what),
        "key": _shown_key(table, sided, "" in row.items),
        "why": item.why,
        "datum": item.datum,
        "tool": item.tool.name,
        "careful": f"± {item.careful}{_metric(item.careful)}",
        "cells": cells,
    }


def _said(row: Row, side: Side, readings: Mapping[str, str]) -> str:
    return _typed(readings.get(row.items[side].key, "")) if side in row.items else ""


def _shown_key(base: str, sided: bool, alike: bool) -> str:
    """How the key is written in the build file; ``…`` stands for left or right."""
    table, _, name = base.rpartition(".")
    if not sided:
        return base
    return f"{base} or {table}.….{name}" if alike else f"{table}.….{name}"


def _without_side(what: str) -> str:
    for side in _SIDES:
        what = what.removeprefix(f"{side}: ")
    return what[:1].upper() + what[1:]


def _metric(limits: str) -> str:
    """Limits of a tool in the other unit; an angle has none."""
    if limits.endswith("deg"):
        return ""
    return f" ({show(read(limits, 'length').value, 'length', 'si', 2)})"


def _typed(text: str) -> str:
    """A reading as typed in a build file, without the marks of the file."""
    return " · ".join(p.strip().strip('"') for p in text.strip("[]").split(",") if p.strip())
