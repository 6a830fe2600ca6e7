"""Shafts of the gear pair against beam formulas and an independent frame library."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.hypoid.support import equilibrium, mesh
from axlewright.hypoid.support.shaft import Section, Shaft, shaft_stiffness, shear_share
from axlewright.hypoid.support.system import System

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
cars = importlib.import_module("reference_support")

pytestmark = pytest.mark.published

F = 33117.45


def tip(d: float, straddle: bool, shear: bool = False) -> float:
    """Shift (m) of the pinion under Ft of case B, out of the whole system with hard bearings."""
    m = cars.pair()
    x = float(m.mean_point[0])
    head, tail = cars.point_support(1), cars.point_support(-1)
    places = (-0.045, 0.090) if straddle else (0.045, 0.135)
    # A bearing ahead of the gear faces the other way, so that both load centers lie at its ends.
    front, back = (tail, head) if straddle else (head, tail)
    seats = [
        ("front", x + places[0] - front.load_centre, front),
        ("back", x + places[1] - back.load_centre, back),
    ]
    shaft = cars.rod(x - 0.2, 0.5, d, 206e9, shear=shear)
    line = cars.rigid_line(seats, x, shaft, 20e3)
    held = equilibrium.house(System(m, line, cars.ring_line(m)))
    force = np.array([0.0, F, 0.0])
    arm = np.array([0.0, m.offset - m.mean_point[1], -m.mean_point[2]])
    rest = held.rest(mesh.steady(mesh.ToothLoad(force, np.cross(arm, force))))
    return float(held.nodes(rest)[0, 1])


@pytest.mark.parametrize(
    ("d", "overhung", "straddled"),
    [(0.035, 198.877, 88.390), (0.040, 116.578, 51.813), (0.045, 72.779, 32.346)],
)
def test_tip_of_the_pinion_out_of_the_whole_system(
    d: float, overhung: float, straddled: float
) -> None:
    # F a² (a+b)/(3EI) and F a² b²/(3EI(a+b)), a 45, b 90 mm, 206 GPa (closed form).
    both = tip(d, straddle=False), tip(d, straddle=True)
    assert 1e6 * both[0] == pytest.approx(overhung, abs=0.02)
    assert 1e6 * both[1] == pytest.approx(straddled, abs=0.02)
    # The ratio is (a+b)²/b², 2.25 exactly, for any shaft.
    assert both[0] / both[1] == pytest.approx(2.25, rel=2e-4)


STEPS = (
    Section(0.018, 0.025), Section(0.035, 0.052), Section(0.022, 0.045),
    Section(0.040, 0.038, 0.012), Section(0.020, 0.035),
)  # fmt: skip


def bent(
    shaft: Shaft, stations: list[float], held: list[int], force: int, size: float
) -> np.ndarray:
    """All freedoms of a shaft under one force with some held."""
    K = shaft_stiffness(shaft, stations)
    free = np.setdiff1d(np.arange(K.shape[0]), held)
    load = np.zeros(K.shape[0])
    load[force] = size
    result = np.zeros(K.shape[0])
    result[free] = np.linalg.solve(K[np.ix_(free, free)], load[free])
    return result


def test_stepped_shaft_as_a_frame_library_bends_it() -> None:
    # PyNiteFEA (beam members without shear): five steps, two bearings, a force and a couple.
    from Pynite import FEModel3D

    ends = np.concatenate([[0.0], np.cumsum([s.length for s in STEPS])])
    frame = FEModel3D()
    E, nu = 206e9, 0.3
    frame.add_material("steel", E, E / 2 / (1 + nu), nu, 7850.0)
    for i, x in enumerate(ends):
        frame.add_node(f"N{i}", float(x), 0.0, 0.0)
    for i, s in enumerate(STEPS):
        area = np.pi / 4 * (s.outer**2 - s.inner**2)
        I = np.pi / 64 * (s.outer**4 - s.inner**4)
        frame.add_section(f"S{i}", area, I, I, 2 * I)
        frame.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "steel", f"S{i}")
    frame.def_support("N2", True, True, True, True, False, False)
    frame.def_support("N5", False, True, True, False, False, False)
    frame.add_node_load("N0", "FY", 9e3)
    frame.add_node_load("N0", "FZ", -4e3)
    frame.add_node_load("N0", "MZ", 150.0)
    frame.analyze(check_statics=False)
    theirs = frame.nodes["N0"]

    stations = [float(ends[0]), float(ends[2]), float(ends[5])]
    K = shaft_stiffness(Shaft(0.0, STEPS, E, nu, shear=False), stations)
    free = [0, 1, 2, 3, 4, 8, 9, 10, 13, 14]
    load = np.zeros(15)
    load[[1, 2, 4]] = 9e3, -4e3, 150.0
    ours = np.zeros(15)
    ours[free] = np.linalg.solve(K[np.ix_(free, free)], load[free])
    case = next(iter(theirs.DY))
    expected = [theirs.DY[case], theirs.DZ[case], theirs.RY[case], theirs.RZ[case]]
    np.testing.assert_allclose(ours[1:5], expected, rtol=1e-8)


def test_stepped_cantilever_by_the_integral_of_moments() -> None:
    # ∫ F x²/(E I) + F/(κ G A) dx over the steps (closed form, virtual work), κ after Cowper.
    E, nu, force = 206e9, 0.3, 10e3
    tip_shift, x = 0.0, 0.0
    for s in STEPS:
        I = np.pi / 64 * (s.outer**4 - s.inner**4)
        A = np.pi / 4 * (s.outer**2 - s.inner**2)
        tip_shift += force * ((x + s.length) ** 3 - x**3) / (3 * E * I)
        kappa = shear_share(s.outer, s.inner, nu)
        tip_shift += force * s.length / (kappa * E / 2 / (1 + nu) * A)
        x += s.length
    ours = bent(Shaft(0.0, STEPS), [0.0, x], [5, 6, 7, 8, 9], 1, force)
    assert ours[1] == pytest.approx(tip_shift, rel=1e-10)


def test_shear_share_of_round_sections() -> None:
    # Cowper 1966 (from memory): 6(1+ν)/(7+6ν) solid; 2(1+ν)/(4+3ν) for a thin tube.
    assert shear_share(1.0, 0.0, 0.3) == pytest.approx(6 * 1.3 / 8.8)
    assert shear_share(1.0, 1.0 - 1e-9, 0.3) == pytest.approx(2 * 1.3 / 4.9, rel=1e-8)


def test_opening_rates_as_worked_out_by_vectors() -> None:
    # Case B at 20 degrees, worked out apart by the rigid shift of surface normals: opening per mm
    # of E, P, G and mm per rad of Σ, drive and coast; backlash per mm of G 0.78453, of P 0.18801
    # square to the flank.
    from axlewright.hypoid.support.opening import opening_rates, warm_lash_change

    m = cars.pair()
    drive = opening_rates(m, cars.ALPHA, 1.0) * [1, 1, 1, 1e3]
    coast = opening_rates(m, cars.ALPHA, -1.0) * [1, 1, 1, 1e3]
    assert drive == pytest.approx([-0.61148, 0.76540, 0.20064, 42.58117], abs=1e-5)
    assert coast == pytest.approx([0.67888, -0.57739, 0.45359, 26.94660], abs=1e-5)
    mean = 2.0 * float(m.geometry.ring_mean_radius)
    for moved, expected in (((0, 0, 1e-3, 0), 0.78453), ((0, 1e-3, 0, 0), 0.18801 / 0.83391)):
        change = warm_lash_change(m, mesh.Movement(*moved), cars.ALPHA, cars.ALPHA, mean)
        assert 1e3 * change == pytest.approx(expected, rel=2e-4)
