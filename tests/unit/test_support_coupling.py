"""Tooth loads that depend on movement: known rests, few calls, plain words where there is none."""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

import numpy as np
import pytest

from axlewright.hypoid.support import equilibrium, mesh
from axlewright.hypoid.support.coupling import MATCH, MOST_CALLS, couple
from axlewright.hypoid.support.mesh import NoToothLoadError, ToothLoad
from axlewright.hypoid.support.opening import opening_rates

TESTS = str(Path(__file__).resolve().parents[1])
if TESTS not in sys.path:
    sys.path.insert(0, TESTS)
cars = importlib.import_module("reference_support")

NOISE = np.random.default_rng(7)
TORQUE = {"large": 1000.0, "small": 400.0}
WANDER = np.array([[0.9, -1.3, 0.4, 0.1], [0.3, 0.8, -1.1, -0.1], [-0.7, 0.5, 0.6, 0.2]])


class Springy:
    """Teeth whose rest is known: their load is right just where the support then stands.

    ``stiff`` (N/m) acts along the flank's normal and stops where the flanks part; ``wander`` is
    the share by which force and moment change direction and place, like a contact that wanders.
    """

    def __init__(self, housed, name, side, stiff=0.0, wander=0.0, parts=False, noise=0.0):
        self.base = cars.load(TORQUE[name], side, name)
        rest = housed.rest(mesh.steady(self.base))
        self.rest = np.array(housed.movement(rest))
        self.normal = opening_rates(cars.pair(name), cars.ALPHA, side)
        self.size = float(np.linalg.norm(self.base.force))
        self.stiff, self.wander, self.parts, self.noise = stiff, wander, parts, noise
        self.calls = 0

    def __call__(self, *movement):
        self.calls += 1
        off = np.array(movement) - self.rest
        share = 1.0 - self.stiff * float(self.normal @ off) / self.size
        share = max(share, 0.0) if self.parts else share
        share *= 1.0 + self.noise * NOISE.uniform(-1.0, 1.0)
        way = np.tanh(WANDER @ off / 400e-6)
        return ToothLoad(
            share * self.base.force + self.wander * self.size * way,
            0.03 * self.wander * self.size * np.roll(way, 1),
        )


def far(housed, rest, teeth):
    return cars.apart(housed.movement(rest), mesh.Movement(*teeth.rest))


KINDS = {
    "wanders": ({"wander": 0.1}, 10),
    "wanders far": ({"wander": 0.2}, 16),
    "soft": ({"stiff": 1e8, "wander": 0.1}, 10),
    "stiff": ({"stiff": 5e8, "wander": 0.1}, 14),
    "stiff and parts": ({"stiff": 5e8, "wander": 0.1, "parts": True}, 30),
    "very stiff and parts": ({"stiff": 3e9, "wander": 0.1, "parts": True}, 200),
}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("name", "straddle"), cars.LAYOUTS)
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_known_rest_is_found_with_few_calls(kind, name, straddle, side):
    housed = cars.housed(name, straddle)
    options, most = KINDS[kind]
    teeth = Springy(housed, name, side, **options)
    rest = housed.rest(teeth)
    assert rest.mismatch <= MATCH
    assert rest.calls == teeth.calls <= most
    assert far(housed, rest, teeth) < 4.0 * MATCH
    # Force and springs are in balance, whatever the mismatch of the movement.
    assert rest.residual <= 1e-9


def test_steady_load_takes_two_calls():
    housed = cars.housed()
    teeth = Springy(housed, "large", 1.0)
    rest = housed.rest(teeth)
    assert teeth.calls == 2
    assert far(housed, rest, teeth) < 1e-12


def test_march_learns_the_slope():
    housed = cars.housed()
    full = Springy(housed, "large", 1.0, wander=0.1)
    alone, along, before = 0, 0, None
    for share in np.linspace(0.05, 1.0, 20):
        teeth = mesh.weaker(full, float(share))
        full.calls = 0
        fresh = housed.rest(teeth)
        alone += full.calls
        full.calls = 0
        before = housed.rest(teeth, before)
        along += full.calls
        assert cars.apart(housed.movement(before), housed.movement(fresh)) < 4.0 * MATCH
    assert along <= 4.5 * 20
    assert along < alone


def test_a_little_noise_does_no_harm():
    # A contact solved to a part in 100,000 leaves about that much of the movement uncertain.
    housed = cars.housed()
    teeth = Springy(housed, "large", 1.0, stiff=1e8, wander=0.1, noise=1e-5)
    rest = housed.rest(teeth)
    assert rest.calls <= 16
    assert far(housed, rest, teeth) < 10.0 * MATCH


def test_where_teeth_have_no_answer_the_step_is_shortened():
    housed = cars.housed()
    inner = Springy(housed, "large", 1.0, stiff=3e8, wander=0.1)
    refused = []

    def teeth(*movement):
        if np.abs(movement[:3]).max() > 1.3 * np.abs(inner.rest[:3]).max():
            refused.append(movement)
            raise NoToothLoadError("flanks lie too far apart")
        return inner(*movement)

    rest = housed.rest(teeth)
    assert far(housed, rest, inner) < 4.0 * MATCH
    assert refused
    assert rest.calls == inner.calls + len(refused) <= 40


def test_teeth_with_no_answer_nearby_are_said_in_words():
    housed = cars.housed()

    def teeth(*movement):
        if movement != (0.0, 0.0, 0.0, 0.0):
            raise NoToothLoadError("flanks lie too far apart")
        return cars.load(1000.0)

    with pytest.raises(equilibrium.NoRestError, match=r"no answer close to E 0\.0.*too far apart"):
        housed.rest(teeth)


def test_a_load_beyond_all_measure_is_put_on_in_stages():
    # At the start these teeth press with some 100 MN, which no support finds a rest for.
    housed = cars.housed()
    inner = Springy(housed, "large", 1.0)

    def teeth(*movement):
        x = float(inner.normal @ (np.array(movement) - inner.rest))
        share = max(1.0 - (5e8 * x + 1e18 * x**3) / inner.size, 0.0)
        return ToothLoad(share * inner.base.force, inner.base.moment)

    rest = housed.rest(teeth)
    assert far(housed, rest, inner) < 4.0 * MATCH
    assert rest.calls < 200


def test_no_rest_is_said_in_words():
    housed = cars.housed()

    def runs_away(E, P, G, sigma):
        load = cars.load(1000.0)
        return ToothLoad(load.force * (1.0 + 30.0 * abs(E) / 400e-6), load.moment)

    with pytest.raises(equilibrium.NoRestError, match="stages") as caught:
        housed.rest(runs_away)
    assert "µm" in str(caught.value)


def test_a_load_that_is_no_number_is_refused():
    housed = cars.housed()
    nothing = ToothLoad(np.full(3, np.nan), np.zeros(3))
    with pytest.raises(equilibrium.NoRestError, match=r"no number at E 0\.0"):
        housed.rest(mesh.steady(nothing))


def test_search_alone_ends_and_says_how_far_it_came():
    # Support that answers at random agrees with nothing.
    random = np.random.default_rng(1)
    calls = []

    def support(load):
        at = random.normal(size=4) * 1e-4
        from axlewright.hypoid.support.coupling import Given

        return Given(at, np.zeros((4, 6)), at, np.eye(4), 0.0)

    def teeth(*movement):
        calls.append(movement)
        return cars.load(100.0)

    with pytest.raises(equilibrium.NoRestError, match=f"after {MOST_CALLS} tries"):
        couple(support, teeth, np.zeros(4))
    assert len(calls) == MOST_CALLS
