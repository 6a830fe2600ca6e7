"""The support of the gear pair: shafts, rollers, rest under load."""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.hypoid.geometry import pitch_cones
from axlewright.hypoid.support import case, contributions, equilibrium, layout, mesh
from axlewright.hypoid.support.shaft import Section, Shaft, shaft_stiffness

SIZE = layout.BearingSize


def _housed(pilot=None, metal="gray"):
    cones = pitch_cones(9.0, 41.0, 0.2413, 0.035, 0.0381, np.radians(48.0), 0.09525, 0.5 * np.pi)
    pair = mesh.mesh_of(cones, 0.0381)
    sizes = layout.Sizes(
        0.0362, 0.0965, 0.04, SIZE(0.045, 0.1, 0.0383, 0.35), SIZE(0.035, 0.08, 0.0328),
        SIZE(0.05, 0.09, 0.025, 0.27), 0.15, 0.3, 0.014, 5e3, 4e3, pilot,
    )  # fmt: skip
    system = layout.support(pair, sizes, case.CLASSES["integral"], case.METALS[metal])
    return equilibrium.house(system), mesh.tooth_load(pair, 1000.0, np.radians(20.0), 1.0)


def test_pilot_cuts_climb_and_shares_add_up():
    housed, load = _housed()
    pilot = layout.Pilot(0.025, 0.052, 0.018, 20e-6, 0.032)
    straddled, _ = _housed(pilot)
    rest = housed.rest(mesh.steady(load))
    moved = housed.movement(rest)
    assert rest.residual <= 1e-6
    assert moved.E < 0.0 < moved.P
    other = straddled.movement(straddled.rest(mesh.steady(load)))
    assert abs(other.E) < 0.6 * abs(moved.E)
    total = np.sum(list(contributions.contributions(housed, rest).values()), axis=0)
    np.testing.assert_allclose(total, moved, rtol=1e-9)
    np.testing.assert_allclose(rest.stiffness, rest.stiffness.T, rtol=1e-9, atol=1.0)


@pytest.mark.parametrize(("d", "um"), [(0.035, 198.877), (0.040, 116.578), (0.045, 72.779)])
def test_overhung_shaft_as_the_beam_formula_has_it(d, um):
    shaft = Shaft(0.0, (Section(0.135, d),), shear=False)
    K = shaft_stiffness(shaft, [0.0, 0.045, 0.135])
    free = np.setdiff1d(np.arange(15), [0, 5, 6, 7, 11, 12])
    free = np.union1d(free, [0])
    force = np.zeros(15)
    force[1] = 33117.45
    bent = np.linalg.solve(K[np.ix_(free, free)], force[free])
    assert 1e6 * bent[list(free).index(1)] == pytest.approx(um, abs=2e-3)
