"""Write the JSON schemas of what --json prints to docs/json/, from the reports' own types.

A schema says exactly what :mod:`axlewright.workshop.messages` writes: a finding also carries its
unit and its text, a number that is not finite is null, and nothing else may appear.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from axlewright.studies.angles_report import AnglesReport
from axlewright.studies.coupling import CouplingReport
from axlewright.studies.fit_report import FitReport
from axlewright.studies.launch_report import LaunchReport
from axlewright.studies.mesh_report import MeshReport
from axlewright.studies.mesh_under import Setting
from axlewright.studies.ratio_report import RatioReport
from axlewright.studies.report import LimitCard, LoadPathReport
from axlewright.studies.run_report import RunReport
from axlewright.workshop.recognising import Clue
from axlewright.workshop.verifying import Verification

FOLDER = Path(__file__).resolve().parents[1] / "docs" / "json"
DIALECT = "https://json-schema.org/draft/2020-12/schema"


@dataclass
class Written:
    """What ``new`` wrote: where, or null when it went to standard output."""

    path: str | None
    text: str


@dataclass
class Paper:
    """The paper or table that was written."""

    path: str


@dataclass
class Drawings:
    """Files that were written, and what each drawing lacks before a file may be cut from."""

    written: list[str]
    waiting: dict[str, list[str]]


@dataclass
class WorkingStep:
    """One step of a working, the answer first; ``depth`` says what it belongs to."""

    depth: int
    title: str
    result: str
    lines: list[str]
    source: str
    origin: str


@dataclass
class PlaceOfProblem:
    """One thing that is wrong with a build file, and where."""

    file: str
    severity: str
    key: str
    message: str
    line: int
    column: int


@dataclass
class Error:
    """What went wrong, in words."""

    kind: str
    message: str
    problems: list[PlaceOfProblem]


RESULTS: dict[str, tuple[str, Any]] = {
    "check": ("load-path", LoadPathReport),
    "limits": ("limit-card", LimitCard),
    "working": ("working", list[WorkingStep]),
    "working without an id": ("working-ids", list[str]),
    "new": ("new", Written),
    "paper": ("paper", Paper),
    "recognise": ("recognise", tuple[Clue, ...]),
    "verify": ("verify", Verification),
    "fit": ("fit", FitReport),
    "ratio": ("ratio", RatioReport),
    "angles": ("angles", AnglesReport),
    "worksheet": ("worksheet", Paper),
    "drawings": ("drawings", Drawings),
    "run": ("run", RunReport),
    "launch": ("launch", LaunchReport),
    "launch --trace": ("launch-trace", Paper),
    "coupling": ("coupling", CouplingReport),
    "mesh": ("mesh", MeshReport),
    "mesh --torque": ("mesh-setting", Setting),
    "mesh --flanks": ("mesh-flanks", Paper),
}


def schema(kind: str, shape: Any, command: str, key: str = "result") -> dict[str, Any]:
    """The schema of one envelope."""
    inner = _as_printed(TypeAdapter(shape).json_schema(mode="serialization"))
    parts = inner.pop("$defs", {})
    whole = {
        "$schema": DIALECT,
        "title": f"axlewright.{kind}/1",
        "description": f"What {command} prints.",
        "type": "object",
        "additionalProperties": False,
        "required": ["schema", key],
        "properties": {"schema": {"const": f"axlewright.{kind}/1"}, key: inner},
    }
    return whole | ({"$defs": parts} if parts else {})


def _as_printed(node: Any) -> Any:
    """A schema of types turned into one of what is printed."""
    if isinstance(node, list):
        return [_as_printed(n) for n in node]
    if not isinstance(node, dict):
        return node
    made = {k: _as_printed(v) for k, v in node.items() if k != "default"}
    if made.get("type") == "number":
        made["type"] = ["number", "null"]
    if made.get("type") == "object" and "properties" in made:
        if made.get("title") == "Finding":
            text = {"unit": "SI unit of the numbers", "text": "the value as a shop writes it"}
            for name, means in text.items():
                made["properties"][name] = {"type": "string", "description": means}
        for part in made["properties"].values():
            part.pop("title", None)  # the key itself says it
        made["required"] = list(made["properties"])
        made["additionalProperties"] = False
    return made


def pages() -> dict[str, str]:
    """Every schema as text, by file name."""
    made = {
        f"{kind}.json": schema(kind, shape, f"`axlewright {command.split()[0]} --json`")
        for command, (kind, shape) in RESULTS.items()
    }
    made["error.json"] = schema("error", Error, "any command with --json on bad input", "error")
    return {
        name: json.dumps(page, indent=2, ensure_ascii=False) + "\n" for name, page in made.items()
    }


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, text in pages().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
        print(f"docs/json/{name}")
