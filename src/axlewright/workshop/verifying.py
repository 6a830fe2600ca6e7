"""The published checks, and how much of the verdict they cover."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.quantities.units import show, significant
from axlewright.verify.cases import read_cases
from axlewright.verify.run import Coverage, Result, coverage, verify_table
from axlewright.workshop.bench import formulas_in_verdict, read_text
from axlewright.workshop.representative import BUILDS

_ROUNDING = 1e-9


@dataclass(frozen=True)
class CheckedCase:
    """One case as shown: published value, ours, error, and where the published one is from."""

    id: str
    formula: str
    output: str
    published: str
    ours: str
    error: str
    tolerance: str
    passed: bool
    fault: str
    obtained: str
    source: str


@dataclass(frozen=True)
class Verification:
    """Every case run, and the coverage of the verdict's formulas and of all formulas."""

    results: tuple[CheckedCase, ...]
    verdict: Coverage
    everything: Coverage
    obtained: dict[str, int]
    passed: bool


def verdict_formulas() -> tuple[str, ...]:
    """Registry names of every formula that some verdict uses."""
    used = (formulas_in_verdict(resolve(read_build(text))) for text in BUILDS)
    return tuple(sorted({name for names in used for name in names}))


def verification(files: list[Path]) -> Verification:
    """Run the package's cases and those of the given files."""
    further = [case for f in files for case in read_cases(read_text(f), str(f))]
    table = verify_table(extra=further)
    return Verification(
        results=tuple(_shown(r) for r in table.results),
        verdict=coverage(verdict_formulas(), table.results),
        everything=table.coverage,
        obtained=table.obtained,
        passed=table.passed,
    )


def _shown(r: Result) -> CheckedCase:
    c = r.case

    def value(x: float) -> str:
        return show(x, c.dimension, digits=6) if math.isfinite(x) else "–"

    def spread(x: float) -> str:
        if not math.isfinite(x):
            return "–"
        if abs(x) < _ROUNDING:
            return "0"
        return f"{significant(x * 100, 2)} %" if c.relative else show(x, c.dimension, digits=2)

    return CheckedCase(
        id=c.id,
        formula=c.formula,
        output=c.output,
        published=value(r.expected),
        ours=value(r.ours),
        error=spread(r.error),
        tolerance=spread(c.tolerance),
        passed=r.passed,
        fault=r.fault,
        obtained=c.obtained,
        source=c.source,
    )
