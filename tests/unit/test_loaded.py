"""The loaded contact of a pair: limits, sums, symmetry, trends, convergence, speed."""

from __future__ import annotations

import importlib
import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from axlewright.hypoid.loaded import hertz
from axlewright.hypoid.loaded.compliance import Compliance
from axlewright.hypoid.loaded.contact import Counts, loaded, mesh_slices
from axlewright.hypoid.loaded.grid import Cells
from axlewright.hypoid.loaded.mesh_force import mesh_force, tangent
from axlewright.hypoid.loaded.sharing import share
from axlewright.hypoid.rolling import AT_REST
from axlewright.hypoid.support import mesh
from axlewright.hypoid.support.mesh import Movement
from axlewright.hypoid.unloaded import analyze

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
sets = importlib.import_module("loaded_sets")

MOVED = Movement(-5e-5, 4e-5, 3e-5, 2e-4)
FEW = Counts(8, 16)


def stiff(teeth: Compliance, by: float = 1e6) -> Compliance:
    """The same teeth of a harder stuff."""
    ring, pinion = (
        replace(m, matrix=m.matrix / by, factor=m.factor / np.sqrt(by), ahead=m.ahead / by)
        for m in (teeth.ring, teeth.pinion)
    )
    return replace(teeth, ring=ring, pinion=pinion, youngs=teeth.youngs * by)


# ------------------------------------------------------------------------------- sums and limits


@pytest.mark.parametrize("torque", [1e-6, 30.0, 3000.0])
@pytest.mark.parametrize("side", [1, -1])
def test_moments_add_up_to_the_torque(side: int, torque: float) -> None:
    surface, teeth = sets.usual(side=side), sets.give(side=side)
    slices, _, _ = mesh_slices(surface, teeth, MOVED, FEW)
    found = share(slices, teeth, torque)
    moment = (found.load * slices.lever).sum(axis=(1, 2))
    np.testing.assert_allclose(moment, torque, rtol=1e-9)
    assert found.load.min() >= 0.0
    whole = loaded(surface, teeth, torque, MOVED, FEW)
    np.testing.assert_allclose(whole.share.sum(axis=1), 1.0, rtol=1e-6)
    from_point = np.cross(whole.point, whole.force.force)[2]  # the mean place: nearly the same
    assert abs(from_point) == pytest.approx(torque, rel=0.02)
    # About the ring's axis the force on the pinion turns against the torque that it gives.
    arm = surface.flank.pair.mean_point
    about = np.cross(arm, whole.force.force) + whole.force.moment
    assert abs(about[2]) == pytest.approx(torque, rel=1e-4)


def test_gaps_are_closed_where_it_carries_and_open_elsewhere() -> None:
    teeth = sets.give()
    slices, _, _ = mesh_slices(sets.usual(), teeth, MOVED, FEW)
    found = share(slices, teeth, 400.0)
    modulus = hertz.contact_modulus(teeth.youngs, teeth.poisson)
    line = found.load / slices.length
    carries = line > 1e-2 * line.max()
    width = hertz.contact_half_width(np.where(carries, line, 1.0), slices.radius, modulus)
    dent = sum(
        hertz.line_compression(line, width, half, teeth.youngs, teeth.poisson)
        for half in (slices.ring_half, slices.pinion_half)
    )
    bent = np.zeros_like(line)
    from axlewright.hypoid.loaded.sharing import places_on

    for member, at in ((teeth.ring, slices.ring_at), (teeth.pinion, slices.pinion_at)):
        places = places_on(member, at)
        moved = places.gathered(found.load, member.matrix.shape[0]) @ member.matrix
        table = moved.reshape(*line.shape[:2], -1)
        picked = np.take_along_axis(table, places.index.reshape(*line.shape[:2], -1), axis=2)
        bent += np.sum(picked.reshape(places.weight.shape) * places.weight, axis=-1)
    # What the pairs beside do, summed place by place and pair by pair.
    for member, at in ((teeth.ring, slices.ring_at), (teeth.pinion, slices.pinion_at)):
        places = places_on(member, at)
        forces = places.gathered(found.load, member.matrix.shape[0]).reshape(*line.shape[:2], -1)
        cross = member.ahead @ member.behind.T
        moved = np.zeros_like(forces)
        moved[:, 1:] += forces[:, :-1] @ cross.T
        moved[:, :-1] += forces[:, 1:] @ cross
        picked = np.take_along_axis(moved, places.index.reshape(*line.shape[:2], -1), axis=2)
        bent += np.sum(picked.reshape(places.weight.shape) * places.weight, axis=-1)
    left = slices.gap + bent + dent - slices.lever * found.turn[:, None, None]
    assert np.abs(left[carries]).max() < 1e-11
    idle = (line == 0.0) & slices.real[..., None]
    assert idle.any()
    assert (slices.gap + bent - slices.lever * found.turn[:, None, None])[idle].min() > -1e-11


@pytest.mark.parametrize("side", [1, -1])
def test_without_torque_it_is_the_unloaded_contact(side: int) -> None:
    surface = sets.usual(side=side)
    seen = loaded(surface, sets.give(side=side), 1e-9, counts=Counts(24, 64))
    bare = analyze(surface)
    assert seen.amplitude == pytest.approx(bare.amplitude, rel=0.01)
    np.testing.assert_allclose(seen.error, bare.error, atol=0.01 * bare.amplitude)
    # Its load rides on the path of contact.
    path = 0.5 * (1.0 + bare.path.mean(axis=0))
    assert seen.pattern.center == pytest.approx(path[0], abs=0.02)
    assert seen.pattern.height == pytest.approx(path[1], abs=0.03)


def test_hard_conjugate_teeth_turn_evenly_and_press_evenly() -> None:
    surface = sets.conjugate(sets.flank("9/41", 1))
    hard = stiff(sets.give())
    assert loaded(surface, hard, 1000.0, counts=FEW).amplitude < 1e-9
    # Without bending only the dents are left; they differ with the lever, and so does the load.
    none = [
        replace(m, factor=0.0 * m.factor, ahead=0.0 * m.ahead) for m in (hard.ring, hard.pinion)
    ]
    rigid = replace(sets.give(), ring=none[0], pinion=none[1])
    even = loaded(surface, rigid, 1000.0, counts=FEW)
    line = even.line_load[even.line_load > 0.0]
    assert line.size == 16 * (even.share > 0.0).sum()
    assert line.std() < 0.12 * line.mean()


def test_a_small_load_presses_with_its_third_power_root() -> None:
    # A small contact of two bulged bodies: pressure goes with the cube root of the load (Hertz).
    surface, teeth = sets.usual(), sets.give()
    many = Counts(4, 400)
    one, eight = (loaded(surface, teeth, t, counts=many).peak_pressure for t in (2.0, 16.0))
    assert eight / one == pytest.approx(2.0, rel=0.04)


@pytest.mark.parametrize("name", sets.BLANKS)
def test_whatever_is_asked_settles(name: str) -> None:
    rng = np.random.default_rng(8)
    for side in (1, -1):
        surface, teeth = sets.usual(name, side), sets.give(name, side)
        for _ in range(8):
            moved = Movement(*rng.uniform(-3e-4, 3e-4, 3), rng.uniform(-2e-3, 2e-3))
            seen = loaded(surface, teeth, 10.0 ** rng.uniform(-6.0, 4.5), moved, FEW)
            np.testing.assert_allclose(seen.share.sum(axis=1), 1.0, rtol=1e-6)
            assert seen.share.min() >= 0.0
            assert seen.rounds < 30


@pytest.mark.parametrize("torque", [0.0, -5.0, np.nan])
def test_no_torque_is_refused(torque: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        loaded(sets.usual(), sets.give(), torque)


def test_teeth_of_the_other_flank_are_refused() -> None:
    with pytest.raises(ValueError, match="other flank"):
        loaded(sets.usual(), sets.give(side=-1), 100.0)


# ----------------------------------------------------------------------------- symmetry and trends


def test_mirror_image_does_the_same() -> None:
    right = loaded(sets.usual(), sets.give(), 800.0, MOVED, FEW)
    left = loaded(sets.usual(hand=-1), sets.give(hand=-1), 800.0, MOVED, FEW)
    back = -np.arange(FEW.positions) % FEW.positions  # the mirror image rolls the other way
    np.testing.assert_allclose(left.error[back], right.error, rtol=1e-4)
    assert left.peak_pressure == pytest.approx(right.peak_pressure, rel=1e-3)
    assert left.pattern.center == pytest.approx(right.pattern.center, abs=1e-4)
    np.testing.assert_allclose(
        left.pattern.pressure, right.pattern.pressure, atol=0.01 * right.peak_pressure
    )
    mirror = np.array([1.0, -1.0, 1.0])
    size = np.linalg.norm(right.force.force)
    np.testing.assert_allclose(left.force.force, mirror * right.force.force, atol=1e-4 * size)
    np.testing.assert_allclose(left.force.moment, -mirror * right.force.moment, atol=1e-5 * size)


@pytest.mark.parametrize("side", [1, -1])
def test_more_torque_spreads_the_pattern_and_calms_the_mesh(side: int) -> None:
    surface, teeth = sets.usual(side=side), sets.give(side=side)
    found = [loaded(surface, teeth, t, counts=Counts(16, 24)) for t in (1.0, 20.0, 150.0, 900.0)]
    length = [f.pattern.length for f in found]
    assert (np.diff(length) > 0.05).all()
    assert (np.diff([f.peak_pressure for f in found]) > 0.0).all()
    assert (np.diff([f.error.mean() for f in found]) < 0.0).all()  # the ring lags more
    # Between no load and the torque that the crowning suits, the error gets less.
    assert found[-1].amplitude < 0.6 * found[0].amplitude
    assert found[0].share.max() == pytest.approx(1.0)
    assert found[-1].share.max() < 0.99
    # Held rigidly, the pattern grows about its place: well under a tenth of the face.
    assert abs(found[-1].pattern.center - found[0].pattern.center) < 0.08


def test_root_stress_is_in_proportion_where_the_place_stays() -> None:
    surface, teeth = sets.usual(), sets.give()
    one, ten = (loaded(surface, teeth, t, counts=FEW) for t in (0.5, 1.0))
    assert ten.ring_root.max() == pytest.approx(2.0 * one.ring_root.max(), rel=0.05)
    assert ten.pinion_root.max() > 0.0
    # Full torque on the tip side bends more than near the root: within a factor of a few.
    assert (ten.ring_root >= 0.0).all()


def test_load_at_the_edge_is_said() -> None:
    surface, teeth = sets.usual(), sets.give()
    calm = loaded(surface, teeth, 5.0, counts=FEW)
    assert calm.edges == {}
    assert calm.cautions == ()
    hard = loaded(surface, teeth, 8000.0, counts=FEW)
    assert {"tip", "toe", "heel"} <= set(hard.edges)
    assert hard.edge_pressure.keys() == hard.edges.keys()
    assert any("edge" in c for c in hard.cautions)


def test_movement_toward_an_end_brings_the_load_there() -> None:
    surface, teeth = sets.usual(), sets.give()
    base, out = (
        loaded(surface, teeth, 100.0, m, FEW).pattern.center
        for m in (AT_REST, AT_REST._replace(P=1.5e-4, E=-1.5e-4))
    )
    bare = analyze(surface, AT_REST._replace(P=1.5e-4, E=-1.5e-4)).pattern.center
    assert np.sign(out - base) == np.sign(bare - analyze(surface).pattern.center)


# ------------------------------------------------------------------------------- the loop


def test_force_for_the_supports_keeps_the_torque_and_is_smooth() -> None:
    surface, torque = sets.usual(), 600.0
    force = mesh_force(surface, sets.give(), torque, FEW)
    load = force(*MOVED)
    arm = surface.flank.pair.mean_point
    assert abs((np.cross(arm, load.force) + load.moment)[2]) == pytest.approx(torque, rel=1e-3)
    whole = loaded(surface, sets.give(), torque, MOVED, FEW).force
    np.testing.assert_array_equal(whole.force, load.force)
    again = force(*MOVED)
    np.testing.assert_array_equal(again.force, load.force)
    slope = tangent(force, MOVED)
    step = Movement(1e-6, -2e-6, 1.5e-6, 1e-5)
    after = force(*(a + b for a, b in zip(MOVED, step, strict=True)))
    change = np.concatenate([after.force - load.force, after.moment - load.moment])
    np.testing.assert_allclose(
        change, slope @ np.array(step), atol=0.05 * np.abs(change).max() + 1e-3
    )


def test_soft_supports_let_the_load_wander_to_the_heel() -> None:
    # Each gear on three plain springs; movement and load are brought together step by step.
    surface, spring = sets.usual(), 2e8
    seen = []
    for torque in (100.0, 1000.0):
        force = mesh_force(surface, sets.give(), torque, FEW)
        movement = AT_REST
        for _ in range(12):
            x, y, z = force(*movement).force / spring
            after = Movement(y, x, -z, 0.0)
            change = max(abs(a - b) for a, b in zip(after, movement, strict=True))
            movement = after
        assert change < 1e-9
        assert movement.E < 0.0 < movement.P  # the driven pinion climbs and is thrust out
        held = loaded(surface, sets.give(), torque, counts=FEW).pattern.center
        seen.append(loaded(surface, sets.give(), torque, movement, FEW).pattern.center - held)
    assert 0.0 < seen[0] < seen[1]


def test_a_pair_that_cannot_mesh_says_so_to_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    from axlewright.hypoid.loaded import mesh_force as room

    def trouble(*_: object) -> None:
        raise ArithmeticError("nothing settles")

    monkeypatch.setattr(room, "contact_force", trouble)
    with pytest.raises(mesh.NoToothLoadError, match="settles"):
        mesh_force(sets.usual(), sets.give(), 100.0)(*AT_REST)


# ------------------------------------------------------------------------------- convergence, speed


@pytest.mark.parametrize("torque", [300.0, 2500.0])
def test_more_slices_and_positions_change_little(torque: float) -> None:
    surface, teeth = sets.usual(), sets.give(cells=None)
    usual = loaded(surface, teeth, torque)
    fine = loaded(surface, teeth, torque, counts=Counts(48, 64))
    assert usual.pattern.center == pytest.approx(fine.pattern.center, abs=2e-3)
    assert usual.peak_pressure == pytest.approx(fine.peak_pressure, rel=0.02)
    assert usual.error.mean() == pytest.approx(fine.error.mean(), rel=2e-3)
    assert usual.ring_root.max() == pytest.approx(fine.ring_root.max(), rel=0.01)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "side"), [("9/41", 1), ("9/41", -1), ("13/42", 1), ("bevel", 1)])
def test_finer_bricks_change_little(name: str, side: int) -> None:
    surface = sets.usual(name, side)
    usual, fine = sets.give(name, side, None), sets.give(name, side, Cells(12, 5, 3, 3, 5))
    for torque in (300.0, 2000.0):
        a = loaded(surface, usual, torque)
        b = loaded(surface, fine, torque, counts=Counts(32, 48))
        assert a.pattern.center == pytest.approx(b.pattern.center, abs=0.01)
        assert a.pattern.height == pytest.approx(b.pattern.height, abs=0.01)
        assert a.peak_pressure == pytest.approx(b.peak_pressure, rel=0.03)
        assert a.error.mean() == pytest.approx(b.error.mean(), rel=0.03)
        assert a.ring_root.max() == pytest.approx(b.ring_root.max(), rel=0.03)
        assert a.pinion_root.max() == pytest.approx(b.pinion_root.max(), rel=0.03)


def test_a_loaded_case_takes_a_moment() -> None:
    surface, teeth = sets.usual(), sets.give()
    loaded(surface, teeth, 2000.0)
    started = time.process_time()
    for _ in range(3):
        loaded(surface, teeth, 2000.0)
    # 50 to 60 ms on one core; room for shared machines and for idle threads that count.
    assert (time.process_time() - started) / 3 < 0.6
