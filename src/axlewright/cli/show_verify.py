"""Printing the published checks: source, published value, ours, error, pass; and what has none."""

from __future__ import annotations

import math

from rich.table import Table
from rich.text import Text

from axlewright.cli.show import console
from axlewright.quantities.units import show, significant
from axlewright.verify.run import MOST_CASES, Coverage, Result
from axlewright.workshop.verifying import Verification


def print_verification(outcome: Verification, everything: bool) -> None:
    """Print the cases (those of the verdict, or all), then the coverage."""
    out = console()
    wanted = set(outcome.verdict.cases)
    shown = [r for r in outcome.results if everything or r.case.formula in wanted or not r.passed]
    out.print(_table(shown))
    failed = [r for r in outcome.results if not r.passed]
    for r in failed:
        out.print(
            Text(f"FAILS {r.case.id} ({r.case.formula}): {r.fault or 'outside its tolerance'}")
        )
    out.print()
    _coverage("that enter a verdict", outcome.verdict, out)
    _coverage("in all", outcome.everything, out)
    how = ", ".join(f"{n} {kind}" for kind, n in outcome.obtained.items())
    out.print(f"{len(outcome.results)} cases: {how}.")
    counted = sum(outcome.verdict.cases.values())
    out.print(f"{counted} of them count for the verdict (no formula more than {MOST_CASES} times).")
    out.print(
        Text(f"{len(outcome.results) - len(failed)} passed, {len(failed)} failed", style="bold")
    )


def _coverage(which: str, c: Coverage, out: object) -> None:
    out.print(f"{len(c.checked)} of {len(c.cases)} formulas {which} have an independent check.")  # type: ignore[attr-defined]
    if c.unchecked:
        out.print(f"  without any: {', '.join(c.unchecked)}")  # type: ignore[attr-defined]


def _table(results: list[Result]) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for name, justify in (
        ("formula", "left"),
        ("published", "right"),
        ("ours", "right"),
        ("error", "right"),
        ("", "left"),
        ("obtained", "left"),
        ("source", "left"),
    ):
        table.add_column(name, justify=justify, overflow="fold")  # type: ignore[arg-type]
    for r in results:
        table.add_row(
            r.case.formula.split(".", 1)[1],
            _value(r, r.expected),
            _value(r, r.ours),
            _error(r),
            "pass" if r.passed else "FAIL",
            r.case.obtained,
            r.case.source,
        )
    return table


def _value(r: Result, value: float) -> str:
    return show(value, r.case.dimension, digits=6) if math.isfinite(value) else "–"


def _error(r: Result) -> str:
    if not math.isfinite(r.error):
        return "–"
    return (
        f"{significant(r.error * 100, 2)} %"
        if r.relative
        else show(r.error, r.case.dimension, digits=2)
    )
