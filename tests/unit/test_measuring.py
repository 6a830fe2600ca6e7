"""Repeats, outliers, networks, suspects: what must hold of them whatever the numbers."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.measuring.distributions import chi_square_beyond, t_factor, t_two_sided
from axlewright.measuring.mistakes import all_bare, bare_flange, rim_lip, whole_inch
from axlewright.measuring.network import Relation, adjust
from axlewright.measuring.outliers import grubbs_limit, stands_apart
from axlewright.measuring.relations import NETWORKS, OLD_AXLE, SOFT, WHEEL, renamed, tube_slope
from axlewright.measuring.repeats import combine
from axlewright.measuring.suspects import explanations, judge, swapped, would_tell

IN = 0.0254
TAPE = IN / 16
HALVES = (Relation("halves make the whole", {"left": 1.0, "right": 1.0, "whole": -1.0}),)


def test_one_reading_keeps_its_own_limits():
    found = combine([10.0], [0.125])
    assert found.value == 10.0
    assert found.half_width == pytest.approx(0.125)
    assert found.uncertainty == pytest.approx(0.125 / math.sqrt(6.0))


def test_repeats_that_agree_narrow_but_never_below_what_is_common_to_all():
    widths = [combine([10.0] * n, [0.125] * n).uncertainty for n in (1, 2, 3, 5, 10, 200)]
    assert widths == sorted(widths, reverse=True)
    common = 0.125 / math.sqrt(12.0)
    assert widths[-1] > common
    assert widths[-1] == pytest.approx(common, rel=0.01)


def test_repeats_that_scatter_widen():
    calm = combine([10.0, 10.02, 9.98], [0.125] * 3)
    wild = combine([10.0, 10.5, 9.5], [0.125] * 3)
    assert wild.uncertainty > 2.0 * calm.uncertainty
    assert wild.scatter == pytest.approx(0.5)


def test_limits_hold_the_truth_about_as_often_as_they_say():
    # readings made as the rule assumes them: half of the variance common, half each time anew
    rng = np.random.default_rng(1)
    single = 0.125 / math.sqrt(6.0) / math.sqrt(2.0)
    held = 0
    for _ in range(2000):
        readings = rng.normal(0.0, single) + rng.normal(0.0, single, 3)
        found = combine(list(readings), [0.125] * 3)
        held += abs(found.value) < 1.96 * found.uncertainty
    assert 0.94 < held / 2000 < 0.985


def test_what_is_rounded_off_is_not_averaged_away():
    mark = 1 / 16
    same = [combine([10.0] * n, [mark] * n, mark).uncertainty for n in (1, 2, 3, 200)]
    assert same == sorted(same, reverse=True)
    # of ±one division half of the variance is rounding, and half of the rest is common as well
    assert same[-1] == pytest.approx(mark / math.sqrt(6.0) * math.sqrt(0.75), rel=0.01)
    fine = [combine([10.0] * n, [mark] * n, mark / 64).uncertainty for n in (1, 3)]
    assert fine[1] < same[2] < fine[0] == same[0]


def test_limits_hold_the_truth_of_what_is_read_to_the_nearest_mark():
    # errors small beside the mark: three readings mostly agree, and are all off alike
    rng = np.random.default_rng(2)
    mark, held = 1 / 16, 0
    for _ in range(2000):
        truth = rng.uniform(0.0, 1.0)
        seen = truth + rng.normal(0.0, 0.012) + rng.normal(0.0, 0.012, 3)
        found = combine([round(s / mark) * mark for s in seen], [mark] * 3, mark)
        held += abs(found.value - truth) < 1.645 * found.uncertainty
    assert 0.88 < held / 2000 < 0.97


def test_one_sixteenth_off_accuses_nobody():
    mark = 1 / 16
    assert combine([10.0, 10.0, 10.0 + mark], [mark] * 3, mark).apart is None
    odd = combine([10.0, 10.0, 10.75], [mark] * 3, mark).apart
    assert odd is not None and odd.number == 3


@given(st.lists(st.floats(-50, 50), min_size=1, max_size=8), st.floats(0.01, 2.0), st.floats(-9, 9))
@settings(max_examples=60, deadline=None)
def test_combining_moves_and_scales_with_the_readings(values, half, by):
    here = combine(values, [half] * len(values))
    moved = combine([v + by for v in values], [half] * len(values))
    twice = combine([2.0 * v for v in values], [2.0 * half] * len(values))
    assert moved.value == pytest.approx(here.value + by, abs=1e-9)
    assert moved.uncertainty == pytest.approx(here.uncertainty, rel=1e-6)
    assert twice.uncertainty == pytest.approx(2.0 * here.uncertainty, rel=1e-9)
    assert combine(values[::-1], [half] * len(values)).uncertainty == pytest.approx(
        here.uncertainty
    )


def test_readings_and_limits_go_together():
    with pytest.raises(ValueError, match="own limits"):
        combine([1.0, 2.0], [0.1])
    with pytest.raises(ValueError, match="own limits"):
        combine([], [])


def test_the_odd_reading_is_named():
    odd = stands_apart([9.875, 9.9375, 9.875, 10.5, 9.9375], 0.02)
    assert odd is not None
    assert odd.number == 4
    assert odd.by == pytest.approx(10.5 - 9.90625)


def test_a_sixteenth_is_nothing_to_a_tape():
    assert stands_apart([9.875, 9.875, 9.875, 9.9375], TAPE / IN / 2) is None
    assert stands_apart([9.875, 9.9375], TAPE / IN / 2) is None
    assert stands_apart([9.875], 0.01) is None


def test_of_two_far_apart_nobody_knows_which():
    apart = stands_apart([9.875, 10.875], 0.02)
    assert apart is not None
    assert (apart.number, apart.by) == (0, 1.0)


def test_distributions_refuse_what_they_cannot():
    with pytest.raises(ValueError, match="degree"):
        t_two_sided(1.0, 0)
    with pytest.raises(ValueError, match="degree"):
        chi_square_beyond(1.0, 0)
    with pytest.raises(ValueError, match="share"):
        t_factor(1.0, 3)
    with pytest.raises(ValueError, match="told apart"):
        grubbs_limit(2)


def test_a_misclosure_goes_to_the_worst_readings():
    adjusted = adjust({"left": (30.0, 0.1), "right": (30.0, 0.2), "whole": (60.6, 0.2)}, HALVES)
    values = dict(zip(adjusted.names, adjusted.values, strict=True))
    assert values["left"] + values["right"] == pytest.approx(values["whole"], abs=1e-12)
    # shares 1:4:4 of the 0.6 that is open
    assert adjusted.corrections == pytest.approx([0.6 / 9, 2.4 / 9, -2.4 / 9])
    assert adjusted.redundancy.sum() == pytest.approx(adjusted.freedom)
    assert adjusted.chi_square == pytest.approx(0.36 / 0.09)
    assert np.all(adjusted.spread < adjusted.uncertainties)


def test_of_one_sum_all_are_alike_suspect():
    verdict = judge(
        adjust({"left": (30.0, 0.1), "right": (30.0, 0.2), "whole": (63.0, 0.2)}, HALVES)
    )
    assert not verdict.agree
    assert set(verdict.suspects) == {"left", "right", "whole"}
    errors = dict(zip(verdict.suspects, verdict.errors, strict=True))
    assert errors == pytest.approx({"left": -3.0, "right": -3.0, "whole": 3.0})


def test_what_nobody_measured_follows():
    adjusted = adjust({"left": (30.0, 0.1), "whole": (61.0, 0.2)}, HALVES)
    assert adjusted.freedom == 0
    assert dict(adjusted.unmeasured["right"]) == pytest.approx({"left": -1.0, "whole": 1.0})
    assert judge(adjusted).agree
    assert set(judge(adjusted).unchecked) == {"left", "whole"}


def test_sums_read_in_full_keep_their_names_and_the_rest_is_taken_together():
    relations = (
        *HALVES,
        Relation("whole by the rails", {"whole": 1.0, "rails": -1.0, "gaps": -1.0}),
        Relation("left by the rails", {"left": 1.0, "half": -1.0, "gaps": -0.5}),
    )
    known = {"left": (30.0, 0.1), "right": (30.2, 0.1), "whole": (60.0, 0.1)}
    more = {"rails": (44.0, 0.1), "half": (22.0, 0.1)}
    adjusted = adjust(known | more, relations)
    assert adjusted.sums == (
        "halves make the whole",
        "whole by the rails and left by the rails",
    )
    values = dict(zip(adjusted.names, adjusted.values, strict=True))
    gaps = sum(share * values[n] for n, share in adjusted.unmeasured["gaps"])
    assert values["whole"] == pytest.approx(values["rails"] + gaps)
    assert values["left"] == pytest.approx(values["half"] + 0.5 * gaps)
    by_sums = adjusted.readings - adjusted.gain @ (adjusted.closing @ adjusted.readings)
    assert by_sums == pytest.approx(adjusted.values, abs=1e-12)


def test_what_has_a_choice_does_not_follow():
    relations = (Relation("three parts", dict.fromkeys(("a", "b", "c"), 1.0) | {"d": -1.0}),)
    assert adjust({"a": (1.0, 0.1), "d": (5.0, 0.1)}, relations).unmeasured == {}


@given(st.lists(st.floats(-0.2, 0.2), min_size=11, max_size=11), st.integers(0, 10**6))
@settings(max_examples=40, deadline=None)
def test_sums_close_and_the_weighed_change_is_least(errors, seed):
    readings = truth(errors)
    adjusted = adjust({**readings, **SOFT}, OLD_AXLE)
    values = dict(zip(adjusted.names, adjusted.values, strict=True))
    for relation in OLD_AXLE:
        if all(n in values for n in relation.shares):
            assert sum(s * values[n] for n, s in relation.shares.items()) == pytest.approx(
                0.0, abs=1e-9
            )
    # any other change that also closes is larger
    _, _, vt = np.linalg.svd(adjusted.closing)
    free = vt[adjusted.freedom :]
    other = adjusted.corrections + np.random.default_rng(seed).normal(size=len(free)) * 0.01 @ free
    here = np.sum((adjusted.corrections / adjusted.uncertainties) ** 2)
    assert here <= np.sum((other / adjusted.uncertainties) ** 2) + 1e-12
    assert here == pytest.approx(adjusted.chi_square, abs=1e-9)
    assert adjusted.redundancy.sum() == pytest.approx(adjusted.freedom)


def truth(errors=(0.0,) * 11, spread=0.05):
    """A car that closes, in inches, with errors added."""
    right = {
        "fit.face_to_face": 60.0, "fit.lip_to_lip": 74.5, "fit.rail_to_rail": 44.0,
        "fit.left.lip": 7.05, "fit.right.lip": 7.45, "fit.left.rail": 8.2, "fit.right.rail": 7.8,
        "fit.left.differential": 30.5, "fit.right.differential": 29.5,
        "fit.left.pinion": 31.0, "fit.right.pinion": 29.0,
    }  # fmt: skip
    return {n: ((v + e) * IN, spread * IN) for (n, v), e in zip(right.items(), errors, strict=True)}


@pytest.mark.parametrize("name", list(truth()))
def test_a_single_blunder_is_found_or_named_among_those_it_cannot_be_told_from(name):
    readings = truth()
    wrong = {**readings, **SOFT, name: (readings[name][0] + 0.75 * IN, 0.05 * IN)}
    verdict = judge(adjust(wrong, OLD_AXLE))
    assert not verdict.agree
    assert name in verdict.suspects
    error = verdict.errors[verdict.suspects.index(name)]
    assert error == pytest.approx(0.75 * IN, rel=1e-6)


def test_a_further_reading_tells_suspects_apart():
    two = {"left": (30.0, 0.1), "right": (30.5, 0.1), "whole": (63.0, 0.1)}
    both = (
        *HALVES,
        Relation("left by the datum", {"left": 1.0, "datum": -1.0, "rail": -1.0}),
        Relation("nothing new", {"whole": 1.0, "other": -1.0, "more": -1.0}),
    )
    known = {**two, "datum": (20.0, 0.1)}
    spreads = {"rail": 0.1, "other": 0.1, "more": 0.1}
    assert would_tell(known, both, ("left", "right"), spreads) == (("rail",),)
    assert would_tell(two, HALVES, ("left", "right"), spreads) == ()


def test_hats_left_off_are_named():
    hat = 0.28 * IN
    readings = {**truth(), **SOFT}
    wrong = {**readings, "fit.left.differential": (30.5 * IN - hat, 0.03 * IN)}
    wrong = {n: (v, min(u, 0.03 * IN) if n not in SOFT else u) for n, (v, u) in wrong.items()}
    assert not judge(adjust(wrong, OLD_AXLE)).agree
    found = explanations(wrong, OLD_AXLE, list(bare_flange(hat)))
    assert found
    assert found[0].names in (("fit.left.differential",), ("fit.right.differential",))
    assert "bare flange" in found[0].what
    assert any(e.names == ("fit.left.differential",) for e in found)


def test_widths_over_the_bare_flanges_are_named():
    hat = 0.31 * IN
    readings = {n: (v, 0.04 * IN) for n, (v, _) in truth().items()} | SOFT
    wrong = readings | {"fit.face_to_face": ((60.0 * IN) - 2.0 * hat, 0.04 * IN)}
    found = explanations(wrong, OLD_AXLE, list(bare_flange(hat)))
    assert found[0].names == ("fit.face_to_face",)
    assert "two hats" in found[0].what


def test_all_readings_from_the_bare_flange_are_named():
    hat = 0.28 * IN
    bare = ("fit.bare_to_bare", "fit.old_hat")
    right = {n: (v, 0.03 * IN) for n, (v, _) in truth().items()} | SOFT
    right |= {bare[0]: (60.0 * IN - 2.0 * hat, 0.03 * IN), bare[1]: (hat, 0.003 * IN)}
    assert judge(adjust(right, OLD_AXLE)).agree
    (every,) = all_bare(hat, right)
    wrong = right | {n: (right[n][0] + by, right[n][1]) for n, by in every.added.items()}
    assert not judge(adjust(wrong, OLD_AXLE)).agree
    found = explanations(wrong, OLD_AXLE, [*bare_flange(hat), every])
    assert any("every reading" in e.what for e in found)
    assert list(all_bare(hat, ["fit.left.lip", "fit.lip_to_lip"])) == []


def test_swapped_sides_are_named():
    readings = {**truth(spread=0.03), **SOFT}
    left, right = readings["fit.left.lip"], readings["fit.right.lip"]
    far = readings | {
        "fit.left.lip": (left[0] - 0.9 * IN, left[1]),
        "fit.right.lip": (right[0] + 0.9 * IN, right[1]),
        "fit.left.rail": (9.1 * IN, 0.03 * IN),
        "fit.right.rail": (6.9 * IN, 0.03 * IN),
    }
    assert judge(adjust(far, OLD_AXLE)).agree
    wrong = far | {"fit.left.lip": far["fit.right.lip"], "fit.right.lip": far["fit.left.lip"]}
    assert not judge(adjust(wrong, OLD_AXLE)).agree
    pairs = (("fit.left.lip", "fit.right.lip"), ("fit.left.pinion", "fit.right.pinion"))
    found = explanations(wrong, OLD_AXLE, swapped(wrong, pairs))
    assert found[0].names == ("fit.left.lip", "fit.right.lip")


def test_half_the_rim_without_its_lip_is_named():
    readings = {
        "wheel.backspace": (5.0 * IN, 0.03 * IN), "wheel.offset": (0.5 * IN, 0.01 * IN),
        "wheel.rim_width": (9.0 * IN, 0.03 * IN), "wheel.lip_width": (0.5 * IN, 0.03 * IN),
    }  # fmt: skip
    assert not judge(adjust(readings, WHEEL)).agree
    found = explanations(readings, WHEEL, list(rim_lip(0.5 * IN)))
    assert {e.names for e in found} >= {("wheel.offset",), ("wheel.backspace",)}


def test_a_whole_inch_is_named():
    readings = {**truth(), **SOFT}
    wrong = readings | {"fit.lip_to_lip": (75.5 * IN, 0.05 * IN)}
    found = explanations(wrong, OLD_AXLE, list(whole_inch(readings)))
    assert found[0].names == ("fit.lip_to_lip",)


def test_good_readings_are_seldom_called_contradictory():
    rng = np.random.default_rng(7)
    called = sum(
        not judge(adjust({**truth(rng.normal(0.0, 0.05, 11)), **SOFT}, OLD_AXLE)).agree
        for _ in range(400)
    )
    assert called / 400 < 0.03


def test_the_tube_and_its_joints():
    # 54 in at 3 degrees rise 2.826 in
    slope = math.radians(3.0)
    relation = tube_slope(slope, 54.0)
    shares = relation.shares
    rise = 54.0 * math.sin(slope)
    left = (
        shares["angles.gearbox_height"] * (10.0 + rise)
        + shares["angles.pinion_height"] * 10.0
        + shares["angles.joint_to_joint"] * 54.0
        + shares["angles.driveshaft"] * slope
        + relation.constant
    )
    assert left == pytest.approx(0.0, abs=1e-12)


def test_shafts_and_hats_lie_about_the_middle_of_the_faces():
    # faces 30 and 28 from the pin, hats 0.3 and 0.2, gap 1: the pin lies 1 right of the middle
    relation = next(r for r in NETWORKS["new axle"] if r.name.startswith("shafts with"))
    car = {
        "centre.left_shaft": 30.0 - 0.3 - 0.5, "centre.right_shaft": 28.0 - 0.2 - 0.5,
        "ends.left.hat": 0.3, "ends.right.hat": 0.2, "centre.differential_left": -1.0,
    }  # fmt: skip
    assert sum(s * car[n] for n, s in relation.shares.items()) == pytest.approx(0.0, abs=1e-12)
    alike = renamed(relation, {"ends.left.hat": "ends.hat", "ends.right.hat": "ends.hat"})
    assert set(alike.shares) == {
        "centre.left_shaft", "centre.right_shaft", "centre.differential_left",
    }  # fmt: skip


def test_both_ends_read_once_count_twice():
    relation = next(r for r in NETWORKS["new axle"] if "ends.left.hat" in r.shares)
    once = renamed(relation, {"ends.left.hat": "ends.hat", "ends.right.hat": "ends.hat"})
    assert once.shares["ends.hat"] == 2.0
