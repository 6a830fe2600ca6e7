"""Running cases, and counting which formulas have been checked from outside."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from axlewright.verify.cases import OBTAINED, Case, package_cases
from axlewright.verify.formulas import all_formulas

MOST_CASES = 3
"""Cases that count for one formula; a formula is no better checked for having a dozen."""


@dataclass(frozen=True)
class Result:
    """A case with what this program gets (SI), and the error as a share or as the tolerance is."""

    case: Case
    ours: float
    error: float
    passed: bool
    fault: str = ""

    @property
    def expected(self) -> float:
        """What others got."""
        return self.case.expect

    @property
    def relative(self) -> bool:
        """Whether error and tolerance are shares of the expected value."""
        return self.case.relative


@dataclass(frozen=True)
class Coverage:
    """Which formulas have been checked from outside; formulas are counted, not cases.

    A formula counts as checked when it has a case and all of its cases pass.  ``cases`` says how
    many stand behind each, no more than :data:`MOST_CASES` counted.
    """

    cases: dict[str, int]
    checked: tuple[str, ...]
    failing: tuple[str, ...]
    unchecked: tuple[str, ...]

    @property
    def share(self) -> float:
        """Checked formulas over all that were asked about; one when nothing was."""
        return len(self.checked) / len(self.cases) if self.cases else 1.0


@dataclass(frozen=True)
class VerifyTable:
    """Everything a face prints: each result, the coverage, and how the numbers were obtained."""

    results: tuple[Result, ...]
    coverage: Coverage
    obtained: dict[str, int]

    @property
    def failed(self) -> tuple[Result, ...]:
        """The results that do not hold."""
        return tuple(r for r in self.results if not r.passed)

    @property
    def passed(self) -> bool:
        """Whether every case holds."""
        return not self.failed


def run_case(case: Case) -> Result:
    """Evaluate the formula of a case and compare."""
    what = all_formulas()[case.formula]
    try:
        with np.errstate(all="ignore"):
            given = what.function(**case.inputs)
    except (ArithmeticError, ValueError, TypeError, IndexError) as e:
        return Result(case, math.nan, math.nan, False, f"{case.formula} gives no number: {e}")
    values = np.asarray(getattr(given, case.output) if case.output else given, dtype=np.float64)
    if values.size != 1:
        fault = f"{case.formula} gives {values.size} numbers for these inputs; a case needs one"
        return Result(case, math.nan, math.nan, False, fault)
    ours = float(values.reshape(()))
    error = ours - case.expect
    if case.relative:
        error /= abs(case.expect)
    fault = "" if math.isfinite(ours) else f"{case.formula} gives no finite number"
    return Result(case, ours, error, bool(abs(error) <= case.tolerance), fault)


def run_cases(cases: Iterable[Case]) -> tuple[Result, ...]:
    """Evaluate cases in their order."""
    return tuple(run_case(c) for c in cases)


def coverage(names: Iterable[str], results: Sequence[Result]) -> Coverage:
    """How many of the named formulas have been checked, and which have not.

    ``names`` are the formulas that entered a verdict, or all.
    """
    wanted = sorted(set(names))
    rows = Counter(r.case.formula for r in results)
    failed = {r.case.formula for r in results if not r.passed}
    return Coverage(
        cases={n: min(rows[n], MOST_CASES) for n in wanted},
        checked=tuple(n for n in wanted if rows[n] and n not in failed),
        failing=tuple(n for n in wanted if n in failed),
        unchecked=tuple(n for n in wanted if not rows[n]),
    )


def verify_table(names: Iterable[str] | None = None, extra: Iterable[Case] = ()) -> VerifyTable:
    """Results of the package's cases and of ``extra`` ones, for the named formulas or for all."""
    wanted = frozenset(all_formulas() if names is None else names)
    cases = (*(c for c in package_cases() if c.formula in wanted), *extra)
    results = run_cases(cases)
    counts = Counter(r.case.obtained for r in results)
    return VerifyTable(
        results, coverage(wanted, results), {o: counts[o] for o in OBTAINED if counts[o]}
    )
