"""Putting one value into a TOML text, or taking it out, with every other line left as it is.

A key that is new goes where the order of the keys puts it.  If the text offers it commented out
(``#weight = "3500 lb"``, as the full template does), that line is used.  A key that is taken out
and about which a comment stands is commented out again, so that the comment keeps its meaning.
"""

from __future__ import annotations

import re
import tomllib

from axlewright.build.places import (
    PARKED_KEY,
    above,
    after,
    comment_above,
    free_lines,
    insert,
    newline,
    place,
    rank,
    required,
)
from axlewright.build.spans import Header, Layout, Statement, layout_of, values_of
from axlewright.build.written import Path, dotted

_LINE = re.compile(r"^([ \t]*)(?=[^\r\n])", re.MULTILINE)
_PARKED_HEADER = re.compile(r"[ \t]*#\[[^\[]")


class EditError(ValueError):
    """A change that cannot be made in this text; says why."""


def set_value(text: str, path: Path, literal: str) -> str:
    """The text with a TOML literal at a path; its table is made if there is none."""
    _refuse_clash(_read(text), path)
    wanted = {**values_of(text), path: literal}
    return _proved(_set(text, path, literal), wanted, path)


def remove_value(text: str, path: Path) -> str:
    """The text without what stands at a path, a value or a table; the same text if nothing does."""
    layout = _read(text)
    _refuse_lists(layout, path)
    doomed = [p for p in layout.leaves if p[: len(path)] == path]
    wanted = {p: v for p, v in values_of(text).items() if p not in doomed}
    for leaf in doomed:
        text = _remove(text, leaf)
    for header in reversed(layout_of(text).headers):
        if header.path[: len(path)] == path:
            text = _drop_if_empty(text, header.path)
    return _proved(text, wanted, path)


def _read(text: str) -> Layout:
    try:
        tomllib.loads(text)
        return layout_of(text)
    except RecursionError:
        raise EditError("the text is nested too deep to be edited here") from None
    except ValueError as e:
        raise EditError(f"the text is no TOML ({e}); put that right first") from None


def _proved(text: str, wanted: dict[Path, str], path: Path) -> str:
    """The text, if it reads and says just what it should."""
    try:
        tomllib.loads(text)
    except ValueError as e:
        raise EditError(f"{dotted(path)} cannot be changed here ({e}); edit the text") from None
    if values_of(text) != wanted:
        raise EditError(f"{dotted(path)} cannot be changed here alone; edit the text")
    return text


def _refuse_lists(layout: Layout, path: Path) -> None:
    for known in layout.lists:
        if known == path[: len(known)] or path == known[: len(path)]:
            raise EditError(f"[[{dotted(known)}]] is a list of tables; edit the text")


def _refuse_clash(layout: Layout, path: Path) -> None:
    if not path:
        raise EditError("this is no path of a key; write it like car.weight")
    _refuse_lists(layout, path)
    for n in range(1, len(path)):
        if path[:n] in layout.leaves:
            raise EditError(f"{dotted(path[:n])} is a value, it has no key {dotted(path[n:])}")
    tables = (*layout.leaves, *layout.inlines, *(h.path for h in layout.headers))
    if path not in layout.leaves and any(p[: len(path)] == path for p in tables):
        raise EditError(f"{dotted(path)} is a table; name one of its keys")


def _set(text: str, path: Path, literal: str) -> str:
    layout = layout_of(text)
    if path in layout.leaves:
        start, end = layout.leaves[path]
        return text[:start] + literal + text[end:]
    for n in range(len(path) - 1, -1, -1):
        holder = path[:n]
        if holder in layout.inlines:
            return _into_braces(text, layout, holder, f"{dotted(path[n:])} = {literal}")
        dotted_in = _last_dotted(layout, holder)
        if dotted_in is not None:
            key = path[len(layout.headers[dotted_in.table].path) :]
            return insert(text, *after(text, dotted_in), f"{dotted(key)} = {literal}")
        number = next((i for i, h in enumerate(layout.headers) if h.path == holder), None)
        if number is not None and n == len(path) - 1:
            return _into_table(text, layout, number, path, literal)
        if number is not None:
            break
    return _new_table(text, layout, path, literal)


def _into_braces(text: str, layout: Layout, holder: Path, pair: str) -> str:
    inline = layout.inlines[holder]
    if not inline.members:
        return f"{text[: inline.start]}{{ {pair} }}{text[inline.end :]}"
    end = inline.members[-1].value_end
    return f"{text[:end]}, {pair}{text[end:]}"


def _last_dotted(layout: Layout, holder: Path) -> Statement | None:
    """The last statement that makes a table by a dotted key, like ``air.pressure = …``."""
    found = None
    for s in layout.statements:
        header = layout.headers[s.table]
        if len(header.path) < len(holder) < len(s.path) and s.path[: len(holder)] == holder:
            found = s
    return found


def _into_table(text: str, layout: Layout, number: int, path: Path, literal: str) -> str:
    for start, end in free_lines(text, layout, number):
        line = text[start:end]
        if _PARKED_HEADER.match(line):
            break
        value = _parked_value(line, path[-1])
        if value is not None:
            mark = start + line.index("#")
            a, b = mark + 1 + value[0], mark + 1 + value[1]
            return text[:mark] + text[mark + 1 : a] + literal + text[b:]
    pair = f"{dotted(path[-1:])} = {literal}"
    siblings = [s for s in layout.statements if s.table == number]
    earlier = [s for s in siblings if place(s.path) <= place(path)]
    if earlier:
        nearest = max(earlier, key=lambda s: (place(s.path), s.start))
        return insert(text, *after(text, nearest), pair)
    if siblings:
        first = siblings[0]
        indent = text[first.start : first.key_start]
        return insert(text, above(text, layout, first.start), indent, pair)
    header = layout.headers[number]
    line = text[header.start : header.end]
    return insert(text, header.end, line[: len(line) - len(line.lstrip(" \t"))], pair)


def _parked_value(line: str, key: str) -> tuple[int, int] | None:
    """Span of the value in a commented-out ``#key = value``, counted from behind the mark."""
    if not PARKED_KEY.match(line):
        return None
    rest = line.partition("#")[2]
    try:
        tomllib.loads(rest)
    except ValueError:
        return None
    return layout_of(rest).leaves.get((key,))


def _new_table(text: str, layout: Layout, path: Path, literal: str) -> str:
    table = path[:-1]
    parked = _parked_header(text, layout, table)
    if parked is not None:
        return _set(text[:parked] + text[parked + 1 :], path, literal)
    here = rank(table)
    follower = next((h for h in layout.headers[1:] if rank(h.path) > here), None)
    at = len(text) if follower is None else above(text, layout, follower.start)
    lines = [f"[{dotted(table)}]", f"{dotted(path[-1:])} = {literal}"]
    previous = text[:at].removesuffix("\n").removesuffix("\r")
    if previous and not previous.endswith("\n"):
        lines.insert(0, "")
    if follower is not None:
        lines.append("")
    return insert(text, at, "", newline(text).join(lines))


def _parked_header(text: str, layout: Layout, table: Path) -> int | None:
    """Where the mark of a commented-out ``#[table]`` stands that no live key follows."""
    for number in range(len(layout.headers)):
        last = max((s.end for s in layout.statements if s.table == number), default=0)
        for start, end in free_lines(text, layout, number):
            line = text[start:end]
            if start >= last and _PARKED_HEADER.match(line):
                try:
                    tomllib.loads(line.partition("#")[2])
                except ValueError:
                    continue
                if layout_of(line.partition("#")[2]).headers[-1].path == table:
                    return start + line.index("#")
    return None


def _remove(text: str, path: Path) -> str:
    layout = layout_of(text)
    for holder, inline in layout.inlines.items():
        paths = [m.path for m in inline.members]
        if path not in paths:
            continue
        if len(paths) == 1 and not required(holder):
            return _remove(text, holder)
        n = paths.index(path)
        here = inline.members[n]
        if n:
            return text[: inline.members[n - 1].value_end] + text[here.value_end :]
        end = inline.members[1].key_start if len(paths) > 1 else here.value_end
        return text[: here.key_start] + text[end:]
    statement = next(s for s in layout.statements if s.path == path)
    table = layout.headers[statement.table].path
    lines = text[statement.start : statement.end]
    said = "#" in text[statement.value_end : statement.end]
    said = said or comment_above(text, layout, statement.start)
    kept = _LINE.sub(r"\1#", lines) if said else ""
    return _drop_if_empty(text[: statement.start] + kept + text[statement.end :], table)


def _drop_if_empty(text: str, table: Path) -> str:
    """Take out the header of a table without keys: an empty table may say something by itself."""
    layout = layout_of(text)
    number = next((n for n, h in enumerate(layout.headers) if n and h.path == table), None)
    if number is None or required(table) or any(s.table == number for s in layout.statements):
        return text
    header = layout.headers[number]
    if _spoken_of(text, layout, number, header):
        mark = header.start + text[header.start : header.end].index("[")
        return text[:mark] + "#" + text[mark:]
    before, after = text[: header.start], text[header.end :]
    blank = next((e for e in ("\r\n", "\n") if before.endswith("\n" + e)), "")
    if blank and (not after or after.startswith(("\n", "\r\n"))):
        before = before.removesuffix(blank)
    return before + after


def _spoken_of(text: str, layout: Layout, number: int, header: Header) -> bool:
    """Whether a comment stands on a header's line, above it, or among its lines."""
    end = layout.body_end(number, text)
    if number + 1 < len(layout.headers):
        end = max(header.end, above(text, layout, end))
    return "#" in text[header.start : end] or comment_above(text, layout, header.start)
