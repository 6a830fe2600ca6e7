"""Parts of the loaded contact: bodies of teeth, bricks, influence, dents, slices."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.hypoid.loaded import bricks, hertz
from axlewright.hypoid.loaded.bodies import line_at, pinion_tooth, ring_tooth
from axlewright.hypoid.loaded.compliance import compliance_of, through_loads
from axlewright.hypoid.loaded.contact import Counts, mesh_slices
from axlewright.hypoid.loaded.grid import Cells, grid_of
from axlewright.hypoid.loaded.sharing import places_on
from axlewright.hypoid.rolling import AT_REST

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
sets = importlib.import_module("loaded_sets")

YOUNGS, POISSON = 206e9, 0.3
TEETH = {"ring": ring_tooth, "pinion": pinion_tooth}


def teeth_of(name: str, hand: int = 1):
    drive, coast = sets.flank(name, 1, hand), sets.flank(name, -1, hand)
    return {kind: make(drive, coast) for kind, make in TEETH.items()}


# ------------------------------------------------------------------------------- bodies


@pytest.mark.parametrize("name", sets.BLANKS)
def test_body_has_the_flanks_that_mesh(name: str) -> None:
    for kind, tooth in teeth_of(name).items():
        for side in (1, -1):
            flank = sets.flank(name, side)
            points = flank.ring if kind == "ring" else flank.pinion
            share, up = tooth.located(points)
            s = tooth.ends[0] + share * (tooth.ends[1] - tooth.ends[0])
            low, high = line_at(tooth.root, s), line_at(tooth.tip, s)
            h = low + up * (high - low)
            there = tooth.points(s, h, tooth.flanks[side](s, h))
            i, j = (tooth.axis + 1) % 3, (tooth.axis + 2) % 3
            # The coast flank is turned round to the other side of the tooth: radii tell.
            np.testing.assert_allclose(
                np.hypot(there[..., i], there[..., j]), np.hypot(points[i], points[j]), atol=1e-9
            )
            np.testing.assert_allclose(there[..., tooth.axis], points[tooth.axis], atol=1e-9)
            if side > 0:
                off = np.linalg.norm(there - np.moveaxis(points, 0, -1), axis=-1)
                assert off.max() < (1e-9 if kind == "ring" else 5e-6)
            assert share.min() > -1e-9
            assert share.max() < 1.0 + 1e-9
            assert up.min() > 0.05


@pytest.mark.parametrize("name", sets.BLANKS)
def test_tooth_and_slot_make_a_pitch_in_the_middle_of_the_depth(name: str) -> None:
    # Usual rule for a long addendum; the thickness is measured along the circle.
    tooth = teeth_of(name)["ring"]
    depth = sets.flank(name, 1).pair.depth
    middle = np.array([0.5 * (depth.ring_addendum - depth.pinion_addendum)])
    s = np.zeros(1)
    angle = abs(float((tooth.flanks[-1](s, middle) - tooth.flanks[1](s, middle))[0]))
    assert angle == pytest.approx(np.pi / tooth.teeth, rel=0.03)


@pytest.mark.parametrize("name", sets.BLANKS)
def test_bricks_fill_the_body(name: str) -> None:
    # Volume by the bricks against the tooth's cross sections added up along radius and length.
    for tooth in teeth_of(name).values():
        grid = grid_of(tooth, Cells(6, 3, 2, 1, 1))
        volumes = [_volume(grid.points, grid.tooth)]
        fine = grid_of(tooth, Cells(12, 6, 3, 1, 1))
        volumes.append(_volume(fine.points, fine.tooth))
        assert volumes[0] == pytest.approx(volumes[1], rel=2e-3)
        s, h = np.meshgrid(np.linspace(0, 1, 101), np.linspace(0, 1, 101), indexing="ij")
        along = tooth.ends[0] + s * (tooth.ends[1] - tooth.ends[0])
        low, high = line_at(tooth.root, along), line_at(tooth.tip, along)
        up = low + h * (high - low)
        radius, _ = tooth.section(along, up)
        angle = np.abs(tooth.flanks[1](along, up) - tooth.flanks[-1](along, up))
        plain = np.mean(radius * angle * (high - low)) * (tooth.ends[1] - tooth.ends[0])
        # The flare at the root adds a little.
        assert 1.0 < volumes[1] / plain < 1.03


def _volume(points: np.ndarray, index: np.ndarray) -> float:
    from axlewright.hypoid.loaded.grid import bricks_of

    local, weight = bricks._rule()
    _, measure = bricks.gradients(points[bricks_of(index)], local)
    return float((measure * weight).sum())


# ------------------------------------------------------------------------------- bricks


def test_a_brick_holds_even_strain_and_no_rigid_motion() -> None:
    rng = np.random.default_rng(2)
    at = np.stack(np.meshgrid(*(np.array([-1.0, 0.0, 1.0]),) * 3, indexing="ij"), -1)
    corners = (at.reshape(-1, 3) @ (np.eye(3) + 0.2 * rng.uniform(-1, 1, (3, 3))))[None]
    stiffness = bricks.stiffness_of(corners, YOUNGS, POISSON)[0]
    np.testing.assert_allclose(stiffness, stiffness.T, atol=1e-3 * YOUNGS * 1e-9)
    for k in range(3):
        turn = np.cross(np.eye(3)[k], corners[0])
        shift = np.tile(np.eye(3)[k], 27)
        for rigid in (turn.ravel(), shift):
            assert np.abs(stiffness @ rigid).max() < 1e-9 * np.abs(stiffness).max()
    strain = rng.uniform(-1e-3, 1e-3, (3, 3))
    strain = 0.5 * (strain + strain.T)
    stress = (
        YOUNGS
        / (1 + POISSON)
        * (strain + POISSON / (1 - 2 * POISSON) * np.trace(strain) * np.eye(3))
    )  # Hooke's law
    rows = bricks.stress_rows(corners, rng.uniform(-1, 1, (5, 3)), YOUNGS, POISSON)[0]
    found = rows @ (corners[0] @ strain).ravel()
    wanted = stress[[0, 1, 2, 1, 2, 0], [0, 1, 2, 2, 0, 1]]
    np.testing.assert_allclose(found, np.tile(wanted, (5, 1)), rtol=1e-9)


def test_a_brick_turned_inside_out_is_refused() -> None:
    at = np.stack(np.meshgrid(*(np.array([-1.0, 0.0, 1.0]),) * 3, indexing="ij"), -1)
    corners = at.reshape(1, -1, 3).copy()
    corners[0, :9, 0] = 3.0
    with pytest.raises(ArithmeticError, match="inside out"):
        bricks.stiffness_of(corners, YOUNGS, POISSON)


# ------------------------------------------------------------------------------- influence


@pytest.mark.parametrize("side", [1, -1])
def test_influence_is_symmetric_and_positive(side: int) -> None:
    drive, coast = sets.flank("9/41", 1), sets.flank("9/41", -1)
    grid = grid_of(ring_tooth(drive, coast), sets.COARSE)
    normal = np.zeros((grid.along.size, grid.up.size, 3))
    normal[..., 0] = 1.0
    loads = through_loads(grid, normal)
    np.testing.assert_allclose(loads.sum(axis=0), 1.0)
    raw = loads.T @ bricks.solver(grid.points, grid.bricks(), grid.held, YOUNGS, POISSON)(loads)
    np.testing.assert_allclose(raw, raw.T, atol=1e-8 * raw.max())
    found = sets.give(side=side)
    for member in (found.ring, found.pinion):
        np.testing.assert_allclose(member.matrix, member.matrix.T, atol=0.0)
        assert np.linalg.eigvalsh(member.matrix)[0] > 0.0
        np.testing.assert_allclose(
            member.factor @ member.factor.T, member.matrix, atol=1e-9 * member.matrix.max()
        )
        given = np.diag(member.matrix).reshape(member.along.size, member.up.size)
        assert (np.diff(given, axis=1) > 0.0).all()  # softer toward the tip


@pytest.mark.parametrize("side", [1, -1])
def test_the_teeth_beside_ride_along_a_little(side: int) -> None:
    found = sets.give(side=side)
    for member in (found.ring, found.pinion):
        beside = member.ahead @ member.behind.T
        along = np.arange(member.along.size) * member.up.size + member.up.size // 2
        own = member.matrix[np.ix_(along, along)].mean()
        assert 0.03 < beside[np.ix_(along, along)].mean() / own < 0.2


def test_both_hands_give_alike() -> None:
    right, left = sets.give(), sets.give(hand=-1)
    for a, b in ((right.ring, left.ring), (right.pinion, left.pinion)):
        # The roll angle runs the other way: ahead is behind.
        np.testing.assert_allclose(
            a.ahead @ a.behind.T, b.behind @ b.ahead.T, atol=1e-6 * a.matrix.max()
        )
        np.testing.assert_allclose(a.matrix, b.matrix, rtol=1e-6, atol=1e-9 * a.matrix.max())


def test_softer_steel_gives_more_in_proportion() -> None:
    drive, coast = sets.flank("9/41", 1), sets.flank("9/41", -1)
    soft = compliance_of(drive, coast, 1, sets.COARSE, youngs=103e9)
    np.testing.assert_allclose(soft.ring.matrix, 2.0 * sets.give().ring.matrix, rtol=1e-9)
    assert compliance_of(drive, coast, 1, sets.COARSE, youngs=103e9) is soft  # kept


def test_forces_and_readings_are_each_others_transpose() -> None:
    member = sets.give().ring
    rng = np.random.default_rng(4)
    places = places_on(member, rng.uniform(0.0, 1.0, (2, 3, 7)))
    load = rng.uniform(0.0, 1.0, (3, 7))
    values = rng.uniform(-1.0, 1.0, (member.matrix.shape[0], 1))
    read = np.sum(load * places.spread(values)[..., 0])
    given = places.gathered(load, values.size)
    np.testing.assert_allclose(given.sum(axis=1), load.sum(axis=1))
    assert read == pytest.approx(float((given @ values).sum()))


# ------------------------------------------------------------------------------- dents and slices


def test_dent_grows_with_load_and_depth_and_arrays_equal_scalars() -> None:
    line = np.geomspace(1e3, 1e6, 9)
    modulus = hertz.contact_modulus(YOUNGS, POISSON)
    width = hertz.contact_half_width(line, 0.02, modulus)
    dent = hertz.line_compression(line, width, 4e-3, YOUNGS, POISSON)
    assert (np.diff(dent) > 0.0).all()
    assert (np.diff(dent / line) < 0.0).all()  # stiffer as it grows
    deeper = hertz.line_compression(line, width, 8e-3, YOUNGS, POISSON)
    # Twice the depth adds ln 4 of the load's share, whatever the width.
    np.testing.assert_allclose(
        deeper - dent, line * np.log(4.0) * (1 - POISSON**2) / (np.pi * YOUNGS)
    )
    one = hertz.line_pressure(float(line[3]), 0.02, modulus)
    assert one == pytest.approx(float(hertz.line_pressure(line, 0.02, modulus)[3]))
    # The half ellipse of peak and width carries the load.
    np.testing.assert_allclose(0.5 * np.pi * width * hertz.line_pressure(line, 0.02, modulus), line)


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("name", sets.BLANKS)
def test_slices_lie_on_their_line(name: str, side: int) -> None:
    flank = sets.flank(name, side)
    slices, levels, strained = mesh_slices(
        sets.conjugate(flank), sets.give(name, side), AT_REST, Counts(6, 40)
    )
    assert strained == 0.0
    real = slices.real
    assert real.any(axis=1).all()
    point = np.moveaxis(slices.point, 0, -1)
    # Slices laid end to end are as long as the polygon through them.
    chord = np.linalg.norm(np.diff(point, axis=2), axis=-1).sum(axis=2)
    inner = 0.5 * (slices.length[..., 1:] + slices.length[..., :-1]).sum(axis=2)
    np.testing.assert_allclose(inner[real], chord[real], rtol=2e-3)
    assert (np.abs(slices.gap[real]) < 1e-9).all()
    assert (slices.radius[real] > 1e-3).all()
    assert slices.ring_at.min() > -1e-6
    assert slices.pinion_at.max() < 1.0 + 1e-6
    assert levels.shape == real.shape
