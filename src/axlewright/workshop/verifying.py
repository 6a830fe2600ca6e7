"""The published checks, and how much of the verdict they cover."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.verify.cases import read_cases
from axlewright.verify.run import Coverage, Result, coverage, verify_table
from axlewright.workshop.bench import formulas_in_verdict, read_text
from axlewright.workshop.representative import BUILDS


@dataclass(frozen=True)
class Verification:
    """Every case run, and the coverage of the verdict's formulas and of all formulas."""

    results: tuple[Result, ...]
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
        results=table.results,
        verdict=coverage(verdict_formulas(), table.results),
        everything=table.coverage,
        obtained=table.obtained,
        passed=table.passed,
    )
