"""Reading cases from TOML: inputs and the expected number as a book prints them, with units.

::

    [[case]]
    id = "bolt-joint-constant"                     # unique
    formula = "mechanics.bolts.joint_constant"     # registry name
    inputs = { bolt_stiffness = "6.50 Mlbf/in", member_stiffness = "13.8 Mlbf/in" }
    expect = "0.320"
    tolerance = "0.3 %"                            # relative, or absolute with a unit
    source = "book, edition, example"
    obtained = "read"                              # see OBTAINED
    # output = "field"                             # which field, if the formula gives several
    # note = "..."
"""

from __future__ import annotations

import difflib
import functools
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

import numpy as np

from axlewright.quantities.formula import Array, Formula
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import UnitError, factor, read
from axlewright.verify.formulas import all_formulas, nearest

Input = float | Array | str

OBTAINED = {
    "read": "read in the source named",
    "memory": "recalled, not looked up",
    "closed form": "worked out by other reasoning",
    "reference library": "computed by an independent library",
    "standard": "fixed by a standard",
}
_NEEDED = ("id", "formula", "inputs", "expect", "tolerance", "source", "obtained")
_KNOWN = (*_NEEDED, "output", "note")
_HEADER = re.compile(r"^\s*\[\[\s*case\s*\]\]")
_KEY = re.compile(r"^\s*([A-Za-z_]+)\s*=")


@dataclass(frozen=True, eq=False)
class Case:
    """One check: a formula with inputs in SI and the number that others got for them."""

    id: str
    formula: str
    inputs: Mapping[str, Input]
    expect: float
    dimension: str
    tolerance: float
    relative: bool
    source: str
    obtained: str
    output: str = ""
    note: str = ""
    written: Mapping[str, Any] | None = None
    file: str = ""
    line: int = 1


class CaseError(ValueError):
    """Cases that cannot be used; ``problems`` say each where it stands and what would be right."""

    def __init__(self, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


class _WrongKeyError(ValueError):
    """What is wrong with one key of a case."""

    def __init__(self, key: str, why: str) -> None:
        super().__init__(f"{key}: {why}" if key else why)
        self.key = key.partition(".")[0]


@functools.cache
def package_cases() -> tuple[Case, ...]:
    """The cases that come with the package."""
    found: list[Case] = []
    for path in sorted(files(__package__).joinpath("cases").iterdir(), key=lambda p: p.name):
        if path.name.endswith(".toml"):
            found += read_cases(path.read_text(encoding="utf-8"), path.name, taken=found)
    return tuple(found)


def read_cases(text: str, file: str, taken: Iterable[Case] = ()) -> tuple[Case, ...]:
    """Cases of one file; raises :class:`CaseError` with every problem found.

    ``taken`` are cases read before, whose ids may not be used again.
    """
    places = _places(text)
    where = {c.id: f"{c.file}:{c.line}" for c in taken}
    cases: list[Case] = []
    problems: list[str] = []
    for number, row in enumerate(_rows(text, file)):
        lines = places[number] if number < len(places) else {"": 1}
        try:
            case = _case(row, file, lines[""])
            if case.id in where:
                raise _WrongKeyError("id", f"is taken by the case at {where[case.id]}")
        except _WrongKeyError as e:
            given = row.get("id") if isinstance(row, dict) else None
            name = f"case {given!r}" if isinstance(given, str) else f"case number {number + 1}"
            problems.append(f"{file}:{lines.get(e.key, lines[''])}: {name}: {e}")
            continue
        where[case.id] = f"{file}:{case.line}"
        cases.append(case)
    if problems:
        raise CaseError(problems)
    return tuple(cases)


def _rows(text: str, file: str) -> list[Any]:
    try:
        raw = tomllib.loads(text)
    except ValueError as e:  # TOMLDecodeError, and integers of thousands of digits
        found = re.search(r"\(at line (\d+), column \d+\)", str(e))
        line = found[1] if found else len(text.splitlines()) or 1
        reason = re.sub(r"\s*\(at .*\)$", "", str(e))
        message = f"{file}:{line}: this is no TOML: {reason[:1].lower()}{reason[1:]}"
        raise CaseError([f"{message}; put values with units in quotes"]) from None
    except RecursionError:
        raise CaseError([f"{file}:1: this is no file of cases: brackets nested too deep"]) from None
    other = [k for k in raw if k != "case"]
    if other:
        raise CaseError(
            [f"{file}:1: {other[0]}: unknown; a file of cases holds only [[case]] tables"]
        )
    rows = raw.get("case")
    if not isinstance(rows, list) or not rows:
        raise CaseError([f"{file}:1: holds no case; write each under a [[case]] line"])
    return rows


def _places(text: str) -> list[dict[str, int]]:
    """Line of each case and of its keys."""
    places: list[dict[str, int]] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if _HEADER.match(line):
            places.append({"": number})
        elif places and (found := _KEY.match(line)):
            places[-1].setdefault(found[1], number)
    return places


def _case(row: Any, file: str, line: int) -> Case:
    if not isinstance(row, dict):
        raise _WrongKeyError("", "must be a table of keys under [[case]]")
    for key in row:
        if key not in _KNOWN:
            raise _WrongKeyError(key, f"unknown key; {_hint(key, _KNOWN)}")
    for key in _NEEDED:
        if key not in row:
            raise _WrongKeyError(key, "is missing; a case needs " + ", ".join(_NEEDED))
    for key, value in row.items():
        if key == "inputs" and not isinstance(value, dict):
            raise _WrongKeyError(key, 'must be a table like { torque = "100 lbf*ft" }')
        if key not in {"inputs", "expect", "tolerance"} and not (isinstance(value, str) and value):
            raise _WrongKeyError(key, "must be text in quotes, and not empty")
    if row["obtained"] not in OBTAINED:
        raise _WrongKeyError("obtained", "must be one of " + ", ".join(OBTAINED))
    what = _formula(row["formula"])
    output = row.get("output", "")
    dimension = _dimension(what, output)
    expect = _quantity("expect", row["expect"], dimension)
    tolerance, relative = _tolerance(row["tolerance"], dimension)
    if relative and expect == 0.0:
        raise _WrongKeyError("tolerance", "cannot be relative to zero; write it with a unit")
    return Case(
        id=row["id"],
        formula=what.name,
        inputs=dict(_inputs(what, row["inputs"])),
        expect=expect,
        dimension=dimension,
        tolerance=tolerance,
        relative=relative,
        source=row["source"],
        obtained=row["obtained"],
        output=output,
        note=row.get("note", ""),
        written=row,
        file=file,
        line=line,
    )


def _hint(name: str, known: Iterable[str]) -> str:
    names = list(known)
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    return f"did you mean {near[0]}?" if near else f"known here: {', '.join(names)}"


def _formula(name: str) -> Formula:
    known = all_formulas()
    if name in known:
        return known[name]
    near = nearest(name)
    hint = f"near it: {', '.join(near)}" if near else "write it like mechanics.bolts.joint_constant"
    raise _WrongKeyError("formula", f"there is no formula {name!r}; {hint}")


def outputs_of(what: Formula) -> tuple[str, ...]:
    """Fields of a formula that gives several numbers; nothing for one that gives one."""
    scope = getattr(what.function, "__globals__", {})
    annotation = what.signature.return_annotation
    kind = scope.get(annotation) if isinstance(annotation, str) else annotation
    return tuple(getattr(kind, "_fields", ()))


def _dimension(what: Formula, output: str) -> str:
    fields = outputs_of(what)
    if not fields and not output:
        return what.dimension
    if not fields:
        raise _WrongKeyError("output", f"{what.name} gives one number; leave output out")
    if output not in fields:
        why = (
            f"{what.name} gives no {output!r}"
            if output
            else f"is missing; {what.name} gives several"
        )
        raise _WrongKeyError("output", f"{why}; write one of {', '.join(fields)}")
    return symbols()[output].dimension


def _quantity(key: str, value: Any, dimension: str) -> float:
    try:
        reading = read(value, dimension)
    except UnitError as e:
        raise _WrongKeyError(key, str(e)) from None
    if reading.has_limits:
        raise _WrongKeyError(key, f"{reading.text!r} has limits; write one number")
    return reading.value


def _tolerance(value: Any, dimension: str) -> tuple[float, bool]:
    """Size of a tolerance and whether it is relative; absolute ones may be of another zero."""
    found = re.fullmatch(r"\s*(\d*\.?\d+(?:[eE][+-]?\d+)?)\s*(.*?)\s*", str(value))
    if not found or isinstance(value, bool):
        raise _WrongKeyError(
            "tolerance", f"{value!r} is no tolerance; write 0.3 % or a number with unit"
        )
    size, unit = float(found[1]), found[2]
    if size == 0.0:
        raise _WrongKeyError("tolerance", "must be above zero")
    if unit in {"%", "percent"}:
        return size / 100.0, True
    try:
        return size * factor(unit, dimension), False
    except UnitError as e:
        raise _WrongKeyError("tolerance", f"{e}; or a percentage for a relative one") from None


def _inputs(what: Formula, given: Mapping[str, Any]) -> Iterator[tuple[str, Input]]:
    parameters = what.signature.parameters
    for name in given:
        if name not in parameters:
            raise _WrongKeyError(
                f"inputs.{name}", f"{what.name} takes no such input; {_hint(name, parameters)}"
            )
    for name, parameter in parameters.items():
        if name in given:
            takes_text = re.search(r"\bstr\b|Literal", str(parameter.annotation))
            yield name, _input(f"inputs.{name}", given[name], name, bool(takes_text))
        elif parameter.default is parameter.empty:
            known = symbols().get(name)
            means = f" ({known.means})" if known else ""
            raise _WrongKeyError("inputs", f"{name} is missing{means}")


def _input(key: str, value: Any, name: str, takes_text: bool) -> Input:
    if takes_text:
        if not isinstance(value, str):
            raise _WrongKeyError(key, "must be text in quotes")
        return value
    dimension = symbols()[name].dimension
    if isinstance(value, list):
        return np.array([_quantity(key, v, dimension) for v in value])
    return _quantity(key, value, dimension)
