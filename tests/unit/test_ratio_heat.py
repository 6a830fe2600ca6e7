"""Heat in the ratio study: the axle's oil at the cruise speed, and the clutch at the line."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.quantities.estimate import Plain
from axlewright.quantities.finding import Finding
from axlewright.quantities.working import Nominal, Traced, steps, tracing
from axlewright.studies import ratio_choice
from axlewright.studies.ratio import ratio_study
from axlewright.studies.ratio_ask import read_ask
from axlewright.studies.ratio_fill import alone, side_by_side
from axlewright.studies.ratio_heat import OIL, axle_shape, heat_numbers
from axlewright.studies.ratio_working import option_nodes
from axlewright.workshop.bench import open_build

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
MPH = 0.44704


@pytest.fixture(scope="module")
def build():
    return open_build(EXAMPLES / "copper-wren-tired.toml")


@pytest.fixture(scope="module")
def report(build):
    return ratio_study(build, read_ask(build, ["41/15, 40/10, 41/9"]), count=80)


def changed(build, **keys):
    text = build.source.text
    for path, value in keys.items():
        text = edit(text, path.replace("__", "."), value)
    return resolve(read_build(text, "changed"))


def oil(build, speed=70.0 * MPH):
    side = alone(build, Plain())
    return float(heat_numbers(side.filled, side.heat, side.driving, speed)[OIL].value)


def test_every_option_has_its_oil_with_a_wide_band(report):
    for o in report.options:
        found = o.findings[OIL]
        assert found.low < found.value < found.high
        assert found.high - found.low > 20.0  # K: the air under a car is a guess
        assert 330.0 < found.value < 430.0
        assert 0.9 < o.findings["axle_passes"].value < 0.98


def test_a_shorter_ratio_runs_warmer_and_spares_the_clutch(report):
    in_order = sorted(report.options, key=lambda o: o.findings["ratio"].value)
    oils = [o.findings[OIL].value for o in in_order]
    heats = [o.findings["clutch_heat"].value for o in in_order]
    assert oils == sorted(oils)
    assert heats == sorted(heats, reverse=True)
    tall, fitted = in_order[0], next(o for o in in_order if o.fitted)
    over = tall.findings["overall_first"].value / fitted.findings["overall_first"].value
    assert heats[0] / fitted.findings["clutch_heat"].value == pytest.approx(over**-2, rel=1e-9)


def test_weather_oil_speed_and_a_known_cooling_are_read(build):
    plain = oil(build)
    assert oil(changed(build, use__hot_day="20 °F")) < plain - 20.0
    assert oil(changed(build, axle__oil_grade="85W-140")) > oil(
        changed(build, axle__oil_grade="75W-90")
    )
    assert (
        oil(changed(build, axle__cooling="40 W/K"))
        < plain
        < oil(changed(build, axle__cooling="9 W/K"))
    )
    assert oil(build, 90.0 * MPH) > plain > oil(build, 45.0 * MPH)


def test_side_by_side_is_each_alone(build):
    ask = read_ask(build, ["40/10"])
    side = side_by_side(build, ask.teeth)
    found = heat_numbers(side.filled, side.heat, side.driving, 31.0)
    fitted = [t.fitted for t in ask.teeth].index(True)
    mine = alone(build, Plain())
    for key, number in heat_numbers(mine.filled, mine.heat, mine.driving, 31.0).items():
        values = np.broadcast_to(found[key].value, (len(ask.teeth),))
        assert values[fitted] == pytest.approx(float(number.value), rel=1e-9)


def test_the_working_ends_at_the_number_and_loses_no_origin(build, report):
    ask = read_ask(build, ["41/15, 40/10, 41/9"])
    option = next(o for o in report.options if o.teeth == "40/10")
    nodes = option_nodes(build, ask, option.name)
    for key in (OIL, "axle_heat", "axle_passes", "oil_warming", "clutch_heat", "clutch_grabs"):
        node = nodes[f"{key}@{option.name}"]
        assert node.value == pytest.approx(option.findings[key].value, rel=1e-9)
    told = [s.title for s in steps(nodes[f"{OIL}@{option.name}"])]
    assert any(t.startswith("Air on the hottest day") for t in told)
    with tracing() as traced:
        side = alone(build, Nominal())
        shape = axle_shape(side.filled.machine, side.heat)
        before = len(traced.untracked)
        speed = side.heat.cooling.prandtl  # any traced float
        heat_numbers(side.filled, side.heat, side.driving, speed)
    assert isinstance(shape.mesh_loss, Traced)
    assert traced.untracked[before:] == []


def test_points_of_a_curve_are_told_in_few_words(build, report):
    ask = read_ask(build, ["41/15, 40/10, 41/9"])
    name = report.options[0].name
    lines = [
        x for s in steps(option_nodes(build, ask, name)[f"held_gear_1@{name}"]) for x in s.lines
    ]
    curve = next(x for x in lines if "points (" in x)
    assert "rpm … " in curve
    assert "Traced" not in curve
    assert "(0." not in curve


def test_an_automatic_has_no_clutch_to_heat():
    build = open_build(EXAMPLES / "tin-pelican-tired.toml")
    side = alone(build, Plain())
    assert "clutch_heat" not in heat_numbers(side.filled, side.heat, side.driving, 30.0)


def slipping(option, **values):
    found = dict(option.findings)
    for key, value in values.items():
        found[key] = Finding(key, key, value, value, value, option.findings[key].dimension)
    return replace(option, findings=found, beaten_by="", beaten="", chosen=False)


def test_a_tall_ratio_is_not_taken_while_another_is_as_quick(report):
    cruise = ratio_choice.cruise_key(report.cruise, len(report.gears))
    wanted = ratio_choice.aims(report.cruise, len(report.gears))
    base = next(o for o in report.options if o.fitted)
    same = {"time_quarter_mile": 13.0, "time_60_ft": 2.0}
    tall = replace(slipping(base, overall_first=8.0, weakest_margin=1.2, gear_margin=1.5,
                            **{cruise: 180.0}, **same), teeth="tall", fitted=False)  # fmt: skip
    short = slipping(base, overall_first=10.0, **same)
    assert ratio_choice.slips_long(tall)
    assert not ratio_choice.beats(tall, short, wanted)
    assert ratio_choice.choose([tall, short], wanted, cruise).teeth == short.teeth
    quick = slipping(tall, time_quarter_mile=12.8)
    assert ratio_choice.choose([quick, short], wanted, cruise).teeth == "tall"
    said = ratio_choice.price_sentence(quick, [quick, short], report.cruise, cruise)
    assert "the clutch slips to" in said
    assert "0.20 s slower" in said


def test_oil_above_what_is_wanted_is_said(report):
    cruise = ratio_choice.cruise_key(report.cruise, len(report.gears))
    cool, warm, hot, ruined = (
        slipping(report.options[0], **{OIL: t}) for t in (390.0, 400.0, 410.0, 425.0)
    )
    assert "strip" not in ratio_choice.price_sentence(cool, [cool], report.cruise, cruise)
    assert "strip" in ratio_choice.price_sentence(warm, [warm], report.cruise, cruise)
    assert "lets it cool" not in ratio_choice.price_sentence(warm, [warm], report.cruise, cruise)
    assert "lets it cool" in ratio_choice.price_sentence(hot, [hot], report.cruise, cruise)
    assert "ruins oil" in ratio_choice.price_sentence(ruined, [ruined], report.cruise, cruise)
