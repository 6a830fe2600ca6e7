"""Ten invented cars and an invented measurer: a small version of ``scripts/prove_fit.py``."""

import ast
import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.measuring.worksheet import items

HERE = Path(__file__).resolve().parents[1]
if str(HERE) not in sys.path:
    sys.path.insert(0, str(HERE))
cars = importlib.import_module("reference_ten_cars")
measurer = importlib.import_module("reference_measurer")
blunders = importlib.import_module("fit_car_blunders")
trials = importlib.import_module("fit_car_trials")
CARS, HAT = cars.CARS, blunders.HAT
exact, judged, measured = trials.exact, trials.judged, trials.measured
names, objections = trials.names, trials.objections
objections_of, single, spoiled = blunders.objections_of, blunders.single, blunders.spoiled
APART = (
    "reference_fit_cars.py", "reference_fit_motion.py", "reference_ten_cars.py",
    "reference_measurer.py",
)  # fmt: skip
BY_CAMERA = "pinion at rest, in line under pull"


@pytest.mark.parametrize("name", APART)
def test_the_hidden_cars_share_nothing_with_the_program(name):
    tree = ast.parse((HERE / name).read_text(encoding="utf-8"))
    imported = {
        module
        for node in ast.walk(tree)
        for module in (
            [node.module or ""] if isinstance(node, ast.ImportFrom)
            else [a.name for a in node.names] if isinstance(node, ast.Import) else []
        )
    }  # fmt: skip
    assert imported
    assert not any(m.startswith("axlewright") for m in imported)


def test_every_reading_of_the_worksheet_is_taken():
    taken = {
        key.rpartition(".")[0] if key.startswith("points.") else key
        for make in CARS
        for key in exact(make(0))
    }
    for key in items():
        side, _, name = key.rpartition(".")
        either = {key, f"ends.{name}"} if side.startswith("ends.") else {key}
        both = side == "ends" and f"ends.left.{name}" in taken
        not_there_yet = key in {
            "centre.face_to_face", "centre.bare_to_bare", "centre.left_shaft",
            "centre.right_shaft",
        }  # fmt: skip
        assert either & taken or both or not_there_yet, key


def slack(name):
    """What a perfect reading still leaves open, and why."""
    if name == "width to order":
        return 0.09  # the floor rises to one side, and a plumb line hangs true
    if name.startswith(("pinion change", "sideways")):
        return 0.05  # the right side is taken as the left one mirrored, which it is but nearly
    return 0.002


@pytest.mark.parametrize("make", CARS, ids=lambda m: m.__name__.strip("_"))
def test_perfect_readings_give_the_truth(make):
    it = measured(make, 0)
    it = it.with_sheet({key: [value] for key, value in exact(it.car).items()})
    for name, (answer, truth) in judged(it).items():
        assert answer.value == pytest.approx(truth, abs=slack(name)), name


@pytest.fixture(scope="module")
def tries():
    """Two honest tries of each car."""
    return [measured(make, seed) for make in CARS for seed in (7, 8)]


def test_bands_hold_the_truth_and_are_narrow(tries):
    held, halves = {}, {}
    for it in tries:
        for name, (answer, truth) in judged(it, moving=False).items():
            held.setdefault(name, []).append(answer.holds(truth))
            halves.setdefault(name, []).append(answer.half)
    assert np.mean([h for hs in held.values() for h in hs]) > 0.9
    for name, found in held.items():
        assert np.mean(found) >= 0.75, name  # of twenty tries; the proof has two thousand
        most = trials.most_of(name)
        if most is not None and name != BY_CAMERA:
            assert np.mean(halves[name]) < most, name


def test_honest_sheets_are_seldom_called_contradictory(tries):
    called = [any("contradict" in o.said for o in objections(it.build)) for it in tries]
    assert np.mean(called) < 0.15


@pytest.mark.parametrize(
    ("what", "off"),
    [
        ("width over the bare flanges", {"fit.face_to_face": -2 * HAT}),
        ("bare width with the brakes on", {"fit.bare_to_bare": 2 * HAT}),
        ("inner gap from the bare flange", {"fit.left.inner": -HAT}),
        ("cross pin from the bare flange", {"fit.right.differential": -HAT}),
        ("brake space with the hat on", {"ends.left.brake_space": HAT}),
        ("backspace to the bead seat", {"wheel.backspace": -0.5}),
    ],
)
def test_a_wrong_datum_is_caught_and_named(what, off):
    for make in CARS[:3]:
        after = objections_of(spoiled(measured(make, 3), measurer.Blunder(what, off)))
        assert any("contradict" in o.said for o in after)
        assert any(names(after, key) for key in off)


def test_swapped_lips_are_caught_and_named_where_the_axle_is_off_the_middle():
    it = measured(cars.off_middle(0.75), 3)
    left, right = "fit.left.lip", "fit.right.lip"
    assert not any("contradict" in o.said for o in objections(it.build))
    after = objections(it.with_sheet(measurer.swapped(left, right, it.sheet)).build)
    assert any("are swapped" in said for o in after for said in o.explained)
    assert names(after, left)


def test_a_pair_of_halves_that_is_swapped_leaves_every_sum_closed():
    # nothing else tells left from right: known and told, see docs/proof/fit.md
    it = measured(CARS[1], 3)
    pair = ("fit.left.pinion", "fit.right.pinion")
    assert abs(it.sheet[pair[0]][0] - it.sheet[pair[1]][0]) > 1.0
    assert not objections(it.with_sheet(measurer.swapped(*pair, it.sheet)).build)


def test_one_misread_repeat_is_named_with_its_number():
    it = measured(CARS[0], 3)
    wrong = spoiled(it, single("fit.left.lip", 0.75, once=True))
    said = [o.said for o in objections(wrong.build) if o.suspects == ("fit.left.lip",)]
    assert any("reading 1" in s and "take it again" in s for s in said)


def test_a_housing_misread_is_caught_by_its_halves_and_by_nothing_else():
    it = measured(CARS[0], 3)
    wrong = spoiled(it, single("centre.end_to_end", 0.75))
    assert names(objections(wrong.build), "centre.end_to_end")
    halves = ("centre.left_half", "centre.right_half")
    alone = wrong.with_sheet({k: v for k, v in wrong.sheet.items() if k not in halves})
    assert not objections(alone.build)
    unchecked = {k for c in alone.build.fitting.checks for k in c.unchecked}
    assert {"centre.end_to_end", "centre.differential_gap", "centre.differential_left"} <= unchecked


def test_a_body_that_was_pushed_in_is_told():
    found = objections(measured(cars.pushed_side, 3).build)
    assert any("symmetry does not hold" in o.said for o in found)


def cautions(make):
    """What is said of an honestly measured car."""
    return " ".join(measured(make, 3).build.fitting.cautions)


def test_a_sagged_spring_and_a_bent_housing_are_told():
    plain, sagged, bent = (cautions(CARS[n]) for n in (0, 6, 8))
    assert "the body hangs" in sagged and "lower on the left" in sagged
    assert "the left wheel center lies" in bent and "bent" in bent
    for said in (plain, bent):
        assert "the body hangs" not in said
    for said in (plain, sagged):
        assert "wheel center lies" not in said


def test_a_bad_reading_that_is_named_and_taken_again_does_no_harm():
    it = measured(CARS[9], 4)
    wrong = spoiled(it, single("fit.right.inner", 0.8))
    suspects = {k for o in objections(wrong.build) for k in o.suspects}
    assert "fit.right.inner" in suspects
    anew = {k: it.sheet[k] for k in suspects if k in it.sheet}
    mended = wrong.with_sheet(wrong.sheet | anew)
    assert not any("contradict" in o.said for o in objections(mended.build))
    answer, truth = judged(mended, moving=False)["width to order"]
    assert answer.least <= truth <= answer.most
