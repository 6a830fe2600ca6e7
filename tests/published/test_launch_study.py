"""What the launch study makes of a build, against others' equations and closed forms."""

import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.build.reader import read_build
from axlewright.build.resolve import resolve
from axlewright.dynamics import launch_rows as at
from axlewright.dynamics.launch import launch_history
from axlewright.dynamics.launch_pack import pack
from axlewright.dynamics.launch_pulls import rolling
from axlewright.dynamics.launch_start import lifting_push, peak_slip, tire_push
from axlewright.quantities.estimate import Plain
from axlewright.studies.launch_setup import launch_cases

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
equations = importlib.import_module("reference_launch_equations")
Modes, INDEX, moment = equations.Modes, equations.INDEX, equations.moment

pytestmark = pytest.mark.published

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*-tired.toml"))
GRAVITY = 9.80665
HELD, FREE = Modes(0, 0, 0, 0, 0), Modes(0, 0, 1, 1, 0)
"""Frictions stuck; the same with the wheel brakes off."""


def cases_of(path):
    build = resolve(read_build(path.read_text(encoding="utf-8"), path.name))
    filler = Plain()
    found = launch_cases(filler.tree(build.machine), filler.tree(build.launching))
    return {c.case: c for c in found}


def state(case):
    """The start of a case in the order of the reference."""
    packed = pack(case.car, case.events)
    return [float(packed.row(place)[0]) for place in range(at.E, at.STUCK, at.LANES)]


STARTS = [
    (path, name)
    for path in EXAMPLES
    for name, case in cases_of(path).items()
    if float(np.asarray(case.events.axle_torque)) > 0.0
]


def test_starts_under_way_are_there():
    assert {name for _, name in STARTS} >= {"lift-off", "re-grip", "foot-brake", "shift", "water"}


@pytest.mark.parametrize(("path", "name"), STARTS, ids=lambda p: getattr(p, "stem", p))
def test_a_start_under_way_is_at_rest_on_its_springs(path, name):
    """Source: the second writing of the equations (tests/reference_launch_equations.py), which
    knows nothing of how the start was found: it must find no force that is left over.
    """
    case = cases_of(path)[name]
    modes = HELD if name == "foot-brake" else FREE
    rates, acting = moment(0.0, state(case), case.car, case.events, modes)
    found = {k: rates[i] for k, i in INDEX.items()}
    body = case.car.vehicle_mass - case.car.axle_mass
    weight = case.car.vehicle_mass * GRAVITY
    assert acting.axle == pytest.approx(case.events.axle_torque, rel=1e-9)
    assert abs(found["heave_rate"]) * body < 1e-6 * weight
    assert abs(found["axle_rate"]) * case.car.axle_mass < 1e-6 * weight
    assert abs(found["pitch_rate"]) * case.car.pitch_inertia < 1e-6 * weight
    assert abs(found["roll_rate"]) * case.car.roll_inertia < 1e-6 * weight
    assert abs(found["windup_rate"]) * case.car.housing_inertia < 1e-6 * acting.axle


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_load_moves_to_the_rear_as_in_the_books(path):
    """Rear load grows by force times height over wheelbase (Gillespie, Fundamentals of Vehicle
    Dynamics, steady acceleration; re-derived), left out what spinning wheels add and that the
    body's mass is taken at the height of the whole car's.
    """
    case = cases_of(path)["lift-off"]
    car = case.car
    story = launch_history(car, case.events, every=1e-3)
    push = story["left_force"][0] + story["right_force"][0]
    grown = story["left_load"][0] + story["right_load"][0]
    grown -= car.vehicle_mass * GRAVITY * car.rear_share
    lost = car.vehicle_mass * GRAVITY * (1.0 - car.rear_share) - story["front_load"][0]
    assert grown == pytest.approx(lost, rel=1e-6)
    assert grown == pytest.approx(push * car.cg_height / car.wheelbase, rel=0.08)


def test_a_foot_brake_launch_waits_at_the_torque_of_the_pump_law():
    """T = (n/K)² at stall times torque ratio and gears (closed form): what the shafts carry."""
    case = cases_of(next(p for p in EXAMPLES if "pelican" in p.name))["foot-brake"]
    car, made = case.car, case.car.converter
    assert made is not None
    pump = made.rated_stall_torque * (case.events.engine_speed / made.rated_stall_speed) ** 2
    axle = pump * made.stall_torque_ratio * car.gear_ratio * car.axle_ratio
    axle *= car.gearbox_efficiency * car.axle_efficiency
    story = launch_history(car, case.events, every=1e-3)
    before = story.time < 0.05
    assert story["axle"][before] == pytest.approx(np.full(before.sum(), axle), rel=2e-3)
    assert np.abs(story["road_speed"][before]).max() < 1e-6
    assert np.ptp(story["engine_speed"][before]) < 0.5


def test_a_lifted_front_end_balances_the_car():
    """With the front wheels just off the ground the push times the height of the whole car's
    mass balances its weight about the rear contact (closed form), wheels and axle counted apart.
    """
    car = cases_of(EXAMPLES[0])["lift-off"].car
    push = lifting_push(car)
    about = car.vehicle_mass * GRAVITY * (1.0 - car.rear_share) * car.wheelbase
    body_height = car.vehicle_mass * car.cg_height - car.axle_mass * car.tire_radius
    axle_part = push * car.axle_mass / car.vehicle_mass * car.tire_radius
    body_part = push * body_height / car.vehicle_mass
    assert body_part + axle_part == pytest.approx(about, rel=1e-12)


def test_the_most_that_tires_push_is_the_top_of_the_curve():
    """Largest of 20,000 places on the same curve (search by another way than halving)."""
    car = cases_of(EXAMPLES[0])["lift-off"].car
    slips = np.linspace(0.0, 1.0, 20_001)[:, None]
    pushes = tire_push(car, slips)
    assert tire_push(car, peak_slip(car)) == pytest.approx(float(np.max(pushes)), rel=1e-6)
    start = rolling(car, 15.0, 0.9)
    assert start.axle_torque / car.tire_radius <= 0.9 * float(np.max(pushes)) * (1 + 1e-9)
