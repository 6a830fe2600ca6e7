"""The question of fit: sums that close, readings that are named, choices that agree."""

import time
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.fit.axle_cut import SideParts, cut_axle
from axlewright.quantities.working import steps
from axlewright.studies.fit import both, fit_study
from axlewright.studies.fit_ask import FitAskError, read_fit_ask, with_tried
from axlewright.studies.fit_known import Lack, work
from axlewright.studies.fit_search import lists, search_report
from axlewright.studies.fit_working import fit_nodes

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "copper-wren-fit.toml"
IN = 0.0254


def built(**changes):
    text = EXAMPLE.read_text(encoding="utf-8")
    for key, value in changes.items():
        text = edit(text, key.replace("__", "."), value)
    return resolve(read_build(text, "build.toml"))


def cleared(*tables):
    """The example without some of its tables."""
    lines, keep = [], True
    for line in EXAMPLE.read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            keep = line.strip("[]") not in tables
        if keep:
            lines.append(line)
    return resolve(read_build("\n".join(lines) + "\n", "build.toml"))


@pytest.fixture(scope="module")
def build():
    return built()


@pytest.fixture(scope="module")
def report(build):
    return fit_study(build)


def order(report):
    return {o.key: o.finding.value for o in report.order if o.finding is not None}


def rooms(report):
    return {r.key: r for r in report.rooms}


def test_the_example_fits_and_says_by_what_it_is_ordered(report):
    assert report.verdict == "fits"
    assert report.sentence.startswith("It fits with the axle to order, 59.25 in")
    assert "(58.69 in (1,491 mm) over the bare flanges, as axles are ordered)" in report.sentence
    assert "5 in (127 mm) of backspace" in report.sentence


def test_everything_that_is_cut_closes(report):
    d = order(report)
    hats, spaces = (d[f"{n}_left"] + d[f"{n}_right"] for n in ("hat", "brake_space"))
    assert d["order_width"] == pytest.approx(d["fit_width"] - hats, abs=1e-12)
    assert d["housing_width"] == pytest.approx(d["order_width"] - spaces, abs=1e-12)
    assert d["housing_left"] + d["housing_right"] == pytest.approx(d["housing_width"], abs=1e-12)
    assert d["pinion_left"] + d["pinion_right"] == pytest.approx(d["order_width"], abs=1e-12)
    gap = 1.0 * IN  # the gap between both shafts, as the example states it
    assert d["shaft_left"] + d["shaft_right"] + gap == pytest.approx(d["order_width"], abs=1e-9)


def test_halves_differ_by_twice_the_offset(report):
    # An ordering page's rule: 60 in with the center 2 in off is 28 and 32 in.
    d = order(report)
    assert d["pinion_left"] - d["pinion_right"] == pytest.approx(2.0 * IN, abs=1e-9)
    assert d["shaft_left"] - d["shaft_right"] == pytest.approx(1.0 * IN, abs=1e-9)


def test_the_cut_agrees_with_the_room_of_fit(report):
    d = order(report)
    parts = [
        SideParts(0.5 * d["fit_width"], d[f"hat_{s}"], d[f"brake_space_{s}"], 0.5 * IN)
        for s in ("left", "right")
    ]
    cut = cut_axle(*parts, differential_left=-0.5 * IN, pinion_left=-1.0 * IN)
    assert d["shaft_left"] == pytest.approx(cut.left.shaft, abs=1e-9)
    assert d["shaft_right"] == pytest.approx(cut.right.shaft, abs=1e-9)
    assert d["housing_left"] == pytest.approx(cut.left.housing_half, abs=1e-9)
    assert d["housing_width"] == pytest.approx(cut.housing_width, abs=1e-12)


def test_clearances_by_hand():
    # Readings without doubt and without a second way to them, so that nothing is evened out.
    said = {
        "fit__face_to_face": "60 ± 0.0001 in", "fit__bare_to_bare": None, "fit__end_to_end": None,
        "fit__lip_to_lip": None, "fit__inner_to_inner": None, "fit__rail_to_rail": "44 ± 0.0001 in",
        "fit__left__lip": "6.375 ± 0.0001 in", "fit__left__inner": "8.125 ± 0.0001 in",
        "fit__left__rail": "8 ± 0.0001 in", "fit__right__rail": "8 ± 0.0001 in",
        "fit__left__pinion": None, "fit__left__differential": None,
        "fit__right__lip": "6.375 ± 0.0001 in", "fit__right__inner": "8.125 ± 0.0001 in",
        "wheel__rim_width": "8 ± 0.0001 in", "wheel__lip_width": "0.5 ± 0.0001 in",
        "wheel__backspace": "5 ± 0.0001 in", "wheel__section": "10.9 ± 0.0001 in",
        "wheel__measuring_rim": "8 ± 0.0001 in",
    }  # fmt: skip
    r = rooms(fit_study(built(**said, centre__face_to_face="59 ± 0.0001 in")))
    # face 30, lip 36.375, inner 21.875 from the middle; half 29.5; the tire's middle 29.0
    assert r["lip_ride_left"].clearance.value / IN == pytest.approx(36.375 - 29.0 - 5.45, abs=1e-3)
    assert r["inner_ride_left"].clearance.value / IN == pytest.approx(29 - 5.45 - 21.875, abs=1e-3)


def test_the_width_found_shares_the_room_evenly(build):
    look = both(build, 1, 50).look
    wide, narrow = (
        min(look.left.widest, look.right.widest), max(look.left.narrowest, look.right.narrowest)
    )  # fmt: skip
    assert look.best == pytest.approx(wide + narrow, abs=1e-12)
    assert abs(look.width - look.best) <= 0.5 * 0.125 * IN + 1e-12
    assert (look.width / (0.125 * IN)) == pytest.approx(round(look.width / (0.125 * IN)))


def test_an_axle_that_is_there_is_asked_for_its_wheel():
    report = fit_study(built(centre__face_to_face="59 in", wheel__backspace=None))
    back = next(o for o in report.order if o.key == "backspace")
    assert back.origin == "to order"
    faces = [
        r.clearance.value - r.wanted
        for r in report.rooms
        if r.clearance is not None and r.key.startswith(("lip_ride", "lip_bump"))
    ]
    inner = [
        r.clearance.value - r.wanted
        for r in report.rooms
        if r.clearance is not None and r.key.startswith(("inner_ride", "inner_bump"))
    ]
    assert min(faces) == pytest.approx(min(inner), abs=1e-9)
    assert next(o for o in report.order if o.key == "fit_width").origin == "measured"


def test_a_width_known_another_way_counts_as_there():
    wide = fit_study(built(centre__end_to_end="53 in"))
    line = next(o for o in wide.order if o.key == "fit_width")
    assert line.origin == "measured"
    assert line.finding.value / IN == pytest.approx(53 + 2 * 2.5 + 2 * 0.28, abs=0.01)


@pytest.mark.parametrize(
    ("key", "dimension"),
    [
        ("fit.left.lip", "fit_width"), ("fit.right.inner", "fit_width"),
        ("wheel.rim_width", "backspace"), ("ends.hat", "order_width"),
        ("ends.brake_space", "housing_width"), ("centre.differential_gap", "shaft_left"),
        ("centre.differential_left", "housing_left"), ("centre.pinion_left", "pinion_right"),
        ("centre.shaft_spline", "spline_left"),
    ],
)  # fmt: skip
def test_a_reading_that_is_missing_leaves_no_number(key, dimension):
    gone = {
        key: None, "fit.lip_to_lip": None, "fit.inner_to_inner": None,
        "wheel.rim_widths": None,
    }  # fmt: skip
    if key == "ends.brake_space":
        gone["ends.bearing_to_flange"] = None
    report = fit_study(built(**{k.replace(".", "__"): v for k, v in gone.items()}))
    line = next(o for o in report.order if o.key == dimension)
    assert line.finding is None
    assert key in line.lacks
    assert key in {m.key for m in report.missing}


def test_nothing_measured_is_not_known_yet_and_asks_for_the_first_readings():
    tables = (
        "fit", "fit.left", "fit.right", "wheel", "ends", "centre", "points", "angles", "slip",
        "tunnel", "bushes",
    )  # fmt: skip
    report = fit_study(cleared(*tables))
    assert report.verdict == "not known"
    assert report.sentence.startswith("Not known yet: measure ")
    assert "fit.left.lip" in report.sentence
    assert all(r.clearance is None and r.kept == "not measured" for r in report.rooms)
    assert [o.key for o in report.order if o.finding is not None] == []
    assert report.search.tried == 0
    assert report.search.lacks
    assert report.travel is None
    assert not any(h.now for h in report.holds if h.item in {"housing", "axle shafts"})


@pytest.mark.parametrize(
    ("key", "value"),
    [("fit__left__lip", "7 3/8 in"), ("fit__face_to_face", "59 7/16 in")],
)
def test_readings_that_contradict_each_other_hold_everything_up(key, value):
    # A whole inch too much at one lip; a width taken over the bare flanges.
    report = fit_study(built(**{key: value}))
    assert report.verdict == "not known"
    assert report.sentence.startswith("Order nothing yet: readings contradict each other")
    named = " ".join(report.contradictions[0].suspects + report.contradictions[0].explained_by)
    assert key.replace("__", ".") in named
    assert report.further == report.contradictions[0].said
    assert not next(h for h in report.holds if h.item == "housing").now


def test_wheels_that_hang_give_no_answer():
    report = fit_study(built(fit__state="hanging"))
    assert report.verdict == "not known"
    assert "hanging" in report.sentence


def test_what_only_stands_clear_is_not_said_to_fit():
    gone = {
        f"fit__{k}": None
        for k in ("bump", "left__lip_at_bump", "right__lip_at_bump", "left__inner_at_bump",
                  "right__inner_at_bump")
    }  # fmt: skip
    report = fit_study(built(**gone))
    assert report.verdict == "not known"
    assert report.sentence.startswith("It stands clear with the axle to order, ")
    assert "fit.left.lip_at_bump" in report.sentence
    assert not next(h for h in report.holds if h.item == "wheels and tires").now


def test_another_tire_is_tried_by_its_numbers(build):
    report = fit_study(with_tried(build, tire="295/55R15"))
    assert report.planned.tire == "295/55R15"
    rim = 0.725 * 295.0  # the middle of the assumed measuring rims of tall tires
    wide = 295.0 + 0.4 * (8 * 25.4 - rim)
    assert report.planned.section * 1e3 == pytest.approx(wide, abs=0.5)


def test_a_tire_that_cannot_be_gives_no_answer():
    report = fit_study(built(wheel__rim_diameter="30 in"))
    assert report.verdict == "not known"
    assert "cannot be so" in report.sentence
    assert report.search.tried == 0
    assert report.travel is None


def test_every_tire_is_judged_where_it_is_widest(report):
    # Sections of the sizes on an 8 in rim, by the rule of 0.4 of the change of rim (read).
    spare = {c.tire: c.spare / IN for c in report.search.choices if c.rim_width == 8 * IN}
    wide = {
        t: (s + 0.4 * (8 * 25.4 - 0.725 * s)) / 25.4 for t, s in {"255/60R15": 255.0}.items()
    } | {"275/60R15": 10.9}
    gained = 0.5 * (wide["275/60R15"] - wide["255/60R15"])
    assert spare["255/60R15"] - spare["275/60R15"] == pytest.approx(gained, abs=0.005)


def test_a_wider_axle_takes_room_outside_and_gives_it_inside(build, report):
    wide = fit_study(with_tried(build, width="60.25 in"))
    before, after = rooms(report), rooms(wide)
    for side in ("left", "right"):
        outer, inner = (
            after[f"{k}_ride_{side}"].clearance.value - before[f"{k}_ride_{side}"].clearance.value
            for k in ("lip", "inner")
        )
        assert outer == pytest.approx(-0.5 * IN, abs=1e-9)
        assert inner == pytest.approx(0.5 * IN, abs=1e-9)
        assert after[f"lip_ride_{side}"].chance <= before[f"lip_ride_{side}"].chance


def test_a_chance_is_the_share_of_what_readings_allow():
    # One lip alone in doubt, ± 1/4 in triangular; the clearance wanted lies at its middle.
    said = {
        "fit__left__lip": "6.375 ± 0.25 in", "fit__lip_to_lip": None,
        "fit__rail_to_rail": "44 ± 0.0001 in", "fit__left__rail": "8 ± 0.0001 in",
        "fit__right__rail": "8 ± 0.0001 in", "fit__face_to_face": "60 ± 0.0001 in",
        "wheel__rim_width": "8 ± 0.0001 in", "wheel__lip_width": "0.5 ± 0.0001 in",
        "wheel__backspace": "5 ± 0.0001 in", "wheel__section": "10.9 ± 0.0001 in",
        "wheel__measuring_rim": "8 ± 0.0001 in", "centre__face_to_face": "59 ± 0.0001 in",
        "fit__inner_to_inner": None, "fit__bare_to_bare": None, "fit__end_to_end": None,
        "fit__left__pinion": None, "fit__left__differential": None, "fit__right__lip": None,
        "fit__outer_clearance": f"{36.375 - 29.0 - 5.45} ± 0.0001 in",
    }  # fmt: skip
    line = rooms(fit_study(built(**said), count=4000))["lip_ride_left"]
    assert line.chance == pytest.approx(0.5, abs=0.03)  # symmetry of the triangle
    low, high = 0.25 * (1.0 - np.sqrt(0.1)) * np.array([-1.0, 1.0])  # its 5 and 95 % (closed form)
    assert line.clearance.low / IN == pytest.approx(1.925 + low, abs=0.01)
    assert line.clearance.high / IN == pytest.approx(1.925 + high, abs=0.01)


def test_the_search_judges_what_is_planned_as_the_table_does(report):
    planned = report.planned
    same = next(
        c
        for c in report.search.choices
        if (c.tire, c.rim_width, c.backspace, c.width)
        == (planned.tire, planned.rim_width, pytest.approx(planned.backspace), planned.width)
    )
    assert same.spare == pytest.approx(planned.spare, abs=2e-5)
    spare = min(
        r.clearance.value - r.wanted
        for r in report.rooms
        if r.clearance is not None and not r.key.startswith(("roof", "lip_travel", "inner_travel"))
    )
    assert planned.spare == pytest.approx(spare, abs=1e-9)


def test_what_does_not_fit_says_what_lacks_and_what_would(build):
    report = fit_study(with_tried(build, width="57 in"))
    assert report.verdict == "does not fit"
    assert "lacks" in report.sentence
    assert "combinations" in report.further
    assert report.planned.spare < 0.0
    assert report.planned.lacks
    assert not next(h for h in report.holds if h.item == "wheels and tires").now


def test_ten_thousand_choices_within_a_second(build):
    backs = "[" + ", ".join(f'"{3 + n / 8} in"' for n in range(41)) + "]"
    rims = '["7 in", "7.5 in", "8 in", "8.5 in", "9 in"]'
    many = built(wheel__backspaces=backs, wheel__rim_widths=rims)
    b = both(many, 1, 200)
    found = lists(b.plain, b.look, "275/60R15")
    assert not isinstance(found, Lack)
    assert found.count > 10_000
    start = time.process_time()
    report = search_report(b.plain, b.look, b.sampled, b.moving, b.low, "275/60R15")
    assert time.process_time() - start < 1.0
    assert report.tried > 8_000  # some rims are outside what a tire may go on


def test_it_answers_within_a_tenth_of_a_second(build, report):
    del report  # so that nothing is loaded any more
    took = []
    for _ in range(5):
        start = time.process_time()
        fit_study(build)
        took.append(time.process_time() - start)
    assert min(took) < 0.1, took


def test_what_a_quarter_inch_costs(report):
    cost = {c.what: (c.outer / IN, c.inner / IN) for c in report.costs}
    assert cost["more backspace"] == pytest.approx((0.25, -0.25))
    assert cost["this side of the axle longer"] == pytest.approx((-0.25, 0.25))
    assert cost["tire wider"] == pytest.approx((-0.125, -0.125))


def test_the_travel_starts_at_ride_height_and_never_beats_the_least(report):
    travel = report.travel
    middle = len(travel.steps) // 2
    assert travel.steps[middle] == travel.lean[middle] == 0.0
    for curve in travel.curves:
        what = "lip" if curve.facing == "outer" else "inner"
        least = rooms(report)[f"{what}_travel_{curve.side}"].clearance.value
        assert curve.both[middle] == pytest.approx(curve.lean[middle], abs=1e-9)
        assert min(*curve.both, *curve.lean) >= least - 1e-9
    assert travel.known.startswith("solved")


def test_without_points_the_axle_goes_straight_and_that_is_said():
    report = fit_study(cleared("points"))
    assert report.travel.known.startswith("straight")
    assert any("lateral rod" in c for c in report.cautions)


def test_without_body_datums_the_middle_is_assumed_and_widens_the_band(report):
    gone = dict.fromkeys(("fit__rail_to_rail", "fit__left__rail", "fit__right__rail"))
    loose = fit_study(built(**gone))
    assert any("Body datums" in c for c in loose.cautions)
    one, other = (rooms(r)["lip_ride_left"].clearance for r in (report, loose))
    assert other.high - other.low > one.high - one.low
    assert any("old wheel faces" in a for a in loose.assumed)
    assert not any("old wheel faces" in a for a in report.assumed)


def test_low_things_meet_the_bulge_over_the_ground(report):
    low = rooms(fit_study(built(fit__left__inner_up="-2 in")))["inner_ride_left"]
    assert low.clearance.value < rooms(report)["inner_ride_left"].clearance.value - 0.1 * IN


def test_every_number_has_its_working(build, report):
    nodes = fit_nodes(build)
    found = [o.finding for o in report.order if o.finding is not None]
    found += [r.clearance for r in report.rooms if r.clearance is not None]
    lines = (*report.ends, *report.brakes.lines, *report.speedometer.lines)
    found += [e.finding for e in lines if e.finding is not None]
    for f in found:
        assert f.id in nodes, f.id
        assert nodes[f.id].value == pytest.approx(f.value, rel=1e-9, abs=1e-12), f.id
        assert steps(nodes[f.id])


def test_ends_are_told_once_where_they_are_alike(report):
    assert {e.side for e in report.ends} == {"both"}
    apart = fit_study(built(ends__left__hat="0.3 in"))
    assert {e.side for e in apart.ends} == {"left", "right"}
    short = fit_study(built(ends__stud_length="1.3 in"))
    fault = next(e.fault for e in short.ends if e.key == "nut_diameters_both")
    assert "do not drive it" in fault


def test_a_bearing_aim_that_nobody_stated_is_not_judged():
    open_ = fit_study(built(ends__end_play_aim=None))
    said = next(e.fault for e in open_.ends if e.key == "bearing_gap_both")
    assert "manual of this axle" in said


def test_brakes_and_speedometer(build):
    ask = read_fit_ask(drives=["7, 8"], old_ratio="3.08", old_tire="225/70R15")
    report = fit_study(build, ask)
    lines = {e.key: e.finding for e in (*report.brakes.lines, *report.speedometer.lines)}
    # A tire of 28 in turns 3.05 D / pi of it: 1609.344 / (3.05 * 0.7112) in a mile.
    turns = 1609.344 / (3.05 * 0.7112)
    assert lines["tire_turns"].value * 1609.344 == pytest.approx(turns, rel=2e-3)
    assert lines["driven_7"].value == pytest.approx(7 * 39 / 11 * turns / 1000, rel=2e-3)
    assert {g[0] for g in report.speedometer.gears} == {7, 8}
    assert lines["shown_at_60"].value / 0.44704 == pytest.approx(
        60 * (39 / 11) / 3.08 * turns / (1609.344 / (3.05 * (0.381 + 1.4 * 0.225))), rel=3e-3
    )
    # Disc brakes at one pressure: share of friction times area times radius (closed form).
    rear, front = 2.2 * 4.8, 6.8 * 4.7
    assert lines["rear_brake_share"].value == pytest.approx(rear / (rear + front), rel=1e-3)


def test_a_valve_takes_pressure_from_the_rear(report):
    # Half of what exceeds half the pressure: three quarters of the torque (closed form).
    valve = {"brakes__knee_pressure": "500 psi", "brakes__knee_share": "50 %"}
    held = fit_study(built(brakes__line_pressure="1000 psi", **valve))
    free = fit_study(built(brakes__line_pressure="1000 psi"))
    rear = [
        next(e.finding.value for e in r.brakes.lines if e.key == "rear_brake_torque")
        for r in (held, free)
    ]
    assert rear[0] / rear[1] == pytest.approx(0.75, rel=1e-9)
    assert any("is held either way in" in w for w in report.brakes.words)


def test_what_is_there_lets_the_next_be_ordered(build):
    held = {h.item: h for h in fit_study(build).holds}
    assert not held["wheels and tires"].now
    more = fit_study(build, read_fit_ask(have=["brake size"]))
    assert next(h for h in more.holds if h.item == "wheels and tires").now


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"have": ["banana"]}, "brake size"),
        ({"drives": ["x"]}, "like 7"),
        ({"drives": [",".join(str(n) for n in range(5, 13))]}, "at most"),
        ({"old_ratio": "dog"}, "41/11"),
        ({"old_tire": "dog"}, "275/60R15"),
    ],
)
def test_what_does_not_read_is_refused_in_words(asked, said):
    with pytest.raises(FitAskError, match=said):
        read_fit_ask(**asked)


@pytest.mark.parametrize(("name", "value"), [("backspace", "5 lb"), ("width", "900 in")])
def test_what_cannot_be_tried_is_refused_in_words(build, name, value):
    with pytest.raises(FitAskError):
        with_tried(build, **{name: value})


def test_a_lack_names_every_key_once():
    lack = work(lambda **_: 1.0, a=Lack(("x", "y")), b=2.0, c=Lack(("y", "z")))
    assert lack == Lack(("x", "y", "z"))


def test_the_same_build_gives_the_same_answer(build, report):
    assert fit_study(build) == report
