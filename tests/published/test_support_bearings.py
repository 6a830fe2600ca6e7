"""Rollers, preloaded pair and reactions out of the whole system, against handbooks and statics."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from axlewright.hypoid.support import duty, equilibrium, mesh
from axlewright.hypoid.support.bearing import Bearings
from axlewright.hypoid.support.newton import shifts
from axlewright.hypoid.support.roller import Roller
from axlewright.hypoid.support.system import System
from axlewright.mechanics import tapered_bearings, tapered_stiffness

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
cars = importlib.import_module("reference_support")

pytestmark = pytest.mark.published

NONE = np.zeros(1)


def pushed(bearings: Bearings, **shift: float) -> Any:
    """Force of one bearing shifted along (x), across (y)."""
    u = np.array([[shift.get("x", 0.0), shift.get("y", 0.0), 0.0, 0.0, 0.0]])
    return bearings.respond(u, NONE).force[0], bearings.loads(u, NONE)[0]


# ------------------------------------------------------------------------------- rollers alone


@pytest.mark.parametrize(("count", "tolerance"), [(17, 1.5e-3), (400, 2.0e-3)])
def test_half_zone_as_the_bearing_makers_report_has_it(count: int, tolerance: float) -> None:
    # Bearing maker's technical report E728g, sec. 5.1 (read): Fa = 1.260 Fr tan α and
    # Qmax = 4.08 Fr/(Z cos α) for line contact.  Closed form with power 10/9: 1.2580 and 4.0850;
    # the report may take a power of 1.1.  With 17 rollers the sum depends on where they stand.
    bearings = Bearings([cars.worked_roller(1, count=count)])
    force, loads = pushed(bearings, y=20e-6)
    angle = cars.ANGLE
    assert force[0] / (force[1] * np.tan(angle)) == pytest.approx(1.260, rel=tolerance)
    fullest = loads.sum(axis=1).max() * count * np.cos(angle) / force[1]
    assert fullest == pytest.approx(4.08, rel=2.2e-3)


def test_half_zone_in_the_limit_of_many_rollers() -> None:
    # Integrals of cos^n over half a turn by the gamma function, n = 10/9 (closed form, mpmath).
    from mpmath import gamma, mp, mpf, pi, sqrt

    mp.dps = 20
    n = mpf(10) / 9

    def half_turn(p: Any) -> Any:
        return sqrt(pi) * gamma((p + 1) / 2) / gamma(p / 2 + 1)

    thrust, fullest = half_turn(n) / half_turn(n + 1), 2 * pi / half_turn(n + 1)
    force, loads = pushed(Bearings([cars.worked_roller(1, count=4000)]), y=20e-6)
    found = force[0] / (force[1] * np.tan(cars.ANGLE))
    assert found == pytest.approx(float(thrust), rel=1e-5)
    most = loads.sum(axis=1).max() * 4000 * np.cos(cars.ANGLE) / force[1]
    assert most == pytest.approx(float(fullest), rel=1e-5)


def test_thrust_alone_loads_all_rollers_alike() -> None:
    # Report E728g (read): Q = Fa/(Z sin α).
    force, loads = pushed(Bearings([cars.worked_roller(1)]), x=30e-6)
    expected = tapered_bearings.axial_roller_load(force[0], 17.0, cars.ANGLE)
    np.testing.assert_allclose(loads.sum(axis=1), expected, rtol=1e-12)
    np.testing.assert_allclose(force[1:], 0.0, atol=1e-9 * force[0])


def test_palmgren_gives_the_worked_shifts() -> None:
    # Palmgren's law as in Harris (from memory), worked out apart from this program: 10 kN of thrust
    # on 17 rollers of 16 mm at 15 degrees: 33.882 µm; fullest roller 2484.66 N: 9.837 µm across.
    bearings = Bearings([cars.worked_roller(1)])
    assert pushed(bearings, x=33.882e-6)[0][0] == pytest.approx(1e4, rel=1e-4)
    across = pushed(bearings, y=9.837e-6)[1].sum(axis=1).max()
    assert across == pytest.approx(2484.66, rel=1e-4)


def test_stiffness_is_near_a_second_recollection() -> None:
    # Gargiulo 1980 (from memory): 307,719 N/mm along, between secant and tangent of the rollers.
    bearings = Bearings([cars.worked_roller(1)])
    u = np.array([[33.882e-6, 0.0, 0.0, 0.0, 0.0]])
    tangent = bearings.respond(u, NONE).stiffness[0, 0, 0]
    quick = float(tapered_stiffness.axial_stiffness_quick(1e4, 17.0, 0.016, cars.ANGLE))
    assert 1e4 / 33.882e-6 < quick < tangent
    assert tangent == pytest.approx(327.936e6, rel=1e-4)


# ------------------------------------------------------------------------------ lives by rollers


@pytest.mark.parametrize("count", [17, 60])
def test_rating_load_on_half_a_zone_is_a_million_turns(count: int) -> None:
    # ISO 281 rates for half a zone: at C/P = 1 both rules must give a million turns (derived; with
    # the constants 0.378 and 0.364 as recalled of ISO/TS 16281).  Straight rollers, no tilt.
    roller = Roller(1, np.radians(15.1), 0.031, count, 0.0095, 0.0165, 78440.0, crowned=False)
    bearings = Bearings([roller])
    low, high = 1e-6, 1e-2
    for _ in range(60):
        middle = np.sqrt(low * high)
        force, loads = pushed(bearings, y=middle)
        low, high = (middle, high) if force[1] < roller.rating else (low, middle)
    assert duty.distribution_life(roller, loads) == pytest.approx(1e6, rel=0.02)
    eighth, part = pushed(bearings, y=middle * 8.0**-0.9)
    assert eighth[1] == pytest.approx(roller.rating / 8.0, rel=1e-6)
    ratio = duty.distribution_life(roller, part) / 1e6
    # Power 4 by slices against 10/3 by rating (ISO/TR 1281-1, from memory).
    assert ratio == pytest.approx(8.0**4, rel=0.02)
    assert duty.rated_life(roller, eighth[1], 0.0) == pytest.approx(1e6 * 8.0 ** (10 / 3), rel=1e-6)


def test_rated_life_of_the_worked_tapered_bearing() -> None:
    # C 78.44 kN, Fr 10, Fa 6 kN at 15.1 degrees: P 12.8948 kN, L10 410.88 million turns, 3424 h at
    # 2000 rpm (worked out apart from this program, ISO 281 from memory).
    roller = Roller(1, np.radians(15.1), 0.031, 17, 0.0095, 0.0165, 78440.0)
    life = duty.rated_life(roller, 10e3, 6e3)
    assert life == pytest.approx(410.88e6, rel=1e-4)
    from axlewright.mechanics.bearing_load_life import running_time

    assert running_time(life, 2000 * np.pi / 30) / 3600 == pytest.approx(3424, rel=1e-4)


# ---------------------------------------------------------------------------- the whole system


def preloaded_pair() -> equilibrium.Housed:
    """The pinion in the two worked bearings, everything else rigid, 5 kN of preload."""
    m = cars.pair()
    x = float(m.mean_point[0])
    seats = [("head", x + 0.06, cars.worked_roller(1)), ("tail", x + 0.16, cars.worked_roller(-1))]
    shaft = cars.rod(x - 0.01, 0.2, 0.2, 206e11)
    line = cars.rigid_line(seats, x, shaft, 5000.0)
    return equilibrium.house(System(m, line, cars.ring_line(m)))


PAIR = preloaded_pair()


def thrust_alone(force: float) -> mesh.ToothLoad:
    """A force along the pinion's axis: its moment about the mean point is that of the arm."""
    m = PAIR.system.mesh
    arm = np.array([0.0, m.offset - m.mean_point[1], -m.mean_point[2]])
    pull = np.array([force, 0.0, 0.0])
    return mesh.ToothLoad(pull, np.cross(arm, pull))


@pytest.mark.parametrize(
    ("extra", "moved", "one", "other"),
    [
        (2000.0, 3.2700, 6010.06, 4010.06),
        (5000.0, 8.1998, 7564.90, 2564.90),
        (10000.0, 16.6695, 10310.19, 310.19),
        (20000.0, 45.0691, 20000.0, 0.0),
    ],
)
def test_preloaded_pair_as_worked_by_hand(
    extra: float, moved: float, one: float, other: float
) -> None:
    # Two equal bearings, F ∝ δ^(10/9), 5 kN of preload (worked out apart from this program).
    rest = PAIR.rest(mesh.steady(thrust_alone(extra)))
    assert 1e6 * PAIR.nodes(rest)[0, 0] == pytest.approx(moved, abs=0.01)
    found = equilibrium.thrusts(PAIR.system, rest.state, PAIR.closing)
    assert found[:2] == pytest.approx([one, -other], abs=0.15)


def test_preload_is_gone_at_2_16_times_itself() -> None:
    # 2^(10/9) = 2.1601 (closed form): at 10,800.6 N, 18.1569 µm.
    just = PAIR.rest(mesh.steady(thrust_alone(10795.0)))
    gone = PAIR.rest(mesh.steady(thrust_alone(10806.0)))
    names = [PAIR.duties(r)["tail"].rollers_loaded for r in (just, gone)]
    assert names == [17, 0]
    assert 1e6 * PAIR.nodes(gone)[0, 0] == pytest.approx(18.1569, abs=0.02)


def overhung(torque: float = 1000.0) -> tuple[equilibrium.Housed, equilibrium.Rest]:
    """Load centers 45 and 135 mm behind the mesh, everything rigid."""
    m = cars.pair()
    x = float(m.mean_point[0])
    head, tail = cars.point_support(1), cars.point_support(-1)
    seats = [
        ("head", x + 0.045 - head.load_centre, head),
        ("tail", x + 0.135 - tail.load_centre, tail),
    ]
    shaft = cars.rod(x - 0.01, 0.2, 0.2, 206e11)
    line = cars.rigid_line(seats, x, shaft, 5000.0)
    held = equilibrium.house(System(m, line, cars.ring_line(m)))
    return held, held.rest(mesh.steady(cars.load(torque)))


def test_overhung_reactions_as_statics_has_them() -> None:
    # Case B, drive, 1000 N·m at the pinion (statics, worked out apart from this program): head
    # 49,676.18 along the circle and -2,707.98 N radially, tail 16,558.73 and -9,918.95 N the other
    # way round.
    held, rest = overhung()
    force = held.system.bearings.respond(shifts(held.system, rest.state), held.closing).force
    g = held.system.mesh.geometry
    eta = float(g.ring_offset_angle)
    # The tooth force is Fr along (sin η, -cos η) and Ft along (-cos η, -sin η) in y and z.
    around = force[:2, 1:3] @ np.array([-np.cos(eta), -np.sin(eta)])
    radial = force[:2, 1:3] @ np.array([np.sin(eta), -np.cos(eta)])
    assert around == pytest.approx([49676.18, -16558.73], abs=0.1)
    assert radial == pytest.approx([-2707.98, 9918.95], abs=0.1)
    assert np.hypot(around, radial) == pytest.approx([49749.93, 19302.25], abs=0.1)
    assert force[:2, 0].sum() == pytest.approx(40310.52, abs=0.1)
