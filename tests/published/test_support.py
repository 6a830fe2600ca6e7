"""Pinion shaft held on both sides of the gear, against the closed form for a simple beam."""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.hypoid.support.shaft import Section, Shaft, shaft_stiffness

pytestmark = pytest.mark.published


@pytest.mark.parametrize(("d", "um"), [(0.035, 88.390), (0.040, 51.813), (0.045, 32.346)])
def test_straddled_shaft_as_the_beam_formula_has_it(d: float, um: float) -> None:
    # Closed form F a² b² / (3 E I L): a = 45 mm, b = 90 mm, E = 206 GPa, no shear.
    shaft = Shaft(0.0, (Section(0.135, d),), shear=False)
    K = shaft_stiffness(shaft, [0.045, 0.0, 0.135])
    free = np.setdiff1d(np.arange(15), [5, 6, 7, 11, 12])
    force = np.zeros(15)
    force[1] = 33117.45
    bent = np.linalg.solve(K[np.ix_(free, free)], force[free])
    assert 1e6 * bent[list(free).index(1)] == pytest.approx(um, abs=2e-3)
