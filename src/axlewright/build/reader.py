"""Reading a build file: text in, a checked :class:`Build` out, or every error with its line."""

from __future__ import annotations

import difflib
import hashlib
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from axlewright.build.lines import Path, key_lines, place_of, too_deep
from axlewright.build.model import Build
from axlewright.build.problems import BuildError, Problem, Severity
from axlewright.build.sense import contradictions, refusals
from axlewright.build.spans import entry_starts
from axlewright.quantities.fields import dimension_of, listed_of, meta_of, subsection
from axlewright.quantities.repeats import each
from axlewright.quantities.sections import FaultsError, FieldInfo, Section
from axlewright.quantities.units import Reading, read

FORMAT = 1
_QUOTES = 'put text and values with units in quotes, like weight = "3650 lb"'
_TOML_HINTS = {
    "Invalid value": _QUOTES,
    "Expected newline or end of document after a statement": _QUOTES,
    "Expected '=' after a key": 'write key = "value"',
    "Cannot overwrite a value": "this key stands in the table twice",
    "Cannot declare": "this table stands in the file twice",
    "Illegal character": "is a closing quote missing?",
    "Unterminated string": "is a closing quote missing?",
    "Unclosed array": "is a closing bracket ] missing?",
    "Exceeds the limit": "a whole number is far too long",
}


@dataclass(frozen=True)
class BuildFile:
    """A build as read: the text, what it says, and the cautions about it."""

    file: str
    text: str
    build: Build
    cautions: tuple[Problem, ...]

    @property
    def hash(self) -> str:
        """Short hash of the text: the revision of the build."""
        return hashlib.sha256(self.text.encode()).hexdigest()[:12]


def read_build(text: str, file: str = "build.toml") -> BuildFile:
    """Read and check a build; raises :class:`BuildError` with every error found."""
    raw = _parse(text, file)
    places = key_lines(text)

    def at(severity: Severity, path: Path, message: str, entries: tuple[int, ...] = ()) -> Problem:
        line, column = _entry_place(text, path, entries) or place_of(places, path)
        return Problem(severity, ".".join(path), message, line, column)

    wrong_format = _format_message(raw)
    if wrong_format:
        raise BuildError(file, [at("error", ("format",), wrong_format)])
    errors: list[Problem] = []
    try:
        build = Build.model_validate(raw)
    except FaultsError as e:
        errors = [at("error", path, said, rest) for path, said, rest in _translate(e)]
        raise BuildError(file, sorted(errors, key=lambda p: p.line)) from None
    cautions: list[Problem] = []
    for path, message, severity in (*_ranges(build), *refusals(build), *contradictions(build)):
        (errors if severity == "error" else cautions).append(at(severity, path, message))
    if errors:
        raise BuildError(file, sorted(errors, key=lambda p: p.line))
    return BuildFile(file, text, build, tuple(sorted(cautions, key=lambda p: p.line)))


def _parse(text: str, file: str) -> dict[str, Any]:
    deep = too_deep(text)
    if deep is not None:
        message = "this is no build file: a key has far too many names in it"
        raise BuildError(file, [Problem("error", "", message, deep, 1)])
    try:
        return tomllib.loads(text)
    except ValueError as e:  # TOMLDecodeError, and integers of thousands of digits
        match = re.search(r"\(at line (\d+), column (\d+)\)", str(e))
        line, column = (int(match[1]), int(match[2])) if match else (len(text.splitlines()) or 1, 1)
        reason = re.sub(r"\s*\(at .*\)$", "", str(e))
        reason = re.sub(r"\('.*?\)", _as_header, reason)
        message = f"this is no TOML: {reason[:1].lower()}{reason[1:]}"
        message += next((f"; {hint}" for sign, hint in _TOML_HINTS.items() if sign in reason), "")
        raise BuildError(file, [Problem("error", "", message, line, column)]) from None
    except RecursionError:
        message = "this is no build file: its brackets are nested too deep"
        raise BuildError(file, [Problem("error", "", message, 1, 1)]) from None


def _as_header(names: re.Match[str]) -> str:
    """Print a tuple of names as the header of their table."""
    return f"[{'.'.join(re.findall(chr(39) + '(.*?)' + chr(39), names[0]))}]"


def _format_message(raw: dict[str, Any]) -> str:
    given = raw.get("format")
    if given is None:
        return f"is missing; the first line must be format = {FORMAT}"
    if isinstance(given, bool) or not isinstance(given, int):
        return f"must be the plain number {FORMAT}, without quotes"
    if given > FORMAT:
        return (
            f"this file is of format {given}; this version reads up to {FORMAT}: update axlewright"
        )
    return "" if given == FORMAT else f"there is no format {given}; write format = {FORMAT}"


def _entry_place(text: str, path: Path, entries: tuple[int, ...]) -> tuple[int, int] | None:
    """Line and column of an entry of a list that runs over several lines, else None."""
    starts = entry_starts(text, path) if entries else []
    if not starts or len(starts) <= entries[0]:
        return None
    at = starts[entries[0]]
    before = text[:at]
    return before.count("\n") + 1, at - before.rfind("\n")


def _translate(error: FaultsError) -> Iterator[tuple[Path, str, tuple[int, ...]]]:
    """Path, message and entry of each fault; branches of a choice of types count as one fault."""
    faults: dict[tuple[Path, tuple[int, ...]], list[Any]] = {}
    for item in error.errors():
        path, rest = _split(item["loc"])
        faults.setdefault((path, rest), []).append(item)
    said: dict[tuple[Path, str], tuple[int, ...]] = {}
    for (path, rest), items in faults.items():
        said.setdefault((path, _entry(path, rest) + _message(path, rest, items)), rest)
    yield from ((path, message, rest) for (path, message), rest in said.items())


def _split(place: tuple[int | str, ...]) -> tuple[Path, tuple[int, ...]]:
    """The key of a fault, and the numbers of the entries inside it."""
    path: list[str] = []
    here: type[Section] | None = Build
    for n, part in enumerate(place):
        info = here.model_fields.get(str(part)) if here else None
        path.append(str(part))
        here = subsection(info) if info else None
        if here is None:
            rest = place[n + 1 :]
            names = [str(p) for p in rest if isinstance(p, str)] if path == ["parts"] else []
            return (*path, *names), tuple(p for p in rest if isinstance(p, int))
    return tuple(path), ()


def _entry(path: Path, rest: tuple[int, ...]) -> str:
    if not rest:
        return ""
    return f"{'point' if path == ('engine', 'curve') else 'entry'} {rest[0] + 1}: "


def _message(path: Path, rest: tuple[int, ...], items: list[Any]) -> str:
    first = items[0]
    kind = first["type"]
    if path == ("engine", "curve") and rest:
        return 'must be a pair of speed and torque, like ["2000 rpm", "380 lbf*ft"]'
    if kind == "extra_forbidden":
        return _unknown(path)
    if kind == "missing":
        return _missing(path)
    words = in_words(first)
    if len(items) > 1:  # text or number
        words = "must be text in quotes or a number"
    if kind == "model_type":
        return f"{words}; write [{'.'.join(path)}] and its keys below it"
    example = _example(path)
    return words + (f", like {example}" if example and kind in _EXAMPLES_HELP else "")


_EXAMPLES_HELP = {"str_type", "list_type", "float_type"}


def in_words(item: Any) -> str:
    """A fault in a table, as the shop would say it."""
    kind, context = item["type"], item.get("ctx", {})
    if kind == "words":
        return str(context["why"])
    if kind == "literal_error":
        *most, last = context["expected"]
        expected = f"{', '.join(most)} or {last}" if most else last
        return f"must be one of {expected}; {_shown(item['input'])} is none of them"
    words = {
        "model_type": "must be a table of keys",
        "dict_type": "must be a table of keys",
        "str_type": "must be text in quotes",
        "bool_type": "must be true or false",
        "int_type": "must be a whole number",
        "float_type": "must be a number",
        "list_type": "must be a list in square brackets",
        "tuple_type": "must be a pair in square brackets",
    }
    return words[kind]


def _shown(value: object) -> str:
    text = repr(value) if isinstance(value, str) else str(value)
    return text if len(text) <= 40 else text[:37] + "..."


def _info(path: Path) -> FieldInfo | None:
    section = _section(path[:-1])
    return section.model_fields.get(path[-1]) if section else None


def _example(path: Path) -> str:
    info = _info(path)
    text = meta_of(info).example if info else ""
    return f'"{text}"' if text and not text.startswith("[") else text


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
    info = _info(path)
    if info is None:
        return "is missing"
    inner = subsection(info)
    if inner is not None:
        needed = [_assignment(n, i) for n, i in inner.model_fields.items() if i.is_required()]
        return f"is missing; write [{'.'.join(path)}] with {', '.join(needed)}"
    means = meta_of(info).means.rstrip(".")
    return f"is missing: {means[:1].lower()}{means[1:]}; write {_assignment(path[-1], info)}"


def _assignment(name: str, info: FieldInfo) -> str:
    return f'{name} = "{meta_of(info).example}"'


def _ranges(section: Section, path: Path = ()) -> Iterator[tuple[Path, str, Severity]]:
    """Compare each stated quantity with what is usual and what is possible."""
    for name, info in type(section).model_fields.items():
        value = getattr(section, name)
        if isinstance(value, Section):
            yield from _ranges(value, (*path, name))
        elif isinstance(value, Reading | tuple):
            listed = listed_of(info)
            dimension = dimension_of(info) or (listed.dimension if listed else "ratio")
            meta = meta_of(info)
            for reading in each(value) if isinstance(value, Reading) else _readings(value):
                yield from _range(reading, dimension, (*path, name), meta.possible, meta.usual)


def _readings(values: tuple[object, ...]) -> Iterator[Reading]:
    yield from (v for v in values if isinstance(v, Reading))


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
            common = f"usual is {usual[0]} to {usual[1]}"
            yield path, f"{value.text} is unusual, please check; {common}", "caution"


def _between(bounds: tuple[str, str]) -> str:
    return f"it must lie between {bounds[0]} and {bounds[1]}"
