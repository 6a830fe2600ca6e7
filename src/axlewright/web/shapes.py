"""The shapes of what the programs' side answers, and their description for OpenAPI.

An answer is the envelope that the command line prints with ``--json``: ``schema`` says what it is
and in which version, ``result`` holds it.  Studies answer with the very reports.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import TypeAdapter

from axlewright.build.merge import Conflict
from axlewright.build.problems import Problem
from axlewright.store.rows import Build, Revision
from axlewright.studies.report import InputLine
from axlewright.web.errors import KINDS

REF = "#/components/schemas/{model}"
COMPONENTS: dict[str, Any] = {}
"""Schemas that answers refer to, by name; filled while the routes are declared."""


@dataclass(frozen=True)
class BuildState:
    """A build as it is now: its text, and what is wrong with it or doubtful."""

    build: Build
    text: str
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class Kept:
    """What a save gave: the new revision, what was merged, what could not be, what is wrong now.

    With conflicts, what was kept before stays for these keys; ``ours`` is what was not taken.
    """

    revision: Revision
    merged: bool
    conflicts: tuple[Conflict, ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class Removed:
    """A build that was put away; it is not lost."""

    id: str


@dataclass(frozen=True)
class KeyState:
    """One key of a build: as typed, null if left out; as used, null while the text is wrong."""

    key: str
    typed: str | None
    used: InputLine | None


@dataclass(frozen=True)
class KnownKey:
    """One key that a build file may hold."""

    key: str
    means: str
    takes: str
    dimension: str | None
    kinds: tuple[str, ...]
    rows: tuple[str, ...]
    when_left_out: str
    because: str
    required: bool
    first: bool


@dataclass(frozen=True)
class WorkingStep:
    """One step of a working, the answer first; ``depth`` says what it belongs to."""

    depth: int
    title: str
    result: str
    lines: tuple[str, ...]
    source: str
    origin: str


@dataclass(frozen=True)
class PlaceOfProblem:
    """One thing that is wrong with a build file or a request, and where."""

    file: str
    severity: str
    key: str
    message: str
    line: int
    column: int


@dataclass(frozen=True)
class ErrorTold:
    """What went wrong, in words."""

    kind: str
    message: str
    problems: tuple[PlaceOfProblem, ...]


def told(kind: str, shape: Any, status: int = 200) -> dict[int | str, dict[str, Any]]:
    """The description of a route's good answer."""
    schema = _envelope(kind, shape, "result")
    return {status: {"description": f"`{kind}`", "content": {"application/json": schema}}}


def faults(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """The description of the errors that a route may answer with."""
    schema = _envelope("error", ErrorTold, "error")
    return {
        s: {"description": KINDS[s].capitalize(), "content": {"application/json": schema}}
        for s in statuses
    }


def _envelope(kind: str, shape: Any, key: str) -> dict[str, Any]:
    inner = _as_printed(TypeAdapter(shape).json_schema(mode="serialization", ref_template=REF))
    COMPONENTS.update(inner.pop("$defs", {}))
    if inner.get("type") == "object" and "title" in inner:
        COMPONENTS[inner["title"]] = inner
        inner = {"$ref": REF.format(model=inner["title"])}
    return {
        "schema": {
            "type": "object",
            "additionalProperties": False,
            "required": ["schema", key],
            "properties": {"schema": {"const": f"axlewright.{kind}/1"}, key: inner},
        }
    }


def _as_printed(node: Any) -> Any:
    """A schema of types turned into one of what is printed (see :mod:`workshop.messages`)."""
    if isinstance(node, list):
        return [_as_printed(n) for n in node]
    if not isinstance(node, dict):
        return node
    made = {k: _as_printed(v) for k, v in node.items() if k != "default"}
    if made.get("type") == "number":
        made["type"] = ["number", "null"]  # a number that is not finite is null
    if made.get("type") == "object" and "properties" in made:
        if made.get("title") == "Finding":
            made["properties"] |= {"unit": {"type": "string"}, "text": {"type": "string"}}
        made["required"] = list(made["properties"])
        made["additionalProperties"] = False
    return made
