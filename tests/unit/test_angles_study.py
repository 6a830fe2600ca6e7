"""The angles study: what it says with and without readings, and that its numbers hang together."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.edit import edit
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.quantities.estimate import Plain
from axlewright.quantities.units import read
from axlewright.quantities.working import steps
from axlewright.studies.angles import angle_nodes, angles_study
from axlewright.studies.angles_fill import filled, kind_of
from axlewright.studies.angles_linkage import NEEDS, axle_of, lacking
from axlewright.studies.angles_picture import standing_at
from axlewright.suspension.pose import ride_height

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "copper-wren-fit.toml"
IN = 0.0254
POINTS = {
    "leaf": {
        "leaf_front_eye": (22, 21, 12), "leaf_seat": (0, 21, 11), "leaf_rear_eye": (-31, 21, 13),
        "shackle_top": (-32, 21, 16),
    },
    "four-link": {
        "lower_body": (22, 18, 9), "lower_axle": (0.4, 18, 8.1), "upper_body": (16.5, 12, 14.6),
        "upper_axle": (0.5, 12, 16.9), "lateral_body": (-4.7, -20.5, 14.6),
        "lateral_axle": (-4.3, 18.9, 13),
    },
    "three-link": {
        "lower_body": (22, 18, 9), "lower_axle": (0.4, 18, 8.1), "upper_body": (18, 3, 16),
        "upper_axle": (0.5, 3, 18), "watt_pivot": (-9, 0, 13), "watt_left_body": (-9, 20, 16),
        "watt_left_crank": (-9, 0, 16), "watt_right_body": (-9, -20, 10),
        "watt_right_crank": (-9, 0, 10),
    },
    "torque arm": {
        "lower_body": (22, 18, 9), "lower_axle": (0.4, 18, 8.1), "arm_front": (45, 0, 12),
        "lateral_body": (-4.7, -20.5, 14.6), "lateral_axle": (-4.3, 18.9, 13),
    },
    "ladder bars": {
        "bar_pivot": (34, 14, 11), "lateral_body": (-4.7, -20.5, 14.6),
        "lateral_axle": (-4.3, 18.9, 13),
    },
}  # fmt: skip


def built(text):
    return resolve(read_build(text, "car.toml"))


def kind_text(kind, points):
    """The example with another suspension."""
    head, _, _ = EXAMPLE.read_text(encoding="utf-8").partition("[points]")
    head = head.replace('kind = "coil-link"', f'kind = "{kind}"')
    rows = [f"{n} = {[f'{v} in' for v in p]}".replace("'", '"') for n, p in points.items()]
    joints = ["pinion_joint = ['12.5 in', '-1 in', '12.4 in']",
              "gearbox_joint = ['60.5 in', '-0.9 in', '14.1 in']"]  # fmt: skip
    return "\n".join([head, "[points]", *rows, *joints])


@pytest.fixture(scope="module")
def text():
    return EXAMPLE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def report(text):
    return angles_study(built(text))


def test_the_answer_says_what_to_turn_and_what_the_gauge_shows(report):
    assert report.verdict == "turn"
    assert report.sentence.startswith("Turn the pinion's nose up by 3.")
    assert "the gauge on it then shows" in report.sentence
    assert all(j.keeps for j in report.then)
    assert not all(j.keeps for j in report.now)
    assert report.likelihood == "likely"


def test_what_is_set_adds_up(report):
    f = report.findings
    assert f["turn"].value == pytest.approx(f["static"].value - f["pinion_slope"].value)
    floor, zero = np.radians(0.25), 0.0
    assert f["gauge"].value == pytest.approx(f["static"].value + floor - zero)
    assert f["off_shaft"].value == pytest.approx(f["gauge"].value - f["gauge_shaft"].value)
    low, high = report.window
    assert low <= f["static"].value <= high
    assert f["set_loaded_pinion"].value == pytest.approx(f["static"].value + f["rise"].value)


def test_the_gearbox_reading_is_taken_to_the_floor_line(report):
    readings = np.mean([3.5, 3.25])
    assert np.degrees(report.findings["gearbox_slope"].value) == pytest.approx(readings - 0.25)


def test_after_setting_nothing_is_left_to_turn(text, report):
    for key, number in (("pinion", "gauge"), ("driveshaft", "gauge_shaft")):
        shows = np.degrees(report.findings[number].value)
        text = edit(text, f"angles.{key}", f"{shows:.4f} deg")
    slopes = [report.findings[k].value for k in ("pinion_slope", "static")]
    up = 12.375 + 12.5 * (np.sin(slopes[1]) - np.sin(slopes[0]))  # the joint comes up with the nose
    text = edit(text, "angles.pinion_height", f"{up:.4f} in")
    text = edit(text, "points.pinion_joint", f'["12.5 in", "-1 in", "{up:.4f} in"]')
    again = angles_study(built(text))
    assert again.verdict == "right"
    assert again.sentence.startswith("The angles are right as they are")
    assert abs(np.degrees(again.findings["turn"].value)) < 0.1


def test_bands_hold_their_values_and_angles_are_known_well(report):
    for f in report.findings.values():
        assert f.low <= f.high, f.id
        assert np.isfinite([f.value, f.low, f.high]).all(), f.id
    width = report.findings["pinion_off_shaft"]
    assert np.degrees(width.high - width.low) < 0.6


def test_every_number_opens_its_working(text, report):
    nodes = angle_nodes(built(text))
    for key, f in report.findings.items():
        assert key in nodes, key
        assert nodes[key].value == pytest.approx(f.value, abs=1e-12), key
    shown = steps(nodes["gauge"], "shop")
    assert any("gearbox" in s.title for s in shown), [s.title for s in shown]


def test_without_readings_it_says_what_to_measure_first(text):
    head, _, _ = text.partition("# Angles and points")
    report = angles_study(built(head))
    assert report.verdict == "measure"
    assert report.sentence.startswith("Measure the gearbox's slope")
    assert [w.path for w in report.wanted if w.first] == [
        "angles.gearbox", "angles.driveshaft", "angles.pinion",
    ]  # fmt: skip
    assert not any(k.startswith(("now_", "set_")) for k in report.findings)
    assert (report.sweep, report.states, report.now) == (None, (), ())
    assert not report.axle_known
    assert any("those of the class" in c for c in report.cautions)
    assert standing_at(built(head), 0.0) is None


def test_without_points_the_axle_goes_straight_up(text):
    head, _, _ = text.partition("[points]")
    report = angles_study(built(head))
    assert report.verdict in {"turn", "right"}
    assert not report.axle_known
    assert report.findings["bump_pinion"].value == pytest.approx(report.findings["static"].value)
    assert report.findings["rise"] == replace(
        report.findings["rise_stated"], id="rise", means=report.findings["rise"].means
    )
    assert "only what the trade allows" in " ".join(report.more)


def test_a_measured_rise_goes_before_that_of_the_bushes(text):
    report = angles_study(built(edit(text, "angles.pinion_rise", "4 ± 0.2 deg")))
    assert np.degrees(report.findings["rise"].value) == pytest.approx(4.0)
    assert np.degrees(report.findings["rise_stiffness"].value) < 2.0
    assert any("as it was measured" in line for line in report.more)


def test_a_steep_gearbox_leaves_no_setting(text):
    text = edit(text, "angles.gearbox", "9 deg")
    text = edit(text, "angles.gearbox_height", None)
    report = angles_study(built(text))
    assert report.verdict == "no setting"
    assert report.window is None
    assert "No pinion angle keeps every limit" in report.sentence


@pytest.mark.parametrize("kind", sorted(POINTS))
def test_every_kind_of_suspension_is_posed(kind):
    build = built(kind_text(kind, POINTS[kind]))
    report = angles_study(build, count=50)
    assert report.axle_known, [w.path for w in report.wanted]
    assert report.findings["windup_stiffness"].value > 0.0
    assert {b.case for b in report.brackets} == {"launch", "brake", "corner"}
    assert len(report.sweep.anti_squat) == len(report.sweep.travel)
    assert standing_at(build, 0.02).bars or kind in {"ladder bars"}


@pytest.mark.parametrize("kind", sorted(POINTS))
def test_what_is_missing_of_a_kind_is_named(kind):
    names = [n for n in POINTS[kind] if n in NEEDS[kind]]
    left = {n: p for n, p in POINTS[kind].items() if n != names[-1]}
    report = angles_study(built(kind_text(kind, left)), count=50)
    assert not report.axle_known
    assert f"points.{names[-1]}" in [w.path for w in report.wanted]


def test_a_watt_linkage_stands_for_the_rod():
    assert lacking("three-link", POINTS["three-link"]) == ()
    assert lacking("three-link", ["lower_body"]) == (
        "lower_axle", "upper_body", "upper_axle", "lateral_body", "lateral_axle",
    )  # fmt: skip


def test_links_balance_the_road(report, text):
    x = filled(built(text), Plain())
    for case, thrust in (("launch", x.pull.torques["ring"] / x.standing.radius), ("corner", 0.0)):
        force = np.sum([b.force for b in report.brackets if b.case == case], axis=0)
        assert force[0] == pytest.approx(-thrust, abs=60.0), case  # springs lean a little
    side = np.sum([b.force for b in report.brackets if b.case == "corner"], axis=0)[1]
    wanted = -x.standing.rear_load * x.machine.wheel_end.side_grip
    assert side == pytest.approx(wanted, rel=0.06)  # the springs lean in, and take their part


def test_right_points_that_differ_are_taken_as_they_are(text):
    text = edit(text, "points.right_lower_body", '["20 1/2 in", "-18 1/4 in", "10 in"]')
    x = filled(built(text), Plain())
    axle = axle_of(x, "coil-link")
    right = axle.linkage.pieces[axle.linkage.index("right lower link")]
    assert right.body[2] == pytest.approx(10 * IN)
    assert ride_height(axle.linkage).closure < 1e-10


def test_a_seal_measurement_gives_the_same_length(text, report):
    for key in ("angles.joint_to_joint", "slip.reach"):
        text = edit(text, key, None)
    again = angles_study(built(text))
    assert again.findings["length"].value == pytest.approx(
        report.findings["length"].value, abs=0.5e-3
    )


def test_the_length_is_known_to_a_sixteenth(report):
    f = report.findings["length"]
    assert f.high - f.low < 2 * IN / 16


def test_the_sweep_meets_the_states(report):
    s, f = report.sweep, report.findings
    assert s.travel[0] == pytest.approx(-3 * IN)
    assert s.travel[-1] == pytest.approx(3.5 * IN)
    assert s.rear[-1] == pytest.approx(f["bump_rear"].value)
    assert s.front[0] == pytest.approx(f["droop_front"].value)
    middle = s.travel.index(0.0)
    assert s.pinion[middle] == pytest.approx(f["set_pinion"].value)
    assert s.anti_squat[middle] == pytest.approx(f["anti_squat"].value)


def test_the_picture_stays_between_the_stops(text):
    build = built(text)
    low, high = standing_at(build, -1.0), standing_at(build, 1.0)
    assert (low.travel, high.travel) == pytest.approx((-3 * IN, 3.5 * IN))
    assert high.axle[1] - low.axle[1] == pytest.approx(6.5 * IN)
    assert {b.name for b in low.bars} == {"lower link", "upper link"}


def test_proposals_read_as_the_build_file_takes_them(report, text):
    assert {p.key for p in report.proposals} >= {
        "suspension.instant_center_ahead", "suspension.windup_stiffness", "driveshaft.angle",
    }  # fmt: skip
    for p in report.proposals:
        text = edit(text, p.key, p.value)
    launching = built(text).launching
    assert launching.mount.instant_center_ahead.origin == "measured"
    assert read(report.proposals[0].value, "length").value == pytest.approx(
        report.findings["ic_ahead"].value, rel=0.02
    )


def test_tubes_that_hold_come_first_and_the_fitted_one_is_among_them(report):
    holds = [t.holds for t in report.tubes]
    assert holds == sorted(holds, reverse=True)
    assert sum(t.fitted for t in report.tubes) == 1
    light = [t.mass for t in report.tubes if t.holds]
    assert light == sorted(light)


def test_what_is_too_near_is_told(text):
    report = angles_study(built(edit(text, "tunnel.above", "2 in")))
    near = [r for r in report.rooms if not r.holds]
    assert [r.what for r in near] == ["driveshaft to tunnel above"]
    assert any(line.startswith("Too near, driveshaft to tunnel above") for line in report.more)


def test_an_unknown_kind_is_asked_for(text):
    report = angles_study(built(text.replace('kind = "coil-link"\n', "")))
    assert not report.axle_known
    assert "suspension.kind" in [w.path for w in report.wanted]
    assert kind_of(built(text)) == "coil-link"


@pytest.mark.parametrize(
    ("point", "said"),
    [
        ('["1 in", "5 1/2 in", "18 5/8 in"]', "a link has no length"),
        ('["2 in", "5 1/2 in", "18 5/8 in"]', "do not reach that travel"),
    ],
)
def test_links_that_cannot_be_moved_are_told_of_and_left_out(text, point, said):
    build = built(edit(text, "points.upper_body", point))
    report = angles_study(build)
    assert not report.axle_known
    assert any(said in c and "look at the points again" in c for c in report.cautions)
    assert report.verdict in {"turn", "right"}
    assert standing_at(build, 0.02).bars == ()
    assert set(report.findings) <= set(angle_nodes(build))


def test_readings_that_contradict_each_other_stand_beside_the_answer(text):
    report = angles_study(built(edit(text, "angles.gearbox_height", "16 in")))
    (first, *_) = [line for line in report.more if "contradict each other" in line]
    assert "angles.gearbox_height about 1.9 in too much" in first
    assert first not in report.cautions
