"""The whole pair in springy seats against an independent frame library and plain geometry."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from axlewright.hypoid.support import equilibrium, mesh
from axlewright.hypoid.support.dials import dials
from axlewright.hypoid.support.shaft import Section, Shaft
from axlewright.hypoid.support.system import System

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
cars = importlib.import_module("reference_support")

pytestmark = pytest.mark.published

E, NU = 206e9, 0.3
M = cars.pair()
X, Y, Z = (float(v) for v in M.mean_point)
OFFSET = M.offset
# Seats along, across and (unused, since the bearings pass no tilt on) against tilt.
HEAD, TAIL = np.array([4e8, 7e8, 7e8, 1e6, 1e6]), np.array([3e8, 5e8, 5e8, 1e6, 1e6])
NEAR, FAR = np.array([2e8, 6e8, 6e8, 1e6, 1e6]), np.array([2.5e8, 4e8, 4e8, 1e6, 1e6])
PINION = (X, X + 0.03, X + 0.06, X + 0.15)
PINION_D = (0.055, 0.045, 0.040)
RING = (Z - 0.12, Z - 0.02, Z, Z + 0.05)
RING_D = (0.060, 0.110, 0.080)


def ours() -> equilibrium.Housed:
    """Pinion carried at its second and last place, ring at its first and last, bearings hard."""
    from axlewright.hypoid.support.system import Line, Seat

    def line(
        places: tuple[float, ...], ds: tuple[float, ...], seats: list[Any], at: float, plate: bool
    ) -> Line:
        steps = tuple(Section(b - a, d) for a, b, d in zip(places, places[1:], ds, strict=False))
        shaft = Shaft(places[0], steps, E, NU, shear=False)
        held = np.diag(np.concatenate([s.springs for s in seats]))
        return Line(shaft, tuple(seats), held, 60e3, at, np.full(5, 1e13) if plate else None)

    pinion = [
        Seat("head", PINION[1], cars.point_support(1), HEAD),
        Seat("tail", PINION[3], cars.point_support(-1), TAIL),
    ]
    ring = [
        Seat("near", RING[3], cars.point_support(1), NEAR),
        Seat("far", RING[0], cars.point_support(-1), FAR),
    ]
    return equilibrium.house(
        System(M, line(PINION, PINION_D, pinion, X, False), line(RING, RING_D, ring, Z, True))
    )


def theirs(load: mesh.ToothLoad) -> tuple[np.ndarray, np.ndarray]:
    """Shift and turn of the pinion's and of the ring's node by PyNiteFEA, in the frame."""
    from Pynite import FEModel3D

    frame = FEModel3D()
    frame.add_material("steel", E, E / 2 / (1 + NU), NU, 7850.0)

    def shaft(name: str, points: list[tuple[float, float, float]], ds: tuple[float, ...]) -> None:
        for i, p in enumerate(points):
            frame.add_node(f"{name}{i}", *p)
        for i, d in enumerate(ds):
            A, I = np.pi / 4 * d**2, np.pi / 64 * d**4
            frame.add_section(f"{name}s{i}", A, I, I, 2 * I)
            frame.add_member(f"{name}m{i}", f"{name}{i}", f"{name}{i + 1}", "steel", f"{name}s{i}")

    shaft("P", [(x, OFFSET, 0.0) for x in PINION], PINION_D)
    shaft("R", [(0.0, 0.0, z) for z in RING], RING_D)
    for node, springs, along in (
        ("P1", HEAD, "X"), ("P3", TAIL, "X"), ("R3", NEAR, "Z"), ("R0", FAR, "Z"),
    ):  # fmt: skip
        for axis in "XYZ":
            stiff = float(springs[0] if axis == along else springs[1])
            frame.def_support_spring(node, f"D{axis}", stiff)
    # Something must hold each shaft against turning; it changes no bending.
    frame.def_support("P3", support_RX=True)
    frame.def_support("R0", support_RZ=True)
    for node, at, way in (("P0", (X, OFFSET, 0.0), 1.0), ("R2", (0.0, 0.0, Z), -1.0)):
        force = way * load.force
        moment = way * load.moment + np.cross(M.mean_point - np.array(at), force)
        for axis, f, m in zip("XYZ", force, moment, strict=True):
            frame.add_node_load(node, f"F{axis}", float(f))
            frame.add_node_load(node, f"M{axis}", float(m))
    frame.analyze_linear(check_statics=False)
    found = []
    for node in ("P0", "R2"):
        n = frame.nodes[node]
        case = next(iter(n.DX))
        found.append([getattr(n, k)[case] for k in ("DX", "DY", "DZ", "RX", "RY", "RZ")])
    return np.array(found[0]), np.array(found[1])


def axes_apart(pinion: np.ndarray, ring: np.ndarray) -> mesh.Movement:
    """E, P, G, Σ of two axes that have moved, by lines in space (shifted a thousandth part)."""
    small = 1e-3

    def body(u: np.ndarray, at: np.ndarray, along: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return at + small * u[:3], along + small * np.cross(u[3:], along)

    p, d = body(pinion, np.array([X, OFFSET, 0.0]), np.array([1.0, 0.0, 0.0]))
    q, e = body(ring, np.array([0.0, 0.0, Z]), np.array([0.0, 0.0, 1.0]))
    d, e = d / np.linalg.norm(d), e / np.linalg.norm(e)
    across = np.cross(e, d)
    offset = abs((p - q) @ across) / np.linalg.norm(across)
    # Feet of the common perpendicular, from the pinion's and from the ring's own point.
    foot = np.linalg.solve(np.stack([d, -e, across], axis=1), q - p)
    angle = np.arccos(np.clip(d @ e, -1.0, 1.0))
    return mesh.Movement(
        float((offset - OFFSET) / small),
        float((-foot[0] - X) / small),
        float((-foot[1] - Z) / small),
        float((angle - 0.5 * np.pi) / small),
    )


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_whole_pair_moves_as_a_frame_of_beams_on_springs(side: float) -> None:
    # PyNiteFEA and the geometry of skew lines; a moment of the tooth load is put in as well.
    held = ours()
    base = cars.load(200.0, side)
    load = mesh.ToothLoad(base.force, np.array([15.0, -20.0, 10.0]))
    rest = held.rest(mesh.steady(load))
    assert min(d.load_zone for d in held.duties(rest).values()) == 1.0
    pinion, ring = theirs(load)
    shifts = held.nodes(rest)
    np.testing.assert_allclose(shifts[0], pinion[:3], rtol=2e-4, atol=5e-9)
    np.testing.assert_allclose(shifts[1], ring[:3], rtol=2e-4, atol=5e-9)
    found, expected = held.movement(rest), axes_apart(pinion, ring)
    assert cars.apart(found, expected) < 2e-4 * abs(expected.E)
    # The ring's rim moves as a rigid body: u + ω × r (turning about its own axis left out).
    rim = ring[:3] + np.cross([ring[3], ring[4], 0.0], [X, Y, 0.0])
    read = dials(held, rest)
    assert read.ring_axial == pytest.approx(rim[2], rel=2e-4, abs=5e-9)
    assert read.ring_lift == pytest.approx(rim[1], rel=2e-4, abs=5e-9)
