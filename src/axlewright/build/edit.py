"""Changing a build file as the builder types: one key at a time, comments and layout kept."""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from axlewright.build.lines import too_deep
from axlewright.build.model import Build
from axlewright.build.places import newline
from axlewright.build.spans import layout_of, values_of
from axlewright.build.splice import EditError, remove_value, set_value
from axlewright.build.written import Path, decoded, dotted, quoted, split
from axlewright.catalogue.load import TABLES
from axlewright.quantities.fields import dimension_of, listed_of, repeatable, subsection
from axlewright.quantities.sections import FieldInfo, Section

__all__ = ["EditError", "edit", "raw_values"]

Kind = Literal["text", "number", "yes or no", "list", "anything", "table"]

_REPEATABLE: frozenset[Kind] = frozenset({"text", "list"})
"""One reading as text, or several readings of the same thing as a list."""
_UNPLAIN = re.compile(r"[;\[\]\"'{}#\n]")
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?")


def edit(text: str, path: str, value: str | None) -> str:
    """The text with a key set to what was typed; ``None`` or nothing typed takes the key out.

    ``path`` is dotted, like ``car.weight`` or ``parts.axle_shafts."my own".steel``; a table of its
    own is made where there is none.  Raises :class:`EditError` in words.
    """
    key = split(path)
    if not key:
        raise EditError(f"{path[:40]!r} is no path of a key; write it like car.weight")
    typed = (value or "").replace("\r\n", "\n").strip()
    if not typed:
        return remove_value(text, key)
    if any("\ud800" <= c <= "\udfff" for c in typed + path):
        raise EditError("this holds signs that are no text")
    kinds = _kinds(key)
    if kinds == {"table"}:
        raise EditError(f"{dotted(key)} is a table; name one of its keys")
    old = _old(text, key)
    if old is not None and typed in {decoded(old).replace("\r\n", "\n").strip(), in_field(old)}:
        return text
    return set_value(text, key, _literal(typed, kinds, old).replace("\n", newline(text)))


def raw_values(text: str) -> dict[str, str]:
    """What was typed at every dotted path; nothing for a text that is no TOML."""
    if not _reads(text):
        return {}
    values = {dotted(path): decoded(literal) for path, literal in values_of(text).items()}
    return {path: typed.replace("\r\n", "\n") for path, typed in values.items()}


def field_values(text: str) -> dict[str, str]:
    """The same as a field shows it: readings and points as ``9 7/8 in; 9 15/16 in``."""
    return {path: in_field(typed) for path, typed in raw_values(text).items()}


def in_field(typed: str) -> str:
    """A list of plain texts on one line without its brackets and quotes; the rest as it stands."""
    if not typed.startswith("[") or "\n" in typed or not _is_toml(typed):
        return typed
    entries = tomllib.loads(f"v = {typed}")["v"]
    plain = all(isinstance(e, str) and e.strip() and not _UNPLAIN.search(e) for e in entries)
    return "; ".join(e.strip() for e in entries) if len(entries) > 1 and plain else typed


def _reads(text: str) -> bool:
    if too_deep(text) is not None:
        return False
    try:
        tomllib.loads(text)
        layout_of(text)
    except (ValueError, RecursionError):
        return False
    return True


def _old(text: str, key: Path) -> str | None:
    span = layout_of(text).leaves.get(key) if _reads(text) else None
    return text[span[0] : span[1]] if span else None


def _literal(typed: str, kinds: frozenset[Kind], old: str | None) -> str:
    """What was typed as a TOML literal of the kind that the key takes.

    What does not fit the kind is written as text: the reader then says what is wrong with it.
    """
    if "yes or no" in kinds and typed in {"true", "false"}:
        return typed
    if "list" in kinds and (kinds != _REPEATABLE or _several(typed)):
        return _list(typed, "number" in kinds) or quoted(typed)
    if _NUMBER.fullmatch(typed) and _is_toml(typed):
        was_bare = old is not None and _is_number(old)
        same = typed in {str(tomllib.loads(f"v = {typed}")["v"])}  # a bare 3.70 would read as 3.7
        if kinds == {"number"} or (was_bare and same and kinds & {"number", "anything"}):
            return typed
    if "anything" in kinds and old is not None and typed in {"true", "false"}:
        return typed if old in {"true", "false"} else quoted(typed)
    if "anything" in kinds and old is not None and old.startswith("["):
        return _list(typed, True) or quoted(typed)
    return quoted(typed)


def _several(typed: str) -> bool:
    """Whether more than one reading was typed; a comma without a space is a decimal one."""
    entries = re.split(";" if ";" in typed else ", ", typed)
    return typed.startswith("[") or len([e for e in entries if e.strip()]) > 1


def _list(typed: str, numbers: bool) -> str:
    """A list as TOML writes it; brackets and quotes may be left out.  Empty if it is no list."""
    if typed.startswith("[") and _is_toml(typed):
        return typed
    inner = typed[1:-1] if typed.startswith("[") and typed.endswith("]") else typed
    if re.search(r"[\[\]\"'{}#\n]", inner):
        return ""
    entries = [e.strip() for e in re.split(";" if ";" in inner else ",", inner)]
    entries = [e for e in entries if e]
    bare = (e if numbers and _NUMBER.fullmatch(e) and _is_toml(e) else quoted(e) for e in entries)
    return f"[{', '.join(bare)}]"


def _is_toml(literal: str) -> bool:
    """Whether a text is one TOML value and nothing beside it."""
    line = f"v = {literal}"
    return _reads(line) and layout_of(line).leaves == {("v",): (4, len(line))}


def _is_number(literal: str) -> bool:
    return bool(_NUMBER.fullmatch(literal))


@functools.lru_cache(maxsize=1024)
def _kinds(path: Path) -> frozenset[Kind]:
    """What a key may hold, from its declaration."""
    section: type[Section] | None = Build
    if path[0] == "parts":
        if len(path) < 4:
            return frozenset({"table"})
        section, path = TABLES.get(path[1]), path[3:]
    for n, name in enumerate(path):
        info = section.model_fields.get(name) if section else None
        if info is None:
            return frozenset({"anything"})
        section = subsection(info)
        if section is None:
            inside = path[n + 1 :]
            return _kinds_of(info, inside)
    return frozenset({"table"})


def _kinds_of(info: FieldInfo, inside: Path) -> frozenset[Kind]:
    if repeatable(info):
        return _REPEATABLE
    if listed_of(info) is not None:
        return frozenset({"list"})
    if dimension_of(info) in {"ratio", "count"}:
        return frozenset({"text", "number"})
    return frozenset({"text"}) if dimension_of(info) else _within(info.annotation, inside)


def _within(annotation: Any, inside: Path) -> frozenset[Kind]:
    """Kinds of an annotation, or of the entries of a table with free names."""
    tables = [o for o in _options(annotation) if get_origin(o) is dict]
    for _ in inside:
        if not tables:
            return frozenset({"anything"})
        annotation = get_args(tables[0])[1]
        tables = [o for o in _options(annotation) if get_origin(o) is dict]
    return frozenset(_kind_of(annotation))


def _options(annotation: Any) -> Iterator[Any]:
    yield annotation
    yield from (a for a in get_args(annotation) if get_origin(annotation) not in {dict, list})


def _kind_of(annotation: Any) -> Iterator[Kind]:
    for option in _options(annotation):
        origin = get_origin(option)
        if origin is list:
            yield "list"
            inner = get_args(option)[0]
            if float in {inner, *get_args(inner)}:
                yield "number"
        elif origin is dict:
            yield "table"
        elif option is bool:
            yield "yes or no"
        elif option in {int, float}:
            yield "number"
        elif option is str or isinstance(option, str) or origin is Literal:
            yield "text"
