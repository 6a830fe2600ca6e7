"""The inputs of a build as a form: groups of fields, each with what stands in when left out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from axlewright.build.problems import Problem
from axlewright.drawing.svg import slug
from axlewright.studies.report import InputLine
from axlewright.workshop.keys import Entry, Table, left_out, tables, takes

_HIDDEN = {"format", "parts"}
"""Keys that no field holds: the format is ours, own parts are written in the text itself."""
_TITLES = {
    "": "This build",
    "car": "Car",
    "engine": "Engine",
    "engine.air": "Air on the day",
    "clutch": "Clutch",
    "converter": "Converter",
    "gearbox": "Gearbox",
    "driveshaft": "Driveshaft",
    "axle": "Rear axle",
    "wheels": "Wheels and tires",
    "brakes": "Brakes",
    "suspension": "Suspension",
    "use": "Use",
    "fit": "Readings of the car",
    "fit.left": "Left side",
    "fit.right": "Right side",
    "wheel": "New wheel and tire",
    "ends": "Housing ends",
    "ends.left": "Left end, where it differs",
    "ends.right": "Right end, where it differs",
    "centre": "New center",
    "points": "Points of the suspension",
    "bushes": "Bushes and springs",
    "angles": "Angles",
    "slip": "Slip joint",
    "tunnel": "Driveshaft tunnel",
}
_WORDS = {"cg": "CG", "rpm": "rpm"}


@dataclass(frozen=True)
class Field:
    """One key as a field: its text as typed, its stand-in, and what is wrong with it."""

    path: str
    slug: str
    label: str
    means: str
    takes: str
    value: str
    placeholder: str
    stand_in: str
    because: str
    advice: str
    kinds: tuple[tuple[str, str], ...]
    rows: tuple[str, ...]
    first: bool
    required: bool


@dataclass(frozen=True)
class FieldGroup:
    """A table of the build file: fields to show at once, and those behind "more"."""

    path: str
    title: str
    means: str
    shown: tuple[Field, ...]
    more: tuple[Field, ...]

    @property
    def fields(self) -> tuple[Field, ...]:
        """All of them."""
        return (*self.shown, *self.more)


@dataclass(frozen=True)
class Mark:
    """What stands beside a field and changes with every answer."""

    slug: str
    error: str
    caution: str
    used: str
    origin: str
    source: str
    rank: int


@cache
def _tables() -> tuple[Table, ...]:
    """Every table, worked out once: what a build file may hold does not change."""
    return tables()


@cache
def entries() -> dict[str, Entry]:
    """Every key that has a field, by its path."""
    return {e.path: e for t in _tables() for e in t.entries if e.path not in _HIDDEN}


def groups(raw: Mapping[str, str], marked: Sequence[str]) -> tuple[FieldGroup, ...]:
    """The form; ``marked`` are paths that must be in sight (wrong, or to be measured next)."""
    made = []
    for table in _tables():
        fields = [_field(e, raw) for e in table.entries if e.path not in _HIDDEN]
        shown = tuple(f for f in fields if f.first or f.value or f.path in marked or not table.path)
        more = tuple(f for f in fields if f not in shown)
        title = _TITLES.get(table.path, table.path)
        made.append(FieldGroup(table.path, title, table.means, shown, more))
    return tuple(g for g in made if g.fields)


def _field(entry: Entry, raw: Mapping[str, str]) -> Field:
    stand_in = left_out(entry)
    if entry.required:
        hint = f"needed, like {entry.meta.example}" if entry.meta.example else "needed"
    elif stand_in:
        hint = f"assumed: {stand_in}"
    else:
        hint = f"not stated; like {entry.meta.example}" if entry.meta.example else "not stated"
    return Field(
        path=entry.path,
        slug=slug(entry.path),
        label=label(entry),
        means=entry.meta.means,
        takes=takes(entry),
        value=raw.get(entry.path, ""),
        placeholder=hint,
        stand_in=stand_in,
        because=entry.meta.because,
        advice=entry.meta.advice,
        kinds=_kinds(entry),
        rows=entry.named_rows if not entry.bare else (),
        first=entry.meta.first,
        required=entry.required,
    )


def label(entry: Entry) -> str:
    """The name of a key in words."""
    words = [_WORDS.get(w, w) for w in entry.name.split("_")]
    text = " ".join(words)
    return text[:1].upper() + text[1:]


def _kinds(entry: Entry) -> tuple[tuple[str, str], ...]:
    if takes(entry) == "yes or no":
        return (("true", "yes"), ("false", "no"))
    choices = entry.meta.choices or {}
    return tuple((k, f"{k}: {choices[k]}" if choices.get(k) else k) for k in entry.kinds)


def marks(
    problems: Sequence[Problem], used: Mapping[str, InputLine], measure: Sequence[str]
) -> list[Mark]:
    """What stands beside each field now."""
    said: dict[tuple[str, str], str] = {}
    for p in problems:
        path = owner(p.key)
        if path:
            said[path, p.severity] = " ".join(
                filter(None, (said.get((path, p.severity)), p.message))
            )
    return [_mark(path, said, used.get(path), measure) for path in entries()]


def _mark(
    path: str,
    said: Mapping[tuple[str, str], str],
    line: InputLine | None,
    measure: Sequence[str],
) -> Mark:
    rank = measure.index(path) + 1 if path in measure else 0
    used = ", ".join(filter(None, (line.value, line.spread))) if line else ""
    return Mark(
        slug(path),
        said.get((path, "error"), ""),
        said.get((path, "caution"), ""),
        used,
        line.origin if line else "",
        line.source if line else "",
        rank,
    )


def owner(key: str) -> str:
    """The field that a problem belongs to: the key itself, or the nearest one that holds it."""
    parts = key.split(".")
    for n in range(len(parts), 0, -1):
        path = ".".join(parts[:n])
        if path in entries():
            return path
    return ""
