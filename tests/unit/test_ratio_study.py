"""The ratio study and the run: what is asked, what is told, and that workings agree with it."""

from dataclasses import replace
from pathlib import Path

import pytest

from axlewright.drawing.run_chart import run_chart
from axlewright.drawing.saw_tooth import saw_tooth
from axlewright.drawing.svg import to_svg
from axlewright.quantities.finding import Finding
from axlewright.quantities.working import steps
from axlewright.studies import ratio_choice
from axlewright.studies.load_path import load_path
from axlewright.studies.ratio import ratio_study
from axlewright.studies.ratio_ask import AskError, ask_of, read_ask
from axlewright.studies.ratio_working import option_nodes, option_of
from axlewright.studies.ratio_working import saw_tooth as curves_of
from axlewright.studies.run_down import run_history, run_study
from axlewright.workshop.bench import open_build

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
MPH = 0.44704


@pytest.fixture(scope="module")
def build():
    return open_build(EXAMPLES / "copper-wren-tired.toml")


@pytest.fixture(scope="module")
def ask(build):
    return read_ask(build, ["37/12, 40/10", "41/10"], ["28x10.5-15 drag radial"], ["60 mph"])


@pytest.fixture(scope="module")
def report(build, ask):
    return ratio_study(build, ask, count=60)


def test_what_is_fitted_is_always_among_what_is_compared(ask):
    assert [t.text for t in ask.teeth] == ["37/12", "41/11", "40/10", "41/10"]
    assert [t.fitted for t in ask.teeth] == [False, True, False, False]
    assert [t.text for t in ask.tires] == ["275/60R15", "28x10.5-15 drag radial"]
    assert [(s.key, s.text) for s in ask.speeds] == [("60mph", "60 mph")]


def test_left_out_it_is_the_usual_for_the_ring_gear(build):
    ask = read_ask(build)
    assert len(ask.teeth) > 8
    assert len(ask.tires) == 1
    assert [t.ratio for t in ask.teeth] == sorted(t.ratio for t in ask.teeth)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"ratios": ["4.10"]}, "no pair of teeth"),
        ({"ratios": ["41/0x"]}, "41/11"),
        ({"ratios": ["99/10"]}, "cannot be"),
        ({"ratios": [",".join(f"{r}/9" for r in range(20, 70))]}, "too many"),
        ({"tires": ["banana"]}, "275/60R15"),
        ({"tires": ["275/60R15 square"]}, "grip class"),
        ({"speeds": ["fast"]}, "70 mph"),
        ({"speeds": ["900 mph"]}, "70 mph"),
    ],
)
def test_what_does_not_read_is_refused_in_words(build, asked, said):
    with pytest.raises(AskError, match=said):
        read_ask(build, **asked)


def test_every_option_has_every_number_and_an_id_of_its_own(report):
    assert len(report.options) == 8
    keys = set(report.options[0].findings)
    ids = [f.id for o in report.options for f in o.findings.values()]
    assert len(set(ids)) == len(ids)
    for o in report.options:
        assert set(o.findings) == keys
        for f in o.findings.values():
            assert f.low <= f.high
    assert {"time_60_ft", "time_quarter_mile", "gear_margin", "mesh_60mph", "whip_share"} <= keys


def test_ratios_do_what_ratios_do(report):
    mine = [o.findings for o in report.options if o.tire == "275/60R15"]

    def rising(key):
        values = [f[key].value for f in mine]
        return values == sorted(values)

    assert rising("ratio")
    assert rising("engine_60mph_gear_5")
    assert rising("shaft_60mph")
    drops = {round(f["shift_drop_1"].value, 9) for f in mine}
    assert len(drops) == 1, "the axle ratio does not change the drop"
    gears = [f["limiter_gear_5"].value for f in mine]
    assert gears == sorted(gears, reverse=True)


def test_pairs_are_classed(report):
    kinds = {o.teeth: (o.hunting, o.setting) for o in report.options}
    assert kinds["41/11"][0] == "hunting"
    assert "11 times" in kinds["41/11"][1]
    assert kinds["40/10"][0] == "non-hunting"
    assert "timing marks" in kinds["40/10"][1]


def test_the_working_of_every_number_ends_in_that_number(build, ask, report):
    for option in (report.options[0], report.options[-1]):
        nodes = option_nodes(build, ask, option.name)
        assert set(nodes) == {f.id for f in option.findings.values()}
        for f in option.findings.values():
            assert nodes[f.id].value == pytest.approx(f.value, rel=1e-9), f.id
            assert steps(nodes[f.id])[0].result


def test_a_number_is_found_by_its_id_alone(build, report):
    for key in ("engine_60mph_gear_3", "top_speed"):
        number = report.options[-1].findings[key].id
        found = ask_of(build, number)
        teeth, tire = option_of(found, number.partition("@")[2])
        assert (teeth.text, tire.text) == ("41/10", "28x10.5-15 drag radial")
        assert number in option_nodes(build, found, f"{teeth.text}@{tire.text}")
    with pytest.raises(LookupError, match="nothing@here"):
        option_of(ask_of(build, "top_speed@41/11@275/60R15"), "nothing@here")


def test_the_same_question_has_the_same_answer(build, ask, report):
    assert ratio_study(build, ask, count=60) == report
    other = ratio_study(build, ask, seed=2, count=60)
    assert other.options[0].findings["time_60_ft"].value == pytest.approx(
        report.options[0].findings["time_60_ft"].value, rel=1e-12
    )
    assert other.options[0].findings["time_60_ft"].low != (
        report.options[0].findings["time_60_ft"].low
    )


def test_a_ratio_alone_gives_what_it_gives_among_others(build, ask, report):
    alone = ratio_study(build, replace(ask, teeth=ask.teeth[1:2]), count=60)
    among = next(o for o in report.options if o.fitted)
    for key, f in alone.options[0].findings.items():
        assert f.value == pytest.approx(among.findings[key].value, rel=1e-12), key
        assert f.low == pytest.approx(among.findings[key].low, rel=1e-12), key


# --- what beats what ----------------------------------------------------------------------------


def option(report, **numbers):
    base = report.options[0]
    findings = dict(base.findings)
    for key, value in numbers.items():
        if key in findings:
            findings[key] = Finding(f"{key}@x", "", value, value, value, findings[key].dimension)
    return replace(base, findings=findings, **{k: v for k, v in numbers.items() if k == "teeth"})


def aims(report):
    return ratio_choice.aims(report.cruise, len(report.gears))


def test_the_quicker_and_stronger_beats_and_says_by_what(report):
    one = option(report, teeth="a/1", time_quarter_mile=12.0, weakest_margin=1.2, gear_margin=1.5)
    two = option(report, teeth="b/1", time_quarter_mile=12.3, weakest_margin=1.0, gear_margin=1.2)
    judged = ratio_choice.judged([one, two], aims(report))
    assert [o.beaten_by for o in judged] == ["", "a/1"]
    assert "0.30 s quicker over the quarter mile" in judged[1].beaten
    assert "ring and pinion 1.50 against 1.20" in judged[1].beaten


def test_a_trade_is_no_beating(report):
    one = option(report, teeth="a/1", time_quarter_mile=12.0, gear_margin=1.0)
    two = option(report, teeth="b/1", time_quarter_mile=12.3, gear_margin=1.5)
    assert all(not o.beaten_by for o in ratio_choice.judged([one, two], aims(report)))


def test_what_is_not_worth_saying_neither_beats_nor_saves(report):
    one = option(report, teeth="a/1", time_quarter_mile=12.000, time_60_ft=1.800)
    two = option(report, teeth="b/1", time_quarter_mile=12.004, time_60_ft=1.799)
    assert all(not o.beaten_by for o in ratio_choice.judged([one, two], aims(report)))


def test_none_beats_another_that_beats_it(report):
    wanted = aims(report)
    for a in report.options:
        for b in report.options:
            assert not (ratio_choice.beats(a, b, wanted) and ratio_choice.beats(b, a, wanted))


def test_the_choice_does_not_give_away_a_load_path_that_holds(report):
    cruise = ratio_choice.cruise_key(report.cruise, len(report.gears))
    strong = replace(option(report, teeth="a/1", time_quarter_mile=12.4, weakest_margin=1.1,
                            gear_margin=1.1), fitted=True)  # fmt: skip
    quick = replace(option(report, teeth="b/1", time_quarter_mile=12.0, weakest_margin=0.8,
                           gear_margin=0.8), fitted=False)  # fmt: skip
    chosen = ratio_choice.choose([strong, quick], aims(report), cruise)
    assert chosen.teeth == "a/1"
    said = ratio_choice.choice_sentence(chosen, [strong, quick], report.cruise, cruise)
    assert said.startswith("Stay with a/1")
    assert "0.80" in said


def test_margins_are_never_rounded_across_one():
    assert ratio_choice.margin_words(0.9996) == "0.99"
    assert ratio_choice.margin_words(1.004) == "1.00"


def test_margins_stand_against_closed_form_bounds_and_it_says_so(build, report):
    (fitted,) = (o for o in report.options if o.fitted)
    found = load_path(build, 1, 60).report
    weakest = next(x for x in found.links if x.link == found.verdict.weakest)
    assert fitted.findings["weakest_margin"].value == pytest.approx(weakest.breaks.margin.value)
    assert [c for c in report.cautions if c.startswith("Margins stand against the closed-form")]


def test_one_is_chosen_and_the_sentence_names_it(report):
    chosen = [o for o in report.options if o.chosen]
    assert len(chosen) == 1
    assert chosen[0].teeth in report.sentence
    assert report.sentence.startswith(("Take ", "Stay with "))


# --- pictures and the run -----------------------------------------------------------------------


def test_the_saw_tooth_chart_tells_what_it_shows(build, ask, report):
    curves = curves_of(build, ask, "41/11@275/60R15")
    assert len(curves.gears) == 5
    assert len(curves.shifts) == 4
    fitted = next(o for o in report.options if o.fitted)
    assert curves.top_speed == pytest.approx(fitted.findings["top_speed"].value)
    assert curves.shifts[0][2] == pytest.approx(fitted.findings["after_shift_1"].value)
    svg = to_svg(saw_tooth(curves), "saw")
    assert "1→2" in svg
    assert "the tires spin above this" in svg
    assert "Shift 1 to 2" in svg


def test_a_car_too_weak_for_its_top_gears_still_gets_its_chart(build, ask):
    curves = curves_of(build, ask, "41/11@275/60R15")
    slow = replace(curves, top_speed=30.0 * MPH)
    assert "3→4" not in to_svg(saw_tooth(slow), "saw")


def test_the_run_passes_its_marks_in_order(build):
    report = run_study(build, count=60)
    times = [m.time.value for m in report.marks]
    assert times == sorted(times)
    for m in report.marks:
        assert m.time.low <= m.time.value <= m.time.high
    assert report.sentence.startswith("About ")
    assert report.assumed


def test_the_history_and_the_times_are_of_one_run(build):
    report, history = run_study(build, count=60), run_history(build)
    rollout = dict(history.marks)["1/4 mile"] - report.findings["time_quarter_mile"].value
    assert 0.0 < rollout < 1.0
    svg = to_svg(run_chart(history), "run")
    assert "1/4 mile" in svg


@pytest.mark.parametrize("name", ["tin-pelican-tired", "tin-pelican-upgraded"])
def test_other_builds_have_an_answer(name):
    build = open_build(EXAMPLES / f"{name}.toml")
    report = ratio_study(build, read_ask(build, ["41/11"]), count=50)
    assert report.sentence
    assert 8.0 < report.options[0].findings["time_quarter_mile"].value < 25.0
