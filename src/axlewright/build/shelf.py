"""The catalogue as one build sees it: the builder's own parts first, then the generic classes."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from typing import TypeVar

from pydantic import ValidationError

from axlewright.catalogue.load import TABLES, rows_of
from axlewright.catalogue.rows import Row

R = TypeVar("R", bound=Row)
OWN_SOURCE = "the builder's own part"


class PartError(ValueError):
    """A part that is not on the shelf, or an own part that does not read; names the key."""

    def __init__(self, path: tuple[str, ...], message: str) -> None:
        super().__init__(message)
        self.path = path


class Shelf:
    """Finds rows by name among the builder's own parts and the catalogue."""

    def __init__(self, parts: Mapping[str, Mapping[str, Mapping[str, object]]] | None) -> None:
        self._own: dict[tuple[str, str], Row] = {}
        for table, rows in (parts or {}).items():
            for name, row in rows.items():
                self._own[table, name] = self._read(table, name, row)

    @staticmethod
    def _read(table: str, name: str, row: Mapping[str, object]) -> Row:
        if table not in TABLES:
            near = difflib.get_close_matches(table, TABLES, n=1)
            hint = f"did you mean parts.{near[0]}?" if near else f"known are {', '.join(TABLES)}"
            raise PartError(("parts", table), f"there is no such table of parts; {hint}")
        model = TABLES[table]
        filled = {"source": OWN_SOURCE, "means": name, **row}
        try:
            return model.model_validate(filled)
        except ValidationError as e:
            first = e.errors(include_url=False)[0]
            path = ("parts", table, name, *(str(p) for p in first["loc"]))
            if first["type"] == "extra_forbidden":
                near = difflib.get_close_matches(path[-1], model.model_fields, n=1, cutoff=0.5)
                known = ", ".join(model.model_fields)
                hint = f"did you mean {near[0]}?" if near else f"known here: {known}"
                raise PartError(path, f"unknown key; {hint}") from None
            if first["type"] == "missing":
                what = model.model_fields[path[-1]].description
                raise PartError(path, f"is missing: {what}") from None
            raise PartError(path, str(first.get("ctx", {}).get("why", first["msg"]))) from None

    def find(self, model: type[R], name: str, path: tuple[str, ...]) -> R:
        """The row of a type by name; raises :class:`PartError` with the nearest names."""
        table = next(n for n, m in TABLES.items() if m is model)
        own = self._own.get((table, name))
        if isinstance(own, model):
            return own
        rows = rows_of(model)
        if name in rows:
            return rows[name]
        names = [*rows, *(n for t, n in self._own if t == table)]
        near = difflib.get_close_matches(name, names, n=3, cutoff=0.3)
        raise PartError(
            path, f"{name!r} is not in the catalogue; near it: {', '.join(near or names[:6])}"
        )
