"""The catalogue as one build sees it: the builder's own parts first, then the generic classes."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from typing import TypeVar

from axlewright.build.reader import in_words
from axlewright.catalogue.load import TABLES, names_of, table_of
from axlewright.catalogue.load import row as catalogue_row
from axlewright.catalogue.rows import RingGear, Row, Steel, Suspension, Tire
from axlewright.quantities.sections import FaultsError

R = TypeVar("R", bound=Row)
OWN_SOURCE = "the builder's own part"


class PartError(ValueError):
    """A part that is not on the shelf, or an own part that does not read; names the key."""

    def __init__(self, path: tuple[str, ...], message: str) -> None:
        super().__init__(message)
        self.path = path


def _means(model: type[Row], key: str) -> str:
    return (model.model_fields[key].description or key).rstrip(".")


def _fault(row: Row) -> tuple[str, str] | None:
    """Key and words for what no single key of an own part can show."""
    if isinstance(row, Steel) and row.treatment in {"induction", "carburized"}:
        for key in ("surface_hardness", "case_depth_share"):
            if getattr(row, key) is None:
                why = f'a steel with treatment = "{row.treatment}" needs it'
                return key, f"is missing ({_means(Steel, key)}); {why}"
    if isinstance(row, RingGear):
        weights = row.irons.values()
        if not weights or not all(0.0 <= w < math.inf for w in weights) or sum(weights) <= 0.0:
            return "irons", "must give each iron a weight, like { gray = 0.8, nodular = 0.2 }"
    for model, keys in _ABOVE_ZERO.items():
        if isinstance(row, model):
            return next(((k, "must be above zero") for k in keys if _reaches_zero(row, k)), None)
    return None


_ABOVE_ZERO: dict[type[Row], tuple[str, ...]] = {
    Tire: ("peak_slip", "relaxation", "pressure", "tread_window"),
    Suspension: ("instant_center_ahead", "mount_stiffness", "windup_stiffness"),
}


def _reaches_zero(row: Row, key: str) -> bool:
    said = getattr(row, key)
    return said is not None and said.low <= 0.0


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
            made = model.model_validate(filled)
        except FaultsError as e:
            faults = e.errors()
            first = next((f for f in faults if f["type"] == "extra_forbidden"), faults[0])
            loc = tuple(str(p) for p in first["loc"])
            path = ("parts", table, name, *loc)
            if first["type"] == "extra_forbidden":
                near = difflib.get_close_matches(loc[-1], model.model_fields, n=1, cutoff=0.5)
                known = ", ".join(model.model_fields)
                hint = f"did you mean {near[0]}?" if near else f"known here: {known}"
                raise PartError(path, f"unknown key; {hint}") from None
            if first["type"] == "missing":
                what = _means(model, loc[-1])
                raise PartError(path[:-1], f"{loc[-1]} is missing ({what})") from None
            raise PartError(path, in_words(first)) from None
        fault = _fault(made)
        if fault:
            raise PartError(("parts", table, name, fault[0]), fault[1])
        return made

    def find(self, model: type[R], name: str, path: tuple[str, ...]) -> R:
        """The row of a type by name; raises :class:`PartError` with the nearest names."""
        table = table_of(model)
        own = self._own.get((table, name))
        if isinstance(own, model):
            return own
        found: R | None = catalogue_row(model, name)
        if found is not None:
            return found
        names = [*names_of(model), *(n for t, n in self._own if t == table)]
        near = difflib.get_close_matches(name, names, n=3, cutoff=0.3)
        raise PartError(
            path, f"{name!r} is not in the catalogue; near it: {', '.join(near or names[:6])}"
        )
