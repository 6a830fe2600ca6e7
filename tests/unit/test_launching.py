"""The launching car: every leaf stated, derived or assumed, and nothing of it in the load path."""

import dataclasses
import random
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlewright.build.model import Build
from axlewright.build.problems import BuildError
from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.catalogue import rows
from axlewright.catalogue.load import rows_of
from axlewright.quantities.estimate import Derived, Estimate, Kinds, Mixture, Plain, leaves
from axlewright.quantities.fields import dimension_of, meta_of, subsection, walk
from axlewright.quantities.sampling import Samples
from axlewright.quantities.working import Nominal, tracing
from axlewright.vehicle import axle_location, lash, masses, tire_curve, torque_curve

HEAD = 'format = 1\n[gearbox]\nkind = "{kind}"\n{gearbox}[axle]\nring_gear = "8.5"\n'
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
KINDS = ("leaf", "four-link", "three-link", "torque arm", "ladder bars", "coil-link")
COUNT = 400


def car(rest="", kind="manual", gearbox=""):
    return resolve(read_build(HEAD.format(kind=kind, gearbox=gearbox) + rest, "build.toml"))


def numbers(node, path=""):
    """Every number of a filled tree with its path."""
    if dataclasses.is_dataclass(node):
        for f in dataclasses.fields(node):
            yield from numbers(getattr(node, f.name), f"{path}.{f.name}".lstrip("."))
    elif isinstance(node, tuple):
        for n, inner in enumerate(node):
            yield from numbers(inner, f"{path}[{n}]")
    elif not isinstance(node, str) and node is not None:
        yield path, node


def plain(resolved):
    return Plain().tree(resolved.launching)


def sampled(resolved, count=COUNT):
    filler = Samples(1, count)
    return filler.tree(resolved.machine), filler.tree(resolved.launching)


BUILDS = {
    "manual": car(),
    "automatic": car(kind="automatic"),
    **{p.stem: resolve(read_build(p.read_text(encoding="utf-8"), p.name)) for p in EXAMPLES},
    **{k: car(f'[suspension]\nkind = "{k}"\n') for k in KINDS},
    **{k: car(f'[wheels]\ngrip_class = "{k}"\n') for k in rows_of(rows.Tire)},
    "boosted": car('[engine]\nboost = "12 psi"\n', kind="automatic"),
}


# ------------------------------------------------------------------------------- it is whole


@pytest.mark.parametrize("name", BUILDS)
def test_every_number_is_finite_and_of_a_sane_sign(name):
    _, filled = sampled(BUILDS[name])
    may_be_negative = {"mount.thrust_slope", "mount.height"}
    for path, value in numbers(filled):
        assert np.all(np.isfinite(value)), path
        if path not in may_be_negative:
            assert np.all(np.asarray(value) > 0.0), path


@pytest.mark.parametrize("name", BUILDS)
def test_nominal_values_lie_inside_their_samples(name):
    _, filled = sampled(BUILDS[name], 2000)
    for (path, nominal), (_, samples) in zip(
        numbers(plain(BUILDS[name])), numbers(filled), strict=True
    ):
        low, high = np.min(samples), np.max(samples)
        assert low - 1e-9 * abs(low) <= nominal <= high + 1e-9 * abs(high), path


@pytest.mark.parametrize("name", BUILDS)
def test_the_curve_rises_in_speed_and_tops_at_the_torque_as_run(name):
    machine, filled = sampled(BUILDS[name])
    speeds = np.stack(np.broadcast_arrays(*filled.curve.speeds, np.zeros(COUNT))[:-1])
    torques = np.stack(np.broadcast_arrays(*filled.curve.torques))
    assert np.all(np.diff(speeds, axis=0) > 0.0)
    np.testing.assert_allclose(torques.max(axis=0), machine.engine.torque, rtol=1e-12)
    assert len(filled.curve.speeds) == len(filled.curve.torques) >= 2


@pytest.mark.parametrize("name", BUILDS)
def test_every_leaf_says_what_it_is_and_where_from(name):
    for leaf in leaves(BUILDS[name].launching).values():
        assert leaf.means and leaf.source, leaf.path
        assert leaf.origin in {"measured", "stated", "assumed", "catalogue"}


def test_the_working_tracks_every_argument():
    for name, resolved in BUILDS.items():
        with tracing() as traced:
            tree = Nominal().tree(resolved.launching)
        assert traced.untracked == []
        soft = ["vehicle.tire_curve.tire_spring_rate(tire_pressure)"]
        assert list(traced.outside) == (soft if name == "slick" else [])
        assert all(hasattr(v, "node") for _, v in numbers(tree))


def paths(node, found):
    """Every leaf under its path, derived and mixed ones too."""
    if isinstance(node, Estimate | Mixture | Derived):
        found.setdefault(node.path, []).append(node)
    inner = {
        Mixture: lambda n: n.options,
        Derived: lambda n: tuple(n.arguments.values()),
        tuple: lambda n: n,
    }.get(type(node))
    if inner is not None:
        for part in inner(node):
            paths(part, found)
    elif dataclasses.is_dataclass(node) and not isinstance(node, Estimate | Kinds):
        for f in dataclasses.fields(node):
            paths(getattr(node, f.name), found)
    return found


@pytest.mark.parametrize("name", BUILDS)
def test_one_path_means_one_thing_in_both_trees(name):
    # A filler works out each path once: two leaves under one path would be mixed up.
    resolved = BUILDS[name]
    found = paths(resolved.launching, paths(resolved.machine, {}))
    fill = Plain()
    for path, same in found.items():
        assert len({type(s) for s in same}) == 1, path
        values = {Plain().fill(s) for s in same}
        assert len(values) == 1, path
        assert fill.fill(same[0]) in values


def test_leaves_of_both_trees_share_their_draws():
    machine, filled = sampled(BUILDS["manual"])
    np.testing.assert_array_equal(filled.curve.torques[4], machine.engine.torque)
    reference = machine.car.mass * machine.car.rear_share * 9.80665 / 2
    np.testing.assert_allclose(filled.tire.grip_reference_load, reference)


# ------------------------------------------------------------------------------- it stays apart


def test_the_load_path_does_not_read_it():
    known = set(leaves(BUILDS["copper-wren-tired"].machine))
    for path in ("driver.rollout", "suspension.lean", "wheels.peak_slip", "engine.curve.sag"):
        assert not any(p.startswith(path) for p in known)
    assert "driver.rollout" in leaves(BUILDS["copper-wren-tired"].launching)


def test_resolving_alone_does_not_resolve_it():
    resolved = car()
    assert "launching" not in vars(resolved)
    assert resolved.launching is resolved.launching
    assert "numba" not in sys.modules or resolved.launching is not None


# ------------------------------------------------------------------------------- what is stated

STATED = {
    "car.drag_area": ("8 ft^2", "body.drag_area"),
    "engine.motored_torque": ("60 lbf*ft", "curve.motored_torque"),
    "engine.torque_speed": ("4200 rpm", "curve.speeds[4]"),
    "clutch.slide_ratio": ("90 %", "coupling.slide_ratio"),
    "driveshaft.stiffness": ("250 lbf*ft/deg", "twist.driveshaft_stiffness"),
    "suspension.mount_stiffness": ("2.0 kN/mm", "mount.stiffness"),
    "suspension.mount_height": ("1 in", "mount.height"),
    "suspension.windup_stiffness": ("18 kN*m/rad", "mount.windup_stiffness"),
    "suspension.roll_torque_share": ("70 %", "mount.roll_torque_share"),
    "suspension.instant_center_ahead": ("45 in", "mount.instant_center_ahead"),
    "suspension.instant_center_height": ("10 in", "mount.instant_center_height"),
    "driver.throttle_time": ("150 ms", "driver.throttle_rise"),
    "driver.brake_time": ("100 ms", "driver.brake_release"),
    "driver.trans_brake_time": ("40 ms", "driver.trans_brake_release"),
    "driver.shift_time": ("350 ms", "driver.shift_time"),
    "driver.shift_speed": ("6000 rpm", "driver.shift_speed"),
    "driver.rollout": ("10 in", "driver.rollout"),
    "use.wet_grip": ("45 %", "driver.wet_grip_share"),
}


def with_key(path, text):
    table, _, name = path.rpartition(".")
    return (
        car(f'{name} = "{text}"\n') if table == "axle" else car(f'[{table}]\n{name} = "{text}"\n')
    )


def at(filled, place):
    return dict(numbers(filled))[place]


@pytest.mark.parametrize("path", STATED)
def test_a_stated_value_goes_before_what_is_assumed(path):
    text, place = STATED[path]
    resolved = with_key(path, text)
    said = resolved.source.build
    for part in path.split("."):
        said = getattr(said, part)
    assert at(plain(resolved), place) == pytest.approx(said.value, rel=1e-12)
    known = leaves(resolved.launching)[path]
    assert known.origin == "stated"
    assert known.text == text


def test_a_stated_curve_is_brought_to_the_torque_as_run():
    points = '[["2000 rpm", "380 lbf*ft"], ["4200 rpm", "620 lbf*ft"], ["6000 rpm", "500 lbf*ft"]]'
    alone = plain(car(f"[engine]\ncurve = {points}\n"))
    assert alone.curve.torques[1] == pytest.approx(620 * 1.3558179, rel=1e-6)
    assert alone.curve.torques[0] / alone.curve.torques[1] == pytest.approx(380 / 620)
    lifted = plain(
        car(f'[engine]\ncurve = {points}\nmeasured_at = "wheels"\nwheel_loss = "20 %"\n')
    )
    assert lifted.curve.torques[2] == pytest.approx(500 * 1.3558179 / 0.8, rel=1e-6)
    np.testing.assert_allclose(lifted.curve.speeds, np.array([2000, 4200, 6000]) * np.pi / 30)


def test_stated_power_lies_on_the_curve():
    said = 'torque = "500 lbf*ft"\ntorque_speed = "4000 rpm"\npower = "480 hp"\n'
    filled = plain(car(f'[engine]\n{said}power_speed = "5600 rpm"\n'))
    assert filled.curve.speeds[6] == pytest.approx(5600 * np.pi / 30)
    assert filled.curve.torques[6] * filled.curve.speeds[6] == pytest.approx(480 * 745.69987)


def test_power_alone_puts_the_peak_above_its_torque():
    filled = plain(car('[engine]\npower = "480 hp"\npower_speed = "5600 rpm"\n'))
    assert filled.curve.torques[6] * filled.curve.speeds[6] == pytest.approx(480 * 745.69987)
    assert max(filled.curve.torques) > filled.curve.torques[6]


def test_yoke_play_gives_the_gap_of_the_shafts():
    loose, tight = (
        plain(car(f'ratio = "4.0"\nbacklash = "0.008 in"\nyoke_play = "{deg} deg"\n'))
        for deg in (12, 4)
    )
    mesh = lash.mesh_play(0.008 * 0.0254, 8.5 * 0.0254, 4.0)
    assert loose.twist.shaft_half_gap == pytest.approx((np.radians(12) - mesh) / 8, rel=0.02)
    assert tight.twist.shaft_half_gap < loose.twist.shaft_half_gap


def test_sides_may_differ():
    filled = plain(car('left_shaft_length = "28 in"\nright_shaft_length = "32 in"\n'))
    ratio = filled.twist.left_shaft_stiffness / filled.twist.right_shaft_stiffness
    assert ratio == pytest.approx(32 / 28)


def test_weights_of_axle_and_wheels_add_up():
    filled = plain(car('mass = "180 lb"\n[wheels]\nweight = "52 lb"\n'))
    assert filled.body.axle_mass == pytest.approx(284 * 0.45359237)


def test_windup_read_under_torque():
    filled = plain(car('[suspension]\nwindup_torque = "1000 N*m"\nwindup_angle = "2 deg"\n'))
    assert filled.mount.windup_stiffness == pytest.approx(1000 / np.radians(2))


def test_anti_squat_sets_the_height_of_the_instant_center():
    both = 'anti_squat = "90 %"\ninstant_center_ahead = "50 in"\n'
    filled = plain(car(f'[suspension]\n{both}[car]\ncg_height = "21 in"\nwheelbase = "105 in"\n'))
    assert filled.mount.instant_center_height == pytest.approx(0.9 * 50 * 0.2 * 0.0254)


def test_warm_is_the_grip_as_stated_and_cold_is_less():
    warm, cold, hot = (
        plain(car(f'[wheels]\ngrip = "1.3"\ntread = "{t}"\n')) for t in ("warm", "cold", "hot")
    )
    assert warm.tire.grip == pytest.approx(1.3)
    assert cold.tire.grip < warm.tire.grip < hot.tire.grip


def test_grip_falls_on_both_sides_of_the_best_tread_temperature():
    at = {
        t: plain(car(f'[wheels]\ngrip_class = "slick"\ntread_temperature = "{t} °F"\n')).tire.grip
        for t in (50, 145, 240)
    }
    assert at[50] < 0.9 * at[145] and at[240] < 0.9 * at[145]
    assert at[145] == pytest.approx(plain(BUILDS["slick"]).tire.grip)
    both = car('[wheels]\ntread = "cold"\ntread_temperature = "120 °F"\n')
    assert any(c.startswith("wheels.tread is not used") for c in both.launching.cautions)


def test_pressure_hardens_the_tire_and_leaves_its_grip():
    soft, hard = (plain(car(f'[wheels]\npressure = "{p} psi"\n')) for p in (20, 34))
    assert soft.tire.vertical_stiffness < hard.tire.vertical_stiffness
    assert soft.tire.grip == hard.tire.grip


def test_a_slick_answers_later_than_a_street_tire():
    street, slick = plain(BUILDS["performance street"]), plain(BUILDS["slick"])
    assert slick.tire.relaxation_length > street.tire.relaxation_length
    assert slick.tire.peak_slip > street.tire.peak_slip


def test_own_tires_may_leave_the_launch_out():
    own = (
        '[wheels]\ngrip_class = "mine"\n[parts.tires."mine"]\ngrip_street = "1.1"\n'
        'grip_strip = "1.4"\nload_sensitivity = "0.02 1/kN"\n'
    )
    filled = plain(car(own))
    assert 0.05 < filled.tire.peak_slip < 0.3
    exact = plain(car(own + 'peak_slip = "11 %"\nrelaxation = "9 in"\npressure = "20 psi"\n'))
    assert exact.tire.peak_slip == pytest.approx(0.11)
    assert exact.tire.relaxation_length == pytest.approx(9 * 0.0254)


def test_the_days_air_is_used_where_it_is_stated():
    thin = '[engine.air]\npressure = "24.5 inHg"\ntemperature = "90 °F"\n'
    assert plain(car(thin)).body.air_density < 0.97 < plain(car()).body.air_density


def test_an_older_axle_rattles_more():
    gaps = [
        plain(car(f'condition = "{c}"\n')).twist.shaft_half_gap for c in ("new", "used", "tired")
    ]
    assert gaps == sorted(gaps) and gaps[0] < gaps[2]


def test_each_gear_has_its_own_input_inertia():
    filled = plain(car(gearbox='ratios = [3.0, 2.0, 1.0]\ninertia = "0.02 kg*m^2"\n'))
    half = filled.spin.driveshaft_inertia / 2
    np.testing.assert_allclose(
        filled.spin.input_inertia, [0.02 + half / 9, 0.02 + half / 4, 0.02 + half]
    )


# ------------------------------------------------------------------------------- what cannot be


@pytest.mark.parametrize(
    ("rest", "part"),
    [
        (
            '[engine]\ntorque_speed = "6000 rpm"\npower_speed = "5000 rpm"\n',
            "above the speed of peak power",
        ),
        (
            '[suspension]\nanti_squat = "90 %"\ninstant_center_height = "10 in"\n',
            "leave one out",
        ),
        ('[suspension]\nwindup_torque = "900 lbf*ft"\n', "needs windup_angle"),
        ('[suspension]\nwindup_angle = "2 deg"\n', "needs windup_torque"),
        (
            '[suspension]\nwindup_stiffness = "20 kN*m/rad"\nwindup_angle = "2 deg"\n',
            "said twice",
        ),
        (
            '[engine]\nrev_limit = "6000 rpm"\n[driver]\nshift_speed = "6500 rpm"\n',
            "above the rev limit",
        ),
        (
            '[parts.tires."x"]\ngrip_street = "1"\ngrip_strip = "1"\n'
            'load_sensitivity = "0 1/kN"\npeak_slip = "0"\n',
            "must be above zero",
        ),
    ],
)
def test_statements_that_cannot_all_be_true(rest, part):
    with pytest.raises(BuildError, match=part):
        car(rest)


def quantities():
    for path, info in walk(Build):
        if subsection(info) is None and dimension_of(info) and not path.startswith("engine.air"):
            yield path, meta_of(info)


def test_the_ends_of_what_is_possible_still_give_numbers():
    draw = random.Random(5)
    known = [(p, m) for p, m in quantities() if m.possible]
    tried = 0
    for _ in range(40):
        said = {}
        for path, meta in draw.sample(known, 6):
            table, _, name = path.rpartition(".")
            said.setdefault(table, {})[name] = draw.choice(meta.possible)
        text = "format = 1\n" + "".join(
            f"[{t}]\n"
            + {"gearbox": 'kind = "manual"\n', "axle": 'ring_gear = "8.5"\n'}.get(t, "")
            + "".join(f'{k} = "{v}"\n' for k, v in said.get(t, {}).items())
            for t in sorted({*said, "gearbox", "axle"})
        )
        try:
            resolved = resolve(read_build(text))
        except BuildError:
            continue
        tried += 1
        for path, value in numbers(plain(resolved)):
            assert np.isfinite(value), (path, text)
    assert tried > 10


# ------------------------------------------------------------------------------- properties

SHARE = st.floats(0.4, 0.97)


@settings(max_examples=50, deadline=None)
@given(slide=SHARE, slip=st.floats(0.03, 0.4), bend=st.floats(-1.0, 0.9))
def test_the_push_rises_to_its_peak_and_fades_beyond(slide, slip, bend):
    turn = tire_curve.tire_turn(slide, slip, bend)
    rise, shape = tire_curve.tire_rise(turn, slip), tire_curve.tire_shape(turn, bend)
    at_slip = np.linspace(0.0, 1.0, 201)
    turned = rise * at_slip
    push = np.sin(shape * np.arctan(turned - bend * (turned - np.arctan(turned))))
    step = np.diff(push)
    before = at_slip[1:] <= slip
    after = at_slip[:-1] >= slip
    assert np.all(step[before] > -1e-12)
    assert np.all(step[after] < 1e-12)
    assert push[-1] == pytest.approx(slide, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(sag=st.floats(0.0, 2.0), share=st.floats(0.0, 1.0), more=st.floats(0.0, 1.0))
def test_torque_rises_up_to_its_peak(sag, share, more):
    later = share + (1.0 - share) * more
    low, high = (torque_curve.share_below_peak(sag, s) for s in (share, later))
    assert 0.1 <= low <= high <= 1.0


@settings(max_examples=50, deadline=None)
@given(ahead=st.floats(0.3, 20.0), anti=st.floats(0.0, 2.0), height=st.floats(0.3, 0.8))
def test_thrust_slope_and_arm_lift_as_the_anti_squat_says(ahead, anti, height):
    # Lift of a thrust over what it moves to the rear: the anti-squat, whatever the radius.
    radius, base = 0.33, 2.7
    center = axle_location.height_for_anti_squat(anti, ahead, height, base)
    slope = axle_location.thrust_slope(center, ahead, radius)
    lift = slope + radius * axle_location.reaction_arm(ahead)
    assert lift / (height / base) == pytest.approx(anti, abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(mass=st.floats(600, 3000), share=st.floats(0.2, 0.8), axle=st.floats(40, 400))
def test_the_parts_of_the_body_make_the_car(mass, share, axle):
    front = masses.front_body_mass(mass, share)
    rear = masses.rear_body_mass(mass, share, axle)
    assert front > 0.0 and rear >= 0.2 * mass * share - 1e-9
    if mass * share * 0.8 > axle:
        assert front + rear + axle == pytest.approx(mass)
