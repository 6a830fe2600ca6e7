"""Recall and the fast ways to a verdict: never another result, and never a stale one."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.mechanics.shafts import elastic_torque
from axlewright.quantities import sampling
from axlewright.quantities.estimate import Estimate, Kinds, Limits, Mixture
from axlewright.quantities.finding import band, quantiles
from axlewright.quantities.formula import formula, tracer
from axlewright.quantities.recall import afresh, recalling
from axlewright.quantities.sampling import Samples, uniforms
from axlewright.quantities.watching import watching
from axlewright.studies.load_path import _first_shares, load_path

LIGHT = settings(max_examples=60, deadline=None)
BUILD = """format = 1
name = "Copper Wren"
[car]
weight = "{weight}"
[engine]
torque = "520 lbf*ft"
[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.43, 1.00, 0.80]
[axle]
ring_gear = "8.5"
differential = "{differential}"
[wheels]
tire = "275/60R15"
[use]
launch = "{launch}"
"""
EDITS = (
    {},
    {"weight": "3700 lb"},
    {"weight": "3700 lb", "differential": "open"},
    {"weight": "3700 lb", "launch": "slip"},
    {},
)


@pytest.fixture(autouse=True)
def _start_and_end_without_notes():
    sampling.forget()
    yield
    sampling.forget()


def built(weight="3600 lb", differential="clutch", launch="dump"):
    text = BUILD.format(weight=weight, differential=differential, launch=launch)
    return resolve(read_build(text))


def as_text(study):
    """Every digit of a study: repr of a float is exact."""
    return repr(dataclasses.asdict(study.report)), tuple(study.nodes), study.used, study.untracked


# ------------------------------------------------------------- the same findings, bit for bit


def test_an_edit_gives_what_a_fresh_start_gives():
    fresh = []
    for edit in EDITS:
        sampling.forget()
        fresh.append(as_text(load_path(built(**edit), 3, 500)))
    assert len(set(fresh)) == 4  # the last one is the first again
    sampling.forget()
    load_path(built(), 3, 500)
    for edit, expected in zip(EDITS, fresh, strict=True):
        assert as_text(load_path(built(**edit), 3, 500)) == expected


def test_seed_and_count_are_never_mixed_up():
    build = built()
    fresh = {}
    for seed, count in ((1, 300), (2, 300), (1, 301)):
        sampling.forget()
        fresh[seed, count] = as_text(load_path(build, seed, count))
    sampling.forget()
    for _ in range(3):
        for (seed, count), expected in fresh.items():
            assert as_text(load_path(build, seed, count)) == expected


def test_long_runs_keep_nothing():
    with recalling():
        pass
    long = sampling._KEPT_COUNT + 1
    assert not sampling.kept(long)
    with recalling(sampling.kept(long)) as recall:
        assert recall is afresh


# ------------------------------------------------------------------------------ recall itself


def counted():
    calls = []

    def work(*args):
        calls.append(args)
        return np.add(args[0], args[1])

    return work, calls


def test_the_same_work_is_done_once_and_given_to_the_next_run():
    x, (work, calls) = np.arange(3.0), counted()
    with recalling() as recall:  # the first run of a program passes nothing on
        first = recall("add", work, x, 1.0)
        assert recall("add", work, x, 1.0) is first
    with recalling() as recall:
        second = recall("add", work, x, 1.0)
    with recalling() as recall:
        assert recall("add", work, x, 1.0) is second
    assert len(calls) == 2
    assert np.array_equal(second, x + 1.0)
    with recalling():
        pass
    with recalling() as recall:  # a run that did not use it has let it go
        recall("add", work, x, 1.0)
    assert len(calls) == 3


def test_equal_arguments_that_are_not_the_same_are_told_apart():
    work, calls = counted()
    x = np.arange(3.0)
    cases = [
        (x, 1.0),
        (x.copy(), 1.0),
        (x, 1),
        (x, True),
        (x, np.float64(1.0)),
        (x, 0.0),
        (x, -0.0),
    ]
    with recalling():
        pass
    with recalling() as recall:
        for case in cases:
            recall("add", work, *case)
        recall("another name", work, x, 1.0)
        recall("add", work, x, np.ones(3))
    assert len(calls) == len(cases) + 2


def test_what_cannot_be_told_apart_is_done_each_time():
    work, calls = counted()
    with recalling() as recall:
        for _ in range(2):
            recall("add", lambda row, by: work(row[0], by), (1.0, 2.0), 1.0)
    assert len(calls) == 2


def test_the_first_run_holds_few_results():
    work, calls = counted()
    rows = [np.full(2, float(n)) for n in range(100)]
    with recalling() as recall:
        for row in rows:
            recall("add", work, row, 1.0)
        recall("add", work, rows[-1], 1.0)
        recall("add", work, rows[0], 1.0)
    assert len(calls) == 101


def test_a_noted_result_cannot_be_changed():
    with recalling() as recall:
        noted = recall("add", np.add, np.ones(3), 1.0)
        with pytest.raises(ValueError, match="read-only"):
            noted += 1.0


def test_a_run_that_fails_leaves_the_notes_as_they_were():
    x, (work, calls) = np.arange(3.0), counted()
    with recalling():
        pass
    with recalling() as recall:
        kept = recall("add", work, x, 1.0)
    with pytest.raises(ZeroDivisionError), recalling() as recall:
        recall("divide", lambda by: 1.0 / by, 0.0)
    with recalling() as recall:
        assert recall("add", work, x, 1.0) is kept
    assert len(calls) == 1


def test_a_recalled_formula_says_again_what_left_its_range():
    @formula("x", "ratio", source="test", valid={"overload": (0.0, 1.0)}, outside="too much")
    def twice_the_overload(overload, yield_twist=1.0):
        """Twice the overload."""
        return 2.0 * overload * yield_twist

    x = np.linspace(0.0, 2.0, 11)
    said = []
    for _ in range(3):
        with recalling() as recall, watching(recall) as watched:
            twice_the_overload(x)
            twice_the_overload(overload=x)
        said.append((dict(watched.shares), list(watched.cautions(set()))))
    assert said[0] == said[1] == said[2]
    assert list(said[0][0].values()) == [5 / 11]
    assert "45 % of the samples" in said[0][1][0]


def test_order_of_named_arguments_does_not_matter_to_the_watcher():
    d, tau = np.linspace(0.02, 0.03, 7), np.linspace(4e8, 5e8, 7)
    with watching() as watched:
        mixed = elastic_torque(inner_diameter=0.01, outer_diameter=d, shear_yield=tau)
        assert tracer.get() is watched
    assert np.array_equal(mixed, elastic_torque(tau, d, 0.01))


# -------------------------------------------------------- quick ways against the plain ones


@LIGHT
@given(
    st.floats(-5, 5),
    st.floats(1e-6, 10),
    st.floats(0, 1),
    st.integers(0, 2**32),
    st.integers(1, 70),
)
def test_triangular_samples_are_bit_for_bit_those_of_the_two_branches(low, width, at, seed, count):
    limits, value = Limits(low, low + width), low + at * width
    u = uniforms("u", seed, count)
    span = limits.high - limits.low
    mode = (min(max(value, limits.low), limits.high) - limits.low) / span
    rising, falling = np.sqrt(u * mode), 1.0 - np.sqrt((1.0 - u) * (1.0 - mode))
    assert np.array_equal(
        limits.at(value, u), np.where(u < mode, rising, falling) * span + limits.low
    )


@LIGHT
@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=80))
def test_quantiles_are_numpys(values):
    x = np.array(values)
    before = x.copy()
    for shares in ((0.05, 0.95), (0.0, 0.5, 1.0), (0.25,)):
        assert quantiles(x, shares) == pytest.approx(np.quantile(x, shares), rel=1e-12, abs=1e-9)
    assert np.array_equal(x, before)


def test_quantiles_put_what_is_no_number_last():
    x = np.array([3.0, math.nan, 1.0, 2.0, math.nan])
    assert quantiles(x, (0.0, 0.25)) == [1.0, 2.0]
    assert all(math.isnan(q) for q in quantiles(x, (0.75, 1.0)))
    assert band(np.array([1.0, math.inf, 2.0]), 1.0)[0] == pytest.approx(1.1)


@LIGHT
@given(
    st.lists(st.lists(st.sampled_from([0.5, 1.0, 2.0]), min_size=9, max_size=9), min_size=1,
             max_size=5)
)  # fmt: skip
def test_who_goes_first_is_the_first_of_the_smallest(rows):
    table = np.array(rows)
    first = np.argmin(table, axis=0)
    found = list(_first_shares(list(table), np.min(table, axis=0)))
    assert found == [float(np.mean(first == n)) for n in range(len(rows))]


def test_a_mixture_follows_its_options_when_recalled():
    kinds = Kinds("k", ("a", "b"), (0.5, 0.5))

    def drawn(recall, high):
        options = (Estimate("one", 1.0, "ratio"), Estimate("two", high, "ratio"))
        return Samples(1, 50, recall=recall).fill(Mixture("m", kinds, options))

    for high in (2.0, 2.0, 3.0):
        with recalling() as recall:
            found = drawn(recall, high)
        assert np.array_equal(found, drawn(afresh, high))
        assert set(found) == {1.0, high}
