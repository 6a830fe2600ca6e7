"""Reading a build file: text in, a checked :class:`Build` out, or every error with its line."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from axlewright.build.lines import Path, key_lines, place_of
from axlewright.build.model import Build
from axlewright.build.problems import BuildError, Problem, Severity
from axlewright.build.sense import contradictions, refusals
from axlewright.quantities.fields import Section, dimension_of, meta_of, subsection
from axlewright.quantities.units import Reading, read

FORMAT = 1


@dataclass(frozen=True)
class BuildFile:
    """A build as read: the text, what it says, and the cautions about it."""

    file: str
    text: str
    build: Build
    cautions: tuple[Problem, ...]


def read_build(text: str, file: str = "build.toml") -> BuildFile:
    """Read and check a build; raises :class:`BuildError` with every error found."""
    raw = _parse(text, file)
    places = key_lines(text)

    def at(severity: Severity, path: Path, message: str) -> Problem:
        line, column = place_of(places, path)
        return Problem(severity, ".".join(path), message, line, column)

    wrong_format = _format_message(raw)
    if wrong_format:
        raise BuildError(file, [at("error", ("format",), wrong_format)])
    try:
        build = Build.model_validate(raw)
    except ValidationError as e:
        errors = [at("error", path, message) for path, message in _translate(e)]
        raise BuildError(file, sorted(errors, key=lambda p: p.line)) from None
    errors: list[Problem] = []
    cautions: list[Problem] = []
    for path, message, severity in (*_ranges(build), *refusals(build), *contradictions(build)):
        (errors if severity == "error" else cautions).append(at(severity, path, message))
    if errors:
        raise BuildError(file, sorted(errors, key=lambda p: p.line))
    return BuildFile(file, text, build, tuple(sorted(cautions, key=lambda p: p.line)))


def _parse(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as e:
        match = re.search(r"\(at line (\d+), column (\d+)\)", str(e))
        line, column = (int(match[1]), int(match[2])) if match else (len(text.splitlines()) or 1, 1)
        reason = re.sub(r"\s*\(at .*\)$", "", str(e))
        message = f"this is no TOML: {reason[:1].lower()}{reason[1:]}"
        if "Invalid value" in reason:
            message += '; put values with units in quotes, like weight = "3650 lb"'
        raise BuildError(file, [Problem("error", "", message, line, column)]) from None
    except RecursionError:
        message = "this is no build file: its brackets are nested too deep"
        raise BuildError(file, [Problem("error", "", message, 1, 1)]) from None


def _format_message(raw: dict[str, Any]) -> str:
    given = raw.get("format")
    if given is None:
        return "the first line must be format = 1"
    if isinstance(given, bool) or not isinstance(given, int):
        return f"format must be the number {FORMAT}"
    if given > FORMAT:
        return (
            f"this file is of format {given}; this version reads up to {FORMAT}: update axlewright"
        )
    return "" if given == FORMAT else f"there is no format {given}; write format = {FORMAT}"


def _translate(error: ValidationError) -> Iterator[tuple[Path, str]]:
    for item in error.errors(include_url=False):
        path = tuple(str(p) for p in item["loc"])
        yield path, _message(path, item["type"], item.get("ctx", {}), item["msg"])


def _message(path: Path, kind: str, context: dict[str, Any], original: str) -> str:
    if kind == "shop":
        return str(context["why"])
    if kind == "extra_forbidden":
        return _unknown(path)
    if kind == "missing":
        return _missing(path)
    if kind == "literal_error":
        return f"must be one of {context['expected'].replace(chr(39), '')}"
    words = {
        "model_type": "must be a table of keys",
        "string_type": "must be text in quotes",
        "bool_type": "must be true or false",
        "bool_parsing": "must be true or false",
        "int_type": "must be a whole number",
        "list_type": "must be a list in square brackets",
        "tuple_type": "must be a pair in square brackets",
        "dict_type": "must be a table of keys",
    }
    return words.get(kind, original[:1].lower() + original[1:])


def _section(path: Path) -> type[Section] | None:
    here: type[Section] | None = Build
    for part in path:
        info = here.model_fields.get(part) if here else None
        here = subsection(info) if info else None
    return here


def _unknown(path: Path) -> str:
    section = _section(path[:-1])
    known = list(section.model_fields) if section else []
    near = difflib.get_close_matches(path[-1], known, n=1, cutoff=0.6)
    if near:
        return f"unknown key; did you mean {'.'.join((*path[:-1], near[0]))}?"
    elsewhere = [
        (*(p,), n)
        for p, info in Build.model_fields.items()
        if (inner := subsection(info)) is not None
        for n in inner.model_fields
        if n == path[-1]
    ]
    if elsewhere:
        return f"unknown key here; there is {'.'.join(elsewhere[0])}"
    return "unknown key; known here: " + ", ".join(known)


def _missing(path: Path) -> str:
    section = _section(path[:-1])
    info = section.model_fields.get(path[-1]) if section else None
    if info is None:
        return "is missing"
    meta = meta_of(info)
    example = f', for example {path[-1]} = "{meta.example}"' if meta.example else ""
    return f"is missing: {meta.means[:1].lower()}{meta.means[1:].rstrip('.')}{example}"


def _ranges(section: Section, path: Path = ()) -> Iterator[tuple[Path, str, Severity]]:
    """Compare each stated quantity with what is usual and what is possible."""
    for name, info in type(section).model_fields.items():
        value = getattr(section, name)
        if isinstance(value, Section):
            yield from _ranges(value, (*path, name))
        elif isinstance(value, Reading):
            dimension = dimension_of(info) or "ratio"
            meta = meta_of(info)
            yield from _range(value, dimension, (*path, name), meta.possible, meta.usual)


def _range(
    value: Reading,
    dimension: str,
    path: Path,
    possible: tuple[str, str] | None,
    usual: tuple[str, str] | None,
) -> Iterator[tuple[Path, str, Severity]]:
    if possible:
        low, high = (read(t, dimension).value for t in possible)
        if value.low < low or value.high > high:
            yield path, f"{value.text} cannot be; {_between(possible)}", "error"
            return
    if usual:
        low, high = (read(t, dimension).value for t in usual)
        if not low <= value.value <= high:
            yield path, f"{value.text} is unusual, please check; usual is {usual[0]} to {usual[1]}", "caution"  # fmt: skip


def _between(bounds: tuple[str, str]) -> str:
    return f"it must lie between {bounds[0]} and {bounds[1]}"
