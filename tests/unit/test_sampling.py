"""Samples: draws keyed by name, spreads against SciPy, mixtures by weight."""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from axlewright.quantities.estimate import (
    EXACT,
    Derived,
    Estimate,
    Kinds,
    Limits,
    Mixture,
    Scatter,
    leaves,
)
from axlewright.quantities.finding import band, likelihood
from axlewright.quantities.normal import normal_quantile
from axlewright.quantities.sampling import Samples, uniforms

LIGHT = settings(max_examples=40, deadline=None)
U = np.linspace(0.0005, 0.9995, 1999)


def limits(path, low, value, high, **more):
    return Estimate(path, value, "length", Limits(low, high), **more)


# ------------------------------------------------------------------------------- draws


def test_a_draw_depends_on_name_and_seed_alone():
    one = uniforms("axle.tube_wall", 1, 500)
    assert np.array_equal(one, uniforms("axle.tube_wall", 1, 500))
    assert not np.array_equal(one, uniforms("axle.tube_wall", 2, 500))
    assert not np.array_equal(one, uniforms("axle.tube_wal", 1, 500))
    assert not np.array_equal(one, uniforms("1:axle.tube_wall", 1, 500))
    assert one.min() >= 0.0
    assert one.max() < 1.0


@LIGHT
@given(st.text(max_size=20), st.integers(0, 2**40), st.lists(st.integers(1, 60), max_size=6))
def test_chunks_continue_the_same_stream(name, seed, sizes):
    whole = uniforms(name, seed, sum(sizes))
    start, parts = 0, [np.empty(0)]
    for size in sizes:
        parts.append(uniforms(name, seed, size, start))
        start += size
    assert np.array_equal(np.concatenate(parts), whole)


def test_names_give_independent_uniform_draws():
    draws = np.array([uniforms(f"input.{n}", 3, 4000) for n in range(12)])
    for row in draws:
        assert stats.kstest(row, "uniform").pvalue > 1e-4
    correlation = np.corrcoef(draws) - np.eye(12)
    assert np.abs(correlation).max() < 5 / math.sqrt(4000)


@dataclass(frozen=True)
class Part:
    size: Any
    other: Any = None
    third: Any = None


A = limits("a", 1.0, 2.0, 4.0)
B = limits("b", 5.0, 6.0, 7.0)


def test_adding_an_input_shifts_nobody():
    before = Samples(1, 200).tree(Part(A))
    after = Samples(1, 200).tree(Part(B, A, limits("c", 0, 1, 2)))
    assert np.array_equal(before.size, after.other)


def test_chunks_of_a_whole_tree_agree():
    tree = Part(A, (B, {"x": Mixture("m", Kinds("k", ("p", "q"), (0.3, 0.7)), (A, B))}), "text")
    whole = Samples(5, 90).tree(tree)
    first, last = Samples(5, 40).tree(tree), Samples(5, 50, start=40).tree(tree)
    assert np.array_equal(np.concatenate([first.size, last.size]), whole.size)
    mixed = np.concatenate([first.other[1]["x"], last.other[1]["x"]])
    assert np.array_equal(mixed, whole.other[1]["x"])
    assert whole.third == "text"


def test_shared_identity_moves_together_and_separate_parts_scatter_apart():
    left = Estimate("left.strength", 1.0, "ratio", Scatter(0.05), identity="bar")
    right = Estimate("right.strength", 2.0, "ratio", Scatter(0.05), identity="bar")
    apart = Estimate("other.strength", 1.0, "ratio", Scatter(0.05))
    done = Samples(1, 2000).tree(Part(left, right, apart))
    assert np.allclose(2.0 * done.size, done.other)
    assert abs(np.corrcoef(done.size, done.third)[0, 1]) < 0.1
    assert (left.draw, apart.draw) == ("bar", "other.strength")


def test_exact_values_stay_floats():
    done = Samples(1, 10).tree(Part(Estimate("n", 5.0, "count", EXACT)))
    assert done.size == 5.0
    assert isinstance(done.size, float)


# ------------------------------------------------------------------------------- spreads


@pytest.mark.parametrize("value", [1.0, 1.7, 3.0, 4.0])
def test_limits_are_triangular(value):
    low, high = 1.0, 4.0
    oracle = stats.triang((value - low) / (high - low), loc=low, scale=high - low)
    np.testing.assert_allclose(Limits(low, high).at(value, U), oracle.ppf(U), rtol=1e-9)


@LIGHT
@given(st.floats(-100, 100), st.floats(0, 50), st.floats(0, 1))
def test_limits_are_never_left(low, width, place):
    value = low + place * width
    drawn = Limits(low, low + width).at(value, np.array([0.0, 0.3, 0.5, 0.9, 1 - 1e-16]))
    assert np.all(np.diff(drawn) >= -1e-9)
    assert drawn.min() >= low - 1e-9
    assert drawn.max() <= low + width + 1e-9


def test_a_value_outside_its_limits_is_drawn_to_the_nearer_one():
    inside = Limits(1.0, 4.0).at(9.0, U)
    np.testing.assert_allclose(inside, Limits(1.0, 4.0).at(4.0, U))


def test_scatter_is_lognormal():
    oracle = stats.lognorm(s=0.08, scale=50.0)
    inner = U[(U > 0.005) & (U < 0.995)]
    np.testing.assert_allclose(Scatter(0.08).at(50.0, inner), oracle.ppf(inner), rtol=1e-4)
    ends = Scatter(0.08).at(50.0, np.array([0.0, 1 - 1e-16]))
    np.testing.assert_allclose(ends, 50.0 * np.exp([-0.28, 0.28]))


def test_median_of_a_scatter_is_its_value():
    drawn = Samples(1, 20000).estimate(Estimate("s", 7.0, "stress", Scatter(0.1)))
    assert np.median(drawn) == pytest.approx(7.0, rel=5e-3)
    assert np.std(np.log(drawn)) == pytest.approx(0.1, rel=2e-2)


@pytest.mark.parametrize("by", [2.0, 0.1, -3.0])
def test_scaling_scales_every_sample(by):
    if by > 0:
        np.testing.assert_allclose(
            Scatter(0.1).scaled(by).at(by * 5, U), by * Scatter(0.1).at(5, U)
        )
        np.testing.assert_allclose(
            Limits(1, 4).scaled(by).at(by * 2, U), by * Limits(1, 4).at(2, U)
        )
    scaled = limits("a", 1.0, 2.0, 4.0).times(by, "b")
    assert (scaled.path, scaled.value) == ("b", 2.0 * by)
    assert sorted((by, 4.0 * by)) == [scaled.spread.low, scaled.spread.high]
    assert EXACT.scaled(by) is EXACT
    np.testing.assert_array_equal(EXACT.at(3.0, U), np.full_like(U, 3.0))


def test_normal_quantile_against_scipy():
    inner = np.linspace(0.005, 0.995, 4001)
    assert np.abs(normal_quantile(inner) - stats.norm.ppf(inner)).max() < 2e-4
    ends = normal_quantile(np.array([0.0, 1.0 - 1e-16]))
    np.testing.assert_allclose(ends, [-3.84, 3.84], atol=0.01)
    assert np.all(np.diff(normal_quantile(np.linspace(0, 1 - 1e-12, 9999))) > 0)


# ------------------------------------------------------------------------------- mixtures


def test_mixture_follows_its_weights():
    kinds = Kinds("iron", ("gray", "nodular", "steel"), (6.0, 3.0, 1.0))
    options = (
        Estimate("g", 1.0, "ratio"),
        Estimate("n", 2.0, "ratio"),
        Estimate("s", 3.0, "ratio"),
    )
    samples = Samples(1, 20000)
    drawn = samples.fill(Mixture("m", kinds, options))
    shares = [float(np.mean(drawn == v)) for v in (1.0, 2.0, 3.0)]
    assert shares == pytest.approx([0.6, 0.3, 0.1], abs=4 * math.sqrt(0.25 / 20000))
    assert np.array_equal(drawn, samples.kind(kinds) + 1.0)


def test_mixtures_of_one_unknown_agree_in_every_sample():
    kinds = Kinds("iron", ("gray", "nodular"), (0.5, 0.5))
    one = Mixture("one", kinds, (Estimate("a", 1.0, "ratio"), Estimate("b", 2.0, "ratio")))
    two = Mixture("two", kinds, (Estimate("c", 10.0, "ratio"), Estimate("d", 20.0, "ratio")))
    done = Samples(9, 300).tree(Part(one, two))
    assert np.array_equal(10.0 * done.size, done.other)


def test_a_kind_of_no_weight_is_never_drawn():
    kinds = Kinds("iron", ("gray", "nodular"), (0.0, 1.0))
    sampled = Samples(1, 50).fill(Mixture("m", kinds, (A, Estimate("b", 2.0, "ratio"))))
    assert sampled == 2.0
    assert kinds.likeliest == 1


# ------------------------------------------------------------------------------- trees


def test_a_leaf_is_filled_once():
    calls = []

    def product(x, y):
        calls.append(1)
        return x * y

    leaf = Derived("p", product, {"x": A, "y": 2.0})
    done = Samples(1, 20).tree(Part(leaf, (leaf, leaf), A))
    assert len(calls) == 1
    assert np.array_equal(done.size, 2.0 * done.third)
    assert done.other[0] is done.other[1]


def test_leaves_names_every_input_once_in_order():
    kinds = Kinds("k", ("p", "q"), (0.3, 0.7))
    tree = Part(
        Mixture("m", kinds, (A, B)), {"x": Derived("d", max, {"y": limits("c", 0, 1, 2)})}, (A, 3)
    )
    assert list(leaves(tree)) == ["k", "a", "b", "c"]
    assert leaves(tree)["k"] is kinds


# ------------------------------------------------------------------------------- findings


def test_band_is_the_inner_nine_tenths():
    low, high = band(np.arange(1001.0), 500.0)
    assert (low, high) == (50.0, 950.0)
    assert band(3.0, 2.0) == (3.0, 3.0)
    assert band(math.nan, 2.0) == (2.0, 2.0)


@pytest.mark.parametrize(
    ("share", "word"),
    [
        (0.0, "unlikely"),
        (0.049, "unlikely"),
        (0.05, "possible"),
        (0.49, "possible"),
        (0.5, "likely"),
    ],
)
def test_likelihood(share, word):
    assert likelihood(share) == word
