"""Reference pages for the build file and the catalogue, printed from what the program reads.

They cannot drift from it: a test compares the pages in ``docs/`` with this text.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from axlewright.catalogue.load import TABLES, table
from axlewright.catalogue.rows import Row
from axlewright.quantities.fields import dimension_of, meta_of
from axlewright.quantities.units import DIMENSIONS, Reading, pretty
from axlewright.workshop.keys import Entry, Table, left_out, tables, takes

RECOGNISED_BY = ("features", "findings")
"""Tables that describe what one sees rather than a part."""

_BUILD_HEAD = """\
# Keys of the build file

Every key that a build file may hold. `axlewright new` writes the file of a first verdict,
`axlewright new --full` one with every key.

- A value stands in quotes with its unit: `"3650 lb"`, `"3 1/8 in"`, `"840 N·m"`. A plain number is
  enough for a ratio or a count.
- What follows `±` are shop limits: the true value is taken to lie inside them, most likely in the
  middle. `"3.08 to 3.73"` says the same.
- *When left out* is what the program assumes, with its spread and where it is from; the answer
  shows it as assumed.
- *Bare ±* is the spread given to a value that is stated without one.
- A value outside *usual* draws a caution, one outside *possible* is refused."""

_CATALOGUE_HEAD = """\
# Catalogue

Generic size classes and materials, every row with its source; no makes. A builder's own rows stand
in the build file under `[parts.<table>."<name>"]` with the same keys and come first."""


def build_reference() -> str:
    """The page of all keys of the build file."""
    return _page([_BUILD_HEAD, *(_table_of_keys(t) for t in tables())])


def _table_of_keys(part: Table) -> str:
    head = f"## `[{part.path}]`" if part.path else "## Top of the file"
    rows = [
        [
            f"`{e.name}`" + (" (needed)" if e.required else ""),
            _meaning(e),
            takes(e),
            _when_left_out(e),
            e.meta.stated_spread,
            _span(e.meta.usual),
            _span(e.meta.possible),
        ]
        for e in part.entries
    ]
    titles = ["key", "meaning", "takes", "when left out", "bare ±", "usual", "possible"]
    return f"{head}\n\n{part.means}\n\n{markdown_table(titles, rows)}"


def _meaning(entry: Entry) -> str:
    meta = entry.meta
    parts = [meta.means]
    parts += [f"`{k}`: {said}." for k, said in (meta.choices or {}).items()]
    if meta.example:
        parts.append(f"Example: `{meta.example}`.")
    if meta.advice:
        parts.append(f"How: {meta.advice}")
    return "<br>".join(parts)


def _when_left_out(entry: Entry) -> str:
    default = left_out(entry)
    return f"{default}<br>*{entry.meta.because}*" if default else ""


def _span(bounds: tuple[str, str] | None) -> str:
    return f"{bounds[0]} to {bounds[1]}" if bounds else ""


def catalogue_page() -> str:
    """The page of every catalogue row with its source."""
    parts = [name for name in TABLES if name not in RECOGNISED_BY]
    return _page(
        [
            _CATALOGUE_HEAD,
            *(_table_of_rows(name, 2) for name in parts),
            "## By what one recognises an axle, and what one finds on it",
            *(_table_of_rows(name, 3) for name in RECOGNISED_BY),
        ]
    )


def _table_of_rows(name: str, level: int) -> str:
    rows = table(name)
    fields = [f for f in TABLES[name].model_fields if any(_cell(r, f) for r in rows.values())]
    lines = [[f"**{key}**", *(_cell(row, f) for f in fields)] for key, row in rows.items()]
    titles = ["name", *fields]
    if len(fields) > len(rows):  # more columns than rows: lay it on its side
        turned = zip(titles, *lines, strict=True)
        titles, *lines = ([str(cell) for cell in row] for row in turned)
    head = f"{'#' * level} `{name}`\n\n{(TABLES[name].__doc__ or '').splitlines()[0]}"
    return "\n\n".join((head, _fields(name, fields), markdown_table(titles, lines)))


def _fields(name: str, fields: Iterable[str]) -> str:
    lines = []
    for field in (f for f in fields if f not in Row.model_fields):
        info = TABLES[name].model_fields[field]
        dimension = dimension_of(info)
        unit = pretty(DIMENSIONS[dimension].shop) if dimension else ""
        lines.append(f"- `{field}`: {meta_of(info).means}" + (f" ({unit})" if unit else ""))
    return "\n".join(lines)


def _cell(row: Row, field: str) -> str:
    value = getattr(row, field)
    match value:
        case None:
            return ""
        case Reading(text=text):
            return text
        case bool():
            return "yes" if value else "no"
        case dict():
            return ", ".join(f"{weight * 100:.0f} % {kind}" for kind, weight in value.items())
        case _:
            return str(value)


def markdown_table(titles: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table; a bar inside a cell is escaped."""
    return "\n".join(_lines(titles, rows))


def _lines(titles: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    yield _line(titles)
    yield _line(["---"] * len(titles))
    yield from (_line(row) for row in rows)


def _line(cells: Sequence[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _page(parts: Iterable[str]) -> str:
    return "\n\n".join(parts).rstrip() + "\n"
