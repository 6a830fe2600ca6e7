"""Readings and links handed to load path and launch: by hand, in limits, and old builds as ever."""

import math
import runpy
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import axle_ends, driveshaft, housing, launch_train, pushing, resolve
from axlewright.build.resolve.ledger import Ledger
from axlewright.driveline import housing_loads
from axlewright.quantities.estimate import Plain
from axlewright.quantities.sampling import Samples
from axlewright.quantities.working import Nominal, Traced, steps, tracing
from axlewright.studies.angles import angles_study
from axlewright.studies.load_path import load_path
from axlewright.suspension.forces import link_forces
from axlewright.suspension.housing_wrenches import (
    LOADS,
    bending,
    pulling,
    sections,
    share,
    tube_brackets,
    worst_cut,
    wrenches,
)
from axlewright.suspension.kinds import parallel_four_link
from axlewright.suspension.linkage import Guide, Link
from axlewright.suspension.loads import braking_load, cornering_load, launch_load
from axlewright.suspension.pose import ride_height

AXLES = runpy.run_path(str(Path(__file__).with_name("suspension_kinds.py")))
LOWER, RADIUS, WHEELS = AXLES["LOWER"], AXLES["RADIUS"], AXLES["WHEELS"]
EXAMPLES = Path(__file__).parents[2] / "examples"
OLD = [
    "copper-wren-tired", "copper-wren-upgraded", "tin-pelican-tired", "tin-pelican-upgraded",
]  # fmt: skip
INCH = 0.0254
HEAD = 'format = 1\n[gearbox]\nkind = "manual"\n[axle]\nring_gear = "8.5"\n'
KIND = '[suspension]\nkind = "coil-link"\n'
POINTS = """
[points]
wheel_center = ["0 in", "29 in", "13 in"]
lower_body = ["20 in", "18 in", "9 in"]
lower_axle = ["0 in", "20 in", "8 in"]
upper_body = ["10 in", "14 in", "17 in"]
upper_axle = ["0 in", "10 in", "18 in"]
spring_body = ["0 in", "18 in", "21 in"]
spring_axle = ["0 in", "18 in", "14 in"]
"""
BUSHES = '[bushes]\nlower_stiffness = "4 kN/mm"\nupper_stiffness = "4 kN/mm"\n'


def car(rest):
    return resolve(read_build(HEAD + rest, "build.toml"))


def nominal(build):
    return Plain().tree(build.machine)


def old(name):
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    return read_build(text, f"{name}.toml")


# --- builds without readings


@pytest.mark.parametrize("name", OLD)
def test_builds_without_readings_are_answered_as_ever(name, monkeypatch):
    source = old(name)
    assert Ledger(source.build).readings is None
    now = load_path(resolve(source), count=500).report

    def only_keys(book, path, find, otherwise=None):
        return book.quantity(path, otherwise)

    for module in (axle_ends, driveshaft, housing, launch_train, pushing):
        monkeypatch.setattr(module, "read_or", only_keys)
    before = load_path(resolve(source), count=500).report
    assert repr(now) == repr(before)
    assert resolve(source).machine.housing.held is None


# --- readings in place of assumptions, by hand


def test_track_from_faces_and_offset():
    """58 in over the faces, wheels 1/2 in of positive offset: 57 in between the tires."""
    build = car('[wheel]\noffset = "0.5 in"\n[centre]\nface_to_face = "58 in"\n')
    assert nominal(build).car.track == pytest.approx(57 * INCH)
    assert build.cautions == ()


def test_track_from_the_old_axle_is_told():
    build = car('[wheel]\noffset = "0.5 in"\n[fit]\nface_to_face = "60 in"\n')
    assert nominal(build).car.track == pytest.approx(59 * INCH)
    assert any("wheel faces of the old axle" in c for c in build.cautions)
    other = car(
        '[wheel]\noffset = "0.5 in"\n[fit]\nface_to_face = "60 in"\n[centre]\nnose = "12 in"\n'
    )
    assert nominal(other).car.track == pytest.approx(58 * INCH)  # the key's own default


def test_track_and_seat_from_points():
    machine = nominal(car(KIND + POINTS))
    assert machine.car.track == pytest.approx(58 * INCH)
    assert machine.housing.seat_inset == pytest.approx(11 * INCH)


def test_wheel_lever_takes_the_longer_end():
    """0.4, 2.5 and 0.3 less 0.5 in; on the right a spacer of 1/4 in more."""
    rest = (
        '[wheel]\noffset = "0.5 in"\n[ends]\nbearing_width = "0.8 in"\nbearing_to_flange = "2.5 in"'
        '\nhat = "0.3 in"\n[ends.right]\nspacer = "0.25 in"\n'
    )
    assert nominal(car(rest)).wheel_end.lever == pytest.approx(2.95 * INCH)


def test_shafts_that_were_measured_twist_without_their_spline():
    build = car('[centre]\nleft_shaft = "29 in"\nright_shaft = "28 in"\n')
    plain = Plain()
    machine, launching = plain.tree(build.machine), plain.tree(build.launching)
    held_length = machine.shaft.spline.engagement
    ratio = launching.twist.right_shaft_stiffness / launching.twist.left_shaft_stiffness
    assert ratio == pytest.approx((29 * INCH - held_length) / (28 * INCH - held_length))


def test_driveshaft_length_from_joints_seal_or_points():
    assert nominal(car('[angles]\njoint_to_joint = "48 in"\n')).driveshaft.length == pytest.approx(
        48 * INCH
    )
    seal = '[angles]\nseal_to_joint = "53 in"\n[slip]\nbottomed_reach = "4 in"\ngap = "1 in"\n'
    assert nominal(car(seal)).driveshaft.length == pytest.approx(48 * INCH)
    ends = '[points]\npinion_joint = ["12 in", "0 in", "12 in"]\n'
    ends += 'gearbox_joint = ["60 in", "0 in", "26 in"]\n'
    assert nominal(car(ends)).driveshaft.length == pytest.approx(50 * INCH)


def test_working_angle_with_the_nose_risen():
    """Level shaft of 48 in and pinion of 12 in nose 2 deg down that rises by 3 deg, by hand."""
    build = car(
        '[driveshaft]\nlength = "48 in"\n[centre]\nnose = "12 in"\n[angles]\ngearbox = "0.5 deg"\n'
        'driveshaft = "0 deg"\npinion = "-2 deg"\nfloor = "0 deg"\ngauge_zero = "0 deg"\n'
        'pinion_rise = "3 deg"\ngearbox_left = "0 in"\npinion_left = "0 in"\n'
    )
    low, high = math.radians(-2), math.radians(1)
    up = 12 * (math.sin(high) - math.sin(low))
    forward = 12 * (math.cos(high) - math.cos(low))
    shaft = math.atan2(-up, 48 - forward)
    expected = max(high - shaft, math.radians(0.5) - shaft)
    assert nominal(build).driveshaft.joint_angle == pytest.approx(expected, abs=1e-12)


def test_a_car_that_hung_tells_no_angles_and_no_points():
    rest = '[fit]\nstate = "hanging"\n[angles]\njoint_to_joint = "40 in"\n' + KIND + POINTS
    machine = nominal(car(rest))
    assert machine.driveshaft.length == pytest.approx(50 * INCH)
    assert machine.housing.held is None
    assert machine.housing.seat_inset == nominal(car(KIND)).housing.seat_inset


def test_a_stated_value_stands_and_a_contradiction_is_told_with_both():
    readings = '[angles]\njoint_to_joint = "48 in"\n'
    build = car('[driveshaft]\nlength = "52 in"\n' + readings)
    assert nominal(build).driveshaft.length == pytest.approx(52 * INCH)
    (said,) = build.cautions
    assert said.startswith("driveshaft.length: 52 in is stated, but the readings say 48 in")
    assert car('[driveshaft]\nlength = "48.2 in"\n' + readings).cautions == ()


def test_readings_that_contradict_each_other_are_told():
    ends = (
        '[ends]\nbrake_space = "2.5 in"\nbearing_to_flange = "2.48 in"\nbearing_width = "0.85 in"\n'
        'bearing_pocket = "{}"\n'
    )
    assert car(ends.format("0.83 in")).cautions == ()
    assert any("contradict each other" in c for c in car(ends.format("1.83 in")).cautions)


# --- instant center and mounts of the links, for the launch


def mount_of(build):
    return Plain().tree(build.launching).mount


def test_instant_center_of_the_links_by_hand():
    """Seen from the side: lower link rises 1 in 20 through 8 in, upper falls 1 in 10 from 18 in.

    Straight lines z = 8 + x/20 and z = 18 - x/10 meet 66 2/3 in ahead, 11 1/3 in up.
    """
    mount = mount_of(car(KIND + POINTS))
    ahead, up = 200 / 3 * INCH, 34 / 3 * INCH
    assert mount.instant_center_ahead == pytest.approx(ahead, rel=1e-9)
    assert mount.instant_center_height == pytest.approx(up, rel=1e-9)
    assert mount.reaction_arm == pytest.approx(1 / ahead, rel=1e-9)
    assert mount.thrust_slope == pytest.approx((up - 13 * INCH) / ahead, rel=1e-9)


def test_parallel_links_have_a_slope_and_no_arm():
    text = POINTS.replace('["10 in", "14 in", "17 in"]', '["10 in", "14 in", "18.5 in"]')
    build = car(KIND + text)
    mount = mount_of(build)
    assert mount.reaction_arm == pytest.approx(0.0, abs=1e-9)
    assert mount.thrust_slope == pytest.approx(1 / 20, rel=1e-9)
    drawn = Samples(1, 50)
    assert np.all(np.isfinite(drawn.tree(build.launching).mount.thrust_slope))


def test_bushes_are_needed_for_stiffness_and_said_to_be_the_bushes_alone():
    without, with_them = car(KIND + POINTS), car(KIND + POINTS + BUSHES)
    usual = mount_of(car(KIND))
    assert mount_of(without).windup_stiffness == usual.windup_stiffness
    assert mount_of(without).stiffness == usual.stiffness
    found = mount_of(with_them)
    assert found.windup_stiffness != usual.windup_stiffness
    assert any("bushes alone" in c for c in with_them.launching.cautions)


def test_stiffness_of_four_level_links_by_hand():
    """Level parallel links in bushes: four bars of 2 kN/mm (two bushes of 4 in series).

    Lower pair h1 below and upper pair h2 above the axle line: k_x is the sum, the axle turns about
    the height e where a push does not turn it, k about the axle line is k_x2 * sum k h^2 / sum k.
    """
    text = POINTS.replace('["20 in", "18 in", "9 in"]', '["20 in", "20 in", "8 in"]')
    text = text.replace('["10 in", "14 in", "17 in"]', '["20 in", "10 in", "18 in"]')
    text += (
        'lateral_body = ["0 in", "-18 in", "13 in"]\nlateral_axle = ["0 in", "18 in", "13 in"]\n'
    )
    found = mount_of(car('[suspension]\nkind = "four-link"\n' + text + BUSHES))
    pair = 2 * 2e6
    low, high = -5 * INCH, 5 * INCH
    turning = pair * (low**2 + high**2) - (pair * (low + high)) ** 2 / (2 * pair)
    assert found.height == pytest.approx(0.0, abs=1e-9)
    assert found.stiffness == pytest.approx(2 * pair, rel=1e-9)
    assert found.windup_stiffness == pytest.approx(turning, rel=1e-9)


def test_a_torque_bar_is_believed_before_the_bushes():
    bar = KIND + 'windup_torque = "1000 lbf*ft"\nwindup_angle = "3 deg"\n'
    read, both = car(bar), car(bar + POINTS + BUSHES)
    assert mount_of(both).windup_stiffness == mount_of(read).windup_stiffness


def test_stated_stiffness_is_doubted_only_above_that_of_the_bushes():
    soft = KIND + 'windup_stiffness = "10 kN*m/rad"\n' + POINTS + BUSHES
    hard = KIND + 'windup_stiffness = "3000 kN*m/rad"\n' + POINTS + BUSHES
    assert not any(c.startswith("suspension.windup") for c in car(soft).launching.cautions)
    assert any(c.startswith("suspension.windup") for c in car(hard).launching.cautions)


def test_a_stated_instant_center_far_from_the_links_is_told():
    build = car(KIND + 'instant_center_ahead = "30 in"\n' + POINTS)
    assert any("66.67 in" in c and "30 in" in c for c in build.launching.cautions)
    assert mount_of(build).instant_center_ahead == pytest.approx(30 * INCH)


def test_links_that_hold_nothing_leave_the_class_and_say_so():
    """Upper links straight ahead like the lower ones, and no rod: nothing holds it sideways."""
    text = POINTS.replace('"14 in", "17 in"', '"10 in", "17 in"')
    text = text.replace('["20 in", "18 in", "9 in"]', '["20 in", "20 in", "9 in"]')
    build, usual = car(KIND + text), mount_of(car(KIND))
    assert mount_of(build).instant_center_ahead == usual.instant_center_ahead
    assert any("cannot be worked out" in c for c in build.launching.cautions)
    assert build.machine.housing.held is None
    assert any("not by the forces of its links" in c for c in build.cautions)


def test_the_working_of_readings_opens():
    build = car(KIND + POINTS + BUSHES)
    with tracing() as traced:
        filler = Nominal()
        machine, launching = filler.tree(build.machine), filler.tree(build.launching)
    assert isinstance(machine.car.track, Traced)
    assert {s.title for s in steps(machine.car.track.node)} & {
        "Tire center to tire center, from the places of both; the right one is below zero."
    }
    slope = launching.mount.thrust_slope
    assert isinstance(slope, Traced) and slope.node.kind == "solve"
    assert slope.node.arguments["lower_body up"].estimate.origin == "measured"
    assert traced.untracked == []


# --- forces of the links in tubes and brackets

SEATS = tuple(
    Guide((0.0, s * 0.5, RADIUS), (0.0, s * 0.5, RADIUS), (0.0, 0.0, -1.0)) for s in (1.0, -1.0)
)
ALL = {**AXLES["held"](), **AXLES["giving"]()}


@pytest.mark.parametrize("name", ALL)
def test_every_unit_load_is_in_balance(name):
    w = wrenches(ALL[name], SEATS, RADIUS)
    gears = np.zeros((len(LOADS), 3))
    gears[0, 1], gears[1, 0] = -1.0, -1.0
    assert w.force.sum(axis=1) == pytest.approx(0.0, abs=1e-9)
    assert w.moment.sum(axis=1) + gears == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("name", [n for n in ALL if not n.startswith("leaf") and "Watt" not in n])
def test_sums_of_unit_loads_are_the_forces_of_the_whole_axle(name):
    """Launch, braking and bend of the suspension's own statics, wheels and gears in one body."""
    linkage = ALL[name]
    w, pose = wrenches(linkage, SEATS, RADIUS), ride_height(linkage)
    push, ratio, left, right, side = 6000.0, 3.7, 3900.0, 4100.0, 5000.0
    torque = push * RADIUS
    whole = {
        "launch": (launch_load(pose, push, RADIUS, ratio, left, right),
                   [torque, torque / ratio, push / 2, 0, left, right, 0, 0]),
        "brake": (braking_load(pose, push, RADIUS, left, right),
                  [0, 0, 0, push / 2, left, right, 0, 0]),
        "bend": (cornering_load(pose, side, RADIUS, left, right),
                 [0, 0, 0, 0, left, right, side * left / (left + right),
                  side * right / (left + right)]),
    }  # fmt: skip
    for load, amounts in whole.values():
        forces = link_forces(pose, load, SEATS).on_axle
        summed = np.einsum("l,lgx->gx", np.array(amounts, dtype=float), w.force)
        for n, piece in enumerate(linkage.names):
            if piece in w.names:
                assert summed[w.names.index(piece)] == pytest.approx(forces[n], abs=1e-6)


def level(seat=0.5, low=0.2, high=0.45):
    """Level parallel four-link: all links and springs in two planes at the seats."""
    lower = Link((0.6, seat, RADIUS - low), (0.0, seat, RADIUS - low), 2e6)
    upper = Link((0.6, seat, RADIUS + high), (0.0, seat, RADIUS + high), 2e6)
    rod = Link((0.0, -0.5, RADIUS), (0.0, 0.5, RADIUS), 2e6)
    return wrenches(parallel_four_link(WHEELS, lower, upper, rod), SEATS, RADIUS)


def test_links_of_a_level_four_link_by_hand():
    """Each side: both links take the push, and half the torque as a couple about the axle line.

    lower + upper = -push, high * upper - low * lower = torque / 2 (nose up is held down).
    """
    low, high, push, torque = 0.2, 0.45, 3000.0, 2200.0
    w = level()
    amounts = pulling(weight=4000.0, ring=torque, thrust=push)
    upper = (torque / 2 - low * push) / (low + high)
    lower = -push - upper
    for side in ("left", "right"):
        for name, by_hand in ((f"{side} lower link", lower), (f"{side} upper link", upper)):
            found = amounts @ w.force[:, w.names.index(name)]
            assert found == pytest.approx([by_hand, 0.0, 0.0], abs=1e-6)
    braked = pulling(weight=4000.0, brake=push)
    upper = (low * push - RADIUS * push) / (low + high)
    found = braked @ w.force[:, w.names.index("left upper link")]
    assert found[0] == pytest.approx(upper, abs=1e-6)


def test_tubes_of_a_level_four_link_are_those_of_the_share_model():
    """Links and springs in one plane at each seat, no driveshaft torque: both models are one.

    The tube takes half the torque of the ring gear, and bends by weight and push on the inset.
    Without the driveshaft's torque the share of one half is exact.
    """
    torque, push, weight, inset = 5200.0, 3000.0, 4100.0, 0.74 - 0.5
    amounts = pulling(weight=weight, ring=torque, thrust=push)
    cuts = sections(level(), 0.13)
    inside = [c for c in cuts if c.name.startswith("left tube at the left")]
    moment = amounts @ inside[0].moment
    fore_aft = housing_loads.seat_fore_aft_moment(push, inset)
    upright = housing_loads.seat_vertical_moment(weight, 1.0, inset)
    twist = housing_loads.launch_tube_torque(torque, 0.5)
    assert moment[1] == pytest.approx(twist, rel=1e-9)
    assert abs(moment[0]) == pytest.approx(upright, rel=1e-3)  # the cut lies 0.1 mm beside it
    assert abs(moment[2]) == pytest.approx(fore_aft, rel=1e-3)
    middle = amounts @ cuts[0].moment
    assert np.abs(middle) == pytest.approx([upright, twist, fore_aft], rel=1e-9)
    stress = worst_cut(cuts, amounts)[1]
    share_model = math.sqrt(upright**2 + fore_aft**2 + 0.75 * twist**2)
    assert stress == pytest.approx(share_model, rel=1e-3)


def test_a_torque_arm_leaves_the_tubes_only_what_the_lower_links_make():
    """The arm holds the centre: of the torque alone, lower links at the axle line take nothing."""
    arm = ALL["torque arm"]
    w = wrenches(arm, SEATS, RADIUS)
    assert w.station[w.names.index("torque arm")] == 0.0
    left = sections(w, 0.13)[0].moment[LOADS.index("ring"), 1]
    drop = RADIUS - LOWER[1][2]
    force = w.force[LOADS.index("ring"), w.names.index("left lower link")]
    assert left == pytest.approx(-drop * force[0] - LOWER[1][0] * force[2], abs=1e-9)
    assert abs(left) < 0.15


def test_a_bend_the_other_way_is_the_mirror_image():
    w = wrenches(ALL["triangulated"], SEATS, RADIUS)
    right = bending("right", (7000.0, 1500.0), (6300.0, 1350.0))
    left = bending("left", (7000.0, 1500.0), (6300.0, 1350.0))
    names = w.names
    one = right @ w.force[:, names.index("left lower link")]
    other = left @ w.force[:, names.index("right lower link")]
    assert one == pytest.approx(other * np.array([1.0, -1.0, 1.0]), abs=1e-6)
    part = w.moment[:, names.index("left upper link")]
    summed = sum(
        amount * share(part, load, 1, "left")
        for load, amount in (
            ("outer load", 7000.0), ("outer side", 6300.0),
            ("inner load", 1500.0), ("inner side", 1350.0),
        )
    )  # fmt: skip
    assert summed == pytest.approx(float(left @ part[:, 1]), abs=1e-9)


def test_links_near_the_middle_are_the_centers_own():
    w = wrenches(ALL["triangulated"], SEATS, RADIUS)
    names = [w.names[n] for n in tube_brackets(w, 0.13)]
    assert names == ["left lower link", "right lower link"]


# --- the load path with the links


def test_the_load_path_says_that_it_used_the_links_and_opens():
    build = car(KIND + POINTS)
    assert [c for c in build.cautions if "by the forces of the links at the places" in c]
    study = load_path(build, count=300)
    links = {link.link: link for link in study.report.links}
    for name in ("tube_joint", "tube", "brackets"):
        assert "places that were measured" in links[name].note
    opened = steps(study.nodes["brackets.bracket-weld-tears.demand"])
    assert opened[0].title.startswith("Torque about the tube that would shear")
    assert any(s.node.kind == "solve" and "lower link" in s.title for s in opened)
    assert any(s.node.name == "housing.lower_axle.up" for s in opened)


def test_without_the_wheels_places_the_share_stays_and_is_told():
    text = "\n".join(li for li in POINTS.splitlines() if not li.startswith("wheel_center"))
    build = car(KIND + text)
    assert build.machine.housing.held is None
    assert any("points.wheel_center" in c for c in build.cautions)
    tubes = [load_path(b, count=300).report.links[-3:] for b in (build, car(KIND))]
    assert repr(tubes[0]) == repr(tubes[1])


@pytest.mark.parametrize("kind", ["leaf", "four-link", "three-link", "torque arm", "ladder bars"])
def test_every_kind_of_suspension_reaches_the_verdict(kind):
    rod = (
        'lateral_body = ["-5 in", "-18 in", "14 in"]\nlateral_axle = ["-5 in", "18 in", "13 in"]\n'
    )
    more = {
        "leaf": 'leaf_front_eye = ["24 in", "21 in", "11 in"]\n'
        'leaf_seat = ["0 in", "21 in", "10 in"]\nleaf_rear_eye = ["-30 in", "21 in", "12 in"]\n'
        'shackle_top = ["-31 in", "21 in", "16 in"]\n',
        "four-link": "",
        "three-link": rod,
        "torque arm": rod + 'arm_front = ["45 in", "2 in", "14 in"]\n',
        "ladder bars": rod + 'bar_pivot = ["32 in", "14 in", "11 in"]\n',
    }
    text = POINTS.replace('["0 in", "10 in", "18 in"]', '["0 in", "2 in", "19 in"]')
    study = load_path(car(f'[suspension]\nkind = "{kind}"\n' + text + more[kind]), count=300)
    for link in study.report.links[-3:]:
        assert "places that were measured" in link.note
        assert math.isfinite(link.breaks.margin.value) and link.breaks.margin.value > 0.0
        assert link.breaks.margin.low <= link.breaks.margin.value <= link.breaks.margin.high


# --- the brake hose over the travel


@pytest.mark.parametrize(
    "told", ['[brakes]\nhose_free = "14 in"\n', '[fit]\nhose_slack = "4 in"\n{fit}']
)
def test_the_hose_is_pulled_by_droop_alone_where_the_axle_moves_straight(told):
    """Hose of 14 in from 10 in straight above its end: 3 in of droop leave one inch."""
    travel = 'bump = "3 in"\ndroop = "3 in"\n'
    text = told.format(fit=travel) if "{fit}" in told else told + "[fit]\n" + travel
    points = (
        '[points]\nhose_body = ["0 in", "0 in", "25 in"]\nhose_axle = ["0 in", "0 in", "15 in"]\n'
    )
    report = angles_study(car(text + points), count=20)
    (room,) = [r for r in report.rooms if "hose" in r.what]
    assert room.least == pytest.approx(1 * INCH, abs=1e-6)
    assert room.holds and room.wanted == pytest.approx(0.25 * INCH)
    assert room.where == "both wheels 3.0 in down"


# --- oil over the front pinion bearing with the nose as it should be


def test_oil_over_the_pinion_as_it_should_be_set():
    """By hand from hole and bearing in the car's axes, and in the settings; else left out."""
    angles = (
        '[angles]\ngearbox = "3 deg"\ndriveshaft = "2 deg"\npinion = "-1 deg"\nfloor = "0 deg"\n'
        'gauge_zero = "0 deg"\n'
    )
    hole = '[centre]\nfill_hole_up = "-1.5 in"\nfill_hole_behind = "6 in"\nbearing_ahead = "9 in"\n'
    build = car(angles + hole)
    report = angles_study(build, count=20)
    nose, drop = report.findings["static"].value, nominal(build).gears.offset
    by_hand = (drop - 1.5 * INCH) * math.cos(nose) - 15 * INCH * math.sin(nose)
    assert report.findings["oil_bearing"].value == pytest.approx(by_hand, abs=1e-12)
    assert "oil_bearing" in {s.number for s in report.settings}
    assert "oil_bearing" not in angles_study(car(angles), count=20).findings
