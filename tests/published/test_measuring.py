"""Measuring against others' numbers: worked examples of metrology and surveying, and SciPy."""

import math

import numpy as np
import pytest
from scipy import stats

from axlewright.measuring.distributions import (
    chi_square_beyond,
    chi_square_limit,
    t_factor,
    t_two_sided,
)
from axlewright.measuring.network import Relation, adjust
from axlewright.measuring.outliers import grubbs_limit, grubbs_statistic
from axlewright.measuring.repeats import combine
from axlewright.measuring.suspects import judge
from axlewright.measuring.uncertainty import combined_uncertainty, mean_uncertainty


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 5, 7, 10, 16, 29, 60])
def test_distributions_are_those_of_scipy(freedom):
    for x in (0.05, 0.4, 1.0, 2.3, 6.0, 25.0):
        assert t_two_sided(x, freedom) == pytest.approx(2 * stats.t.cdf(x, freedom) - 1, abs=1e-13)
        assert chi_square_beyond(x, freedom) == pytest.approx(stats.chi2.sf(x, freedom), abs=1e-13)
    for share in (0.5, 0.9, 0.95, 0.99, 0.999):
        assert t_factor(share, freedom) == pytest.approx(stats.t.ppf(0.5 + share / 2, freedom))
        assert chi_square_limit(share, freedom) == pytest.approx(stats.chi2.ppf(share, freedom))


def test_coverage_factor_of_the_end_gauge():
    # JCGM 100:2008, annex H.1 (as reproduced in public code): t_99(16) = 2.92
    assert t_factor(0.99, 16) == pytest.approx(2.92, abs=0.005)


def test_budget_of_the_end_gauge():
    # JCGM 100:2008, annex H.1 (as reproduced in public code): 13 nm pooled, five readings; 5.8,
    # 3.9 and 6.7 nm make 9.7 nm; with 25, 2.9 and 16.6 nm the combined variance is 1002 nm²
    scatter = mean_uncertainty(13.0, 5.0)
    assert scatter == pytest.approx(5.8, abs=0.05)
    comparison = combined_uncertainty(combined_uncertainty(scatter, 3.9), 6.7)
    assert comparison == pytest.approx(9.7, abs=0.05)
    rest = combined_uncertainty(combined_uncertainty(25.0, 2.9), 16.6)
    total = combined_uncertainty(comparison, rest)
    assert total**2 == pytest.approx(1002.0, rel=2e-3)


@pytest.mark.parametrize(("middle", "rest"), [(1.2, 0.1), (1000000.2, 0.1), (10000000.2, 0.1)])
def test_mean_and_scatter_keep_their_digits(middle, rest):
    # NIST StRD, NumAcc2 to NumAcc4 (rule of the data and certified values from memory): 1001
    # readings, the first in the middle, the rest a tenth below and above in turn; the standard
    # deviation is 0.1
    readings = [middle, *([middle - rest, middle + rest] * 500)]
    found = combine(readings, [1.0] * 1001)
    assert found.value == pytest.approx(middle, rel=1e-15)
    assert found.scatter == pytest.approx(0.1, rel=1e-8)


URANIUM = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]
"""NIST/SEMATECH e-Handbook, 1.3.5.17.1 (as reproduced in public code): mass spectrometer."""


def test_grubbs_of_the_handbook():
    number, distance = grubbs_statistic(URANIUM)
    assert number == 7
    assert distance == pytest.approx(2.4687, abs=1e-4)
    assert grubbs_limit(8, sides=1) == pytest.approx(2.032, abs=5e-4)
    assert distance > grubbs_limit(8)


def test_grubbs_limits_of_the_tables():
    # printed tables at 5 %, two-sided and one-sided (as reproduced in public code)
    two = {3: 1.155, 4: 1.481, 5: 1.715, 6: 1.887, 7: 2.020, 8: 2.126, 9: 2.215, 10: 2.290}
    one = {3: 1.1531, 4: 1.4625, 5: 1.6714, 6: 1.8221, 7: 1.9381, 9: 2.1096, 12: 2.2850, 20: 2.5566}
    for count, limit in two.items():
        assert grubbs_limit(count) == pytest.approx(limit, abs=1.1e-3)
    for count, limit in one.items():
        assert grubbs_limit(count, sides=1) == pytest.approx(limit, abs=1.1e-3)


LEVELS = [
    ("1a", "4", -1.22500), ("4", "3", -0.84800), ("3", "2", 1.34200), ("2", "1a", 0.72000),
    ("1a", "2", -0.72400), ("2", "3", -1.33500), ("3", "4", 0.84200), ("4", "1a", 1.23100),
]  # fmt: skip
"""Levels run forward and back round four points; a public sample of a free network adjuster."""


def leveled(spread=5.0):
    """Readings in mm and the relations between them and the heights, 1a being zero."""
    readings = {f"run {n}": (1000.0 * dz, spread) for n, (_, _, dz) in enumerate(LEVELS, 1)}
    relations = []
    for n, (start, end, _) in enumerate(LEVELS, 1):
        shares = {f"run {n}": -1.0}
        shares |= {end: 1.0} if end != "1a" else {}
        shares |= {start: -1.0} if start != "1a" else {}
        relations.append(Relation(f"run {n}", shares))
    return readings, relations


def test_level_network_of_the_public_sample():
    # printed there: adjusted runs, standard deviation 3.1 mm each, [pvv] 1.46625e+002 with 5
    # degrees of freedom (a priori 5.00, a posteriori 5.42), heights 998.77513, 997.93325,
    # 999.27487 from 1000, largest normalized residual 1.68 at run 6, not above 1.96
    adjusted = adjust(*leveled())
    printed = [-1224.88, -841.87, 1341.63, 725.13, -725.13, -1341.63, 841.87, 1224.88]
    assert adjusted.values == pytest.approx(printed, abs=0.006)
    assert adjusted.spread == pytest.approx([3.1] * 8, abs=0.05)
    assert adjusted.freedom == 5
    assert adjusted.chi_square * 25.0 == pytest.approx(146.625, abs=5e-3)
    assert 5.0 * math.sqrt(adjusted.chi_square / 5) == pytest.approx(5.42, abs=5e-3)
    verdict = judge(adjusted)
    assert verdict.agree
    assert verdict.worst == pytest.approx(1.68, abs=5e-3)
    assert np.argmax(np.abs(adjusted.normalized)) == 5
    values = dict(zip(adjusted.names, adjusted.values, strict=True))
    heights = {
        name: 1000.0 + sum(share * values[n] for n, share in parts) / 1000.0
        for name, parts in adjusted.unmeasured.items()
    }
    assert heights == pytest.approx({"4": 998.77513, "3": 997.93325, "2": 999.27487}, abs=6e-6)


WEIGHED = [6.345, 4.235, 3.060, 0.920, 3.895, 2.410, 4.820]
DISTANCES = [1.7, 2.5, 1.0, 3.8, 1.7, 1.2, 1.5]
"""Height differences and run lengths of a lecture's level network (read; its answer was not)."""


def test_weighed_network_is_that_of_weighed_least_squares():
    # three unknown points between two fixed ones: the lines of any such net with these numbers
    fixed = 2.125
    ends = [("A", "X"), ("Y", "X"), ("Z", "B"), ("Z", "Y"), ("A", "Y"), ("Y", "B"), ("Z", "X")]
    points = ["X", "Y", "Z"]
    design = np.zeros((7, 3))
    target = np.array(WEIGHED)
    readings, relations = {}, []
    for n, (start, end) in enumerate(ends):
        readings[f"l{n}"] = (WEIGHED[n], math.sqrt(DISTANCES[n]))
        shares, constant = {f"l{n}": -1.0}, 0.0
        for name, sign in ((end, 1.0), (start, -1.0)):
            if name in points:
                shares[name] = sign
                design[n, points.index(name)] = sign
            elif name == "B":
                constant += sign * fixed
                target[n] -= sign * fixed
        relations.append(Relation(f"l{n}", shares, constant))
    weight = 1.0 / np.sqrt(DISTANCES)
    solved, square, rank, _ = np.linalg.lstsq(design * weight[:, None], target * weight)
    adjusted = adjust(readings, relations)
    assert adjusted.freedom == 7 - rank
    assert adjusted.chi_square == pytest.approx(square[0], rel=1e-9)
    residuals = design @ solved - target
    assert adjusted.corrections == pytest.approx(residuals, abs=1e-9)
    hat = np.linalg.inv((design.T * weight**2) @ design)
    spread = np.sqrt(np.diag(design @ hat @ design.T))
    assert adjusted.spread == pytest.approx(spread, rel=1e-9)
