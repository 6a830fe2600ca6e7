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


class Wedged(NamedTuple):
    """Gives of a wedge's flank, per newton a meter: under a strip on the ``face``; under the same
    spread level through the thickness at the strip's own ``height``; the same where the force's
    line meets the ``middle``; ``half`` the thickness square to the flank."""

    face: float
    height: float
    middle: float
    half: float


def wedge(tip: float, at: float, half_width: float, cells: int = 6) -> Wedged:
    """A tooth in section, one high, one thick at its held foot and ``tip`` at its top, pressed
    square to its flank ``at`` a height."""
    step = half_width / cells
    n = int(np.ceil(_STRIP * cells))
    near = at + step * np.arange(-n, n + 1)
    y = np.concatenate([graded(near[0], 0.0, step)[:0:-1], near, graded(near[-1], 1.0, step)[1:]])
    mesh = MeshTri.init_tensor(graded(0.0, 1.0, step), y)
    lean = 0.5 * (1.0 - tip)
    points = mesh.p.copy()
    points[0] = lean * points[1] + points[0] * (1.0 - 2.0 * lean * points[1])
    mesh = MeshTri(points, mesh.t)
    element = ElementVector(ElementTriP2())
    basis = Basis(mesh, element, intorder=4)
    face = FacetBasis(
        mesh, element, intorder=6,
        facets=mesh.facets_satisfying(
            lambda x: np.abs(x[0] - lean * x[1]) < 1e-9, boundaries_only=True
        ),
    )  # fmt: skip
    stiffness = linear_elasticity(*lame_parameters(YOUNGS, POISSON)).assemble(basis)
    held = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-12)
    cos = 1.0 / np.hypot(1.0, lean)
    way = np.array([cos, -lean * cos])
    meets = at - (0.5 - lean * at) * lean

    def answer(where: FacetBasis | Basis, center: float) -> tuple[Array, Array]:
        def strip(v, w):
            off = (w.x[1] - center) / (half_width * cos)
            return (way[0] * v[0] + way[1] * v[1]) * np.sqrt(np.maximum(1.0 - off * off, 0.0))

        load = LinearForm(strip).assemble(where)
        whole = load[basis.nodal_dofs[0]].sum() + load[basis.facet_dofs[0]].sum()
        load = load / (whole / way[0])
        return load, solved(*condense(stiffness, load, D=held))

    _, moved = answer(face, at)
    node = np.argmin(np.hypot(mesh.p[0] - lean * at, mesh.p[1] - at))
    spread = [float(f @ u) for f, u in (answer(basis, at), answer(basis, meets))]
    return Wedged(
        float(way @ moved[basis.nodal_dofs[:, node]]), *spread, 0.5 * (1.0 - 2.0 * lean * at) * cos
    )
