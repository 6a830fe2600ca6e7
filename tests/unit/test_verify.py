"""Reading and running cases: what a reader's own file of cases may say, and what it is told."""

import math

import numpy as np
import pytest

from axlewright.verify.cases import CaseError, package_cases, read_cases
from axlewright.verify.formulas import all_formulas, nearest
from axlewright.verify.run import coverage, run_case, run_cases, verify_table

GOOD = {
    "id": '"mine"',
    "formula": '"mechanics.bolts.joint_constant"',
    "inputs": '{ bolt_stiffness = "6.50 Mlbf/in", member_stiffness = "13.8 Mlbf/in" }',
    "expect": '"0.320"',
    "tolerance": '"0.3 %"',
    "source": '"a book"',
    "obtained": '"read"',
}


def written(**changes):
    rows = {k: v for k, v in (GOOD | changes).items() if v is not None}
    return "[[case]]\n" + "".join(f"{k} = {v}\n" for k, v in rows.items())


def told(text, **options):
    with pytest.raises(CaseError) as caught:
        read_cases(text, "mine.toml", **options)
    return caught.value.problems


def test_a_good_case_reads_and_holds():
    (case,) = read_cases(written(), "mine.toml")
    assert (case.id, case.dimension, case.file, case.line) == ("mine", "ratio", "mine.toml", 1)
    assert (case.tolerance, case.relative) == (pytest.approx(0.003), True)
    assert case.inputs["bolt_stiffness"] == pytest.approx(6.5e6 * 4.4482216152605 / 0.0254)
    result = run_case(case)
    assert result.passed
    assert result.expected == 0.32
    assert result.ours == pytest.approx(6.5 / 20.3)
    assert result.error == pytest.approx(6.5 / 20.3 / 0.32 - 1)


def test_a_wrong_number_does_not_hold():
    (case,) = read_cases(written(expect='"0.33"'), "mine.toml")
    result = run_case(case)
    assert not result.passed
    assert result.relative
    assert result.error == pytest.approx(6.5 / 20.3 / 0.33 - 1)


def test_absolute_tolerance_has_the_unit_of_the_result():
    text = written(
        formula='"mechanics.sizes.bore_of_tube"',
        inputs='{ outer_diameter = "3 in", wall = "1/4 in" }',
        expect='"2.5 in"',
        tolerance='"0.01 mm"',
    )
    (case,) = read_cases(text, "mine.toml")
    assert (case.tolerance, case.relative) == (pytest.approx(1e-5), False)
    assert run_case(case).passed


def test_lists_become_arrays_and_fields_are_picked():
    lists = next(c for c in package_cases() if "speed_points" in c.inputs)
    assert isinstance(lists.inputs["speed_points"], np.ndarray)
    assert lists.inputs["speed_points"].ndim == 1
    picked = next(c for c in package_cases() if c.output == "drive_force")
    assert picked.dimension == "force"
    assert run_case(picked).passed


@pytest.mark.parametrize(
    ("changes", "line", "part"),
    [
        ({"formula": '"mechanics.bolt.joint_constant"'}, 3, "near it: mechanics.bolts.joint_c"),
        ({"formula": '"joint_constants"'}, 3, "near it: mechanics.bolts.joint_constant"),
        ({"formula": '"zzz"'}, 3, "write it like"),
        ({"formula": "3"}, 3, "must be text in quotes"),
        ({"expect": '"0.32 in"'}, 5, "expect: 'in' is no unit of ratio"),
        ({"expect": '"0.32 ± 0.01"'}, 5, "has limits; write one number"),
        ({"expect": '"0"'}, 6, "cannot be relative to zero"),
        ({"tolerance": '"tight"'}, 6, "is no tolerance; write 0.3 %"),
        ({"tolerance": '"0 %"'}, 6, "must be above zero"),
        ({"tolerance": '"0.1 in"'}, 6, "or a percentage for a relative one"),
        ({"obtained": '"guessed"'}, 8, "must be one of read, memory, closed form"),
        ({"source": '""'}, 7, "must be text in quotes, and not empty"),
        ({"source": None}, 1, "source: is missing"),
        ({"sauce": '"x"'}, 9, "sauce: unknown key; did you mean source?"),
        ({"output": '"drive_force"'}, 9, "gives one number; leave output out"),
        ({"inputs": '"none"'}, 4, "must be a table like"),
        ({"inputs": '{ bolt_stiffness = "6.5 Mlbf/in" }'}, 4, "member_stiffness is missing ("),
        (
            {"inputs": '{ bolt_stifness = "1 N/m", member_stiffness = "1 N/m" }'},
            4,
            "did you mean bolt_stiffness?",
        ),
        (
            {"inputs": '{ bolt_stiffness = "1 in", member_stiffness = "1 N/m" }'},
            4,
            "inputs.bolt_stiffness: 'in' is no unit of stiffness",
        ),
        (
            {"inputs": '{ bolt_stiffness = 5, member_stiffness = "1 N/m" }'},
            4,
            "inputs.bolt_stiffness: 5 has no unit",
        ),
    ],
)  # fmt: skip
def test_what_a_reader_is_told(changes, line, part):
    (problem,) = told(written(**changes))
    assert problem.startswith(f"mine.toml:{line}: case 'mine': "), problem
    assert part in problem


def test_every_problem_is_told_at_once():
    text = written(expect='"0.3 in"') + written(id='"other"', source=None) + written(id='"third"')
    assert len(told(text)) == 2


def test_ids_are_unique_within_and_across_files():
    assert "is taken by the case at mine.toml:1" in told(written() + written())[0]
    taken = read_cases(written(), "first.toml")
    assert "is taken by the case at first.toml:1" in told(written(), taken=taken)[0]


def test_output_of_a_formula_that_gives_several():
    several = '"vehicle.grip.open_axle_grip"'
    (problem,) = told(written(formula=several))
    assert "gives several; write one of drive_force" in problem
    (problem,) = told(written(formula=several, output='"thrust"'))
    assert "gives no 'thrust'" in problem


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "holds no case"),
        ("case = 3", "holds no case"),
        ("case = [1]", "must be a table of keys"),
        ('[[cases]]\nid = "a"', "holds only [[case]] tables"),
        ("[[case]]\nid = 5 in", "mine.toml:2: this is no TOML"),
        ("a = " + "[" * 5000, "nested too deep"),
        ("a = " + "1" * 5000, "this is no TOML"),
    ],
)
def test_files_that_are_no_cases(text, part):
    assert part in told(text)[0]


def test_a_formula_that_gives_nothing_is_a_failed_case():
    text = written(
        formula='"driveline.margins.torque_margin"',
        inputs='{ capacity = "1 N*m", demand = "0 N*m" }',
        expect='"1"',
    )
    (case,) = read_cases(text, "mine.toml")
    result = run_case(case)
    assert not result.passed
    assert math.isnan(result.ours)
    assert "gives no number" in result.fault


def test_many_numbers_are_a_failed_case():
    text = written(
        formula='"driveline.margins.torque_margin"',
        inputs='{ capacity = ["1 N*m", "2 N*m"], demand = "1 N*m" }',
        expect='"1"',
    )
    (case,) = read_cases(text, "mine.toml")
    assert "a case needs one" in run_case(case).fault


def test_coverage_counts_formulas_not_rows():
    four = "".join(written(id=f'"case {n}"') for n in range(4))
    results = run_cases(read_cases(four, "mine.toml"))
    got = coverage(["mechanics.bolts.joint_constant", "driveline.margins.torque_margin"], results)
    assert got.cases == {"driveline.margins.torque_margin": 0, "mechanics.bolts.joint_constant": 3}
    assert got.checked == ("mechanics.bolts.joint_constant",)
    assert got.unchecked == ("driveline.margins.torque_margin",)
    assert got.share == 0.5
    assert coverage([], results).share == 1.0


def test_a_failing_case_uncovers_its_formula():
    text = written() + written(id='"wrong"', expect='"0.5"')
    got = coverage(["mechanics.bolts.joint_constant"], run_cases(read_cases(text, "mine.toml")))
    assert got.failing == ("mechanics.bolts.joint_constant",)
    assert got.checked == ()


def test_table_for_the_formulas_of_a_verdict():
    wanted = {"mechanics.bolts.joint_constant", "mechanics.sizes.bore_of_tube"}
    table = verify_table(wanted, extra=read_cases(written(expect='"0.5"'), "mine.toml"))
    assert {r.case.formula for r in table.results} == wanted
    assert [r.case.id for r in table.failed] == ["mine"]
    assert not table.passed
    assert sum(table.obtained.values()) == len(table.results)
    assert table.coverage.checked == ("mechanics.sizes.bore_of_tube",)


def test_nearest_names():
    assert nearest("mechanics.bolts.join_constant")[0] == "mechanics.bolts.joint_constant"
    assert nearest("tubes.bore_of_tube")[0] == "mechanics.sizes.bore_of_tube"
    assert nearest("zzz") == []


def test_all_formulas_are_of_the_package_and_in_order():
    names = list(all_formulas())
    assert names == sorted(names)
    assert {n.partition(".")[0] for n in names} == {
        "mechanics", "vehicle", "driveline", "suspension", "hypoid", "fit", "measuring",
    }  # fmt: skip
