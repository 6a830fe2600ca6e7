"""Workings: traced values are the values, nothing loses its origin, the text is the very code."""

import ast
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.driveline.margins import torque_margin
from axlewright.driveline.shares import shaft_torque
from axlewright.mechanics.sizes import bore_of_tube
from axlewright.quantities.algebra import render, straight_line
from axlewright.quantities.estimate import Derived, Estimate, Kinds, Limits, Mixture, Scatter
from axlewright.quantities.formula import greatest, least, tracer
from axlewright.quantities.sampling import Samples
from axlewright.quantities.working import Node, Nominal, Traced, out_of_range, steps, tracing
from axlewright.vehicle.engine import torque_at_speed
from axlewright.vehicle.grip import open_axle_grip
from axlewright.verify.cases import package_cases
from axlewright.verify.formulas import all_formulas

FORMULAS = all_formulas()
LIGHT = settings(max_examples=40, deadline=None)


def known(name, value, dimension="torque", **more):
    leaf = Estimate(name, value, dimension, means=f"the {name}", source="the build file", **more)
    return Nominal().fill(leaf)


# ------------------------------------------------------------------------------- values


def test_traced_values_are_the_untraced_ones():
    for case in package_cases():
        what = FORMULAS[case.formula]
        module = __import__(f"axlewright.{case.formula.rpartition('.')[0]}", fromlist=["x"])
        function = getattr(module, what.function.__name__)
        plain = function(**case.inputs)
        given_ = {
            n: known(n, v, "ratio") if isinstance(v, float) else v for n, v in case.inputs.items()
        }
        with tracing() as watch:
            traced = function(**given_)
        if case.output:
            plain, traced = getattr(plain, case.output), getattr(traced, case.output)
        assert float(traced) == float(plain), case.id
        assert isinstance(traced, Traced)
        assert traced.node.formula is what
        assert list(traced.node.arguments) == list(what.signature.parameters)
        assert watch.used == {what.name: what}
        assert watch.untracked == [], case.id


@pytest.mark.parametrize("system", ["shop", "si"])
def test_every_formula_prints_a_working(system):
    done = set()
    for case in package_cases():
        if case.formula in done:
            continue
        done.add(case.formula)
        what = FORMULAS[case.formula]
        with tracing() as watch:
            result = watch.formula(what, (), dict(case.inputs))
        value = getattr(result, case.output) if case.output else result
        (step,) = steps(value.node, system)
        assert step.title == what.summary
        assert step.source == what.source
        assert step.result
        assert step.lines
        assert "nan" not in step.result


def test_arithmetic_forgets_the_origin_on_purpose():
    made = known("a", 2.0)
    assert isinstance(made, Traced)
    assert not isinstance(made * 2.0, Traced)
    assert made * 2.0 == 4.0


def test_nothing_is_recorded_outside_the_block():
    with tracing() as watch:
        torque_margin(known("c", 3.0), known("d", 2.0))
        assert len(watch.used) == 1
    assert tracer.get() is None
    assert type(torque_margin(3.0, 2.0)) is float
    assert len(watch.used) == 1
    with pytest.raises(RuntimeError), tracing():
        raise RuntimeError
    assert tracer.get() is None


def test_an_untracked_argument_is_reported():
    with tracing() as watch:
        torque_margin(known("c", 3.0), 2.0)
        torque_margin(known("c", 3.0) * 1.0, known("d", 2.0))
        torque_margin(known("c", 3.0), np.float64(2.0))
    assert watch.untracked == [
        "driveline.margins.torque_margin(demand)",
        "driveline.margins.torque_margin(capacity)",
        "driveline.margins.torque_margin(demand)",
    ]


def test_positional_and_named_arguments_are_the_same():
    with tracing() as watch:
        one = torque_margin(known("c", 3.0), known("d", 2.0))
        two = torque_margin(demand=known("d", 2.0), capacity=known("c", 3.0))
    assert one == two == 1.5
    assert list(one.node.arguments) == ["capacity", "demand"]
    assert set(two.node.arguments) == {"capacity", "demand"}
    assert watch.untracked == []


# ------------------------------------------------------------------------------- choices


def test_choice_keeps_the_losing_branch():
    with tracing() as watch:
        value = least(
            "what bounds it", "T", "torque", clutch=known("c", 800.0), grip=known("g", 500.0)
        )
        larger = greatest("most", "T", "torque", one=known("c", 800.0), two=known("g", 500.0))
    assert (value, larger) == (500.0, 800.0)
    assert (value.node.kind, value.node.governs, larger.node.governs) == ("choice", "grip", "one")
    assert list(value.node.arguments) == ["clutch", "grip"]
    assert watch.untracked == []
    lines = steps(value.node, "si")[0].lines
    assert lines == ("· clutch: 800 N·m", "▸ grip: 500 N·m")


def test_choice_reports_an_untracked_branch():
    with tracing() as watch:
        least("what bounds it", "T", "torque", clutch=800.0, grip=known("g", 500.0))
    assert watch.untracked == ["what bounds it(clutch)"]


def test_choice_of_a_missing_number_does_not_fall_over():
    with tracing():
        value = least("x", "T", "torque", a=known("a", math.nan), b=known("b", 1.0))
    assert math.isnan(value)
    assert value.node.governs == ""


@LIGHT
@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=4), st.integers(1, 5))
def test_choices_are_elementwise(values, count):
    branches = {f"b{n}": np.full(count, v) for n, v in enumerate(values)}
    np.testing.assert_array_equal(
        least("x", "T", "torque", **branches), np.full(count, min(values))
    )
    np.testing.assert_array_equal(
        greatest("x", "T", "torque", **branches), np.full(count, max(values))
    )
    with tracing():
        traced = least("x", "T", "torque", **{k: float(v[0]) for k, v in branches.items()})
    assert traced == min(values)


def test_a_choice_of_nothing_is_refused():
    with pytest.raises(ValueError, match="no branch to choose from"):
        least("x", "T", "torque")


# ------------------------------------------------------------------------------- texts


def test_working_of_a_known_formula():
    with tracing():
        margin = torque_margin(
            known("strength", 3000.0, spread=Limits(2800.0, 3300.0), origin="catalogue"),
            shaft_torque(known("ring", 4000.0), known("share", 0.6, "ratio", spread=Scatter(0.05))),
        )
    got = steps(margin.node, "si")
    assert [(s.depth, s.title, s.result) for s in got] == [
        (0, "Torque that the part stands over torque that reaches it.", "1.25"),
        (1, "the strength", "3,000 N·m"),
        (1, "Torque in one axle shaft.", "2,400 N·m"),
        (2, "the ring", "4,000 N·m"),
        (2, "the share", "0.6"),
    ]
    assert got[0].lines == (
        "n = C / D",
        "  = 3,000 / 2,400 = 1.25 (SI)",
        "with C = 3,000 N·m, D = 2,400 N·m",
    )
    assert got[2].lines[0] == "T_1 = T_ring·s_h"
    assert got[1].lines == ("between 2,800 N·m and 3,300 N·m",)
    assert got[1].origin == "catalogue"
    assert got[3].lines == ("exact",)
    assert got[4].lines == ("scatter 5 % (one standard deviation)",)
    assert got[0].source == "definition of a margin (closed form)"


def test_working_in_shop_units():
    with tracing():
        bore = bore_of_tube(
            known("od", 3 * 0.0254, "length"), known("wall", 0.25 * 0.0254, "length")
        )
    assert steps(bore.node)[0].result == "2.5 in"
    assert steps(bore.node)[0].lines[-1] == "with D_o = 3 in, t_w = 0.25 in"


def test_each_step_is_shown_once():
    with tracing():
        ring = known("ring", 4000.0)
        share = known("share", 0.5, "ratio")
        one, two = shaft_torque(ring, share), shaft_torque(ring, share)
        margin = torque_margin(one, two)
    assert [s.title for s in steps(margin.node)].count("the ring") == 1


def test_a_table_says_that_it_was_read():
    speeds, torques = [200.0, 300.0], [400.0, 500.0]
    with tracing():
        value = torque_at_speed(known("n", 250.0, "rotation"), speeds, torques)
    assert value == 450.0
    assert value.node.kind == "lookup"
    assert "read from a table with" in steps(value.node)[0].lines[0]


def test_several_results_each_carry_their_name():
    case = next(c for c in package_cases() if c.formula == "vehicle.grip.open_axle_grip")
    with tracing():
        grip = open_axle_grip(**{n: known(n, v, "ratio") for n, v in case.inputs.items()})
    assert {f: getattr(grip, f).node.output for f in grip._fields} == {f: f for f in grip._fields}
    assert grip.drive_force.node.dimension == "force"


def test_lines_that_are_cut_keep_their_order():
    def body(a, b):
        c = a * b
        return c / (a + c)

    lines = straight_line(body)
    assert [name for name, _ in lines] == ["c", ""]
    assert render(lines[1][1], {"a": "A", "b": "B"}) == "c / (A + c)"


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("a + b * c", "A + B·C"),
        ("(a + b) * c", "(A + B)·C"),
        ("a - (b - c)", "A − (B − C)"),
        ("a - b - c", "A − B − C"),
        ("a / (b * c)", "A / (B·C)"),
        ("a / b * c", "(A / B)·C"),
        ("a * b / c", "A·B / C"),
        ("a / b / c", "A / B / C"),
        ("a / (b / c)", "A / (B / C)"),
        ("-a * b", "−A·B"),
        ("-(a + b)", "−(A + B)"),
        ("(-a) ** 2", "(−A)²"),
        ("-(a**2)", "−A²"),
        ("a ** -2", "A⁻²"),
        ("a ** 0.5", "A^0.5"),
        ("a ** (b + c)", "A^(B + C)"),
        ("(a * b) ** 3", "(A·B)³"),
        ("a ** 2.0", "A²"),
        ("np.sqrt(a)", "√A"),
        ("np.sqrt(a + b)", "√(A + B)"),
        ("np.log(a)", "ln(A)"),
        ("np.pi * a**2 / 4.0", "π·A² / 4"),
        ("np.minimum(a, b)", "min(A, B)"),
        ("np.where(a < b, c, 0.0)[()]", "(C if A < B, else 0)"),
        ("0.577 * a", "0.577·A"),
    ],
)
def test_rendering(code, text):
    tree = ast.parse(code, mode="eval").body
    assert render(tree, {"a": "A", "b": "B", "c": "C"}) == text


def test_bodies_that_are_not_straight_are_refused():
    def looping(a):
        for _ in range(3):
            a = a + 1
        return a

    with pytest.raises(ValueError, match="is not straight"):
        straight_line(looping)
    with pytest.raises(ValueError, match="cannot print"):
        render(ast.parse("[a]", mode="eval").body, {})


# ------------------------------------------------------------------------------- ranges


def test_leaving_a_range_is_a_caution_with_words():
    what = next(
        f for f in FORMULAS.values() if f.name == "mechanics.bevel_factors.gear_dynamic_factor"
    )
    with tracing() as watch:
        inside = watch.formula(what, (known("v", 5.0, "speed"), known("q", 8.0, "ratio")), {})
        outside = watch.formula(what, (known("v", 5.0, "speed"), known("q", 4.0, "ratio")), {})
    assert inside.node.outside == ()
    (said,) = outside.node.outside
    assert said == watch.outside[f"{what.name}(gear_quality)"]
    assert said.startswith("Rise of the tooth load by inaccurate teeth at speed: ")
    assert "is 4, valid 5 to 11: " in said
    assert said in steps(outside.node)[0].lines


@pytest.mark.parametrize(
    ("low", "high", "part"),
    [(1.0, None, "valid at least 1"), (None, 2.0, "valid at most 2"), (1.0, 2.0, "valid 1 to 2")],
)
def test_one_sided_ranges(low, high, part):
    what = FORMULAS["driveline.margins.torque_margin"]
    assert part in out_of_range(what, "ratio", 5.0, low, high)


# ------------------------------------------------------------------------------- leaves


@dataclass(frozen=True)
class Box:
    shaft: Any
    margin: Any = None
    kind: str = "manual"


def test_nominal_and_samples_fill_the_same_tree():
    ring = Estimate("ring", 4000.0, "torque", Limits(3500.0, 4500.0))
    share = Estimate("share", 0.5, "ratio")
    shaft = Derived("shaft", shaft_torque, {"ring_torque": ring, "side_share": share})
    tree = Box((shaft, ring))
    with tracing() as watch:
        nominal = Nominal().tree(tree)
    sampled = Samples(1, 100).tree(tree)
    assert nominal.shaft[0] == 2000.0
    assert nominal.shaft[0].node.arguments["ring_torque"] is nominal.shaft[1].node
    assert np.array_equal(sampled.shaft[0], 0.5 * sampled.shaft[1])
    assert (nominal.kind, watch.untracked) == ("manual", [])


def test_generic_arrays_flow_through_compositions():
    ring = np.linspace(1000.0, 4000.0, 7)
    margins = torque_margin(3000.0, shaft_torque(ring, 0.5))
    assert margins.shape == (7,)
    np.testing.assert_allclose(margins, [torque_margin(3000.0, shaft_torque(r, 0.5)) for r in ring])


def test_an_unknown_kind_keeps_its_other_options():
    options = (Estimate("g", 31.0, "stress"), Estimate("n", 65.0, "stress"))
    leaf = Mixture("iron.strength", Kinds("iron", ("gray", "nodular"), (0.7, 0.3)), options)
    value = Nominal().fill(leaf)
    assert value == 31.0
    assert value.node.kind == "mixture"
    assert value.node.governs == "gray (70 %)"
    assert [type(n) for n in value.node.arguments.values()] == [Node, Node]
    sure = Mixture("iron.strength", Kinds("iron", ("gray", "nodular"), (0.0, 1.0)), options)
    assert Nominal().fill(sure).node.kind == "input"
