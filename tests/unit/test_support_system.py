"""The support of the gear pair as a whole: rest, stiffness, load zones, play, warming, options."""

from __future__ import annotations

import importlib
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.hypoid.support import case, contributions, coupling, equilibrium, mesh, newton, warm
from axlewright.hypoid.support import duty as duty_module
from axlewright.hypoid.support.bearing import Bearings
from axlewright.hypoid.support.dials import LIMITS, beyond_limits, dials
from axlewright.hypoid.support.duty import shared_life
from axlewright.hypoid.support.newton import shifts
from axlewright.hypoid.support.opening import opening_rates, warm_lash_change
from axlewright.hypoid.support.system import System

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
cars = importlib.import_module("reference_support")

STEADY = mesh.steady
SMALL = {"large": 600.0, "small": 250.0}


def six(load):
    return np.concatenate([load.force, load.moment])


def of(six_numbers):
    return mesh.ToothLoad(six_numbers[:3], six_numbers[3:])


def moved(housed, torque, side=1.0, name="large"):
    rest = housed.rest(STEADY(cars.load(torque, side, name)))
    return housed.movement(rest), rest


# ------------------------------------------------------------------- forces, stiffness, energy


def test_force_and_stiffness_are_derivatives():
    row = replace(cars.worked_roller(1), crowned=True)
    bearings = Bearings([row])
    u = np.array([8e-6, 12e-6, -5e-6, 3e-4, -2e-4])
    closing = np.array([6e-6])
    step = np.array([1e-8, 1e-8, 1e-8, 1e-6, 1e-6])

    def energy(x):
        return np.array([bearings.respond(x[None], closing).energy])

    def force(x):
        return bearings.respond(x[None], closing).force[0]

    answer = bearings.respond(u[None], closing)
    slope = cars.by_differences(energy, u, step)[0]
    np.testing.assert_allclose(answer.force[0], slope, rtol=1e-5, atol=1e-6 * abs(slope).max())
    tangent = cars.by_differences(force, u, step)
    scale = np.sqrt(np.outer(np.diag(tangent), np.diag(tangent)))
    # Slices that are just touching have a kinked law (power 1/9 in the stiffness).
    np.testing.assert_allclose(answer.stiffness[0] / scale, tangent / scale, atol=2e-4)


@pytest.mark.parametrize(("name", "straddle"), cars.LAYOUTS)
def test_whole_tangent_is_the_derivative_of_the_rest(name, straddle):
    # Give at the mesh from the tangent against rests under slightly changed loads, one by one.
    housed = cars.housed(name, straddle)
    load = six(cars.load(SMALL[name], 1.0, name))
    rest = housed.rest(STEADY(of(load)))
    spread = housed.system.spread
    give = spread.T @ np.linalg.solve(rest.stiffness, spread)
    step = np.array([30.0, 30.0, 30.0, 1.0, 1.0, 1.0])

    def at(load):
        return spread.T @ housed.rest(STEADY(of(load)), rest).state

    found = cars.by_differences(at, load, step)
    scale = np.sqrt(np.outer(np.diag(give), np.diag(give)))
    # Slices that touch or lift on the way leave a few ten-thousandths to the differences.
    np.testing.assert_allclose(found / scale, give / scale, atol=1e-3)
    # Betti: what one load moves along another equals what the other moves along the one.
    np.testing.assert_allclose(found / scale, found.T / scale, atol=1e-3)


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_work_of_the_teeth_is_the_energy_of_the_springs(side):
    housed = cars.housed("large", True)
    system = housed.system

    def stored(rest):
        answer = system.bearings.respond(shifts(system, rest.state), housed.closing)
        return 0.5 * rest.state @ system.linear @ rest.state + answer.energy

    errors = []
    for count in (40, 80):
        teeth = [STEADY(cars.load(t, side)) for t in np.linspace(0.0, 1500.0, count + 1)]
        rests = housed.march(teeth)
        at = np.stack([system.spread.T @ r.state for r in rests])
        loads = np.stack([six(r.load) for r in rests])
        work = np.sum(0.5 * (loads[1:] + loads[:-1]) * np.diff(at, axis=0))
        errors.append(abs(work / (stored(rests[-1]) - stored(rests[0])) - 1.0))
    assert errors[0] < 1e-3
    assert errors[1] < 0.5 * errors[0]


# --------------------------------------------------------------------------------------- rest


@pytest.mark.parametrize(("name", "straddle"), cars.LAYOUTS)
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_forty_torques_from_nothing_to_far_beyond_a_launch(name, straddle, side):
    housed = cars.housed(name, straddle)
    torques = np.concatenate([[0.0], np.geomspace(0.1, 10.0 * SMALL[name], 39)])
    rests = housed.march([STEADY(cars.load(t, side, name)) for t in torques])
    assert max(r.residual for r in rests) <= newton.TOLERANCE
    assert max(r.mismatch for r in rests) <= coupling.MATCH
    assert max(r.steps for r in rests) <= 40
    climb = np.array([housed.movement(r).E for r in rests]) * side
    out = np.array([housed.movement(r).P for r in rests]) * side
    # Drive lets the pinion climb and pushes it out, coast does the opposite, the more the harder.
    assert climb[0] == pytest.approx(0.0, abs=1e-12)
    assert np.all(np.diff(climb) < 0.0)
    assert np.all(np.diff(out) > 0.0)


@pytest.mark.parametrize(("name", "straddle"), cars.LAYOUTS)
def test_rest_does_not_depend_on_where_the_search_begins(name, straddle):
    housed = cars.housed(name, straddle)
    load = STEADY(cars.load(SMALL[name], 1.0, name))
    plain = housed.movement(housed.rest(load))
    other = housed.rest(STEADY(cars.load(4.0 * SMALL[name], -1.0, name)))
    starts = [other, other.state]
    rng = np.random.default_rng(5)
    scatter = np.tile([2e-4, 2e-4, 2e-4, 2e-3, 2e-3], housed.system.size // 5)
    starts += [scatter * rng.normal(size=scatter.size) for _ in range(4)]
    for start in starts:
        assert cars.apart(housed.movement(housed.rest(load, start)), plain) < 1e-11


def test_drive_and_coast_push_both_gears_as_the_forces_say():
    housed = cars.housed()
    drive = dials(housed, moved(housed, 600.0)[1])
    coast = dials(housed, moved(housed, 600.0, -1.0)[1])
    # Axial forces of case B: pinion +40.3 and -30.4 kN, ring +10.6 and +23.9 kN for 1000 N·m.
    assert drive.pinion_axial > 0.0 > coast.pinion_axial
    assert 0.0 < drive.ring_axial < coast.ring_axial
    assert drive.pinion_lift < 0.0 < coast.pinion_lift
    # What lifts one gear presses the other down.
    assert drive.ring_lift > 0.0 > coast.ring_lift


def test_shares_of_all_parts_add_up_with_rollers_lifted_off():
    housed = cars.housed("small", True)
    rest = moved(housed, 2500.0, -1.0, "small")[1]
    total = np.sum(list(contributions.contributions(housed, rest).values()), axis=0)
    np.testing.assert_allclose(total, housed.movement(rest), rtol=1e-9)


# ---------------------------------------------------------------------------------- load zones


def test_zone_of_half_and_of_all_rollers():
    bearings = Bearings([cars.worked_roller(1)])
    housed = cars.housed()
    duties = housed.duties(housed.unloaded)
    assert all(d.load_zone == 1.0 for d in duties.values())
    across = np.array([[0.0, 20e-6, 0.0, 0.0, 0.0]])
    (half,) = duty_module.duties(bearings, across, np.zeros(1))
    assert half.load_zone == pytest.approx(0.5, abs=0.003)
    assert half.rollers_loaded == 9


def test_duty_follows_the_load():
    housed = cars.housed()
    calm = housed.duties(moved(housed, 200.0)[1])
    hard = housed.duties(moved(housed, 2000.0)[1])
    # The driven pinion is thrust out: the head bearing takes it, the tail bearing is relieved.
    assert hard["head bearing"].axial > calm["head bearing"].axial
    assert hard["tail bearing"].load_zone < calm["tail bearing"].load_zone
    for name, duty in hard.items():
        assert duty.believed_life < calm[name].believed_life
        assert duty.pressure > calm[name].pressure
        row = housed.system.bearings.rollers[housed.system.names.index(name)]
        assert duty.rib == pytest.approx(2.0 * np.sin(row.half_taper) * _total(housed, name, 2000))
    assert calm["head bearing"].cautions == ()
    beyond = housed.duties(moved(housed, 20000.0)[1])["head bearing"]
    assert any("4 GPa" in c for c in beyond.cautions)
    speed = 100.0
    life = calm["head bearing"]
    assert life.running_time(speed) == pytest.approx(2 * np.pi * life.believed_life / speed)


def test_several_bearings_live_shorter_than_the_shortest():
    housed = cars.housed()
    duties = list(housed.duties(moved(housed, 600.0)[1]).values())[:2]
    together = shared_life(duties)
    lives = [d.believed_life for d in duties]
    # Nine of ten each: chances multiply, exp(-Σ (L/L10)^(9/8) ln(1/0.9)) is 0.9 (closed form).
    chance = np.prod([0.9 ** ((together / life) ** (9 / 8)) for life in lives])
    assert chance == pytest.approx(0.9, rel=1e-12)
    idle = cars.housed(metal="aluminum", rises=(70.0, 70.0))
    assert shared_life([idle.duties(idle.unloaded)["ring side bearing"]]) == float("inf")


def test_slices_are_fine_enough():
    row = replace(cars.worked_roller(1), crowned=True)
    u = np.array([[8e-6, 25e-6, -5e-6, 5e-4, -8e-4]])
    forces = [Bearings([row], n).respond(u, np.zeros(1)).force[0] for n in (15, 30, 240)]
    scale = np.abs(forces[2]) + 0.01 * np.abs(forces[2][:3]).max() * np.array([1, 1, 1, 0.01, 0.01])
    errors = [np.abs((f - forces[2]) / scale).max() for f in forces]
    assert errors[0] < 0.015
    assert errors[1] < 0.5 * errors[0]


def _total(housed, name, torque):
    """Sum of all roller loads of a bearing."""
    rest = moved(housed, torque)[1]
    loads = housed.system.bearings.loads(shifts(housed.system, rest.state), housed.closing)
    return loads[housed.system.names.index(name)].sum()


def test_pilot_takes_load_only_after_its_clearance():
    straddled, plain = cars.housed("large", True), cars.housed("large", False)
    light, light_rest = moved(straddled, 20.0)
    assert straddled.duties(light_rest)["pilot bearing"].load_zone == 0.0
    assert cars.apart(light, moved(plain, 20.0)[0]) < 1e-9
    assert "pilot bearing: the bearing runs free" in straddled.cautions(light_rest)
    heavy, heavy_rest = moved(straddled, 600.0)
    assert straddled.duties(heavy_rest)["pilot bearing"].radial > 5e3
    assert abs(heavy.E) < 0.6 * abs(moved(plain, 600.0)[0].E)


def test_seats_of_a_pair_give_at_each_other():
    one = case.seat_springs(case.CLASSES["integral"].head, 110e9, 0.1)
    two = case.seat_springs(case.CLASSES["integral"].tail, 110e9, 0.08)
    both = np.stack([one, two])
    apart = case.pair_stiffness(both, 0.0)
    np.testing.assert_allclose(apart, np.diag(both.ravel()), rtol=1e-12)
    joined = case.pair_stiffness(both)
    np.testing.assert_allclose(joined, joined.T)
    assert np.all(np.linalg.eigvalsh(joined) > 0.0)
    give = np.linalg.inv(joined)
    # Own give stays what it was; a load at one seat moves the other a tenth of the mean.
    np.testing.assert_allclose(np.diag(give), 1.0 / both.ravel(), rtol=1e-9)
    assert give[0, 5] == pytest.approx(0.1 / np.sqrt(one[0] * two[0]))


def test_what_is_no_bearing_and_no_shaft_is_refused():
    with pytest.raises(ValueError, match=r"faces \+1 or -1"):
        cars.worked_roller(2)
    with pytest.raises(ValueError, match="contact angle"):
        cars.worked_roller(0)
    with pytest.raises(ValueError, match="positive"):
        cars.worked_roller(1, length=0.0)
    with pytest.raises(ValueError, match="no room"):
        cars.system(span=0.03)
    with pytest.raises(ValueError, match="rating"):
        duty_module.rated_life(cars.worked_roller(1, rating=0.0), 1e3, 0.0)
    ring = cars.ring_line(cars.pair())
    with pytest.raises(ValueError, match="flange"):
        System(cars.pair(), ring, ring)


# ----------------------------------------------------------------------------- play and reversal


def test_play_shows_when_torque_turns_round():
    play = 60e-6
    built = cars.system(pinion_preload=0.0)
    built.pinion = replace(built.pinion, play=play)
    loose = equilibrium.house(built)
    light = [dials(loose, moved(loose, 0.01, side)[1]) for side in (1.0, -1.0)]
    axial = light[0].pinion_axial - light[1].pinion_axial
    # The shaft also drops across its play, which takes a little of the axial way.
    assert 0.9 * play < axial < 1.02 * play
    tight = cars.housed()
    both = (cars.load(5.0), cars.load(5.0, -1.0))
    jump = equilibrium.float_at_reversal(tight, *both)
    free = equilibrium.float_at_reversal(loose, *both)
    assert abs(jump.P) < 3e-6
    assert 20.0 * abs(jump.P) < free.P


# -------------------------------------------------------------------------------------- warming


def test_even_warming_of_a_case_like_the_shafts_changes_nothing():
    built = cars.system()
    steel = case.CaseMetal(110e9, case.STEEL_EXPANSION, "as the shafts")
    warmed = equilibrium.house(built, warm.warming(built, steel, 80.0, 80.0))
    assert cars.apart(warmed.warmed(), mesh.Movement(0, 0, 0, 0)) < 1e-12
    for cold, hot in warmed.preloads().values():
        assert hot == pytest.approx(cold, rel=1e-9)


def test_preload_of_a_rigid_pinion_by_growth_between_its_cups():
    # Two equal bearings, F ∝ δ^(10/9), each pressed in 18.157 µm by 5 kN (worked out apart): growth
    # g between the backs of the cups presses each by half of it more.
    m = cars.pair()
    x = float(m.mean_point[0])
    seats = [("head", x + 0.06, cars.worked_roller(1)), ("tail", x + 0.16, cars.worked_roller(-1))]
    line = cars.rigid_line(seats, x, cars.rod(x - 0.01, 0.2, 0.2, 206e11), 5000.0)
    built = System(m, line, cars.ring_line(m))
    hot = case.CaseMetal(110e9, 14.7e-6, "3 ppm above steel")
    warmed = equilibrium.house(built, warm.warming(built, hot, 50.0, 50.0, cup_follows=0.0))
    backs = 0.100 - 2 * warm.CUP_BACK * cars.LENGTH
    growth = 3e-6 * 50.0 * backs
    expected = warm.grown_preload(5000.0, growth, 2 * 18.157e-6, 10 / 9)
    cold, found = warmed.preloads()["head"]
    assert cold == pytest.approx(5000.0, rel=1e-6)
    assert found == pytest.approx(expected, rel=1e-3)


def test_aluminum_lets_go_where_iron_hardly_does():
    iron = cars.housed(metal="nodular", rises=(70.0, 70.0))
    light = cars.housed(metal="aluminum", rises=(70.0, 70.0))
    m = cars.pair()
    lash = [warm_lash_change(m, h.warmed(), cars.ALPHA, cars.ALPHA, 0.2413) for h in (iron, light)]
    # Trade (from memory): an aluminum case opens lash when hot, iron barely.
    assert abs(lash[0]) < 5e-6
    assert lash[1] > 25e-6
    for name in ("head bearing", "ring side bearing"):
        cold, hot = light.preloads()[name]
        assert hot < 0.3 * cold
        cold, hot = iron.preloads()[name]
        assert hot == pytest.approx(cold, rel=0.1)


def test_a_warm_aluminum_case_knocks_when_torque_turns_round():
    both = (cars.load(5.0), cars.load(5.0, -1.0))
    cold = equilibrium.float_at_reversal(cars.housed(metal="aluminum"), *both)
    hot = equilibrium.float_at_reversal(cars.housed(metal="aluminum", rises=(70.0, 70.0)), *both)
    # The carrier has lost its preload: the ring gear floats from side to side.
    assert abs(hot.P) > 5.0 * abs(cold.P)
    assert abs(hot.sigma) > 5.0 * abs(cold.sigma)


def test_warm_rib_load_follows_preload():
    cold = cars.housed(metal="aluminum").duties(cars.housed(metal="aluminum").unloaded)
    warmed = cars.housed(metal="aluminum", rises=(70.0, 70.0))
    hot = warmed.duties(warmed.unloaded)
    for name in ("head bearing", "tail bearing"):
        assert hot[name].rib < cold[name].rib
    assert hot["ring side bearing"].rib == 0.0
    assert "runs free" in hot["ring side bearing"].cautions[0]
    assert hot["ring side bearing"].believed_life == float("inf")


def test_shafts_hotter_than_the_case_tighten_both_pairs():
    # Right after a hard run oil and gears are hotter than the iron.
    warmed = cars.housed(rises=(50.0, 80.0))
    for name, (cold, hot) in warmed.preloads().items():
        assert hot > cold, name


# ------------------------------------------------------------------------- dials, iron, options


def test_dials_read_the_gears_and_not_the_crossing_point():
    housed = cars.housed()
    movement, rest = moved(housed, 600.0)
    read = dials(housed, rest)
    assert abs(movement.E) > 2.0 * abs(read.pinion_lift - read.ring_lift)
    # A ring gear that only tilts about x by a little moves its rim at the mesh along its axis.
    tilted = np.zeros(housed.system.size)
    node = 5 * (1 + len(housed.system.pinion.seats))
    tilted[node + 3] = 1e-4
    change = replace(rest, state=housed.unloaded.state + tilted)
    read = dials(housed, change)
    assert read.ring_axial == pytest.approx(1e-4 * housed.system.mesh.mean_point[1])
    assert read.pinion_lift == read.ring_lift == 0.0


def test_limits_of_a_deflection_test_are_thousandths():
    assert LIMITS["pinion_lift"][1] == pytest.approx(0.0762e-3)
    assert LIMITS["ring_axial"][1] == pytest.approx(0.254e-3)
    housed = cars.housed()
    over = beyond_limits(dials(housed, moved(housed, 600.0)[1]))
    assert list(over) == ["pinion_lift"]
    assert over["pinion_lift"] > 1.0
    straddled = cars.housed("large", True)
    assert beyond_limits(dials(straddled, moved(straddled, 600.0)[1])) == {}


@pytest.mark.parametrize("straddle", [False, True])
def test_iron_counts_by_the_share_of_the_case(straddle):
    # Gray 124 against nodular 170 GPa: 4, 9 and 14 % at shares of 15, 30 and 50 % (estimate made
    # apart from this program; springs in series).
    m = cars.pair()
    rates = opening_rates(m, cars.ALPHA, 1.0)
    soft = case.CaseMetal(124e9, 1e-5, "gray")
    stiff = case.CaseMetal(170e9, 1e-5, "nodular")
    seen = []
    for factor in (2.0, 1.0, 0.4):
        d = case.CLASSES["integral"]
        scaled = {
            k: case.SeatFactors(*(factor * f for f in getattr(d, k)))
            for k in ("head", "tail", "pilot", "carrier")
        }
        design = replace(d, **scaled)
        opened = []
        for metal in (soft, stiff):
            housed = equilibrium.house(cars.system("large", straddle, metal, design))
            rest = moved(housed, 300.0)[1]
            opened.append(rates @ np.array(housed.movement(rest)))
            if metal is soft:
                parts = contributions.contributions(housed, rest)
                iron = sum(rates @ np.array(parts[p]) for p in ("pinion case", "ring case"))
        share, change = iron / opened[0], opened[1] / opened[0] - 1.0
        seen.append((share, change))
        assert change == pytest.approx(case.iron_effect(share, 124e9, 170e9), abs=0.002)
    expected = np.interp([s for s, _ in seen], [0.15, 0.30, 0.50], [-0.04, -0.09, -0.14])
    assert [c for _, c in seen] == pytest.approx(list(expected), abs=0.013)


def test_caps_cover_and_bores_change_the_ring_only():
    d = case.CLASSES["integral"]
    across = {}
    for name, design in {
        "plain": d,
        "caps": case.with_caps(d, True, False),
        "cover": case.with_caps(d, False, True),
        "both": case.with_caps(d, True, True),
        "loose": case.with_caps(d, False, False, loose_bores=True),
    }.items():
        housed = equilibrium.house(cars.system(design=design))
        read = dials(housed, moved(housed, 600.0)[1])
        across[name] = abs(read.ring_sideways)
        assert design.head == d.head
    assert across["both"] < across["caps"] < across["cover"] < across["plain"] < across["loose"]
