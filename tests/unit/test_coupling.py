"""Clutch and converter sizing: what holds, what slips first, where it stalls."""

import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.studies.coupling import coupling_study
from axlewright.vehicle.engine import torque_at_speed

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
import launch_study_builds as builds  # noqa: E402


def report(text=builds.MANUAL, **changes):
    return coupling_study(builds.build(text, **changes), 1, 400).report


def values(made):
    return {f.id.removeprefix("coupling."): f for f in made.findings}


def weak(capacity):
    return builds.MANUAL.replace("620 ± 60 lbf*ft", capacity)


def test_a_clutch_of_known_capacity_holds_by_its_margin():
    found = values(report())
    assert found["hold"].value == pytest.approx(620 / 420, rel=1e-9)
    assert found["hold"].low < found["hold"].value < found["hold"].high
    assert found["catch"].value < found["hold"].value
    assert found["struck"].value > found["capacity"].value


@pytest.mark.parametrize(
    ("capacity", "likely", "words"),
    [("900 lbf*ft", "unlikely", "holds:"), ("430 ± 30 lbf*ft", "possible", "may slip"),
     ("380 lbf*ft", "likely", "will likely slip")],
)  # fmt: skip
def test_whether_it_slips_follows_from_its_capacity(capacity, likely, words):
    made = report(weak(capacity))
    assert made.slips == likely
    assert words in made.sentence


def test_a_clutch_that_holds_only_while_it_sticks_is_told_apart():
    made = report(weak("440 lbf*ft"))
    found = values(made)
    assert found["hold"].value > 1.0 > found["catch"].value
    assert "goes on sliding until you lift" in made.sentence
    assert "goes on sliding" not in report(weak("900 lbf*ft")).sentence


def test_what_gives_first_is_the_least_limit_in_every_gear():
    made = report()
    assert [g.gear for g in made.gears] == [1, 2, 3, 4]
    for gear in made.gears:
        assert set(gear.limits) == {"engine", "clutch", "tires"}
        least = min(gear.limits, key=lambda k: gear.limits[k].value)
        assert gear.first == least
        assert sum(gear.shares.values()) == pytest.approx(1.0)
    engine = [g.limits["engine"].value for g in made.gears]
    assert engine == sorted(engine, reverse=True)
    assert len({g.limits["tires"].value for g in made.gears}) == 1
    assert made.gears[0].first == "tires"
    assert made.gears[-1].first == "engine"


def test_a_stronger_axle_makes_the_clutch_a_fuse():
    small = values(report(**{'"8.8"': '"7.5"'}))["fuse"].value
    large = values(report(**{'"8.8"': '"9.75"'}))["fuse"].value
    assert large >= small


def test_both_can_not_always_be_had():
    assert any(
        "Both cannot be had" in a for a in report(**{'"8.8"': '"7.5"', "420 lbf": "620 lbf"}).advice
    )
    strong = report(**{'"8.8"': '"9.75"', "420 lbf": "120 lbf"})
    assert not any("Both cannot be had" in a for a in strong.advice)


def test_an_automatic_is_asked_for_what_its_converter_hands_on():
    found = values(report(builds.AUTOMATIC))
    handed = found["stall_out"].value
    assert found["hold"].value == pytest.approx(found["capacity"].value / handed)
    assert handed > 1.5 * found["stall_torque"].value
    made = report(builds.AUTOMATIC)
    assert set(made.gears[0].limits) == {"engine", "inner clutches", "tires"}
    assert made.kind == "converter"
    first, second = made.gears[0].limits["engine"].value, made.gears[1].limits["engine"].value
    assert first > 1.5 * second * (1.48 / 2.48)
    assert "The converter stalls near" in made.sentence


def test_the_stated_stall_is_met_behind_this_engine():
    """At the stall the engine makes just what the pump takes: the stated stall itself."""
    build = builds.build(builds.AUTOMATIC)
    found = values(coupling_study(build, 1, 200).report)
    assert found["stall"].value == pytest.approx(2600 * 2 * np.pi / 60, rel=1e-3)
    from axlewright.quantities.estimate import Plain

    curve = Plain().tree(build.launching).curve
    made = torque_at_speed(found["stall"].value, np.array(curve.speeds), np.array(curve.torques))
    assert found["stall_torque"].value == pytest.approx(float(made))


@pytest.mark.parametrize("text", [builds.MANUAL, builds.AUTOMATIC])
def test_every_number_opens(text):
    study = coupling_study(builds.build(text), 1, 100)
    ids = {f.id for f in study.report.findings}
    ids |= {f.id for g in study.report.gears for f in g.limits.values()}
    exact = {i for i in ids if i not in study.nodes}
    assert exact <= {"coupling.stall"}, exact


def test_a_seed_gives_the_same_answer_again():
    assert report() == report()
