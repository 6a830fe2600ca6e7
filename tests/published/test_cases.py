"""Every case of the package: a number from outside against the formula that ships."""

from collections import Counter

import pytest

from axlewright.verify.cases import package_cases
from axlewright.verify.formulas import all_formulas
from axlewright.verify.run import MOST_CASES, run_case, verify_table

pytestmark = pytest.mark.published


@pytest.mark.parametrize("case", package_cases(), ids=lambda c: c.id)
def test_case(case):
    # The source stands in the case itself.
    result = run_case(case)
    kind = "relative" if case.relative else "SI"
    assert result.passed, (
        f"{case.formula}: {result.ours!r} for {case.expect!r} ({kind} error {result.error:.3g},"
        f" allowed {case.tolerance:.3g}) {result.fault}; {case.source}"
    )


def test_every_formula_is_checked_from_outside():
    table = verify_table()
    assert table.coverage.unchecked == ()
    assert table.coverage.failing == ()
    assert table.coverage.share == 1.0
    assert len(table.coverage.checked) == len(all_formulas())


def test_no_formula_is_counted_more_than_three_times():
    counts = Counter(c.formula for c in package_cases())
    assert max(counts.values()) <= MOST_CASES


def test_cases_are_no_copies_of_each_other():
    seen = {}
    for case in package_cases():
        what = (case.formula, case.output, repr(sorted(case.written["inputs"].items())))
        assert what not in seen, f"{case.id} and {seen[what]} are the same check"
        seen[what] = case.id


def test_tolerances_are_tight():
    # A twentieth is the widest that counts as a check, and few may be wider than a hundredth.
    wide = [c for c in package_cases() if c.relative and c.tolerance > 0.01]
    assert all(c.tolerance <= 0.05 for c in wide)
    assert len(wide) <= len(package_cases()) // 50
    for case in package_cases():
        if not case.relative and case.expect != 0.0:
            assert case.tolerance <= 0.05 * abs(case.expect), case.id
