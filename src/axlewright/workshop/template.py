"""The build file to start from, printed from the keys themselves: no key can be left out of it."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from typing import Literal

from axlewright.quantities.fields import Key
from axlewright.workshop.keys import Entry, Table, left_out, quoted, sample, tables

Style = Literal["short", "full"]

_WIDTH = 96
_TIED = "\N{NO-BREAK SPACE}"  # holds a name together while lines are broken
_NEEDED = {"format", "gearbox.kind", "axle.ring_gear"}
_SOMETIMES = {
    "clutch": "for a manual gearbox only: take the # off this line too",
    "converter": "for an automatic gearbox only: take the # off this line too",
    "engine.air": "only when both are known: take the # off this line too",
}
_SHORT = {"use.launch": "slip", "use.surface": "street"}

_UNITS = """\
Write values with their units in quotes, the way the shop does: "3650 lb", "3 1/8 in", "840 N·m". \
"3850 ± 60 lb" and "3.08 to 3.73" give limits: the true value is taken to lie inside them."""

_SHORT_HEAD = f"""\
Build file for a first verdict: change what differs on your car, and delete the line of what you \
do not know. What is missing is assumed with an honest spread and shown as assumed.

{_UNITS}

Every other key, with what is assumed without it: axlewright new --full"""

_FULL_HEAD = f"""\
Every key of a build file. Take the # off a line and put your own value in. A line left as it is \
says nothing: what stands above it as "left out" is assumed.

{_UNITS}"""

_OWN_PARTS = """\
Your own parts have the keys of the catalogue and are named like a row of it:

[parts.axle_shafts."mine"]
spline = "31x24"
body_diameter = "1.30 in"
seat_diameter = "1.40 in"
engagement = "1.1 in"
steel = "alloy 4340 through-hardened"

and then, under [axle]: shaft = "mine\""""


def template(style: Style = "short") -> str:
    """The commented build file: the keys of a first verdict filled in, or every key there is."""
    lines = _short() if style == "short" else _full()
    return "\n".join(lines).rstrip("\n") + "\n"


def _short() -> Iterator[str]:
    yield from _comment(_SHORT_HEAD)
    yield ""
    yield "format = 1"
    for table in tables():
        if not table.path:
            yield from (f"{e.name} = {sample(e)}" for e in table.entries if e.name == "name")
            continue
        first = [e for e in table.entries if e.meta.first]
        if first:
            yield ""
            yield f"[{table.path}]"
            yield from _aligned(first)


def _aligned(entries: list[Entry]) -> Iterator[str]:
    lines = [f"{e.name} = {_first_value(e)}" for e in entries]
    column = max(len(line) for line in lines) + 2
    for entry, line in zip(entries, lines, strict=True):
        said = entry.meta.means
        yield f"{line:<{column}}# {said}"
        if entry.kinds or entry.named_rows:
            yield from _comment(_listed(entry.kinds or entry.named_rows), " " * column)


def _first_value(entry: Entry) -> str:
    if entry.path in _SHORT:
        return quoted(_SHORT[entry.path])
    return entry.meta.example if entry.bare else quoted(entry.meta.example)


def _full() -> Iterator[str]:
    yield from _comment(_FULL_HEAD)
    told: list[Key] = []
    for table in tables():
        if table.path:
            yield ""
            yield from _header(table)
        for entry in table.entries:
            if any(entry.meta is key for key in told):  # the other side: the same keys again
                yield f"#{entry.name} = {sample(entry)}"
                continue
            told.append(entry.meta)
            yield ""
            yield from _explained(entry)
    yield ""


def _header(table: Table) -> Iterator[str]:
    yield from _comment(table.means)
    hint = _SOMETIMES.get(table.path)
    yield f"#[{table.path}]  # {hint}" if hint else f"[{table.path}]"


def _explained(entry: Entry) -> Iterator[str]:
    meta = entry.meta
    if entry.path == "parts":
        yield from _comment(_OWN_PARTS)
        return
    yield from _comment(meta.means)
    choices = meta.choices or {}
    yield from (line for k in entry.kinds for line in _comment(f"{k}: {choices[k]}", "", "    "))
    if entry.named_rows:
        yield from _comment(f"one of: {_listed(entry.named_rows)}", "", "    ")
    default = left_out(entry)
    if default:
        yield from _comment(f"left out: {default} — {meta.because}", "", "    ")
    if meta.usual:
        yield from _comment(f"usual: {meta.usual[0]} to {meta.usual[1]}", "", "    ")
    if meta.advice:
        yield from _comment(f"how: {meta.advice}", "", "    ")
    mark = "" if entry.path in _NEEDED else "#"
    yield f"{mark}{entry.name} = {sample(entry)}"


def _listed(names: tuple[str, ...]) -> str:
    return f"{_TIED}| ".join(_tied(name) for name in names)


def _tied(text: str) -> str:
    return text.replace(" ", _TIED)


def _comment(text: str, before: str = "", indent: str = "") -> Iterator[str]:
    width = _WIDTH - len(before)
    for line in re.sub(r'"[^"]*"', lambda quote: _tied(quote[0]), text).splitlines():
        wrapped = textwrap.wrap(
            line,
            width,
            initial_indent=indent,
            subsequent_indent=indent and indent + "  ",
            break_long_words=False,
            break_on_hyphens=False,
        )
        yield from (f"{before}# {w}".rstrip().replace(_TIED, " ") for w in wrapped or [""])
