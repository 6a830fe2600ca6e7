"""The launch study: cases mean what their names say, and its answers move the way they must."""

import sys
from pathlib import Path
from unittest import mock

import numpy as np
import pytest

from axlewright.dynamics.launch import launch_history, launch_peaks
from axlewright.dynamics.launch_start import peak_slip
from axlewright.quantities.estimate import Filler, Plain, leaves
from axlewright.quantities.sampling import Samples
from axlewright.studies import launch_events as setup
from axlewright.studies.influence import measure_next
from axlewright.studies.launch import StoppedError, fill, history_of, launch_study
from axlewright.studies.launch_reads import what_is_read
from axlewright.studies.launch_setup import cases_left_out, launch_cases, may_lift
from axlewright.studies.launch_sweep import sweeps_of
from axlewright.studies.launch_ways import AUTOMATIC, MANUAL, launched
from axlewright.studies.launch_words import WORDS, beyond_bound
from axlewright.studies.run_down import run_study

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
import launch_study_builds as builds  # noqa: E402

FEW = 96
"""A whole number of blocks, so that steps are the same beside more samples."""
BUILDS = {
    **{way: builds.launched(way) for way in (*builds.MANUAL_WAYS, *builds.AUTOMATIC_WAYS)},
    "standing up": builds.build(builds.STANDING_UP),
}
WAYS = tuple(w for w in BUILDS if w != "standing up")


def cases(build):
    filler = Plain()
    found = launch_cases(filler.tree(build.machine), filler.tree(build.launching))
    return {c.case: c for c in found}


def story(build, case):
    one = cases(build)[case]
    return launch_history(one.car, one.events, every=1e-3)


@pytest.fixture(scope="module")
def study():
    return launch_study(BUILDS["dump"], 1, FEW)


# --- what the cases are ------------------------------------------------------------------------


def test_every_case_of_the_trade_is_there():
    every = {case for build in BUILDS.values() for case in cases(build)}
    assert every == set(WORDS)


@pytest.mark.parametrize("name", BUILDS)
def test_no_peak_comes_from_the_start_itself(name):
    """Before anything happens nothing may grow: a start of its own making would show here."""
    for case, one in cases(BUILDS[name]).items():
        told = launch_history(one.car, one.events, every=1e-3)
        at_once = {*builds.MANUAL_WAYS, "neutral drop", "shift"}
        manual = one.car.converter is None or case == "neutral drop"
        lead = setup.LEAD if manual and case in at_once else setup.STEADY
        before = told["axle"][told.time < lead]
        started = max(float(np.asarray(one.events.axle_torque)), 1.0)
        assert before[0] == pytest.approx(started if started > 1.0 else 0.0, rel=1e-6)
        if case in {"re-grip", "water"}:  # wheels that spin gather speed, but smoothly
            assert np.abs(np.diff(before)).max() < 0.04 * told["axle"].max(), (name, case)
        else:
            assert before.max() <= 1.05 * started, (name, case)


@pytest.mark.parametrize("name", ["dump", "foot-brake"])
def test_a_steady_pull_stays_one(name):
    told = story(BUILDS[name], "lift-off")
    before = told["axle"][told.time < setup.STEADY]
    assert np.ptp(before) < 0.03 * before[0]
    assert np.ptp(told["pitch"][told.time < setup.STEADY]) < 1e-3


@pytest.mark.parametrize("way", builds.MANUAL_WAYS)
def test_a_free_engine_holds_its_speed_until_the_clutch_comes_in(way):
    told = story(BUILDS[way], way)
    before = told.time < setup.LEAD
    assert np.ptp(told["engine_speed"][before]) < 0.5
    assert told["axle"][before].max() == 0.0
    assert told["road_speed"][before].max() == 0.0


def test_a_gentle_start_does_not_stall_the_engine():
    told, one = story(BUILDS["gentle"], "gentle"), cases(BUILDS["gentle"])["gentle"]
    opening = told.time < setup.LEAD + one.events.throttle.duration
    lowest = told["engine_speed"][opening].min()
    assert lowest > 0.9 * one.events.engine_speed


def test_a_foot_brake_holds_until_it_is_let_go():
    told = story(BUILDS["foot-brake"], "foot-brake")
    before = told.time < setup.STEADY
    assert np.abs(told["left_speed"][before]).max() < 1e-6
    assert np.ptp(told["axle"][before]) < 1e-3 * told["axle"][0]
    assert told["axle"][0] > 0.0
    assert told["left_brake"][-1] == 0.0
    assert told["road_speed"][-1] > 2.0


def test_nobody_stalls_against_brakes_that_do_not_hold():
    """Stated far above what brakes and tires hold: the start is from what they do hold."""
    strong = builds.build(builds.AUTOMATIC.replace("420 lbf", "900 lbf").replace(
        'burnouts = true', 'burnouts = true\nlaunch_speed = "2500 rpm"'))  # fmt: skip
    one = cases(strong)["foot-brake"]
    assert one.events.engine_speed < 0.95 * strong.machine.engine.launch_speed.value
    assert one.events.axle_torque <= one.events.brakes.before


def test_a_trans_brake_keeps_the_driveline_unwound_until_it_lets_go():
    told = story(BUILDS["trans-brake"], "trans-brake")
    before = told.time < setup.STEADY
    assert np.abs(told["upstream_speed"][before]).max() < 1e-6
    assert np.abs(told["axle"][before]).max() == 0.0
    assert np.ptp(told["engine_speed"][before]) < 1.0
    assert told["axle"].max() > 0.0


def test_a_neutral_drop_stops_the_turbine_by_its_inner_clutch():
    told = story(BUILDS["neutral drop"], "neutral drop")
    assert told["upstream_speed"][0] == pytest.approx(told["engine_speed"][0])
    assert told["input_speed"][0] == 0.0
    turned = told["upstream_speed"]
    assert turned.min() < 0.9 * turned[0]
    stuck = np.abs(told["upstream_speed"] - told["input_speed"])[-50:]
    assert stuck.max() < 0.01 * turned[-1]


@pytest.mark.parametrize(("name", "case"), [("dump", "re-grip"), ("foot-brake", "water")])
def test_wheels_spin_first_and_then_find_grip(name, case):
    told, one = story(BUILDS[name], case), cases(BUILDS[name])[case]
    edge, across = one.events.grip.start, one.events.grip.duration
    before = told.time < edge
    assert told["left_slip"][before].min() > float(peak_slip(one.car))
    on_little = told["left_force"][before].max()
    later = (told.time > edge + across) & (told.time < edge + across + 0.1)
    assert told["left_force"][later].max() > 1.3 * on_little
    assert told["axle"].max() == told["axle"][told.time > edge].max()


def test_a_manual_shift_begins_without_drive_on_the_limiter():
    told, build = story(BUILDS["dump"], "shift"), BUILDS["dump"]
    assert told["axle"][0] == 0.0
    assert told["engine_speed"][0] == pytest.approx(build.machine.engine.rev_limit.value)
    assert told["engine_speed"][0] > 1.2 * told["input_speed"][0]
    assert told["engine_speed"][-1] == pytest.approx(told["input_speed"][-1], rel=1e-3)


def test_an_automatic_shifts_under_power():
    told = story(BUILDS["foot-brake"], "shift")
    assert told["axle"].min() > 0.5 * told["axle"][0]
    assert told["axle"].max() > 1.2 * told["axle"][0]


@pytest.mark.parametrize("name", ["dump", "foot-brake"])
def test_lifting_off_crosses_the_free_play_both_ways(name):
    one = cases(BUILDS[name])["lift-off"]
    found = launch_peaks(one.car, one.events)
    assert found.reversals[0] >= 2
    assert found.axle_least[0] < 0.0
    assert found.axle_most[0] > 0.0


def test_a_wheelstand_comes_down():
    told = story(BUILDS["standing up"], "landing")
    steady = told.time < setup.STEADY
    assert told["front_load"][steady].max() == 0.0
    assert told["pitch"][0] > setup.LIFTED
    down = int(np.argmax(told["front_load"] > 0.0))
    assert 0.1 < told.time[down] < 0.5
    assert told["front_load"].max() > told["front_load"][down]
    both = told["left_load"][steady] + told["right_load"][steady]
    weight = cases(BUILDS["standing up"])["landing"].car.vehicle_mass * 9.80665
    assert both == pytest.approx(np.full(steady.sum(), weight), rel=0.06)


def test_a_car_that_cannot_lift_has_no_landing_and_says_so():
    filler = Plain()
    m, x = filler.tree(BUILDS["dump"].machine), filler.tree(BUILDS["dump"].launching)
    assert not may_lift(m, x)
    assert "landing" not in cases(BUILDS["dump"])
    said = cases_left_out(m, landing=False)
    assert said == (
        "Out of the water: left out, no burnouts are stated.",
        "Wheels-up landing: left out, no steady pull of this car lifts its front wheels.",
    )


def test_samples_that_cannot_lift_stay_down():
    build = BUILDS["standing up"]
    drawn = fill(build, Samples(1, 200))
    one = {c.case: c for c in launch_cases(drawn.machine, drawn.launching, True)}["landing"]
    lifted = np.broadcast_to(one.events.pitch, (200,))
    assert set(np.unique(lifted)) <= {0.0, setup.LIFTED}
    assert np.mean(lifted > 0.0) > 0.3


def test_a_case_that_a_build_has_not_is_refused_in_words():
    with pytest.raises(KeyError, match="has no case 'water'; it has dump, re-grip"):
        history_of(BUILDS["dump"], "water")


# --- how answers move --------------------------------------------------------------------------


class Given(Plain):
    """Nominal, but for what is given."""

    def __init__(self, **given):
        super().__init__()
        self.given = {k.replace("__", "."): v for k, v in given.items()}

    def estimate(self, leaf):
        return self.given.get(leaf.path, leaf.value)


def marched(build, case, **given):
    filler = Given(**given)
    found = launch_cases(filler.tree(build.machine), filler.tree(build.launching), False)
    one = next(c for c in found if c.case == case)
    return launch_peaks(one.car, one.events)


def test_more_clutch_brings_no_less_to_the_gearbox():
    capacity = np.linspace(500.0, 1500.0, 24)
    peaks = marched(BUILDS["dump"], "dump", clutch__capacity=capacity).clutch_most
    assert np.all(np.diff(peaks) > -0.01 * peaks[:-1])
    assert peaks[-1] > 1.3 * peaks[0]


def test_a_longer_bite_brings_less():
    """Not each car: one may swing into a second peak.  The median of many does."""
    build, medians = BUILDS["dump"], []
    for bite in (0.03, 0.08, 0.2, 0.4):

        class Bitten(Samples):
            def estimate(self, leaf, bite=bite):
                return bite if leaf.path == "clutch.bite" else super().estimate(leaf)

        drawn = Bitten(1, FEW)
        m, x = drawn.tree(build.machine), drawn.tree(build.launching)
        one = launch_cases(m, x, False)[0]
        medians.append(float(np.median(launch_peaks(one.car, one.events).axle_most)))
    assert medians == sorted(medians, reverse=True)
    assert medians[-1] < 0.8 * medians[0]


def test_more_grip_brings_no_less():
    path = next(p for p in leaves(BUILDS["dump"].machine) if p.startswith("wheels.grip."))
    grips = np.linspace(0.5, 1.6, 16)
    peaks = marched(BUILDS["dump"], "dump", **{path: grips}).axle_most
    assert np.all(np.diff(peaks) > -0.02 * peaks[:-1])
    assert peaks[-1] > 1.5 * peaks[0]


def test_who_is_late_off_the_brake_winds_the_shafts_harder():
    peaks = marched(
        BUILDS["foot-brake"], "foot-brake", driver__brake_time=np.array([0.1, 0.2, 0.3])
    ).axle_most
    assert peaks[0] < peaks[1] < peaks[2]


def test_a_seed_gives_the_same_answer_again(study):
    again = launch_study(BUILDS["dump"], 1, FEW)
    assert repr(again.report) == repr(study.report)
    other = launch_study(BUILDS["dump"], 2, FEW)
    assert other.report.cases[0].peaks["ring"].value == study.report.cases[0].peaks["ring"].value
    assert other.report.cases[0].peaks["ring"].high != study.report.cases[0].peaks["ring"].high


def test_the_first_of_many_samples_are_those_of_a_few(study):
    many = launch_study(BUILDS["dump"], 1, 2 * FEW)
    for case, by_place in study.ratios.items():
        for place, ratios in by_place.items():
            assert np.array_equal(ratios, many.ratios[case][place][:FEW]), (case, place)
    assert many.nominal_ratios == study.nominal_ratios


def test_it_stops_when_told_and_counts_up_to_the_end():
    heard = []
    launch_study(BUILDS["dump"], 1, FEW, lambda share: heard.append(share) or True)
    assert heard == sorted(heard)
    assert 0.0 < heard[0] < 0.5
    assert heard[-1] == 1.0
    with pytest.raises(StoppedError):
        launch_study(BUILDS["dump"], 1, FEW, lambda share: share < 0.3)
    with pytest.raises(StoppedError):
        launch_study(BUILDS["dump"], 1, FEW, lambda share: share < 0.92)


# --- the report --------------------------------------------------------------------------------


def test_the_report_says_what_was_found(study):
    report = study.report
    assert [c.case for c in report.cases] == ["dump", "re-grip", "shift", "lift-off"]
    for case in report.cases:
        assert case.lost == 0
        assert set(case.peaks) == set(case.bounds) == {"flywheel", "driveshaft", "ring", "shaft"}
        for finding in case.peaks.values():
            assert finding.low <= finding.high
            assert 0.3 * finding.high < finding.value < 3.0 * finding.low
        assert case.peaks["ring"].value < 2.0 * case.peaks["shaft"].value
    assert "Hardest on the axle is" in report.sentence
    assert any("not been compared with a measured launch" in c for c in report.cautions)
    assert "landing" in report.left_out[1]


def test_ratios_are_marched_peaks_over_the_closed_form(study):
    for case in study.report.cases:
        for place, finding in case.peaks.items():
            ratio = study.nominal_ratios[case.case][place]
            assert ratio * case.bounds[place] == pytest.approx(finding.value, rel=1e-9)
        assert all(np.isfinite(r).all() for r in study.ratios[case.case].values())


def test_more_than_the_closed_form_is_said_where_there_is_one():
    said = list(beyond_bound({"dump": 1.3, "re-grip": 1.04, "lift-off": 1.5, "landing": 0.4}))
    assert len(said) == 1
    assert said[0].startswith("Clutch dump: the launch marched in time brings 1.3 times")


def test_sweeps_are_of_what_this_launch_has(study):
    paths = [s.path for s in study.report.sweeps]
    assert paths[:2] == ["use.launch_speed", "clutch.bite"]
    assert any(p.startswith("wheels.grip") for p in paths)
    assert any(p.startswith("wheels.pressure") for p in paths)
    for sweep in study.report.sweeps:
        assert np.all(np.diff(sweep.values) > 0.0)
        assert np.isfinite(sweep.peak).all()
        known = np.isfinite(sweep.low)
        assert np.all(np.array(sweep.low)[known] <= np.array(sweep.high)[known])
    stall = launch_study(BUILDS["trans-brake"], 1, 16).report.sweeps
    assert {"converter.stall_speed", "driver.trans_brake_time"} <= {s.path for s in stall}


def test_a_tread_is_swept_from_cold_to_smoking(study):
    """Whether or not a build says how warm it is; most where its class grips best."""
    (sweep,) = (s for s in study.report.sweeps if s.path == "wheels.tread_temperature")
    assert sweep.values[0] < 280.0 and sweep.values[-1] > 380.0
    best = int(np.argmax(sweep.peak))
    assert 0 < best < len(sweep.peak) - 1
    assert np.all(np.diff(sweep.peak[: best + 1]) > 0.0)
    assert np.all(np.array(sweep.low) < np.array(sweep.high))
    said = builds.build(builds.MANUAL.replace("[use]", 'tread_temperature = "150 °F"\n[use]'))
    again = sweeps_of(said, Samples(1, FEW), np.full(FEW, 1.0))[-1]
    assert again.path == sweep.path
    assert again.peak == sweep.peak, "the same tires on the same car"


def test_an_unknown_class_of_tire_is_swept_where_the_nominal_car_stands():
    """The likeliest class, not the first of them: else the line would lie flat."""
    unknown = builds.build(builds.MANUAL.replace('grip_class = "performance street"\n', ""))
    swept = {s.path: s for s in sweeps_of(unknown, Samples(1, FEW), np.full(FEW, 1.0))}
    grip, pressure = (
        swept["wheels.grip.performance street"],
        swept["wheels.pressure.performance street"],
    )
    assert max(grip.peak) > 1.3 * min(grip.peak)
    assert max(pressure.peak) > min(pressure.peak)


def without_dials(build, seed, count):
    """The study but for the limit card's dials, which take most of the time of a small one."""
    with mock.patch("axlewright.studies.launch.dial_marches", return_value={}):
        return launch_study(build, seed, count)


@pytest.mark.parametrize(
    ("name", "ways"),
    [("dump", MANUAL), ("foot-brake", AUTOMATIC), ("rolled on", ("gentle", *AUTOMATIC))],
)
def test_every_way_of_a_gearbox_stands_beside_the_stated_one(name, ways):
    rolled = builds.AUTOMATIC.replace('launch = "foot-brake"', 'launch = "gentle"')
    build = BUILDS.get(name) or builds.build(rolled)
    report = without_dials(build, 1, 16).report
    found = {w.way: w for w in report.ways.ways}
    assert tuple(found) == ways
    (stated,) = (w for w in found.values() if w.stated)
    assert stated.way == build.machine.use.launch == report.cases[0].case
    assert stated.peaks == report.cases[0].peaks
    for way in found.values():
        assert all(f.low <= f.high for f in (*way.peaks.values(), way.sixty_feet, way.speed))
        assert 1.5 < way.sixty_feet.value < 4.0
    assert [w.way for w in found.values() if w.at_least] == (["gentle"] if "gentle" in ways else [])
    assert ("A gentle start takes longer" in report.ways.note) == ("gentle" in ways)


def test_another_way_is_that_of_a_build_that_states_it(study):
    """Peaks and time are those of the car as if its file said so, without the file's own bite."""
    (other,) = (w for w in study.report.ways.ways if w.way == "two-step")
    own = without_dials(BUILDS["two-step"], 1, FEW).report.cases[0]
    for place, finding in other.peaks.items():
        assert finding == own.peaks[place]
    bitten = builds.MANUAL.replace("± 60 lbf*ft", '± 60 lbf*ft"\nbite = "40 ms')
    free = launched(
        builds.build(bitten.replace('launch = "dump"', 'launch_speed = "5000 rpm"')), "slip"
    )
    assert free.machine.clutch.bite.origin == "assumed"
    assert free.machine.engine.launch_speed.value == pytest.approx(2500 * np.pi / 30)
    run = run_study(BUILDS["two-step"]).findings["time_60_ft"]
    assert other.sixty_feet.value == pytest.approx(run.value, rel=1e-9)


def test_gentler_ways_bring_less_and_a_neutral_drop_is_not_praised(study):
    ring = {w.way: w.peaks["ring"].value for w in study.report.ways.ways}
    assert ring["gentle"] < ring["slip"] < ring["dump"] < ring["two-step"]
    assert "Gentlest on the axle: gentle start, at least" in study.report.ways.sentence
    drop = without_dials(BUILDS["neutral drop"], 1, 16).report.ways
    softest = min(drop.ways, key=lambda w: w.peaks["ring"].value)
    assert ("clutches inside the gearbox" in drop.sentence) == (softest.way == "neutral drop")


def test_an_automatic_is_started_gently_off_the_brake():
    rolled = builds.build(builds.AUTOMATIC.replace('launch = "foot-brake"', 'launch = "gentle"'))
    told, hard = story(rolled, "gentle"), story(BUILDS["foot-brake"], "foot-brake")
    before = told.time < setup.STEADY
    assert np.abs(told["left_speed"][before]).max() < 1e-6
    assert told["road_speed"][-1] > 2.0
    assert told["axle"].max() < hard["axle"].max()
    opened = setup.STEADY + setup.ROLLED_ON
    assert told["engine_torque"][told.time < 0.5 * opened].max() < told["engine_torque"].max()


def test_hop_is_told_for_stiffer_and_softer_mounts(study):
    hop = study.report.hop
    assert 0.0 <= hop.share <= 1.0
    assert [s.path.rpartition(".")[2] for s in hop.sweeps] == [
        "mount_stiffness",
        "windup_stiffness",
    ]
    for sweep in hop.sweeps:
        assert np.all(np.diff(sweep.values) > 0.0)
        assert sweep.values[2] == pytest.approx(
            getattr(cases(BUILDS["dump"])["dump"].car, sweep.path.rpartition(".")[2]), rel=1e-3
        )
        assert all(0.0 <= share <= 1.0 for share in sweep.shares)
        assert sweep.shares[-1] <= sweep.shares[0] + 0.1
    assert hop.growth.low <= hop.growth.high


def test_what_to_measure_next_is_no_chance_find(study):
    """An answer that hangs on one input alone names that one; pure noise names none."""
    build = BUILDS["dump"]
    inputs = leaves(what_is_read(build))
    samples = Samples(1, FEW)
    samples.tree(build.machine)
    samples.tree(build.launching)
    bite = samples.draws["clutch.bite"]
    assert measure_next(inputs, samples, bite)[0].path == "clutch.bite"
    noise = np.random.default_rng(5).normal(size=FEW)
    assert measure_next(inputs, samples, noise) == ()
    assert all(n.advice for n in study.report.measure_next)


class Nudged(Plain):
    """Nominal, but for some inputs that are a little larger."""

    def __init__(self, paths):
        super().__init__()
        self.paths = paths

    def estimate(self, leaf):
        return leaf.value * 1.01 + 1e-6 if leaf.path in self.paths else leaf.value


def numbers(build, filler: Filler):
    """Everything that the march gets, and the closed form that its peaks are put over."""
    made = fill(build, filler)
    found = launch_cases(made.machine, made.launching, True)
    return repr([(c.car, c.events) for c in found]) + repr(made.bounds)


@pytest.mark.parametrize("name", ["dump", "trans-brake"])
def test_nothing_moves_the_march_that_it_is_not_said_to_read(name):
    build = BUILDS[name]
    read = leaves(what_is_read(build))
    before = numbers(build, Plain())
    outside = {p: v for p, v in leaves(build.machine).items() if p not in read}
    assert len(outside) > 20
    assert numbers(build, Nudged(outside)) == before
    for path in ("car.weight", "wheels.inertia", "engine.inertia", "axle.shaft.length"):
        assert path in read
        assert numbers(build, Nudged({path})) != before, path
