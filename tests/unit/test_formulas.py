"""Every registered formula keeps the rules that the workings, the samples and the docs rely on."""

import ast
import inspect
import re
import textwrap

import numpy as np

from axlewright.quantities.algebra import render, straight_line
from axlewright.quantities.symbols import symbols
from axlewright.quantities.units import DIMENSIONS
from axlewright.verify.cases import outputs_of, package_cases
from axlewright.verify.formulas import all_formulas

FORMULAS = all_formulas()
SYMBOLS = symbols()
CASES = {}
for _case in package_cases():
    CASES.setdefault(_case.formula, []).append(_case)
STRAIGHT = [f for f in FORMULAS.values() if f.kind == "formula"]

NUMPY = {
    "sqrt", "exp", "log", "log10", "sin", "cos", "tan", "arcsin", "arccos", "arctan", "arctan2",
    "abs", "minimum", "maximum", "where", "pi",
}  # fmt: skip
NODES = (
    ast.Constant, ast.Name, ast.Load, ast.BinOp, ast.UnaryOp, ast.Compare, ast.Call, ast.Attribute,
    ast.Subscript, ast.Tuple,
    ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.USub, ast.BitAnd, ast.BitOr,
    ast.Lt, ast.LtE, ast.Gt, ast.GtE, ast.Eq, ast.NotEq,
)  # fmt: skip


def every(formulas=tuple(FORMULAS.values())):  # noqa: B008
    """Hold every formula to a check in one test that names all that fail."""

    def wrapped(check):
        def run():
            faults = []
            for what in formulas:
                try:
                    check(what)
                except AssertionError as e:
                    faults.append(f"{what.name}: {e}")
            assert not faults, "\n".join(faults)

        run.__name__ = check.__name__
        return run

    return wrapped


def tree_of(what):
    return ast.parse(textwrap.dedent(inspect.getsource(what.function))).body[0]


def as_dict(result):
    return result._asdict() if hasattr(result, "_asdict") else {"": result}


def cases_of(what):
    assert what.name in CASES, "has no case"
    return CASES[what.name]


def evaluated(what, inputs):
    with np.errstate(all="ignore"):
        return as_dict(what.function(**inputs))


def test_there_are_formulas():
    assert len(FORMULAS) > 350


# ------------------------------------------------------------------------------- how it is written


@every(STRAIGHT)
def test_body_is_a_straight_line_of_known_operations(what):
    lines = straight_line(what.function)
    assert [name for name, _ in lines].count("") == 1
    assert lines[-1][0] == ""
    module = inspect.getmodule(what.function)
    known = set(what.signature.parameters)
    for name, expression in lines:
        for node in ast.walk(expression):
            assert isinstance(node, NODES), f"{ast.unparse(node)} in {what.name}"
            if isinstance(node, ast.Attribute):
                assert isinstance(node.value, ast.Name), ast.unparse(node)
                assert (node.value.id, node.attr in NUMPY) == ("np", True), ast.unparse(node)
            if isinstance(node, ast.Call):
                assert isinstance(node.func, ast.Attribute), ast.unparse(node)
                assert not node.keywords
            if isinstance(node, ast.Subscript):
                assert ast.unparse(node.slice) == "()", ast.unparse(node)
            if isinstance(node, ast.Name) and node.id not in known and node.id != "np":
                constant = getattr(module, node.id, None)
                assert isinstance(constant, int | float), f"{node.id} in {what.name}"
        known.add(name)


@every(STRAIGHT)
def test_every_argument_and_every_line_is_used(what):
    used = {
        node.id
        for _, expression in straight_line(what.function)
        for node in ast.walk(expression)
        if isinstance(node, ast.Name)
    }
    assert set(what.signature.parameters) <= used
    assert {name for name, _ in straight_line(what.function) if name} <= used


@every(STRAIGHT)
def test_prints_in_symbols_and_in_numbers(what):
    names = {n: what.symbols.get(n) or SYMBOLS[n].symbol for n in what.signature.parameters}
    values = dict.fromkeys(names, "7")
    for _, expression in straight_line(what.function):
        text = render(expression, names)
        assert text
        assert "np." not in text
        assert text.count("(") == text.count(")")
        assert render(expression, values)
    symbol_of = list(names.values())
    assert len(set(symbol_of)) == len(symbol_of), f"{what.name}: two arguments print alike"


@every()
def test_no_formula_calls_another(what):
    scope = what.function.__globals__
    inner = {id(f.function) for f in FORMULAS.values()}
    for node in ast.walk(tree_of(what)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            called = scope.get(node.func.id)
            assert id(getattr(called, "__wrapped__", called)) not in inner, node.func.id


@every()
def test_no_float_casts_and_no_python_loops(what):
    loops = (ast.While, ast.AsyncFor, ast.ListComp, ast.GeneratorExp, ast.SetComp, ast.DictComp)
    for node in ast.walk(tree_of(what)):
        assert not isinstance(node, loops), what.name
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in {"float", "int"}, what.name
        if isinstance(node, ast.For):
            assert re.match(r"range\(|enumerate\(|zip\(", ast.unparse(node.iter)), what.name


# ------------------------------------------------------------------------------- what is said of it


@every()
def test_arguments_stand_in_the_table_of_symbols(what):
    for name in what.signature.parameters:
        assert name in SYMBOLS, f"{what.name}({name})"
    assert what.dimension in DIMENSIONS
    assert what.symbol.strip()
    assert set(what.symbols) <= set(what.signature.parameters)


@every()
def test_results_that_are_several_stand_there_too(what):
    for name in outputs_of(what):
        assert name in SYMBOLS, f"{what.name}.{name}"


@every()
def test_docstring_says_what_it_is(what):
    text = inspect.getdoc(what.function)
    assert text
    first = text.splitlines()[0]
    assert first.endswith(".")
    assert 10 <= len(first) <= 100
    assert first[0].isupper() or not first[0].isalpha()


@every()
def test_source_is_named_and_honest(what):
    assert len(what.source) >= 10
    assert not re.search(
        r"https?:|www\.|/work|/tmp|\b(AI|LLM|prompt|session|methods file|seed|unknown|etc)\b",
        what.source,
    )
    assert what.source.count("(") == what.source.count(")")


@every()
def test_range_names_arguments_and_says_what_leaving_means(what):
    for name, (low, high) in what.valid.items():
        assert name in what.signature.parameters
        assert low is not None or high is not None
        if low is not None and high is not None:
            assert low < high
    if what.valid:
        assert len(what.outside) > 10, f"{what.name} does not say what it means to be outside"


def test_symbols_have_dimensions_and_meanings():
    for name, row in SYMBOLS.items():
        assert row.dimension in DIMENSIONS, name
        assert row.symbol.strip() == row.symbol != "", name
        assert len(row.means) > 2, name
        assert row.means[0].islower() or not row.means[:2].isalpha() or row.means[0].isupper(), name


def test_registry_names_are_module_and_function():
    for name, what in FORMULAS.items():
        assert name == what.name == f"{what.function.__module__}.{what.function.__name__}"[11:]
        assert what.kind in {"formula", "lookup", "solve", "simulation"}


# ------------------------------------------------------------------------------- what it gives


@every()
def test_cases_give_finite_numbers(what):
    for case in cases_of(what):
        for value in evaluated(what, case.inputs).values():
            assert np.all(np.isfinite(value)), case.id
            assert np.ndim(value) == 0, case.id
            assert not isinstance(value, np.ndarray), f"{case.id} gives an array of no dimension"


def _tables(what, case):
    """Inputs that are tables for the formula itself: they are not sampled."""
    return {n for n, v in case.inputs.items() if isinstance(v, np.ndarray | str)}


@every()
def test_arrays_give_what_scalars_give(what):
    for case in cases_of(what):
        fixed = _tables(what, case)
        arrays = {
            n: v if n in fixed else np.full(3, v, dtype=np.float64) for n, v in case.inputs.items()
        }
        single = evaluated(what, case.inputs)
        for field, values in evaluated(what, arrays).items():
            assert np.shape(values) == (3,), case.id
            np.testing.assert_allclose(values, single[field], rtol=1e-13, atol=0.0)


@every()
def test_one_sampled_input_is_enough(what):
    case = cases_of(what)[0]
    single = evaluated(what, case.inputs)
    for name in set(case.inputs) - _tables(what, case):
        mixed = dict(case.inputs) | {name: np.full(2, case.inputs[name])}
        for field, values in evaluated(what, mixed).items():
            full = np.broadcast_to(values, (2,))
            np.testing.assert_allclose(full, single[field], rtol=1e-13, atol=0.0, err_msg=name)


@every()
def test_samples_do_not_touch_each_other(what):
    # Different cases of a formula side by side in one array.
    cases = [c for c in cases_of(what) if not _tables(what, c)]
    if len(cases) < 2 or len({tuple(sorted(c.inputs)) for c in cases}) > 1:
        return
    stacked = {n: np.array([c.inputs[n] for c in cases], dtype=np.float64) for n in cases[0].inputs}
    together = evaluated(what, stacked)
    for n, case in enumerate(cases):
        for field, value in evaluated(what, case.inputs).items():
            np.testing.assert_allclose(together[field][n], value, rtol=1e-12, err_msg=case.id)


@every()
def test_inputs_are_left_as_they_were(what):
    case = cases_of(what)[0]
    given = {n: v if isinstance(v, str) else np.array(v, ndmin=1) for n, v in case.inputs.items()}
    for value in given.values():
        if isinstance(value, np.ndarray):
            value.setflags(write=False)
    assert evaluated(what, given)
