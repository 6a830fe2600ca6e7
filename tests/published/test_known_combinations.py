"""Combinations that everybody in the trade knows, in generic sizes: a smoke test.

Source of every row: common practice, no source.  A proven combination must not come out broken at
half its usual load; a notorious one must not pass at its usual load.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.driveline.case_loads import pinion_head_lift
from axlewright.studies.load_path import load_path
from axlewright.studies.report import LinkReport, LoadPathReport

pytestmark = pytest.mark.published
SAMPLES = 1000
MANUAL = "[2.97, 2.07, 1.43, 1.0]"
AUTOMATIC = "[2.48, 1.48, 1.0]"
TWO_SPEED = "[1.80, 1.0]"


@dataclass(frozen=True)
class Combination:
    """A car as the trade would describe it in one breath."""

    said: str
    torque: float
    gearbox: str
    ratios: str
    ring_gear: str
    ratio: str
    shaft: str
    differential: str
    tires: str
    launch: str
    surface: str
    weight: float
    axle: str = ""

    def text(self, torque_share: float = 1.0) -> str:
        return f"""format = 1
[car]
weight = "{self.weight} lb"
[engine]
torque = "{self.torque * torque_share} lbf*ft"
[gearbox]
kind = "{self.gearbox}"
ratios = {self.ratios}
[axle]
ring_gear = "{self.ring_gear}"
ratio = "{self.ratio}"
shaft = "{self.shaft}"
differential = "{self.differential}"
{self.axle}
[wheels]
tire = "275/60R15"
grip_class = "{self.tires}"
[use]
launch = "{self.launch}"
surface = "{self.surface}"
"""

    def report(self, torque_share: float = 1.0) -> LoadPathReport:
        built = resolve(read_build(self.text(torque_share)))
        return load_path(built, seed=1, count=SAMPLES).report


CAST_STEEL = 'case_iron = "cast steel"\ncondition = "new"'
NINE = 'case_iron = "nodular"\ncondition = "new"'
PROVEN = [
    Combination("nine-inch removable centre, nodular, 31 alloy, 3.55, helical: 500, heavy car",
                1000, "manual", MANUAL, "9.0", "39/11", "31-spline alloy", "helical",
                "sticky street", "slip", "street", 3800, NINE),
    Combination("the same behind an automatic with 1,000 lb-ft on sticky tires",
                2000, "automatic", AUTOMATIC, "9.0", "39/11", "31-spline alloy", "helical",
                "sticky street", "foot-brake", "street", 3800, NINE),
    Combination("nine-inch, 35 alloy, spool, slicks, trans-brake at 700",
                700, "automatic", TWO_SPEED, "9.0", "41/10", "35-spline alloy", "spool",
                "slick", "trans-brake", "strip", 3000, NINE),
    Combination("nine and a half inch, 40-spline, spool, slicks at 1,200",
                1200, "automatic", TWO_SPEED, "9.5", "41/10", "40-spline 300M-type", "spool",
                "slick", "trans-brake", "strip", 3200, CAST_STEEL),
    Combination("seven and a half inch behind a mild six and an automatic",
                200, "automatic", AUTOMATIC, "7.5", "3.08", "26-spline factory", "open",
                "all-season street", "gentle", "street", 3200),
    Combination("eight and a half inch as delivered behind a mild V8",
                300, "automatic", AUTOMATIC, "8.5", "3.08", "28-spline factory", "open",
                "all-season street", "gentle", "street", 3600),
    Combination("eight-eight with 31 splines in a sporting coupe",
                350, "manual", MANUAL, "8.8", "3.55", "31-spline factory", "clutch",
                "performance street", "slip", "street", 3500),
    Combination("eight and three quarters with 30 splines and a cone differential",
                330, "manual", MANUAL, "8.75", "3.55", "30-spline factory", "cone",
                "performance street", "slip", "street", 3500),
    Combination("nine and three quarters with 35 splines in a working truck",
                400, "automatic", AUTOMATIC, "9.75", "3.73", "35-spline factory", "clutch",
                "all-season street", "foot-brake", "street", 5500),
]  # fmt: skip
NOTORIOUS = [
    Combination("tired ten-bolt integral axle behind a freshly turbocharged V8, first hard drive",
                600, "manual", MANUAL, "8.5", "3.42", "28-spline factory", "worn clutch",
                "sticky street", "dump", "street", 3500, 'condition = "tired"\ncase_iron = "gray"'),
    Combination("smallest ring gear, 26 splines, drag radials, clutch dumped",
                400, "manual", MANUAL, "7.5", "3.73", "26-spline factory", "open",
                "drag radial", "dump", "strip", 3300),
    Combination("28-spline factory shafts with a spool on slicks",
                500, "manual", MANUAL, "8.5", "41/10", "28-spline factory", "spool",
                "slick", "dump", "strip", 3300),
    Combination("eight-two with factory shafts, slicks, clutch dumped",
                400, "manual", MANUAL, "8.2", "3.90", "28-spline factory", "open",
                "slick", "dump", "strip", 3300, 'condition = "tired"'),
    Combination("gray centre behind 800 lb-ft on slicks, clutch dumped",
                800, "manual", MANUAL, "9.0", "41/10", "35-spline alloy", "spool",
                "slick", "dump", "strip", 3400, 'case_iron = "gray"'),
]  # fmt: skip


@pytest.mark.parametrize("combination", PROVEN, ids=lambda c: c.said)
def test_proven_is_not_broken_at_half_its_load(combination: Combination) -> None:
    report = combination.report(torque_share=0.5)
    assert report.verdict.holds, report.verdict.sentence
    assert all(r.breaks.margin.value >= 1.0 for r in report.links if r.breaks)


@pytest.mark.parametrize("combination", NOTORIOUS, ids=lambda c: c.said)
def test_notorious_does_not_pass(combination: Combination) -> None:
    report = combination.report()
    assert not report.verdict.holds, report.verdict.sentence
    assert report.verdict.weakest in {"axle_shaft", "differential", "gear_set", "caps", "case"}


def link(report: LoadPathReport, name: str) -> LinkReport:
    return next(r for r in report.links if r.link == name)


def test_trusted_axle_holds_from_500_to_1000() -> None:
    for torque in (500.0, 750.0, 1000.0):
        trusted = Combination("trusted", torque, "automatic", AUTOMATIC, "9.0", "39/11",
                              "31-spline alloy", "helical", "sticky street", "foot-brake",
                              "street", 3800, NINE)  # fmt: skip
        assert trusted.report().verdict.holds


def test_gray_shatters_where_nodular_gives_and_comes_back() -> None:
    base = NOTORIOUS[4]
    gray = link(base.report(), "case")
    nodular = link(Combination(**{**vars(base), "axle": 'case_iron = "nodular"'}).report(), "case")
    assert gray.breaks is not None
    assert gray.gives is not None
    assert nodular.breaks is not None
    assert nodular.gives is not None
    assert gray.breaks.margin.value == pytest.approx(gray.gives.margin.value)
    assert nodular.breaks.margin.value > 1.2 * nodular.gives.margin.value
    assert nodular.breaks.margin.value > gray.breaks.margin.value


def test_a_stickier_tire_raises_what_the_gears_see() -> None:
    base = PROVEN[0]
    seen = [
        Combination(**{**vars(base), "tires": t}).report().cases[0].torques["ring"].value
        for t in ("all-season street", "performance street", "sticky street", "drag radial")
    ]
    assert seen == sorted(seen)
    assert seen[-1] > seen[0]


def test_load_makes_the_pinion_climb() -> None:
    lift = pinion_head_lift(
        pinion_tangential=33_000.0, pinion_radial=7_200.0, ring_offset_angle=0.1, flank_side=1.0
    )
    assert lift > 0.0
