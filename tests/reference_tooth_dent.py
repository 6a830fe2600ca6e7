"""Is a dent counted twice?  A plate in section (plane strain) by finite elements of scikit-fem.

The same plate, held at its foot, is loaded twice by Hertz's pressure over a narrow strip: on its
face, and spread evenly through its thickness.  What the face gives under the first beyond the mean
under the second is what a dent's formula has to add, no more and no less.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from skfem import Basis, ElementTriP2, ElementVector, FacetBasis, LinearForm, MeshTri, condense
from skfem import solve as solved
from skfem.models.elasticity import lame_parameters, linear_elasticity

from reference_tooth_fe import POISSON, YOUNGS

Array = NDArray[np.float64]
GROWTH = 1.15
_STRIP = 1.2


class Given(NamedTuple):
    """Per newton a meter: ``face`` under a strip on the face, ``spread`` under the same through
    the thickness (mean of the strip and the thickness)."""

    face: float
    spread: float


def graded(start: float, end: float, first: float) -> Array:
    """Places from start to end whose steps grow."""
    steps = [first]
    while sum(steps) < abs(end - start):
        steps.append(steps[-1] * GROWTH)
    places = np.concatenate([[0.0], np.cumsum(steps)])
    return start + (end - start) * places / places[-1]


def plate(height: float, at: float, half_width: float, cells: int = 8) -> Given:
    """A plate one thick and ``height`` high, pressed at ``at`` over ``half_width`` to both sides.

    ``cells`` are in half the strip.
    """
    step = half_width / cells
    n = int(np.ceil(_STRIP * cells))
    near = at + step * np.arange(-n, n + 1)
    near = near[near < height + 0.5 * step]
    y = np.concatenate([graded(near[0], 0.0, step)[:0:-1], near])
    if height - near[-1] > 0.5 * step:
        y = np.concatenate([y, graded(near[-1], height, step)[1:]])
    mesh = MeshTri.init_tensor(graded(0.0, 1.0, step), y)
    element = ElementVector(ElementTriP2())
    basis = Basis(mesh, element, intorder=4)
    face = FacetBasis(
        mesh, element, facets=mesh.facets_satisfying(lambda x: np.abs(x[0]) < 1e-12), intorder=6
    )
    stiffness = linear_elasticity(*lame_parameters(YOUNGS, POISSON)).assemble(basis)
    held = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-12)

    def strip(v, w):
        return v[0] * np.sqrt(np.maximum(1.0 - ((w.x[1] - at) / half_width) ** 2, 0.0))

    form = LinearForm(strip)
    loads = [form.assemble(b) for b in (face, basis)]
    loads = [f / f.sum() for f in loads]
    moved = [solved(*condense(stiffness, f, D=held)) for f in loads]
    middle = basis.nodal_dofs[0][np.argmin(np.hypot(mesh.p[0], mesh.p[1] - at))]
    return Given(float(moved[0][middle]), float(loads[1] @ moved[1]))
